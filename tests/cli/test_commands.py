"""The command line as a person meets it: each command in a process of its own.

Where the system can, that process is a copy of one in which all is imported already (`copies.py`). Those that are given
an environment start as a person would start them.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.copies import in_a_copy

ROOT = Path(__file__).resolve().parent.parent.parent
SCENE = (ROOT / "scenes" / "harbour-water-cycle.toml").read_text(encoding="utf-8")
CLASS = (ROOT / "examples" / "well-stocked.toml").read_text(encoding="utf-8")


def sonify(*args: str, cwd: Path, env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    if env is None and hasattr(os, "fork"):
        return in_a_copy(args, cwd)
    return _started(args, cwd, env or {})


def _started(args: tuple[str, ...], cwd: Path, env: dict[str, str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "sonify", *args],
        cwd=cwd,
        env={**os.environ, "COLUMNS": "120", **env},
        capture_output=True,
        encoding="utf-8",
        timeout=240,
        check=False,
    )


def refused(result: subprocess.CompletedProcess[str]) -> str:
    """The one message of a user's mistake: exit status 2, nothing on standard output, no traceback."""
    assert result.returncode == 2, result.stderr
    assert result.stdout == ""
    assert "Traceback" not in result.stderr
    return result.stderr


def test_scenes_lists_each_scene_on_one_line_its_name_first(tmp_path: Path) -> None:
    lines = _started(("scenes",), tmp_path, {}).stdout.splitlines()
    names = [row["name"] for row in json.loads(sonify("scenes", "--json", cwd=tmp_path).stdout)]
    assert [line.split()[0] for line in lines] == names
    assert "harbour-water-cycle" in names


def test_show_speaks_to_people_and_to_machines(tmp_path: Path) -> None:
    shown = sonify("show", "harbour-water-cycle", "--all", cwd=tmp_path)
    assert shown.returncode == 0
    assert "mean molecule speed" in shown.stdout and "water on its journey" in shown.stdout
    facts = json.loads(sonify("show", "harbour-water-cycle", "--json", cwd=tmp_path).stdout)
    assert facts.keys() >= {"quantities", "stages", "rules", "conserved"}
    assert facts["conserved"][0]["relative_drift"] < 1e-9


def test_show_says_what_a_condition_set_for_one_run_changes(tmp_path: Path) -> None:
    warm = ("harbour-water-cycle", "--set", 'sea_temperature="19 degC"')
    shown = sonify("show", *warm, cwd=tmp_path).stdout
    assert "With sea_temperature = 19 degC (the scene file has 14 degC)" in shown
    changed = json.loads(sonify("show", *warm, "--json", cwd=tmp_path).stdout)["changed"]
    assert changed["set"] == [{"condition": "sea_temperature", "before": "14 degC", "after": "19 degC"}]
    total = next(row for row in changed["figures"] if (row["quantity"], row["what"]) == ("evaporation rate", "total"))
    assert total["unit"] == "mm" and total["after"] > 1.2 * total["before"] > 1.0
    plain = json.loads(sonify("show", "harbour-water-cycle", "--json", cwd=tmp_path).stdout)
    assert "changed" not in plain


@pytest.mark.parametrize("command", ["show", "check", "make", "play"])
def test_every_command_with_a_scene_refuses_what_cannot_be_set(tmp_path: Path, command: str) -> None:
    told = refused(sonify(command, "harbour-water-cycle", "--set", "sea_temprature=19 degC", cwd=tmp_path))
    assert '--set sea_temprature="19 degC"' in told and 'did you mean "sea_temperature"' in told
    told = refused(sonify(command, "harbour-water-cycle", "--set", "humidity=120 %", cwd=tmp_path))
    assert '--set humidity="120 %"' in told and "5 % to 100 %" in told
    assert "NAME=" in refused(sonify(command, "harbour-water-cycle", "--set", "humidity", cwd=tmp_path))
    assert list(tmp_path.iterdir()) == []


def test_check_lists_no_problem_for_the_shipped_scene(tmp_path: Path) -> None:
    told = json.loads(sonify("check", "harbour-water-cycle", "--json", cwd=tmp_path).stdout)
    assert told["problems"] == []
    assert any(note["kind"] == "loudness" and "−18.0 LUFS" in note["message"] for note in told["notes"])


def test_new_takes_any_process_and_names_what_would_serve(tmp_path: Path) -> None:
    assert 'such as "chocolate-melting"' in refused(sonify("new", "Chocolate melting", cwd=tmp_path))
    unknown = refused(sonify("new", "pond", "--process", "meltin", cwd=tmp_path))
    assert 'did you mean "melting"?' in unknown and "water-cycle" in unknown
    (tmp_path / "pond.csv").write_text("mine", encoding="utf-8")
    assert "nothing was written" in refused(sonify("new", "pond", "--process", "measured", cwd=tmp_path))
    assert [path.name for path in tmp_path.iterdir()] == ["pond.csv"]
    done = sonify("new", "lake", "--process", "measured", cwd=tmp_path)
    assert "lake.csv, the invented readings" in done.stdout
    assert (tmp_path / "lake.toml").is_file() and (tmp_path / "lake.csv").is_file()


def test_new_writes_a_scene_that_checks_and_never_overwrites(tmp_path: Path) -> None:
    assert sonify("new", "our-rain", cwd=tmp_path).returncode == 0
    before = (tmp_path / "our-rain.toml").read_bytes()
    assert sonify("check", "our-rain.toml", cwd=tmp_path).returncode == 0
    assert "nothing was written" in refused(sonify("new", "our-rain", cwd=tmp_path))
    assert (tmp_path / "our-rain.toml").read_bytes() == before


@pytest.mark.parametrize("name", ["../up", "CON", "a b/c", ""])
def test_new_refuses_a_name_that_is_no_file_name_everywhere(tmp_path: Path, name: str) -> None:
    refused(sonify("new", name, cwd=tmp_path))
    assert list(tmp_path.iterdir()) == []


NO_PORTAUDIO = 'raise OSError("PortAudio library not found")\n'
NO_DEVICE = """
class PortAudioError(Exception): ...
def OutputStream(**options): raise PortAudioError("Error querying device -1")
"""


@pytest.mark.parametrize("module", [NO_PORTAUDIO, NO_DEVICE], ids=["no PortAudio", "no device"])
def test_play_without_a_way_to_sound_says_where_the_recording_is(tmp_path: Path, module: str) -> None:
    """A stand-in for the sounddevice module fails as the real one does, so that nothing sounds where tests run."""
    (tmp_path / "stand-in").mkdir()
    (tmp_path / "stand-in" / "sounddevice.py").write_text(module, encoding="utf-8")
    (tmp_path / "here").mkdir()
    played = sonify(
        "play", "harbour-water-cycle", cwd=tmp_path / "here", env={"PYTHONPATH": str(tmp_path / "stand-in")}
    )
    assert played.returncode == 0, played.stderr
    assert "harbour-water-cycle.wav" in played.stdout
    assert (tmp_path / "here" / "harbour-water-cycle.wav").stat().st_size > 1_000_000


BAD_SCENES = [
    ("a misspelt key", SCENE.replace("process =", "proces =", 1), r"line \d+.*proces.*process"),
    ("an unknown process", SCENE.replace('"water-cycle"', '"water-cycel"', 1), r'line \d+.*did you mean "water-cycle"'),
    ("a wrong unit", SCENE.replace('"14 degC"', '"14 kg"', 1), r"line \d+.*sea_temperature.*kg"),
    ("no unit", SCENE.replace('"14 degC"', '"14"', 1), r"line \d+.*sea_temperature"),
    ("out of range", SCENE.replace('"72 %"', '"120 %"', 1), r"line \d+.*humidity.*100"),
    (
        "an unknown quantity",
        SCENE.replace('"mean molecule speed"', '"mean molecul speed"', 1),
        r'line \d+.*did you mean "mean molecule speed"',
    ),
    ("an unknown control", SCENE.replace('"tempo"', '"temp"', 1), r'line \d+.*did you mean "tempo"'),
    ("an unknown instrument", SCENE.replace('"ocean drum"', '"ocaen drum"', 1), r'line \d+.*"ocean drum"'),
    ("not TOML", SCENE + "\n[unclosed", r"line \d+"),
    ("over 1 MB", SCENE + "#" * 1_000_000, r"1 MB|1,000,000|1 000 000"),
]


@pytest.mark.parametrize(("what", "text", "told"), BAD_SCENES, ids=[case[0] for case in BAD_SCENES])
def test_a_bad_scene_file_gets_one_message_and_nothing_is_written(
    tmp_path: Path, what: str, text: str, told: str
) -> None:
    import re

    (tmp_path / "bad.toml").write_text(text, encoding="utf-8")
    message = refused(sonify("make", "bad.toml", "--out", "pack", cwd=tmp_path))
    assert "bad.toml" in message
    assert re.search(told, message, flags=re.DOTALL), message
    assert [p.name for p in tmp_path.iterdir()] == ["bad.toml"]


@pytest.mark.parametrize(
    "data", [b"\x00\x01\x02binary", "title = 'caf\u00e9'".encode("latin-1")], ids=["binary", "latin"]
)
def test_a_file_that_is_no_utf8_text_is_refused(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "bad.toml").write_bytes(data)
    assert "bad.toml" in refused(sonify("show", "bad.toml", cwd=tmp_path))


BAD_CLASSES = [
    ("zero groups", CLASS.replace("groups  = 5", "groups  = 0"), "groups"),
    ("zero pupils", CLASS.replace("pupils  = 28", "pupils  = 0"), "pupils"),
    ("a negative count", CLASS + "\nclaves = -2\n", "claves"),
]


@pytest.mark.parametrize(("what", "text", "key"), BAD_CLASSES, ids=[case[0] for case in BAD_CLASSES])
def test_a_bad_class_file_gets_one_message(tmp_path: Path, what: str, text: str, key: str) -> None:
    assert text != CLASS
    (tmp_path / "class.toml").write_text(text, encoding="utf-8")
    message = refused(sonify("make", "harbour-water-cycle", "--class", "class.toml", cwd=tmp_path))
    assert "class.toml, line" in message and key in message
    assert [p.name for p in tmp_path.iterdir()] == ["class.toml"]


def test_an_unknown_scene_is_answered_with_the_nearest_name(tmp_path: Path) -> None:
    told = refused(_started(("make", "harbor-water-cycle"), tmp_path, {}))
    assert 'did you mean "harbour-water-cycle"' in told
    assert "no such scene file" in refused(sonify("make", "nowhere/scene.toml", cwd=tmp_path))
    assert list(tmp_path.iterdir()) == []


def test_an_unknown_scaffold_names_the_three(tmp_path: Path) -> None:
    told = sonify("make", "harbour-water-cycle", "--scaffold", "half", cwd=tmp_path)
    assert told.returncode == 2 and "full" in told.stderr and "open" in told.stderr


def test_measure_says_what_it_understood_and_never_overwrites(tmp_path: Path) -> None:
    data = (ROOT / "examples" / "windowsill-logger.csv").read_bytes()
    (tmp_path / "window sill.csv").write_bytes(data)
    done = sonify("measure", "window sill.csv", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "Windows-1252" in done.stdout and 'sonify make "window sill.toml"' in done.stdout
    assert "The file names no unit" in done.stdout
    before = (tmp_path / "window sill.toml").read_bytes()
    assert "nothing was written" in refused(sonify("measure", "window sill.csv", cwd=tmp_path))
    assert (tmp_path / "window sill.toml").read_bytes() == before
    shown = json.loads(sonify("show", "window sill.toml", "--json", cwd=tmp_path).stdout)
    assert {"name": "noise", "unit": "no unit"}.items() <= shown["quantities"][2].items()


def test_measure_refuses_what_holds_no_readings(tmp_path: Path) -> None:
    (tmp_path / "notes.csv").write_text("Dear class,\nplease bring a ruler\n", encoding="utf-8")
    assert "notes.csv: nothing was measured in this table" in refused(sonify("measure", "notes.csv", cwd=tmp_path))
    assert "there is no such data file" in refused(sonify("measure", "gone.csv", cwd=tmp_path))
    assert [path.name for path in tmp_path.iterdir()] == ["notes.csv"]


def test_measure_takes_what_she_says_of_her_table(tmp_path: Path) -> None:
    (tmp_path / "magnet.csv").write_text("Layers,Test 1,Test 2\n0,12,11\n2,9,10\n4,6,7\n8,3,3\n", encoding="utf-8")
    guessed = sonify("measure", "magnet.csv", cwd=tmp_path)
    assert "so it is called reading. If that is wrong: --measured NAME" in " ".join(guessed.stdout.split())
    assert "Delete magnet.toml" in guessed.stdout
    (tmp_path / "magnet.toml").unlink()
    assert "Allowed: Layers, Test 1, Test 2" in refused(
        sonify("measure", "magnet.csv", "--changed", "Day", cwd=tmp_path)
    )
    said = sonify("measure", "magnet.csv", "--measured", "paper clips", "--title", "Our magnet", cwd=tmp_path)
    assert "We measured: paper clips, from 3 to 11.5." in said.stdout and "--measured NAME" not in said.stdout
    text = (tmp_path / "magnet.toml").read_text(encoding="utf-8")
    assert 'title   = "Our magnet"' in text and 'measured = ["paper clips"]' in text
