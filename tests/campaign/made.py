"""What pupils make, put into every ready-made scene: any pattern, a sound of their own, there or not, for any class.

Held: the Score keeps its invariants, the class can play it but for what is told, no sentence of it is false, and every
sentence can be said.
"""

from __future__ import annotations

import io
import random
from dataclasses import replace

import numpy as np
import soundfile

from sonify import lesson
from sonify.data.own_patterns import pattern_facts
from sonify.errors import SonifyError
from sonify.inputs.pattern_edits import with_own_patterns
from sonify.inputs.scene_file import read_scene
from sonify.inputs.sound_edits import with_own_sounds
from sonify.records.fact import Fact
from sonify.records.lesson import Lesson
from sonify.records.own_pattern import BOXES_A_BEAT, HELD, SILENT, SOUND, spaced
from sonify.records.scene import Scene
from sonify.records.score import SCAFFOLDS
from sonify.records.score_invariants import faults
from sonify.records.words import note_name
from sonify.say import say
from sonify.storage import shelf
from sonify.study.own_sounds import with_own_sounds as heard
from tests.campaign.tally import Tally
from tests.studies import EXAMPLES

KIND = "scenes with patterns and sounds of pupils' own"


def campaign(tally: Tally, count: int, seed: int) -> None:
    rng = random.Random(seed)
    names = lesson.scene_names()
    rng.shuffle(names)
    for number in range(count):
        name = names[number % len(names)]
        tally.add(KIND, "; ".join(_faults(name, rng))[:400])


def _faults(name: str, rng: random.Random) -> list[str]:
    scene, scaffold = _scene(name, rng), rng.choice(["full", *SCAFFOLDS])
    classroom = rng.choice([None, *sorted(EXAMPLES.glob("*.toml"))])
    try:
        study = lesson.study(scene, classroom, scaffold=scaffold)
        pattern_facts(study)
        return [f"{name}, {scaffold}: {each}" for each in (*faults(study.score), *_told_wrongly(study))]
    except SonifyError as error:
        return [f"{name}: refused: {error}"]
    except Exception as error:
        return [f"{name}: {type(error).__name__}: {error}"]


def _told_wrongly(study: Lesson) -> list[str]:
    found = []
    for finding in study.findings:
        message = finding.message.message if isinstance(finding.message, Fact) else ""
        say(finding.fix)
        if message == "truth-not-said" and study.scaffold == "full":
            found.append(say(finding.message))
        if finding.kind == "playability" and finding.serious and not message.startswith("play-own-"):
            found.append(say(finding.message))
    for part in study.score.group_parts:
        for words in part.instructions:
            say(words)
    return found


def _scene(name: str, rng: random.Random) -> Scene:
    base = lesson.load(name)
    text = shelf.scene_path(name).read_text(encoding="utf-8")
    parts = [part.name for part in base.parts]
    chosen = rng.sample(parts, rng.randint(1, len(parts)))
    text = with_own_patterns(text, {part: _pattern(base, rng) for part in chosen}, file=name)
    if rng.random() < 0.5:
        row = {"name": "our crisp packets", "file": "crisps.wav"}
        text = with_own_sounds(text, {rng.choice(parts): row}, file=name)
    scene = read_scene(text, file=f"{name}.toml", name=name)
    scene = replace(scene, table=base.table, experiment=base.experiment)
    sound = _sound(rng) if rng.random() < 0.7 else None
    return heard(scene, lambda file: sound, lesson.catalogue()) if scene.sounds else scene


def _pattern(scene: Scene, rng: random.Random) -> dict[str, object]:
    beats, each = scene.music.metre.beats, rng.choice(BOXES_A_BEAT)
    bars = [_bar(beats * each, rng) for _ in range(rng.randint(1, 4))]
    if SOUND not in "".join(bars):
        bars[0] = SOUND + bars[0][1:]
    row: dict[str, object] = {"boxes": [spaced(bar, beats) for bar in bars], "name": rng.choice(["", "Group 2's own"])}
    if rng.random() < 0.5:
        low, tones = rng.choice([36, 48, 60, 72, 84]), scene.music.scale.pitch_classes
        notes = [note_name(note) for note in range(low, low + 16) if note % 12 in tones]
        row["notes"] = [rng.choice(notes) for _ in range("".join(bars).count(SOUND))]
    return row


def _bar(boxes: int, rng: random.Random) -> str:
    row = ""
    for _ in range(boxes):
        row += rng.choice([SOUND, SILENT, SILENT] if not row or row[-1] == SILENT else [SOUND, SOUND, SILENT, HELD])
    return row


def _sound(rng: random.Random) -> bytes:
    out = io.BytesIO()
    length = rng.choice([900, 9_000, 430_000])
    noise = np.random.default_rng(rng.randrange(1000)).uniform(-0.5, 0.5, length)
    soundfile.write(out, noise * np.linspace(1.0, 0.1, length), 44_100, format="WAV")
    return out.getvalue()
