"""Other libraries' readings of our notation, to compare with the Score."""

from __future__ import annotations

import base64
import importlib.util
import io
import warnings
from fractions import Fraction as F
from functools import lru_cache
from pathlib import Path
from typing import Any

import mido
import verovio
from lxml import etree

from sonify.records.score import Part

#: (beat from bar 1, sounding MIDI note or percussion key) of every note that is struck.
Struck = set[tuple[F, int]]


def struck(part: Part) -> Struck:
    """What a part strikes: players on one beat and key count once, as one notehead does."""
    return {(note.beat, note.midi) for note in part.notes}


@lru_cache(maxsize=1)
def schema() -> etree.XMLSchema:
    """The MusicXML 4.0 schema (W3C), as the package musicxml carries it."""

    def folder(package: str) -> Path:
        spec = importlib.util.find_spec(package)
        assert spec and spec.submodule_search_locations
        return Path(spec.submodule_search_locations[0])

    local = {
        "http://www.musicxml.org/xsd/xml.xsd": folder("xmlschema") / "schemas/XML/xml.xsd",
        "http://www.musicxml.org/xsd/xlink.xsd": folder("xmlschema") / "schemas/XLINK/xlink.xsd",
    }

    class Local(etree.Resolver):
        def resolve(self, url: str, public_id: str, context: Any) -> Any:
            return self.resolve_filename(str(local.get(url, url)), context)

    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(Local())
    source = folder("musicxml") / "generate_classes/musicxml_4_0.xsd"
    return etree.XMLSchema(etree.parse(str(source), parser))


def faults(musicxml: bytes) -> list[str]:
    """What the schema finds wrong."""
    parsed = etree.fromstring(musicxml, etree.XMLParser(no_network=True, load_dtd=False))
    schema().validate(parsed)
    return [f"{entry.line}: {entry.message}" for entry in schema().error_log]


def music21_score(musicxml: bytes) -> Any:
    """music21's reading, at sounding pitch."""
    import music21

    with warnings.catch_warnings():
        # music21 knows few percussion keys by name ("75 does not map to a valid instrument"): its limit, not a fault.
        warnings.filterwarnings("ignore", message=r"\d+ does not map to a valid instrument")
        return music21.converter.parseData(musicxml, format="musicxml").toSoundingPitch()


def music21_struck(part: Any, count_in_beats: int) -> Struck:
    """What music21 finds struck in a pitched part (tied notes count once)."""
    found = set()
    for sound in part.flatten().notes:
        for note in sound.notes if sound.isChord else [sound]:
            if note.tie is None or note.tie.type == "start":
                found.add((F(sound.offset) - count_in_beats, note.pitch.midi))
    return found


def music21_beats(part: Any, count_in_beats: int) -> set[F]:
    """When music21 finds something struck, whatever the pitch."""
    return {
        F(sound.offset) - count_in_beats
        for sound in part.flatten().notes
        if sound.tie is None or sound.tie.type == "start"
    }


def engraver_midi(musicxml: bytes) -> mido.MidiFile:
    """The engraving library's own reading, played as MIDI."""
    toolkit = verovio.toolkit(False)
    toolkit.setResourcePath(str(Path(verovio.__file__).parent / "data"))
    assert toolkit.loadData(musicxml.decode())
    return mido.MidiFile(file=io.BytesIO(base64.b64decode(toolkit.renderToMIDI())))


def timed(track: Any, ticks_a_beat: int) -> list[tuple[F, Any]]:
    """Messages with the beat they come at, from the start of the file."""
    ticks, found = 0, []
    for message in track:
        ticks += message.time
        found.append((F(ticks, ticks_a_beat), message))
    return found


def engraver_struck(musicxml: bytes, count_in_beats: int) -> list[Struck]:
    """What the engraving library strikes, staff by staff."""
    file = engraver_midi(musicxml)
    return [
        {
            (beat - count_in_beats, message.note)
            for beat, message in timed(track, file.ticks_per_beat)
            if message.type == "note_on" and message.velocity
        }
        for track in file.tracks[1:]
    ]
