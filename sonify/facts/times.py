"""What the sheets say of time: moments of the model, how long stages last, and how unevenly bars hold it."""

from __future__ import annotations

from sonify.facts.once import once_a_lesson
from sonify.facts.sheet import held, plain_title
from sonify.kinds.timelines import TIMELINES
from sonify.records.controls import StageBars
from sonify.records.fact import Claim, ClockTime, Duration, Fact, Reading, Words, fact
from sonify.records.lesson import Lesson
from sonify.records.timeline import Timeline


def moment(time_s: float, source: Reading | None, clock_start: float | None, given: str = "") -> Fact:
    """A model time as people say it: the time of day where the process has one, else how long after the start."""
    if clock_start is None:
        if time_s <= 0.0:
            return fact("sheet-start")
        return fact("sheet-after", after=Duration(seconds=time_s, source=source, given=given))
    minutes = round(clock_start * 60 + time_s / 60)
    days = minutes // (24 * 60)
    clock = ClockTime(hours=minutes % (24 * 60) / 60.0, source=source, hour_zero=clock_start, given=given)
    if days == 0:
        return fact("sheet-clock", clock=clock)
    return (
        fact("sheet-clock-next-day", clock=clock) if days == 1 else fact("sheet-clock-day", clock=clock, day=days + 1)
    )


def when(name: str, timeline: Timeline) -> Words:
    """From when to when a stage lasts; nothing where no time is told."""
    if not TIMELINES[timeline.kind].timed:
        return ()
    stage = next(stage for stage in timeline.stages if stage.name == name)
    first, last = (
        moment(time_s, Reading(how=how, of=name), timeline.clock_start)
        for time_s, how in ((stage.start_s, "begins"), (stage.end_s, "ends"))
    )
    return fact("sheet-when", start=first, end=last)


def squeezed(span: StageBars, timeline: Timeline) -> Words:
    """How much model time a stage's bars hold; nothing where no time is told."""
    if not TIMELINES[timeline.kind].timed:
        return ()
    lasts = Duration(seconds=span.end_s - span.start_s, source=Reading(how="lasts", of=span.stage))
    return fact("sheet-squeezed", lasts=lasts, bars=fact("count-bar", n=span.bars))


@once_a_lesson
def uneven(lesson: Lesson) -> Words:
    """That time is not uniform: the fastest and the slowest stage, in model time a bar."""
    pace = [(span, (span.end_s - span.start_s) / span.bars) for span in lesson.controls.time_map.stages]
    if len(pace) < 2 or not TIMELINES[lesson.timeline.kind].timed:
        return ()
    quick, slow = max(pace, key=lambda row: row[1]), min(pace, key=lambda row: row[1])
    if quick[1] <= slow[1] * 1.05:
        return ()

    def reading(span: StageBars) -> Reading:
        return Reading(how="lasts", of=span.stage, per=Reading(how="fixed", level=float(span.bars)))

    told = fact(
        "teacher-uneven",
        Claim(kind="more", left=reading(quick[0]), right=reading(slow[0])),
        quick=plain_title(quick[0].title),
        much=Duration(seconds=quick[1], source=reading(quick[0])),
        slow=plain_title(slow[0].title),
        little=Duration(seconds=slow[1], source=reading(slow[0])),
    )
    return held(told, lesson)
