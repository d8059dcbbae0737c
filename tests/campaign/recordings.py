"""Recordings spoilt by the thousand, and whole ones in which there is no piece or hours of it: what comes of them."""

from __future__ import annotations

import json
import random
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

import numpy as np
import soundfile
from scipy.signal import resample_poly

from tests.campaign.listen import score_of
from tests.campaign.tally import Tally
from tests.listening.performances import manner_of, perform
from tests.listening.takes import RATE_HZ, coded, recorded, talk_and_chairs, wet_sound

#: What they are measured against. One may take so much of the processor's time, and the process that reads them so
#: much memory.
PIECE, LONGEST_S, MOST_MB = "the-stalk-on-the-sill", 120.0, 300.0


def spoilt(tally: Tally, count: int, seed: int) -> None:
    """Files that are cut, written over or made up."""
    rng = random.Random(seed)
    with tempfile.TemporaryDirectory() as place:
        sounds = _sounds(seed)
        for number in range(count):
            ending = rng.choice(list(sounds))
            (Path(place) / f"spoilt-{number:04}.{ending}").write_bytes(spoilt_file(sounds[ending], rng))
        _read(tally, Path(place), {})


def whole(tally: Tally, seed: int) -> None:
    """Whole ones: without the piece, with it but badly recorded, and two hours."""
    with tempfile.TemporaryDirectory() as place:
        _read(tally, Path(place), _special(Path(place), seed))


def _read(tally: Tally, folder: Path, kinds: dict[str, str]) -> None:
    count = len(list(folder.iterdir()))
    (folder / "score.json").write_text(score_of(PIECE, {}), encoding="utf-8")
    command = [sys.executable, "-m", "tests.campaign.reading", str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=7200)
    rows = [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]
    read = {row["file"]: row for row in rows if "file" in row}
    for name, row in read.items():
        kind = kinds.get(name) or f"spoilt {name.rpartition('.')[2]}"
        fault = row["fault"] or ("" if row["seconds"] < LONGEST_S else f"took {row['seconds']:.0f} s")
        if (row["told"] == "recognised") != ("with the piece" in kind):
            fault = fault or row["told"]
        tally.add(kind, fault and f"{name}: {fault}")
    died = "" if done.returncode == 0 and len(read) == count else f"died: {done.stderr[-400:]}"
    tally.add("the process that read them", died)
    used = next((row["memory_mib"] for row in rows if "memory_mib" in row), float("inf"))
    told = dict(Counter(row["told"] for row in read.values()))
    most = max(row["seconds"] for row in read.values())
    print(f"{used:.0f} MiB and {most:.0f} s for one at most; told: {told}", flush=True)
    tally.add(f"its memory, {MOST_MB:.0f} MiB", "" if used <= MOST_MB else f"{used:.0f} MiB")


def _special(folder: Path, seed: int) -> dict[str, str]:
    """Whole recordings, by what is in them; those that may be recognised say so."""
    rng = np.random.default_rng([seed, 1])
    score = json.loads(score_of(PIECE, {}))
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
