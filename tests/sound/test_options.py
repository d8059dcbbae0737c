from __future__ import annotations

import pytest

from sonify.errors import UnknownName
from sonify.records.score import COUNT_IN
from sonify.sound.options import with_click, without_groups
from tests.sample import sample_score
from tests.sound.recording import read_24, record, without_beds


def test_a_group_left_out_is_silent_and_the_others_play_on() -> None:
    score = without_groups(sample_score(), [4])
    assert [part.name for part in score.parts if not part.notes] == ["The rain", "The storm"]
    taken = record(without_beds(score))
    assert not read_24(taken.stems["The rain"]).any()
    assert read_24(taken.stems["The cloud"]).any()


def test_a_group_goes_by_number_or_by_a_parts_name() -> None:
    by_name = without_groups(sample_score(), ["The storm"])
    assert by_name == without_groups(sample_score(), ["4"]) == without_groups(sample_score(), [4])


@pytest.mark.parametrize("wanted", [9, "The strom", COUNT_IN, 0])
def test_an_unknown_group_is_named_with_the_known_ones(wanted: int | str) -> None:
    with pytest.raises(UnknownName, match="Allowed: 1, 2, 3, 4, Rising vapour"):
        without_groups(sample_score(), [wanted])


def test_the_click_is_on_every_beat_and_stronger_on_the_first() -> None:
    click = with_click(sample_score()).parts[-1]
    assert len(click.notes) == 48
    assert [note.velocity > 80 for note in click.notes[:5]] == [True, False, False, False, True]
