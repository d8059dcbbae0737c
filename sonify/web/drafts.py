"""A scene and a class while a person is still changing them: plain texts and values in, records and new texts out.

Nothing is written. What a page sends is read by the same readers as a file is, so both obey the same rules.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from sonify import lesson
from sonify.errors import BadFile, UnknownName
from sonify.frozen import dataclass
from sonify.inputs.class_file import read_class
from sonify.inputs.class_text import class_text
from sonify.inputs.drawn_edits import drawn_edit_of, edited_drawn_text
from sonify.inputs.drawn_rows import renamed as renamed_quantity
from sonify.inputs.drawn_rows import with_quantity
from sonify.inputs.drawn_rows import without as without_quantity
from sonify.inputs.edits import edit_of, edited_scene_text
from sonify.inputs.experiment import read_experiment
from sonify.inputs.experiment_seen import seen_table, unnamed, with_role
from sonify.inputs.experiment_words import understood
from sonify.inputs.logger import read_table
from sonify.inputs.pattern_edits import own_pattern_edits, with_own_patterns
from sonify.inputs.scene_edits import Edited, edited, scene_edits
from sonify.inputs.scene_file import read_scene
from sonify.inputs.sound_edits import own_sound_edits, with_own_sounds
from sonify.inputs.text import text_of
from sonify.records.classroom import Classroom
from sonify.records.experiment import Experiment, Roles, SeenTable
from sonify.records.fact import Words, wrong
from sonify.records.scene import Change, Scene
from sonify.records.table import Table
from sonify.storage import shelf
from sonify.study.names import check_names
from sonify.study.own_sounds import with_own_sounds as with_sounds_heard

NOTHING: Mapping[str, object] = {}
#: The bytes of a sound file by its name, None where it is not here.
Sounds = Callable[[str], bytes | None]


CLASS_KEYS = ("year", "pupils", "groups", "minutes", "lessons", "needs", "line", "cupboard")


def no_sounds(name: str) -> bytes | None:
    """No sound file is here."""
    return None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Draft:
    """A scene as it is now. text: its file. before: the scene without the edits. rows: which of that scene's parts and
    rules its own are."""

    scene: Scene
    text: str
    before: Scene
    rows: Edited

    @property
    def changes(self) -> tuple[Change, ...]:
        """The conditions that differ from what the scene had before."""
        old = {condition.name: condition.measure for condition in self.before.conditions}
        return tuple(
            Change(name=condition.name, before=old.get(condition.name), after=condition.measure)
            for condition in self.scene.conditions
            if condition.measure != old.get(condition.name)
        )


# --- scenes ----------------------------------------------------------------------------------------------------------


def shipped_scene_text(name: str) -> str:
    """The text of a ready-made scene. Raises UnknownName."""
    if name not in shelf.scene_names():
        raise UnknownName("scene", name, shelf.scene_names())
    return text_of(shelf.bytes_of(shelf.scene_path(name), what="scene"), file=f"{name}.toml")


def is_shipped(name: str) -> bool:
    """Whether a ready-made scene has this name."""
    return name in shelf.scene_names()


def shipped_data(name: str) -> tuple[str, bytes]:
    """The file name and the bytes of the readings that a ready-made scene names; ("", b"") for none."""
    data = read_scene(shipped_scene_text(name), file=f"{name}.toml", name=name).data
    if not data:
        return "", b""
    path = shelf.scene_path(name).with_name(data)
    return data, shelf.bytes_of(path, what="data", most=shelf.LARGEST_DATA_BYTES)


def table_of(data: bytes, *, file: str) -> Table:
    """Readings from the bytes of a file. Raises BadFile where nothing can be made of them."""
    return read_table(data, file=file)


def readings_named(text: str, *, file: str) -> tuple[str, Roles | None]:
    """The file of readings that a scene names, and what it says is what in it; None where it says nothing of that."""
    scene = read_scene(text, file=file, name=stem_of(file))
    return scene.data, scene.roles


def experiment_of(data: bytes, roles: Roles, *, file: str) -> Experiment:
    """Readings as an experiment. Raises BadFile, UnknownName."""
    return lesson.beside(read_experiment(data, file=file, roles=roles), roles.model)


def scene_of(
    text: str,
    *,
    file: str,
    table: Table | None = None,
    experiment: Experiment | None = None,
    sounds: Sounds = no_sounds,
) -> Scene:
    """A scene from its text, every name in it checked. Raises BadFile naming line and key.

    experiment: its readings by the roles that the scene gives them. sounds: the bytes of a sound file that it names,
    None where it is not here.
    """
    scene = read_scene(text, file=file, name=stem_of(file))
    if scene.data and table is None:
        message = wrong("error_files-scene-plays-readings", data=scene.data)
        raise BadFile(file, message, line=scene.origin.line("data"), key="data")
    if scene.data:
        scene = replace(scene, table=table)
    if scene.roles is not None and experiment is not None:
        scene = replace(scene, table=experiment.table, experiment=experiment)
    if scene.sounds:
        scene = with_sounds_heard(scene, sounds, lesson.catalogue())
    check_names(scene, lesson.catalogue())
    return scene


def draft_of(
    before: Scene,
    text: str,
    conditions: Mapping[str, str | int],
    rules: Mapping[str, object],
    drawn: Mapping[str, object] = NOTHING,
    own: Mapping[str, object] = NOTHING,
    *,
    file: str,
    sounds: Sounds = no_sounds,
) -> Draft:
    """A scene with conditions, rules and drawn quantities set anew in its text.

    drawn: by number or "new", each as `inputs.drawn_edits.drawn_edit_of` takes it. own: words, parts and rules, as
    `inputs.scene_edits` takes them. Raises BadFile, also where an edit did not take; its key is the page's own.
    """
    made = Edited(text, {})
    try:
        made = _edited_text(before, text, conditions, rules, drawn, own, file)
        if made.text == text:
            return Draft(scene=before, text=text, before=before, rows=made)
        scene = scene_of(made.text, file=file, table=before.table, experiment=before.experiment, sounds=sounds)
    except BadFile as error:
        raise of_the_page(error, made) from None  # the text was read before: what is wrong came from there
    found = {condition.name: condition.measure.text for condition in scene.conditions}
    for name, value in conditions.items():
        if found.get(name) != str(value).strip():
            raise BadFile(file, wrong("error_files-line-changed-here"), key=name)
    return Draft(scene=scene, text=made.text, before=before, rows=made)


def _edited_text(
    before: Scene,
    text: str,
    conditions: Mapping[str, str | int],
    rules: Mapping[str, object],
    drawn: Mapping[str, object],
    own: Mapping[str, object],
    file: str,
) -> Edited:
    edits = dict(edit_of(number, given, file=file) for number, given in rules.items())
    drawings = dict(drawn_edit_of(number, given, file=file) for number, given in drawn.items())
    changed = edited_scene_text(text, conditions, edits, file=file, lines=dict(before.origin.lines))
    changed = edited_drawn_text(changed, drawings, file=file)
    made = edited(changed, scene_edits(own, file=file), file=file) if own else Edited(changed, {})
    changed = with_own_patterns(made.text, own_pattern_edits(own, file=file), file=file)
    return Edited(with_own_sounds(changed, own_sound_edits(own, file=file), file=file), made.rows, made.names)


def of_the_page(error: BadFile, made: Edited) -> BadFile:
    """What is wrong in an edited text, by the page's own fields: nobody there has seen its lines."""
    first = error.faults[0] if error.faults else error
    return BadFile("", first.message, key=made.path(first.key or ""))


def redrawn(draft: Draft, how: Mapping[str, Any], *, file: str) -> str:
    """The text of a scene with a drawn quantity more, renamed or taken out. Raises BadFile.

    how: {"add": name, "unit": unit}, {"rename": number, "name": name} or {"remove": number}.
    """
    if draft.scene.table is not None or (draft.scene.own_stages and not draft.scene.drawn):
        raise BadFile(file, wrong("error_drawn-no-drawing"), key="drawn")
    name = str(how.get("name", ""))
    if "add" in how:
        text = with_quantity(draft.text, str(how["add"]), str(how.get("unit", "")), file=file)
    elif "rename" in how:
        text = renamed_quantity(draft.text, int(how["rename"]), name, file=file)
    else:
        text = without_quantity(draft.text, int(how["remove"]), file=file)
    scene_of(text, file=file)
    return text


def sound_files(text: str, *, file: str) -> list[str]:
    """The sound files that a scene names."""
    return [sound.file for sound in read_scene(text, file=file, name=stem_of(file)).sounds]


def stem_of(file: str) -> str:
    """A file's name without folder and ending, as the command line would call the scene.

    >>> stem_of("C:\\\\lessons\\\\my puddle.toml")
    'my puddle'
    """
    name = file.replace("\\", "/").rpartition("/")[2].strip()
    return name.removesuffix(".toml") or "scene"


def measured_scene(data: bytes, *, file: str, roles: Roles | None = None) -> tuple[lesson.Measurement, Scene]:
    """What can be made of a file of readings, and the scene that plays them.

    roles: what is what in the file; all that is left out is guessed. Raises BadFile where they cannot be played,
    UnknownName where a column is named that is not there.
    """
    stem = file.rpartition(".")[0] or file
    made = lesson.measurement(data, file=file, stem=stem, roles=roles)
    return made, scene_of(made.text, file=f"{stem}.toml", table=made.table, experiment=made.experiment)


def table_seen(scene: Scene, data: bytes) -> tuple[SeenTable, list[Words], str] | None:
    """The table of a class's experiment as it stands in its file, what was understood of it, and the name of what was
    measured where no column names it; None without one."""
    if scene.experiment is None or scene.roles is None:
        return None
    seen = seen_table(data, file=scene.data, roles=scene.roles)
    return None if seen is None else (seen, understood(scene.experiment), unnamed(seen, scene.roles))


def corrected(seen: SeenTable, roles: Roles, column: str, role: str) -> Roles:
    """The roles of a table once a person has said what one of its columns is."""
    return with_role(seen, roles, column, role)


def renamed(seen: SeenTable, roles: Roles, name: str) -> Roles | None:
    """The roles of a table once a person has said what was measured; None where a column says it."""
    return replace(roles, measured=(name,)) if unnamed(seen, roles) else None


def started_scene(name: str, process: str = "") -> tuple[lesson.Start, Scene]:
    """A new scene of a process (left out, of the water cycle), as `sonify new` writes it, and the scene it makes.

    Its table, where it plays one, is to lie beside it as NAME.csv. Raises BadName or UnknownName.
    """
    made = lesson.start(name, process)
    if not made.readings:
        return made, scene_of(made.text, file=f"{name}.toml")
    data = made.readings.encode("utf-8")
    named, roles = readings_named(made.text, file=f"{name}.toml")
    if roles is None:
        return made, scene_of(made.text, file=f"{name}.toml", table=read_table(data, file=named))
    experiment = experiment_of(data, roles, file=named)
    return made, scene_of(made.text, file=f"{name}.toml", table=experiment.table, experiment=experiment)


# --- classes ---------------------------------------------------------------------------------------------------------


def default_class_text() -> str:
    """The text of the class that is used where none is given."""
    return text_of(shelf.bytes_of(shelf.default_class_path(), what="class"), file="class.toml")


def class_of(text: str, *, file: str = "class.toml") -> Classroom:
    """A class from its text. Raises BadFile naming line and key."""
    return read_class(text, file=file, name=stem_of(file), catalogue=lesson.catalogue())


def class_from(values: Mapping[str, Any], base: str = "") -> tuple[Classroom, str]:
    """A class from plain values, and its file's text. base: an earlier text, whose comments are kept.

    The values are written as a file and read as one, so they meet the same checks. Raises BadFile.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    before = class_of(base) if base else None
    plain = {key: values[key] for key in CLASS_KEYS if values.get(key) is not None}
    if before is not None:
        plain.setdefault("lessons", before.lessons)
    try:
        text = tomlkit.dumps(plain)
    except (TOMLKitError, ValueError, TypeError):
        raise BadFile("class", wrong("error_files-class-numbers-list")) from None
    try:
        made = class_of(text, file="class.toml")
    except BadFile as error:
        raise of_the_page(error, Edited("", {})) from None
    if before is not None:  # the page shows no instruments of the class's own, and keeps them
        theirs = tuple(stock for stock in before.cupboard if stock.instrument in {one.id for one in before.own})
        made = replace(made, own=before.own, cupboard=(*made.cupboard, *theirs))
    written = class_text(made, lesson.catalogue(), base=base)
    return class_of(written), written


def without_needs(text: str) -> str:
    """The text of a class without what some pupils need, written afresh: a remark in it may name a pupil."""
    return lesson.class_to_send(class_of(text))
