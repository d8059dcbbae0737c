"""What a run of the particle box gives, frame by frame, and its form in bytes for a cache or a page."""

from __future__ import annotations

import io
import zipfile
from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray

_POSITION_STEPS = 65_535
_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest date a ZIP file can carry: the same run, the same bytes


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoxRun:
    """One heating, frame by frame. All arrays are read-only and have one row a frame; the first is the start.

    key: that of the parameters. places: frames x particles x 2, as a share of the box's width, from its lower left.
    temperature_k, speed_m_s: means over the steps since the frame before. knocks_per_s: knocks that a particle had a
    second in these steps (0 in the first frame). order, isolated, neighbours, spacing_m: at the frame, as in
    `states_of_matter_order`. heat_j_per_mol: given since the start. energy_j_per_mol: of motion and of the pairs, at
    the frame.
    """

    key: str
    width_m: float
    time_s: FloatArray
    places: NDArray[np.float32]
    temperature_k: FloatArray
    speed_m_s: FloatArray
    knocks_per_s: FloatArray
    order: FloatArray
    isolated: FloatArray
    neighbours: FloatArray
    spacing_m: FloatArray
    heat_j_per_mol: FloatArray
    energy_j_per_mol: FloatArray

    def __post_init__(self) -> None:
        for name in _ARRAYS:
            array = np.array(getattr(self, name))
            if array.shape[:1] != self.time_s.shape or not np.all(np.isfinite(array)):
                raise ValueError(f"{name}: {array.shape} finite numbers for {self.time_s.shape} frames are needed")
            array.setflags(write=False)
            object.__setattr__(self, name, array)

    @property
    def particles(self) -> int:
        return int(self.places.shape[1])

    @property
    def energy_drift(self) -> float:
        """The largest gap between energy gained and heat given, as a share of all energy of motion given or there."""
        gained = self.energy_j_per_mol - self.energy_j_per_mol[0]
        moved = float(self.heat_j_per_mol[-1]) + 8.314462618 * float(self.temperature_k[0])
        return float(np.max(np.abs(gained - self.heat_j_per_mol))) / moved

    def compact_places(self) -> NDArray[np.uint16]:
        """`places` in 65 535ths of the width: a quarter of a double's size, finer than any screen."""
        steps: NDArray[np.uint16] = np.rint(self.places * np.float32(_POSITION_STEPS)).astype("<u2")
        return steps

    def to_bytes(self) -> bytes:
        """The run as a NumPy archive (.npz) in memory; the same run gives the same bytes."""
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w") as archive:
            for field in fields(self):
                held = io.BytesIO()
                np.save(held, np.asarray(getattr(self, field.name)), allow_pickle=False)
                archive.writestr(zipfile.ZipInfo(f"{field.name}.npy", _EPOCH), held.getvalue())
        return out.getvalue()

    @classmethod
    def from_bytes(cls, data: bytes) -> BoxRun:
        """A run from its bytes. Raises ValueError where they are not those of a whole run."""
        try:
            with np.load(io.BytesIO(data), allow_pickle=False) as archive:
                held = {field.name: archive[field.name] for field in fields(cls)}
        except (zipfile.BadZipFile, KeyError, EOFError, OSError, ValueError) as error:
            raise ValueError(f"these bytes are not a run of the particle box: {error}") from error
        return cls(key=str(held.pop("key")), width_m=float(held.pop("width_m")), **held)


_ARRAYS = tuple(field.name for field in fields(BoxRun) if field.name not in ("key", "width_m"))
