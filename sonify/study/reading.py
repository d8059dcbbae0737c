"""Reading what a person gives: a scene, a class, a file of readings, every name in them checked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace as changed
from functools import cache as once
from hashlib import sha256
from pathlib import Path

from sonify.cycles import seldom_looked_for
from sonify.errors import BadFile, BadName, UnknownName
from sonify.inputs.catalogue_file import read_catalogue
from sonify.inputs.changes import read_changes, rule_changes, with_changes
from sonify.inputs.class_file import read_class
from sonify.inputs.edits import edit_of, edited_scene_text
from sonify.inputs.scene_file import read_scene, text_of
from sonify.inputs.sound_file import LARGEST_BYTES
from sonify.processes.beside_model import beside
from sonify.records.classroom import Classroom
from sonify.records.experiment import Experiment, Roles
from sonify.records.fact import wrong
from sonify.records.instrument import Catalogue
from sonify.records.palette import GroupStyle, read_palette
from sonify.records.safe_text import for_document
from sonify.records.scene import Scene
from sonify.records.table import Table
from sonify.storage import shelf
from sonify.study.names import check_names
from sonify.study.own_sounds import with_own_sounds

SceneLike = Scene | str | Path
ClassLike = Classroom | str | Path | None
Changes = Mapping[str, str | int] | Iterable[str]


@once
def catalogue() -> Catalogue:
    """The shipped instrument catalogue."""
    return read_catalogue(shelf.shared_text("instruments.toml"), file="shared/instruments.toml")


@once
def palette() -> tuple[GroupStyle, ...]:
    """The shipped group colours and hatchings."""
    return read_palette(shelf.shared_text("palette.toml"))


@seldom_looked_for()
def load(name_or_path: SceneLike, changes: Changes = ()) -> Scene:
    """A scene by name (`sonify.cli scenes` lists them) or from a file, with every name in it checked.

    changes: conditions to set anew for this run: {"sea_temperature": "19 degC"}, or ["sea_temperature=19 degC"]; of a
    scene that is read from its text, ends of rules as well: {"hear.3.to": "pp, ff"}.

    Raises UnknownName, BadFile naming file, line and key, or BadChange.
    """
    conditions, rules = rule_changes(changes if isinstance(changes, Mapping) else read_changes(changes))
    if isinstance(name_or_path, Scene):
        if rules:
            raise BadName(wrong("error_inputs-set-no-file"))
        if not conditions:
            return name_or_path
        scene = name_or_path
    else:
        path, file = shelf.scene_path(name_or_path), str(name_or_path)
        text = text_of(shelf.bytes_of(path, what="scene"), file=file)
        scene = read_scene(text, file=file, name=for_document(path.stem))
        if rules:
            edits = dict(edit_of(number, given, file=file) for number, given in rules.items())
            text = edited_scene_text(text, {}, edits, file=file, lines=dict(scene.origin.lines))
            scene = read_scene(text, file=file, name=for_document(path.stem))
        scene = _with_table(scene, path)
        if scene.sounds:
            scene = with_own_sounds(scene, lambda name: sound_of(path.with_name(name)), catalogue())
    scene = with_changes(scene, conditions)
    check_names(scene, catalogue())
    return scene


def sound_of(path: str | Path) -> bytes:
    """The bytes of a sound file beside a scene. Raises BadFile where there is none, or too many."""
    return shelf.bytes_of(Path(path), what="sound", most=LARGEST_BYTES)


def _with_table(scene: Scene, path: Path) -> Scene:
    """The scene with the readings of the file that it names, which lies beside it."""
    if not scene.data:
        return scene
    if scene.roles is None:
        return changed(scene, table=load_table(path.with_name(scene.data)))
    experiment = load_experiment(path.with_name(scene.data), scene.roles, scene)
    return changed(scene, table=experiment.table, experiment=experiment)


def of_other_readings(scene: Scene) -> Scene | None:
    """The ready-made scene in place of whose readings this one has others; None where it has the same, or none."""
    name = Path(scene.data).stem
    if scene.table is None or not scene.data or name not in shelf.scene_names():
        return None
    shipped = shelf.scene_path(name).with_name(scene.data)
    if not shipped.is_file() or sha256(data_of(shipped)).hexdigest() == scene.table.sha256:
        return None
    ready = load(name)
    return None if ready.table is not None and _same_readings(scene.table, ready.table) else ready


def _same_readings(one: Table, other: Table) -> bool:
    """Whether two tables hold the same: a spreadsheet saves other line ends, and quotation marks, than it read."""
    from numpy import array_equal  # only where a table is another file than the ready-made one

    columns = [[(column.name, column.unit) for column in table.columns] for table in (one, other)]
    if columns[0] != columns[1] or one.labels != other.labels or (one.time_s is None) != (other.time_s is None):
        return False
    numbers = [[column.values for column in table.columns] for table in (one, other)]
    if one.time_s is not None and other.time_s is not None:
        numbers[0].append(one.time_s)
        numbers[1].append(other.time_s)
    return all(array_equal(a, b, equal_nan=True) for a, b in zip(*numbers, strict=True))


def load_table(path: str | Path) -> Table:
    """A logger's CSV or a table of results. Raises BadFile where nothing can be made of it."""
    from sonify.inputs.logger import read_table  # only where a scene has a table

    return read_table(data_of(path), file=Path(path).name)


def data_of(path: str | Path) -> bytes:
    """The bytes of a file of readings. Raises BadFile where there is none, or too many."""
    return shelf.bytes_of(Path(path), what="data", most=shelf.LARGEST_DATA_BYTES)


def load_experiment(path: str | Path, roles: Roles | None = None, scene: Scene | None = None) -> Experiment:
    """A class's own table, a CSV or a spreadsheet, as an experiment.

    roles: what a person said is what in it. scene: the scene that says so, for messages.

    Raises BadFile where nothing can be made of it, UnknownName where a column is named that is not there (BadFile with
    the scene's line, where a scene names it).
    """
    from sonify.inputs.experiment import read_experiment

    path = Path(path)
    try:
        read = read_experiment(data_of(path), file=path.name, roles=roles)
        return beside(read, None if roles is None else roles.model)
    except UnknownName as error:
        if scene is None:
            raise
        told = wrong("error_files-names-in-file", error=error, file=path.name)
        raise BadFile(scene.origin.file, told, line=scene.origin.line("table"), key="table") from None


def load_class(given: ClassLike = None) -> Classroom:
    """A class from a file, or the well-stocked one of the examples. Raises BadFile naming file, line and key."""
    if isinstance(given, Classroom):
        return given
    path = shelf.default_class_path() if given is None else Path(given)
    file = path.name if given is None else str(given)
    text = text_of(shelf.bytes_of(path, what="class"), file=file)
    return read_class(text, file=file, name=for_document(path.stem), catalogue=catalogue())
