"""How small a difference can be heard in each control, and how large a one we ask for. One table, printed as it is."""

from __future__ import annotations

from math import inf, log10

from sonify.errors import UnknownName
from sonify.records.controls import Threshold

OURS = "our own design limit, not published"

THRESHOLDS = (
    Threshold(
        control="tempo",
        measure="the faster tempo over the slower, less one",
        asked=6.0,
        unit="%",
        published="6 % for a single interval, 4 % for two, 3.2 % for four, 3 % for six; at best 1.5 %",
        source="Drake and Botte 1993, tempo sensitivity in auditory sequences: a multiple-look model",
        status="published figures read in the abstract; asking 6 % of neighbouring stages is our own limit",
    ),
    Threshold(
        control="pitch",
        measure="difference in semitones",
        asked=1.0,
        unit="semitones",
        published="0.2 to 0.7 % (3 to 12 cents), pure tones, trained listeners",
        source="Zwicker and Fastl, Psychoacoustics; Wier, Jesteadt and Green 1977",
        status="published figures from memory, not verified; one semitone is our own limit",
    ),
    Threshold(
        control="density",
        measure="the more taps over the fewer, less one",
        asked=50.0,
        unit="%",
        published="no figure read",
        source="none",
        status=OURS,
    ),
    Threshold(
        control="dynamics",
        measure="difference in level; velocity v stands for 40 log10(v/127) dB",
        asked=3.0,
        unit="dB",
        published="about 1 dB",
        source="Zwicker and Fastl, Psychoacoustics; Jesteadt, Wier and Green 1977; velocity law: Downloadable Sounds",
        status="published figure from memory, not verified; 3 dB is our own limit; the law as quoted in a MIDI forum",
    ),
    Threshold(
        control="brightness",
        measure="share of the way from the softest beater to the hardest",
        asked=25.0,
        unit="%",
        published="no figure read",
        source="none",
        status=OURS,
    ),
)

#: Against silence one tap in four beats is enough to be noticed (our own limit).
LEAST_DENSITY = 0.25


def threshold(control: str) -> Threshold:
    """The row of a control. Raises UnknownName."""
    for row in THRESHOLDS:
        if row.control == control:
            return row
    raise UnknownName("control", control, [row.control for row in THRESHOLDS])


def level_db(velocity: float) -> float:
    """Level of a MIDI velocity below full, dB: 40 log10(v/127), the Downloadable Sounds law.

    >>> level_db(127.0), round(level_db(70.0), 1)
    (0.0, -10.3)
    """
    return 40.0 * log10(velocity / 127.0)


def difference(control: str, one: float, other: float) -> float:
    """How far apart two values of a control sound, in the unit of its threshold; never negative."""
    less, more = sorted((one, other))
    if control == "tempo":
        return 100.0 * (more / less - 1.0)
    if control == "density":
        if less > 0.0:
            return 100.0 * (more / less - 1.0)
        return inf if more >= LEAST_DENSITY else 0.0
    if control == "dynamics":
        return level_db(more) - level_db(less)
    return (100.0 if control == "brightness" else 1.0) * (more - less)


def can_be_told_apart(control: str, one: float, other: float) -> bool:
    """Whether two values differ by at least what the table asks for (rounding errors forgiven)."""
    return difference(control, one, other) >= threshold(control).asked - 1e-9
