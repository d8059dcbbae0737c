"""Packs made elsewhere: put in their place once, whole, whatever becomes of those who make them."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import wait
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from sonify.batch import Ledger, Row, dask_cluster, far, sending
from sonify.batch.pairs import Asked, Pair, pairs_of
from sonify.batch.parcel import ARRIVALS, Damaged, arrived, packed, put, unpacked
from sonify.batch.sending import AHEAD, check_same
from sonify.errors import SonifyError
from sonify.storage.pack import MANIFEST, SEAL, building, sealed, sha256, whole
from sonify.storage.scratch import scratch_folder
from sonify.storage.toolkit import about, about_now
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


def test_workers_that_would_all_make_other_bytes_are_refused_at_once() -> None:
    cluster = FakeCluster()
    cluster.workers["one"] = {**about(), "numpy": "1.0", "files": "0" * 12}
    check_same(cluster)
    del cluster.workers["two"]
    with pytest.raises(SonifyError, match=r"worker one .*files of sonify 0{12} \(here .*; numpy 1\.0 \(here [2-9]\."):
        check_same(cluster)
    cluster.workers["one"] = {}
    with pytest.raises(SonifyError, match="worker one has no sonify"):
        check_same(cluster)
    cluster.workers.clear()
    with pytest.raises(SonifyError, match="has no workers"):
        check_same(cluster)
    assert about().keys() >= {"sonify", "Python", "system", "numpy", "scipy", "typst", "verovio", "soundfile", "lxml"}


def test_a_worker_that_joins_late_and_differs_is_left_out_by_name_and_the_others_go_on(tmp_path: Path) -> None:
    """One of another version, one without the toolkit, and one that joined the same and was replaced under its name."""
    old = {**about(), "scipy": "1.0"}

    def join(said: dict[str, Any]) -> dict[str, Any]:
        cluster.workers |= {"late": old, "bare": {}, "same": about()}
        return said

    told: list[str] = []
    cluster = FakeCluster(spoil={"rain/3a": [join], "sea/3a": [lambda said: {"differs": old}]})
    found = sent(tmp_path, [named(folder) for folder in [*WANTED, "sea/5c"]], cluster, left_out=told.append)
    assert sorted(found.made) == [*WANTED, "sea/5c"] and found.failed == ()
    assert [why.split(" (")[0] for why in told] == [
        "the worker late would make other bytes than this machine: scipy 1.0",
        "the worker bare has no sonify. It makes no packs, the others go on; install the same versions there and start "
        "its worker again, and it helps",
        f"the worker {cluster.makers[cluster.asked.index('sea/3a')]} would make other bytes than this machine: "
        "scipy 1.0",
    ]
    assert not {"late", "bare"} & set(cluster.makers) and cluster.asked.count("sea/3a") == 2


def test_a_worker_that_is_frozen_when_it_joins_keeps_nobody_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    thaw = threading.Event()

    def run(question: Callable[[], Any], workers: list[str], on_error: str) -> dict[str, Any]:
        if workers == ["frozen"]:
            thaw.wait(20.0)
        return {name: OSError() if name == "gone" else question() for name in workers}

    monkeypatch.setattr(dask_cluster, "ANSWER_S", 0.2)
    cluster = object.__new__(dask_cluster.DaskCluster)
    cluster._client, cluster._answers = SimpleNamespace(run=run, status="running"), {}
    assert cluster.abouts(["frozen", "one", "gone"]) == {"one": about()}
    assert cluster.abouts(["frozen"]) == {}
    thaw.set()
    wait(list(cluster._answers.values()))
    assert cluster.abouts(["frozen"]) == {"frozen": about()}


def test_where_all_who_are_left_differ_the_run_ends_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sending, "ALONE_S", 0.0)

    def change(said: dict[str, Any]) -> dict[str, Any]:
        cluster.workers = {"new": {**about(), "scipy": "1.0"}}
        return said

    cluster = FakeCluster(spoil={"rain/3a": [change]})
    with pytest.raises(SonifyError, match=r"worker new .* scipy 1\.0"):
        sent(tmp_path, [named(folder) for folder in WANTED], cluster)
    assert sorted(tokens(tmp_path)) == WANTED[:1] and nothing_left(tmp_path)


def test_packs_that_all_who_might_make_them_left_behind_are_given_to_those_who_came(tmp_path: Path) -> None:
    def change(said: dict[str, Any]) -> dict[str, Any]:
        cluster.workers = {"three": about()}
        return said

    cluster = FakeCluster(spoil={"rain/3a": [change]})
    assert sorted(sent(tmp_path, [named(folder) for folder in WANTED], cluster).made) == WANTED
    assert set(cluster.makers[1:]) == {"three"}


def test_a_worker_tells_what_it_is_and_what_it_has_become(monkeypatch: pytest.MonkeyPatch) -> None:
    parcel = {"about": {**about(), "scipy": "1.0"}}
    assert far.made(parcel)["differs"] == about()
    monkeypatch.setattr(far, "about_now", lambda: {**about(), "files": "new"})  # installed while it runs
    assert far.made({"about": about()})["differs"]["files"] == "new"
    monkeypatch.setattr(sys, "getfilesystemencoding", lambda: "ascii")  # as a worker without a locale has it
    assert {name for name, each in about_now().items() if each != about()[name]} == {"letters"}


def test_what_a_worker_that_was_killed_unpacked_goes_with_the_next_parcel(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    (tmp_path / "sonify-parcel-of-a-person").mkdir()
    code = (
        "from sonify.storage.scratch import scratch_folder\n"
        f"with scratch_folder({far.PREFIX!r}) as folder: print(folder, flush=True); input()"
    )
    command = [sys.executable, "-c", code]
    env = {**os.environ, "TMPDIR": str(tmp_path)}
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=env) as other:
        assert other.stdout is not None
        folder = Path(other.stdout.readline().strip())
        (folder / "class.toml").write_text("needs", encoding="utf-8")
        with scratch_folder(far.PREFIX):
            assert (folder / "class.toml").exists()  # still at work
        other.kill()
    with scratch_folder(far.PREFIX) as own:
        assert {path.name for path in tmp_path.iterdir()} == {own.name, "sonify-parcel-of-a-person"}
    assert [path.name for path in tmp_path.iterdir()] == ["sonify-parcel-of-a-person"]


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
