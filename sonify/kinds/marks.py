"""Dynamic marks and tempo words: the trade's terms, and the number each stands for."""

from __future__ import annotations

from bisect import bisect_right

#: Dynamic marks and the velocity each stands for: scalars 0.25 ... 0.85 of 127, as the music21 library has them.
DYNAMICS = {"pp": 32, "p": 44, "mp": 57, "mf": 70, "f": 89, "ff": 108}

#: Velocities of the marks, and where a step more would lie at both ends.
_SCALE = (20.0, *map(float, DYNAMICS.values()), 127.0)


def on_marks(velocity: float) -> float:
    """A velocity on the scale of the printed marks: 0 for pp, 1 for p and so on.

    >>> [on_marks(velocity) for velocity in (32, 38, 108, 26)]
    [0.0, 0.5, 5.0, -0.5]
    """
    place = min(max(bisect_right(_SCALE, velocity), 1), len(_SCALE) - 1)
    low, high = _SCALE[place - 1 : place + 1]
    return place - 2 + (velocity - low) / (high - low)


#: From so many crotchets a minute up. The traditional metronome scale, 40 to 208; upper bands from memory, and sources
#: differ (reference table 5.3). The end bands run on beyond the scale, both ways.
TEMPO_TERMS = (
    (0.0, "largo"),
    (60.0, "larghetto"),
    (66.0, "adagio"),
    (76.0, "andante"),
    (108.0, "moderato"),
    (120.0, "allegro"),
    (156.0, "presto"),
    (200.0, "prestissimo"),
)

#: From so many crotchets a minute up: a plain word that children can move to, of our own choice. Within the metronome
#: scale no band is wider than what a beat must change by to be heard (6 %): tempi that differ have words that differ.
PACES = (
    (0.0, "hardly-moving"),
    (40.0, "creeping"),
    (42.4, "crawling"),
    (44.9, "dragging"),
    (47.6, "trudging"),
    (50.4, "very-slow"),
    (53.4, "plodding"),
    (56.6, "sleepy"),
    (60.0, "slow"),
    (63.0, "slow-and-gentle"),
    (66.0, "unhurried"),
    (69.2, "easy-going"),
    (72.6, "ambling"),
    (76.0, "strolling"),
    (80.6, "easy-walk"),
    (85.4, "walking-pace"),
    (90.6, "steady-walk"),
    (96.1, "brisk-walk"),
    (101.9, "quick-walk"),
    (108.0, "medium-pace"),
    (114.0, "marching"),
    (120.0, "quick-and-lively"),
    (126.5, "skipping"),
    (133.3, "jogging"),
    (140.5, "fast"),
    (148.0, "running"),
    (156.0, "very-fast"),
    (164.0, "racing"),
    (172.4, "galloping"),
    (181.0, "dashing"),
    (190.4, "hurtling"),
    (200.0, "as-fast-as-possible"),
)
