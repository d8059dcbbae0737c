"""Every shipped scene studied for a class, once for all tests that only look."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from sonify import lesson
from sonify.records.lesson import Lesson

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
SCENES = tuple(lesson.scene_names())
#: Ready-made experiments are many and made alike. Where each scene costs seconds, one along a number and one of groups
#: over time stand for these; of those of an author's own one that is drawn and one in order.
ALIKE = (
    "apple-tree-year",
    "bouncing-balls",
    "dough-in-three-bowls",
    "how-a-fossil-forms",
    "parachute-sizes",
    "shadow-of-a-stick",
    "sound-and-distance",
    "spots-on-the-sun",
    "three-kinds-of-penguin",
    "woodlice-count",
)
FEWER = tuple(scene for scene in SCENES if scene not in ALIKE)
#: For a test that goes through scenes one after the other: a few in a plain run, all in the whole one.
A_FEW_OR_ALL = pytest.mark.parametrize(
    "scenes", [pytest.param(FEWER[::5], id="a few"), pytest.param(SCENES, id="all", marks=pytest.mark.long)]
)


@lru_cache(maxsize=64)
def studied(scene: str, classroom: str = "well-stocked", scaffold: str = "full") -> Lesson:
    """One of the examples' classes, or one of the tests' own (`tests/classes`)."""
    own = Path(__file__).parent / "classes" / f"{classroom}.toml"
    return lesson.study(scene, own if own.exists() else EXAMPLES / f"{classroom}.toml", scaffold=scaffold)
