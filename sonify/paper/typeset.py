"""Typesetting: templates, data and pictures in, a tagged PDF/UA-1 file out. The only module that knows typst."""

from __future__ import annotations

import hashlib
import json
import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache
from typing import Any

from sonify.errors import SonifyError
from sonify.frozen import dataclass
from sonify.paper.settings import LARGE_PT, PaperSettings
from sonify.records.fact import fact, wrong
from sonify.records.letters import STAND_IN, drawable
from sonify.records.safe_text import for_document, turns
from sonify.say import plain_messages, say
from sonify.templates import template

# Which letters the sheets' font can draw, and what stands in for the others: a PDF/UA file may hold no missing glyph.
#
# Data is made printable once, here, before it is typeset; the sheet then says which letters it could not print.

LONGEST_WORD = 24
_POWER = re.compile(r"(?<=× 10)\^([-−]?\d+)")
_RAISED = str.maketrans("0123456789-−", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁻")
_LONG = re.compile(rf"\S{{{LONGEST_WORD + 1},}}")


def printable(text: str, missing: Counter[str]) -> str:
    """One line of text that the font can draw; what it cannot is counted in `missing` and shown as STAND_IN.

    White space becomes single spaces, powers of ten are raised, and a word too long for a line may break every
    LONGEST_WORD letters.

    >>> printable("under 3 × 10^−16", Counter())
    'under 3 × 10⁻¹⁶'
    """
    composed = unicodedata.normalize("NFC", text.replace("\N{ZERO WIDTH SPACE}", ""))
    composed = _POWER.sub(lambda power: power[1].translate(_RAISED), composed)
    kept: list[str] = []
    for letter in " ".join(composed.split()):
        if ord(letter) in drawable() and not turns(letter) and unicodedata.category(letter) != "Cc":
            kept.append(letter)
            continue
        missing[letter] += 1
        if unicodedata.category(letter) not in {"Cc", "Cf", "Mn", "Me"}:  # those draw nothing of their own
            kept.append(STAND_IN)
    return _LONG.sub(_breakable, "".join(kept))


def _breakable(word: re.Match[str]) -> str:
    letters = word.group()
    return "\N{ZERO WIDTH SPACE}".join(
        letters[start : start + LONGEST_WORD] for start in range(0, len(letters), LONGEST_WORD)
    )


def printable_data(data: Any, missing: Counter[str]) -> Any:
    """JSON-like data with every text in it made printable. Keys are ours and stay."""
    if isinstance(data, str):
        return printable(data, missing)
    if isinstance(data, dict):
        return {key: printable_data(value, missing) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [printable_data(value, missing) for value in data]
    return data


def missing_note(missing: Counter[str], most: int = 6) -> str:
    """The sentence that owns up to letters left out, or nothing."""
    if not missing:
        return ""
    names = [f"{unicodedata.name(letter, '?').lower()} (U+{ord(letter):04X})" for letter in sorted(missing)]
    more = max(0, len(names) - most)
    return say(fact("sheet-missing", stand_in=STAND_IN, letters=", ".join(names[:most]), more=more))


FONT = "Andika"
TEMPLATES = (
    *(
        "style",
        "conductor",
        "map",
        "cues",
        "gestures",
        "pupils",
        "symbols",
        "pictures",
        "own",
        "flow",
        "card",
        "pieces",
        "measured",
        "boxes",
        "thinking",
        "rows",
        "halves",
        "copies",
        "stand",
    ),
    *("teacher", "plots", "poster", "performed"),
)
#: Templates that are used a second time for what is only measured: `measured.typ` says why.
MEASURED = ("pieces", "halves", "rows", "boxes", "flow", "symbols")

#: Point sizes for each sheet: running text, and the least that any text may have (clear-print guidelines, reference 8).
SIZES = {
    "conductor": (14.0, 11.0),
    "pupils": (14.0, 12.0),
    "teacher": (11.0, 9.0),
    "poster": (16.0, 12.0),
    "performed": (11.0, 9.0),
}
#: The files of messages whose words each sheet's templates show, besides those that all do.
SHOWN = {
    "conductor": ("map", "own"),
    "pupils": ("pupils", "card", "own"),
    "teacher": ("teacher", "plot", "brief", "guide"),
    "poster": ("poster",),
    "performed": ("performed",),
}
#: Messages whose places only the layout can fill: the template puts the numbers there.
FILLED = {
    "sheet-page": ("page", "pages"),
    "card-part-of": ("part", "parts"),
    "card-page-of": ("page", "pages"),
}
#: Letters of a title at the foot of a page, ordinary and large print.
RUNNING_TITLE, LARGE_RUNNING_TITLE = 60, 34


@lru_cache(maxsize=4)
def _fonts(fonts_dir: str) -> Any:
    """The fonts of a folder, both cuts checked: typst itself only warns when one is missing."""
    import typst

    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[fonts_dir])
    weights = {font.weight for font in fonts.fonts() if font.family == FONT and font.style == "normal"}
    if not {400, 700} <= weights:
        raise SonifyError(wrong("error_web-font-regular-bold", font=FONT, fonts_dir=fonts_dir))
    return fonts


def style(sheet: str, settings: PaperSettings) -> dict[str, Any]:
    """The switches that every template reads: paper, and how much larger than drawn."""
    body, least = SIZES[sheet]
    if settings.large_print:
        return {"paper": settings.paper, "body": LARGE_PT, "scale": LARGE_PT / body, "least": LARGE_PT, "large": True}
    return {"paper": settings.paper, "body": body, "scale": 1.0, "least": least, "large": False}


def running_title(title: str, most: int) -> str:
    """A title for the foot of a page: as many of its words as there is room for; none of one endless word.

    >>> running_title("Hand in hand, jostling, flying", 20), running_title("Two cups", 20)
    ('Hand in hand…', 'Two cups')
    """
    if len(title) <= most:
        return title
    words = title[:most].rpartition(" ")[0].rstrip(" ,;:.–-")
    return f"{words}…" if words else ""


def _named(title: str) -> str:
    """A title for the file's own description: any letter, but no marks that a reader's program would obey."""
    return " ".join(for_document(title).split())


def shown_words(sheet: str) -> dict[str, str]:
    """What a sheet's templates say, by the message: "{page}" stands where the layout puts a number."""
    found = {name: text for stem in ("sheet", *SHOWN[sheet]) for name, text in plain_messages(stem).items()}
    return found | {
        name: say(fact(name, **{place: f"{{{place}}}" for place in places})) for name, places in FILLED.items()
    }


def _ready(
    sheet: str, data: Mapping[str, Any], settings: PaperSettings, images: Mapping[str, bytes]
) -> tuple[dict[str, bytes], str]:
    """The files to compile, and the sheet's data as they read it."""
    missing: Counter[str] = Counter()
    ready = printable_data(data, missing)
    ready |= {
        "style": style(sheet, settings),
        "name": _named(data["title"]),
        "running": printable(
            running_title(_named(data["title"]), LARGE_RUNNING_TITLE if settings.large_print else RUNNING_TITLE),
            Counter(),
        ),
        "long": len(data["title"]) > RUNNING_TITLE,
        "missing": missing_note(missing),
        "say": printable_data(shown_words(sheet), Counter()),
    }
    files = {f"{name}.typ": template("paper", f"{name}.typ").encode() for name in TEMPLATES}
    files |= {f"measured/{name}.typ": files[f"{name}.typ"] for name in MEASURED}
    files |= {"measured/style.typ": files["measured.typ"], "main": files[f"{sheet}.typ"]}
    drawn = {name: svg.decode() for name, svg in images.items()}
    return files, json.dumps({"data": ready, "images": drawn}, ensure_ascii=False, allow_nan=False)


def _compiler(files: dict[str, bytes], data: str, fonts_dir: str) -> Any:
    """A compiler for one use: after that it has forgotten its files."""
    import typst

    inputs: Any = files  # its stubs leave out that input may be a dict of files
    return typst.Compiler(
        inputs,
        root=fonts_dir,
        font_paths=_fonts(fonts_dir),
        ignore_system_fonts=True,
        sys_inputs={"data": data},
    )


@dataclass(frozen=True, slots=True)
class Typeset:
    """A file as it came out. marks: what its template marked, in order: each sheet's name, its first page, and how many
    equal ones lie on it."""

    pdf: bytes
    marks: list[dict[str, Any]]


#: What has been made under a key, or makes it now.
Remember = Callable[[str, Callable[[], bytes]], bytes]
_remember: ContextVar[Remember] = ContextVar("typeset", default=lambda key, make: make())


@contextmanager
def remembering(remember: Remember) -> Iterator[None]:
    """For a while let somebody keep what is set here, by all that goes into it."""
    token = _remember.set(remember)
    try:
        yield
    finally:
        _remember.reset(token)


def typeset(
    sheet: str, data: Mapping[str, Any], settings: PaperSettings, images: Mapping[str, bytes] | None = None
) -> Typeset:
    """The sheet as PDF bytes. `data` goes in as JSON, so nothing written in a scene is ever run as a template.

    `data["title"]` names the file. Raises RuntimeError on any warning: a warning here is a fault of ours.
    """
    files, ready = _ready(sheet, data, settings, images or {})

    def made() -> bytes:
        _forget_others(sheet, data["title"], settings.fonts_dir)
        found = _set(sheet, files, ready, settings)
        return json.dumps(found.marks).encode() + b"\n" + found.pdf

    digest = hashlib.sha256(f"{sheet} {settings.fonts_dir} {ready}".encode())
    for name, data_of in sorted(files.items()):
        digest.update(f" {name} {len(data_of)} ".encode() + data_of)
    told, _, pdf = _remember.get()(f"sheet {digest.hexdigest()}", made).partition(b"\n")
    return Typeset(pdf=pdf, marks=json.loads(told))


#: Documents until the typesetter lets go of what it has laid out and not met again.
REMEMBERED = 11
#: Sheets that take so little that what came before them may stay.
SMALL = ("poster", "performed")
#: The sheet that it was last at work on.
_latest = [""]


def _forget_others(sheet: str, title: str, fonts_dir: str) -> None:
    """Lets the typesetter forget the sheets before this one. It keeps all that it lays out, 100 MB a sheet, until it
    has made so many documents more: empty ones are enough."""
    before, _latest[0] = _latest[0], f"{sheet} {title}"
    if before in ("", _latest[0]) or sheet in SMALL:
        return
    for _ in range(REMEMBERED):
        _compiler({"main": b""}, "", fonts_dir).compile(format="pdf")


def _set(sheet: str, files: dict[str, bytes], ready: str, settings: PaperSettings) -> Typeset:
    import typst

    try:
        made, warnings = _compiler(files, ready, settings.fonts_dir).compile_with_warnings(
            format="pdf", pdf_standards="ua-1", timestamp=0
        )
    except typst.TypstError as error:
        raise RuntimeError(f"{sheet}: {error.diagnostic}") from error
    if warnings:
        raise RuntimeError(f"{sheet}: {'; '.join(str(warning.message) for warning in warnings)}")
    # typst remembers what it has laid out: asked at once, the marks cost next to nothing
    return Typeset(pdf=bytes(made), marks=_marks(_compiler(files, ready, settings.fonts_dir)))


def pdf(
    sheet: str, data: Mapping[str, Any], settings: PaperSettings, images: Mapping[str, bytes] | None = None
) -> bytes:
    """`typeset` for who needs the file alone."""
    return typeset(sheet, data, settings, images).pdf


def marks(
    sheet: str, data: Mapping[str, Any], settings: PaperSettings, images: Mapping[str, bytes] | None = None
) -> list[dict[str, Any]]:
    """The marks of a sheet that is not to be printed yet."""
    _forget_others(sheet, data["title"], settings.fonts_dir)
    return _marks(_compiler(*_ready(sheet, data, settings, images or {}), settings.fonts_dir))


def _marks(compiler: Any) -> list[dict[str, Any]]:
    return [dict(mark) for mark in json.loads(compiler.query("<sheet>", field="value"))]
