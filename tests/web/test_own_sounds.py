"""Sounds that pupils recorded: held in memory, kept only where she says, deleted for good, for this machine alone."""

from __future__ import annotations

import hashlib
import io
import struct
import time
from base64 import b64encode
from pathlib import Path

import httpx
import numpy as np
import pytest
import soundfile

from sonify.errors import SonifyError
from sonify.inputs.sound_file import LARGEST_BYTES
from sonify.sound.balance import balance
from sonify.sound.voices.recorded import recorded
from sonify.storage.keeping import LAPSES_S, CannotKeep
from sonify.web.desk import Desk
from sonify.web.inputs import read_inputs
from sonify.web.packs import Packs, recordings_of
from sonify.web.recordings import Recordings, as_wav, plain_sound

WAV = as_wav(np.arange(-2000, 2000, dtype="<i2").tobytes())
OCTETS = {"Content-Type": "application/octet-stream"}


def sound_file(kind: str = "WAV") -> bytes:
    """Half a second of noise in a file that also says who made it."""
    rng = np.random.default_rng(5)
    out = io.BytesIO()
    with soundfile.SoundFile(out, "w", 44_100, 2, format=kind) as file:
        file.artist = "A Pupil"
        file.write(0.2 * rng.normal(size=(22_050, 2)))
    return out.getvalue()


def test_a_recording_is_on_the_disk_only_while_it_is_kept(tmp_path: Path) -> None:
    held = Recordings(tmp_path / "recordings")
    key = held.add(WAV)
    assert key == hashlib.sha256(WAV).hexdigest()[:32] and held.get(key) == WAV
    assert not (tmp_path / "recordings").exists() and Recordings(tmp_path / "recordings").get(key) is None
    held.keep(key, on=True)
    assert Recordings(tmp_path / "recordings").get(key) == WAV
    held.keep(key, on=False)
    assert held.get(key) == WAV and [*(tmp_path / "recordings").iterdir()] == []
    with pytest.raises(CannotKeep):
        Recordings(None).keep(key, on=True)


def test_what_is_deleted_can_be_had_back_until_that_lapses_and_then_nothing_has_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = Recordings(tmp_path)
    key = held.add(WAV)
    held.keep(key, on=True)
    held.delete(key)
    assert held.get(key) is None and [*tmp_path.iterdir()] == []
    held.undelete(key)
    assert held.get(key) == WAV and held.is_kept(key)
    held.delete(key)
    now = time.time()
    monkeypatch.setattr(time, "time", lambda: now + LAPSES_S + 1)
    assert held.get(key) is None
    held.undelete(key)
    assert held.get(key) is None
    assert WAV not in [*vars(held)["_held"].values()] and vars(held)["_gone"] == {}
    held.keep(held.add(WAV), on=True)
    held.forget()
    assert held.get(key) is None and [*tmp_path.iterdir()] == []


def test_a_file_on_the_disk_that_is_another_than_its_name_says_is_not_taken(tmp_path: Path) -> None:
    held = Recordings(tmp_path)
    key = held.add(WAV)
    held.keep(key, on=True)
    (tmp_path / f"{key}.wav").write_bytes(WAV[:-2])
    assert Recordings(tmp_path).get(key) is None
    assert Recordings(tmp_path).get("../../etc/passwd") is None


def test_what_is_held_has_nothing_but_the_sound() -> None:
    sent = sound_file()
    assert b"A Pupil" in sent
    wav = plain_sound(sent, "crisps.wav")
    assert b"A Pupil" not in wav and struct.unpack("<HIIHH", wav[22:36]) == (1, 44_100, 88_200, 2, 16)
    assert plain_sound(wav, "again.wav")[44:] != b""
    with pytest.raises(SonifyError, match=r"^[^\n]*cannot be read as a sound[^\n]*$"):
        plain_sound(b"RIFF" + sent[100:200], "spoilt.wav")


def test_only_her_page_may_ask_for_the_microphone_and_a_sound_comes_bounded(client: httpx.Client) -> None:
    assert "microphone=(self)" in client.get("/").headers["permissions-policy"]
    assert "microphone=()" in client.get("/lesson/none").headers["permissions-policy"]
    taken = client.post("/api/sound?name=crisps.wav", content=sound_file(), headers=OCTETS)
    assert taken.status_code == 200 and 0.4 < taken.json()["seconds"] < 0.6
    key = taken.json()["key"]
    assert client.get(f"/api/sound/{key}").content.startswith(b"RIFF")
    assert client.post("/api/recordings", json={"do": "", "key": key}).json() == {"here": True, "kept": False}
    assert client.post("/api/recordings", json={"do": "delete", "key": key}).json() == {"here": False, "kept": False}
    assert client.get(f"/api/sound/{key}").status_code == 404
    assert client.post("/api/recordings", json={"do": "burn", "key": key}).status_code == 400
    assert client.post("/api/sound", content=b"<html>", headers=OCTETS).status_code == 400
    assert client.post("/api/sound", content=b"x" * (LARGEST_BYTES + 1), headers=OCTETS).status_code == 413


@pytest.mark.long
def test_no_lesson_with_a_recording_is_handed_on_unasked_or_left_in_memory_once_it_is_deleted() -> None:
    desk = Desk()
    key = desk.recordings.add(WAV)
    plain = read_inputs({"scene": {"name": "harbour-water-cycle"}})
    part = "The rain"
    edits = {f"sound.{part}": {"name": "our bags", "file": "bags.wav"}}
    inputs = read_inputs({"scene": {"name": "harbour-water-cycle"}, "edits": edits, "sounds": {"bags.wav": key}})
    assert desk.study(plain)
    (sound,) = desk.study(inputs).lesson.score.sounds
    assert sound.pcm and balance(desk.study(inputs).lesson.score) and recorded(sound.id) is not None
    packs = Packs(desk, None, lambda request: "", None)  # type: ignore[arg-type]
    assert vars(Packs)["_known"](packs, plain) != "" == vars(Packs)["_known"](packs, inputs)
    assert recordings_of(inputs, desk) == {key: b64encode(WAV).decode()}
    desk.recordings.delete(key)
    desk.let_recordings_go()
    assert recorded(sound.id) is None and not desk.knows(inputs) and recordings_of(inputs, desk) == {}
    (gone,) = desk.study(inputs).lesson.score.sounds
    assert gone.pcm == b"" and gone.id.startswith("egg-shaker")
