"""What a person can make her own in a lesson, as plain data: its words, who plays what, and what is heard as what.

Everything bears the path by which `inputs.scene_edits` knows it; `which` turns a key of the scene ("part.2") into the
name that it had before any edit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import ceil, floor
from typing import Any

from sonify.data.sliders import nice_step, plain, tidy, to_texts
from sonify.errors import UnknownName
from sonify.facts.authored import false_claims
from sonify.facts.evidence import Evidence
from sonify.facts.fitting import figures
from sonify.facts.reading_age import OLDEST, reading_age
from sonify.kinds.controls import CONTROLS
from sonify.kinds.lines import LINES
from sonify.kinds.textures import TEXTURES
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.instrument import Catalogue, Instrument, stands_for
from sonify.records.lesson import Lesson
from sonify.records.scene import STAGES_ALL, AuthoredClaim, PartPlan, Scene
from sonify.records.score import Part
from sonify.records.timeline import FloatArray
from sonify.say import say
from sonify.units import printed

#: What a new rule leads to until somebody says otherwise, the least first.
BEGINS = {
    "tempo": ("66 bpm", "112 bpm"),
    "pitch": ("C4", "A5"),
    "density": ("1 per bar", "2 per beat"),
    "dynamics": ("p", "f"),
    "brightness": ("20 %", "80 %"),
}

#: How the name of a row begins that no scene had.
NEW = "new-"
#: Words of music that the sheets teach.
MUSIC = ("tempo", "pitch", "dynamics", "timbre", "pattern", "conductor")
#: The range of a new rule ends on round numbers, about so many of them apart.
ROUND = 20

#: The name by which a page knows a part or a rule of the scene, by its key.
Which = Callable[[str], str]


def number_of(key: str) -> str:
    """The name of a part or rule of a scene that nobody edited: its number.

    >>> number_of("hear.3")
    '3'
    """
    return key.rpartition(".")[2]


def authoring(
    lesson: Lesson, scene: Scene, before: Scene, which: Which, rows: Catalogue, named: Callable[[str], str] = str
) -> dict[str, Any]:
    """All of it. scene: as edited, before it was fitted to the class; before: without the edits. named: a claim of that
    one with its parts called as they are now."""
    seated = {number_of(plan.key) for plan in before.parts if plan.groups}
    return {
        "texts": text_rows(lesson, scene, before, which, named),
        "parts": [{**part_row(lesson, plan, which, rows), "seated": which(plan.key) in seated} for plan in scene.parts],
        "at_hand": instruments_at_hand(lesson, rows),
        "choices": {
            "textures": list(TEXTURES),
            "lines": list(LINES),
            "stages": [[stage.name, say(stage.title)] for stage in lesson.timeline.stages],
            "quantities": quantity_rows(lesson),
            "controls": {control: list(BEGINS[control]) for control in CONTROLS},
            "ends": {control: list(to_texts(control, scene.music)) for control in CONTROLS},
        },
        "oldest": OLDEST,
    }


# --- words -----------------------------------------------------------------------------------------------------------


def text_rows(
    lesson: Lesson, scene: Scene, before: Scene, which: Which, named: Callable[[str], str] = str
) -> list[dict[str, Any]]:
    """Each text of the scene that pupils or the class read, as it was, what it claims and how it reads."""
    evidence = Evidence(timeline=lesson.timeline, score=lesson.score, rules=lesson.scene.rules)
    stages = [stage.name for stage in lesson.process.stages] or [stage.name for stage in lesson.timeline.stages]
    false = {each.key for each in false_claims(scene, stages, evidence)}
    words = excepted(lesson)
    old = dict(_texts(before, number_of, _stages(lesson)))
    written = {path: [claim.text for claim in _claims(before, key)] for path, key in _paths(before, number_of, lesson)}
    rows = []
    here = _stages(lesson)
    for (path, text), key in zip(_texts(scene, which, here), _keys(scene, which, here), strict=True):
        claims = _claims(scene, key)
        was = {named(each): each for each in written.get(path, [])}
        rows.append(
            {
                "path": path,
                "text": text,
                "original": old.get(path),
                "claimed": written.get(path, []),
                "claims": [
                    {"text": was.get(claim.text, claim.text), "says": claim.text, "holds": claim.key not in false}
                    for claim in claims
                ],
                **read(text, words, [claim.text for claim in claims]),
            }
        )
    return rows


def excepted(lesson: Lesson) -> tuple[str, ...]:
    """What does not count as hard: the words that the scene explains, its quantities, parts and stages, the instruments
    in pupils' hands, and the words of music that the sheets teach. Longest first."""
    score = lesson.score
    rows = [score.instrument(name) for name in {s.instrument for part in score.group_parts for s in part.seats}]
    words = {
        *(word.word for word in lesson.scene.vocabulary),
        *(quantity.name for quantity in lesson.timeline.quantities),
        *(name for row in rows for name in (row.name, row.plural)),
        *(part.name for part in score.group_parts),
        *(say(section.title) for section in score.sections),
        *MUSIC,
    }
    return tuple(sorted(words, key=lambda word: (-len(word), word)))


def read(text: str, words: tuple[str, ...], claims: list[str]) -> dict[str, Any]:
    """How a text reads: the age it takes, and the figures in it that none of its claims holds."""
    age = reading_age(text, words)
    held = set[str]().union(*map(figures, claims))
    return {"age": None if age is None else round(max(age, 5.0), 1), "loose": sorted(figures(text) - held)}


def _claims(scene: Scene, key: str) -> list[AuthoredClaim]:
    """What the text of a table claims."""
    return [claim for claim in scene.claims if claim.key.partition(".claims")[0] == key]


def _paths(scene: Scene, which: Which, lesson: Lesson) -> Iterator[tuple[str, str]]:
    """Each text's path, and the key of its table."""
    stages = _stages(lesson)
    for (path, _), key in zip(_texts(scene, which, stages), _keys(scene, which, stages), strict=True):
        yield path, key


def words_facts(lesson: Lesson, given: Mapping[str, Any]) -> dict[str, Any]:
    """How words read that somebody is writing. given: the text, and what it claims."""
    return read(given["text"], excepted(lesson), given["claims"])


def _stages(lesson: Lesson) -> list[str]:
    return [stage.name for stage in lesson.timeline.stages if not stage.gathers]


def _texts(scene: Scene, which: Which, stages: list[str]) -> Iterator[tuple[str, str]]:
    captions = {note.stage: note for note in scene.stages}
    yield "title", scene.title
    yield "story", scene.story
    for stage in stages:
        note = captions.get(stage)
        yield f"stage.{stage}.caption", note.caption if note else ""
        if note and note.sounds:
            yield f"stage.{stage}.why", note.why
    for plan in scene.parts:
        yield f"part.{which(plan.key)}.name", plan.name
        yield f"part.{which(plan.key)}.meaning", plan.meaning
    for rule in scene.rules:
        yield f"hear.{which(rule.key)}.why", rule.why


def _keys(scene: Scene, which: Which, stages: list[str]) -> Iterator[str]:
    """The key of the table that each of these texts stands in, in the same order."""
    captions = {note.stage: note for note in scene.stages}
    yield from ("", "")
    for stage in stages:
        note = captions.get(stage)
        yield note.key if note else "none"
        if note and note.sounds:
            yield note.key
    for plan in scene.parts:
        yield "none"
        yield plan.key
    yield from (rule.key for rule in scene.rules)


# --- parts -----------------------------------------------------------------------------------------------------------


def part_row(lesson: Lesson, plan: PartPlan, which: Which, rows: Catalogue) -> dict[str, Any]:
    """One part as the scene asks for it, and what came of it."""
    name = which(plan.key)
    played = [part for part in lesson.score.group_parts if lesson.scene.plan_name(part.name) == plan.name]
    names = {plan.name, *(part.name for part in played)}
    return {
        "id": name,
        "name": plan.name,
        "texture": plan.texture,
        "sounds": [_known(rows, sound) for sound in plan.sounds],
        "written": list(plan.sounds),
        "stages": "all" if plan.stages == STAGES_ALL else list(plan.stages),
        "rests": plan.rests,
        "line": plan.line,
        "silent": plan.silent,
        "groups": list(plan.groups),
        "meaning": plan.meaning,
        "partner": plan.partner,
        "only_beat": plan.on_beat or plan.even,
        "notes": plan.texture == "melody"
        or any(rule.part == plan.name and rule.control == "pitch" for rule in lesson.scene.rules),
        "played": [
            {
                "group": part.group,
                "team": part.team,
                "players": part.players,
                "given": list(dict.fromkeys(stands_for(seat.instrument) for seat in part.seats)) or [part.instrument],
                "line": part.difficulty,
            }
            for part in played
        ],
        "findings": [
            {"kind": each.kind, "message": _of_group(each, played), "fix": say(each.fix), "serious": each.serious}
            for each in lesson.findings
            if each.part in names and each.part and each.kind in ("playability", "class")
        ],
        "swaps": [
            {"wanted": swap.wanted, "given": swap.given, "reason": say(swap.reason)}
            for swap in lesson.score.swaps
            if swap.part in names
        ],
    }


def _of_group(finding: Finding, played: Sequence[Part]) -> str:
    """A finding's message; with its group, where other groups play the part, too."""
    group = next((part.group for part in played if part.name == finding.part), None)
    if group is None or len({part.group for part in played}) < 2:
        return say(finding.message)
    return say(fact("play-of-group", group=group, told=say(finding.message)))


def _known(rows: Catalogue, sound: str) -> str:
    """The id of a sound that a part asks for; of a pupils' sound that is not here, its own name."""
    try:
        return rows.find(sound).id
    except UnknownName:
        return sound


def instruments_at_hand(lesson: Lesson, rows: Catalogue) -> list[dict[str, Any]]:
    """What the cupboard holds, and the sounds that need none. count: 0 for those."""
    stock = {stock.instrument: stock.count for stock in lesson.classroom.cupboard if stock.count}
    known = [row for row in rows.instruments if not row.own]
    found = [row for row in known if row.id in stock or (row.bodily and not row.on_request)]
    return [_at_hand(row, stock) for row in found]


def _at_hand(row: Instrument, stock: Mapping[str, int]) -> dict[str, Any]:
    return {
        "id": row.id,
        "name": row.called,
        "count": 0 if row.bodily else stock.get(row.id, 0),
        "textures": list(row.textures),
        "pitched": row.pitched,
    }


# --- rules -----------------------------------------------------------------------------------------------------------


def quantity_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """Each quantity that can be heard, and the range that it goes through here, as a rule writes it."""
    found = []
    for quantity in lesson.timeline.quantities:
        low, high = _round_ends(quantity.in_unit())
        name = "" if quantity.unit == "1" else f" {quantity.unit}"
        found.append(
            {
                "name": quantity.name,
                "meaning": say(quantity.meaning),
                "unit": printed(quantity.unit),
                "from": [f"{plain(low)}{name}", f"{plain(high)}{name}"],
            }
        )
    return found


def _round_ends(values: FloatArray) -> tuple[float, float]:
    """The least and the most, rounded outwards; what never changes gets room on both sides."""
    low, high = float(values.min()), float(values.max())
    if high - low <= 1e-9 * max(abs(low), abs(high)):
        room = abs(low) or 1.0
        low, high = low - room, high + room
    step = nice_step(high - low, ROUND)
    return tidy(floor(low / step + 1e-9) * step), tidy(ceil(high / step - 1e-9) * step)
