"""The files of a pack that is ready: what each is, in words, and a page of a PDF as a picture."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from sonify import lesson

#: What a file of the pack is for, by its name.
WORDS = {
    "conductor.pdf": "For you: seating plan, cue sheet, map and score",
    "pupils.pdf": "For the class: a card for each group, the flow chart and the word list",
    "teacher.pdf": "Notes for you: the science, its sources, what pupils often believe, questions and answers",
    "poster.pdf": "For the wall: what is played as what",
    "page.html": "The classroom page: opens from a memory stick, with no network",
    "soundscape.wav": "The recording",
    "soundscape.mid": "The piece for any music program",
    "score.musicxml": "The score for any notation program",
    "science.csv": "The computed numbers, for a spreadsheet",
    "score.json": "Every note, for programs",
    "pack.json": "How this pack was made",
    "soundscape-with-click.wav": "The recording with a click on every beat",
}
#: By folder or by how the name begins.
BEGINNINGS = {
    "stems/": "One part alone, as a recording",
    "midi/": "One group alone, for any music program",
    "soundscape": "The recording in another format",
    "minus-": "The recording without one group, to play against",
}
KINDS = {
    ".pdf": "application/pdf",
    ".html": "text/html",
    ".wav": "audio/wav",
    ".flac": "audio/flac",
    ".mp3": "audio/mpeg",
    ".ogg": "audio/ogg",
    ".mid": "audio/midi",
    ".musicxml": "application/vnd.recordare.musicxml+xml",
    ".csv": "text/csv",
    ".json": "application/json",
}
PLAIN = "application/octet-stream"
#: The sheets come first, then what sounds, then the rest.
_ORDER = [*WORDS]
MOST_PAGES = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """One file of a pack. pages: of a PDF, else 0."""

    path: Path
    name: str
    bytes: int
    kind: str
    words: str
    pages: int


def listed(folder: Path) -> list[Listed]:
    """Every file of a pack, the sheets first."""
    names = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    names.sort(key=lambda name: _ORDER.index(name) if name in _ORDER else len(_ORDER))
    return [
        Listed(
            path=folder / name,
            name=name,
            bytes=(folder / name).stat().st_size,
            kind=KINDS.get(Path(name).suffix, PLAIN),
            words=words_of(name),
            pages=lesson.pdf_pages(folder / name) if name.endswith(".pdf") else 0,
        )
        for name in names
    ]


def words_of(name: str) -> str:
    """What a file is for, in words.

    >>> words_of("stems/01-the-sea.wav")
    'One part alone, as a recording'
    """
    if name in WORDS:
        return WORDS[name]
    return next((words for start, words in BEGINNINGS.items() if name.startswith(start)), "")
