"""What a class's own names tell: whether they are of several things that can be counted, and what one of them is."""

from __future__ import annotations

import re

#: How a class may head a column of counts; it is left out where the things themselves are counted.
NUMBER_OF = "number of "
#: Ends of words that look like the plural of a thing and are not: glass, bus, axis.
_SINGULAR = ("ss", "us", "is")
#: Several things whose name has no s, and one of each.
_ONE_OF = {"people": "person", "children": "child", "mice": "mouse", "woodlice": "woodlouse", "feet": "foot"}
#: Where a thing's name ends and what belongs to it begins.
_OF = re.compile(r" (?:of|in|on|at|for|from|to|with|per|after|before|who|that) ")


def _plural(name: str) -> str:
    """The first word of a name that reads as several things; "" where none does, whatever they belong to."""
    head = _OF.split(things_of(name), maxsplit=1)[0]
    return next((word for word in head.split() if word.endswith("s") and not word.endswith(_SINGULAR)), "")


def are_things(name: str) -> bool:
    """Whether a name reads as several things that can be counted: "layers of paper", "paper clips lifted".

    >>> are_things("layers of paper"), are_things("paper clips lifted"), are_things("mass"), are_things("ramp height")
    (True, True, False, False)
    >>> are_things("number of people blowing"), are_things("height of plants")
    (True, False)
    """
    return bool(_plural(name)) or name.startswith(NUMBER_OF)


def one_thing(name: str) -> str:
    """One of several things; "" where that cannot be told from the name.

    >>> one_thing("layers of paper"), one_thing("number of batteries"), one_thing("large boxes"), one_thing("leaves")
    ('layer of paper', 'battery', 'large box', '')
    >>> one_thing("masses added"), one_thing("number of people blowing")
    ('mass added', 'person blowing')
    """
    things = things_of(name)
    for several, one in _ONE_OF.items():
        if several in things.split():
            return things.replace(several, one, 1)
    word = _plural(name)
    for end, single in (
        ("ves", None),
        ("ies", "y"),
        ("sses", "ss"),
        ("ches", "ch"),
        ("shes", "sh"),
        ("xes", "x"),
        ("s", ""),
    ):
        if word.endswith(end):
            one = f"{word.removesuffix(end)}{single}"
            return "" if single is None else things_of(name).replace(word, one, 1)
    return ""


def things_of(name: str) -> str:
    """The things themselves: "number of clips" counts clips."""
    return name.removeprefix(NUMBER_OF)
