"""The verdict of the ear, and the findings with what to write instead."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import isinf

from sonify.mapping.advice import Mend, advice, remedy
from sonify.mapping.audibility import MUCH, Audit, HeardStep, Move
from sonify.mapping.companions import ValueWords
from sonify.mapping.exaggeration import as_strong
from sonify.mapping.hearing import Hearing
from sonify.mapping.sound_words import sound
from sonify.mapping.thresholds import asked
from sonify.records.controls import StageBars
from sonify.records.fact import Amount, Arg, Claim, Fact, Named, Reading, Words, fact
from sonify.records.findings import Finding

#: What the differences are: the audit worked them out from what is heard in the stages that the sentence names.
_AUDITED = "measured by the audit of the stages named"


def verdict(hearing: Hearing, found: Audit) -> Words:
    """One or two sentences: what can be told apart, by how much, and where nothing is to be heard."""
    rule = hearing.bound.rule
    least = _asked(hearing)
    if not hearing.stages:
        return fact("ear-not-played", part=rule.part or "")
    if _one_tempo(hearing):
        return fact("ear-one-tempo")
    if found.flat:
        return _flat(hearing)
    if found.constant:
        return fact("ear-constant", _still(hearing), quantity=_quantity(hearing), averaged=_averaged(hearing))
    if _as_science(hearing):
        return fact("ear-as-science", as_strong(hearing.bound), quantity=_quantity(hearing))
    if not found.told_apart:
        most = max([step.difference for step in found.steps] + [move.difference for move in found.moves])
        return fact("ear-nothing-apart", most=_amount(hearing, most), asked=least)
    parts: list[Words] = (
        [fact("ear-lost", *_alike(hearing, found.lost), pairs=_pairs(found.lost))] if found.lost else []
    )
    if heard := [step for step in found.steps if step.heard]:
        which = "other" if found.lost else "all" if len(heard) == len(found.steps) else "changing"
        nearest = min(step.difference for step in heard)
        claims = _apart(hearing, heard, nearest)
        parts.append(
            fact(
                "ear-neighbours",
                *claims,
                which=which,
                subject=_subject(hearing),
                least=_amount(hearing, nearest),
                asked=least,
            )
        )
    else:
        move = max(found.moves, key=lambda each: each.difference)
        parts.append(
            fact(
                "ear-within",
                _within(hearing, move),
                stage=move.stage.title,
                most=_amount(hearing, move.difference),
                asked=least,
            )
        )
    if quiet := [step for step in found.steps if step.unchanged]:
        parts += _nothing_between(hearing, found, quiet)
    if faint := [step for step in found.steps if step.faint]:
        parts.append(
            fact("ear-faint", *_alike(hearing, faint), pairs=_pairs(faint), held="yes" if hearing.averaged else "no")
        )
    return tuple(parts)


def audibility_findings(hearing: Hearing, found: Audit, values: ValueWords) -> list[Finding]:
    """Problems that the teacher should mend, and notes of what is too small to hear."""
    if not hearing.stages:
        return [_finding(hearing, verdict(hearing, found), (), ())]
    if _one_tempo(hearing):
        return [_finding(hearing, verdict(hearing, found), fact("mend-let-it-glide"), (), True)]
    if found.flat:
        return [_finding(hearing, verdict(hearing, found), (), ())]
    if found.constant:
        message = fact(
            "ear-stays",
            _still(hearing),
            quantity=_quantity(hearing),
            averaged=_averaged(hearing),
            value=values.told(found.swing[0]),
            control=hearing.bound.rule.control,
        )
        return [_finding(hearing, message, fact("mend-hear-another"), (), True)]
    if _as_science(hearing):
        return []
    if not found.told_apart:
        goes = fact(
            "ear-goes",
            quantity=_quantity(hearing),
            averaged=_averaged(hearing),
            low=values.told(found.swing[0]),
            high=values.told(found.swing[1]),
        )
        return [_finding(hearing, (verdict(hearing, found), goes), remedy(hearing, found), (), True)]
    findings = []
    if found.lost:
        message = fact(
            "ear-change-not-heard",
            *_alike(hearing, found.lost),
            subject=_subject(hearing),
            steps=_described(hearing, found.lost, values),
        )
        findings.append(_finding(hearing, message, remedy(hearing, found), found.lost, True))
    if faint := [step for step in found.steps if step.faint]:
        described = _described(hearing, faint, values)
        message = fact("ear-small-change", *_alike(hearing, faint), subject=_subject(hearing), steps=described)
        better = advice(hearing, found, lambda audit: audit.good and not any(step.faint for step in audit.steps))
        fix: Words | Mend = ()
        if better is not None:
            fix = replace(better, words=fact("mend-if-it-matters", write=better.words))
        findings.append(_finding(hearing, message, fix, faint))
    if quiet := [step for step in found.steps if step.unchanged]:
        findings += _quiet_findings(hearing, found, quiet, values)
    return findings


def _flat(hearing: Hearing) -> Fact:
    """That a compared quantity hardly changes: the middle of what all of them do is far more than what it does."""
    whole = (hearing.stages[0].start_s, hearing.stages[-1].end_s)
    most, least = (
        Reading(how=how, of=hearing.bound.quantity.name, start=whole[0], end=whole[1]) for how in ("most", "least")
    )
    little = Reading(how="fixed", level=MUCH * hearing.shared_swing)
    claim = Claim(kind="at most", left=replace(most, less=least), right=little)
    return fact("ear-flat-beside", claim, quantity=_quantity(hearing))


def _still(hearing: Hearing) -> Claim:
    first, last = hearing.stages[0], hearing.stages[-1]
    of = hearing.bound.quantity.name
    left = Reading(how="mean" if hearing.averaged else "first", of=of, start=first.start_s, end=first.end_s)
    right = Reading(how="mean" if hearing.averaged else "first", of=of, start=last.start_s, end=last.end_s)
    return Claim(kind="same", left=left, right=right, slack=1e-6)


def _apart(hearing: Hearing, steps: Iterable[HeardStep], least: float) -> Iterator[Claim]:
    """That what is heard in the two stages of each step differs by so much."""
    for step in steps:
        one, other = _heard(hearing, *step.stages)
        yield _differs(hearing, one, other, least)


def _within(hearing: Hearing, move: Move) -> Claim:
    """That two quarters of a stage differ by so much."""
    if hearing.recorded(move.stage):
        one, other = (_level(hearing, start, end) for start, end in move.bars)
    else:
        one, other = (
            Reading(how="mean by rule", of=hearing.bound.rule.key, start=start, end=end) for start, end in move.quarters
        )
    return _differs(hearing, one, other, move.difference)


def _differs(hearing: Hearing, one: Reading, other: Reading, by: float) -> Claim:
    """By so much; from silence by as much as we ask for."""
    by = asked(hearing.bound.rule.control, hearing.youngest) if isinf(by) else by
    return Claim(kind="told apart", left=one, right=other, slack=by)


def _alike(hearing: Hearing, steps: Iterable[HeardStep]) -> Iterator[Claim]:
    """That it differs by less than we ask for."""
    by = asked(hearing.bound.rule.control, hearing.youngest)
    for step in steps:
        one, other = _heard(hearing, *step.stages)
        yield Claim(kind="not told apart", left=one, right=other, slack=by)


def _heard(hearing: Hearing, *stages: StageBars) -> list[Reading]:
    """What is heard of the rule in stages: the beat of their bars, how loud the recording plays the part, or what the
    rule makes of the quantity there."""
    if hearing.bound.rule.control == "tempo":
        return [Reading(how="bpm", start=float(stage.bar), end=float(stage.bar + stage.bars)) for stage in stages]
    if hearing.recorded(*stages):
        return [_level(hearing, float(stage.bar), float(stage.bar + stage.bars)) for stage in stages]
    key = hearing.bound.rule.key
    return [Reading(how="mean by rule", of=key, start=stage.start_s, end=stage.end_s) for stage in stages]


def _level(hearing: Hearing, start_bar: float, end_bar: float) -> Reading:
    return Reading(how="level played", of=hearing.bound.rule.part or "", start=start_bar, end=end_bar)


def _moving(found: Audit, steps: Iterable[HeardStep]) -> list[HeardStep]:
    """Those steps of which a stage is heard to change within itself: only its average is like its neighbour's."""
    heard = [move.stage for move in found.moves if move.heard]
    return [step for step in steps if any(stage in heard for stage in step.stages)]


def _nothing_between(hearing: Hearing, found: Audit, quiet: list[HeardStep]) -> list[Fact]:
    """What a rule cannot tell apart: its science is the same, or is the same on average only."""
    if hearing.averaged:
        return [fact("ear-averages-alike", *_alike(hearing, quiet), pairs=_pairs(quiet), control="tempo")]
    moving = _moving(found, quiet)
    still = [step for step in quiet if step not in moving]
    said = []
    if moving:
        said.append(fact("ear-averages-alike", *_alike(hearing, moving), pairs=_pairs(moving), control="other"))
    if still:
        said.append(fact("ear-hardly-changes", *_alike(hearing, still), subject=_subject(hearing), pairs=_pairs(still)))
    return said


def _quiet_findings(hearing: Hearing, found: Audit, quiet: list[HeardStep], values: ValueWords) -> list[Finding]:
    if hearing.averaged:
        message = fact("ear-same-average-tempo", *_alike(hearing, quiet), steps=_described(hearing, quiet, values))
        return [_finding(hearing, message, fact("mend-glide-or-part"), quiet)]
    moving = _moving(found, quiet)
    still = [step for step in quiet if step not in moving]
    subject: dict[str, Arg] = {"subject": _subject(hearing)}
    rows: tuple[tuple[str, dict[str, Arg], list[HeardStep]], ...] = (
        ("ear-same-average", {}, moving),
        ("ear-hardly-changes-told", subject, still),
    )
    return [
        _finding(
            hearing,
            fact(message, *_alike(hearing, steps), **told, steps=_described(hearing, steps, values)),
            (),
            steps,
        )
        for message, told, steps in rows
        if steps
    ]


def _one_tempo(hearing: Hearing) -> bool:
    return hearing.averaged and len(hearing.stages) == 1


def _as_science(hearing: Hearing) -> bool:
    """A beat that exaggerates nothing: it plays what the science gives, small steps too."""
    return hearing.averaged and hearing.bound.as_science


def _quantity(hearing: Hearing) -> Named:
    return Named("quantity", hearing.bound.rule.quantity)


def _subject(hearing: Hearing) -> str:
    """What changes or stays: the science, or a drawing, which is none."""
    return "drawing" if hearing.bound.quantity.drawn else "science"


def _averaged(hearing: Hearing) -> str:
    return "yes" if hearing.averaged else "no"


def _finding(
    hearing: Hearing, message: Words, fix: Words | Mend, steps: Iterable[HeardStep], serious: bool = False
) -> Finding:
    return Finding(
        kind="audibility",
        message=message,
        fix=fix.words if isinstance(fix, Mend) else fix,
        change=fix.change if isinstance(fix, Mend) else None,
        part=hearing.bound.rule.part or "",
        where=place(hearing, [stage for step in steps for stage in step.stages]),
        serious=serious,
    )


def place(hearing: Hearing, stages: Iterable[StageBars] = ()) -> Fact:
    """Where a finding belongs: the rule as the scene has it, and the stages it is about."""
    rule = hearing.bound.rule
    titles: tuple[Arg, ...] = tuple(dict.fromkeys(stage.title for stage in stages))
    named: dict[str, Arg] = {"key": rule.key, "rule": named_rule(hearing)}
    return fact("rule-place-stages", **named, stages=titles) if titles else fact("rule-place", **named)


def named_rule(hearing: Hearing) -> Fact:
    """The rule in words: "rain rate as density for The rain"."""
    rule = hearing.bound.rule
    named = {"quantity": Named("quantity", rule.quantity), "control": Named("control", rule.control)}
    return fact("rule-name-of-part", **named, part=rule.part) if rule.part else fact("rule-name", **named)


def _pairs(steps: Iterable[HeardStep]) -> tuple[Arg, ...]:
    return tuple(fact("ear-pair", one=step.stages[0].title, other=step.stages[1].title) for step in steps)


def _described(hearing: Hearing, steps: Iterable[HeardStep], values: ValueWords) -> Fact:
    control, beats = hearing.bound.rule.control, hearing.music.metre.beats
    wanted = asked(control, hearing.youngest)
    told: list[Arg] = []
    for step in steps:
        digits = _telling(step.difference, wanted)
        one, other = (sound(control, each, beats) for each in step.sounds)
        before, after = (values.told(value) for value in step.values)
        told.append(
            fact(
                "ear-step",
                one=step.stages[0].title,
                other=step.stages[1].title,
                quantity=_quantity(hearing),
                before=before,
                after=after,
                same="yes" if before == after else "no",
                control=Named("control", control),
                sound_before=one,
                sound_after=other,
                difference=_amount(hearing, step.difference, digits),
                asked=_amount(hearing, wanted, digits),
            )
        )
    return fact("ear-steps", steps=tuple(told))


def _asked(hearing: Hearing) -> Fact:
    return _amount(hearing, asked(hearing.bound.rule.control, hearing.youngest))


def _telling(difference: float, wanted: float) -> int:
    """How many digits tell a difference from what is asked for: "3.96 dB of the 4 dB", and not "4 dB of the 4 dB"."""
    return next((n for n in (2, 3, 4) if f"{difference:.{n}g}" != f"{wanted:.{n}g}"), 2)


def _amount(hearing: Hearing, difference: float, digits: int = 2) -> Fact:
    """A difference in the unit of its threshold: "5 %", "2.1 dB", "1 semitone"."""
    if isinf(difference):
        return fact("ear-from-silence")
    one = f"{difference:.{digits}g}" == "1"
    figure = Amount(value=difference, digits=digits, given=_AUDITED)
    return fact("ear-amount", control=hearing.bound.rule.control, amount=figure, n=1 if one else 2)
