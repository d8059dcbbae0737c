"""Pin the words anew: python -m tests.pinned.renew [SCENE...]; without a scene, all of them."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Sequence

from tests.pinned.words import ALL, WORDS, words_of


def renew(scenes: Sequence[str]) -> None:
    """Each scene's texts written in place of what was pinned, and nothing left over."""
    for scene in scenes:
        folder = WORDS / scene
        found = words_of(scene)
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        for name, text in found.items():
            (folder / f"{name}.txt").write_text(text, encoding="utf-8", newline="\n")
        print(f"{folder}: {len(found)} texts")


def main(asked: Sequence[str]) -> int:
    unknown = [scene for scene in asked if scene not in ALL]
    if unknown:
        print(f"No scene {', '.join(unknown)}; there are: {', '.join(ALL)}.", file=sys.stderr)
        return 2
    renew(asked or ALL)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
