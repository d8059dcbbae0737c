"""A mend that the page offers has the ends of its rule in the words of the page's sliders."""

from __future__ import annotations

import pytest

from sonify.data.plan import finding_row
from sonify.data.sliders import read_as
from sonify.records.fact import Named, fact
from sonify.records.findings import Finding, RuleChange


def mended(control: str, low_high: tuple[str, str] | None, to: tuple[str, str] | None) -> str:
    """What the page shows of a mend with these ends."""
    words = fact(
        "mend-write",
        text="as written",
        quantity=Named("quantity", "temperature"),
        control=Named("control", control),
        whom="all",
        part="",
    )
    change = RuleChange(rule=0, low_high=low_high, to=to)
    return str(finding_row(Finding(kind="rule", message=words, fix=words, change=change))["fix"])


# Scientific pitch notation with the sharp sign, and the metronome's beats a minute (from memory).
@pytest.mark.parametrize(
    ("control", "written", "read"),
    [
        ("pitch", ("Bb3", "A#5"), ("B♭3", "A♯5")),
        ("tempo", ("66 bpm", "92 bpm"), ("66 beats a minute", "92 beats a minute")),
        ("density", ("1 per bar", "3 per beat"), ("1 tap a bar", "3 taps a beat")),
        ("dynamics", ("pp", "ff"), ("pp", "ff")),
    ],
)
def test_a_sound_in_a_mend_reads_as_the_sliders_have_it(
    control: str, written: tuple[str, str], read: tuple[str, str]
) -> None:
    told = mended(control, None, written)
    assert f"from {read[0]} to {read[1]}" in told, told
    assert tuple(read_as(control, text) for text in written) == read


def test_a_rate_of_temperature_and_a_count_in_a_mend_are_in_words() -> None:
    assert "from 0.5 °C a minute to 5 °C a minute" in mended("pitch", ("0.5 degC/minute", "5 degC/minute"), None)
    assert "from 2 to 14" in mended("pitch", ("2 count", "14 count"), None)
