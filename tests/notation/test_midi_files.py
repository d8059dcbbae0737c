"""The groups' MIDI files: named so that any system takes them, each its group's share of the whole, by pretty_midi."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from sonify.notation.midi import midi_bytes
from sonify.notation.midi_files import group_names, midi_files
from sonify.records.score import COUNT_IN
from tests.notation.test_midi import read, read_pretty
from tests.sample import sample_score

#: Characters that Windows forbids in a file name, and control characters (common practice).
ILLEGAL = re.compile(r'[<>:"|?*\\\x00-\x1f]')


def sounds(data: bytes) -> dict[str, list[tuple[float, int, int]]]:
    """Track -> (second, key, velocity), the count-in left out."""
    found: dict[str, list[tuple[float, int, int]]] = {}
    for track in read_pretty(data).instruments:
        if track.name != COUNT_IN:
            found.setdefault(track.name, []).extend((round(n.start, 4), n.pitch, n.velocity) for n in track.notes)
    return {name: sorted(notes) for name, notes in found.items()}


def test_each_group_has_one_numbered_file_with_a_legal_name() -> None:
    score = sample_score()
    assert list(midi_files(score)) == [
        "midi/group-1-the-sea.mid",
        "midi/group-2-rising-vapour.mid",
        "midi/group-3-the-cloud.mid",
        "midi/group-4-the-rain-and-the-storm.mid",
    ]
    odd = [replace(part, name=f'CON: <"{"雨" * 9}|?*> ' + "x" * 90) for part in score.parts[1:4]]
    names = list(midi_files(replace(score, parts=(score.parts[0], *odd, *score.parts[4:]))))
    assert len({name.lower() for name in names}) == 4
    for name in names:
        assert not ILLEGAL.search(name.removeprefix("midi/")) and len(name) < 70 and name.isascii()


def test_together_they_hold_the_whole_piece_and_no_note_twice() -> None:
    score = sample_score()
    together: dict[str, list[tuple[float, int, int]]] = {}
    for data in midi_files(score).values():
        for name, notes in sounds(data).items():
            assert name not in together
            together[name] = notes
    assert together == sounds(midi_bytes(score))
    assert set(together) == {part.name for part in score.group_parts}


@pytest.mark.parametrize("count_in", [True, False])
def test_the_count_in_is_there_or_bar_one_begins_at_once(count_in: bool) -> None:
    score = sample_score()
    file = read_pretty(midi_files(score, count_in=count_in)["midi/group-1-the-sea.mid"])
    names = [track.name for track in file.instruments]
    assert (COUNT_IN in names) is count_in
    first = min(n.start for track in file.instruments for n in track.notes if track.name != COUNT_IN)
    assert first == pytest.approx(8 * 60 / 66 if count_in else 0.0, abs=0.001)


def test_for_keyboards_each_file_has_a_twin_off_channel_ten() -> None:
    score = sample_score()
    files = midi_files(score, for_keyboard=True)
    twins = {name for name in files if "for-keyboard" in name}
    assert len(files) == 9 and len(twins) == 5
    for name in twins:
        assert not any(track.is_drum for track in read_pretty(files[name]).instruments)
    plain = midi_files(score)
    assert {name: files[name] for name in plain} == plain
    whole = read_pretty(files["midi/everybody-for-keyboard.mid"])
    assert sum(len(track.notes) for track in whole.instruments) == sum(len(part.notes) for part in score.parts)


def test_stand_ins_and_what_pupils_invent_are_told_in_text_events() -> None:
    def told(data: bytes) -> list[Any]:
        return [message.text for track in read(data).tracks for message in track if message.type == "text"]

    files = midi_files(sample_score(with_blank=True))
    assert told(files["midi/group-3-the-cloud.mid"]) == ["Your own idea: 2 bars from bar 9"]
    row = sample_score().instrument("ocean-drum")
    assert row.stand_in and told(files["midi/group-1-the-sea.mid"]) == [f"Stand-in: {row.stand_in}"]


def test_groups_are_in_order_and_numbered() -> None:
    score = sample_score()
    assert list(group_names(replace(score, parts=score.parts[:1] + score.parts[:0:-1]))) == [1, 2, 3, 4]
