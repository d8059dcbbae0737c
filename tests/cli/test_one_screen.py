"""What a teacher is told first fits a screen of 24 lines of 80 letters; the rest is one flag away."""

from __future__ import annotations

import re

import pytest
from rich.console import Console

from sonify.cli import views
from sonify.records.findings import Finding
from tests.studies import SCENES, studied

LINES, LETTERS = 24, 80


@pytest.fixture(autouse=True)
def narrow(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal of 80 letters; the same stream as the command's own."""
    import sys

    monkeypatch.setattr(
        views, "_console", lambda *, stderr=False: Console(file=sys.stdout, width=LETTERS, highlight=False)
    )


def printed(capsys: pytest.CaptureFixture[str]) -> list[str]:
    return capsys.readouterr().out.splitlines()


@pytest.mark.parametrize("name", SCENES)
def test_show_fits_a_screen_and_names_every_rule(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    lesson = studied(name)
    views.lesson_view(lesson, lesson.scene.name)
    lines = printed(capsys)
    assert len(lines) <= LINES and max(map(len, lines)) <= LETTERS
    text = "\n".join(lines)
    for key in lesson.controls.keys:
        quantity, of, group = key.rule.quantity.partition(": ")  # of one group: "height (sill)"
        told = f"{quantity} ({group})" if of else quantity
        assert f"- {told} as {key.rule.control}"[:LETTERS] in text
    assert f"sonify show {name} --all" in text
    # A teacher reads no unit as a file or a library has it (how they are printed: common practice).
    unread = re.findall(
        r"delta_\w+|\bdeg\w*|\bbpm\b|\bcounts?/|\b\d+ 1(?= to| is)|\b1/\w+|\*\*|K/min|per (?:beat|bar)", text
    )
    assert not unread


@pytest.mark.parametrize("name", SCENES)
def test_check_fits_a_screen_and_tells_nothing_that_asks_for_nothing(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    lesson = studied(name)
    views.findings_view(lesson.findings)
    lines = printed(capsys)
    assert len(lines) <= LINES
    asks_nothing = [f for f in lesson.findings if not f.serious and not f.fix]
    assert "Good to know" not in "\n".join(lines)
    views.findings_view(lesson.findings, everything=True)
    assert ("Good to know" in "\n".join(printed(capsys))) == bool(asks_nothing)


def test_findings_that_do_not_fit_are_counted(capsys: pytest.CaptureFixture[str]) -> None:
    many = [Finding(kind="rule", message=f"The rule of part {n} is wrong. " * 3, fix="Mend it.") for n in range(30)]
    views.findings_view(many)
    lines = printed(capsys)
    told = sum(line.startswith("- ") for line in lines)
    assert len(lines) <= LINES and lines[-1] == f"and {30 - told} more: add --all"
