"""A card for each group: what it is, what its sound means, what to play, when to come in, how loud."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from types import MappingProxyType
from typing import Any

from sonify.facts.excerpts import PartPictures, excerpts
from sonify.facts.sheet import evidence, held, in_bars
from sonify.facts.sounding import soundings
from sonify.kinds.marks import DYNAMICS
from sonify.paper import loudness, rhythm
from sonify.paper.busy import course
from sonify.paper.facts import badge, entries_of, groups, playing
from sonify.paper.ideas import ideas
from sonify.paper.rules import rule_rows, rules_for, sections_of
from sonify.paper.settings import PaperSettings
from sonify.paper.steps import fewest
from sonify.paper.strips import LONGEST, strips
from sonify.records.controls import Key
from sonify.records.fact import Claim, Fact, Words, fact, with_notes
from sonify.records.lesson import Lesson
from sonify.records.score import DynamicMark, Entry, Part, Score, Seat
from sonify.say import say, sentence
from sonify.say.cues import pattern_name
from sonify.say.parts import bars as bars_words
from sonify.say.parts import counted, dynamic_with_mark, listed, own_name

Pictures = Mapping[str, PartPictures]
NO_PICTURES: Pictures = MappingProxyType({})
#: Stages side by side in a card's table, ordinary and large print.
WIDEST_TABLE = (6, 3)
#: Taps longer than a row of boxes on the card's paper, ordinary and large print.
BOXES_IN_ROW = (16, 8)
#: So many changes of loudness are told one by one; more are summed up, and the picture shows them all.
FEW_MARKS = 3
#: Of another line's pattern so many bars are drawn.
OTHER_BARS = 2


def cards(lesson: Lesson, settings: PaperSettings, pictures: Pictures = NO_PICTURES) -> list[dict[str, Any]]:
    """Every group's card, in order of groups. pictures: the drawings of each part, by its name."""
    return [
        {
            **badge(group, settings),
            "group_name": say(fact("sheet-group", group=group)),
            "names": [own_name(part) for part in parts],
            "parts": _parts(parts, lesson, settings, pictures),
            "stages": [{"letter": s.letter, "bar": s.bar, "bars": s.bars} for s in lesson.score.sections],
            "bars": lesson.score.bars,
        }
        for group, parts in groups(lesson.score).items()
    ]


def _parts(parts: list[Part], lesson: Lesson, settings: PaperSettings, pictures: Pictures) -> list[dict[str, Any]]:
    """The parts of one card, each with all its rules: a card is read page by page."""
    return [
        _part(part, rules_for(part, lesson), lesson, settings) | _pictured(part, lesson.score, pictures)
        for part in parts
    ]


def picture_files(score: Score, pictures: Pictures) -> dict[str, bytes]:
    """The drawings as the files that the cards name."""
    found = {}
    for number, part in enumerate(score.group_parts):
        drawn = pictures.get(part.name)
        if drawn is not None:
            found[f"lane-{number}.svg"] = drawn.lane.encode()
            for kind, texts in (("staff", drawn.staves), ("small", drawn.lanes)):
                found |= {f"{kind}-{number}-{place}.svg": text.encode() for place, text in enumerate(texts)}
    return found


def _pictured(part: Part, score: Score, pictures: Pictures) -> dict[str, Any]:
    """The names of a part's drawings; "" and none where there are none."""
    number, drawn = score.group_parts.index(part), pictures.get(part.name)
    return {
        "lane": f"lane-{number}.svg" if drawn else "",
        "staves": [f"staff-{number}-{place}.svg" for place in range(len(drawn.staves))] if drawn else [],
        "smalls": [f"small-{number}-{place}.svg" for place in range(len(drawn.lanes))] if drawn else [],
    }


def _part(part: Part, keys: list[Key], lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    score = lesson.score
    in_row = BOXES_IN_ROW[settings.large_print]
    return {
        "name": part.name,
        "pulse": part.pulse,
        "meaning": part.meaning,
        "seats": [seat_row(seat, score) for seat in part.seats],
        "rules": [rule_rows(key, part, lesson) for key in keys],
        "sounds": _sounds(part, lesson),
        "table": _table([_in_steps(key, part, lesson) for key in keys], WIDEST_TABLE[settings.large_print]),
        "instructions": _instructions(part, score),
        "patterns": pattern_rows(part, score, in_row),
        "others": _others(part, score, in_row),
        "strips": strips(part, score, LONGEST[settings.large_print]),
        "easy": _easy(part, score),
        "busy": _busy(part, score),
        "entries": entry_rows(part, lesson),
        "loud": " ".join((_loud(part), *_eased(part, lesson))),
        "marks": [{"bar": mark.bar, "mark": mark.mark} for mark in sorted(part.dynamics, key=lambda mark: mark.bar)],
        "runs": _runs(part, score),
        "runs_alt": say(
            fact("card-plays-in", part=part.name, bars=listed([bars_words(*run) for run in playing(part, score)]))
        ),
        "blanks": ideas(part, lesson),
    }


def _sounds(part: Part, lesson: Lesson) -> list[dict[str, str]]:
    """How each stage is meant to sound in which the part plays, and the author's reason; none where rules say it."""
    plan = lesson.scene.plan_name(part.name)
    if plan not in [each.name for each in lesson.scene.parts]:  # the pulse, which the arranger adds
        return []
    letters = [section.letter for section in sections_of(part, lesson)]
    return [
        {"letter": each.letter, "told": say(fact("order-told", stage=each.title, sounds=each.told, why=each.why))}
        for each in soundings(lesson.scene, lesson.score, letters)
        if each.words and letters
    ]


def _in_steps(key: Key, part: Part, lesson: Lesson) -> dict[str, Any]:
    """A rule with the fewest of its stages that tell how it changes."""
    told = rule_rows(key, part, lesson)
    return told | {"rows": fewest(key, part, told["rows"], lesson)}


def _table(rules: list[dict[str, Any]], widest: int) -> list[dict[str, Any]]:
    """The rules as tables of stages, as wide as the paper allows: the science, and below it the sound."""
    staged = [rule for rule in rules if rule["rows"][0]["letter"]]
    letters = sorted({row["letter"] for rule in staged for row in rule["rows"]})
    pieces = []
    for first in range(0, len(letters), widest):
        chosen = letters[first : first + widest]
        rows = []
        for rule in staged:
            told = {row["letter"]: row for row in rule["rows"]}
            rows.append([rule["of"], *(told.get(letter, {}).get("science", "") for letter in chosen)])
            rows.append([rule["unit"], *(told.get(letter, {}).get("short", "") for letter in chosen)])
        pieces.append({"letters": chosen, "rows": rows})
    return pieces


def seat_row(seat: Seat, score: Score) -> dict[str, str]:
    """An instrument of a part, who plays it and how."""
    row = score.instrument(seat.instrument)
    what = row.of(seat.count)
    told = {"who": counted("player", seat.players), "how": row.how or say(fact("card-own-how"))}
    if row.bodily:
        return {"what": what, "job": say(seat.job), **told}
    share = ""
    if seat.at_once:
        share = say(fact("card-at-a-time", n=seat.at_once, bars=counted("bar", seat.turn_bars)))
    elif seat.players > seat.count:
        share = say(fact("card-take-turns"))
    return {"what": f"{seat.count} {what}", "job": say(seat.job) or share, **told}


def _instructions(part: Part, score: Score) -> list[str]:
    return [lettered(words, part, score) for words in part.instructions]


def _easy(part: Part, score: Score) -> str:
    row = score.instrument(part.instrument)
    return say(fact("card-easy", held="yes" if row.sustains else "no")) if strips(part, score) else ""


def pattern_rows(part: Part, score: Score, in_row: int) -> list[dict[str, Any]]:
    """What is written out in three notations: the boxes of each excerpt; free taps have none."""
    if part.texture == "scatter":
        return []
    row = score.instrument(part.instrument)
    beats = score.metre.beats
    found = []
    for excerpt in excerpts(part, score):
        boxes = rhythm.boxes(
            excerpt.hits,
            excerpt.bars * beats,
            beats,
            row,
            most_in_row=in_row,
            spoken=not excerpt.free,
            words=syllables(excerpt.spoken),
        )
        name = say(excerpt.name)
        found.append(
            {
                "name": name,
                "words": say(excerpt.words),
                "boxes": boxes,
                "alt": say(fact("card-named", name=name, told=boxes["alt"])),
                "notations": say(fact("card-notations", name=name)),
            }
        )
    return found


def _others(part: Part, score: Score, in_row: int) -> list[dict[str, Any]]:
    """The lines that are not played: what is different in them, and the boxes of a pattern of theirs."""
    row, beats, found = score.instrument(part.instrument), score.metre.beats, []
    for line in part.others:
        told = " ".join(map(say, line.words))
        patterns = []
        for one in line.patterns:
            bars = min(one.bars, OTHER_BARS)
            hits = [hit for hit in one.hits if hit[0] < bars * beats]
            words = syllables(one.spoken)[: len({beat for beat, _, _ in hits})]
            boxes = rhythm.boxes(hits, bars * beats, beats, row, most_in_row=in_row, words=words)
            alt = say(fact("card-named", name=told, told=boxes["alt"]))
            patterns.append({"name": told, "words": "", "boxes": boxes, "alt": alt})
        found.append({"told": told, "patterns": patterns})
    return found


def syllables(words: Words) -> list[str]:
    """What is said under a rhythm, a syllable for each sound: "e-", "va-" and so on; [] where nothing is."""
    each = words if isinstance(words, tuple) else ()
    found = []
    for text in (say(one).split() for one in each):
        for word in text:
            *begun, last = word.split("-")
            found += [*(f"{one}-" for one in begun), last]
    return found


def _busy(part: Part, score: Score) -> list[dict[str, Any]]:
    """For free taps: how many taps in each bar, as a picture of few and many. What pupils invent has its own boxes."""
    if part.texture != "scatter":
        return []
    own = {bar for blank in part.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
    runs = [rhythm.taps(part, first, bars, score.metre.beats) for first, bars in playing(part, score)]
    rows = [list(run) for bars in runs for mine, run in groupby(bars, lambda bar: bar["bar"] in own) if not mine]
    return [{"bars": bars, "empty": not any(bar["dots"] for bar in bars), "alt": _taps_told(bars)} for bars in rows]


def _taps_told(bars: list[dict[str, Any]]) -> str:
    for bar in bars:
        bar["head"] = say(fact("card-bar", bar=bar["bar"]))
    told = [say(fact("card-taps-of-bar", bar=bar["bar"], taps=len(bar["dots"]))) for bar in bars]
    return say(fact("card-taps-of-bars", bars="; ".join(told)))


def entry_rows(part: Part, lesson: Lesson) -> list[dict[str, Any]]:
    """When a part comes in, and what it plays then."""
    return [_entry(entry, part, lesson) for entry in sorted(entries_of(part, lesson.score), key=lambda e: e.bar)]


def _entry(entry: Entry, part: Part, lesson: Lesson) -> dict[str, Any]:
    score = lesson.score
    section = score.section_at(entry.bar)
    play, lasts = sentence(_play(entry, part, lesson)), counted("bar", entry.bars)
    return {
        "bar": entry.bar,
        "at": say(fact("card-bar-in-stage", bar=entry.bar)),
        "stage": f"{section.letter} {say(section.title)}" if section else "",
        "letter": section.letter if section else "",
        "into": entry.bar - section.bar if section else 0,
        "listen": _listen(entry, part, lesson),
        "play": say(fact("card-play-for", play=play, bars=lasts) if play else fact("card-play-bars", bars=lasts)),
    }


def _play(entry: Entry, part: Part, lesson: Lesson) -> str:
    """What to play from an entry on. Where few taps or many fall, and which notes, is taken from the notes."""
    if part.texture == "scatter":
        return course(part, entry, lesson) or say(entry.instruction)
    if not entry.instruction and strips(part, lesson.score):
        return say(fact("card-your-notes", bars=bars_words(entry.bar, entry.bars)))
    return lettered(entry.instruction, part, lesson.score) or pattern_name(part, entry.pattern)


def _listen(entry: Entry, part: Part, lesson: Lesson) -> str:
    """Whom to listen for: the part that came in last and still sounds in the bar before."""
    score, before = lesson.score, entry.bar - 1
    if entry.bar == 1:
        return say(fact("card-listen-count-in"))
    if any(first < entry.bar < first + bars for first, bars in playing(part, score)):
        return say(fact("card-keep-going"))
    heard = [
        (first, other)
        for other in score.group_parts
        if other.name != part.name
        for first, bars in playing(other, score)
        if first <= before < first + bars
    ]
    sounding = [pair for pair in heard if before in evidence(lesson).sounding(pair[1].name)]
    if not heard:
        quiet = fact("card-quiet-before", Claim(kind="silent", left=in_bars("bars sounding", before, 1)))
        return say(held(quiet.or_else(fact("card-watch")), lesson))
    _, other = max(sounding or heard, key=lambda pair: (pair[0], -pair[1].group))
    if not sounding:  # they play what they invent, or rest within their entry
        idea = any(blank.bar <= before < blank.bar + blank.bars for blank in other.blanks)
        return say(fact("card-listen-for-idea", part=other.name, group=other.group) if idea else fact("card-watch"))
    claim = Claim(kind="plays", left=in_bars("bars sounding", before, 1, other.name))
    told = fact("card-listen-for", claim, part=other.name, pulse="yes" if other.pulse else "no", group=other.group)
    return say(held(told.or_else(fact("card-watch")), lesson))


def _eased(part: Part, lesson: Lesson) -> list[str]:
    """Why a part starts softer than its rule asks, where the class has a need for that; no need is named to pupils."""
    why = {"play-comes-in-softly": "card-comes-in-softly", "play-quiet-start": "card-quiet-start"}
    told = {
        each.message.message for each in lesson.findings if each.part == part.name and isinstance(each.message, Fact)
    }
    return [say(fact(message)) for found, message in why.items() if found in told]


def _loud(part: Part) -> str:
    """How loud in a sentence or two: each mark where there are few, else the start, the loudest and the end."""
    marks = sorted(part.dynamics, key=lambda mark: mark.bar)
    if len(marks) <= FEW_MARKS:
        return " ".join(_mark(mark, following) for mark, following in zip(marks, [*marks[1:], None], strict=False))
    loudest = max(marks, key=lambda mark: (DYNAMICS[mark.mark], -mark.bar))
    first, most, last = (dynamic_with_mark(mark.mark) for mark in (marks[0], loudest, marks[-1]))
    when = "first" if loudest is marks[0] else "later"
    return say(fact("card-loudness", start=first, loudest=when, bar=loudest.bar, most=most, end=last))


def _mark(mark: DynamicMark, following: DynamicMark | None) -> str:
    until = following.bar if mark.hairpin and following else 0
    words = dynamic_with_mark(mark.mark)
    return say(fact("card-mark", bar=mark.bar, words=words, then=mark.hairpin or "stays", until=until))


def lettered(words: Words, part: Part, score: Score) -> str:
    """Words in which notes are named as they are written on the part's own bars, as its boxes name them."""
    row = score.instrument(part.instrument)
    return say(with_notes(words, lambda midi: rhythm.letter(midi, row)) if row.pitched else words)


def _runs(part: Part, score: Score) -> list[dict[str, Any]]:
    line = loudness.corners(part, score)
    return [
        {"bar": first, "bars": bars, "levels": loudness.levels(line, first, first + bars)}
        for first, bars in playing(part, score)
    ]
