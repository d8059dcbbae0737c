""" "Our sound, and why" in three versions: for everyone, with help, and with more to think about."""

from __future__ import annotations

from typing import Any

from sonify.paper.facts import mean_bpm, stage_figure, stage_mean
from sonify.paper.rules import CONTROL_WORDS, KNOWN_UNITS, rule_rows, rules_for, subject_of
from sonify.records.controls import Key
from sonify.records.lesson import Lesson
from sonify.records.score import Part
from sonify.records.timeline import Quantity
from sonify.records.words import number_text
from sonify.say import say
from sonify.units import convert

#: Each dimension of music: what it means, how sentences about it may start, the control that calls for it ("": always),
#: and, with help, the words to choose from and the picture beside them.
STARTERS = (
    ("Tempo", "how fast or slow the beat is", ("Ours was", "This shows that"), "", ("fast", "slow")),
    ("Pitch", "how high or low the notes are", ("Ours was", "This shows that"), "pitch", ("high", "low")),
    ("Dynamics", "how loud or soft the sound is", ("Ours was", "This shows that"), "dynamics", ("loud", "soft")),
    ("How many taps", "few or many sounds", ("Ours was", "This shows that"), "density", ("many", "few")),
    ("Brightness", "a dark or a bright sound", ("Ours was", "This shows that"), "brightness", ("bright", "dark")),
    ("Timbre", "what kind of sound it is", ("Our sound fits because", "It sounds like"), "", ("ringing", "short")),
)
#: Always on the sheet, whatever the rules of a lesson use.
ALWAYS = ("Tempo", "Pitch", "Dynamics", "Timbre")
#: How the sentence begins that pupils end with help.
END, ENDS = "This shows that the", {"Timbre": "Our sound fits because"}
BACKWARDS = "What would you hear if we played the piece from the end to the start? What would it mean?"
WHAT_IF = "What if the {name} were twice as big in “{stage}”? What would change in the music?"
NOT_HEARD = "not heard here"
IN_SENTENCES = "Write two sentences. Use three words from “Words to know”."
NOT_REAL = "Our music is a model. Write one way in which it is not like the real thing."


def starters(lesson: Lesson) -> list[dict[str, Any]]:
    """Tempo, pitch, dynamics and timbre for everyone, and what else the rules of this lesson's groups use."""
    used = _controls(lesson)
    return [
        {
            "name": n,
            "meaning": m,
            "starts": list(s),
            "all": not control,
            "choices": list(choices),
            "end": ENDS.get(n, END),
        }
        for n, m, s, control, choices in STARTERS
        if n in ALWAYS or control in used
    ]


def _controls(lesson: Lesson) -> set[str]:
    return {key.rule.control for part in lesson.score.group_parts for key in rules_for(part, lesson)}


def support(lesson: Lesson) -> dict[str, Any]:
    """With help: two words to tick and a sentence to end, with the science words that it needs."""
    told = [subject_of(key, lesson) for key, _ in _heard(lesson)]
    return {
        "rows": starters(lesson),
        "bank": [*dict.fromkeys(quantity.name for quantity in told), *compared(told)],
        "stages": [{"letter": s.letter, "title": say(s.title)} for s in lesson.score.sections],
    }


def compared(told: list[Quantity]) -> list[str]:
    """Words to compare these quantities with: those of warmth and of size only where one is measured so."""
    units = {quantity.unit for quantity in told}
    warmth = ["warmer", "colder"] if "degC" in units else []
    size = ["bigger", "smaller"] if units & {"m", "km", "cm", "mm", "g", "kg"} else []
    return ["more", "less", *warmth, *size]


def stretch(lesson: Lesson) -> dict[str, Any]:
    """More to think about: the computed figures of one rule, and questions that they can answer."""
    words = [IN_SENTENCES] if lesson.scene.vocabulary else []
    for key, part in _heard(lesson):
        rows = _figures(key, part, lesson)
        if len({figure for _, figure, _ in rows}) > 1:
            name = subject_of(key, lesson).name
            heard = next((stage for stage, _, sound in rows if sound != NOT_HEARD), rows[0][0])
            change = f"Where does the {name} change most from one stage to the next? How do you hear it?"
            return {
                "head": ["Stage", name, CONTROL_WORDS[key.rule.control]],
                "rows": rows,
                "ask": [change, *(_fair(key) or [WHAT_IF.format(name=name, stage=heard)]), *words, NOT_REAL],
            }
    return {"rows": [], "head": [], "ask": [BACKWARDS, *words, NOT_REAL]}


def _figures(key: Key, part: Part, lesson: Lesson) -> list[list[str]]:
    """Each stage with its average of the quantity, as the cards have it, and its sound.

    None in a unit that pupils do not know.
    """
    quantity = subject_of(key, lesson)
    if quantity.unit not in (*KNOWN_UNITS, "1"):
        return []
    sounds: dict[str, list[str]] = {}
    for row in rule_rows(key, part, lesson)["rows"]:
        sounds.setdefault(row["letter"], []).append(row["sound"])
    found = []
    for section in lesson.score.sections:
        value = float(convert(stage_mean(quantity, section, lesson), quantity.si_unit, quantity.unit))
        sound = ", ".join(dict.fromkeys(sounds.get(section.letter, [NOT_HEARD])))
        if key.rule.control == "tempo":
            sound = f"{number_text(round(mean_bpm(lesson.score, section)))} beats a minute"
        elif lesson.scaffold == "open":
            sound = "you choose"
        found.append([say(section.title), stage_figure(value, quantity.unit), sound])
    return found


def _fair(key: Key) -> list[str]:
    return [f"{say(key.for_pupils)} Why did we do that? Is it fair?"] if key.for_pupils else []


def _heard(lesson: Lesson) -> list[tuple[Key, Part]]:
    """The rules that somebody plays, each with the first part that does; the whole piece's first."""
    heard = [(key, part) for part in lesson.score.group_parts for key in rules_for(part, lesson)]
    first = [next((pair for pair in heard if pair[0] == key), None) for key in lesson.controls.keys]
    return sorted((pair for pair in first if pair is not None), key=lambda pair: pair[0].rule.part is not None)
