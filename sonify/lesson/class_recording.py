"""A recording of the class against its pack: read, measured and forgotten. Nothing is written but what is asked for."""

from __future__ import annotations

import csv
import json
import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import numpy as np

from sonify import lesson as pipeline
from sonify.data.exports import key_numbers, science_csv, score_json
from sonify.data.listened import listened_csv, listened_facts
from sonify.errors import SonifyError
from sonify.listening import Heard, Listener, measured, plan_of, read_back, tempo_rule
from sonify.paper import Printing, performed_pdf
from sonify.paper.performed import sheet
from sonify.recording.reading import read_sound
from sonify.records.fact import fact, wrong
from sonify.records.lesson import Lesson
from sonify.records.listened import Listened, ReadBack
from sonify.say import say
from sonify.storage.pack import building, check_place, facts_of

SCORE = "score.json"
#: What --out writes.
SHEET, TABLE, FACTS = "our-recording.pdf", "our-recording.csv", "our-recording.json"
#: Of the whole, reading the file takes this share.
READING = 0.4


def listen(pack: Path, recording: Path, progress: Callable[[str, float], None] | None = None) -> Listened:
    """What a recording says of the piece in a pack. The recording is read once, a block at a time; none of it is kept.

    Raises SonifyError for a folder that is no pack, and for a file that is no recording.
    """
    return listen_for(score_of(pack), recording, progress)


def listen_for(
    score: Mapping[str, Any], recording: Path, progress: Callable[[str, float], None] | None = None
) -> Listened:
    """The same with the score.json in hand."""
    plan = plan_of(score)
    heard = heard_in(recording, progress)
    return measured(
        plan,
        heard,
        lambda share: progress(say(fact("recorded-finding")), READING + (1.0 - READING) * share) if progress else None,
    )


def heard_in(recording: Path, progress: Callable[[str, float], None] | None = None) -> Heard:
    """All that is kept of a recording. Raises SonifyError for a file that is none."""
    sound = read_sound(recording)
    listener, read = Listener(sound.rate_hz), 0
    for block in sound.blocks:
        listener.take(block)
        read += block.size
        if progress and sound.seconds:
            share = min(1.0, read / sound.rate_hz / sound.seconds)
            progress(say(fact("recorded-reading")), READING * share)
    return listener.heard()


def read_back_of(found: Listened, pack: Path) -> ReadBack | None:
    """The class's beat through the pack's key, beside its science; None where the pack has none of it."""
    facts, science = facts_of(pack), pack / "science.csv"
    try:
        return read_back_by(found, facts, science.read_text(encoding="utf-8") if science.is_file() else "")
    except (OSError, ValueError, KeyError, IndexError, StopIteration, TypeError, AttributeError) as error:
        raise SonifyError(wrong("error_listen-other-pack", pack=pack)) from error


def read_back_by(found: Listened, key: Mapping[str, Any], science: str) -> ReadBack | None:
    """The same from a pack's rules and time map (`data.exports.key_numbers`) and the text of its science.csv."""
    rule = tempo_rule(key.get("rules", ()))
    if rule is None or not science:
        return None
    heading, *rows = csv.reader(science.splitlines())
    column = next(n for n, name in enumerate(heading) if name.lstrip("'").startswith(f"{rule['quantity']} ["))
    values = np.array([(float(row[0]), float(row[column])) for row in rows]).T
    shown = {**rule, "shown_unit": heading[column].rpartition("[")[2].rstrip("]")}
    bars_s = [(float(row["model_time_s"]), float(row["until_s"])) for row in key["time_map"]]
    return read_back(found, [shown], bars_s, (values[0], values[1]))


def listening_task(studied: Lesson) -> dict[str, Any]:
    """What a process of its own needs to measure a recording of a lesson that is in no pack."""
    return {
        "score": json.loads(score_json(studied.score)),
        "key": key_numbers(studied),
        "science": science_csv(studied.timeline),
    }


def told_of(task: Mapping[str, Any], recording: Path, progress: Callable[[str, float], None]) -> dict[str, Any]:
    """What the page shows of a recording: figures and sentences, nothing of the sound."""
    found = listen_for(task["score"], recording, progress)
    back = read_back_by(found, task["key"], str(task["science"]))
    return {
        **listened_facts(found, back),
        "sheet": sheet(str(task["score"].get("title", "")), found, back),
        "bars": [{"bar": bar.bar, "start_s": round(bar.start_s, 3)} for bar in found.bars],
    }


def check_out(out: Path) -> None:
    """Raises SonifyError where the folder for what is measured is there already, before anything is measured."""
    if os.path.lexists(out):
        raise SonifyError(wrong("error_redeal-there-already", out=out))
    check_place(out)


def write(found: Listened, pack: Path, out: Path) -> list[str]:
    """A new folder with what was measured, and nothing of the sound. Gives its files' names."""
    check_out(out)
    facts, back = facts_of(pack), read_back_of(found, pack)
    title = str(score_of(pack).get("title", ""))
    try:
        printing = Printing(paper=facts["paper"], large_print=bool(facts.get("large_print")))
    except (KeyError, TypeError, ValueError) as error:
        raise SonifyError(wrong("error_listen-other-pack", pack=pack)) from error
    printed = performed_pdf(title, found, back, pipeline.sheet_settings(printing))
    told = json.dumps(listened_facts(found, back), ensure_ascii=False, indent=1) + "\n"
    with building(out, {key: facts[key] for key in ("toolkit", "scene", "paper") if key in facts}) as work:
        (work / SHEET).write_bytes(printed)
        (work / TABLE).write_text(listened_csv(found), encoding="utf-8", newline="")
        (work / FACTS).write_text(told, encoding="utf-8", newline="\n")
    return [SHEET, FACTS, TABLE]


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
