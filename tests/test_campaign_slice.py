"""A slice of the campaigns (`python -m tests.campaign`) for every run: under a minute on two quiet cores."""

from __future__ import annotations

import os

import pytest

from sonify.records.fact import Claim, Reading, fact
from tests.campaign import stories, swap, sweep
from tests.campaign.tally import Tally

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
    swap.kills(tally, every=5)
    held(tally, "kills in the swap", "kills in the recovery")


@FORKS
def test_a_step_that_fails_loses_nothing() -> None:
    tally = Tally()
    swap.failures(tally, every=11)
    held(tally, "steps failing, full", "steps failing, quota", "steps failing, read-only")


@FORKS
def test_a_scene_file_is_written_whole_or_not_at_all() -> None:
    tally = Tally()
    swap.new_files(tally, every=3)
    held(tally, "new, killed", "measure, full")


def test_odd_lengths_tempi_metres_and_classes_make_a_score() -> None:
    tally = Tally()
    sweep.to_the_score(tally, 60, SEED)
    held(tally, "combinations through the Score")


def test_what_processes_tell_under_any_conditions_is_true() -> None:
    tally = Tally()
    stories.stories(tally, 20, SEED)
    held(tally, "drying", "dissolving", "filtering", "heating-curve", "soaking")


def test_the_campaign_would_see_a_false_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """A puddle of which only falsehoods are told is found: nothing true is left of its stages."""
    monkeypatch.setattr("sonify.processes.drying_words.fact", lambda *_, **__: fact("drying-last", NEVER))
    tally = Tally()
    stories.stories(tally, 2, SEED)
    assert "drying" in tally.faults


@FORKS
def test_the_campaign_would_see_a_loss(monkeypatch: pytest.MonkeyPatch) -> None:
    """A swap in two renames that forgets to put back what it moved aside is found by the kill between the two."""
    monkeypatch.setattr("sonify.workshop._put_right", lambda folder, target: None)
    tally = Tally()
    swap.kills(tally, every=5)
    assert tally.faults
