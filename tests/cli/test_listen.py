"""`sonify listen` on a screen."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import Console
from typer.testing import CliRunner

from sonify.cli import listen_view, views
from sonify.cli.commands import app
from sonify.lesson import class_recording
from sonify.records.fact import fact
from sonify.records.listened import Listened
from tests.listening.test_sheet import found, stage

LINES, LETTERS = 24, 80


@pytest.fixture
def narrow(monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    def console(*, stderr: bool = False) -> Console:
        return Console(file=sys.stdout, width=LETTERS, highlight=False)

    monkeypatch.setattr(views, "_console", console)
    monkeypatch.setattr(listen_view, "_console", console)


def full() -> Listened:
    title = "The river brings the water back to the sea"
    asked = tuple(replace(found().questions[1], asked=f"Was {title} louder than {title}?") for _ in range(9))
    stages = tuple(replace(stage(letter, 1, 87.0, 93.0), title=title) for letter in "ABCDEF")
    wishes = (fact("recorded-well", right=3), fact("recorded-wish-steady", stage="A", bar=1))
    return replace(found(), stages=stages, questions=asked, feedback=wishes)


@pytest.mark.usefixtures("narrow")
def test_what_is_told_first_fits_a_screen_and_all_tells_the_rest(capsys: pytest.CaptureFixture[str]) -> None:
    listen_view.listened_view(full())
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) <= LINES and max(map(len, lines)) <= LETTERS
    assert any("--all" in line for line in lines) and any("policy" in line for line in lines)
    listen_view.listened_view(full(), everything=True)
    assert capsys.readouterr().out.count("6 dB louder") == 9


@pytest.mark.usefixtures("narrow")
def test_what_was_not_found_says_why_and_gives_no_figure(capsys: pytest.CaptureFixture[str]) -> None:
    listen_view.listened_view(Listened(recognised=False, seconds=9.0, why=fact("recorded-silent")))
    told = capsys.readouterr().out
    assert "There is no sound" in told and not any(letter.isdigit() for letter in told)


def test_json_has_the_fixed_keys_and_a_folder_that_is_there_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(class_recording, "listen", lambda *_: found())
    told = CliRunner().invoke(app, ["listen", str(tmp_path), "a.wav", "--json"])
    facts = json.loads(told.stdout)
    assert {"recognised", "start_s", "stages", "questions"} <= facts.keys()
    assert {"name", "letter", "bpm", "bpm_low", "bpm_high", "planned_bpm"} <= facts["stages"][0].keys()
    assert facts["stages"][1]["bpm"] is None and set(facts["questions"][0]) >= {
        "kind",
        "stage",
        "part",
        "answer",
        "why",
    }
    refused = CliRunner().invoke(app, ["listen", str(tmp_path), "a.wav", "--out", str(tmp_path)])
    assert refused.exit_code != 0 and list(tmp_path.iterdir()) == []


@pytest.mark.skipif(not sys.platform.startswith("linux") or (os.cpu_count() or 1) < 2, reason="counts its threads")
def test_the_command_works_in_one_thread(tmp_path: Path) -> None:
    """OpenBLAS waits by turning round and round: two threads took twice the processor's time for the same figures."""
    (tmp_path / "a.wav").write_bytes(b"not a sound")
    (tmp_path / "score.json").write_text("{}", encoding="utf-8")
    code = (
        "import os, sys, typer.testing; from sonify.cli.commands import app;"
        " typer.testing.CliRunner().invoke(app, sys.argv[1:]); assert 'numpy' in sys.modules;"
        " print(len(os.listdir('/proc/self/task')))"
    )
    command = [sys.executable, "-c", code, "listen", str(tmp_path), str(tmp_path / "a.wav")]
    alone = {key: value for key, value in os.environ.items() if not key.endswith("_NUM_THREADS")}
    told = subprocess.run(command, capture_output=True, text=True, check=True, env=alone).stdout
    assert told.split()[-1] == "1"
