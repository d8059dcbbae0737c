"""What is told of an experiment: what was found at each step, beside the step before, and over all of them.

Every figure is one of the table, or the mean of repeats. Repeats that lie as far apart as two steps do are said to
leave it open which is more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from sonify.frozen import dataclass
from sonify.kinds.experiments import BEFORE_AFTER, CATEGORIES
from sonify.processes.cut_at_readings import Cut
from sonify.processes.experiment_series import Measured, places_for, spread_name
from sonify.processes.telling import Stretch
from sonify.records.experiment import Experiment, Series
from sonify.records.fact import Amount, Arg, Claim, Fact, Words, fact
from sonify.records.things import NUMBER_OF, are_things, one_thing, things_of
from sonify.records.timeline import Event, FloatArray
from sonify.units import NO_UNIT, printed

#: A rise or fall is told from so much of the whole swing up, with no more than so much of it lost on the way (our own).
LEAST_CLIMB, MOST_BACK = 0.01, 0.2


def stage_name(experiment: Experiment, step: float) -> str:
    """What scenes call a step that is a number: "8 layers of paper", "50 cm"."""
    number = f"{step:.10g}"
    if experiment.changed_unit in (NO_UNIT, "", "1"):
        return f"{number} {experiment.changed.removeprefix(NUMBER_OF)}"
    return f"{number} {printed(experiment.changed_unit)}"


def figure(found: Measured, here: Stretch, name: str, how: str) -> Amount:
    """A reading of a series, with as many decimal places as the table has."""
    plain = here.figure(name, how)
    return here.figure(name, how, places=places_for(plain.value, found.places.get(name, 3)))


def same_text(one: Amount, other: Amount) -> bool:
    """Whether two figures are printed alike."""
    return f"{one.value:.{one.places or 0}f}" == f"{other.value:.{other.places or 0}f}"


def kind_of(series: Series) -> str:
    """How a quantity is spoken of: "counted" things, or "measured"."""
    return "counted" if series.counted and are_things(series.quantity) else "measured"


def spoken_of(series: Series) -> str:
    """What stands after "the more": the things where they are counted, else the quantity."""
    return things_of(series.quantity) if kind_of(series) == "counted" else series.quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class _Along:
    """What steps and stretches both tell. whole: all quantities, what was changed among them."""

    found: Measured
    whole: Stretch

    @property
    def how(self) -> str:
        """How a series is read at a step."""
        return "first"

    @property
    def experiment(self) -> Experiment:
        return self.found.experiment

    @property
    def changed_things(self) -> bool:
        return self.experiment.changed_unit in (NO_UNIT, "", "1") and are_things(self.experiment.changed)

    def at(self, here: Stretch, how: str = "first") -> Amount:
        """What was changed, at one end of a stretch."""
        name = self.experiment.changed
        plain = here.figure(name, how)
        return here.figure(name, how, places=places_for(plain.value, 3))

    def place(self, here: Stretch) -> Fact:
        """A step in the middle of a sentence: "with 8", "at 2 m"; of steps that are words, the first."""
        if self.experiment.named:
            return fact("experiment-before")
        return fact("experiment-place", put="with" if self.changed_things else "at", at=self.at(here))

    def extremes(self, steps: Sequence[Stretch]) -> tuple[Event, ...]:
        """The most and the least of the first series, where each comes once; in the order of the walk."""
        series = self.found.first
        if series.group:
            return ()
        values = self.found.values[series.name]
        found = []
        for which, at in (("least", int(values.argmin())), ("most", int(values.argmax()))):
            here = steps[at]
            told = self.read(here, series.name)
            alike = sum(same_text(told, self.read(each, series.name)) for each in steps)
            if alike > 1 or values.size < 3:
                continue
            end = Claim(
                kind="same",
                left=here.reading(series.name, "first"),
                right=self.whole.reading(series.name, which),
                slack=1e-9,
            )
            text = fact(
                f"experiment-{which}",
                end,
                quantity=spoken_of(series),
                kind=kind_of(series),
                value=told,
                place=self.place(here),
            )
            found.append((at, Event(name=f"{which} {series.name}", time_s=here.start, text=text)))
        return tuple(event for _, event in sorted(found, key=lambda row: row[0]))

    def read(self, here: Stretch, name: str) -> Amount:
        """What was read of a series at a step, the mean of its repeats."""
        return figure(self.found, here, name, self.how)

    def overall(self) -> Words:
        """The more the more, or the more the less: only where no step goes back, in no group."""
        if self.experiment.named:
            return ()
        every = self.experiment.of(self.found.first.quantity)
        values = [self.found.values[series.name] for series in every]
        for kind, goes, sign in (("never falls", "up", 1.0), ("never rises", "down", -1.0)):
            if all(np.all(sign * np.diff(each) >= 0.0) and each[-1] != each[0] for each in values):
                return fact(
                    f"experiment-overall-{goes}",
                    *(Claim(kind=kind, left=self.whole.reading(series.name, "change")) for series in every),
                    changed=things_of(self.experiment.changed) if self.changed_things else self.experiment.changed,
                    things="yes" if self.changed_things else "no",
                    quantity=spoken_of(every[0]),
                    kind=kind_of(every[0]),
                    strict="yes" if all(np.all(np.diff(each) != 0.0) for each in values) else "no",
                    groups="many" if len(every) > 1 else "one",
                )
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps(_Along):
    """Steps one by one. begins: where each one's stage begins. singly: the repeats of a step have a turn each in it."""

    begins: FloatArray
    singly: bool = False

    @property
    def how(self) -> str:
        return "mean" if self.singly else "first"

    def step(self, number: int) -> Stretch:
        """The moment at which a step begins; all of it, where its repeats follow one another."""
        begin = float(self.begins[number])
        return self.whole.between(begin, begin + 1.0 if self.singly else begin)

    def title(self, number: int) -> Words:
        if self.experiment.named:
            return self.title_arg(number)
        changed, at = self.experiment.changed, self.at(self.step(number))
        things = self._things(changed, at) if self.changed_things else ""
        if things:
            return fact("experiment-stage-things", things=things, at=at)
        return fact("experiment-stage", changed=changed[:1].upper() + changed[1:], at=at)

    def _things(self, name: str, count: Amount) -> str:
        """The things that a number counts; "" where the one thing cannot be named."""
        return one_thing(name) if count.value == 1.0 else things_of(name)

    def science(self, number: int) -> Words:
        """What was found at a step, and how it lies beside the step before."""
        found = tuple(self._found(quantity, number) for quantity in self.experiment.quantities)
        told: list[Words] = [self._whole_step(number, found)]
        if self.experiment.shape == CATEGORIES:
            told = [self._kind(quantity, number) for quantity in self.experiment.quantities]
        if self.singly:
            told += self._singly(number)
        if self.experiment.shape == CATEGORIES:
            told += self._greatest(number)
        elif number and not self.experiment.groups:
            told += self._beside(number)
        elif number and self.experiment.shape == BEFORE_AFTER:
            told += self._changes(number)
        if number == len(self.begins) - 1:
            told.append(self.overall())
        return tuple(words for words in told if words != ())

    def _singly(self, number: int) -> list[Words]:
        """The repeats of a step in the order in which they are heard."""
        told: list[Words] = []
        for series in self.experiment.series:
            own = series.every[self._row(number)] if series.every else ()
            turns = [self.step(number).between(at, at) for at in self._begins_of(number, len(own))]
            figures = tuple(figure(self.found, turn, series.name, "first") for turn in turns)
            if len({f"{each.value:.6g}" for each in figures}) > 1:
                told.append(
                    fact("experiment-tries", of="group" if series.group else "all", group=series.group, tries=figures)
                )
        return told

    def _begins_of(self, number: int, tries: int) -> list[float]:
        """When each of so many repeats begins to be heard."""
        return [float(self.begins[number]) + turn / tries + (1e-9 if turn else 0.0) for turn in range(tries)]

    def _greatest(self, number: int) -> list[Words]:
        """Which group has most of a quantity here, where it is one alone."""
        told: list[Words] = []
        here = self.step(number)
        for quantity in self.experiment.quantities:
            read = [one for one in self.experiment.of(quantity) if self.found.read[one.name][number]]
            ranked = sorted(((self.read(here, one.name), one) for one in read), key=lambda row: -row[0].value)
            if len(ranked) < 2 or same_text(ranked[0][0], ranked[1][0]):
                continue
            readings = [here.reading(one.name, self.how) for _, one in ranked]
            claims = tuple(Claim(kind="more", left=readings[0], right=other, slack=1e-9) for other in readings[1:])
            told.append(fact("experiment-greatest", *claims, quantity=quantity, group=ranked[0][1].group))
        return told

    def _whole_step(self, number: int, found: tuple[Fact, ...]) -> Fact:
        if self.experiment.named:
            return fact("experiment-step-named", step=self.title_arg(number), found=found)
        changed, at = self.experiment.changed, self.at(self.step(number))
        if things := self._things(changed, at) if self.changed_things else "":
            return fact("experiment-step", put="with", changed=things, at=at, found=found)
        put = "number" if self.changed_things else "when"
        return fact(
            "experiment-step",
            put=put,
            changed=things_of(changed) if self.changed_things else changed,
            at=at,
            found=found,
        )

    def title_arg(self, number: int) -> str:
        label = self.found.labels[number]
        return label[:1].upper() + label[1:]

    def _found(self, quantity: str, number: int) -> Fact:
        """What was read of one quantity, of each group where there are any."""
        series, here = self.experiment.of(quantity), self.step(number)
        if len(series) > 1 or series[0].group:
            return fact(
                "experiment-found-groups",
                quantity=quantity,
                each=self._groups(quantity, number),
            )
        only = series[0]
        if not self.found.read[only.name][number]:
            return fact("experiment-found-unread", quantity=quantity)
        value = self.read(here, only.name)
        tries = int(only.tries[self._row(number)])
        told: dict[str, Arg] = {
            "value": value,
            "many": "yes" if tries > 1 else "no",
            "tries": tries,
        }
        if kind_of(only) == "measured":
            return fact("experiment-found", kind="measured", quantity=quantity, **told)
        if things := self._things(quantity, value):
            return fact("experiment-found", kind="counted", quantity=things, **told)
        return fact("experiment-found", kind="number", quantity=things_of(quantity), **told)

    def _groups(self, quantity: str, number: int) -> tuple[Fact, ...]:
        """What was read of a quantity in each group."""
        here = self.step(number)
        return tuple(
            fact(
                "experiment-of-group",
                group=one.group,
                value=self.read(here, one.name),
                numbered="yes" if any(map(str.isdigit, one.group)) else "no",
            )
            if self.found.read[one.name][number]
            else fact("experiment-of-group-unread", group=one.group)
            for one in self.experiment.of(quantity)
        )

    def _kind(self, quantity: str, number: int) -> Fact:
        """One kind of a thing, with what was read of a quantity in each group."""
        return fact(
            "experiment-kind", kind=self.title_arg(number), quantity=quantity, each=self._groups(quantity, number)
        )

    def _row(self, number: int) -> int:
        """The place of a step among all steps of the table, empty ones included."""
        return int(np.flatnonzero(self.experiment.steps == self.found.steps[number])[0])

    def _beside(self, number: int) -> list[Words]:
        """More or less than at the step before, and whether repeats leave that open."""
        series = self.found.first
        if not self.found.read[series.name][number - 1 : number + 1].all():
            return []
        here, before = self.step(number), self.step(number - 1)
        value, other = (self.read(each, series.name) for each in (here, before))
        left, right = here.reading(series.name, self.how), before.reading(series.name, self.how)
        place = self.place(before)
        if same_text(value, other):
            same = Claim(kind="same", left=left, right=right, slack=1e-3)
            return [fact("experiment-as-much", same, place=place)]
        way = "more" if value.value > other.value else "less"
        claim = Claim(kind=way, left=left, right=right, slack=1e-9)
        told: list[Words] = [fact(f"experiment-{way}-than", claim, kind=kind_of(series), place=place)]
        if (doubt := self._doubt(series, number, way)) is not None:
            told.append(doubt)
        return told

    def _doubt(self, series: Series, number: int, way: str) -> Fact | None:
        """That the repeats of one of two steps lie as far apart as the two do."""
        name = spread_name(series)
        if name not in self.found.values:
            return None
        here, before = self.step(number), self.step(number - 1)
        wide = max((here, before), key=lambda step: step.at(name, "first"))
        apart = abs(here.at(series.name, self.how) - before.at(series.name, self.how))
        if wide.at(name, "first") < apart * (1.0 + 1e-9):
            return None
        more, less = (here, before) if way == "more" else (before, here)
        change = replace(more.reading(series.name, self.how), less=less.reading(series.name, self.how))
        spread = figure(self.found, wide, name, "first")
        open_still = Claim(kind="at most", left=change, right=wide.reading(name, "first"))
        return fact("experiment-doubt", open_still, place=self.place(wide), spread=spread)

    def _changes(self, number: int) -> list[Words]:
        """Of groups before and after: in which it changed most."""
        here, before = self.step(number), self.step(number - 1)
        told: list[Words] = []
        for quantity in self.experiment.quantities:
            changes = {}
            for series in self.experiment.of(quantity):
                reading = replace(here.reading(series.name, self.how), less=before.reading(series.name, self.how))
                if not self.found.read[series.name].all():
                    continue
                changes[series.group] = (here.at(series.name, self.how) - before.at(series.name, self.how), reading)
            if len(changes) < 2:
                continue
            (most, (top, reading)), *rest = sorted(changes.items(), key=lambda row: -row[1][0])
            if top > 0.0 and top > rest[0][1][0] * (1.0 + 1e-6):
                claims = tuple(Claim(kind="more", left=reading, right=other, slack=1e-9) for _, (_, other) in rest)
                told.append(fact("experiment-rose-most", *claims, quantity=quantity, group=most))
        return told

    def events(self) -> tuple[Event, ...]:
        return (
            ()
            if self.experiment.named or self.singly
            else self.extremes([self.step(n) for n in range(self.begins.size)])
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk(_Along):
    """Many steps, walked along without a stop."""

    def between(self, cut: Cut) -> Stretch:
        return self.whole.steps(cut.first, cut.last)

    def title(self, cut: Cut) -> Fact:
        here = self.between(cut)
        return fact("experiment-span", start=self.at(here, "first"), end=self.at(here, "last"))

    def science(self, cut: Cut) -> Words:
        """Where the readings go from one step to another; with groups, each group's."""
        here = self.between(cut)
        told: dict[str, Arg] = {
            "changed": self.experiment.changed,
            "start": self.at(here, "first"),
            "end": self.at(here, "last"),
        }
        words: list[Words] = []
        for quantity in self.experiment.quantities:
            series = self.experiment.of(quantity)
            if len(series) > 1 or series[0].group:
                each = tuple(goes_of_group(self.found, here, cut, one) for one in series)
                words.append(fact("experiment-walk-groups", **told, quantity=quantity, each=each))
            else:
                words.append(goes(self.found, here, cut, series[0], "experiment-walk", told))
        if cut.last == self.found.steps.size - 1:
            words.append(self.overall())
        return tuple(each for each in words if each != ())

    def events(self) -> tuple[Event, ...]:
        return self.extremes([self.whole.between(at, at) for at in self.whole.time_s.tolist()])


def goes(found: Measured, here: Stretch, cut: Cut, series: Series, message: str, told: dict[str, Arg]) -> Words:
    """That a series rises, falls, stays, or goes some way between two values, all of them readings.

    message: its identifier without the last word. Nothing is told where the stretch begins or ends in a gap.
    """
    if not found.read[series.name][[cut.first, cut.last]].all():
        return ()
    first, last = (figure(found, here, series.name, how) for how in ("first", "last"))
    least, most = (figure(found, here, series.name, how) for how in ("least", "most"))
    name: dict[str, Arg] = {**told, "quantity": series.quantity}
    ends: dict[str, Arg] = {"from": first, "to": last}
    if same_text(least, most):
        return fact(f"{message}-stays", **name, value=first)
    if same_text(first, last):
        return fact(f"{message}-returns", **name, value=first, least=least, most=most)
    way = way_of(here, series)
    if way == "goes":
        return fact(f"{message}-between", **name, **ends, least=least, most=most)
    return fact(f"{message}-{way}", Claim(kind=way, left=here.reading(series.name, "change")), **name, **ends)


def way_of(here: Stretch, series: Series) -> str:
    """Whether a series "rises" or "falls" from one end to the other without a great setback; else "goes"."""
    values = here.values(series.name)
    swing = float(np.ptp(here.quantities[series.name].values))
    climb = float(values[-1] - values[0])
    up = 1.0 if climb > 0.0 else -1.0
    back = float(np.max(np.maximum.accumulate(up * values) - up * values))
    if abs(climb) <= LEAST_CLIMB * swing or back > MOST_BACK * abs(climb):
        return "goes"
    return "rises" if climb > 0.0 else "falls"


def goes_of_group(found: Measured, here: Stretch, cut: Cut, series: Series) -> Fact:
    """A group's two readings at the ends of a stretch."""
    read = found.read[series.name][[cut.first, cut.last]]
    if not read.all():
        return fact(
            "experiment-of-group-unread" if not read.any() else "experiment-group-unread-end", group=series.group
        )
    first, last = (figure(found, here, series.name, how) for how in ("first", "last"))
    if same_text(first, last):
        return fact("experiment-group-stays", group=series.group, value=first)
    return fact("experiment-group-goes", group=series.group, **{"from": first, "to": last})


def ends_of_groups(found: Measured, here: Stretch, cut: Cut, quantity: str) -> Words:
    """Which group has most and which least of a quantity at the end of a stretch, where it is one alone."""
    ranked = sorted(
        ((figure(found, here, one.name, "last"), one) for one in found.experiment.of(quantity)),
        key=lambda row: row[0].value,
    )
    unread = any(not found.read[one.name][cut.last] for _, one in ranked)
    if unread or len(ranked) < 2 or any(same_text(a[0], b[0]) for a, b in pairwise(ranked)):
        return ()
    readings = [here.reading(one.name, "last") for _, one in ranked]
    claims = tuple(Claim(kind="more", left=b, right=a, slack=1e-9) for a, b in pairwise(readings))
    return fact("experiment-ends", *claims, quantity=quantity, most=ranked[-1][1].group, least=ranked[0][1].group)
