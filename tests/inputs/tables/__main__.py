"""How many of the tables are read right at the first guess, and with one correction: python -m tests.inputs.tables."""

from __future__ import annotations

import sys
import time

from sonify.errors import SonifyError
from tests.inputs.tables import EXPECTED, corrected, differences, read


def main() -> int:
    right, mended, refused, wrong = [], [], [], []
    began = time.perf_counter()
    for name, wanted in EXPECTED.items():
        told: list[str] = []
        try:
            found = read(name)
            told = differences(found, wanted) if "refused" not in wanted else ["it was read"]
        except SonifyError as error:
            if wanted.get("refused", "\0") in str(error):
                refused.append(name)
                continue
            told = [str(error)]
        if not told:
            right.append(name)
            continue
        roles = corrected(name)
        if roles is not None and not differences(read(name, roles), wanted):
            mended.append(name)
            continue
        wrong.append(name)
        print(f"{name}: {'; '.join(told)}")
    tables = len(EXPECTED) - len(refused)
    print(f"{len(EXPECTED)} files, {len(refused)} refused as they should be, in {time.perf_counter() - began:.2f} s")
    print(f"right at the first guess: {len(right)} of {tables} ({100 * len(right) / tables:.0f} %)")
    both = len(right) + len(mended)
    print(f"right with one correction: {both} of {tables} ({100 * both / tables:.0f} %): {', '.join(mended)}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
