"""What stands on the teacher's sheets: the brief and the guide in the order of need, and the appendix."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from typing import Any

from sonify.facts.cautions import all_cautions
from sonify.facts.listening import ListeningItem, listening_items
from sonify.facts.sheet import (
    busiest,
    by_size,
    held,
    stage_facts,
    stage_figures,
    told_in_figures,
)
from sonify.facts.sounding import soundings, unmeasured
from sonify.facts.times import moment, uneven, when
from sonify.kinds.marks import DYNAMICS
from sonify.kinds.timelines import TIMELINES
from sonify.paper.adapt import adaptations, kept_places
from sonify.paper.aims import grid, levels
from sonify.paper.brief import numbers
from sonify.paper.care import cautions, deals_with_heat
from sonify.paper.facts import bar_time, groups, stage_rows
from sonify.paper.guide import (
    FIRST_BELIEFS,
    answer_of_ticket,
    brief_page,
    model_answers,
    plan_pages,
    practical_box,
    room_for_words,
    within_words,
    without_numbers,
    words_in,
)
from sonify.paper.handouts import Handouts
from sonify.paper.minutes import minute_plan
from sonify.paper.plots import plots
from sonify.paper.printlist import Marks, PrintRow
from sonify.paper.pupils import vocabulary
from sonify.paper.room import fetched, group_rows, left_over, seating
from sonify.paper.rules import bright_level, bright_text, is_own, played_marks, rules_for
from sonify.paper.settings import PaperSettings
from sonify.paper.strips import note_letters, span_text
from sonify.records.controls import Key, Threshold
from sonify.records.fact import Fact, Reading, Words, fact
from sonify.records.findings import Finding
from sonify.records.lesson import Lesson
from sonify.records.score import Score, Section
from sonify.records.timeline import Event, Timeline
from sonify.say import say
from sonify.say.parts import bars, counted, elapsed, listed, number

_PARTICLES = re.compile(r"\b(?:particle|molecule|atom)s?\b", re.IGNORECASE)
_YEARS = re.compile(r"Years? (\d)(?: (?:to|and) (\d))?")
#: Lines that tell no scene's own science: how to work, and how sounds come about.
_EVERY_YEAR = re.compile(r"(?i)working scientifically|, sound:")


def sheet(lesson: Lesson, settings: PaperSettings, handout: Handouts, rows: Sequence[PrintRow]) -> dict[str, Any]:
    """Everything that teacher.typ places. rows: the print list, which the brief shows."""
    scene, score, room = lesson.scene, lesson.score, lesson.classroom
    said = tuple(map(say, all_cautions(lesson)))
    care = cautions(said, heat=deals_with_heat(replace(scene, cautions=said)), instruments=fetched(score))
    seats = group_rows(lesson, settings)
    plan = minute_plan(room.minutes, room.lessons, handout.things)
    answered = model_answers(lesson, [row["group"] for row in seats])
    guide: dict[str, Any] = {
        "title": score.title,
        "facts": numbers(lesson),
        "year": year_note(lesson),
        "brief": brief_page(lesson, plan, rows, care),
        "plan": plan_pages(lesson, plan, handout.things),
        "problems": [_finding(f) for f in lesson.findings if f.serious],
        "groups": [row | {"pages": handout.cards[row["group"]]} for row in seats],
        "swaps": [
            say(fact("room-swap", part=s.part, given=s.given, wanted=s.wanted, reason=say(s.reason)))
            for s in score.swaps
        ],
        "left_over": left_over(lesson),
        "needs": list(room.needs),
        "seating": seating(seats),
        "answered": answered,
        "ticket": answer_of_ticket(lesson),
        "beat_is": beat_statements(lesson),
    }
    beliefs = [
        {"belief": m.belief, "correction": say(scene.remarked(m.correction)), "ask": say(scene.remarked(m.ask))}
        for m in scene.misconceptions
    ]
    questions = [{"ask": say(scene.remarked(q.ask)), "answer": say(scene.remarked(q.answer))} for q in scene.questions]
    if room_for_words(guide) < words_in(beliefs[:FIRST_BELIEFS]):
        guide["answered"] = without_numbers(answered)
    (beliefs, more_beliefs), (questions, more_questions) = within_words(guide, (beliefs, questions))
    return (
        guide
        | {
            "beliefs": beliefs,
            "more_beliefs": more_beliefs,
            "questions": questions,
            "more_questions": more_questions,
            "arc": say(fact("room-arc-alt", n=len(seats))),
        }
        | _appendix(lesson, settings, handout.marks)
    )


def _appendix(lesson: Lesson, settings: PaperSettings, marks: Marks) -> dict[str, Any]:
    """What is read on a screen, if at all."""
    scene = lesson.scene
    return {
        "piece": _facts(lesson),
        "practical": practical_box(lesson) if lesson.classroom.lessons == 1 else None,
        "story": [" ".join(say(scene.remarked(block)).split()) for block in scene.story.split("\n\n") if block.strip()],
        "science": _science(lesson),
        "plots": plots(lesson, settings),
        "keys": [_key(key, lesson) for key in lesson.controls.keys],
        "sounds": _sounds(lesson),
        "thresholds": [_threshold(row) for row in lesson.controls.thresholds],
        "naming": _naming(lesson),
        "notes": [_finding(f) for f in lesson.findings if not f.serious and f.fix],
        "answers": _answers(lesson),
        "kept": kept_places(lesson, marks),
        "adapt": adaptations(lesson),
        "adapt_first": say(fact("adapt-first")),
        "levels": levels(),
        "grid": grid(lesson),
        "grid_how": say(fact("aims-how-to")),
        "grid_names": say(fact("aims-names")),
        "credits": _credits(lesson),
        "curriculum": [*scene.curriculum, *_pointers_missing(lesson)],
        "sources": [{"text": s.text, "checked": s.checked} for s in lesson.sources],
    }


def _pointers_missing(lesson: Lesson) -> list[str]:
    """What the sheet says about the curriculum, unless the scene says it itself."""
    standing = [("key stage 3", "enrichment")] * of_particles(lesson) + [("2013", "checked")]
    said = lesson.scene.curriculum
    return [say(fact(f"teacher-{name}")) for mark, name in standing if not any(mark in line for line in said)]


def of_particles(lesson: Lesson) -> bool:
    """Whether the lesson speaks of particles: in its author's words, in what is heard, or in the page's particle box,
    which every lesson has that computes a temperature."""
    scene, quantities = lesson.scene, lesson.process.quantities
    words = [*scene.texts(), *(word for row in scene.vocabulary for word in (row.word, row.meaning))]
    words += [rule.quantity for rule in scene.rules]
    return any(q.si_unit == "K" and not q.drawn for q in quantities) or any(map(_PARTICLES.search, words))


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
    way = "later" if mine > max(years) else "earlier" if mine < min(years) else "among"
    told = listed([say(fact("teacher-year", year=year)) for year in sorted(years)])
    return say(fact("teacher-other-year", mine=mine, years=told, way=way))


def _credits(lesson: Lesson) -> list[str]:
    """Who made what; the published sources stand below it."""
    return [
        say(
            fact(
                "teacher-credit-own" if lesson.scene.own_stages else "teacher-credit-scene",
                title=lesson.scene.title,
                file=lesson.scene.origin.file,
            )
        ),
        say(fact("teacher-credit-font")),
    ]


def _facts(lesson: Lesson) -> str:
    room, score = lesson.classroom, lesson.score
    return say(
        fact(
            "teacher-facts",
            year=room.year,
            pupils=counted("pupil", room.pupils),
            groups=counted("group", len(groups(score))),
            minutes=counted("minute", room.minutes),
            bars=score.bars,
            metre=score.metre.text,
            length=elapsed(float(score.clock.seconds(score.end_beat))),
            scale=score.scale.name,
            scaffold=lesson.scaffold,
        )
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
                "when": say(held(when(stage.name, timeline), lesson)),
                "science": say(stage.science),
                "squeezed": mapped[stage.name]["squeezed"] if stage.name in mapped else say(fact("teacher-not-played")),
            }
            for stage in timeline.stages
        ],
        "events": [
            {
                "when": say(_happens(e, timeline)),
                "text": say(e.text),
            }
            for e in sorted(timeline.events, key=lambda e: e.time_s)
        ],
        "missing": [
            say(fact("teacher-never-comes", stage=m.stage, reason=say(m.reason), fix=say(m.fix))).strip()
            for m in timeline.missing
        ],
        "conserved": [
            say(fact("teacher-conserved", what=c.name, drift=number(c.relative_drift, 1))) for c in timeline.conserved
        ],
        "own": lesson.scene.own_stages,
        "honesty": [
            *map(say, lesson.process.honesty),
            *(say(lesson.scene.remarked(note)) for note in lesson.scene.teacher_notes),
        ],
        "timed": TIMELINES[timeline.kind].timed,
        "uneven": say(uneven(lesson)),
    }


def _happens(event: Event, timeline: Timeline) -> Words:
    """When something happens; nothing where no time is told."""
    if not TIMELINES[timeline.kind].timed:
        return ()
    return moment(event.time_s, Reading(how="happens", of=event.name), timeline.clock_start)


# The key.


def _key(key: Key, lesson: Lesson) -> dict[str, Any]:
    rule = key.rule
    quantity = lesson.timeline.quantity(rule.quantity)
    beats = sum(curve.held for curve in lesson.controls.curves if curve.rule == rule)
    who = fact("teacher-in-part", part=rule.part) if rule.part else fact("teacher-in-piece")
    owner = say(quantity.whose)
    of_rule = fact("teacher-of-rule", who=who, whose="some" if owner else "none", owner=owner, curve=rule.curve)
    return {
        "title": say(fact("teacher-heard-as", quantity=rule.quantity, control=rule.control)),
        "of": say(of_rule),
        "arranged": _arranged(key, lesson),
        "sentence": say(key.sentence),
        "why": rule.why,
        "values": [[say(each) for each in pair] for pair in key.values],
        "stages": [_heard_in((title, say(science), say(sound)), key, lesson) for title, science, sound in key.stages],
        "exaggeration": say(key.exaggeration_words),
        "slope": "" if key.exaggeration is None else number(key.exaggeration, 2),
        "verdict": say(key.verdict),
        "audible": key.audible,
        "held": say(fact("teacher-held", beats=counted("beat", beats))) if beats else "",
    }


def _heard_in(row: tuple[Words, str, str], key: Key, lesson: Lesson) -> list[str]:
    """A stage's row of the key, with the figure that the pupils have and the loudness that is played."""
    title, science, sound = row
    section = next((s for s in lesson.score.sections if say(s.title) == say(title)), None)
    if section is None:
        return [say(title), science, sound]
    quantity = lesson.timeline.quantity(key.rule.quantity)
    if told_in_figures(quantity, lesson) and not quantity.companion:
        science = say(held(stage_facts(quantity, lesson)[section.name], lesson))
    if key.rule.control == "dynamics":
        sound = _loudness(key, section, lesson)
    elif key.rule.control == "brightness" and key.rule.part:
        sound = _brightness(key, section, lesson) or sound
    return [say(title), science, sound]


def _loudness(key: Key, section: Section, lesson: Lesson) -> str:
    """The marks that the rule's parts have in a stage: 'p to mf'."""
    parts = [part for part in lesson.score.group_parts if key in rules_for(part, lesson)]
    marks = {mark for part in parts for mark in played_marks(part, section.bar, section.bars, lesson)}
    ordered = sorted(marks, key=lambda mark: DYNAMICS[mark])
    if not ordered:
        return say(fact("teacher-pupils-choose" if any(part.blanks for part in parts) else "teacher-not-played"))
    return ordered[0] if len(ordered) == 1 else say(fact("teacher-marks-span", first=ordered[0], last=ordered[-1]))


def _brightness(key: Key, section: Section, lesson: Lesson) -> str:
    """How bright the rule's own part plays in a stage, in the words that its card has; "" where it is silent."""
    part = next((part for part in lesson.score.group_parts if is_own(key, part, lesson)), None)
    if part is None or bright_level(part, section.bar, section.bars, lesson) is None:
        return ""
    return bright_text(part, section.bar, section.bars, lesson)


def _arranged(key: Key, lesson: Lesson) -> list[str]:
    """For a pitch rule, the notes it has as arranged, from the parts' own notes."""
    if key.rule.control != "pitch":
        return []
    parts = [part for part in lesson.score.group_parts if key in rules_for(part, lesson)]
    spans = {part.name: span_text(note_letters(part, lesson.score)) for part in parts}
    return [say(fact("teacher-spans", part=name, span=span)) for name, span in spans.items() if span]


def _naming(lesson: Lesson) -> str:
    """How the sheets name notes, where anybody plays some."""
    pitched = any(lesson.score.instrument(part.instrument).pitched for part in lesson.score.group_parts)
    return say(fact("teacher-naming")) if pitched and lesson.controls.keys else ""


def _threshold(row: Threshold) -> dict[str, str]:
    unit = row.unit.removesuffix("s") if row.asked == 1 else row.unit
    return {
        "what": say(fact("teacher-measure", control=row.control, measure=row.measure.split(";")[0])),
        "asked": f"{number(row.asked)} {unit}",
        "published": row.published,
        "source": say(fact("teacher-source", source=row.source, status=row.status)),
    }


def _sounds(lesson: Lesson) -> dict[str, Any] | None:
    """How each stage is meant to sound, and why; None where the sounds follow what is measured, computed or drawn."""
    rows = soundings(lesson.scene, lesson.score)
    if not rows:
        return None
    return {
        "told": say(fact("order-no-scale")),
        "head": [say(fact("order-head-sound")), say(fact("order-head-why"))],
        "rows": [
            {"letter": row.letter, "title": say(row.title), "sounds": say(row.told), "why": row.why} for row in rows
        ],
    }


def beat_statements(lesson: Lesson) -> list[str]:
    """Whose quantity the beat follows, and, where it happens, that it is slow while most is going on."""
    key = next((k for k in lesson.controls.keys if k.rule.control == "tempo" and k.rule.part is None), None)
    if unmeasured(lesson.scene):
        return []
    if key is None:
        return [say(fact("teacher-one-beat"))]
    quantity = lesson.timeline.quantity(key.rule.quantity)
    owner = say(quantity.whose)
    if owner and owner not in quantity.name:
        follows = fact("teacher-beat-follows-of", quantity=quantity.name, owner=owner)
    else:
        follows = fact("teacher-beat-follows", quantity=quantity.name)
    return [text for text in (say(follows), say(busiest(lesson))) if text]


def _finding(finding: Finding) -> dict[str, str]:
    where = ", ".join(word for word in (finding.part, say(finding.where)) if word)
    return {"where": where, "message": say(finding.message), "fix": say(finding.fix)}


def _answers(lesson: Lesson) -> dict[str, Any]:
    quantity, ranked = by_size(lesson)
    order = [say(section.title) for section in (ranked or lesson.score.sections)]
    told: Words = fact("teacher-order-of", stages=listed(order))
    if quantity:
        told = (told, *_alike(lesson, quantity, ranked))
    if lesson.process.cycle and len(order) > 1:
        told = fact("teacher-order-round", stages=listed(order), first=order[0])
    return {
        "flow": say(told) if order else "",
        "order": say(fact("teacher-order-by-size", quantity=quantity) if quantity else fact("teacher-order")),
        "words": [
            say(fact("teacher-word-number", number=number, word=row["word"]))
            for number, row in enumerate(vocabulary(lesson)["rows"], start=1)
        ],
        "listening": [_heard(item, lesson.score) for item in listening_items(lesson)],
    }


def _alike(lesson: Lesson, quantity: str, ranked: Sequence[Section]) -> Iterator[Fact]:
    """Those of an order whose figures are printed alike: any of them may come first."""
    figures = stage_figures(lesson.timeline.quantity(quantity), lesson)
    for _, group in groupby(ranked, key=lambda section: say(fact("meaning-figure", value=figures[section.name]))):
        alike = [say(section.title) for section in group]
        if len(alike) > 1:
            yield fact("teacher-order-alike", stages=listed(alike))


def _heard(item: ListeningItem, score: Score) -> dict[str, str]:
    """A question of the listening check, where to find its clips, the answer and why."""
    clips = []
    for letter, clip in zip("ab", item.clips, strict=False):
        start, end = bar_time(score, clip.bar), bar_time(score, clip.bar + clip.bars)
        told = fact("teacher-clip", bars=bars(clip.bar, clip.bars), start=start, end=end)
        clips.append(say(fact("teacher-clip-of", letter=letter, clip=told) if len(item.clips) > 1 else told))
    played = "; ".join(clips)
    choice = item.choices[item.answer]
    return {
        "play": say(fact("teacher-clip-alone", clips=played, part=item.part)) if item.part else played,
        "ask": say(item.question),
        "answer": say(fact("teacher-answer-of", letter="abc"[item.answer], words=say(choice.words))),
        "why": say(item.why),
    }
