"""Every public formula says what it covers, where it comes from and how it is checked, and cites a source we list."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import sonify.science
from sonify.processes import PROCESSES
from sonify.science.sources import SOURCES

#: Modules of the room that hold no formula.
NOT_FORMULAE = {"ranges", "sources"}
HEADINGS = ("Args", "Raises", "Valid", "Source", "Check")
KEY = re.compile(r"\b[A-Z][A-Z0-9]+(?:-[A-Z0-9]+)+\b")


def formulae() -> Iterator[Callable[..., Any]]:
    for module in pkgutil.iter_modules(sonify.science.__path__):
        if module.name in NOT_FORMULAE:
            continue
        name = f"sonify.science.{module.name}"
        for _, function in inspect.getmembers(importlib.import_module(name), inspect.isfunction):
            if function.__module__ == name and not function.__name__.startswith("_"):
                yield function


FORMULAE = list(formulae())
BY_NAME = pytest.mark.parametrize("formula", FORMULAE, ids=lambda f: f"{f.__module__.split('.')[-1]}.{f.__name__}")


def faults(doc: str, arguments: list[str]) -> list[str]:
    """What a formula's docstring lacks."""
    found = [f'no "{heading}:"' for heading in HEADINGS if not re.search(rf"^ *{heading}:", doc, re.MULTILINE)]
    found += [f"{name} is not explained" for name in arguments if not re.search(rf"^ *{name}: \S", doc, re.MULTILINE)]
    source = re.search(r"^ *Source: (.*(?:\n(?! *Check:).*)*)", doc, re.MULTILINE)
    keys = KEY.findall(source[1]) if source else []
    found += [] if keys else ["cites no source"]
    found += [f"cites {key}, which sources.py lacks" for key in keys if key not in SOURCES]
    found += [] if ">>>" in doc.partition("Check:")[2] else ["its check does not run"]
    return found


@BY_NAME
def test_the_docstring_says_what_it_must(formula: Callable[..., Any]) -> None:
    assert not faults(inspect.getdoc(formula) or "", list(inspect.signature(formula).parameters))


@BY_NAME
def test_no_more_than_five_arguments(formula: Callable[..., Any]) -> None:
    assert len(inspect.signature(formula).parameters) <= 5


def test_there_are_formulae_to_look_at() -> None:
    assert len(FORMULAE) >= 45


@pytest.mark.parametrize(
    ("doc", "fault"),
    [
        ("Args:\n    a: x.\nRaises:\n    E\nValid: v\nSource: NO-SUCH-KEY\nCheck:\n    >>> 1", "sources.py lacks"),
        ("Args:\n    a: x.\nRaises:\n    E\nValid: v\nSource: FAO-56\nCheck: 1", "does not run"),
        ("Args:\nRaises:\n    E\nValid: v\nSource: FAO-56\nCheck:\n    >>> 1", "a is not explained"),
        ("Args:\n    a: x.\nRaises:\n    E\nSource: FAO-56\nCheck:\n    >>> 1", 'no "Valid:"'),
    ],
)
def test_the_check_finds_faults(doc: str, fault: str) -> None:
    assert any(fault in found for found in faults(doc, ["a"]))


def test_every_source_is_named_by_its_key_and_says_how_far_it_was_checked() -> None:
    for key, source in SOURCES.items():
        assert source.key == key
        assert source.text.endswith((".", "0.4.")) and source.checked


def test_every_source_is_used() -> None:
    cited = {key for formula in FORMULAE for key in KEY.findall(inspect.getdoc(formula) or "")}
    cited |= {key for spec in PROCESSES.values() for key in spec.sources}
    assert set(SOURCES) <= cited | {"IAPWS-95"}  # the yardstick of the reference tests


def test_every_source_of_a_process_is_listed() -> None:
    for spec in PROCESSES.values():
        assert set(spec.sources) <= set(SOURCES)
