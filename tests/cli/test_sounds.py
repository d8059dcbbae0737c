from __future__ import annotations

from pathlib import Path

from tests.catalogue import catalogue
from tests.cli.test_commands import refused, sonify


def test_sounds_lists_every_instrument_and_background(tmp_path: Path) -> None:
    shown = sonify("sounds", cwd=tmp_path).stdout
    assert all(row.name in shown and row.id in shown for row in catalogue().instruments)
    assert f"{len(catalogue().instruments) + 1} sea" in shown and "C5 to A6" in shown
    assert list(tmp_path.iterdir()) == []


def test_sounds_refuses_a_place_it_cannot_write_to(tmp_path: Path) -> None:
    assert "cannot be written" in refused(sonify("sounds", "--out", "no-such-folder/sounds.wav", cwd=tmp_path))
    assert list(tmp_path.iterdir()) == []
