"""The pupils' sheets of every scene read at or below the age of nine, science words excepted; see `reading`."""

from __future__ import annotations

from collections import Counter

import pytest

from sonify.kinds.pupil_sheets import PICTURES
from sonify.paper.pupils import sheet
from tests.paper.reading import (
    OLDEST,
    WORD,
    excepted,
    library,
    plainly,
    reading_age,
    sentences,
    sheets_of,
)
from tests.paper.sheets import settings
from tests.studies import SCENES, studied

#: Every scene for one class, and every third for another, whose instruments have other words.
LESSONS = [(scene, "well-stocked") for scene in SCENES] + [(scene, "few-instruments") for scene in SCENES[::3]]
#: Words in a sentence: what plain-English guides ask of text for adults is 15 to 20 (from memory, not verified).
LONGEST_SENTENCE = 18
#: In fragments, which no formula judges: the share of words of three syllables and more (our own limit).
MOST_LONG_WORDS = 0.10


@pytest.mark.parametrize(
    ("text", "words", "sentences", "syllables"),
    [("The cat sat on the mat.", 6, 1, 6), ("The water warms slowly. It is cold.", 7, 2, 9)],
)
def test_the_age_is_that_of_the_published_formula(text: str, words: int, sentences: int, syllables: int) -> None:
    # Kincaid and others 1975, counted by hand; the library rounds its averages first
    grade = 0.39 * words / sentences + 11.8 * syllables / words - 15.59
    assert reading_age([text], []) == pytest.approx(grade + 5)
    assert library().flesch_kincaid_grade(text) == pytest.approx(grade, abs=0.65)


def test_a_harder_text_has_a_higher_age_and_an_excepted_word_no_weight() -> None:
    easy, hard = (
        "The sun warms the sea.",
        "Solar radiation gradually increases the temperature of superficial seawater.",
    )
    assert reading_age([easy], []) < OLDEST < reading_age([hard], [])
    assert plainly("Condensations and condensation, at 12.5 °C.", ["condensation"]) == "thing and thing, at ten."


@pytest.mark.parametrize(("scene", "classroom"), LESSONS)
def test_every_sheet_reads_at_nine_or_below_in_short_sentences(scene: str, classroom: str) -> None:
    lesson = studied(scene, classroom)
    words = excepted(lesson)
    told = sheets_of(lesson)
    ages = {name: reading_age(text, words) for name, text in told.items()}
    assert len(ages) >= 4 + 2  # four sheets, and a card for two groups at least
    assert {name: age for name, age in ages.items() if age > OLDEST} == {}
    whole = [sentence for text in told.values() for sentence in text]
    assert [s for s in whole if len(WORD.findall(plainly(s, words))) > LONGEST_SENTENCE] == []


@pytest.mark.parametrize(("scene", "classroom"), LESSONS)
def test_most_words_are_judged_and_labels_use_short_ones(scene: str, classroom: str) -> None:
    lesson = studied(scene, classroom)
    words = excepted(lesson)
    whole, fragments = sentences(sheet(lesson, settings(also=(PICTURES,))))
    counted = Counter(word for s in whole for word in WORD.findall(plainly(s, words)))
    assert counted["thing"] < 0.2 * counted.total()  # what is excepted is the exception
    left = [word for piece in fragments for word in WORD.findall(plainly(piece, words))]
    long_words = [word for word in left if library().syllable_count(word) >= 3]
    assert len(long_words) <= MOST_LONG_WORDS * len(left), Counter(long_words).most_common(8)
