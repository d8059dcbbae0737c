"""Two versions of a lesson set side by side: how they differ. Both are plans, as `plan_facts` has them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from sonify.records.fact import Named, fact
from sonify.say import say

Plan = Mapping[str, Any]
#: So many sentences of a kind; what is beyond is counted.
MOST_OF_A_KIND = 6
#: Beats that differ by less than this, a minute, are told as the same (our own choice; a step is a whole beat).
SAME_BPM = 0.5


def differences(first: Plan, second: Plan) -> list[str]:
    """How the second differs from the first, the whole before its parts; one sentence where it does not."""
    kinds = (_whole, _conditions, _stages, _rules, _parts, _words)
    said = [line for kind in kinds for line in _some(list(kind(first, second)))]
    return said or [say(fact("differ-nothing"))]


def _some(lines: list[str]) -> list[str]:
    more = len(lines) - MOST_OF_A_KIND
    return lines if more <= 0 else [*lines[:MOST_OF_A_KIND], say(fact("differ-more", count=more))]


def _whole(first: Plan, second: Plan) -> Iterator[str]:
    if first["title"] != second["title"]:
        yield say(fact("differ-title", first=first["title"], second=second["title"]))
    if first["length"] != second["length"]:
        yield say(fact("differ-length", first=first["length"], second=second["length"]))


def _conditions(first: Plan, second: Plan) -> Iterator[str]:
    before = {row["name"]: row for row in first["conditions"]}
    for row in second["conditions"]:
        old = before.get(row["name"])
        if old is not None and old["text"] != row["text"]:
            yield say(fact("differ-condition", condition=row["label"], first=old["shown"], second=row["shown"]))


def _stages(first: Plan, second: Plan) -> Iterator[str]:
    before = {stage["name"]: stage for stage in first["stages"]}
    after = {stage["name"]: stage for stage in second["stages"]}
    if not before.keys() & after.keys():
        return  # two scenes: their stages are no versions of each other
    for name, stage in before.items():
        if name not in after:
            yield say(fact("differ-stage-only", stage=stage["title"], which="first"))
    for stage in second["stages"]:
        old = before.get(stage["name"])
        if old is None:
            yield say(fact("differ-stage-only", stage=stage["title"], which="second"))
        elif abs(old["bpm"] - stage["bpm"]) > SAME_BPM:
            beats = {"first": f"{old['bpm']:.0f}", "second": f"{stage['bpm']:.0f}"}
            yield say(fact("differ-beat", stage=stage["title"], **beats))


def _rules(first: Plan, second: Plan) -> Iterator[str]:
    def named(plan: Plan) -> dict[tuple[str, str, str], Mapping[str, Any]]:
        return {(row["quantity"], row["control"], row["part"]): row for row in plan["rules"]}

    before, after = named(first), named(second)
    for key, row in before.items():
        if key not in after:
            yield _rule("differ-rule-only", row, which="first")
    for key, row in after.items():
        if key not in before:
            yield _rule("differ-rule-only", row, which="second")
            continue
        old = before[key]
        if [*old["from"], *old["to"], old["curve"]] != [*row["from"], *row["to"], row["curve"]]:
            yield _rule("differ-rule", row, first=_ends(old), second=_ends(row))
        elif first["name"] != second["name"]:
            yield _rule("differ-one-rule", row)
        if old["audible"] != row["audible"]:
            yield _rule("differ-heard", row, heard="yes" if row["audible"] else "no")


def _rule(message: str, row: Mapping[str, Any], **places: str) -> str:
    whom = "part" if row["part"] else "all"
    control, quantity = Named("control", row["control"]), Named("quantity", row["quantity"])
    return say(fact(message, quantity=quantity, control=control, part=row["part"], whom=whom, **places))


def _ends(row: Mapping[str, Any]) -> str:
    shown = [row[name]["shown"][row[name]["at"]] for name in ("from_low", "from_high", "to_low", "to_high")]
    return say(fact("differ-ends", low=shown[0], high=shown[1], soft=shown[2], loud=shown[3]))


def _parts(first: Plan, second: Plan) -> Iterator[str]:
    def heard(plan: Plan) -> dict[str, Mapping[str, Any]]:
        return {row["name"]: row for row in plan["map"]}

    before, after = heard(first), heard(second)
    for name in before:
        if name not in after:
            yield say(fact("differ-part-only", part=name, which="first"))
    for name, row in after.items():
        if name not in before:
            yield say(fact("differ-part-only", part=name, which="second"))
            continue
        old = before[name]
        if old["instrument"] != row["instrument"]:
            yield say(fact("differ-instrument", part=name, first=old["instrument"], second=row["instrument"]))
        if (old["part"], old["difficulty"]) != (row["part"], row["difficulty"]):
            ways = {"first": f"{old['part']}, {old['difficulty']}", "second": f"{row['part']}, {row['difficulty']}"}
            yield say(fact("differ-way", part=name, **ways))
        if [level is None for level in old["stages"]] != [level is None for level in row["stages"]]:
            yield say(fact("differ-when", part=name))


def _words(first: Plan, second: Plan) -> Iterator[str]:
    if first["name"] != second["name"]:
        return
    before = {row["path"]: row["text"] for row in first["texts"]}
    changed = sum(
        before.get(row["path"], row["text"]) != row["text"] for row in second["texts"] if row["path"] != "title"
    )
    if changed:
        yield say(fact("differ-words", count=changed))
