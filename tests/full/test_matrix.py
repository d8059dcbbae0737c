"""Every scene for every kind of class, at every scaffold: a whole pack each. Long; run before a release.

Run: python -m pytest tests/full -s
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import soundfile

from sonify import lesson

ROOT = Path(__file__).resolve().parent.parent.parent
EMPTY = "year = 4\npupils = 30\ngroups = 6\nminutes = 60\n\n[cupboard]\n"
CLASSES = {
    "well-stocked": (ROOT / "examples" / "well-stocked.toml").read_text(encoding="utf-8"),
    "few-instruments": (ROOT / "examples" / "few-instruments.toml").read_text(encoding="utf-8"),
    "nothing": EMPTY,
}


@pytest.mark.parametrize("scaffold", ["full", "part", "open"])
@pytest.mark.parametrize("kind", CLASSES)
@pytest.mark.parametrize("scene", lesson.scene_names())
def test_a_whole_pack(scene: str, kind: str, scaffold: str, tmp_path: Path) -> None:
    (tmp_path / f"{kind}.toml").write_text(CLASSES[kind], encoding="utf-8")
    studied = lesson.study(scene, tmp_path / f"{kind}.toml", scaffold=scaffold)
    folder = lesson.write_pack(studied, out=tmp_path / "pack")
    told = json.loads((folder / "score.json").read_text(encoding="utf-8"))
    sound = json.loads((folder / "pack.json").read_text(encoding="utf-8"))["sound"]
    notes = sum(len(part["notes"]) for part in told["parts"])
    print(
        f"\n{scene:<28} {kind:<16} {scaffold:<5} {told['bars']:3d} bars {told['seconds']:5.0f} s {notes:5d} notes "
        f"{sound['loudness_lufs']:6.2f} LUFS {sound['true_peak_dbtp']:5.2f} dBTP "
        f"limiter {sound['limiter_db']:.1f} dB page {(folder / 'page.html').stat().st_size / 1e6:.1f} MB"
    )
    assert sum(studied.score.group_pupils.values()) == studied.classroom.pupils
    assert abs(sound["loudness_lufs"] + 18.0) <= 0.5 and sound["true_peak_dbtp"] <= -1.0
    assert soundfile.info(folder / "soundscape.wav").duration == pytest.approx(sound["seconds"], abs=0.01)
    assert (folder / "page.html").stat().st_size < 10_000_000
    scene_length_s = studied.scene.music.length_s
    count_in_s = told["sections"][0]["time_s"]
    assert told["seconds"] - count_in_s == pytest.approx(scene_length_s, rel=0.1)
