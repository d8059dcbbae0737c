"""What a lesson has to say to be careful of, by what is done or played in it: `caution-ID` says it."""

from __future__ import annotations

from collections.abc import Iterable

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """words: a person's own caution that has one of them says it already."""

    id: str
    words: tuple[str, ...]

    def is_said(self, cautions: Iterable[str]) -> bool:
        return any(word in said.casefold() for said in cautions for word in self.words)


CAUTIONS = {
    row.id: row
    for row in (
        Caution("allergies", ("allerg",)),
        Caution("boiling", ("boil", "steam")),
        Caution("chocolate", ("hot chocolate", "melted chocolate")),
        Caution("dropping", ("drop from a height", "drops from a height", "only the teacher drops")),
        Caution("edges", ("sharp edge", "cut edge", "edges of tins")),
        Caution("electricity", ("never the mains", "never at the mains", "no mains")),
        Caution("short-circuit", ("straight across", "short-circuit", "short circuit")),
        Caution("button-cells", ("button cell",)),
        Caution("exertion", ("asthma", "care plan", "heart condition")),
        Caution("fat", ("hot fat", "melted butter")),
        Caution("fingers", ("fingers away", "fingers out", "trap skin", "trap fingers", "trap a finger")),
        Caution("flame", ("flame", "hob")),
        Caution("glass", ("broken glass", "glass breaks")),
        Caution("hot-drinks", ("hot drink", "hot water", "scald")),
        Caution("ice", ("slip", "mop up", "stick")),
        Caution("loud", ("every ear", "beside a head", "near an ear")),
        Caution("milk", ("allerg",)),
        Caution("mouthpieces", ("mouthpiece",)),
        Caution("sun", ("look at the sun", "looks at the sun", "look into the sun")),
        Caution("swinging", ("swing", "in the way of")),
        Caution("taste", ("taste", "drink")),
        Caution("water", ("socket",)),
        Caution("wax", ("wax",)),
    )
}
