"""Every scene for every example class, scaffold and paper: MIDI, MusicXML and pages agree with the Score."""

from __future__ import annotations

import io
from itertools import product
from pathlib import Path

import pretty_midi
import pytest

from sonify.lesson import compose, palette
from sonify.notation.engrave import engraved_pages
from sonify.notation.graphic import Canvas, Curve, graphic_lane, graphic_score
from sonify.notation.lines import lines_of
from sonify.notation.midi import midi_bytes
from sonify.notation.musicxml import musicxml_bytes
from sonify.records.score import Score
from tests.catalogue import ROOT
from tests.notation import drawn
from tests.notation.reading import engraver_struck, faults, music21_beats, music21_score, music21_struck
from tests.notation.test_engrave import check_texts

SCENES = sorted(path.stem for path in (ROOT / "scenes").glob("*.toml"))
CLASSES = sorted((ROOT / "examples").glob("*.toml"))
MATRIX = list(product(SCENES, CLASSES, (0,), ("full", "part", "open")))


@pytest.fixture(params=MATRIX, ids=lambda row: f"{row[0]}-{row[1].stem}-{row[2]}-{row[3]}")
def score(request: pytest.FixtureRequest) -> Score:
    scene, class_file, seed, scaffold = request.param
    assert isinstance(class_file, Path)
    return compose(scene, class_file, seed, scaffold=scaffold)


def test_midi_has_every_onset_to_a_millisecond(score: Score) -> None:
    heard: dict[str, list[tuple[float, int]]] = {}
    for instrument in pretty_midi.PrettyMIDI(io.BytesIO(midi_bytes(score))).instruments:
        heard.setdefault(instrument.name, []).extend((note.start, note.pitch) for note in instrument.notes)
    for part in score.parts:
        expected = sorted((float(score.clock.seconds(note.beat)), note.midi) for note in part.notes)
        found = sorted(heard.get(part.name, []))
        assert [midi for _, midi in found] == [midi for _, midi in expected]
        assert [start for start, _ in found] == pytest.approx([start for start, _ in expected], abs=0.001)


def test_musicxml_is_valid_and_two_libraries_read_the_scores_notes(score: Score) -> None:
    data = musicxml_bytes(score)
    assert faults(data) == []
    lines = [line for part in score.parts for line in lines_of(score, part)]
    expected = [{(note.beat, note.midi) for note in line.notes} for line in lines]
    before = score.clock.count_in_beats
    assert engraver_struck(data, before) == expected
    for line, found, wanted in zip(lines, music21_score(data).parts, expected, strict=True):
        if line.row.pitched:
            assert music21_struck(found, before) == wanted
        else:
            assert music21_beats(found, before) == {beat for beat, _ in wanted}


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize(("staff_mm", "landscape"), [(6.0, False), (10.0, True)])
def test_pages_have_every_text_in_its_place(score: Score, paper: str, staff_mm: float, landscape: bool) -> None:
    check_texts(engraved_pages(musicxml_bytes(score), paper=paper, staff_mm=staff_mm, landscape=landscape))


def test_the_score_in_large_print_has_every_text_in_its_place(score: Score) -> None:
    check_texts(engraved_pages(musicxml_bytes(score, note_names=True), staff_mm=8.5, text_pt=18.0))


@pytest.mark.parametrize(("width_mm", "height_mm", "text_pt"), [(186, 255, 11), (250, 170, 10), (250, 170, 18)])
def test_the_graphic_score_has_every_note_and_every_word_in_its_place(
    score: Score, width_mm: float, height_mm: float, text_pt: float
) -> None:
    canvas = Canvas(width_mm=width_mm, height_mm=height_mm, palette=palette(), text_pt=text_pt)
    curve = Curve(name="how warm the water is", unit="degC", beats=(0.0, float(score.end_beat)), values=(-1.5, 100.0))
    for whole in (False, True):
        pages = graphic_score(score, canvas, curve, whole=whole)
        for page in pages:
            drawn.check_words(page)
        found = {(mark.part, mark.beat, mark.key) for page in pages for mark in drawn.marks(page)}
        assert found == {(part.name, note.beat, note.midi) for part in score.group_parts for note in part.notes}
    for part in score.group_parts:
        drawn.check_words(graphic_lane(score, part.name, Canvas(width_mm=180, height_mm=34, palette=palette())))


def test_each_groups_part_and_file_can_be_made(score: Score) -> None:
    for group in {part.group for part in score.group_parts}:
        data = musicxml_bytes(score, group=group, note_names=True)
        assert faults(data) == []
        check_texts(engraved_pages(data))
        assert midi_bytes(score, group=group, for_keyboard=True).startswith(b"MThd")
