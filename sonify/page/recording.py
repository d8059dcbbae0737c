"""The page of the class's own recording: brought, measured by the server, and set beside the science.

It is no part of a pack: without a server there is nobody who measures.
"""

from __future__ import annotations

from sonify.page.document import content_policy, environment, json_text, lesson_data
from sonify.records.lesson import Lesson
from sonify.records.palette import GroupStyle
from sonify.records.safe_text import for_document
from sonify.say.pieces import script_words
from sonify.templates import template

STYLES = ("page.css", "hear.css", "recording.css")
#: The page sends to its own server alone, and plays what a person has just given it.
ALLOWED = "connect-src 'self'; media-src blob:"
#: What of a lesson's data the page needs, to play the piece.
NEEDED = ("title", "timing", "stages", "parts")


def script() -> str:
    """All modules of the page as one script, as `tests/javascript/bundle` makes it."""
    return template("page", "bundle/recording.js")


def recording_html(lesson: Lesson, key: str, phones: str, palette: tuple[GroupStyle, ...]) -> str:
    """key: of the lesson on its server. phones: the address where a phone sends a recording; "" where none can."""
    from markupsafe import Markup

    data = lesson_data(lesson, palette)
    script_text, style_text = script(), "\n".join(template("page", name) for name in STYLES)
    return (
        environment()
        .get_template("recording.html")
        .render(
            lesson=lesson,
            score=lesson.score,
            key=key,
            address=f"/lesson/{key}/sounds",
            phones=phones,
            policy=f"{content_policy(script_text, style_text)}; {ALLOWED}",
            script=Markup(script_text),
            style=Markup(style_text),
            words_json=Markup(for_document(json_text(script_words("script_record")))),
            lesson_json=Markup(for_document(json_text({name: data[name] for name in NEEDED}))),
        )
    )
