"""What a run of many packs does after failures and interruptions: nothing twice, nothing missing, nothing hidden."""

from __future__ import annotations

import random
from pathlib import Path

import mido
import numpy as np
import pytest
import soundfile

from sonify.batch import Ledger, Row
from sonify.batch.ledger import NAME, sealed
from sonify.errors import InUse, PackInTheWay, SonifyError
from sonify.storage.pack import MANIFEST, _is_cut, whole
from tests.batch.stub import CARD
from tests.batch.stubbed import lines, made, pair, tokens

WANTED = ["rain/3a", "rain/4b", "sea/3a"]


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[Row]]:
    """A run with one pair that is refused, one whose worker breaks down for good and one whose worker breaks once."""
    out, told = tmp_path_factory.mktemp("trust"), list[Row]()
    hows = {"sea/4b": "refused", "sea/5c": "breaks", "rain/5c": "breaks once"}
    pairs = [pair(folder) for folder in WANTED] + [pair(folder, how) for folder, how in hows.items()]
    found = made(out, pairs, told.append)
    assert sorted(found.made) == sorted([*WANTED, "rain/5c"])
    assert found.left == ()
    return out, told


def test_what_fails_fails_alone_and_says_why(first: tuple[Path, list[Row]]) -> None:
    out, told = first
    assert [(row.folder, row.state) for row in told] == [("sea/4b", "failed"), ("sea/5c", "failed")]
    assert told[0].why == "no such thing"
    assert "twice" in told[1].why and "7" in told[1].why
    assert sorted(tokens(out)) == sorted([*WANTED, "rain/5c"])
    assert lines(out, "folder, state, times") == [
        ("rain/3a", "made", 1),
        ("rain/4b", "made", 1),
        ("rain/5c", "made", 1),
        ("sea/3a", "made", 1),
        ("sea/4b", "failed", 0),
        ("sea/5c", "failed", 0),
    ]


def test_the_next_run_makes_what_is_missing_or_of_other_inputs_and_nothing_else(first: tuple[Path, list[Row]]) -> None:
    out, _ = first
    before = tokens(out)
    pairs = [pair("rain/3a"), pair("rain/4b", version="2"), pair("sea/3a"), pair("sea/4b"), pair("sea/6d")]
    found = made(out, pairs)
    assert (sorted(found.made), found.standing) == (["rain/4b", "sea/4b", "sea/6d"], ("rain/3a", "sea/3a"))
    after = tokens(out)
    assert {folder for folder in before if after[folder] != before[folder]} == {"rain/4b"}
    assert 'href="sea/6d/page.html"' in (out / "index.html").read_text(encoding="utf-8")


def test_work_by_hand_is_refused_for_its_pack_alone(tmp_path: Path) -> None:
    made(tmp_path, [pair("rain/3a")])
    (tmp_path / "rain/3a/page.html").write_text("mine", encoding="utf-8")
    (tmp_path / "rain/3a" / MANIFEST).unlink()
    found = made(tmp_path, [pair("rain/3a"), pair("rain/4b")])
    assert [row.folder for row in found.failed] == ["rain/3a"]
    assert found.made == ("rain/4b",)
    assert (tmp_path / "rain/3a/page.html").read_text(encoding="utf-8") == "mine"


def test_a_kill_between_the_swap_and_the_ledger_makes_nothing_twice(tmp_path: Path) -> None:
    """The pack stands, the ledger says "begun": found whole and other than before, it counts."""
    wanted = pair("rain/3a")
    made(tmp_path, [wanted])
    token = tokens(tmp_path)
    with Ledger(tmp_path, "stamp") as ledger:
        ledger._write(wanted, state="begun", before="", times=0)
    assert made(tmp_path, [wanted]).standing == ("rain/3a",)
    assert tokens(tmp_path) == token
    with Ledger(tmp_path, "stamp") as ledger:  # begun over a pack that still stands: not made yet
        ledger._write(wanted, state="begun", before=ledger.manifest_of("rain/3a"))
        assert not ledger.stands(wanted)
        ledger._write(wanted, state="begun", before="")
        (tmp_path / "rain/3a/page.html").write_text("cut", encoding="utf-8")
        assert not whole(tmp_path / "rain/3a") and not ledger.stands(wanted)


def test_a_pack_that_lost_a_file_is_made_again_and_one_changed_by_hand_is_not(tmp_path: Path) -> None:
    wanted = pair("rain/3a")
    made(tmp_path, [wanted])
    page = tmp_path / "rain/3a/page.html"
    page.write_text("mine", encoding="utf-8")
    assert made(tmp_path, [wanted]).standing == ("rain/3a",)
    page.write_bytes(b"")
    with Ledger(tmp_path, "stamp") as ledger:
        assert not ledger.stands(wanted)
    page.unlink()
    assert made(tmp_path, [wanted]).made == ("rain/3a",)
    assert whole(tmp_path / "rain/3a")


def test_a_copy_that_was_cut_short_does_not_stand_and_a_page_made_shorter_by_hand_does(tmp_path: Path) -> None:
    """Where a file has its proper end it is a person's; the make that follows says which file is in its way."""
    wanted = pair("rain/3a")
    made(tmp_path, [wanted])
    page = tmp_path / "rain/3a/page.html"
    page.write_text("p", encoding="utf-8")
    (told,) = made(tmp_path, [wanted]).failed
    assert "page.html (changed)" in told.why
    page.write_text("</html>", encoding="utf-8")  # not longer than what the stub wrote
    with Ledger(tmp_path, "stamp") as ledger:
        ledger._write(wanted, state="made", sizes=sealed({"page.html": 1_000, "token.txt": 16}))
        assert ledger.stands(wanted)
        ledger._write(wanted, sizes=sealed({"page.html": 1_000, "token.txt": 17}))
        assert ledger.stands(wanted)


def test_what_a_person_made_shorter_stays_whatever_its_kind_and_a_cut_copy_does_not(tmp_path: Path) -> None:
    """Each file cut in its middle, and as a person shortens it: texts have no end of their own, and count as hers."""
    mid, wav, song = tmp_path / "a.mid", tmp_path / "a.wav", mido.MidiFile()
    song.add_track().extend([mido.Message("note_on", note=60), mido.Message("note_off", note=60, time=480)])
    song.save(mid)
    soundfile.write(wav, np.zeros(8_000), 8_000)
    (tmp_path / "a.json").write_text('{"notes": [60, 62, 64, 65]}', encoding="utf-8")
    for path in (mid, wav, tmp_path / "a.json"):
        data = path.read_bytes()
        assert not _is_cut(path, len(data) + 100)  # a person's, shorter and whole
        for left in (1, 4, len(data) // 2, len(data) - 2):
            path.write_bytes(data[:left])
            assert _is_cut(path, len(data)), (path.name, left)
    for name in ("README.txt", "science.csv", "notes.md"):
        path = tmp_path / name
        path.write_text("less", encoding="utf-8")
        assert not _is_cut(path, 1_000)
        path.write_bytes(b"")
        assert _is_cut(path, 1_000)


def test_a_try_that_fails_leaves_the_pack_that_stands_on_the_shelf_as_it_is(tmp_path: Path) -> None:
    made(tmp_path, [pair("rain/3a"), pair("rain/4b")])
    with Ledger(tmp_path, "stamp") as ledger:  # the first was made by a run that did not live to note it
        ledger._write(pair("rain/3a"), state="begun", before="", manifest="", times=0)
    token = tokens(tmp_path)
    tries = [pair("rain/3a", "refused", version="2"), pair("rain/4b", "breaks", version="2")]
    assert {row.folder for row in made(tmp_path, tries).failed} == {"rain/3a", "rain/4b"}
    with Ledger(tmp_path, "stamp") as ledger:
        ledger.card(pair("rain/4b"), {**CARD, "title": "Another"})  # of a try that came so far
        assert {folder: card["title"] for folder, card in ledger.cards()} == dict.fromkeys(tokens(tmp_path), "rain")
    assert tokens(tmp_path) == token
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert 'href="rain/3a/page.html"' in page and 'href="rain/4b/page.html"' in page


def test_a_damaged_line_of_the_ledger_is_told(tmp_path: Path) -> None:
    made(tmp_path, [pair("rain/3a")])
    with Ledger(tmp_path, "stamp") as ledger:
        ledger._write(pair("rain/3a"), shown=sealed(CARD).replace("28", "29"))
        with pytest.raises(SonifyError, match="damaged"):
            list(ledger.cards())
        ledger._lines.execute("UPDATE packs SET folder = ?, manifest = 'x'", ("rain/3\0a",))
        with pytest.raises(SonifyError, match="damaged"):
            list(ledger.cards())
        ledger._lines.execute("DROP TABLE about")
        with pytest.raises(SonifyError, match="cannot be written"):
            ledger.about("form")


def test_a_damaged_ledger_is_told_whatever_the_damage(tmp_path: Path) -> None:
    """Bytes, pages and words of it changed, and its end cut off: one message each time, or nothing that matters."""
    pairs = [pair(f"scene-{n % 5}/class {n}") for n in range(60)]
    with Ledger(tmp_path, "stamp") as ledger:
        for each in pairs:
            ledger.expect(each)
            ledger.card(each, CARD)
    lot, whole_one, told = random.Random(19), (tmp_path / NAME).read_bytes(), 0
    for _ in range(40):
        data = bytearray(whole_one)
        place = lot.randrange(len(data))
        for _ in range(30):
            data[lot.randrange(len(data))] = lot.randrange(256)
        data[place:] = lot.choice((data[place:], b"", bytes(len(data) - place)))
        (tmp_path / NAME).write_bytes(data)
        try:
            with Ledger(tmp_path, "stamp") as ledger:
                for each in pairs:
                    ledger.expect(each)
                    assert not ledger.stands(each)
                assert list(ledger.cards()) == []
        except SonifyError:
            told += 1
    assert told > 30
    (tmp_path / NAME).write_bytes(whole_one)
    with Ledger(tmp_path, "stamp") as ledger:  # two lines of one pack cannot be, and none of a pack that is expected
        ledger._lines.execute("DELETE FROM packs")
        with pytest.raises(SonifyError, match="damaged"):
            ledger.row(pairs[0])


def test_one_run_at_a_time_and_no_place_that_is_something_else(tmp_path: Path) -> None:
    out = tmp_path / "trust"
    with Ledger(out, "stamp"), pytest.raises(InUse, match="another run"):
        Ledger(out, "stamp")
    (out / "index.html").write_text("mine", encoding="utf-8")
    with pytest.raises(PackInTheWay, match=r"index\.html"):
        made(out, [])
    assert (out / "index.html").read_text(encoding="utf-8") == "mine"
    (tmp_path / NAME).write_text("no ledger " * 200, encoding="utf-8")
    with pytest.raises(SonifyError, match="is no ledger"):
        Ledger(tmp_path, "stamp")
    (tmp_path / NAME).unlink()
    (tmp_path / MANIFEST).touch()
    with pytest.raises(PackInTheWay, match="lesson pack itself"):
        Ledger(tmp_path, "stamp")


def test_the_stub_tells_what_a_real_worker_tells() -> None:
    from sonify import lesson
    from sonify.page.shelf import card_of

    assert card_of(lesson.study("two-cups")).keys() == CARD.keys()
