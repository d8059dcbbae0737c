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
    used_mib = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps({"memory_mib": used_mib}), flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
