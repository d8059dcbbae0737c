"""A server for a while: browsers that plan, listen, send and go away, beside those who send what no page would.

Nothing may be answered with a fault of the program's own, and memory and open files may not grow for ever: they are
read from the system (Linux, `/proc`), for the server with every process it has begun.
"""

from __future__ import annotations

import json
import os
import random
import socket
import subprocess
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx
import numpy as np

from sonify.storage import shelf
from sonify.web.recordings import as_wav
from tests.campaign.tally import Tally
from tests.web.running import PAGE, Running, server

OCTETS = {**PAGE, "Content-Type": "application/octet-stream"}
SOUND = as_wav((9_000 * np.sin(np.arange(11_025) * 0.06)).astype("<i2").tobytes())
#: A person looks at the page between two requests, seconds.
LOOKS_S = (0.05, 1.5)
SAMPLE_S = 2.0
#: While what is kept fills (plans, pages, fonts), memory grows: slopes are those of the last part alone.
SETTLED = 0.5
#: Of memory the least of each minute counts: a sample meets work at hand as well, and a piece that is being rendered
#: takes 125 MB for a second, so that a line through all samples of ten minutes is known to 3 MB a minute, no better.
#: What stays held is in every sample, and so in the least.
MINUTE_S = 60.0
#: A shorter soak shows slopes, and judges none: what is kept still fills.
JUDGED_MINUTES = 10.0
#: What the settled part may grow by: less than a megabyte in a minute, and no open file in two (our own limits).
MOST_KB_A_MINUTE, MOST_FILES_A_MINUTE = 1024.0, 0.5


@dataclass
class Counts:
    """What was asked and answered: by what was done and the status; faults in words."""

    answers: Counter[tuple[str, int]] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def add(self, what: str, status: int, told: str = "") -> None:
        with self.lock:
            self.answers[what, status] += 1
            if status >= 500 or status == 0:
                self.faults.append(f"{what}: {status} {told[:200]}")


class Visitor:
    """A browser, or somebody who is none: what it does next is drawn."""

    def __init__(self, running: Running, counts: Counts, seed: str) -> None:
        self.running, self.counts, self.draw = running, counts, random.Random(seed)
        self.client = httpx.Client(base_url=running.address, headers=PAGE, timeout=180)
        self.inputs: dict[str, Any] = {"scene": {"name": self.draw.choice(SCENES)}}
        self.plan: dict[str, Any] | None = None
        self.does: list[tuple[float, Callable[[], None]]] = [
            *((1.0, self.front), (10.0, self.change), (1.5, self.another), (1.0, self.words), (0.5, self.mend)),
            *((0.7, self.compare), (0.7, self.axis), (1.0, self.listen), (0.3, self.pack), (1.0, self.keep)),
            *((0.7, self.send), (2.0, self.odd), (0.5, self.goes_away), (0.3, self.file)),
        ]

    def step(self) -> None:
        what = self.draw.choices([do for _, do in self.does], [weight for weight, _ in self.does])[0]
        try:
            what()
        except httpx.HTTPError as error:
            self.counts.add(what.__name__, 0, repr(error))

    def ask(self, what: str, method: str, path: str, **how: Any) -> httpx.Response:
        answer = self.client.request(method, path, **how)
        self.counts.add(what, answer.status_code, answer.text if answer.status_code >= 500 else "")
        return answer

    # --- what a page does ------------------------------------------------------------------------------------------

    def front(self) -> None:
        self.ask("front", "GET", "/")
        self.ask("start", "GET", "/api/start")

    def another(self) -> None:
        self.inputs, self.plan = {"scene": {"name": self.draw.choice(SCENES)}}, None
        self.asked_plan()

    def asked_plan(self) -> None:
        for _ in range(20):
            answer = self.ask("plan", "POST", "/api/plan", json=self.inputs)
            if answer.status_code != 202:
                break
            time.sleep(0.6)
        self.plan = answer.json() if answer.status_code == 200 else None

    def change(self) -> None:
        """One thing set otherwise, as a slider, a list or a box does it."""
        if self.plan is None or len(self.inputs.get("edits", {})) > 20:
            self.another()
            return
        draw, plan = self.draw, self.plan
        rooms = ({"groups": draw.randint(3, 9)}, {"pupils": draw.randint(12, 36)})
        which = draw.randrange(6)
        if which == 0 and plan["conditions"]:
            row = draw.choice(plan["conditions"])
            if not row.get("choices"):
                value = row["low"] + draw.random() * (row["high"] - row["low"])
                self.inputs = {**self.inputs, "set": {row["name"]: f"{value:.6g} {row['unit']}"}}
        elif which == 1 and plan["rules"]:
            rule = draw.choice(plan["rules"])
            self.inputs = {**self.inputs, "rules": {rule["index"]: {"to": rule["to"][::-1]}}}
        elif which == 2:
            known = {key: plan["class"][key] for key in ("year", "pupils", "groups", "minutes", "cupboard")}
            self.inputs = {**self.inputs, "class": {**known, **draw.choice(rooms)}}
        else:
            part = draw.choice(plan["parts"])["id"]
            new = draw.choice(
                [
                    {f"part.{part}.groups": [draw.randint(1, 6)]},
                    {f"part.{part}.texture": draw.choice(plan["choices"]["textures"])},
                    {f"part.{part}.silent": True},
                    {"title": f"Ours, number {draw.randrange(1000)}"},
                    {f"pattern.{plan['parts'][0]['name']}": {"boxes": [" ".join(["x."] * plan["beats_a_bar"])]}},
                ]
            )
            self.inputs = {**self.inputs, "edits": {**self.inputs.get("edits", {}), **new}}
        self.asked_plan()
        if self.plan is None:
            self.inputs = {"scene": self.inputs["scene"]}

    def words(self) -> None:
        written = {"text": "The sea is warm. " * self.draw.randint(1, 9), "claims": []}
        self.ask("words", "POST", "/api/words", json={**self.inputs, "words": written})

    def mend(self) -> None:
        self.ask("mend", "POST", "/api/mend", json={**self.inputs, "part": "0"})

    def compare(self) -> None:
        self.ask("compare", "POST", "/api/compare", json={**self.inputs, "other": {"scene": self.inputs["scene"]}})

    def axis(self) -> None:
        self.ask("axis", "POST", "/api/axis", json={**self.inputs, "rule": "0"})

    def listen(self) -> None:
        answer = self.ask("lesson", "POST", "/api/lesson", json=self.inputs)
        if answer.status_code == 200:
            key = answer.json()["key"]
            self.ask("lesson page", "GET", f"/lesson/{key}")
            self.ask("sounds", "GET", f"/lesson/{key}/sounds")

    def pack(self) -> None:
        """A pack asked for, looked at, and given up."""
        answer = self.ask("pack", "POST", "/api/pack", json={"inputs": self.inputs, "options": {"stems": False}})
        if answer.status_code in (200, 202) and (job := answer.json().get("id") or answer.json().get("job")):
            time.sleep(self.draw.uniform(0, 2))
            self.ask("pack state", "GET", f"/api/pack/{job}")
            self.ask("pack cancelled", "POST", f"/api/pack/{job}/cancel", json={})

    def keep(self) -> None:
        name, number = f"Plan {self.draw.randrange(5)}", self.draw.randrange(5)
        given = {"do": "keep", "kind": "plan", "id": f"{number:016x}", "name": name, "inputs": self.inputs}
        for do in (given, {"do": "list"}, {"do": "delete", "kind": "plan", "id": f"{number:016x}"}):
            self.ask("shelf", "POST", "/api/shelf", json=do)

    def send(self) -> None:
        """A pattern and a sound for the teacher, and what she does with them."""
        self.ask("offer", "POST", "/api/offer", json={"part": "The rain", "boxes": ["x. xx x. x."], "name": "ours"})
        for offer in self.ask("offers", "GET", "/api/offers").json().get("offers", [])[:2]:
            self.ask("offers", "POST", "/api/offers", json={"id": offer["id"]})
        self.ask("sound", "POST", "/api/sent-sound/file?part=x&name=a.wav", content=SOUND, headers=OCTETS)
        for sound in self.ask("sounds sent", "GET", "/api/sent-sounds").json().get("sounds", [])[:2]:
            given = {"id": sound["id"], "take": self.draw.random() < 0.5}
            key = self.ask("sounds sent", "POST", "/api/sent-sounds", json=given).json().get("key")
            if key:
                self.ask("recordings", "POST", "/api/recordings", json={"do": "delete", "key": key})

    def file(self) -> None:
        """A scene's text, and a table, as they are dropped on the page."""
        rows = "".join(f"{n},{20 + self.draw.random():.2f}\n" for n in range(30))
        self.ask("read", "POST", "/api/read", json={"file": "a.csv", "text": f"time (s),temperature (degC)\n{rows}"})
        self.ask("open", "POST", "/api/open?name=a.zip", content=self.draw.randbytes(2000), headers=OCTETS)

    # --- what no page does -----------------------------------------------------------------------------------------

    def odd(self) -> None:
        draw = self.draw
        path = draw.choice(
            ["/api/plan", "/api/words", "/api/lesson", "/api/shelf", "/api/offer", "/api/pack", "/api/mend"]
        )
        body = draw.choice(
            [b"", b"{", b"[]", b"null", b'{"scene": 7}', b'{"scene": {"name": "' + b"x" * 300 + b'"}}', b"[" * 5000]
        )
        wild = json.dumps({**self.inputs, "edits": {draw.choice(["part.0", "hear.9.to", "\u202e", ""]): [None, 1e300]}})
        headers = {**PAGE, "Content-Type": "application/json"}
        self.ask("odd", "POST", path, content=draw.choice([body, wild.encode()]), headers=headers)
        self.ask(
            "odd", "GET", draw.choice(["/lesson/../etc", "/api/none", "/static/%00", "/api/pack/zzz", "/lesson/0"])
        )
        self.ask("odd", "POST", path, json={}, headers={"X-Sonify": "", "Origin": "http://evil.example"})

    def goes_away(self) -> None:
        """A tab that is closed while its plan is made, and a head that never ends."""
        body = json.dumps({"scene": {"name": self.draw.choice(SCENES)}}).encode()
        head = f"POST /api/plan HTTP/1.1\r\nHost: 127.0.0.1:{self.running.port}\r\nX-Sonify: 1\r\n"
        whole = f"{head}Content-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n".encode() + body
        with socket.create_connection(("127.0.0.1", self.running.port), timeout=20) as line:
            line.sendall(self.draw.choice([whole, head.encode()[:40], whole[:-5]]))
            time.sleep(self.draw.uniform(0, 0.3))
        self.counts.add("gone", 200)


SCENES = sorted(shelf.scene_names())


# --- what the server holds --------------------------------------------------------------------------------------------


def family(pid: int) -> list[int]:
    """A process with all that it has begun."""
    found = [pid]
    for task in Path(f"/proc/{pid}/task").glob("*/children"):
        try:
            found += [each for child in task.read_text().split() for each in family(int(child))]
        except OSError:
            continue
    return found


def held_by(pid: int) -> tuple[float, float, float]:
    """Memory of the server itself and of its whole family, kB, and the files that it has open itself."""
    memory = []
    for each in family(pid):
        try:
            rows = dict(row.split(":", 1) for row in Path(f"/proc/{each}/status").read_text().splitlines())
            memory.append(float(rows.get("VmRSS", "0 kB").split()[0]))
        except OSError:
            continue
    return memory[0], sum(memory), float(len(os.listdir(f"/proc/{pid}/fd")))


@dataclass
class Watched:
    at_s: list[float] = field(default_factory=list)
    held: list[tuple[float, float, float]] = field(default_factory=list)

    def slopes(self) -> tuple[float, float, float]:
        """Of the settled part, a minute: of the least memory in each, and of all samples of open files."""
        at, held = np.array(self.at_s), np.array(self.held)
        late = at >= at[-1] * SETTLED
        at, held = at[late], held[late]
        minute = ((at[-1] - at) // MINUTE_S).astype(int)  # whole ones from the end back
        least = [np.argmin(np.where(minute == each, held[:, 0], np.inf)) for each in np.unique(minute)]
        own, whole = (float(np.polyfit(at[least] / MINUTE_S, held[least, column], 1)[0]) for column in (0, 1))
        return own, whole, float(np.polyfit(at / MINUTE_S, held[:, 2], 1)[0])

    def report(self) -> list[str]:
        names = ("the server's memory, MB", "with its processes, MB", "open files")
        sizes = (1024.0, 1024.0, 1.0)
        rows = []
        places = (0, len(self.held) // 2, len(self.held) - 1)
        late = np.array(self.at_s) >= self.at_s[-1] * SETTLED
        for name, size, column, slope in zip(names, sizes, zip(*self.held, strict=True), self.slopes(), strict=True):
            start, middle, end = (column[place] / size for place in places)
            through_all = float(np.polyfit(np.array(self.at_s)[late] / MINUTE_S, np.array(column)[late], 1)[0]) / size
            told = f"{slope / size:+.2f} a minute at last (through all samples {through_all:+.2f})"
            rows.append(f"{name}: {start:.0f} / {middle:.0f} / {end:.0f}; {told}")
            for what, of in (("mean", np.mean), ("least", np.min)):
                figures = " ".join(f"{each / size:.0f}" for each in self._by_minute(column, of))
                rows.append(f"  {what} of each minute: {figures}")
        return rows

    def _by_minute(self, column: tuple[float, ...], of: Callable[[list[float]], Any]) -> list[float]:
        minutes = [int(at_s // MINUTE_S) for at_s in self.at_s]
        return [
            float(of([each for each, its in zip(column, minutes, strict=True) if its == minute]))
            for minute in sorted(set(minutes))
        ]


def soak(tally: Tally, minutes: float, browsers: int, seed: int) -> None:
    """So many browsers for so long."""
    counts, watched = Counts(), Watched()
    with tempfile.TemporaryDirectory() as folder:
        try:
            with server(Path(folder) / "scratch") as running:
                _watch(running, watched, counts, minutes, browsers, seed)
                tally.wrong("soak", "the server ended" if running.process.poll() is not None else "")
                print("\n".join(watched.report()), flush=True)
        except subprocess.TimeoutExpired as error:
            running.process.kill()
            tally.wrong("soak", f"the server did not stop within {error.timeout:.0f} s")
    _told(tally, counts, "soak")
    if minutes < JUDGED_MINUTES:
        return
    own_kb, _, files = watched.slopes()
    tally.wrong("soak", f"memory grows by {own_kb:.0f} kB a minute" if own_kb > MOST_KB_A_MINUTE else "")
    tally.wrong("soak", f"{files:.1f} more open files a minute" if files > MOST_FILES_A_MINUTE else "")


def _watch(running: Running, watched: Watched, counts: Counts, minutes: float, browsers: int, seed: int) -> None:
    """Visits from so many threads, and what the server holds meanwhile, told once a minute."""
    over = threading.Event()

    def visits(number: int) -> None:
        visitor = Visitor(running, counts, f"{seed} {number}")
        while not over.is_set():
            visitor.step()
            over.wait(visitor.draw.uniform(*LOOKS_S))

    threads = [threading.Thread(target=visits, args=(number,), daemon=True) for number in range(browsers)]
    begun = told = time.monotonic()
    for thread in threads:
        thread.start()
    while (at_s := time.monotonic() - begun) < 60.0 * minutes and running.process.poll() is None:
        watched.at_s.append(at_s)
        watched.held.append(held_by(running.process.pid))
        if time.monotonic() - told > 60.0:
            told = time.monotonic()
            own, _, files = watched.held[-1]
            print(
                f"{at_s / 60.0:.0f} min: {own / 1024:.0f} MB, {files:.0f} files, {counts.answers.total()} answers",
                flush=True,
            )
        over.wait(SAMPLE_S)
    over.set()
    for thread in threads:
        thread.join(200)


def mixed(tally: Tally, count: int, seed: int) -> None:
    """So many requests of every kind, one after another by three browsers."""
    counts = Counts()
    with tempfile.TemporaryDirectory() as folder, server(Path(folder) / "scratch") as running:
        visitors = [Visitor(running, counts, f"{seed} {number}") for number in range(3)]
        before = held_by(running.process.pid)
        while counts.answers.total() < count and running.process.poll() is None:
            for visitor in visitors:
                visitor.step()
        print(f"memory, MB, and open files: before {before[0] / 1024:.0f}, {before[2]:.0f}", end="; ")
        after = held_by(running.process.pid)
        print(f"after {after[0] / 1024:.0f}, {after[2]:.0f}")
    _told(tally, counts, "mixed requests")


def _told(tally: Tally, counts: Counts, kind: str) -> None:
    by_status: Counter[int] = Counter()
    for (_, status), n in counts.answers.items():
        by_status[status] += n
    tally.cases[kind] = counts.answers.total()
    for fault in counts.faults:
        tally.wrong(kind, fault)
    print(f"answers by status: {dict(sorted(by_status.items()))}")
    by_what: Counter[str] = Counter()
    for (what, _), n in counts.answers.items():
        by_what[what] += n
    print("by what was asked: " + ", ".join(f"{what} {n}" for what, n in sorted(by_what.items())))
