"""What a page sends with each request, read once: which scene, what is changed in it, which class."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Hashable, Mapping
from dataclasses import field
from http import HTTPStatus
from typing import Any, NoReturn

from sonify.frozen import dataclass
from sonify.records.fact import Words, wrong
from sonify.records.score import SCAFFOLDS
from sonify.records.sendable import PACKED
from sonify.web.errors import Refused

#: A scene or a class is a few kilobytes of text; a file over this is refused, as on the command line.
MOST_TEXT = 1_000_000
#: A page may send so many characters of readings: about a million rows. Larger files: `sonify measure`. The page is
#: told, and opens no file of more bytes: no text has more characters than bytes.
MOST_CSV = 20_000_000
#: A whole pack, with a recording of every part, is about so large.
MOST_FILE = 400_000_000
MOST_CHANGES = 100
LONGEST_NAME = 120
#: How a key ends of what is made with recordings: no digest ends so.
WITH_RECORDINGS = "r"
_WHOLE = re.compile(r"[+-]?[0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Inputs:
    """One request's inputs, checked for shape and size only.

    name: a ready-made scene, or text and file: the teacher's own, with csv (the readings) or csv_key (of readings
    that were sent before). class_text and class_values: None and {} for the well-stocked class.
    """

    name: str = ""
    text: str = ""
    file: str = ""
    csv: str | None = None
    csv_key: str = ""
    conditions: Mapping[str, str | int]
    rules: Mapping[str, object]
    drawn: Mapping[str, object]
    edits: Mapping[str, object] = field(default_factory=dict)
    sounds: Mapping[str, str] = field(default_factory=dict)  # recordings by the file names that the scene has for them
    class_text: str | None = None
    class_file: str = "class.toml"
    class_values: Mapping[str, Any]
    scaffold: str = "full"
    seed: int = 0

    @property
    def scene_key(self) -> str:
        """A name for the scene with its edits: the same inputs, the same key."""
        held = [
            self.name,
            self.text,
            self.file,
            self.csv_key,
            self.conditions,
            self.rules,
            self.drawn,
            dict(self.edits),
            dict(self.sounds),
        ]
        return self._named(held)

    @property
    def key(self) -> str:
        """A name for what follows from all of these inputs."""
        held = [self.scene_key, self.class_text, self.class_file, self.class_values, self.scaffold, self.seed]
        return self._named(held)

    @property
    def base_key(self) -> str:
        """A name for the scene without its edits."""
        return self._named([self.name, self.file, digest(self.text), self.csv_key, dict(self.sounds)])

    def _named(self, held: list[Any]) -> str:
        name = digest(json.dumps(held, sort_keys=True, ensure_ascii=False))
        return name[:-1] + WITH_RECORDINGS if self.sounds else name

    @property
    def scene_file(self) -> str:
        return f"{self.name}.toml" if self.name else self.file

    def as_sent(self) -> dict[str, Any]:
        """The same as plain data, as `read_inputs` takes it, but for the readings."""
        scene = {"name": self.name} if self.name else {"text": self.text, "file": self.file, "csv_key": self.csv_key}
        given: dict[str, Any] = {"text": self.class_text, "file": self.class_file, **self.class_values}
        return {
            "scene": scene,
            "set": dict(self.conditions),
            "rules": dict(self.rules),
            "drawn": dict(self.drawn),
            "edits": dict(self.edits),
            "sounds": dict(self.sounds),
            "class": {key: value for key, value in given.items() if value is not None},
            "scaffold": self.scaffold,
            "seed": self.seed,
        }


def readings_bytes(sent: str) -> bytes:
    """The bytes of a file of readings: a text as it is, a spreadsheet as a page sends it. Raises Refused."""
    if not sent.startswith(PACKED):
        return sent.encode("utf-8")
    try:
        return base64.b64decode(sent[len(PACKED) :], validate=True)
    except ValueError:
        refuse(wrong("error_web-cut-spreadsheet"), "csv")


def has_recordings(key: Hashable) -> bool:
    """Whether something that is kept under a key, alone or with more, is made with recordings.

    >>> [has_recordings(key) for key in ("0f", "0r", ("0r", True), ("0f", True))]
    [False, True, True, False]
    """
    names = key if isinstance(key, tuple) else (key,)
    return any(isinstance(each, str) and each.endswith(WITH_RECORDINGS) for each in names)


def digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:32]


def refuse(message: Words, where: str = "") -> NoReturn:
    """Refuse a request whose shape is not the page's own."""
    raise Refused(HTTPStatus.BAD_REQUEST, message, **({"where": where} if where else {}))


def text_at(given: Mapping[str, Any], key: str, most: int, default: str | None = None) -> str:
    """A text of at most so many characters."""
    value = given.get(key, default)
    if not isinstance(value, str):
        refuse(wrong("error_web-a-text", key=key), key)
    if len(value) > most:
        status = HTTPStatus.REQUEST_ENTITY_TOO_LARGE
        raise Refused(status, wrong("error_web-long-text", key=key, count=len(value), most=most), where=key)
    try:
        value.encode("utf-8")
    except UnicodeEncodeError:
        refuse(wrong("error_web-half-character", key=key), key)
    return value


def texts_at(given: Mapping[str, Any], key: str, most: int) -> list[str]:
    """A list of at most so many short texts; none where there is no such key."""
    value = given.get(key, [])
    if not isinstance(value, list) or len(value) > most or not all(isinstance(each, str) for each in value):
        refuse(wrong("error_web-a-table", key=key), key)
    return [each[:1000] for each in value]


def table_at(given: Mapping[str, Any], key: str) -> dict[str, Any]:
    value = given.get(key)
    if value is None:
        return {}
    if not isinstance(value, dict):
        refuse(wrong("error_web-a-table", key=key), key)
    if len(value) > MOST_CHANGES and key != "edits":  # of those, `inputs.scene_edits` says how many, and what to do
        refuse(wrong("error_web-many-lines", key=key, count=len(value), most=MOST_CHANGES), key)
    return value


def _half_none(given: Mapping[str, Any]) -> None:
    """Refuse half a character in what is changed, wherever it stands: it can be written into no file."""
    for key in ("set", "rules", "drawn", "edits", "sounds", "class"):
        value = table_at(given, key)
        try:
            json.dumps({name: each for name, each in value.items() if name != "text"}, ensure_ascii=False).encode()
        except UnicodeEncodeError:
            refuse(wrong("error_web-half-character", key=key), key)


def file_name(given: Mapping[str, Any], default: str) -> str:
    """The name of a file as a label: no folder, one line."""
    name = text_at(given, "file", 1000, default).replace("\\", "/").rpartition("/")[2]
    legal = (letter if letter.isprintable() and letter not in '<>:"|?*' else " " for letter in name)
    name = " ".join("".join(legal).split())
    return name[-LONGEST_NAME:] or default


def conditions_in(given: Mapping[str, Any]) -> dict[str, str | int]:
    found: dict[str, str | int] = {}
    for name, value in table_at(given, "set").items():
        if isinstance(value, bool) or not isinstance(value, str | int):
            refuse(wrong("error_web-text-with-unit", name=name[:60]), name[:60])
        text = str(value).strip() if isinstance(value, str) or abs(value) < 10**9 else ""
        if not text or len(text) > 80:
            refuse(wrong("error_web-number-with-unit", name=name[:60]), name[:60])
        found[name[:200]] = int(text) if _WHOLE.fullmatch(text) else text
    return found


def sounds_in(given: Mapping[str, Any]) -> dict[str, str]:
    """Recordings by file names: their keys, whatever may stand under them."""
    found = table_at(given, "sounds")
    if not all(isinstance(key, str) and len(key) <= 32 and len(file) <= LONGEST_NAME for file, key in found.items()):
        refuse(wrong("error_web-a-table", key="sounds"), "sounds")
    return found


def read_inputs(given: Any) -> Inputs:
    """The inputs in a request's data: work for a thread, for they may hold large readings.

    Raises Refused where they have another shape, or are too large.
    """
    if not isinstance(given, dict):
        refuse(wrong("error_web-wanted-scene"))
    scene = table_at(given, "scene")
    own = "text" in scene
    if own == bool(scene.get("name")):
        refuse(wrong("error_web-name-or-text"), "scene")
    scaffold = text_at(given, "scaffold", 20, "full")
    if scaffold not in SCAFFOLDS:
        refuse(wrong("error_web-scaffold", allowed=", ".join(SCAFFOLDS)), "scaffold")
    seed = given.get("seed", 0)
    if isinstance(seed, bool) or not isinstance(seed, int) or not 0 <= seed < 2**31:
        refuse(wrong("error_web-seed"), "seed")
    _half_none(given)
    classroom = table_at(given, "class")
    csv = text_at(scene, "csv", MOST_CSV) if scene.get("csv") is not None else None
    return Inputs(
        name="" if own else text_at(scene, "name", 100),
        text=text_at(scene, "text", MOST_TEXT) if own else "",
        file=file_name(scene, "scene.toml") if own else "",
        csv=csv,
        csv_key=digest(csv) if csv is not None else text_at(scene, "csv_key", 32, "") if own else "",
        conditions=conditions_in(given),
        rules=table_at(given, "rules"),
        drawn=table_at(given, "drawn"),
        edits=table_at(given, "edits"),
        sounds=sounds_in(given),
        class_text=text_at(classroom, "text", MOST_TEXT) if classroom.get("text") is not None else None,
        class_file=file_name(classroom, "class.toml"),
        class_values={key: value for key, value in classroom.items() if key not in ("text", "file")},
        scaffold=scaffold,
        seed=seed,
    )
