"""What lies outside a rule or the scene's tempo, held at the end and reported: where, how far, what to write."""

from __future__ import annotations

import numpy as np

from sonify.mapping.advice import covering, from_ends, remedy
from sonify.mapping.audibility import Audit
from sonify.mapping.companions import ValueWords
from sonify.mapping.hearing import Hearing
from sonify.mapping.sound_words import sound_text, written_text
from sonify.records.controls import StageBars
from sonify.records.fact import own_text
from sonify.records.findings import Finding
from sonify.records.timeline import FloatArray

#: Reaching past the rule by less than this share of its range is a note, not a problem (our own limit): an end that was
#: rounded when it was written.
ROUNDING = 0.02
#: A rule of whose range less than this is ever met is worth a note (our own limit).
USED = 0.5


def held_beats(hearing: Hearing) -> int:
    """In how many beats, of those in which the rule sounds, the quantity lies outside the rule."""
    return int(np.count_nonzero(hearing.bound.outside(hearing.sounding)))


def held_findings(hearing: Hearing, found: Audit, words: ValueWords) -> list[Finding]:
    """One finding where the quantity leaves the rule's range while the rule sounds."""
    outside = hearing.bound.outside(hearing.sounding)
    if not np.any(outside):
        return []
    bound = hearing.bound
    low, high = float(hearing.sounding.min()), float(hearing.sounding.max())
    ends = []
    if outside.max() > 0.0:
        ends.append(_end(hearing, words, high, bound.curve.high, bound.curve.to_high, "rises to"))
    if outside.min() < 0.0:
        ends.append(_end(hearing, words, low, bound.curve.low, bound.curve.to_low, "falls to"))
    stages = [stage for stage in hearing.stages if np.any(bound.outside(hearing.values[hearing.beats(stage)]))]
    share = float(np.max(np.abs(outside))) / (bound.curve.high - bound.curve.low)
    return [
        Finding(
            kind="rule",
            message=f"The {bound.quantity.name} {', and '.join(ends)}. That is {held_beats(hearing)} of "
            f"{hearing.sounding.size} beats, in {_titles(stages)}.",
            fix=_fix(hearing, low, high) if found.good else remedy(hearing, found),
            part=bound.rule.part or "",
            where=f"{bound.rule.key}, {bound.place}: {_titles(stages)}",
            serious=share > ROUNDING,
        )
    ]


def unused_findings(hearing: Hearing, found: Audit, words: ValueWords) -> list[Finding]:
    """A note where the quantity stays within a small part of the rule's range, so that much of the sound is unused."""
    bound, (low, high) = hearing.bound, found.swing
    curve = bound.curve
    used = (min(high, curve.high) - max(low, curve.low)) / (curve.high - curve.low)
    if not hearing.stages or not found.good or used >= USED:
        return []
    wanted = from_ends(bound, min(low, curve.low), high) if low - curve.low <= curve.high - high else None
    wanted = wanted or from_ends(bound, low, high)
    if wanted is None:
        return []
    return [
        Finding(
            kind="rule",
            message=f"Where this rule sounds the {bound.quantity.name} goes from {words.text(low)} to "
            f"{words.text(high)}, a small part of {words.text(curve.low)} to {words.text(curve.high)}: much of "
            "the sound is never heard.",
            fix=f'Nothing to do, or write {wanted.text} in the rule "{bound.place}".',
            part=bound.rule.part or "",
            where=f"{bound.rule.key}, {bound.place}",
            serious=False,
        )
    ]


def tempo_limit_findings(hearing: Hearing) -> list[Finding]:
    """One finding where the rule asks for a tempo that the scene's limits do not allow."""
    if hearing.bound.rule.control != "tempo":
        return []
    music, rule = hearing.music, hearing.bound.rule
    asked: FloatArray = np.floor(hearing.bound.apply(hearing.values) + 0.5)
    beyond = [s for s in hearing.stages if np.any(asked[hearing.beats(s)] != hearing.results[hearing.beats(s)])]
    if not beyond:
        return []
    told = "; ".join(
        f"{stage.title} would be at {_tempi(asked[hearing.beats(stage)])} and is held at "
        f"{_tempi(hearing.results[hearing.beats(stage)])}"
        for stage in beyond
    )
    slowest, fastest = min(music.slowest_bpm, float(asked.min())), max(music.fastest_bpm, float(asked.max()))
    return [
        Finding(
            kind="rule",
            message=f"The tempo stays between {music.slowest_bpm:g} and {music.fastest_bpm:g} a minute: {told}.",
            fix=f"Write tempo = [{written_text('tempo', slowest)}, {written_text('tempo', fastest)}] in [music], "
            f'or other tempi in to of the rule "{hearing.bound.place}".',
            where=f"{rule.key}, {hearing.bound.place}: {_titles(beyond)}",
        )
    ]


def _end(hearing: Hearing, words: ValueWords, reached: float, end: float, sound: float, verb: str) -> str:
    text = sound_text(hearing.bound.rule.control, sound, hearing.music.metre.beats)
    return f"{verb} {words.apart(reached, end)} where the rule ends at {words.text(end)} and stays at {text}"


def _fix(hearing: Hearing, low: float, high: float) -> str:
    written = covering(hearing.bound, low, high)
    if written is not None:
        return f'Write {written.text} in the rule "{hearing.bound.place}".'
    return f'Write curve = "linear" in the rule "{hearing.bound.place}": a logarithmic curve cannot start from nothing.'


def _titles(stages: list[StageBars]) -> str:
    return ", ".join(own_text(stage.title) for stage in stages)


def _tempi(bpms: FloatArray) -> str:
    least, most = float(bpms.min()), float(bpms.max())
    return f"{least:g}" if least == most else f"{least:g} to {most:g}"
