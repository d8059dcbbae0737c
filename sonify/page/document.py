"""The page put together: templates, styles and scripts of this folder, and one lesson's data, in a single file.

The texts of a scene reach the page in two ways only: escaped by the template engine, or as JSON that the scripts
write with `textContent`. A content security policy lets nothing run but our own script, named by its hash.
"""

from __future__ import annotations

import json
import re
from base64 import b64encode
from collections.abc import Callable
from functools import cache
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from sonify.errors import SonifyError
from sonify.facts.sounding import soundings
from sonify.page.audio import sounds_data
from sonify.page.curves import science
from sonify.page.hatching import pattern
from sonify.page.timing import BEAT_WAYS, moments, stage_rows, timing
from sonify.page.words import heading
from sonify.records.fact import Arg, Fact, fact
from sonify.records.lesson import Lesson
from sonify.records.palette import GroupStyle, group_style
from sonify.records.safe_text import for_document
from sonify.records.sendable import ELEMENT
from sonify.records.sounds import PageSounds
from sonify.say import say
from sonify.say.parts import listed, own_name
from sonify.say.pieces import script_words
from sonify.templates import template

if TYPE_CHECKING:
    from jinja2 import Environment


from math import cos, pi, sin

from sonify.facts.listening import Choice, ListeningItem, listening_items
from sonify.facts.sharing import sharing
from sonify.page.timing import dynamic_rows, spans
from sonify.records.fact import Named
from sonify.records.score import Part, Score

# The listening check as the page asks it: the very questions of the pupils' sheet, with clips to play.

#: A choice's small curve is drawn in so wide and high a picture, a line's width away from the rim.
WIDTH, HEIGHT, RIM = 120, 60, 5


def listening_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """One row a question, in the order of the pupils' sheet; none where there is little to be heard."""
    return [_row(item, lesson.score) for item in listening_items(lesson)]


def _row(item: ListeningItem, score: Score) -> dict[str, Any]:
    letters = "ab" if len(item.clips) > 1 else [""]
    return {
        "question": say(item.question),
        "clips": [
            {"bar": clip.bar, "after": clip.bar + clip.bars, "name": say(fact("listening-clip", letter=letter)).strip()}
            for clip, letter in zip(item.clips, letters, strict=True)
        ],
        "choices": [_choice(choice) for choice in item.choices],
        "answer": item.answer,
        "why": say(item.why),
        "curve": curve_told(item),
        "group": next((part.group for part in score.parts if part.name == item.part), 0),
    }


def _choice(choice: Choice) -> dict[str, Any]:
    return {
        "words": say(choice.words),
        "group": choice.group,
        "path": path(choice),
        "shade": shade(choice),
    }


def curve_told(item: ListeningItem) -> str:
    """What the small curves show; "" where there are none."""
    if not item.quantity or not any(choice.points for choice in item.choices):
        return ""
    whole = any(choice.shaded for choice in item.choices)
    return say(fact("listening-curve", quantity=Named("quantity", item.quantity), whole="yes" if whole else "no"))


def path(choice: Choice) -> str:
    """The choice's curve as an SVG path; "" where it has none."""
    places = (
        f"{RIM + x * (WIDTH - 2 * RIM):.1f} {HEIGHT - RIM - y * (HEIGHT - 2 * RIM):.1f}" for x, y in choice.points
    )
    return f"M{'L'.join(places)}" if choice.points else ""


def shade(choice: Choice) -> tuple[float, float] | None:
    """Where the meant stretch of the curve begins, and how wide it is."""
    if choice.shaded is None:
        return None
    low, high = choice.shaded
    return round(RIM + low * (WIDTH - 2 * RIM), 1), round((high - low) * (WIDTH - 2 * RIM), 1)


# The groups as the conductor sees them: where each sits, its number, look, instruments and parts ----------------------


def instruments_text(parts: list[Part], score: Score) -> str:
    """What a group plays: "3 soprano glockenspiels, suspended cymbal"; the same instrument once."""
    counts: dict[str, int] = {}
    for part in parts:
        for seat in part.seats:
            counts[seat.instrument] = max(counts.get(seat.instrument, 0), seat.count)
        if not part.seats:
            counts.setdefault(part.instrument, 1)
    rows = ((score.instrument(name), count) for name, count in counts.items())
    return ", ".join(f"{count} {row.of(count)}" if count > 1 else row.called for row, count in rows)


def seat(place: int, of: int) -> tuple[float, float]:
    """Where a group sits on the half circle, left to right: across 0 to 1, and up from the conductor 0 to 1."""
    angle = pi * (1.0 - (place + 0.5) / of)
    return round(0.5 + 0.5 * cos(angle), 4), round(sin(angle), 4)


def group_rows(score: Score, palette: tuple[GroupStyle, ...]) -> list[dict[str, Any]]:
    """One row a group, in order of number, the lowest at the conductor's left."""
    numbers = sorted({part.group for part in score.group_parts})
    rows = []
    for place, number in enumerate(numbers):
        parts = [part for part in score.group_parts if part.group == number]
        style = group_style(palette, number)
        across, up = seat(place, len(numbers))
        rows.append(
            {
                "number": number,
                "name": listed([own_name(part) for part in parts]),
                "instruments": instruments_text(parts, score),
                "sharing": "; ".join(say(told) for part in parts for told in sharing(part, score)),
                "colour": style.colour,
                "colourName": style.name,
                "hatching": style.hatching,
                "across": across,
                "up": up,
            }
        )
    return rows


def part_rows(score: Score) -> list[dict[str, Any]]:
    """One row a part, in the Score's order (the count-in too), so that events find theirs by index."""
    return [
        {
            "name": part.name,
            "group": part.group,
            "instruments": instruments_text([part], score),
            "spans": spans(part, score) if part.group else [],
            "dynamics": dynamic_rows(part),
        }
        for part in score.parts
    ]


#: The styles in the order in which they build on each other.
STYLES = ("page.css", "hear.css", "chart.css", "groups.css", "conduct.css", "particles.css", "listening.css")

LIMIT_BYTES = 10_000_000


class PageTooBig(SonifyError):
    """The page would not fit the size that a school's mail and sticks carry easily."""

    def __init__(self, size: int, limit: int) -> None:
        super().__init__(say(fact("page-too-big", size=f"{size / 1e6:.1f}", limit=f"{limit / 1e6:.0f}")))
        self.size, self.limit = size, limit


def script() -> str:
    """All modules of the page as one script, as `tests/javascript/bundle` makes it."""
    return template("page", "bundle/page.js")


def style() -> str:
    return "\n".join(template("page", name) for name in STYLES)


def content_policy(script_text: str, style_text: str) -> str:
    """The content security policy: our one script and one style sheet by their hashes, and nothing from outside."""

    def digest(text: str) -> str:
        return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"

    return (
        f"default-src 'none'; script-src {digest(script_text)}; style-src {digest(style_text)}; "
        "base-uri 'none'; form-action 'none'"
    )


def json_text(data: Any) -> str:
    """Data as JSON that is safe inside a script element: no `<`, so nothing can close the element."""
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":")).replace("<", "\\u003c")


@cache
def environment() -> Environment:
    """The template engine over this folder, escaping everything that a template prints."""
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    found = Environment(
        loader=FunctionLoader(lambda name: template("page", name)),
        autoescape=True,
        finalize=_clean,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    found.globals["told"] = told
    return found


def told(message: str, **places: Any) -> str:
    """A message of the catalogue, said: what every word of a template is."""
    return say(fact(message, **{name: _place(value) for name, value in places.items()}))


def _place(value: Any) -> Arg:
    """What fills a place: numbers that are counted stay numbers, everything else is text."""
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    return say(value) if isinstance(value, Fact | tuple | str) else str(value)


def _clean(value: Any) -> Any:
    """Words as they go into the page: facts said, texts cleaned; what is markup already is ours."""
    if isinstance(value, Fact | tuple):
        value = say(value)
    return for_document(value) if type(value) is str else value


def first_sentence(text: str) -> str:
    """The first sentence of a text, for where one line has room."""
    found = re.match(r".+?[.!?](?=\s|$)", text.strip(), re.DOTALL)
    return " ".join((found.group() if found else text).split())


def lesson_data(lesson: Lesson, palette: tuple[GroupStyle, ...]) -> dict[str, Any]:
    """Everything but the sounds that the scripts need: times, stages, groups, parts, cues and curves."""
    score = lesson.score
    return {
        "title": lesson.scene.title,
        "timing": timing(score),
        "stages": stage_rows(score),
        "groups": group_rows(score, palette),
        "parts": part_rows(score),
        "moments": moments(score),
        "science": science(lesson),
        "listening": listening_rows(lesson),
    }


def page_html(
    lesson: Lesson, sounds: PageSounds, palette: tuple[GroupStyle, ...], film: str = "", plan: str = ""
) -> str:
    """The classroom page of a lesson as one HTML text that needs no server and no network.

    film: the particle box, as `film_text` has it; "" for a page without one.
    plan: what it was made from, as JSON without `<`.
    Raises PageTooBig where the sounds make it larger than LIMIT_BYTES; where the plan alone does, that is left out.
    """
    return page_to_sound(lesson, palette, film, plan)(sounds)


#: Where the sounds go: no text of a page holds such a letter.
_SOUNDS = "\0sounds\0"


def page_to_sound(
    lesson: Lesson, palette: tuple[GroupStyle, ...], film: str = "", plan: str = ""
) -> Callable[[PageSounds], str]:
    """All of `page_html` but the sounds, made now; what comes back puts them in."""
    head, _, tail = _page(lesson, palette, film, sounds=_SOUNDS, address="", plan=plan).partition(_SOUNDS)

    def sounding(sounds: PageSounds) -> str:
        text = f"{head}{json_text(sounds_data(sounds))}{tail}"
        size = len(text.encode())
        if plan and size > LIMIT_BYTES:
            return page_html(lesson, sounds, palette, film)
        if size > LIMIT_BYTES:
            raise PageTooBig(size, LIMIT_BYTES)
        return text

    return sounding


def served_page_html(
    lesson: Lesson, palette: tuple[GroupStyle, ...], film: str, address: str, *, records: bool = True
) -> str:
    """The same page from a running server: it asks for its sounds at `address`, and leads back to Plan and Print.

    records: whether it leads to "Our recording", too."""
    return _page(lesson, palette, film, sounds="", address=address, records=records)


def _page(
    lesson: Lesson,
    palette: tuple[GroupStyle, ...],
    film: str,
    *,
    sounds: str,
    address: str,
    plan: str = "",
    records: bool = False,
) -> str:
    from markupsafe import Markup

    data, script_text, style_text = lesson_data(lesson, palette), script(), style()
    styles = {row["number"]: group_style(palette, row["number"]) for row in data["groups"]}
    policy = content_policy(script_text, style_text)
    return (
        environment()
        .get_template("page.html")
        .render(
            lesson=lesson,
            score=lesson.score,
            sounds=soundings(lesson.scene, lesson.score),
            keys=sorted(lesson.controls.keys, key=lambda key: key.rule.control != "tempo"),
            as_heading=heading,
            data=data,
            listening=data["listening"],
            film=json.loads(film) if film else None,
            opening=first_sentence(lesson.scene.story),
            ways=BEAT_WAYS[lesson.score.metre.beats],
            science_of={stage.name: say(stage.science) for stage in lesson.timeline.stages},
            hatchings=[Markup(pattern(look, f"hatch-{number}")) for number, look in styles.items()],
            policy=f"{policy}; connect-src 'self'" if address else policy,
            address=address,
            records=records,
            script=Markup(script_text),
            style=Markup(style_text),
            words_json=Markup(for_document(json_text(script_words()))),
            lesson_json=Markup(for_document(json_text(data))),
            sounds_json=Markup(sounds),
            film_json=Markup(film.replace("<", "\\u003c")),
            plan_id=ELEMENT,
            plan_json=Markup(plan),
        )
    )
