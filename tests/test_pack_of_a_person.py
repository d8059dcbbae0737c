"""What a person has in or beside a pack's folder is never lost in silence: links, neighbours, own files, edits."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import tempfile
import textwrap
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from sonify.errors import InUse, PackInTheWay, SonifyError
from sonify.storage import workshop
from sonify.storage.pack import MANIFEST, building, check_place
from tests.test_pack import leftovers, make

POSIX = pytest.mark.skipif(os.name == "nt", reason="POSIX links, FIFOs and signals")
NOBODY = 65_534


def tree(folder: Path) -> dict[str, bytes | None]:
    """Everything in a folder: file name -> bytes, None for a folder."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() if p.is_file() else None for p in folder.rglob("*")}


def open_to_all(folder: Path) -> None:
    """Let others than root come to a folder of this test; pytest closes those above it, more of them with workers."""
    for above in folder.parents:
        if above == Path(tempfile.gettempdir()):
            return
        above.chmod(0o755)


@contextmanager
def not_root() -> Iterator[None]:
    """Run as a user whom permissions hold, where the tests run as root."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


# --- where it is put -------------------------------------------------------------------------------------------------


@POSIX
def test_a_link_is_followed_to_the_folder_behind_it(tmp_path: Path) -> None:
    (tmp_path / "drive").mkdir()
    (tmp_path / "pack").symlink_to("drive")
    for text in ("one", "two"):
        make(tmp_path / "pack", text)
        assert (tmp_path / "pack").is_symlink()
        assert (tmp_path / "drive" / "page.html").read_text(encoding="utf-8") == text
    assert sorted(p.name for p in tmp_path.iterdir()) == ["drive", "pack"]


@POSIX
@pytest.mark.parametrize("leads_to", ["nowhere", "pack"])
def test_a_link_to_nothing_is_refused_and_stays(tmp_path: Path, leads_to: str) -> None:
    (tmp_path / "pack").symlink_to(leads_to)
    with pytest.raises(PackInTheWay, match="is a link to"):
        make(tmp_path / "pack")
    assert os.readlink(tmp_path / "pack") == leads_to
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.parametrize("name", ["*", "[a-z]*", "?"])
def test_a_neighbour_is_nobody_s_leftover(tmp_path: Path, name: str) -> None:
    """The out name is no pattern, and no name of a folder makes it ours."""
    if os.name == "nt" and not name.startswith("["):
        pytest.skip("no file name there")
    for folder in (".my.building-plans", ".pack.building-site", ".pack.previous", ".pack.building-999999", ".sonify-x"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "plan.txt").write_text("mine", encoding="utf-8")
    before = tree(tmp_path)
    for out in (tmp_path / name, tmp_path / "pack"):
        make(out)
    assert {name: data for name, data in tree(tmp_path).items() if name in before} == before


def test_a_folder_that_has_a_workshop_s_name_and_is_none_is_left_alone(tmp_path: Path) -> None:
    theirs = workshop.workshop_of(tmp_path / "pack")
    theirs.mkdir()
    (theirs / "new").mkdir()
    (theirs / "new" / "plan.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(SonifyError, match="not sonify's"):
        make(tmp_path / "pack")
    (theirs / workshop.MARKER).write_text("my own words", encoding="utf-8")
    with pytest.raises(SonifyError, match="not sonify's"):
        make(tmp_path / "pack")
    assert (theirs / "new" / "plan.txt").read_text(encoding="utf-8") == "mine"


def test_the_folder_one_is_in_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "pack" / "deep").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "pack" / "deep")
    for out in (Path(), Path(".."), tmp_path / "pack"):
        with pytest.raises(PackInTheWay, match="the folder you are in"):
            make(out)
    make(Path("pack"))


@POSIX
def test_a_whole_drive_is_refused() -> None:
    with pytest.raises(PackInTheWay, match="whole drive"):
        make(Path("/proc"))


def test_a_name_of_250_letters_is_as_good_as_any_and_a_longer_one_is_told(tmp_path: Path) -> None:
    make(tmp_path / ("n" * 250))
    assert (tmp_path / ("n" * 250) / MANIFEST).is_file()
    with pytest.raises(SonifyError, match="n: the pack could not be written|cannot be a folder"):
        make(tmp_path / ("n" * 300))


@POSIX
def test_a_folder_that_could_not_be_cleared_away_is_told_before_any_work(tmp_path: Path) -> None:
    tmp_path.chmod(0o777)
    open_to_all(tmp_path)
    with not_root():
        make(tmp_path / "pack")
        (tmp_path / "pack" / "stems").chmod(0o555)
        with pytest.raises(PackInTheWay, match="stems is read-only"):
            check_place(tmp_path / "pack")
        (tmp_path / "pack" / "stems").chmod(0o755)
        make(tmp_path / "pack", "two")
    assert leftovers(tmp_path) == []


@POSIX
@pytest.mark.parametrize("closed", ["page.html", "stems"])
def test_what_cannot_be_read_is_named(tmp_path: Path, closed: str) -> None:
    tmp_path.chmod(0o777)
    open_to_all(tmp_path)
    with not_root():
        make(tmp_path / "pack")
        (tmp_path / "pack" / closed).chmod(0)
        with pytest.raises(PackInTheWay, match=rf"{closed} cannot be read \(Permission denied\)"):
            check_place(tmp_path / "pack", replace=True)
        (tmp_path / "pack" / closed).chmod(0o755)


# --- what is in it ---------------------------------------------------------------------------------------------------


def empty_folder(out: Path) -> str:
    (out / "mine").mkdir()
    return "mine"


def fifo(out: Path) -> str:
    os.mkfifo(out / "mine")
    return "mine"


def own_file_where_a_folder_was(out: Path) -> str:
    (out / "stems" / "a.wav").unlink()
    (out / "stems").rmdir()
    (out / "stems").write_text("mine", encoding="utf-8")
    return "stems"


def folder_where_a_file_was(out: Path) -> str:
    (out / "page.html").unlink()
    (out / "page.html").mkdir()
    return "page.html"


def dangling_link(out: Path) -> str:
    (out / "page.html").unlink()
    (out / "page.html").symlink_to("nowhere")
    return "page.html"


def edited_manifest(out: Path) -> str:
    facts = json.loads((out / MANIFEST).read_text(encoding="utf-8"))
    (out / MANIFEST).write_text(json.dumps({**facts, "toolkit": "sonify 0", "my notes": "mine"}), encoding="utf-8")
    return MANIFEST


def spaced_manifest(out: Path) -> str:
    text = (out / MANIFEST).read_text(encoding="utf-8")
    (out / MANIFEST).write_text(text + "\n", encoding="utf-8")
    return MANIFEST


OWN = [
    empty_folder,
    fifo,
    own_file_where_a_folder_was,
    folder_where_a_file_was,
    dangling_link,
    edited_manifest,
    spaced_manifest,
]


def kinds(folder: Path) -> dict[str, tuple[int, str]]:
    found = {}
    for path in folder.rglob("*"):
        info = path.lstat()
        found[path.relative_to(folder).as_posix()] = (info.st_mode, os.readlink(path) if path.is_symlink() else "")
    return found


@POSIX
@pytest.mark.parametrize("change", OWN)
def test_whatever_a_person_did_in_a_pack_is_named_and_stays(tmp_path: Path, change: Callable[[Path], str]) -> None:
    out = tmp_path / "pack"
    make(out)
    name = change(out)
    before = kinds(out)
    with pytest.raises(PackInTheWay, match=name):
        make(out, "two")
    assert kinds(out) == before
    assert leftovers(tmp_path) == []


@POSIX
@pytest.mark.parametrize("change", [fifo, own_file_where_a_folder_was, folder_where_a_file_was])
def test_replace_refuses_what_it_can_neither_keep_nor_overwrite(tmp_path: Path, change: Callable[[Path], str]) -> None:
    out = tmp_path / "pack"
    make(out)
    name = change(out)
    before = kinds(out)
    with pytest.raises(PackInTheWay, match=f"{name}.*--replace would lose"):
        make(out, "two", replace=True)
    assert kinds(out) == before
    assert leftovers(tmp_path) == []


@POSIX
def test_replace_overwrites_a_changed_file_even_a_link_and_keeps_empty_folders_and_links(tmp_path: Path) -> None:
    out = tmp_path / "pack"
    make(out)
    dangling_link(out)
    edited_manifest(out)
    (out / "deep" / "mine").mkdir(parents=True)
    (out / "shortcut").symlink_to("../elsewhere")
    make(out, "two", replace=True)
    assert (out / "page.html").read_text(encoding="utf-8") == "two"
    assert (out / "deep" / "mine").is_dir()
    assert os.readlink(out / "shortcut") == "../elsewhere"
    assert "my notes" not in json.loads((out / MANIFEST).read_text(encoding="utf-8"))


def test_replace_never_writes_over_an_added_file_that_the_new_pack_has_too(tmp_path: Path) -> None:
    out = tmp_path / "pack"
    make(out)
    (out / "soundscape.flac").write_text("mine", encoding="utf-8")
    with pytest.raises(PackInTheWay, match="soundscape.flac"), building(out, {}, replace=True) as work:
        (work / "soundscape.flac").write_text("theirs", encoding="utf-8")
    assert (out / "soundscape.flac").read_text(encoding="utf-8") == "mine"
    assert leftovers(tmp_path) == []


@pytest.mark.parametrize("text", ['{"files": {}}', '{"files": {"a": "b"}}', '{"toolkit": "other", "files": {}}', "[]"])
@pytest.mark.parametrize("replace", [False, True])
def test_a_foreign_manifest_makes_no_pack(tmp_path: Path, text: str, replace: bool) -> None:
    (tmp_path / "game").mkdir()
    (tmp_path / "game" / MANIFEST).write_text(text, encoding="utf-8")
    with pytest.raises(PackInTheWay, match="no lesson pack"):
        make(tmp_path / "game", replace=replace)
    assert tree(tmp_path / "game") == {MANIFEST: text.encode()}


def test_a_file_saved_into_the_old_pack_in_the_very_last_moment_is_not_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "pack"
    make(out)
    real = workshop.swapped

    def saved_just_before(shop: Path, target: Path) -> Path | None:
        (target / "notes.txt").write_text("mine", encoding="utf-8")
        return real(shop, target)

    monkeypatch.setattr("sonify.storage.pack.swapped", saved_just_before)
    with pytest.raises(PackInTheWay, match="was changed while"):
        make(out, "two")
    assert (out / "notes.txt").read_text(encoding="utf-8") == "mine"
    assert (out / "page.html").read_text(encoding="utf-8") == "one"
    assert leftovers(tmp_path) == []


# --- several at once, and what was killed ----------------------------------------------------------------------------

HELD = textwrap.dedent("""
    import sys, time
    from pathlib import Path
    from sonify.storage.pack import building
    with building(Path(sys.argv[1]), {}) as work:
        (work / "page.html").write_text("half")
        print("ready", flush=True)
        time.sleep(60)
""")


@contextmanager
def another_make(out: Path) -> Iterator[subprocess.Popen[bytes]]:
    with subprocess.Popen([sys.executable, "-c", HELD, str(out)], stdout=subprocess.PIPE) as child:
        try:
            assert child.stdout is not None and child.stdout.readline().strip() == b"ready"
            yield child
        finally:
            child.kill()


def test_a_second_make_of_one_folder_is_told_of_the_first(tmp_path: Path) -> None:
    make(tmp_path / "pack")
    with another_make(tmp_path / "pack"):
        with pytest.raises(InUse, match="another make is writing this folder"):
            check_place(tmp_path / "pack")
        with pytest.raises(InUse, match="another make is writing this folder"):
            make(tmp_path / "pack")
        make(tmp_path / "beside")
    assert (tmp_path / "pack" / "page.html").read_text(encoding="utf-8") == "one"


LEFT_BEHIND = textwrap.dedent("""
    import os, sys, time
    from pathlib import Path
    from sonify.storage.pack import building
    with building(Path(sys.argv[1]), {}) as work:
        if os.fork() == 0:
            time.sleep(1.0)  # as the copy that helps with the recording, which holds the lock, too
            os._exit(0)
        print("ready", flush=True)
        time.sleep(60)
""")


@POSIX
def test_a_helper_that_outlives_a_killed_make_by_a_moment_is_waited_for(tmp_path: Path) -> None:
    with subprocess.Popen([sys.executable, "-c", LEFT_BEHIND, tmp_path / "pack"], stdout=subprocess.PIPE) as child:
        assert child.stdout is not None and child.stdout.readline().strip() == b"ready"
        child.kill()
    check_place(tmp_path / "pack")
    assert leftovers(tmp_path) == []


@POSIX
def test_a_process_number_that_lives_again_is_not_taken_for_a_make(tmp_path: Path) -> None:
    """The marker's lock dies with its process, whatever process has that number now."""
    with another_make(tmp_path / "pack") as child:
        child.send_signal(signal.SIGKILL)
        child.wait()
    marker = workshop.workshop_of(tmp_path / "pack") / workshop.MARKER
    marker.write_text(json.dumps({**json.loads(marker.read_text()), "process": os.getpid()}), encoding="utf-8")
    make(tmp_path / "pack", "two")
    assert (tmp_path / "pack" / "page.html").read_text(encoding="utf-8") == "two"
    assert leftovers(tmp_path) == []


def between_the_renames(out: Path) -> Path:
    """The state that a kill between the two renames leaves, on a system that has no exchange."""
    make(out)
    shop = workshop.workshop_of(out)
    shop.mkdir()
    (shop / workshop.MARKER).write_text(json.dumps({"sonify": "workshop", "for": out.name}), encoding="utf-8")
    (shop / "new").mkdir()
    out.rename(shop / "previous")
    return shop


def test_an_interrupted_swap_is_put_right(tmp_path: Path) -> None:
    between_the_renames(tmp_path / "pack")
    check_place(tmp_path / "pack")
    assert (tmp_path / "pack" / "page.html").read_text(encoding="utf-8") == "one"
    assert leftovers(tmp_path) == []


def test_an_interrupted_swap_is_not_put_over_what_a_person_made_meanwhile(tmp_path: Path) -> None:
    shop = between_the_renames(tmp_path / "pack")
    (tmp_path / "pack").mkdir()
    for _ in range(2):
        with pytest.raises(SonifyError, match="before a make that was interrupted"):
            make(tmp_path / "pack", "two")
        assert (shop / "previous" / "page.html").read_text(encoding="utf-8") == "one"
    (tmp_path / "pack").rmdir()
    make(tmp_path / "pack", "two")
    assert leftovers(tmp_path) == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the exchange of Linux")
def test_the_swap_is_one_exchange_where_the_system_has_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    (tmp_path / "a" / "was-a").touch()
    assert workshop.exchanged(tmp_path / "a", tmp_path / "b")
    assert (tmp_path / "b" / "was-a").exists() and not (tmp_path / "a" / "was-a").exists()

    def never(one: Path, other: Path) -> None:
        raise AssertionError("renamed where an exchange is to be had")

    make(tmp_path / "pack")
    monkeypatch.setattr(os, "rename", never)
    make(tmp_path / "pack", "two")
    assert (tmp_path / "pack" / "page.html").read_text(encoding="utf-8") == "two"


def test_everything_is_on_the_disk_before_the_swap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every file and folder of the new pack is flushed, then it is swapped in, then the folder that holds it."""
    steps: list[str] = []
    real_fsync, real_swapped = os.fsync, workshop.swapped

    def fsync(handle: int) -> None:
        steps.append(Path(os.readlink(f"/proc/self/fd/{handle}")).name)
        real_fsync(handle)

    def swapped(shop: Path, target: Path) -> Path | None:
        steps.append("SWAP")
        return real_swapped(shop, target)

    if not Path("/proc/self/fd").is_dir():
        pytest.skip("needs /proc to tell which file is flushed")
    monkeypatch.setattr(os, "fsync", fsync)
    monkeypatch.setattr("sonify.storage.pack.swapped", swapped)
    make(tmp_path / "pack")
    before, after = steps[: steps.index("SWAP")], steps[steps.index("SWAP") + 1 :]
    assert set(before) == {"a.wav", "stems", "page.html", MANIFEST, "new"}
    assert before.index("a.wav") < before.index("stems") < before.index("new")
    assert after == [tmp_path.name]


@POSIX
def test_a_request_to_stop_within_the_swap_waits_until_it_is_done(tmp_path: Path) -> None:
    before = signal.signal(signal.SIGINT, signal.default_int_handler)  # the tests may run with Ctrl-C ignored
    try:
        with workshop.uninterrupted():
            os.kill(os.getpid(), signal.SIGINT)
        with pytest.raises(KeyboardInterrupt), workshop.uninterrupted():
            os.kill(os.getpid(), signal.SIGINT)
            raise OSError("the swap failed")
        assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    finally:
        signal.signal(signal.SIGINT, before)
