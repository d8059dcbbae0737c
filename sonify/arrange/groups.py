"""Which group plays which part: one each where the numbers agree, else parts are merged or shared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sonify.arrange.compared import mates
from sonify.arrange.piece import Piece
from sonify.frozen import dataclass
from sonify.kinds.textures import MANNERS
from sonify.records.classroom import Classroom
from sonify.records.fact import Fact, Words, fact
from sonify.records.findings import Finding
from sonify.records.scene import PartPlan

#: Groups a non-musician can lead: 3 to 6 pupils (the brief of the lesson; common practice).
LEAST_PLAYERS, MOST_PLAYERS = 3, 6
#: Signs for entries, for changes and for a new tempo at one moment; and as many parts that stop at the end of the bar
#: before it. Signs for parts are counted, not groups: groups that share a part sit side by side and are shown one.
MOST_CUES = 2
#: Patterns that one group can learn in a lesson (our own limit).
MOST_PATTERNS = 3
#: Of one of the compared so much of it (our own judgement).
_OF_COMPARED = 0.25
_ORDINALS = ("", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A scene's part as one group plays it. stages: which of the piece's stages, from 0.

    desk: the pupils who play it, from 0: a group, or half of one (team 1 or 2); several lines may share a desk where
    they never sound together. voice: of `voices` groups that share the part, which one, from 0.
    """

    plan: PartPlan
    name: str
    stages: tuple[int, ...]
    desk: int
    group: int
    team: int
    players: int
    voice: int = 0
    voices: int = 1

    @property
    def answers(self) -> bool:
        """Whether the groups that share the part take turns in it."""
        return self.voices > 1 and self.plan.rests and self.plan.texture not in ("drone", "scatter")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wish:
    plan: PartPlan
    stages: tuple[int, ...]


def group_sizes(classroom: Classroom) -> tuple[int, ...]:
    """How many pupils in each group; sizes differ by at most one.

    >>> group_sizes(Classroom(year=4, pupils=28, groups=5))
    (6, 6, 6, 5, 5)
    """
    groups = min(classroom.groups, classroom.pupils)
    least, more = divmod(classroom.pupils, groups)
    return tuple(least + (place < more) for place in range(groups))


def share_out(piece: Piece) -> tuple[tuple[Line, ...], tuple[Finding, ...]]:
    """The lines of the piece, in the order of their groups."""
    findings: list[Finding] = list(_size_findings(piece.classroom))
    wishes = _wishes(piece, findings)
    sizes = group_sizes(piece.classroom)
    if len(wishes) <= len(sizes):
        return _shared(piece, wishes, sizes), tuple(findings)
    return _merged(piece, wishes, sizes, findings), tuple(findings)


def _size_findings(classroom: Classroom) -> list[Finding]:
    sizes = group_sizes(classroom)
    if len(sizes) < classroom.groups:
        message = fact("group-of-one", groups=classroom.groups, pupils=classroom.pupils, made=len(sizes))
    elif max(sizes) > MOST_PLAYERS:
        message = fact("group-too-large", size=max(sizes), least=LEAST_PLAYERS, most=MOST_PLAYERS)
    elif min(sizes) < LEAST_PLAYERS:
        message = fact("group-too-small", size=min(sizes), least=LEAST_PLAYERS, most=MOST_PLAYERS)
    else:
        return []
    wanted = max(1, -(-classroom.pupils // MOST_PLAYERS))
    best = max(wanted, min(classroom.groups, classroom.pupils // LEAST_PLAYERS))
    fix: Words = fact("group-write-groups", best=best) if best != classroom.groups else ()
    return [Finding(kind="class", message=message, fix=fix, where=fact("play-where", what="groups"), serious=False)]


def _wishes(piece: Piece, findings: list[Finding]) -> list[_Wish]:
    """The scene's parts that have a stage to play in; every stage has a part."""
    wishes = []
    for plan in piece.scene.parts:
        stages = piece.stage_numbers(plan)
        if stages:
            wishes.append(_Wish(plan=plan, stages=stages))
        else:
            missing = ", ".join(plan.stages)
            findings.append(
                Finding(
                    kind="playability",
                    message=fact("group-nothing-to-play", part=plan.name, stages=missing),
                    fix=fact("group-bring-the-stage"),
                    part=plan.name,
                    where=missing,
                    serious=False,
                )
            )
    if not wishes:
        plan = piece.scene.parts[0]
        findings.append(_played_throughout(plan, fact("group-no-stage-to-play")))
        return [_Wish(plan=plan, stages=tuple(range(len(piece.stages))))]
    silent = [i for i in range(len(piece.stages)) if all(i not in wish.stages for wish in wishes)]
    if silent:
        names = tuple(piece.stages[i].title for i in silent)
        steady = next((w for w in wishes if w.plan.texture == "drone"), wishes[0])
        wishes[wishes.index(steady)] = replace(steady, stages=tuple(sorted({*steady.stages, *silent})))
        findings.append(_played_throughout(steady.plan, fact("group-nobody-plays", stages=names)))
    return wishes


def _played_throughout(plan: PartPlan, because: Fact) -> Finding:
    return Finding(
        kind="playability",
        message=fact("group-plays-on", part=plan.name, because=because),
        fix=fact("group-add-the-stage"),
        part=plan.name,
        serious=False,
    )


def _shared(piece: Piece, wishes: Sequence[_Wish], sizes: tuple[int, ...]) -> tuple[Line, ...]:
    """As many groups as parts, or more: the groups left over go to the parts that gain most from a second group."""
    voices = [1] * len(wishes)
    for _ in range(len(sizes) - len(wishes)):
        gains = [_gain(piece, wish) / count for wish, count in zip(wishes, voices, strict=True)]
        voices[gains.index(max(gains))] += 1
    lines: list[Line] = []
    for wish, count in zip(wishes, voices, strict=True):
        for voice in range(count):
            desk = len(lines)
            lines.append(
                Line(
                    plan=wish.plan,
                    name=_voice_name(wish.plan.name, voice),
                    stages=wish.stages,
                    desk=desk,
                    group=desk + 1,
                    team=0,
                    players=sizes[desk],
                    voice=voice,
                    voices=count,
                )
            )
    return tuple(lines)


def _voice_name(name: str, voice: int) -> str:
    if voice == 0:
        return name
    ordinal = _ORDINALS[voice] if voice < len(_ORDINALS) else f"{voice + 1}th"
    return f"{name}, {ordinal} group"


def _gain(piece: Piece, wish: _Wish) -> float:
    """What one more group is worth to a part that has some.

    Little to one of the compared: it would be louder than what it is set beside, and seldom on the same instruments.
    """
    gain = MANNERS[wish.plan.texture].sharing * sum(piece.stages[stage].bars for stage in wish.stages)
    return gain * (_OF_COMPARED if mates(piece.scene, wish.plan.name) else 1.0)


def _merged(piece: Piece, wishes: Sequence[_Wish], sizes: tuple[int, ...], findings: list[Finding]) -> tuple[Line, ...]:
    """Fewer groups than parts: a desk takes parts that never sound together; then groups of six and more are halved;
    then a part gives up the stages in which its desk is busy; then the least essential part is left out."""
    halves = [group for group, size in enumerate(sizes) if size >= 2 * LEAST_PLAYERS]
    most = len(sizes) + len(halves)
    kept: list[_Wish] = list(wishes)
    left_out: list[_Wish] = []
    while True:
        fewest = min(len(sizes), len(kept))
        desks = next((d for n in range(fewest, most + 1) if (d := _desks(kept, n)) is not None), None)
        if desks is not None:
            break
        least = min(kept, key=lambda wish: _essential(piece, wish, kept))
        kept.remove(least)
        left_out.insert(0, least)
    for wish in left_out:
        _squeeze_in(piece, wish, desks, findings)
    order = [wish.plan for wish in wishes]
    desks.sort(key=lambda desk: min(order.index(wish.plan) for wish in desk))
    return _seated(desks, sizes, halves)


def _desks(wishes: Sequence[_Wish], count: int) -> list[list[_Wish]] | None:
    """The wishes on `count` desks, none sounding together with its neighbours there; None where that cannot be."""
    for gap in (1, 0):  # with a stage between them there is time to change instruments
        found = _placed(list(wishes), [[] for _ in range(count)], gap)
        if found is not None:
            return found
    return None


def _placed(rest: list[_Wish], desks: list[list[_Wish]], gap: int) -> list[list[_Wish]] | None:
    if not rest:
        return desks if all(desks) else None
    if sum(not desk for desk in desks) > len(rest):
        return None
    wish, later = rest[0], rest[1:]
    tried_empty = False
    for desk in sorted(desks, key=lambda desk: sum(len(other.stages) for other in desk)):
        clash = any(_clash(wish.stages, other.stages, gap) for other in desk)
        if (not desk and tried_empty) or clash or _learnt([*desk, wish]) > MOST_PATTERNS:
            continue
        tried_empty |= not desk
        desk.append(wish)
        found = _placed(later, desks, gap)
        if found is not None:
            return found
        desk.remove(wish)
    return None


def _learnt(wishes: Sequence[_Wish]) -> int:
    """How many parts of a desk bring a pattern to learn, at the least."""
    return sum(wish.plan.texture in ("ostinato", "melody") for wish in wishes)


def _clash(a: Sequence[int], b: Sequence[int], gap: int) -> bool:
    return any(abs(one - other) <= gap for one in a for other in b)


def _essential(piece: Piece, wish: _Wish, others: Sequence[_Wish]) -> tuple[bool, bool, bool, bool, int]:
    """What a part is worth to the piece: compared, the only one of a stage, a drone that goes through, with a rule of
    its own, and the earlier in the scene the more."""
    alone = any(all(stage not in other.stages for other in others if other is not wish) for stage in wish.stages)
    throughout = wish.plan.texture == "drone" and len(wish.stages) == len(piece.stages)
    ruled = any(rule.part == wish.plan.name for rule in piece.scene.rules)
    compared = bool(mates(piece.scene, wish.plan.name))
    return (compared, alone, throughout, ruled, -piece.scene.parts.index(wish.plan))


def _squeeze_in(piece: Piece, wish: _Wish, desks: list[list[_Wish]], findings: list[Finding]) -> None:
    """Give a part that found no desk the stages in which some desk is free, or leave it out; either is said."""
    free = [
        [s for s in wish.stages if all(s not in other.stages for other in desk)]
        if _learnt([*desk, wish]) <= MOST_PATTERNS
        else []
        for desk in desks
    ]
    best = max(range(len(desks)), key=lambda desk: (len(free[desk]), -len(desks[desk])))
    lost = [stage for stage in wish.stages if stage not in free[best]]
    names = tuple(piece.stages[stage].title for stage in lost)
    if free[best]:
        desks[best].append(_Wish(plan=wish.plan, stages=tuple(free[best])))
        message = fact("group-rests-in", part=wish.plan.name, stages=names)
    else:
        message = fact("group-left-out", part=wish.plan.name)
    findings.append(
        Finding(
            kind="class",
            message=message,
            fix=fact("group-with-more", groups=len(desks) + 1),
            part=wish.plan.name,
            where=fact("play-stages", stages=names),
            serious=not free[best],
        )
    )


def _seated(desks: list[list[_Wish]], sizes: tuple[int, ...], halves: Sequence[int]) -> tuple[Line, ...]:
    """Groups take desks in the order of the scene; desks too many are second halves of the last groups that can."""
    extra = len(desks) - len(sizes)
    halved = list(halves)[len(halves) - extra :] if extra > 0 else []
    places = [(group, team) for group in range(len(sizes)) for team in ((1, 2) if group in halved else (0,))]
    lines: list[Line] = []
    for desk, (wishes, (group, team)) in enumerate(zip(desks, places, strict=True)):
        players = sizes[group] if team == 0 else (sizes[group] + (team == 1)) // 2
        for wish in sorted(wishes, key=lambda wish: wish.stages):
            lines.append(
                Line(
                    plan=wish.plan,
                    name=wish.plan.name,
                    stages=wish.stages,
                    desk=desk,
                    group=group + 1,
                    team=team,
                    players=players,
                )
            )
    return tuple(lines)
