"""When everything happens, as the page's scripts read it: bars, stages, who plays, what the conductor does next."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from sonify.kinds.cues import ACTIONS
from sonify.records.fact import Amount, fact
from sonify.records.score import Cue, Part, Reason, Score
from sonify.records.words import without_title
from sonify.say import say
from sonify.say.cues import action_words, gesture_words, mark_words, pattern_name, reason_words
from sonify.say.parts import dynamic_with_mark, dynamic_words, tempo_words

#: Which way the hand goes on each beat, for a right-handed conductor (common practice).
BEAT_WAYS = {2: ("down", "up"), 3: ("down", "out", "up"), 4: ("down", "in", "out", "up")}


def bar_rows(score: Score) -> list[list[float]]:
    """[bar, start in seconds, seconds a beat] for every bar, the count-in's first (its bars are 0 and less)."""
    clock = score.clock
    bars = range(1 - score.count_in_bars, score.bars + 1)
    edges = clock.many_seconds([clock.beat_of_bar(bar) for bar in (*bars, score.bars + 1)])
    return [
        [bar, float(start), float((end - start) / score.metre.beats)]
        for bar, start, end in zip(bars, edges, edges[1:], strict=False)
    ]


def timing(score: Score) -> dict[str, Any]:
    """The clock of the piece: its metre, its bars, its tempi in words, and when it ends."""
    return {
        "beatsABar": score.metre.beats,
        "countInBars": score.count_in_bars,
        "bars": bar_rows(score),
        "pieceBars": score.bars,
        "endS": float(score.clock.seconds(score.end_beat)),
        "tempi": [{"bar": t.bar, "bpm": t.bpm, "words": tempo_words(t.bpm)} for t in score.tempi],
    }


def stage_rows(score: Score) -> list[dict[str, Any]]:
    """Each stage: its letter, title and caption, the bars it takes, and when they begin and end."""
    clock = score.clock
    rows = []
    for section in score.sections:
        start, end = clock.many_seconds([clock.beat_of_bar(b) for b in (section.bar, section.bar + section.bars)])
        tempi = [t.bpm for t in score.tempi if section.bar <= t.bar < section.bar + section.bars]
        held = next((t.bpm for t in reversed(score.tempi) if t.bar <= section.bar), score.tempi[0].bpm)
        low, high = min([held, *tempi]), max([held, *tempi])
        rows.append(
            {
                "name": section.name,
                "title": say(section.title),
                "letter": section.letter,
                "caption": without_title(say(section.title), say(section.caption)),
                "bar": section.bar,
                "bars": section.bars,
                "startS": float(start),
                "endS": float(end),
                "tempo": f"{low:.0f}" if round(low) == round(high) else f"{low:.0f} to {high:.0f}",
            }
        )
    return rows


def bars_with_notes(part: Part, score: Score) -> list[tuple[int, int]]:
    """(bar, bars) stretches in which the part has notes, for a part whose entries were not written down."""
    per_bar = score.metre.beats
    sounding: set[int] = set()
    for note in part.notes:
        last = note.beat + note.beats - Fraction(1, 1024)
        sounding.update(range(int(note.beat // per_bar) + 1, int(last // per_bar) + 2))
    stretches: list[tuple[int, int]] = []
    for bar in sorted(sounding):
        if stretches and bar == sum(stretches[-1]):
            stretches[-1] = (stretches[-1][0], stretches[-1][1] + 1)
        else:
            stretches.append((bar, 1))
    return stretches


def spans(part: Part, score: Score) -> list[list[Any]]:
    """[first bar, bar after the last, what is heard] for each stretch in which the part plays, in order."""
    plain = say(fact("hear-texture", texture=part.texture))
    found: list[list[Any]] = []
    for entry in part.entries:
        name, what = pattern_name(part, entry.pattern), say(entry.instruction) or plain
        told = say(fact("part-named", name=name, what=what)) if name else what
        found.append([entry.bar, entry.bar + entry.bars, told])
    if not found:
        found = [[bar, bar + bars, plain] for bar, bars in bars_with_notes(part, score)]
    found += [[b.bar, b.bar + b.bars, say(fact("hear-own-idea", ask=say(b.ask)))] for b in part.blanks]
    return sorted(found, key=lambda span: span[:2])


def entrances(part: Part, score: Score) -> list[int]:
    """The bars at which the part comes in after silence."""
    bars: list[int] = []
    silent_from = 0
    for first, after, _ in spans(part, score):
        if first > silent_from or not bars:
            bars.append(first)
        silent_from = max(silent_from, after)
    return bars


def dynamic_rows(part: Part) -> list[list[Any]]:
    """[bar, mark, in words] for each dynamic mark."""
    rows = []
    for mark in part.dynamics:
        words = [dynamic_words(mark.mark), say(fact("hear-hairpin", way=mark.hairpin)) if mark.hairpin else ""]
        rows.append([mark.bar, mark.mark, ", ".join(word for word in words if word)])
    return rows


def _cue_line(cue: Cue, group_of: dict[str, int]) -> dict[str, Any]:
    return {
        "group": group_of.get(cue.part, 0),
        "who": cue.part or say(fact("hear-everyone")),
        "action": cue.action,
        "what": _what(cue),
        "gesture": gesture_words(cue),
        "reason": reason_words(cue),
    }


def _what(cue: Cue) -> str:
    """What is asked for, as the screen says it to the group: "come in", "louder, to loud (f) by bar 17"."""
    if cue.action == "tempo":
        way, bpm = cue.gesture.partition("-")[0], Amount(value=cue.bpm, places=0)
        return say(fact("cue-screen-beat", way=way, glides="yes" if cue.from_bpm else "no", bpm=bpm))
    if ACTIONS[cue.action].fine and cue.mark:
        mark = mark_words(cue, dynamic_with_mark(cue.mark))
        return say(fact("cue-screen-loud", action=action_words(cue.action), mark=mark))
    return action_words(cue.action)


def moments(score: Score) -> list[dict[str, Any]]:
    """Everything the conductor does, gathered by beat, in order: the cues, and any entrance that no cue names.

    A cue to enter for a part that is already playing changes what it plays, and says so.
    `beat` is absolute (0 at bar 1), as the page's clock counts.
    """
    group_of = {part.name: part.group for part in score.parts}
    comes_in = {part.name: entrances(part, score) for part in score.group_parts}
    by_beat: dict[Fraction, list[dict[str, Any]]] = {}
    for cue in (own for sign in score.cues for own in sign.apart):
        beat = score.clock.beat_of_bar(cue.bar) + cue.beat - 1
        if cue.action == "enter" and cue.bar not in comes_in.get(cue.part, [cue.bar]):
            cue = replace(cue, action="change", gesture="change")
        by_beat.setdefault(beat, []).append(_cue_line(cue, group_of))
    for part in score.group_parts:
        for bar in comes_in[part.name]:
            if part.pulse and bar > 1:  # kept from where a group's own part stops, without a sign
                continue
            beat = score.clock.beat_of_bar(bar)
            lines = by_beat.setdefault(beat, [])
            if not any(line["who"] == part.name and line["action"] in ("enter", "change") for line in lines):
                lines.append(_cue_line(_plain_entrance(part, bar), group_of))
    # From the first group to the last, as they are numbered where they sit; what is for everyone comes before.
    return [
        {"beat": float(beat), "lines": sorted(by_beat[beat], key=lambda line: line["group"])}
        for beat in sorted(by_beat)
    ]


def _plain_entrance(part: Part, bar: int) -> Cue:
    reason = Reason(words=part.meaning, music=not part.meaning)
    return Cue(bar=bar, beat=Fraction(1), part=part.name, action="enter", gesture="come-in", reason=reason)
