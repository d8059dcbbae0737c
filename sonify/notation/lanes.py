"""One part as a lane of the graphic score: height follows pitch, thickness loudness, and every stroke has its mark.

Behind the marks lies a ribbon in the group's hatching, as thick as the part is loud; what pupils invent is an empty
dashed box. Each mark says which note it is (`data-beat`, `data-key`), so that a reader can hold it against the Score.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from xml.sax.saxutils import quoteattr

from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.notation.drawing import HATCH_STEP, INK, box, hatched, mm, width_of, words
from sonify.records.palette import GroupStyle
from sonify.records.score import Note, Part, Score

QUIETEST, LOUDEST = 20, 120  # velocities between which marks and ribbons grow
HELD_BEATS = 2  # an unpitched sound of so many beats is drawn as long as it lasts
#: Between two dynamic marks, as a share of their size.
GAP = 0.35
EDGE = 0.24  # share of a lane free above its highest and below its lowest note
SPREAD = 0.22  # free taps lie up to so far from the middle, a line a player

Ring = tuple[float, float]  # foot and top, as shares of the lane
Run = list[tuple[int, float, float]]  # bar, foot, top


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where a lane is: bars `first` to `last` from x on, each so many millimetres wide, in a strip from y down."""

    x: float
    y: float
    height: float
    first: int
    last: int
    bar_mm: float
    beats: int

    def at(self, beat: Fraction | float) -> float:
        return self.x + float(beat - (self.first - 1) * self.beats) / self.beats * self.bar_mm

    def bar(self, number: int) -> float:
        """The left edge of a bar."""
        return self.x + (number - self.first) * self.bar_mm

    @property
    def end(self) -> float:
        return self.bar(self.last + 1)

    def holds(self, beat: Fraction) -> bool:
        return self.first <= beat // self.beats + 1 <= self.last

    def down(self, share: float) -> float:
        """The height of a share of the lane, 0 at its foot and 1 at its top."""
        return self.y + self.height * (1 - share)


def loudness(velocity: float) -> float:
    """A velocity as a share, 0 softest to 1 loudest."""
    return min(1.0, max(0.0, (velocity - QUIETEST) / (LOUDEST - QUIETEST)))


class Heights:
    """How high each sound of a part lies in its lane: pitch for notes; a row each for sounds without, by register.

    Pitch as it is read: instruments that play the same written notes an octave apart are one line, as on a staff.
    """

    def __init__(self, score: Score, part: Part) -> None:
        rows = {note.instrument or part.instrument: score.instrument(note.instrument or part.instrument)
                for note in part.notes}  # fmt: skip
        self.main, self.rows_of = part.instrument, rows
        self.players = part.texture == "scatter" and max((note.player for note in part.notes), default=0)
        self.pitched = {name for name, row in rows.items() if row.pitched}
        keys = [self._written(note) for note in part.notes if self._name(note) in self.pitched]
        self.low, self.high = min(keys, default=0), max(keys, default=0)
        order = ("low", "middle", "high")
        taps = {(order.index(rows[n].register), k, n) for k, n in self._sounds(part) if n not in self.pitched}
        # Taps of a part that plays notes, too, lie on the lane's foot.
        low, high = (0.0, EDGE) if keys else (0.05, 0.95)
        self.rows = {
            (key, name): low + (high - low) * (place + 1) / (len(taps) + 1)
            for place, (_, key, name) in enumerate(sorted(taps))
        }

    def _name(self, note: Note) -> str:
        return note.instrument or self.main

    def _written(self, note: Note) -> int:
        return note.midi + self.rows_of[self._name(note)].written_shift

    def _sounds(self, part: Part) -> set[tuple[int, str]]:
        return {(note.midi, self._name(note)) for note in part.notes}

    def of(self, note: Note) -> float:
        if self._name(note) not in self.pitched:
            middle = self.rows[note.midi, self._name(note)]
            return middle + self._line(note) * min(SPREAD, middle / 2, (1 - middle) / 2)
        if self.high == self.low:
            return 0.5
        return EDGE + (1 - 2 * EDGE) * (self._written(note) - self.low) / (self.high - self.low)

    def _line(self, note: Note) -> float:
        """A player's line among those of free taps, -1 lowest to 1 highest; 0 for everybody together."""
        if not self.players or self.players < 2 or not note.player:
            return 0.0
        return 2 * (note.player - 1) / (self.players - 1) - 1


def lane(score: Score, part: Part, frame: Frame, style: GroupStyle, clip: str) -> Iterator[str]:
    """The drawing of one part in its frame. clip: an id of its own for the ribbon's edge."""
    heights = Heights(score, part)
    runs = _runs(_bars(part, score, heights), frame)
    if runs:
        edges = "".join(_ribbon(run, frame) for run in runs)
        yield f'<clipPath id="{clip}"><path d="{edges}"/></clipPath>'
        left, right = min(run[0][0] for run in runs), max(run[-1][0] for run in runs) + 1
        area = (frame.bar(left), frame.y, (right - left) * frame.bar_mm, frame.height)
        yield hatched(clip, area, style.colour, style.hatching, HATCH_STEP)
        yield f'<path d="{edges}" fill="none" stroke="{INK}" stroke-width="0.25"/>'
    yield f'<g data-part={quoteattr(part.name)} fill="{INK}" stroke="#ffffff" stroke-width="0.2" paint-order="stroke">'
    yield from _marks(part, score, heights, frame)
    yield "</g>"
    yield from _blanks(part, frame)


def _bars(part: Part, score: Score, heights: Heights) -> dict[int, Ring]:
    """Bar -> foot and top of the ribbon, for bars in which the part sounds: round its sounds, wider the louder."""
    sounding: dict[int, list[tuple[float, float]]] = {}
    beats = score.metre.beats
    for note in part.notes:
        told = (heights.of(note), loudness(note.velocity))
        for bar in note.bars_held(beats):
            sounding.setdefault(bar, []).append(told)
    found = {}
    for bar, all_told in sounding.items():
        margin = 0.04 + 0.32 * sum(loud for _, loud in all_told) / len(all_told)
        low, high = min(height for height, _ in all_told), max(height for height, _ in all_told)
        found[bar] = (max(0.03, low - margin), min(0.97, high + margin))
    return found


def _runs(bars: dict[int, Ring], frame: Frame) -> list[Run]:
    """Stretches of bars without a gap, as far as the frame shows them."""
    found: list[Run] = []
    for bar in sorted(bar for bar in bars if frame.first <= bar <= frame.last):
        if not found or found[-1][-1][0] != bar - 1:
            found.append([])
        found[-1].append((bar, *bars[bar]))
    return found


def _ribbon(run: Run, frame: Frame) -> str:
    """The outline of a run: through the middle of each bar, level at its ends."""
    points = [(frame.bar(run[0][0]), *run[0][1:])]
    points += [(frame.bar(bar) + frame.bar_mm / 2, foot, top) for bar, foot, top in run]
    points.append((frame.bar(run[-1][0] + 1), *run[-1][1:]))
    upper = [(x, frame.down(top)) for x, _, top in points]
    lower = [(x, frame.down(foot)) for x, foot, _ in points]
    back = lower[::-1]
    return f"M{mm(upper[0][0])} {mm(upper[0][1])}{_through(upper)}L{mm(back[0][0])} {mm(back[0][1])}{_through(back)}Z"


def _through(points: Sequence[tuple[float, float]]) -> str:
    """A smooth path on through points, level at each."""
    drawn = []
    for (x, y), (x2, y2) in pairwise(points):
        middle = (x + x2) / 2
        drawn.append(f"C{mm(middle)} {mm(y)} {mm(middle)} {mm(y2)} {mm(x2)} {mm(y2)}")
    return "".join(drawn)


def _marks(part: Part, score: Score, heights: Heights, frame: Frame) -> Iterator[str]:
    """A mark a stroke: a bar as long as the note for pitches, a dot for a tap, a short upright for a beaten rhythm.

    Several players on one sound at one moment are one mark, as loud as the loudest.
    """
    loudest: dict[tuple[Fraction, int, str, int], Note] = {}
    for note in part.notes:
        one = (note.beat, note.midi, note.instrument or part.instrument, note.player if heights.players else 0)
        if frame.holds(note.beat) and (one not in loudest or note.velocity > loudest[one].velocity):
            loudest[one] = note
    scale = min(1.0, frame.height / 14)
    upright = part.texture != "scatter"
    for (beat, key, name, _), note in loudest.items():
        loud, x, y = loudness(note.velocity), frame.at(beat), frame.down(heights.of(note))
        told = f'data-beat="{beat}" data-key="{key}"'
        if name in heights.pitched or note.beats >= HELD_BEATS:
            thick = (0.7 + 1.4 * loud) * scale
            long = min(frame.at(beat + note.beats), frame.end) - x - 0.15
            yield box(x, y - thick / 2, max(0.5, long), thick, fill=INK, more=f'rx="0.25" {told}')
        elif upright:
            high = (1.2 + 3.6 * loud) * scale
            yield box(x, y - high / 2, 0.55, high, fill=INK, more=told)
        else:
            radius = (0.4 + 0.7 * loud) * scale
            yield f'<circle cx="{mm(min(x + radius, frame.end - radius))}" cy="{mm(y)}" r="{mm(radius)}" {told}/>'


def _blanks(part: Part, frame: Frame) -> Iterator[str]:
    """An empty dashed box over the bars that are left to the pupils."""
    for blank in part.blanks:
        first, last = max(blank.bar, frame.first), min(blank.bar + blank.bars - 1, frame.last)
        if first <= last:
            told = f'stroke-dasharray="1.6 1" data-blank="{first}" data-bars="{last - first + 1}"'
            told += f" data-part={quoteattr(part.name)}"
            x, width = frame.bar(first), (last - first + 1) * frame.bar_mm
            yield box(x + 0.4, frame.y + 0.8, width - 0.8, frame.height - 1.6, fill="#ffffff", pen=0.4, more=told)


def dynamics(part: Part, frame: Frame, size: float, base: float) -> Iterator[str]:
    """Dynamic marks on a base line below the lane where they change; the ribbon shows all.

    Where they crowd, the loudest, the first and the last stand before the others; one may move to the left a little.
    """
    changes = [
        mark
        for mark, before in zip(part.dynamics, ("", *(m.mark for m in part.dynamics)), strict=False)
        if mark.mark != before and frame.first <= mark.bar <= frame.last
    ]
    placed: list[tuple[float, float, str]] = []
    loudest = max(changes, key=lambda mark: (DYNAMICS[mark.mark], -mark.bar), default=None)
    for mark in sorted(
        changes, key=lambda mark: (mark is not loudest, mark is not changes[0], mark is not changes[-1])
    ):
        width, gap = width_of(mark.mark, size, bold=True), GAP * size
        own = min(frame.bar(mark.bar) + 0.5, frame.end - width)
        ways = (own, *(start - gap - width for start, _, _ in placed if own - size <= start - gap - width < own))
        x = next((x for x in ways if all(x >= end + gap or x + width <= start - gap for start, end, _ in placed)), None)
        if x is not None and x >= frame.x:
            placed.append((x, x + width, mark.mark))
    for x, _, told in sorted(placed):
        yield words(x, base, told, size, bold=True)
