"""A food chain of three: plants, those who eat them, and those who hunt these. Numbers that chase each other."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import exp, log

import numpy as np

from sonify.constants import DAY_S
from sonify.frozen import dataclass
from sonify.processes.declared import quantities, stages
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch
from sonify.records.fact import Arg, Claim, Fact, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Event, FloatArray, Timeline
from sonify.science.hunting import hunted_growth, hunters_growth

HUNTED, HUNTERS = "number of the hunted", "number of hunters"
YEAR_S = 365.25 * DAY_S
LIMITS = ("none", "food")
ORDER = ("hunted recover", "both grow", "hunters too many", "both shrink", "hunted recover again")
LOOKS = 60  # in each stage
#: No round takes longer than so many times the two growth times together.
LONGEST = 9.0

# What is told of each stage: who grows, who shrinks, from how many to how many ---------------------------------------


def told(whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage."""
    return {name: _stage(name, whole.steps(*span)) for name, span in found.items()}


def _stage(name: str, here: Stretch) -> Fact:
    ways = [here.rises(each) if here.at(each, "change") > 0.0 else here.falls(each) for each in (HUNTED, HUNTERS)]
    places: dict[str, Arg] = {
        "hunted_from": here.figure(HUNTED, "first"),
        "hunted_to": here.figure(HUNTED, "last"),
        "hunters_from": here.figure(HUNTERS, "first"),
        "hunters_to": here.figure(HUNTERS, "last"),
        "lasts": here.lasts(name),
    }
    # a stage may be so short that one number hardly moves in it
    plain = fact("food_chain-from-to", **places)
    return fact(f"food_chain-{name.replace(' ', '-')}", *ways, **places).or_else(plain)


def events(whole: Stretch) -> tuple[Event, ...]:
    """When there are most hunted, and when most hunters: the hunters come after."""
    moments = {name: whole.moment(name, "when most") for name in (HUNTED, HUNTERS)}
    later = Claim(kind="more", left=whole.reading(HUNTERS, "when most"), right=whole.reading(HUNTED, "when most"))
    first = Event(
        name="most hunted",
        time_s=moments[HUNTED],
        text=fact("food_chain-most-hunted", most=whole.figure(HUNTED, "most")),
    )
    second = Event(
        name="most hunters",
        time_s=moments[HUNTERS],
        text=fact("food_chain-most-hunters", later, most=whole.figure(HUNTERS, "most")),
    )
    return (first, second)


_DECLARED = Declared("food_chain")
_COUNT, _RATE = ("1", "1"), ("1/year", "1/s")

CONDITIONS = (
    _DECLARED.condition("balance_hunted", _COUNT, 20.0, (10.0, 10000.0)),
    _DECLARED.condition("balance_hunters", _COUNT, 10.0, (5.0, 1000.0)),
    _DECLARED.condition("start_hunted", ("%", "1"), 0.5, (0.4, 0.8)),
    _DECLARED.condition("start_hunters", ("%", "1"), 0.5, (0.4, 0.8)),
    _DECLARED.condition("growth", _RATE, 1.0 / YEAR_S, (0.5 / YEAR_S, 2.0 / YEAR_S)),
    _DECLARED.condition("dying", _RATE, 1.5 / YEAR_S, (0.5 / YEAR_S, 2.0 / YEAR_S)),
    replace(_DECLARED.condition("limit", _COUNT, 0.0, (0.0, len(LIMITS) - 1.0), whole=True), choices=LIMITS),
    _DECLARED.condition("room", _COUNT, 20.0, (10.0, 100.0)),
)

QUANTITIES = (
    _DECLARED.quantity(HUNTED, "x", _COUNT),
    _DECLARED.quantity(HUNTERS, "y", _COUNT),
    _DECLARED.quantity("growth of the hunted", "a", _RATE, true_zero=False),
    _DECLARED.quantity("growth of the hunters", "b", _RATE, true_zero=False),
)

STAGES = tuple(_DECLARED.stage(name) for name in ORDER)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Land:
    """Who lives there, in units of the balance and of seconds."""

    hunted: float
    hunters: float
    growth: float
    dying: float
    crowding: float  # share of the land's room that the balance takes

    def change(self, _: float, state: FloatArray) -> list[float]:
        """Of the logarithms of both numbers, and of what crowding has taken from the kept sum."""
        u, v = exp(state[0]), exp(state[1])
        hunted = float(hunted_growth(u, v, self.growth, 1.0, self.crowding))
        hunters = float(hunters_growth(u, self.dying, 1.0))
        return [hunted, hunters, self.crowding * self.growth * u * hunters]

    def turns(self) -> list[Callable[[float, FloatArray], float]]:
        """What passes nought where a stage ends: the growth of the hunters and of the hunted."""
        return [
            lambda time, state: self.change(time, state)[1],
            lambda time, state: self.change(time, state)[0],
        ]

    def kept(self, state: FloatArray) -> FloatArray:
        """The sum that stays as it was, whatever the numbers do."""
        u, v = np.exp(state[0]), np.exp(state[1])
        sums: FloatArray = self.dying * (u - state[0]) + self.growth * (v - state[1]) + state[2]
        return sums


def run(conditions: Mapping[str, float]) -> Timeline:
    """One round of both numbers that follows from the conditions (SI units)."""
    crowding = 1.0 / conditions["room"] if round(conditions["limit"]) else 0.0
    land = _Land(
        hunted=conditions["start_hunted"],
        hunters=conditions["start_hunters"],
        growth=conditions["growth"],
        dying=conditions["dying"],
        crowding=crowding,
    )
    time_s, state = _round(land)
    u, v = np.exp(state[0]), np.exp(state[1])
    values = {
        HUNTED: conditions["balance_hunted"] * u,
        HUNTERS: conditions["balance_hunters"] * v,
        "growth of the hunted": hunted_growth(u, v, land.growth, 1.0, crowding),
        "growth of the hunters": hunters_growth(u, land.dying, 1.0),
    }
    found = {name: (number * LOOKS, (number + 1) * LOOKS) for number, name in enumerate(ORDER)}
    made = quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made)
    sums = land.kept(state)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, found)),
        events=events(whole),
        conserved=(
            Conserved(name="the sum that Lotka and Volterra found", relative_drift=float(np.ptp(sums) / abs(sums[0]))),
        ),
    )


def _round(land: _Land) -> tuple[FloatArray, FloatArray]:
    """Times from 0 and the state over one round: equally many looks in each stage."""
    from scipy.integrate import solve_ivp
    from scipy.optimize import brentq

    start = np.array([log(land.hunted), log(land.hunters), 0.0])
    longest = LONGEST * (1.0 / land.growth + 1.0 / land.dying)
    hunters_turn, hunted_turn = land.turns()
    back = _until_back(land)
    tight = {"method": "DOP853", "rtol": 1e-12, "atol": 1e-13, "dense_output": True}
    cuts = [0.0]
    done = solve_ivp(land.change, (0.0, longest), start, events=[hunters_turn, hunted_turn, back], **tight)
    hunters_at, hunted_at, back_at = done.t_events
    cuts += [float(hunters_at[0]), float(hunted_at[0]), float(hunters_at[1]), float(hunted_at[1])]
    again = [float(at) for at in back_at if at > cuts[-1]][:1] or [float(hunters_at[2])]
    end = min(again[0], float(hunters_at[2]))
    if land.crowding == 0.0:  # the numbers come back to the very start: refine the moment by it
        end = float(brentq(lambda at: float(done.sol(at)[0]) - start[0], cuts[-1], float(hunters_at[2]), xtol=1e-6))
    cuts.append(end)
    legs = [np.linspace(a, b, LOOKS, endpoint=False) for a, b in zip(cuts[:-1], cuts[1:], strict=True)]
    time_s = np.append(np.concatenate(legs), end)
    return time_s, np.asarray(done.sol(time_s), dtype=np.float64)


def _until_back(land: _Land) -> Callable[[float, FloatArray], float]:
    return lambda time, state: float(state[0]) - log(land.hunted)


PROCESS = ProcessSpec(
    name="food-chain",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(5),
    sources=("LOTKA-VOLTERRA", "VERHULST"),
    cycle=True,
)
