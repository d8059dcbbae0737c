"""What stands on the teacher's sheets: plan, preparation, science, key, findings, answers, cautions and sources."""

from __future__ import annotations

import re
from typing import Any

from sonify.facts.listening import ListeningItem, listening_items
from sonify.kinds.marks import DYNAMICS
from sonify.paper.adapt import FIRST, adaptations
from sonify.paper.aims import HOW_TO, LEVELS, grid
from sonify.paper.cards import NO_PICTURES, Pictures
from sonify.paper.care import cautions, deals_with_heat
from sonify.paper.facts import (
    bar_time,
    bars_text,
    counted,
    groups,
    listed,
    mean_bpm,
    moment_text,
    stage_figure,
    stage_mean,
    stage_rows,
)
from sonify.paper.handouts import handouts
from sonify.paper.minutes import minute_plan
from sonify.paper.plots import plots
from sonify.paper.pupils import vocabulary
from sonify.paper.room import fetched, group_rows, left_over, seating, shelf
from sonify.paper.rules import KNOWN_UNITS, played_marks, rules_for
from sonify.paper.settings import PaperSettings
from sonify.paper.strips import note_letters, span_text
from sonify.records.controls import Key, Threshold
from sonify.records.fact import Words
from sonify.records.findings import Finding
from sonify.records.lesson import Lesson
from sonify.records.score import Score, Section
from sonify.records.words import clock_text, duration_text, number_text
from sonify.say import say
from sonify.units import convert

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

_YEARS = re.compile(r"Years? (\d)(?: (?:to|and) (\d))?")
#: Lines that tell no scene's own science: how to work, and how sounds come about.
_EVERY_YEAR = re.compile(r"(?i)working scientifically|, sound:")


def sheet(lesson: Lesson, settings: PaperSettings, pictures: Pictures = NO_PICTURES) -> dict[str, Any]:
    """Everything that teacher.typ places. pictures: those of the pupils' cards."""
    scene, score = lesson.scene, lesson.score
    handout = handouts(lesson, settings, pictures)
    rows = group_rows(lesson, settings)
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
        "groups": [row | {"pages": handout.cards[row["group"]]} for row in rows],
        "seating": seating(rows),
        "shelf": shelf(lesson),
        "left_over": left_over(lesson),
        "swaps": [f"{s.part}: {s.given} for {s.wanted} ({say(s.reason)})." for s in score.swaps],
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
        "adapt": adaptations(lesson),
        "adapt_first": FIRST,
        "levels": list(LEVELS),
        "grid": grid(lesson),
        "grid_how": HOW_TO,
        "cautions": cautions(scene.cautions, heat=deals_with_heat(scene), instruments=fetched(score)),
        "employer": EMPLOYER,
        "year": year_note(lesson),
        "credits": _credits(lesson),
        "curriculum": [*scene.curriculum, *_pointers_missing(scene.curriculum)],
        "sources": [{"text": s.text, "checked": s.checked} for s in lesson.sources],
    }


def _pointers_missing(said: tuple[str, ...]) -> list[str]:
    """What every sheet says about the curriculum, unless the scene says it itself."""
    standing = (("key stage 3", ENRICHMENT), ("2013", CURRICULUM_CHECKED))
    return [words for mark, words in standing if not any(mark in line for line in said)]


def year_note(lesson: Lesson) -> str:
    """That the science which the scene teaches belongs to another school year than this class's; "" where it fits."""
    science = [line for line in lesson.scene.curriculum if "science" in line.lower()]
    content = [line for line in science if not _EVERY_YEAR.search(line)] or science
    years = {
        year
        for line in content
        for first, last in _YEARS.findall(line)
        for year in range(int(first), int(last or first) + 1)
    }
    mine = lesson.classroom.year
    if not years or mine in years:
        return ""
    found = f"This class is Year {mine}; the science here stands in the programme of study for "
    found += listed([f"Year {year}" for year in sorted(years)])
    if mine > max(years):
        return f"{found}: come back to it, and ask for reasons and evidence more than for the words."
    if mine < min(years):
        return f"{found}: tell the story and play it, and leave the assessment of the science for later."
    return f"{found}: assess what your class has had, and take the rest as a story."


def _credits(lesson: Lesson) -> list[str]:
    """Who made what; the published sources stand below it."""
    return [
        f"Scene: “{lesson.scene.title}” ({lesson.scene.origin.file}). Score, sounds, drawings and sheets are made by "
        "sonify from its formulae; no recording is used.",
        "Letters: Andika, © SIL International, under the SIL Open Font License 1.1.",
    ]


def _facts(lesson: Lesson) -> str:
    room, score = lesson.classroom, lesson.score
    length = clock_text(float(score.clock.seconds(score.end_beat)))
    return (
        f"Year {room.year}, {counted(room.pupils, 'pupil')} in {counted(len(groups(score)), 'group')}, "
        f"{counted(room.minutes, 'minute')}. The piece: {score.bars} bars of {score.metre.text}, {length} long with "
        f"its count-in, in {score.scale.name}. Scaffold: {lesson.scaffold}."
    )


# The science.


def _science(lesson: Lesson) -> dict[str, Any]:
    timeline = lesson.timeline
    mapped = {stage["name"]: stage for stage in stage_rows(lesson)}
    return {
        "summary": say(lesson.process.summary),
        "stages": [
            {
                "letter": mapped[stage.name]["letter"] if stage.name in mapped else "",
                "title": say(stage.title),
                "when": f"{moment_text(stage.start_s, timeline.clock_start)} to "
                f"{moment_text(stage.end_s, timeline.clock_start)}",
                "science": say(stage.science),
                "squeezed": mapped[stage.name]["squeezed"] if stage.name in mapped else "not played",
            }
            for stage in timeline.stages
        ],
        "events": [
            {"when": moment_text(e.time_s, timeline.clock_start), "text": say(e.text)}
            for e in sorted(timeline.events, key=lambda e: e.time_s)
        ],
        "missing": [f"{m.stage} does not come: {say(m.reason)}. {say(m.fix)}".strip() for m in timeline.missing],
        "conserved": [
            f"{c.name}: nothing lost or made up. Largest drift {number_text(c.relative_drift, 1)} of what moved."
            for c in timeline.conserved
        ],
        "honesty": [*map(say, lesson.process.honesty), *lesson.scene.teacher_notes],
        "uneven": _uneven(lesson),
    }


def _uneven(lesson: Lesson) -> str:
    """That time is not uniform: the fastest and the slowest stage, in model time a bar."""
    pace = [(stage, (stage.end_s - stage.start_s) / stage.bars) for stage in lesson.controls.time_map.stages]
    quick, slow = max(pace, key=lambda p: p[1]), min(pace, key=lambda p: p[1])
    if len(pace) < 2 or quick[1] <= slow[1] * 1.05:
        return ""
    return (
        f"Time does not run evenly in the music: {say(quick[0].title)} puts {duration_text(quick[1])} into each bar, "
        f"{say(slow[0].title)} {duration_text(slow[1])}."
    )


# The key.


def _key(key: Key, lesson: Lesson) -> dict[str, Any]:
    rule = key.rule
    quantity = lesson.timeline.quantity(rule.quantity)
    held = sum(curve.held for curve in lesson.controls.curves if curve.rule == rule)
    return {
        "title": f"{rule.quantity} is heard as {rule.control}",
        "who": f"in {rule.part}" if rule.part else "in the whole piece",
        "whose": say(quantity.whose),
        "arranged": _arranged(key, lesson),
        "sentence": say(key.sentence),
        "why": rule.why,
        "curve": rule.curve,
        "values": [[say(each) for each in pair] for pair in key.values],
        "stages": [_heard_in((title, say(science), say(sound)), key, lesson) for title, science, sound in key.stages],
        "exaggeration": say(key.exaggeration_words),
        "factor": "" if key.exaggeration is None else number_text(key.exaggeration, 2),
        "verdict": say(key.verdict),
        "audible": key.audible,
        "held": f"On {counted(held, 'beat')} the quantity lay outside this range and the nearer end was held."
        if held
        else "",
    }


def _heard_in(row: tuple[Words, str, str], key: Key, lesson: Lesson) -> list[str]:
    """A stage's row of the key, with the figure that the pupils have and the loudness that is played."""
    title, science, sound = row
    section = next((s for s in lesson.score.sections if say(s.title) == say(title)), None)
    if section is None:
        return [say(title), science, sound]
    quantity = lesson.timeline.quantity(key.rule.quantity)
    if quantity.unit in KNOWN_UNITS and not quantity.companion:
        value = convert(stage_mean(quantity, section, lesson), quantity.si_unit, quantity.unit)
        science = stage_figure(float(value), quantity.unit)
    if key.rule.control == "dynamics":
        sound = _loudness(key, section, lesson)
    return [say(title), science, sound]


def _loudness(key: Key, section: Section, lesson: Lesson) -> str:
    """The marks that the rule's parts have in a stage: 'p to mf'."""
    parts = [part for part in lesson.score.group_parts if key in rules_for(part, lesson)]
    marks = {mark for part in parts for mark in played_marks(part, section, lesson)}
    ordered = sorted(marks, key=lambda mark: DYNAMICS[mark])
    if not ordered:
        return "the pupils choose" if any(part.blanks for part in parts) else "not played"
    return ordered[0] if len(ordered) == 1 else f"{ordered[0]} to {ordered[-1]}"


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
        "asked": f"{number_text(row.asked)} {row.unit.removesuffix('s') if row.asked == 1 else row.unit}",
        "published": row.published,
        "source": f"{row.source} ({row.status})",
    }


def beat_statements(lesson: Lesson) -> list[str]:
    """Whose quantity the beat follows, and, where it happens, that it is slow while most is going on."""
    key = next((k for k in lesson.controls.keys if k.rule.control == "tempo" and k.rule.part is None), None)
    if key is None:
        return ["The beat is the same throughout: no rule of this scene changes it."]
    quantity = lesson.timeline.quantity(key.rule.quantity)
    owner = say(quantity.whose)
    whose = f" of {owner}" if owner and owner not in quantity.name else ""
    found = [f"The beat follows the {quantity.name}{whose}, and nothing else."]
    return found + _busiest(lesson.score)


def _busiest(score: Score) -> list[str]:
    """Where the stage with the most sounds is not the quickest: its figures beside those of the quickest."""
    rows = [(say(s.title), round(mean_bpm(score, s)), _strokes_a_bar(score, s)) for s in score.sections]
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
    where = ", ".join(word for word in (finding.part, say(finding.where)) if word)
    return {"where": where, "message": say(finding.message), "fix": say(finding.fix)}


def _answers(lesson: Lesson) -> dict[str, Any]:
    order = [say(section.title) for section in lesson.score.sections]
    closing = f", and back to {order[0]}" if lesson.process.cycle and len(order) > 1 else ""
    return {
        "flow": f"{listed(order)}{closing}." if order else "",
        "words": [row["word"] for row in vocabulary(lesson)["rows"]],
        "listening": [_heard(item, lesson.score) for item in listening_items(lesson)],
    }


def _heard(item: ListeningItem, score: Score) -> dict[str, str]:
    """A question of the listening check, where to find its clips, the answer and why."""
    letters = "ab" if len(item.clips) > 1 else " "
    clips = [
        f"{f'clip {letter}: ' if letter != ' ' else ''}{bars_text(clip.bar, clip.bars)} "
        f"({bar_time(score, clip.bar)} to {bar_time(score, clip.bar + clip.bars)})"
        for letter, clip in zip(letters, item.clips, strict=False)
    ]
    choice = item.choices[item.answer]
    return {
        "play": "; ".join(clips) + (f", {item.part} alone" if item.part else ""),
        "ask": say(item.question),
        "answer": f"{'abc'[item.answer]}) {say(choice.words)}",
        "why": say(item.why),
    }
