"""The door from bytes to text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import BadFile
from sonify.inputs.text import text_of


def test_utf_8_is_read_with_and_without_a_byte_order_mark() -> None:
    text = "title = “Ein Tropfen, 一滴”\r\n"
    assert text_of(text.encode("utf-8"), file="a.toml") == text
    assert text_of(text.encode("utf-8-sig"), file="a.toml") == text


def test_a_megabyte_is_read_and_one_byte_more_is_not() -> None:
    assert len(text_of(b"#" * 1_000_000, file="a.toml")) == 1_000_000
    with pytest.raises(BadFile, match=r"a.toml: over 1 MB \(1,000,000 bytes\)"):
        text_of(b"#" * 1_000_001, file="a.toml")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "a.toml, line 3: not a text file: it holds a zero byte"),
        ("title = 1".encode("utf-16"), 'a.toml: not UTF-8 but UTF-16; .* "Save as"'),
        ('# "é"\ntitle = "Café"'.encode("latin-1"), "a.toml, line 1: not UTF-8: the byte 0xE9 is no letter there"),
        ("\ufeff# one\n".encode() + b"two \xff", "a.toml, line 2: not UTF-8: the byte 0xFF"),
    ],
    ids=["binary", "utf-16", "latin-1", "broken after a mark"],
)
def test_what_is_not_utf_8_text_is_refused_in_one_line(data: bytes, says: str) -> None:
    with pytest.raises(BadFile, match=says) as refused:
        text_of(data, file="a.toml")
    assert "\n" not in str(refused.value)


@given(st.binary() | st.text().map(lambda text: text.encode("utf-8", "surrogatepass")))
def test_any_bytes_are_text_or_a_clear_refusal(data: bytes) -> None:
    try:
        text = text_of(data, file="a.toml")
    except BadFile as error:
        assert str(error).startswith("a.toml")
    else:
        assert text.encode() in (data, data.removeprefix(b"\xef\xbb\xbf"))
