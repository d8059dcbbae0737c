"""A pack's ZIP or its page.html, opened again: a stranger's file, of which nothing is trusted and nothing is run.

Nothing of it is written anywhere under a name of its own: of a ZIP at most four members are read, each up to a limit,
and of a page the one element that holds the plan. What they say is then read as if a page had sent it.
"""

from __future__ import annotations

import re
import struct
import zipfile
import zlib
from base64 import b64decode
from contextlib import suppress
from pathlib import Path
from typing import Any

from sonify.data.plan import class_facts
from sonify.errors import SonifyError
from sonify.inputs.sound_file import LARGEST_BYTES
from sonify.inputs.sound_shape import MOST_SOUNDS
from sonify.page.document import LIMIT_BYTES
from sonify.records.fact import fact, wrong
from sonify.records.sendable import ELEMENT, FORM, packed
from sonify.say import say
from sonify.web import drafts
from sonify.web.desk import Desk
from sonify.web.http import parsed
from sonify.web.inputs import LONGEST_NAME, MOST_CSV, MOST_TEXT, Inputs, digest, file_name, read_inputs
from sonify.web.reading import class_sentences, scene_sentences
from sonify.web.recordings import plain_sound

#: What a ZIP's list of contents may take; a pack has some sixty members.
MOST_LISTED, MOST_LIST = 2_000, 1_000_000
_END, _END64 = b"PK\x05\x06", b"PK\x06\x07"
_BEGUN = f'<script type="application/json" id="{ELEMENT}">'.encode()
_PAGE = re.compile(r"(?:[^/\\]+/)?page\.html")
_TOML = re.compile(r"[^/\\]+\.toml")
_SPOILT = (zipfile.BadZipFile, zlib.error, struct.error, EOFError, NotImplementedError, RuntimeError, LookupError)


class NoPack(SonifyError):
    """A file out of which no plan can be read."""


def opened(desk: Desk, path: Path, name: str, *, home: bool) -> dict[str, Any]:
    """What a page takes over of a file that was sent. Raises SonifyError where there is no plan in it.

    home: for a browser of this machine, which alone has recordings: for any other the plan's stand-ins play.
    """
    file = file_name({"file": name}, "pack.zip")
    try:
        with path.open("rb") as sent:
            zipped = sent.read(2) == b"PK"
        plan = _zipped(path, file) if zipped else _paged(_bytes_of(path, file), file)
    except SonifyError:
        raise
    except (*_SPOILT, OSError, ValueError):  # whatever a library says of spoilt bytes
        raise _none(file, "error_web-open-spoilt") from None
    return _taken(desk, plan, _heard(desk, plan) if home else {}, file)


def _none(file: str, why: str) -> NoPack:
    return NoPack(wrong("error_web-open", file=file, why=wrong(why)))


def _bytes_of(path: Path, file: str) -> bytes:
    with path.open("rb") as page:
        data = page.read(LIMIT_BYTES + 1)
    if len(data) > LIMIT_BYTES:
        raise _none(file, "error_web-open-large")
    return data


def _paged(data: bytes, file: str) -> dict[str, Any]:
    """The plan that a page carries."""
    at = data.find(_BEGUN)
    if at < 0:
        raise _none(file, "error_web-open-nothing")
    at += len(_BEGUN)
    try:
        found = parsed(data[at : data.index(b"</script>", at)])
    except SonifyError:
        found = None
    if not isinstance(found, dict) or found.get("sonify") != "plan":
        raise _none(file, "error_web-open-spoilt")
    if found.get("form") != FORM:
        raise _none(file, "error_web-open-newer")
    return found


def _zipped(path: Path, file: str) -> dict[str, Any]:
    """The plan of a pack's ZIP: as its page carries it, or as the scene and class files that lie beside the pack."""
    _check_list(path, file)
    with zipfile.ZipFile(path) as archive:
        held = {member.filename: member for member in archive.infolist()}
        if len(held) > MOST_LISTED:
            raise _none(file, "error_web-open-large")
        pages = [name for name in held if _PAGE.fullmatch(name)]
        try:
            plan = _paged(_read(archive, held[pages[0]], LIMIT_BYTES, file), file) if pages else {}
        except NoPack:
            plan = {}  # an older pack
        if not plan:
            plan = _beside(archive, held, file)
        if plan.get("readings") is None:
            plan = {**plan, "readings": _readings(archive, held, plan, file)}
        if not plan.get("recordings"):
            plan = {**plan, "lying": _recordings(archive, held, plan, file)}
        return plan


def _check_list(path: Path, file: str) -> None:
    """Refuse a list of contents that would take much memory to read, before anything reads it."""
    size = path.stat().st_size
    with path.open("rb") as sent:
        sent.seek(max(0, size - 66_000))  # a comment may follow it
        tail = sent.read()
    at = tail.rfind(_END)
    if at < 0 or len(tail) < at + 22:
        raise _none(file, "error_web-open-spoilt")
    entries, length = struct.unpack("<HI", tail[at + 10 : at + 16])
    if entries > MOST_LISTED or length > MOST_LIST or _END64 in tail[max(0, at - 20) : at]:
        raise _none(file, "error_web-open-large")


def _read(archive: zipfile.ZipFile, member: zipfile.ZipInfo, most: int, file: str) -> bytes:
    """A member of an archive, at most so long, whatever its header says of its length."""
    if member.flag_bits & 1:
        raise _none(file, "error_web-open-locked")
    if member.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise _none(file, "error_web-open-spoilt")
    with archive.open(member) as opened_member:
        data = opened_member.read(most + 1)
    if len(data) > most:
        raise _none(file, "error_web-open-large")
    return data


def _text(data: bytes) -> str:
    return data.decode("utf-8-sig").replace("\r\n", "\n")


def _beside(archive: zipfile.ZipFile, held: dict[str, zipfile.ZipInfo], file: str) -> dict[str, Any]:
    scenes = [name for name in held if _TOML.fullmatch(name) and name != "class.toml"]
    if len(scenes) != 1:
        raise _none(file, "error_web-open-nothing")
    scene, *_ = scenes
    plan: dict[str, Any] = {"scene": {"text": _text(_read(archive, held[scene], MOST_TEXT, file)), "file": scene}}
    if "class.toml" in held:
        plan["class"] = {"text": _text(_read(archive, held["class.toml"], MOST_TEXT, file)), "file": "class.toml"}
    return plan


def _readings(
    archive: zipfile.ZipFile, held: dict[str, zipfile.ZipInfo], plan: dict[str, Any], file: str
) -> str | None:
    """The table that the scene of a plan plays, where it lies beside the pack."""
    scene = plan.get("scene")
    text = scene.get("text") if isinstance(scene, dict) else None
    if not isinstance(text, str) or len(text) > MOST_TEXT:
        return None
    name, _ = drafts.readings_named(text, file=file)
    return packed(_read(archive, held[name], MOST_CSV, file)) if name in held else None


def _recordings(
    archive: zipfile.ZipFile, held: dict[str, zipfile.ZipInfo], plan: dict[str, Any], file: str
) -> dict[str, bytes]:
    """The sound files that lie beside the pack, by their names."""
    named = plan.get("sounds")
    names = [*named] if isinstance(named, dict) else []
    scene = plan.get("scene")
    text = scene.get("text") if isinstance(scene, dict) else None
    if isinstance(text, str) and len(text) <= MOST_TEXT:
        names += drafts.sound_files(text, file=file)
    return {name: _read(archive, held[name], LARGEST_BYTES, file) for name in names[:MOST_SOUNDS] if name in held}


def _heard(desk: Desk, plan: dict[str, Any]) -> dict[str, str]:
    """The recordings of a stranger's file, each read anew and held under its own key, by the names of their files.

    What cannot be read is left out: its stand-in plays, and the plan says so.
    """
    named, carried, lying = (plan.get(key) for key in ("sounds", "recordings", "lying"))
    found: dict[str, Any] = {}
    if isinstance(named, dict) and isinstance(carried, dict):
        for name, key in [*named.items()][:MOST_SOUNDS]:
            if isinstance(key, str) and isinstance(sent := carried.get(key), str) and len(sent) <= 2 * LARGEST_BYTES:
                with suppress(ValueError):
                    found[str(name)] = b64decode(sent, validate=True)
    elif isinstance(lying, dict):
        found = lying
    keys: dict[str, str] = {}
    for name, data in found.items():
        if not isinstance(data, bytes):  # a page may say anything
            continue
        with suppress(SonifyError):
            keys[name[:LONGEST_NAME]] = desk.recordings.add(plain_sound(data, file_name({"file": name}, "sound.wav")))
    return keys


# --- what is taken over ----------------------------------------------------------------------------------------------


def _taken(desk: Desk, plan: dict[str, Any], sounds: dict[str, str], file: str) -> dict[str, Any]:
    """The plan as the page's own inputs, read and checked like any that a page sends."""
    given = plan.get("scene")
    if not isinstance(given, dict) or not isinstance(given.get("text"), str):
        raise _none(file, "error_web-open-nothing")
    readings = plan.get("readings")
    if readings is not None and not isinstance(readings, str):
        raise _none(file, "error_web-open-spoilt")
    room = plan.get("class")
    own = {"text": given["text"], "file": given.get("file", "scene.toml")}
    shipped = _is_shipped(given)
    inputs = read_inputs(
        {
            "scene": {"name": given["name"]} if shipped else {**own, **({} if readings is None else {"csv": readings})},
            **{key: plan.get(key) for key in ("set", "rules", "drawn", "edits")},
            "sounds": sounds,
            "class": room if isinstance(room, dict) else None,
            "scaffold": plan.get("scaffold", "full"),
            "seed": plan.get("seed", 0),
        }
    )
    draft, (classroom, _) = desk.draft(inputs), desk.classroom(inputs)
    told = [say(fact("server-opened", file=file)), *scene_sentences(draft.scene), *class_sentences(classroom)]
    return {
        "inputs": {**inputs.as_sent(), "class": _class_shown(inputs, class_facts(classroom))},
        "readings": None if shipped else readings,
        "understood": told,
    }


def _class_shown(inputs: Inputs, facts: dict[str, Any]) -> dict[str, Any] | None:
    return {**(inputs.as_sent()["class"]), "facts": facts} if inputs.class_text is not None else None


def _is_shipped(given: dict[str, Any]) -> bool:
    """Whether a scene is the ready-made one of its name, word for word as this program has it."""
    name = given.get("name")
    if not isinstance(name, str) or not drafts.is_shipped(name):
        return False
    return digest(given["text"]) == digest(drafts.shipped_scene_text(name).removeprefix("\ufeff").replace("\r\n", "\n"))
