"""The time map: bars and tempo of every stage."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.errors import BadRule, SonifyError, UnknownName
from sonify.mapping.rules import bound_rule
from sonify.mapping.timemap import stage_mean, time_map, whole_bpm
from sonify.records.controls import TimeMap
from sonify.records.findings import Finding
from sonify.records.scene import Metre, Music, Rule, StageNote
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.mapping.making import HOUR_S, process, quantity, rule, scene, stepped, timeline

#: 5 degC is 66 and 25 degC 112 beats a minute: by hand 10 degC is 77.5, 15 is 89, 20 is 100.5.
LEVELS_C = (10.0, 20.0, 15.0, 5.0, 15.0)


def warmth(levels_c: tuple[float, ...] = LEVELS_C) -> Timeline:
    return timeline(quantity("warmth", [273.15 + level for level in stepped(levels_c)]))


def laid_out(
    found: Timeline, written: Rule | None = None, music: Music | None = None, notes: tuple[StageNote, ...] = ()
) -> tuple[TimeMap, tuple[Finding, ...]]:
    bound = bound_rule(written, found, process(found)) if written else None
    return time_map(scene(music=music, notes=notes), found, process(found), bound)


def test_a_stage_has_the_tempo_of_its_mean_in_whole_beats_a_minute() -> None:
    found, _ = laid_out(warmth(), rule())
    # The line between two samples of neighbouring stages takes the means off by a hundredth of a degree or so.
    assert [stage.bpm for stage in found.stages] == [78.0, 100.0, 89.0, 66.0, 89.0]


def test_stages_follow_each_other_from_bar_one_over_all_model_time() -> None:
    found, _ = laid_out(warmth(), rule())
    assert found.stages[0].bar == 1
    for before, after in zip(found.stages, found.stages[1:], strict=False):
        assert after.bar == before.bar + before.bars
        assert after.start_s == before.end_s
    assert found.stages[-1].end_s == 5 * 4.0 * HOUR_S


@pytest.mark.parametrize("length_s", [60.0, 100.0, 180.0, 600.0, 3600.0])
@pytest.mark.parametrize("beats", [2, 3, 4])
@pytest.mark.parametrize("gliding", [False, True])
def test_the_length_is_met_within_ten_per_cent(length_s: float, beats: int, gliding: bool) -> None:
    music = Music(length_s=length_s, metre=Metre(beats=beats), gliding=gliding)
    found, findings = laid_out(warmth(), rule(), music)
    assert found.length_s == pytest.approx(length_s, rel=0.10)
    assert not [finding for finding in findings if finding.kind == "length"]
    assert min(stage.bars for stage in found.stages) >= 4


def test_the_length_is_that_of_bars_at_their_tempi() -> None:
    found, _ = laid_out(warmth(), rule())
    by_hand = sum(4 * stage.bars * 60.0 / stage.bpm for stage in found.stages)
    assert found.length_s == pytest.approx(by_hand, rel=1e-6)  # a MIDI tempo is whole microseconds


def test_shares_and_captions_come_from_the_scene_and_else_from_the_science() -> None:
    notes = (StageNote(stage="evaporation", caption="Drops go up.", share=3.0),)
    found, _ = laid_out(warmth(), rule(), notes=notes)
    assert found.stages[1].caption == "Drops go up."
    assert found.stages[0].caption == "The science of sun warms."
    assert found.stages[1].bars == pytest.approx(3 * found.stages[0].bars, abs=4)


def test_a_note_about_a_stage_that_never_came_is_allowed_and_a_misspelt_one_is_not() -> None:
    found = timeline(quantity("warmth", stepped([280.0, 290.0])), stages=("sun warms", "evaporation"))
    spec = process(found, stages=("sun warms", "evaporation", "precipitation"))
    absent = StageNote(stage="precipitation", caption="Rain.")
    assert len(time_map(scene(notes=[absent]), found, spec, None)[0].stages) == 2
    with pytest.raises(UnknownName, match=r'stage\.7 "evaporaton"; did you mean "evaporation"'):
        time_map(scene(notes=[StageNote(stage="evaporaton", caption="", key="stage.7")]), found, spec, None)


def test_a_share_of_nothing_is_refused() -> None:
    with pytest.raises(BadRule, match=r"stage\.1\.share: 0"):
        laid_out(warmth(), notes=(StageNote(stage="evaporation", caption="", share=0.0, key="stage.1"),))


def test_without_a_rule_the_tempo_is_the_middle_and_a_note_says_so() -> None:
    found, findings = laid_out(warmth(), music=Music(slowest_bpm=60.0, fastest_bpm=131.0))
    assert {stage.bpm for stage in found.stages} == {96.0}  # 95.5 rounded up
    assert found.tempi == (found.tempi[0],)
    note = findings[0]
    assert (note.kind, note.serious) == ("rule", False)
    assert "96 beats a minute" in say(note.message)


def test_a_short_piece_says_which_stages_are_short_and_what_length_to_write() -> None:
    found, findings = laid_out(warmth(), rule(), Music(length_s=30.0))
    assert found.length_s == pytest.approx(30.0, rel=0.10)
    (short,) = [finding for finding in findings if finding.kind == "length"]
    assert short.serious and "Evaporation" in say(short.message)
    asked = float(say(short.fix).split('"')[1].split()[0])
    longer, none = laid_out(warmth(), rule(), Music(length_s=asked))
    assert not none and min(stage.bars for stage in longer.stages) >= 4


def test_a_length_that_no_whole_bars_meet_is_reported() -> None:
    found, findings = laid_out(warmth((5.0,) * 5), rule(to=(30.0, 60.0)), Music(length_s=30.0, slowest_bpm=30.0))
    assert found.length_s == pytest.approx(40.0)  # five bars of eight seconds
    assert [finding.message for finding in findings if "lasts 0:40, not 0:30" in say(finding.message)]


def test_a_gliding_tempo_is_one_of_each_bar() -> None:
    ramp = timeline(quantity("warmth", list(np.linspace(278.15, 298.15, 200))))
    found, _ = laid_out(ramp, rule(), Music(gliding=True))
    each = [bpm for stage in found.stages for bpm in stage.bar_bpms]
    assert len(each) == found.bars
    assert each[0] == pytest.approx(66.0, abs=1.0) and each[-1] == pytest.approx(112.0, abs=1.0)
    assert all(0.0 <= b - a <= 2.0 for a, b in zip(each, each[1:], strict=False))
    middle = found.stages[2]
    assert middle.bpm == pytest.approx(sum(middle.bar_bpms) / middle.bars, abs=0.5)
    assert len(found.tempi) > 20


def test_stages_without_end_or_beginning_hang_together() -> None:
    one = timeline(quantity("warmth", stepped([288.15])), stages=("sun warms",))
    found, _ = laid_out(one, rule())
    assert len(found.stages) == 1 and found.stages[0].bpm == 89.0
    assert found.length_s == pytest.approx(180.0, rel=0.10)


def test_no_stage_at_all_is_an_error_that_says_what_to_do() -> None:
    none = replace(warmth(), stages=())
    with pytest.raises(SonifyError, match=r"no stage was found.*\[conditions\]"):
        laid_out(none, rule())


def test_the_mean_of_a_stage_is_that_of_the_line_through_the_samples() -> None:
    line = timeline(quantity("warmth", [280.0, 290.0, 300.0, 290.0]), stages=("sun warms",), hours_each=4.0)
    # samples at 0.5, 1.5, 2.5, 3.5 h; from 0.5 to 2.5 h the line rises evenly, so its mean is the middle
    assert stage_mean(line.quantities[0], line, 0.5 * HOUR_S, 2.5 * HOUR_S) == pytest.approx(290.0)
    # from 1 to 2 h likewise, 285 to 295
    assert stage_mean(line.quantities[0], line, 1.0 * HOUR_S, 2.0 * HOUR_S) == pytest.approx(290.0)
    # over the peak: 1.5 to 2.5 mean 295, 2.5 to 3.5 mean 295
    assert stage_mean(line.quantities[0], line, 1.5 * HOUR_S, 3.5 * HOUR_S) == pytest.approx(295.0)
    assert stage_mean(line.quantities[0], line, 2.5 * HOUR_S, 2.5 * HOUR_S) == 300.0


def test_a_tempo_is_whole_and_inside_the_limits() -> None:
    music = Music(slowest_bpm=60.5, fastest_bpm=131.5)
    assert [whole_bpm(bpm, music) for bpm in (88.4, 88.5, 20.0, 200.0)] == [88.0, 89.0, 61.0, 131.0]
    assert whole_bpm(100.0, Music(slowest_bpm=90.2, fastest_bpm=90.8)) == pytest.approx(90.5)
