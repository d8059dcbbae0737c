"""How hard the pupils' sheets are to read, by published formulae that a library works out.

The measure is the Flesch-Kincaid grade (Kincaid, Fishburne, Rogers and Chissom, 1975), from words a sentence and
syllables a word, and a reading age of grade + 5 (common practice). Why this one: it needs no list of known words, so it
treats every scene alike, and it is the one that word processors show, so that a teacher can repeat it. Its limits: it
was fitted to grown-ups; it knows nothing of meaning; it is made for sentences, so it flatters lists. So only whole
sentences are counted; what stands in fragments (tables, labels, headings) is left out and may not lower the score, and
its words are held to a limit of length of their own.

Words of the lesson's own science are excepted: each counts as one short word. They are listed by `excepted`.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, Any

from sonify.kinds.pupil_sheets import PICTURES
from sonify.paper.links import all_links
from sonify.paper.pupils import sheet
from sonify.paper.typeset import shown_words
from sonify.records.lesson import Lesson
from sonify.say import say
from tests.paper.sheets import settings

if TYPE_CHECKING:
    from textstat.textstat import textstatistics

OLDEST = 9.0
SENTENCE_WORDS = 3
WORD = re.compile(r"[^\W\d_][\w’'-]*")
#: Words of music that the sheets teach: in the headings of "Our sound, and why" and on every card.
MUSIC = ("tempo", "pitch", "dynamics", "timbre", "pattern", "conductor")
#: Texts of the sheets' data that are read aloud for pupils who listen to the file, or are names.
NOT_READ = {
    "alt",
    "alts",
    "notations",
    "runs_alt",
    "title",
    "colour",
    "hatching",
    "lane",
    "staves",
    "smalls",
    "name",
    "names",
    "word",
}


def excepted(lesson: Lesson) -> list[str]:
    """What does not count as hard: the words that the scene explains, its quantities, its parts and stages, the
    instruments in pupils' hands, and the words of music that these sheets teach. Longest first."""
    score = lesson.score
    quantities = [quantity.name for quantity in lesson.timeline.quantities]
    used = {seat.instrument for part in score.group_parts for seat in part.seats}
    rows = [score.instrument(name) for name in used | {part.instrument for part in score.group_parts}]
    instruments = [name for row in rows for name in (row.name, row.plural)]
    words = [word.word for word in lesson.scene.vocabulary]
    names = [part.name for part in score.group_parts] + [say(section.title) for section in score.sections]
    return sorted({*words, *quantities, *instruments, *names, *MUSIC}, key=lambda word: (-len(word), word))


def plainly(text: str, words: list[str]) -> str:
    """The text with each excepted word, in any ordinary ending, as one short word, and each number as another."""
    for word in words:
        text = re.sub(rf"\b{re.escape(word)}(?:e?s)?\b", "thing", text, flags=re.IGNORECASE)
    text = re.sub(r"[−-]?\d[\d.,:]*(?: ?(?:%|°C|[mck]?m|k?g)\b)?(?<![.,])", "ten", text)
    return re.sub(r"[^\w\s.,;:?!’'()-]", " ", text)


def texts(data: Any) -> Iterator[str]:
    """Every text of a sheet's data, in order."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for key, value in data.items():
            if key not in NOT_READ:
                yield from texts(value)
    elif isinstance(data, list | tuple):
        for value in data:
            yield from texts(value)


def sentences(data: Any) -> tuple[list[str], list[str]]:
    """Whole sentences, and fragments: what has no full stop, or fewer than SENTENCE_WORDS words."""
    whole, fragments = [], []
    for text in texts(data):
        for piece in re.split(r"(?<=[.?!])\s+", text.strip()):
            full = piece.endswith((".", "?", "!")) and len(WORD.findall(piece)) >= SENTENCE_WORDS
            (whole if full else fragments).append(piece)
    return whole, [piece for piece in fragments if WORD.search(piece)]


def sheets_of(lesson: Lesson) -> dict[str, list[str]]:
    """The sentences of each pupils' sheet; a word's meaning is read as "It is ..."."""
    data = sheet(lesson, settings(also=(PICTURES,)))
    meanings = [f"It is {row['meaning'].rstrip('.')}." for row in data["words"]["rows"]]
    shown = shown_words("pupils")

    def told(*names: str) -> list[str]:
        return [shown[f"pupils-{name}"] for name in names]

    found = {
        "order": [told("cut", "ring"), data["flow"]],
        "words": [told("write-words", "match"), meanings],
        "sound": [_ended(frame["words"]) for group in data["sounds"] for frame in group["levels"][0]["frames"]],
        "ticket": [data["ticket"]["ask"], data["ticket"]["choices"], *map(_ended, data["ticket"]["ends"])],
        "answers": [_pieces(say(link.answer)) for links in all_links(lesson).values() for link in links],
        "thinking": [told("figures"), data["stretch"]["ask"]],
        "listening": [told("clips"), data["listening"]],
    }
    cards = {f"card {card['group']}": [card["parts"], told("bold", "taps")] for card in data["cards"]}
    return {name: sentences(texts)[0] for name, texts in (found | cards).items()}


def _ended(frame: str) -> str:
    """A sentence that pupils end, as one: of two words to tick one is read, a line stands for a word."""
    ticked = re.sub(r"\[\] (\w+) \[\] \w+", r"\1", frame)
    return ticked.replace("___", "it").removesuffix(", because") + "."


def _pieces(answer: str) -> list[str]:
    """A model answer as it is said, a breath at each colon; the author's reason in its marks is a sentence."""
    return [f"{piece.strip(' “”.')}." for piece in answer.split(": ")]


@cache
def library() -> textstatistics:
    """The library, with its dictionary of sounds in the form that it expects: an empty entry for a word not in it,
    which it then divides into syllables by rule. The dictionary's newer releases have no entry there."""
    from textstat.textstat import textstatistics

    made = textstatistics()
    made.cmu_dict = defaultdict(list, made.cmu_dict)
    return made


def reading_age(told: list[str], words: list[str]) -> float:
    """The reading age of some sentences, science words excepted.

    From the library's counts: its own grade rounds both averages first, which moves it by up to half a year.
    """
    text = plainly(" ".join(told), words)
    count = library().lexicon_count(text)
    grade = 0.39 * count / library().sentence_count(text) + 11.8 * library().syllable_count(text) / count - 15.59
    return float(grade) + 5
