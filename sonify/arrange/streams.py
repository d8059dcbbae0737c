"""Who plays in each stretch: as many meanings at once as the age can follow, compared parts first, then what the stage
is about. A part never rests for the sake of the texture.

Three voices that carry meaning: listeners' mistakes in telling how many there are rise from three to four voices, even
among musicians (Huron 1989, from memory of the abstract). Two at seven to eight is our own choice.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import field, replace
from functools import cached_property
from math import log

from sonify.arrange.apart import untold
from sonify.arrange.blocks import Block
from sonify.arrange.compared import comparisons, pairs_of
from sonify.arrange.groups import MOST_CUES, Line
from sonify.arrange.piece import Piece
from sonify.arrange.says import halves_beat, keeps_beat, lists, meaning, move, names, own_curves, speaks
from sonify.frozen import dataclass
from sonify.kinds.textures import MANNERS
from sonify.records.classroom import Classroom
from sonify.records.scene import PartPlan
from sonify.records.timeline import FloatArray

# What counts for a part in a stretch (our own weights: each outweighs all below it, but for the small ones).
_HEARD, _MUST, _COMPARED, _NAMED_UNHEARD, _NAMED, _LISTED_UNHEARD = 2000.0, 1000.0, 200.0, 60.0, 30.0, 30.0
_UNHEARD, _GOES_ON, _MOVES, _LASTS = 14.0, 16.0, 8.0, 6.0


def most_streams(classroom: Classroom) -> int:
    """How many meanings at once a class can follow."""
    return 2 if classroom.year <= 3 else 3


@dataclass(frozen=True, kw_only=True, eq=False)
class StreamChoice:
    """What there is to choose from. Not slotted: what is worked out once is kept."""

    piece: Piece
    lines: tuple[Line, ...]
    units: tuple[Block, ...]
    must: dict[tuple[str, int], float] = field(default_factory=dict)

    @cached_property
    def plans(self) -> dict[str, PartPlan]:
        return {line.plan.name: line.plan for line in self.lines}

    @cached_property
    def stages(self) -> dict[str, tuple[int, ...]]:
        return {line.plan.name: line.stages for line in self.lines}

    @cached_property
    def able(self) -> dict[str, set[int]]:
        """For each part the stretches of its stages in which there is some of what it stands for; one at the least."""
        found: dict[str, set[int]] = {}
        for name, plan in self.plans.items():
            own = {u for u, unit in enumerate(self.units) if unit.stage in self.stages[name]}
            here = speaks(self.piece, plan)
            found[name] = {u for u in own if here[self.units[u].bar - 1 : self.units[u].end - 1].any()} or own
        return found

    @cached_property
    def companies(self) -> list[tuple[str, ...]]:
        """Parts that are chosen together: the compared, and every other part by itself."""
        sides = [tuple(name for name in parts if name in self.plans) for parts in comparisons(self.piece.scene)]
        sides = [parts for parts in sides if len(parts) > 1]
        return sides + [(name,) for name in self.plans if not any(name in parts for parts in sides)]

    @cached_property
    def meanings(self) -> dict[str, frozenset[tuple[str, str]]]:
        return {name: meaning(self.piece, plan) for name, plan in self.plans.items()}

    def named(self, name: str, unit: int) -> bool:
        return names(self.piece, self.piece.stages[self.units[unit].stage], self.plans[name])

    def listed(self, name: str, unit: int) -> bool:
        return lists(self.piece.stages[self.units[unit].stage], self.plans[name])

    def moves(self, name: str, unit: int) -> float:
        """How far the part's own quantities go in a stretch's stage."""
        stage = self.piece.stages[self.units[unit].stage]
        first, end = ((bar - 1) * self.piece.beats for bar in (stage.bar, stage.bar + stage.bars))
        return max((move(curve, first, end) for curve in own_curves(self.piece, self.plans[name])), default=0.0)

    def room(self, unit: int) -> int:
        """How many parts can be brought in where a stretch begins: at the start all, else two less a tempo.

        Groups that share a part come in at one sign.
        """
        if unit == 0:
            return 99
        return MOST_CUES - (self.units[unit].bar in self.tempi) - sum(self.turns(name, unit) for name in self.plans)

    def turns(self, name: str, unit: int) -> bool:
        """Whether a part that is the beat takes every second one from here on, or every one again."""
        if not self.plans[name].on_beat or not {unit - 1, unit} <= self.able[name]:
            return False
        fast = [halves_beat(self.piece, one.bar, one.end) for one in self.units[unit - 1 : unit + 1]]
        return fast[0] != fast[1]

    def opens(self, name: str, unit: int) -> bool:
        """Whether parts that are compared, this not among them, would begin in a stretch."""
        sides = [company for company in self.companies if len(company) > 1 and name not in company]
        return any(unit == min(self.able[other]) for company in sides for other in company)

    def keeps_beat(self, name: str, unit: int) -> bool:
        return keeps_beat(self.piece, self.plans[name], self.units[unit].bar, self.units[unit].end)

    def leaves_beat(self, names: Iterable[str], unit: int) -> bool:
        """Whether the beat can be heard while these play: one of them keeps it, or a group is left to do so.

        Of two groups none is left, nor where two parts that are compared are all there is: they play to the
        conductor's beat.
        """
        playing = set(names)
        if (
            len({line.desk for line in self.lines}) <= 2
            or (len(self.plans) == 2 and len(self.companies) == 1)
            or len(playing) == 1
            or any(self.keeps_beat(name, unit) for name in playing)
        ):
            return True
        return not self.tutti(playing)

    def tutti(self, names: Iterable[str]) -> bool:
        """Whether every group plays a part of its own while these play."""
        playing = set(names)
        return {line.desk for line in self.lines if line.plan.name in playing} == {line.desk for line in self.lines}

    @cached_property
    def tempi(self) -> set[int]:
        """Bars where the tempo is cued: it may be at each stage."""
        return {stage.bar for stage in self.piece.stages[1:] if self._new_tempo(stage.bar)}

    def _new_tempo(self, bar: int) -> bool:
        before, stage = self.piece.bpm(bar - 1), next(s for s in self.piece.stages if s.bar == bar)
        return self.piece.bpm(bar) != before or self.piece.bpm(bar + stage.bars - 1) != before


def chosen(piece: Piece, lines: Sequence[Line], units: Sequence[Block]) -> tuple[frozenset[str], ...]:
    """The parts of the scene that play in each stretch."""
    choice = StreamChoice(piece=piece, lines=tuple(lines), units=tuple(units))
    playing = _through(choice)
    tried: set[tuple[str, int]] = set()
    best = (_missing(choice, playing), playing)
    for _ in range(len(choice.plans) * (1 + len(units))):
        unheard = [name for name in choice.plans if not any(name in here for here in playing)]
        wanted = {(name, _best_unit(choice, name)): _HEARD for name in unheard}
        wanted |= {key: _MUST for key in _named_unheard(choice, playing, tried) if key[0] not in unheard}
        wanted = wanted or dict.fromkeys(_untold(choice, playing, tried), _MUST)
        key = next((one for one in wanted if one not in choice.must), None)
        if key is None:
            break
        tried.add(key)
        choice = replace(choice, must=choice.must | {key: wanted[key]})
        playing = _through(choice)
        best = min(best, (_missing(choice, playing), playing), key=lambda one: one[0])
    return _everybody_once(choice, best[1])


def _missing(choice: StreamChoice, playing: Sequence[frozenset[str]]) -> tuple[int, int, int, int]:
    """How many parts are never heard, how many cues are too many, how many parts a stage names and lacks, and how many
    play only where nothing of what they stand for can be told apart."""
    unheard = sum(not any(name in here for here in playing) for name in choice.plans)
    crowd = 0
    for unit in range(1, len(playing)):
        entering = len(playing[unit] - playing[unit - 1])
        crowd += 0 if choice.tutti(playing[unit]) else max(0, entering - choice.room(unit))
    return unheard, crowd, len(_named_unheard(choice, playing, set())), len(_untold(choice, playing, set()))


def _everybody_once(choice: StreamChoice, playing: Sequence[frozenset[str]]) -> tuple[frozenset[str], ...]:
    """A part for which a very short piece has no room all the same plays where fewest do."""
    found = list(playing)
    for name in choice.plans:
        if not any(name in here for here in found):
            fewest = min(sorted(choice.able[name]), key=lambda u: len(found[u]))
            found[fewest] |= {name}
    return tuple(found)


def _named_unheard(
    choice: StreamChoice, playing: Sequence[frozenset[str]], tried: Collection[tuple[str, int]]
) -> list[tuple[str, int]]:
    """Parts that a stage names or lists and that were not chosen in it, each with a stretch of it not yet tried.

    Where the compared alone are as many as can be followed, what a stage merely lists may wait.
    """
    found = []
    full = any(len(company) >= most_streams(choice.piece.classroom) for company in choice.companies)
    for name in choice.plans:
        for stage in choice.stages[name]:
            here = [u for u in sorted(choice.able[name]) if choice.units[u].stage == stage]
            own = [
                u
                for u in here
                if choice.named(name, u) or (choice.listed(name, u) and choice.meanings[name] and not full)
            ]
            left = [u for u in own if (name, u) not in tried]
            if left and not any(name in playing[u] for u in own):
                found.append((name, min(left, key=lambda u: (sum(unit == u for _, unit in choice.must), -u))))
    return found


def _untold(
    choice: StreamChoice, playing: Sequence[frozenset[str]], tried: Collection[tuple[str, int]]
) -> list[tuple[str, int]]:
    """Parts whose rules cannot be told apart where they play, each with the stretch not yet tried that tells most."""
    found = []
    for name, plan in choice.plans.items():
        stages = {choice.units[u].stage for u, here in enumerate(playing) if name in here}
        clearly = untold(choice.piece, plan, stages)
        left = [u for u in choice.able[name] if choice.units[u].stage in clearly and (name, u) not in tried]
        if left:
            found.append(
                (name, max(left, key=lambda u: (clearly[choice.units[u].stage], not choice.opens(name, u), -u)))
            )
    return found


def _best_unit(choice: StreamChoice, name: str) -> int:
    """Where a part is best heard for which there is no room.

    Not where compared parts would begin; where it can be cued, and those that make way can come back; where the stage
    names few others, and it; with others like it; in a stage with more stretches than one; where its quantity moves.
    """
    last = len(choice.units) - 1
    stages = [unit.stage for unit in choice.units]
    sides = [company for company in choice.companies if len(company) > 1 and name not in company]
    limit = most_streams(choice.piece.classroom)

    def worth(u: int) -> tuple[bool, bool, int, bool, int, bool, float]:
        opens = choice.opens(name, u)
        others = sum(unit == u and weight == _HEARD for (_, unit), weight in choice.must.items())
        back = max((_making_way(len(company), limit) for company in sides if u in choice.able[company[0]]), default=1)
        led = 1 + others <= choice.room(u) and (u == last or back <= choice.room(u + 1))
        space = limit - sum(
            bool(choice.meanings[other]) and not plan.rests and u in choice.able[other]
            for other, plan in choice.plans.items()
        )
        named = sum(u in choice.able[other] and choice.named(other, u) for other in choice.plans if other != name)
        shared = others if others < space else -1
        own = choice.named(name, u)
        return (not opens, led, -named, own, shared, stages.count(stages[u]) > 1, choice.moves(name, u))

    return max(sorted(choice.able[name]), key=worth)


def _making_way(compared: int, limit: int) -> int:
    """How many of the compared rest while one more is heard: one, or all where one would be left by itself."""
    heard = min(compared, limit)
    return heard - (limit - 1) if limit > 2 else heard


def _through(choice: StreamChoice) -> tuple[frozenset[str], ...]:
    found: list[frozenset[str]] = []
    for unit in range(len(choice.units)):
        before = found[-1] if found else frozenset()
        wanted = _wanted(choice, unit, found)
        found.append(_led(choice, unit, before, wanted))
    return tuple(found)


def _worth(choice: StreamChoice, name: str, unit: int, found: Sequence[frozenset[str]]) -> float:
    """What speaks for a part in a stretch."""
    if not choice.plans[name].rests:
        return 2.0 * _HEARD  # by the scene's wish
    stage = choice.units[unit].stage
    heard = any(name in here for u, here in enumerate(found) if choice.units[u].stage == stage)
    worth = _MOVES * choice.moves(name, unit) + choice.must.get((name, unit), 0.0)
    if choice.named(name, unit):
        worth += _NAMED if heard else _NAMED_UNHEARD
    if not heard:
        worth += _UNHEARD + _LISTED_UNHEARD * choice.listed(name, unit)
    worth += _LASTS * (unit + 1 in choice.able[name])
    return worth + (_GOES_ON if found and name in found[-1] else 0.0)


def _wanted(choice: StreamChoice, unit: int, found: Sequence[frozenset[str]]) -> list[str]:
    """The parts of a stretch as far as the streams allow, what counts most first."""
    limit = most_streams(choice.piece.classroom)
    able = {name for name in choice.plans if unit in choice.able[name]}
    worth = {name: _worth(choice, name, unit, found) for name in able}
    ranked: list[tuple[float, tuple[str, ...]]] = []
    for company in choice.companies:
        here = tuple(name for name in company if name in able)
        if not here:
            continue
        whole = {m for name in here for m in [choice.meanings[name]]}
        if len(here) > 1 and len(whole) > limit:
            here = pairs_of(here, limit, unit)
        bonus = _COMPARED if len(here) > 1 else 0.0
        ranked.append((-max(worth[name] for name in here) - bonus, here))
    ranked.sort(key=lambda one: one[0])  # ties in the scene's order
    taken: list[str] = []
    streams: set[frozenset[tuple[str, str]]] = set()
    for _, company in _partners_after(choice, ranked, unit):
        here = company
        more = {choice.meanings[name] for name in here if choice.meanings[name]}
        partner = choice.plans[here[0]].partner
        waits = partner in choice.plans and unit in choice.able[partner] and partner not in (*here, *taken)
        if waits and (here[0], unit) not in choice.must:
            continue  # it comes and goes with one that rests
        if len(here) > 1 and len(more) > limit - len(streams) > 1:
            here = pairs_of(here, limit - len(streams), unit)
            more = {choice.meanings[name] for name in here}
        if len(here) > 2 and not choice.leaves_beat([*taken, *here], unit):
            here = pairs_of(here, len(here) - 1, unit)  # one of the groups keeps the beat, each in turn
            more = {choice.meanings[name] for name in here}
        if len(streams | more) <= limit and choice.leaves_beat([*taken, *here], unit):
            taken += here
            streams |= more
    return taken


def _partners_after(
    choice: StreamChoice, ranked: list[tuple[float, tuple[str, ...]]], unit: int
) -> list[tuple[float, tuple[str, ...]]]:
    """A part with a partner right after it, unless it has to be heard here by itself."""
    found: list[tuple[float, tuple[str, ...]]] = []
    later = [
        one
        for one in ranked
        if len(one[1]) == 1 and choice.plans[one[1][0]].partner in choice.plans and (one[1][0], unit) not in choice.must
    ]
    for one in ranked:
        if one in later:
            continue
        found.append(one)
        found += [other for other in later if choice.plans[other[1][0]].partner in one[1]]
    return found + [one for one in later if one not in found]


def _led(choice: StreamChoice, unit: int, before: frozenset[str], wanted: Sequence[str]) -> frozenset[str]:
    """As many of the wanted as can be brought in at once; whoever would have made way for the others goes on."""
    room = choice.room(unit)
    if room > 0 and choice.tutti(wanted):
        return frozenset(wanted)  # one sign to everybody
    here = [name for name in wanted if name in before]
    for entering in _together(choice, [name for name in wanted if name not in before]):
        must = any(choice.must.get((name, unit), 0.0) >= _HEARD or not choice.plans[name].rests for name in entering)
        if len(entering) <= room or must or not here:
            here += entering
            room -= len(entering)
    for company in choice.companies:
        going_on = [name for name in company if name in before and name not in here and unit in choice.able[name]]
        if going_on and _room_for(choice, [*here, *going_on], unit):
            here += going_on
        elif len(going_on) > 1:
            # Of the compared one goes on by itself rather than that none is heard: what the stage is about.
            most = sorted(going_on, key=lambda name: (not choice.named(name, unit), -choice.moves(name, unit)))
            here += next(([name] for name in most if _room_for(choice, [*here, name], unit)), [])
    return frozenset(here)


def _room_for(choice: StreamChoice, names: Sequence[str], unit: int) -> bool:
    """Whether so many meanings can be followed, and the beat heard beside them."""
    streams = {choice.meanings[name] for name in names if choice.meanings[name]}
    return len(streams) <= most_streams(choice.piece.classroom) and choice.leaves_beat(names, unit)


def _together(choice: StreamChoice, entering: Sequence[str]) -> list[list[str]]:
    """Parts that come in at one moment or not at all: the compared."""
    found: list[list[str]] = []
    for name in entering:
        side = next(company for company in choice.companies if name in company)
        with_it = next((own for own in found if own[0] in side), None)
        if with_it is not None:
            with_it.append(name)
        else:
            found.append([name])
    return found


#: How much a new tempo by itself asks for another way of playing: a share of the tempo's own ratio.
_BY_TEMPO = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Bars in which a part that goes on may play something else (`what`), or play with something else (`beaters`)."""

    what: dict[str, frozenset[int]]
    beaters: dict[str, frozenset[int]]


def changes(choice: StreamChoice, playing: Sequence[frozenset[str]], room: dict[int, int]) -> Changes:
    """Where parts may change: as often as two hands can show it, what has moved furthest since its last change first.

    room: for each stretch what is left of its first moment's cues.
    """
    found: dict[tuple[str, bool], set[int]] = {(name, kind): set() for name in choice.plans for kind in (True, False)}
    since: dict[tuple[str, bool], int] = {}
    for unit in range(1, len(choice.units)):
        going_on = [key for key in found if key[0] in playing[unit] and key[0] in playing[unit - 1]]
        since = {key: since.get(key, unit - 1) for key in going_on}
        turning = sum(choice.turns(name, unit) for name in choice.plans)
        left = {
            True: room[unit] + turning,
            False: MOST_CUES,
        }  # other beaters are shown a bar ahead, when nothing else is
        for key in sorted(going_on, key=lambda key: -_strayed(choice, key, since[key], unit)):
            if left[key[1]] > 0 and _strayed(choice, key, since[key], unit) > 0.0:
                left[key[1]] -= 1
                found[key].add(choice.units[unit].bar)
                since[key] = unit
    what, beaters = (
        {name: frozenset(bars) for (name, of), bars in found.items() if of is kind} for kind in (True, False)
    )
    return Changes(what=what, beaters=beaters)


def _strayed(choice: StreamChoice, key: tuple[str, bool], since: int, unit: int) -> float:
    """How far a part's rules have gone from what it plays: shares of their range, and the tempo's ratio a little."""
    name, what = key
    if what and choice.plans[name].on_beat:
        return float("inf") if choice.turns(name, unit) else 0.0
    piece, changes = choice.piece, MANNERS[choice.plans[name].texture].changes
    a, b = choice.units[since], choice.units[unit]
    far = _BY_TEMPO * abs(log(piece.bpm(b.bar) / piece.bpm(a.bar))) if what and changes else 0.0
    for control in changes if what else ("brightness",):
        curve = piece.curve(control, name)
        if curve is not None:
            means = piece.bar_means(curve.results)
            far += abs(_mean(means, b) - _mean(means, a)) / max(abs(curve.rule.to_high - curve.rule.to_low), 1e-9)
    return far


def _mean(by_bar: FloatArray, unit: Block) -> float:
    return float(by_bar[unit.bar - 1 : unit.end - 1].mean())
