"""Scatter: free taps. How many there are in each bar the density rule says; where in the bar they fall is chance.

That is a Poisson process given its counts: the moments are drawn with the seed, on a semiquaver grid. The count is what
the rule expects of the bar, rounded; what rounding adds or takes is made good in the bars after.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor

import numpy as np

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.hands import Hands
from sonify.arrange.pitches import tuning
from sonify.arrange.textures.task import Played, Stroke, Task, finding
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry
from sonify.records.words import bursts

_SLOTS = 4  # in a beat
#: So often the moments of a bar are drawn again, until hands can play every tap of it.
_DRAWS = 24
#: Where no density rule is given: taps a beat at the edge and at the climax (our own choice).
_FEW, _MANY = 0.4, 2.0
#: Taps on a tuned instrument fall within so many scale steps of the rule's pitch.
_SPREAD = 2


def played(task: Task) -> Played:
    """The taps, each by a pupil who has had time to get ready; the card says it in words."""
    rng = task.generator()
    hands = {player: Hands(row) for player, row in _players(task)}
    strokes: list[Stroke] = []
    owed = 0.0
    asked_bars: dict[int, float] = {}
    taps: dict[int, int] = {}
    cap_bars: dict[int, float] = {}
    for block in task.blocks:
        for bar in range(block.bar, block.end):
            asked_bars[bar] = float(_density(task, bar).mean())
            cap_bars[bar] = _most_a_beat(task, bar)
            a_beat = np.minimum(_density(task, bar) / task.line.voices, cap_bars[bar])
            owed += float(a_beat.sum())
            count = min(max(floor(owed + 0.5), 0), task.beats * _SLOTS)
            owed -= count
            fallen = _bar(task, bar, (count, a_beat), hands, rng)
            taps[bar] = len(fallen)
            strokes += fallen
    return Played(
        strokes=tuple(strokes),
        entries=_entries(task, asked_bars, taps),
        words=_words(task),
        findings=tuple(_capped(task, asked_bars, cap_bars)),
        octaves=task.octaves,
        difficulty="easy",
    )


def _players(task: Task) -> list[tuple[int, Instrument]]:
    rows = [row for seat, row in zip(task.seats, task.rows, strict=True) for _ in range(seat.players)]
    return list(enumerate(rows, 1))


def _density(task: Task, bar: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Taps a beat in each beat of a bar: the density rule's, or from few to many and back with the piece's arc."""
    density = task.results("density")
    if density is None:
        return np.full(task.beats, _FEW + (_MANY - _FEW) * task.shape.arc(bar))
    return np.maximum(density[(bar - 1) * task.beats : bar * task.beats], 0.0)


def _most_a_beat(task: Task, bar: int) -> float:
    """Taps a beat that those on duty can keep up, and the grid can hold."""
    per_s = sum(row.fastest_per_s for _, row in task.on_duty(bar))
    return min(per_s * 60.0 / task.piece.bpm(bar), float(_SLOTS))


def _bar(
    task: Task,
    bar: int,
    wanted: tuple[int, np.ndarray[tuple[int], np.dtype[np.float64]]],
    hands: dict[int, Hands],
    rng: np.random.Generator,
) -> list[Stroke]:
    """A bar's taps, drawn until each has a pupil with a free hand; failing that the draw with the most taps."""
    count, a_beat = wanted
    best: list[tuple[Fraction, int, Instrument]] = []
    for _ in range(_DRAWS):
        given = _given_out(task, bar, _drawn(count, a_beat, rng), hands, rng)
        best = given if len(given) > len(best) else best
        if len(best) == count:
            break
    found = []
    for (beat, player, row), second in zip(best, task.seconds([beat for beat, _, _ in best]), strict=True):
        hands[player].strike(second)
        midi, asked = _pitch(task, bar, row, rng)
        found.append(Stroke(beat=beat, beats=Fraction(1, _SLOTS), midi=midi, row=row, player=player, asked=asked))
    return found


def _drawn(count: int, a_beat: np.ndarray[tuple[int], np.dtype[np.float64]], rng: np.random.Generator) -> list[int]:
    """`count` different semiquavers of a bar, more of them in the beats where the rule asks for more."""
    if count == 0:
        return []
    # A beat without taps by the rule is used only where the others are full, or a tap is owed from bars before.
    weights = np.repeat(np.maximum(a_beat, 1e-6), _SLOTS)
    return sorted(int(slot) for slot in rng.choice(len(weights), size=count, replace=False, p=weights / weights.sum()))


def _given_out(
    task: Task, bar: int, slots: Sequence[int], hands: dict[int, Hands], rng: np.random.Generator
) -> list[tuple[Fraction, int, Instrument]]:
    """Taps given to pupils: to the one who has waited longest, of those who can; nobody can: the tap is not played."""
    trial = {player: hand.copy() for player, hand in hands.items()}
    duty = task.on_duty(bar)
    first = task.first_beat(bar)
    beats = [first + Fraction(slot, _SLOTS) for slot in slots]
    found = []
    for beat, second in zip(beats, task.seconds(beats), strict=True):
        able = [(player, row) for player, row in duty if trial[player].can_strike(second)]
        if not able:
            continue
        waited = rng.permutation(len(able))
        player, row = min(
            (able[i] for i in waited), key=lambda one: trial[one[0]].struck[-1] if trial[one[0]].struck else -1e9
        )
        trial[player].strike(second)
        found.append((beat, player, row))
    return found


def _pitch(task: Task, bar: int, row: Instrument, rng: np.random.Generator) -> tuple[int, float | None]:
    """A tap's note: near the pitch rule's where there is one, else anywhere in the upper half of the range."""
    if not row.pitched:
        return row.gm_key, None
    notes, pitch = tuning(row, task.piece.scene.music.scale), task.results("pitch")
    if row is not task.main or pitch is None:
        upper = notes.notes[len(notes.notes) // 2 :]
        return upper[int(rng.integers(len(upper)))], None
    asked = float(pitch[(bar - 1) * task.beats])
    place = notes.index(asked + 12 * task.octaves)
    step = int(rng.integers(-_SPREAD, _SPREAD + 1))
    return notes.step(place + step), asked if step == 0 else None


def _entries(task: Task, density: dict[int, float], taps: dict[int, int]) -> tuple[Entry, ...]:
    return tuple(
        Entry(
            bar=s[0].bar,
            bars=s[-1].end - s[0].bar,
            instruction=bursts([(bar, taps[bar]) for bar in range(s[0].bar, s[-1].end)]) or _course(task, s, density),
        )
        for s in stretches(task.blocks)
    )


def _amount(a_beat: float, task: Task) -> str:
    """Density in words, per pupil: what a child can do with it."""
    pupils = sum(seat.at_once or seat.players for seat in task.seats) * task.line.voices
    each = a_beat * task.beats / pupils  # taps a pupil a bar
    if each < 0.3:
        return "a tap now and then"
    if each < 0.75:
        return "about one tap every two bars"
    if each < 1.5:
        return "about one tap a bar"
    if each < 6.0:
        return f"about {round(each)} taps a bar"
    return "as many taps as the rule of two a second allows"


def _course(task: Task, stretch: Sequence[Block], density: dict[int, float]) -> str:
    first, last = stretch[0].bar, stretch[-1].end - 1
    bars = range(first, last + 1)
    most = max(bars, key=lambda bar: density[bar])
    least_end = max(density[first], density[last])
    low, high = min(density[bar] for bar in bars), density[most]
    if high < 1.25 * max(low, 1e-9):
        return f"{_amount(density[most], task)} each, spread out"
    if high > 1.25 * max(least_end, 1e-9):
        return f"from few taps to many and back: most around bar {most} ({_amount(high, task)} each)"
    if density[last] > density[first]:
        return f"from few taps to many: at the end {_amount(density[last], task)} each"
    return f"from many taps to few: at first {_amount(density[first], task)} each"


def _words(task: Task) -> tuple[str, ...]:
    words = [
        "Tap when you like, not with the beat, and not with your neighbour.",
        "Watch the conductor: more, or fewer.",
    ]
    if task.line.voices > 1:
        words.append("Another group taps the same: listen for gaps and fill them.")
    return tuple(words)


def _capped(task: Task, asked: dict[int, float], cap: dict[int, float]) -> list[Finding]:
    over = [bar for bar in asked if asked[bar] / task.line.voices > cap[bar] + 1e-9]
    if not over:
        return []
    bar = max(over, key=lambda b: asked[b] / task.line.voices - cap[b])
    voices = "" if task.line.voices == 1 else f", shared by {task.line.voices} groups"
    why = "the semiquaver grid holds no more" if cap[bar] == _SLOTS else "each pupil's limit a second"
    return [
        finding(
            task,
            f"Its density asks for {asked[bar]:.1f} taps a beat{voices}; at {task.piece.bpm(bar):g} beats a minute "
            f"this group plays {cap[bar]:.1f} ({why}). {len(over)} bars are thinned.",
            "Lower the rule's density or the tempo, or give the group more instruments.",
            where=f"from bar {min(over)}",
        )
    ]
