"""Every scene under conditions that its file allows and nobody tried: lengths, tempi, metres, classes, cupboards."""

from __future__ import annotations

import random
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from sonify import lesson
from sonify.errors import SonifyError
from sonify.kinds.lines import LINES
from sonify.kinds.needs import OF_ALL, OF_PUPILS
from sonify.lesson.sheet_files import sheets
from sonify.notation.midi import midi_bytes
from sonify.notation.musicxml import musicxml_bytes
from sonify.records.classroom import Classroom, Need, Stock
from sonify.records.lesson import Lesson
from sonify.records.scene import Metre, Scene
from sonify.records.score_invariants import faults
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.campaign.tally import Tally

LENGTHS_S = (30, 32, 35, 40, 45, 50, 60, 75, 90, 120, 150, 180, 210, 240, 300)
TEMPI_BPM = ((30, 30), (40, 40), (30, 60), (40, 80), (60, 60), (60, 120), (60, 132), (90, 90), (120, 120), (200, 240))
METRES = (2, 3, 4)
SCAFFOLDS = ("full", "part", "open")
CUPBOARDS = ("none", "one", "one tuned", "some", "odds and ends", "plenty")
TUNED = ("soprano-glockenspiel", "alto-xylophone")


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """What a teacher might ask for; `number` and the seed give it again."""

    number: int
    scene: str
    length_s: int
    tempo_bpm: tuple[int, int] | None  # None: as the scene has it
    beats: int | None
    classroom: Classroom
    scaffold: str

    def __str__(self) -> str:
        tempo = "-".join(map(str, self.tempo_bpm)) if self.tempo_bpm else "own"
        room = self.classroom
        stock = ",".join(f"{stock.count} {stock.instrument}" for stock in room.cupboard) or "nothing"
        return (
            f"#{self.number} {self.scene} {self.length_s} s, {tempo} bpm, {self.beats or 'own'} beats, "
            f"{room.pupils} in {room.groups}, {stock}, {self.scaffold}, {'; '.join(room.every_need) or 'no needs'}"
        )

    def applied(self, scene: Scene) -> Scene:
        music = replace(scene.music, length_s=float(self.length_s))
        if self.beats:
            music = replace(music, metre=Metre(beats=self.beats))
        if self.tempo_bpm:
            music = replace(music, slowest_bpm=float(self.tempo_bpm[0]), fastest_bpm=float(self.tempo_bpm[1]))
        return replace(scene, music=music)


def combinations(count: int, seed: int) -> Iterator[Combination]:
    """`count` combinations, the scenes in turn; each depends on the seed and its number alone."""
    scenes = lesson.scene_names()
    for number in range(count):
        lot = random.Random(f"{seed} {number}")
        yield Combination(
            number=number,
            scene=scenes[number % len(scenes)],
            length_s=lot.choice(LENGTHS_S),
            tempo_bpm=lot.choice((None, *TEMPI_BPM)),
            beats=lot.choice((None, *METRES)),
            classroom=_classroom(lot),
            scaffold=lot.choice(SCAFFOLDS),
        )


def _classroom(lot: random.Random) -> Classroom:
    pupils = lot.choice((1, 2, 3, 5, 8, 12, 20, 26, 28, 32, 45, 60))
    few = random.Random(pupils)
    some = tuple(Need(name=name, pupils=few.randint(1, min(3, pupils))) for name in OF_PUPILS if few.random() < 0.2)
    return Classroom(
        pupils_need=some,
        year=lot.randint(3, 6),
        pupils=pupils,
        groups=lot.randint(1, min(12, pupils)),
        needs=tuple(need for need in OF_ALL if lot.random() < 0.25),
        cupboard=_cupboard(lot),
        line=lot.choice(("", "", *LINES)),
    )


def _cupboard(lot: random.Random) -> tuple[Stock, ...]:
    names = [row.id for row in lesson.catalogue().instruments if not row.bodily]
    kind = lot.choice(CUPBOARDS)
    if kind == "none":
        return ()
    if kind == "one":
        return (Stock(instrument=lot.choice(names), count=1),)
    if kind == "one tuned":
        return (Stock(instrument=lot.choice(TUNED), count=lot.randint(1, 8)),)
    if kind == "odds and ends":
        return tuple(Stock(instrument=name, count=lot.choice((1, 1, 2, 3))) for name in lot.sample(names, 14))
    chosen = lot.sample(names, 5 if kind == "some" else len(names))
    return tuple(Stock(instrument=name, count=lot.randint(1, 8)) for name in chosen)


class Studies:
    """Combinations through to the Score, the science of each scene computed once."""

    def __init__(self) -> None:
        self.known: dict[str, tuple[Scene, Timeline]] = {}

    def study(self, combination: Combination) -> Lesson:
        if combination.scene not in self.known:
            scene = lesson.load(combination.scene)
            self.known[combination.scene] = scene, lesson.simulate(scene)
        scene, timeline = self.known[combination.scene]
        return lesson.study(
            combination.applied(scene),
            combination.classroom,
            seed=combination.number,
            scaffold=combination.scaffold,
            timeline=timeline,
        )


def studied_wrong(lesson_made: Lesson) -> list[str]:
    """What is wrong with a lesson that came through: broken invariants of its Score, parts that never sound, and what
    the program itself calls unplayable."""
    silent = [
        f"{part.name} has no note" for part in lesson_made.score.group_parts if not part.notes and not part.blanks
    ]
    hard = [
        f"{each.part}: {say(each.message)}"
        for each in lesson_made.findings
        if each.kind == "playability" and each.serious
    ]
    return [*faults(lesson_made.score), *silent, *hard]


def to_the_score(tally: Tally, count: int, seed: int) -> None:
    """`count` combinations through the Score."""
    studies = Studies()
    for combination in combinations(count, seed):
        _swept(tally, "combinations through the Score", combination, studies.study)


def to_the_sheets(tally: Tally, count: int, seed: int) -> None:
    """`count` combinations through MIDI, MusicXML and every PDF."""
    studies = Studies()
    # The next seed's, so that they are others than those that went to the Score alone.
    for combination in combinations(count, seed + 1):
        _swept(tally, "combinations through to the PDFs", combination, lambda it: _printed(studies.study(it)))


def _swept(tally: Tally, kind: str, combination: Combination, work: Callable[[Combination], Lesson]) -> None:
    try:
        made = work(combination)
    except SonifyError as error:
        # A refusal is an answer; it says which length would do, or what to change.
        tally.add(kind)
        tally.add(f"{kind}, refused", "" if "length" in str(error) else f"{combination}: {error}")
        return
    except Exception as error:
        where = traceback.extract_tb(error.__traceback__)[-1]
        tally.add(kind, f"{combination}: {error!r} in {where.filename.rpartition('/')[2]}:{where.lineno}")
        return
    tally.add(kind, "; ".join(f"{combination}: {fault}" for fault in studied_wrong(made)))


def _printed(made: Lesson) -> Lesson:
    midi = midi_bytes(made.score)
    music = musicxml_bytes(made.score)
    pages = dict(sheets(made, lambda: music, lesson.sheet_settings()))
    assert midi.startswith(b"MThd")
    assert len(pages) == 4 and all(data.startswith(b"%PDF-") for data in pages.values()), sorted(pages)
    return made
