"""A class's table as it stands in the file, each column with its role, and the roles after a person has changed one."""

from __future__ import annotations

from dataclasses import replace

from sonify.inputs.experiment import table_read
from sonify.inputs.roles import BOTH
from sonify.inputs.sheet_columns import SheetColumn, columns_of
from sonify.records.experiment import Roles, SeenColumn, SeenTable

#: So many cells of a column are shown.
CELLS = 5
MOST_COLUMNS_SEEN = 24


def seen_table(data: bytes, *, file: str, roles: Roles) -> SeenTable | None:
    """What stands in the file, by the roles of the experiment that was read from it; None for a logger's long table."""
    found = table_read(data, file=file, roles=roles)
    if found is None:
        return None
    block, separator, names, chosen = found
    columns, _ = columns_of(block, separator, file=file)
    return SeenTable(
        columns=tuple(
            SeenColumn(label=each.label, kind=each.kind, role=role_of(each, roles), cells=each.cells[:CELLS])
            for each in columns[:MOST_COLUMNS_SEEN]
            if each.kind != "empty"
        ),
        rows=len(block.body),
        tables=names if len(names) > 1 else (),
        chosen=chosen if len(names) > 1 else "",
    )


def role_of(column: SheetColumn, roles: Roles) -> str:
    """What a column was taken for."""
    label = column.label
    grouped = roles.groups if isinstance(roles.groups, tuple) else (roles.groups,)
    for role, names in (
        ("changed", (roles.changed,)),
        ("unused", roles.unused),
        ("kept", roles.kept),
        ("groups", grouped),
        ("repeats", roles.repeats),
        ("measured", roles.measured),
    ):
        if label in names:
            return role
    if column.over and column.over in grouped:
        return "groups"
    return "changed" if column.kind == "time" and roles.changed != BOTH else "measured"


def with_role(seen: SeenTable, roles: Roles, label: str, role: str) -> Roles:
    """The roles once a person has said what one column is; the others stay what they are, where they can.

    Where another column becomes what was changed, the one that was so takes its place.
    """
    column = next(each for each in seen.columns if each.label == label)
    left = _without(roles, label)
    if role == "changed":
        before = next((each for each in seen.columns if each.label == roles.changed), None)
        left = replace(left, changed=label)
        swapped = before is not None and before.label != label and before.kind != "words"
        return _with(left, before, "measured") if before is not None and swapped else left
    return _with(left, column, role)


def unnamed(seen: SeenTable, roles: Roles) -> str:
    """What was measured, where its name stands over no column and may be said; "" where a column names it."""
    one = roles.measured[0] if len(roles.measured) == 1 else ""
    return "" if one in [each.label for each in seen.columns] else one


def _with(roles: Roles, column: SeenColumn, role: str) -> Roles:
    label = column.label
    if role == "groups":
        if column.kind in ("words", "answer"):
            return replace(roles, groups=label)
        return replace(roles, groups=(*(roles.groups if isinstance(roles.groups, tuple) else ()), label))
    if role == "measured":
        return replace(roles, measured=(*roles.measured, label))
    if role == "repeats":
        return replace(roles, repeats=(*roles.repeats, label))
    if role == "kept":
        return replace(roles, kept=(*roles.kept, label))
    return replace(roles, unused=(*roles.unused, label))


def _without(roles: Roles, label: str) -> Roles:
    def others(names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(name for name in names if name != label)

    groups = others(roles.groups) if isinstance(roles.groups, tuple) else roles.groups
    return replace(
        roles,
        changed=None if roles.changed == label else roles.changed,
        measured=others(roles.measured),
        repeats=others(roles.repeats),
        groups="" if groups == label else groups or "",
        kept=others(roles.kept),
        unused=others(roles.unused),
    )
