"""What everything costs, in one table: a pack, a recording, a scene, a slider, a word, and what grows with what.

    python -m pytest tests/benchmarks/test_costs.py -s

The yardstick is FluidSynth with TimGM6mb playing the pack's own MIDI to a file, turn about with ours in one run (see
`sound_speed` for how to get it); small things are held against `import numpy` in a new process. Seconds are printed
with the machine they were taken on; ratios are asserted, with a margin above what they are. Where it does other work,
wall time says little: the ratio of processor time stands beside it. Processes are cold, and their modules compiled
already, as pip leaves them: Python's byte code is kept beside the test, whatever the environment says of it.
"""

from __future__ import annotations

import atexit
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from tests.benchmarks.sound_speed import SOUND_FONTS
from tests.benchmarks.test_web import asked
from tests.web.running import HARBOUR, Running, server, until
from tests.web.test_plan import moved

ROOT = Path(__file__).resolve().parents[2]
SCENE = "harbour-water-cycle"
TURNS = 3
#: What costs are held against.
MINUTES, GROUPS, ROWS = (2, 4, 8, 16), (3, 5, 8), (2_000, 8_000, 32_000)
LENGTH, IN_GROUPS = 'length  = "3 min"', "groups  = 5\n"
#: What a slider is moved in: a model in steps, a formula, a table, one without a formula.
SLID = (SCENE, "two-cups", "one-string", "a-year-of-sunlight", "bouncing-balls")

PACK = (
    "import sys; from sonify import lesson; lesson.make(sys.argv[1], out=sys.argv[2], wishes=lesson.Wishes(stems={}))"
)
READ = "from sonify import lesson; lesson.load('harbour-water-cycle')"
WAV = "import sys, sonify; sonify.write_wav(sonify.compose(sys.argv[1]), sys.argv[2])"
STUDY = (
    "import sys, time; from sonify import lesson; lesson.study('two-cups'); scene = lesson.load(sys.argv[1]);"
    " room = lesson.load_class(sys.argv[2] if len(sys.argv) > 2 else None); begun = time.process_time();"
    " lesson.study(scene, room); print(time.process_time() - begun)"
)
TABLE = (
    "import sys, time; from sonify import lesson; from sonify.inputs import logger; begun = time.process_time();"
    " lesson.load_table(sys.argv[1]); print(time.process_time() - begun)"
)


@dataclass(frozen=True)
class Cost:
    """wall_s, cpu_s: of a process and all that it began. mib: the most that the largest of them held."""

    wall_s: float
    cpu_s: float
    mib: float = 0.0
    told: str = ""


def machine() -> str:
    """What it was measured on."""
    name = platform.processor() or platform.machine()
    with suppress(OSError):
        lines = Path("/proc/cpuinfo").read_text().splitlines()
        name = next((line.partition(":")[2].strip() for line in lines if line.startswith("model name")), name)
    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else float("nan")
    return f"{name}, {os.cpu_count()} cores, load {load:.1f}, Python {platform.python_version()}"


def family(process: int) -> list[int]:
    """A process and all that came of it and is still there."""
    found = [process]
    with suppress(OSError):
        for task in os.listdir(f"/proc/{process}/task"):
            for child in Path(f"/proc/{process}/task/{task}/children").read_text().split():
                found += family(int(child))
    return found


def until_idle(process: int) -> None:
    """Wait until a process and all that came of it have worked less than a tenth of the last second."""
    before = None
    for _ in range(120):
        ticks = 0
        for one in family(process):
            with suppress(OSError):
                ticks += sum(map(int, Path(f"/proc/{one}/stat").read_text().rpartition(")")[2].split()[11:13]))
        if before is not None and ticks - before < os.sysconf("SC_CLK_TCK") / 10:
            return
        before = ticks
        time.sleep(1.0)


def largest_mib(process: int) -> float:
    most = 0.0
    for one in family(process):
        with suppress(OSError, StopIteration):
            lines = Path(f"/proc/{one}/status").read_text().splitlines()
            most = max(most, int(next(line for line in lines if line.startswith("VmHWM:")).split()[1]) / 1024)
    return most


@cache
def installed() -> dict[str, str]:
    """An environment in which modules are compiled once, as they are where the toolkit is installed."""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    folder = tempfile.TemporaryDirectory()
    atexit.register(folder.cleanup)
    return {**env, "PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": folder.name}


def cost(*command: str) -> Cost:
    """One run of a command, cold."""
    env = installed()
    before, begun, mib = os.times(), time.perf_counter(), 0.0
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=env) as run:
        while run.poll() is None:
            mib = max(mib, largest_mib(run.pid))
            time.sleep(0.02)
        told = run.communicate()[0]
    assert run.returncode == 0, command
    wall_s, after = time.perf_counter() - begun, os.times()
    used = after.children_user + after.children_system - before.children_user - before.children_system
    return Cost(wall_s=wall_s, cpu_s=used, mib=mib, told=told)


def best(runs: Sequence[Cost]) -> Cost:
    """The least wall and processor time of several runs, and the most memory."""
    return Cost(min(r.wall_s for r in runs), min(r.cpu_s for r in runs), max(r.mib for r in runs))


def python(code: str, *args: str) -> Cost:
    return cost(sys.executable, "-c", code, *args)


def slope(sizes: Sequence[float], seconds: Sequence[float]) -> float:
    """By which power of the size the cost grows, at most: 1 is linear, less where a fixed part weighs."""
    return float(np.polyfit(np.log(sizes), np.log(seconds), 1)[0])


def row(what: str, ours: Cost, theirs: Cost, most: float, *, by_cpu: bool = False) -> None:
    """A line of the table, and the assertion. by_cpu: of the processor, against the yardstick's wall time."""
    wall, cpu = ours.wall_s / theirs.wall_s, ours.cpu_s / theirs.cpu_s
    print(
        f"{what:48} wall {ours.wall_s:6.2f} s, {wall:5.2f} of it; processor {ours.cpu_s:6.2f} s, {cpu:5.2f} of it;"
        f" {ours.mib:4.0f} MiB; at most {most}"
    )
    assert (cpu if by_cpu else wall) <= most, what


def yardstick(midi: Path, folder: Path) -> Cost:
    font = next((f for f in SOUND_FONTS if Path(f).exists()), None)
    if font is None:
        pytest.skip("FluidSynth and TimGM6mb.sf2 are not here: apt-get install fluidsynth timgm6mb-soundfont")
    return cost("fluidsynth", "-ni", "-F", str(folder / "fluid.wav"), "-r", "44100", font, str(midi))


def turn_about(ours: Callable[[int], Cost], theirs: Callable[[int], Cost]) -> tuple[Cost, Cost]:
    pairs = [(ours(turn), theirs(turn)) for turn in range(TURNS)]
    return best([one for one, _ in pairs]), best([other for _, other in pairs])


#: What is asserted: aims of the plan are in the comments; the margin covers a machine that does other work.
MOST_PACK, MOST_PACK_WITHOUT, MOST_WAV = 4.0, 3.2, 1.25  # aims 1.6, 1.15, 0.8 of its wall time; quiet 3.4, 2.6, 1.0
MOST_PACK_CPU, MOST_MIB = 7.0, 310  # quiet 5.9 (aim 2.6 of its wall time) and 271 MiB (aim 280)
MOST_LONG_MIB = 400  # the aim; 365 of the engraver’s process
MOST_READ, MOST_SLIDER = 4.0, 2.2  # aims 2 and 1 of `import numpy`
MOST_WORD = 1.3  # aim 0.5 of the yardstick's wall time
MOST_SLOPE = 1.25


def test_a_pack_and_a_recording_against_the_yardstick(tmp_path: Path) -> None:
    print(f"\n{machine()}")
    python(PACK.format(False), SCENE, str(tmp_path / "first"))
    midi = tmp_path / "first" / "soundscape.mid"

    def beside(code: str, name: str) -> tuple[Cost, Cost]:
        return turn_about(
            lambda turn: python(code, SCENE, str(tmp_path / f"{name}-{turn}")), lambda turn: yardstick(midi, tmp_path)
        )

    stems, fluid = beside(PACK.format(True), "stems.wav")
    row("pack with stems", stems, fluid, MOST_PACK)
    print(f"{'processor time of it against the yardstick’s wall':48} {stems.cpu_s / fluid.wall_s:.2f}")
    row("  the same, processor against processor", stems, fluid, MOST_PACK_CPU, by_cpu=True)
    row("pack without stems", *beside(PACK.format(False), "plain.wav"), MOST_PACK_WITHOUT)
    row("scene file to WAV", *beside(WAV, "piece.wav"), MOST_WAV)
    assert stems.mib < MOST_MIB


def test_reading_a_scene_against_numpy() -> None:
    print(f"\n{machine()}")
    row("reading a scene", *turn_about(lambda turn: python(READ), lambda turn: python("import numpy")), MOST_READ)


def test_a_slider_and_a_changed_word_in_a_warm_server(tmp_path: Path) -> None:
    print(f"\n{machine()}")
    numpy = best([python("import numpy") for _ in range(TURNS)])
    with server(tmp_path / "scratch") as running, running.client() as client:
        until_idle(running.process.pid)  # it draws its scenes first
        found = []
        for name in SLID:
            scene = {"scene": {"name": name}}
            _, plan = asked(client, scene)
            times = [
                asked(client, {**scene, "set": {one["name"]: moved(one)}})[0] for one in plan["conditions"][:3]
            ] or [asked(client, scene)[0]]
            found.append(statistics.median(times))
            print(f"    {name:24} {1000 * found[-1]:5.0f} ms")
        middle = statistics.median(found)
        ratio = middle / numpy.wall_s
        print(f"{'a slider, median over scenes':48} {middle:.2f} s, {ratio:.2f} of import numpy; at most {MOST_SLIDER}")
        assert ratio <= MOST_SLIDER
        text = client.post("/api/plan", json=HARBOUR).json()["scene_toml"]
        made(running, text)
        midi = tmp_path / "word.mid"
        seconds = []
        for turn in range(TURNS):
            word = text.replace("harbour", f"harbour{'r' * (turn + 1)}", 1)  # another word each time
            seconds.append(made(running, word, midi))
        fluid = best([yardstick(midi, tmp_path) for _ in range(TURNS)])
    ratio = min(seconds) / fluid.wall_s
    print(f"{'pack after one changed word, without stems':48} {min(seconds):.2f} s, {ratio:.2f}; at most {MOST_WORD}")
    assert ratio <= MOST_WORD


def made(running: Running, text: str, midi: Path | None = None) -> float:
    """Seconds until a pack of a scene's text is ready; its MIDI file is kept."""
    with running.client() as client:
        begun = time.perf_counter()
        asked_for = {"inputs": {"scene": {"text": text}}, "options": {"stems": False}}
        answer = client.post("/api/pack", json=asked_for)
        assert answer.status_code == 202, answer.text
        job = answer.json()["job"]
        until(lambda: client.get(f"/api/pack/{job}").json()["state"] in ("ready", "failed"), 600)
        seconds = time.perf_counter() - begun
        told = client.get(f"/api/pack/{job}").json()
        assert told["state"] == "ready", told["error"]
        if midi is not None:
            number = next(file["n"] for file in told["files"] if file["name"] == "soundscape.mid")
            midi.write_bytes(client.get(f"/api/pack/{job}/file/{number}").content)
        return seconds


def test_what_half_an_hour_holds(tmp_path: Path) -> None:
    """A piece of 30 minutes without stems: the most that one of its processes holds."""
    print(f"\n{machine()}")
    scene = (ROOT / "scenes" / f"{SCENE}.toml").read_text(encoding="utf-8")
    file = tmp_path / "half-an-hour.toml"
    file.write_text(scene.replace(LENGTH, 'length  = "30 min"'), encoding="utf-8")
    long = python(PACK.format(False), str(file), str(tmp_path / "pack"))
    print(f"{'a piece of 30 minutes, without stems':48} {long.cpu_s:.1f} s of the processor, {long.mib:.0f} MiB")
    assert long.mib <= MOST_LONG_MIB


def test_cost_grows_no_faster_than_length_groups_and_rows(tmp_path: Path) -> None:
    """Slopes of processor time on logarithmic axes: linear is 1, less where a fixed part weighs."""
    print(f"\n{machine()}")
    scene = (ROOT / "scenes" / f"{SCENE}.toml").read_text(encoding="utf-8")
    room = (ROOT / "examples" / "well-stocked.toml").read_text(encoding="utf-8")
    assert LENGTH in scene and IN_GROUPS in room

    def least(code: str, **texts: str) -> float:
        files = [tmp_path / name.replace("_", ".") for name in texts]
        for file, text in zip(files, texts.values(), strict=True):
            file.write_text(text, encoding="utf-8")
        return min(float(python(code, *map(str, files)).told) for _ in range(TURNS))

    def lasting(minutes: int) -> float:
        return least(STUDY, scene_toml=scene.replace(LENGTH, f'length  = "{minutes} min"'))

    def in_groups(groups: int) -> float:
        return least(STUDY, scene_toml=scene, room_toml=room.replace(IN_GROUPS, f"groups  = {groups}\n"))

    def of_rows(rows: int) -> float:
        lines = (f"{number},{15.0 + number % 97 / 10:.1f}\n" for number in range(rows))
        return least(TABLE, readings_csv="time (s),temperature (degC)\n" + "".join(lines))

    def sounding(minutes: int) -> float:
        file = tmp_path / "scene.toml"
        file.write_text(scene.replace(LENGTH, f'length  = "{minutes} min"'), encoding="utf-8")
        return python(WAV, str(file), str(tmp_path / "piece.wav")).cpu_s

    tries: dict[str, tuple[Sequence[int], Callable[[int], float]]] = {
        "a study against minutes": (MINUTES, lasting),
        "a recording against minutes": (MINUTES[:3], sounding),
        "a study against groups": (GROUPS, in_groups),
        "reading a table against rows": (ROWS, of_rows),
    }
    for what, (sizes, measured) in tries.items():
        seconds = [measured(size) for size in sizes]
        found = slope(sizes, seconds)
        told = ", ".join(f"{size}: {s:.2f} s" for size, s in zip(sizes, seconds, strict=True))
        print(f"{what:48} slope {found:.2f} ({told}); at most {MOST_SLOPE}")
        assert found <= MOST_SLOPE, what
