"""Columns of readings gathered into quantities: tries of one reading, and one quantity in several groups."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.inputs.experiment_words import doubt, flag
from sonify.inputs.logger_units import name_and_unit
from sonify.inputs.measured_names import BY_UNIT, QUANTITIES, THINGS, from_title, tidied
from sonify.inputs.school_names import as_noun
from sonify.inputs.sheet_blocks import ORDINAL, TRY_WORDS, Block
from sonify.inputs.sheet_columns import COUNTED_IN, MEAN, TOTAL, SheetColumn, is_value
from sonify.records.experiment import Doubt, Roles
from sonify.units import NO_UNIT

_NUMBERED = re.compile(r"(.*?)[\s_#.:-]*(\d{1,2})(?:st|nd|rd|th)?", re.IGNORECASE)
_ORDERED = re.compile(r"(?:\d{1,2}(?:st|nd|rd|th)|first|second|third|fourth|fifth)\s+(.*)", re.IGNORECASE)
_BRACKETED = re.compile(rf"(.*\S)\s*[(\[]\s*(?:{TRY_WORDS})?\s*\d{{1,2}}\s*[)\]]", re.IGNORECASE)
_LETTERED = re.compile(rf"(.*\b(?:{TRY_WORDS}))\s+[a-h]", re.IGNORECASE)
_TRY_NAME_ALONE = re.compile(rf"(?:{TRY_WORDS})?", re.IGNORECASE)
_TRY_WORD = re.compile(rf"\b(?:{TRY_WORDS})\b", re.IGNORECASE)
BEFORE = frozenset(("before", "start", "at the start", "pre", "first", "at first", "beginning"))
AFTER = frozenset(("after", "afterwards", "end", "at the end", "post", "finish", "later"))


def before_and_after(names: Sequence[str]) -> bool:
    """Two names, of which one says before and the other after."""
    folded = [" ".join(name.split()).casefold() for name in names]
    return len(folded) == 2 and folded[0] in BEFORE and folded[1] in AFTER


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Measured:
    """One quantity. columns: those of its tries, for each group; the group is "" where its columns are no groups."""

    name: str
    unit: str
    columns: tuple[tuple[str, tuple[SheetColumn, ...]], ...]
    counted: bool

    @property
    def grouped(self) -> bool:
        return len(self.columns) > 1

    @property
    def groups(self) -> tuple[str, ...]:
        return tuple(group for group, _ in self.columns if group)

    def all_columns(self) -> tuple[SheetColumn, ...]:
        return tuple(column for _, columns in self.columns for column in columns)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Set:
    """Tries of one reading, or one column alone. stem: what their headings share."""

    stem: str
    over: str
    unit: str
    columns: tuple[SheetColumn, ...]


def try_of(column: SheetColumn) -> str | None:
    """What a heading says besides that it is one of several tries; None where it does not say so.

    "Test 1" leaves "", "Time for 10 swings 2" leaves "Time for 10 swings".
    """
    heading = name_and_unit(column.heading)[0]
    if COUNTED_IN.search(heading):
        heading = column.heading  # "Temperature after 10 mins" is no tenth try
    if ORDINAL.fullmatch(column.heading):
        return ""
    if is_value(column.heading):
        return None  # "30 °C" is one of several temperatures
    found = (
        _BRACKETED.fullmatch(heading)
        or _ORDERED.fullmatch(heading)
        or _LETTERED.fullmatch(heading)
        or _NUMBERED.fullmatch(heading)
    )
    stem = found[1].strip() if found else ""
    if found is None or stem.endswith(("(", "/")) or stem.casefold().rpartition(" ")[2] in THINGS:
        return None
    return stem


def is_mean(column: SheetColumn, others: Sequence[SheetColumn]) -> bool:
    """A column that is the mean of others, by its heading, and because there are others that it can be the mean of."""
    if column.kind not in ("number", "empty") or not MEAN.search(column.heading):
        return False
    alike = [each for each in others if each.kind == "number" and each is not column and each.unit == column.unit]
    return column.kind == "empty" or len(alike) > 1 or sum(try_of(each) is not None for each in others) > 1


def is_total(column: SheetColumn, others: Sequence[SheetColumn]) -> bool:
    """A column that sums up others: by its heading, and because it does so or stands beside strokes."""
    if column.kind != "number" or not TOTAL.search(column.heading):
        return False
    if any(each.kind == "tally" for each in others):
        return True
    summed = [each.values for each in others if each.kind == "number" and each is not column]
    sums = [np.nansum(summed[start:], axis=0) for start in (0, 1) if len(summed) > 1 + start]
    return any(bool(np.all(np.abs(each - column.values) <= 1e-6 * (1.0 + np.abs(each)))) for each in sums)


def gathered(
    block: Block, columns: Sequence[SheetColumn], means: Sequence[SheetColumn], said: Roles, *, words: bool
) -> tuple[list[Measured], list[Doubt]]:
    """The quantities that columns of readings make, and what was guessed.

    words: the groups stand in a column of words already, so columns are no groups.
    """
    doubts: list[Doubt] = []
    sets = _sets(columns, said)
    made: list[Measured] = []
    for unit in dict.fromkeys(each.unit for each in sets):
        alike = [each for each in sets if each.unit == unit]
        if _are_groups(alike, said, words):
            made.append(_groups(block, alike, means, said, doubts))
        else:
            made += [_alone(block, each, means, doubts) for each in alike]
    made.sort(key=lambda one: min(column.at for column in one.all_columns()))  # as they come in the file
    return _named(block, made, said, columns, doubts), doubts


def _sets(columns: Sequence[SheetColumn], said: Roles) -> list[_Set]:
    """Columns joined that are tries of one reading."""
    spoken = {name.casefold() for name in said.repeats}
    separate = {name.casefold() for name in said.measured}
    own = {name.casefold() for name in said.groups} if isinstance(said.groups, tuple) else set()
    key: tuple[str, ...]
    groups: dict[tuple[str, ...], list[SheetColumn]] = {}
    headings = [(column.over, column.heading.casefold()) for column in columns if column.heading]
    for column in columns:
        called = {column.label.casefold(), column.heading.casefold()}
        stem = try_of(column)
        if called & spoken:
            key = (column.over if column.over.casefold() in own else "", "", column.unit)
            told = stem is not None and (len(said.measured) > 1 or stem.casefold() in own)
            twice = headings.count((column.over, column.heading.casefold())) > 1 and len(said.measured) > 1
            alike = column.heading if twice else stem if told and stem is not None else ""
            key = (*key, alike.casefold())
        elif headings.count((column.over, column.heading.casefold())) > 1 and not called & separate:
            key = ("same", column.over, column.unit, column.heading.casefold())
        elif stem is None or called & separate or called & own:
            key = ("alone", column.label)
        else:
            key = ("try", column.over, column.unit, stem.casefold())
        groups.setdefault(key, []).append(column)
    groups = _with_first_try(groups)
    found = []
    for members in groups.values():
        first = members[0]
        stem = try_of(first) if len(members) > 1 else None
        whole = is_value(first.heading) or first.unit == NO_UNIT
        named = (
            stem if stem is not None else (first.heading if whole else name_and_unit(first.heading)[0]) or first.name
        )
        found.append(_Set(stem=named, over=first.over, unit=first.unit, columns=tuple(members)))
    return found


def _with_first_try(groups: dict[tuple[str, ...], list[SheetColumn]]) -> dict[tuple[str, ...], list[SheetColumn]]:
    """Tries that begin with the second one, joined with the column before them: "paper clips, try 2, try 3"."""
    for key, members in list(groups.items()):
        second = re.search(r"\d+", members[0].heading)
        if key[0] != "try" or not _TRY_NAME_ALONE.fullmatch(key[3]) or second is None or int(second[0]) != 2:
            continue
        lead = next((k for k, m in groups.items() if len(m) == 1 and m[0].at == members[0].at - 1), None)
        if lead is not None and groups[lead][0].unit == members[0].unit:
            joined = [groups.pop(lead)[0], *groups.pop(key)]
            groups[("led", joined[0].label)] = joined
    return groups


def _are_groups(alike: Sequence[_Set], said: Roles, words: bool) -> bool:
    """Whether several sets in one unit are one quantity in several groups."""
    if isinstance(said.groups, tuple) or len(alike) < 2:
        return len(alike) > 1
    if _turn_words(alike):
        return True
    common = _common(alike)
    rests = [_rest(each.stem, common) for each in alike]
    called = {name.casefold() for each in alike for column in each.columns for name in (column.label, column.heading)}
    if said.groups == "" or words or any(name.casefold() in called for name in said.measured):
        return False
    if len({each.over for each in alike}) == len(alike):
        return True
    held = {word for rest in rests for word in re.findall(r"[a-z]+", rest.casefold())}
    places = {"light", "level"} if held & {"dark", "dim", "shade", "shady"} else set()  # in the light, in the dark
    return not held & (QUANTITIES - places)


def _common(alike: Sequence[_Set]) -> str:
    """What all headings begin or end with, where it says what was measured: "height" of "Height sill", "Height bed"."""
    split = [re.findall(r"[^\s_]+", each.stem) for each in alike]
    for words in (_begin_alike(split), _begin_alike([each[::-1] for each in split])[::-1]):
        while words and words[-1].casefold() in THINGS:
            words.pop()  # "temp of cup 1": the cups are compared
        if any(word.casefold() in QUANTITIES for word in words):
            return " ".join(words)
    return ""


def _turn_words(alike: Sequence[_Set]) -> tuple[str, ...]:
    """What two headings say of before and after, where they are alike but for that: "Egg shell before", "Egg shell
    after"; () where they do not."""
    if len(alike) != 2:
        return ()
    rests = [_rest(each.stem, common) for common in (_common(alike),) for each in alike]
    if before_and_after(rests):
        return tuple(rests)
    for before in sorted(BEFORE, key=len, reverse=True):
        for after in sorted(AFTER, key=len, reverse=True):
            one, other = (_without(each.stem, word) for each, word in zip(alike, (before, after), strict=True))
            if one != alike[0].stem and one and one.casefold() == other.casefold():
                return before, after
    return ()


def _without(stem: str, word: str) -> str:
    """A heading without a word that it begins or ends with."""
    return re.sub(rf"^{re.escape(word)}\s+|\s+{re.escape(word)}$", "", stem, flags=re.IGNORECASE)


def _begin_alike(split: Sequence[Sequence[str]]) -> list[str]:
    shared = []
    for words in zip(*split, strict=False):
        if len({word.casefold() for word in words}) > 1:
            break
        shared.append(words[0])
    return shared if all(len(each) > len(shared) for each in split) else []


def _rest(stem: str, common: str) -> str:
    words, known = re.findall(r"[^\s_]+", stem), len(common.split())
    begins = [word.casefold() for word in words[:known]] == common.casefold().split()
    rest = " ".join(words[known:] if begins else words[: len(words) - known]) if common else stem
    if common:
        rest = re.sub(r"^(?:of|in|on|at|the|for)\s+(?:the\s+)?|\s+(?:of|in|on|at|the|for)$", "", rest).strip(" :-,")
    return rest or stem


def _groups(
    block: Block, alike: Sequence[_Set], means: Sequence[SheetColumn], said: Roles, doubts: list[Doubt]
) -> Measured:
    over = len({each.over for each in alike}) == len(alike) and all(each.over for each in alike)
    common, turn = _common(alike), _turn_words(alike)
    names = list(turn) if turn else [each.over if over else _rest(each.stem, common) for each in alike]
    if turn:
        common = _without(alike[0].stem, turn[0])
    columns = tuple((name, each.columns) for name, each in zip(names, alike, strict=True))
    first = alike[0]
    shared_over = first.over if not over and len({each.over for each in alike}) == 1 else ""
    stem = first.stem if over else common
    name = _quantity_name(block, stem, shared_over, first.unit, means, [c for each in alike for c in each.columns])
    if not isinstance(said.groups, tuple) and not before_and_after(names):
        apart = " ".join(flag("measured", column.label) for each in alike for column in each.columns[:1])
        doubts.append(doubt("groups", apart, names=", ".join(names)))
    return _made(block, name, first.unit, columns, doubts, said)


def _alone(block: Block, each: _Set, means: Sequence[SheetColumn], doubts: list[Doubt]) -> Measured:
    if len(each.columns) > 1:
        name = _quantity_name(block, each.stem, each.over, each.unit, means, each.columns)
    else:
        name = (each.columns[0].name, True)
    return _made(block, name, each.unit, (("", each.columns),), doubts, Roles())


def _made(
    block: Block,
    name: tuple[str, bool],
    unit: str,
    columns: tuple[tuple[str, tuple[SheetColumn, ...]], ...],
    doubts: list[Doubt],
    said: Roles,
) -> Measured:
    called, sure = name
    every = [column for _, each in columns for column in each]
    if unit == NO_UNIT and sure and called == from_title(block.title):
        unit = name_and_unit(block.title)[1]  # "Height of our plants (cm)", above headings that name places alone
    if not sure:
        doubts.append(doubt("measured-name", flag("measured", "NAME"), name=called))
    counted = unit == NO_UNIT and all(column.whole or column.kind == "tally" for column in every)
    return Measured(name=called, unit=unit, columns=columns, counted=counted)


def _quantity_name(
    block: Block,
    stem: str,
    over: str,
    unit: str,
    means: Sequence[SheetColumn],
    columns: Sequence[SheetColumn],
) -> tuple[str, bool]:
    """What a quantity is called that no column names alone, and whether the file itself says so."""
    # "Drop 1" and "Test 2" say only that it is a try, "Time for 10 swings 1" says what was measured.
    told = tidied(_TRY_WORD.sub("", stem)) if _TRY_WORD.fullmatch(stem.strip()) else tidied(stem)
    if told:
        return as_noun(told, unit), True
    if over and not all(is_value(column.heading) for column in columns):
        return tidied(name_and_unit(over)[0]), True
    for mean in means:
        if called := tidied(MEAN.sub("", name_and_unit(mean.heading)[0])):
            return called, True
    if block.title:
        called = from_title(block.title)
        if called:
            return called, True
    if unit in BY_UNIT:
        return BY_UNIT[unit], False
    wide = all(try_of(column) is None for column in columns)
    whole = unit == NO_UNIT and all(column.whole for column in columns)
    return ("number" if wide and whole else "reading"), False


def _named(
    block: Block, made: list[Measured], said: Roles, columns: Sequence[SheetColumn], doubts: list[Doubt]
) -> list[Measured]:
    """Quantities by the names that somebody gave them, where no column is called so."""
    known = {text.casefold() for column in columns for text in (column.label, column.heading, column.name)}
    bare = {name.partition("(")[0].strip().casefold() for name in said.measured} & known
    given = [name for name in said.measured if name.casefold() not in known and name.casefold() not in bare]
    given = [name for name in given if name.partition("(")[0].strip().casefold() not in known]
    composite = [one for one in made if len(one.all_columns()) > 1]
    if not given:
        return made
    if len(given) > len(composite):
        raise UnknownName("column", given[0], filter(None, block.headings))
    names = dict(zip(map(id, composite), given, strict=False))
    doubts[:] = [each for each in doubts if each.about != "measured-name"]
    return [
        Measured(name=names.get(id(one), one.name), unit=one.unit, columns=one.columns, counted=one.counted)
        for one in made
    ]


def named_apart(made: list[Measured]) -> list[Measured]:
    """Quantities of which no two have the same name."""
    found: list[Measured] = []
    for one in made:
        number, name = 1, one.name
        while name.casefold() in {each.name.casefold() for each in found}:
            number += 1
            name = f"{one.name} ({number})"
        found.append(Measured(name=name, unit=one.unit, columns=one.columns, counted=one.counted))
    return found
