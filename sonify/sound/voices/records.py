"""One row a voice: the physical facts a generator needs. `source` says where they come from.

Ring times are T60: the time in which a partial falls by 60 dB. Levels are in dB. A beater's two ends, softest and
hardest, are brightness 0 and 1 of a note.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.sound.rate import Samples


@dataclass(frozen=True, slots=True, kw_only=True)
class Burst:
    """A short noise that comes with a stroke: the beater's own click, the slap of a skin, a breath.

    level_db: weighted energy against the ringing part. length_s: in which it falls by 60 dB. octaves: width.
    rise_s: how long it takes to come. by_beater_db: by how much the hardest beater's is stronger than the softest's.
    """

    level_db: float
    length_s: float
    centre_hz: float
    octaves: float = 1.5
    rise_s: float = 0.0
    by_beater_db: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """A body that rings after one blow: bars, bells, plates, skins, blocks, strings.

    ratios: partials, over the first. levels_db: how strongly each would sound after an infinitely short blow.
    first_hz: of the first partial; empty: it is the pitch of the note. Several: hands or sides in turn.
    ring_s: T60 of the first partial at ring_at_hz; it goes with pitch to the power -ring_power, and within one sound a
    partial of ratio r rings r ** -mode_power as long.
    contact_s: how long the softest and the hardest beater stays on at mezzo forte. stiffening: the power with which
    contact shortens as the blow grows, for the softest and the hardest (Hertz: 0.2; felt: more).
    rings: T60 of each partial over the first's, where the kind of mode counts and not its ratio. glide: how much
    sharper a blow of full strength begins, as a share: it stretches a skin until it calms.
    uneven_db: spread of a partial's level from stroke to stroke (where it is struck).
    bloom_s: partials come in this late, the highest last (cymbals). damped: "never", "rest" (a hand stops it where a
    rest follows) or "note" (always at the note's end); damp_s is then the T60.
    """

    ratios: tuple[float, ...]
    levels_db: tuple[float, ...]
    ring_s: float
    contact_s: tuple[float, float]
    source: str
    first_hz: tuple[float, ...] = ()
    ring_at_hz: float = 440.0
    ring_power: float = 0.5
    mode_power: float = 0.7
    rings: tuple[float, ...] = ()
    glide: float = 0.0
    stiffening: tuple[float, float] = (0.45, 0.2)
    uneven_db: float = 1.2
    bloom_s: float = 0.0
    bursts: tuple[Burst, ...] = ()
    damped: str = "never"
    damp_s: float = 0.15
    longest_s: float = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Resonance:
    """hz, T60 in seconds and level in dB of one resonance that grains or breath set ringing."""

    hz: float
    ring_s: float
    level_db: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaken:
    """Grains that collide: shakers, jingles, beads, ridges. The collision model of a shaken container.

    grains_per_s: collisions a second at full energy. calm_s: T60 of the energy after a stroke.
    spread: how unequal collisions are (0 all alike, 1 exponential). rise_s: until a stroke reaches its height.
    shake_hz: strokes a second while it is shaken on, with shake_depth 0..1; in_time: about as many, with the beat.
    burst: the container's own sound.
    ridges: a scrape instead of a shake: so many ridges at even distances. rattle: collisions come in step, one after
    the other, not at random. bubbles_mm: they are bubbles in water, the smallest and the largest radius.
    """

    resonances: tuple[Resonance, ...]
    grains_per_s: float
    calm_s: float
    source: str
    spread: float = 1.0
    rise_s: float = 0.004
    shake_hz: float = 0.0
    shake_depth: float = 0.0
    in_time: bool = False
    ridges: int = 0
    rattle: bool = False
    bubbles_mm: tuple[float, float] | None = None
    envelope: str = "steady"
    burst: Burst | None = None
    always_held: bool = False
    attack_s: float = 0.03
    release_s: float = 0.08


@dataclass(frozen=True, slots=True, kw_only=True)
class Blown:
    """A sound held by breath: harmonics of the pitch and shaped noise. Pipes and voices.

    harmonics_db: level of each harmonic at medium strength; empty: a glottal source through `formants`.
    tilt_db: how much an octave of harmonics gains from pp to ff. breath_db: noise under the tone.
    formants: (hz, bandwidth Hz, dB). singers: how many, spread over spread_cents. first_hz: for unpitched ones.
    wobble_hz, wobble_depth: the whole gets louder and softer (whirling). overblown: a whirled tube sounds one of its
    harmonics, from the first given (softest) to the last (strongest), and the next where it is whirled faster.
    slide_octaves: the pitch is drawn up so far and back, once a loop.
    """

    source: str
    harmonics_db: tuple[float, ...] = ()
    formants: tuple[tuple[float, float, float], ...] = ()
    noise_bands: tuple[tuple[float, float, float], ...] = ()
    breath_db: float = -30.0
    tilt_db: float = 6.0
    singers: int = 1
    spread_cents: float = 0.0
    first_hz: float = 0.0
    attack_s: float = 0.04
    release_s: float = 0.08
    envelope: str = "steady"
    wobble_hz: float = 0.0
    wobble_depth: float = 0.0
    overblown: tuple[int, int] | None = None
    slide_octaves: float = 0.0
    chiff: Burst | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Recorded:
    """A sound that pupils recorded, as it is: its samples at our rate, in steps of 16 bits.

    cut_s: the T60 with which a stroke gives way to the next one of its kind.
    """

    steps: NDArray[np.int16]
    cut_s: float = 0.12


Voice = Struck | Shaken | Blown | Recorded


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shot:
    """One stroke as samples, or one held sound.

    samples: the whole of a stroke, or what comes once at the start of a held sound (may be empty).
    loop: the held part, repeating without a seam; empty for strokes. All are scaled so that K-weighted energy in
    400 ms is that of a mean square of 1.
    """

    samples: Samples
    loop: Samples
    envelope: str = "steady"
    attack_s: float = 0.01
    release_s: float = 0.05
    damp_s: float = 0.0

    @property
    def bytes(self) -> int:
        return int(self.samples.nbytes + self.loop.nbytes)


SILENT: Samples = np.zeros(0, dtype=np.float32)
