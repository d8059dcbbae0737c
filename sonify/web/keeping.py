"""What is kept on this computer, asked for by its own browsers alone: what `/api/shelf` answers.

Every question says what to `do` and is answered with all that is kept then, so that the page has one list to show.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from sonify import lesson
from sonify.data.plan import class_facts
from sonify.records.fact import wrong
from sonify.records.kept import CLASS, KINDS, PLAN, Kept, State
from sonify.storage.keeping import CannotKeep, Keeping, folder
from sonify.web.desk import Desk
from sonify.web.http import answer, guarded, json_of, only_at_home
from sonify.web.inputs import Inputs, read_inputs, refuse, table_at, text_at

#: What a state of a plan has beside what every request has: the class that it is for.
ROOM = "class_id"


class Shelf:
    """The answers. at_home: whether a browser runs on this machine. compute: does work in a thread. also_forget: what
    else goes where everything is forgotten."""

    def __init__(
        self,
        desk: Desk,
        at_home: Callable[[Request], bool],
        compute: Callable[..., Any],
        also_forget: Callable[[], None] = lambda: None,
    ) -> None:
        self._desk, self._at_home, self._compute, self._also_forget = desk, at_home, compute, also_forget
        place = folder()
        self._kept = None if place is None else Keeping(place)
        self._does: dict[str, Callable[[Keeping, Mapping[str, Any]], dict[str, Any]]] = {
            "list": lambda kept, given: {},
            "keep": self._keep,
            "open": self._open,
            "copy": self._copy,
            "rename": self._rename,
            "delete": self._delete,
            "undelete": self._undelete,
            "forget": self._forget,
        }

    @property
    def keeps(self) -> bool:
        return self._kept is not None

    def routes(self) -> list[Route]:
        return [Route("/api/shelf", guarded(self.answer), methods=["POST"])]

    async def answer(self, request: Request) -> Response:
        only_at_home(self._at_home(request))
        given = await json_of(request)
        if not isinstance(given, dict):
            refuse(wrong("error_web-shelf"))
        do = text_at(given, "do", 20)
        if do not in self._does:
            refuse(wrong("error_web-shelf"), "do")
        return answer(await self._compute(lambda: self._done(do, given)))

    def _done(self, do: str, given: Mapping[str, Any]) -> dict[str, Any]:
        if self._kept is None:
            return {"keeps": False, "why": "", "plans": [], "classes": []}
        try:
            found = self._does[do](self._kept, given)
            return {"keeps": True, "why": "", **self._listed(self._kept), **found}
        except CannotKeep as error:
            # Nothing else of the page suffers: it is an answer, and no failure.
            listed: dict[str, Any] = {"plans": [], "classes": []}
            with suppress(CannotKeep):
                listed = self._listed(self._kept)
            return {"keeps": False, "why": f"{str(error)[:1].upper()}{str(error)[1:]}.", **listed}

    def lapse(self) -> None:
        """What was deleted is gone for good when the program stops."""
        if self._kept is not None:
            with suppress(CannotKeep):
                self._kept.lapse()

    # --- what is there -----------------------------------------------------------------------------------------------

    def _listed(self, kept: Keeping) -> dict[str, Any]:
        found = kept.all()
        return {
            "plans": [_plan_row(each) for each in found if each.kind == PLAN],
            "classes": [_row(each) for each in found if each.kind == CLASS],
        }

    def _open(self, kept: Keeping, given: Mapping[str, Any]) -> dict[str, Any]:
        """A plan or a class as the page holds it. state: which of its states, from the oldest; else the newest."""
        found = kept.one(*_named(given))
        number = given.get("state")
        if number is None:
            state = found.newest
        elif type(number) is int and 0 <= number < len(found.states):
            state = found.states[number]
        else:
            refuse(wrong("error_web-shelf"), "state")
        if found.kind == CLASS:
            return {"opened": {"class": self._class_shown(self._read(state)), ROOM: found.id}}
        return {"opened": self._plan_shown(kept, found.id, state)}

    def _plan_shown(self, kept: Keeping, number: str, state: State) -> dict[str, Any]:
        inputs, room = self._read(state), str(state.held.get(ROOM, ""))
        # A class has its own history: a plan for it opens with the class as it is now.
        with suppress(CannotKeep):
            if room:
                inputs = self._with_class(inputs, kept.one(CLASS, room).newest)
        shown = inputs.as_sent()
        if inputs.csv_key:
            shown["scene"]["csv"] = kept.readings(inputs.csv_key)
            self._desk.keep(shown["scene"]["csv"])
        return {**shown, "class": self._class_shown(inputs), "plan_id": number, ROOM: room}

    def _read(self, state: State) -> Inputs:
        """A state's inputs, checked like those that a page sends: the disk may hold anything."""
        held = dict(state.held)
        return read_inputs({"scene": {"name": lesson.scene_names()[0]}, **held})

    def _with_class(self, inputs: Inputs, room: State) -> Inputs:
        return read_inputs({**inputs.as_sent(), "class": self._read(room).as_sent()["class"]})

    def _class_shown(self, inputs: Inputs) -> dict[str, Any] | None:
        given: dict[str, Any] = inputs.as_sent()["class"]
        if inputs.class_text is None and not inputs.class_values:
            return None
        return {**given, "facts": class_facts(self._desk.classroom(inputs)[0])}

    # --- what is changed ---------------------------------------------------------------------------------------------

    def _keep(self, kept: Keeping, given: Mapping[str, Any]) -> dict[str, Any]:
        kind, number = _named(given)
        name, sent = text_at(given, "name", 1000), table_at(given, "state")
        if kind == CLASS:
            inputs = read_inputs({"scene": {"name": lesson.scene_names()[0]}, "class": _plain(sent.get("class"))})
            self._desk.classroom(inputs)
            found = kept.keep(kind, number, name, {"class": inputs.as_sent()["class"]})
            return {"kept": {"id": found.id, "name": found.name}}
        inputs = read_inputs({**sent, "class": _plain(sent.get("class"))})
        room = text_at(sent, ROOM, 16, "")
        held = {**inputs.as_sent(), ROOM: room}
        with suppress(CannotKeep):  # a class that is kept has its own history: deleted, nothing of it stays here
            if room and kept.one(CLASS, room):
                held["class"] = {}
        readings = inputs.csv
        if readings is None and inputs.csv_key and not kept.has_readings(inputs.csv_key):
            readings = self._desk.csv(inputs.csv_key)
        found = kept.keep(kind, number, name, held, readings)
        return {"kept": {"id": found.id, "name": found.name}}

    def _copy(self, kept: Keeping, given: Mapping[str, Any]) -> dict[str, Any]:
        """The same lesson once more, for another class. class_id: a class that is kept, or "" for the usual one."""
        plan = kept.one(PLAN, text_at(given, "id", 16))
        room = text_at(given, ROOM, 16, "")
        held = {**plan.newest.held, ROOM: room, "class": {}}
        name = plan.name
        if room:
            other = kept.one(CLASS, room)
            name = f"{plan.name}, {other.name}"
        number = secrets.token_hex(8)
        copied = kept.keep(PLAN, number, name, held)
        return {"opened": self._plan_shown(kept, number, copied.newest)}

    def _rename(self, kept: Keeping, given: Mapping[str, Any]) -> dict[str, Any]:
        found = kept.rename(*_named(given), text_at(given, "name", 1000))
        return {"kept": {"id": found.id, "name": found.name}}

    def _delete(self, kept: Keeping, given: Mapping[str, Any]) -> dict[str, Any]:
        kept.delete(*_named(given))
        return {}

    def _undelete(self, kept: Keeping, given: Mapping[str, Any]) -> dict[str, Any]:
        kept.undelete(*_named(given))
        return {}

    def _forget(self, kept: Keeping, given: Mapping[str, Any]) -> dict[str, Any]:
        kept.forget()
        self._desk.recordings.forget()
        self._also_forget()
        self._desk.let_recordings_go()
        return {}


def _named(given: Mapping[str, Any]) -> tuple[str, str]:
    kind = text_at(given, "kind", 20)
    if kind not in KINDS:
        refuse(wrong("error_web-shelf"), "kind")
    return kind, text_at(given, "id", 16)


def _plain(room: Any) -> Any:
    """A class without what the form shows of it, which follows from the rest."""
    return {key: value for key, value in room.items() if key != "facts"} if isinstance(room, dict) else room


def _row(kept: Kept) -> dict[str, Any]:
    return {
        "id": kept.id,
        "name": kept.name,
        "gone": kept.gone_s is not None,
        "states": [state.at_s for state in kept.states],
    }


def _plan_row(kept: Kept) -> dict[str, Any]:
    """untouched: it is a ready-made scene as it stands, and was never anything else."""
    held = kept.newest.held
    scene = held.get("scene")
    name = scene.get("name", "") if isinstance(scene, dict) else ""
    changed = len(kept.states) > 1 or any(held.get(key) for key in ("set", "rules", "drawn", "edits"))
    return {**_row(kept), "scene": str(name), ROOM: str(held.get(ROOM, "")), "untouched": bool(name) and not changed}
