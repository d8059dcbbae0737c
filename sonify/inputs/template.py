"""The scene file that `sonify new` writes: explained line by line, and already playable."""

from __future__ import annotations

import re

from sonify.errors import BadName
from sonify.inputs.document import shown
from sonify.templates import template

LONGEST_NAME = 60

_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
#: Names that Windows keeps for its devices, whatever follows a dot.
_DEVICES = re.compile(r"con|prn|aux|nul|(com|lpt)[0-9]")


def valid_scene_name(name: str) -> str:
    """The name itself, if it serves as a file's and a folder's name on every system.

    Raises BadName, saying what is allowed.

    >>> valid_scene_name("my-puddle-2")
    'my-puddle-2'
    """
    rule = 'use lower-case letters, digits and single hyphens between them, such as "my-puddle-2"'
    if not _NAME.fullmatch(name):
        raise BadName(f"a scene cannot be called {shown(name)}; {rule}")
    if len(name) > LONGEST_NAME:
        raise BadName(f"a scene's name may have {LONGEST_NAME} letters, and {shown(name)} has {len(name)}")
    if _DEVICES.fullmatch(name):
        raise BadName(f"a scene cannot be called {shown(name)}: Windows keeps that name for a device; take another")
    return name


def new_scene_text(name: str) -> str:
    """A commented scene file for a new scene of this name. Raises BadName."""
    title = valid_scene_name(name).replace("-", " ").capitalize()
    return template("inputs", "new_scene.toml").replace("{title}", title)
