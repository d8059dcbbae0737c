"""What a fact claims, and what its message declares: both must be the same."""

from __future__ import annotations

from functools import cache

from sonify.records.fact import Fact

from .catalogue import Message, messages


@cache
def declared() -> dict[str, Message]:
    return {row.id: row for row in messages()}


def inner_facts(told: Fact) -> list[Fact]:
    """The facts that fill places of a fact, and those that fill theirs."""
    return [inner for _, arg in told.args for inner in _inside(arg)]


def _inside(arg: object) -> list[Fact]:
    if isinstance(arg, Fact):
        return [arg, *inner_facts(arg)]
    if isinstance(arg, tuple):
        return [inner for each in arg for inner in _inside(each)]
    return []


def own_claims(told: Fact) -> set[str]:
    """The kinds of a fact's own claims and of the phrases in it; "figure" where a figure can be taken again."""
    kinds = {claim.kind for claim in told.claims}
    for _, arg in told.args:
        inner = _inside(arg)
        if not inner and any(figure.source is not None for figure in Fact("", (("it", arg),)).figures()):
            kinds.add("figure")
        for each in inner:
            kinds |= own_claims(each) if declared()[each.message].kind == "phrase" else set()
    return kinds
