"""The front door of the room: what the rest of the house asks for, all in one place."""

from __future__ import annotations

from sonify.sound.live import stream_blocks
from sonify.sound.options import with_click, without_groups
from sonify.sound.page import page_sounds
from sonify.sound.rendering import Rendering, render
from sonify.sound.writing import (
    FORMATS,
    float_blocks,
    heard_blocks,
    marks_of,
    mix_blocks,
    stem_names,
    write_compressed,
    write_stems,
    write_wav,
)

__all__ = [
    "FORMATS",
    "Rendering",
    "float_blocks",
    "marks_of",
    "mix_blocks",
    "heard_blocks",
    "page_sounds",
    "render",
    "stem_names",
    "stream_blocks",
    "with_click",
    "without_groups",
    "write_compressed",
    "write_stems",
    "write_wav",
]
