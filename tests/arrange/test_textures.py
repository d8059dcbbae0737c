"""What each texture plays. Rules are recomputed here by hand, from the curve that the test itself drew."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction as F

import numpy as np
import pytest

from sonify import lesson
from sonify.arrange.textures.task import Sounding, Stroke
from sonify.kinds.lines import LINES
from sonify.records.classroom import Classroom
from sonify.records.findings import Finding
from sonify.records.score import Note, Part
from sonify.say import say
from tests.arrange.lessons import Sketch, cupboard, part
from tests.catalogue import catalogue
from tests.studies import studied

ROWS = catalogue()
PENTATONIC_CLASSES = {0, 2, 4, 7, 9}


def solo(
    texture: str,
    sound: str,
    *,
    stages: Sequence[tuple[str, int, float]] = (("one", 16, 80.0), ("two", 16, 80.0)),
    curves: Sequence[tuple[str, str | None, tuple[float, ...]]] = (),
    beats: int = 4,
    year: int = 5,
    seed: int = 0,
    count: int = 6,
    pupils: int = 6,
    line: str = "",
) -> tuple[Part, tuple[Finding, ...]]:
    """The part called It, alone but for a drone of voices in the other group."""
    row = ROWS.find(sound)
    sketch = Sketch(
        stages=tuple(stages),
        parts=(part("Sea", "drone", "voices on mm"), part("It", texture, sound)),
        curves=tuple(curves),
        beats=beats,
        classroom=Classroom(
            year=year,
            line=line,
            pupils=2 * pupils,
            groups=2,
            cupboard=() if row.bodily else cupboard(**{row.id.replace("-", "_"): count}),
        ),
    )
    score, findings = sketch.arranged(seed=seed)
    found = next(p for p in score.group_parts if p.name == "It")
    assert found.instrument == row.id
    return found, findings


def bar_of(note: Note, beats: int = 4) -> int:
    return int(note.beat // beats) + 1


def by_bar(p: Part, beats: int = 4) -> dict[int, list[Note]]:
    bars: dict[int, list[Note]] = {}
    for note in p.notes:
        bars.setdefault(bar_of(note, beats), []).append(note)
    return bars


# --- drone -----------------------------------------------------------------------------------------------------------


def drone(sound: str, **kwargs: object) -> Part:
    row = ROWS.find(sound)
    sketch = Sketch(
        stages=(("one", 16, 80.0), ("two", 16, 80.0)),
        parts=(part("Sea", "drone", sound),),
        classroom=Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(**{row.id.replace("-", "_"): 6})),
        **kwargs,  # type: ignore[arg-type]
    )
    return sketch.score().group_parts[0]


def test_a_held_drone_sounds_without_a_gap_from_beginning_to_end() -> None:
    sea = drone("ocean drum")
    ends = F(0)
    *held, last_bar, last = sea.notes
    for note in held:
        assert note.beat == ends and note.beats in (4, 8, 7)
        ends += note.beats + (note.beats == 7)  # a held breath of one beat before the fullest moment
    assert last_bar.beat == ends and last.beat == last_bar.beat + last_bar.beats == 31 * 4 + 2  # together, on beat 3
    assert last.beats == 2


@pytest.mark.parametrize("sound", ["suspended cymbal", "alto metallophone", "hand drum", "bass drum"])
def test_a_ringing_drone_is_struck_again_before_it_is_gone(sound: str) -> None:
    sea, row = drone(sound), ROWS.find(sound)
    onsets = sorted({note.beat for note in sea.notes if note.instrument == row.id})
    gaps_s = [float(b - a) * 60 / 80 for a, b in zip(onsets, [*onsets[1:], F(127)], strict=True)]
    over = [beat for beat, gap in zip(onsets, gaps_s, strict=True) if gap > max(1.5 * row.ring_s, 0.9)]
    assert len(over) <= 1 and all(15 * 4 <= beat < 16 * 4 for beat in over)  # but for the held breath
    assert onsets[0] == 0


def test_a_tuned_drone_is_an_open_fifth_on_the_tonic() -> None:
    sea = drone("alto metallophone")
    assert {note.midi for note in sea.notes} == {60, 67}


def test_the_piece_ends_on_the_pitch_and_as_soft_as_it_began() -> None:
    sea = drone("alto metallophone", curves=(("pitch", None, (60, 81, 72)),))
    opening = [note for note in sea.notes if note.beat < 4 * 4]
    home = [note for note in sea.notes if note.beat >= 28 * 4]
    assert {note.midi for note in opening if note.beat == 0} == {note.midi for note in home}
    assert home[0].velocity == pytest.approx(opening[0].velocity, abs=8)


def test_a_drone_with_rules_of_its_own_follows_them_to_the_end() -> None:
    sea = drone("alto metallophone", curves=(("pitch", "Sea", (60, 81, 72)), ("dynamics", "Sea", (40, 60, 100))))
    first, last = sea.notes[0], sea.notes[-1]
    assert first.midi == 60 and last.midi in (72, 74)
    assert last.velocity > 85 > 50 > first.velocity
    middle = [note.midi for note in sea.notes if 15 * 4 <= note.beat < 17 * 4]
    assert max(middle) >= 79


def growing(pupils: int, *values: float, sound: str = "alto metallophone") -> Part:
    """A drone on one or more instruments whose loudness rule goes from pp (33) to f (96)."""
    row = ROWS.find(sound)
    sketch = Sketch(
        stages=(("one", 16, 80.0), ("two", 16, 80.0)),
        parts=(part("Sea", "drone", sound),),
        curves=(("dynamics", "Sea", values),),
        classroom=Classroom(year=4, pupils=pupils, groups=1, cupboard=cupboard(**{row.id.replace("-", "_"): 1})),
    )
    score, findings = sketch.arranged()
    assert not [finding for finding in findings if finding.serious]
    return score.group_parts[0]


def test_a_drone_with_a_loudness_rule_turns_into_a_chord() -> None:
    """C E G C: the major triad (common knowledge), each note joining as the rule rises and none leaving."""
    sea = growing(2, 33.0, 64.0, 96.0)
    sizes = [len({note.midi for note in notes}) for _, notes in sorted(by_bar(sea).items())]
    assert sizes == sorted(sizes) and (sizes[0], sizes[-1]) == (1, 4)
    last = [note for note in sea.notes if note.beat == max(note.beat for note in sea.notes)]
    assert {note.midi for note in last} == {60, 64, 67, 72}
    assert {note.player: [] for note in last}.keys() == {1, 2}
    words = " ".join([say(words) for words in sea.instructions])
    assert "One plays C4 and E4; the other plays G4 and C5." in words
    assert "first two notes" not in words  # nobody plays along
    assert say(sea.entries[0].instruction).startswith("C4: strike") and len(sea.entries) >= 3


def test_a_chord_gives_up_its_notes_as_its_quantity_falls() -> None:
    sea = growing(2, 96.0, 64.0, 33.0)
    sizes = [len({note.midi for note in notes}) for _, notes in sorted(by_bar(sea).items())]
    assert sizes == sorted(sizes, reverse=True) and (sizes[0], sizes[-1]) == (4, 1)


def test_the_card_says_how_often_a_drone_is_struck_wherever_that_changes() -> None:
    sketch = Sketch(
        stages=(("one", 16, 132.0), ("two", 16, 72.0)),
        parts=(part("Sea", "drone", "alto metallophone"),),
        classroom=Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(alto_metallophone=6)),
    )
    sea = sketch.score().group_parts[0]
    assert [entry.bar for entry in sea.entries] == [1, 17]
    for entry, every in zip(sea.entries, (2, 1), strict=True):
        bars = sorted({bar_of(note) for note in sea.notes if entry.bar <= bar_of(note) < entry.bar + entry.bars})
        assert bars == list(range(entry.bar, entry.bar + entry.bars, every))
        assert ("every 2 bars" if every == 2 else "in every bar") in say(entry.instruction)


# --- ostinato --------------------------------------------------------------------------------------------------------


def test_three_patterns_at_the_most_and_only_these_are_played() -> None:
    it, _ = solo("ostinato", "alto xylophone", curves=[("density", "It", (0.5, 1.0, 1.75))])
    assert 2 <= len(it.patterns) <= 3
    patterns = {pattern.number: pattern for pattern in it.patterns}
    bars = by_bar(it)
    for entry in it.entries:
        pattern = patterns[entry.pattern]
        for bar in range(entry.bar, min(entry.bar + entry.bars, 32)):  # the last bar has the ending
            number = (bar - entry.bar) % pattern.bars
            whole = {(start - 4 * number, midi) for start, _, midi in pattern.hits if start // 4 == number}
            played = {(note.beat % 4, note.midi) for note in bars.get(bar, [])}
            # The last bar of a phrase leaves its last beat silent.
            assert played in (whole, {hit for hit in whole if hit[0] < 3})


def test_a_phrase_of_an_ostinato_ends_with_a_breath() -> None:
    it, _ = solo("ostinato", "alto xylophone", curves=[("density", "It", (1.25, 1.25, 1.25))])
    bars = by_bar(it)
    for bar in range(8, 29, 4):  # phrases of four bars from bar 5 on
        assert all(note.beat + note.beats <= 4 * bar - 1 for note in bars[bar])
        assert any(note.beat + note.beats > 4 * (bar - 1) - 1 for note in bars[bar - 1])


def test_an_ostinato_thickens_with_its_density_rule() -> None:
    it, _ = solo("ostinato", "alto xylophone", curves=[("density", "It", (0.5, 1.0, 1.75))])
    counts = [len(notes) for _, notes in sorted(by_bar(it).items())]
    asked = np.interp(np.arange(128.0), [0, 64, 128], [0.5, 1.0, 1.75]).reshape(32, 4).sum(axis=1)
    bars = sorted(by_bar(it))
    # At 80 bpm a bar lasts 3 s: six strokes are what one pupil keeps up, seven what rules ask at the end.
    for count, bar in zip(counts, bars, strict=True):
        assert abs(count - min(asked[bar - 1], 6)) <= 2.5, bar
    assert counts[-2] > counts[0]


def test_more_than_hands_can_play_is_shared_by_halves_or_capped_and_said() -> None:
    it, findings = solo("ostinato", "triangle", curves=[("density", "It", (3.0, 3.0, 3.0))])
    assert it.seats[0].at_once == 3 and it.seats[0].turn_bars == 1
    assert any("density asks for 12.0 strokes a bar" in say(finding.message) for finding in findings)


def test_a_pattern_starts_on_the_tonic_or_where_its_pitch_rule_says() -> None:
    plain, _ = solo("ostinato", "alto xylophone")
    assert plain.patterns[0].hits[0][2] == 60
    high, _ = solo("ostinato", "alto xylophone", curves=[("pitch", "It", (67, 67, 67))])
    assert high.patterns[0].hits[0][2] == 67
    assert high.notes[0].asked == 67.0


@pytest.mark.parametrize(("year", "plain"), [(3, True), (4, True), (5, False)])
def test_patterns_suit_the_age(year: int, plain: bool) -> None:
    lengths = set()
    for seed in range(12):
        it, _ = solo("ostinato", "egg shaker", year=year, seed=seed, curves=[("density", "It", (0.75, 1.0, 1.25))])
        lengths |= {beats for pattern in it.patterns for _, beats, _ in pattern.hits}
    dotted = {F(3, 2), F(1, 4)} & lengths
    assert bool(dotted) != plain


def test_a_slower_second_instrument_plays_what_it_can() -> None:
    sketch = Sketch(
        stages=(("one", 16, 100.0),),
        parts=(part("It", "ostinato", "triangle", "finger cymbals"),),
        curves=(("density", "It", (1.0, 1.0)),),
        classroom=Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(triangle=3, finger_cymbals=3)),
    )
    score, findings = sketch.arranged()
    it = score.group_parts[0]
    strokes = {name: [n for n in it.notes if n.instrument == name] for name in ("triangle", "finger-cymbals")}
    assert 0 < len(strokes["finger-cymbals"]) < len(strokes["triangle"])
    assert not any("left out" in say(finding.message) for finding in findings)  # nothing had to be repaired


def test_no_pitch_is_struck_while_it_sounds() -> None:
    row = ROWS["alto-xylophone"]
    sounding = Sounding([Stroke(beat=F(4), beats=F(2), midi=60, row=row)])
    for beat, beats, free in ((0, 4, True), (3, 2, False), (4, 1, False), (5, 1, False), (6, 1, True), (0, 9, False)):
        assert sounding.free(Stroke(beat=F(beat), beats=F(beats), midi=60, row=row)) is free, beat
    assert sounding.free(Stroke(beat=F(4), beats=F(1), midi=62, row=row))


def test_a_second_ostinato_fits_between_the_first() -> None:
    sketch = Sketch(
        stages=(("one", 16, 60.0),),
        parts=(part("A", "ostinato", "alto xylophone"), part("B", "ostinato", "bass xylophone")),
        classroom=Classroom(year=5, pupils=8, groups=2, cupboard=cupboard(alto_xylophone=2, bass_xylophone=2)),
    )
    a, b = sketch.score().group_parts
    onsets = [{start % 4 for p in part_.patterns for start, _, _ in p.hits} for part_ in (a, b)]
    assert onsets[0] != onsets[1]
    contours = [[midi % 12 for _, _, midi in p.patterns[-1].hits][:4] for p in (a, b)]
    assert contours[0] != contours[1]


# --- melody ----------------------------------------------------------------------------------------------------------

RISE = (60.0, 70.0, 81.0)


def asked_at(bar: int, values: Sequence[float] = RISE) -> float:
    return float(np.interp((bar - 1) * 4.0, [0, 64, 128], values))


@pytest.mark.parametrize("line", LINES)
def test_notes_on_strong_beats_are_the_rules_own_and_ornament_is_on_none(line: str) -> None:
    """Every note against the curve of the rule itself, in every line and seed; the last bar has the ending besides."""
    scale = [n for n in range(60, 82) if n % 12 in PENTATONIC_CLASSES]
    for seed in range(4):
        it, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", RISE)], seed=seed, line=line)
        for note in it.notes:
            if note.beat % 4 in (0, 2):
                asked = float(np.interp(float(note.beat), [0, 64, 128], RISE))
                if note.asked is None:
                    assert note.beat == 31 * 4 + 2 and note.midi == 60, "only the last gesture adds the tonic"
                    continue
                assert note.asked == pytest.approx(asked, abs=1e-3)
                assert abs(note.midi - asked) == min(abs(n - asked) for n in scale)
            else:
                assert note.asked is None
        assert all(notes[0].beat % 4 == 0 for notes in by_bar(it).values())


def test_ornament_is_softer_and_the_easy_line_has_none() -> None:
    core, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", RISE)], line="core")
    light = {hit for pattern in core.patterns for hit in pattern.light}
    assert light
    for pattern in core.patterns:
        assert all(pattern.hits[place][0] % 2 for place in pattern.light), "never on beat 1 or 3"
    easy, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", RISE)], line="easy")
    assert not any(pattern.light for pattern in easy.patterns)
    loud = [n.velocity for n in core.notes if n.asked is not None and n.beat < 60]
    soft = [n.velocity for n in core.notes if n.asked is None and n.beat < 60]
    assert np.mean(loud) - np.mean(soft) > 4


def test_the_tune_is_no_staircase_and_stays_near_the_rule() -> None:
    it, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", RISE)])
    for bar, notes in by_bar(it).items():
        assert bar == 32 or all(abs(note.midi - notes[0].midi) <= 8 for note in notes)  # a few scale steps
    steps = np.sign(np.diff([note.midi for note in it.notes]))
    assert (steps < 0).sum() > 5 and (steps > 0).sum() > 10
    firsts = [notes[0].midi for _, notes in sorted(by_bar(it).items())]
    assert firsts == sorted(firsts)  # the rule rises, and so do its notes


def test_a_long_wait_on_one_note_is_still_a_tune() -> None:
    it, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", (67.0, 67.0, 67.0))])
    bars = by_bar(it)
    assert {notes[0].midi for notes in bars.values()} == {67}
    assert len({note.midi for note in it.notes}) >= 3
    first, second = ([note.midi for bar in bars for note in by_bar(it)[bar]] for bars in ((1, 2, 3), (5, 6, 7)))
    assert first != second  # a question, and an answer


def test_a_tune_breathes_at_the_end_of_every_phrase() -> None:
    it, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", RISE)])
    for entry in it.entries:
        for bar in range(entry.bar + 3, min(entry.bar + entry.bars, 32), 4):
            notes = by_bar(it)[bar]
            assert notes[-1].beat < 4 * bar - 1


def test_a_melody_out_of_range_is_moved_by_octaves_and_held_with_a_finding() -> None:
    it, findings = solo("melody", "soprano glockenspiel", curves=[("pitch", "It", (48.0, 72.0, 96.0))])
    row = ROWS["soprano-glockenspiel"]
    assert all(row.low <= note.midi <= row.high for note in it.notes)
    assert it.octaves in (1, 2)
    assert any("stays on the nearest note" in say(finding.message) for finding in findings)


def test_a_melody_has_three_shapes() -> None:
    it, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", (60.0, 76.0, 60.0))])
    assert {say(pattern.words).split()[0] for pattern in it.patterns} <= {"climbs", "sinks", "asks:", "answers:"}
    assert all(pattern.bars == 4 for pattern in it.patterns)
    assert len({frozenset(n.beat % 4 for n in notes) for notes in by_bar(it).values()}) >= 6  # bar rhythms


@pytest.mark.parametrize(("year", "bpm", "most"), [(4, 80.0, 1), (5, 120.0, 0), (5, 80.0, 1), (6, 84.0, 1)])
def test_a_nine_year_old_can_read_the_tune(year: int, bpm: float, most: int) -> None:
    pairs = set()
    for seed in range(6):
        it, _ = solo(
            "melody",
            "alto xylophone",
            curves=[("pitch", "It", RISE)],
            stages=[("one", 16, bpm), ("two", 16, bpm)],
            year=year,
            seed=seed,
        )
        for bar, notes in by_bar(it).items():
            if bar == 32:
                continue
            assert {note.beats for note in notes} <= {F(1, 2), F(1), F(2), F(3), F(4)}
            quavers = [note for note in notes if note.beats == F(1, 2)]
            assert len(quavers) in (0, 2)
            pairs.add(len(quavers) // 2)
    assert max(pairs) == most


@pytest.mark.parametrize("at", [60.0, 67.0, 81.0])
def test_the_words_of_a_pattern_are_true_of_its_notes(at: float) -> None:
    """At the ends of the xylophone (C4, A5) a tune that would leave it turns the other way, and so do its words."""
    it, _ = solo("melody", "alto xylophone", curves=[("pitch", "It", (at, at, at))])
    assert it.patterns
    for pattern in it.patterns:
        notes = [midi for _, _, midi in pattern.hits]
        assert (max(notes) > notes[0]) == ("up" in say(pattern.words))
        assert (min(notes) < notes[0]) == ("down" in say(pattern.words))
        assert (notes[-1] == notes[0]) == ("back" in say(pattern.words))


def test_a_second_instrument_is_told_that_it_plays_the_same_tune() -> None:
    sketch = Sketch(
        stages=(("one", 32, 80.0),),
        parts=(part("It", "melody", "alto glockenspiel", "soprano glockenspiel"),),
        curves=(("pitch", "It", RISE[:2]),),
        classroom=Classroom(year=5, pupils=6, groups=1, cupboard=cupboard(alto_glockenspiel=3, soprano_glockenspiel=3)),
    )
    it = sketch.score().group_parts[0]
    assert [seat.instrument for seat in it.seats] == ["alto-glockenspiel", "soprano-glockenspiel"]
    assert "Soprano glockenspiels: play the same tune along with the alto glockenspiels." in [
        say(words) for words in it.instructions
    ]


def test_a_melody_without_a_rule_still_climbs_to_the_climax() -> None:
    it, _ = solo("melody", "alto xylophone")
    bars = by_bar(it)
    assert max(bars[bar][0].midi for bar in bars) >= bars[min(bars)][0].midi + 5
    assert all(note.asked is None for note in it.notes)


def test_singers_have_time_for_a_leap_and_for_a_breath() -> None:
    it, _ = solo("melody", "voices on oo", curves=[("pitch", "It", (60.0, 74.0))], stages=[("one", 16, 40.0)])
    since, end = F(0), F(-9)
    for note in it.notes:
        since = note.beat if note.beat >= end + F(1, 2) else since
        end = note.beat + note.beats
        assert float(end - since) * 60 / 40 <= 9.0


def test_without_tuned_instruments_a_tune_is_a_contour_of_high_and_low_sounds() -> None:
    everything = [row.name for row in ROWS.instruments if row.bodily and row.pitched]
    sketch = Sketch(
        stages=(("one", 16, 80.0), ("two", 16, 80.0)),
        parts=(
            part("It", "melody", "triangle", "hand drum"),
            *(part(name, "drone", name.lower()) for name in everything),
        ),
        curves=(("pitch", "It", RISE),),
        classroom=Classroom(year=4, pupils=18, groups=3, cupboard=cupboard(triangle=3, hand_drum=3)),
    )
    score, findings = sketch.arranged()
    it = next(p for p in score.group_parts if p.name == "It")
    assert {seat.instrument for seat in it.seats} == {"triangle", "hand-drum"}
    firsts = [notes[0].instrument for _, notes in sorted(by_bar(it).items())]
    assert firsts[0] == "hand-drum" and firsts[-1] == "triangle"  # low first, then high
    assert any("no tuned instrument" in say(finding.message) for finding in findings)


# --- tremolo ---------------------------------------------------------------------------------------------------------


def test_a_roll_is_as_fast_as_its_rule_asks_and_goes_round_the_pupils() -> None:
    it, _ = solo("tremolo", "hand drum", curves=[("density", "It", (2.0, 2.0, 4.0))])
    bars = by_bar(it)
    first, last = bars[min(bars)], bars[max(bars) - 1]
    assert len(first) == 8 and len(last) in (15, 16)
    assert {note.player for note in last} == {1, 2, 3, 4, 5, 6}
    assert {note.beats for note in last} == {F(1, 4)}


def test_a_roll_without_a_rule_goes_on_as_it_began() -> None:
    it, _ = solo("tremolo", "hand drum")
    assert {len(notes) for bar, notes in by_bar(it).items() if bar < 32} <= {
        8,
        6,
    }  # quavers, and a breath at the end of a phrase
    assert len(it.entries) == 1


def test_a_pupil_is_told_what_changes_and_nothing_in_note_values() -> None:
    rule = [("density", "It", (2.0, 5.0, 1.0))]
    it, _ = solo("tremolo", "hand drum", curves=rule)
    told = [say(entry.instruction) for entry in it.entries]
    assert told[0] == "easy light strokes, one after another"
    assert "more strokes than before: quick light strokes, one after another" in told
    assert "fewer strokes than before: easy light strokes, one after another" in told
    assert not any("faster" in text or "slower" in text for text in told), "the beat is the conductor's"
    assert not any("quaver" in text for text in (*told, *[say(words) for words in it.instructions]))


def test_who_strikes_at_once_is_not_told_never_to() -> None:
    """A cymbal and triangles each keep a roll of their own, so that two may strike at once."""
    one, _ = solo("tremolo", "triangle", count=4, pupils=4)
    assert len({note.beat for note in one.notes}) == len(one.notes)
    assert any("never two at once" in say(words) for words in one.instructions)
    classroom = Classroom(year=5, pupils=5, groups=1, cupboard=cupboard(suspended_cymbal=1, triangle=2))
    parts = (part("It", "tremolo", "suspended cymbal", "triangle"),)
    both = Sketch(stages=(("one", 16, 80.0),), parts=parts, classroom=classroom).score().group_parts[0]
    assert len({note.beat for note in both.notes}) < len(both.notes)
    assert not any("never" in say(words) for words in both.instructions)


def test_one_pupil_alone_rolls_in_bursts_or_slower_and_says_what_is_lost() -> None:
    it, findings = solo("tremolo", "suspended cymbal", count=1, pupils=1, curves=[("density", "It", (4.0, 4.0, 4.0))])
    assert len(by_bar(it)[2]) <= 8
    assert any("density asks for 4.0 strokes a beat" in say(finding.message) for finding in findings)


def test_what_is_shaken_on_or_swirled_is_held() -> None:
    it, _ = solo("tremolo", "ocean drum")
    assert {note.beats for note in it.notes if note.beat < 31 * 4} <= {F(3), F(4), F(8)}  # 3: before the held breath


# --- scatter ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("rule", [(1.0, 1.0, 1.0), (0.3, 2.1, 0.4), (0.0, 1.7, 3.0)])
def test_taps_follow_the_density_rule(rule: tuple[float, ...]) -> None:
    """Whatever the seed, up to any bar as many taps as the rule's integral, less than one more or fewer."""
    asked = np.interp(np.arange(128.0), [0, 64, 128], rule).reshape(32, 4).sum(axis=1)
    places = set()
    for seed in range(8):
        it, _ = solo("scatter", "claves", curves=[("density", "It", rule)], seed=seed)
        places.add(tuple(note.beat for note in it.notes))
        bars = by_bar(it)
        played, wanted = 0, 0.0
        for bar in range(it.entries[0].bar, it.entries[0].bar + it.entries[0].bars):
            played, wanted = played + len(bars.get(bar, [])), wanted + asked[bar - 1]
            crowded = bar == 32 and asked[31] > 9  # all before beat 3, on quarters of a beat
            assert abs(played - wanted) <= (asked[31] - 9 if crowded else 0) + 0.5 + 1e-6
    assert len(places) == 8  # chance decides where in the bar


def test_within_a_bar_taps_fall_anywhere() -> None:
    """Given the counts, the moments of a Poisson process are uniform (definition): each semiquaver as often."""
    slots = np.zeros(16)
    for seed in range(20):
        it, _ = solo("scatter", "claves", curves=[("density", "It", (1.0, 1.0, 1.0))], seed=seed)
        for note in it.notes:
            slots[int(note.beat * 4) % 16] += 1
    expected = slots.sum() / 16
    assert np.all(np.abs(slots - expected) < 4.5 * np.sqrt(expected))


def test_few_taps_become_many() -> None:
    it, _ = solo("scatter", "claves", curves=[("density", "It", (0.25, 1.0, 3.0))])
    bars = by_bar(it)
    early = sum(len(bars.get(bar, [])) for bar in range(5, 13))
    late = sum(len(bars.get(bar, [])) for bar in range(21, 29))
    assert late > 2 * early
    assert say(it.entries[0].instruction).startswith("from few taps to many")


def test_taps_that_come_and_go_say_when_they_are_silent() -> None:
    rule = (3.0, -3.0, 3.0, -3.0, 3.0, -3.0)  # below nothing is nothing
    sketch = Sketch(
        stages=tuple((name, 8, 80.0) for name in "abcde"),
        parts=(part("It", "scatter", "claves"),),
        curves=(("density", "It", rule),),
        classroom=Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(claves=6)),
    )
    it = sketch.score().group_parts[0]
    told = say(it.entries[0].instruction)
    found = re.fullmatch("come and go: busy in bars (.*), silent between", told)
    assert found, told
    busy: set[int] = set()
    for run in re.split(", | and ", found[1]):
        first, _, last = run.partition(" to ")
        busy |= set(range(int(first), int(last or first) + 1))
    assert busy == set(by_bar(it))


def test_too_many_taps_are_capped_and_said() -> None:
    it, findings = solo("scatter", "claves", count=2, pupils=2, curves=[("density", "It", (6.0, 6.0, 6.0))])
    bars = [len(notes) for notes in by_bar(it).values()]
    assert np.mean(bars) * 80 / 240 <= 2 * 2.0 + 0.2  # two pupils, two a second each
    assert any("density asks for 6.0 taps a beat" in say(finding.message) for finding in findings)


def test_each_tap_is_somebodys_and_on_the_grid() -> None:
    it, _ = solo("scatter", "claves", curves=[("density", "It", (2.0, 2.0, 2.0))])
    assert {note.player for note in it.notes} == {1, 2, 3, 4, 5, 6}
    assert all(note.beat % F(1, 4) == 0 and note.beats == F(1, 4) for note in it.notes)


def test_tuned_taps_lie_around_the_pitch_rule() -> None:
    curves = [("density", "It", (2.0, 2.0, 2.0)), ("pitch", "It", (84.0, 93.0, 103.0))]
    it, _ = solo("scatter", "soprano glockenspiel", curves=curves)
    for note in it.notes:
        asked = float(np.interp((bar_of(note) - 1) * 4.0, [0, 64, 128], (84.0, 93.0, 103.0)))
        assert abs(note.midi - asked) <= 9 and note.midi % 12 in PENTATONIC_CLASSES


@pytest.mark.parametrize("texture", ["ostinato", "melody", "tremolo", "scatter"])
@pytest.mark.parametrize("beats", [2, 3])
def test_other_metres(texture: str, beats: int) -> None:
    it, _ = solo(texture, "alto xylophone", beats=beats)
    heard = {bar_of(note, beats) for note in it.notes}
    assert len(heard & set(range(5, 25))) >= (14 if texture == "scatter" else 20)  # taps may miss a bar by chance


def test_who_plays_along_with_a_chord_that_moves_has_two_notes_for_two_hands() -> None:
    """Another stage's root was this chord's octave, 48 over 36: the chime bars got a third note for two hands."""
    made = lesson.study("salt-in-the-jar", replace(studied("salt-in-the-jar").classroom, year=6, pupils=31, groups=9))
    water = next(one for one in made.score.group_parts if one.name == "The salt water, second group")
    assert {note.instrument for note in water.notes} == {"keyboard", "chime-bars"}
    together = Counter(note.beat for note in water.notes if note.instrument == "chime-bars" and note.player == 0)
    assert max(together.values()) == 2
    assert not [each for each in made.findings if each.serious]


def test_hand_bells_beside_a_broken_bordun_end_on_one_note() -> None:
    """A pupil holds one bell a hand and rings one at a time (`hands.TWO_HANDED`): the last chord gave it two."""
    odds = {"bucket": 3, "chime_bars": 1, "keyboard": 3, "alto_xylophone": 1, "temple_blocks": 10, "acoustic_piano": 4}
    stock = cupboard(
        **odds, hand_bells=1, egg_shaker=6, suspended_cymbal=4, tins=1, keys=10, guitar=1, violin=1, gong=1
    )
    room = Classroom(year=3, pupils=20, groups=7, minutes=45, cupboard=stock, line="stretch")
    made = lesson.study("the-drum-on-the-field", room, seed=33)
    bells = [note for part in made.score.group_parts for note in part.notes if note.instrument == "hand-bells"]
    assert bells and max(Counter(note.beat for note in bells).values()) == 1
    assert not [each for each in made.findings if each.kind == "playability" and each.serious]
