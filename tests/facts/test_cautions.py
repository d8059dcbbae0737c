"""Cautions that a science needs: every shipped scene says them, and a scene that does not is told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sonify import lesson
from sonify.facts.cautions import all_cautions, caution_findings, needed, of_instruments
from sonify.kinds.cautions import CAUTIONS
from sonify.paper.care import cautions
from sonify.processes import conditions_si, find
from sonify.records.fact import fact
from sonify.say import say
from sonify.web import drafts


@pytest.mark.parametrize("name", lesson.scene_names())
def test_a_shipped_scene_says_what_its_science_needs(name: str) -> None:
    scene = lesson.load(name)
    process = find(scene.process)
    assert not needed(
        process, conditions_si(process, scene.conditions) if not process.for_table else {}, scene.cautions
    )


def test_a_scene_that_lacks_one_is_told_and_its_sheet_says_it() -> None:
    # The heating curve boils water: without a word about it the sheet would send a class to the hob.
    text = drafts.shipped_scene_text("ice-on-the-hob")
    scene = replace(drafts.scene_of(text, file="x.toml"), cautions=("Play softly.",))
    studied = lesson.study(scene)
    found = [finding for finding in studied.problems if finding.kind == "caution"]
    assert [say(finding.message) for finding in found] == [
        "The scene's cautions lack one that this science needs: " + say_caution("boiling")
    ]
    printed = cautions(tuple(map(say, all_cautions(studied))))
    assert any(row.startswith(say_caution("boiling")) for row in printed)


def test_what_an_instrument_needs_is_said_where_it_is_played_and_only_there() -> None:
    rows = {row.id: row for row in lesson.catalogue().instruments}
    score = lesson.study("playground-puddle").score
    assert of_instruments(score, ()) == ()
    bottled = replace(score, instruments=(*score.instruments, rows["bottles"], rows["water-bowl"], rows["tins"]))
    said = [say(each) for each in of_instruments(bottled, ())]
    assert said == [say_caution("glass"), say_caution("water"), say_caution("edges")]
    assert len(of_instruments(bottled, ["Keep water from sockets."])) == 2
    assert {"mouthpieces"} == set(rows["ocarina"].cautions) == set(rows["slide-whistle"].cautions)


def say_caution(name: str) -> str:
    return say(fact(f"caution-{name}"))


def test_every_caution_is_met_by_its_own_words() -> None:
    # What `new` writes into a scene file is not asked for again.
    for row in CAUTIONS.values():
        assert row.is_said([say_caution(row.id)]), row.id
    assert not caution_findings(())
