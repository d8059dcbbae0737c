"""A place of our own beside a target, in which it is made, and from which it is put there whole.

The workshop is a folder `.sonify-HASH` next to the target (the hash is that of the target's name, so a name of 250
letters has one, too). A folder is a workshop only by the marker file in it; a make that is at work holds that file's
lock, which the system lets go when its process ends, however it ends. So a leftover is known without guessing from
names or process numbers, and the next make of the same target, which takes the lock over, puts it right:

    marker, `new`              killed while making, or after the exchange: `new` goes
    marker, `new`, `previous`  killed between the two renames: `previous` goes back to the target
    marker, `previous`         killed after them: `previous` goes

Nothing that belongs to a person is ever here alone: `pack` carries over what was added before it swaps.
"""

from __future__ import annotations

import errno
import hashlib
import json
import os
import shutil
import signal
import stat
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType
from typing import Any

from sonify.errors import InUse, SonifyError
from sonify.records.fact import wrong

MARKER = "sonify-is-making-this.json"
NEW, PREVIOUS = "new", "previous"
#: How long a lock is waited for: a make that was killed may leave a helper process that ends a moment later.
PATIENCE_S, PAUSE_S = 2.0, 0.05
_SYSTEM: str = sys.platform
_NO_LOCKS = {errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP, errno.EINVAL}
_NO_EXCHANGE = {errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP, errno.ENOTSUP, errno.EPERM}


def workshop_of(target: Path) -> Path:
    """Where the workshop of a target is, whether or not it is there."""
    return target.parent / f".sonify-{hashlib.sha256(os.fsencode(target.name)).hexdigest()[:16]}"


@contextmanager
def workshop(target: Path, what: str = "folder") -> Iterator[Path]:
    """The folder `workshop_of(target)`, ours alone until we leave; what an earlier make left there is put right first.

    what: the target is, for messages.

    Raises InUse where another make is at work on the same target, SonifyError where the place is somebody else's.
    """
    folder = workshop_of(target)
    marker = _claimed(folder, target, what)
    try:
        _put_right(folder, target)
        yield folder
    finally:
        _left(folder, target, marker)


def check_free(target: Path) -> None:
    """Raises InUse where another make is at work on the target. Changes nothing."""
    until = time.monotonic() + PATIENCE_S
    while _is_held(workshop_of(target) / MARKER):
        if time.monotonic() > until:
            raise _in_use(target, "folder")
        time.sleep(PAUSE_S)


def _is_held(path: Path) -> bool:
    try:
        marker = os.open(path, os.O_RDWR)
    except OSError:
        return False
    try:
        return locked(marker) is False
    finally:
        os.close(marker)


def _in_use(target: Path, what: str) -> InUse:
    return InUse(wrong("error_files-another-make-writing", target=target, what=what))


# --- the lock --------------------------------------------------------------------------------------------------------


def _claimed(folder: Path, target: Path, what: str) -> int:
    """The marker file of a workshop, opened, locked and written by us."""
    until = time.monotonic() + PATIENCE_S
    while True:
        with suppress(FileExistsError):
            folder.mkdir()
        try:
            _check_ours(folder)
            marker = os.open(folder / MARKER, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o644)
        except (FileNotFoundError, NotADirectoryError):  # its owner has just left
            if time.monotonic() > until:
                raise
            continue
        ours = False
        try:
            ours = _owned(marker, folder / MARKER, target)
        finally:
            if not ours:
                os.close(marker)
        if ours:
            return marker
        if time.monotonic() > until:
            raise _in_use(target, what)
        time.sleep(PAUSE_S)


def _check_ours(folder: Path) -> None:
    """Raises SonifyError where a folder of this name is not a workshop: it has things in it and no marker of ours."""
    try:
        held, written = set(os.listdir(folder)), b""
        if MARKER in held and (folder / MARKER).is_symlink():
            raise _not_ours(folder)
        if held:
            written = (folder / MARKER).read_bytes()
        if (written and "sonify" not in json.loads(written)) or not held <= {MARKER, NEW, PREVIOUS}:
            raise _not_ours(folder)
    except FileNotFoundError:
        held = set(os.listdir(folder))
        if held and MARKER not in held:
            raise _not_ours(folder) from None
    except (ValueError, TypeError, IsADirectoryError):
        raise _not_ours(folder) from None


def _not_ours(folder: Path) -> SonifyError:
    return SonifyError(wrong("error_files-needed-work-holds", folder=folder))


def _owned(marker: int, path: Path, target: Path) -> bool:
    """Whether the lock is ours and the marker still where it was: its last owner may have removed it meanwhile."""
    taken = locked(marker)
    if taken is None and os.fstat(marker).st_size:
        raise SonifyError(wrong("error_files-left-another-make", parent=path.parent))
    if taken is False:
        return False
    try:
        if not os.path.samestat(os.fstat(marker), os.stat(path, follow_symlinks=False)):
            return False
    except FileNotFoundError:
        return False
    if not os.fstat(marker).st_size:
        os.write(marker, json.dumps({"sonify": "workshop", "for": target.name}).encode() + b"\n")
    return True


def locked(file: int) -> bool | None:
    """Take the lock of an open file: whether it is ours now; None where the drive has no locks."""
    try:
        if sys.platform == "win32":
            import msvcrt

            os.lseek(file, 1_000, os.SEEK_SET)  # beyond its text, which stays readable
            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        return None if error.errno in _NO_LOCKS else False
    return True


def _left(folder: Path, target: Path, marker: int) -> None:
    """Clear the workshop away, the marker last: while that is there, what lies beside it is known to be ours."""
    with suppress(OSError, SonifyError):  # what cannot be cleared now is put right, or told, by the next make
        _put_right(folder, target)
    kept = any(os.path.lexists(folder / name) for name in (NEW, PREVIOUS))
    if sys.platform == "win32":
        os.close(marker)  # an open file cannot be removed there
    with suppress(OSError):
        if not kept:
            os.unlink(folder / MARKER)
            os.rmdir(folder)
    if sys.platform != "win32":
        os.close(marker)


# --- what was left ---------------------------------------------------------------------------------------------------


def recover(target: Path) -> None:
    """Put right what an interrupted make of this target left, if anything."""
    folder = workshop_of(target)
    # Killed between its last two steps, a make leaves the folder empty.
    if (folder / MARKER).is_file() or (folder.is_dir() and not any(folder.iterdir())):
        with workshop(target):
            pass


def _put_right(folder: Path, target: Path) -> None:
    new, previous = folder / NEW, folder / PREVIOUS
    if os.path.lexists(previous) and os.path.lexists(new):
        if os.path.lexists(target):
            raise SonifyError(wrong("error_files-what-stood-before", previous=previous, target=target))
        os.rename(previous, target)
    try:
        removed(new)
        removed(previous)
    except OSError as error:
        raise SonifyError(wrong("error_files-left-earlier-make", folder=folder, strerror=error.strerror)) from error


def removed(path: Path) -> None:
    """Remove a file, a link or a whole folder; nothing there is no error."""
    try:
        if stat.S_ISDIR(os.lstat(path).st_mode):
            shutil.rmtree(path)
        else:
            os.unlink(path)
    except FileNotFoundError:
        pass


# --- putting it there ------------------------------------------------------------------------------------------------


def flush(path: Path) -> None:
    """Have a file, or a folder with all that is in it, written to the disk itself before it is relied on."""
    if path.is_dir() and not path.is_symlink():
        for entry in sorted(path.iterdir()):
            flush(entry)
        flush_folder(path)
    elif path.is_file() and not path.is_symlink():
        with path.open("r+b" if os.name == "nt" else "rb") as file:
            os.fsync(file.fileno())


def flush_folder(folder: Path) -> None:
    """Have the names in a folder written to the disk. Some systems and drives cannot, and need not."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in {errno.EINVAL, errno.EOPNOTSUPP, errno.ENOTSUP, errno.EBADF}:
            raise
    finally:
        os.close(handle)


def swapped(folder: Path, target: Path) -> Path | None:
    """Put `new` of a workshop at the target; where what was there is now, or None. In one step where the system can."""
    new, previous = folder / NEW, folder / PREVIOUS
    if not os.path.lexists(target):
        os.rename(new, target)
        return None
    if exchanged(new, target):
        return new
    os.rename(target, previous)
    try:
        os.rename(new, target)
    except OSError:
        os.rename(previous, target)
        raise
    return previous


def put_back(folder: Path, target: Path, aside: Path | None) -> None:
    """Undo `swapped`: what was there before stands there again, and what was new is in the workshop."""
    if aside is None or aside.name == PREVIOUS:
        os.rename(target, folder / NEW)
        if aside is not None:
            os.rename(aside, target)
    elif not exchanged(aside, target):
        raise OSError(errno.EOPNOTSUPP, "the exchange cannot be undone")


def exchanged(one: Path, other: Path) -> bool:
    """Exchange two paths in one step; False where this system or drive cannot."""
    function, *flags = _exchange()
    if function is None:
        return False
    import ctypes

    if function(*_arguments(flags, os.fsencode(one), os.fsencode(other))) == 0:
        return True
    number = ctypes.get_errno()
    if number in _NO_EXCHANGE:
        return False
    raise OSError(number, os.strerror(number), str(other))


def _arguments(flags: list[Any], one: bytes, other: bytes) -> list[Any]:
    place, flag = flags
    return [one, other, flag] if place is None else [place, one, place, other, flag]


def _exchange() -> tuple[Any, Any, Any]:
    """The system's function that exchanges two paths, where it counts paths from, and its flag."""
    import ctypes

    if _SYSTEM.startswith("linux"):
        at_fdcwd, rename_exchange = -100, 2  # linux/fcntl.h, linux/fs.h; from memory, and tested by what it does
        return getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None), at_fdcwd, rename_exchange
    if _SYSTEM == "darwin":
        rename_swap = 2  # sys/stdio.h; from memory, not tried on such a machine
        return getattr(ctypes.CDLL(None, use_errno=True), "renamex_np", None), None, rename_swap
    return None, None, None


def put_new(made: Path, target: Path) -> None:
    """Put a finished file where nothing is yet. Raises FileExistsError where something is."""
    try:
        os.link(made, target)  # unlike a rename, never over what is there
    except FileExistsError:
        raise
    except OSError:
        if os.path.lexists(target):
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target)) from None
        os.rename(made, target)  # a drive without links
    flush_folder(target.parent)


@contextmanager
def uninterrupted() -> Iterator[None]:
    """Hold back Ctrl-C and requests to end while the few steps of a swap are done.

    What came meanwhile counts where these steps failed; where they are done, so is the work, and there is nothing left
    to interrupt.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    came: list[int] = []

    def note(number: int, frame: FrameType | None) -> None:
        came.append(number)

    names = [name for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]
    before = {getattr(signal, name): signal.getsignal(getattr(signal, name)) for name in names}
    held = {number: old for number, old in before.items() if old not in (signal.SIG_IGN, None)}
    for number in held:
        signal.signal(number, note)
    try:
        yield
    except BaseException:
        if came:
            raise KeyboardInterrupt from None
        raise
    finally:
        for number, old in held.items():
            signal.signal(number, old)
