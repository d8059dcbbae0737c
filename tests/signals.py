"""Signals of the processes that tests start."""

from __future__ import annotations

import signal


def with_its_signals() -> None:
    """For a child that is to be stopped: whoever started the tests may have Ctrl-C ignored (`nohup tests/run &`)."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        signal.signal(getattr(signal, name), signal.SIG_DFL)
