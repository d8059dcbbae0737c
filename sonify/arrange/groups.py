"""Which group plays which part: where somebody said so, as they said; else one each where the numbers agree, and parts
are merged or shared where they do not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from sonify.arrange.piece import Piece
from sonify.arrange.wishes import MOST_PATTERNS, Wish, clashes, essential, gain, learnt, spread
from sonify.frozen import dataclass
from sonify.records.classroom import Classroom
from sonify.records.fact import Fact, Words, fact
from sonify.records.findings import Finding
from sonify.records.scene import PartPlan

#: Groups a non-musician can lead: 3 to 6 pupils (the brief of the lesson; common practice).
LEAST_PLAYERS, MOST_PLAYERS = 3, 6
#: Signs for entries, for changes and for a new tempo at one moment; and as many parts that stop at the end of the bar
#: before it. Signs for parts are counted, not groups: groups that share a part and sit side by side are shown one.
MOST_CUES = 2
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
class _Desk:
    """A group, or half of one (team 1 or 2), and what it plays."""

    group: int
    wishes: list[Wish]
    team: int = 0


def group_sizes(classroom: Classroom) -> tuple[int, ...]:
    """How many pupils in each group; sizes differ by at most one.

    >>> group_sizes(Classroom(year=4, pupils=28, groups=5))
    (6, 6, 6, 5, 5)
    """
    groups = min(classroom.groups, classroom.pupils)
    least, more = divmod(classroom.pupils, groups)
    return tuple(least + (place < more) for place in range(groups))


def share_out(piece: Piece) -> tuple[tuple[Line, ...], tuple[Finding, ...]]:
    """The lines of the piece in the order of the scene's parts, which without a word of anybody's is that of groups."""
    findings: list[Finding] = list(_size_findings(piece.classroom))
    wishes = _wishes(piece, findings)
    sizes = group_sizes(piece.classroom)
    asked = _asked(wishes, len(sizes), findings)
    desks = _as_asked(wishes, asked, sizes, findings)
    taken = {desk.group for desk in desks}
    free = [group for group in range(1, len(sizes) + 1) if group not in taken]
    rest = [wish for wish in wishes if wish.plan.name not in asked]
    if len(rest) <= len(free):
        desks += _shared(piece, rest, desks, free)
    else:
        desks = _merged(piece, rest, desks, free, sizes, findings)
    return _lines(desks, [wish.plan for wish in wishes], sizes), tuple(findings)


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


def _wishes(piece: Piece, findings: list[Finding]) -> list[Wish]:
    """The scene's parts that have a stage to play in; every stage has a part."""
    wishes = []
    for plan in piece.scene.parts:
        stages = piece.stage_numbers(plan)
        if stages:
            wishes.append(Wish(plan=plan, stages=stages))
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
        return [Wish(plan=plan, stages=tuple(range(len(piece.stages))))]
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


# --- as somebody said ------------------------------------------------------------------------------------------------


def _asked(wishes: Sequence[Wish], groups: int, findings: list[Finding]) -> dict[str, tuple[int, ...]]:
    """The groups that parts were given to, by the parts' names; those that the class has not are said."""
    asked = {}
    for plan in (wish.plan for wish in wishes if wish.plan.groups):
        there = tuple(sorted(group for group in plan.groups if group <= groups))
        if there:
            asked[plan.name] = there
        if gone := tuple(str(group) for group in sorted(plan.groups) if group > groups):
            told = fact("group-not-there", part=plan.name, asked=gone, n=len(gone), groups=groups)
            findings.append(_of_asked(plan, told, serious=False))
    return asked


def _of_asked(plan: PartPlan, message: Fact, *, serious: bool) -> Finding:
    where = fact("play-where", what="groups")
    fix = fact("group-another")
    return Finding(kind="class", message=message, fix=fix, part=plan.name, where=where, serious=serious)


def _as_asked(
    wishes: Sequence[Wish], asked: Mapping[str, tuple[int, ...]], sizes: tuple[int, ...], findings: list[Finding]
) -> list[_Desk]:
    """A desk for each group that was given a part, or two halves of it where its parts sound together."""
    desks: list[_Desk] = []
    lost: list[tuple[int, Wish, tuple[str, ...]]] = []
    for group in sorted({group for groups in asked.values() for group in groups}):
        wanted = [wish for wish in wishes if group in asked.get(wish.plan.name, ())]
        teams = spread(wanted, [[]])
        if teams is None and sizes[group - 1] >= 2 * LEAST_PLAYERS:
            teams = spread(wanted, [[], []])
        if teams is None:
            teams = [_in_turn(group, wanted, asked, lost, findings)]
        desks += [_Desk(group=group, team=team * (len(teams) > 1), wishes=own) for team, own in enumerate(teams, 1)]
    played = {wish.plan.name for desk in desks for wish in desk.wishes}
    for group, wish, others in lost:
        told = fact("group-not-with", group=group, part=wish.plan.name, others=others)
        findings.append(_of_asked(wish.plan, told, serious=wish.plan.name not in played))
    return desks


def _in_turn(
    group: int,
    wanted: Sequence[Wish],
    asked: Mapping[str, tuple[int, ...]],
    lost: list[tuple[int, Wish, tuple[str, ...]]],
    findings: list[Finding],
) -> list[Wish]:
    """What one group can play of the parts that it was given: the first of the scene whole, the others where it is
    free. A part that other groups play too is left to them: all who share a part play in the same stages."""
    own = [wanted[0]]
    for wish in wanted[1:]:
        busy = tuple(other.plan.name for other in own if clashes(wish.stages, other.stages))
        free = tuple(stage for stage in wish.stages if all(stage not in other.stages for other in own))
        if learnt([*own, wish]) > MOST_PATTERNS or not free or (busy and len(asked[wish.plan.name]) > 1):
            lost.append((group, wish, busy or tuple(other.plan.name for other in own)))
            continue
        own.append(replace(wish, stages=free))
        if busy:
            told = fact("group-rests-while", part=wish.plan.name, group=group, others=busy)
            findings.append(_of_asked(wish.plan, told, serious=False))
    return own


# --- as the numbers have it ------------------------------------------------------------------------------------------


def _shared(piece: Piece, rest: Sequence[Wish], desks: Sequence[_Desk], free: Sequence[int]) -> list[_Desk]:
    """As many groups as parts, or more: the groups left over go to the parts that gain most from a second group."""
    able = list(rest) or list({wish.plan.name: wish for desk in desks for wish in desk.wishes}.values())
    voices = [1] * len(able)
    for _ in range(len(free) - len(rest)):
        gains = [gain(piece, wish) / count for wish, count in zip(able, voices, strict=True)]
        voices[gains.index(max(gains))] += 1
    before = 0 if rest else 1
    played = [wish for wish, count in zip(able, voices, strict=True) for _ in range(count - before)]
    return [_Desk(group=group, wishes=[wish]) for group, wish in zip(free, played, strict=True)]


def _merged(
    piece: Piece,
    rest: Sequence[Wish],
    desks: Sequence[_Desk],
    free: Sequence[int],
    sizes: tuple[int, ...],
    findings: list[Finding],
) -> list[_Desk]:
    """Fewer groups than parts: a desk takes parts that never sound together; then groups of six and more are halved;
    then a part gives up the stages in which its desk is busy; then the least essential part is left out."""
    halves = [group for group in free if sizes[group - 1] >= 2 * LEAST_PLAYERS]
    kept: list[Wish] = list(rest)
    left_out: list[Wish] = []
    while True:
        found = None
        for more in range(len(halves) + 1):
            new = min(len(free), len(kept)) + more
            found = spread(kept, [*(list(desk.wishes) for desk in desks), *([] for _ in range(new))])
            if found is not None:
                break
        if found is not None:
            break
        least = min(kept, key=lambda wish: essential(piece, wish, kept))
        kept.remove(least)
        left_out.insert(0, least)
    fewer = len(sizes) < len({wish.plan.name for wish in (*rest, *(each for desk in desks for each in desk.wishes))})
    for wish in left_out:
        _squeeze_in(piece, wish, found, findings, fewer=fewer)
    held, new_ones = found[: len(desks)], found[len(desks) :]
    order = [wish.plan for wish in rest]
    new_ones.sort(key=lambda own: min(order.index(wish.plan) for wish in own))
    extra = len(new_ones) - len(free)
    halved = halves[len(halves) - extra :] if extra > 0 else []
    places = [(group, team) for group in free for team in ((1, 2) if group in halved else (0,))]
    return [
        *(replace(desk, wishes=own) for desk, own in zip(desks, held, strict=True)),
        *(_Desk(group=g, team=team, wishes=own) for (g, team), own in zip(places, new_ones, strict=True)),
    ]


def _squeeze_in(piece: Piece, wish: Wish, desks: list[list[Wish]], findings: list[Finding], *, fewer: bool) -> None:
    """Give a part that found no desk the stages in which some desk is free, or leave it out; either is said.

    fewer: whether there are fewer groups than parts; if not, somebody gave groups to others.
    """
    free = [
        [s for s in wish.stages if all(s not in other.stages for other in desk)]
        if learnt([*desk, wish]) <= MOST_PATTERNS
        else []
        for desk in desks
    ]
    best = max(range(len(desks)), key=lambda desk: (len(free[desk]), -len(desks[desk])))
    lost = [stage for stage in wish.stages if stage not in free[best]]
    names = tuple(piece.stages[stage].title for stage in lost)
    given = any(each.plan.groups for each in (wish, *(one for desk in desks for one in desk)))
    if free[best]:
        desks[best].append(replace(wish, stages=tuple(free[best])))
    if not lost:
        return
    if free[best]:
        message = fact("group-rests-in", part=wish.plan.name, stages=names, fewer="yes" if fewer else "no")
    else:
        message = fact("group-left-out", part=wish.plan.name, fewer="yes" if fewer else "no")
    findings.append(
        Finding(
            kind="class",
            message=message,
            fix=fact("group-with-more", groups=len(desks) + 1) if fewer and not given else fact("group-another"),
            part=wish.plan.name,
            where=fact("play-stages", stages=names),
            serious=not free[best],
        )
    )


# --- the lines -------------------------------------------------------------------------------------------------------


def _lines(desks: Sequence[_Desk], order: Sequence[PartPlan], sizes: tuple[int, ...]) -> tuple[Line, ...]:
    """What each desk plays. Desks come in the order of the scene, whichever groups they are: so a piece sounds alike
    whoever sits where."""
    playing: dict[str, list[_Desk]] = {}
    for desk in sorted(desks, key=lambda desk: (desk.group, desk.team)):
        for wish in desk.wishes:
            playing.setdefault(wish.plan.name, []).append(desk)

    def voice(wish: Wish, desk: _Desk) -> int:
        return next(at for at, other in enumerate(playing[wish.plan.name]) if other is desk)

    ranked = sorted(desks, key=lambda desk: min((order.index(wish.plan), voice(wish, desk)) for wish in desk.wishes))
    return tuple(
        Line(
            plan=wish.plan,
            name=_voice_name(wish.plan.name, voice(wish, desk)),
            stages=wish.stages,
            desk=place,
            group=desk.group,
            team=desk.team,
            players=_players(sizes[desk.group - 1], desk.team),
            voice=voice(wish, desk),
            voices=len(playing[wish.plan.name]),
        )
        for place, desk in enumerate(ranked)
        for wish in sorted(desk.wishes, key=lambda wish: wish.stages)
    )


def _players(size: int, team: int) -> int:
    return size if team == 0 else (size + (team == 1)) // 2


def _voice_name(name: str, voice: int) -> str:
    if voice == 0:
        return name
    ordinal = _ORDINALS[voice] if voice < len(_ORDINALS) else f"{voice + 1}th"
    return f"{name}, {ordinal} group"
