"""Many packs at once: every scene asked for with every class, on all cores, to be gone on with after any interruption.

`pairs` reads what is asked for, `ledger` remembers what became of it, `running` hands pairs to worker processes
(`work`), `sending` to other machines (`far`), `shelf` writes the page that leads to all packs. `make_many` is the
whole.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from sonify.batch.ledger import Ledger, Row
from sonify.batch.pairs import Asked, Pair, pairs_of
from sonify.batch.process import WORKER
from sonify.batch.room import workers_for
from sonify.batch.running import State, Tell, run
from sonify.batch.sending import Cluster, check_same, send
from sonify.batch.shelf import check_index, write_index
from sonify.frozen import dataclass
from sonify.storage.toolkit import stamp

__all__ = ["Asked", "Ledger", "Made", "Row", "State", "make_many"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What became of a run. standing: were there already. left: were not begun, for lack of room on the disk."""

    index: Path
    made: tuple[str, ...]
    standing: tuple[str, ...]
    failed: tuple[Row, ...]
    left: tuple[str, ...]


def make_many(
    asked: Asked,
    out: Path,
    *,
    scheduler: str | None = None,
    tell: Tell = lambda state: None,
    warn: Callable[[Row], None] = lambda row: None,
    left_out: Callable[[str], None] = lambda why: None,
) -> Made:
    """Every pack asked for, at `out`/SCENE/CLASS. What a run before this one made stays, while its manifest is so.

    scheduler: the address of a dask scheduler whose workers make them; None: this machine does. warn: told at once of
    every pair that fails. left_out: and of every worker that would make other bytes, which is given none.

    Raises SonifyError where nothing can be begun: a scene that cannot be read, a folder that is no place for packs, a
    scheduler that does not answer or whose workers would all make other bytes.
    """
    pairs = pairs_of(asked)
    if scheduler is None:
        return make_pairs(pairs, out, replace=asked.replace, tell=tell, warn=warn)
    from sonify.batch.dask_cluster import reached

    with reached(scheduler) as cluster:
        check_same(cluster)
        return make_pairs(pairs, out, replace=asked.replace, tell=tell, warn=warn, left_out=left_out, cluster=cluster)


def make_pairs(
    pairs: Sequence[Pair],
    out: Path,
    *,
    replace: bool = False,
    tell: Tell = lambda state: None,
    warn: Callable[[Row], None] = lambda row: None,
    left_out: Callable[[str], None] = lambda why: None,
    command: Sequence[str] = WORKER,
    cluster: Cluster | None = None,
) -> Made:
    """The packs of these pairs. command: starts a worker process. cluster: makes them in place of this machine."""
    with Ledger(out, stamp()) as ledger:
        check_index(out, ledger, replace=replace)
        for pair in pairs:
            ledger.expect(pair)
        standing = {pair.folder for pair in pairs if ledger.stands(pair)}
        wanted = []
        for pair in pairs:
            if pair.why:
                ledger.failed(pair, pair.why)
                warn(ledger.row(pair))
            elif pair.folder not in standing:
                wanted.append(pair)
        if cluster is None:
            run(wanted, ledger, tell=tell, warn=warn, jobs=workers_for(len(wanted)), command=command)
        else:
            send(wanted, ledger, cluster, tell=tell, warn=warn, left_out=left_out)
        rows = [ledger.row(pair) for pair in pairs]
        index = write_index(out, ledger)
    return Made(
        index=index,
        made=tuple(row.folder for row in rows if row.state == "made" and row.folder not in standing),
        standing=tuple(sorted(standing)),
        failed=tuple(row for row in rows if row.state == "failed"),
        left=tuple(row.folder for row in rows if row.state in ("wanted", "begun")),
    )
