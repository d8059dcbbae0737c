"""What a stage looks like, for those who do not read its words: its scene's own picture, else its process's, else what
rises and falls in it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from sonify.facts.sheet import held, stage_figures
from sonify.frozen import dataclass
from sonify.kinds.pictured import IDEA_SIGNS, INSTRUMENTS, STAGES
from sonify.kinds.timelines import TIMELINES
from sonify.records.fact import Claim, Reading, fact
from sonify.records.instrument import Instrument
from sonify.records.lesson import Lesson
from sonify.records.scene import WORD
from sonify.records.score import Section
from sonify.records.timeline import FloatArray, Quantity, Stage
from sonify.say import say
from sonify.say.parts import listed

#: What a quantity does in a stage, where it is clear: the claim that must hold, and the sign.
WAYS = {"rises": "up", "falls": "down", "steady": "level", "swings": "up and down", "more": "up", "less": "down"}
#: Messages where the claim's own name is that of a sign.
MESSAGES = {"more": "picture-more-than-before", "less": "picture-less-than-before"}
#: Of these processes the pictures of a scene show what was measured; how much, or where it goes, is added.
READ = ("measured", "experiment", "results-table")


@dataclass(frozen=True, slots=True)
class Picture:
    """Names of symbols side by side, and the same in words."""

    names: tuple[str, ...]
    alt: str

    def for_sheet(self) -> dict[str, object]:
        return {"names": list(self.names), "alt": self.alt}


def symbol_words(name: str) -> str:
    """A symbol as a reader's program says it."""
    return say(fact(f"picture-{name.replace(' ', '-')}"))


def stage_picture(section: Section, lesson: Lesson) -> Picture:
    """The picture of a stage; every stage has one."""
    names = _authored(section, lesson) or STAGES.get(lesson.process.name, {}).get(section.name, ())
    words = [symbol_words(name) for name in names]
    if not names or lesson.process.name in READ:
        name, told = _computed(section, lesson)
        if name:
            names, words = (*names, name), [*words, told]
    if not names:
        names, words = _by_sound(section, lesson)
    return Picture(names, say(fact("picture-alt", shown=listed(words))))


def instrument_picture(row: Instrument) -> Picture:
    """An instrument and how it is held."""
    name = INSTRUMENTS[row.id.partition(".")[0]]
    return Picture((name,), say(fact("picture-alt", shown=symbol_words(name))))


def _authored(section: Section, lesson: Lesson) -> tuple[str, ...]:
    """What the author drew; not where a word of the conditions was changed, such as what melts."""
    if any(change.after.unit == WORD for change in lesson.scene.changes):
        return ()
    return next((note.picture for note in lesson.scene.stages if note.stage == section.name), ())


def _by_sound(section: Section, lesson: Lesson) -> tuple[tuple[str, ...], list[str]]:
    """How the stage is meant to sound, where nothing is measured; else that it is to be listened to."""
    note = next((note for note in lesson.scene.stages if note.stage == section.name), None)
    names = tuple(IDEA_SIGNS[word] for word in note.sounds)[:3] if note else ()
    return names or ("listen",), [symbol_words(name) for name in names or ("listen",)]


def _computed(section: Section, lesson: Lesson) -> tuple[str, str]:
    """A column or a line for what was computed or measured; ("", "") where there is nothing to show."""
    timeline = lesson.timeline
    stage = next((stage for stage in timeline.stages if stage.name == section.name), None)
    if stage is None or not timeline.quantities:
        return "", ""
    if stage.gathers:
        return "one after the other", symbol_words("one after the other")
    if timeline.axis:
        quantity = timeline.quantity(timeline.axis)
        values = quantity.in_unit()
        here = float(values[_middle(stage, timeline.time_s)])
        return _column(quantity, section, _share(here, values.tolist()), lesson)
    if not TIMELINES[timeline.kind].joined:
        return _mean_column(timeline.quantities[0], section, lesson)
    quantity = _leading(lesson)
    name, told = _way(quantity, stage, lesson)
    return (name, told) if name else _mean_column(quantity, section, lesson)


def _mean_column(quantity: Quantity, section: Section, lesson: Lesson) -> tuple[str, str]:
    gathering = {stage.name for stage in lesson.timeline.stages if stage.gathers}
    means = {name: figure.value for name, figure in stage_figures(quantity, lesson).items()}
    share = _share(means[section.name], [mean for name, mean in means.items() if name not in gathering])
    return _column(quantity, section, share, lesson)


def _share(value: float, values: list[float]) -> float:
    """How far from nought, or from the least below it, to the most."""
    low, high = min(0.0, *values), max(values)
    return (value - low) / (high - low) if high > low else 0.0


def _middle(stage: Stage, time_s: FloatArray) -> int:
    return int(np.abs(time_s - (stage.start_s + stage.end_s) / 2).argmin())


def _column(quantity: Quantity, section: Section, share: float, lesson: Lesson) -> tuple[str, str]:
    value = stage_figures(quantity, lesson)[section.name]
    tenths = round(10 * min(1.0, max(0.0, share)))
    return f"column {tenths}", say(held(fact("picture-column", quantity=quantity.name, value=value), lesson))


def _leading(lesson: Lesson) -> Quantity:
    """The quantity that is heard first of all, else the first there is."""
    keys = lesson.controls.keys
    return lesson.timeline.quantity(keys[0].rule.quantity) if keys else lesson.timeline.quantities[0]


def _way(quantity: Quantity, stage: Stage, lesson: Lesson) -> tuple[str, str]:
    span = Reading(how="mean", of=quantity.name, start=stage.start_s, end=stage.end_s)
    first, last = replace(span, how="first"), replace(span, how="last")
    for kind, name in WAYS.items():
        claim = Claim(kind=kind, left=last, right=first) if kind in ("more", "less") else Claim(kind=kind, left=span)
        if told := held(fact(MESSAGES.get(kind, f"picture-{kind}"), claim, quantity=quantity.name), lesson):
            return name, say(told)
    return "", ""
