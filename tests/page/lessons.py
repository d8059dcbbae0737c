"""Lessons that page tests share, and the page made of one."""

from __future__ import annotations

from dataclasses import replace

from sonify.page import page_html
from sonify.records.clock import Tempo
from sonify.records.lesson import Lesson
from sonify.records.palette import GroupStyle, read_palette
from sonify.records.score import Reason
from tests.catalogue import ROOT
from tests.page.blips import blips
from tests.sample import sample_lesson

HOSTILE = "</script><script>document.documentElement.dataset.broken='yes';alert(1)</script><img src=x onerror=alert(2)>"


def palette() -> tuple[GroupStyle, ...]:
    return read_palette((ROOT / "shared" / "palette.toml").read_text(encoding="utf-8"))


def usual_film() -> str:
    """The particle box that ships."""
    return (ROOT / "shared" / "particle-box.json").read_text(encoding="utf-8")


def page_of(lesson: Lesson, film: str = "") -> str:
    return page_html(lesson, blips(lesson.score), palette(), film)


def quick_lesson() -> Lesson:
    """The sample at 132, 150 and 120 beats a minute, so that tests that wait for beats wait less."""
    lesson = sample_lesson()
    tempi = (Tempo(bar=1, bpm=132), Tempo(bar=5, bpm=150), Tempo(bar=9, bpm=120))
    score = lesson.score
    bpms = {tempo.bar: tempo.bpm for tempo in tempi}
    cues = tuple(replace(cue, bpm=bpms[cue.bar]) if cue.action == "tempo" else cue for cue in score.cues)
    return replace(lesson, score=replace(score, tempi=tempi, cues=cues))


def gliding_lesson() -> Lesson:
    """The sample, told that the tempo of every stage glides bar by bar."""
    lesson = sample_lesson()
    time_map = lesson.controls.time_map
    stages = tuple(replace(stage, bar_bpms=(stage.bpm,) * stage.bars) for stage in time_map.stages)
    return replace(lesson, controls=replace(lesson.controls, time_map=replace(time_map, stages=stages)))


def hostile_lesson() -> Lesson:
    """A lesson whose every text tries to be markup."""
    lesson = sample_lesson()
    score, scene = lesson.score, lesson.scene
    return replace(
        lesson,
        scene=replace(scene, title=HOSTILE, story=HOSTILE, cautions=(HOSTILE,)),
        process=replace(lesson.process, honesty=(HOSTILE,)),
        score=replace(
            score,
            title=HOSTILE,
            parts=tuple(replace(p, name=HOSTILE + p.name, meaning=HOSTILE) if p.group else p for p in score.parts),
            sections=tuple(replace(s, title=HOSTILE, caption=HOSTILE) for s in score.sections),
            cues=tuple(replace(c, reason=Reason(words=HOSTILE), what=HOSTILE) for c in score.cues),
        ),
    )
