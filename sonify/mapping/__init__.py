"""Rules: a quantity of the process heard as a control of the sound; the time map; the key that explains them.

One door: `map_scene`, whose `MappedRules` a second mapping starts from. In order of use: `rules` ties a rule to its
quantity, `timemap` lays out bars and tempo, `hearing` follows a rule through the piece, `audibility` compares what is
heard, `sentences` says it.
"""

from sonify.mapping.piece import MappedRules, map_scene

__all__ = ["MappedRules", "map_scene"]
