"""A command run in a copy of a process in which all is imported: half the time of most goes into starting Python.

The copies are made by a server that runs no test, so that no lock of a library is held in them by a thread left behind.
"""

from __future__ import annotations

import os
import sys
import traceback
from multiprocessing import get_context
from pathlib import Path
from subprocess import CompletedProcess
from tempfile import TemporaryDirectory

from sonify.cli import main

LONGEST_S = 240


def in_a_copy(args: tuple[str, ...], cwd: Path) -> CompletedProcess[str]:
    """`sonify ARGS` as run in the folder `cwd`, with what it wrote and its exit status."""
    context = get_context("forkserver")
    context.set_forkserver_preload([__name__, "sonify.cli.commands", "sonify.lesson"])
    with TemporaryDirectory() as folder:
        out, err = Path(folder) / "out", Path(folder) / "err"
        copy = context.Process(target=_be_the_command, args=(args, cwd, out, err))
        copy.start()
        copy.join(LONGEST_S)
        if copy.exitcode is None:
            copy.kill()
            raise TimeoutError(f"sonify {' '.join(args)} ran for more than {LONGEST_S} s")
        return CompletedProcess(args, copy.exitcode, out.read_text(encoding="utf-8"), err.read_text(encoding="utf-8"))


def _be_the_command(args: tuple[str, ...], cwd: Path, out: Path, err: Path) -> None:
    """In the copy: stand where Python would put a command just started, run it, and leave without coming back."""
    status = 1
    try:
        for name, flags, number in ((os.devnull, os.O_RDONLY, 0), (out, _WRITE, 1), (err, _WRITE, 2)):
            opened = os.open(name, flags, 0o600)
            os.dup2(opened, number)
            os.close(opened)
        sys.stdin = os.fdopen(0, "r", encoding="utf-8")
        sys.stdout, sys.stderr = (os.fdopen(number, "w", encoding="utf-8") for number in (1, 2))
        os.chdir(cwd)
        os.environ["COLUMNS"] = "120"
        sys.argv = ["sonify", *args]
        main()
        status = 0
    except SystemExit as left:
        status = left.code if isinstance(left.code, int) else 1 if left.code else 0
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)


_WRITE = os.O_WRONLY | os.O_CREAT | os.O_TRUNC
