"""The texts that machines read: every figure in them is the record's own."""

from __future__ import annotations

import csv
import io
import json

import numpy as np

from sonify.data.exports import lesson_facts, science_csv, score_json
from tests.sample import sample_lesson, sample_score


def test_science_csv_has_a_unit_in_every_header_and_loses_no_digit() -> None:
    timeline = sample_lesson().timeline
    rows = list(csv.reader(io.StringIO(science_csv(timeline))))
    assert rows[0] == ["time [s]", "journey temperature [degC]", "rain rate [mm/h]"]
    read = np.array(rows[1:], dtype=float)
    np.testing.assert_allclose(read[:, 0], timeline.time_s, rtol=1e-14)
    np.testing.assert_allclose(read[:, 1] + 273.15, timeline.quantity("journey temperature").values, rtol=1e-13)


def test_score_json_times_follow_from_the_tempi_by_hand() -> None:
    told = json.loads(score_json(sample_score()))
    beat_s = 909_091e-6  # 66 a minute as a MIDI file stores it: 60e6 / 66 to the whole microsecond
    sea = next(part for part in told["parts"] if part["name"] == "The sea")
    assert [round(note["onset_s"], 6) for note in sea["notes"][:2]] == [round(8 * beat_s, 6), round(12 * beat_s, 6)]
    for note in sea["notes"][:2]:
        assert abs(note["duration_s"] - note["beats"] * beat_s) < 1e-5
    assert told["parts"][0]["name"] == "count-in"
    assert [note["beat"] for note in told["parts"][0]["notes"]] == list(range(-8, 0))
    assert told["parts"][0]["notes"][0]["onset_s"] == 0
    assert told["sections"][1]["time_s"] == round(24 * beat_s, 9)
    assert told["sections"][0]["seconds"] == round(16 * beat_s, 9)
    enter = next(cue for cue in told["cues"] if cue["part"] == "Rising vapour")
    assert enter["time_s"] == round(16 * beat_s, 9)


def test_score_json_holds_every_note_and_key_of_the_contract() -> None:
    score = sample_score()
    told = json.loads(score_json(score))
    assert {"tempo", "parts", "cues", "sections"} <= told.keys()
    for part, row in zip(score.parts, told["parts"], strict=True):
        assert {"name", "group", "instrument", "texture", "notes"} <= row.keys()
        assert [(n["beat"], n["midi"], n["velocity"]) for n in row["notes"]] == [
            (float(n.beat), n.midi, n.velocity) for n in part.notes
        ]
        assert all({"onset_s", "duration_s", "beat", "beats", "midi", "velocity"} <= n.keys() for n in row["notes"])


def test_lesson_facts_have_the_keys_of_the_contract() -> None:
    facts = lesson_facts(sample_lesson())
    assert facts["quantities"][0].keys() >= {"name", "unit", "min", "max", "start", "end"}
    assert abs(facts["quantities"][0]["start"] - 14.0) < 1e-9
    assert [s["name"] for s in facts["stages"]] == ["evaporation", "condensation", "precipitation"]
    assert facts["rules"][0].keys() >= {
        "quantity", "as", "from", "to", "curve", "why", "sentence", "exaggeration", "audible",
    }  # fmt: skip
    assert facts["conserved"] == [{"name": "water", "relative_drift": 3e-16}]
