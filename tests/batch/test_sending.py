"""Packs made elsewhere: put in their place once, whole, whatever becomes of those who make them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from sonify.batch import Ledger, Row, far, sending
from sonify.batch.pairs import Asked, Pair, pairs_of
from sonify.batch.parcel import ARRIVALS, Damaged, arrived, packed, put, unpacked
from sonify.batch.sending import AHEAD, check_same
from sonify.errors import SonifyError
from sonify.storage.pack import MANIFEST, SEAL, building, sealed, sha256, whole
from sonify.storage.toolkit import about
from tests.batch.fake_cluster import FakeCluster, sent
from tests.batch.stubbed import lines, pair, tokens

WANTED = ["rain/3a", "rain/4b", "rain/5c", "sea/3a", "sea/4b"]


@pytest.fixture(autouse=True, scope="module")
def no_worker_stays() -> Iterator[None]:
    yield
    far.let_go()


def named(folder: str, how: str = "whole", **more: Any) -> Pair:
    """A pair whose task says its own name, for the cluster that is to spoil it."""
    plain = pair(folder, how, **more)
    task = json.dumps({**json.loads(plain.task), "name": folder, "files": {}})
    return Pair(folder=plain.folder, key=plain.key, task=task)


def cut(said: dict[str, Any]) -> dict[str, Any]:
    return {**said, "files": {**said["files"], "page.html": b"pa"}}


def lost(said: dict[str, Any]) -> dict[str, Any]:
    return {"lost": "a cable"}


def broken(said: dict[str, Any]) -> dict[str, Any]:
    return {"ended": -9}


def nothing_left(out: Path) -> bool:
    return not list(out.rglob(".sonify*"))


@pytest.mark.parametrize("near", [True, False])
def test_packs_made_elsewhere_stand_as_if_made_here(near: bool, tmp_path: Path) -> None:
    """Written by those who see the folder, sent by those who do not; the next run makes nothing again."""
    pairs, cluster = [named(folder) for folder in WANTED], FakeCluster(near=near)
    found = sent(tmp_path, pairs, cluster)
    assert sorted(found.made) == WANTED and found.failed == found.left == ()
    token = tokens(tmp_path)
    assert sorted(token) == WANTED and all(whole(tmp_path / folder) for folder in WANTED)
    assert cluster.handed == {"card", "seconds", "place" if near else "files"}
    assert cluster.most == AHEAD * 2  # nobody waits, and no more lies about than that
    assert nothing_left(tmp_path)
    again = FakeCluster(near=near)
    found = sent(tmp_path, [*pairs, named("sea/5c")], again)
    assert again.asked == ["sea/5c"] and sorted(found.standing) == WANTED
    assert {folder: tokens(tmp_path)[folder] for folder in WANTED} == token
    assert 'href="sea/5c/page.html"' in (tmp_path / "index.html").read_text(encoding="utf-8")


def test_what_is_lost_broken_or_damaged_is_made_once_more_and_then_told(tmp_path: Path) -> None:
    told: list[Row] = []
    spoil = {"rain/3a": [lost], "rain/4b": [cut], "rain/5c": [broken], "sea/3a": [lost, cut], "sea/4b": [cut, broken]}
    cluster = FakeCluster(spoil=spoil)
    found = sent(tmp_path, [named(folder) for folder in WANTED], cluster, warn=told.append)
    assert sorted(found.made) == WANTED[:3] and all(whole(tmp_path / folder) for folder in WANTED[:3])
    assert sorted(cluster.asked) == sorted(WANTED * 2)
    assert {row.folder: row.why.split(" (")[0] for row in told} == {
        "sea/3a": "it arrived damaged twice",
        "sea/4b": "the process that made it ended twice in the middle",
    }
    assert lines(tmp_path, "state, times") == [("made", 1)] * 3 + [("failed", 0)] * 2
    assert not (tmp_path / "sea").exists() and nothing_left(tmp_path)


def test_a_worker_process_that_breaks_down_takes_only_its_pack(tmp_path: Path) -> None:
    pairs = [named("rain/3a", "breaks"), named("rain/4b"), named("sea/3a", "refused"), named("sea/4b")]
    found = sent(tmp_path, pairs, FakeCluster(near=True))
    assert {row.folder: row.why.split(" (")[0] for row in found.failed} == {
        "rain/3a": "the process that made it ended twice in the middle",
        "sea/3a": "no such thing",
    }
    assert sorted(found.made) == ["rain/4b", "sea/4b"] and nothing_left(tmp_path)


def test_work_by_hand_is_refused_before_anything_is_sent(tmp_path: Path) -> None:
    sent(tmp_path, [named("rain/3a")], FakeCluster())
    (tmp_path / "rain/3a/page.html").write_text("mine", encoding="utf-8")
    cluster = FakeCluster()
    (row,) = sent(tmp_path, [named("rain/3a", version="2")], cluster).failed
    assert "page.html (changed)" in row.why and cluster.asked == []
    assert sent(tmp_path, [named("rain/3a", version="2", replace=True)], cluster).made == ("rain/3a",)
    assert (tmp_path / "rain/3a/page.html").read_text(encoding="utf-8") == "page"


def test_a_run_that_ends_in_the_middle_is_gone_on_with(tmp_path: Path) -> None:
    """After the pack was put in its place and before the ledger knows of it: nothing is made twice."""
    pairs = [named(folder) for folder in WANTED]

    class Killed(BaseException):
        pass

    def kill(said: dict[str, Any]) -> dict[str, Any]:
        raise Killed

    with pytest.raises(Killed):
        sent(tmp_path, pairs, FakeCluster(spoil={"rain/5c": [kill]}))
    token = tokens(tmp_path)
    assert sorted(token) == WANTED[:2]
    with Ledger(tmp_path, "stamp") as ledger:
        ledger._write(pairs[1], state="begun", before="", times=0, manifest="")
    (tmp_path / ARRIVALS / "half").mkdir(parents=True)  # as a kill leaves it
    cluster = FakeCluster()
    assert sorted(sent(tmp_path, pairs, cluster).made) == WANTED[2:]
    assert cluster.asked == WANTED[2:] and tokens(tmp_path) | token == tokens(tmp_path) and nothing_left(tmp_path)


def test_workers_that_would_make_other_bytes_are_refused_at_once(tmp_path: Path) -> None:
    cluster = FakeCluster()
    check_same(cluster)
    cluster.workers["two"] = {**about(), "numpy": "1.0", "files": "0" * 12}
    with pytest.raises(SonifyError, match=r"worker two .*files of sonify 0{12} \(here .*; numpy 1\.0 \(here [2-9]\."):
        check_same(cluster)
    cluster.workers["two"] = {}
    with pytest.raises(SonifyError, match="worker two has no sonify"):
        check_same(cluster)
    cluster.workers.clear()
    with pytest.raises(SonifyError, match="has no workers"):
        check_same(cluster)
    assert about().keys() >= {"sonify", "Python", "system", "numpy", "scipy", "typst", "verovio", "soundfile", "lxml"}
    joined = FakeCluster(spoil={"rain/3a": [lambda said: {"differs": {**about(), "scipy": "1.0"}, "worker": "new"}]})
    with pytest.raises(SonifyError, match=r"worker new .* scipy 1\.0"):
        sent(tmp_path, [named("rain/3a")], joined)
    parcel = {"about": {**about(), "scipy": "1.0"}}
    assert far.made(parcel)["differs"] == about()


def test_nobody_left_to_make_anything_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sending, "ALONE_S", 0.0)

    def leave(said: dict[str, Any]) -> dict[str, Any]:
        cluster.workers.clear()
        return said

    cluster = FakeCluster(spoil={"rain/3a": [leave]})
    with pytest.raises(SonifyError, match="no workers for a minute, and 4 packs are not made"):
        sent(tmp_path, [named(folder) for folder in WANTED], cluster)
    assert sorted(tokens(tmp_path)) == WANTED[:1] and nothing_left(tmp_path)


def test_files_travel_with_a_task_and_are_named_as_their_owner_names_them(tmp_path: Path) -> None:
    for name in ("rooms", "arrivals", "there"):
        (tmp_path / name).mkdir()
    (tmp_path / "arrivals/word.txt").write_text("word", encoding="utf-8")
    scene = tmp_path / "rooms/windowsill.toml"
    scene.write_text(Path("scenes/stretch-test.toml").read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "rooms/stretch-test.csv").write_bytes(Path("scenes/stretch-test.csv").read_bytes())
    room = tmp_path / "rooms/4B Übung.toml"
    room.write_bytes(Path("examples/few-instruments.toml").read_bytes())
    (wanted,) = pairs_of(Asked(scenes=(str(scene),), classes=(room,), options=(("seed", 0),)))
    parcel = packed(wanted, tmp_path / "arrivals", about())
    for path in (tmp_path / "rooms").iterdir():
        path.unlink()
    task = unpacked(parcel, tmp_path / "there")
    assert task["called"] == {"scene": str(scene), "class": str(room)}
    assert sorted(path.name for path in Path(task["scene"]).parent.iterdir()) == ["stretch-test.csv", "windowsill.toml"]
    assert far._as_called(f"{task['class']}, line 3", task) == f"{room}, line 3"
    (wanted,) = pairs_of(Asked(scenes=("two-cups",), classes=(None,), options=(("seed", 0),)))
    assert packed(wanted, tmp_path / "arrivals", about())["files"] == {}


def test_a_pack_that_names_files_beside_it_is_not_put_anywhere(tmp_path: Path) -> None:
    """Its manifest is whole, and so are the files it names; they are not its own."""
    for number, tempt in enumerate((lambda pack: None, _name_another, _link_another)):
        pack, mine = tmp_path / f"arrivals {number}/pack", tmp_path / f"arrivals {number}/mine.txt"
        mine.parent.mkdir()
        mine.write_text("mine", encoding="utf-8")
        with building(pack, {"toolkit": "sonify stub"}) as work:
            (work / "page.html").write_text("page", encoding="utf-8")
        tempt(pack)
        assert whole(pack)
        if number:
            with pytest.raises(Damaged):
                put(pack, tmp_path / "packs/one", replace=True)
            assert mine.read_text(encoding="utf-8") == "mine"
        else:
            put(pack, tmp_path / "packs/one", replace=True)
        stands = tmp_path / "packs/one"
        assert whole(stands) and not (stands / "page.html").is_symlink()


def _name_another(pack: Path) -> None:
    facts = json.loads((pack / MANIFEST).read_bytes())
    facts.pop(SEAL)
    facts["files"]["../mine.txt"] = sha256(pack.parent / "mine.txt")
    (pack / MANIFEST).write_bytes(sealed(facts))


def _link_another(pack: Path) -> None:
    (pack / "page.html").rename(pack.parent / "page.html")
    (pack / "page.html").symlink_to(pack.parent / "page.html")


@pytest.mark.parametrize("name", ["../page.html", "/tmp/page.html", "a/../../b", "..\\b"])
def test_a_name_that_leads_elsewhere_is_not_written(name: str, tmp_path: Path) -> None:
    with pytest.raises(Damaged):
        arrived({"files": {name: b""}}, tmp_path)
    assert list(tmp_path.rglob("*.html")) == []


@pytest.mark.parametrize("place", ["..", ".", "", "packs/..", "0123456789abcdeg", "0123456789abcdef/..", "/tmp"])
def test_a_place_that_nobody_was_given_is_not_taken_for_a_pack(place: str, tmp_path: Path) -> None:
    """What is put from there goes afterwards, with the folder it lies in."""
    with pytest.raises(Damaged):
        arrived({"place": place}, tmp_path)
