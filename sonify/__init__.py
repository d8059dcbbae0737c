"""Science processes, computed and arranged as a soundscape that a class can play.

The five functions of the Python interface live in `sonify.lesson`; they are loaded when first used, so that
`import sonify` stays instant.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sonify import errors

__version__ = "0.1.0"
__all__ = ["compose", "load", "make", "simulate", "write_wav"]

if TYPE_CHECKING:
    from sonify.lesson import compose, load, make, simulate, write_wav


def _told(error: errors.SonifyError) -> str:
    from sonify.say.errors import told

    return told(error)


errors.told_by(_told)  # the ground knows nobody: who says what an error means is told to it here


def __getattr__(name: str) -> Any:
    if name in __all__:
        from sonify import lesson

        return getattr(lesson, name)
    raise AttributeError(f"module 'sonify' has no attribute '{name}'")
