"""Which pages of the pupils' file are whose, from the file as it is typeset for this class."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sonify.facts.sheet import by_size, held, in_section, mean_bpm
from sonify.facts.sounding import unmeasured
from sonify.kinds.needs import LARGE_PRINT
from sonify.paper import cards, pupils
from sonify.paper.cards import NO_PICTURES, Pictures
from sonify.paper.minutes import Things
from sonify.paper.room import fetched
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Claim, Fact, Reading, Words, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Section
from sonify.say import say
from sonify.say.parts import listed

#: Sheets that not every pupil gets.
NOT_FOR_ALL = ("cards", "support", "stretch")


@dataclass(frozen=True, slots=True, kw_only=True)
class Handouts:
    """Names of what a lesson uses, and how to print the pupils' file."""

    things: Things
    guide: str
    cards: dict[int, str]  # each group's own pages


def handouts(lesson: Lesson, settings: PaperSettings, pictures: Pictures = NO_PICTURES) -> Handouts:
    """The pages of each sheet of pupils.pdf, in large print where this class needs it. pictures: those of its cards."""
    from sonify.paper.typeset import first_pages

    large = settings.large_print or LARGE_PRINT in lesson.classroom.needs
    chosen = replace(settings, large_print=large)
    starts = first_pages(
        "pupils", pupils.sheet(lesson, chosen, pictures), chosen, cards.picture_files(lesson.score, pictures)
    )
    own = {name: starts.pop(name) for name in list(starts) if name.startswith("group ")}
    names = [name for name in starts if name]
    ends = {name: starts[after] - 1 for name, after in zip(names, names[1:], strict=False)}
    pages = {name: range(starts[name], max(ends.get(name, starts[""]), starts[name]) + 1) for name in names}
    everyone = sorted(page for name in names if name not in NOT_FOR_ALL for page in pages[name])
    told: dict[str, Sequence[int]] = {"all": everyone, "help": pages["support"], "more": pages["stretch"]}
    guide = say(fact("minutes-print", **{name: pages_text(found) for name, found in told.items()}))
    return Handouts(things=_things(pages, lesson), guide=guide, cards=_own_pages(own, pages["cards"].stop))


def _own_pages(starts: dict[str, int], end: int) -> dict[int, str]:
    """Each group's pages, from where its card and the next one begin. end: the page after the last card."""
    first = {int(name.removeprefix("group ")): page for name, page in starts.items()}
    after = [*list(first.values())[1:], end]
    return {group: pages_text(range(page, stop)) for (group, page), stop in zip(first.items(), after, strict=True)}


def _things(pages: dict[str, range], lesson: Lesson) -> Things:
    def where(name: str) -> str:
        return say(fact("minutes-in-pupils", pages=pages_text(pages[name])))

    words = fact("minutes-words-at", where=where("words")) if "words" in pages else fact("minutes-words-aloud")
    return Things(
        order=fact("minutes-order-at", where=where("order")),
        chart=fact("minutes-chart-at", where=where("chart")),
        cards=where("cards"),
        words=words,
        sound=fact("minutes-sound-at", where=where("sound")),
        compare=comparing(lesson),
        given=lesson.scaffold,
        fetched=fetched(lesson.score),
        ordered=not by_size(lesson)[0],
        story=bool(lesson.scene.story),
        measured=not unmeasured(lesson.scene),
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


def pages_text(pages: Sequence[int]) -> str:
    """Pages as a print window takes them, in words.

    >>> pages_text([3]), pages_text([3, 4, 5]), pages_text([1, 2, 7, 9, 10, 11])
    ('page 3', 'pages 3 to 5', 'pages 1, 2, 7 and 9 to 11')
    """
    runs: list[list[int]] = []
    for page in pages:
        if runs and page == runs[-1][-1] + 1:
            runs[-1].append(page)
        else:
            runs.append([page])
    found = []
    for run in runs:
        whole = len(run) > 2
        found += [say(fact("minutes-pages-run", first=run[0], last=run[-1]))] if whole else [str(page) for page in run]
    return say(fact("minutes-pages", n=len(pages), pages=listed(found)))
