"""Text as its destination can bear it: a terminal, a document, a MIDI file, a spreadsheet.

A scene may hold any letter, and a file name any byte. What other programs would obey (escape sequences, marks that turn
the direction of writing, formulae) is taken out here, once for each kind of destination, where the text leaves us.
"""

from __future__ import annotations

import re
import unicodedata

#: Marks that turn, embed or isolate the direction of writing (Unicode Standard Annex 9): they draw nothing, yet what
#: follows them may be read backwards.
TURNING = "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"
#: Line and paragraph separators, and the mark that begins some files.
_UNSEEN = "\u2028\u2029\ufeff"
_SURROGATES = "\ud800-\udfff"  # bytes of a file name that are not UTF-8
_OBEYED = re.compile(f"[\x00-\x08\x0b-\x1f\x7f-\x9f{TURNING}{_UNSEEN}{_SURROGATES}]")
_CONTROLS = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029]")
_DROPPED = re.compile(f"[{TURNING}\ufeff]")
_NO_LETTER = re.compile(f"[{_SURROGATES}\ufffe\uffff]")
_TURNS = re.compile(f"[{TURNING}]")

#: How signs are written where only ASCII is read alike; longer ones first. Letters with accents lose them.
_IN_ASCII = (
    ("\u00a0", " "),
    ("\u202f", " "),
    (" °C", " degrees C"),
    ("°C", " degrees C"),
    (" °F", " degrees F"),
    ("°F", " degrees F"),
    ("°", " degrees"),
    *((dash, "-") for dash in "‐‑‒–—―−"),
    *((quote, "'") for quote in "‘’‚‛′"),
    *((quote, '"') for quote in "“”„‟″«»"),
    ("…", "..."),
    ("·", "*"),
    ("×", "x"),
    ("÷", "/"),
    ("±", "+/-"),
    ("≈", "about "),
    ("→", "->"),
    ("½", "1/2"),
    ("¼", "1/4"),
    ("¾", "3/4"),
    ("♯", "#"),
    ("♭", "b"),
    ("²", "2"),
    ("³", "3"),
    ("₂", "2"),
    ("µ", "u"),
    ("μ", "u"),
    ("Æ", "Ae"),
    ("æ", "ae"),
    ("Œ", "Oe"),
    ("œ", "oe"),
    ("Ø", "O"),
    ("ø", "o"),
    ("ß", "ss"),
    ("Ł", "L"),
    ("ł", "l"),
    ("đ", "d"),
    ("ð", "d"),
    ("þ", "th"),
)
#: How a cell begins that a spreadsheet takes for a formula; a tab or a line's end before it is skipped.
_FORMULA = ("=", "+", "-", "@")


def turns(letter: str) -> bool:
    """Whether a mark turns or embeds the direction of writing."""
    return _TURNS.fullmatch(letter) is not None


def for_terminal(text: str) -> str:
    """What a terminal would obey, written out: "\\u001b[31m". Line ends and tabs stay; JSON stays JSON.

    >>> for_terminal("caf\u00e9 \x1b[31m")
    'café \\\\u001b[31m'
    """
    return _OBEYED.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def for_document(text: str) -> str:
    """For PDF, MusicXML and MIDI: no control, no mark that turns the writing, only letters; line ends stay.

    >>> for_document("salt\u202e and\twater")
    'salt and water'
    """
    return _NO_LETTER.sub("\ufffd", _DROPPED.sub("", _CONTROLS.sub(" ", text)))


def for_midi(text: str) -> str:
    """Words that readers of UTF-8 and of Latin-1 read alike: the format itself knows ASCII only (common practice).

    Letters that have no such spelling (Greek, say) stay, in UTF-8.

    >>> for_midi("14 °C – “warm” café")
    '14 degrees C - "warm" cafe'
    """
    plain = for_document(text).replace("\n", " ")
    for sign, spelt in _IN_ASCII:
        plain = plain.replace(sign, spelt)
    return plain if plain.isascii() else "".join(_without_accent(letter) for letter in plain)


def _without_accent(letter: str) -> str:
    base = "".join(c for c in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(c))
    return base if base.isascii() else letter


def for_heading(text: str) -> str:
    """A column's heading that no spreadsheet computes: an apostrophe before what would begin a formula.

    Spreadsheets take a cell that begins so for text (common practice); any other heading stays as it is.

    >>> for_heading("=1+1 [no unit]"), for_heading("sea temperature [degC]")
    ("'=1+1 [no unit]", 'sea temperature [degC]')
    """
    plain = for_document(text).replace("\n", " ")
    return f"'{plain}" if plain.lstrip().startswith(_FORMULA) else plain
