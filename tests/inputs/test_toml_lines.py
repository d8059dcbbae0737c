"""The line finder, against `tomllib`: every value of these files is the number of the line its key stands on."""

from __future__ import annotations

import time
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.inputs.toml_lines import TooMuch, key_lines

#: Every whole number below 1000 is the line of its own key; all else is there to be in the way.
TRICKY = (Path(__file__).parent / "tricky.toml").read_text(encoding="utf-8")


def numbers(value: object, key: str = "") -> Iterator[tuple[str, int]]:
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from numbers(inner, f"{key}.{name}" if key else name)
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            yield from numbers(inner, f"{key}.{number}")
    elif isinstance(value, int) and value < 1000:
        yield key, value


@pytest.mark.parametrize("newline", ["\n", "\r\n"], ids=["lf", "crlf"])
def test_every_key_of_a_tricky_file_is_on_its_line(newline: str) -> None:
    text = TRICKY.replace("\n", newline)
    expected = dict(numbers(tomllib.loads(text)))
    assert len(expected) == 31
    found = key_lines(text)
    assert {key: found.lines.get(key) for key in expected} == expected
    assert found.repeated == []


def test_tables_and_list_items_have_lines_too() -> None:
    lines = key_lines(TRICKY).lines
    assert (lines["table"], lines["table.sub table"], lines["many"], lines["many.0"]) == (31, 33, 35, 35)
    assert (lines["many.0.pieces.1"], lines["many.1"], lines["many.1.pieces.0"]) == (41, 46, 49)
    assert (lines["list"], lines["list.0"], lines["list.2"], lines["list.3.1"], lines["list.4"]) == (22, 22, 23, 23, 25)


@st.composite
def documents(draw: st.DrawFn) -> str:
    """Files whose every number is the line of its key."""
    rows: list[str] = []
    names = iter(range(10_000))
    keys = st.sampled_from(["k{}", '"k {}"', "'k.{}'", '"k\\t{}"', "a{0}.b{0}", "a{0} . 'b # {0}'"])
    in_the_way = st.sampled_from(["", "# x = 1", '"t{}" = """\n[no]\nno = 1 """', "'t{}' = '''\n''no = 1\n'''"])
    values = st.sampled_from(["{}", "[{0}, [{0}]] # ]", "{{ a = {0}, 'b' = {{ c = {0} }} }}", "[ # [\n 9999,]"])
    for kind in draw(st.lists(st.sampled_from(["pair", "pair", "way", "table", "array", "inner"]), max_size=25)):
        name = next(names)
        if kind == "pair":
            line = "\n".join(rows).count("\n") + 1 + bool(rows)
            rows.append(f"{draw(keys).format(name)} = {draw(values).format(line)}")
        elif kind == "way":
            rows.append(draw(in_the_way).format(name))
        elif kind == "table":
            rows.append(f"[table{name} . 'x']")
        else:
            rows.append("[[array.inner]]" if kind == "inner" and "[[array]]" in rows else "[[array]]")
    return "\n".join(rows)


@given(documents())
def test_every_key_of_any_file_is_on_its_line(text: str) -> None:
    expected = dict(numbers(tomllib.loads(text)))
    lines = key_lines(text).lines
    assert {key: lines.get(key) for key in expected} == expected


@given(st.text() | st.text(alphabet="[]{}\"'=.,#\n\\ ab1"))
def test_any_text_is_walked_without_a_fault(text: str) -> None:
    assert all(1 <= line <= text.count("\n") + 1 for line in key_lines(text).lines.values())


def test_of_a_broken_text_all_before_the_break_is_found() -> None:
    assert key_lines("a = 1\nb = 2\nc = = 3\nd = 4\n").lines == {"a": 1, "b": 2, "c": 3}


def test_a_key_given_twice_is_told_with_both_lines() -> None:
    assert key_lines("a = 1\n\n[t]\nb = 2\nb = 3\n").repeated == [("t.b", 4, 5)]


@pytest.mark.parametrize(
    ("text", "line", "message"),
    [
        ("\n" + ".".join("a" * 30) + " = 1", 2, "24 deep"),
        ("[" + ".".join("a" * 30) + "]", 1, "24 deep"),
        ("a = 1\nb = " + "[" * 50_000, 2, "24 deep"),
        ("a = " + "{a=" * 50_000, 1, "24 deep"),
        ("\na = [" + "1," * 100_001 + "]", 2, "more than 100000 keys and list items"),
        ("[t]\n" + "k" * 201 + " = 1", 2, "longer than 200"),
    ],
)
def test_what_would_keep_tomllib_busy_for_hours_is_refused(text: str, line: int, message: str) -> None:
    with pytest.raises(TooMuch, match=message) as refused:
        key_lines(text)
    assert refused.value.line == line


def test_a_megabyte_is_walked_in_the_time_tomllib_takes_or_less() -> None:
    text = "\n".join(f'[[t]]\nk{i} = ["a", {i}]' for i in range(24_000))
    begun = time.perf_counter()
    tomllib.loads(text)
    read = time.perf_counter()
    assert len(key_lines(text).lines) == 96_001
    assert time.perf_counter() - read < 3 * (read - begun) + 0.5
