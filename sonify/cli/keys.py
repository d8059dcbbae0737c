"""One key at a time from a terminal, without waiting for Enter; nothing where there is no terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def key_reader() -> Iterator[Callable[[], str]]:
    """A function that returns the key pressed since it was last asked, or "". The terminal is put back on any exit."""
    if not (sys.stdin and sys.stdin.isatty()):
        yield lambda: ""
    elif sys.platform == "win32":
        import msvcrt

        yield lambda: msvcrt.getwch() if msvcrt.kbhit() else ""
    else:
        import select
        import termios
        import tty

        terminal = sys.stdin.fileno()
        before = termios.tcgetattr(terminal)

        def pressed() -> str:
            return sys.stdin.read(1) if select.select([sys.stdin], [], [], 0)[0] else ""

        try:
            tty.setcbreak(terminal)
            yield pressed
        finally:
            termios.tcsetattr(terminal, termios.TCSADRAIN, before)
