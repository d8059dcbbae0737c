"""Standard output and error as a person's terminal bears them: nothing from a file or an argument is obeyed there."""

from __future__ import annotations

import io
import os
import sys
from typing import Any, NoReturn, TextIO, cast

from sonify.errors import SonifyError
from sonify.records.fact import wrong
from sonify.records.safe_text import for_terminal


class Screen(io.TextIOWrapper):
    """A stream whose every text is cleaned. `styled` is the same stream for what sets colours and moves the cursor.

    A reader that goes away (`sonify show ... | head`) ends the program well; a disk that is full is one message.
    """

    def write(self, text: str) -> int:
        return self.write_styled(for_terminal(text))

    def write_styled(self, text: str) -> int:
        try:
            return super().write(text)
        except OSError as error:
            self._lost(error)

    def flush(self) -> None:
        try:
            super().flush()
        except OSError as error:
            self._lost(error)

    def _lost(self, error: OSError) -> NoReturn:
        with open(os.devnull, "wb") as nowhere:  # what waits in the buffer goes there, or it would fail again at exit
            os.dup2(nowhere.fileno(), self.fileno())
        if isinstance(error, BrokenPipeError):
            raise SystemExit(0)
        raise SonifyError(wrong("error_web-output-could-written", value=error.strerror or error))


class Styled:
    """A Screen for a library that styles text it was given clean."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen

    def write(self, text: str) -> int:
        return self._screen.write_styled(text)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._screen, name)


def set_up() -> None:
    """Make both streams Screens. UTF-8 everywhere: a Windows console pipe would choose a code page of its own."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if isinstance(stream, io.TextIOWrapper) and not isinstance(stream, Screen):
            options: dict[str, Any] = {
                "encoding": "utf-8",
                "errors": "backslashreplace",
                "line_buffering": stream.line_buffering,
                "write_through": stream.write_through,
            }
            setattr(sys, name, Screen(stream.detach(), **options))


def styled(stream: TextIO) -> TextIO:
    """A stream for text that is clean already and carries styles of our own."""
    return cast(TextIO, Styled(stream)) if isinstance(stream, Screen) else stream
