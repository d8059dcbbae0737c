"""Classes simulated by the hundred, recorded badly, and what `sonify listen` tells of them; recordings spoilt by the
thousand. Prints the table that DEVELOPERS.md shows."""

from __future__ import annotations

import json
import random
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import soundfile
from scipy.signal import resample_poly

from sonify import lesson
from sonify.data.exports import score_json
from tests.campaign.tally import Tally
from tests.listening import judged as judging
from tests.listening.performances import Performance, manner_of, perform
from tests.listening.takes import (
    RATE_HZ,
    ROOMS,
    bar_levels_db,
    coded,
    has_fluidsynth,
    recorded,
    talk_and_chairs,
    wet_sound,
)

SCENES = (
    "harbour-water-cycle",
    "one-string",
    "beans-in-three-places",
    "the-cake-case",
    "two-cups",
    "playground-puddle",
    "muddy-water",
    "the-stalk-on-the-sill",
    "one-swing-one-bar",
    "stretch-test",
    "a-month-of-moon",
    "salt-in-the-jar",
)
KINDS = ("", "late", "swapped", "flat", "again", "skipped", "repeated", "twice")
NOISE_DB = (20, 10, 5, 0)
CODECS = ("wav", "m4a", "webm", "mp3")
#: The decks hold so many cards.
MOST = 240
#: Every so many-th performance is also measured against another scene's pack.
OTHERS = 2
#: What the spoilt files are measured against. One may take so much of the processor's time, and the process that reads
#: them so much memory.
PIECE, LONGEST_S, MOST_MB = "the-stalk-on-the-sill", 120.0, 300.0


def performances(tally: Tally, count: int, seed: int) -> None:
    rows = {noise: judging.Judged() for noise in NOISE_DB}
    plans: dict[str, str] = {}
    for number in range(count):
        one = simulated(number, seed, plans, tally)
        noise = setting(number, seed).noise_db
        rows[noise] += one
        tally.add(f"performances at {noise} dB")
        print(number, noise, dict(one.counts), one.faults, flush=True)
    print(table(rows))
    quiet, whole = rows[20] + rows[10], sum(rows.values(), judging.Judged())
    _asked(tally, "stages told at 10 dB and better", quiet.share("stages told", "stages") >= 0.9, quiet)
    _asked(tally, "tempi within 2 % at 10 dB", quiet.share("wrong stages told", "stages told") <= 0.01, quiet)
    _asked(tally, "boundaries", quiet.share("wrong boundaries told", "boundaries told") <= 0.01, quiet)
    _asked(tally, "order of entries", whole.share("wrong entry answers", "entry answers") <= 0.05, whole)
    _asked(tally, "wrong verdicts under 1 %", whole.share("wrong answers", "answers") < 0.01, whole)


def _asked(tally: Tally, what: str, good: bool, rows: judging.Judged) -> None:
    tally.add(what, "" if good else f"missed; {dict(rows.counts)}")


def table(rows: dict[int, judging.Judged]) -> str:
    lines = [
        "| talk and chairs | recordings | recognised | stages told | within 2 % | begin within half a bar | "
        "questions answered | wrong |",
        "| --- | --- | --- | --- | --- | --- | --- | --- |",
    ]
    for noise, row in rows.items():
        count = row.counts
        right = count["stages told"] - count["wrong stages told"]
        begun = count["boundaries told"] - count["wrong boundaries told"]
        lines.append(
            f"| {noise} dB | {count['recordings']} | {count['recordings'] - count['not recognised']} | "
            f"{count['stages told']} of {count['stages']} | {right} | {begun} | "
            f"{count['answers']} of {count['questions']} | {count['wrong answers']} |"
        )
    return "\n".join(lines)


@dataclass(frozen=True)
class Setting:
    """What one class plays and how it is recorded. font: FluidSynth's sounds, not the toolkit's."""

    scene: str
    kind: str
    room: str
    noise_db: int
    codec: str
    font: bool


def setting(number: int, seed: int) -> Setting:
    """Each drawn from a deck of its own, so that every scene, fault, room, noise and codec comes equally often and
    none goes with another."""
    decks = np.random.default_rng([seed, 1_000_000])

    def drawn(cards: Sequence[Any]) -> Any:
        return cards[int(decks.permutation(MOST)[number % MOST]) % len(cards)]

    return Setting(
        scene=drawn(SCENES),
        kind=drawn(KINDS),
        room=drawn(list(ROOMS)),
        noise_db=drawn(NOISE_DB),
        codec=drawn(CODECS),
        font=drawn((True, False, False)) and has_fluidsynth(),
    )


def played_and_recorded(number: int, seed: int, score: dict[str, Any]) -> tuple[Performance, dict[int, Any], bytes]:
    """The truth, every take's levels by bar, and the file that the phone has."""
    how, rng = setting(number, seed), np.random.default_rng([seed, number])
    played = perform(score, manner_of(score, rng, kind=how.kind), rng)
    wet = wet_sound(played, rng, room=how.room, font=how.font)
    samples = recorded(played, wet, rng, snr_db=how.noise_db)
    levels = {take: bar_levels_db(played, take, wet) for take in {bar.take for bar in played.bars}}
    return played, levels, coded(samples, how.codec)[0]


def simulated(number: int, seed: int, plans: dict[str, str], tally: Tally) -> judging.Judged:
    """One class, recorded, coded, and measured through the front door."""
    from sonify.lesson.class_recording import listen

    how = setting(number, seed)
    played, levels, content = played_and_recorded(number, seed, json.loads(_score(how.scene, plans)))
    with tempfile.TemporaryDirectory() as folder:
        pack, file = Path(folder), Path(folder) / f"class.{how.codec}"
        file.write_bytes(content)
        (pack / "score.json").write_text(_score(how.scene, plans), encoding="utf-8")
        found = judging.judged(played, listen(pack, file), levels)
        if number % OTHERS == 0:
            others = [name for name in SCENES if name != how.scene]
            other = others[number // OTHERS % len(others)]
            (pack / "score.json").write_text(_score(other, plans), encoding="utf-8")
            told = listen(pack, file)
            tally.add("another scene's pack", f"{number}: {how.scene} taken for {other}" if told.recognised else "")
    return found


def _score(scene: str, plans: dict[str, str]) -> str:
    if scene not in plans:
        plans[scene] = score_json(lesson.study(scene).score)
    return plans[scene]


# --- spoilt files -----------------------------------------------------------------------------------------------------


def spoilt(tally: Tally, count: int, seed: int) -> None:
    """Files that are cut, written over or made up, and whole ones in which there is no piece, or hours of it."""
    rng = random.Random(seed)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "score.json").write_text(_score(PIECE, {}), encoding="utf-8")
        sounds = _sounds(seed)
        for number in range(count):
            ending = rng.choice(list(sounds))
            (folder / f"spoilt-{number:04}.{ending}").write_bytes(spoilt_file(sounds[ending], rng))
        special = _special(folder, seed)
        command = [sys.executable, "-m", "tests.campaign.reading", place]
        done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=7200)
    rows = [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]
    read = {row["file"]: row for row in rows if "file" in row}
    for name, row in read.items():
        kind = special.get(name) or f"spoilt {name.rpartition('.')[2]}"
        fault = row["fault"] or ("" if row["seconds"] < LONGEST_S else f"took {row['seconds']:.0f} s")
        if row["told"] == "recognised" and "with the piece" not in kind:
            fault = fault or "recognised"
        tally.add(kind, fault and f"{name}: {fault}")
    died = "" if done.returncode == 0 and len(read) == count + len(special) else f"died: {done.stderr[-400:]}"
    tally.add("the process that read them", died)
    used = next((row["memory_mib"] for row in rows if "memory_mib" in row), float("inf"))
    print(f"{used:.0f} MiB at most; told: {dict(Counter(row['told'] for row in read.values()))}", flush=True)
    tally.add(f"its memory, {MOST_MB:.0f} MiB", "" if used <= MOST_MB else f"{used:.0f} MiB")


def _special(folder: Path, seed: int) -> dict[str, str]:
    """Whole recordings, by what is in them; those that may be recognised say so."""
    rng = np.random.default_rng([seed, 1])
    score = json.loads(_score(PIECE, {}))
    played = perform(score, manner_of(score, rng), rng)
    piece = recorded(played, wet_sound(played, rng), rng, snr_db=20.0)
    overdriven = np.clip(8.0 * piece, -1.0, 1.0)
    minute = 60 * RATE_HZ
    talk = 0.1 * talk_and_chairs(3 * minute, rng)
    rows: dict[str, tuple[np.ndarray, int]] = {
        "silence": (np.zeros(minute), RATE_HZ),
        "talk and chairs": (talk, RATE_HZ),
        "noise of one bit": (0.9 * np.sign(rng.normal(size=3 * minute)), RATE_HZ),
        "8 kHz with the piece": (resample_poly(piece, 160, 441), 8_000),
        "overdriven with the piece": (overdriven, RATE_HZ),
    }
    kinds = {}
    for number, (kind, (samples, rate_hz)) in enumerate(rows.items()):
        name = f"whole-{number}.wav"
        soundfile.write(folder / name, samples, rate_hz, subtype="PCM_16")
        kinds[name] = kind
    with soundfile.SoundFile(folder / "whole-long.flac", "w", RATE_HZ, 1) as file:  # a lesson and more, two hours
        written = 0
        while written < 7200 * RATE_HZ:
            file.write(talk)
            file.write(piece)
            written += talk.size + piece.size
    return {**kinds, "whole-long.flac": "two hours with the piece"}


def _sounds(seed: int) -> dict[str, bytes]:
    """Twenty-five seconds of strokes in every format."""
    rng = np.random.default_rng(seed)
    time_s = np.arange(25 * 22_050) / 22_050
    samples = 0.3 * np.sin(2 * np.pi * 660 * time_s) * np.exp(-6 * (time_s % 0.5)) + 0.01 * rng.normal(size=time_s.size)
    endings = ("wav", "flac", "ogg", "mp3", "m4a", "webm")
    return {ending: coded(samples.astype(np.float32), ending)[0] for ending in endings}


def spoilt_file(content: bytes, rng: random.Random) -> bytes:
    way = rng.randrange(6)
    data = bytearray(content)
    if way == 0:  # cut off
        return bytes(data[: rng.randrange(len(data))])
    if way == 1:  # the head written over
        for _ in range(rng.randrange(1, 20)):
            data[rng.randrange(min(len(data), 200))] = rng.randrange(256)
    elif way == 2:  # written over here and there
        for _ in range(rng.randrange(1, 400)):
            data[rng.randrange(len(data))] = rng.randrange(256)
    elif way == 3:  # a piece twice, a piece left out
        one, two = sorted(rng.randrange(len(data)) for _ in range(2))
        data = data[:two] + data[one:] if rng.random() < 0.5 else data[:one] + data[two:]
    elif way == 4:  # sizes that lie
        at = rng.randrange(4, min(len(data) - 4, 120))
        data[at : at + 4] = rng.choice([b"\xff\xff\xff\xff", b"\x00\x00\x00\x00", b"\xff\xff\xff\x7f"])
    else:  # noise under a good head
        head = rng.randrange(12, 200)
        data[head:] = rng.randbytes(len(data) - head)
    return bytes(data)
