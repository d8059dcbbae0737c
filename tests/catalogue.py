"""The shipped instrument catalogue, read for tests the plain way."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from pathlib import Path

from sonify.records.instrument import Catalogue, Instrument

ROOT = Path(__file__).resolve().parent.parent


@lru_cache(maxsize=1)
def catalogue() -> Catalogue:
    rows = tomllib.loads((ROOT / "shared" / "instruments.toml").read_text(encoding="utf-8"))
    return Catalogue(
        instruments=tuple(
            Instrument(id=key, **{k: tuple(v) if isinstance(v, list) else v for k, v in row.items()})
            for key, row in rows.items()
        )
    )
