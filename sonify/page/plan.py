"""The Plan and Print views: one page that a running server gives out, put together like the static page.

Texts of scenes reach it in two ways only: escaped by the template engine, or as JSON that the scripts write with
`textContent`. Its content security policy names our one script and one style sheet by their hashes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sonify.kinds.controls import CONTROLS
from sonify.kinds.textures import TEXTURES
from sonify.kinds.topics import TOPICS
from sonify.page.document import content_policy, environment, first_sentence, json_text
from sonify.page.hatching import pattern
from sonify.records.fact import fact
from sonify.records.palette import GroupStyle, group_style
from sonify.records.safe_text import for_document
from sonify.say import say
from sonify.say.pieces import script_words
from sonify.templates import template
from sonify.units import PRINTED

# Each word of the trade that the page uses, explained for somebody who is no musician and no scientist.

#: The words that are explained where they stand, each by its message `term-...`.
TERMS = (
    *("scene", "stage", "condition", "rule", "tempo", "pitch", "density", "dynamics", "brightness"),
    *TEXTURES,
    *("scaffold", "exaggeration", "audible", "linear", "logarithmic", "decibels", "stems", "swap"),
)


def terms() -> dict[str, str]:
    """Word -> one or two plain sentences. The page shows them where the word stands."""
    return {term: say(fact(f"term-{term}")) for term in TERMS}


def control_words() -> dict[str, str]:
    """What each control of the sound is called on the page."""
    return {control: say(fact(f"term-control-{control}")) for control in CONTROLS}


#: In the order in which they build on each other.
STYLES = (
    *("page.css", "hear.css", "chart.css"),
    *(
        "plan.css",
        "plan_table.css",
        "plan_draw.css",
        "plan_pattern.css",
        "plan_choose.css",
        "plan_keep.css",
        "plan_fields.css",
        "plan_bench.css",
        "plan_own.css",
        "plan_seats.css",
        "print.css",
    ),
)

#: What the page may load: itself, what it asks of its own server, and pictures of the sheets from there.
ALLOWED = "connect-src 'self'; img-src 'self' data:"

#: The scene that a first visit offers: short to tell, and every kind of sound is in it.
FIRST = "harbour-water-cycle"

#: The files that can be opened, by their endings.
ACCEPTED = ".toml,.csv,.txt,.tsv,.xlsx,.xlsm,.ods,.zip,.html"

#: A scene's picture is drawn on a field of this width and height.
WIDE, HIGH = 320, 120

#: Hatchings are drawn for so many groups; a class has at most as many.
GROUPS = 12


def picture_path(points: Sequence[Sequence[float]]) -> str:
    """The line of a scene's picture; points are 0 to 1 both ways, upwards."""
    places = (f"{x * WIDE:.1f} {HIGH * (0.92 - 0.62 * y):.1f}" for x, y in points)
    return "M" + "L".join(places)


def picture_columns(starts: Sequence[float]) -> list[dict[str, Any]]:
    """The stages of a scene's picture as columns: where each begins, how wide it is, and its letter."""
    edges = [*starts, 1.0]
    return [
        {"x": round(a * WIDE, 1), "width": round((b - a) * WIDE, 1), "letter": "ABCDEFGHIJKLMNOPQRSTUVWXYZ"[k % 26]}
        for k, (a, b) in enumerate(zip(edges, edges[1:], strict=False))
    ]


def scene_cards(scenes: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """What a card shows of each scene."""
    return [
        {
            **scene,
            "opening": first_sentence(str(scene["story"])),
            "ages_words": _ages(scene["ages"]),
            "minutes_words": say(fact("planner-minutes-long", minutes=f"{scene['minutes']:g}")),
            "path": picture_path(scene["picture"]["points"]) if scene["picture"] else "",
            "columns": picture_columns(scene["picture"]["stages"]) if scene["picture"] else [],
        }
        for scene in scenes
    ]


def _ages(ages: Sequence[int]) -> str:
    return say(fact("planner-ages", youngest=min(ages), oldest=max(ages))) if ages else ""


def families(instruments: Sequence[Mapping[str, Any]]) -> list[tuple[str, list[Mapping[str, Any]]]]:
    """The instruments under the headings of their families, in the catalogue's order."""
    found: dict[str, list[Mapping[str, Any]]] = {}
    for row in instruments:
        found.setdefault(say(fact(f"planner-family-{row['family']}")), []).append(row)
    return list(found.items())


def script() -> str:
    """All modules of these views as one script, as `tests/javascript/bundle` makes it."""
    return template("page", "bundle/plan.js")


def style() -> str:
    return "\n".join(template("page", name) for name in STYLES)


def plan_page(start: Mapping[str, Any], palette: tuple[GroupStyle, ...]) -> str:
    """The page with the Plan and Print views as one HTML text.

    start: what the server's /api/start says; it goes into the page, which needs no second request for it.
    """
    from markupsafe import Markup

    script_text, style_text = script(), style()
    looks = [group_style(palette, number) for number in range(1, GROUPS + 1)]
    cards = scene_cards(start["scenes"])
    first = next((card for card in cards if card["name"] == FIRST), cards[0])
    return (
        environment()
        .get_template("plan.html")
        .render(
            start=start,
            cards=cards,
            first=first,
            families=families(start["instruments"]),
            topics=[topic for topic in TOPICS if any(topic in card["topics"] for card in cards)],
            years=sorted({year for card in cards for year in card["years"]}),
            size=(WIDE, HIGH),
            terms=terms(),
            accept=ACCEPTED,
            hatchings=[Markup(pattern(look, f"hatch-{number}")) for number, look in enumerate(looks, 1)],
            policy=f"{content_policy(script_text, style_text)}; {ALLOWED}",
            script=Markup(script_text),
            style=Markup(style_text),
            words_json=Markup(for_document(json_text(script_words()))),
            data_json=Markup(
                json_text(
                    {**start, "first": first["name"], "terms": terms(), "controls": control_words(), "units": PRINTED}
                )
            ),
        )
    )
