"""What a group's sound means: its rules, stage by stage, in words and units that a nine-year-old knows."""

from __future__ import annotations

import re
from fractions import Fraction
from math import log
from typing import Any

import numpy as np

from sonify.kinds.marks import DYNAMICS
from sonify.paper import loudness
from sonify.paper.facts import counted, playing, stage_figure, stage_mean
from sonify.paper.strips import note_letters, span_text
from sonify.records.controls import Key
from sonify.records.lesson import Lesson
from sonify.records.scene import Rule
from sonify.records.score import Part, Section
from sonify.records.timeline import FloatArray, Quantity
from sonify.records.words import dynamic_word, number_text, velocity_mark
from sonify.say import say
from sonify.units import convert

#: Each control as a pupil says it.
CONTROL_WORDS = {
    "tempo": "How fast",
    "pitch": "How high",
    "density": "How busy",
    "dynamics": "How loud",
    "brightness": "How bright",
}
#: What stands before a row of short sounds in a card's table, and the words that are left out of these.
CONTROL_UNITS_TOLD = {
    "tempo": "beats a minute",
    "pitch": "notes",
    "density": "taps a bar, all of you",
    "dynamics": "how loud",
    "brightness": "how bright",
}
SHORT = re.compile(r"^about |\b( beats a minute| taps? a bar from the whole group)$")
#: Units that pupils of 7 to 11 meet in lessons (our own choice); all others are told in words.
KNOWN_UNITS = ("degC", "m", "km", "cm", "mm", "g", "kg", "%", "percent")
#: From so many degrees Celsius up (our own words, for air and water).
WARMTH = ((-300.0, "icy"), (0.5, "cold"), (10.0, "cool"), (15.0, "warm"), (30.0, "hot"), (60.0, "very hot"))
#: From such a share of the rule's range up.
AMOUNTS = ((0.0, "very little"), (0.15, "little"), (0.4, "some"), (0.65, "much"), (0.85, "very much"))
#: From so bright a note up, in thirds of the way from the softest stroke to the hardest.
BRIGHT = ((0.0, "soft and dark"), (1 / 3, "medium"), (2 / 3, "hard and bright"))
#: What is heard where a control rises, and where it sinks.
RISES = {
    "tempo": ("the beat is quicker", "the beat is slower"),
    "pitch": ("the notes are higher", "the notes are lower"),
    "density": ("there are more taps", "there are fewer taps"),
    "dynamics": ("the sound is louder", "the sound is softer"),
    "brightness": ("the sound is brighter", "the sound is darker"),
}
#: What stands where pupils decide how it sounds.
CHOOSE = "you choose"


def rules_for(part: Part, lesson: Lesson) -> list[Key]:
    """The rules that this part can be heard to follow: its own, and the piece's that its instrument can show."""
    pitched = lesson.score.instrument(part.instrument).pitched
    shows = {"tempo", "dynamics", "brightness"}
    shows |= {"pitch"} if pitched and part.texture == "melody" else set()
    shows |= {"density"} if part.texture == "scatter" else set()
    own = [key for key in lesson.controls.keys if key.rule.part == part.name]
    taken = {key.rule.control for key in own}
    shared = [k for k in lesson.controls.keys if k.rule.part is None and k.rule.control in shows - taken]
    return own + shared


def rule_rows(key: Key, part: Part, lesson: Lesson) -> dict[str, Any]:
    """A rule as a card tells it: why, and for each stage the part plays in, the science and the sound."""
    rows = [
        {"letter": section.letter, "science": science, "sound": sound, "short": SHORT.sub("", sound)}
        for section in _sections(part, lesson)
        for science, sound in _stage(key, part, section, lesson)
    ]
    return {
        "head": CONTROL_WORDS[key.rule.control],
        "unit": CONTROL_UNITS_TOLD[key.rule.control],
        "why": key.rule.why,
        "of": subject_of(key, lesson).name,
        "rows": rows or _ends(key, lesson),
        "note": _note(key, part, lesson),
    }


def rises(key: Key, lesson: Lesson) -> bool:
    """Whether the sound of a rule rises with its quantity."""
    rule, quantity = key.rule, lesson.timeline.quantity(key.rule.quantity)
    low, high = (float(convert(end.value, end.unit, quantity.si_unit)) for end in (rule.low, rule.high))
    return (high > low) == (rule.to_high > rule.to_low)


def _sections(part: Part, lesson: Lesson) -> list[Section]:
    """The stages in which a part plays."""
    runs = playing(part, lesson.score)
    return [
        section
        for section in lesson.score.sections
        if any(first < section.bar + section.bars and section.bar < first + bars for first, bars in runs)
    ]


def subject_of(key: Key, lesson: Lesson) -> Quantity:
    """The quantity that pupils are told of: the companion where the rule's own one has one."""
    quantity = lesson.timeline.quantity(key.rule.quantity)
    return lesson.timeline.quantity(quantity.companion) if quantity.companion else quantity


def _stage(key: Key, part: Part, section: Section, lesson: Lesson) -> list[tuple[str, str]]:
    """Science and sound of a stage, as (one) pair; none where the rule has no beat there."""
    rule, beats = key.rule, lesson.score.metre.beats
    curve = next((c for c in lesson.controls.curves if c.rule == rule and c.part in (rule.part, part.name)), None)
    if curve is None:
        return []
    runs = [(section.bar, section.bars)] if rule.control == "tempo" else playing(part, lesson.score)
    at = np.array(  # the beat is made of the whole stage's mean, all else is heard where the part plays
        [
            beat
            for first, bars in runs
            for beat in range((first - 1) * beats, (first - 1 + bars) * beats)
            if (section.bar - 1) * beats <= beat < (section.bar - 1 + section.bars) * beats
        ]
    )
    at = at[at < curve.results.size]
    if not at.size:
        return []
    return [(stage_science(key, section, lesson), _sound(key, part, section, curve.results[at], lesson))]


def stage_science(key: Key, section: Section, lesson: Lesson) -> str:
    """The stage's mean of what a rule follows: the same words on every card, whichever part plays and when."""
    subject = subject_of(key, lesson)
    value_si = stage_mean(subject, section, lesson)
    return science_text(subject, value_si, _share(_measuring(subject, lesson), value_si, subject))


def _measuring(quantity: Quantity, lesson: Lesson) -> Rule | None:
    """The rule whose range tells how much of a quantity is little or much: the whole piece's before a part's."""
    own = [key.rule for key in lesson.controls.keys if key.rule.quantity == quantity.name]
    return min(own, key=lambda rule: rule.part is not None, default=None)


def _share(rule: Rule | None, value_si: float, quantity: Quantity) -> float:
    """Where in the rule's range a value lies as the rule maps it, 0 to 1 and beyond; 0.5 where no rule measures it."""
    if rule is None:
        return 0.5
    low, high = (float(convert(end.value, end.unit, quantity.si_unit)) for end in (rule.low, rule.high))
    if rule.curve == "logarithmic":
        return log(value_si / low) / log(high / low) if value_si > 0.0 else 0.0
    return (value_si - low) / (high - low)


def science_text(quantity: Quantity, value_si: float, share: float) -> str:
    """A value for pupils: 'cold, 6 °C', '570 m', or, in a unit they do not know, 'little'."""
    value = float(convert(value_si, quantity.si_unit, quantity.unit))
    if quantity.unit == "degC":
        warmth = next(words for least, words in reversed(WARMTH) if value >= least or least == WARMTH[0][0])
        return f"{warmth}, {stage_figure(value, 'degC')}"
    if quantity.unit in KNOWN_UNITS:
        return stage_figure(value, quantity.unit)
    return next((words for least, words in reversed(AMOUNTS) if share >= least), AMOUNTS[0][1])


def _sound(key: Key, part: Part, section: Section, results: FloatArray, lesson: Lesson) -> str:
    """What is heard in a stage, from the notes and marks themselves; a tempo from the results."""
    control = key.rule.control
    if control == "pitch":
        letters = note_letters(part, lesson.score, section.bar, section.bars)
        return span_text(letters) or height_text(key.rule, float(np.mean(results)))
    if control == "density":
        return taps_text(part, section.bar, section.bars, lesson)
    if control == "brightness":
        return bright_text(part, section.bar, section.bars, lesson)
    if control == "dynamics":
        return loud_text(part, section, lesson)
    return sound_text(key.rule, float(np.mean(results)), "")


def loud_text(part: Part, section: Section, lesson: Lesson) -> str:
    """How loud the part plays in a stage by its own marks: 'soft', or where it changes 'soft, then loud'."""
    marks = played_marks(part, section, lesson)
    return ", then ".join(dynamic_word(mark)[1] for mark in marks) if marks else CHOOSE


def played_marks(part: Part, section: Section, lesson: Lesson) -> list[str]:
    """The mark at the part's first bar of a stage, and that at its last if it is another; none where pupils choose."""
    own = {bar for blank in part.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
    bars = [
        bar
        for first, count in playing(part, lesson.score)
        for bar in range(first, first + count)
        if section.bar <= bar < section.bar + section.bars and bar not in own
    ]
    line = loudness.corners(part, lesson.score)
    if not bars or not line:
        return []
    run = loudness.levels(line, bars[0], bars[-1] + 1)
    found = [velocity_mark(level * DYNAMICS["ff"]) for _, level in (run[0], run[-1])]
    return list(dict.fromkeys(found))


def height_text(rule: Rule, midi: float) -> str:
    """How high a pitch lies in its rule's range, in thirds: for pupils who choose their own notes."""
    low, high = sorted((rule.to_low, rule.to_high))
    third = min(2, max(0, int(3 * (midi - low) / (high - low))))
    return ("low notes", "middle notes", "high notes")[third]


def bright_text(part: Part, first: int, bars: int, lesson: Lesson) -> str:
    """How bright the part's notes in these bars are, on average: beaters or hands, soft to hard."""
    beats = lesson.score.metre.beats
    start, end = (first - 1) * beats, (first - 1 + bars) * beats
    levels = [note.brightness for note in part.notes if start <= note.beat < end]
    if not levels:
        return CHOOSE
    mean = float(np.mean(levels))
    return next(words for least, words in reversed(BRIGHT) if mean >= least)


def taps_text(part: Part, first: int, bars: int, lesson: Lesson) -> str:
    """The group's taps a bar as written, over the bars of these that hold any."""
    beats = lesson.score.metre.beats
    counts: dict[int, int] = {}
    for note in part.notes:
        bar = int(note.beat // beats) + 1
        if Fraction((first - 1) * beats) <= note.beat < (first - 1 + bars) * beats:
            counts[bar] = counts.get(bar, 0) + 1
    if not counts:
        return CHOOSE
    return f"about {counted(round(sum(counts.values()) / len(counts)), 'tap')} a bar from the whole group"


def _ends(key: Key, lesson: Lesson) -> list[dict[str, str]]:
    """The two ends of the rule, where the part plays in no stage of it."""
    rule, quantity = key.rule, lesson.timeline.quantity(key.rule.quantity)
    known = quantity.unit in KNOWN_UNITS and not quantity.companion
    (low, low_sound), (high, high_sound) = (
        (say(value), say(sound)) for value, sound in (key.values[0], key.values[-1])
    )
    return [
        {"letter": "", "science": low if known else "little", "sound": sound_text(rule, rule.to_low, low_sound)},
        {"letter": "", "science": high if known else "much", "sound": sound_text(rule, rule.to_high, high_sound)},
    ]


def _note(key: Key, part: Part, lesson: Lesson) -> str:
    if key.rule.control == "tempo" and key.for_pupils:
        return say(key.for_pupils)
    letters = note_letters(part, lesson.score) if key.rule.control == "pitch" else []
    return f"Arranged for your class: {span_text(letters)}." if letters else ""


def sound_text(rule: Rule, value: float, text: str) -> str:
    """A sound as a pupil reads it, without abbreviations and foreign terms."""
    if rule.control == "tempo":
        return f"{number_text(round(value))} beats a minute"
    if rule.control == "dynamics":
        return dynamic_word(velocity_mark(value))[1]
    if rule.control == "pitch":
        return "low notes" if value == min(rule.to_low, rule.to_high) else "high notes"
    return text
