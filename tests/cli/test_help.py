"""The help of the command line: every line of it is a message, said in the language of the moment."""

from __future__ import annotations

import re

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from sonify.cli.commands import app
from sonify.say import ENGLISH, speaking
from tests.say.pseudo import PSEUDO, unmarked

COMMANDS = sorted(str(each.name or each.callback.__name__) for each in app.registered_commands if each.callback)
#: What the parser of the command line says by itself, and what a person types: names, options, what stands for a value.
PARSERS = {"Usage", "Options", "Arguments", "Commands", "OPTIONS", "COMMAND", "ARGS", "Show", "this", "message", "and"}
PARSERS |= {"exit", "required", "default", "help", "sonify", "str", "int", "path"}


def helped(*words: str) -> str:
    return CliRunner().invoke(app, [*words, "--help"], prog_name="sonify", color=False).stdout


def of_the_parser(word: str, text: str) -> bool:
    """Whether a word is typed: a command, an option, a choice of one, or what stands for its value, in capitals."""
    typed = re.search(rf"--[\w-]*{word}|[<\[][^>\]]*{word}|FILE\.{word}", text)
    return word in PARSERS or word in COMMANDS or word.isupper() or typed is not None


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_help_is_said_in_the_language_of_the_moment(command: str) -> None:
    words = [command] if command else []
    with speaking(PSEUDO):
        told = helped(*words)
    assert [word for word in unmarked(told) if not of_the_parser(word, told)] == []
    english = helped(*words)
    assert english != told
    if command:
        assert ENGLISH.message(f"help-command-{command}").split("\n")[0].split(";")[0].split(",")[0] in english


def test_every_help_is_a_message() -> None:
    helped()  # what is said once keeps its message
    group = get_command(app)
    commands = [group, *group.commands.values()]  # type: ignore[attr-defined]
    told = [each for each in (*commands, *(p for c in commands for p in c.params)) if each.name != "help"]
    assert len(told) > 40
    assert all(str(each.help).startswith("help-") for each in told)
