"""What takes long, in a process of its own: a pack, a run of the particle box, a recording of the class to measure.

It can be stopped at any moment.

`python -m sonify.web.work SERVER` reads jobs as JSON from its input, a line each, and tells on its output how far it is
and when it has ended, a line of JSON each time. Where a process can be copied it stays for the next job, with all that
it has read, and each job is done in a copy of it; elsewhere it does one. It stops when the server is gone.
"""

from __future__ import annotations

import json
import os
import pickle
import select
import sys
import tempfile
import threading
import zipfile
from base64 import b64decode
from contextlib import suppress
from pathlib import Path
from typing import Any, cast

from sonify import lesson
from sonify.errors import SonifyError
from sonify.recording.second_core import goes_with, in_a_copy
from sonify.records.fact import fact, wrong
from sonify.say import say
from sonify.storage.kept import keeping
from sonify.storage.toolkit import stamp
from sonify.web import drafts
from sonify.web.desk import Desk, Study
from sonify.web.errors import OUR_FAULT, without_places
from sonify.web.inputs import Inputs, read_inputs, readings_bytes
from sonify.web.options import printing_of, wishes_of
from sonify.web.recordings import Recordings

PACK, ZIP, TOLD = "pack", "pack.zip", "told.json"
#: Recordings of more characters than this together are left out of page.html: the ZIP has them as files.
MOST_RECORDED = 3_000_000
#: What is small already is stored as it is.
STORED = {".pdf", ".flac", ".mp3", ".ogg", ".png"}
#: Packing the recording takes as long as all else after one changed word, and spares a tenth of it.
RECORDING = "soundscape.wav"
_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest date a ZIP file can carry: the same pack, the same bytes


def main() -> None:
    # Neither the jobs nor the recording could be given to copies of this process if it had a thread of its own.
    if goes_with(int(sys.argv[1])):
        _ready()
        rehearsed = False
        for line in sys.stdin:
            given = json.loads(line)
            status = in_a_copy(lambda given=given: _done(given))  # type: ignore[misc]
            _print({"ended": status})
            rehearsed = rehearsed or (status == 0 and _rehearsed(given))
        return
    line = sys.stdin.readline()
    threading.Thread(target=_stop_with_the_server, daemon=True).start()
    _done(json.loads(line))
    _print({"ended": 0})


def _ready() -> None:
    """What every job needs is there before the first."""
    lesson.make  # noqa: B018  # read where it is first asked for
    lesson.catalogue(), lesson.palette(), stamp()


def _rehearsed(given: dict[str, Any]) -> bool:
    """After a pack: its inputs are studied and its words and templates read once more, here, so that the next pack's
    copy begins with what that takes. False where there was nothing to rehearse, or the next job came before the end."""
    if given["task"] != "pack" or given["recordings"]:
        return False
    with suppress(SonifyError, OSError):  # the job itself has told of it
        for _ in lesson.rehearsal(Desk(Recordings()).study(read_inputs(given["inputs"])).lesson):
            if select.select([sys.stdin], [], [], 0.0)[0]:
                return False
        return True
    return False


def _done(given: dict[str, Any]) -> None:
    """One job, in its own folder: its scratch space lies there, too."""
    os.chdir(given["folder"])
    os.environ.update(dict.fromkeys(("TMPDIR", "TEMP", "TMP"), given["folder"]))
    tempfile.tempdir = None
    try:
        if given["task"] == "listen":
            measure(given)
            return
        study = studied(given)
        if given["task"] == "pack":
            # What holds a recording of a class is kept nowhere.
            with keeping(Path(given["kept"]) if given["kept"] and not given["recordings"] else None):
                make_pack(study, given, read_inputs(given["inputs"]))
        elif given["task"] == "film":
            lesson.particle_film(study.lesson)
        tell(say(fact("progress-done")), 1.0)
    except SonifyError as error:
        _print({"error": without_places(str(error))})
    except OSError as error:
        _print({"error": say(wrong("error_web-pack-unwritten", why=error.strerror or fact("error_web-silent-disk")))})
    except Exception:
        import traceback

        traceback.print_exc(file=sys.stderr)
        _print({"error": say(OUR_FAULT)})


def _stop_with_the_server() -> None:
    while sys.stdin.read(1):
        pass
    os._exit(1)


def tell(doing: str, share: float) -> None:
    _print({"doing": doing, "share": round(share, 3)})


def _print(facts: dict[str, Any]) -> None:
    print(json.dumps(facts), flush=True)


def measure(given: dict[str, Any]) -> None:
    """A recording of the class, which lies in this folder, as what the page shows of it."""
    from sonify.lesson.class_recording import told_of

    found = told_of(given["of"], Path(given["file"]), lambda doing, share: tell(doing, min(share, 0.99)))
    Path(TOLD).write_text(json.dumps(found, ensure_ascii=False), encoding="utf-8")
    tell(say(fact("progress-done")), 1.0)


def studied(given: dict[str, Any]) -> Study:
    """The lesson of a job's inputs: the server's own where it has it, else read as the server itself reads them."""
    tell(say(fact("progress-science")), 0.0)
    if given.get("study"):
        return cast(Study, pickle.loads(b64decode(given["study"])))
    recordings = Recordings()
    for wav in given.get("recordings", {}).values():
        recordings.add(b64decode(wav))
    return Desk(recordings).study(read_inputs(given["inputs"]))


def make_pack(study: Study, given: dict[str, Any], inputs: Inputs) -> None:
    """The pack in the folder `pack`, and as one ZIP with the files beside it that would make it again.

    given: the job: options, name, readings (the file of readings that the scene plays, by its name) and recordings (by
    their keys, none where they are not to leave). inputs: what the page sent.
    """
    options, name, readings = (given[key] for key in ("options", "name", "readings"))
    recordings = given.get("recordings", {})
    wishes, printing = wishes_of(options), printing_of(options)
    plan = plan_to_send(study, inputs, readings, needs=options["needs"])
    plan["sounds"] = {file: key for file, key in inputs.sounds.items() if key in recordings}
    plan["recordings"] = recordings if sum(map(len, recordings.values())) <= MOST_RECORDED else {}
    folder = lesson.write_pack(study.lesson, out=PACK, wishes=wishes, printing=printing, plan=plan, progress=tell)
    tell(say(fact("progress-zip")), 0.95)
    scene = study.lesson.scene
    beside = {
        f"{scene.name}.toml": study.draft.text,
        "class.toml": study.class_text if options["needs"] else drafts.without_needs(study.class_text),
    }
    data = {file: text.encode("utf-8") for file, text in beside.items()}
    data |= {file: readings_bytes(sent) for file, sent in readings.items()}
    data |= {file: b64decode(recordings[key]) for file, key in inputs.sounds.items() if key in recordings}
    try:
        with zipfile.ZipFile(ZIP, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as archive:
            for path in sorted(folder.rglob("*")):
                if path.is_file():
                    _put(archive, f"{name}/{path.relative_to(folder).as_posix()}", path.read_bytes())
            for file, held in data.items():
                _put(archive, file, held)
    except OSError:
        Path(ZIP).unlink(missing_ok=True)
        raise


def plan_to_send(study: Study, inputs: Inputs, readings: dict[str, str], *, needs: bool) -> dict[str, Any]:
    """The plan as it leaves in a file: the scene as it was before the changes, and the changes; no recordings."""
    before = study.draft.before
    return {
        **lesson.plan_of(study.lesson),
        "scene": {"name": before.name, "text": before.origin.text, "file": inputs.scene_file},
        "readings": next(iter(readings.values()), None),
        "set": dict(inputs.conditions),
        "rules": dict(inputs.rules),
        "drawn": dict(inputs.drawn),
        "edits": dict(inputs.edits),
        "class": {"text": lesson.class_to_send(study.lesson.classroom, needs=needs), "file": "class.toml"},
    }


def _put(archive: zipfile.ZipFile, name: str, data: bytes) -> None:
    info = zipfile.ZipInfo(name, _EPOCH)
    packed = Path(name).suffix in STORED or name.endswith(f"/{RECORDING}")
    info.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
    info.external_attr = 0o644 << 16
    archive.writestr(info, data)


if __name__ == "__main__":
    main()
