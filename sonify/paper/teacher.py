"""What stands on the teacher's sheets: plan, preparation, science, key, findings, answers, cautions and sources."""

from __future__ import annotations

from typing import Any

from sonify.paper.cards import NO_PICTURES, Pictures
from sonify.paper.care import cautions
from sonify.paper.facts import (
    badge,
    counted,
    groups,
    listed,
    moment_text,
    stage_rows,
    tempo_at,
)
from sonify.paper.handouts import handouts
from sonify.paper.minutes import minute_plan
from sonify.paper.plots import plots
from sonify.paper.pupils import vocabulary
from sonify.paper.rules import rules_for
from sonify.paper.settings import PaperSettings
from sonify.paper.strips import note_letters, span_text
from sonify.records.controls import Key, Threshold
from sonify.records.findings import Finding
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Score, Section
from sonify.records.words import clock_text, duration_text, number_text

#: Curricula are quoted in our own words; when they were looked at.
CURRICULUM_CHECKED = (
    "Checked against the 2013 programmes of study for England, which are under review; wording is ours."
)
ENRICHMENT = (
    "Particles: in England the particle model belongs to key stage 3 (ages 11 to 14). Where this lesson speaks of "
    "particles or molecules it goes beyond the key stage: offer it as enrichment, and assess the rest without it."
)
EMPLOYER = (
    "Your employer's risk assessment and the school's own rules come first, before anything printed here; in the "
    "UK use the primary-science safety advice your employer subscribes to."
)


def sheet(lesson: Lesson, settings: PaperSettings, pictures: Pictures = NO_PICTURES) -> dict[str, Any]:
    """Everything that teacher.typ places. pictures: those of the pupils' cards."""
    scene, score = lesson.scene, lesson.score
    handout = handouts(lesson, settings, pictures)
    plan = minute_plan(lesson.classroom.minutes, float(score.clock.seconds(score.end_beat)), handout.things)
    return {
        "title": score.title,
        "facts": _facts(lesson),
        "story": [" ".join(block.split()) for block in scene.story.split("\n\n") if block.strip()],
        "plan": [{"minutes": step.minutes, "title": step.title, "what": step.what} for step in plan.steps],
        "plan_total": lesson.classroom.minutes,
        "plan_warning": plan.warning,
        "plan_advice": list(plan.advice),
        "print": handout.guide,
        "needs": list(lesson.classroom.needs),
        "groups": _groups(lesson, settings),
        "shelf": _shelf(lesson),
        "swaps": [f"{s.part}: {s.given} for {s.wanted} ({s.reason})." for s in score.swaps],
        "science": _science(lesson),
        "plots": plots(lesson),
        "misconceptions": [
            {"belief": m.belief, "correction": m.correction, "ask": m.ask} for m in scene.misconceptions
        ],
        "keys": [_key(key, lesson) for key in lesson.controls.keys],
        "thresholds": [_threshold(row) for row in lesson.controls.thresholds],
        "naming": _naming(lesson),
        "beat_is": beat_statements(lesson),
        "problems": [_finding(f) for f in lesson.findings if f.serious],
        "notes": [_finding(f) for f in lesson.findings if not f.serious],
        "questions": [{"ask": q.ask, "answer": q.answer} for q in scene.questions],
        "answers": _answers(lesson),
        "cautions": cautions(scene.cautions),
        "employer": EMPLOYER,
        "curriculum": [*scene.curriculum, *_pointers_missing(scene.curriculum)],
        "sources": [{"text": s.text, "checked": s.checked} for s in lesson.sources],
    }


def _pointers_missing(said: tuple[str, ...]) -> list[str]:
    """What every sheet says about the curriculum, unless the scene says it itself."""
    standing = (("key stage 3", ENRICHMENT), ("2013", CURRICULUM_CHECKED))
    return [words for mark, words in standing if not any(mark in line for line in said)]


def _facts(lesson: Lesson) -> str:
    room, score = lesson.classroom, lesson.score
    length = clock_text(float(score.clock.seconds(score.end_beat)))
    return (
        f"Year {room.year}, {counted(room.pupils, 'pupil')} in {counted(len(groups(score)), 'group')}, "
        f"{counted(room.minutes, 'minute')}. The piece: {score.bars} bars of {score.metre.text}, {length} long with "
        f"its count-in, in {score.scale.name}. Scaffold: {lesson.scaffold}."
    )


# Who plays what, and what to bring.


def _groups(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    score = lesson.score
    return [
        {
            **badge(group, settings),
            "names": [part.name for part in parts],
            "players": max(part.players for part in parts),
            "seats": [line for part in parts for line in _seats(part, score, named=len(parts) > 1)],
            "loud": [
                score.instrument(i).name.lower()
                for i in dict.fromkeys(seat.instrument for part in parts for seat in part.seats)
                if score.instrument(i).loud >= 3
            ],
        }
        for group, parts in groups(score).items()
    ]


def _seats(part: Part, score: Score, *, named: bool) -> list[str]:
    """A line for each of the part's instruments; a group with two parts has them named."""
    return [
        (f"{part.name}: " if named else "")
        + f"{_instrument(seat.instrument, seat.count, score)}, {counted(seat.players, 'player')}"
        + (f" ({seat.job})" if seat.job else "")
        for seat in part.seats
    ]


def _instrument(instrument_id: str, count: int, score: Score) -> str:
    row = score.instrument(instrument_id)
    if row.bodily:
        return row.plural.lower()
    return f"{count} {row.name.lower() if count == 1 else row.plural.lower()}"


def _shelf(lesson: Lesson) -> list[dict[str, Any]]:
    """What to take from the cupboard: the most of each instrument that the groups need at once, of how many."""
    score = lesson.score
    needed: dict[str, int] = {}
    for parts in groups(score).values():
        in_group: dict[str, int] = {}
        for part in parts:
            for seat in part.seats:  # one group plays its parts in turn, with the same instruments
                in_group[seat.instrument] = max(in_group.get(seat.instrument, 0), seat.count)
        for name, count in in_group.items():
            needed[name] = needed.get(name, 0) + count
    rows = [(score.instrument(name), count) for name, count in needed.items()]
    return [
        {"what": _instrument(row.id, count, score), "have": lesson.classroom.count(row.id), "care": row.how}
        for row, count in sorted(rows, key=lambda pair: pair[0].name)
        if not row.bodily
    ]


# The science.


def _science(lesson: Lesson) -> dict[str, Any]:
    timeline = lesson.timeline
    mapped = {stage["name"]: stage for stage in stage_rows(lesson)}
    return {
        "summary": lesson.process.summary,
        "stages": [
            {
                "letter": mapped[stage.name]["letter"] if stage.name in mapped else "",
                "title": stage.title,
                "when": f"{moment_text(stage.start_s, timeline.clock_start)} to "
                f"{moment_text(stage.end_s, timeline.clock_start)}",
                "science": stage.science,
                "squeezed": mapped[stage.name]["squeezed"] if stage.name in mapped else "not played",
            }
            for stage in timeline.stages
        ],
        "events": [
            {"when": moment_text(e.time_s, timeline.clock_start), "text": e.text}
            for e in sorted(timeline.events, key=lambda e: e.time_s)
        ],
        "missing": [f"{m.stage} does not come: {m.reason} {m.fix}".strip() for m in timeline.missing],
        "conserved": [
            f"{c.name}: nothing lost or made up. Largest drift {number_text(c.relative_drift, 1)} of what moved."
            for c in timeline.conserved
        ],
        "honesty": [*lesson.process.honesty, *lesson.scene.teacher_notes],
        "uneven": _uneven(lesson),
    }


def _uneven(lesson: Lesson) -> str:
    """That time is not uniform: the fastest and the slowest stage, in model time a bar."""
    pace = [(stage, (stage.end_s - stage.start_s) / stage.bars) for stage in lesson.controls.time_map.stages]
    quick, slow = max(pace, key=lambda p: p[1]), min(pace, key=lambda p: p[1])
    if len(pace) < 2 or quick[1] <= slow[1] * 1.05:
        return ""
    return (
        f"Time does not run evenly in the music: {quick[0].title} puts {duration_text(quick[1])} into each bar, "
        f"{slow[0].title} {duration_text(slow[1])}."
    )


# The key.


def _key(key: Key, lesson: Lesson) -> dict[str, Any]:
    rule = key.rule
    quantity = lesson.timeline.quantity(rule.quantity)
    held = sum(curve.held for curve in lesson.controls.curves if curve.rule == rule)
    return {
        "title": f"{rule.quantity} is heard as {rule.control}",
        "who": f"in {rule.part}" if rule.part else "in the whole piece",
        "whose": quantity.whose,
        "arranged": _arranged(key, lesson),
        "sentence": key.sentence,
        "why": rule.why,
        "curve": rule.curve,
        "values": [list(pair) for pair in key.values],
        "stages": [list(row) for row in key.stages],
        "exaggeration": key.exaggeration_words,
        "factor": "" if key.exaggeration is None else number_text(key.exaggeration, 2),
        "verdict": key.verdict,
        "audible": key.audible,
        "held": f"On {counted(held, 'beat')} the quantity lay outside this range and the nearer end was held."
        if held
        else "",
    }


def _arranged(key: Key, lesson: Lesson) -> list[str]:
    """For a pitch rule, the notes it has as arranged, from the parts' own notes."""
    if key.rule.control != "pitch":
        return []
    parts = [part for part in lesson.score.group_parts if key in rules_for(part, lesson)]
    spans = {part.name: span_text(note_letters(part, lesson.score)) for part in parts}
    return [f"{name}, {span} on its bars." for name, span in spans.items() if span]


def _naming(lesson: Lesson) -> str:
    """How the sheets name notes, where anybody plays some."""
    if not any(lesson.score.instrument(part.instrument).pitched for part in lesson.score.group_parts):
        return ""
    return (
        "Pupils' sheets name a note by the letter on its bar, with a mark for the higher of two: C, then C′. The "
        "tables here give its octave: C4 is middle C; each instrument plays it in the octave that it has."
    )


def _threshold(row: Threshold) -> dict[str, str]:
    return {
        "what": f"{row.control} ({row.measure.split(';')[0]})",
        "asked": f"{number_text(row.asked)} {row.unit}",
        "published": row.published,
        "source": f"{row.source} ({row.status})",
    }


def beat_statements(lesson: Lesson) -> list[str]:
    """Whose quantity the beat follows, and, where it happens, that it is slow while most is going on."""
    key = next((k for k in lesson.controls.keys if k.rule.control == "tempo" and k.rule.part is None), None)
    if key is None:
        return ["The beat is the same throughout: no rule of this scene changes it."]
    quantity = lesson.timeline.quantity(key.rule.quantity)
    whose = f" of {quantity.whose}" if quantity.whose and quantity.whose not in quantity.name else ""
    found = [f"The beat follows the {quantity.name}{whose}, and nothing else."]
    return found + _busiest(lesson.score)


def _busiest(score: Score) -> list[str]:
    """Where the stage with the most sounds is not the quickest: its figures beside those of the quickest."""
    rows = [(s.title, tempo_at(score, s.bar), _strokes_a_bar(score, s)) for s in score.sections]
    busy, quick = max(rows, key=lambda row: row[2]), max(rows, key=lambda row: row[1])
    if busy[1] >= quick[1] or busy[2] <= quick[2]:
        return []
    return [
        f"{busy[0]} is the busiest stage, with {number_text(busy[2], 2)} sounds a bar at {number_text(busy[1])} bpm; "
        f"{quick[0]} is the quickest, at {number_text(quick[1])} bpm with {number_text(quick[2], 2)}. "
        "A slow beat does not mean that little is happening."
    ]


def _strokes_a_bar(score: Score, section: Section) -> float:
    first = (section.bar - 1) * score.metre.beats
    end = first + section.bars * score.metre.beats
    strokes = sum(1 for part in score.group_parts for note in part.notes if first <= note.beat < end)
    return strokes / section.bars


def _finding(finding: Finding) -> dict[str, str]:
    where = ", ".join(word for word in (finding.part, finding.where) if word)
    return {"where": where, "message": finding.message, "fix": finding.fix}


def _answers(lesson: Lesson) -> dict[str, Any]:
    order = [section.title for section in lesson.score.sections]
    closing = f", and back to {order[0]}" if lesson.process.cycle and len(order) > 1 else ""
    return {
        "flow": f"{listed(order)}{closing}." if order else "",
        "words": [row["word"] for row in vocabulary(lesson)["rows"]],
    }
