"""A pattern that pupils made: what was entered is what is played, exactly, in every output, or it is told why not.

Read back by mido (MIDI) and music21 (MusicXML); from `score.json` and the card's boxes as they are.
"""

from __future__ import annotations

import io
import json
from dataclasses import replace
from fractions import Fraction as F

import mido
import pytest

from sonify.arrange.playability import playability
from sonify.data.exports import score_json
from sonify.notation.midi import midi_bytes
from sonify.notation.musicxml import musicxml_bytes
from sonify.paper.cards import pattern_rows
from sonify.records.classroom import Classroom
from sonify.records.findings import Finding
from sonify.records.own_pattern import OwnPattern, boxed_hits
from sonify.records.score import Part, Score
from sonify.say import say
from tests.arrange.lessons import Sketch, cupboard, part
from tests.notation.reading import music21_score

NAME = "Group 2's own pattern"
STAGES = (("one", 8, 76.0), ("two", 8, 84.0))


def sketch(
    *boxes: str,
    sound: str = "hand drum",
    notes: tuple[int, ...] = (),
    texture: str = "scatter",
    bpm: float = 0.0,
    **more: object,
) -> Sketch:
    cupboard_of = cupboard(**{sound.replace(" ", "_"): 6})
    return Sketch(
        stages=tuple((name, bars, bpm or usual) for name, bars, usual in STAGES),
        parts=(part("Sea", "drone", "voices on mm"), part("It", texture, sound)),
        classroom=Classroom(year=5, pupils=12, groups=2, cupboard=cupboard_of),
        patterns=(OwnPattern(part="It", boxes=boxes, beats=4, notes=notes, name=NAME),) if boxes else (),
        **more,  # type: ignore[arg-type]
    )


def played(made: Sketch) -> tuple[Part, Score, tuple[Finding, ...]]:
    score, findings = made.arranged()
    return next(p for p in score.group_parts if p.name == "It"), score, findings


def whole_bars(it: Part) -> dict[int, list[F]]:
    """The onsets in each bar in which the part plays, but for the last, where all end together."""
    bars = [bar for entry in it.entries for bar in range(entry.bar, entry.bar + entry.bars)][:-1]
    return {bar: sorted({n.beat - 4 * (bar - 1) for n in it.notes if n.beat // 4 == bar - 1}) for bar in bars}


@pytest.mark.parametrize("texture", ["scatter", "melody", "ostinato", "drone", "tremolo"])
def test_it_is_played_in_every_bar_of_its_part_whatever_the_scene_had_there(texture: str) -> None:
    it, score, _ = played(sketch("x. xx x. ..".replace(" ", ""), ".x..x-..", texture=texture))
    want = ([F(0), F(1), F(3, 2), F(2)], [F(1, 2), F(2)])
    bars = whole_bars(it)
    first = min(bars)
    breath = next((cue.bar for cue in score.cues if cue.action == "breath"), 0)
    assert len(bars) > 3
    for bar, onsets in bars.items():
        if bar != breath:
            assert onsets == want[(bar - first) % 2], bar
    assert it.texture == "ostinato" and not playability(score, sketch().classroom)


def test_without_one_the_piece_is_what_it_was_without_the_key() -> None:
    plain = sketch()
    assert score_json(plain.score()) == score_json(replace(plain, patterns=()).score())


def test_what_was_entered_comes_out_of_score_json_midi_musicxml_and_the_card_exactly() -> None:
    notes = (72, 76, 79, 72)
    boxes = ("x-x.x...", "x-------")
    it, score, findings = played(sketch(*boxes, sound="soprano xylophone", notes=notes))
    (pattern,) = it.patterns
    onsets = [start for start, _ in boxed_hits(boxes, 4)]
    assert [(start, midi) for start, _, midi in pattern.hits] == list(zip(onsets, notes, strict=True))
    assert not [f for f in findings if f.part == "It"]
    # score.json: the pattern by its group's name, and its notes at their beats
    told = next(p for p in json.loads(score_json(score))["parts"] if p["name"] == "It")
    assert told["patterns"][0]["name"] == NAME
    assert [(hit["beat"], hit["midi"]) for hit in told["patterns"][0]["hits"]] == [(0, 72), (1, 76), (2, 79), (4, 72)]
    first = 4 * (it.entries[0].bar - 1)
    want = {(first + float(on), midi) for on, midi in zip(onsets, notes, strict=True)}
    assert {(n["beat"], n["midi"]) for n in told["notes"] if first <= n["beat"] < first + 8} == want
    # MIDI, read by mido
    file = mido.MidiFile(file=io.BytesIO(midi_bytes(score)))
    track = next(t for t in file.tracks if t.name == "It")
    assert NAME in [m.text for m in track if m.type == "text"]
    at, struck = 0, set()
    for message in track:
        at += message.time
        if message.type == "note_on" and message.velocity:
            struck.add((at / file.ticks_per_beat - 8, message.note))
    assert {one for one in struck if first <= one[0] < first + 8} == want
    # MusicXML, read by music21
    read = next(p for p in music21_score(musicxml_bytes(score)).parts if p.partName.startswith("It"))
    heard = {
        (float(note.getOffsetInHierarchy(read)) - 8, pitch.midi)
        for note in read.flatten().notes
        if note.tie is None or note.tie.type == "start"
        for pitch in note.pitches
    }
    assert {one for one in heard if first <= one[0] < first + 8} == want
    assert NAME.split() == [w for text in read.flatten().getElementsByClass("TextExpression")
                            for w in text.content.split() if w in NAME.split()][: len(NAME.split())]  # fmt: skip
    # the card's boxes: as the pupils drew them
    (row,) = pattern_rows(it, score, 16)
    cells = [cell for line in row["boxes"]["rows"] for cell in line]
    assert row["name"] == NAME
    assert [place for place, cell in enumerate(cells) if cell["sounds"]] == [int(on) for on in onsets]


def test_it_tells_what_the_rule_would_have_done_and_is_marked_by_no_such_rule() -> None:
    curves = (("density", "It", (1.0, 2.0, 3.0)),)
    it, _, findings = played(sketch("x.x.x.x.", "xxxxx.x.", curves=curves))
    told = [say(f.message) for f in findings if f.kind == "rule"]
    # by hand: 1 a beat at the start, 3 at the end, straight between over 16 bars; a bar's mean at beats 1.5 and 61.5
    low, high = 4 * (1 + 2 * 1.5 / 64), 4 * (1 + 2 * 61.5 / 64)
    assert told == [
        f"There are 5 sounds a bar in {NAME}. The rule would go from {low:.0f} (bar 1) to {high:.0f} (bar 16): "
        "warmth is not heard in how many there are."
    ]
    assert "density" not in it.ruled
    assert any("Your pattern keeps 5 sounds a bar" in say(words) for words in it.instructions)


def test_where_the_rule_asks_for_nothing_the_pattern_rests() -> None:
    """No rain, no taps: a rest that means something stays."""
    it, _, _ = played(sketch("x.x.x.x.", curves=(("density", "It", (0.0, 0.0, 4.0)),)))
    assert min(whole_bars(it)) > 8


def test_what_is_too_quick_for_one_is_shared_by_two_halves_or_thinned_and_says_what_mends_it() -> None:
    _, _, findings = played(sketch("x.x.x.x.", "xx..x...", sound="hand drum", bpm=100.0))
    assert not [f for f in findings if f.part == "It"]
    it, score, findings = played(sketch("xxxxxxxx", sound="hand drum", bpm=100.0))
    (halves,) = [f for f in findings if f.part == "It"]
    assert "two halves of the group take turns" in say(halves.message) and not halves.serious
    assert it.seats[0].at_once * 2 == it.seats[0].players and it.seats[0].turn_bars == 1
    assert not playability(score, sketch().classroom)
    made = sketch("xxxxxxxxxxxxxxxx", sound="hand drum", bpm=100.0)
    it, score, findings = played(made)
    (thinned,) = [f for f in findings if f.part == "It"]
    assert thinned.serious and "of its 16 sounds are played" in say(thinned.message)
    assert not playability(score, made.classroom)
    # the offer, taken at its word, is played whole
    offered = say(thinned.fix).partition('boxes = ["')[2].partition('"')[0].replace(" ", "")
    it, _, findings = played(sketch(offered, sound="hand drum", bpm=100.0))
    assert not [f for f in findings if f.part == "It"]
    assert len(it.patterns[0].hits) == offered.count("x") > 0


def test_notes_that_the_bars_have_not_are_moved_and_told() -> None:
    it, _, findings = played(sketch("x.x.x.x.", sound="soprano glockenspiel", notes=(60, 64, 67, 72)))
    assert [midi for _, _, midi in it.patterns[0].hits] == [84, 88, 91, 96]
    assert ["2 octaves higher" in say(f.message) for f in findings if f.part == "It"] == [True]
    it, _, findings = played(sketch("x.x.x.x.", sound="hand drum", notes=(60, 64, 67, 72)))
    assert ["have no notes" in say(f.message) for f in findings if f.part == "It"] == [True]
