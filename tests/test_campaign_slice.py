"""A slice of the campaigns (`python -m tests.campaign`) for every run: under a minute on two quiet cores."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from sonify.records.fact import Claim, Reading, fact
from sonify.records.timeline import Timeline
from tests.campaign import batch, claims, own, printed, shelf, sounds, spreadsheets, stories, swap, sweep
from tests.campaign.tally import Tally
from tests.sample import sample_lesson
from tests.studies import FEWER

SEED = 1
#: What no run makes true: one is less than nothing.
NEVER = Claim(kind="less", left=Reading(how="fixed", level=1.0), right=Reading(how="fixed", level=0.0))
FORKS = pytest.mark.skipif(not hasattr(os, "fork"), reason="copies of a process are POSIX")


def held(tally: Tally, *kinds: str) -> None:
    """The campaign met no fault, and it did have cases of these kinds."""
    assert tally.faults == {}, tally.report()
    assert all(tally.cases.get(kind, 0) > 0 for kind in kinds), tally.report()


@FORKS
def test_a_kill_at_a_step_of_the_swap_or_of_its_recovery_loses_nothing() -> None:
    tally = Tally()
    swap.kills(tally, every=7)
    held(tally, "kills in the swap", "kills in the recovery")


@FORKS
def test_a_step_that_fails_loses_nothing() -> None:
    tally = Tally()
    swap.failures(tally, every=17)
    held(tally, "steps failing, full", "steps failing, quota", "steps failing, read-only")


@FORKS
def test_a_run_of_many_packs_that_is_killed_goes_on_and_makes_nothing_twice() -> None:
    tally = Tally()
    batch.stubbed(tally, 2, SEED)
    held(tally, batch.KIND)


@FORKS
def test_a_scene_file_is_written_whole_or_not_at_all() -> None:
    tally = Tally()
    swap.new_files(tally, every=3)
    held(tally, "new, killed", "measure, full")


@FORKS
def test_what_is_kept_survives_a_kill_a_full_disk_and_a_second_program() -> None:
    tally = Tally()
    shelf.steps(tally, every=9)
    shelf.two_at_once(tally, each=4)
    held(tally, *(f"{what}, {kind}" for what in shelf.DOES for kind in shelf.ERRORS), "two at once")


def test_spoilt_sounds_are_kept_within_bounds_or_refused() -> None:
    tally = Tally()
    sounds.campaign(tally, 12, SEED)
    held(tally, *sounds.KINDS)


def test_strangers_files_are_opened_or_refused_and_nothing_of_them_runs() -> None:
    tally = Tally()
    shelf.strangers(tally, 36, SEED)
    held(tally, *shelf.WAYS)


def test_odd_lengths_tempi_metres_and_classes_make_a_score() -> None:
    tally = Tally()
    sweep.to_the_score(tally, 15, SEED)
    held(tally, "combinations through the Score")


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere a process counts its own memory alone")
def test_a_process_that_measures_recordings_counts_its_own_memory_alone() -> None:
    """getrusage(2) of Linux: what was used is kept across execve, so a child began with all that its parent had."""
    held_by_the_parent = np.ones(400 * 2**20 // 8)
    command = [sys.executable, "-c", "from tests.campaign.reading import most_mib; print(most_mib())"]
    told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    assert 10.0 < float(told) < held_by_the_parent.nbytes / 2**20 - 100.0


def test_spoilt_spreadsheets_are_read_or_refused() -> None:
    tally = Tally()
    spreadsheets.campaign(tally, 40, SEED)
    held(tally, *spreadsheets.SPOILT, spreadsheets.GROWTH)


def test_what_processes_tell_under_any_conditions_is_true() -> None:
    tally = Tally()
    stories.stories(tally, 9, SEED)
    held(tally, "drying", "dissolving", "filtering", "heating-curve", "soaking")


def test_the_campaign_would_see_a_false_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """A puddle of which only falsehoods are told is found: nothing true is left of its stages."""
    monkeypatch.setattr("sonify.processes.drying_words.fact", lambda *_, **__: fact("drying-last", NEVER))
    tally = Tally()
    stories.stories(tally, 2, SEED)
    assert "drying" in tally.faults


def test_all_that_lessons_tell_under_any_conditions_is_true() -> None:
    tally = Tally()
    scenes = FEWER[::3]
    for number, room in enumerate(claims.CLASSES):
        claims.claims(tally, 1, SEED, scenes=scenes[number :: len(claims.CLASSES)], classes=(room,))
    held(tally, *scenes)


def test_processes_of_ones_own_tell_nothing_false_at_the_edges() -> None:
    tally = Tally()
    own.own(tally, 2, 21, printed=2)  # a small one of each goes to the PDFs
    held(tally, "drawn", "in order", "drawn, printed", "in order, printed")


def test_the_campaign_would_see_a_false_caption_and_a_spoilt_table(monkeypatch: pytest.MonkeyPatch) -> None:
    """A stage of which something false is let through; science.csv with the wrong unit over a column."""

    def let_through(timeline: Timeline) -> tuple[Timeline, tuple[()]]:
        false = fact("drying-last", NEVER)
        return replace(timeline, stages=tuple(replace(each, science=false) for each in timeline.stages)), ()

    with monkeypatch.context() as broken:
        broken.setattr("sonify.lesson.studying.true_timeline", let_through)
        tally = Tally()
        claims.claims(tally, 1, SEED, scenes=("two-cups",), classes=("well-stocked",))
        assert tally.faults
    monkeypatch.setattr("sonify.data.exports.for_heading", lambda text: text.replace("[degC]", "[K]"))
    tally = Tally()
    claims.claims(tally, 1, SEED, scenes=("two-cups",), classes=("well-stocked",))
    assert "science.csv" in tally.faults["two-cups"][0]


@FORKS
def test_the_campaign_would_see_a_loss(monkeypatch: pytest.MonkeyPatch) -> None:
    """A swap in two renames that forgets to put back what it moved aside is found by the kill between the two."""
    monkeypatch.setattr("sonify.storage.workshop._put_right", lambda folder, target: None)
    tally = Tally()
    swap.kills(tally, every=7)
    assert tally.faults


def test_a_printed_figure_that_is_not_the_pieces_own_is_found() -> None:
    """The sample's first stage, as a card tells it and told wrongly: its beat, its bars, its temperature."""
    pack = printed.Pack(sample_lesson())
    (letter, section), *_ = pack.sections.items()
    card = "How fast (journey temperature) {letter} {value} °C: {beats} beats a minute Bar {bar} ({letter})"
    beats, read = round(pack.bpm(letter)), printed.READERS["pupils.pdf"]
    told = list(read(pack, card.format(letter=letter, value=14, beats=beats, bar=section["bar"])))
    assert [fault for _, fault in told] == ["", "", ""]
    assert all(fault for _, fault in read(pack, card.format(letter=letter, value=90, beats=beats + 2, bar=99)))
