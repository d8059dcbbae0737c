"""From Python: a scene's science, its score for one class, the sound, and the whole lesson pack.

    python examples/api.py [FOLDER]

writes into FOLDER, or into ./from-python where it is left out.
"""

from __future__ import annotations

import sys
from pathlib import Path

import sonify

HERE = Path(__file__).parent


def main(folder: Path) -> None:
    scene = sonify.load("harbour-water-cycle")  # a ready-made scene by name; a path to a scene file works, too
    timeline = sonify.simulate(scene)
    warmth = timeline.quantity("journey temperature").in_unit()
    print(f"{scene.title}: the water is between {warmth.min():.1f} and {warmth.max():.1f} °C.")
    for stage in timeline.stages:
        print(f"  {stage.title}: {(stage.end_s - stage.start_s) / 3600:.1f} hours. {stage.science}")

    classroom = HERE / "few-instruments.toml"
    score = sonify.compose(scene, classroom, seed=1)
    for part in score.group_parts:
        print(f"  {part.name}: group {part.group}, {part.players} pupils, {len(part.notes)} notes on {part.instrument}")

    folder.mkdir(parents=True, exist_ok=True)
    print("Sound:", sonify.write_wav(score, folder / "soundscape.wav"))
    print("Pack:", sonify.make(scene, classroom, out=folder / "pack", seed=1))


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else "from-python"))
