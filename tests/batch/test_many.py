"""`sonify make` for several packs, as it is typed."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from sonify import lesson
from sonify.batch.pairs import Asked, class_files, pairs_of
from sonify.batch.room import workers_for
from sonify.cli import commands
from sonify.errors import SonifyError
from sonify.records.own_sound import OwnSound
from sonify.storage.pack import facts_of, whole
from tests.cli.test_commands import refused, sonify

OPTIONS = (("seed", 0), ("scaffold", "full"))


def room(folder: Path, name: str, text: str | None = None) -> Path:
    path = folder / name
    path.write_text(text or Path("examples/well-stocked.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return path


def test_a_key_follows_what_a_pack_is_made_of_and_nothing_else(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    one, other = room(tmp_path, "4B Übung.toml"), room(tmp_path / "elsewhere", "4B Übung.toml")

    def key(file: Path, changes: tuple[str, ...] = (), seed: int = 0) -> str:
        options = (("seed", seed), ("scaffold", "full"))
        (pair,) = pairs_of(Asked(scenes=("two-cups",), classes=(file,), changes=changes, options=options))
        assert pair.folder == "two-cups/4B Übung"
        return pair.key

    same = key(one)
    assert key(other) == same
    assert len({same, key(one, ("room_temperature=19 degC",)), key(one, seed=1)}) == 3
    one.write_text(one.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    assert key(one) != same


def test_a_key_follows_the_sounds_beside_a_scene(monkeypatch: pytest.MonkeyPatch) -> None:
    plain = lesson.load("two-cups")

    def key(*digests: str) -> str:
        sounds = tuple(OwnSound(name=f"tin {digest}", file="tin.wav", sha256=digest) for digest in digests)
        monkeypatch.setattr(lesson, "load", lambda typed, changes: replace(plain, sounds=sounds))
        return pairs_of(Asked(scenes=("two-cups",), classes=(None,), options=OPTIONS))[0].key

    assert len({key(), key("a"), key("b"), key("a", "b")}) == 4


def test_a_class_file_that_is_wrong_is_a_pair_that_says_why(tmp_path: Path) -> None:
    room(tmp_path, "good.toml")
    room(tmp_path, "bad.toml", 'year = "x"')
    room(tmp_path, "notes.txt", "no class")
    pairs = pairs_of(Asked(scenes=("two-cups",), classes=class_files(tmp_path), options=OPTIONS))
    assert {pair.folder: "line 1" in pair.why for pair in pairs} == {"two-cups/bad": True, "two-cups/good": False}


def test_two_names_of_one_folder_are_refused(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
    files = (room(tmp_path / "a", "Owls.toml"), room(tmp_path / "b", "owls.toml"))
    with pytest.raises(SonifyError, match=r"Owls\.toml.*owls\.toml"):
        pairs_of(Asked(scenes=("two-cups",), classes=files, options=OPTIONS))


def test_as_many_workers_as_cores_and_memory_bear(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sonify.batch.room.cores", lambda: 8)
    monkeypatch.setattr("sonify.batch.room.available_bytes", lambda: 4_000_000_000)
    assert [workers_for(packs) for packs in (1, 3, 100)] == [1, 3, 5]
    monkeypatch.setattr("sonify.batch.room.available_bytes", lambda: 100_000_000)
    assert workers_for(100) == 1


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("--all", "two-cups", "--out", "packs"), "--all makes every"),
        ((), "give a SCENE"),
        (("two-cups", "--scheduler", "tcp://a:1"), "several packs"),
        (("two-cups", "bread-dough"), "--out FOLDER"),
        (("two-cups", "no-such-scene", "--out", "packs"), "no-such-scene"),
        (("two-cups", "--classes", "empty", "--out", "packs"), "no class files"),
    ],
)
def test_a_mistake_is_told_before_anything_is_made(typed: tuple[str, ...], told: str, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert told in refused(sonify("make", *typed, cwd=tmp_path))
    assert [path.name for path in tmp_path.iterdir()] == ["empty"]


@pytest.mark.parametrize("typed", [None, "", "tcp://a:1"])
def test_a_cluster_is_asked_only_where_its_address_is_typed(
    typed: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def told(*_: object, scheduler: str | None, **__: object) -> None:
        raise SonifyError(f"by {scheduler!r}")

    monkeypatch.setattr("sonify.batch.make_many", told)
    with pytest.raises(SonifyError, match=f"by {typed!r}"):
        commands.make(["two-cups", "bread-dough"], out=tmp_path, scheduler=typed)


@pytest.mark.long
def test_packs_made_together_are_those_made_alone(tmp_path: Path) -> None:
    """To the byte, by the digests of `pack.json`; what is wrong fails alone, and the next run makes nothing again."""
    rooms = tmp_path / "rooms é"
    rooms.mkdir()
    shutil.copy("examples/few-instruments.toml", rooms / "4B Übung.toml")
    room(rooms, "bad.toml", 'year = "x"')
    typed = ("make", "two-cups", "a-frogs-life", "--classes", str(rooms), "--out", "many é", "--no-stems")
    done = sonify(*typed, cwd=tmp_path)
    assert done.returncode == 2 and "2 packs were made" in done.stdout
    assert "2 packs could not be made" in done.stderr and "two-cups/bad" in done.stderr
    made = {name: tmp_path / "many é" / name / "4B Übung" for name in ("two-cups", "a-frogs-life")}
    for name, pack in made.items():
        alone = lesson.make(
            name, rooms / "4B Übung.toml", out=tmp_path / f"{name} alone", wishes=lesson.Wishes(stems=False)
        )
        assert facts_of(pack) == facts_of(alone) and whole(pack) and whole(alone)
    stood = {path: path.stat().st_mtime_ns for path in tmp_path.glob("many é/*/*/*")}
    assert "2 stood there already" in sonify(*typed, cwd=tmp_path).stdout
    assert {path: path.stat().st_mtime_ns for path in tmp_path.glob("many é/*/*/*")} == stood
