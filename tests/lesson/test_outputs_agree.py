"""What is heard, exported, printed and shown is one piece: each output is read back and compared with score.json.

Readers from outside the project: pretty_midi for MIDI, music21 for MusicXML, soundfile and librosa for sound,
pyloudnorm (its "DeMan" filter has the published coefficients) for loudness, pypdf for the sheets.
"""

from __future__ import annotations

import csv
import io
import json
import re
import warnings
from pathlib import Path

import numpy as np
import pytest
import soundfile

from tests.lesson.conftest import Pack
from tests.paper.texts import page_texts

STRUCK = ("bars", "wood", "skin", "metal", "body")  # families whose strokes have a plain onset
LSB_16 = 1.0 / 32768.0


def families() -> dict[str, str]:
    from tests.catalogue import catalogue

    return {row.id: row.family for row in catalogue().instruments}


def test_the_pack_has_every_file_of_the_contract(pack: Pack) -> None:
    names = {p.name for p in pack.folder.iterdir()}
    assert names == {
        "soundscape.wav", "soundscape.mid", "midi", "score.musicxml", "stems", "conductor.pdf", "pupils.pdf",
        "teacher.pdf", "poster.pdf", "page.html", "science.csv", "score.json", "pack.json",
    }  # fmt: skip
    assert (pack.folder / "page.html").stat().st_size < 10_000_000
    assert str(Path.home()) not in (pack.folder / "pack.json").read_text(encoding="utf-8")


def test_midi_onsets_are_those_of_the_score_within_a_millisecond(pack: Pack) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # pretty_midi imports pkg_resources
        import pretty_midi

        midi = pretty_midi.PrettyMIDI(str(pack.folder / "soundscape.mid"))
    read: dict[str, list[tuple[float, int]]] = {}
    for instrument in midi.instruments:
        read.setdefault(instrument.name, []).extend((n.start, n.pitch) for n in instrument.notes)
    for part in pack.told["parts"]:
        # players of one group who strike together on one key are one MIDI note
        ours = sorted({(round(n["onset_s"], 6), n["midi"]) for n in part["notes"]})
        theirs = sorted(read.get(part["name"], []))
        assert [p for _, p in theirs] == [p for _, p in ours], part["name"]
        np.testing.assert_allclose([t for t, _ in theirs], [t for t, _ in ours], rtol=0, atol=0.001)


def test_musicxml_read_by_music21_has_the_same_notes_at_the_same_beats(pack: Pack) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from music21 import converter, note, tie

        score = converter.parseFile(pack.folder / "score.musicxml")
    count_in = pack.told["count_in_bars"] * int(pack.told["metre"][0])
    heard: dict[str, set[tuple[float, int | None]]] = {}
    for part in score.parts:
        sounding = part.toSoundingPitch()
        struck = heard.setdefault(part.partName, set())
        for element in sounding.flatten().notes:
            if element.tie and element.tie.type != "start":
                continue
            beat = float(element.offset) - count_in
            pitches = [None] if isinstance(element, note.Unpitched) else [p.midi for p in element.pitches]
            struck.update((round(beat, 6), pitch) for pitch in pitches)
    assert tie is not None
    rows = {row["id"]: row["pitched"] for row in pack.told["instruments"]}
    for part in pack.told["parts"]:
        ours = {(n["beat"], n["midi"] if rows[n["instrument"]] else None) for n in part["notes"]}
        theirs = set().union(*(beats for name, beats in heard.items() if name.startswith(part["name"])))
        assert theirs == ours, part["name"]


def test_the_recording_is_as_loud_as_promised_by_an_independent_meter(pack: Pack) -> None:
    import pyloudnorm
    from scipy.signal import resample_poly

    samples, rate = soundfile.read(pack.folder / "soundscape.wav", dtype="float64")
    info = soundfile.info(pack.folder / "soundscape.wav")
    assert (rate, info.channels, info.subtype) == (44_100, 2, "PCM_16")
    # ITU-R BS.1770; EBU R 128 names the tolerance of half a unit
    assert pyloudnorm.Meter(rate, filter_class="DeMan").integrated_loudness(samples) == pytest.approx(-18.0, abs=0.5)
    peaks = [np.abs(resample_poly(channel, 8, 1)).max() for channel in samples.T]
    assert 20 * np.log10(max(peaks)) <= -1.0 + 0.1  # our meter looks 4 times a sample, this one 8 times
    assert np.abs(samples.mean(axis=0)).max() < 1e-4  # direct current


def test_stems_sum_to_the_mix_before_its_dither(pack: Pack) -> None:
    stems = sorted((pack.folder / "stems").glob("*.wav"))
    assert len(stems) == len(pack.told["parts"]) + bool(pack.told["beds"])
    mix, _ = soundfile.read(pack.folder / "soundscape.wav", dtype="float64")
    total = np.zeros_like(mix)
    for stem in stems:
        assert soundfile.info(stem).subtype == "PCM_24"
        total += soundfile.read(stem, dtype="float64")[0]
    # full scale is 32 767 of 32 768 steps in 16 bit and 8 388 607 of 8 388 608 in 24: a reader divides by the larger
    total *= (32_767 / 32_768) / (8_388_607 / 8_388_608)
    # triangular dither of a step either way, and rounding: at most a step and a half apart
    assert np.abs(total - mix).max() <= 1.5 * LSB_16 + len(stems) / 2**23


@pytest.mark.long
def test_onsets_heard_in_the_stems_are_those_of_the_score(pack: Pack) -> None:
    """librosa's detector (spectral flux) on stems of struck sounds; strokes apart enough to be told apart."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import librosa

    family = families()
    compared = 0
    for number, part in enumerate(pack.told["parts"]):
        if any(family[n["instrument"]] not in STRUCK for n in part["notes"]) or part["texture"] == "tremolo":
            continue
        stem = next((pack.folder / "stems").glob(f"{number:02d}-*.wav"))
        samples, rate = soundfile.read(stem, dtype="float32")
        lead = rate // 10  # silence before the file begins, so that a stroke at 0 s rises from something
        mono = np.concatenate([np.zeros(lead, dtype=np.float32), samples.mean(axis=1)])
        onsets = sorted({n["onset_s"] for n in part["notes"]})
        alone = [
            t
            for t, before, after in zip(onsets, [-9.0, *onsets], [*onsets[1:], 9e9], strict=False)
            if t - before > 0.25 and after - t > 0.25
        ]
        for onset in alone[:12]:
            start = lead + round((onset - 0.08) * rate)
            clip = mono[start : lead + round((onset + 0.15) * rate)]
            hop = 64
            flux = librosa.onset.onset_strength(
                y=clip, sr=rate, hop_length=hop, n_fft=256, center=False, n_mels=24, max_size=1
            )
            # the clearest rise; a stroke shows as soon as it enters a window, on average half a window early
            steep = int(np.argmax(flux))
            found = (start - lead + steep * hop + 128) / rate
            assert abs(found - onset) <= 0.010, f"{part['name']} at {onset:.3f} s is heard at {found:.3f} s"
            compared += 1
    assert compared >= 20


def test_the_page_schedules_every_note_where_the_score_has_it(pack: Pack) -> None:
    page = (pack.folder / "page.html").read_text(encoding="utf-8")
    assert not re.search(r"""(?:src|href)=["']?(?:https?:)?//""", page)
    found = re.search(r'id="sounds-data">(.*?)</script>', page, flags=re.DOTALL)
    assert found
    events = json.loads(found[1])["events"]
    shown: dict[int, set[float]] = {}
    for part, second in zip(events["part"], events["timeS"], strict=True):
        shown.setdefault(part, set()).add(second)
    for number, part in enumerate(pack.told["parts"]):
        wanted = sorted({n["onset_s"] for n in part["notes"]})
        near = np.array(sorted(shown.get(number, set())))
        for onset in wanted:
            assert np.abs(near - onset).min() <= 0.001, f"{part['name']}: nothing at {onset} s"


def test_every_group_and_stage_is_on_paper(pack: Pack) -> None:
    from pypdf import PdfReader

    words = {}
    for name in ("conductor", "pupils", "teacher", "poster"):
        data = (pack.folder / f"{name}.pdf").read_bytes()
        assert PdfReader(io.BytesIO(data)).trailer["/Root"]["/MarkInfo"]["/Marked"]
        words[name] = " ".join(" ".join(page_texts(data)).split())
    for part in pack.told["parts"][1:]:
        assert part["name"] in words["pupils"] and part["name"] in words["conductor"]
        assert part["name"].partition(", group ")[0] in words["poster"]  # there the group's tile stands beside it
    for section in pack.told["sections"]:
        assert section["title"] in words["conductor"] and section["title"] in words["teacher"]
        assert section["title"] in words["poster"]


def test_science_csv_shows_the_water_conserved(pack: Pack) -> None:
    """The stores as written sum to one total, to 1e-9 of what moved: read back from the file, not from the model."""
    with (pack.folder / "science.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    columns = {name: np.array([float(row[k]) for row in rows[1:]]) for k, name in enumerate(rows[0])}
    stores = [
        "water in the sea [mm]", "water in the shallows [mm]", "water vapour [mm]", "cloud water [mm]",
        "falling rain [mm]", "water in the hillside [mm]", "water in the river [mm]",
    ]  # fmt: skip
    total = sum(columns[name] for name in stores)
    moved = columns["water vapour [mm]"].max() - columns["water vapour [mm]"].min()
    assert np.abs(total - total[0]).max() / moved < 1e-9
