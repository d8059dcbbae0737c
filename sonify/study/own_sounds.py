"""The sounds that a scene names, read from their files: each becomes data that the Score carries."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import replace

from sonify.errors import BadFile, SonifyError
from sonify.inputs.sound_file import read_own_sound
from sonify.records.fact import wrong
from sonify.records.instrument import Catalogue
from sonify.records.own_sound import OwnSound
from sonify.records.scene import Scene
from sonify.storage.quiet import quiet
from sonify.study.names import fault_at


def with_own_sounds(scene: Scene, read: Callable[[str], bytes | None], rows: Catalogue) -> Scene:
    """The scene with its sounds as data. read: the bytes of a file beside the scene; None: it is not here, and what the
    sound is like plays in its place.

    Raises BadFile with the scene's line for a sound that cannot be had, or is written as what it cannot be.
    """
    return replace(scene, sounds=tuple(_heard(scene, sound, read, rows) for sound in scene.sounds))


def _heard(scene: Scene, sound: OwnSound, read: Callable[[str], bytes | None], rows: Catalogue) -> OwnSound:
    name = sound.name.lower()
    if any(name in row.names() for row in rows.instruments):
        raise fault_at(scene, f"{sound.key}.name", wrong("error_sound-name-taken", name=sound.name))
    try:
        like = rows.find(sound.like)
    except SonifyError as error:
        raise fault_at(scene, f"{sound.key}.like", error) from None
    if like.pitched:
        raise fault_at(scene, f"{sound.key}.like", wrong("error_sound-like-pitched", like=like.called))
    try:
        if (data := read(sound.file)) is None:
            return replace(sound, like=like.id)
        with quiet():
            pcm = read_own_sound(data, file=sound.file)
    except BadFile as error:
        raise fault_at(
            scene, f"{sound.key}.file", wrong("error_sound-in-file", file=sound.file, told=error.message)
        ) from None
    return replace(sound, like=like.id, sha256=hashlib.sha256(data).hexdigest(), pcm=pcm)
