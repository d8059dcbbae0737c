"""A class's table as an experiment: from the bytes of a CSV or a spreadsheet to what was changed and measured."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace

from sonify.errors import BadFile, SonifyError, UnknownName
from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.inputs.experiment_of_logger import logged
from sonify.inputs.experiment_series import NOTHING, made
from sonify.inputs.experiment_words import doubt, flag, listed
from sonify.inputs.logger import read_table
from sonify.inputs.sheet import Sheet, csv_sheet
from sonify.inputs.sheet_blocks import Block, blocks_of
from sonify.inputs.workbook import is_workbook, sheets_of
from sonify.records.experiment import Experiment, Roles


@dataclass(frozen=True, slots=True, eq=False)
class _Choice:
    """One table of a file. names: what it may be called, the first is shown."""

    names: tuple[str, ...]
    sheet: Sheet
    block: Block


def read_experiment(data: bytes, *, file: str, roles: Roles | None = None) -> Experiment:
    """The experiment that a file holds.

    Args:
        data: the whole file: a CSV as `inputs.logger` reads it, or a spreadsheet (.xlsx, .ods).
        file: its name, for messages.
        roles: what a person said is what in it. All else is guessed, and told in the experiment's `doubts`.

    Raises BadFile with one clear message where no experiment can be made of it, UnknownName where a column or a
    table was named that is not there.
    """
    said = roles or Roles()
    file = one_line(file, 100)
    if is_workbook(data, file):
        sheets = sheets_of(data, file=file)
    else:
        sheet = csv_sheet(data, file=file)
        if sheet is None:
            return logged(read_table(data, file=file), said)
        sheets = (sheet,)
    choices = _choices(sheets, said)
    digest = hashlib.sha256(data).hexdigest()
    if said.sheet is not None:
        chosen = _called(choices, said.sheet)
        return _titled(made(chosen.block, chosen.sheet, said, file=file, sha256=digest), chosen, len(choices) > 1)
    return _first(choices, said, file, digest)


def _choices(sheets: Sequence[Sheet], said: Roles) -> list[_Choice]:
    found: list[_Choice] = []
    for sheet in sheets:
        blocks = blocks_of(sheet, said.across)
        for number, block in enumerate(blocks, 1):
            place = f"table {len(found) + 1}"
            names: tuple[str, ...] = (block.name, place)
            if sheet.name:
                whole = f"{sheet.name}, {block.name}"
                names = (sheet.name, whole, place) if len(blocks) == 1 else (whole, block.name, place)
                names += (sheet.name,) if number == 1 else ()
            found.append(_Choice(tuple(dict.fromkeys(names)), sheet, block))
    return found


def _called(choices: Sequence[_Choice], name: str) -> _Choice:
    wanted = " ".join(name.split()).casefold()
    for depth in range(4):
        for choice in choices:
            if depth < len(choice.names) and choice.names[depth].casefold() == wanted:
                return choice
    raise UnknownName("sheet or table", name, [choice.names[0] for choice in choices])


def _first(choices: Sequence[_Choice], said: Roles, file: str, digest: str) -> Experiment:
    """The first table of a file that is an experiment, with a doubt where there are more."""
    able: list[tuple[_Choice, Experiment]] = []
    refused: SonifyError | None = None
    for choice in choices:
        try:
            able.append((choice, made(choice.block, choice.sheet, said, file=file, sha256=digest)))
        except (BadFile, UnknownName) as error:
            refused = refused or error
    if not able:
        raise refused or BadFile(file, NOTHING)
    chosen, experiment = able[0]
    if len(able) > 1:
        names = [choice.names[0] for choice, _ in able]
        which = doubt("sheet", flag("sheet", names[1]), name=names[0], all=listed(names), n=len(able))
        experiment = replace(experiment, doubts=(which, *experiment.doubts))
    return _titled(experiment, chosen, len(choices) > 1)


def _titled(experiment: Experiment, choice: _Choice, several: bool) -> Experiment:
    """The experiment with the name of its table among its roles, where the file holds more than one."""
    assert experiment.roles is not None
    title = choice.block.title or None
    roles = replace(experiment.roles, sheet=choice.names[0] if several else None, title=title)
    return replace(experiment, roles=roles)


def table_read(data: bytes, *, file: str, roles: Roles) -> tuple[Block, str, tuple[str, ...], str] | None:
    """The table that an experiment with these roles was read from: its block, what parts its cells, the names of all
    tables of the file that can be played, and its own. None where it was read as a logger's."""
    if is_workbook(data, file):
        sheets = sheets_of(data, file=file)
    else:
        sheet = csv_sheet(data, file=file)
        if sheet is None:
            return None
        sheets = (sheet,)
    choices = _choices(sheets, roles)
    chosen = _called(choices, roles.sheet) if roles.sheet is not None else choices[0]
    able = tuple(choice.names[0] for choice in choices if choice is chosen or _is_able(choice, file))
    return chosen.block, chosen.sheet.separator, able, chosen.names[0]


def _is_able(choice: _Choice, file: str) -> bool:
    """Whether something was measured in a table."""
    try:
        made(choice.block, choice.sheet, Roles(), file=file, sha256="")
    except (BadFile, UnknownName):
        return False
    return True
