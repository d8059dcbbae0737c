"""The command line. It reads arguments, calls `sonify.lesson`, and prints; nothing is computed here."""

from __future__ import annotations

import gc
import signal
import sys
from contextlib import suppress
from types import FrameType


def main() -> None:
    """Run `sonify`. A mistake of the user's is one message on standard error and exit status 2."""
    from sonify.cli.commands import app
    from sonify.cli.screen import set_up
    from sonify.cycles import SELDOM
    from sonify.errors import SonifyError

    gc.set_threshold(SELDOM, *gc.get_threshold()[1:])
    set_up()
    _leave_by_one_door()
    try:
        try:
            app()
        finally:
            if sys.stdout is not None:
                sys.stdout.flush()
    except SonifyError as error:
        _say(f"sonify: {error}")
        sys.exit(2)
    except KeyboardInterrupt:
        _say(_stopped())
        sys.exit(130)
    except SystemExit as left:
        if left.code == 130:  # typer takes Ctrl-C for itself, and says nothing
            _say(getattr(left, "told", "") or _stopped())
        raise


def _stopped() -> str:
    from sonify.records.fact import fact
    from sonify.say import say

    return say(fact("cli-stopped"))


def _say(text: str) -> None:
    from sonify.errors import SonifyError

    with suppress(SonifyError, SystemExit):  # nobody reads standard error, or it is full: the status still tells
        print(text, file=sys.stderr, flush=True)


def _leave_by_one_door() -> None:
    """A request to end and a terminal that closes leave as Ctrl-C does, so that half-made folders are cleared away.

    What whoever started us had ignored (`nohup`) stays ignored.
    """
    for name in ("SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        if number is not None and signal.getsignal(number) is signal.SIG_DFL:
            signal.signal(number, _stop)


def _stop(number: int, frame: FrameType | None) -> None:
    raise KeyboardInterrupt
