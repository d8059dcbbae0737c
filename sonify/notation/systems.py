"""How the graphic score lies on paper: which bars stand on which line, how wide a bar is, how high a lane."""

from __future__ import annotations

from math import ceil

from sonify.errors import OutOfRange
from sonify.frozen import dataclass
from sonify.notation.drawing import MM_A_POINT, in_lines, width_of
from sonify.records.curve import Curve
from sonify.records.fact import fact
from sonify.records.palette import GroupStyle
from sonify.records.score import Score
from sonify.say import say
from sonify.say.parts import number
from sonify.units import printed

NARROWEST_BEAT = 1.05  # millimetres: closer marks run together
LOWEST_LANE, WANTED_LANE, HIGHEST_LANE = 9.0, 13.5, 30.0
LOWEST_IN_TEXT, WANTED_IN_TEXT = 1.9, 3.4  # the same as so many times the height of its words, for large print
CURVE_MM = 16.0
GAP = 6.0  # between systems
BESIDE_A_STAGE = 6  # a break away from a stage's beginning counts as so many bars out of place
PHRASE = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Canvas:
    """The paper of a drawing, without margins. text_pt: the size of all its words."""

    width_mm: float
    height_mm: float
    palette: tuple[GroupStyle, ...]
    text_pt: float = 10.0

    @property
    def text_mm(self) -> float:
        return self.text_pt * MM_A_POINT


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemPlan:
    """lines: bars (first, last) of each system, by page. Lengths in millimetres. names: width of the names' column."""

    pages: tuple[tuple[tuple[int, int], ...], ...]
    bar_mm: float
    lane_mm: float
    curve_mm: float
    head_mm: float
    foot_mm: float
    names_mm: float

    def system_mm(self, lanes: int) -> float:
        return self.head_mm + self.curve_mm + lanes * self.lane_mm


def curve_numbers(curve: Curve) -> list[str]:
    """The greatest and the least value, or the only one."""
    low, high = curve.ends
    return [number(high), number(low)] if high > low else [number(high)]


def curve_label(curve: Curve, names: float, text: float) -> list[str]:
    """Name and unit of the curve in lines that leave room for the numbers beside them."""
    told = "" if curve.unit in ("", "1") else printed(curve.unit)
    unit = f" [{told}]" if told else ""
    room = names - 2 - max(width_of(number, text) for number in curve_numbers(curve))
    name = say(fact("drawn-beside", quantity=curve.name)) if curve.drawn else curve.name
    return in_lines(f"{name}{unit}", room, text)


def names_width(names: list[str], canvas: Canvas, curve: Curve | None) -> float:
    """A column for a badge and the longest word of a name, and for the curve's words beside its numbers.

    It is between a seventh and less than a third of the width.
    """
    longest = max((word for name in names for word in name.split()), key=len, default="")
    wanted = 11 + width_of(longest, canvas.text_mm, bold=True) + 2
    if curve is not None:
        word = max(curve.name.split(), key=len, default="")
        widest = max(width_of(number, canvas.text_mm) for number in curve_numbers(curve))
        wanted = max(wanted, width_of(word, canvas.text_mm) + widest + 2.5)
    return min(canvas.width_mm / 3.5, max(canvas.width_mm / 7, wanted))


def plan(score: Score, canvas: Canvas, curve: Curve | None, *, whole: bool, foot: str) -> SystemPlan:
    """Raises OutOfRange where even the lowest lanes of one system are higher than the canvas."""
    lanes = len(score.group_parts)
    text = canvas.text_mm
    names = names_width([part.name for part in score.group_parts], canvas, curve)
    width = canvas.width_mm - names
    head, curve_mm = 3.9 * text, 0.0
    if curve is not None:
        curve_mm = max(CURVE_MM, (1.2 * len(curve_label(curve, names, text)) + 0.6) * text)
    foot_mm = (len(in_lines(foot, canvas.width_mm, text)) * 1.3 + 0.9) * text
    room = canvas.height_mm - foot_mm
    most_bars = score.bars if whole else max(PHRASE, int(width / (NARROWEST_BEAT * score.metre.beats)))
    systems = lines(score, ceil(score.bars / most_bars), most_bars)

    def lane_of(count: int) -> float:
        return ((room - GAP * (count - 1)) / count - head - curve_mm) / max(1, lanes)

    lowest = LOWEST_LANE if whole else max(LOWEST_LANE, LOWEST_IN_TEXT * text)
    wanted = max(WANTED_LANE, WANTED_IN_TEXT * text)
    a_page = max((count for count in range(1, len(systems) + 1) if lane_of(count) >= wanted), default=1)
    pages = ceil(len(systems) / a_page)
    a_page = ceil(len(systems) / pages)
    lane = lane_of(a_page)
    if lane < lowest:
        allowed = f"{lowest:.3g} mm and more"
        raise OutOfRange("height of a lane", lane, "mm", allowed, f"a graphic score of {lanes} parts on this paper")
    longest = max(last - first + 1 for first, last in systems)
    return SystemPlan(
        pages=tuple(tuple(systems[at : at + a_page]) for at in range(0, len(systems), a_page)),
        bar_mm=width / longest,
        lane_mm=lane if whole else min(lane, HIGHEST_LANE),
        curve_mm=curve_mm,
        head_mm=head,
        foot_mm=foot_mm,
        names_mm=names,
    )


def lines(score: Score, count: int, most: int) -> list[tuple[int, int]]:
    """The bars of `count` systems or one more, about equally long, broken where stages begin if that is near."""
    stages = {section.bar for section in score.sections}
    phrases = {*stages, *range(1 + PHRASE, score.bars + 1, PHRASE)}
    found: list[tuple[int, int]] = []
    first = 1
    while first <= score.bars:
        left = max(1, count - len(found))
        target = first + ceil((score.bars - first + 1) / left)
        if left == 1 and score.bars - first < most:
            target, chosen = score.bars + 1, score.bars + 1
        else:
            near = [bar for bar in phrases if first < bar <= min(first + most, score.bars)]
            chosen = min(
                near or [min(target, first + most)],
                key=lambda bar: (abs(bar - target) + (0 if bar in stages else BESIDE_A_STAGE), bar),
            )
        found.append((first, chosen - 1))
        first = chosen
    return found
