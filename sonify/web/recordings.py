"""Sounds sent to the page of this computer: in memory until the server stops, on the disk only where she says.

A key is the digest of the sound as it is kept: trimmed, one channel, with nothing else that was in its file. What is
deleted can be had back for an hour, until the server stops or twenty more are deleted, and is gone then wherever a plan
names it: plans hold keys alone.
"""

from __future__ import annotations

import hashlib
import io
import re
import subprocess
import sys
import threading
import time
import wave
from contextlib import suppress
from pathlib import Path

from sonify.errors import SonifyError
from sonify.inputs.sound_file import read_own_sound
from sonify.records.fact import wrong
from sonify.records.own_sound import KEPT_HZ
from sonify.storage import program
from sonify.storage.keeping import LAPSES_S, CannotKeep, put

FOLDER = "recordings"
#: So many are held; the longest unused go. Each is at most ten seconds: 0.9 MB.
MOST = 40
#: So many that were deleted can be had back; of more the first are gone for good.
MOST_GONE = 20
#: A file is read in a process of its own, within so many seconds: a library that fails there takes nothing with it.
PATIENCE_S = 20.0
#: What stands before the samples of a sound as it is kept.
HEAD_BYTES = 44
_KEY = re.compile(r"[0-9a-f]{32}")


class Recordings:
    """What is held. folder: where what is kept lies, None where nothing is kept."""

    def __init__(self, folder: Path | None = None) -> None:
        self._folder, self._lock = folder, threading.Lock()
        self._held: dict[str, bytes] = {}
        self._gone: dict[str, tuple[float, bytes, bool]] = {}  # when, what, and whether it was kept

    def add(self, wav: bytes) -> str:
        """Hold a sound as `plain_sound` gives it. Gives its key."""
        key = hashlib.sha256(wav).hexdigest()[:32]
        with self._lock:
            self._gone.pop(key, None)  # who sends it again has it again
            self._held[key] = self._held.pop(key, wav)
            while len(self._held) > MOST:
                del self._held[next(iter(self._held))]
        return key

    def get(self, key: str) -> bytes | None:
        """A sound by its key; None where it is not here, or deleted."""
        self._let_go(time.time() - LAPSES_S)
        if key in self._gone or not _KEY.fullmatch(key):
            return None
        if (held := self._held.get(key)) is not None:
            return held
        path = self._path(key)
        if path is None:
            return None
        try:
            wav = path.read_bytes()
        except OSError:
            return None
        return wav if hashlib.sha256(wav).hexdigest()[:32] == key else None

    def is_here(self, key: str) -> bool:
        return (key in self._held and key not in self._gone) or self.is_kept(key)

    def is_kept(self, key: str) -> bool:
        path = self._path(key)
        return key not in self._gone and path is not None and path.is_file()

    def keep(self, key: str, *, on: bool) -> None:
        """Keep a sound on the disk, or no longer. Raises CannotKeep."""
        path, wav = self._path(key), self.get(key)
        if path is None or wav is None:
            raise CannotKeep(wrong("error_web-sound-not-here"))
        try:
            if not on:
                self.add(wav)
                path.unlink(missing_ok=True)
                return
            for place in (path.parent.parent, path.parent):
                place.mkdir(mode=0o700, parents=True, exist_ok=True)
            put(path, wav)
        except OSError as error:
            raise CannotKeep(wrong("error_web-sound-not-kept", why=error.strerror or "")) from None

    def delete(self, key: str) -> None:
        wav = self.get(key)
        if wav is None:
            return
        kept = self.is_kept(key)
        with self._lock:
            self._gone[key] = (time.time(), wav, kept)
            self._held.pop(key, None)
            while len(self._gone) > MOST_GONE:
                del self._gone[next(iter(self._gone))]
        if kept and (path := self._path(key)) is not None:
            with suppress(OSError):
                path.unlink()

    def undelete(self, key: str) -> None:
        with self._lock:
            found = self._gone.pop(key, None)
        if found is None:
            return
        self.add(found[1])
        if found[2]:
            self.keep(key, on=True)

    def lapse(self) -> None:
        """What was deleted is gone for good."""
        self._let_go(float("inf"))

    def forget(self) -> None:
        """Nothing is left, here or on the disk, and there is no way back."""
        with self._lock:
            self._held.clear()
            self._gone.clear()
        if self._folder is not None:
            for path in self._folder.glob("*"):
                with suppress(OSError):
                    path.unlink()

    def _let_go(self, before_s: float) -> None:
        with self._lock:
            for key in [key for key, (at_s, _, _) in self._gone.items() if at_s < before_s]:
                del self._gone[key]

    def _path(self, key: str) -> Path | None:
        return self._folder / f"{key}.wav" if self._folder is not None and _KEY.fullmatch(key) else None


def plain_sound(data: bytes, name: str) -> bytes:
    """A sound file as it is kept, whatever came with it. Raises SonifyError where it is none, in a sentence.

    It is read in a process of its own: what a stranger's file does to a library, it does there.
    """
    from sonify.web.process import environment  # which the process that reads has no use for

    command = [*program.command("sonify.web.recordings"), name[:80]]
    try:
        done = subprocess.run(
            command, input=data, capture_output=True, timeout=PATIENCE_S, check=False, env=environment()
        )
    except subprocess.TimeoutExpired:
        raise SonifyError(wrong("error_web-sound-unreadable")) from None
    if done.returncode == 0 and done.stdout.startswith(b"RIFF"):
        return done.stdout
    told = done.stdout.decode("utf-8", "replace") if done.returncode == 2 else ""
    raise SonifyError(told or wrong("error_web-sound-unreadable"))


def as_wav(pcm: bytes) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(KEPT_HZ)
        file.writeframes(pcm)
    return out.getvalue()


def main() -> int:
    try:
        sys.stdout.buffer.write(as_wav(read_own_sound(sys.stdin.buffer.read(), file=sys.argv[1])))
    except SonifyError as error:
        sys.stdout.buffer.write(str(error).encode())
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
