"""Which instrument each part gets: the first it asks for that the cupboard holds in number, and no two alike."""

from __future__ import annotations

from collections.abc import Sequence

from sonify.arrange.beaters import brightens
from sonify.arrange.compared import comparisons, mates, of_one_height, under_one_rule
from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.arrange.pitches import Fitted, fitted, tuning
from sonify.frozen import dataclass
from sonify.kinds.instruments import REGISTERS
from sonify.records.fact import Fact, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Swap

# What a choice costs; the least sum over all parts wins. Our own weights: a step down the scene's own list is cheap,
# leaving the list is dear, two groups that sound alike or a texture the instrument does not suit are dearer still.
_STEP = 3.0
_SHORT = 8.0
_TOO_FEW = 4.0
_SISTER = 1.0
_OFF_LIST = 20.0
_OTHER_FAMILY = 3.0
_BODILY = 2.0
#: Its brightness is to be heard, and it has one sound: dear, but not so dear as to leave the scene's list.
_ONE_SOUND = 15.0
_UNSUITED = 30.0
_UNPITCHED = 8.0
_TOO_LOUD = 15.0
_ALIKE = 15.0
_AGAIN = 12.0
_SAME = 200.0
#: Claps and snaps are for what the cupboard has nothing for.
_CLAPPED, CLAPPED = 50.0, ("claps", "finger-snaps")
#: Compared parts: one sung and one struck, or one without notes; in different timbres; an octave apart.
_UNLIKE, _OTHER_TIMBRE, _OCTAVE = 2000.0, 120.0, 45.0
#: Tunes under one rule, each with turns of its own: in other octaves; not the same notes for the same values, because
#: one instrument ends earlier; a range too small; on one kind, told apart by place alone.
_ANOTHER_OCTAVE, _OTHER_NOTES, _BEYOND, _ONE_KIND = 300.0, 100.0, 30.0, 25.0
#: Two groups share one kind of instrument where there is one for so many of them.
_ENOUGH_FOR_TWO = 0.4
_DRY, _RINGS_S = 6.0, 1.0
_FIRST = 3.0
_NEVER = 1e6
#: How much a place counts that another instrument of the list fills, or body percussion (which blends), or voices.
_HELP, _BODILY_HELP = 0.75, {"body": 0.6, "voice": 0.25}
#: Choices looked at for each part, and the end of the search; beyond it the best so far is taken.
_MOST_CHOICES = 14
_MOST_STEPS = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class CupboardChoice:
    """An instrument a line could have, and what that costs by itself."""

    row: Instrument
    cost: float


def alike(a: Instrument, b: Instrument) -> bool:
    """True where a listener cannot be sure which of two groups plays: one family and register, or one sound."""
    if a.id == b.id:
        return True
    if any(row.own and row.on_request for row in (a, b)):
        return False  # what pupils recorded is like nothing else
    return (a.family, a.register, a.pitched, _wooden(a)) == (b.family, b.register, b.pitched, _wooden(b))


def _wooden(row: Instrument) -> bool:
    """Bars of wood or plastic against bars of metal: the dry and the ringing are told apart at once."""
    return row.family == "bars" and row.ring_s < 1.0


def needs_pitch(piece: Piece, line: Line) -> bool:
    """A melody needs notes; so does any part whose own pitch is ruled."""
    return line.plan.texture == "melody" or piece.curve("pitch", line.plan.name, own=True) is not None


def _chord(line: Line, wanted: Sequence[Instrument]) -> bool:
    """Whether a held part is meant to sound notes: all that its scene asks for has them."""
    return line.plan.texture == "drone" and bool(wanted) and all(row.pitched for row in wanted)


def wanted_rows(piece: Piece, line: Line) -> tuple[Instrument, ...]:
    """The scene's list as rows, each once, and behind each what the class has of its own that sounds like it."""
    rows = [piece.catalogue.find(name) for name in line.plan.sounds]
    return tuple(dict.fromkeys(each for row in rows for each in (row, *piece.catalogue.own_like(row))))


def at_hand(row: Instrument, wanted: Sequence[Instrument]) -> bool:
    """A sound of the body that every class has; one that is made on request only where the scene's list names it."""
    return row.bodily and (not row.on_request or row in wanted)


def shared_rule_on(piece: Piece, row: Instrument) -> Fitted:
    """The notes of the whole piece's pitch rule, bar by bar, on a pitched instrument."""
    curve = piece.controls.curve("pitch")
    asked = [] if curve is None else [float(each) for each in curve.results[:: piece.beats]]
    return fitted(asked, tuning(row, piece.scene.music.scale))


def choose(piece: Piece, lines: Sequence[Line]) -> tuple[dict[str, Instrument], tuple[Finding, ...]]:
    """The main instrument of each line, by its name; what cannot be told apart is reported."""
    choices = [_choices(piece, line) for line in lines]
    order = sorted(range(len(lines)), key=lambda i: (len(choices[i]), i))
    search = _Search(piece, [lines[i] for i in order], [choices[i] for i in order])
    picked = search.best()
    found = {lines[i].name: row for i, row in zip(order, picked, strict=True)}
    return {line.name: found[line.name] for line in lines}, tuple(_alike_findings(piece, lines, found))


def _choices(piece: Piece, line: Line) -> list[CupboardChoice]:
    wanted = wanted_rows(piece, line)
    # The compared may each have what any of them asks for: it is the likeness that counts.
    others = [plan for plan in piece.scene.parts if plan.name in mates(piece.scene, line.plan.name)]
    more = [piece.catalogue.find(name) for plan in others for name in plan.sounds]
    wanted = tuple(dict.fromkeys([*wanted, *more]))
    cupboard = {stock.instrument for stock in piece.classroom.cupboard if stock.count > 0}
    unasked = {row.id for row in piece.catalogue.instruments if row.on_request and row not in wanted}
    rows = [row for row in piece.catalogue.instruments if row.id in cupboard - unasked or at_hand(row, wanted)]
    found = sorted(
        (CupboardChoice(row=row, cost=_cost(piece, line, row, wanted)) for row in rows), key=lambda c: c.cost
    )
    bodily = [choice for choice in found if choice.row.bodily]
    return [*found[:_MOST_CHOICES], *(choice for choice in bodily if choice not in found[:_MOST_CHOICES])]


def _cost(piece: Piece, line: Line, row: Instrument, wanted: Sequence[Instrument]) -> float:
    cost = 0.0
    sister = next((i for i, other in enumerate(wanted) if _sisters(row, other)), None)
    if row in wanted:
        cost += _STEP * _rank(piece, wanted, wanted.index(row))
    elif sister is not None:
        cost += _STEP * _rank(piece, wanted, sister) + _SISTER * (1.0 + 1.25 * _apart(row, wanted[sister]) ** 2)
    else:
        cost += _OFF_LIST + _BODILY * row.bodily
        cost += _OTHER_FAMILY * (bool(wanted) and row.family not in {other.family for other in wanted})
    if line.plan.texture not in row.textures:
        cost += _UNSUITED
    if (needs_pitch(piece, line) or _chord(line, wanted)) and not row.pitched:
        cost += _UNPITCHED
    if piece.curve("brightness", line.plan.name, own=True) is not None and not brightens(row):
        cost += _ONE_SOUND
    if piece.gentle and row.loud >= 3:
        cost += _TOO_LOUD
    if row.id in CLAPPED and any(
        suits(piece, line, piece.catalogue[stock.instrument]) for stock in piece.classroom.cupboard if stock.count > 0
    ):
        cost += _CLAPPED
    own = piece.classroom.count(row.id) * row.players
    if not row.bodily and line.plan.texture != "drone" and own < line.players / 2:
        cost += _TOO_FEW  # a drone may be mixed; elsewhere most of the group should have the part's own sound
    if line.plan.texture == "drone" and not row.sustains and row.ring_s < _RINGS_S:
        cost += _DRY
    cost += _SHORT * (1.0 - _covered(piece, line, row, wanted))
    # The first group of a shared part has the first choice.
    return cost * (_FIRST if line.voice == 0 else 1.0)


def suits(piece: Piece, line: Line, row: Instrument) -> bool:
    """Whether an instrument of the cupboard can stand for a part that would else be clapped."""
    notes = row.pitched or not needs_pitch(piece, line)
    blown = row.family in ("wind", "keys")  # one of them joins no group of taps
    return line.plan.texture in row.textures and notes and not blown and not (piece.gentle and row.loud >= 3)


def _sisters(a: Instrument, b: Instrument) -> bool:
    """Two sizes of one barred instrument: who asks for a xylophone is glad of an alto one."""
    return a.family == b.family == "bars" and a.id != b.id and a.id.split("-")[-1] == b.id.split("-")[-1]


def _rank(piece: Piece, wanted: Sequence[Instrument], at: int) -> int:
    """How many of the instruments listed before this one the cupboard holds, in one size or another."""
    owned = [piece.catalogue[stock.instrument] for stock in piece.classroom.cupboard if stock.count > 0]
    return sum(other.bodily or any(row is other or _sisters(row, other) for row in owned) for other in wanted[:at])


def _apart(a: Instrument, b: Instrument) -> int:
    """How many registers lie between two instruments."""
    return abs(REGISTERS.index(a.register) - REGISTERS.index(b.register))


def _covered(piece: Piece, line: Line, row: Instrument, wanted: Sequence[Instrument]) -> float:
    """The share of the line's players that has something to play: this instrument, and the others on the list."""
    if row.bodily:
        return 1.0
    own = piece.classroom.count(row.id) * row.players
    also = sum(
        piece.classroom.count(other.id) * other.players
        for other in wanted
        if not other.bodily and (other.pitched or other.gm_key != row.gm_key) and other is not row
    )
    missing = max(line.players - own, 0)
    helped = min(also, missing)
    bodily = max((_BODILY_HELP[other.family] for other in wanted if other.bodily), default=0.0)
    # What others bring counts for less: one sound for a whole group is better than several.
    return min(1.0, (own + _HELP * helped + bodily * (missing - helped)) / line.players)


class _Search:
    """Branch and bound over the lines' choices."""

    def __init__(self, piece: Piece, lines: Sequence[Line], choices: Sequence[Sequence[CupboardChoice]]) -> None:
        self.lines, self.choices = lines, choices
        self.rest = [0.0] * (len(lines) + 1)
        for i in reversed(range(len(lines))):
            self.rest[i] = self.rest[i + 1] + min(choice.cost for choice in choices[i])
        self.counts = {stock.instrument: piece.classroom.count(stock.instrument) for stock in piece.classroom.cupboard}
        rows = {choice.row.id: choice.row for options in choices for choice in options}
        self.alike = {(a, b): alike(rows[a], rows[b]) for a in rows for b in rows}
        self.sides = {line.plan.name: mates(piece.scene, line.plan.name) for line in lines}
        self.tunes = frozenset(under_one_rule(piece.scene))
        self.fits = {row.id: shared_rule_on(piece, row) for row in rows.values() if row.pitched and self.tunes}
        self.places = {row.id: self.counts.get(row.id, 0) * row.players for row in rows.values()}
        self.least = float("inf")
        self.found: list[Instrument] = []
        self.steps = 0

    def best(self) -> list[Instrument]:
        self._go([], 0.0)
        return self.found

    def _go(self, picked: list[Instrument], cost: float) -> None:
        at = len(picked)
        if at == len(self.lines):
            self.least, self.found = cost, list(picked)
            return
        ranked = sorted(
            ((choice.cost + self._beside(picked, choice.row), i) for i, choice in enumerate(self.choices[at])),
        )
        for extra, i in ranked:
            self.steps += 1
            if cost + extra + self.rest[at + 1] >= self.least:
                break
            if self.found and self.steps > _MOST_STEPS:
                return
            self._go([*picked, self.choices[at][i].row], cost + extra)

    def _beside(self, picked: Sequence[Instrument], row: Instrument) -> float:
        """What it costs to have this next to the instruments of the other desks."""
        cost, line = 0.0, self.lines[len(picked)]
        users = 1
        if line.plan.name in self.tunes:
            cost += _BEYOND * (row.id not in self.fits or self.fits[row.id].held > 0)
        for other_line, other in zip(self.lines, picked, strict=False):
            both = {line.plan.name, other_line.plan.name} <= self.tunes
            if both:
                cost += self._unlike_notes(row, other)
            if other_line.desk == line.desk:
                cost += _AGAIN * (other.id == row.id)
                continue
            if other_line.plan.name in self.sides[line.plan.name]:
                users += other.id == row.id
                cost += self._compared(line, row, other_line, other)
            elif other.id == row.id:
                users += 1
                cost += _ONE_KIND if both else _SAME
            elif self.alike[other.id, row.id]:
                cost += _ALIKE
        if not row.bodily and self.counts.get(row.id, 0) < users:
            cost += _NEVER
        return cost

    def _unlike_notes(self, row: Instrument, other: Instrument) -> float:
        """What it costs that the same value is not the same note on both."""
        one, two = self.fits.get(row.id), self.fits.get(other.id)
        if one is None or two is None:
            return _ANOTHER_OCTAVE * (one is not two)
        return _ANOTHER_OCTAVE if one.octaves != two.octaves else _OTHER_NOTES * (one.notes != two.notes)

    def _compared(self, line: Line, row: Instrument, other_line: Line, other: Instrument) -> float:
        """What it costs that two compared parts are not on like instruments, or on too few of one kind."""
        if (row.family == "voice", row.pitched) != (other.family == "voice", other.pitched):
            return _UNLIKE
        if not row.pitched:
            return 0.0 if row.id != other.id else _SAME  # taps are told apart by their sound
        if row.id == other.id:
            players = line.players + other_line.players
            enough = row.bodily or self.places[row.id] >= _ENOUGH_FOR_TWO * players
            return 0.0 if enough else 2.0 * _OCTAVE
        if row.family == other.family and row.family != "bars":
            return 0.0 if row.register == other.register else _OCTAVE
        return _OCTAVE if _sisters(row, other) else _OTHER_TIMBRE


def _alike_findings(piece: Piece, lines: Sequence[Line], found: dict[str, Instrument]) -> list[Finding]:
    findings = []
    for parts in (*comparisons(piece.scene), under_one_rule(piece.scene)):
        sides: dict[Instrument, list[Line]] = {}
        for line in lines:
            if line.plan.name in parts:
                sides.setdefault(found[line.name], []).append(line)
        for row, own in sides.items():
            if len({line.desk for line in own}) > 1 and len({line.plan.name for line in own}) > 1:
                names = tuple(line.name for line in own)  # as it is meant to be: told once, and where to sit
                message = fact("cupboard-compared", parts=names, instruments=row.plural)
                findings.append(_instruments(own[0], message, fact("cupboard-seat-compared")))
    for i, line in enumerate(lines):
        for other in lines[:i]:
            a, b = found[other.name], found[line.name]
            meant = a.id == b.id and line.plan.name in of_one_height(piece.scene, other.plan.name)
            if other.desk == line.desk or meant or not alike(a, b):
                continue
            message = fact(
                "cupboard-same" if a.id == b.id else "cupboard-alike",
                one=other.name,
                other=line.name,
                first=a.plural,
                second=b.plural,
            )
            findings.append(_instruments(line, message, fact("cupboard-seat-apart")))
    return findings


def _instruments(line: Line, message: Fact, fix: Fact) -> Finding:
    where = fact("play-where", what="instruments")
    return Finding(kind="playability", message=message, fix=fix, part=line.name, where=where, serious=False)


def swaps(piece: Piece, lines: Sequence[Line], found: dict[str, Instrument]) -> tuple[Swap, ...]:
    """What each part asked for first and does not get, with the reason."""
    result = []
    for line in lines:
        wanted, given = wanted_rows(piece, line), found[line.name]
        if not wanted or wanted[0] is given or line.voice:
            continue
        result.append(
            Swap(
                part=line.name,
                wanted=wanted[0].called,
                given=given.called,
                reason=_reason(piece, line, wanted[0], lines, found),
            )
        )
    return tuple(result)


def _reason(piece: Piece, line: Line, wanted: Instrument, lines: Sequence[Line], found: dict[str, Instrument]) -> Fact:
    have = piece.classroom.count(wanted.id)
    if not wanted.bodily and have == 0:
        return fact("cupboard-has-no", instrument=wanted.called)
    taken = next((o for o in lines if o.desk != line.desk and found[o.name].id == wanted.id), None)
    if taken is not None:
        return fact("cupboard-taken", group=taken.group, instruments=wanted.plural)
    if piece.gentle and wanted.loud >= 3:
        return fact("cupboard-too-loud")
    if line.plan.texture not in wanted.textures:
        return fact("cupboard-unsuited", instruments=wanted.plural, texture=line.plan.texture)
    if piece.curve("brightness", line.plan.name, own=True) is not None and not brightens(wanted):
        return fact("cupboard-one-sound", instruments=wanted.plural)
    if needs_pitch(piece, line) and not wanted.pitched:
        return fact("cupboard-no-notes", instruments=wanted.plural)
    if not wanted.bodily and have * wanted.players < line.players:
        return fact("cupboard-too-few", have=have, needed=line.players)
    return fact("cupboard-like-another", instruments=wanted.plural)
