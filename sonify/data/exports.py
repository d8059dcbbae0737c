"""Records as text for machines: `science.csv`, `score.json`, and what `sonify show --json` prints. One shape each."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import numpy as np

from sonify.facts.comparison import Comparison
from sonify.kinds.controls import CONTROLS
from sonify.records.clock import Clock
from sonify.records.findings import Finding, RuleChange
from sonify.records.heard import HeardRule
from sonify.records.lesson import Lesson
from sonify.records.own_sound import KEPT_HZ, OwnSound
from sonify.records.safe_text import for_heading
from sonify.records.scene import Rule
from sonify.records.score import Part, Pattern, Score
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.say.cues import detail_words, gesture_words, pattern_name, reason_words
from sonify.units import convert

#: Digits that keep every store of a conserved quantity to 12 places and still read back to the same double.
DIGITS = ".15g"


def science_csv(timeline: Timeline) -> str:
    """Time and every quantity, one column each, the unit in the header: `sea temperature [degC]`.

    A heading of a person's own table that a spreadsheet would compute has an apostrophe before it.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["time [s]", *(for_heading(f"{q.name} [{q.unit}]") for q in timeline.quantities)])
    columns = [timeline.time_s, *(q.in_unit() for q in timeline.quantities)]
    for row in zip(*(column.tolist() for column in columns), strict=True):
        writer.writerow([format(value, DIGITS) for value in row])
    return out.getvalue()


def _number(beats: Fraction) -> float | int:
    return int(beats) if beats.denominator == 1 else float(beats)


def _seconds(exact: Fraction) -> float:
    return round(float(exact), 9)


def _levels(score: Score) -> dict[str, Any] | None:
    """How loud the recording has the parts: the factors of the decibels between marks that no rule sets and that one
    does, each part's lift by section."""
    if score.levels is None:
        return None
    rows = zip(score.parts, score.levels.lifts_db, strict=True)
    lifts_db = {part.name: list(lifts) for part, lifts in rows}
    return {"narrowed": score.levels.narrowed, "ruled": score.levels.ruled, "lifts_db": lifts_db}


def _part(part: Part, clock: Clock) -> dict[str, Any]:
    starts = clock.many_seconds([note.beat for note in part.notes])
    ends = clock.many_seconds([note.beat + note.beats for note in part.notes])
    return {
        "name": part.name,
        "group": part.group,
        "instrument": part.instrument,
        "texture": part.texture,
        "meaning": part.meaning,
        "players": part.players,
        "seats": [
            {"instrument": s.instrument, "players": s.players, "count": s.count, "job": say(s.job)} for s in part.seats
        ],
        "instructions": [say(words) for words in part.instructions],
        "entries": [
            {"bar": e.bar, "bars": e.bars, "pattern": pattern_name(part, e.pattern), "instruction": say(e.instruction)}
            for e in part.entries
        ],
        "patterns": [_pattern(part, p) for p in part.patterns],
        "line": part.difficulty,
        "others": [
            {
                "line": one.level,
                "told": [say(words) for words in one.words],
                "patterns": [_pattern(part, p) for p in one.patterns],
            }
            for one in part.others
        ],
        "dynamics": [{"bar": d.bar, "mark": d.mark, "hairpin": d.hairpin} for d in part.dynamics],
        "blanks": [{"bar": b.bar, "bars": b.bars, "ask": say(b.ask)} for b in part.blanks],
        "notes": [
            {
                "onset_s": _seconds(start),
                "duration_s": _seconds(end - start),
                "beat": _number(note.beat),
                "beats": _number(note.beats),
                "midi": note.midi,
                "velocity": note.velocity,
                "brightness": round(note.brightness, 6),
                "instrument": note.instrument or part.instrument,
                "player": note.player,
            }
            for note, start, end in zip(part.notes, starts, ends, strict=True)
        ],
    }


def _pattern(part: Part, pattern: Pattern) -> dict[str, Any]:
    return {
        "name": pattern_name(part, pattern.number),
        "bars": pattern.bars,
        "words": say(pattern.words),
        "spoken": say(pattern.spoken),
        "light": list(pattern.light),
        "hits": [{"beat": _number(b), "beats": _number(d), "midi": m} for b, d, m in pattern.hits],
    }


def _sound(sound: OwnSound) -> dict[str, Any]:
    """A sound that pupils recorded: 16 bits, one channel, as the recording plays it."""
    return {
        "instrument": sound.id,
        "name": sound.name,
        "file": sound.file,
        "sha256": sound.sha256,
        "rate_hz": KEPT_HZ,
        "seconds": round(sound.seconds, 6),
    }


def score_json(score: Score) -> str:
    """The Score, all of it. Bars count from 1, onsets in seconds from the start of the file."""
    clock = score.clock

    def bar_s(bar: int) -> Fraction:
        return clock.seconds(clock.beat_of_bar(bar))

    return json.dumps(
        {
            "title": score.title,
            "scene": score.scene,
            "metre": score.metre.text,
            "scale": {"name": score.scale.name, "pitch_classes": list(score.scale.pitch_classes)},
            "bars": score.bars,
            "count_in_bars": score.count_in_bars,
            "seconds": _seconds(clock.seconds(score.end_beat)),
            "seed": score.seed,
            "scaffold": score.scaffold,
            "gentle": score.gentle,
            "loudness_range": score.loudness_range,
            "tempo": [{"bar": t.bar, "bpm": t.bpm} for t in score.tempi],
            "sections": [
                {
                    "name": s.name,
                    "title": say(s.title),
                    "letter": s.letter,
                    "bar": s.bar,
                    "bars": s.bars,
                    "time_s": _seconds(bar_s(s.bar)),
                    "seconds": _seconds(bar_s(s.bar + s.bars) - bar_s(s.bar)),
                    "caption": say(s.caption),
                }
                for s in score.sections
            ],
            "cues": [
                {
                    "bar": c.bar,
                    "beat": _number(c.beat),
                    "time_s": _seconds(clock.seconds(clock.beat_of_bar(c.bar) + c.beat - 1)),
                    "part": c.part,
                    "also": [{"part": own.part, "detail": detail_words(own)} for own in c.apart[1:]],
                    "action": c.action,
                    "gesture": gesture_words(c),
                    "why": reason_words(c),
                    "for_the_music": c.reason.music,
                    "detail": detail_words(c),
                }
                for c in score.cues
            ],
            "parts": [_part(part, clock) for part in score.parts],
            "beds": [
                {"kind": b.kind, "seed": b.seed, "levels": [[_number(beat), round(v, 6)] for beat, v in b.levels]}
                for b in score.beds
            ],
            "levels": _levels(score),
            "swaps": [
                {"part": s.part, "wanted": s.wanted, "given": s.given, "reason": say(s.reason)} for s in score.swaps
            ],
            "instruments": [
                {"id": i.id, "name": i.name, "pitched": i.pitched, "gm_program": i.gm_program, "gm_key": i.gm_key}
                for i in score.instruments
            ],
            **({"sounds": [_sound(sound) for sound in score.sounds]} if score.sounds else {}),
        },
        ensure_ascii=False,
        indent=1,
    )


def key_numbers(lesson: Lesson) -> dict[str, Any]:
    """The key in numbers, so that a program can turn what is played back into the science.

    rules: as `sonify show --json` has them, each end beside its text as a number, the quantity's in SI and the sound's
    in its control's own unit (kinds.controls). time_map: the model time at which each bar begins, and until when it
    lasts: where stages do not follow each other at once, that is not the beginning of the next.
    """
    bars = lesson.controls.time_map
    first = np.arange(0, bars.beats, bars.metre.beats, dtype=np.float64)
    begins, ends = bars.model_time_s(first), bars.model_time_s(first + bars.metre.beats - 1e-9)
    return {
        "rules": [_rule_numbers(rule, lesson.timeline) for rule in lesson.scene.rules],
        "time_map": [
            {"bar": number, "model_time_s": _plain(start), "until_s": _plain(end)}
            for number, (start, end) in enumerate(zip(begins.tolist(), ends.tolist(), strict=True), start=1)
        ],
    }


def _rule_numbers(rule: Rule, timeline: Timeline) -> dict[str, Any]:
    unit = timeline.quantity(rule.quantity).si_unit
    return {
        "quantity": rule.quantity,
        "unit": unit,
        "as": rule.control,
        "part": rule.part or "",
        "from": [{"text": end.text, "si": _plain(convert(end.value, end.unit, unit))} for end in (rule.low, rule.high)],
        "to": [
            {"text": text, "value": _plain(value), "unit": CONTROLS[rule.control].unit}
            for text, value in ((rule.to_low_text, rule.to_low), (rule.to_high_text, rule.to_high))
        ],
        "curve": rule.curve,
    }


def _plain(value: float) -> float:
    """A number without the last bits of rounding."""
    return float(format(value, ".12g"))


def problem_rows(findings: Sequence[Finding]) -> list[dict[str, Any]]:
    """Findings as `sonify check --json` lists them.

    change: where other ends of one rule mend it, the rule's number and its new ends, as the page's plan takes them, and
    what `--set` takes.
    """
    return [
        {
            "kind": f.kind,
            "part": f.part,
            "where": say(f.where),
            "message": say(f.message),
            "fix": say(f.fix),
            **({"change": _change(f.change)} if f.change else {}),
        }
        for f in findings
    ]


def _change(change: RuleChange) -> dict[str, Any]:
    ends = {"from": change.low_high, "to": change.to}
    return {
        "rules": {str(change.rule): {name: list(pair) for name, pair in ends.items() if pair}},
        "set": list(change.settings),
    }


def heard_rows(rows: Sequence[HeardRule]) -> list[dict[str, Any]]:
    """Rules as they come back from the recording, as `sonify check --heard --json` lists them.

    null where nothing can be ranked. stages: title, the science, what came back.
    """

    def number(value: float) -> float | None:
        return round(value, 4) if math.isfinite(value) else None

    return [
        {
            "quantity": row.key.quantity,
            "unit": row.key.unit,
            "as": row.key.control,
            "part": row.key.part,
            "from": row.source,
            "rank_by_stage": number(row.rank_stages),
            "rank_by_bar": number(row.rank_bars),
            "error": number(row.error),
            "stages": [[say(title), number(science), number(heard)] for title, science, heard in row.stages],
        }
        for row in rows
    ]


def lesson_facts(lesson: Lesson) -> dict[str, Any]:
    """What `sonify show --json` prints: quantities, stages, rules, what was conserved, and the arrangement."""
    timeline, score = lesson.timeline, lesson.score
    quantities = []
    for quantity in timeline.quantities:
        values = quantity.in_unit()
        quantities.append(
            {
                "name": quantity.name,
                "unit": quantity.unit,
                "min": float(values.min()),
                "max": float(values.max()),
                "start": float(values[0]),
                "end": float(values[-1]),
                "meaning": say(quantity.meaning),
                "whose": say(quantity.whose),
                **({"drawn": True} if quantity.drawn else {}),
            }
        )
    return {
        "name": lesson.scene.name,
        "title": lesson.scene.title,
        "process": lesson.scene.process,
        "ages": list(lesson.scene.ages),
        "quantities": quantities,
        "stages": [
            {"name": s.name, "title": say(s.title), "start_s": s.start_s, "end_s": s.end_s, "science": say(s.science)}
            for s in timeline.stages
        ],
        "missing": [
            {"stage": m.stage, "reason": say(m.reason), "condition": m.condition, "fix": say(m.fix)}
            for m in timeline.missing
        ],
        "events": [{"name": e.name, "time_s": e.time_s, "text": say(e.text)} for e in timeline.events],
        "rules": [
            {
                "quantity": key.rule.quantity,
                "as": key.rule.control,
                "part": key.rule.part or "",
                "from": [key.rule.low.text, key.rule.high.text],
                "to": [key.rule.to_low_text, key.rule.to_high_text],
                "curve": key.rule.curve,
                "why": key.rule.why,
                "sentence": say(key.sentence),
                "exaggeration": key.exaggeration,
                "exaggeration_words": say(key.exaggeration_words),
                "audible": key.audible,
                "verdict": say(key.verdict),
            }
            for key in lesson.controls.keys
        ],
        "conserved": [{"name": c.name, "relative_drift": c.relative_drift} for c in timeline.conserved],
        "bars": score.bars,
        "seconds": _seconds(score.clock.seconds(score.end_beat)),
        "tempo": [{"bar": t.bar, "bpm": t.bpm} for t in score.tempi],
        "parts": [
            {
                "name": p.name,
                "group": p.group,
                "instrument": p.instrument,
                "texture": p.texture,
                "players": p.players,
                "notes": len(p.notes),
            }
            for p in score.parts
        ],
        "problems": problem_rows(lesson.problems),
        "notes": problem_rows([f for f in lesson.findings if not f.serious]),
    }


def comparison_facts(found: Comparison) -> dict[str, Any]:
    """A comparison as `sonify show --json` prints it."""
    return {
        "set": [
            {"condition": c.name, "before": c.before.text if c.before else None, "after": c.after.text}
            for c in found.changes
        ],
        "figures": [
            {"quantity": f.quantity, "what": f.what, "unit": f.unit, "before": f.before, "after": f.after}
            for f in found.figures
        ],
        "stages": [
            {"name": s.name, "title": say(s.title), "before_s": s.before, "after_s": s.after} for s in found.stages
        ],
    }
