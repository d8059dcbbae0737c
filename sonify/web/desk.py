"""What the server has computed for the inputs it was sent, kept in memory by them: scenes, science, lessons, readings.

All of it is work for threads: nothing here is called on the event loop.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Hashable
from dataclasses import replace
from http import HTTPStatus
from typing import Any, TypeVar, cast

from sonify import lesson
from sonify.data.authoring import authoring
from sonify.data.experiment_table import experiment_facts
from sonify.data.plan import plan_facts
from sonify.errors import BadFile, UnknownName
from sonify.facts.comparison import comparison
from sonify.frozen import dataclass
from sonify.inputs.part_names import claim_named
from sonify.records.classroom import Classroom
from sonify.records.experiment import Experiment, Roles
from sonify.records.fact import wrong
from sonify.records.lesson import Lesson
from sonify.records.scene import WORD, Scene
from sonify.records.table import Table
from sonify.records.timeline import Timeline
from sonify.sound.balance import forget_recordings
from sonify.web import drafts
from sonify.web.drafts import Draft
from sonify.web.errors import Refused
from sonify.web.inputs import Inputs, digest, has_recordings, readings_bytes
from sonify.web.recordings import Recordings
from sonify.web.results import Limit, Results, Weights

Value = TypeVar("Value")

#: So many of each are kept; the longest unused go. A class at thirty browsers has its lessons and the last answers of
#: each: what would lie here longer served nobody, and let the memory grow for a quarter of an hour.
SCENES, TIMELINES, LESSONS, ANSWERS, TABLES = 40, 60, 40, 80, 8
#: What is computed or read weighs no more than about so many bytes, sounds and pages included; recordings have a limit
#: of their own.
MOST_BYTES = 200_000_000
#: What a scene and a note of a lesson take, about: of the ready-made ones 0.1 MB, and 0.2 to 0.7 MB with the lesson.
SCENE_BYTES, NOTE_BYTES = 100_000, 300
NO_READINGS = wrong("error_web-no-readings")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Study:
    """The lesson that follows from inputs, and the texts of its scene and class files."""

    key: str
    draft: Draft
    lesson: Lesson
    class_text: str


def _scene_weights(*scenes: Scene) -> Weights:
    """Scenes, and their readings: those that the same table is in count once."""
    own: dict[Hashable, int] = {id(scene): SCENE_BYTES for scene in scenes}
    return own | {id(scene.table): scene.table.nbytes for scene in scenes if scene.table is not None}


def _timeline_weights(timeline: Timeline) -> Weights:
    return {id(timeline): (1 + len(timeline.quantities)) * timeline.time_s.nbytes}


def _study_weights(study: Study) -> Weights:
    made = study.lesson
    notes = sum(len(part.notes) for part in made.score.parts)
    own: dict[Hashable, int] = {id(study): NOTE_BYTES * notes}
    return {
        **own,
        **_scene_weights(study.draft.scene, study.draft.before, made.scene),
        **_timeline_weights(made.timeline),
    }


def size_of(held: str | bytes) -> Weights:
    return {id(held): sys.getsizeof(held)}


def as_json(facts: dict[str, Any]) -> bytes:
    """An answer as it is sent."""
    return json.dumps(facts, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


class Desk:
    """All that is kept."""

    def __init__(self, recordings: Recordings | None = None) -> None:
        self.recordings = recordings or Recordings()
        self.is_closing = False  # the server stops: work in several steps goes no further
        self.limit = Limit(MOST_BYTES)
        self.made_of_lessons: list[Results[Any]] = []  # what others keep that was made with recordings
        self._complete: dict[str, object] = {}
        self._scenes: Results[tuple[Scene, str]] = Results(
            SCENES, self.limit, weigh=lambda held: _scene_weights(held[0])
        )
        self._drafts: Results[Draft] = Results(
            SCENES, self.limit, weigh=lambda draft: _scene_weights(draft.scene, draft.before)
        )
        self._classes: Results[tuple[Classroom, str]] = Results(SCENES, self.limit, weigh=lambda held: size_of(held[1]))
        self._classes_to_send: Results[str] = Results(SCENES, self.limit, weigh=size_of)
        self._timelines: Results[Timeline] = Results(TIMELINES, self.limit, weigh=_timeline_weights)
        self._studies: Results[Study] = Results(LESSONS, self.limit, weigh=_study_weights)
        self._plans: Results[bytes] = Results(ANSWERS, self.limit, weigh=size_of)
        self._files: Results[str] = Results(TABLES, self.limit, weigh=size_of)
        self._read: Results[tuple[Table, Experiment | None]] = Results(
            TABLES, self.limit, weigh=lambda held: {id(held[0]): held[0].nbytes}
        )

    def keep(self, sent: str) -> str:
        """Keep a file of readings as it was sent. Gives the key under which it can be asked for again."""
        key = digest(sent)
        self._files.put(key, sent)
        return key

    def csv(self, key: str) -> str:
        """The text of readings that were sent before. Raises Refused where it is no longer there."""
        held = self._files.get(key)
        if held is None:
            raise Refused(HTTPStatus.GONE, NO_READINGS, need="csv", where="csv")
        return held

    def data(self, inputs: Inputs) -> bytes:
        """The bytes of the readings that go with a scene; b"" where there are none. Raises Refused, UnknownName."""
        if inputs.name:
            return drafts.shipped_data(inputs.name)[1]
        if inputs.csv is not None:
            self.keep(inputs.csv)
            return readings_bytes(inputs.csv)
        return readings_bytes(self.csv(inputs.csv_key)) if inputs.csv_key else b""

    def took(self, key: str, scene: Scene) -> None:
        """Readings that were read already need not be read again for the scene that was written of them."""
        if scene.table is not None:
            self._read.put((key, repr(scene.roles)), (scene.table, scene.experiment))

    def _parsed(self, key: str, data: bytes, roles: Roles | None, file: str) -> tuple[Table, Experiment | None]:
        def read() -> tuple[Table, Experiment | None]:
            if roles is None:
                return drafts.table_of(data, file=file), None
            found = drafts.experiment_of(data, roles, file=file)
            return found.table, found

        return self._read.of((key, repr(roles)), read)

    def readings(self, inputs: Inputs) -> dict[str, str]:
        """The file of readings that a scene plays, by its name; nothing for a scene without."""
        name = self.base(inputs)[0].data
        if not name:
            return {}
        if inputs.name:
            return {name: drafts.shipped_data(inputs.name)[1].decode("utf-8-sig")}
        return {name: inputs.csv if inputs.csv is not None else self.csv(inputs.csv_key)}

    def base(self, inputs: Inputs) -> tuple[Scene, str]:
        """The scene without its edits, and its text."""
        return self._scenes.of(
            inputs.base_key,
            lambda: self._read_scene(inputs),
        )

    def _read_scene(self, inputs: Inputs) -> tuple[Scene, str]:
        try:
            text = drafts.shipped_scene_text(inputs.name) if inputs.name else inputs.text
        except UnknownName as error:
            raise Refused(HTTPStatus.NOT_FOUND, str(error), where="scene") from None
        file, data = inputs.scene_file, self.data(inputs)
        if not data:
            return drafts.scene_of(text, file=file, sounds=self._sounds(inputs)), text
        named, roles = drafts.readings_named(text, file=file)
        table, experiment = self._parsed(inputs.csv_key or inputs.name, data, roles, named or "readings.csv")
        sounds = self._sounds(inputs)
        return drafts.scene_of(text, file=file, table=table, experiment=experiment, sounds=sounds), text

    def _sounds(self, inputs: Inputs) -> drafts.Sounds:
        return lambda name: self.recordings.get(inputs.sounds.get(name, ""))

    def heard(self, inputs: Inputs, *, home: bool) -> Inputs:
        """The inputs with those recordings alone that are here: what is made with a stand-in is kept under another key.

        home: for a browser of this machine; for any other there is none, whatever it may know of them.
        """
        here = {file: key for file, key in inputs.sounds.items() if home and self.recordings.is_here(key)}
        return inputs if here == inputs.sounds else replace(inputs, sounds=here)

    def let_recordings_go(self, key: str = "") -> None:
        """Nothing that was made with a recording is left in memory: one was deleted. With "" all were, and all goes.

        What was made without any stays: other browsers' lessons need not be made again.
        """
        whose: Callable[[Hashable], bool] = has_recordings if key else lambda each: True
        # what others are made from goes first, so that nothing is made anew of it
        for kept in (self._scenes, self._drafts, self._studies, self._plans, *self.made_of_lessons):
            cast(Results[Any], kept).clear(whose)
        forget_recordings(key)

    def draft(self, inputs: Inputs) -> Draft:
        """The scene with its edits."""
        return self._drafts.of(inputs.scene_key, lambda: self._draft(inputs))

    def _draft(self, inputs: Inputs) -> Draft:
        scene, text = self.base(inputs)
        return drafts.draft_of(
            scene,
            text,
            inputs.conditions,
            inputs.rules,
            inputs.drawn,
            inputs.edits,
            file=inputs.scene_file,
            sounds=self._sounds(inputs),
        )

    def classroom(self, inputs: Inputs) -> tuple[Classroom, str]:
        """The class and the text of its file."""
        given = (inputs.class_text, inputs.class_file, repr(sorted(inputs.class_values.items())))
        return self._classes.of(given, lambda: self._read_class(inputs))

    def _read_class(self, inputs: Inputs) -> tuple[Classroom, str]:
        if inputs.class_values:
            return drafts.class_from(inputs.class_values, inputs.class_text or "")
        text = drafts.default_class_text() if inputs.class_text is None else inputs.class_text
        return drafts.class_of(text, file=inputs.class_file), text

    def timeline(self, scene: Scene) -> Timeline:
        """The science of a scene."""
        return self._timelines.of(self.science_key(scene), lambda: lesson.simulate(scene))

    def science_key(self, scene: Scene) -> str:
        """What the science of a scene follows from: its process, its conditions and its readings."""
        conditions = [
            (c.name, c.measure.value, c.measure.unit, c.measure.text * (c.measure.unit == WORD))
            for c in scene.conditions
        ]
        own = (scene.drawn, scene.events, scene.circle, scene.stages) if scene.own_stages else (scene.drawn,)
        return repr(
            (scene.process, conditions, scene.table.sha256 if scene.table is not None else "", scene.roles, own)
        )

    def knows(self, inputs: Inputs) -> bool:
        """Whether the lesson of these inputs is there already."""
        return self._studies.get(inputs.key) is not None

    def study(self, inputs: Inputs) -> Study:
        """The lesson that follows from the inputs. Raises SonifyError for a mistake in them."""
        return self._studies.of(inputs.key, lambda: self._study(inputs, self.draft(inputs), self.classroom(inputs)))

    def tried(self, inputs: Inputs) -> Study:
        """The same of what is only tried: it is kept nowhere, so that no lesson that is being conducted makes room."""
        return self._study(inputs, self._draft(inputs), self._read_class(inputs))

    def once_complete(self, key: str, compute: Callable[[], tuple[Value, bool]]) -> Value:
        """What is computed anew until it is complete, and then kept."""
        if (found := self._complete.get(key)) is not None:
            return cast(Value, found)
        value, whole = compute()
        if whole:
            self._complete[key] = value
        return value

    def kept_study(self, key: str) -> Study | None:
        return self._studies.get(key)

    def keeps(self, study: Study) -> bool:
        """Whether a study is still the one that is kept: it is not where a recording in it was deleted since."""
        return self._studies.get(study.key) is study

    def _study(self, inputs: Inputs, draft: Draft, room: tuple[Classroom, str]) -> Study:
        classroom, class_text = room
        try:
            studied = lesson.study(
                draft.scene,
                classroom,
                seed=inputs.seed,
                scaffold=inputs.scaffold,
                timeline=self.timeline(draft.scene),
                before=draft.before,
            )
        except BadFile as error:
            raise drafts.of_the_page(error, draft.rows) if draft.text != draft.before.origin.text else error from None
        return Study(key=inputs.key, draft=draft, lesson=studied, class_text=class_text)

    def plan(self, inputs: Inputs) -> dict[str, Any]:
        """The answer of the Plan."""
        found: dict[str, Any] = json.loads(self.plan_text(inputs))
        return found

    def plan_text(self, inputs: Inputs) -> bytes:
        """The same as the page is sent it: it is kept so, a third as large, and need not be written again."""
        return self._plans.of(inputs.key, lambda: as_json(self._plan(inputs, self.study(inputs))))

    def _plan(self, inputs: Inputs, study: Study) -> dict[str, Any]:
        draft = study.draft
        rows = lesson.catalogue().with_own(study.lesson.classroom.own)
        found = comparison(draft.changes, self.timeline(draft.before), study.lesson.timeline) if draft.changes else None
        return {
            **plan_facts(study.lesson, before=draft.before, compared=found, which=draft.rows.which),
            **authoring(
                *(study.lesson, draft.scene, draft.before, draft.rows.which, rows),
                named=lambda claim: claim_named(claim, draft.rows.names),
            ),
            "table": self._table(inputs, draft.scene),
            "scene_toml": draft.text,
            "scene_file": f"{draft.scene.name}.toml",
            "data_file": draft.scene.data,
            "class_toml": study.class_text,
            "class_toml_to_send": self._classes_to_send.of(
                digest(study.class_text), lambda: drafts.without_needs(study.class_text)
            ),
            "key": study.key,
        }

    def _table(self, inputs: Inputs, scene: Scene) -> dict[str, Any] | None:
        """The class's own table and what was understood of it; None where the scene plays none."""
        found = drafts.table_seen(scene, self.data(inputs)) if scene.experiment is not None else None
        if found is None or scene.experiment is None:
            return None
        seen, understood, name = found
        return {**experiment_facts(scene.experiment, seen, understood, shipped=bool(inputs.name)), "name": name}
