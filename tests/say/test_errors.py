"""Errors are facts: every message of theirs is there, gets what it asks for, and is said in any language."""

from __future__ import annotations

import ast
import pickle
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from fluent.syntax import ast as ftl
from fluent.syntax.visitor import Visitor

import sonify
from sonify import lesson, units
from sonify.errors import BadChange, BadFile, OutOfRange, Said, SonifyError, UnknownName
from sonify.inputs.experiment import read_experiment
from sonify.inputs.logger import read_table
from sonify.inputs.readings import scale
from sonify.inputs.template import valid_scene_name
from sonify.inputs.text import text_of
from sonify.inputs.workbook_checks import checked
from sonify.processes import PROCESSES, find
from sonify.records.fact import wrong
from sonify.say import say, speaking
from sonify.say.language import ON_PAGE
from sonify.web import drafts
from sonify.web.inputs import read_inputs
from sonify.web.options import read_options

from .catalogue import messages
from .pseudo import PSEUDO, unmarked

ROOT = Path(sonify.__file__).parent
WRITTEN = [path.read_text(encoding="utf-8") for path in sorted(ROOT.rglob("*.py"))]
ERRORS = {row.id: row for row in messages("error*.ftl")}


class _Places(Visitor):
    def __init__(self) -> None:
        self.names: set[str] = set()

    def visit_VariableReference(self, node: ftl.VariableReference) -> None:
        self.names.add(node.id.name)


def asked() -> Iterator[tuple[str, set[str]]]:
    """Every message that the code names for an error, with the places it fills."""
    for node in (each for text in WRITTEN for each in ast.walk(ast.parse(text))):
        if not (isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("wrong", "Said") and node.args):
            continue
        given = {word.arg for word in node.keywords if word.arg}
        message = getattr(node.args[0], "value", "")
        if str(message).startswith("error") and len(given) == len(node.keywords):
            yield str(message), given


def test_every_error_that_is_raised_has_its_message_and_fills_its_places() -> None:
    found = list(asked())
    assert len(found) > 120
    for message, given in found:
        assert message in ERRORS, message
        places = _Places()
        places.visit(ERRORS[message].entry)
        assert places.names <= given, message


def test_no_message_of_an_error_is_left_over() -> None:
    code = "".join(WRITTEN)
    whole = {row for row in ERRORS if f'"{row}"' in code}
    ends = {
        row for row in set(ERRORS) - whole if f'"{row.partition("-")[2]}"' in code
    }  # put in: f"error_toml-{advice}"
    made = {row for row in set(ERRORS) - whole - ends if f'f"{row.rpartition("-")[0]}-{{' in code}
    here = {row for row in ERRORS if row.endswith(ON_PAGE) and row.removesuffix(ON_PAGE) in ERRORS}
    assert sorted(set(ERRORS) - whole - ends - made - here) == []


#: What a person did wrong, and what of the message is her own or TOML's own word.
MISTAKES: list[tuple[Callable[[], object], set[str]]] = [
    (lambda: find("water-cycel"), {"water", "cycel"}),
    (lambda: valid_scene_name("Chocolate melting"), {"Chocolate", "melting", "chocolate"}),
    (lambda: units.split("14"), {"degC"}),
    (lambda: scale("Q"), set()),
    (lambda: text_of(b"\xff\xfe", file="my.toml"), {"my", "toml"}),
    (lambda: drafts.scene_of("title = One", file="my.toml"), {"my", "toml", "Invalid", "value"}),
    (lambda: drafts.scene_of(changed("humidity", '"72"'), file="my.toml"), {"my", "toml", "conditions", "humidity"}),
    (
        lambda: drafts.scene_of(changed("humidity", '"warm"'), file="my.toml"),
        {"my", "toml", "conditions", "humidity", "warm"},
    ),
    (lambda: drafts.scene_of(changed("wind", '"900 m/s"'), file="my.toml"), {"my", "toml", "conditions", "wind"}),
    (lambda: lesson.load("harbour-water-cycle", ["wind=3 K"]), {"set", "wind"}),
    (lambda: lesson.check_seed(-1), {"seed"}),
    (lambda: read_table(b"a,b\nc,d\n", file="log.csv"), {"log", "csv"}),
    (lambda: read_table(b"Time (s),T (K)\n0,1 K\n1,2 degC\n", file="log.csv"), {"log", "csv", "T", "K", "°C"}),
    (lambda: read_experiment(b"Layers,Clips\n0,9\n", file="clips.csv"), {"clips", "csv"}),
    (lambda: checked(b"PK\x03\x04", file="clips.xlsx"), {"clips", "xlsx"}),
    (lambda: PROCESSES["results-table"].for_table(read_table(LOG, file="log.csv")), {"log", "csv"}),
    (lambda: read_inputs([]), set()),
    (lambda: read_options({"paper": "b5"}), {"letter", "us"}),
]
LOG = b"Time (s),T (K)\n0,1\n1,2\n2,3\n"


def test_what_is_noticed_in_readings_is_said_in_the_language_of_the_moment() -> None:
    written = "Time (s),T,T2 (K),Place\n0,1,,at\n1,x,4,at\n1,3,4,at\n9,4,4,at\n10,5,4,at\n11,6,4,at\nz,7,4,at\n"
    findings = read_table(written.encode(), file="log.csv").findings
    assert len(findings) > 6
    with speaking(PSEUDO):
        told = [say(words) for each in findings for words in (each.message, each.fix)]
    assert {word for text in told for word in unmarked(text)} <= {"K", "T", "Temp", "Time", "place", "time", "x"}


def changed(condition: str, value: str) -> str:
    """The harbour's scene with another value for one condition."""
    rows = drafts.shipped_scene_text("harbour-water-cycle").split("\n")
    return "\n".join(f"{condition} = {value}" if row.startswith(f"{condition} ") else row for row in rows)


@pytest.mark.parametrize("number", range(len(MISTAKES)))
def test_an_error_is_said_in_the_language_of_the_moment(number: int) -> None:
    mistake, own = MISTAKES[number]
    with pytest.raises(SonifyError) as refused:
        mistake()
    english = str(refused.value)
    with speaking(PSEUDO):
        told = str(refused.value)
    assert told != english and len(told) > len(english)
    known = (
        own | set(lesson.process_names()[0].split()) | UNITS | {n for p in lesson.process_names() for n in p.split("-")}
    )
    assert [word for word in unmarked(told) if word not in known] == []
    assert str(refused.value) == english


#: How units are written in a file, and the flags of the command line.
UNITS = {"degC", "m", "s", "UTF"}


def test_every_kind_of_error_goes_from_one_process_to_another() -> None:
    # Packs are made in a process of their own, whose errors come back.
    for error in (
        BadChange("wind", "9", Said("error_unit-turned-into", from_unit="K", to_unit="m")),
        BadFile("a.toml", "is wrong"),
        OutOfRange("wind", 9.0, "m/s", "0 to 1 m/s", "a law"),
        UnknownName("process", "x", ["y"], where="hear.0"),
    ):
        assert str(pickle.loads(pickle.dumps(error))) == str(error)


def test_the_text_of_an_error_is_what_it_was() -> None:
    # The words that people and tests know, put together from facts.
    assert str(BadFile("a.toml", "is wrong", line=3, key="hear.0")) == "a.toml, line 3: hear.0: is wrong"
    several = BadFile.several([BadFile("a", "x", line=2), BadFile("a", "y", line=1), BadFile("a", "z", line=9)], most=2)
    assert str(several) == "a: 3 things to mend\n  a, line 1: y\n  a, line 2: x\n  and 1 more"
    assert str(UnknownName("stage", "ic", ["ice"], where="hear.0")) == (
        'unknown stage in hear.0 "ic"; did you mean "ice"? Allowed: ice'
    )
    assert str(OutOfRange("wind", 9.0, "m/s", "0 to 1 m/s", "a law")) == "wind is 9 m/s; a law covers 0 to 1 m/s"


def test_a_long_list_of_what_is_allowed_is_said_whole() -> None:
    # Fluent itself refuses a place of more than a thousand letters.
    names = [f"instrument {number}" for number in range(400)]
    text = str(BadFile("a.toml", UnknownName("instrument", "kazoo", names), line=3))
    assert text.endswith(f"Allowed: {', '.join(sorted(names))}")


@pytest.mark.parametrize(("count", "told"), [(1, "one pack could not be made"), (2, "2 packs could not be made")])
def test_a_count_in_an_error_is_a_number(count: int, told: str) -> None:
    assert say(wrong("error_batch-some-failed", failed=count, list="")).startswith(told)
    assert "up to 10000 letters" in say(wrong("error_edits-long", most=10_000))  # as Python writes it
