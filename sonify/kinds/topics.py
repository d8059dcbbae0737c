"""Topics of science by which a scene is found. A scene belongs to those that its curriculum lines name.

The names are those of England's programmes of study for key stage 2 (published 2013), a topic a row, whatever the year.
"""

from __future__ import annotations

#: Topic -> how the part of a curriculum line that names it may begin. Its words are the message `topic-...`.
TOPICS: dict[str, tuple[str, ...]] = {
    "states": ("states of matter",),
    "materials": ("properties and changes of materials", "uses of everyday materials"),
    "sound": ("sound",),
    "light": ("light",),
    "electricity": ("electricity",),
    "forces": ("forces",),
    "space": ("earth and space", "seasonal changes"),
    "plants": ("plants",),
    "animals": ("animals",),
    "living": ("living things", "evolution"),
    "rocks": ("rocks",),
}


def topics_of(named: str) -> list[str]:
    """The topics that the named part of a curriculum line is about.

    >>> topics_of("Earth and space")
    ['space']
    """
    plain = named.strip().casefold()
    return [topic for topic, beginnings in TOPICS.items() if plain.startswith(beginnings)]
