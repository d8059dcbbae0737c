"""A scene file to start from for any process, written from what the process declares and from one run of it."""

from __future__ import annotations

import json

from sonify.inputs.outline import SOUNDS, Outline, Row, outline_text
from sonify.inputs.readings import measure_or_word
from sonify.mapping.choosing import TEXTURE, chosen
from sonify.processes import allowed, usual_text
from sonify.records.fact import Amount, Fact, Named, Words, fact
from sonify.records.process import ConditionSpec, ProcessSpec, StageSpec
from sonify.records.scene import Condition, Measure, Music, PartPlan, Rule, Scene
from sonify.records.timeline import Quantity
from sonify.say import say
from sonify.study.simulation import simulate
from sonify.units import convert


def process_scene_text(process: ProcessSpec) -> str:
    """The text of a commented scene file of one process, at the usual conditions. It makes a pack as it is."""
    timeline = simulate(_bare(process))
    choice = chosen(process, timeline, lambda control, quantity: say(_rule_words(control, quantity)))
    return outline_text(
        Outline(
            title=say(process.title),
            process=process.name,
            about=say(fact("outline-about", summary=say(process.summary))),
            conditions=[_condition(spec) for spec in process.conditions],
            quantities=[_quantity(each) for each in timeline.quantities],
            stages=[_stage(spec) for spec in process.stages],
            rules=choice.rules,
            parts=_parts(choice.rules, {each.name: each.meaning for each in timeline.quantities}),
            cautions=[say(fact(f"caution-{name}")) for name in process.cautions(dict(timeline.conditions))],
            gliding=choice.gliding,
        )
    )


def _bare(process: ProcessSpec) -> Scene:
    """A scene of the usual conditions as a file writes them: a rounded digit is another run of a particle box."""
    written = ((spec, usual_text(spec)) for spec in process.conditions)
    conditions = tuple(
        Condition(
            name=spec.name,
            measure=Measure(text=text, value=float(text), unit="1")
            if spec.unit == "1" and not spec.choices
            else measure_or_word(json.loads(text)),
        )
        for spec, text in written
    )
    return Scene(
        name="outline",
        title="",
        process=process.name,
        story="",
        ages=(8, 11),
        music=Music(),
        rules=(),
        parts=(),
        conditions=conditions,
    )


def _rule_words(control: str, quantity: str) -> Fact:
    return fact(f"outline-{control}", quantity=Named("quantity", quantity))


def _condition(spec: ConditionSpec) -> Row:
    says = fact("outline-condition", meaning=_capital(say(spec.meaning)), allowed=allowed(spec))
    return Row(name=spec.name, value=usual_text(spec), says=say(says))


def _quantity(quantity: Quantity) -> Row:
    ends = (float(end) for end in (quantity.values.min(), quantity.values.max()))
    low, high = (
        Amount(value=convert(end, quantity.si_unit, quantity.unit), unit=quantity.unit, given="of this run")
        for end in ends
    )
    says = fact("outline-quantity", low=low, high=high, meaning=say(quantity.meaning))
    return Row(name=quantity.name, says=say(says))


def _stage(spec: StageSpec) -> Row:
    found = say(fact("outline-stage-found", seen=say(spec.seen_as)))
    return Row(name=spec.name, says=say(spec.title), value=found)


def _parts(rules: tuple[Rule, ...], meanings: dict[str, Words]) -> list[PartPlan]:
    """A part for each rule of one, and somebody who keeps the beat where no rule wants a pattern."""
    parts = [
        _part(rule.part, TEXTURE[rule.control], fact("outline-meaning", **_what(rule, meanings)))
        for rule in rules
        if rule.part
    ]
    if not any(part.texture == "ostinato" for part in parts):
        parts.append(_part(say(fact("outline-beat")), "ostinato", fact("outline-beat-meaning")))
    return parts


def _what(rule: Rule, meanings: dict[str, Words]) -> dict[str, str | Named]:
    return {"name": Named("quantity", rule.quantity), "meaning": say(meanings[rule.quantity])}


def _part(name: str, texture: str, meaning: Fact) -> PartPlan:
    return PartPlan(name=name, texture=texture, sounds=SOUNDS[texture], meaning=say(meaning))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
