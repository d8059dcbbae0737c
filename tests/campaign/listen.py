"""Classes simulated by the hundred, recorded badly, and what `sonify listen` tells of them; recordings spoilt by the
thousand. Prints the table that DEVELOPERS.md shows."""

from __future__ import annotations

import json
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import numpy as np

from sonify import lesson
from sonify.data.exports import score_json
from tests.campaign.tally import Tally
from tests.listening import judged as judging
from tests.listening.performances import manner_of, perform
from tests.listening.takes import ROOMS, bar_levels_db, coded, has_fluidsynth, recorded, wet_sound

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
#: Every so many-th performance is also measured against another scene's pack.
OTHERS = 2
#: A spoilt file may take so long on a busy machine, and the process may grow by so much over all of them.
LONGEST_S, MOST_MB = 60.0, 300.0


def performances(tally: Tally, count: int, seed: int) -> None:
    rows = {noise: judging.Judged() for noise in NOISE_DB}
    plans: dict[str, str] = {}
    for number in range(count):
        one = simulated(number, seed, plans, tally)
        noise = NOISE_DB[number // 2 % 4]
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


def simulated(number: int, seed: int, plans: dict[str, str], tally: Tally) -> judging.Judged:
    """One class, recorded, coded, and measured through the front door."""
    from sonify.lesson.class_recording import listen

    rng = np.random.default_rng([seed, number])
    scene = SCENES[number % len(SCENES)]
    score = json.loads(_score(scene, plans))
    played = perform(score, manner_of(score, rng, kind=KINDS[number * 5 % 8]), rng)
    font = number % 3 == 1 and has_fluidsynth()
    wet = wet_sound(played, rng, room=list(ROOMS)[number // 3 % 3], font=font)
    samples = recorded(played, wet, rng, snr_db=NOISE_DB[number // 2 % 4])
    content, ending = coded(samples, CODECS[number // 5 % 4])
    levels = {take: bar_levels_db(played, take, wet) for take in {bar.take for bar in played.bars}}
    with tempfile.TemporaryDirectory() as folder:
        pack = Path(folder)
        (pack / f"class.{ending}").write_bytes(content)
        (pack / "score.json").write_text(_score(scene, plans), encoding="utf-8")
        found = judging.judged(played, listen(pack, pack / f"class.{ending}"), levels)
        if number % OTHERS == 0:
            other = SCENES[(number + 1 + number // len(SCENES)) % len(SCENES)]
            (pack / "score.json").write_text(_score(other, plans), encoding="utf-8")
            told = listen(pack, pack / f"class.{ending}")
            tally.add("another scene's pack", f"{number}: {scene} taken for {other}" if told.recognised else "")
    return found


def _score(scene: str, plans: dict[str, str]) -> str:
    if scene not in plans:
        plans[scene] = score_json(lesson.study(scene).score)
    return plans[scene]


# --- spoilt files -----------------------------------------------------------------------------------------------------


def spoilt(tally: Tally, count: int, seed: int) -> None:
    """In a process of its own: what is looked for is a process that dies, grows or hangs."""
    command = [sys.executable, "-m", "tests.campaign.listen", str(count), str(seed)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=7200)
    rows = [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]
    for row in rows:
        tally.add(f"spoilt {row['kind']}", row["fault"])
    tally.add("the process that read them", "" if done.returncode == 0 else f"died: {done.stderr[-400:]}")
    if len(rows) != count + 1:
        tally.wrong("the process that read them", f"{count} were to be read, and {len(rows) - 1} answered")


def read_all(count: int, seed: int) -> None:
    from sonify.errors import SonifyError
    from sonify.lesson.class_recording import listen

    rng = random.Random(seed)
    sounds = _sounds(seed)
    with tempfile.TemporaryDirectory() as folder:
        pack = Path(folder)
        (pack / "score.json").write_text(_score(SCENES[7], {}), encoding="utf-8")
        for number in range(count):
            ending = rng.choice(list(sounds))
            file = pack / f"spoilt.{ending}"
            file.write_bytes(spoilt_file(sounds[ending], rng))
            begun, fault = time.monotonic(), ""
            try:
                if listen(pack, file).recognised:
                    fault = f"{number}: recognised"
            except SonifyError as error:
                fault = "" if str(error).count("\n") == 0 else f"{number}: more than a line"
            except Exception as error:
                fault = f"{number}: {type(error).__name__}: {error}"
            if time.monotonic() - begun > LONGEST_S:
                fault = f"{number}: took {time.monotonic() - begun:.0f} s"
            print(json.dumps({"kind": ending, "fault": fault}), flush=True)
    import resource

    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps({"kind": "memory", "fault": f"{used:.0f} MiB" if used > MOST_MB else ""}), flush=True)


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


def main(arguments: list[str]) -> Any:
    read_all(int(arguments[0]), int(arguments[1]))


if __name__ == "__main__":
    main(sys.argv[1:])
