"""What to print, and how often: the file, its pages, the copies. The same list stands in pack.json and in the brief.

Few sheets are the aim: at most MOST_SHEETS for a class, printed on one side, if a teacher asks for no more. Where there
would be more, some are shared by more pupils, in the order of ECONOMIES.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil

from sonify.frozen import dataclass
from sonify.kinds.needs import BLIND, NEW_TO_ENGLISH
from sonify.kinds.pupil_sheets import PICTURES
from sonify.paper.facts import groups
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.say.parts import listed

#: Sheets of paper, printed on one side.
MOST_SHEETS = 60
#: How many pupils share what is cut out.
SHARING = 4
TICKETS_ON_A_PAGE = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintRow:
    """Pages of a file, counted from 1, and how many copies of each. colour: whether it loses anything in grey.

    sheet: what the pages are, a message of `printed`. up: equal ones on a page, to be cut apart; 0 where pages differ.
    shared: whether two pupils have one.
    """

    file: str
    pages: tuple[int, ...]
    copies: int
    sheet: str
    colour: bool = False
    up: int = 1
    shared: bool = False

    @property
    def sides(self) -> int:
        return len(self.pages) * self.copies

    def for_programs(self) -> dict[str, object]:
        return {"file": self.file, "pages": list(self.pages), "copies": self.copies, "colour": self.colour}


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """Where the sheets of a file stand: pages by the sheet's name, and how many equal ones lie on a page of each."""

    pages: dict[str, tuple[int, ...]]
    up: dict[str, int]

    def of(self, *names: str) -> tuple[int, ...]:
        return tuple(sorted({page for name in names for page in self.pages.get(name, ())}))

    def copies_on(self, *names: str) -> int:
        """How many equal ones lie on each of some sheets' pages, 0 where these differ."""
        found = {self.up[name] for name in names}
        return found.pop() if len(found) == 1 else 0

    def names(self, first: str) -> list[str]:
        return [name for name in self.pages if name.split(" ")[0] == first]


def print_list(
    lesson: Lesson, pupils: Marks, guide: Sequence[int], cues: Sequence[int], also: Sequence[str] = ()
) -> tuple[PrintRow, ...]:
    """The rows in the order of the lesson. guide: the teacher's own pages. cues: the conductor's."""
    rows = [
        PrintRow(file="teacher.pdf", pages=tuple(guide), copies=1, sheet="guide"),
        PrintRow(file="conductor.pdf", pages=tuple(cues), copies=1, sheet="cues"),
        *_for_pupils(lesson, pupils),
    ]
    for save in ECONOMIES:
        if sum(row.sides for row in rows) > MOST_SHEETS:
            rows = [save(row, lesson) for row in rows]
    rows += [_asked(name, lesson, pupils) for name in also if pupils.of(name) or name == PICTURES]
    rows += _for_some(lesson, pupils)
    return tuple(row for row in rows if row.pages and row.copies)


def _for_pupils(lesson: Lesson, marks: Marks) -> list[PrintRow]:
    room = lesson.classroom
    shorts = marks.names("short")
    rows = [
        PrintRow(file="pupils.pdf", pages=marks.of("order"), copies=ceil(room.pupils / SHARING), sheet="order"),
        PrintRow(file="pupils.pdf", pages=marks.of(*shorts), copies=1, sheet="short", up=marks.copies_on(*shorts)),
        PrintRow(file="pupils.pdf", pages=marks.of(*marks.names("group")), copies=1, sheet="long"),
    ]
    copies: dict[tuple[int, int], list[str]] = {}
    for name, sheets in sound_sheets(lesson).items():
        up = marks.up.get(name, 2)
        copies.setdefault((ceil(2 * sheets / up), up), []).append(name)
    for (count, up), names in sorted(copies.items()):
        rows.append(PrintRow(file="pupils.pdf", pages=marks.of(*names), copies=count, sheet="sound", up=up))
    up = marks.up.get("ticket", TICKETS_ON_A_PAGE)
    tickets = ceil(room.pupils / up)
    return [*rows, PrintRow(file="pupils.pdf", pages=marks.of("ticket"), copies=tickets, sheet="ticket", up=up)]


def sound_sheets(lesson: Lesson) -> dict[str, int]:
    """The sheets "Our sound, and why" that a class uses, each with how many pages of two halves."""
    pupils = lesson.score.group_pupils
    return {
        f"sound {group} {level}": sheets
        for group in groups(lesson.score)
        for level, sheets in _levels(pupils[group]).items()
    }


def _levels(players: int) -> dict[str, int]:
    """Pages with two half sheets for a group: one with help, one to think on, the rest for everyone."""
    if players <= 2:
        return {"all": 1}
    if players <= 4:
        return {"help": 1, "all": 1}
    return {"help": 1, "all": ceil((players - 4) / 2), "more": 1}


def _asked(name: str, lesson: Lesson, marks: Marks) -> PrintRow:
    """A sheet that the teacher ticks: for every pupil; with help, for one in five."""
    pupils = lesson.classroom.pupils
    copies = ceil(pupils / 5) if name in ("words-help", "thinking") else pupils
    if name == PICTURES:
        return PrintRow(file="pupils.pdf", pages=marks.of(*marks.names("picture")), copies=1, sheet=name)
    return PrintRow(file="pupils.pdf", pages=marks.of(name), copies=copies, sheet=name)


def _for_some(lesson: Lesson, marks: Marks) -> list[PrintRow]:
    """Cards of their own, and what else the class file's needs ask for; the list names no need."""
    rows = [PrintRow(file="pupils.pdf", pages=marks.of("own"), copies=1, sheet="own")]
    for need in lesson.classroom.pupils_need:
        if need.name == BLIND:
            rows.append(PrintRow(file="pupils.pdf", pages=marks.of("felt"), copies=need.pupils, sheet="felt"))
        if need.name == NEW_TO_ENGLISH:
            pages = marks.of(f"picture {need.group}") if need.group else marks.of(*marks.names("picture"))
            copies = need.pupils if need.group else 1
            rows.append(PrintRow(file="pupils.pdf", pages=pages, copies=copies, sheet=PICTURES))
    return rows


# Fewer sheets, in this order.


def _order_for_groups(row: PrintRow, lesson: Lesson) -> PrintRow:
    return replace(row, copies=min(row.copies, len(groups(lesson.score)))) if row.sheet == "order" else row


def _brief_alone(row: PrintRow, _: Lesson) -> PrintRow:
    """The rest of the guide is read on a screen."""
    return replace(row, pages=row.pages[:1], sheet="brief") if row.sheet == "guide" else row


def _stand_alone(row: PrintRow, _: Lesson) -> PrintRow:
    return replace(row, pages=row.pages[:1]) if row.sheet == "cues" else row


def _order_on_board(row: PrintRow, _: Lesson) -> PrintRow:
    return replace(row, copies=1) if row.sheet == "order" else row


def _long_cards_alone(row: PrintRow, _: Lesson) -> PrintRow:
    return replace(row, copies=0) if row.sheet == "short" else row


def _sound_in_pairs(row: PrintRow, _: Lesson) -> PrintRow:
    return replace(row, copies=ceil(row.copies / 2), shared=row.copies > 1) if row.sheet == "sound" else row


ECONOMIES = (_order_for_groups, _brief_alone, _stand_alone, _order_on_board, _long_cards_alone, _sound_in_pairs)


def sides(rows: Sequence[PrintRow]) -> int:
    """Sheets of paper, printed on one side."""
    return sum(row.sides for row in rows)


def told(rows: Sequence[PrintRow]) -> list[dict[str, str]]:
    """The list as the brief has it."""
    return [
        {
            "file": say(fact(f"printed-file-{row.file.partition('.')[0]}")),
            "pages": pages_text(row.pages),
            "copies": str(row.copies),
            "sheet": say(fact(f"printed-{row.sheet}", up=row.up, shared="yes" if row.shared else "no")),
        }
        for row in rows
    ]


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
