"""One pack of the harbour scene for each example class, made once for all tests here."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from sonify import lesson

ROOT = Path(__file__).resolve().parent.parent.parent
CLASSES = ("well-stocked", "few-instruments")


@dataclass(frozen=True)
class Pack:
    folder: Path
    told: dict[str, Any]  # score.json

    def part(self, name: str) -> dict[str, Any]:
        return next(part for part in self.told["parts"] if part["name"] == name)


@pytest.fixture(scope="session", params=[pytest.param("well-stocked", marks=pytest.mark.long), "few-instruments"])
def pack(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Pack:
    folder = lesson.make(
        "harbour-water-cycle",
        ROOT / "examples" / f"{request.param}.toml",
        out=tmp_path_factory.mktemp("packs") / request.param,
    )
    return Pack(folder=folder, told=json.loads((folder / "score.json").read_text(encoding="utf-8")))
