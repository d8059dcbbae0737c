"""How many packs fit beside each other: one a core, as far as the memory goes."""

from __future__ import annotations

import os
import shutil
import sys
from contextlib import suppress
from pathlib import Path

#: What one pack takes at most while it is made, with the copies of its process, and what is left to the system.
PACK_BYTES, LEFT_BYTES = 700_000_000, 500_000_000
#: A pack with stems of a long piece is as large; with less room than this on the disk no further one is begun.
DISK_BYTES = 1_000_000_000


def workers_for(packs: int) -> int:
    """How many worker processes to make so many packs with."""
    memory = available_bytes()
    fit = (memory - LEFT_BYTES) // PACK_BYTES if memory is not None else 2
    return max(1, min(cores(), packs, fit))


def cores() -> int:
    return len(os.sched_getaffinity(0)) if sys.platform == "linux" else os.cpu_count() or 1


def disk_is_full(folder: Path) -> bool:
    return shutil.disk_usage(folder).free < DISK_BYTES


def available_bytes() -> int | None:
    """Memory that can be had without swapping; None where the system does not say."""
    found = [size for size in (_linux_bytes(), _container_bytes(), _windows_bytes()) if size is not None]
    return min(found) if found else None


def _linux_bytes() -> int | None:
    with suppress(OSError):
        for line in Path("/proc/meminfo").read_text(encoding="ascii").splitlines():
            if line.startswith("MemAvailable:"):
                return int(line.split()[1]) * 1024
    return None


def _container_bytes() -> int | None:
    """What a container may still take (Linux control groups, version 2; from memory)."""
    group = Path("/sys/fs/cgroup")
    with suppress(OSError, ValueError):
        most = int((group / "memory.max").read_text(encoding="ascii"))
        return most - int((group / "memory.current").read_text(encoding="ascii"))
    return None


def _windows_bytes() -> int | None:
    """`GlobalMemoryStatusEx`: its second 64-bit number is what is free (from memory, not tried on such a machine)."""
    import ctypes

    windows = getattr(ctypes, "windll", None)
    status = (ctypes.c_ulonglong * 8)()
    ctypes.cast(status, ctypes.POINTER(ctypes.c_uint32))[0] = ctypes.sizeof(status)
    if windows is None or not windows.kernel32.GlobalMemoryStatusEx(ctypes.byref(status)):
        return None
    return int(status[2])  # behind two numbers of 32 bits and the total
