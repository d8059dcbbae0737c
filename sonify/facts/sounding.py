"""How each stage is meant to sound, and why, where a scene's author says so and nothing is measured."""

from __future__ import annotations

from collections.abc import Iterable

from sonify.frozen import dataclass
from sonify.kinds.ideas import IDEAS
from sonify.records.fact import Fact, Words, fact
from sonify.records.scene import Scene
from sonify.records.score import Score


@dataclass(frozen=True, slots=True, kw_only=True)
class Sounding:
    """A stage, the words for its sound, and the author's reason; a stage without a word has neither."""

    stage: str
    letter: str
    title: Words
    words: tuple[str, ...]
    why: str

    @property
    def told(self) -> Fact:
        """The words, one after the other."""
        if not self.words:
            return fact("order-plain")
        return fact("order-sounds", sounds=tuple(fact("order-sound", word=word) for word in self.words))


def unmeasured(scene: Scene) -> bool:
    """Whether nothing of a scene is measured, computed or drawn."""
    return scene.own_stages and not scene.drawn


def soundings(scene: Scene, score: Score, letters: Iterable[str] = ()) -> tuple[Sounding, ...]:
    """Every stage that is played, in order; letters: those of them alone. None where something is measured or drawn."""
    if not unmeasured(scene):
        return ()
    notes = {note.stage: note for note in scene.stages}
    chosen = set(letters)
    return tuple(
        Sounding(
            stage=section.name,
            letter=section.letter,
            title=section.title,
            words=notes[section.name].sounds,
            why=notes[section.name].why,
        )
        for section in score.sections
        if not chosen or section.letter in chosen
    )


def controls_of(found: Iterable[Sounding]) -> set[str]:
    """The sound controls that the words are about."""
    return {IDEAS[word][0] for each in found for word in each.words}
