"""Which pages of the pupils' file are whose, from the file as it is typeset for this class."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sonify.kinds.needs import LARGE_PRINT
from sonify.paper import cards, pupils
from sonify.paper.cards import NO_PICTURES, Pictures
from sonify.paper.facts import listed, mean_bpm
from sonify.paper.minutes import Things
from sonify.paper.room import fetched
from sonify.paper.settings import PaperSettings
from sonify.records.lesson import Lesson

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
    guide = (
        "pupils.pdf: print for each group its own pages, as the table has them, once (better: once for two pupils), "
        f"and {pages_text(everyone)} for every pupil. For pupils who need help {pages_text(pages['support'])}; "
        f"for those who want more to think about {pages_text(pages['stretch'])}."
    )
    return Handouts(things=_things(pages, lesson), guide=guide, cards=_own_pages(own, pages["cards"].stop))


def _own_pages(starts: dict[str, int], end: int) -> dict[int, str]:
    """Each group's pages, from where its card and the next one begin. end: the page after the last card."""
    first = {int(name.removeprefix("group ")): page for name, page in starts.items()}
    after = [*list(first.values())[1:], end]
    return {group: pages_text(range(page, stop)) for (group, page), stop in zip(first.items(), after, strict=True)}


def _things(pages: dict[str, range], lesson: Lesson) -> Things:
    def where(name: str) -> str:
        return f"pupils.pdf, {pages_text(pages[name])}"

    things = Things()
    words = f"{things.words} ({where('words')})" if "words" in pages else "the new words aloud"
    slow, quick = _slowest_and_quickest(lesson)
    return replace(
        things,
        order=f"{things.order}, {where('order')}",
        chart=f"{things.chart} ({where('chart')})",
        cards=where("cards"),
        words=words,
        sound=f"{things.sound} ({where('sound')})",
        slowest=slow,
        quickest=quick,
        given=lesson.scaffold,
        fetched=fetched(lesson.score),
    )


def _slowest_and_quickest(lesson: Lesson) -> tuple[str, str]:
    """The stages to compare, as the page letters them; the first and the last where the beat stays."""
    rows = [(mean_bpm(lesson.score, section), section.letter) for section in lesson.score.sections]
    slow, quick = min(rows), max(rows)
    if slow[0] == quick[0]:
        return f"stage {rows[0][1]}", f"stage {rows[-1][1]}"
    return f"stage {slow[1]} (the slowest)", f"stage {quick[1]} (the quickest)"


def pages_text(pages: range | list[int]) -> str:
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
    found = [
        words for run in runs for words in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(page) for page in run])
    ]
    return f"{'page' if len(pages) == 1 else 'pages'} {listed(found)}"
