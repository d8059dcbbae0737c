"""Numbers as people read them: tempo words, note names, dynamic marks, clock times, measures. One table of each."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import pairwise
from math import floor, isfinite, log10

from sonify.errors import OutOfRange
from sonify.kinds.marks import DYNAMICS, PACES, TEMPO_TERMS
from sonify.records.fact import Claim, Fact, Reading, fact
from sonify.units import childs_unit, printed

#: Black keys are spelt as on classroom bars: F sharp and B flat.
NOTE_LETTERS = ("C", "C♯", "D", "E♭", "E", "F", "F♯", "G", "G♯", "A", "B♭", "B")


def tempo_term(bpm: float) -> str:
    """The Italian term for a tempo, as its message is called.

    >>> tempo_term(66), tempo_term(112)
    ('adagio', 'moderato')
    """
    return _band(bpm, TEMPO_TERMS)


def pace(bpm: float) -> str:
    """The plain word for a tempo, as its message is called.

    >>> pace(77), pace(88), pace(94), pace(97), pace(107)
    ('strolling', 'walking-pace', 'steady-walk', 'brisk-walk', 'quick-walk')
    """
    return _band(bpm, PACES)


def _band(bpm: float, bands: Sequence[tuple[float, str]]) -> str:
    if not 0.0 < bpm < float("inf"):
        raise OutOfRange("tempo", bpm, "bpm", "more than 0", "a tempo word")
    return next(word for least, word in reversed(bands) if bpm >= least)


def note_name(midi: int) -> str:
    """A MIDI note as letter and octave, scientific pitch: 60 is C4.

    >>> note_name(60), note_name(69), note_name(70)
    ('C4', 'A4', 'B♭4')
    """
    if not 0 <= midi <= 127:
        raise OutOfRange("note", midi, "", "0 to 127", "MIDI")
    return f"{NOTE_LETTERS[midi % 12]}{midi // 12 - 1}"


def velocity_mark(velocity: float) -> str:
    """The dynamic mark whose velocity is nearest; halfway, the louder.

    >>> velocity_mark(70), velocity_mark(1), velocity_mark(127)
    ('mf', 'pp', 'ff')
    """
    if not 0.0 < velocity <= 127.0:
        raise OutOfRange("velocity", velocity, "", "1 to 127", "MIDI")
    return min(DYNAMICS, key=lambda mark: (abs(DYNAMICS[mark] - velocity), -DYNAMICS[mark]))


def inside_mark(mark: str, velocity: float, slack: float = 0.0) -> bool:
    """Whether a velocity is one that a mark stands for: nearer to it than to any other, or as good as (`slack`).

    >>> inside_mark("mf", 78), inside_mark("mf", 82), inside_mark("mf", 82, 5.0), inside_mark("ff", 127)
    (True, False, True, True)
    """
    levels = sorted(DYNAMICS.values())
    here = levels.index(DYNAMICS[mark])
    low = (levels[here - 1] + levels[here]) / 2 if here else 0.0
    high = (levels[here] + levels[here + 1]) / 2 if here + 1 < len(levels) else 127.0
    return low - slack <= velocity <= high + slack


def clock_text(seconds: float) -> str:
    """Minutes and seconds, to the nearest second.

    >>> clock_text(65), clock_text(59.6), clock_text(3600)
    ('1:05', '1:00', '60:00')
    """
    if not 0.0 <= seconds < float("inf"):
        raise OutOfRange("time", seconds, "s", "0 and more", "a clock time")
    whole = floor(seconds + 0.5)
    return f"{whole // 60}:{whole % 60:02d}"


_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def date_text(day: int, parts: str = "dmy") -> str:
    """A day, counted from 1 January of the year 1, as people write it. parts: which of day, month and year are said.

    >>> date_text(730_120), date_text(730_120, "my")
    ('1 January 2000', 'January 2000')
    """
    found = date.fromordinal(day)
    said = {"d": str(found.day), "m": _MONTHS[found.month - 1], "y": str(found.year)}
    return " ".join(said[part] for part in parts)


def number_text(value: float, digits: int = 3) -> str:
    """A number to so many significant digits, written out as long as that reads well; minus signs are true ones.

    >>> number_text(571.4), number_text(0.001234), number_text(14.0), number_text(-2.5), number_text(86400)
    ('571', '0.00123', '14', '−2.5', '86400')
    """
    if value == 0 or not isfinite(value):
        return f"{value:g}".replace("-0", "0")
    magnitude = floor(log10(abs(value)))
    if -4 <= magnitude < 7:
        text = f"{value:.{max(0, digits - 1 - magnitude)}f}"
        text = text.rstrip("0").rstrip(".") if "." in text else text
    else:
        mantissa, _, exponent = f"{value:.{digits - 1}e}".partition("e")
        text = f"{mantissa.rstrip('0').rstrip('.')} × 10^{int(exponent)}"
    return text.replace("-", "−")


def measure_text(value: float, unit: str, digits: int = 3) -> str:
    """A number in `unit` as people read it; the unit "1" is not written.

    >>> measure_text(14.0, "degC"), measure_text(72.0, "percent"), measure_text(0.5, "1")
    ('14 °C', '72 %', '0.5')
    """
    value, unit = childs_unit(value, unit)
    name = "" if unit in ("1", "") else printed(unit)
    return f"{number_text(value, digits)} {name}".strip()


def plain_name(name: str) -> str:
    """A part's name as a file name: small letters, digits and hyphens.

    >>> plain_name("The rain: drip/drop")
    'the-rain-drip-drop'
    """
    words = "".join(c if c.isascii() and c.isalnum() else " " for c in name.lower()).split()
    return "-".join(words)[:40] or "part"


def bursts(taps: Sequence[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """Free taps that come and go, from (bar, how many): their runs as (bar, bars); none where they come but once.

    >>> bursts([(7, 3), (8, 4), (9, 0), (10, 0), (11, 5), (12, 1), (13, 0)])
    ((7, 2), (11, 2))
    """
    runs: list[list[int]] = []
    for bar, count in taps:
        if count and runs and runs[-1][-1] == bar - 1:
            runs[-1].append(bar)
        elif count:
            runs.append([bar])
    gaps = [after[0] - before[-1] - 1 for before, after in pairwise(runs)]
    full = sum(count > 0 for _, count in taps)
    # A bar without a tap among scattered ones is chance; silences are told where they are a good part of the whole.
    if len(runs) < 2 or sum(gaps) * 4 < len(taps) or sum(count for _, count in taps) < 2 * full:
        return ()
    return tuple((run[0], len(run)) for run in runs)


def bursts_told(part: str, runs: Sequence[tuple[int, int]]) -> Fact:
    """Where taps come, and that there is silence between."""
    spans = [Reading(how="bars sounding", of=part, start=bar, end=bar + bars) for bar, bars in runs]
    silences = [
        Reading(how="bars sounding", of=part, start=a.end, end=b.start) for a, b in pairwise(spans) if a.end < b.start
    ]
    claims = [Claim(kind="plays", left=span) for span in spans] + [Claim(kind="silent", left=gap) for gap in silences]
    told = tuple(fact("part-span", bar=bar, bars=bars, last=bar + bars - 1) for bar, bars in runs)
    return fact("part-bursts", *claims, spans=told)


def without_title(title: str, caption: str) -> str:
    """What a caption says beside its title: without the title's words where it begins with them.

    >>> without_title("Neck and neck", "Neck and neck: both hot."), without_title("Sun", "Sunny all day.")
    ('Both hot.', 'Sunny all day.')
    """
    rest = caption[len(title) :]
    if not title or not caption.lower().startswith(title.lower()) or rest[:1] not in (":", ".", ",", ";", "!", ""):
        return caption
    rest = rest.lstrip(":.,;! ")
    return rest[:1].upper() + rest[1:]
