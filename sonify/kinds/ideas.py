"""The words with which an author says how a stage is to sound, where nothing is measured: two ends for each control."""

from __future__ import annotations

#: Control -> its words, the one for less first. What a stage does not mention lies between.
PAIRS = {
    "tempo": ("slow", "quick"),
    "dynamics": ("soft", "loud"),
    "density": ("still", "busy"),
    "pitch": ("low", "high"),
}
#: Word -> its control, and where it lies from 0 to 1.
IDEAS = {word: (control, float(end)) for control, words in PAIRS.items() for end, word in enumerate(words)}
#: Where what is not mentioned lies.
BETWEEN = 0.5
