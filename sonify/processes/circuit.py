"""A circuit as a fair test: one component lit, more cells, a break, several in a row, several side by side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from sonify.frozen import dataclass
from sonify.processes.declared import Adviser
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch, fixed, told_apart
from sonify.processes.trials import apart, pair, ratio, timeline_of
from sonify.records.fact import Amount, Arg, Claim, Fact, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.science.circuit import Branch, branch_currents

POWER, CURRENT, THROUGH = "power of each component", "current from the cells", "current through each component"
OPEN, ACROSS, HEAT = "voltage of the cells", "voltage across each component", "heat in the cells"
WHAT = ("bulb", "buzzer", "motor")
#: What loses no more than this share by a second one beside it is told as nearly as bright (our own choice).
NEARLY = 0.1

# What is told of each circuit, beside the first --------------------------------------------------------------------


def told(whole: Stretch, found: Mapping[str, tuple[int, int]], what: str) -> dict[str, Words]:
    """The facts of each trial. what: the word for the component."""
    cut = {name: whole.steps(*span) for name, span in found.items()}
    first, row = cut["whole circuit"], cut["in a row"]
    said: dict[str, Words] = {"whole circuit": _whole(first, what), "break": _break(cut["break"], what)}
    if "other cells" in cut:
        said["other cells"] = _cells(cut["other cells"], first, what)
    said["in a row"] = _row(row, first, what)
    said["side by side"] = _side(cut["side by side"], first, row, what)
    return {name: said[name] for name in found}


def _of(here: Stretch, name: str) -> Amount:
    return here.figure(name, "first")


def _counted(here: Stretch, name: str) -> dict[str, Arg]:
    """A number of things, and whether it is one."""
    count = here.figure(name, "first", places=0)
    return {name: count, f"one_{name}": "one" if round(count.value) == 1 else "more"}


def _whole(here: Stretch, what: str) -> Fact:
    return fact(
        "circuit-whole",
        what=what,
        current=_of(here, CURRENT),
        power=_of(here, POWER),
        voltage=_of(here, ACROSS),
        **_counted(here, "cells"),
    )


def _break(here: Stretch, what: str) -> Fact:
    still = Claim(kind="same", left=here.reading(CURRENT, "first"), right=fixed(0.0), slack=1e-12)
    nothing = Claim(kind="same", left=here.reading(POWER, "first"), right=fixed(0.0), slack=1e-12)
    return fact("circuit-break", still, nothing, what=what, voltage=_of(here, OPEN))


def _cells(here: Stretch, first: Stretch, what: str) -> Fact:
    more = here.at("cells", "first") > first.at("cells", "first")
    power, was = pair(_of(here, POWER), _of(first, POWER))
    return fact(
        "circuit-cells",
        apart(here, first, "cells"),
        apart(here, first, POWER),
        way="more" if more else "fewer",
        what=what,
        before=first.figure("cells", "first", places=0),
        power=power,
        was=was,
        times=ratio(here, first, POWER, digits=2),
        **_counted(here, "cells"),
    )


def _row(here: Stretch, first: Stretch, what: str) -> Fact:
    power, was = pair(_of(here, POWER), _of(first, POWER))
    current, flowed = pair(_of(here, CURRENT), _of(first, CURRENT))
    return fact(
        "circuit-row",
        apart(first, here, POWER),
        apart(first, here, CURRENT),
        what=what,
        current=current,
        flowed=flowed,
        power=power,
        was=was,
        **_counted(here, "components"),
    )


def _side(here: Stretch, first: Stretch, row: Stretch, what: str) -> Fact:
    more = apart(here, row, POWER)
    current, flowed = pair(_of(here, CURRENT), _of(first, CURRENT))
    places: dict[str, Arg] = {
        "what": what,
        "beside": fact("circuit-beside", what=what),
        "current": current,
        "flowed": flowed,
        **_counted(here, "components"),
    }
    both = told_apart(_of(here, POWER), _of(first, POWER), most=3)
    most = apart(here, first, CURRENT)
    if both is None:
        return fact("circuit-side-alike", more, most, power=_of(here, POWER), **places)
    share = here.at(POWER, "first") / first.at(POWER, "first")
    if share < 1.0 - NEARLY:
        less = Claim(kind="less", left=here.reading(POWER, "first"), right=first.reading(POWER, "first"))
        return fact("circuit-side-dimmer", more, most, less, power=both[0], was=both[1], **places)
    kept = replace(here.reading(POWER, "first"), per=first.reading(POWER, "first"))
    nearly = Claim(kind="at least", left=kept, right=fixed(1.0 - NEARLY))
    return fact("circuit-side", more, most, nearly, power=both[0], was=both[1], **places)


_DECLARED = Declared("circuit")
_VOLT, _OHM, _COUNT = ("V", "V"), ("ohm", "ohm"), ("1", "1")
_POWER, _FLOW = ("mW", "W"), ("mA", "A")

CONDITIONS = (
    replace(_DECLARED.condition("component", _COUNT, 0.0, (0.0, len(WHAT) - 1.0), whole=True), choices=WHAT),
    _DECLARED.condition("cells", _COUNT, 1.0, (1.0, 3.0), whole=True),
    _DECLARED.condition("other_cells", _COUNT, 2.0, (1.0, 4.0), whole=True),
    _DECLARED.condition("components", _COUNT, 2.0, (2.0, 4.0), whole=True),
    _DECLARED.condition("cell_voltage", _VOLT, 1.5, (1.2, 1.6)),
    _DECLARED.condition("cell_resistance", _OHM, 0.3, (0.05, 1.0)),
    _DECLARED.condition("resistance", _OHM, 12.0, (6.0, 200.0)),
    _DECLARED.condition("watch", ("s", "s"), 20.0, (5.0, 600.0)),
)

QUANTITIES = (
    _DECLARED.quantity(POWER, "P", _POWER),
    _DECLARED.quantity(CURRENT, "I", _FLOW),
    _DECLARED.quantity(THROUGH, "i", _FLOW),
    _DECLARED.quantity(OPEN, "V", _VOLT),
    _DECLARED.quantity(ACROSS, "v", _VOLT),
    _DECLARED.quantity(HEAT, "Q", _POWER),
    _DECLARED.quantity("cells", "n", _COUNT),
    _DECLARED.quantity("components", "m", _COUNT),
)

STAGES = (
    _DECLARED.stage("whole circuit"),
    _DECLARED.stage("other cells"),
    _DECLARED.stage("break"),
    _DECLARED.stage("in a row"),
    _DECLARED.stage("side by side"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Circuit:
    """Cells end to end, and components in a row or side by side. Joint 0 is the far end of the cells, `cells` the near.

    Every cell and every component is a branch of its own, so that Kirchhoff's laws are asked of each.
    """

    cells: int
    emf: float
    inner: float
    ohm: float
    components: int = 1
    beside: bool = False
    broken: bool = False

    def branches(self) -> list[Branch]:
        cells = [
            Branch(start=number, end=number + 1, resistance_ohm=self.inner, emf_v=self.emf)
            for number in range(self.cells)
        ]
        ways = 1 if self.beside else self.components
        joints = [*range(self.cells, self.cells + ways), 0]
        row = list(zip(joints[:-1], joints[1:], strict=True))
        pairs = row * self.components if self.beside else row
        return cells + [Branch(start=one, end=other, resistance_ohm=self.ohm) for one, other in pairs]

    def currents(self) -> FloatArray:
        return np.zeros(self.cells + self.components) if self.broken else branch_currents(self.branches())

    def values(self) -> dict[str, float]:
        currents = self.currents()
        whole, each = float(currents[0]), float(currents[-1])
        return {
            POWER: each**2 * self.ohm,
            CURRENT: whole,
            THROUGH: each,
            OPEN: self.cells * (self.emf - whole * self.inner),
            ACROSS: each * self.ohm,
            HEAT: self.cells * whole**2 * self.inner,
            "cells": float(self.cells),
            "components": float(self.components),
        }

    def joint_drift(self) -> float:
        """The most that flows into a joint and not out of it, beside what flows."""
        currents, branches = self.currents(), self.branches()
        kept = np.zeros(1 + max(one.end for one in branches))
        for one, current in zip(branches, currents, strict=True):
            kept[one.start] -= current
            kept[one.end] += current
        return _share(float(np.max(np.abs(kept))), float(np.max(np.abs(currents))))

    def energy_drift(self) -> float:
        """What the cells give less what they and the components turn to heat and light, beside what they give."""
        currents, branches = self.currents(), self.branches()
        given = sum(one.emf_v * current for one, current in zip(branches, currents, strict=True))
        taken = sum(one.resistance_ohm * current**2 for one, current in zip(branches, currents, strict=True))
        return _share(abs(float(given - taken)), float(given))


def _share(off: float, of: float) -> float:
    return off / of if of > 0.0 else off


def run(conditions: Mapping[str, float]) -> Timeline:
    """The circuits that follow from the conditions (SI units)."""
    tried = _tried(conditions)
    return timeline_of(
        PROCESS,
        {name: circuit.values() for name, circuit in tried.items()},
        conditions["watch"],
        lambda whole, found: told(whole, found, WHAT[round(conditions["component"])]),
        missing=_missing(conditions, tuple(tried)),
        conserved=(
            Conserved(name="current at every joint", relative_drift=max(one.joint_drift() for one in tried.values())),
            Conserved(
                name="energy, from the cells to all parts",
                relative_drift=max(one.energy_drift() for one in tried.values()),
            ),
        ),
    )


def _tried(conditions: Mapping[str, float]) -> dict[str, _Circuit]:
    """The first circuit, and each that differs from it in one thing."""
    first = _Circuit(
        cells=round(conditions["cells"]),
        emf=conditions["cell_voltage"],
        inner=conditions["cell_resistance"],
        ohm=conditions["resistance"],
    )
    count, other = round(conditions["components"]), round(conditions["other_cells"])
    tried = {"whole circuit": first}
    if other != first.cells:
        tried["other cells"] = replace(first, cells=other)
    tried["break"] = replace(first, broken=True)
    tried["in a row"] = replace(first, components=count)
    tried["side by side"] = replace(first, components=count, beside=True)
    return tried


def _missing(conditions: Mapping[str, float], tried: tuple[str, ...]) -> tuple[Missing, ...]:
    if "other cells" in tried:
        return ()
    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=_tried)
    return (
        adviser.missing("other cells", fact("circuit-unchanged"), [("other_cells", conditions["other_cells"] + 1.0)]),
    )


PROCESS = ProcessSpec(
    name="circuit",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(5),
    sources=("OPENSTAX-CP1",),
    cautions=always("electricity", "button-cells", "short-circuit"),
)
