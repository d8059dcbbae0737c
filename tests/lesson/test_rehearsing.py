"""What a waiting process does for its next pack: nothing of it shows in that pack, and copies can still be had."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from sonify import lesson

ROOT = Path(__file__).resolve().parents[2]
AFTER = """
import sys, threading
from sonify import lesson
studied = lesson.study("two-cups")
steps = len(list(lesson.rehearsal(studied))) if sys.argv[1] == "rehearsed" else 0
print(steps, "typst" in sys.modules, threading.active_count())
lesson.write_pack(studied, out=sys.argv[2], wishes=lesson.Wishes(stems=False))
"""


def test_a_pack_after_a_rehearsal_is_the_same_and_no_typesetter_was_begun(tmp_path: Path) -> None:
    env, told = {**os.environ, "PYTHONPATH": str(ROOT)}, {}
    for name in ("rehearsed", "not"):
        command = [sys.executable, "-c", AFTER, name, str(tmp_path / name)]
        told[name] = subprocess.run(command, env=env, check=True, capture_output=True, text=True).stdout.split()
    steps, *others = told["rehearsed"]
    assert int(steps) > 8 and others == ["False", "1"]
    made = [json.loads((tmp_path / name / "pack.json").read_text(encoding="utf-8"))["files"] for name in told]
    assert made[0] == made[1] and len(made[0]) > 10


def test_what_was_rehearsed_is_not_read_again(monkeypatch: pytest.MonkeyPatch) -> None:
    from fluent.syntax import FluentParser

    studied = lesson.study("two-cups")
    for _ in lesson.rehearsal(studied):
        pass
    parsed: list[str] = []
    parse = FluentParser.parse
    monkeypatch.setattr(FluentParser, "parse", lambda self, source: parsed.append(source) or parse(self, source))
    for _ in lesson.rehearsal(studied):
        pass
    assert parsed == []
