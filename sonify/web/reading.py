"""A file that was dropped on the page: a scene, a class or a file of readings, read and told what was understood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from sonify import lesson
from sonify.data.plan import class_facts, finding_row
from sonify.kinds.experiments import ROLES
from sonify.records.classroom import Classroom
from sonify.records.experiment import Roles
from sonify.records.fact import Duration, fact, wrong
from sonify.records.findings import Finding
from sonify.records.scene import Scene
from sonify.say import say
from sonify.web import drafts
from sonify.web.desk import Desk
from sonify.web.inputs import MOST_CSV, MOST_TEXT, file_name, read_inputs, readings_bytes, refuse, table_at, text_at


def read_given(desk: Desk, kind: str, given: Mapping[str, Any]) -> dict[str, Any]:
    """What a page takes over of a file. Raises SonifyError where nothing can be made of it."""
    if kind == "role":
        return _corrected(desk, given)
    if kind == "curve":
        return _redrawn(desk, given)
    if kind == "start":
        return _begun(desk, text_at(given, "process", 100))
    if kind == "csv":
        return _readings(desk, text_at(given, "text", MOST_CSV), file_name(given, "readings.csv"))
    text = text_at(given, "text", MOST_TEXT)
    if kind == "class":
        file = file_name(given, "class.toml")
        made = drafts.class_of(text, file=file)
        taken = {"class": {"text": text, "file": file}}
        return _answer(taken, class_sentences(made), text, facts=class_facts(made))
    if kind != "scene":
        refuse(wrong("error_web-kind"), "kind")
    scene = {"text": text, "file": file_name(given, "scene.toml")}
    for name in ("csv", "csv_key"):
        if given.get(name) is not None:
            scene[name] = text_at(given, name, MOST_CSV)
    inputs = read_inputs({"scene": scene})
    read, _ = desk.base(inputs)
    taken = {"scene": {"text": text, "file": inputs.file, **({"csv_key": inputs.csv_key} if inputs.csv_key else {})}}
    return _answer(taken, scene_sentences(read), text, read.table.findings if read.table else ())


def _readings(desk: Desk, sent: str, file: str, roles: Roles | None = None) -> dict[str, Any]:
    made, scene = drafts.measured_scene(readings_bytes(sent), file=file, roles=roles)
    key = desk.keep(sent)
    desk.took(key, scene)
    taken = {"scene": {"text": made.text, "file": f"{scene.name}.toml", "csv_key": key}}
    told = [say(each) for each in made.understood]
    return {**_answer(taken, told, made.text, made.noticed), "csv_key": key, "data_file": scene.data}


def _begun(desk: Desk, process: str) -> dict[str, Any]:
    """A commented scene to start from, as `sonify new` writes it, with the readings that it plays."""
    name = f"my-{process}"
    made, scene = drafts.started_scene(name, process)
    taken: dict[str, Any] = {"text": made.text, "file": f"{name}.toml"}
    if made.readings:
        taken["csv_key"] = desk.keep(made.readings)
    return {**_answer({"scene": taken}, scene_sentences(scene), made.text), "readings": made.readings or None}


def _corrected(desk: Desk, given: Mapping[str, Any]) -> dict[str, Any]:
    """A class's table once a person has said what one of its columns is, or which of the file's tables she means."""
    inputs = read_inputs({"scene": given.get("scene")})
    scene, _ = desk.base(inputs)
    data = desk.data(inputs)
    found = drafts.table_seen(scene, data)
    if found is None or scene.roles is None:
        refuse(wrong("error_web-no-columns"), "scene")
    if given.get("sheet") is not None:
        roles = Roles(sheet=text_at(given, "sheet", 200))
    elif given.get("name") is not None:
        name = " ".join(text_at(given, "name", 60).split())
        named = drafts.renamed(found[0], scene.roles, name) if name else None
        if named is None:
            refuse(wrong("error_web-own-name"), "name")
        roles = named
    else:
        column, role = text_at(given, "column", 1000), text_at(given, "role", 20)
        if role not in ROLES or column not in [each.label for each in found[0].columns]:
            refuse(wrong("error_web-role", allowed=", ".join(ROLES)), "column")
        roles = drafts.corrected(found[0], scene.roles, column, role)
    if inputs.name:  # what comes of a ready-made scene's table is a scene of her own, under the same title
        sent = data.decode("utf-8-sig")
        return {**_readings(desk, sent, scene.data, replace(roles, title=scene.title)), "readings": sent}
    sent = inputs.csv if inputs.csv is not None else desk.csv(inputs.csv_key)
    return _readings(desk, sent, scene.data, roles)


def _redrawn(desk: Desk, given: Mapping[str, Any]) -> dict[str, Any]:
    """The scene, its edits in its text, with a drawn curve more, another name for one, or one less."""
    how = table_at(given, "curve")
    numbers = [how[key] for key in ("rename", "remove") if key in how]
    if len({"add", "rename", "remove"} & set(how)) != 1 or not all(type(number) is int for number in numbers):
        refuse(wrong("error_web-curve"), "drawn")
    inputs = read_inputs({**given, "sounds": None})  # nothing is played of it
    draft = desk.draft(inputs)
    text = drafts.redrawn(draft, how, file=inputs.scene_file)
    return _answer({"scene": {"text": text, "file": inputs.scene_file}}, scene_sentences(draft.scene), text)


def _answer(
    taken: dict[str, Any],
    understood: list[str],
    text: str,
    findings: tuple[Finding, ...] = (),
    facts: dict[str, Any] | None = None,
) -> dict[str, Any]:
    return {
        "inputs": taken,
        "understood": understood,
        "toml": text,
        "findings": [finding_row(finding) for finding in findings],
        **({"class": facts} if facts is not None else {}),
    }


def class_sentences(classroom: Classroom) -> list[str]:
    """A class in words."""
    rows = lesson.catalogue().with_own(classroom.own)
    held = [f"{stock.count} {rows[stock.instrument].of(stock.count)}" for stock in classroom.cupboard]
    counts = {"year": classroom.year, "pupils": classroom.pupils, "groups": classroom.groups}
    said = [say(fact("server-class", minutes=classroom.minutes, **counts))]
    said.append(say(fact("server-cupboard", held=", ".join(held)) if held else fact("server-no-cupboard")))
    needs = classroom.every_need
    return said + ([say(fact("server-needs", needs=", ".join(needs)))] if needs else [])


def scene_sentences(scene: Scene) -> list[str]:
    """A scene in words."""
    youngest, oldest = scene.ages
    length = Duration(seconds=scene.music.length_s, given="set in the scene")
    return [
        say(fact("server-scene", title=scene.title, process=scene.process, youngest=youngest, oldest=oldest)),
        say(fact("server-scene-size", rules=len(scene.rules), parts=len(scene.parts), length=length)),
    ]
