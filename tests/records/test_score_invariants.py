"""Every invariant is broken once, and named."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from sonify.records.clock import Tempo
from sonify.records.score import Bed, Blank, DynamicMark, Entry, Note, Part, Pattern, Reason, Score, Seat
from sonify.records.score_invariants import faults
from tests.sample import cue, sample_score


def with_part(score: Score, name: str, **changes: Any) -> Score:
    return replace(score, parts=tuple(replace(p, **changes) if p.name == name else p for p in score.parts))


def part(score: Score, name: str) -> Part:
    return next(p for p in score.parts if p.name == name)


def first_note(name: str, **changes: Any) -> Score:
    score = sample_score()
    notes = part(score, name).notes
    return with_part(score, name, notes=(replace(notes[0], **changes), *notes[1:]))


def test_the_sample_is_sound() -> None:
    assert faults(sample_score()) == []
    assert faults(sample_score(with_blank=True)) == []


SOUND = sample_score()
BROKEN = [
    (replace(SOUND, parts=SOUND.parts[1:]), "not the count-in"),
    (replace(SOUND, parts=(*SOUND.parts, SOUND.parts[-1])), "two parts are called"),
    (with_part(SOUND, "The sea", group=7), "groups are numbered"),
    (replace(SOUND, tempi=(*SOUND.tempi, Tempo(bar=99, bpm=60.0))), "a tempo begins outside"),
    (replace(SOUND, sections=SOUND.sections[1:]), "begins at bar 5, not 1"),
    (replace(SOUND, sections=SOUND.sections[:-1]), "sections end with bar 8"),
    (replace(SOUND, instruments=SOUND.instruments[:2]), "the score has no row"),
    (first_note("The sea", beat=F(-1)), "outside beats 0"),
    (first_note("count-in", beat=F(-9)), "outside beats -8"),
    (first_note("The sea", beats=F(60)), "outside beats 0"),
    (first_note("Rising vapour", beat=F(25, 3)), "off the semiquaver grid"),
    (first_note("Rising vapour", beats=F(1, 8)), "off the semiquaver grid"),
    (first_note("The sea", velocity=0), "velocity 0"),
    (first_note("The sea", brightness=1.5), "brightness 1.5"),
    (first_note("The sea", midi=70), "has key 70; Ocean drum is 69"),
    (first_note("The sea", player=6), "for player 6 of 5"),
    (first_note("Rising vapour", beats=F(2)), "two voices on one instrument"),
    (first_note("Rising vapour", beats=F(6)), "pitch 60 overlaps itself"),
    (with_part(SOUND, "The cloud", notes=part(SOUND, "The cloud").notes[::-1]), "not in order of beat"),
    (with_part(SOUND, "The cloud", entries=(Entry(bar=6, bars=2),)), "outside the entries"),
    (with_part(SOUND, "The cloud", blanks=(Blank(bar=7, bars=1, ask="?"),)), "in a blank"),
    (with_part(SOUND, "The cloud", blanks=(Blank(bar=12, bars=2, ask="?"),)), "leaves the piece"),
    (with_part(SOUND, "The cloud", dynamics=(DynamicMark(bar=6, mark="mezzo"),)), "unknown mark"),
    (with_part(SOUND, "The cloud", dynamics=(DynamicMark(bar=8, mark="p"), DynamicMark(bar=6, mark="p"))), "in order"),
    (with_part(SOUND, "The cloud", difficulty="hard"), 'difficulty "hard"'),
    (with_part(SOUND, "The cloud", patterns=(Pattern(number=1, bars=1, hits=((F(3), F(2), 84),)),)), "does not fit"),
    (replace(SOUND, cues=(replace(SOUND.cues[0], bar=13),)), "outside the piece"),
    (replace(SOUND, cues=(replace(SOUND.cues[0], beat=F(5)),)), "outside the piece"),
    (replace(SOUND, cues=(replace(SOUND.cues[0], action="jump"),)), 'cue "jump"'),
    (replace(SOUND, cues=(replace(SOUND.cues[0], reason=Reason()),)), "no reason"),
    (replace(SOUND, cues=(replace(SOUND.cues[0], gesture="stop"),)), "is no gesture for start"),
    (replace(SOUND, cues=(replace(SOUND.cues[0], bpm=0.0),)), "a beat of 0"),
    (replace(SOUND, cues=(cue(3, "", "louder"),)), 'the mark ""'),
    (replace(SOUND, cues=(cue(3, "", "louder", mark="f", by_bar=2),)), "by bar 2"),
    (replace(SOUND, cues=(cue(3, "", "change", pattern=4),)), "4 fingers"),
    (replace(SOUND, cues=SOUND.cues[::-1]), "cues are not in order"),
    (replace(SOUND, beds=(Bed(kind="sea", levels=((F(4), 0.1), (F(0), 0.1)), seed=1),)), "not in order"),
    (replace(SOUND, beds=(Bed(kind="sea", levels=((F(0), 1.1),), seed=1),)), "outside 0 to 1"),
]


@pytest.mark.parametrize(("score", "words"), BROKEN, ids=[words for _, words in BROKEN])
def test_each_broken_invariant_is_named(score: Score, words: str) -> None:
    assert any(words in fault for fault in faults(score)), faults(score)


def test_every_length_on_the_grid_is_one_head_or_two() -> None:
    # Note values and their dots: theory of music, common knowledge.
    plain = {F(4), F(3), F(2), F(3, 2), F(1), F(3, 4), F(1, 2), F(1, 4)}
    for quarters in range(1, 17):
        assert any(F(quarters, 4) - head in {F(0), *plain} for head in plain)


def test_turns_go_round_the_seat() -> None:
    seat = Seat(instrument="triangle", players=5, count=2, at_once=2, turn_bars=2)
    assert [seat.on_duty(bar) for bar in (1, 2, 3, 5, 7)] == [(0, 1), (0, 1), (2, 3), (0, 4), (1, 2)]
    assert Seat(instrument="triangle", players=3, count=3).on_duty(9) == (0, 1, 2)


def test_a_chord_is_one_voice() -> None:
    score = sample_score()
    vapour = part(score, "Rising vapour").notes
    chord = (vapour[0], replace(vapour[0], midi=67), *vapour[1:])
    assert faults(with_part(score, "Rising vapour", notes=chord)) == []
    assert isinstance(chord[0], Note)
