"""The link between science and sound: what changed in the science while a part played, and what became of its sound.

Every sheet that asks for the link asks for one of these, and the teacher's model answers are the same ones filled in. A
link is told only where both of its sides hold: the quantity clearly rose or fell from one stage to another, and the
part's sound clearly changed between them.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import field, replace
from itertools import combinations

import numpy as np

from sonify.facts.once import once_a_lesson
from sonify.facts.sheet import by_size, evidence, in_bars, rises, subject_of, way_claim
from sonify.facts.sounding import soundings, unmeasured
from sonify.facts.verdicts import falsehoods
from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.paper.facts import playing
from sonify.paper.rules import bright_level, played_marks, rules_for, sections_of
from sonify.records.controls import Key
from sonify.records.fact import Claim, Fact, Reading, Words, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part
from sonify.records.timeline import Quantity
from sonify.say import say
from sonify.units import YES_OR_NO

_END = re.compile(r"(?<=[.!?]) ")
#: What a part tells of: its own rule first, then one that it shares.
MOST = 2
#: Where a part changes within its stage alone, it is compared in pieces of so many bars.
WINDOW_BARS = 2
#: The word for more of a control and the one for less: kinds of claims, but for brightness.
WAYS = {
    "tempo": ("quicker", "slower"),
    "pitch": ("higher", "lower"),
    "density": ("busier", "sparser"),
    "dynamics": ("louder", "softer"),
    "brightness": ("brighter", "darker"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One sentence that a part's players can say.

    kind: "change" from one stage, or some bars, to another; "stage", how one stage was meant to sound; "plays", when
    the part plays. quantity, up: what changed in the science. control, more: what was heard, and whether more of it.
    first, last: between what both changed. stage: the one that is meant. answer: the whole sentence, for the teacher.
    because: the author's reason.
    """

    part: str
    group: int
    kind: str
    answer: Words
    because: str
    quantity: Quantity | None = None
    control: str = ""
    up: bool = True
    more: bool = True
    first: Span | None = None
    last: Span | None = None
    stage: Words = ""

    @property
    def became(self) -> str:
        """The word for what became of the sound: a row of WAYS."""
        return WAYS[self.control][0 if self.more else 1]


@once_a_lesson
def all_links(lesson: Lesson) -> dict[str, tuple[Link, ...]]:
    """The links of each part by its name, those of its own rule first, at least one."""
    return {part.name: tuple(_links(part, lesson)) for part in lesson.score.group_parts if not part.pulse}


def main_links(lesson: Lesson) -> list[Link]:
    """One link for each rule that anybody can tell of, the whole piece's first."""
    found: dict[tuple[str, str], Link] = {}
    for link in (link for links in all_links(lesson).values() for link in links if link.kind == "change"):
        if link.quantity is not None:
            found.setdefault((link.quantity.name, link.control), link)
    shared = {key.rule.control for key in lesson.controls.keys if key.rule.part is None}
    return sorted(found.values(), key=lambda link: link.control not in shared)


def _links(part: Part, lesson: Lesson) -> list[Link]:
    if unmeasured(lesson.scene):
        return list(_told(part, lesson))
    found = [link for key in rules_for(part, lesson) if (link := _change(key, part, lesson)) is not None]
    return found[:MOST] or [_plays(part, lesson)]


def _told(part: Part, lesson: Lesson) -> Iterator[Link]:
    """How the author meant a stage to sound in which the part plays: first and last of those that have words."""
    letters = [section.letter for section in sections_of(part, lesson)]
    rows = [row for row in soundings(lesson.scene, lesson.score, letters) if row.words and letters]
    for row in [*rows[:1], *rows[1:][-1:]]:
        answer = fact("link-stage", stage=row.title, sounds=row.told, why=row.why)
        yield Link(
            part=part.name,
            group=part.group,
            kind="stage",
            answer=answer,
            because=row.why,
            stage=row.title,
        )


def _plays(part: Part, lesson: Lesson) -> Link:
    """When a part plays, where nothing it plays changes with the science."""
    sections = sections_of(part, lesson)
    claims = (Claim(kind="plays", left=in_bars("bars sounding", s.bar, s.bars, part.name)) for s in sections)
    every = len(sections) == len(lesson.score.sections)
    told = fact(
        "link-plays", *claims, part=part.name, stages=tuple(s.title for s in sections), all="yes" if every else "no"
    )
    silent = bool(falsehoods(told, evidence(lesson)))  # an open part: what is played is the pupils' own
    return Link(
        part=part.name,
        group=part.group,
        kind="plays",
        answer=fact("link-own") if silent or not sections else told,
        because=part.meaning if isinstance(part.meaning, str) else say(part.meaning),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Bars with the model time that they hold, and who is heard in them."""

    name: Fact
    letter: str
    bar: int
    bars: int
    start_s: float
    end_s: float
    player: Part = field(hash=False)  # a thousand notes, which the bars stand for

    def science(self, quantity: Quantity) -> Reading:
        return Reading(how="mean", of=quantity.name, start=self.start_s, end=self.end_s)

    def sound(self, how: str, of: str) -> Reading:
        return in_bars(how, self.bar, self.bars, of)


def _change(key: Key, part: Part, lesson: Lesson) -> Link | None:
    """The largest change of what a rule follows between two stages of the part that is heard as well, else between
    some bars of one stage; None where no change is."""
    quantity = subject_of(key, lesson)
    for spans in (_stages(key, part, lesson), _windows(part, lesson)):
        means = {span: _mean(quantity, span, lesson) for span in spans}
        told = [pair for pair in combinations(spans, 2) if any(span.player is part for span in pair)]
        own = {span: _mean(lesson.timeline.quantity(key.rule.quantity), span, lesson) for span in spans}
        pairs = sorted(told, key=lambda pair: -abs(means[pair[1]] - means[pair[0]]))
        for first, last in pairs:
            link = Link(
                part=part.name,
                group=part.group,
                kind="change",
                answer="",
                because=key.rule.why,
                quantity=quantity,
                control=key.rule.control,
                up=bool(means[last] > means[first]),
                more=bool(own[last] > own[first]) is rises(key, lesson),  # else it is not the rule that is heard
                first=first,
                last=last,
            )
            answer = _answer(link, key, lesson)
            if answer is not None and not falsehoods(answer, evidence(lesson)):
                return replace(link, answer=answer)
    return None


def answers(quantity: Quantity, means: Collection[float]) -> str:
    """How means are told: "yes" where each is yes or no, "share" where one is a share of yes, "no" for numbers."""
    if quantity.unit != YES_OR_NO:
        return "no"
    return "yes" if {round(mean, 3) for mean in means} <= {0.0, 1.0} else "share"


def _mean(quantity: Quantity, span: Span, lesson: Lesson) -> float:
    return evidence(lesson).value(span.science(quantity))


def _stages(key: Key, part: Part, lesson: Lesson) -> list[Span]:
    """The stages of a part; where stages come in order of size, those of others too who follow the same rule."""
    stages = {stage.name: stage for stage in lesson.timeline.stages}
    ranked = by_size(lesson)[1]
    players = dict.fromkeys(sections_of(part, lesson), part)
    if ranked:
        for other in lesson.score.group_parts:
            if key in rules_for(other, lesson):
                for section in sections_of(other, lesson):
                    players.setdefault(section, other)
        players = {section: players[section] for section in ranked if section in players}
        if part not in players.values():
            return []
    return [
        Span(
            name=fact("link-of-stage", letter=section.letter),
            letter=section.letter,
            bar=section.bar,
            bars=section.bars,
            start_s=stages[section.name].start_s,
            end_s=stages[section.name].end_s,
            player=players[section],
        )
        for section in lesson.score.sections
        if section in players and section.name in stages
    ]


def _windows(part: Part, lesson: Lesson) -> list[Span]:
    """The bars of a part in pieces, within its stages."""
    beats = lesson.score.metre.beats
    runs = playing(part, lesson.score)
    found = []
    for section in sections_of(part, lesson):
        for bar in range(section.bar, section.bar + section.bars - WINDOW_BARS + 1, WINDOW_BARS):
            if not any(first <= bar and bar + WINDOW_BARS <= first + bars for first, bars in runs):
                continue
            ends = np.array([(bar - 1) * beats, (bar - 1 + WINDOW_BARS) * beats - 1e-6])
            start_s, end_s = map(float, lesson.controls.time_map.model_time_s(ends))
            name = fact("link-of-bars", first=bar, last=bar + WINDOW_BARS - 1)
            found.append(
                Span(
                    name=name,
                    letter=section.letter,
                    bar=bar,
                    bars=WINDOW_BARS,
                    start_s=start_s,
                    end_s=end_s,
                    player=part,
                )
            )
    return found


def _answer(link: Link, key: Key, lesson: Lesson) -> Fact | None:
    """The sentence with what it claims; None where brightness does not change so."""
    assert link.quantity is not None and link.first is not None and link.last is not None
    went = fact(
        f"link-{'up' if link.up else 'down'}",
        Claim(
            kind="more" if link.up else "less",
            left=link.last.science(link.quantity),
            right=link.first.science(link.quantity),
        ),
        quantity=link.quantity.name,
        answer=answers(link.quantity, [_mean(link.quantity, span, lesson) for span in (link.first, link.last)]),
    )
    heard = _heard(link, key, lesson)
    if heard is None:
        return None
    order = "link-where" if by_size(lesson)[0] else "link-when"
    why = _first_sentence(key.rule.why)  # none where its author wrote it for other settings
    given = "yes" if why.strip() else "no"
    return fact(order, went=went, heard=heard, first=link.first.name, last=link.last.name, why=why, given=given)


def _heard(link: Link, key: Key, lesson: Lesson) -> Fact | None:
    assert link.first is not None and link.last is not None
    message, spans = f"link-{link.became}", (link.last, link.first)
    if link.control == "brightness":
        after, before = (bright_level(span.player, span.bar, span.bars, lesson) for span in spans)
        if after is None or before is None or after == before or (after > before) is not link.more:
            return None
        return fact(message, way_claim(key, lesson))
    if link.control == "dynamics" and not _marked(link, lesson):
        return None
    how = {"tempo": "bpm", "pitch": "pitch", "density": "strokes a bar", "dynamics": "velocity"}[link.control]
    left, right = (span.sound(how, "" if link.control == "tempo" else span.player.name) for span in spans)
    return fact(message, Claim(kind=link.became, left=left, right=right))


def _marked(link: Link, lesson: Lesson) -> bool:
    """Whether the marks that the card prints tell of it too: pupils look for their numbers there."""
    assert link.first is not None and link.last is not None
    before, after = (
        [DYNAMICS[mark] for mark in played_marks(span.player, span.bar, span.bars, lesson)]
        for span in (link.first, link.last)
    )
    if not before or not after:
        return True
    louder = sum(after) * len(before) - sum(before) * len(after)
    return louder > 0 if link.more else louder < 0


def _first_sentence(text: str) -> str:
    """The reason itself: what an author adds to it stands on the cards.

    >>> _first_sentence("The hotter, the higher. So we can hear it."), _first_sentence("It rains! Hard.")
    ('The hotter, the higher', 'It rains')
    """
    return _END.split(text, maxsplit=1)[0].rstrip(".!")
