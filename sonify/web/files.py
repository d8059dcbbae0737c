"""The files of a pack that is ready: what each is, in words, and a page of a PDF as a picture."""

from __future__ import annotations

from pathlib import Path

from sonify import lesson
from sonify.frozen import dataclass
from sonify.kinds.packfiles import FOR_PEOPLE, FOR_PROGRAMS, WITH_CLICK
from sonify.records.fact import fact
from sonify.say import say

#: Files that come several times over, by folder or by how the name begins: their message `download-...`.
BEGINNINGS = {"stems/": "one-part", "midi/": "one-group", "soundscape": "other-format", "minus-": "minus"}
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
_ORDER = [*FOR_PEOPLE, *FOR_PROGRAMS, WITH_CLICK]
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
    if name in _ORDER:
        return say(fact(f"download-{name.replace('.', '-')}"))
    kind = next((kind for start, kind in BEGINNINGS.items() if name.startswith(start)), "")
    return say(fact(f"download-{kind}")) if kind else ""
