"""Measures every recording of a folder against the score.json in it, in a process that does nothing else: what is
looked for is one that dies, grows or hangs. A line of JSON a file, at the end one of the memory it took."""

from __future__ import annotations

import json
import resource
import sys
import time
from pathlib import Path

from sonify.errors import SonifyError
from sonify.lesson.class_recording import listen


def most_mib() -> float:
    """The most memory that this process had at a time. Not `ru_maxrss` where it can be helped: on Linux that begins
    with what the process had that started this one (getrusage(2): it is kept across execve), so a large parent
    is counted as the child's."""
    status = Path("/proc/self/status")
    if status.exists():
        row = next(line for line in status.read_text(encoding="ascii").splitlines() if line.startswith("VmHWM:"))
        return int(row.split()[1]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (2**20 if sys.platform == "darwin" else 1024)


def main(folder: Path) -> None:
    for file in sorted(folder.glob("*.*")):
        if file.name == "score.json":
            continue
        begun, fault, told = time.process_time(), "", ""
        try:
            found = listen(folder, file)
            told = "recognised" if found.recognised else "not recognised"
            if not found.recognised and (found.stages or found.questions or not found.why):
                fault = "not recognised, and something is told"
        except SonifyError as error:
            told, fault = "refused", "" if str(error).count("\n") == 0 else "more than a line"
        except Exception as error:
            fault = f"{type(error).__name__}: {error}"
        seconds = time.process_time() - begun
        print(json.dumps({"file": file.name, "told": told, "fault": fault, "seconds": seconds}), flush=True)
    print(json.dumps({"memory_mib": most_mib()}), flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
