"""Science words whose syllables give a rhythm. Their text, cut into syllables, is in `say/en/spoken.ftl`.

How many syllables, and which is strong, is as in the CMU Pronouncing Dictionary (tests/arrange/test_spoken.py has its
figures), which is American. It has "circulation" strong at its beginning and "midsummer" at two places; there, and for
"a fair test" and "vapour", it is as we know British speech, from memory.
"""

from __future__ import annotations

from sonify.frozen import dataclass

ANY = "*"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """A word or two. stress: which syllable is the strong one, from 0. topics: processes it belongs to, or ANY."""

    id: str
    syllables: int
    stress: int
    topics: tuple[str, ...]


WORDS = (
    Spoken(id="heat", syllables=1, stress=0, topics=("cooling", "melting", "heating-curve", "states-of-matter")),
    Spoken(id="ice", syllables=1, stress=0, topics=("melting", "heating-curve", "states-of-matter", "snow-melt")),
    Spoken(id="steam", syllables=1, stress=0, topics=("heating-curve",)),
    Spoken(id="rain", syllables=1, stress=0, topics=("water-cycle", "rain-garden")),
    Spoken(id="salt", syllables=1, stress=0, topics=("dissolving", "solar-still")),
    Spoken(
        id="sun",
        syllables=1,
        stress=0,
        topics=("day-length", "drying", "solar-still", "water-cycle", "moon", "planets", "shadow", "plant-growth"),
    ),
    Spoken(id="moon", syllables=1, stress=0, topics=("moon",)),
    Spoken(id="heart", syllables=1, stress=0, topics=("pulse",)),
    Spoken(id="beat", syllables=1, stress=0, topics=("pulse",)),
    Spoken(id="swing", syllables=1, stress=0, topics=("pendulum",)),
    Spoken(id="wheel", syllables=1, stress=0, topics=("gears",)),
    Spoken(id="prey", syllables=1, stress=0, topics=("food-chain",)),
    Spoken(id="switch", syllables=1, stress=0, topics=("circuit",)),
    Spoken(id="fall", syllables=1, stress=0, topics=("falling",)),
    Spoken(id="test", syllables=1, stress=0, topics=("*",)),
    Spoken(id="look", syllables=1, stress=0, topics=("*",)),
    Spoken(
        id="water",
        syllables=2,
        stress=0,
        topics=(
            "water-cycle",
            "melting",
            "heating-curve",
            "drying",
            "dissolving",
            "filtering",
            "snow-melt",
            "rain-garden",
            "soaking",
            "solar-still",
        ),
    ),
    Spoken(id="vapour", syllables=2, stress=0, topics=("water-cycle", "drying", "solar-still", "heating-curve")),
    Spoken(id="melting", syllables=2, stress=0, topics=("melting", "heating-curve", "snow-melt", "states-of-matter")),
    Spoken(id="cooling", syllables=2, stress=0, topics=("cooling",)),
    Spoken(id="warmer", syllables=2, stress=0, topics=("cooling", "melting")),
    Spoken(id="daylight", syllables=2, stress=0, topics=("day-length", "moon", "shadow")),
    Spoken(id="shadow", syllables=2, stress=0, topics=("day-length", "moon", "shadow")),
    Spoken(id="handle", syllables=2, stress=0, topics=("gears",)),
    Spoken(id="friction", syllables=2, stress=0, topics=("gears",)),
    Spoken(id="hunter", syllables=2, stress=0, topics=("food-chain",)),
    Spoken(id="planet", syllables=2, stress=0, topics=("planets",)),
    Spoken(id="orbit", syllables=2, stress=0, topics=("planets",)),
    Spoken(id="circuit", syllables=2, stress=0, topics=("circuit",)),
    Spoken(id="current", syllables=2, stress=0, topics=("circuit",)),
    Spoken(id="crystal", syllables=2, stress=0, topics=("dissolving", "solar-still")),
    Spoken(id="gravel", syllables=2, stress=0, topics=("filtering",)),
    Spoken(id="filter", syllables=2, stress=0, topics=("filtering",)),
    Spoken(id="puddle", syllables=2, stress=0, topics=("drying", "rain-garden")),
    Spoken(id="muscle", syllables=2, stress=0, topics=("pulse",)),
    Spoken(id="pushing", syllables=2, stress=0, topics=("falling", "pendulum")),
    Spoken(id="measure", syllables=2, stress=0, topics=("*",)),
    Spoken(id="again", syllables=2, stress=1, topics=("*",)),
    Spoken(id="solution", syllables=3, stress=1, topics=("dissolving", "solar-still")),
    Spoken(id="dissolving", syllables=3, stress=1, topics=("dissolving",)),
    Spoken(id="particle", syllables=3, stress=0, topics=("states-of-matter", "dissolving", "heating-curve")),
    Spoken(id="gravity", syllables=3, stress=0, topics=("falling", "pendulum", "planets")),
    Spoken(id="pendulum", syllables=3, stress=0, topics=("pendulum",)),
    Spoken(id="mercury", syllables=3, stress=0, topics=("planets",)),
    Spoken(id="turning-force", syllables=3, stress=0, topics=("gears",)),
    Spoken(id="predator", syllables=3, stress=0, topics=("food-chain",)),
    Spoken(id="component", syllables=3, stress=1, topics=("circuit",)),
    Spoken(id="electric", syllables=3, stress=1, topics=("circuit",)),
    Spoken(id="midsummer", syllables=3, stress=1, topics=("day-length",)),
    Spoken(id="filtering", syllables=3, stress=0, topics=("filtering", "soaking")),
    Spoken(id="absorbing", syllables=3, stress=1, topics=("soaking",)),
    Spoken(id="thermal", syllables=2, stress=0, topics=("cooling",)),
    Spoken(id="recover", syllables=3, stress=1, topics=("pulse",)),
    Spoken(id="fair-test", syllables=3, stress=1, topics=("*",)),
    Spoken(id="evidence", syllables=3, stress=0, topics=("*",)),
    Spoken(
        id="reversible", syllables=4, stress=1, topics=("melting", "heating-curve", "dissolving", "states-of-matter")
    ),
    Spoken(id="insulator", syllables=4, stress=0, topics=("cooling",)),
    Spoken(id="temperature", syllables=4, stress=0, topics=("cooling", "melting", "heating-curve")),
    Spoken(id="circulation", syllables=4, stress=2, topics=("pulse",)),
    Spoken(id="precipitate", syllables=4, stress=1, topics=("water-cycle",)),
    Spoken(id="underground", syllables=4, stress=0, topics=("rain-garden", "snow-melt")),
    Spoken(id="resistance", syllables=4, stress=2, topics=("falling",)),
    Spoken(id="observation", syllables=4, stress=2, topics=("*",)),
    Spoken(id="investigate", syllables=4, stress=1, topics=("*",)),
    Spoken(id="evaporation", syllables=5, stress=3, topics=("water-cycle", "drying", "solar-still", "heating-curve")),
    Spoken(id="condensation", syllables=4, stress=2, topics=("water-cycle", "solar-still")),
    Spoken(id="separation", syllables=4, stress=2, topics=("filtering",)),
    Spoken(id="sedimentation", syllables=5, stress=3, topics=("filtering",)),
    Spoken(id="permeability", syllables=6, stress=3, topics=("rain-garden", "soaking")),
    Spoken(id="acceleration", syllables=5, stress=3, topics=("falling", "pendulum")),
    Spoken(id="investigation", syllables=5, stress=3, topics=("*",)),
    Spoken(id="comparison", syllables=5, stress=1, topics=("*",)),
    Spoken(id="circulating", syllables=5, stress=0, topics=("pulse",)),
    Spoken(id="light", syllables=1, stress=0, topics=("shadow", "plant-growth")),
    Spoken(id="earth", syllables=1, stress=0, topics=("shadow",)),
    Spoken(id="string", syllables=1, stress=0, topics=("pitch",)),
    Spoken(id="loud", syllables=1, stress=0, topics=("sound-level",)),
    Spoken(id="ear", syllables=1, stress=0, topics=("sound-level", "pitch")),
    Spoken(id="root", syllables=1, stress=0, topics=("plant-growth",)),
    Spoken(id="midday", syllables=2, stress=0, topics=("shadow",)),
    Spoken(id="sunlight", syllables=2, stress=0, topics=("shadow", "plant-growth")),
    Spoken(id="seedling", syllables=2, stress=0, topics=("plant-growth",)),
    Spoken(id="growing", syllables=2, stress=0, topics=("plant-growth",)),
    Spoken(id="higher", syllables=2, stress=0, topics=("pitch",)),
    Spoken(id="louder", syllables=2, stress=0, topics=("sound-level",)),
    Spoken(id="echo", syllables=2, stress=0, topics=("sound-level",)),
    Spoken(id="vibration", syllables=3, stress=1, topics=("pitch", "sound-level")),
    Spoken(id="direction", syllables=3, stress=1, topics=("shadow",)),
    Spoken(id="horizon", syllables=3, stress=1, topics=("shadow", "moon")),
    Spoken(id="decibel", syllables=3, stress=0, topics=("sound-level",)),
    Spoken(id="frequency", syllables=3, stress=0, topics=("pitch",)),
    Spoken(id="germinate", syllables=3, stress=0, topics=("plant-growth",)),
    Spoken(id="astronomy", syllables=4, stress=1, topics=("shadow",)),
    Spoken(id="germination", syllables=4, stress=2, topics=("plant-growth",)),
    Spoken(id="photosynthesis", syllables=5, stress=2, topics=("plant-growth",)),
)
