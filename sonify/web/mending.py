"""What would mend a part that a class cannot play: changes of the plan, each tried on this piece first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from sonify import lesson
from sonify.errors import SonifyError
from sonify.inputs.scene_edits import PART
from sonify.kinds.lines import LINES
from sonify.kinds.textures import TEXTURES
from sonify.records.fact import Fact, fact, wrong
from sonify.records.scene import STAGES_ALL, PartPlan
from sonify.records.score import Part
from sonify.say import say
from sonify.web.desk import Desk, Study
from sonify.web.inputs import Inputs, refuse

#: So many ways are offered, and so many tried: each takes a fifth of a second.
MOST_OFFERED, MOST_TRIED = 3, 12
MOST_GROUPS, MOST_OTHERS = 12, 3

#: A way: what it says, the part's keys set anew, the class's values set anew.
Way = tuple[Fact, dict[str, Any], dict[str, Any]]


def mends(desk: Desk, inputs: Inputs, part: str) -> list[dict[str, Any]]:
    """What mends a part, the nearest to the scene first. part: as the page knows it, "2" or "new-1"."""
    study = desk.study(inputs)
    plan = next((plan for plan in study.draft.scene.parts if study.draft.rows.which(plan.key) == part), None)
    if plan is None:
        refuse(wrong("error_edits-unknown", path=f"part.{part}"[:60]), "part")
    before, total = _problems(study, plan), len(study.lesson.problems)
    found: list[dict[str, Any]] = []
    for words, keys, room in list(_ways(study, plan))[:MOST_TRIED]:
        tried = replace(inputs, edits=_with(inputs, part, keys), class_values={**inputs.class_values, **room})
        try:
            made = desk.tried(tried)
        except SonifyError:
            continue
        silent = keys.get("silent") is True
        if (_problems(made, plan) < before or silent) and len(made.lesson.problems) < max(total, 1):
            # What differs alone: the page puts it among the edits that it has by then.
            edits = {f"{PART}.{part}.{key}": value for key, value in keys.items()}
            found.append({"words": say(words), "edits": edits, **({"class": room} if room else {})})
        if len(found) == MOST_OFFERED or desk.is_closing:
            break
    return found


def _problems(study: Study, plan: PartPlan) -> int:
    """How much of a part cannot be played as it is; one where nobody plays it at all."""
    names = {part.name for part in _played(study, plan)}
    return sum(each.part in {plan.name, *names} for each in study.lesson.problems) + (not names)


def _played(study: Study, plan: PartPlan) -> list[Part]:
    """The parts of the piece that are one of the scene's."""
    scene = study.lesson.scene
    return [part for part in study.lesson.score.group_parts if scene.plan_name(part.name) == plan.name]


def _other_groups(study: Study, plan: PartPlan) -> Iterator[Way]:
    """The part given to another group, first to those that play least of what sounds together with it."""
    scene, score = study.lesson.scene, study.lesson.score
    stages = {section.name for section in score.sections}
    own = stages if plan.stages == STAGES_ALL else {*plan.stages}
    load: dict[int, int] = {}
    for part in score.group_parts:
        other = next((each for each in scene.parts if each.name == scene.plan_name(part.name)), None)
        busy = own & (stages if other is None or other.stages == STAGES_ALL else {*other.stages})
        load[part.group] = load.get(part.group, 0) + (0 if part.pulse else len(busy))
    others = sorted((group for group in load if group not in plan.groups), key=lambda group: (load[group], group))
    for group in others[:MOST_OTHERS]:
        yield fact("server-mend-group", part=plan.name, group=group), {"groups": [group]}, {}


def _with(inputs: Inputs, part: str, keys: dict[str, Any]) -> dict[str, Any]:
    edits = dict(inputs.edits)
    whole = edits.get(f"{PART}.{part}")
    if isinstance(whole, dict):
        edits[f"{PART}.{part}"] = {**whole, **keys}
    else:
        edits |= {f"{PART}.{part}.{key}": value for key, value in keys.items()}
    return edits


def _ways(study: Study, plan: PartPlan) -> Iterator[Way]:
    """One more group, another one, an easier line, another instrument of the cupboard, another way to move, silence."""
    room = study.lesson.classroom
    rows = lesson.catalogue().with_own(room.own)
    played = _played(study, plan)
    main = {part.instrument for part in played}
    if not played and room.groups < min(MOST_GROUPS, room.pupils):
        yield fact("server-mend-groups", groups=room.groups + 1), {}, {"groups": room.groups + 1}
    if plan.groups:
        yield fact("server-mend-dealt", part=plan.name), {"groups": None}, {}
        yield from _other_groups(study, plan)
    level = plan.line or (played[0].difficulty if played else "")
    if level in LINES[1:]:
        yield fact("server-mend-line", part=plan.name), {"line": LINES[LINES.index(level) - 1]}, {}
    stock = {each.instrument for each in room.cupboard if each.count} - main
    fits = [row for row in rows.instruments if row.id in stock and not row.own and plan.texture in row.textures]
    named = {name for row in rows.instruments for name in row.names()}
    asked = [rows.find(sound).id for sound in plan.sounds if sound.lower() in named]
    fits.sort(key=lambda row: asked.index(row.id) if row.id in asked else len(asked))
    for row in fits[:5]:
        sounds = [row.name.lower(), *(sound for sound in plan.sounds if sound.lower() not in row.names())]
        yield fact("server-mend-sound", part=plan.name, instrument=row.called), {"sounds": sounds[:20]}, {}
    suited = [texture for texture in TEXTURES if all(texture in rows[name].textures for name in main if name in asked)]
    for texture in suited:
        if texture != plan.texture and main and not (plan.on_beat or plan.even):
            yield fact("server-mend-texture", part=plan.name, texture=texture), {"texture": texture}, {}
    yield fact("server-mend-silent", part=plan.name), {"silent": True}, {}
