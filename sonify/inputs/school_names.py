"""What a heading that asks a question names: "How far did it roll?" is a distance, so that it goes into a sentence."""

from __future__ import annotations

import re

from sonify.inputs.logger_times import SECONDS

#: "How long" is a time or a length, as its unit says; these are one thing each.
_ASKED = {
    "how far": "distance",
    "how high": "height",
    "how tall": "height",
    "how deep": "depth",
    "how wide": "width",
    "how hot": "temperature",
    "how warm": "temperature",
    "how cold": "temperature",
    "how heavy": "mass",
    "how loud": "loudness",
    "how bright": "brightness",
    "how fast": "speed",
    "how quickly": "speed",
    "how often": "number of times",
    "how much": "amount",
}
_WORDS = {"when": "time", "where": "place", "who": "pupil"}
_QUESTION = re.compile(r"(how \w+)\b", re.IGNORECASE)
_HOW_MANY = re.compile(
    r"how many\s+(.+?)(?:\s+(?:did|does|do|was|were|is|are|can|could|had|has|have|it|they|we|the|there|in|on|at|fell"
    r"|lifted|picked|grew|came|went|sank|floated|left|our|each|every|an?\s(?!second|minute|hour|day|week|month|year))\b.*)?",
    re.IGNORECASE,
)


def as_noun(name: str, unit: str) -> str:
    """A name that can stand after "the".

    >>> as_noun("How far did it roll", "cm"), as_noun("how many clips did it lift", "no unit")
    ('distance', 'number of clips')
    >>> as_noun("how many steel clips a magnet lifted", "no unit"), as_noun("How many beats a minute", "1/min")
    ('number of steel clips', 'number of beats a minute')
    >>> as_noun("how long it took", "s"), as_noun("how long it grew", "cm"), as_noun("height of bean", "cm")
    ('time', 'length', 'height of bean')
    >>> as_noun("How clear (1-5)", "no unit")
    'score for how clear (1-5)'
    """
    if name.casefold() in _WORDS:
        return _WORDS[name.casefold()]
    found = _QUESTION.match(name)
    if found is None:
        return name
    asked = " ".join(found[1].casefold().split())
    if asked == "how long":
        return "time" if unit in SECONDS else "length"
    if many := _HOW_MANY.fullmatch(name):
        return f"number of {many[1]}"
    return _ASKED.get(asked, f"score for {name[:1].lower()}{name[1:]}")
