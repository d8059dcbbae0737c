"""A lesson as a plan that a person can change: sliders, keys, curves and the map of the piece, as plain data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, cast

import numpy as np

from sonify.data.authoring import Which, number_of
from sonify.data.changed import condition_sentences, condition_words, rule_sentences
from sonify.data.drawing import drawing
from sonify.data.own_patterns import pattern_facts
from sonify.data.sliders import Steps, from_steps, plain, read_as, slider_of, tidy, to_steps
from sonify.errors import SonifyError
from sonify.facts.cautions import all_cautions
from sonify.facts.comparison import Comparison
from sonify.facts.sharing import sharing
from sonify.kinds.marks import DYNAMICS
from sonify.records.classroom import Classroom
from sonify.records.controls import Controls, Key, TimeMap
from sonify.records.curve import is_joined
from sonify.records.fact import Amount, Arg, Duration, Fact, Named, Words, fact
from sonify.records.findings import Finding, RuleChange
from sonify.records.instrument import Catalogue, stands_for
from sonify.records.lesson import Lesson
from sonify.records.process import ConditionSpec
from sonify.records.scene import CURVES, WORD, Measure, Rule, Scene
from sonify.records.score import Part, Score
from sonify.records.timeline import FloatArray, Quantity, Timeline
from sonify.records.words import clock_text
from sonify.say import say, sentence
from sonify.units import convert, printed, split

#: Points of a curve, and of the small picture of a scene.
POINTS, PICTURE_POINTS = 121, 61
#: A curve is a spike where nine tenths of it lie within this share of its reach.
SPIKE = 0.1


def _shown(value: float, unit: str, digits: int = 3) -> str:
    """A figure with its unit, as every sheet and sentence writes it."""
    return say(fact("value-alone", value=Amount(value=value, unit=unit, digits=digits)))


def plan_facts(
    lesson: Lesson, *, before: Scene, compared: Comparison | None, which: Which = number_of
) -> dict[str, Any]:
    """Everything that the plan of a lesson shows. before: the scene without the edits. which: the name that a part or
    rule of the scene had there."""
    score = lesson.score
    return {
        "name": lesson.scene.name,
        "title": lesson.scene.title,
        "story": lesson.scene.story,
        "ages": list(lesson.scene.ages),
        "curriculum": list(lesson.scene.curriculum),
        "cautions": [say(each) for each in all_cautions(lesson)],
        "conditions": condition_rows(lesson, before),
        "rules": rule_rows(lesson, before, which),
        "curves": curve_rows(lesson),
        "stages": stage_rows(lesson),
        "drawing": drawing(lesson),
        "tempo": [{"bar": tempo.bar, "bpm": tempo.bpm} for tempo in score.tempi],
        "map": map_rows(lesson),
        "patterns": pattern_facts(lesson),
        "findings": [finding_row(finding, which) for finding in lesson.findings],
        "changed": [*condition_sentences(compared), *rule_sentences(lesson.scene, before, which)],
        "class": class_facts(lesson.classroom),
        "seconds": round(float(score.clock.seconds(score.end_beat)), 3),
        "length": clock_text(float(score.clock.seconds(score.end_beat))),
        "bars": score.bars,
        "beats_a_bar": score.metre.beats,
        "scale": score.scale.name,
    }


def finding_row(finding: Finding, which: Which = number_of) -> dict[str, Any]:
    """change: the path and the values that mend it, where other ends of a rule do."""
    change = finding.change
    ends = {} if change is None else {"from": change.low_high, "to": change.to}
    return {
        "rule": "" if change is None else which(f"hear.{change.rule}"),
        "change": {side: list(pair) for side, pair in ends.items() if pair},
        "kind": finding.kind,
        "message": say(finding.message),
        "fix": say(finding.fix if change is None else _with_ends(finding.fix, change)),
        "part": finding.part,
        "where": say(finding.where),
        "serious": finding.serious,
    }


def _with_ends(words: Words, change: RuleChange) -> Words:
    """A mend with the ends of its rule in words, where the scene file has them as they are written there."""

    def told(arg: Arg) -> Arg:
        if not isinstance(arg, Fact):
            return arg
        args = {name: told(each) for name, each in arg.args}
        if arg.message == "mend-write":
            control = cast(Named, args["control"])
            ends = (
                (args["quantity"], tuple(map(_end, change.low_high or ()))),
                (control, tuple(read_as(control.id, text) for text in change.to or ())),
            )
            args["text"] = tuple(fact("mend-ends", what=what, low=pair[0], high=pair[1]) for what, pair in ends if pair)
        return replace(arg, args=tuple(args.items()))

    return tuple(_with_ends(each, change) for each in words) if isinstance(words, tuple) else cast(Words, told(words))


def _end(text: str) -> Arg:
    """An end of a `from` as it is read: "5 degC" is 5 °C; of a `to`, `read_as` tells it as the sliders do."""
    try:
        value, unit = split(text)
    except SonifyError:
        return text
    return Amount(value=value, unit=unit, digits=4)


def class_facts(classroom: Classroom) -> dict[str, Any]:
    """A class as plain values, as `drafts.class_from` takes them."""
    return {
        "year": classroom.year,
        "pupils": classroom.pupils,
        "groups": classroom.groups,
        "minutes": classroom.minutes,
        "lessons": classroom.lessons,
        "needs": list(classroom.every_need),
        "line": classroom.line or None,
        # What the class has of its own stands in its file, which the page keeps beside these values.
        "cupboard": {s.instrument: s.count for s in classroom.cupboard if stands_for(s.instrument) == s.instrument},
    }


def instrument_rows(catalogue: Catalogue) -> list[dict[str, str]]:
    """What a cupboard can hold; claps and voices need no cupboard."""
    return [
        {"id": row.id, "name": row.name, "plural": row.plural, "family": row.family}
        for row in catalogue.instruments
        if not row.bodily
    ]


# --- sliders ---------------------------------------------------------------------------------------------------------


def condition_rows(lesson: Lesson, before: Scene) -> list[dict[str, Any]]:
    """Every condition of the process, those that the file leaves to the process too."""
    now, was = _measures(lesson.scene), _measures(before)
    rows = []
    for spec in lesson.process.conditions:
        measure = now.get(spec.name) or usual(spec)
        slider = slider_of(spec, measure)
        rows.append(
            {
                "name": spec.name,
                "label": sentence(condition_words(spec.name)),
                "help": say(spec.meaning),
                "text": measure.text,
                "shown": measure.text if spec.choices else _shown(measure.value, measure.unit, 4),
                "value": slider.value,
                "unit": slider.unit,
                "unit_shown": printed(slider.unit),
                "low": slider.low,
                "high": slider.high,
                "step": slider.step,
                "changed": spec.name in now and now[spec.name] != was.get(spec.name),
                **({"choices": steps_row(slider.choices)} if slider.choices else {}),
            }
        )
    return rows


def _measures(scene: Scene) -> dict[str, Measure]:
    return {condition.name: condition.measure for condition in scene.conditions}


def usual(spec: ConditionSpec) -> Measure:
    """The value that a process takes where the scene says nothing."""
    if spec.choices:
        return Measure(text=spec.choices[int(spec.default)], value=0.0, unit=WORD)
    if spec.whole:
        return Measure(text=plain(spec.default), value=spec.default, unit="1")
    value = tidy(convert(spec.default, spec.si_unit, spec.unit))
    return Measure(text=f"{plain(value)} {spec.unit}", value=value, unit=spec.unit)


def steps_row(steps: Steps) -> dict[str, Any]:
    return {"texts": list(steps.texts), "shown": list(steps.shown), "at": steps.at}


def rule_rows(lesson: Lesson, before: Scene, which: Which = number_of) -> list[dict[str, Any]]:
    written = {number_of(rule.key): rule for rule in before.rules}
    rows = []
    for key in lesson.controls.keys:
        name = which(key.rule.key)
        old = written.get(name)
        same = old is not None and replace(old, key=key.rule.key) == key.rule.as_asked
        rows.append(_rule_row(lesson, key, name, changed=not same))
    return rows


def _rule_row(lesson: Lesson, key: Key, name: str, *, changed: bool) -> dict[str, Any]:
    rule, quantity = key.rule.as_asked, lesson.timeline.quantity(key.rule.quantity)
    from_low, from_high = from_steps(rule, quantity)
    to_low, to_high = to_steps(rule, lesson.scene.music)
    return {
        "index": name,
        "quantity": quantity.name,
        "quantity_symbol": quantity.symbol,
        "meaning": say(quantity.meaning),
        "control": rule.control,
        "part": rule.part or "",
        "from": [rule.low.text, rule.high.text],
        "to": [rule.to_low_text, rule.to_high_text],
        "from_low": steps_row(from_low),
        "from_high": steps_row(from_high),
        "to_low": steps_row(to_low),
        "to_high": steps_row(to_high),
        "curve": rule.curve,
        "curves": [kind for kind in CURVES if _may_be(kind, rule, quantity)],
        "why": rule.why,
        "sentence": say(key.sentence),
        "exaggeration": say(key.exaggeration_words),
        "factor": key.exaggeration,
        "audible": key.audible,
        "verdict": say(key.verdict),
        "key": [[say(each) for each in pair] for pair in key.values],
        "heard": [[say(each) for each in row] for row in key.stages],
        "changed": changed,
    }


def _may_be(kind: str, rule: Rule, quantity: Quantity) -> bool:
    """Whether a rule's curve could be of a kind: to follow ratios needs a true zero and a range above it, and only
    loudness has decibels."""
    if kind != "logarithmic":
        return kind == "linear" or rule.control == "dynamics"
    ends = (convert(end.value, end.unit, quantity.si_unit) for end in (rule.low, rule.high))
    return quantity.true_zero and min(ends) > 0.0


# --- the piece -------------------------------------------------------------------------------------------------------


def lead_of(controls: Controls, timeline: Timeline) -> str:
    """The quantity that sets the tempo, else the first; "" where there is none."""
    tempo = controls.curve("tempo")
    if tempo is not None and tempo.rule.quantity:
        return tempo.rule.quantity
    return timeline.quantities[0].name if timeline.quantities else ""


def shown_first(timeline: Timeline, controls: Controls) -> str:
    """The quantity whose curve is shown where nobody has chosen: the one that sets the tempo, unless all of it but a
    spike lies on one line; then the first that is heard and has a shape. "" where there is none."""
    lead = lead_of(controls, timeline)
    heard = [key.rule.quantity for key in controls.keys if key.rule.quantity]
    return next((name for name in (lead, *heard) if name and not _is_spike(timeline, controls, name)), lead)


def _is_spike(timeline: Timeline, controls: Controls, name: str) -> bool:
    _, (values,) = curves_over(timeline, controls.time_map, [timeline.quantity(name)], PICTURE_POINTS)
    reach = float(np.ptp(values))
    low, high = np.quantile(values, (0.05, 0.95)) if reach else (0.0, 1.0)
    return bool(high - low < SPIKE * reach)


def curve_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """Every quantity over the piece, the one that sets the tempo first. Across: the share of the piece in beats."""
    lead, first = lead_of(lesson.controls, lesson.timeline), shown_first(lesson.timeline, lesson.controls)
    ordered = sorted(lesson.timeline.quantities, key=lambda quantity: quantity.name != lead)
    shares, values = curves_over(lesson.timeline, lesson.controls.time_map, ordered, POINTS)
    companions = {quantity.name: (quantity, row) for quantity, row in zip(ordered, values, strict=True)}
    return [
        {
            "quantity": quantity.name,
            "symbol": quantity.symbol,
            "meaning": say(quantity.meaning),
            "unit": printed(quantity.unit),
            "points": [[round(float(x), 4), float(f"{y:.5g}")] for x, y in zip(shares, row, strict=True)],
            "low": float(f"{row.min():.5g}"),
            "high": float(f"{row.max():.5g}"),
            "low_shown": _shown(float(row.min()), quantity.unit),
            "high_shown": _shown(float(row.max()), quantity.unit),
            **_beside(quantity, row, companions),
            "lead": quantity.name == lead,
            "first": quantity.name == first,
            "drawn": quantity.drawn,
            "joined": is_joined(lesson.timeline, quantity),
        }
        for quantity, row in zip(ordered, values, strict=True)
    ]


def _beside(quantity: Quantity, row: FloatArray, all_rows: dict[str, tuple[Quantity, FloatArray]]) -> dict[str, str]:
    """The companion's values at the least and at the most of a quantity, "" where it has none."""
    if quantity.companion not in all_rows:
        return {"low_beside": "", "high_beside": ""}
    companion, values = all_rows[quantity.companion]
    return {
        "low_beside": _shown(float(values[row.argmin()]), companion.unit),
        "high_beside": _shown(float(values[row.argmax()]), companion.unit),
    }


def curves_over(
    timeline: Timeline, bars: TimeMap, quantities: Sequence[Quantity], points: int
) -> tuple[FloatArray, list[FloatArray]]:
    """Shares of the piece, and each quantity there in the unit that people read."""
    shares = np.linspace(0.0, 1.0, points)
    times = bars.model_time_s(shares * bars.beats)
    return shares, [convert(timeline.at(q.name, times), q.si_unit, q.unit) for q in quantities]


def picture_facts(timeline: Timeline, controls: Controls) -> dict[str, Any]:
    """A small picture of a scene: the curve that is shown first, between 0 and 1, and where its stages begin."""
    stages = [round((stage.bar - 1) / controls.time_map.bars, 4) for stage in controls.time_map.stages]
    if not timeline.quantities:
        return {"quantity": "", "points": [], "stages": stages}
    lead = timeline.quantity(shown_first(timeline, controls))
    shares, (values,) = curves_over(timeline, controls.time_map, [lead], PICTURE_POINTS)
    spread = float(np.ptp(values)) or 1.0
    heights = (values - values.min()) / spread
    return {
        "quantity": lead.name,
        "points": [[round(float(x), 3), round(float(y), 3)] for x, y in zip(shares, heights, strict=True)],
        "stages": stages,
    }


def stage_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """The stages as bars. Start and end as shares of the piece, in beats as the curves have them."""
    clock, bars = lesson.score.clock, lesson.score.bars
    science = {stage.name: say(stage.science) for stage in lesson.timeline.stages}
    speeds = {stage.stage: stage.bpm for stage in lesson.controls.time_map.stages}
    rows = []
    for section in lesson.score.sections:
        edges = clock.many_seconds([clock.beat_of_bar(bar) for bar in (section.bar, section.bar + section.bars)])
        rows.append(
            {
                "name": section.name,
                "title": say(section.title),
                "letter": section.letter,
                "start": round((section.bar - 1) / bars, 5),
                "end": round((section.bar - 1 + section.bars) / bars, 5),
                "seconds_text": say(fact("value-alone", value=Duration(seconds=float(edges[1] - edges[0])))),
                "bar": section.bar,
                "bars": section.bars,
                "bpm": round(speeds.get(section.name, lesson.score.tempi[0].bpm), 1),
                "science": science.get(section.name, ""),
                "caption": say(section.caption),
            }
        )
    return rows


def map_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """Who plays what, and how loud in each stage: None where the part rests, else 0 to 1."""
    score = lesson.score
    return [
        {
            "group": part.group,
            "name": part.name,
            "part": part.texture,
            "instrument": _instruments(part, score),
            "players": part.players,
            "sharing": "; ".join(map(say, sharing(part, score))),
            "difficulty": part.difficulty,
            "meaning": part.meaning,
            "swaps": [_swap(score, s.wanted, s.given, say(s.reason)) for s in score.swaps if s.part == part.name],
            "stages": _levels(part, score),
        }
        for part in score.group_parts
    ]


def _instruments(part: Part, score: Score) -> str:
    names = dict.fromkeys(seat.instrument for seat in part.seats) or {part.instrument: None}
    return ", ".join(score.instrument(name).called for name in names)


def _swap(score: Score, wanted: str, given: str, reason: str) -> dict[str, str]:
    return {"wanted": wanted, "given": given, "reason": reason}


def _levels(part: Part, score: Score) -> list[float | None]:
    of_bar: dict[int, list[int]] = {}
    for note in part.notes:
        beat = note.beat
        of_bar.setdefault(beat.numerator // (beat.denominator * score.metre.beats) + 1, []).append(note.velocity)
    found: list[float | None] = []
    for section in score.sections:
        bars = range(section.bar, section.bar + section.bars)
        loud = [velocity for bar in bars for velocity in of_bar.get(bar, ())]
        found.append(round(min(1.0, sum(loud) / len(loud) / DYNAMICS["ff"]), 3) if loud else None)
    return found
