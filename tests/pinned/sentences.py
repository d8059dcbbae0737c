"""Every distinct sentence of all scenes, with where it stands: for whoever reads them through.

    python -m tests.pinned.sentences [--all] [SCENE...]

Prints `sentence <tab> scene/output, scene/output` in the order of their first coming. A sentence has a full stop,
question or exclamation mark and three words at least; --all lists headings, cells and fragments too. Reads the pins.
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterable

from tests.pinned.words import ALL, OUTPUTS, WORDS

#: What stands before a row's text: a heading's, cell's or list's mark, an attribute's name, where data stands.
OPENING = re.compile(r"^\s*(?:#+ |\| |- |\[[\w-]+\] |bar \d+(?: beat [\d.]+)? [\w-]+: |[\w-]+: (?=[A-Z“0-9]))?")
WORD = re.compile(r"[^\W\d_]{2,}")


def is_sentence(text: str) -> bool:
    return bool(re.search(r"[.?!…][”’\")]?$", text)) and len(WORD.findall(text)) >= 3


def found_sentences(scenes: Iterable[str], *, fragments: bool = False) -> dict[str, list[str]]:
    """Each distinct sentence with the scene and output that carry it."""
    found: dict[str, list[str]] = {}
    order = [f"{name}.txt" for name in OUTPUTS]
    for scene in scenes:
        paths = sorted(
            (WORDS / scene).glob("*.txt"), key=lambda path: order.index(path.name) if path.name in order else -1
        )
        for path in paths:
            place = f"{scene}/{path.name.removesuffix('.txt')}"
            for row in path.read_text(encoding="utf-8").splitlines():
                for text in row.split(" | "):
                    told = OPENING.sub("", text).strip()
                    if not row.startswith("===") and WORD.search(told) and (fragments or is_sentence(told)):
                        places = found.setdefault(told, [])
                        places += [place] if place not in places else []
    return found


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.pinned.sentences", description=__doc__.split("\n")[0])
    parser.add_argument("scenes", nargs="*", metavar="SCENE", choices=[*ALL, []], help="left out: every scene")
    parser.add_argument("--all", action="store_true", help="headings, cells and fragments too")
    asked = parser.parse_args()
    for sentence, places in found_sentences(asked.scenes or ALL, fragments=asked.all).items():
        print(f"{sentence}\t{', '.join(places)}")


if __name__ == "__main__":
    main()
