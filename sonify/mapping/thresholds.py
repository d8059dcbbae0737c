"""How small a difference can be heard in each control, and how large a one we ask for. One table, printed as it is."""

from __future__ import annotations

from sonify.errors import UnknownName
from sonify.records.controls import Threshold
from sonify.records.telling_apart import OLDER, difference

OURS = "our own design limit, not published"

THRESHOLDS = (
    Threshold(
        control="tempo",
        measure="the faster tempo over the slower, less one",
        asked=12.0,
        unit="%",
        published="6 % for a single interval, 4 % for two, 3.2 % for four, 3 % for six; at best 1.5 %",
        source="Drake and Botte 1993, tempo sensitivity in auditory sequences: a multiple-look model",
        status="published figures read in the abstract; asking twice 6 % of neighbouring stages is our own limit. At 4 "
        "to 9 years tempi near 100 a minute are told apart best (Mercier, thesis; read in the abstract)",
    ),
    Threshold(
        control="pitch",
        measure="difference in semitones",
        asked=1.0,
        young=2.0,
        unit="semitones",
        published="0.2 to 0.7 % (3 to 12 cents), pure tones, trained adults; larger at 7 years, not at 9 and 11",
        source="Zwicker and Fastl, Psychoacoustics; Wier, Jesteadt and Green 1977; children: Thompson, Cranford and "
        "Hoyer 1999",
        status="adults' figures from memory, not verified; that 7 year-olds need more was read in the abstract; one "
        "semitone, and two for 7 to 8 year-olds, are our own limits",
    ),
    Threshold(
        control="density",
        measure="the more taps over the fewer, less one",
        asked=50.0,
        unit="%",
        published="infants of nine months tell 8 sounds from 12, not 8 from 10: a floor, not a threshold",
        source="Lipton and Spelke 2003",
        status="our own design limit, half as many again; the infants' figure was read in the abstract",
    ),
    Threshold(
        control="dynamics",
        measure="difference in level; velocity v stands for 40 log10(v/127) dB",
        asked=3.0,
        young=4.0,
        unit="dB",
        published="about 1 dB for adults; above adults' at 5 to 10 years",
        source="Zwicker and Fastl, Psychoacoustics; Jesteadt, Wier and Green 1977; children: Buss and others 2009; "
        "velocity law: Downloadable Sounds",
        status="adults' figure from memory, not verified; children's read in the abstract; 3 dB, and 4 dB for 7 "
        "to 8 year-olds, are our own limits; the law as quoted in a MIDI forum",
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


def threshold(control: str) -> Threshold:
    """The row of a control. Raises UnknownName."""
    for row in THRESHOLDS:
        if row.control == control:
            return row
    raise UnknownName("control", control, [row.control for row in THRESHOLDS])


def asked(control: str, youngest: int = OLDER) -> float:
    """How large a difference is asked for, by the age of the youngest of the class."""
    return threshold(control).asked_of(youngest)


def can_be_told_apart(control: str, one: float, other: float, youngest: int = OLDER) -> bool:
    """Whether two values differ by at least what the table asks for (rounding errors forgiven)."""
    return difference(control, one, other) >= asked(control, youngest) - 1e-9
