"""The morning itself: a pack's piece dealt out again to those who are there. The old pack is never written to."""

from __future__ import annotations

import json
import os
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from sonify import lesson as pipeline
from sonify.arrange.dealing import deal_again
from sonify.data.exports import score_json
from sonify.errors import SonifyError
from sonify.kinds.needs import LARGE_PRINT
from sonify.lesson.sheet_files import card_pictures
from sonify.paper import Printing, pupils_file
from sonify.paper.printlist import pages_text
from sonify.records.dealing import Dealt, Missing
from sonify.records.fact import Fact, fact, wrong
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.say.parts import listed
from sonify.storage import shelf
from sonify.storage.pack import building, check_place, facts_of
from sonify.study.reading import ClassLike, SceneLike

#: What the folder with today's cards holds.
TODAY, CARDS = "today.txt", "pupils.pdf"
#: More than these of a kind are nobody's cupboard and nobody's class.
MOST = 99
_ABSENT = re.compile(r"^\s*(\d{1,3})(?:\s+(?:in|from|of)\s+(?:group\s+)?(\d{1,2}))?\s*$", re.IGNORECASE)
_BROKEN = re.compile(r"^\s*(?:(\d{1,2})\s+)?(\S.*?)\s*$")


def missing(absent: Iterable[str], broken: Iterable[str], classroom: ClassLike = None) -> Missing:
    """What was typed: "3", "2 in group 4"; "triangle", "2 triangles". Raises SonifyError for anything else."""
    rows = pipeline.catalogue().with_own(pipeline.load_class(classroom).own)
    groups: Counter[int] = Counter()
    for text in absent:
        found = _ABSENT.match(text)
        if found is None or not 1 <= int(found[1]) <= MOST or found[2] == "0":
            raise SonifyError(wrong("error_redeal-absent", text=text))
        groups[int(found[2] or 0)] += int(found[1])
    lost: Counter[str] = Counter()
    for text in broken:
        named = _BROKEN.match(text)
        if named is None or named[1] in ("0", "00"):
            raise SonifyError(wrong("error_redeal-broken", text=text))
        lost[rows.find(named[2]).id] += int(named[1] or 1)
    if not groups and not lost:
        raise SonifyError(wrong("error_redeal-nothing"))
    return Missing(absent=tuple(sorted(groups.items())), broken=tuple(sorted(lost.items())))


def dealt_again(study: Lesson, gone: Missing) -> Dealt:
    """A lesson dealt out again."""
    rows = pipeline.catalogue().with_own(study.classroom.own)
    return deal_again(study.score, study.classroom, rows, gone)


def lesson_of(pack: Path, scene: SceneLike | None = None, classroom: ClassLike = None) -> Lesson:
    """The lesson of a pack, from the files that it was made from. Raises SonifyError where they are others."""
    facts = facts_of(pack)
    name = facts["scene"]["name"]
    if scene is None and name not in shelf.scene_names():
        raise SonifyError(wrong("error_redeal-other-file", what="scene", option="--scene"))
    loaded = pipeline.load(name if scene is None else scene, facts.get("set", {}))
    room = pipeline.load_class(classroom)
    for what, origin in (("scene", loaded.origin), ("class", room.origin)):
        if origin.sha256 != facts[what]["sha256"]:
            raise SonifyError(wrong("error_redeal-other-file", what=what, option=f"--{what}"))
    study = pipeline.study(loaded, room, seed=facts["seed"], scaffold=facts["scaffold"])
    played = pack / "score.json"
    if not played.is_file() or _music(played.read_text(encoding="utf-8")) != _music(score_json(study.score)):
        raise SonifyError(wrong("error_redeal-other-music", pack=pack))
    return study


def _music(text: str) -> Any:
    """What of score.json is played and by whom: words may have been put better since."""
    try:
        facts = json.loads(text)
        parts = [{key: part[key] for key in ("name", "group", "players", "notes")} for part in facts["parts"]]
        return facts["bars"], facts["tempo"], parts
    except (ValueError, KeyError, TypeError):
        return None


def told(dealt: Dealt, after: Fact) -> list[str]:
    """What to do, line by line; after: about printing."""
    lines = [say(each) for each in dict.fromkeys(dealt.told)]
    if dealt.by_hand:
        lines.append(say(fact("redeal-by-hand")))
    for group, notes in dealt.by_hand:
        words = "; ".join(say(note).rstrip(".") for note in notes)
        lines.append(say(fact("redeal-group", group=group, lines=words)))
    if not dealt.by_hand:
        lines.append(say(fact("redeal-nothing")))
    return [*lines, say(after)]


def lines_of(study: Lesson, absent: str, broken: str) -> list[str]:
    """What the page asks of a lesson that is open: several things in one line, parted by commas."""
    away, lost = ([each for each in text.split(",") if each.strip()] for text in (absent, broken))
    dealt = dealt_again(study, missing(away, lost, study.classroom))
    if not dealt.anew:
        return told(dealt, fact("redeal-print-nothing"))
    pupils = sum(dealt.score.group_pupils.values())
    return told(dealt, fact("redeal-print-whole", groups=group_names(dealt.anew), pupils=pupils))


def group_names(groups: Sequence[int]) -> str:
    """ "group 2 and group 4"."""
    return listed([say(fact("sheet-group", group=group)).lower() for group in groups])


def redeal(
    pack: str | Path,
    absent: Iterable[str] = (),
    broken: Iterable[str] = (),
    *,
    scene: SceneLike | None = None,
    classroom: ClassLike = None,
    out: str | Path | None = None,
) -> list[str]:
    """What to do this morning, in lines. out: a new folder for today's cards, where to print them is less work.

    Raises SonifyError before anything is written.
    """
    gone = missing(absent, broken, classroom)
    if out is not None:
        if os.path.lexists(out):
            raise SonifyError(wrong("error_redeal-there-already", out=out))
        check_place(Path(out))
    folder = Path(pack)
    study = lesson_of(folder, scene, classroom)
    dealt = dealt_again(study, gone)
    if out is None:
        what = fact("redeal-print-out", groups=group_names(dealt.anew)) if dealt.anew else fact("redeal-print-nothing")
        return told(dealt, what)
    return _written(Path(out), replace(study, score=dealt.score), dealt, facts_of(folder))


def _written(out: Path, today: Lesson, dealt: Dealt, facts: dict[str, Any]) -> list[str]:
    """Today's cards in a folder of their own, and which of its pages take the place of old ones."""
    printing = Printing(paper=facts["paper"], large_print=facts["large_print"], note_names=facts["note_names"])
    settings = pipeline.sheet_settings(printing)
    large = settings.large_print or LARGE_PRINT in today.classroom.needs
    settings = replace(settings, large_print=large)
    pictures = card_pictures(today, settings)
    cards = pupils_file(today, settings, pictures)
    marks = cards.pages
    changed = [group for group, _ in dealt.by_hand]
    names = [name for name in marks.pages if name.split(" ")[0] in ("short", "group") and _group(name) in changed]
    pages = marks.of(*names)
    after = fact("redeal-print", file=f"{out.name}/{CARDS}", pages=pages_text(pages)) if pages else None
    lines = told(dealt, after or fact("redeal-print-nothing"))
    kept = {key: value for key, value in facts.items() if key in ("toolkit", "scene", "set", "class", "seed", "paper")}
    listing = [{"file": CARDS, "pages": list(pages), "copies": 1, "colour": False}] if pages else []
    with building(out, {**kept, "print": listing}) as work:
        (work / TODAY).write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")
        (work / CARDS).write_bytes(cards.pdf)
        (work / "score.json").write_text(score_json(today.score), encoding="utf-8", newline="\n")
    return lines


def _group(name: str) -> int:
    return int(name.split(" ")[1])
