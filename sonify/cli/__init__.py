"""The command line. It reads arguments, calls `sonify.lesson`, and prints; nothing is computed here."""

from __future__ import annotations

import signal
import sys
from types import FrameType


def main() -> None:
    """Run `sonify`. A mistake of the user's is one message on standard error and exit status 2."""
    from sonify.cli.commands import app
    from sonify.errors import SonifyError

    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8")  # a Windows console pipe would choose a code page of its own
    signal.signal(signal.SIGTERM, _stop)
    try:
        app()
    except SonifyError as error:
        print(f"sonify: {error}", file=sys.stderr)
        sys.exit(2)
    except KeyboardInterrupt:
        print("sonify: stopped; nothing was written", file=sys.stderr)
        sys.exit(130)
    except SystemExit as left:
        if left.code == 130:  # typer takes Ctrl-C for itself, and says nothing
            print("sonify: stopped; nothing was written", file=sys.stderr)
        raise
    except BrokenPipeError:
        sys.stderr.close()  # the reader went away (`sonify show ... | head`): nothing left to say
        sys.exit(0)


def _stop(number: int, frame: FrameType | None) -> None:
    """Leave by the same door as Ctrl-C, so that half-written folders are cleared away."""
    raise KeyboardInterrupt
