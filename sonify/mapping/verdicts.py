"""The verdict of the ear in words, and the findings with what to write instead."""

from __future__ import annotations

from collections.abc import Iterable
from math import isinf

from sonify.mapping.advice import advice, remedy
from sonify.mapping.audibility import Audit, Step
from sonify.mapping.companions import ValueWords
from sonify.mapping.hearing import Hearing
from sonify.mapping.sound_words import sound_text
from sonify.mapping.thresholds import threshold
from sonify.records.findings import Finding
from sonify.records.words import number_text


def verdict(hearing: Hearing, found: Audit) -> str:
    """One or two sentences: what can be told apart, by how much, and where nothing is to be heard."""
    rule = hearing.bound.rule
    asked = f"we ask for {_amount(hearing, threshold(rule.control).asked)}"
    if not hearing.stages:
        return f"{rule.part} does not play in this piece, so there is nothing to hear."
    if _one_tempo(hearing):
        return "There is one stage, so there is one tempo and nothing to compare."
    if found.constant:
        return f"{_quantity(hearing)} does not change here, so there is nothing to hear."
    if not found.told_apart:
        most = max([step.difference for step in found.steps] + [move.difference for move in found.moves])
        return f"Nothing can be told apart: the largest difference is {_amount(hearing, most)}, and {asked}."
    parts = [f"Not every change can be heard. Lost: {_pairs(found.lost)}."] if found.lost else []
    if heard := [step.difference for step in found.steps if step.heard]:
        which = "The other neighbouring stages" if found.lost else "Neighbouring stages"
        rest = "" if len(heard) == len(found.steps) or found.lost else " where the science changes"
        parts.append(f"{which} differ by {_amount(hearing, min(heard))} or more{rest}; {asked}.")
    else:
        move = max(found.moves, key=lambda each: each.difference)
        parts.append(f"Within {move.stage.title} it changes by {_amount(hearing, move.difference)}; {asked}.")
    if quiet := [step for step in found.steps if step.unchanged]:
        parts += _nothing_between(hearing, found, quiet)
    if faint := [step for step in found.steps if step.faint]:
        parts.append(f"It changes a little {_pairs(faint)}, too little to hear.")
    return " ".join(parts)


def audibility_findings(hearing: Hearing, found: Audit, words: ValueWords) -> list[Finding]:
    """Problems that the teacher should mend, and notes of what is too small to hear."""
    if not hearing.stages:
        return [_finding(hearing, verdict(hearing, found), "Nothing to do, if the stage is meant to be missing.", ())]
    if _one_tempo(hearing):
        fix = "Write gliding = true in [music], and the tempo follows the quantity within the stage."
        return [_finding(hearing, verdict(hearing, found), fix, (), True)]
    if found.constant:
        message = f"{_quantity(hearing)} stays at {words.text(found.swing[0])} wherever this rule sounds"
        fix = "Hear a quantity that changes there, or leave the rule out."
        return [_finding(hearing, f"{message}, so its {hearing.bound.rule.control} never changes.", fix, (), True)]
    if not found.told_apart:
        swing = f"{words.text(found.swing[0])} to {words.text(found.swing[1])}"
        message = f"{verdict(hearing, found)} {_quantity(hearing)} goes from {swing} where the rule sounds."
        return [_finding(hearing, message, remedy(hearing, found), (), True)]
    findings = []
    if found.lost:
        fix = remedy(hearing, found)
        message = f"The science changes and the sound does not: {_described(hearing, found.lost, words)}."
        findings.append(_finding(hearing, message, fix, found.lost, True))
    if faint := [step for step in found.steps if step.faint]:
        message = f"A small change of the science is too small to hear: {_described(hearing, faint, words)}."
        better = advice(hearing, found, lambda audit: audit.good and not any(step.faint for step in audit.steps))
        fix = "Nothing to do." if better is None else f"Nothing to do, unless it matters to you. {better}"
        findings.append(_finding(hearing, message, fix, faint))
    if quiet := [step for step in found.steps if step.unchanged]:
        findings += _quiet_findings(hearing, found, quiet, words)
    return findings


def _moving(found: Audit, steps: Iterable[Step]) -> list[Step]:
    """Those steps of which a stage is heard to change within itself: only its average is like its neighbour's."""
    heard = [move.stage for move in found.moves if move.heard]
    return [step for step in steps if any(stage in heard for stage in step.stages)]


def _nothing_between(hearing: Hearing, found: Audit, quiet: list[Step]) -> list[str]:
    """What a rule cannot tell apart: its science is the same, or is the same on average only."""
    if hearing.averaged:
        return [f"The averages hardly change {_pairs(quiet)}, so the tempo cannot tell them apart."]
    moving = _moving(found, quiet)
    still = [step for step in quiet if step not in moving]
    said = []
    if moving:
        said.append(f"The averages are alike {_pairs(moving)}; the sound follows the curve within the stages.")
    if still:
        said.append(f"The science hardly changes {_pairs(still)}: nothing to hear, and that is right.")
    return said


def _quiet_findings(hearing: Hearing, found: Audit, quiet: list[Step], words: ValueWords) -> list[Finding]:
    if hearing.averaged:
        message = "Some neighbouring stages average nearly the same, so the tempo cannot tell them apart: "
        fix = (
            "Nothing to do where that is right. Where the curve moves within these stages, write gliding = true in "
            "[music], and the tempo follows it bar by bar; or part the piece into more stages."
        )
        return [_finding(hearing, f"{message}{_described(hearing, quiet, words)}.", fix, quiet)]
    moving = _moving(found, quiet)
    still = [step for step in quiet if step not in moving]
    same = "Only the averages are alike; the sound follows the curve within the stages: "
    right = "The science hardly changes, so there is nothing to hear, and that is right: "
    told = [(same + "on average, ", moving), (right, still)]
    return [
        _finding(hearing, f"{message}{_described(hearing, steps, words)}.", "Nothing to do.", steps)
        for message, steps in told
        if steps
    ]


def _one_tempo(hearing: Hearing) -> bool:
    return hearing.averaged and len(hearing.stages) == 1


def _quantity(hearing: Hearing) -> str:
    """The quantity as this rule hears it, at the start of a sentence."""
    return f"The {hearing.bound.rule.quantity}{', averaged over each stage,' if hearing.averaged else ''}"


def _finding(hearing: Hearing, message: str, fix: str, steps: Iterable[Step], serious: bool = False) -> Finding:
    rule = hearing.bound.rule
    place = f"{rule.key}, {hearing.bound.place}"
    where = f"{place}: {_pairs(steps)}" if steps else place
    return Finding(kind="audibility", message=message, fix=fix, part=rule.part or "", where=where, serious=serious)


def _pairs(steps: Iterable[Step]) -> str:
    return ", ".join(f"from {step.stages[0].title} to {step.stages[1].title}" for step in steps)


def _described(hearing: Hearing, steps: Iterable[Step], words: ValueWords) -> str:
    control, beats = hearing.bound.rule.control, hearing.music.metre.beats
    told = []
    for step in steps:
        one, other = (sound_text(control, sound, beats) for sound in step.sounds)
        told.append(
            f"from {step.stages[0].title} to {step.stages[1].title} the {hearing.bound.rule.quantity} goes from "
            f"{words.text(step.values[0])} to {words.text(step.values[1])}, the {control} from {one} to {other} "
            f"({_amount(hearing, step.difference)} of the {_amount(hearing, threshold(control).asked)} we ask for)"
        )
    return "; ".join(told)


def _amount(hearing: Hearing, difference: float) -> str:
    """A difference in the unit of its threshold: "5 %", "2.1 dB", "1 semitone"."""
    if isinf(difference):
        return "the step from silence"
    number = number_text(difference, 2)
    unit = threshold(hearing.bound.rule.control).unit
    return f"{number} {'semitone' if unit == 'semitones' and number == '1' else unit}"
