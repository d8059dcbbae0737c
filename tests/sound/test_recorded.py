"""A sound that pupils recorded, as an instrument of the Score: what is heard is their sound, levelled like the others.

The stem is compared with the very samples that went in, by correlation; MIDI is read by mido.
"""

from __future__ import annotations

import io
import sys
import threading
from dataclasses import replace

import mido
import numpy as np
import pytest

from sonify.arrange import arrange
from sonify.notation.midi import midi_bytes
from sonify.records.classroom import Classroom, with_sounds, without_sounds
from sonify.records.own_sound import KEPT_HZ, OwnSound
from sonify.records.score import Score
from sonify.sound.page import page_sounds
from sonify.sound.voices.recorded import MOST_PEAK, forget, learn, recorded, stroke_of
from tests.arrange.lessons import Sketch, cupboard, part
from tests.catalogue import catalogue
from tests.sound.recording import read_24, record


def noise(seconds: float, seed: int = 1) -> bytes:
    rng = np.random.default_rng(seed)
    at = np.arange(round(seconds * KEPT_HZ)) / KEPT_HZ
    return bytes((12_000 * rng.uniform(-1, 1, at.size) * np.exp(-6 * at)).astype("<i2").tobytes())


def own(pcm: bytes, sha256: str = "ab" * 32) -> OwnSound:
    return OwnSound(name="our crisp packets", file="crisps.wav", like="egg-shaker", sha256=sha256, pcm=pcm)


def score_with(sound: OwnSound, asked: str = "", **stock: int) -> Score:
    """asked: what the rain is to sound on, where that is another sound. stock: the cupboard."""
    made = Sketch(
        stages=(("one", 4, 90.0), ("two", 4, 90.0)),
        parts=(part("Sea", "drone", "voices on mm"), part("Rain", "ostinato", asked or sound.name)),
        classroom=with_sounds(
            Classroom(year=5, pupils=12, groups=2, cupboard=cupboard(hand_drum=0 if asked else 6)), [sound]
        ),
    )
    rows = catalogue().with_own(made.classroom.own)
    score, _ = arrange(made.scene, made.timeline, made.controls, made.classroom, rows)
    return replace(score, sounds=(sound,))


def test_the_part_plays_it_under_the_classs_name_and_no_other_part_does() -> None:
    sound = own(noise(0.4))
    score = score_with(sound)
    rain = next(p for p in score.group_parts if p.name == "Rain")
    assert {note.instrument or rain.instrument for note in rain.notes} == {sound.id}
    assert score.instrument(sound.id).called == "our crisp packets"
    assert [p.name for p in score.parts if sound.id in {seat.instrument for seat in p.seats}] == ["Rain"]


def test_it_joins_no_part_unasked_even_where_the_cupboard_has_nothing_else() -> None:
    sound = own(noise(0.4))
    for score in (score_with(sound, asked="maracas"), score_with(sound, asked="maracas", maracas=4)):
        assert sound.id not in {seat.instrument for p in score.parts for seat in p.seats}


def test_what_is_heard_is_what_was_recorded() -> None:
    sound = own(noise(0.4))
    score = score_with(sound)
    wav = next(data for name, data in record(score).stems.items() if name == "Rain")
    stem = read_24(wav).astype(float).sum(axis=0)
    rain = next(p for p in score.group_parts if p.name == "Rain")
    at = round(float(score.clock.seconds(rain.notes[0].beat)) * KEPT_HZ)
    wanted = np.frombuffer(sound.pcm, dtype="<i2").astype(float)[:4_000]
    heard = stem[at : at + 4_000]
    likeness = float(heard @ wanted / np.sqrt((heard @ heard) * (wanted @ wanted)))
    assert likeness > 0.9  # the room adds a little


def test_page_and_midi_play_it_or_say_what_stands_in() -> None:
    sound = own(noise(0.4))
    score = score_with(sound)
    assert any(sound.id in sample.name for sample in page_sounds(score).samples)
    track = next(t for t in mido.MidiFile(file=io.BytesIO(midi_bytes(score))).tracks if t.name == "Rain")
    assert "Stand-in: maracas, for our crisp packets" in [m.text for m in track if m.type == "text"]
    assert {m.note for m in track if m.type == "note_on"} == {70}  # General MIDI: maracas


@pytest.mark.parametrize("seconds", [0.01, 9.9])
def test_a_click_or_ten_seconds_are_no_louder_or_sharper_than_any_instrument(seconds: float) -> None:
    pcm = np.frombuffer(noise(seconds), dtype="<i2").copy()
    pcm[10] = 32_767
    sound = own(pcm.tobytes(), sha256=f"{round(seconds * 100):064d}")
    learn([sound])
    voice = recorded(sound.id)
    assert voice is not None and np.abs(stroke_of(voice)).max() <= MOST_PEAK * 1.0001
    rendering = record(score_with(sound), stems=False).rendering
    assert rendering.on_target


def test_a_class_without_the_sounds_is_the_class_of_its_file() -> None:
    plain = Classroom(year=5, pupils=12, groups=2, cupboard=cupboard(hand_drum=6))
    with_them = with_sounds(plain, [own(noise(0.1))])
    assert with_them.count(own(b"").id) == 12
    assert without_sounds(with_them) == plain and with_sounds(plain, []) is plain


def test_each_sound_is_an_instrument_of_its_own_also_where_files_are_the_same_or_away() -> None:
    for pcm, sha256 in ((noise(0.1), "ab" * 32), (b"", "")):
        first, second = own(pcm, sha256), replace(own(pcm, sha256), name="our bags", file="bags.wav", like="maracas")
        made = with_sounds(Classroom(year=5, pupils=12, groups=2, cupboard=cupboard(hand_drum=6)), [first, second])
        rows = catalogue().with_own(made.own)
        assert [rows[each.id].called for each in (first, second)] == ["our crisp packets", "our bags"]
        assert [made.count(each.id) for each in (first, second)] == [12, 12]
    one, other = own(b"", ""), replace(own(b"", ""), name="our bags")
    assert one.id != other.id  # written as the same instrument, too


def test_only_what_is_deleted_is_forgotten_and_the_rest_never_away_for_a_moment() -> None:
    kept, gone = own(noise(0.1), sha256="cd" * 32), replace(own(noise(0.1), sha256="ef" * 32), name="our bags")
    learn([kept, gone])
    forget("ef" * 16)
    assert recorded(gone.id) is None and recorded(kept.id) is not None
    ended = threading.Event()
    learning = threading.Thread(target=lambda: [learn([kept]) for _ in range(3_000)] and ended.set())
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    try:
        learning.start()
        away = 0
        while not ended.is_set():
            away += recorded(kept.id) is None
        learning.join()
    finally:
        sys.setswitchinterval(before)
    assert away == 0
