"""Random classes and scenes for property tests."""

from __future__ import annotations

from hypothesis import strategies as st

from sonify.kinds.needs import NEEDS
from sonify.kinds.textures import TEXTURES
from sonify.records.classroom import Classroom, Stock
from sonify.records.scene import BackgroundPlan, PartPlan, Scale
from tests.arrange.lessons import Sketch, part
from tests.catalogue import catalogue

SOUNDS = [row.name.lower() for row in catalogue().instruments]
FROM_THE_CUPBOARD = [row.id for row in catalogue().instruments if not row.bodily]
STAGE_NAMES = ["morning", "noon", "cloud", "rain", "river", "night"]
SCALES = [
    Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9)),
    Scale(name="G major", tonic=7, pitch_classes=(7, 9, 11, 0, 2, 4, 6)),
    Scale(name="D dorian", tonic=2, pitch_classes=(2, 4, 5, 7, 9, 11, 0)),
    Scale(name="F pentatonic", tonic=5, pitch_classes=(5, 7, 9, 0, 2)),
    Scale(name="E flat minor", tonic=3, pitch_classes=(3, 5, 6, 8, 10, 11, 1)),
]


@st.composite
def classrooms(draw: st.DrawFn) -> Classroom:
    """3 to 8 groups, 15 to 36 pupils, any cupboard, an empty one too."""
    names = draw(st.lists(st.sampled_from(FROM_THE_CUPBOARD), unique=True, max_size=12))
    return Classroom(
        year=draw(st.integers(3, 6)),
        pupils=draw(st.integers(15, 36)),
        groups=draw(st.integers(3, 8)),
        needs=tuple(draw(st.lists(st.sampled_from(NEEDS), unique=True))),
        cupboard=tuple(Stock(instrument=name, count=draw(st.integers(0, 9))) for name in names),
    )


@st.composite
def parts(draw: st.DrawFn, stages: list[str]) -> tuple[PartPlan, ...]:
    count = draw(st.integers(1, 9))
    found = []
    for number in range(count):
        texture = draw(st.sampled_from(TEXTURES))
        sounds = draw(st.lists(st.sampled_from(SOUNDS), min_size=1, max_size=4, unique=True))
        plays = draw(st.one_of(st.just(["all"]), st.lists(st.sampled_from(stages), min_size=1, unique=True)))
        found.append(part(f"Part {number + 1}", texture, *sounds, stages=tuple(plays)))
    return tuple(found)


@st.composite
def sketches(draw: st.DrawFn) -> Sketch:
    """Any piece: one to six stages of 2 to 20 bars, 50 to 150 bpm, one to nine parts, rules or none."""
    names = STAGE_NAMES[: draw(st.integers(1, 6))]
    stages = tuple((name, draw(st.integers(2, 20)), float(draw(st.integers(50, 150)))) for name in names)
    plans = draw(parts(names))
    curves = []
    for control, low, high in (("pitch", 40, 96), ("density", 0, 8), ("dynamics", 20, 120), ("brightness", 0, 1)):
        for name in draw(st.lists(st.sampled_from([None, *(p.name for p in plans)]), unique=True, max_size=3)):
            values = [draw(st.floats(low, high)) for _ in range(len(stages) + 1)]
            curves.append((control, name, tuple(values)))
    background = (BackgroundPlan(kind="wind", quantity="warmth"),) if draw(st.booleans()) else ()
    return Sketch(
        stages=stages,
        parts=plans,
        curves=tuple(curves),
        beats=draw(st.sampled_from([2, 3, 4])),
        scale=draw(st.sampled_from(SCALES)),
        background=background,
        glide=draw(st.booleans()),
        classroom=draw(classrooms()),
    )
