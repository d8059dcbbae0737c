"""What a sentence is held against: the science as computed, what the scene set, and what is played."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import replace
from functools import cached_property
from math import ceil, log

import numpy as np

from sonify.frozen import dataclass
from sonify.kinds.instruments import ONE_SOUND
from sonify.records.fact import Reading
from sonify.records.played import struck_db
from sonify.records.scene import Rule
from sonify.records.score import Part, Score
from sonify.records.timeline import FloatArray, Timeline
from sonify.units import convert


class NoEvidence(LookupError):
    """A reading names what the records do not hold: the sentence that rests on it cannot be told."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Evidence:
    """score: None while nothing is arranged yet. rules: the scene's own."""

    timeline: Timeline
    score: Score | None = None
    rules: tuple[Rule, ...] = ()

    def value(self, reading: Reading) -> float:
        """The number of a reading. Raises NoEvidence where the records do not hold what it names."""
        found = self._value(reading)
        if reading.less is not None:
            found -= self.value(reading.less)
        if reading.per is not None:
            divisor = self.value(reading.per)
            if divisor == 0.0:
                raise NoEvidence(f"{reading.how} of {reading.of} divides by nothing")
            found /= divisor
        return found * reading.times

    def _value(self, reading: Reading) -> float:
        for table in (_SCIENCE, _TIME, _GIVEN, _PLAYED, _RULE):
            if reading.how in table:
                return table[reading.how](self, reading)
        raise NoEvidence(f"no reading is called {reading.how}")

    # --- science -----------------------------------------------------------------------------------------------------

    def stretch(self, reading: Reading) -> tuple[FloatArray, FloatArray]:
        """Times and values of a quantity from start to end, both ends interpolated."""
        time_s = self.timeline.time_s
        values = self.quantity(reading.of)
        inside = (time_s > reading.start) & (time_s < reading.end)
        times = np.concatenate(([reading.start], time_s[inside], [reading.end]))
        return times, np.interp(times, time_s, values)

    def quantity(self, name: str) -> FloatArray:
        found = next((q.values for q in self.timeline.quantities if q.name == name), None)
        if found is None:
            raise NoEvidence(f"no quantity is called {name}")
        return found

    def swing(self, name: str) -> float:
        """From least to most over the whole run."""
        return float(np.ptp(self.quantity(name)))

    def stage_times(self, name: str) -> tuple[float, float]:
        if not name:
            return float(self.timeline.time_s[0]), float(self.timeline.time_s[-1])
        stage = next((s for s in self.timeline.stages if s.name == name), None)
        if stage is None:
            raise NoEvidence(f"no stage is called {name}")
        return stage.start_s, stage.end_s

    def rule(self, key: str) -> Rule:
        found = next((rule for rule in self.rules if rule.key == key), None)
        if found is None:
            raise NoEvidence(f"no rule is called {key}")
        return found

    # --- what is played ----------------------------------------------------------------------------------------------

    @property
    def played(self) -> Score:
        if self.score is None:
            raise NoEvidence("nothing is arranged yet")
        return self.score

    @cached_property
    def _parts(self) -> dict[str, tuple[Part, ...]]:
        """The lines of each part by its name: groups that share a part play lines of one name."""
        found: dict[str, list[Part]] = {}
        for part in self.played.group_parts:
            for name in dict.fromkeys((part.name, part.name.partition(" (")[0])):
                found.setdefault(name, []).append(part)
        return {name: tuple(parts) for name, parts in found.items()}

    def lines(self, name: str) -> tuple[Part, ...]:
        if not name:
            return self.played.group_parts
        if name not in self._parts:
            raise NoEvidence(f"no part is called {name}")
        return self._parts[name]

    def sounding(self, name: str) -> frozenset[int]:
        """The bars, from 1, in which a part begins a note or holds one."""
        if name not in self._sounding:
            beats = self.played.metre.beats
            self._sounding[name] = frozenset(
                bar
                for at, length, *_ in self.notes(name)
                for bar in range(int(at // beats) + 1, ceil((at + length) / beats - 1e-9) + 1)
            )
        return self._sounding[name]

    @cached_property
    def _sounding(self) -> dict[str, frozenset[int]]:
        return {}

    def notes(self, name: str) -> list[tuple[float, float, int, int]]:
        """Beat, length, pitch and velocity of every note of a part, or of all."""
        if name not in self._struck:
            self._struck[name] = [
                (float(note.beat), float(note.beats), note.midi, note.velocity)
                for part in self.lines(name)
                for note in part.notes
            ]
        return self._struck[name]

    def keyed(self, name: str) -> list[tuple[float, int]]:
        """Beat and pitch of every note of a part that the key asks for, in order."""
        if name not in self._asked:
            notes = [note for part in self.lines(name) for note in part.notes if note.asked is not None]
            self._asked[name] = sorted((float(note.beat), note.midi) for note in notes)
        return self._asked[name]

    @cached_property
    def _asked(self) -> dict[str, list[tuple[float, int]]]:
        return {}

    @cached_property
    def _struck(self) -> dict[str, list[tuple[float, float, int, int]]]:
        return {}


def _cumulative(times: FloatArray, values: FloatArray) -> float:
    return float(np.sum(0.5 * (values[1:] + values[:-1]) * np.diff(times)))


def _mean(evidence: Evidence, reading: Reading) -> float:
    times, values = evidence.stretch(reading)
    return _cumulative(times, values) / (times[-1] - times[0]) if times[-1] > times[0] else float(values[0])


def _when(evidence: Evidence, reading: Reading, *, over: bool) -> float:
    times, values = evidence.stretch(reading)
    hits = np.flatnonzero(values >= reading.level if over else values <= reading.level)
    if not hits.size:
        raise NoEvidence(f"{reading.of} never comes to {reading.level:g}")
    at = int(hits[0])
    if at == 0 or values[at] == values[at - 1]:
        return float(times[at])
    share = (reading.level - values[at - 1]) / (values[at] - values[at - 1])
    return float(times[at - 1] + share * (times[at] - times[at - 1]))


def _halving(evidence: Evidence, reading: Reading) -> float:
    times, values = evidence.stretch(reading)
    half = 0.5 * float(values[0])
    hits = np.flatnonzero(values <= half if values[0] > 0 else values >= half)
    if not hits.size:
        raise NoEvidence(f"{reading.of} never comes to half")
    return float(times[hits[0]] - times[0])


def _equal_times(evidence: Evidence, reading: Reading) -> FloatArray:
    times, values = evidence.stretch(reading)
    found: FloatArray = np.interp(times[0] + (times[-1] - times[0]) * np.arange(121) / 120.0, times, values)
    return found


def _line(evidence: Evidence, reading: Reading, at: int) -> float:
    """Theil and Sen's line through the values, at the first (0) or the last (120) of 121 equal times."""
    values = _equal_times(evidence, reading)
    slopes = np.concatenate([(values[gap:] - values[:-gap]) / gap for gap in range(1, values.size)])
    slope = np.quantile(slopes, 0.5)
    height = np.quantile(values - slope * np.arange(values.size), 0.5) + slope * at
    return float(np.clip(height, values.min(), values.max()))


def _happens(evidence: Evidence, reading: Reading) -> float:
    found = next((e.time_s for e in evidence.timeline.events if e.name == reading.of), None)
    if found is None:
        raise NoEvidence(f"no event is called {reading.of}")
    return found


def _condition(evidence: Evidence, reading: Reading) -> float:
    found = dict(evidence.timeline.conditions).get(reading.of)
    if found is None:
        raise NoEvidence(f"no condition is called {reading.of}")
    return found


_SCIENCE = {
    "first": lambda e, r: float(e.stretch(r)[1][0]),
    "last": lambda e, r: float(e.stretch(r)[1][-1]),
    "mean": _mean,
    "most": lambda e, r: float(e.stretch(r)[1].max()),
    "least": lambda e, r: float(e.stretch(r)[1].min()),
    "change": lambda e, r: float(e.stretch(r)[1][-1] - e.stretch(r)[1][0]),
    "total": lambda e, r: _cumulative(*e.stretch(r)),
    "when most": lambda e, r: float(e.stretch(r)[0][int(e.stretch(r)[1].argmax())]),
    "when least": lambda e, r: float(e.stretch(r)[0][int(e.stretch(r)[1].argmin())]),
    "when over": lambda e, r: _when(e, r, over=True),
    "when under": lambda e, r: _when(e, r, over=False),
    "halving": _halving,
    "median": lambda e, r: float(np.quantile(_equal_times(e, r), 0.5)),
    "spread": lambda e, r: float(np.subtract(*np.quantile(_equal_times(e, r), (0.9, 0.1)))),
    "line start": lambda e, r: _line(e, r, 0),
    "line end": lambda e, r: _line(e, r, 120),
}
_TIME = {
    "begins": lambda e, r: e.stage_times(r.of)[0],
    "ends": lambda e, r: e.stage_times(r.of)[1],
    "lasts": lambda e, r: e.stage_times(r.of)[1] - e.stage_times(r.of)[0],
    "happens": _happens,
}
_GIVEN = {"condition": _condition, "fixed": lambda e, r: r.level}


def _beats(evidence: Evidence, reading: Reading) -> tuple[float, float]:
    """The beats from which and before which the bars of a reading last."""
    beats = evidence.played.metre.beats
    return (reading.start - 1) * beats, (reading.end - 1) * beats


def _notes(evidence: Evidence, reading: Reading) -> list[tuple[float, float, int, int]]:
    """Beat, length, pitch and velocity of every note that a part begins in the bars of a reading."""
    first, after = _beats(evidence, reading)
    found = [note for note in evidence.notes(reading.of) if first <= note[0] < after]
    if not found:
        raise NoEvidence(f"{reading.of or 'nobody'} plays nothing in bars {reading.start:g} to {reading.end - 1:g}")
    return found


def _keyed(evidence: Evidence, reading: Reading) -> list[int]:
    """The pitches that the key puts there, in order, where it puts any: an ornament between them tells of nothing."""
    first, after = _beats(evidence, reading)
    key = [midi for beat, midi in evidence.keyed(reading.of) if first <= beat < after]
    return key or [midi for _, _, midi, _ in sorted(_notes(evidence, reading))]


def _pitch(evidence: Evidence, reading: Reading) -> float:
    return float(np.mean(_keyed(evidence, reading)))


def _last_pitch(evidence: Evidence, reading: Reading) -> float:
    return float(_keyed(evidence, reading)[-1])


def _strokes_a_bar(evidence: Evidence, reading: Reading) -> float:
    """Of all who play: of those who play for the science, not of the pulse that a waiting group keeps."""
    if reading.of:
        return len(_notes(evidence, reading)) / (reading.end - reading.start)
    beats = evidence.played.metre.beats
    parts = [part for part in evidence.played.group_parts if not part.pulse]
    bars = [note.beat // beats + 1 for part in parts for note in part.notes]
    struck = sum(reading.start <= bar < reading.end for bar in bars)
    if not struck:
        raise NoEvidence(f"nobody plays in bars {reading.start:g} to {reading.end - 1:g}")
    return struck / (reading.end - reading.start)


def _brightnesses(evidence: Evidence, reading: Reading) -> list[float]:
    """In order, of strokes on what sounds darker and brighter with the beater, where a rule sets which."""
    beats, found = evidence.played.metre.beats, list[tuple[float, float]]()
    for part in evidence.lines(reading.of):
        if "brightness" not in part.ruled:
            continue
        for note in part.notes:
            row = evidence.played.instrument(note.instrument or part.instrument)
            if row.struck_with != ONE_SOUND and reading.start <= note.beat // beats + 1 < reading.end:
                found.append((float(note.beat), note.brightness))
    if not found:
        raise NoEvidence(f"{reading.of or 'nobody'} plays nothing brighter or darker there")
    return [bright for _, bright in sorted(found, key=lambda one: one[0])]


def _bpm(evidence: Evidence, reading: Reading) -> float:
    clock, beats = evidence.played.clock, evidence.played.metre.beats
    first, after = (int(edge - 1) * beats for edge in (reading.start, reading.end))
    return 60.0 * (after - first) / float(clock.seconds(after) - clock.seconds(first))


def _first_bpm(evidence: Evidence, reading: Reading) -> float:
    return [tempo.bpm for tempo in evidence.played.tempi if tempo.bar <= reading.start][-1]


def _bars(evidence: Evidence, reading: Reading) -> frozenset[int]:
    return frozenset(bar for bar in evidence.sounding(reading.of) if reading.start <= bar < reading.end)


def _together(evidence: Evidence, reading: Reading) -> float:
    return float(len(_bars(evidence, reading) & evidence.sounding(reading.beside)))


def _patterns(evidence: Evidence, reading: Reading) -> float:
    beats = evidence.played.metre.beats
    bars: dict[int, set[float]] = {}
    for beat, *_ in _notes(evidence, reading):
        bars.setdefault(int(beat // beats), set()).add(beat % beats)
    return float(len({frozenset(strokes) for strokes in bars.values()}))


def _beats_struck(evidence: Evidence, reading: Reading) -> float:
    struck = {beat for beat, *_ in _notes(evidence, reading) if beat == int(beat)}
    return len(struck) / ((reading.end - reading.start) * evidence.played.metre.beats)


def _level_played(evidence: Evidence, reading: Reading) -> float:
    """The strokes as the recording has them, marks and stages as the Score says; the mean of the bars' means."""
    score = evidence.played
    if score.levels is None:
        raise NoEvidence("how loud the recording plays has not been worked out")
    starts = [section.bar for section in score.sections]
    found: dict[int, list[float]] = {}
    for part in evidence.lines(reading.of):
        if "dynamics" not in part.ruled:
            continue
        row = score.levels.lifts_db[score.parts.index(part)]
        for note in part.notes:
            bar = float(note.beat) / score.metre.beats + 1.0
            if reading.start <= bar < reading.end:
                lift = row[max(0, bisect_right(starts, int(bar)) - 1)] if row else 0.0
                found.setdefault(int(bar), []).append(struck_db(note.velocity, score.levels.ruled) + lift)
    if not found:
        raise NoEvidence(f"{reading.of} plays nothing in bars {reading.start:g} to {reading.end:g}")
    return float(np.mean([np.mean(levels) for levels in found.values()]))


_PLAYED = {
    "bpm": _bpm,
    "bpm at": _first_bpm,
    "strokes a bar": _strokes_a_bar,
    "level played": _level_played,
    "velocity": lambda e, r: float(np.mean([v for *_, v in _notes(e, r)])),
    "brightness": lambda e, r: float(np.mean(_brightnesses(e, r))),
    "first brightness": lambda e, r: _brightnesses(e, r)[0],
    "brightness gained": lambda e, r: _brightnesses(e, r)[-1] - _brightnesses(e, r)[0],
    "pitch": _pitch,
    "first pitch": lambda e, r: float(min(_notes(e, r))[2]),
    "last pitch": _last_pitch,
    "highest": lambda e, r: float(max(midi for _, _, midi, _ in _notes(e, r))),
    "lowest": lambda e, r: float(min(midi for _, _, midi, _ in _notes(e, r))),
    "bars sounding": lambda e, r: float(len(_bars(e, r))),
    "bars together": _together,
    "octaves": lambda e, r: float(max(part.octaves for part in e.lines(r.of))),
    "patterns": _patterns,
    "beats struck": _beats_struck,
}


def _ends(evidence: Evidence, key: str) -> tuple[Rule, tuple[float, float], tuple[float, float]]:
    """A rule, its two ends in SI, the lower first, and the sound at each."""
    rule = evidence.rule(key)
    unit = next((q.si_unit for q in evidence.timeline.quantities if q.name == rule.quantity), None)
    if unit is None:
        raise NoEvidence(f"no quantity is called {rule.quantity}")
    low, high = (float(convert(end.value, end.unit, unit)) for end in (rule.low, rule.high))
    pairs = sorted([(low, float(rule.to_low)), (high, float(rule.to_high))])
    return rule, (pairs[0][0], pairs[1][0]), (pairs[0][1], pairs[1][1])


def _given(evidence: Evidence, key: str, values: FloatArray) -> FloatArray:
    """What a rule makes of values, as it is written, worked out from its two ends alone."""
    rule, (low, high), (to_low, to_high) = _ends(evidence, key)
    held = np.clip(values, low, high)
    share = np.log(held / low) / log(high / low) if rule.curve == "logarithmic" else (held - low) / (high - low)
    if rule.curve == "decibels":
        return np.asarray(to_low * (to_high / to_low) ** share)
    return np.asarray(to_low + share * (to_high - to_low))


def _by_rule(evidence: Evidence, reading: Reading) -> float:
    return float(_given(evidence, reading.of, np.array(reading.level)))


def _mean_by_rule(evidence: Evidence, reading: Reading) -> float:
    """A pitch is heard as the nearest note of the scale."""
    rule = evidence.rule(reading.of)
    found = _given(evidence, reading.of, _equal_times(evidence, replace(reading, of=rule.quantity)))
    tones = evidence.played.scale.pitch_classes if rule.control == "pitch" else ()
    if tones:
        scale = np.array([midi for midi in range(128) if midi % 12 in tones])
        found = scale[np.abs(found[:, None] - scale).argmin(axis=1)]
    return float(np.mean(found))


def _size_by_rule(evidence: Evidence, reading: Reading) -> float:
    control = evidence.rule(reading.of).control
    sound = _by_rule(evidence, reading)
    if control == "pitch":
        return float(2.0 ** (sound / 12.0))
    return sound**2 if control == "dynamics" else sound


_RULE = {
    "by rule": _by_rule,
    "size by rule": _size_by_rule,
    "mean by rule": _mean_by_rule,
    "low end": lambda e, r: _ends(e, r.of)[1][0],
    "high end": lambda e, r: _ends(e, r.of)[1][1],
    "sound at low end": lambda e, r: _ends(e, r.of)[2][0],
    "sound at high end": lambda e, r: _ends(e, r.of)[2][1],
}
#: Every reading there is code for; a test holds it against `kinds.readings`.
KNOWN = (*_SCIENCE, *_TIME, *_GIVEN, *_PLAYED, *_RULE)
