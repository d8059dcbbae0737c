"""What is kept, and what strangers send: kills and failing writes at every step, spoilt files of every kind.

A file is opened or refused in a sentence; nothing of it is run, written elsewhere or sent. An audit hook of the
interpreter watches for that (Python's "Audit events table").
"""

from __future__ import annotations

import errno
import io
import json
import os
import random
import sys
import tempfile
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from copy import deepcopy
from pathlib import Path
from typing import Any

from sonify.errors import SonifyError
from sonify.lesson.carried import carried
from sonify.records.kept import PLAN
from sonify.storage.keeping import CannotKeep, Keeping
from sonify.web import drafts
from sonify.web.desk import Desk
from sonify.web.errors import error_facts
from sonify.web.keeping import Shelf
from sonify.web.opening import opened
from tests.campaign.faults import Plan, in_a_copy, traced
from tests.campaign.tally import Tally

ONE, OTHER = "0123456789abcdef", "fedcba9876543210"
KEY = "0" * 32
TABLE = "time (s),temperature (degC)\n" + "".join(f"{60 * n},{20 + 30 * 0.9**n:.2f}\n" for n in range(20))
ERRORS = {"killed": None, "full": errno.ENOSPC, "read-only": errno.EROFS}
#: Events of the interpreter that no file of a stranger's may cause.
FORBIDDEN = ("os.system", "os.exec", "os.posix_spawn", "os.fork", "subprocess.Popen", "socket.connect", "ctypes.dlopen")
CHANGING = ("os.rename", "os.mkdir", "os.symlink", "os.link", "os.remove", "os.rmdir", "shutil.copyfile")


def campaign(tally: Tally, count: int, seed: int, *, every: int = 1) -> None:
    if hasattr(os, "fork"):
        steps(tally, every)
        two_at_once(tally)
    strangers(tally, count, seed)


# --- kills and failing writes ----------------------------------------------------------------------------------------


def held(number: int) -> dict[str, Any]:
    return {"scene": {"text": "x" * 20_000, "file": "a.toml", "csv_key": KEY}, "set": {"n": str(number)}}


DOES: dict[str, Callable[[Keeping], object]] = {
    "keep": lambda kept: kept.keep(PLAN, ONE, "a", held(2)),
    "keep a new one": lambda kept: kept.keep(PLAN, "1" * 16, "a", held(3), TABLE),
    "rename": lambda kept: kept.rename(PLAN, ONE, "b"),
    "delete": lambda kept: kept.delete(PLAN, ONE),
    "forget": lambda kept: kept.forget(),
}


def steps(tally: Tally, every: int = 1) -> None:
    """Every step of everything that is done, killed or failing once: the old or the new, whole, and it goes on."""
    for what, do in DOES.items():
        for kind, number in ERRORS.items():
            for at in range(1, _count(do) + 1, every):
                with tempfile.TemporaryDirectory() as name:
                    fault = _step(Path(name) / "kept", do, what, Plan(at=at, error=number))
                    tally.add(f"{what}, {kind}", f"step {at}: {fault}" if fault else "")


def _before(place: Path) -> Keeping:
    kept = Keeping(place)
    kept.keep(PLAN, ONE, "a", held(1), TABLE)
    kept.keep(PLAN, OTHER, "other", held(1))
    return kept


def _count(do: Callable[[Keeping], object]) -> int:
    """How many steps it takes that nothing disturbs."""
    plan = Plan()
    with tempfile.TemporaryDirectory() as name:
        kept = _before(Path(name) / "kept")
        with traced(plan):
            do(kept)
    return len(plan.steps)


def _step(place: Path, do: Callable[[Keeping], object], what: str, plan: Plan) -> str:
    """One thing done with a fault, then the next without: what was wrong."""
    kept = _before(place)

    def faulty() -> None:
        with traced(plan):
            do(Keeping(place))

    status = in_a_copy(faulty)
    if status not in ((-9,) if plan.error is None else (0, 1)):
        return f"status {status}"
    found = {each.id: each for each in Keeping(place).all()}
    if what != "forget":
        one = found.get(ONE)
        if OTHER not in found or one is None or one.states[0].held != held(1):
            return f"lost: {sorted(found)}"
        if len(one.states) > 2 or one.name not in ("a", "b") or one.newest.held not in (held(1), held(2)):
            return f"a mixture: {one.name}, {len(one.states)} states"
        if any(each.readings and not kept.has_readings(KEY) for each in found.values()):
            return "a table is lost"
    again = Keeping(place)
    again.keep(PLAN, OTHER, "other", {"set": {}})
    again.keep(PLAN, OTHER, "other", {"set": {"n": "4"}})
    if any(place.rglob("*.part")):
        return f"half a file is left: {[path.name for path in place.rglob('*.part')]}"
    again.forget()
    left = [path.name for path in place.rglob("*") if path.is_file()]
    return "" if left == ["lock"] else f"not forgotten: {left}"


def two_at_once(tally: Tally, each: int = 12) -> None:
    """Two programs keep plans of one name, and states of one plan, at the same time."""
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        children = []
        for who in (0, 1):
            if (child := os.fork()) == 0:
                try:
                    for n in range(each):
                        Keeping(place).keep(PLAN, f"{who}{n:015d}", "same", {"set": {"n": f"{who} {n}"}})
                    os._exit(0)
                finally:
                    os._exit(1)
            children.append(child)
        ended = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
        found = Keeping(place).all()
        names = {one.name for one in found}
        whole = ended == [0, 0] and len(found) == len(names) == 2 * each
        tally.add("two at once", "" if whole else f"{ended}, {len(found)} plans, {len(names)} names")


# --- strangers' files ------------------------------------------------------------------------------------------------


class Watch:
    """What the interpreter does while it is on. A hook cannot be taken away again: it is switched off."""

    def __init__(self) -> None:
        self.on, self.seen, self.allowed = False, list[str](), ""
        sys.addaudithook(self._hook)

    def _hook(self, event: str, given: tuple[Any, ...]) -> None:
        if not self.on:
            return
        if event in FORBIDDEN:
            self.seen.append(event)
        elif event in CHANGING and not str(given[0]).startswith(self.allowed):
            self.seen.append(f"{event} {given[0]}")
        elif event == "open" and set(str(given[1])) & set("wax+"):
            path = str(given[0])
            if not path.startswith(self.allowed) and "__pycache__" not in path:
                self.seen.append(f"{event} {path} {given[1]}")

    @contextmanager
    def __call__(self, allowed: Path) -> Iterator[None]:
        self.seen, self.allowed, self.on = [], str(allowed), True
        try:
            yield
        finally:
            self.on = False


_WATCHES: list[Watch] = []


def strangers(tally: Tally, count: int, seed: int) -> None:
    """So many spoilt ZIPs, pages and saved states."""
    if not _WATCHES:
        _WATCHES.append(Watch())
    (watch,) = _WATCHES
    rng, desk = random.Random(seed), Desk()
    made, scene = drafts.measured_scene(TABLE.encode(), file="pond.csv")
    plan = {
        "scene": {"name": "pond", "text": made.text, "file": "pond.toml"},
        "readings": TABLE,
        "set": {},
        "rules": {"0": {"to": ["mf", "ff"]}},
        "drawn": {},
        "class": {"text": drafts.default_class_text(), "file": "class.toml"},
        "scaffold": "full",
        "seed": 0,
    }
    page = _page(carried(plan))
    whole = _zip({"pond/page.html": page, "pond.toml": made.text.encode(), scene.data: TABLE.encode()})
    ways = list(WAYS)
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        for number in range(count):
            kind = ways[number % len(ways)]
            if kind == STATE:
                fault = _state(place / "kept", plan, rng, watch, desk)
            else:
                data = WAYS[kind](plan, page, whole, rng)
                fault = _sent(desk, place / "sent", data, watch)
            tally.add(kind, f"case {number}: {fault}" if fault else "")
        tally.add("what was left", "" if set(os.listdir(place)) <= {"sent", "kept"} else str(os.listdir(place)))


def _sent(desk: Desk, file: Path, data: bytes, watch: Watch) -> str:
    file.write_bytes(data)
    try:
        with watch(file):
            json.dumps(opened(desk, file, "theirs.zip", home=True))
    except SonifyError as error:
        text = str(error_facts(error)["error"])
        good = 5 < len(text) < 3_000 and "Traceback" not in text and str(file.parent) not in text
        return "" if good and not watch.seen else f"told as {text[:200]!r} {watch.seen}"
    except Exception as error:  # whatever else comes is what is looked for
        return f"{type(error).__name__}: {error}"
    return str(watch.seen) if watch.seen else ""


def _state(place: Path, plan: dict[str, Any], rng: random.Random, watch: Watch, desk: Desk) -> str:
    """A spoilt file where plans are kept: the list, its opening and a keep over it."""
    os.environ["SONIFY_SHELF"] = str(place)
    try:
        shelf = Shelf(desk, lambda request: True, None)  # type: ignore[arg-type]
    finally:
        os.environ["SONIFY_SHELF"] = ""
    kept = Keeping(place)
    kept.forget()
    state = {key: value for key, value in plan.items() if key != "readings"}
    kept.keep(PLAN, ONE, "a", {**state, "scene": {"name": "two-cups"}})
    path = place / "plans" / f"{ONE}.json"
    text = path.read_text(encoding="utf-8")
    facts = _odd(json.loads(text), rng)
    path.write_bytes(_bytes_spoilt(text.encode(), rng) if rng.random() < 0.4 else json.dumps(facts).encode())
    kept.keep(PLAN, OTHER, "sound", {"scene": {"name": "two-cups"}})
    asked: tuple[dict[str, Any], ...] = (
        {"do": "list"},
        {"do": "open", "kind": PLAN, "id": ONE},
        {"do": "copy", "id": ONE, "class_id": ""},
        {"do": "keep", "kind": PLAN, "id": ONE, "name": "a", "state": _odd({"scene": {"name": "two-cups"}}, rng)},
        {"do": "delete", "kind": PLAN, "id": ONE},
        {"do": "list"},
    )
    for each in asked:
        try:
            with watch(place):
                found = shelf._done(each["do"], each)
                json.dumps(found)
            if "sound" not in [row["name"] for row in found["plans"]]:
                return f"{each['do']}: what is sound is not listed"
        except SonifyError as error:
            text = str(error_facts(error)["error"])
            if isinstance(error, CannotKeep) or not 5 < len(text) < 3_000:
                return f"{each['do']}: told as {text[:200]!r}"
        except Exception as error:  # as above
            return f"{each['do']}: {type(error).__name__}: {error}"
        if watch.seen:
            return f"{each['do']}: {watch.seen}"
    return ""


# --- ways to spoil ---------------------------------------------------------------------------------------------------

ODD: tuple[Any, ...] = (
    *(
        None,
        True,
        -1,
        2**31,
        10**400,
        1e308,
        "",
        "x",
        " ",
        "\ud800",
        "../../etc/passwd",
        "\0",
        "<script>alert(1)</script>",
    ),
    *(
        "{{ 7*7 }}",
        "__import__('os').system('id')",
        "=cmd()",
        "9" * 5_000,
        [],
        {},
        [[[[]]]],
        {"": {}},
        {"__proto__": 1},
    ),
    *("file:///etc/passwd", "data:;base64,!!!", "title = 1", "a\nb", "\u202e", float("inf")),
)


def _odd(facts: Any, rng: random.Random) -> Any:
    """The same data with one to three places of it odd."""
    facts = json.loads(json.dumps(facts))
    for _ in range(rng.randint(1, 3)):
        places = list(_places(facts))
        if not places:
            return deepcopy(rng.choice(ODD))
        where, key = rng.choice(places)
        if rng.random() < 0.15 and isinstance(where, dict):
            where[rng.choice(["", "name", "csv", "csv_key", "text", "x" * 300])] = deepcopy(rng.choice(ODD))
        else:
            where[key] = deepcopy(rng.choice(ODD))
    return facts


def _places(facts: Any) -> Iterator[tuple[Any, Any]]:
    rows = facts.items() if isinstance(facts, dict) else enumerate(facts) if isinstance(facts, list) else ()
    for key, value in list(rows):
        yield facts, key
        yield from _places(value)


def _bytes_spoilt(data: bytes, rng: random.Random) -> bytes:
    way = rng.randrange(4)
    if way == 0:
        return data[: rng.randrange(len(data) + 1)]
    if way == 1:
        spoilt = bytearray(data)
        for _ in range(rng.randint(1, 12)):
            spoilt[rng.randrange(len(spoilt))] = rng.randrange(256)
        return bytes(spoilt)
    if way == 2:
        at = rng.randrange(len(data))
        return data[:at] + data[rng.randrange(len(data)) :] + data[at:]
    return rng.randbytes(rng.randint(0, 3_000))


def _page(text: str) -> bytes:
    return f'<html><script type="application/json" id="plan-data">{text}</script></html>'.encode("utf-8", "replace")


def _zip(members: dict[str, bytes], how: int = zipfile.ZIP_DEFLATED) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", how) as archive:
        for name, data in members.items():
            archive.writestr(name, data)
    return made.getvalue()


Way = Callable[[dict[str, Any], bytes, bytes, random.Random], bytes]


def _odd_plan(plan: dict[str, Any], page: bytes, whole: bytes, rng: random.Random) -> bytes:
    odd = (
        json.dumps({"sonify": "plan", "form": 1, **_odd(plan, rng)})
        if rng.random() < 0.9
        else json.dumps(_odd(plan, rng))
    )
    return _page(odd.replace("<", "\\u003c") if rng.random() < 0.8 else odd)


def _odd_scene(plan: dict[str, Any], page: bytes, whole: bytes, rng: random.Random) -> bytes:
    """The scene's or the class's own text spoilt."""
    what = rng.choice(["scene", "class"])
    text = _bytes_spoilt(plan[what]["text"].encode(), rng).decode("utf-8", "replace")
    return _page(carried({**plan, what: {**plan[what], "text": text or "x"}}))


def _odd_table(plan: dict[str, Any], page: bytes, whole: bytes, rng: random.Random) -> bytes:
    spoilt = _bytes_spoilt(TABLE.encode(), rng)
    return _zip({"p/page.html": _page(carried({**plan, "readings": None})), "pond.csv": spoilt})


def _odd_names(plan: dict[str, Any], page: bytes, whole: bytes, rng: random.Random) -> bytes:
    names = [
        "../../page.html",
        "/page.html",
        "a\\page.html",
        "a/page.html",
        "page.html",
        "C:/page.html",
        "..",
        "a/",
        "x" * 60_000,
    ]
    names += ["../class.toml", "class.toml", "pond.toml", "..\\pond.toml", "\u202epage.html", "con.toml"]
    members = {
        rng.choice(names): rng.choice([page, b"", TABLE.encode(), whole[:5_000]]) for _ in range(rng.randint(1, 6))
    }
    return _zip(members, rng.choice([zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA]))


def _large(plan: dict[str, Any], page: bytes, whole: bytes, rng: random.Random) -> bytes:
    """A small ZIP that unpacks to much, or lists much."""
    if rng.random() < 0.5:
        return _zip({rng.choice(["p/page.html", "pond.toml", "class.toml"]): b"a" * 12_000_000})
    return whole[:-22] + b"PK\x05\x06" + bytes(4) + b"\xff\xff\xff\xff" + rng.randbytes(8) + b"\0\0"


STATE = "saved states"
WAYS: dict[str, Way] = {
    "pages, odd plans": _odd_plan,
    "pages, spoilt bytes": lambda plan, page, whole, rng: _bytes_spoilt(page, rng),
    "pages, spoilt scene or class": _odd_scene,
    "zips, spoilt bytes": lambda plan, page, whole, rng: _bytes_spoilt(whole, rng),
    "zips, spoilt page in them": lambda plan, page, whole, rng: _zip({"p/page.html": _bytes_spoilt(page, rng)}),
    "zips, odd names": _odd_names,
    "zips, spoilt tables": _odd_table,
    "zips, large": _large,
    STATE: lambda plan, page, whole, rng: b"",
}
