"""Dynamic marks and tempo words: the trade's terms, and the number each stands for."""

from __future__ import annotations

#: Dynamic marks and the velocity each stands for: scalars 0.25 ... 0.85 of 127, as the music21 library has them.
DYNAMICS = {"pp": 32, "p": 44, "mp": 57, "mf": 70, "f": 89, "ff": 108}

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
