"""The pipeline as a whole: same inputs, same bytes; interrupted, nothing lost; dry days, honest packs."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import soundfile

import sonify
from sonify import lesson, recording
from sonify.errors import BadFile, SonifyError, UnknownName
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.storage.pack import sha256
from tests.lesson.conftest import CLASSES, ROOT, Pack
from tests.sample import sample_lesson, sample_score

HARBOUR = (ROOT / "scenes" / "harbour-water-cycle.toml").read_text(encoding="utf-8")


def short(studied: Lesson) -> Lesson:
    """The sample's small Score in a lesson, so that whole packs are quick."""
    return replace(studied, score=replace(studied.score, swaps=()))


def test_the_same_inputs_give_the_same_bytes(pack: Pack, tmp_path: Path) -> None:
    kind = next(kind for kind in CLASSES if pack.folder.name == kind)
    again = lesson.make("harbour-water-cycle", ROOT / "examples" / f"{kind}.toml", out=tmp_path / "again")
    files = sorted(p.relative_to(again) for p in again.rglob("*") if p.is_file())
    assert files == sorted(p.relative_to(pack.folder) for p in pack.folder.rglob("*") if p.is_file())
    assert [str(f) for f in files if sha256(again / f) != sha256(pack.folder / f)] == []


def test_another_seed_has_other_tunes_and_the_key_keeps_its_notes() -> None:
    """Rhythms, ornament and taps are drawn by lot; a note that a pitch rule asks for at a beat is the same note."""
    one, other = (sonify.compose("harbour-water-cycle", seed=seed) for seed in (0, 1))
    kept = 0
    for a, b in zip(one.parts, other.parts, strict=True):
        same = [(n.beat, n.midi) for n in a.notes] == [(n.beat, n.midi) for n in b.notes]
        assert not (same and a.texture in ("scatter", "melody")), a.name
        if a.texture == "melody":
            asked = [{n.beat: n.midi for n in part.notes if n.asked is not None} for part in (a, b)]
            shared = asked[0].keys() & asked[1].keys()
            assert [asked[0][beat] for beat in shared] == [asked[1][beat] for beat in shared], a.name
            kept += len(shared)
    assert kept >= 20


def test_an_error_halfway_leaves_the_pack_that_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    small = short(sample_lesson())
    out = lesson.write_pack(small, out=tmp_path / "pack")
    before = {p: sha256(p) for p in out.rglob("*") if p.is_file()}

    def full(*_: Any, **__: Any) -> bytes:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("sonify.lesson.sheet_files.teacher_file", full)
    with pytest.raises(SonifyError, match="No space left"):
        lesson.write_pack(small, out=out)
    assert {p: sha256(p) for p in out.rglob("*") if p.is_file()} == before
    assert [p.name for p in tmp_path.iterdir()] == ["pack"]


def test_paper_and_large_print_are_set_and_written_down(tmp_path: Path) -> None:
    from pypdf import PdfReader

    printing = lesson.Printing(paper="us-letter", large_print=True)
    out = lesson.write_pack(short(sample_lesson()), out=tmp_path / "pack", printing=printing)
    told = json.loads((out / "pack.json").read_text(encoding="utf-8"))
    assert (told["paper"], told["large_print"]) == ("us-letter", True)
    for name in ("conductor", "pupils", "teacher", "poster"):
        sides = {
            sorted((page.mediabox.width, page.mediabox.height))[0] for page in PdfReader(out / f"{name}.pdf").pages
        }
        assert sides == {612}, name  # 8.5 inches of 72 points


def test_a_paper_that_is_not_there_is_named_with_those_that_are() -> None:
    with pytest.raises(UnknownName, match='unknown paper "a3".* Allowed: a4, us-letter'):
        lesson.Printing(paper="a3")  # type: ignore[arg-type]


def test_ctrl_c_halfway_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: Any, **__: Any) -> bytes:
        raise KeyboardInterrupt

    monkeypatch.setattr("sonify.lesson.packing.midi_bytes", stop)  # by then copies of the process are at work
    with pytest.raises(KeyboardInterrupt):
        lesson.write_pack(short(sample_lesson()), out=tmp_path / "pack")
    assert list(tmp_path.iterdir()) == []


DRY_DAYS = [
    ("a low hill", '"900 m"', '"20 m"', "hill_height"),
    ("dry air", '"72 %"', '"15 %"', "humidity"),
]


@pytest.mark.long
@pytest.mark.parametrize(("what", "old", "new", "condition"), DRY_DAYS, ids=["a low hill", "dry air"])
def test_a_day_without_cloud_makes_a_pack_with_fewer_stages_and_says_what_to_change(
    tmp_path: Path, what: str, old: str, new: str, condition: str
) -> None:
    assert HARBOUR.count(old) == 1
    scene = tmp_path / "dry.toml"
    scene.write_text(HARBOUR.replace(old, new), encoding="utf-8")
    studied = lesson.study(scene)
    names = [section.name for section in studied.score.sections]
    assert "condensation" not in names and "precipitation" not in names and names
    told = [f for f in studied.problems if f.kind == "science" and "Vapour condenses" in say(f.message)]
    assert told and condition in say((told[0].where, told[0].fix))
    folder = lesson.write_pack(studied, out=tmp_path / "pack")
    assert (folder / "page.html").is_file()


def test_the_python_interface_is_the_one_of_the_contract(tmp_path: Path) -> None:
    scene = sonify.load("harbour-water-cycle")
    timeline = sonify.simulate(scene)
    assert [stage.name for stage in timeline.stages][-1] == "collection"
    score = sonify.compose(scene, seed=3)
    assert score.seed == 3
    path = sonify.write_wav(sample_score(), tmp_path / "sample.wav")
    samples, rate = soundfile.read(path)
    assert rate == 44_100 and np.abs(samples).max() > 0.01


def test_a_wav_that_cannot_be_written_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: Any, **__: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(recording, "write_rendering", broken)
    with pytest.raises(SonifyError, match="No space left"):
        sonify.write_wav(sample_score(), tmp_path / "sample.wav")
    assert list(tmp_path.iterdir()) == []


def test_pack_json_names_inputs_and_no_path(pack: Pack) -> None:
    told = json.loads((pack.folder / "pack.json").read_text(encoding="utf-8"))
    assert told["toolkit"] == f"sonify {sonify.__version__}"
    assert told["scene"]["name"] == "harbour-water-cycle" and len(told["scene"]["sha256"]) == 64
    assert told["class"]["name"] in CLASSES and told["seed"] == 0
    assert str(pack.folder.parent) not in json.dumps(told)


def test_every_fault_of_a_scene_is_named_at_once(tmp_path: Path) -> None:
    bad = HARBOUR.replace('"ocean drum"', '"ocaen drum"', 1).replace('"rain rate"', '"rain rat"')
    (tmp_path / "bad.toml").write_text(bad, encoding="utf-8")
    with pytest.raises(BadFile, match=r'things to mend[\s\S]*"ocean drum"[\s\S]*"rain rate"'):
        sonify.load(tmp_path / "bad.toml")


def test_an_unknown_scene_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(UnknownName, match='did you mean "harbour-water-cycle"'):
        sonify.load("harbour-watercycle")
