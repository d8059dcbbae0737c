"""What a class may need: a class file lists them by these names."""

from __future__ import annotations

NO_SUDDEN_SOUNDS, LARGE_PRINT, QUIET_START = NEEDS = ("no sudden loud sounds", "large print", "quiet start")
