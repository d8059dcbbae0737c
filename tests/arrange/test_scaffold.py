"""How much is given."""

from __future__ import annotations

import pytest

from sonify.errors import UnknownName
from sonify.records.score_invariants import faults
from sonify.say import say
from tests.arrange.lessons import WATER


def test_open_leaves_only_the_frame() -> None:
    full, bare = WATER.score(), WATER.score(scaffold="open")
    for p, given in zip(bare.group_parts, full.group_parts, strict=True):
        if p.pulse:  # the beat is never theirs to invent
            assert p == given
            continue
        assert p.notes == () and p.patterns == () and p.dynamics == ()
        played = {bar for e in given.entries for bar in range(e.bar, e.bar + e.bars)}
        assert {bar for blank in p.blanks for bar in range(blank.bar, blank.bar + blank.bars)} == played
        assert all(given.meaning in blank.ask for blank in p.blanks)
    assert bare.beds == full.beds and bare.beds and bare.sections == full.sections
    assert {c.bar for c in bare.cues if c.action == "rest"} == {c.bar for c in full.cues if c.action == "rest"}
    assert not faults(bare)


def test_open_keeps_a_soft_beat_under_what_pupils_invent() -> None:
    given, goes_on = (WATER.score(scaffold=s).parts[0] for s in ("full", "open"))
    counted = [note for note in goes_on.notes if note.beat < 0]
    under = [note for note in goes_on.notes if note.beat >= 0]
    assert tuple(counted) == given.notes  # nothing but the count-in is given in full
    assert [note.beat for note in under] == list(range(64 * 4))
    assert max(note.velocity for note in under) < min(note.velocity for note in counted)


def test_part_gives_the_first_phrase_and_leaves_a_few_others() -> None:
    full, part = WATER.score(), WATER.score(scaffold="part")
    for p, given in zip(part.group_parts, full.group_parts, strict=True):
        if p.pulse:
            assert p == given
            continue
        empty = {bar for blank in p.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
        assert empty
        assert not any(int(note.beat // 4) + 1 in empty for note in p.notes)
        kept = [note for note in given.notes if int(note.beat // 4) + 1 not in empty]
        assert list(p.notes) == kept and kept  # nothing else is gone
        assert given.entries[0].bar not in empty
        assert {pattern.number for pattern in p.patterns} == {e.pattern for e in p.entries} - {0}
        assert all("why" in say(blank.ask) for blank in p.blanks)
    assert not faults(part)


def test_what_pupils_invent_has_no_pattern_and_its_own_cue() -> None:
    score = WATER.score(scaffold="part")
    for p in score.group_parts:
        empty = {bar for blank in p.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
        for entry in p.entries:
            own = {bar in empty for bar in range(entry.bar, entry.bar + entry.bars)}
            assert len(own) == 1  # an entry is all given or all their own
            if own == {True}:
                assert (entry.pattern, say(entry.instruction)) == (0, "your own idea")
                cue = next(
                    c for c in score.cues if (c.part, c.bar) == (p.name, entry.bar) and c.action in ("enter", "change")
                )
                assert say(cue.what) == "their own idea"


def test_after_a_blank_it_says_how_loud_to_go_on() -> None:
    sea, full = (WATER.score(scaffold=s).group_parts[0] for s in ("part", "full"))
    marks = {mark.bar: mark.mark for mark in sea.dynamics}
    for after in (blank.bar + blank.bars for blank in sea.blanks):
        assert marks[after] == [mark.mark for mark in full.dynamics if mark.bar <= after][-1]
    empty = {bar for blank in sea.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
    assert not any(mark.bar in empty for mark in sea.dynamics)


def test_the_way_home_is_given_so_that_the_piece_can_close() -> None:
    sea = WATER.score(scaffold="part").group_parts[0]
    assert any(note.beat >= 60 * 4 for note in sea.notes)
    assert sea.blanks[-1].bar + sea.blanks[-1].bars - 1 <= 60


def test_blanks_are_short_and_somebody_always_plays_as_given() -> None:
    score, full = WATER.score(scaffold="part"), WATER.score()
    empty = {p.name: {b for blank in p.blanks for b in range(blank.bar, blank.bar + blank.bars)} for p in score.parts}
    assert max(blank.bars for p in score.group_parts for blank in p.blanks) <= 8
    sounding = {int(note.beat // 4) + 1 for p in full.group_parts for note in p.notes}
    still = {int(note.beat // 4) + 1 for p in score.group_parts for note in p.notes}
    held = {bar for p in full.group_parts if p.texture == "drone" for bar in range(1, 65) if bar not in empty[p.name]}
    assert sounding <= still | held
    for bar in range(1, 65):
        here = [p for p in score.group_parts if any(e.bar <= bar < e.bar + e.bars for e in p.entries)]
        assert 2 * sum(bar in empty[p.name] for p in here) <= len(here)


def test_an_unknown_scaffold_is_named() -> None:
    with pytest.raises(UnknownName, match='unknown scaffold "ful"; did you mean "full"'):
        WATER.score(scaffold="ful")
