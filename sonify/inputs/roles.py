"""What is what in a table, in the words of fair testing: said by a person, or guessed from headings and cells.

A guess is made once, here; whatever could well be otherwise becomes a `Doubt` with the option that settles it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace

import numpy as np

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.inputs.experiment_words import doubt, flag
from sonify.inputs.measured_columns import Measured, before_and_after, gathered, is_mean, is_total, named_apart, try_of
from sonify.inputs.sheet_blocks import TRY, Block
from sonify.inputs.sheet_columns import NOTES, SheetColumn, counts_rows, goes_by
from sonify.kinds.experiments import BEFORE_AFTER, CATEGORIES, NUMBER, OVER_TIME
from sonify.records.experiment import Doubt, Roles
from sonify.units import YES_OR_NO

BOTH = "before and after"
#: More steps than this are numbers, and a word among them is a slip.
MOST_WORDS = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Assigned:
    """Each column's role. changed: the column, None where the columns are the steps (before and after) or the rows are
    only counted. clock: the times of day beside dates. words: the column whose words are the groups."""

    shape: str
    name: str
    changed: SheetColumn | None
    measured: tuple[Measured, ...]
    clock: SheetColumn | None = None
    words: SheetColumn | None = None
    kept: tuple[SheetColumn, ...] = ()
    unused: tuple[SheetColumn, ...] = ()
    means: tuple[SheetColumn, ...] = ()
    doubts: tuple[Doubt, ...] = ()


@dataclass
class _Guess:
    """A guess in the making."""

    said: Roles
    columns: tuple[SheetColumn, ...]
    block: Block
    doubts: list[Doubt] = field(default_factory=list)

    def named(self, name: str) -> SheetColumn | None:
        """The column that somebody named, by its label, its heading or its quantity's name."""
        wanted = _folded(name)
        for key in ("label", "heading", "name"):
            found = [each for each in self.columns if _folded(getattr(each, key)) == wanted]
            if found:
                return found[0]
        bare = _folded(name.partition("(")[0])
        return next((each for each in self.columns if bare and "(" in name and _folded(each.name) == bare), None)

    def must(self, name: str) -> SheetColumn:
        found = self.named(name)
        if found is None:
            raise UnknownName("column", name, [each.label for each in self.columns])
        return found

    def doubt(self, about: str, flag: str = "", **args: str) -> None:
        self.doubts.append(doubt(about, flag, **args))


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()


def assigned(block: Block, columns: tuple[SheetColumn, ...], said: Roles) -> Assigned | None:
    """The role of each column; None where nothing was measured.

    Raises UnknownName where somebody named a column that is not there.
    """
    guess = _Guess(said, columns, block)
    groups = said.groups if isinstance(said.groups, str) and said.groups else None
    words = guess.must(groups) if groups else None
    aside = [guess.must(name) for name in (*said.kept, *said.unused)]
    spoken = _spoken(guess)
    left = [each for each in columns if each not in aside and each is not words and each.kind != "empty"]
    means = [each for each in left if each not in spoken and is_mean(each, left)]
    left = [each for each in left if each in spoken or not (each in means or _idle(each, left))]
    left = [_counted_up(each, columns) for each in left]
    changed, clock, words = _changed(guess, left, words, spoken)
    if changed is None and len(left) == 1 and any(each.kind == "empty" and each.heading for each in columns):
        return None
    taken = {each.at for each in (changed, clock, words) if each is not None}
    rest = [each for each in left if each.at not in taken and each not in means]
    made = _measured(guess, rest, changed, words, means, spoken)
    if not made:
        return None
    measured, kept = named_apart(made[0]), made[1]
    shape, name, measured, words = _shape(guess, changed, clock, words, measured)
    constant = [*[guess.must(each) for each in said.kept], *kept]
    played = [*(each for one in measured for each in one.all_columns()), *constant, changed, clock, words]
    used = {each.at for each in played if each is not None}
    unused = [each for each in columns if each.at not in used]
    return Assigned(
        shape=shape,
        name=name,
        changed=changed,
        measured=tuple(measured),
        clock=clock,
        words=words,
        kept=tuple(constant),
        unused=tuple(unused),
        means=tuple(means),
        doubts=tuple(guess.doubts),
    )


def _spoken(guess: _Guess) -> list[SheetColumn]:
    """Columns that somebody named as measured, as repeats or as groups."""
    said = guess.said
    found = [guess.named(name) for name in said.measured] + [guess.must(name) for name in said.repeats]
    if isinstance(said.groups, tuple):
        for name in said.groups:
            wanted = _folded(name)
            under = [each for each in guess.columns if wanted in (_folded(each.over), _folded(try_of(each) or ""))]
            found += [guess.named(name)] if guess.named(name) else under or [guess.must(name)]
    if said.changed is not None:
        found.append(guess.named(said.changed))
    return [each for each in found if each is not None]


def _idle(column: SheetColumn, others: Sequence[SheetColumn]) -> bool:
    """A column that is neither changed nor measured: row numbers, the number of a try, a total, remarks."""
    if counts_rows(column) or is_total(column, others):
        return True
    if column.kind == "words" and NOTES.search(column.heading):
        return True
    tries = column.plain in ("trial", "test", "try", "attempt", "go", "run", "repeat", "turn")
    named = column.kind == "words" and all(TRY.fullmatch(cell) for cell in column.cells if cell)
    return tries and len(others) > 2 and (named or column.kind == "number" and column.whole)


def _counted_up(column: SheetColumn, columns: Sequence[SheetColumn]) -> SheetColumn:
    """A tally with the totals that stand beside it: a crossed five is typed in many ways."""
    total = next((each for each in columns if each.kind == "number" and is_total(each, columns)), None)
    if column.kind != "tally" or total is None or sum(each.kind == "tally" for each in columns) > 1:
        return column
    return replace(column, values=np.where(np.isfinite(total.values), total.values, column.values))


# --- what was changed ------------------------------------------------------------------------------------------------


def _changed(
    guess: _Guess, left: Sequence[SheetColumn], words: SheetColumn | None, spoken: Sequence[SheetColumn]
) -> tuple[SheetColumn | None, SheetColumn | None, SheetColumn | None]:
    """The column of what was changed, a clock beside a date, and the column of words that are groups."""
    if guess.said.changed is not None and _folded(guess.said.changed) != BOTH:
        changed = _worded(guess.must(guess.said.changed))
        return changed, _clock_beside(changed, left), words or _groups(guess, left, changed)
    free = [each for each in left if each not in spoken and each is not words]
    if _folded(guess.said.changed or "") == BOTH:
        return None, None, words or next((each for each in free if each.kind == "words"), None)
    timed = _passing(free, left)
    if timed is not None:
        clock = _clock_beside(timed, left)
        return timed, clock, words or _groups(guess, left, timed, clock)
    texts = [each for each in free if each.kind in ("words", "time") or _answers_among(each, left)]
    numbers = [each for each in free if each.numeric and try_of(each) is None]
    if texts and words is None:
        return _of_words(guess, texts, numbers, left)
    if texts and not numbers[1:]:
        return texts[0], None, words
    if len([each for each in left if each.numeric or each.kind == "answer"]) < 2:
        return (texts[0] if texts else None), None, words
    if numbers and not guess.block.headed:
        guess.doubt("changed", flag("changed", numbers[-1].label), name=numbers[0].name)
    return (_worded(numbers[0]) if numbers else None), None, words


def _worded(column: SheetColumn) -> SheetColumn:
    """What was changed as words, where one of its steps is no number: "surface", 20 cm, 40 cm."""
    if column.kind != "number" or goes_by(column):
        return column
    lost = [c for c, v in zip(column.cells, column.values, strict=True) if c.isalpha() and not np.isfinite(v)]
    return replace(column, kind="words") if lost and len(column.cells) <= MOST_WORDS else column


def _passing(free: Sequence[SheetColumn], left: Sequence[SheetColumn]) -> SheetColumn | None:
    """The column of a time that goes by, None where there is none but times that were found out."""
    others = [each for each in left if each.kind in ("number", "tally", "answer")]
    for column in free:
        if column.kind == "time" and [each for each in others if each is not column]:
            return column
        before = [each for each in left if each.at < column.at and each.kind in ("number", "time")]
        if goes_by(column) and not before and [each for each in others if each is not column]:
            return column
    return None


def _clock_beside(changed: SheetColumn, left: Sequence[SheetColumn]) -> SheetColumn | None:
    """The other column of a moment: the times of day beside dates."""
    if changed.kind != "time" or any(":" in cell for cell in changed.cells):
        return None  # a sunrise beside a date is no clock of the reading
    return next(
        (
            each
            for each in left
            if each is not changed
            and each.kind == "time"
            and each.heading.casefold().startswith(("time", "clock", "hour"))
        ),
        None,
    )


def _answers_among(column: SheetColumn, left: Sequence[SheetColumn]) -> bool:
    """Yes and no beside numbers: what was done, not what was found."""
    return column.kind == "answer" and any(each.numeric for each in left)


def _groups(guess: _Guess, left: Sequence[SheetColumn], *taken: SheetColumn | None) -> SheetColumn | None:
    """A column of a few words that come again and again beside what was changed: what is compared."""
    if guess.said.groups is not None or not _come_again([each for each in taken if each is not None]):
        return None
    for column in left:
        if column in taken or not (column.kind == "words" or _answers_among(column, left)):
            continue
        words, filled = column.words(), sum(1 for cell in column.cells if cell)
        if 1 < len(words) <= 12 and len(words) < filled and filled >= 0.8 * len(column.cells):
            return column
    return None


def _come_again(steps: Sequence[SheetColumn]) -> bool:
    """Whether a step has more than one row: else words beside it are a remark, and compare nothing."""
    rows = list(zip(*(each.cells for each in steps), strict=True))
    return len(set(rows)) < len(rows)


def _of_words(
    guess: _Guess, texts: Sequence[SheetColumn], numbers: Sequence[SheetColumn], left: Sequence[SheetColumn]
) -> tuple[SheetColumn | None, SheetColumn | None, SheetColumn | None]:
    """What was changed where a column of words stands beside numbers: the words, or the first of the numbers."""
    first = texts[0]
    levels = next((each for each in numbers if not _constant(each)), None)
    results = [
        each for each in left if (each.numeric or each.kind == "answer") and each is not levels and each not in texts
    ]
    if not results and levels is not None and levels.at < first.at and _evenly(levels):
        return levels, None, None  # what was found stands in words
    headings = " ".join(each.heading.casefold() for each in left)
    if "before" in headings.split() and "after" in headings.split():
        return first, None, None
    again = len(first.words()) < sum(1 for cell in first.cells if cell)
    if not again and levels is not None and results and _labels_only(first) and _rises(levels):
        guess.doubt("changed", flag("changed", first.label), name=levels.name)
        return levels, None, None
    if again and levels is not None and results and _same_levels(first, levels):
        return levels, None, first
    if again and len(texts) > 1 and guess.said.groups is None:
        return first, None, texts[1] if len(texts[1].words()) > 1 else None
    return first, None, None


def _constant(column: SheetColumn) -> bool:
    read = column.values[np.isfinite(column.values)]
    return column.kind == "number" and read.size > 1 and bool(np.all(read == read[0]))


def _labels_only(column: SheetColumn) -> bool:
    """Words that tell things apart and say nothing of them: A, B, C, or Cup 1, Cup 2."""
    return all(len(cell.split()[-1]) <= 2 for cell in column.cells if cell)


def _rises(column: SheetColumn) -> bool:
    steps = np.diff(column.values)
    return bool(np.all(steps > 0.0) or np.all(steps < 0.0))


def _evenly(column: SheetColumn) -> bool:
    """Numbers that rise step by step, as somebody chose them: they are no result."""
    steps = np.diff(column.values)
    return steps.size >= 3 and steps[0] > 0.0 and bool(np.all(np.abs(steps - steps[0]) <= 1e-9 * abs(steps[0])))


def _same_levels(words: SheetColumn, levels: SheetColumn) -> bool:
    """Each word has the same few numbers, about: what was changed, in every group."""
    by_word: dict[str, set[float]] = {}
    for word, value in zip(words.cells, levels.values.tolist(), strict=True):
        if word and np.isfinite(value):
            by_word.setdefault(word.casefold(), set()).add(value)
    every = set().union(*by_word.values()) if by_word else set()
    shared = sum(len(each) for each in by_word.values())
    return len(every) > 1 and shared >= 0.75 * len(every) * len(by_word)


# --- what was measured -----------------------------------------------------------------------------------------------


def _measured(
    guess: _Guess,
    rest: Sequence[SheetColumn],
    changed: SheetColumn | None,
    words: SheetColumn | None,
    means: Sequence[SheetColumn],
    spoken: Sequence[SheetColumn],
) -> tuple[list[Measured], list[SheetColumn]] | None:
    """What was measured, and the columns that never vary; None where nothing was measured."""
    said = guess.said
    some = bool(said.measured or said.repeats or isinstance(said.groups, tuple))
    chosen = [each for each in rest if each in spoken] if some else []
    if not chosen:
        chosen = _readings(rest, changed)
    if not chosen and means:
        chosen, means = list(means), ()
    chosen = [_as_numbers(each) for each in chosen]
    chosen = [each for each in chosen if np.isfinite(each.values).any()]
    if not chosen:
        return None
    steady = _steady(chosen, changed) if not some else []
    for column in steady:
        guess.doubt("kept", flag("measured", column.label), name=column.name)
    chosen = [each for each in chosen if each not in steady]
    made, doubts = gathered(guess.block, chosen, means, said, words=words is not None)
    guess.doubts += doubts
    if all(each.kind == "answer" for each in chosen):
        guess.doubt("yes-no", name=chosen[0].label)
    kept: list[SheetColumn] = []
    if not some:
        made, kept = _without_constant(guess, made)
    return made, [*steady, *kept]


def _steady(chosen: Sequence[SheetColumn], changed: SheetColumn | None) -> list[SheetColumn]:
    """Columns of one number beside others that vary, where things were compared: 100 ml of water for each. Over time
    such a column may be a group in which nothing happens."""
    if changed is None or changed.kind != "words":
        return []
    steady = [each for each in chosen if len(each.cells) > 2 and _constant(each) and try_of(each) is None]
    return steady if len(steady) < len(chosen) else []


def _readings(rest: Sequence[SheetColumn], changed: SheetColumn | None) -> list[SheetColumn]:
    """Numbers and tallies; where there are none, times that were found out, or answers."""
    for wanted in (("number", "tally"), ("time",), ("answer",)):
        found = [each for each in rest if each.kind in wanted]
        if found:
            return found
    return []


def _as_numbers(column: SheetColumn) -> SheetColumn:
    """Stopwatch times as seconds: 2:30 is two minutes and a half; yes and no as answers."""
    if column.kind == "answer":
        return replace(column, name=f"answer to “{column.name}”", unit=YES_OR_NO)
    if column.kind != "time":
        return column
    from sonify.inputs.school_times import times

    found = times(column.cells, again=True, minutes_first=True)
    seconds = [np.nan if found is None or each is None else each for each in (found.seconds if found else column.cells)]
    values = np.array([float(each) for each in seconds])
    return replace(column, kind="number", unit="s", values=values, durations=True)


def _without_constant(guess: _Guess, made: list[Measured]) -> tuple[list[Measured], list[SheetColumn]]:
    """Quantities that never vary were kept the same, unless nothing varies."""
    constant = [one for one in made if not one.grouped and all(map(_constant, one.all_columns()))]
    if len(constant) == len(made):
        return made, []
    kept = [each for one in constant for each in one.all_columns()]
    for one in constant:
        guess.doubt("kept", flag("measured", one.all_columns()[0].label), name=one.name)
    return [one for one in made if one not in constant], kept


# --- the shape -------------------------------------------------------------------------------------------------------


def _shape(
    guess: _Guess,
    changed: SheetColumn | None,
    clock: SheetColumn | None,
    words: SheetColumn | None,
    measured: list[Measured],
) -> tuple[str, str, list[Measured], SheetColumn | None]:
    both = [one for one in measured if one.grouped and before_and_after(one.groups)]
    if both and (changed is None or changed.kind == "words"):
        return BEFORE_AFTER, BOTH, both, words or changed
    if changed is None:
        guess.doubt("rows")
        return NUMBER, "row", measured, words
    if changed.kind == "time" or goes_by(changed):
        name = f"{changed.name} and {clock.name}" if clock is not None else changed.name
        return OVER_TIME, name, measured, words
    if changed.numeric:
        return NUMBER, changed.name, measured, words
    if before_and_after(changed.words()):
        return BEFORE_AFTER, changed.name, measured, words
    return CATEGORIES, changed.name, measured, words
