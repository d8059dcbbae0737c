"""Reading ages beside a library's that has a dictionary of sounds (textstat, with the CMU Pronouncing Dictionary)."""

from __future__ import annotations

import re

import numpy as np

from sonify import lesson
from sonify.facts.reading_age import reading_age, syllables
from tests.paper.reading import library

NAMES = lesson.scene_names()[::12]


def test_syllables_and_ages_are_nearly_those_of_a_library() -> None:
    texts = [text for name in NAMES for text in lesson.load(name).texts() if text]
    words = [word for text in texts for word in re.findall(r"[^\W\d_][\w’'-]*", text)]
    counts = library()
    wrong = [word for word in words if syllables(word) != counts.syllable_count(word)]
    assert len(wrong) < 0.02 * len(words), wrong[:20]
    apart = []
    for text in texts:
        count = counts.lexicon_count(text)
        grade = 0.39 * count / counts.sentence_count(text) + 11.8 * counts.syllable_count(text) / count - 15.59
        apart.append((reading_age(text) or 0.0) - grade - 5.0)
    # Where texts are long enough to tell, a year at most; single short answers may be further apart.
    assert abs(float(np.median(apart))) < 0.2 and float(np.percentile(np.abs(apart), 90)) < 1.0


def test_science_words_count_as_one_short_word_each() -> None:
    text = "The evaporation of water vapour is slow."
    assert (reading_age(text) or 0.0) > (reading_age(text, ["evaporation", "water vapour"]) or 99.0) + 2.0
    assert reading_age("…") is None
