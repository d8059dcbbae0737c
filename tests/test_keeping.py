"""What is kept of a person's work: whole whatever happens, found again, taken back, forgotten."""

from __future__ import annotations

import errno
import json
import os
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from sonify.records.kept import CLASS, MOST_STATES, PLAN, Kept, State
from sonify.storage import keeping
from sonify.storage.keeping import LAPSES_S, ONE_STATE_S, CannotKeep, Keeping, kept_of, text_of

ONE, OTHER = "0123456789abcdef", "fedcba9876543210"
KEY = "0" * 32
CUPS = {"scene": {"name": "two-cups"}, "set": {}}
TABLE = {"scene": {"text": "title = 1", "file": "a.toml", "csv_key": KEY}, "set": {}}


@pytest.fixture
def kept(tmp_path: Path) -> Keeping:
    return Keeping(tmp_path / "ours" / "kept")


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[float]]:
    """The time of day, to be moved on."""
    now = [1_000_000.0]
    monkeypatch.setattr(time, "time", lambda: now[0])
    yield now


def windy(speed: int) -> dict[str, object]:
    return {**CUPS, "set": {"wind": f"{speed} m/s"}}


def test_what_is_kept_is_there_for_the_next_program(kept: Keeping) -> None:
    kept.keep(PLAN, ONE, "Two cups", CUPS)
    kept.keep(CLASS, ONE, "4B", {"class": {"pupils": 24}})
    found = Keeping(kept.place).all()
    assert [(each.kind, each.name, each.newest.held) for each in sorted(found, key=lambda each: each.kind)] == [
        (CLASS, "4B", {"class": {"pupils": 24}}),
        (PLAN, "Two cups", CUPS),
    ]


def test_names_are_one_line_and_each_its_own(kept: Keeping) -> None:
    assert kept.keep(PLAN, ONE, " Two\tcups\n", CUPS).name == "Two cups"
    assert kept.keep(PLAN, OTHER, "Two cups", CUPS).name == "Two cups 2"
    assert kept.keep(CLASS, ONE, "Two cups", {"class": {}}).name == "Two cups"
    assert kept.rename(PLAN, OTHER, "Two cups").name == "Two cups 2"
    assert kept.rename(PLAN, OTHER, "Monday").name == "Monday"
    assert kept.keep(PLAN, OTHER, "Two cups", windy(2)).name == "Monday"
    with pytest.raises(CannotKeep, match="at least one letter"):
        kept.rename(PLAN, ONE, " \u200b\n")


def test_the_last_twenty_states_are_there_and_a_minute_is_one_of_them(kept: Keeping, clock: list[float]) -> None:
    for speed in range(30):
        clock[0] += 2 * ONE_STATE_S
        kept.keep(PLAN, ONE, "a", windy(speed))
    states = kept.one(PLAN, ONE).states
    assert [state.held["set"]["wind"] for state in states] == [f"{n} m/s" for n in range(30 - MOST_STATES, 30)]
    for speed in (50, 51, 52):
        clock[0] += 1
        kept.keep(PLAN, ONE, "a", windy(speed))
    assert [state.held["set"]["wind"] for state in kept.one(PLAN, ONE).states[-2:]] == ["28 m/s", "52 m/s"]
    clock[0] += 2 * ONE_STATE_S
    assert kept.keep(PLAN, ONE, "a", windy(52)).states[-1].at_s < clock[0], "what did not change is no state"


def test_delete_is_taken_back_until_it_lapses(kept: Keeping, clock: list[float]) -> None:
    kept.keep(PLAN, ONE, "a", TABLE, "t,x\n1,2\n")
    kept.delete(PLAN, ONE)
    clock[0] += LAPSES_S - 1
    assert [each.gone_s is not None for each in kept.all()] == [True]
    kept.undelete(PLAN, ONE)
    assert kept.one(PLAN, ONE).gone_s is None and kept.readings(KEY) == "t,x\n1,2\n"
    kept.delete(PLAN, ONE)
    clock[0] += LAPSES_S + 1
    assert kept.all() == []
    assert [path for path in kept.place.rglob("*") if path.is_file()] == [kept.place / "lock"]


def test_a_table_stays_as_long_as_a_state_names_it(kept: Keeping, clock: list[float]) -> None:
    kept.keep(PLAN, ONE, "a", TABLE, "t,x\n1,2\n")
    kept.keep(PLAN, OTHER, "b", TABLE)
    for speed in range(MOST_STATES):
        assert kept.has_readings(KEY)
        clock[0] += 2 * ONE_STATE_S
        kept.keep(PLAN, ONE, "a", windy(speed))
    assert kept.has_readings(KEY), "the other plan needs it"
    kept.delete(PLAN, OTHER)
    kept.lapse()
    assert not kept.has_readings(KEY)
    with pytest.raises(CannotKeep, match="open its file again"):
        kept.readings(KEY)


def test_a_file_that_grows_too_long_loses_its_oldest_states(
    kept: Keeping, monkeypatch: pytest.MonkeyPatch, clock: list[float]
) -> None:
    monkeypatch.setattr(keeping, "MOST_BYTES", 3000)
    for speed in range(4):
        clock[0] += 2 * ONE_STATE_S
        kept.keep(PLAN, ONE, "a", {**windy(speed), "scene": {"text": "x" * 800, "file": "a.toml"}})
    found = Keeping(kept.place).one(PLAN, ONE)
    assert [state.held["set"]["wind"] for state in found.states] == ["2 m/s", "3 m/s"]
    with pytest.raises(CannotKeep, match="stays as it was"):
        kept.keep(PLAN, ONE, "a", {**CUPS, "text": "x" * 4000})
    assert Keeping(kept.place).one(PLAN, ONE) == found


def test_what_was_deleted_makes_room_for_a_new_table(kept: Keeping, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(keeping, "MOST_READINGS_BYTES", 10)
    kept.keep(PLAN, ONE, "a", TABLE, "t,x\n1,2\n")
    other = {"scene": {**TABLE["scene"], "csv_key": "1" * 32}, "set": {}}
    with pytest.raises(CannotKeep, match="delete a plan"):
        kept.keep(PLAN, OTHER, "b", other, "t,x\n3,4\n")
    kept.delete(PLAN, ONE)
    kept.keep(PLAN, OTHER, "b", other, "t,x\n3,4\n")
    assert kept.readings("1" * 32) == "t,x\n3,4\n"
    assert not kept.has_readings(KEY)


def test_forget_leaves_nothing_but_what_is_not_ours(kept: Keeping) -> None:
    kept.keep(PLAN, ONE, "a", TABLE, "t,x\n1,2\n")
    kept.keep(CLASS, OTHER, "4B", {"class": {"needs": ["large print"]}})
    kept.delete(PLAN, ONE)
    (kept.place / "plans" / ".1f.part").write_text("half", encoding="utf-8")
    mine = kept.place / "plans" / "my notes.txt"
    mine.write_text("mine", encoding="utf-8")
    kept.forget()
    assert sorted(path for path in kept.place.rglob("*") if path.is_file()) == [kept.place / "lock", mine]


def test_what_is_spoilt_or_not_ours_is_passed_over_and_never_followed(kept: Keeping, tmp_path: Path) -> None:
    kept.keep(PLAN, ONE, "a", CUPS)
    good = (kept.place / "plans" / f"{ONE}.json").read_text(encoding="utf-8")
    secret = tmp_path / "secret.json"
    secret.write_text(good.replace(ONE, OTHER), encoding="utf-8")
    (kept.place / "plans" / f"{OTHER}.json").symlink_to(secret)
    for number, text in enumerate(("", "[]", "{", "[" * 100_000, good[:-30], good.replace('"kept"', '"other"'), good)):
        (kept.place / "plans" / f"{number:016d}.json").write_text(text, encoding="utf-8")
    assert [each.id for each in kept.all()] == [ONE], "a link, a spoilt file and one under another's name"
    for name in ("../../secret", "..", "", "x" * 16, f"{ONE}/", ONE.upper()):
        with pytest.raises(CannotKeep):
            kept.one(PLAN, name)
        with pytest.raises(CannotKeep):
            kept.keep("../plans", ONE, "a", CUPS)
        with pytest.raises(CannotKeep):
            kept.readings(name)
    kept.keep(PLAN, f"{1:016d}", "new", CUPS)
    assert (kept.place / "plans" / f"{1:016d}.spoilt").read_text(encoding="utf-8") == "[]", "moved aside, not lost"


def test_a_file_reads_back_as_it_was() -> None:
    one = Kept(kind=PLAN, id=ONE, name="é", states=(State(at_s=1.5, held=windy(3)),), gone_s=2.0)
    assert kept_of(text_of(one), PLAN, ONE) == one
    facts = json.loads(text_of(one))
    spoilt = ({"form": 2}, {"states": []}, {"states": [1]}, {"gone_s": "x"}, {"gone_s": 10**400})
    for wrong in (*spoilt, *({"name": name} for name in (3, [[1]], {"a": 1}, None, True))):
        with pytest.raises(ValueError):
            kept_of(json.dumps({**facts, **wrong}), PLAN, ONE)
    with pytest.raises(ValueError):
        kept_of(text_of(replace(one, gone_s=float("nan"))), PLAN, ONE)


@pytest.mark.parametrize(
    ("call", "number"), [("fsync", errno.ENOSPC), ("replace", errno.EDQUOT), ("open", errno.EROFS)]
)
def test_a_disk_that_is_full_or_read_only_leaves_what_was_there(
    kept: Keeping, monkeypatch: pytest.MonkeyPatch, call: str, number: int
) -> None:
    kept.keep(PLAN, ONE, "a", CUPS)

    def refused(*given: object) -> None:
        raise OSError(number, os.strerror(number))

    with monkeypatch.context() as broken:
        broken.setattr(os, call, refused)
        with pytest.raises(CannotKeep, match=os.strerror(number)):
            kept.keep(PLAN, ONE, "a", windy(1))
    assert kept.one(PLAN, ONE).newest.held == CUPS
    assert not list(kept.place.rglob("*.part"))


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(CannotKeep, match="does not let sonify keep"):
        Keeping(tmp_path / "file" / "kept").all()


def test_two_programs_take_turns_and_lose_nothing(kept: Keeping, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both read, one is in the middle of keeping: the other waits, and finds what the first kept."""
    other = Keeping(kept.place)
    kept.keep(PLAN, ONE, "a", CUPS)
    monkeypatch.setattr(keeping, "PATIENCE_S", 0.05)
    with kept._turn(), pytest.raises(CannotKeep, match="busy"):
        other.keep(PLAN, ONE, "a", windy(1))
    other.keep(PLAN, ONE, "a", windy(2))
    kept.keep(PLAN, OTHER, "a", windy(3))
    assert {each.name for each in other.all()} == {"a", "a 2"}
    assert [state.held for state in kept.one(PLAN, ONE).states] == [CUPS, windy(2)]


def test_the_tests_stay_away_from_the_persons_own() -> None:
    assert keeping.folder() is None


def test_the_folder_is_the_platforms_own(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("SONIFY_SHELF")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    if os.name == "posix" and os.uname().sysname == "Linux":  # freedesktop.org, XDG Base Directory Specification 0.8
        assert keeping.folder() == tmp_path / "sonify" / "kept"
    assert not list(tmp_path.iterdir()), "nothing is made before there is something to keep"
