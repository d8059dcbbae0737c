"""The shelf: one page that leads to many packs, each scene with its curve, its topics and its years.

It needs no script, no server and no network: it is opened from the stick or the shared drive on which the packs lie.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from html import escape
from typing import Any
from urllib.parse import quote

from sonify.kinds.packfiles import FOR_PEOPLE
from sonify.page.curves import science
from sonify.page.document import content_policy, environment
from sonify.records.fact import Elapsed, fact
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.say import say
from sonify.templates import template

#: A card's curve has at most about so many points.
POINTS = 120
#: "England, science, Years 5 and 6, forces: ...", as the ready-made scenes have it.
CURRICULUM = re.compile(
    r"[^,:]+, science, (?P<years>Years? (?P<first>\d)(?: (?:and|to) (?P<last>\d))?), (?P<topic>[^:]+):"
)
#: What every scene serves besides its topic.
METHOD = "working scientifically"


def card_of(lesson: Lesson) -> dict[str, Any]:
    """What the shelf shows of a pack, as JSON can hold it."""
    first, scene, score = science(lesson)["curves"][0], lesson.scene, lesson.score
    topics = topics_of(scene)
    years = sorted({year for _, _, covered in topics for year in covered})
    return {
        "scene": scene.name,
        "title": say(scene.title),
        "topics": [[years, topic] for years, topic, _ in topics],
        "years": years,
        "ages": list(scene.ages),
        "length": say(fact("shelf-length", length=Elapsed(float(score.clock.seconds(score.end_beat))))),
        "curve": str(first["title"]),
        "described": first["described"],
        "kind": first["kind"],
        "paths": first["paths"] or [path(first["points"])],
        "stages": [say(section.title) for section in score.sections],
        "class": lesson.classroom.name,
        "year": lesson.classroom.year,
        "pupils": lesson.classroom.pupils,
    }


def topics_of(scene: Scene) -> list[tuple[str, str, list[int]]]:
    """The years in words, the topic and the years of each line of the curriculum that is about science.

    How to work scientifically is a topic of its own only where the scene names no other.
    """
    found = []
    for line in scene.curriculum:
        if read := CURRICULUM.match(line):
            first, last = int(read["first"]), int(read["last"] or read["first"])
            found.append((read["years"], read["topic"].strip(), list(range(first, last + 1))))
    topics = [row for row in found if row[1] != METHOD]
    return topics or found


def path(heights: Sequence[int]) -> str:
    """A curve as an SVG path in a square of 1000, y downwards; "" where nothing is measured.

    >>> path([0, 1000, 500])
    'M0 1000L500 0L1000 500'
    """
    if len(heights) < 3:
        return ""
    step = max(1, len(heights) // POINTS)
    places = sorted({*range(0, len(heights), step), len(heights) - 1})
    return "M" + "L".join(f"{1000 * place / (len(heights) - 1):.0f} {1000 - heights[place]}" for place in places)


def shelf_html(cards: Iterable[tuple[str, Mapping[str, Any]]]) -> str:
    """The page for packs at these folders, SCENE/CLASS below the page itself."""
    from markupsafe import Markup

    scenes: dict[str, dict[str, Any]] = {}
    for folder, card in cards:
        within = folder.split("/")[0]
        shown = scenes.setdefault(within, {**card, "packs": []})
        shown["packs"].append({**card, "files": _links(folder)})
    ordered = sorted(scenes.values(), key=lambda each: (each["years"] or [each["ages"][0] - 4], each["title"]))
    for place, shown in enumerate(ordered, start=1):
        shown["id"] = f"scene-{place}"
        shown["packs"].sort(key=lambda pack: (pack["year"], pack["class"]))
    years = {year: [each for each in ordered if year in each["years"]] for year in range(1, 14)}
    style = template("page", "page.css") + template("page", "shelf.css")
    return (
        environment()
        .get_template("shelf.html")
        .render(
            scenes=ordered,
            years={year: found for year, found in years.items() if found},
            packs=sum(len(each["packs"]) for each in ordered),
            picture=lambda card: Markup(picture(card)),
            policy=content_policy("", style),
            style=Markup(style),
        )
    )


def _links(folder: str) -> list[tuple[str, str]]:
    """The files that people open, the page and the guide first: message and address."""
    order = {"page.html": 0, "teacher.pdf": 1}
    files = sorted(FOR_PEOPLE, key=lambda file: order.get(file, 2))
    return [(f"shelf-{file.replace('.', '-')}", quote(f"{folder}/{file}")) for file in files]


def picture(card: Mapping[str, Any]) -> str:
    """A card's curve as SVG, with the sentence that describes it for those who do not see it.

    >>> picture({"paths": ["M0 9L9 0"], "kind": "line", "curve": "Ice & steam", "described": "It rises."})[-66:]
    'aria-label="Ice &amp; steam. It rises."><path d="M0 9L9 0"/></svg>'
    """
    label = escape(f"{card['curve']}. {card['described']}")
    head = f'<svg class="{escape(str(card["kind"]))}" viewBox="-20 -20 1040 1040" preserveAspectRatio="none" role="img"'
    return f'{head} aria-label="{label}">' + "".join(f'<path d="{escape(d)}"/>' for d in card["paths"]) + "</svg>"
