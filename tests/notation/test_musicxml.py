"""MusicXML: valid by its schema, and read by two other libraries as what the Score has."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from lxml import etree

from sonify.notation.musicxml import musicxml_bytes
from sonify.records.clock import Tempo, microseconds
from sonify.records.score import COUNT_IN, Note, Part, Score
from tests.catalogue import catalogue
from tests.notation.reading import (
    engraver_midi,
    engraver_struck,
    faults,
    music21_beats,
    music21_score,
    music21_struck,
    struck,
    timed,
)
from tests.sample import sample_score

COUNT_IN_BEATS = 8


def tree(score: Score, **options: bool | int) -> etree._Element:
    return etree.fromstring(musicxml_bytes(score, **options))  # type: ignore[arg-type]


def measures(root: etree._Element, part: int) -> dict[str, etree._Element]:
    return {measure.get("number", ""): measure for measure in root.findall("part")[part].findall("measure")}


def words(measure: etree._Element) -> list[str]:
    return [element.text or "" for element in measure.iter("words")]


def test_it_is_valid_by_the_schema_in_every_variant() -> None:
    score = sample_score(with_blank=True)
    for options in ({}, {"note_names": True}, {"count_in": False}, {"group": 4}, {"group": 2, "note_names": True}):
        assert faults(musicxml_bytes(score, **options)) == []  # type: ignore[arg-type]


def test_the_schema_check_would_catch_a_fault() -> None:
    broken = musicxml_bytes(sample_score()).replace(b"<type>quarter</type>", b"<type>crotchet</type>", 1)
    assert any("crotchet" in fault for fault in faults(broken))


def test_music21_finds_the_same_notes_tempi_and_letters() -> None:
    score = sample_score()
    read = music21_score(musicxml_bytes(score))
    assert [part.partName for part in read.parts] == [part.name for part in score.parts]
    for found, part in zip(read.parts, score.parts, strict=True):
        if score.instrument(part.instrument).pitched:
            assert music21_struck(found, COUNT_IN_BEATS) == struck(part)
        else:
            assert music21_beats(found, COUNT_IN_BEATS) == {beat for beat, _ in struck(part)}
    tempi = [(F(begin), mark.number) for begin, _, mark in read.metronomeMarkBoundaries()]
    assert tempi == [(0, 66), (8 + 16, 104), (8 + 32, 80)]
    letters = read.recurse().getElementsByClass("RehearsalMark")
    assert [(m.content, m.getOffsetInHierarchy(read) - COUNT_IN_BEATS) for m in letters] == [
        ("A", 0.0),
        ("B", 16.0),
        ("C", 32.0),
    ]


def test_the_engraver_finds_the_same_notes_and_tempi() -> None:
    score = sample_score()
    data = musicxml_bytes(score)
    assert engraver_struck(data, COUNT_IN_BEATS) == [struck(part) for part in score.parts]
    file = engraver_midi(data)
    tempi = [(beat, m.tempo) for beat, m in timed(file.tracks[0], file.ticks_per_beat) if m.type == "set_tempo"]
    assert tempi == [(0, microseconds(66)), (24, microseconds(104)), (40, microseconds(80))]


@pytest.mark.parametrize("instrument", [row.id for row in catalogue().instruments if row.pitched])
def test_written_octaves_sound_right_for_every_instrument(instrument: str) -> None:
    row = catalogue()[instrument]
    pitches = range(row.low, row.high + 1)
    notes = tuple(Note(beat=F(k), beats=F(1), midi=midi, velocity=64) for k, midi in enumerate(pitches))
    part = Part(name="scale", group=1, instrument=instrument, texture="melody", notes=notes)
    score = replace(sample_score(), parts=(part,), instruments=catalogue().instruments, count_in_bars=0, bars=24)
    data = musicxml_bytes(score)
    assert faults(data) == []
    assert music21_struck(music21_score(data).parts[0], 0) == struck(part)
    assert engraver_struck(data, 0) == [struck(part)]
    written = [int(octave.text or "") for octave in etree.fromstring(data).iter("octave")]
    assert min(written) == (row.low + row.written_shift) // 12 - 1


def test_a_transposing_instrument_has_its_own_key() -> None:
    # A B flat instrument sounds a tone lower than written (common practice): C major is written in D.
    clarinet = replace(catalogue()["recorder"], id="pipe", written_shift=2, low=50)
    notes = tuple(Note(beat=F(k), beats=F(1), midi=midi, velocity=64) for k, midi in enumerate((60, 64, 66, 71)))
    part = Part(name="pipe", group=1, instrument="pipe", texture="melody", notes=notes)
    score = replace(sample_score(), parts=(part,), instruments=(clarinet,), count_in_bars=0)
    data = musicxml_bytes(score)
    assert faults(data) == []
    root = etree.fromstring(data)
    assert root.findtext(".//fifths") == "2"
    assert [root.findtext(f".//transpose/{tag}") for tag in ("diatonic", "chromatic")] == ["-1", "-2"]
    assert music21_struck(music21_score(data).parts[0], 0) == struck(part)


def test_count_in_is_two_bars_outside_the_numbering() -> None:
    score = sample_score()
    root = tree(score)
    for part in range(len(score.parts)):
        numbers = list(measures(root, part))
        assert numbers == ["X1", "X2", *map(str, range(1, 13))]
    assert measures(root, 0)["X1"].get("implicit") == "yes"
    assert root.findtext(".//part-name") == COUNT_IN
    assert len(list(measures(root, 0)["X1"].iter("unpitched"))) == 4


def test_unpitched_parts_have_one_line_a_percussion_clef_and_channel_ten() -> None:
    score = sample_score()
    root = tree(score)
    for index, part in enumerate(score.parts):
        row = score.instrument(part.instrument)
        attributes = measures(root, index)["X1"].find("attributes")
        listed = root.findall(".//score-part")[index]
        assert attributes is not None
        assert listed.findtext("part-abbreviation") == row.abbreviation
        channel = listed.findtext("midi-instrument/midi-channel")
        if row.pitched:
            assert attributes.findtext("clef/sign") == "G"
            assert channel != "10"
            assert listed.findtext("midi-instrument/midi-program") == str(row.gm_program)
        else:
            assert attributes.findtext("clef/sign") == "percussion"
            assert attributes.findtext("staff-details/staff-lines") == "1"
            assert channel == "10"
            assert listed.findtext("midi-instrument/midi-unpitched") == str(row.gm_key + 1)


def test_marks_stand_where_they_belong() -> None:
    score = sample_score()
    enter = replace(score.cues[1], mark="mp", pattern=1)
    louder = replace(enter, bar=4, action="louder", gesture="louder", mark="mf", by_bar=5, pattern=0)
    root = tree(replace(score, cues=(score.cues[0], enter, louder, *score.cues[2:])))
    assert words(measures(root, 2)["4"]) == ["Louder: mf by bar 5"]
    top = measures(root, 0)
    assert [element.text for element in top["5"].iter("rehearsal")] == ["B"]
    assert words(top["5"]) == ["New beat", "Condensation: A cloud forms.", "Andante (quick walk) "]
    assert top["5"].findtext(".//per-minute") == "104"
    assert words(top["X1"]) == ["Adagio (unhurried) "]
    assert words(measures(root, 2)["3"]) == ["Come in: mp, Pattern A"]
    stop = top["12"].find("direction")
    assert stop is not None and stop.findtext("offset") == str(3 * 8)
    rising = measures(root, 2)
    assert rising["3"].find(".//dynamics/mp") is not None
    assert [(bar, wedge.get("type")) for bar in ("3", "4", "5", "6") for wedge in rising[bar].iter("wedge")] == [
        ("3", "crescendo"),
        ("5", "stop"),
    ]
    assert rising["6"].find(".//dynamics/mf") is not None
    assert measures(root, 5)["12"].findtext("barline/bar-style") == "light-heavy"


def test_blanks_are_empty_bars_with_the_words() -> None:
    cloud = measures(tree(sample_score(with_blank=True)), 3)
    for bar in ("9", "10"):
        [note] = cloud[bar].findall("note")
        assert note.get("print-object") == "no" and note.find("rest") is not None
    assert words(cloud["9"]) == ["your idea"]
    assert cloud["9"].find(".//words").get("enclosure") == "rectangle"  # type: ignore[union-attr]
    assert words(cloud["10"]) == []


def test_note_names_are_the_letters_on_the_bars() -> None:
    root = tree(sample_score(), note_names=True)
    assert [element.text for element in root.findall("part")[2].iter("text")][:4] == ["C", "E", "G", "E"]
    assert not list(root.findall("part")[1].iter("lyric"))
    assert not list(tree(sample_score()).iter("lyric"))


def test_a_groups_part_gathers_its_long_rests() -> None:
    root = tree(sample_score(), group=3)
    assert [element.text for element in root.iter("part-name")] == [COUNT_IN, "The cloud"]
    cloud = measures(root, 1)
    assert {
        bar: m.findtext(".//multiple-rest") for bar, m in cloud.items() if m.find(".//multiple-rest") is not None
    } == {
        "1": "4",
        "9": "3",
    }
    assert not list(tree(sample_score()).iter("multiple-rest"))


def test_accidentals_are_printed_once_a_bar() -> None:
    pitches = (66, 66, 65, 66, 66)
    notes = tuple(Note(beat=F(k), beats=F(1), midi=midi, velocity=64) for k, midi in enumerate(pitches))
    part = Part(name="sharps", group=1, instrument="alto-xylophone", texture="melody", notes=notes)
    score = replace(sample_score(), parts=(part,), instruments=catalogue().instruments, count_in_bars=0)
    printed = [note.findtext("accidental") for note in tree(score).iter("note") if note.find("pitch") is not None]
    assert printed == ["sharp", None, "natural", "sharp", "sharp"]


def test_a_tied_note_needs_no_accidental_but_the_next_one_does() -> None:
    notes = (Note(beat=F(2), beats=F(3), midi=66, velocity=64), Note(beat=F(5), beats=F(1), midi=66, velocity=64))
    part = Part(name="held", group=1, instrument="keyboard", texture="drone", notes=notes)
    score = replace(sample_score(), parts=(part,), instruments=catalogue().instruments, count_in_bars=0)
    printed = [note.findtext("accidental") for note in tree(score).iter("note") if note.find("pitch") is not None]
    assert printed == ["sharp", None, "sharp"]


def test_a_gliding_tempo_is_exact_for_players_and_words_for_people() -> None:
    tempi = (Tempo(bar=1, bpm=66), *(Tempo(bar=bar, bpm=66 + 3 * bar) for bar in range(2, 6)), Tempo(bar=9, bpm=80))
    score = replace(sample_score(), tempi=tempi, sections=sample_score().sections[:1])
    data = musicxml_bytes(score)
    assert faults(data) == []
    root = etree.fromstring(data)
    assert [element.text for element in root.iter("per-minute")] == ["66", "80"]
    assert "little by little faster" in words(measures(root, 0)["X1"])
    file = engraver_midi(data)
    found = [m.tempo for _, m in timed(file.tracks[0], file.ticks_per_beat) if m.type == "set_tempo"]
    assert found == [microseconds(tempo.bpm) for tempo in tempi]


def test_a_metronome_mark_is_the_number_that_is_heard_and_that_every_sheet_prints() -> None:
    score = replace(sample_score(), tempi=(Tempo(bar=1, bpm=94), Tempo(bar=5, bpm=110), Tempo(bar=9, bpm=131)))
    root = tree(score)
    assert [element.text for element in root.iter("per-minute")] == ["94", "110", "131"]
    exact = [element.get("tempo") for element in root.iter("sound") if element.get("tempo")]
    assert exact == ["94", "110", "131"]
    told = [text for bar in measures(root, 0).values() for text in words(bar)]
    assert [text for text in told if text.endswith(") ")] == [
        "Andante (steady walk) ",
        "Moderato (medium pace) ",
        "Allegro (skipping) ",
    ]


#: Sounding pitch above the written one, semitones: reference table 5.4 (a Schulwerk instruments handbook for the
#: xylophones; Schulwerk practice, from memory, not verified, for glockenspiels, metallophones and recorder).
SOUNDS_ABOVE = {
    "soprano-xylophone": 12,
    "alto-xylophone": 0,
    "bass-xylophone": -12,
    "soprano-glockenspiel": 24,
    "alto-glockenspiel": 12,
    "alto-metallophone": 0,
    "bass-metallophone": -12,
    "recorder": 12,
    "ukulele": 0,
    "keyboard": 0,
}


@pytest.mark.parametrize(("instrument", "above"), SOUNDS_ABOVE.items())
def test_octave_conventions_are_those_of_the_trade(instrument: str, above: int) -> None:
    """By music21: the same file read as written and as it sounds."""
    from music21 import converter

    row = catalogue()[instrument]
    note = Note(beat=F(0), beats=F(1), midi=row.low, velocity=64)
    part = Part(name="one", group=1, instrument=instrument, texture="melody", notes=(note,))
    score = replace(sample_score(), parts=(part,), instruments=catalogue().instruments, count_in_bars=0)
    read = converter.parseData(musicxml_bytes(score), format="musicxml")
    [written] = read.parts[0].flatten().pitches
    [sounding] = read.toSoundingPitch().parts[0].flatten().pitches
    assert (sounding.midi, sounding.midi - written.midi) == (row.low, above)


def test_no_voices_overlap_and_every_bar_is_full() -> None:
    """Own count of the file's durations, and music21's own search for overlaps."""
    data = musicxml_bytes(sample_score(with_blank=True))
    root = etree.fromstring(data)
    for part in root.findall("part"):
        each = int(part.findtext(".//divisions") or 0)
        for measure in part.findall("measure"):
            sounds = [note for note in measure.findall("note") if note.find("chord") is None]
            assert {note.findtext("voice") for note in sounds} == {"1"}
            assert sum(int(note.findtext("duration") or 0) for note in sounds) == 4 * each
    for part in music21_score(data).parts:
        assert not part.flatten().notesAndRests.stream().getOverlaps()


def test_two_sounds_of_one_unpitched_instrument_stand_apart() -> None:
    notes = tuple(Note(beat=F(k), beats=F(1), midi=76 + k % 2, velocity=64) for k in range(4))
    part = Part(name="block", group=1, instrument="two-tone-block", texture="ostinato", notes=notes)
    score = replace(sample_score(), parts=(part,), instruments=catalogue().instruments, count_in_bars=0)
    data = musicxml_bytes(score)
    assert faults(data) == []
    assert len(set(etree.fromstring(data).xpath("//unpitched/display-step/text()"))) == 2
    assert engraver_struck(data, 0) == [struck(part)]


def test_a_part_with_two_instruments_has_a_staff_for_each() -> None:
    part = Part(
        name="mixed",
        group=1,
        instrument="alto-xylophone",
        texture="ostinato",
        notes=(
            Note(beat=F(0), beats=F(1), midi=60, velocity=64),
            Note(beat=F(1), beats=F(1), midi=75, velocity=64, instrument="claves"),
        ),
    )
    score = replace(sample_score(), parts=(part,), instruments=catalogue().instruments, count_in_bars=0)
    data = musicxml_bytes(score)
    assert faults(data) == []
    names = [element.text for element in etree.fromstring(data).iter("part-name")]
    assert names == ["mixed, alto xylophone", "mixed, claves"]
    assert engraver_struck(data, 0) == [{(F(0), 60)}, {(F(1), 75)}]


def test_a_cue_stands_on_the_parts_main_staff_only_and_one_of_the_count_in_is_never_lost() -> None:
    score = sample_score()
    rain = score.parts[4]
    extra = Note(beat=F(28), beats=F(1), midi=49, velocity=64, instrument="suspended-cymbal")
    early = replace(score.cues[0], bar=0, beat=F(3), what="softly", action="rest", gesture="rest", bpm=0.0)
    score = replace(
        score, parts=(*score.parts[:4], replace(rain, notes=(*rain.notes, extra))), cues=(*score.cues, early)
    )
    root = tree(score)
    assert words(measures(root, 4)["7"]) == ["Come in"]
    assert words(measures(root, 5)["7"]) == []
    assert measures(root, 5)["7"].find(".//dynamics/mf") is not None
    assert "Stop and rest: softly" in words(measures(root, 0)["X2"])
    assert "Stop and rest: softly" in words(measures(tree(score, count_in=False), 0)["1"])


def test_same_score_same_bytes_with_no_date() -> None:
    assert musicxml_bytes(sample_score()) == musicxml_bytes(sample_score())
    assert b"date" not in musicxml_bytes(sample_score())


def test_awkward_titles_and_names_are_kept() -> None:
    score = replace(sample_score(), title='Rain & <snow> "雨" ' + "x" * 300)
    data = musicxml_bytes(score)
    assert faults(data) == []
    assert etree.fromstring(data).findtext("work/work-title") == score.title
