"""How a part moves: the five textures (common terms of the trade), and what the arranger knows of each."""

from __future__ import annotations

from sonify.frozen import dataclass

DRONE, OSTINATO, MELODY, TREMOLO, SCATTER = TEXTURES = ("drone", "ostinato", "melody", "tremolo", "scatter")


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """Our own choices for a texture.

    edge, climax: velocities without a dynamics rule, at the edge of the piece and at its climax. sharing: what a second
    group is worth, where 1 is the usual. unheard: controls that it does not play, so that a part's own rule for one is
    reported. changes: controls that it follows by playing something else, or by another chord: that has to be shown.
    """

    edge: float
    climax: float
    sharing: float
    unheard: tuple[str, ...] = ()
    changes: tuple[str, ...] = ()


MANNERS = {
    DRONE: Manner(edge=50.0, climax=70.0, sharing=0.6, unheard=("density",), changes=("dynamics",)),
    OSTINATO: Manner(edge=50.0, climax=84.0, sharing=1.1, changes=("density", "pitch")),
    MELODY: Manner(edge=57.0, climax=92.0, sharing=1.0),
    TREMOLO: Manner(edge=44.0, climax=89.0, sharing=0.8, changes=("density",)),
    SCATTER: Manner(edge=44.0, climax=89.0, sharing=1.2),
}
