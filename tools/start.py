"""What the program of `tools/folder.py` starts with: the command line, or one of its own modules in a new process."""

from __future__ import annotations

import multiprocessing
import runpy
import sys

if __name__ == "__main__":
    multiprocessing.freeze_support()
    if sys.argv[1:2] == ["-m"] and sys.argv[2:] and sys.argv[2].split(".")[0] == "sonify":
        del sys.argv[1]
        runpy.run_module(sys.argv.pop(1), run_name="__main__", alter_sys=True)
    else:
        from sonify.cli import main

        main()
