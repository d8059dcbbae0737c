"""What is measured, as people call it, and what a heading or a title says of it."""

from __future__ import annotations

import re

from sonify.inputs.logger_layout import in_a_sentence
from sonify.inputs.logger_units import name_and_unit
from sonify.inputs.school_names import as_noun
from sonify.units import NO_UNIT

#: What is measured, as people call it: where headings hold such words, they are different quantities.
QUANTITIES = frozenset(
    (
        "height",
        "length",
        "width",
        "depth",
        "distance",
        "mass",
        "weight",
        "temperature",
        "temp",
        "time",
        "volume",
        "light",
        "loudness",
        "sound",
        "noise",
        "pulse",
        "speed",
        "force",
        "pressure",
        "humidity",
        "rain",
        "rainfall",
        "angle",
        "shadow",
        "area",
        "growth",
        "stretch",
        "heart",
        "breathing",
        "size",
        "number",
        "count",
        "amount",
        "level",
        "swings",
        "bounce",
        "percentage",
        "ph",
        "brightness",
        "hand",
        "span",
        "voltage",
        "current",
    )
)
#: Things that are compared: "Plant 1" and "Plant 2" are two plants, not two tries.
THINGS = frozenset(
    (
        "plant",
        "bean",
        "seed",
        "cup",
        "bowl",
        "jar",
        "pot",
        "place",
        "box",
        "beaker",
        "tub",
        "team",
        "group",
        "pupil",
        "child",
        "person",
        "car",
        "ball",
        "candle",
        "house",
        "site",
        "spot",
        "quadrat",
        "bag",
        "bottle",
        "liquid",
        "sample",
        "material",
        "cress",
        "tray",
    )
)
#: What a unit alone says was measured.
BY_UNIT = {
    **dict.fromkeys(("degC", "degF", "K"), "temperature"),
    **dict.fromkeys(("um", "mm", "cm", "m", "km", "inch", "foot"), "length"),
    **dict.fromkeys(("mg", "ug", "g", "kg"), "mass"),
    **dict.fromkeys(("ml", "cl", "dl", "l"), "volume"),
    **dict.fromkeys(("ms", "s", "min", "h", "day"), "time"),
    **dict.fromkeys(("lux", "klux"), "light"),
    "dB": "loudness",
    "N": "force",
    "deg": "angle",
}
_LOOSE = re.compile(
    r"^(?:of|for|the|in|our|number of)\s+|\s+(?:of|for|in|on|at|after|with|no\.?|number)$|[:;,.-]+$", re.IGNORECASE
)


def from_title(title: str) -> str:
    """What a title says was measured: "Height of our plants (cm)" is a height, "How much had melted (%)" is itself."""
    name, unit = name_and_unit(title)
    if (noun := as_noun(name, unit)) != name:
        return noun if unit != NO_UNIT or noun.startswith("number of") else ""
    words = re.findall(r"[a-z]+", name.casefold())
    first = next((word for word in words if word in QUANTITIES), "")
    if words[:2] in (["number", "of"], ["amount", "of"]):
        return in_a_sentence(name)
    if first and (words[0] == first or unit != NO_UNIT or words[:2] == ["the", first]):
        return first
    return tidied(name) if unit != NO_UNIT else ""


def tidied(name: str) -> str:
    """A name without the loose words and marks at its ends, as it stands in a sentence."""
    before = ""
    name = " ".join(name.split())
    while name != before:
        before, name = name, _LOOSE.sub("", name).strip() if not name.casefold().startswith("number of") else name
    return in_a_sentence(name)
