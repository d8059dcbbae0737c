"""A cue in words: what is done, how it is shown, how loud or how fast, and why. Every output says it with these."""

from __future__ import annotations

from sonify.kinds.cues import ACTION_OF, FINGERS
from sonify.records.fact import Amount, fact
from sonify.records.score import Cue, Part
from sonify.say.language import say, sentence, spoken
from sonify.say.parts import listed


def action_words(action: str) -> str:
    """ "come in"."""
    return say(fact(f"cue-action-{action}"))


def who_words(cue: Cue) -> str:
    """Whom a cue is for: "The rain and The rain, second group"."""
    return listed(cue.parts) if cue.part else sentence(fact("cue-everybody"))


def shown_words(gesture: str) -> str:
    """The name of a gesture: "Quicker beat", or that of its action."""
    own = fact(f"cue-shown-{gesture}")
    return say(own) if spoken().knows(own.message) else sentence(fact(f"cue-action-{ACTION_OF[gesture]}"))


def show_words(gesture: str, what: str = "") -> str:
    """How a gesture is shown. what: what it stands for, where the gesture says so."""
    return say(fact(f"cue-show-{gesture}", what=what))


def gesture_words(cue: Cue) -> str:
    """How a cue is shown: the gesture, and the fingers where a pattern comes in."""
    fingers = f"{FINGERS[cue.pattern - 1]}" if cue.pattern and cue.gesture not in FINGERS else ""
    return " ".join(filter(None, (show_words(cue.gesture, say(cue.what)), fingers and show_words(fingers))))


def mark_words(cue: Cue, mark: str) -> str:
    """How loud, and by when: "f by bar 17". mark: the cue's own, or that in plain words."""
    return say(fact("cue-mark-by", mark=mark, bar=cue.by_bar)) if mark and cue.by_bar else mark


def beat_words(cue: Cue) -> str:
    """The new beat: "104 bpm", and where it glides, from where and by when."""
    if not cue.bpm:
        return ""
    bpm = Amount(value=cue.bpm)
    if not cue.from_bpm:
        return say(fact("cue-bpm", bpm=bpm))
    return say(fact("cue-glide", bpm=bpm, bar=cue.by_bar, **{"from": Amount(value=cue.from_bpm)}))


def pattern_words(cue: Cue) -> str:
    return say(fact("cue-pattern", number=cue.pattern)) if cue.pattern else ""


def pattern_name(part: Part, number: int) -> str:
    """The name of a part's pattern or tune as its card has it; "" for number 0."""
    if not number:
        return ""
    if own := next((each.name for each in part.patterns if each.number == number and each.name), ""):
        return say(own)
    if part.texture == "melody":
        return say(fact("part-tune", letter="ABC"[number - 1]))
    return say(fact("cue-pattern", number=number))


def detail_words(cue: Cue) -> str:
    """What is asked for, in short: "mf, Pattern A", "f by bar 17", "104 bpm"."""
    return ", ".join(filter(None, (beat_words(cue), mark_words(cue, cue.mark), pattern_words(cue), say(cue.what))))


def told_words(cue: Cue) -> str:
    """The cue in one line, as markers have it: "The rain: come in, mf"."""
    who, action = who_words(cue), action_words(cue.action)
    details = {detail_words(own) for own in cue.apart}
    detail = details.pop() if len(details) == 1 else ""  # each group's own stands on its card
    if not detail:
        return say(fact("cue-told", who=who, action=action))
    return say(fact("cue-told-with", who=who, action=action, detail=detail))


def reason_words(cue: Cue) -> str:
    """Why; with the printed label where it is for the music."""
    if not cue.reason.music:
        return sentence(cue.reason.words)
    if not cue.reason.words:
        return say(fact("cue-for-the-music"))
    return say(fact("cue-for-the-music-because", because=say(cue.reason.words)))
