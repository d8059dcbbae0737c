"""Processes of an author's own at every edge that a scene file allows, through to the PDFs: nothing false or empty.

Drawn: three to twelve stages, one quantity to ten, each way of giving a curve, noughts, negatives, equal values, huge
and tiny ones. In order: stages with every word for a sound and with none. What is printed is read back from the PDFs.
"""

from __future__ import annotations

import json
import random
import re
import traceback

from sonify import lesson
from sonify.inputs.scene_file import read_scene
from sonify.kinds.ideas import PAIRS
from sonify.kinds.shapes import SHAPES
from sonify.lesson.sheet_files import sheets
from sonify.notation.musicxml import musicxml_bytes
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.say import say
from tests.campaign.claims import classroom, false_in
from tests.campaign.tally import Tally
from tests.paper.texts import page_texts

CLASSES = ("well-stocked", "few-instruments", "empty")
UNITS = ("cm", "degC", "%", "frogs", "1/min", "kg", "dB", "delta_degC")
SIZES = (1e-6, 0.01, 1.0, 10.0, 1000.0, 1e9)
LASTS = ("", "20 min", "3 days", "1 s", "200 years")
WHEN = ("start", "halfway", "end", "25 %")
TEXTURES = ("melody", "drone", "ostinato", "scatter", "tremolo")
SOUNDS = ("alto xylophone", "wood block", "ocean drum", "triangle", "claps", "voices on oo")
#: What no sheet may hold: the same figure twice as two ends, an empty name, a place that is not filled.
WRONG = (
    re.compile(r"from (-?[\d.]+ ?[^\s.,]*) to \1(?![\d.])"),
    re.compile(r"between (-?[\d.]+ ?[^\s.,]*) and \1(?![\d.])"),
    re.compile(r"\b(nan|None|inf)\b"),
    re.compile(r"\{\s*\$"),
    re.compile(r"shows this: \."),
    re.compile(r"“”|\(\)|: \.\s"),
)


def own(tally: Tally, count: int, seed: int, *, printed: int = 0) -> None:
    """`count` scenes, turn about drawn and in order; every `printed`th (0: none) goes to the PDFs."""
    for number in range(count):
        lot = random.Random(f"{seed} own {number}")
        kind = "drawn" if number % 2 == 0 else "in order"
        text = drawn_text(lot) if kind == "drawn" else ordered_text(lot)
        room = CLASSES[number // 2 % len(CLASSES)]
        try:
            made = lesson.study(scene_of(text), classroom(room))
            tally.add(kind, "; ".join(f"#{number}, {room}: {fault}" for fault in [*false_in(made), *_unfit(made)]))
            if printed and number // 2 % printed == 0:
                tally.add(f"{kind}, printed", "; ".join(f"#{number}: {fault}" for fault in printed_wrong(made)))
        except Exception as fault:
            where = traceback.extract_tb(fault.__traceback__)[-1]
            tally.add(
                kind, f"#{number}, {room}: {fault!r} at {where.filename.rpartition('/')[2]}:{where.lineno}\n{text}"
            )


def scene_of(text: str) -> Scene:
    return read_scene(text, file="own.toml", name="own")


def _unfit(made: Lesson) -> list[str]:
    """A drawn scene tells of each stage; one in order has neither key nor quantity."""
    if made.scene.drawn:
        return [f"{stage.name} tells nothing" for stage in made.timeline.stages if not say(stage.science)]
    return ["it has keys or quantities"] if made.controls.keys or made.timeline.quantities else []


def printed_wrong(made: Lesson) -> list[str]:
    """What no reader should find on the sheets."""
    pages = sheets(made, lambda: musicxml_bytes(made.score), lesson.sheet_settings())
    found = []
    for name, data in pages:
        text = " ".join(" ".join(page_texts(data)).split())
        found += [f"{name}: {each[0]!r}" for pattern in WRONG for each in pattern.finditer(text)]
        found += [f"{name}: does not say that it is drawn" for _ in "1" if _hides_it(made, name, text)]
    return found


def _hides_it(made: Lesson, name: str, text: str) -> bool:
    heard = {key.rule.quantity for key in made.controls.keys}
    plotted = made.scene.drawn and (name == "teacher.pdf" or (name == "poster.pdf" and heard))
    return bool(plotted) and "not computed" not in text


def drawn_text(lot: random.Random) -> str:
    """A drawn scene of any size that is allowed."""
    count = lot.choice((3, 3, 4, 6, 12))
    stages = [f"stage {letter}" for letter in "abcdefghijkl"[:count]]
    circle = lot.random() < 0.4
    unit_of = [(f"thing {number}", lot.choice(UNITS)) for number in range(1, lot.choice((1, 1, 2, 3, 10)) + 1)]
    turns = lot.randint(2, count) if len(unit_of) >= 2 and lot.random() < 0.3 else 0
    drawn, ends = [], {}
    for number, (name, unit) in enumerate(unit_of):
        lines, low, high = _curve(lot, count, stages, circle, in_turn=number < min(turns, len(unit_of)) > 1)
        drawn.append(f'[[drawn]]\nname = "{name}"\nunit = "{unit}"\n{lines}')
        ends[name] = (unit, low, high)
    events = [
        f'[[event]]\nwhat = "Event {number}"\nstage = "{lot.choice(stages)}"\nat = "{lot.choice(WHEN)}"'
        for number in range(lot.choice((0, 0, 1, 3)))
    ]
    lasts = lot.choice(LASTS)
    head = f'title = "Own"\nprocess = "drawn"\ncircle = {json.dumps(circle)}'
    return "\n".join([head, *_stages(stages, lot, lasts), *events, *drawn, *_rules(lot, ends), *_music(lot)]) + "\n"


def _curve(
    lot: random.Random, count: int, stages: list[str], circle: bool, *, in_turn: bool
) -> tuple[str, float, float]:
    """The lines of one curve, and its least and greatest value."""
    size = lot.choice(SIZES)
    some = [lot.choice((0.0, 0.0, 1.0, -1.0, round(lot.uniform(-1.0, 1.0), 2))) * size for _ in range(count + 1)]
    if lot.random() < 0.15:
        some = [some[0]] * (count + 1)
    if in_turn:
        return 'shape = "one after another"\nfrom = 0\nto = 5', 0.0, 5.0
    way = lot.choice(("values", "edges", "points", "shape"))
    if way == "values":
        return f"values = {json.dumps(some[:count])}", min(some[:count]), max(some[:count])
    if circle:
        some[-1] = some[0]
    if way == "edges":
        return f"values = {json.dumps(some)}", min(some), max(some)
    if way == "points":
        places = sorted(lot.sample([round(0.25 * step, 2) for step in range(4 * count)], lot.randint(2, 5)))
        points = [[place, value] for place, value in zip(places, some, strict=False)]
        values = [value for _, value in points]
        return f"points = {json.dumps(points)}", min(values), max(values)
    row = lot.choice(
        [each for each in SHAPES.values() if (each.closes or not circle) and each.id != "one after another"]
    )
    low, high = sorted(lot.sample([-size, 0.0, 0.3 * size, size], 2))
    start, end = (high, low) if row.way == "down" else (low, high)
    lines = [f'shape = "{row.id}"', f"from = {json.dumps(start)}"]
    lines += [] if row.way == "none" else [f"to = {json.dumps(end)}"]
    lines += [f"times = {lot.choice((1, 2, 7))}"] if row.times and lot.random() < 0.7 else []
    lines += [f'at = "{lot.choice(stages[1:])}"'] if row.at else []
    return "\n".join(lines), min(low, start), max(high if row.way != "none" else start, start)


def _stages(stages: list[str], lot: random.Random, lasts: str) -> list[str]:
    return [
        "\n".join(
            [
                f'[[stage]]\nname = "{name}"',
                *([f'caption = "It is {name}."'] if lot.random() < 0.7 else []),
                *([f'lasts = "{lasts}"'] if lasts else []),
            ]
        )
        for name in stages
    ]


def _rules(lot: random.Random, ends: dict[str, tuple[str, float, float]]) -> list[str]:
    """A rule for the beat, perhaps, and one for a part or two."""
    to = {
        "tempo": ("60 bpm", "120 bpm"),
        "pitch": ("C4", "A5"),
        "density": ("0 per bar", "2 per beat"),
        "dynamics": ("p", "f"),
    }
    wanted = ["tempo", *(lot.sample(["pitch", "density", "dynamics"], lot.randint(0, 3)))]
    if lot.random() < 0.2 and len(wanted) > 1:
        wanted = wanted[1:]
    rows = []
    for control in wanted:
        name = lot.choice(list(ends))
        unit, low, high = ends[name]
        if low == high:
            low, high = low - 1.0, high + 1.0
        part = "" if control == "tempo" else f'part = "Part {lot.randint(1, 2)}"\n'
        rows.append(
            f'[[hear]]\nquantity = "{name}"\nas = "{control}"\n{part}from = ["{low!r} {unit}", "{high!r} {unit}"]\n'
            f'to = ["{to[control][0]}", "{to[control][1]}"]\nwhy = "So it is."'
        )
    return rows


def _music(lot: random.Random) -> list[str]:
    parts = [
        f'[[part]]\nname = "Part {number}"\ntexture = "{lot.choice(TEXTURES)}"\n'
        f"sounds = {json.dumps(lot.sample(SOUNDS, 3))}"
        for number in (1, 2, 3)
    ]
    gliding = json.dumps(lot.random() < 0.2)
    return [f'[music]\nlength = "{lot.choice(("90 s", "3 min", "5 min"))}"\ngliding = {gliding}', *parts]


def ordered_text(lot: random.Random) -> str:
    """A scene in order of any size that is allowed."""
    count = lot.choice((3, 3, 5, 12))
    stages = [f"stage {letter}" for letter in "abcdefghijkl"[:count]]
    rows = []
    for number, name in enumerate(stages):
        words = [lot.choice(pair) for pair in PAIRS.values() if lot.random() < 0.5]
        if number == 0 and not words:
            words = ["soft"]
        said = f'\nsound = {json.dumps(words)}\nwhy = "Because of {name}."' if words else ""
        rows.append(f'[[stage]]\nname = "{name}"\ncaption = "It is {name}."{said}')
    head = f'title = "Own"\nprocess = "in-order"\ncircle = {json.dumps(lot.random() < 0.5)}'
    return "\n".join([head, *rows, *(row for row in _music(lot) if "gliding" not in row)]) + "\n"
