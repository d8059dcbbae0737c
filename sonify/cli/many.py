"""`sonify make` for several packs: what was asked for, one progress display, and what became of it."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from dataclasses import asdict, is_dataclass
from pathlib import Path
from typing import Any

from sonify.errors import SonifyError
from sonify.records.fact import Duration, fact, wrong
from sonify.say import say

#: So many packs that failed are named at the end; the ledger has them all.
MOST_NAMED = 20


class Stopped(SystemExit):
    """Ctrl-C, with what is to be said of it."""

    def __init__(self, told: str) -> None:
        super().__init__(130)
        self.told = told


def check_asked(scenes: Sequence[str], class_file: Path | None, classes: Path | None, *, every: bool) -> None:
    """Raises SonifyError where what was asked for is none or two things."""
    if class_file is not None and classes is not None:
        raise SonifyError(wrong("error_batch-class-or-classes"))
    if every and scenes:
        raise SonifyError(wrong("error_batch-all-or-names"))
    if not every and not scenes:
        raise SonifyError(wrong("error_batch-no-scene"))


def make_several(
    scenes: Sequence[str],
    class_file: Path | None,
    classes: Path | None,
    out: Path | None,
    changes: Sequence[str],
    options: Mapping[str, Any],
    *,
    replace: bool,
    scheduler: str | None = None,
) -> None:
    """Every scene (none: every ready-made one) for every class, below `out`. Raises SonifyError where any failed.

    scheduler: the address of a dask scheduler, whose workers make them.
    """
    from sonify import lesson
    from sonify.batch import Asked, Row, State, make_many
    from sonify.batch.pairs import class_files
    from sonify.cli.views import progress_bar

    if out is None:
        raise SonifyError(wrong("error_batch-out-missing"))
    asked = Asked(
        scenes=tuple(scenes) or tuple(lesson.scene_names()),
        classes=class_files(classes) if classes is not None else (class_file,),
        changes=tuple(changes),
        options=tuple((name, asdict(value) if is_dataclass(value) else value) for name, value in options.items()),  # type: ignore[arg-type]
        replace=replace,
    )
    finished, said = 0, set[str]()
    with progress_bar() as progress:

        def tell(state: State) -> None:
            nonlocal finished
            finished = state.done
            left = {"left": "none", "time": ""}
            if state.left_s is not None:
                left = {
                    "left": "some",
                    "time": say(fact("value-alone", value=Duration(seconds=max(60.0, state.left_s)))),
                }
            told = fact("batch-progress", done=state.done, total=state.total, failed=state.failed, **left)
            progress(say(told), state.share)

        def warn(row: Row) -> None:
            if row.why not in said:  # a class file that is wrong fails with every scene
                said.add(row.why)
                told = say(fact("batch-failed-at-once", pack=row.folder, why=row.why))
                print(told, file=sys.stderr, flush=True)

        def left_out(why: str) -> None:
            print(why, file=sys.stderr, flush=True)

        try:
            found = make_many(asked, out, scheduler=scheduler, tell=tell, warn=warn, left_out=left_out)
        except KeyboardInterrupt:
            raise Stopped(say(fact("batch-stopped", made=finished))) from None
    print(say(fact("batch-made", made=len(found.made), standing=len(found.standing))))
    print(say(fact("batch-index", index=str(found.index))))
    if found.failed:
        named = [f"  {row.folder}" for row in found.failed[:MOST_NAMED]]
        raise SonifyError(wrong("error_batch-some-failed", failed=len(found.failed), list="\n".join(named)))
    if found.left:
        raise SonifyError(wrong("error_batch-disk-full", left=len(found.left)))
