"""A class's experiment in the words of fair testing: what was changed, measured and kept the same."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.kinds.experiments import BEFORE_AFTER, CATEGORIES, MOST_STEPS, MOST_TRIES, NUMBER, OVER_TIME, SHAPES
from sonify.records.fact import Words
from sonify.records.table import Table
from sonify.records.timeline import FloatArray, frozen

__all__ = ["Doubt", "Experiment", "Roles", "SeenColumn", "SeenTable", "Series"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Series:
    """One measured quantity in one group, a value a step, in `unit` (NO_UNIT where the file names none).

    group: which of the groups, "" where nothing is compared. values: the mean of the repeats, nan where nothing was
    read. least, most: the smallest and the greatest repeat. tries: how many were read. every: each step's repeats in
    the order of the file, () where nothing was repeated. counted: whole numbers of things, told without decimals.
    """

    quantity: str
    group: str
    unit: str
    values: FloatArray
    least: FloatArray
    most: FloatArray
    tries: NDArray[np.int64]
    every: tuple[tuple[float, ...], ...] = ()
    counted: bool = False

    def __post_init__(self) -> None:
        for name in ("values", "least", "most"):
            object.__setattr__(self, name, frozen(getattr(self, name)))
        tries = np.array(self.tries, dtype=np.int64)
        tries.setflags(write=False)
        object.__setattr__(self, "tries", tries)
        if {self.least.shape, self.most.shape, tries.shape} != {self.values.shape}:
            raise ValueError("a series has one value, one spread and one count of tries a step")
        if self.every and tuple(map(len, self.every)) != tuple(tries.tolist()):
            raise ValueError("a series has as many repeats of a step as it says")

    @property
    def name(self) -> str:
        """What scenes, rules and science.csv call it: "height: sill", or "height" where nothing is compared."""
        return f"{self.quantity}: {self.group}" if self.group else self.quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """Something that was guessed. about: which guess, for machines. flag: the option that settles it, as it is typed,
    "" where only the file can."""

    about: str
    says: Words
    flag: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Roles:
    """What a person said is what in her file: by options, on the page, or in the scene file's [table].

    Each is None or () where she said nothing. measured may name a quantity that no column is called, where its columns
    are repeats or groups. groups: a column of words, or the columns that are the groups, one each; "" for none. sheet:
    the sheet or the table of a file that holds several. across: the table lies on its side, a quantity a row. model:
    one of `kinds.experiments.MODELS`, whose values are to stand beside the readings.
    """

    changed: str | None = None
    measured: tuple[str, ...] = ()
    repeats: tuple[str, ...] = ()
    groups: str | tuple[str, ...] | None = None
    kept: tuple[str, ...] = ()
    unused: tuple[str, ...] = ()
    sheet: str | None = None
    title: str | None = None
    across: bool | None = None
    model: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Experiment:
    """What a class changed, measured and kept the same.

    shape: a row of `kinds.experiments`. changed: what was changed ("layers of paper", "time", "material"), with the
    unit of its steps, "s" for time and "" for words. steps: the times in seconds from the first, the numbers in rising
    order, or 0, 1, 2 for words. labels: a name a step, as it is written in the file. kept: columns that never vary.
    table: what was read, with its file, rows and findings. roles: every column's role, said and guessed, by its
    heading; a file read with these gives the same experiment. model: whose values stand beside the class's own as a
    second group, "" for none.
    """

    shape: str
    changed: str
    changed_unit: str
    steps: FloatArray
    labels: tuple[str, ...]
    series: tuple[Series, ...]
    groups: tuple[str, ...]
    table: Table
    kept: tuple[str, ...] = ()
    unused: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    roles: Roles | None = None
    model: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "steps", frozen(self.steps))
        if self.shape not in SHAPES:
            raise ValueError(f"an experiment has no shape {self.shape!r}")
        if len(self.labels) != self.steps.size or any(each.values.size != self.steps.size for each in self.series):
            raise ValueError("an experiment has one label and one value of every series a step")
        if not np.all(np.diff(self.steps) > 0.0) or not self.series:
            raise ValueError("the steps of an experiment rise, and something was measured")

    @property
    def timed(self) -> bool:
        """Its steps are moments."""
        return self.shape == OVER_TIME

    @property
    def named(self) -> bool:
        """Its steps are words: categories, or before and after."""
        return self.shape in (CATEGORIES, BEFORE_AFTER)

    @property
    def words(self) -> tuple[str, ...]:
        """What scenes call the stages of steps that are words."""
        return tuple(label.lower() for label in self.labels) if self.shape == BEFORE_AFTER else self.labels

    @property
    def one_by_one(self) -> bool:
        """Its steps are a stage each, and the repeats of one can be heard one by one."""
        stepped = self.named or (self.shape == NUMBER and len(self.labels) <= MOST_STEPS)
        most = max(int(each.tries.max(initial=0)) for each in self.series)
        return stepped and 1 < most <= MOST_TRIES and any(each.every for each in self.series)

    @property
    def quantities(self) -> tuple[str, ...]:
        """What was measured, each once, in the order of the file."""
        return tuple(dict.fromkeys(each.quantity for each in self.series))

    @property
    def repeated(self) -> bool:
        """Something was read more than once at one step of one group."""
        return any(bool((each.tries > 1).any()) for each in self.series)

    def of(self, quantity: str) -> tuple[Series, ...]:
        """The series of one quantity, a group each. Raises UnknownName with the nearest spelling."""
        if quantity not in self.quantities:
            raise UnknownName("quantity", quantity, self.quantities)
        return tuple(each for each in self.series if each.quantity == quantity)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenColumn:
    """A column of a class's table as it stands in the file. role: one of `kinds.experiments.ROLES`."""

    label: str
    kind: str
    role: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenTable:
    """What a person sees of her table before anything sounds. tables: the names of all that the file holds, chosen:
    the one that was read; () and "" where there is but one. rows: how many the table has."""

    columns: tuple[SeenColumn, ...]
    rows: int
    tables: tuple[str, ...] = ()
    chosen: str = ""
