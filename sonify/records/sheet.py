"""The papers that a pack can be printed on."""

from __future__ import annotations

from typing import Literal

Paper = Literal["a4", "us-letter"]
PAPERS: tuple[Paper, ...] = ("a4", "us-letter")
#: Sheets in millimetres, upright: ISO 216, and ANSI/ASME Y14.1 size A.
SIZES_MM: dict[str, tuple[float, float]] = {"a4": (210.0, 297.0), "us-letter": (215.9, 279.4)}
