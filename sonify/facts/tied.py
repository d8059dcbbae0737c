"""Sentences of the author's that stand only where something is so: told, told otherwise, or left out."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from sonify.facts.authored import holds
from sonify.facts.evidence import Evidence
from sonify.kinds.readings import SCIENCE
from sonify.records.fact import Words
from sonify.records.scene import WORD, Scene, Sentence, Tie
from sonify.records.score import Score

#: A condition may miss what it is tied to by this share of it, for the rounding of machine numbers.
_HAIR = 1e-9


def tied_to_science(
    scene: Scene, conditions: Mapping[str, float], wanted: Mapping[Tie, float], stages: Collection[str], found: Evidence
) -> Scene:
    """The scene as it may be told of what was computed. conditions, wanted: in SI, or the place of a word in its list.

    What else a sentence is tied to in what is played waits until something is (`tied_to_music`).
    """
    names = {quantity.name for quantity in found.timeline.quantities}
    gone, waiting = [], []
    for each in scene.sentences:
        known = [claim.known(names, stages) for claim in each.claims]
        science = [claim for claim in known if claim is not None and claim.how in SCIENCE]
        kept = all(_is(conditions[tie.condition], tie, wanted[tie]) for tie in each.ties)
        if not (kept and all(holds(claim, found) for claim in science)):
            gone.append(each)
        elif len(science) < len(known):
            waiting.append(each)
    return replace(_without(scene, gone), sentences=tuple(waiting))


def tied_to_music(scene: Scene, stages: Collection[str], found: Evidence) -> tuple[Sentence, ...]:
    """The sentences left by `tied_to_science` that do not hold of what is played."""
    names = {quantity.name for quantity in found.timeline.quantities}
    known = {each.key: [claim.known(names, stages) for claim in each.claims] for each in scene.sentences}
    return tuple(
        each for each in scene.sentences if not all(claim is None or holds(claim, found) for claim in known[each.key])
    )


def without(scene: Scene, score: Score, gone: Iterable[Sentence]) -> tuple[Scene, Score]:
    """Scene and Score with these sentences told otherwise, or left out."""
    gone = tuple(gone)
    told = {text: _told(text, gone) for text in scene.texts()}

    def tell(words: Words) -> Words:
        return told.get(words, words) if isinstance(words, str) else words

    cues = (replace(cue, reason=replace(cue.reason, words=tell(cue.reason.words))) for cue in score.cues)
    score = replace(
        score,
        parts=tuple(replace(part, meaning=told.get(part.meaning, part.meaning)) for part in score.parts),
        sections=tuple(replace(each, caption=tell(each.caption)) for each in score.sections),
        cues=tuple(cues),
    )
    return _without(scene, gone), score


def _is(value: float, tie: Tie, wanted: float) -> bool:
    hair = _HAIR * max(1.0, abs(wanted)) if tie.value.unit != WORD else 0.0
    match tie.way:
        case "at least":
            return value >= wanted - hair
        case "at most":
            return value <= wanted + hair
    return abs(value - wanted) <= hair


def _without(scene: Scene, gone: Iterable[Sentence]) -> Scene:
    gone = tuple(gone)
    if not gone:
        return scene
    unsaid = {key for key, text in _claiming(scene).items() if text and not _left(text, gone)}
    told = scene.retold(lambda text: _told(text, gone))
    return replace(told, claims=tuple(c for c in scene.claims if c.key.partition(".claims")[0] not in unsaid))


def _claiming(scene: Scene) -> dict[str, str]:
    """The text of each place at which sentences claim something, by the key that its claims begin with."""
    found = {each.key: each.caption for each in scene.stages}
    found |= {each.key: each.meaning for each in scene.parts} | {each.key: each.why for each in scene.rules}
    found |= {f"question.{number}": each.answer for number, each in enumerate(scene.questions)}
    return found | {f"misconception.{number}": each.correction for number, each in enumerate(scene.misconceptions)}


def _left(text: str, gone: Iterable[Sentence]) -> str:
    """What the author's own words leave of a text: nothing where it is told otherwise from end to end."""
    left = " ".join(text.split())
    for each in gone:
        left = left.replace(each.text, "")
    return left.strip()


def _told(text: str, gone: Iterable[Sentence]) -> str:
    """A text with its paragraphs, and each sentence that does not hold told otherwise or left out."""
    for each in gone:
        paragraphs = text.split("\n\n")
        found = [" ".join(paragraph.split()) for paragraph in paragraphs]
        text = "\n\n".join(
            " ".join(line.replace(each.text, each.otherwise).split()) if each.text in line else paragraph
            for paragraph, line in zip(paragraphs, found, strict=True)
        )
    return text
