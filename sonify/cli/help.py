"""The help of the command line in the words of the catalogue: `help-...`, said when it is asked for."""

from __future__ import annotations

from typing import Any

from typer.core import TyperCommand, TyperGroup


class ToldCommand(TyperCommand):
    """A command whose help and whose options' help are messages."""

    def format_help(self, ctx: Any, formatter: Any) -> None:
        tell(self)
        super().format_help(ctx, formatter)


class ToldGroup(TyperGroup):
    """The program itself, which lists its commands."""

    def format_help(self, ctx: Any, formatter: Any) -> None:
        tell(self)
        for command in self.commands.values():
            tell(command)
        super().format_help(ctx, formatter)


def tell(command: Any) -> None:
    """Put the words of the moment where help is printed from: of the command, and of each of its options."""
    _say(command)
    for param in command.params:
        _say(param)


def _say(told: Any) -> None:
    """The message stays with what it is the help of, so that it can be said again in another language."""
    from sonify.records.fact import fact
    from sonify.say import say

    told.message = getattr(told, "message", told.help)
    if str(told.message).startswith("help-"):
        told.help = say(fact(told.message))
