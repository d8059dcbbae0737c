"""Which pages are whose, from the files as they are typeset for this class, and what a lesson uses of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from sonify.facts.listening import listening_items
from sonify.facts.sheet import by_size, held, in_section, mean_bpm
from sonify.facts.sounding import unmeasured
from sonify.frozen import dataclass
from sonify.kinds.needs import LARGE_PRINT
from sonify.paper import cards, pupils
from sonify.paper.cards import NO_PICTURES, Pictures
from sonify.paper.facts import groups
from sonify.paper.minutes import Things
from sonify.paper.printlist import Marks, pages_text, sound_sheets
from sonify.paper.room import fetched
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Claim, Fact, Reading, Words, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Section
from sonify.say import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Handouts:
    """Names of what a lesson uses, and where it stands in the pupils' file."""

    things: Things
    marks: Marks
    cards: dict[int, str]  # each group's own pages


def handouts(lesson: Lesson, settings: PaperSettings, pictures: Pictures = NO_PICTURES) -> Handouts:
    """The pages of each sheet of pupils.pdf, in large print where this class needs it. pictures: those of its cards."""
    from sonify.paper.typeset import marks

    large = settings.large_print or LARGE_PRINT in lesson.classroom.needs
    chosen = replace(settings, large_print=large)
    data, images = pupils.sheet(lesson, chosen, pictures), cards.picture_files(lesson.score, pictures)
    return handouts_at(lesson, pages_of(marks("pupils", data, chosen, images)))


def handouts_at(lesson: Lesson, found: Marks) -> Handouts:
    """The same where the pupils' file has been set."""
    own = {int(name.split(" ")[1]): found.pages[name] for name in found.names("group")}
    return Handouts(
        things=_things(found, lesson),
        marks=found,
        cards={group: pages_text(pages) for group, pages in own.items()},
    )


def pages_of(marked: Sequence[Mapping[str, Any]]) -> Marks:
    """The pages of each sheet, from its first to the one before the next; the mark "" stands on the last page.

    A sheet that is there several times, as a group's cards by pictures are, has the pages of all of them.
    """
    ends = [mark["page"] for mark in marked[1:]]
    pages: dict[str, tuple[int, ...]] = {}
    for mark, following in zip(marked, ends, strict=False):
        last = following if mark is marked[-2] else max(mark["page"], following - 1)
        pages[mark["sheet"]] = (*pages.get(mark["sheet"], ()), *range(mark["page"], last + 1))
    return Marks(pages=pages, up={mark["sheet"]: mark["up"] for mark in marked})


def _things(marks: Marks, lesson: Lesson) -> Things:
    def where(*names: str) -> str:
        return say(fact("minutes-in-pupils", pages=pages_text(marks.of(*names))))

    vocabulary = bool(marks.of("words"))
    sounds, shorts = [name for name in sound_sheets(lesson) if name in marks.pages], marks.names("short")
    practical = lesson.scene.practical
    return Things(
        order=fact("minutes-order-at", where=where("order")),
        chart=fact("minutes-chart-at", where=where("chart")),
        cards=where(*shorts, *marks.names("group")),
        words=fact("minutes-words-at", where=where("words")) if vocabulary else fact("minutes-words-aloud"),
        sound=fact("minutes-sound-at", where=where(*sounds)),
        ticket=fact("minutes-ticket-at", where=where("ticket")),
        check=fact("minutes-check-at", where=where("listening")) if marks.of("listening") else fact("minutes-check"),
        compare=comparing(lesson),
        given=lesson.scaffold,
        fetched=fetched(lesson.score),
        ordered=not by_size(lesson)[0],
        story=bool(lesson.scene.story),
        measured=not unmeasured(lesson.scene),
        stages=len(lesson.score.sections),
        groups=len(groups(lesson.score)),
        piece_s=float(lesson.score.clock.seconds(lesson.score.end_beat)),
        practical_min=practical.minutes if practical else 0,
        vocabulary=vocabulary,
        clips=len(listening_items(lesson)),
    )


def comparing(lesson: Lesson) -> Words:
    """Which two stages are compared by ear, and how: the slowest and the quickest where the beats can be told apart."""
    sections = lesson.score.sections
    if len(sections) < 2:
        return fact("minutes-one-stage")
    rows = sorted(sections, key=lambda section: (mean_bpm(lesson, section), section.letter))
    slow, quick = rows[0], max(rows, key=lambda section: (mean_bpm(lesson, section), section.letter))
    ends = {"first": _stage(sections[0]), "last": _stage(sections[-1])}
    if unmeasured(lesson.scene):
        return fact("minutes-clap-sounds" if lesson.scaffold == "open" else "minutes-compare-sounds", **ends)
    plain = fact("minutes-clap-cards" if lesson.scaffold == "open" else "minutes-compare", **ends)
    claim = Claim(kind="quicker", left=_beat(quick), right=_beat(slow))
    beats = {"slow": _stage(slow), "quick": _stage(quick)}
    if lesson.scaffold == "open":
        return held(fact("minutes-clap-beats", claim, **beats).or_else(plain), lesson)
    return held(fact("minutes-compare-beats", claim, **beats, given=lesson.scaffold).or_else(plain), lesson)


def _stage(section: Section) -> Fact:
    return fact("minutes-stage", letter=section.letter)


def _beat(section: Section) -> Reading:
    return in_section("bpm", section)
