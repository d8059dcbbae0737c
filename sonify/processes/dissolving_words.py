"""The stages of salt dissolving, found in the model's output, and what a teacher reads about them, with figures."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from sonify.processes.declared import Adviser, first, spans
from sonify.processes.dissolving_model import Jar, Setup, dissolve
from sonify.records.process import ConditionSpec, StageSpec
from sonify.records.timeline import Event, Missing
from sonify.records.words import duration_text, number_text

GRAMS = 1.0e3
HALF, OVER = 0.5, 0.02  # of the greatest rate after stirring began
NONE_LEFT = 1.0e-3  # of the salt: the grains count as gone

STAGES = (
    StageSpec(
        name="resting", title="The salt lies on the bottom", seen_as="from the salt going in until stirring begins"
    ),
    StageSpec(
        name="stirring",
        title="Stirred, it dissolves fast",
        seen_as="from the first turn of the spoon until the rate has fallen to half of its greatest",
    ),
    StageSpec(
        name="slowing",
        title="It dissolves more and more slowly",
        seen_as=f"from then until the rate has fallen to {100 * OVER:g} % of its greatest, or no grain is left",
    ),
    StageSpec(name="full", title="Hardly anything more dissolves", seen_as="from then to the end"),
)


def found(jar: Jar) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    last = jar.time_s.size - 1
    gone = jar.grains_kg <= NONE_LEFT * jar.setup.salt
    begun = first(jar.turning_rad_s > 0.0)
    if begun is not None and (gone[begun] or begun >= last):
        begun = None
    half = over = None
    if begun is not None:
        peak = begun + int(np.argmax(jar.rate_kg_s[begun:]))
        greatest = float(jar.rate_kg_s[peak])
        half = first(jar.rate_kg_s <= HALF * greatest, peak)
        over = first((jar.rate_kg_s <= OVER * greatest) | gone, half) if half is not None else None
    starts = {"resting": 0 if begun != 0 else None, "stirring": begun, "slowing": half, "full": over}
    return spans(starts, last)


def grams(mass_kg: float) -> str:
    return f"{max(GRAMS * mass_kg, 0.0):.1f} g"


def per_minute(rate_kg_s: float) -> str:
    return f"{number_text(60.0 * GRAMS * rate_kg_s, 2)} g a minute"


def layer(jar: Jar, sample: int) -> str:
    return f"{number_text(1.0e3 * float(jar.layer_m[sample]), 2)} mm"


def saturated(jar: Jar) -> bool:
    """More salt than the water can hold."""
    return jar.setup.salt > jar.setup.most_kg


def science_sentences(jar: Jar, came: Mapping[str, tuple[int, int]]) -> dict[str, str]:
    """One sentence or two a stage, with this run's own figures."""
    writers = {"resting": _resting, "stirring": _stirring, "slowing": _slowing, "full": _full}
    return {name: writers[name](jar, *span) for name, span in came.items()}


def _resting(jar: Jar, start: int, end: int) -> str:
    gone, seconds = float(jar.dissolved_kg[end]), float(jar.time_s[end])
    return (
        f"{grams(jar.setup.salt)} of salt lie on the bottom. In {duration_text(seconds)} only {grams(gone)} dissolve, "
        f"for the water just over them fills up with salt, and a layer of {layer(jar, start)} clings to every grain. "
        f"At first {per_minute(float(jar.rate_kg_s[start]))} go, in the end "
        f"{per_minute(float(jar.rate_kg_s[max(end - 1, 0)]))}."
    )


def _stirring(jar: Jar, start: int, end: int) -> str:
    turns = 60.0 * float(jar.turning_rad_s[start]) / (2.0 * math.pi)
    return (
        f"The spoon goes round {number_text(turns, 2)} times a minute. Fresh water comes to the grains, and the layer "
        f"that clings is {layer(jar, start)} thin: up to {per_minute(float(jar.rate_kg_s[start:end].max()))} dissolve. "
        f"After {duration_text(float(jar.time_s[end] - jar.time_s[start]))} {grams(float(jar.dissolved_kg[end]))} are "
        "dissolved."
    )


def _slowing(jar: Jar, start: int, end: int) -> str:
    size = 1.0e3 * float(jar.grain_m[start])
    return (
        f"There is less room left in the water, and the grains are smaller ({number_text(size, 2)} mm), with less "
        f"surface: in {duration_text(float(jar.time_s[end] - jar.time_s[start]))} the rate falls from "
        f"{per_minute(float(jar.rate_kg_s[start]))} to {per_minute(float(jar.rate_kg_s[end]))}. The water is "
        f"{100.0 * float(jar.fullness[end]):.0f} % full of salt."
    )


def _full(jar: Jar, start: int, end: int) -> str:
    dissolved = grams(float(jar.dissolved_kg[end]))
    if saturated(jar):
        return (
            f"The water is {100.0 * float(jar.fullness[start]):.0f} % full: {GRAMS * jar.setup.water_kg:.0f} g of it "
            f"can hold {grams(jar.setup.most_kg)} of salt, no more. Of {grams(float(jar.grains_kg[start]))} in grains "
            f"{grams(float(jar.grains_kg[start] - jar.grains_kg[end]))} still dissolve in "
            f"{duration_text(float(jar.time_s[end] - jar.time_s[start]))}; "
            f"{grams(jar.setup.salt - jar.setup.most_kg)} would stay undissolved, however long you stir."
        )
    return (
        f"All of the salt, {dissolved}, is dissolved, and none of it is gone. The water is "
        f"{100.0 * float(jar.fullness[end]):.0f} % full: it could hold {grams(jar.setup.most_kg)}."
    )


def events(jar: Jar, came: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments worth naming, in order."""
    moments: list[tuple[int, str, str]] = [(0, "salt goes in", "The salt goes into the water and sinks to the bottom.")]
    if "stirring" in came:
        moments.append((came["stirring"][0], "first turn", "The spoon begins to stir."))
    half = first(jar.dissolved_kg >= 0.5 * jar.setup.salt)
    if half is not None:
        moments.append((half, "half dissolved", f"Half of the salt is dissolved: {grams(0.5 * jar.setup.salt)}."))
    gone = first(jar.grains_kg <= NONE_LEFT * jar.setup.salt)
    if gone is not None:
        moments.append((gone, "last grain", "The last grains are dissolved."))
    elif "full" in came:
        at = came["full"][0]
        share = f"{100.0 * float(jar.fullness[at]):.0f} % full"
        left = f"{grams(float(jar.grains_kg[at]))} of salt are in grains"
        moments.append((at, "water nearly full", f"The water is {share}: it dissolves hardly any more, and {left}."))
        last = jar.time_s.size - 1
        if last > at:
            text = f"In the end {grams(float(jar.grains_kg[last]))} of salt are left in grains."
            moments.append((last, "what is left", text))
    return tuple(Event(name=name, time_s=float(jar.time_s[at]), text=text) for at, name, text in sorted(moments))


def missing(
    jar: Jar, came: Mapping[str, tuple[int, int]], conditions: Mapping[str, float], specs: tuple[ConditionSpec, ...]
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change."""
    adviser = Adviser(specs=specs, conditions=conditions, found=lambda changed: found(dissolve(Setup.of(changed))))
    usual = {spec.name: spec.default for spec in specs}
    setup = jar.setup
    longer = [("watching", factor * setup.watching) for factor in (2.0, 5.0, 12.0)]
    if setup.stirring <= 0.0:
        unstirred = "nobody stirs"
    elif setup.stir_after >= setup.watching:
        unstirred = "stirring would begin only after the time watched"
    else:
        unstirred = "all of the salt is dissolved before stirring begins"
    begin = [
        ("stirring", usual["stirring"]),
        ("stir_after", 0.2 * setup.watching),
        ("stir_after", 0.0),
        ("salt", 5.0 * setup.salt),
    ]
    stirred = setup.stirring > 0.0 and "stirring" in came
    reasons = {
        "resting": ("stirring begins at once", [("stir_after", 0.2 * setup.watching)]),
        "stirring": (unstirred, begin),
        "slowing": (
            "the rate has not fallen to half when the time is over" if stirred else unstirred,
            [*longer, ("grain", 0.3 * setup.grain)] if stirred else begin,
        ),
        "full": (
            f"salt is still dissolving after {duration_text(setup.watching)}" if stirred else unstirred,
            [*longer, ("grain", 0.3 * setup.grain)] if stirred else begin,
        ),
    }
    return tuple(adviser.missing(stage.name, *reasons[stage.name]) for stage in STAGES if stage.name not in came)
