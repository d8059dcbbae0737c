"""A recording of the class against its pack: read, measured and forgotten. Nothing is written but what is asked for."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

from sonify.data.listened import listened_csv, listened_facts
from sonify.errors import SonifyError
from sonify.listening import Listener, measured, plan_of
from sonify.recording.reading import read_sound
from sonify.records.fact import fact, wrong
from sonify.records.listened import Listened
from sonify.say import say
from sonify.storage.pack import building, check_place, facts_of

SCORE = "score.json"
#: What --out writes.
TABLE, FACTS = "our-recording.csv", "our-recording.json"
#: Of the whole, reading the file takes this share.
READING = 0.4


def listen(pack: Path, recording: Path, progress: Callable[[str, float], None] | None = None) -> Listened:
    """What a recording says of the piece in a pack. The recording is read once, a block at a time; none of it is kept.

    Raises SonifyError for a folder that is no pack, and for a file that is no recording.
    """
    plan = plan_of(score_of(pack))
    sound = read_sound(recording)
    listener, read = Listener(sound.rate_hz), 0
    for block in sound.blocks:
        listener.take(block)
        read += block.size
        if progress and sound.seconds:
            share = min(1.0, read / sound.rate_hz / sound.seconds)
            progress(say(fact("recorded-reading")), READING * share)
    return measured(
        plan,
        listener.heard(),
        lambda share: progress(say(fact("recorded-finding")), READING + (1.0 - READING) * share) if progress else None,
    )


def check_out(out: Path) -> None:
    """Raises SonifyError where the folder for what is measured is there already, before anything is measured."""
    if os.path.lexists(out):
        raise SonifyError(wrong("error_redeal-there-already", out=out))
    check_place(out)


def write(found: Listened, pack: Path, out: Path) -> list[str]:
    """A new folder with what was measured, and nothing of the sound. Gives its files' names."""
    check_out(out)
    facts = facts_of(pack)
    with building(out, {key: facts[key] for key in ("toolkit", "scene") if key in facts}) as work:
        (work / TABLE).write_text(listened_csv(found), encoding="utf-8", newline="")
        (work / FACTS).write_text(
            json.dumps(listened_facts(found), ensure_ascii=False, indent=1) + "\n", encoding="utf-8"
        )
    return [FACTS, TABLE]


def score_of(pack: Path) -> dict[str, Any]:
    """A pack's score.json. Raises SonifyError where there is none."""
    try:
        text = (pack / SCORE).read_text(encoding="utf-8")
    except OSError as error:
        raise SonifyError(wrong("error_listen-no-score", pack=pack)) from error
    except UnicodeError as error:
        raise SonifyError(wrong("error_listen-not-a-score")) from error
    try:
        found = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise SonifyError(wrong("error_listen-not-a-score")) from error
    if not isinstance(found, dict):
        raise SonifyError(wrong("error_listen-not-a-score"))
    return found
