"""What packs have in common is made once, and is the same as if it had been made anew."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from pathlib import Path

import pytest

from sonify.paper import typeset
from sonify.recording import Wishes, write_recordings
from sonify.records.score import Score
from sonify.storage.kept import keeping, kept
from sonify.web.process import Workers
from tests.paper.sheets import settings as settings_of
from tests.sample import sample_score

PLAIN = Wishes(stems=False)


def recorded(piece: Score, folder: Path) -> tuple[bytes, object]:
    folder.mkdir()
    told = write_recordings(piece, folder, PLAIN, lambda share: None)
    return (folder / "soundscape.wav").read_bytes(), told


def test_a_recording_with_other_words_has_the_samples_of_the_last_and_its_own_markers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    piece = sample_score()
    first, *others = piece.sections
    renamed = replace(piece, title="Another", sections=(replace(first, title="Longer than before"), *others))
    anew = recorded(renamed, tmp_path / "anew")
    with keeping(tmp_path / "kept"):
        assert recorded(piece, tmp_path / "first")[0] != anew[0]
        louder = replace(piece, beds=())
        monkeypatch.setattr("sonify.recording._recorded", lambda *given: pytest.fail("rendered again"))
        assert recorded(renamed, tmp_path / "again") == anew
        with pytest.raises(pytest.fail.Exception):
            recorded(louder, tmp_path / "louder")


def test_a_sheet_is_set_once_for_what_goes_into_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    calls: list[str] = []

    def set_now(sheet: str, *more: object) -> typeset.Typeset:
        calls.append(sheet)
        return typeset.Typeset(pdf=b"%PDF\n\0", marks=[{"sheet": "order", "page": len(calls)}])

    monkeypatch.setattr(typeset, "_set", set_now)
    settings = settings_of()
    with keeping(tmp_path), typeset.remembering(kept):
        once = typeset.typeset("poster", {"title": "One"}, settings)
        assert typeset.typeset("poster", {"title": "One"}, settings) == once
        assert typeset.typeset("poster", {"title": "Two"}, settings) != once
        assert typeset.typeset("poster", {"title": "One"}, replace(settings, paper="us-letter")) != once
        assert typeset.typeset("poster", {"title": "One"}, settings, {"a.svg": b"<svg/>"}) != once
    assert len(calls) == 4
    typeset.typeset("poster", {"title": "One"}, settings)
    assert len(calls) == 5  # nobody keeps it any longer


def test_a_process_goes_on_with_the_next_task_and_is_replaced_once_it_has_gone(tmp_path: Path) -> None:
    task = {"task": "science", "inputs": {"scene": {"name": "no-such-scene"}}}

    async def worked() -> list[int]:
        workers, seen = Workers(), []
        for turn in range(3):
            assert "no-such-scene" in await workers.worked(task, tmp_path, lambda doing, share: None)
            seen += [process.pid for process in workers._idle]
            if turn == 1:
                workers._idle[0].kill()
                await workers._idle[0].wait()
        await workers.close()
        assert workers._idle == []
        return seen

    first, second, third = asyncio.run(worked())
    assert first == second != third


def test_what_is_kept_stays_below_its_limit_whoever_makes_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each is made in a copy of a process, which counts from nothing."""
    monkeypatch.setattr("sonify.storage.kept.LIMIT_BYTES", 2_500)
    with keeping(tmp_path):
        for number in range(5):
            monkeypatch.setattr("sonify.storage.cache._unswept", 0)
            kept(f"{number}", lambda: bytes(1_000))
    assert sum(path.stat().st_size for path in tmp_path.glob("*.bin")) <= 2_500
