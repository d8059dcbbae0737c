"""Sounds that pupils recorded: held in memory, kept only where she says, deleted for good, for this machine alone."""

from __future__ import annotations

import asyncio
import hashlib
import io
import json
import os
import struct
import time
from base64 import b64encode
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import httpx
import numpy as np
import pytest
import soundfile
from starlette.requests import Request

from sonify.errors import SonifyError
from sonify.inputs.sound_file import LARGEST_BYTES
from sonify.records.sendable import ELEMENT, FORM
from sonify.sound.balance import balance
from sonify.sound.voices.recorded import recorded
from sonify.storage.keeping import LAPSES_S, CannotKeep
from sonify.storage.quiet import quiet
from sonify.web import packs, work
from sonify.web.app import Server
from sonify.web.desk import Desk, size_of
from sonify.web.inputs import read_inputs
from sonify.web.opening import opened
from sonify.web.options import read_options
from sonify.web.packs import Packs, recordings_of
from sonify.web.recordings import MOST_GONE, Recordings, as_wav, plain_sound
from sonify.web.results import Results
from sonify.web.sharing import Door
from tests.inputs.samples import SCENE

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


def test_of_many_that_are_deleted_the_first_are_gone_for_good() -> None:
    held = Recordings()
    keys = [held.add(as_wav(bytes([number, 0]) * 2000)) for number in range(MOST_GONE + 1)]
    for key in keys:
        held.delete(key)
    for key in keys:
        held.undelete(key)
    assert [held.is_here(key) for key in keys] == [False] + [True] * MOST_GONE


def test_a_file_on_the_disk_that_is_another_than_its_name_says_is_not_taken(tmp_path: Path) -> None:
    held = Recordings(tmp_path)
    key = held.add(WAV)
    held.keep(key, on=True)
    (tmp_path / f"{key}.wav").write_bytes(WAV[:-2])
    assert Recordings(tmp_path).get(key) is None
    assert Recordings(tmp_path).get("../../etc/passwd") is None


def test_what_is_deleted_and_sent_again_is_here_again() -> None:
    held = Recordings()
    held.delete(held.add(WAV))
    key = held.add(WAV)
    assert held.get(key) == WAV and held.is_here(key)
    held.delete(key)
    assert not held.is_here(key)


def test_what_is_held_has_nothing_but_the_sound(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sent = sound_file()
    monkeypatch.chdir(tmp_path)  # whatever lies in the folder that the program was started in
    (tmp_path / "wave.py").write_text("raise SystemExit(3)", encoding="utf-8")
    assert b"A Pupil" in sent
    wav = plain_sound(sent, "crisps.wav")
    assert b"A Pupil" not in wav and struct.unpack("<HIIHH", wav[22:36]) == (1, 44_100, 88_200, 2, 16)
    again = plain_sound(wav, "again.wav")
    assert abs(len(again) - len(wav)) < 0.05 * 2 * 44_100 and struct.unpack("<I", again[40:44]) == (len(again) - 44,)
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
    made = Packs(desk, None, lambda request: "", None, lambda request: True)  # type: ignore[arg-type]
    assert vars(Packs)["_known"](made, plain) != "" == vars(Packs)["_known"](made, inputs)
    assert recordings_of(inputs, desk) == {key: b64encode(WAV).decode()}
    desk.recordings.delete(key)
    desk.let_recordings_go()
    assert recorded(sound.id) is None and not desk.knows(inputs) and recordings_of(inputs, desk) == {}
    (gone,) = desk.study(inputs).lesson.score.sounds
    assert gone.pcm == b"" and gone.id.startswith("egg-shaker")


def test_a_deleted_recording_takes_nothing_with_it_that_was_made_without() -> None:
    desk = Desk()
    key, pages = desk.recordings.add(WAV), Results(5, desk.limit, weigh=size_of)
    desk.made_of_lessons.append(pages)
    plain = read_inputs({"scene": {"name": "two-cups"}})
    own = read_inputs({**BAGS, "sounds": {"bags.wav": key}})
    edited = read_inputs({**BAGS, "sounds": {"bags.wav": key}, "edits": {"title": "Ours"}})
    given = [(each, desk.study(each), desk.plan_text(each)) for each in (plain, own, edited)]
    for each, _, _ in given:
        pages.put((each.key, True), "a page")
    desk.recordings.delete(key)
    desk.let_recordings_go(key)
    assert [desk.knows(each) for each, _, _ in given] == [True, False, False]
    assert [pages.get((each.key, True)) for each, _, _ in given] == ["a page", None, None]
    assert desk.study(plain) is given[0][1] and desk.plan_text(plain) is given[0][2]
    assert all(not desk.draft(desk.heard(each, home=True)).scene.sounds[0].pcm for each in (own, edited))
    desk.let_recordings_go()
    assert not desk.knows(plain)


def test_what_is_computed_while_a_recording_is_deleted_is_not_kept() -> None:
    desk = Desk()
    kept: Results[str] = Results(5, desk.limit, weigh=size_of)
    desk.made_of_lessons.append(kept)

    def deleted_meanwhile() -> str:
        desk.let_recordings_go()
        return "with it"

    assert kept.of("a", deleted_meanwhile) == "with it" and kept.get("a") is None
    assert kept.of("b", lambda: "made of what is gone", keep=lambda: False) and len(kept) == 0
    assert kept.of("a", lambda: "anew") == "anew" == kept.get("a")


WITH_SOUND = (
    SCENE.replace('sounds = ["claves", "claps"]', 'sounds = ["our bags", "claves"]')
    + '\n[[sound]]\nname = "our bags"\nfile = "bags.wav"\n'
)
BAGS = {"scene": {"text": WITH_SOUND, "file": "a.toml"}}


def of(address: str) -> Request:
    return Request({"type": "http", "client": (address, 5), "headers": [], "method": "POST", "path": "/"})


def test_what_was_made_without_a_recording_is_made_anew_once_it_is_here() -> None:
    desk = Desk()
    key = Recordings().add(WAV)
    sent = read_inputs({**BAGS, "sounds": {"bags.wav": key}})
    assert not desk.draft(desk.heard(sent, home=True)).scene.sounds[0].pcm
    assert desk.recordings.add(WAV) == key
    assert desk.draft(desk.heard(sent, home=True)).scene.sounds[0].pcm
    assert desk.heard(sent, home=True).key != desk.heard(sent, home=False).key


def test_a_tablet_that_knows_a_recording_does_not_get_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    server = Server(tmp_path, Door("abcd2345"))
    key = server.desk.recordings.add(WAV)
    asked = {**BAGS, "sounds": {"bags.wav": key}}
    read = vars(Server)["_inputs"]
    for address, sounds in (("127.0.0.1", {"bags.wav": key}), ("192.0.2.20", {})):
        assert asyncio.run(read(server, of(address), asked)).sounds == sounds
        told: list[bool] = []

        async def noted(given: Any, desk: Desk, *, home: bool, told: list[bool] = told) -> Any:
            told.append(home)
            raise SonifyError("enough")

        monkeypatch.setattr(packs, "inputs_of", noted)

        async def body(request: Request) -> Any:
            return {"inputs": asked}

        monkeypatch.setattr(packs, "json_of", body)
        for answering in (server.packs.make, server.packs.redeal):
            with pytest.raises(SonifyError, match="enough"):
                asyncio.run(answering(of(address)))
        assert told == [bool(sounds)] * 2


def test_a_plan_that_is_opened_brings_recordings_for_this_machine_alone(tmp_path: Path) -> None:
    desk = Desk()
    plan = {"sonify": "plan", "form": FORM, "scene": BAGS["scene"]}
    page = tmp_path / "page.html"

    def sent(**more: Any) -> None:
        text = json.dumps({**plan, **more})
        page.write_text(f'<script type="application/json" id="{ELEMENT}">{text}</script>', encoding="utf-8")

    sent(sounds={"bags.wav": "0" * 32}, recordings={"0" * 32: b64encode(WAV).decode("ascii")})
    assert opened(desk, page, page.name, home=False)["inputs"]["sounds"] == {}
    assert not vars(desk.recordings)["_held"]
    (key,) = opened(desk, page, page.name, home=True)["inputs"]["sounds"].values()
    assert desk.recordings.is_here(key)
    sent()  # without recordings, as a plan leaves where they do not go along
    assert opened(desk, page, page.name, home=True)["inputs"]["sounds"] == {}


@pytest.mark.parametrize("ticked", [True, False])
def test_a_plan_names_the_recordings_that_go_along_and_no_other(
    ticked: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    held = Recordings()
    key = held.add(WAV)
    inputs = read_inputs({**BAGS, "sounds": {"bags.wav": key}})
    plans: list[dict[str, Any]] = []

    def written(lesson: Any, *, out: str, plan: dict[str, Any], **more: Any) -> Path:
        plans.append(plan)
        return Path(out)

    monkeypatch.setattr(work, "plan_to_send", lambda *given, **more: {})
    monkeypatch.setattr(work.lesson, "write_pack", written)
    scene = SimpleNamespace(name="a")
    study = SimpleNamespace(lesson=SimpleNamespace(scene=scene), draft=SimpleNamespace(text=WITH_SOUND), class_text="")
    recordings = {key: b64encode(WAV).decode("ascii")} if ticked else {}
    given = {"options": read_options({"needs": True}), "name": "a", "readings": {}, "recordings": recordings}
    work.make_pack(study, given, inputs)  # type: ignore[arg-type]
    assert plans == [{"sounds": {"bags.wav": key} if ticked else {}, "recordings": recordings}]


def test_silence_that_overlaps_ends_with_the_last_that_wants_it() -> None:
    before = os.fstat(2).st_ino, os.fstat(2).st_dev
    first, second = quiet(), quiet()
    first.__enter__()
    second.__enter__()
    first.__exit__(None, None, None)
    assert os.path.samestat(os.fstat(2), os.stat(os.devnull))
    second.__exit__(None, None, None)
    assert (os.fstat(2).st_ino, os.fstat(2).st_dev) == before
