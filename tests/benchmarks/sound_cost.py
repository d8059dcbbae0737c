"""What a recording costs, drawn: seconds of the processor against notes and against minutes, beside the yardstick's.

    python -m tests.benchmarks.sound_cost

measures as `sound_speed` does (which says what the yardstick is and how to get it) and writes
examples/pictures/sound-cost.svg. Processor time is drawn because a busy machine changes it little; ours is spread over
two cores, so that on a machine with nothing else to do it takes about half of it by the clock.
"""

from __future__ import annotations

import math
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from xml.sax.saxutils import escape

from tests.benchmarks.sound_speed import ROOT, both, piece

PICTURE = ROOT / "examples" / "pictures" / "sound-cost.svg"
#: Three minutes with more and more notes; longer and longer with 1 300 notes a minute: (minutes, notes).
BY_NOTES = ((3, 300), (3, 1_000), (3, 4_000), (3, 12_000), (3, 30_000))
BY_MINUTES = ((1, 1_300), (3, 3_900), (10, 13_000), (30, 39_000))
WIDTH, HEIGHT, LEFT, TOP, APART = 330, 250, 60, 70, 90
OURS, THEIRS, GREY = "#0b5394", "#b45309", "#4b5563"


@dataclass(frozen=True)
class Panel:
    """One plot, both axes logarithmic: (x, our seconds, the yardstick's or None) and the words around it."""

    title: str
    across: str
    points: Sequence[tuple[float, float, float | None]]
    ticks: Sequence[float]


def measured(pieces: Sequence[tuple[int, int]], folder: Path) -> Iterator[tuple[int, int, float, float | None]]:
    """(minutes, notes, our seconds, the yardstick's) of each piece."""
    for minutes, notes in pieces:
        best, fluid = both(piece(minutes, notes), folder, runs=1)
        theirs = None if fluid is None else fluid.cpu_s
        print(f"{minutes} min, {notes} notes: {best.cpu_s:.2f} s, yardstick {theirs}", flush=True)
        yield minutes, notes, best.cpu_s, theirs


def text(x: float, y: float, words: str, *, anchor: str = "middle", fill: str = "#111827", bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{fill}"{weight}>{escape(words)}</text>'


def decades(values: Sequence[float]) -> tuple[float, float]:
    """The powers of ten that hold all values."""
    return 10.0 ** math.floor(math.log10(min(values))), 10.0 ** math.ceil(math.log10(max(values)))


def plain(value: float) -> str:
    return f"{value:,.0f}".replace(",", "\u202f") if value >= 1 else f"{value:g}"


def drawn(panel: Panel, left: float, seconds: tuple[float, float]) -> Iterator[str]:
    """A panel as SVG elements. seconds: least and most of the axis upwards."""
    low, high = seconds
    first, last = panel.ticks[0] / 1.3, panel.ticks[-1] * 1.3

    def x(value: float) -> float:
        return left + WIDTH * math.log(value / first) / math.log(last / first)

    def y(value: float) -> float:
        return TOP + HEIGHT * (1.0 - math.log(value / low) / math.log(high / low))

    yield text(left, TOP - 18, panel.title, anchor="start", bold=True)
    yield f'<rect x="{left}" y="{TOP}" width="{WIDTH}" height="{HEIGHT}" fill="none" stroke="{GREY}"/>'
    for decade in range(round(math.log10(low)), round(math.log10(high)) + 1):
        at = y(10.0**decade)
        yield f'<path d="M{left} {at:.1f}h{WIDTH}" stroke="{GREY}" stroke-opacity="0.25"/>'
        yield text(left - 8, at + 4, plain(10.0**decade), anchor="end")
    for tick in panel.ticks:
        yield f'<path d="M{x(tick):.1f} {TOP + HEIGHT}v5" stroke="{GREY}"/>'
        yield text(x(tick), TOP + HEIGHT + 20, plain(tick))
    yield text(left + WIDTH / 2, TOP + HEIGHT + 42, panel.across)
    for colour, dash, column in ((THEIRS, "5 4", 2), (OURS, "none", 1)):
        places = [(x(point[0]), y(value)) for point in panel.points if (value := point[column]) is not None]
        line = " ".join(f"{across:.1f},{up:.1f}" for across, up in places)
        yield f'<polyline points="{line}" fill="none" stroke="{colour}" stroke-width="2" stroke-dasharray="{dash}"/>'
        for across, up in places:
            yield f'<circle cx="{across:.1f}" cy="{up:.1f}" r="3.5" fill="{colour}"/>'


def picture(panels: Sequence[Panel]) -> str:
    """All panels side by side, with one scale of seconds."""
    values = [value for panel in panels for point in panel.points for value in point[1:] if value is not None]
    seconds = decades(values)
    width, height = LEFT + len(panels) * (WIDTH + APART) - 40, TOP + HEIGHT + 60
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}"'
        ' font-family="sans-serif" font-size="13">',
        "<title>Processor seconds of a recording, against its notes and its minutes</title>",
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
        f'<path d="M{LEFT} 24h28" stroke="{OURS}" stroke-width="2"/>',
        text(LEFT + 36, 28, "processor seconds of a recording (room, loudness, dither)", anchor="start", fill=OURS),
        f'<path d="M{LEFT + 450} 24h28" stroke="{THEIRS}" stroke-width="2" stroke-dasharray="5 4"/>',
        text(LEFT + 486, 28, "of FluidSynth, the same notes as MIDI", anchor="start", fill=THEIRS),
    ]
    for number, panel in enumerate(panels):
        parts += drawn(panel, LEFT + number * (WIDTH + APART), seconds)
    return "\n".join([*parts, "</svg>", ""])


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        by_notes = [(notes, mine, theirs) for _, notes, mine, theirs in measured(BY_NOTES, Path(folder))]
        by_minutes = [(minutes, mine, theirs) for minutes, _, mine, theirs in measured(BY_MINUTES, Path(folder))]
    panels = (
        Panel("Three minutes, more and more notes", "notes", by_notes, [notes for _, notes in BY_NOTES]),
        Panel("1 300 notes a minute, longer and longer", "minutes", by_minutes, [minutes for minutes, _ in BY_MINUTES]),
    )
    PICTURE.write_text(picture(panels), encoding="utf-8")
    print(PICTURE)


if __name__ == "__main__":
    main()
