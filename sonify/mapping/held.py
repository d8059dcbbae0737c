"""What lies outside a rule or the scene's tempo, held at the end and reported: where, how far, what to write."""

from __future__ import annotations

import numpy as np

from sonify.mapping.advice import Mend, covering, from_ends, remedy, written
from sonify.mapping.audibility import Audit
from sonify.mapping.companions import ValueWords
from sonify.mapping.hearing import Hearing
from sonify.mapping.sound_words import sound, written_text
from sonify.mapping.timemap import whole_bpms
from sonify.mapping.verdicts import named_rule, place
from sonify.records.fact import Amount, Fact, Named, Words, fact
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


def held_findings(hearing: Hearing, found: Audit, values: ValueWords) -> list[Finding]:
    """One finding where the quantity leaves the rule's range while the rule sounds."""
    outside = hearing.bound.outside(hearing.sounding)
    if not np.any(outside):
        return []
    bound = hearing.bound
    low, high = float(hearing.sounding.min()), float(hearing.sounding.max())
    ends: list[Words] = []
    if outside.max() > 0.0:
        ends.append(_end(hearing, values, high, bound.curve.high, bound.curve.to_high, "up"))
    if outside.min() < 0.0:
        ends.append(_end(hearing, values, low, bound.curve.low, bound.curve.to_low, "down"))
    stages = [stage for stage in hearing.stages if np.any(bound.outside(hearing.values[hearing.beats(stage)]))]
    mend = _fix(hearing, low, high) if found.good else remedy(hearing, found)
    share = float(np.max(np.abs(outside))) / (bound.curve.high - bound.curve.low)
    counted = fact(
        "rule-held-beats", held=held_beats(hearing), beats=hearing.sounding.size, stages=tuple(s.title for s in stages)
    )
    return [
        Finding(
            kind="rule",
            message=(*ends, counted),
            fix=mend.words,
            change=mend.change,
            part=bound.rule.part or "",
            where=place(hearing, stages),
            serious=share > ROUNDING,
        )
    ]


def unused_findings(hearing: Hearing, found: Audit, values: ValueWords) -> list[Finding]:
    """A note where the quantity stays within a small part of the rule's range, so that much of the sound is unused."""
    bound, (low, high) = hearing.bound, found.swing
    curve = bound.curve
    used = (min(high, curve.high) - max(low, curve.low)) / (curve.high - curve.low)
    if not hearing.stages or not found.good or used >= USED or hearing.shared_swing:  # one range for all is fair
        return []
    wanted = from_ends(bound, min(low, curve.low), high) if low - curve.low <= curve.high - high else None
    wanted = wanted or from_ends(bound, low, high)
    if wanted is None:
        return []
    message = fact(
        "rule-little-used",
        quantity=Named("quantity", bound.quantity.name),
        low=values.told(low),
        high=values.told(high),
        rule_low=values.told(curve.low),
        rule_high=values.told(curve.high),
    )
    mend = written(bound, wanted.texts)
    return [
        Finding(
            kind="rule",
            message=message,
            fix=fact("mend-if-wished", write=mend.words),
            change=mend.change,
            part=bound.rule.part or "",
            where=place(hearing),
            serious=False,
        )
    ]


def tempo_limit_findings(hearing: Hearing) -> list[Finding]:
    """One finding where the rule asks for a tempo that the scene's limits do not allow."""
    if hearing.bound.rule.control != "tempo":
        return []
    music = hearing.music
    asked: FloatArray = np.floor(hearing.bound.apply(hearing.values) + 0.5)
    allowed = whole_bpms(hearing.bound.apply(hearing.values), music)
    beyond = [s for s in hearing.stages if np.any(asked[hearing.beats(s)] != allowed[hearing.beats(s)])]
    if not beyond:
        return []
    told = tuple(
        fact(
            "rule-tempo-held",
            stage=stage.title,
            asked=_tempi(asked[hearing.beats(stage)]),
            held=_tempi(allowed[hearing.beats(stage)]),
        )
        for stage in beyond
    )
    slowest, fastest = min(music.slowest_bpm, float(asked.min())), max(music.fastest_bpm, float(asked.max()))
    limits = fact("rule-tempo-limits", slowest=_set(music.slowest_bpm), fastest=_set(music.fastest_bpm))
    return [
        Finding(
            kind="rule",
            message=(limits, *told),
            fix=fact(
                "mend-tempo-limits",
                slowest=written_text("tempo", slowest),
                fastest=written_text("tempo", fastest),
                rule=named_rule(hearing),
            ),
            where=place(hearing, beyond),
        )
    ]


def _set(value: float) -> Amount:
    return Amount(value=value, given="a tempo of the scene")


def _end(hearing: Hearing, values: ValueWords, reached: float, end: float, to: float, way: str) -> Fact:
    """That the quantity passes an end of the rule, and which sound it stays at."""
    figure = values.apart(reached, end)
    return fact(
        "rule-passed",
        quantity=Named("quantity", hearing.bound.quantity.name),
        way=way,
        reached=figure,
        end=values.told(end),
        sound=sound(hearing.bound.rule.control, to, hearing.music.metre.beats),
    )


def _fix(hearing: Hearing, low: float, high: float) -> Mend:
    found = covering(hearing.bound, low, high)
    if found is None:
        return Mend(words=fact("mend-no-logarithm", rule=named_rule(hearing)))
    return written(hearing.bound, found.texts)


def _tempi(bpms: FloatArray) -> Fact:
    least, most = float(bpms.min()), float(bpms.max())
    if least == most:
        return fact("rule-one-tempo", bpm=_set(least))
    return fact("rule-tempi", least=_set(least), most=_set(most))
