"""Controls and a class become a Score: who plays what, when and how loud. Read it from top to bottom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from sonify.arrange.beaters import Step, brightens, card_words, steps
from sonify.arrange.compared import comparison_findings, of_one_height
from sonify.arrange.cues import conducted
from sonify.arrange.cupboard import choose, swaps
from sonify.arrange.dynamics import loudness, marks, notes
from sonify.arrange.frame import beds, count_in, sections
from sonify.arrange.groups import Line, share_out
from sonify.arrange.hands import TWO_HANDED, beats_of, within_reach
from sonify.arrange.piece import COUNT_IN_BARS, Piece, without_set_aside
from sonify.arrange.pitches import bars_sentence, letters, tuning
from sonify.arrange.playability import seat_spans, strokes_of_players
from sonify.arrange.promised import promise_findings
from sonify.arrange.pulse import pulse_parts
from sonify.arrange.scaffold import scaffolded
from sonify.arrange.seating import Seated, seat_all
from sonify.arrange.shape import Shape, shape
from sonify.arrange.spoken import with_words
from sonify.arrange.streams import most_streams
from sonify.arrange.textures import LEARNT
from sonify.arrange.textures import played as played_by
from sonify.arrange.textures.closing import form_words, with_form
from sonify.arrange.textures.ostinato import onsets
from sonify.arrange.textures.own_pattern import own_onsets
from sonify.arrange.textures.task import Played, Task
from sonify.arrange.wishes import MOST_PATTERNS
from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.kinds.controls import CONTROLS
from sonify.kinds.lines import LINES
from sonify.kinds.textures import MANNERS
from sonify.records.classroom import Classroom
from sonify.records.controls import Controls
from sonify.records.fact import Fact, Words, fact, facts_in
from sonify.records.findings import Finding
from sonify.records.instrument import Catalogue, Instrument
from sonify.records.scene import Scene
from sonify.records.score import SCAFFOLDS, Note, OtherLine, Part, Pattern, Score
from sonify.records.timeline import Timeline

# The last look: strokes that the playability checker would refuse are taken out, and said -----------------------------


def repaired(score: Score) -> tuple[Score, tuple[Finding, ...]]:
    """The Score without strokes that some pupil could not reach in time."""
    parts, findings = [], []
    for part in score.parts:
        kept = _reachable(score, part) if part.seats else part.notes
        lost = len(part.notes) - len(kept)
        if lost:
            findings.append(
                Finding(
                    kind="playability",
                    message=fact("play-strokes-left-out", lost=lost, all=len(part.notes)),
                    fix=fact("play-would-keep-them", lost=lost),
                    part=part.name,
                    where=fact("play-bar", bar=score.clock.bar_and_beat(_first_lost(part, kept).beat)[0]),
                    serious=False,
                )
            )
        parts.append(replace(part, notes=kept) if lost else part)
    return replace(score, parts=tuple(parts)), tuple(findings)


def _first_lost(part: Part, kept: tuple[Note, ...]) -> Note:
    left = set(map(id, kept))
    return next(note for note in part.notes if id(note) not in left)


def _reachable(score: Score, part: Part) -> tuple[Note, ...]:
    """The notes that every player who has them can play."""
    rows = {
        first + place: score.instrument(seat.instrument)
        for seat, first in seat_spans(part)
        for place in range(seat.players)
    }
    lost: set[int] = set()
    done: set[tuple[int, ...]] = set()
    for player, played in sorted(strokes_of_players(score, part).items()):
        same = tuple(map(id, played))
        if same in done:
            continue
        done.add(same)
        beats = beats_of(played)
        reach = dict(zip(beats, within_reach(score.clock.float_seconds(beats), rows[player]), strict=True))
        lost |= {id(note) for note in played if not reach[note.beat]}
    return tuple(note for note in part.notes if id(note) not in lost)


#: An instrument that has notes in a smaller share of its part's bars is left in the cupboard (our own).
_LEAST_SHARE = 0.25
#: Messages about what a rule asks for and a part cannot play.
_FALLS_SHORT = {
    "play-density-over-bar",
    "play-density-over-beat",
    "play-taps-over",
    "play-beyond-range",
    "play-drone-beyond-range",
}


def arrange(
    scene: Scene,
    timeline: Timeline,
    controls: Controls,
    classroom: Classroom,
    catalogue: Catalogue,
    *,
    seed: int = 0,
    scaffold: str = "full",
) -> tuple[Score, tuple[Finding, ...]]:
    """The Score of a mapped scene for a class, and notes on what was changed to make it playable.

    Raises UnknownName for an unknown scaffold or an instrument that the catalogue lacks.
    """
    if scaffold not in SCAFFOLDS:
        raise UnknownName("scaffold", scaffold, SCAFFOLDS)
    piece = Piece(
        scene=scene,
        timeline=timeline,
        controls=without_set_aside(scene, controls),
        asked=controls,
        classroom=classroom,
        catalogue=catalogue,
        seed=seed,
    )
    lines, shared = share_out(piece)
    plan = shape(piece, lines)
    found, alike = choose(piece, lines)
    swapped = swaps(piece, lines, found)
    made = _all_made(piece, plan, lines, found)
    made = [replace(one, part=_told_apart(piece, one, made)) for one in made]
    parts = (
        *_by_group([one.part for one in made]),
        *_by_group(pulse_parts(piece, plan.desks, plan.pulse, plan.units, plan.breath)),
    )
    clicks, click_row = count_in(piece, [row for one in made for row in one.task.rows], goes_on=scaffold == "open")
    used = {click_row.id} | {row.id for one in made for row in one.task.rows} | {part.instrument for part in parts}
    score = Score(
        title=scene.title,
        scene=scene.name,
        metre=controls.time_map.metre,
        scale=scene.music.scale,
        bars=piece.bars,
        tempi=controls.time_map.tempi,
        sections=sections(piece),
        parts=(clicks, *parts),
        cues=(),
        instruments=tuple(row for row in catalogue.instruments if row.id in used),
        beds=beds(piece),
        swaps=swapped,
        count_in_bars=COUNT_IN_BARS,
        seed=seed,
        scaffold=scaffold,
        gentle=piece.gentle,
        loudness_range=scene.music.loudness_range,
    )
    score, mended = repaired(score)
    given = scaffolded(piece, score.group_parts, plan, scaffold)
    cues = conducted(piece, plan, given, {one.part.name: one.beaters for one in made})
    score = replace(score, parts=(clicks, *given), cues=cues)
    streams = most_streams(classroom)
    promised = (
        (*comparison_findings(piece, score, streams), *promise_findings(piece, score, streams))
        if scaffold == "full"
        else ()
    )
    told = [finding for one in made for finding in one.findings if not _missed_an_idea(piece, finding)]
    return score, (*shared, *_empty_cupboard(piece), *_swap_findings(score), *alike, *promised, *told, *mended)


def _by_group(parts: Sequence[Part]) -> list[Part]:
    """Parts in the order of their groups, as they sit; those of one group as they are."""
    return sorted(parts, key=lambda part: (part.group, part.team))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A part with the task that made it."""

    task: Task
    part: Part
    findings: tuple[Finding, ...]
    beaters: tuple[Step, ...]


def _all_made(piece: Piece, plan: Shape, lines: Sequence[Line], found: dict[str, Instrument]) -> list[_Made]:
    """Every line played, seated anew without instruments that would have next to nothing to play along with."""
    spared: set[tuple[str, str]] = set()
    while True:
        made = [_made(task) for task in _tasks(piece, plan, seat_all(piece, lines, found, spared))]
        more = {(one.part.name, row.id) for one in made for row in one.task.rows[1:] if _waits(one, row)}
        if more <= spared:  # what is all that is left to play on stays, though it waits
            return made
        spared |= more


def _waits(one: _Made, row: Instrument) -> bool:
    """Whether an instrument has notes along with a tune in too few of its bars, in either half of them; along with a
    chord, whose first notes it shares, or in turn with another sound, in none; along with anything, no note at all."""
    if not any(note.instrument == row.id for note in one.part.notes):
        return True
    if one.part.texture not in ("melody", "drone") or (one.task.main.pitched and not row.pitched):
        return False  # taps that any hand can play
    beats, middle = one.task.beats, one.task.piece.bars // 2
    bars = sorted({note.beat // beats for note in one.part.notes})
    own = {note.beat // beats for note in one.part.notes if note.instrument == row.id}
    sides = [half for half in ({b for b in bars if b < middle}, {b for b in bars if b > middle}) if half]
    if one.part.texture == "melody" and not one.task.main.pitched:
        # high and low sounds that take turns: either may wait for half of the piece, where another group has the tune
        if one.task.line.voice == 0:
            return False
        others = {note.beat // beats for note in one.part.notes if note.instrument != row.id}
        return any(not own & half or not others & half for half in sides)
    if one.part.texture == "drone":
        return any(not own & half for half in sides)
    halves = (bars[: len(bars) // 2], bars[len(bars) // 2 :])
    return any(half and len(own.intersection(half)) < _LEAST_SHARE * len(half) for half in halves)


def _told_apart(piece: Piece, one: _Made, made: Sequence[_Made]) -> Part:
    """The part, its card with the octaves between it and those with which it is compared, where there are any."""
    told = []
    for other in made:
        mates = of_one_height(piece.scene, one.task.line.plan.name)
        if other.task.line.plan.name not in mates or one.part.texture != "melody" or other.part.texture != "melody":
            continue
        rows = (other.task.main, one.task.main)
        if all(row.pitched for row in rows) and (apart := other.part.octaves - one.part.octaves):
            way = "higher" if apart > 0 else "lower"
            told.append(fact("part-octave-apart", other=other.part.name, way=way))
    return replace(one.part, instructions=(*one.part.instructions, *told)) if told else one.part


def _tasks(piece: Piece, plan: Shape, seated: Sequence[Seated]) -> list[Task]:
    """One task a line; ostinati later in the scene hear the earlier ones' rhythms."""
    tasks: list[Task] = []
    busy: dict[str, tuple[Fraction, ...]] = {}
    for one in seated:
        line = one.line
        before = {t.line.plan.name for t in tasks if t.line.plan.texture == line.plan.texture} - {line.plan.name}
        task = Task(
            piece=piece,
            shape=plan,
            line=line,
            seats=one.seats,
            rows=one.rows,
            place=len(before),
            busy=tuple(onset for name, onsets in busy.items() if name != line.plan.name for onset in onsets),
            patterns=_patterns(one, seated),
        )
        tasks.append(task)
        if line.plan.texture == "ostinato" and line.voice == 0:
            busy[line.plan.name] = onsets(task) if task.own is None else own_onsets(task, task.own)
    return tasks


def _patterns(one: Seated, seated: Sequence[Seated]) -> int:
    """How many patterns a line may have: three for its desk, the first lines of the desk the more."""
    learnt = [o for o in seated if o.line.desk == one.line.desk and o.line.plan.texture in ("ostinato", "melody")]
    if one not in learnt:
        return MOST_PATTERNS
    each, more = divmod(MOST_PATTERNS, len(learnt))
    return max(1, each + (learnt.index(one) < more))


def _made(task: Task) -> _Made:
    line, piece = task.line, task.piece
    played = played_by(task)
    strokes = with_form(task, played.strokes)
    levels = loudness(piece, task.shape, line, task.rows, strokes)
    beater_runs = task.shape.runs_of(line.name, task.shape.changes.beaters[line.plan.name])
    beaters = steps(piece, line.plan.name, task.rows, beater_runs)
    tuned = tuning(task.main, piece.scene.music.scale) if task.main.pitched else None
    played_notes = notes(piece, strokes, levels, beaters)
    part = Part(
        name=line.name,
        group=line.group,
        instrument=task.main.id,
        texture=task.texture,
        notes=played_notes,
        seats=played.seats or task.seats,
        meaning=line.plan.meaning,
        instructions=_instructions(task, played, beaters),
        entries=played.entries,
        patterns=_spoken(task, played.patterns) if task.own is None else played.patterns,
        dynamics=marks([note for note in played_notes if note.instrument == task.main.id], task.blocks, piece.beats),
        team=line.team,
        others=_other_lines(task),
        bars_off=() if tuned is None else tuned.off,
        bars_on=() if tuned is None else tuned.on,
        difficulty=task.level,
        octaves=played.octaves,
        ruled=tuple(control for control in CONTROLS if piece.curve(control, line.plan.name) is not None),
    )
    findings = (*_rule_findings(task), *played.findings, *levels.findings)
    return _Made(task=task, part=part, findings=findings, beaters=beaters)


def _other_lines(task: Task) -> tuple[OtherLine, ...]:
    """The lines that a part could have: patterns for those who learn one, for the others what is different."""
    if task.own is not None:
        return ()
    found = []
    for level in LINES:
        if level == task.level:
            continue
        learnt = LEARNT.get(task.line.plan.texture)
        patterns = () if learnt is None else _spoken(task, learnt(replace(task, other_line=level)))
        how = "patterns" if patterns else _line_words(task)
        words = fact(f"part-line-{how}", line=level)
        found.append(OtherLine(level=level, patterns=patterns, words=(words,)))
    return tuple(found)


def _line_words(task: Task) -> str:
    two_notes = task.main.pitched and task.main.family in TWO_HANDED
    return "held" if task.line.plan.texture == "drone" and not two_notes else task.line.plan.texture


def _spoken(task: Task, patterns: Sequence[Pattern]) -> tuple[Pattern, ...]:
    turn = int(task.piece.generator(task.line.plan.name, "spoken").integers(1000))
    return with_words(patterns, task.piece.scene.process, task.beats, turn)


def _instructions(task: Task, played: Played, beaters: Sequence[Step]) -> tuple[Words, ...]:
    scale = task.piece.scene.music.scale
    bars = [bars_sentence(row, tuning(row, scale)) for row in task.rows if row.pitched]
    return (*played.words, *card_words(beaters), *filter(None, bars), *form_words(task))


def _rule_findings(task: Task) -> list[Finding]:
    """Rules of this part's own that its texture or instrument cannot sound."""
    line, piece, row = task.line, task.piece, task.main
    found = []
    for control in MANNERS[line.plan.texture].unheard:
        if piece.curve(control, line.plan.name, own=True) is not None:
            found.append(
                _unheard(task, control, fact("play-goes-on-anyway", texture=line.plan.texture, control=control))
            )
    if line.plan.on_beat and piece.curve("density", line.plan.name, own=True) is not None:
        found.append(_unheard(task, "density", fact("play-on-the-beat")))
    if line.plan.texture != "melody" and not row.pitched and piece.curve("pitch", line.plan.name, own=True) is not None:
        found.append(_unheard(task, "pitch", fact("play-no-notes", instruments=row.plural)))
    if not any(map(brightens, task.rows)) and piece.curve("brightness", line.plan.name, own=True) is not None:
        found.append(_unheard(task, "brightness", fact("play-one-sound", instruments=row.plural)))
    if row.pitched and (missing := tuning(row, piece.scene.music.scale).missing):
        found.append(
            Finding(
                kind="playability",
                message=fact("play-no-note", notes=letters(missing), instruments=row.plural),
                fix=fact("play-name-a-scale"),
                part=line.name,
                where=fact("play-where", what="scale"),
                serious=False,
            )
        )
    return found


def _missed_an_idea(piece: Piece, finding: Finding) -> bool:
    """Whether it says that hands or an instrument fall short of a number, where an author said "busy" or "high".

    They are as busy, and as high, as they can be: nothing is lost, for no number was meant.
    """
    if piece.timeline.quantities:
        return False
    return any(told.message in _FALLS_SHORT for told in facts_in(finding.message))


def _unheard(task: Task, control: str, because: Fact) -> Finding:
    return Finding(
        kind="playability",
        message=fact("play-unheard", control=control, because=because),
        fix=fact("play-another-control"),
        part=task.line.name,
        where=fact("play-where", what=control),
        serious=False,
    )


def _empty_cupboard(piece: Piece) -> list[Finding]:
    if any(stock.count > 0 for stock in piece.classroom.cupboard):
        return []
    return [
        Finding(
            kind="class",
            message=fact("cupboard-empty"),
            fix=fact("cupboard-list-it"),
            where=fact("play-where", what="cupboard"),
            serious=False,
        )
    ]


def _swap_findings(score: Score) -> list[Finding]:
    return [
        Finding(
            kind="swap",
            message=fact(
                "cupboard-swap", given=swap.given[:1].upper() + swap.given[1:], wanted=swap.wanted, reason=swap.reason
            ),
            fix=fact("cupboard-change-sounds"),
            part=swap.part,
            where=fact("play-where", what="instruments"),
            serious=False,
        )
        for swap in score.swaps
    ]
