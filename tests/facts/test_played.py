"""Verdicts on what is played, on the sample score: who plays in which bars, how fast and how loud is plain there.

66 beats a minute in bars 1 to 4, 104 to bar 8, 80 to bar 12. The sea holds a wave in every bar (velocity 57), vapour
strikes every beat of bars 3 to 6 (57 rising by one a stroke), the cloud a minim tune from bar 6 to bar 8 (70), rain
taps in bars 7 to 10 (80), and the storm rolls in quavers in bars 9 and 10 (50 to 80).
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.facts.evidence import Evidence
from sonify.facts.verdicts import VERDICTS
from sonify.records.fact import Claim, Reading
from sonify.records.timeline import Timeline
from tests.sample import sample_score

EVIDENCE = Evidence(
    timeline=Timeline(process="none", time_s=np.array([0.0, 1.0]), quantities=(), stages=()), score=sample_score()
)
SEA, VAPOUR, CLOUD, RAIN, STORM = "The sea", "Rising vapour", "The cloud", "The rain", "The storm"


def bars(first: int, last: int, of: str = "", beside: str = "") -> Reading:
    return Reading(how="bars sounding", of=of, start=first, end=last + 1, beside=beside)


@pytest.mark.parametrize(
    ("kind", "left", "right"),
    [
        ("quicker", bars(5, 8), bars(1, 4)),
        ("slower", bars(9, 12), bars(5, 8)),
        ("same beat", bars(1, 2), bars(3, 4)),
        ("louder", bars(7, 8, RAIN), bars(7, 8, SEA)),
        ("softer", bars(3, 3, VAPOUR), bars(6, 6, VAPOUR)),
        ("higher", bars(6, 8, CLOUD), bars(3, 6, VAPOUR)),
        ("lower", bars(3, 6, VAPOUR), bars(6, 8, CLOUD)),
        ("busier", bars(3, 6, VAPOUR), bars(6, 8, CLOUD)),
        ("sparser", bars(3, 6, SEA), bars(3, 6, VAPOUR)),
    ],
)
def test_what_compares_two_stretches_holds_one_way_only(kind: str, left: Reading, right: Reading) -> None:
    assert VERDICTS[kind](Claim(kind=kind, left=left, right=right), EVIDENCE)
    if kind != "same beat":
        assert not VERDICTS[kind](Claim(kind=kind, left=right, right=left), EVIDENCE)


@pytest.mark.parametrize(
    ("kind", "holds", "not_so"),
    [
        ("plays", bars(3, 3, VAPOUR), bars(7, 12, VAPOUR)),
        ("plays throughout", bars(1, 12, SEA), bars(2, 6, VAPOUR)),
        ("silent", bars(1, 2, VAPOUR), bars(2, 3, VAPOUR)),
        ("together", bars(1, 12, VAPOUR, SEA), bars(1, 12, VAPOUR, CLOUD)),  # they share one bar of three
        ("apart", bars(1, 12, VAPOUR, STORM), bars(1, 12, VAPOUR, CLOUD)),
        ("every beat", bars(3, 6, VAPOUR), bars(6, 8, CLOUD)),
        ("one pattern", bars(3, 6, VAPOUR), bars(7, 10, RAIN)),
        ("alone", bars(1, 2, SEA), bars(1, 3, SEA)),
        ("alone", bars(11, 12, SEA), bars(11, 12, VAPOUR)),
        ("in turn", bars(3, 6, VAPOUR), bars(3, 6)),  # all who play: the sea and the vapour strike together
        ("in turn by kind", bars(3, 5), bars(1, 2, CLOUD)),  # nothing at all is not in turn
    ],
)
def test_what_is_said_of_one_stretch_holds_where_it_is_so(kind: str, holds: Reading, not_so: Reading) -> None:
    assert VERDICTS[kind](Claim(kind=kind, left=holds), EVIDENCE)
    assert not VERDICTS[kind](Claim(kind=kind, left=not_so), EVIDENCE)
