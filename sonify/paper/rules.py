"""What a group's sound means: its rules, stage by stage, in words and units that a nine-year-old knows."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from typing import Any

import numpy as np

from sonify.facts.sheet import beat_of, held, in_bars, rises, science_facts, subject_of, told_in_figures
from sonify.kinds.instruments import ONE_SOUND
from sonify.kinds.marks import DYNAMICS
from sonify.paper.facts import playing
from sonify.paper.strips import note_letters, span_text
from sonify.records.controls import ControlCurve, Key
from sonify.records.fact import Amount, Claim, Words, fact
from sonify.records.lesson import Lesson
from sonify.records.scene import Rule
from sonify.records.score import Part, Section
from sonify.records.timeline import FloatArray
from sonify.records.words import inside_mark, velocity_mark
from sonify.say import say
from sonify.say.parts import dynamic_words, number

__all__ = ["bright_text", "loud_text", "played_marks", "rises", "rule_rows", "rules_for", "science_text", "subject_of"]

#: From so bright a note up: soft, medium, hard, as the beaters of `arrange` step.
BRIGHT = (0.0, 0.4, 0.6)
#: A mark still stands for a bar whose notes leave its own velocities by no more (as `arrange` puts marks).
MARK_STAYS = 5.0
#: A rule for brightness is heard if stages that it sets apart by so much are played in its order.
BRIGHT_STEP = 0.2


def rules_for(part: Part, lesson: Lesson) -> list[Key]:
    """The rules that this part can be heard to follow: its own, and the piece's that its instrument can show; none for
    the quiet beat of a group that waits."""
    if part.pulse:
        return []
    pitched = lesson.score.instrument(part.instrument).pitched
    shows = {"tempo", "dynamics", "brightness"}
    shows |= {"pitch"} if pitched and part.texture == "melody" else set()
    shows |= {"density"} if part.texture == "scatter" else set()
    own = [key for key in lesson.controls.keys if is_own(key, part, lesson) and _is_played(key, part, lesson)]
    taken = {key.rule.control for key in own}
    shared = [k for k in lesson.controls.keys if k.rule.part is None and k.rule.control in shows - taken]
    return own + shared


def is_own(key: Key, part: Part, lesson: Lesson) -> bool:
    """Whether a rule is for this part: groups that share a part of the scene share its rules."""
    return key.rule.part == lesson.scene.plan_name(part.name)


def _is_played(key: Key, part: Part, lesson: Lesson) -> bool:
    """False for a rule that the notes do not follow: of brightness, since some instruments sound alike with any beater;
    of pitch, where a group that shares a tune has no notes."""
    rule, beats = key.rule, lesson.score.metre.beats
    if rule.control == "pitch":
        return lesson.score.instrument(part.instrument).pitched
    curve = _curve(rule, part, lesson)
    if rule.control != "brightness" or curve is None:
        return True
    if all(lesson.score.instrument(seat.instrument).struck_with == ONE_SOUND for seat in part.seats):
        return False
    found = []
    for section in lesson.score.sections:
        first, end = (section.bar - 1) * beats, (section.bar - 1 + section.bars) * beats
        heard = [note.brightness for note in part.notes if first <= note.beat < end]
        if heard:
            found.append((float(np.mean(curve.results[first:end])), float(np.mean(heard))))
    pairs = [(b[0] - a[0], b[1] - a[1]) for a, b in combinations(sorted(found), 2)]
    return all(played > 0.0 for asked, played in pairs if asked >= BRIGHT_STEP)


def _curve(rule: Rule, part: Part, lesson: Lesson) -> ControlCurve | None:
    own = (rule.part, lesson.scene.plan_name(part.name))
    return next((curve for curve in lesson.controls.curves if curve.rule == rule and curve.part in own), None)


def rule_rows(key: Key, part: Part, lesson: Lesson) -> dict[str, Any]:
    """A rule as a card tells it: why, and for each stage the part plays in, the science and the sound.

    A word such as "some" in one stage alone compares with nothing: then the rule's two ends are told.
    """
    control = key.rule.control
    staged = _stages(key, part, lesson)
    science = _science(key, lesson, [section for section, _, _ in staged])
    rows = [
        {"letter": section.letter, "science": science[section.name], "sound": say(sound), "short": say(short)}
        for section, sound, short in staged
    ]
    return {
        "head": say(fact(f"meaning-head-{control}")),
        "unit": say(fact(f"meaning-unit-{control}")),
        "why": key.rule.why,
        "of": subject_of(key, lesson).name,
        "rows": rows if len(rows) > 1 or _stands_alone(key, rows, lesson) else _ends(key, lesson),
        "note": _note(key, part, lesson),
    }


def _stands_alone(key: Key, rows: list[dict[str, Any]], lesson: Lesson) -> bool:
    return bool(rows) and told_in_figures(subject_of(key, lesson), lesson)


def sections_of(part: Part, lesson: Lesson) -> list[Section]:
    """The stages in which a part plays."""
    runs = playing(part, lesson.score)
    return [
        section
        for section in lesson.score.sections
        if any(first < section.bar + section.bars and section.bar < first + bars for first, bars in runs)
    ]


def _stages(key: Key, part: Part, lesson: Lesson) -> list[tuple[Section, Words, Words]]:
    """The stages in which the rule has a beat of the part, each with its sound, in full and in short."""
    rule, beats = key.rule, lesson.score.metre.beats
    curve = _curve(rule, part, lesson)
    if curve is None:
        return []
    found = []
    for section in sections_of(part, lesson):
        # the beat is made of the whole stage's mean, all else is heard where the part plays
        runs = [(section.bar, section.bars)] if rule.control == "tempo" else playing(part, lesson.score)
        at = np.array(
            [
                beat
                for first, bars in runs
                for beat in range((first - 1) * beats, (first - 1 + bars) * beats)
                if (section.bar - 1) * beats <= beat < (section.bar - 1 + section.bars) * beats
            ]
        )
        at = at[at < curve.results.size]
        if at.size:
            found.append((section, *_sound(key, part, section, curve.results[at], lesson)))
    return found


def _science(key: Key, lesson: Lesson, sections: list[Section]) -> dict[str, str]:
    """The stages' means of what a rule follows: the same words on every card, whichever part plays and when."""
    every = frozenset(section.name for section in lesson.score.sections)
    told = science_facts(subject_of(key, lesson), lesson, every)
    return {section.name: say(told[section.name]) for section in sections}


def science_text(key: Key, section: Section, lesson: Lesson) -> str:
    """One stage's science for pupils."""
    return _science(key, lesson, [section])[section.name]


def _sound(key: Key, part: Part, section: Section, results: FloatArray, lesson: Lesson) -> tuple[Words, Words]:
    """What is heard in a stage, from the notes and marks themselves, in full and for a narrow table."""
    control = key.rule.control
    if control == "tempo":
        beat = beat_of(lesson, section)
        return held(fact("meaning-beats", bpm=beat), lesson), held(fact("meaning-bpm", bpm=beat), lesson)
    if control == "density":
        return taps_facts(part, section.bar, section.bars, lesson)
    if control == "pitch":
        letters = note_letters(part, lesson.score, section.bar, section.bars)
        told = span_text(letters) or height_text(key.rule, float(np.mean(results)))
    elif control == "brightness":
        told = bright_text(part, section.bar, section.bars, lesson)
    else:
        told = loud_text(part, section, lesson)
    return told, told


def loud_text(part: Part, section: Section, lesson: Lesson) -> str:
    """How loud the part plays in a stage: 'soft', where it changes 'soft, then loud', and where it goes
    beyond both of these 'between soft and loud'."""
    marks = played_marks(part, section.bar, section.bars, lesson)
    if not marks:
        return choose()
    ordered = sorted(set(marks), key=lambda mark: DYNAMICS[mark])
    low, high = (dynamic_words(mark) for mark in (ordered[0], ordered[-1]))
    if len(ordered) == 1:
        return low
    if {marks[0], marks[-1]} == {ordered[0], ordered[-1]}:
        return say(fact("meaning-then", first=dynamic_words(marks[0]), last=dynamic_words(marks[-1])))
    return say(fact("meaning-between", low=low, high=high))


def choose() -> str:
    """What stands where pupils decide how it sounds."""
    return say(fact("meaning-choose"))


def played_marks(part: Part, from_bar: int, in_all: int, lesson: Lesson) -> list[str]:
    """How loud the part's notes are in so many bars, where that changes; none where pupils choose.

    A bar has the mark that stands there, as long as its notes are near it; within a hairpin they leave it.
    """
    own = {bar for blank in part.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
    bars = [
        bar
        for first, count in playing(part, lesson.score)
        for bar in range(first, first + count)
        if from_bar <= bar < from_bar + in_all and bar not in own
    ]
    if not part.dynamics:
        return []
    loud: dict[int, list[int]] = {}
    for note in part.notes:
        loud.setdefault(int(note.beat // lesson.score.metre.beats) + 1, []).append(note.velocity)
    found = []
    for bar in bars:
        if bar in loud:
            velocity = float(np.mean(loud[bar]))
            stands = [mark.mark for mark in part.dynamics if mark.bar <= bar][-1:]
            near = [mark for mark in stands if inside_mark(mark, velocity, MARK_STAYS)]
            found += near or [velocity_mark(velocity)]
    return [mark for mark, before in zip(found, ["", *found], strict=False) if mark != before]


def height_text(rule: Rule, midi: float) -> str:
    """How high a pitch lies in its rule's range, in thirds: for pupils who choose their own notes."""
    low, high = sorted((rule.to_low, rule.to_high))
    third = min(2, max(0, int(3 * (midi - low) / (high - low))))
    return say(fact("meaning-heights", third=third))


def bright_level(part: Part, first: int, bars: int, lesson: Lesson) -> int | None:
    """How bright the part's notes in these bars are, on average; None where it plays none."""
    beats = lesson.score.metre.beats
    start, end = (first - 1) * beats, (first - 1 + bars) * beats
    levels = [note.brightness for note in part.notes if start <= note.beat < end]
    if not levels:
        return None
    return _shade(float(np.mean(levels)))


def _shade(brightness: float) -> int:
    return max(place for place, least in enumerate(BRIGHT) if brightness >= least)


def bright_text(part: Part, first: int, bars: int, lesson: Lesson) -> str:
    """The same in words: beaters or hands, soft to hard."""
    level = bright_level(part, first, bars, lesson)
    return choose() if level is None else say(fact("meaning-bright", level=level))


def taps_facts(part: Part, first: int, bars: int, lesson: Lesson) -> tuple[Words, Words]:
    """The group's taps a bar as written, over those of these bars that are its turn: a bar of silence counts there.

    The last bar of the piece is not counted beside others: there all end together, whatever the rule asks for.
    """
    beats = lesson.score.metre.beats
    bars -= first + bars - 1 == lesson.score.bars and bars > 1
    written = [int(note.beat // beats) + 1 for note in part.notes]
    struck = sum(first <= bar < first + bars for bar in written)
    if not struck:
        return fact("meaning-choose"), fact("meaning-choose")
    turn = {bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)} | set(written)
    turns = sum(first <= bar < first + bars for bar in turn)
    if (taps := round(struck / turns)) == 0:
        seldom = Claim(kind="plays", left=in_bars("bars sounding", first, bars, part.name))
        return fact("meaning-taps-seldom", seldom), fact("meaning-taps-seldom-short", seldom)
    source = replace(in_bars("strokes a bar", first, bars, part.name), times=bars / turns)
    count = Amount(value=taps, places=0, source=source)
    loose = fact("meaning-any-taps")
    blank = any(first < b.bar + b.bars and b.bar < first + bars for b in part.blanks)  # what is written is not all
    own = "yes" if blank else "no"
    return (
        held(fact("meaning-taps", n=taps, count=count, own=own).or_else(loose), lesson),
        held(fact("meaning-taps-short", count=count, own=own).or_else(loose), lesson),
    )


def _ends(key: Key, lesson: Lesson) -> list[dict[str, str]]:
    """The two ends of the rule, where the part plays in no stage of it or in one alone."""
    rule, subject = key.rule, subject_of(key, lesson)
    known = told_in_figures(subject, lesson) and subject.name == rule.quantity
    (low, low_sound), (high, high_sound) = (
        (say(value), say(sound)) for value, sound in (key.values[0], key.values[-1])
    )
    little, much = (say(fact(f"meaning-{name}")) for name in ("little", "much"))
    return [
        {"letter": "", "science": low if known else little, "sound": sound_text(rule, rule.to_low, low_sound)},
        {"letter": "", "science": high if known else much, "sound": sound_text(rule, rule.to_high, high_sound)},
    ]


def _note(key: Key, part: Part, lesson: Lesson) -> str:
    if key.rule.control == "tempo" and key.for_pupils and key.audible:
        return say(key.for_pupils)
    letters = note_letters(part, lesson.score) if key.rule.control == "pitch" else []
    return say(fact("meaning-arranged", span=span_text(letters))) if letters else ""


def sound_text(rule: Rule, value: float, text: str) -> str:
    """A sound as a pupil reads it, without abbreviations and foreign terms."""
    if rule.control == "tempo":
        return say(fact("meaning-beats-of-rule", bpm=number(round(value))))
    if rule.control == "dynamics":
        return dynamic_words(velocity_mark(value))
    if rule.control == "pitch":
        return say(fact("meaning-heights", third=0 if value == min(rule.to_low, rule.to_high) else 2))
    if rule.control == "brightness":  # the key's words speak of beaters, which not every instrument has
        return say(fact("meaning-bright", level=_shade(value)))
    return text
