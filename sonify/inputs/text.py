"""From the bytes of a file that a person wrote to its text, or one clear message."""

from __future__ import annotations

from codecs import BOM_UTF16_BE, BOM_UTF16_LE

from sonify.errors import BadFile
from sonify.records.fact import wrong

#: Scene and class files are a few kilobytes. The caller reads at most this and one byte more.
MOST_BYTES = 1_000_000


def text_of(data: bytes, *, file: str) -> str:
    """The text of a file's bytes: UTF-8, with or without a byte order mark.

    Raises BadFile where the bytes are too many, not text, or not UTF-8.

    >>> text_of(b"year = 5", file="class.toml")
    'year = 5'
    """
    if len(data) > MOST_BYTES:
        raise BadFile(file, wrong("error_inputs-over-mb-bytes"))
    if data.startswith((BOM_UTF16_LE, BOM_UTF16_BE)):
        raise BadFile(file, wrong("error_inputs-utf-but-utf"))
    if b"\0" in data:
        line = data.count(b"\n", 0, data.index(b"\0")) + 1
        raise BadFile(file, wrong("error_inputs-text-file-holds"), line=line)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = error.object[: error.start]  # what was decoded lacks the byte order mark, if there was one
        message = wrong("error_inputs-utf-byte-letter", byte=f"{error.object[error.start]:02X}")
        raise BadFile(file, message, line=before.count(b"\n") + 1) from None
