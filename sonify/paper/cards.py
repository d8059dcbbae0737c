"""A card for each group: what it is, what its sound means, what to play, when to come in, how loud."""

from __future__ import annotations

from typing import Any

from sonify.paper import loudness, rhythm
from sonify.paper.facts import badge, bars_text, counted, dynamic_text, entries_of, groups, listed, playing
from sonify.paper.settings import PaperSettings
from sonify.records.controls import Key
from sonify.records.lesson import Lesson
from sonify.records.score import Entry, Part, Score, Seat
from sonify.records.words import NOTE_LETTERS

#: Each control as a pupil says it.
CONTROL_WORDS = {
    "tempo": "How fast",
    "pitch": "How high",
    "density": "How busy",
    "dynamics": "How loud",
    "brightness": "How bright",
}
#: Taps longer than a row of boxes on the card's paper, ordinary and large print.
BOXES_IN_ROW = (16, 8)


def cards(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """Every group's card, in order of groups."""
    return [
        {
            **badge(group, settings),
            "names": [part.name for part in parts],
            "parts": _parts(parts, lesson, settings),
            "stages": [{"letter": s.letter, "bar": s.bar, "bars": s.bars} for s in lesson.score.sections],
            "bars": lesson.score.bars,
        }
        for group, parts in groups(lesson.score).items()
    ]


def _parts(parts: list[Part], lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """The parts of one card: a rule that two of them share is told once."""
    told: list[Key] = []
    found = []
    for part in parts:
        new = [key for key in rules_for(part, lesson) if key not in told]
        told += new
        found.append(_part(part, new, lesson, settings))
    return found


def _part(part: Part, keys: list[Key], lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    score = lesson.score
    in_row = BOXES_IN_ROW[settings.large_print]
    return {
        "name": part.name,
        "meaning": part.meaning,
        "seats": [_seat(seat, score) for seat in part.seats],
        "rules": [_rule(key) for key in keys],
        "instructions": [*_bars_to_change(part), *part.instructions],
        "patterns": _patterns(part, score, in_row),
        "tunes": _tunes(part, score, in_row),
        "busy": _busy(part, score),
        "entries": [_entry(entry, part, score) for entry in sorted(entries_of(part, score), key=lambda e: e.bar)],
        "loud": " ".join(_loud(mark, following) for mark, following in _marks(part)),
        "runs": _runs(part, score),
        "runs_alt": f"{part.name} plays in {listed([bars_text(*run) for run in playing(part, score)])}.",
        "blanks": [{"where": bars_text(b.bar, b.bars), "ask": b.ask, "bars": b.bars} for b in part.blanks],
    }


def _seat(seat: Seat, score: Score) -> dict[str, str]:
    row = score.instrument(seat.instrument)
    what = row.name.lower() if seat.count == 1 else row.plural.lower()
    if row.bodily:
        return {"what": what, "who": counted(seat.players, "player"), "job": seat.job, "how": row.how}
    turns = f"{seat.at_once} at a time, changing every {counted(seat.turn_bars, 'bar')}" if seat.at_once else ""
    share = turns or ("" if seat.players <= seat.count else "share and take turns")
    return {
        "what": f"{seat.count} {what}",
        "who": counted(seat.players, "player"),
        "job": seat.job or share,
        "how": row.how,
    }


def _bars_to_change(part: Part) -> list[str]:
    """Which bars to take off a barred instrument, and which to put on."""
    off, on = ([NOTE_LETTERS[pitch % 12] for pitch in pitches] for pitches in (part.bars_off, part.bars_on))
    return [
        *([f"Take off the bars {listed(off)}."] if off else []),
        *([f"Put on the bars {listed(on)}."] if on else []),
    ]


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


def _rule(key: Key) -> dict[str, Any]:
    (low, low_sound), (high, high_sound) = key.values[0], key.values[-1]
    return {
        "head": CONTROL_WORDS[key.rule.control],
        "why": key.rule.why,
        "low": low,
        "low_sound": spelt_out(low_sound),
        "high": high,
        "high_sound": spelt_out(high_sound),
    }


def _patterns(part: Part, score: Score, in_row: int) -> list[dict[str, Any]]:
    row = score.instrument(part.instrument)
    return [
        {
            "name": pattern.name,
            "words": pattern.words,
            "boxes": rhythm.boxes(
                list(pattern.hits), pattern.bars * score.metre.beats, score.metre.beats, row, most_in_row=in_row
            ),
        }
        for pattern in part.patterns
    ]


def _tunes(part: Part, score: Score, in_row: int) -> list[dict[str, Any]]:
    """A melody is written out bar by bar, for it has no pattern to repeat."""
    if part.texture != "melody" or part.patterns:
        return []
    beats = score.metre.beats
    found = []
    for first, bars in playing(part, score):
        start = score.clock.beat_of_bar(first)
        hits = rhythm.note_hits(part.notes, start, start + bars * beats)
        if hits:
            row = score.instrument(part.instrument)
            boxes = rhythm.boxes(hits, bars * beats, beats, row, most_in_row=in_row)
            found.append({"name": f"Your tune, {bars_text(first, bars)}", "words": "", "boxes": boxes})
    return found


def _busy(part: Part, score: Score) -> list[dict[str, Any]]:
    """For free taps: how many taps in each bar, as a picture of few and many."""
    if part.texture != "scatter":
        return []
    return [{"bars": rhythm.taps(part, first, bars, score.metre.beats)} for first, bars in playing(part, score)]


def _entry(entry: Entry, part: Part, score: Score) -> dict[str, Any]:
    section = score.section_at(entry.bar)
    goes_on = any(first < entry.bar < first + bars for first, bars in playing(part, score))
    cue = next((c for c in score.cues if c.part == part.name and c.bar == entry.bar and c.action == "enter"), None)
    return {
        "bar": entry.bar,
        "stage": f"{section.letter} {section.title}" if section else "",
        "into": entry.bar - section.bar if section else 0,
        "listen": "Keep going, with no gap." if goes_on else _listen(entry, part, score),
        "signal": cue.gesture if cue else "",
        "play": sentence_start(entry.instruction or entry.pattern),
        "bars": counted(entry.bars, "bar"),
    }


def _listen(entry: Entry, part: Part, score: Score) -> str:
    """Whom to listen for: the part that came in last and still plays in the bar before."""
    if entry.bar == 1:
        return "Listen to the count-in."
    heard = [
        (first, other)
        for other in score.group_parts
        if other.name != part.name
        for first, bars in playing(other, score)
        if first <= entry.bar - 1 < first + bars
    ]
    if not heard:
        return "It is quiet before you. Watch the conductor."
    first, other = max(heard, key=lambda pair: (pair[0], -pair[1].group))
    return f"Listen for {other.name} (group {other.group}) in the bar before."


def _marks(part: Part) -> list[tuple[Any, Any]]:
    marks = sorted(part.dynamics, key=lambda mark: mark.bar)
    return list(zip(marks, [*marks[1:], None], strict=True))


def _loud(mark: Any, following: Any) -> str:
    grows = {"cresc": ", then grow louder", "dim": ", then fade softer"}.get(mark.hairpin, "")
    until = f" until bar {following.bar}" if grows and following else ""
    return f"Bar {mark.bar}: {dynamic_text(mark.mark)}{grows}{until}."


def _runs(part: Part, score: Score) -> list[dict[str, Any]]:
    line = loudness.corners(part, score)
    return [
        {"bar": first, "bars": bars, "levels": loudness.levels(line, first, first + bars)}
        for first, bars in playing(part, score)
    ]


def sentence_start(words: str) -> str:
    """Words with a capital first: `capitalize` would make small letters of the rest."""
    return words[:1].upper() + words[1:]


def spelt_out(sound: str) -> str:
    """A sound as a pupil reads it: no abbreviation.

    >>> spelt_out("66 bpm")
    '66 beats a minute'
    """
    return sound.replace("bpm", "beats a minute")
