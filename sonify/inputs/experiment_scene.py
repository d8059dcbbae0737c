"""The scene file of an experiment: rules on what was measured, one rule for all groups, questions true to the ear."""

from __future__ import annotations

import re
from math import ceil

import numpy as np

from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.inputs.experiment_questions import MANY, questions_text, varying
from sonify.inputs.logger_checks import spikes
from sonify.inputs.scene_blocks import PartBlock, RuleBlock, listed, part_name, quoted, round_ends, the_more, unlike
from sonify.inputs.scene_sounds import GROUND, SHIMMER, STEADY, TAPS, TUNES
from sonify.kinds.experiments import BEFORE_AFTER, MOST_STEPS
from sonify.records.experiment import Experiment, Roles, Series
from sonify.templates import template

#: So many groups have a sound each; the steady part is the last.
MOST_GROUPS = 11

#: A second part beside the tune: its name, texture and sounds, what its rule's ends become, and what is more of it.
_SECOND = {
    "density": ("taps", "scatter", TAPS, ("1 per bar", "3 per beat"), "more"),
    "dynamics": ("rolls", "tremolo", SHIMMER, ("pp", "ff"), "louder"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heard:
    """What is heard and by whom."""

    rules: tuple[RuleBlock, ...]
    parts: tuple[PartBlock, ...]
    tempo: bool = False


def experiment_scene_text(
    experiment: Experiment, roles: Roles, name: str, *, gliding: bool = False, second: str = "density"
) -> str:
    """A commented scene file for an experiment that is walked along or goes over time, to be written beside its table.

    Args:
        experiment: what was changed and measured; not categories without groups, which `measured_scene` writes.
        roles: what is what in the file, in the file's own headings, to be recorded.
        name: the scene's name, the stem of its file.
        gliding: the beat follows the readings bar by bar, because steps from stage to stage could not be told apart.
        second: how a second part is heard beside the tune of one thing: "density", "dynamics", or "" for no such part.
    """
    heard = _groups(experiment) if experiment.groups else _alone(experiment, second)
    stepped = experiment.named or (not experiment.timed and len(experiment.labels) <= MOST_STEPS)
    steps = len(experiment.labels)
    filled = {
        "file": one_line(experiment.table.file),
        "title": quoted(roles.title or _title(experiment, name)),
        "process": "measured" if experiment.timed else "experiment",
        "data": quoted(experiment.table.file),
        "story": quoted(_story(experiment)),
        "table": table_section(roles),
        "conditions": _CONDITIONS if not stepped else _REPEATS if experiment.one_by_one else "",
        "length": "3 min" if heard.tempo else f"{max(90, 10 * ceil(1.5 * min(steps, MOST_STEPS)))} s",
        "slowest": "60" if heard.tempo else "84",
        "fastest": "132" if heard.tempo else "84",
        "tempo_remark": "" if heard.tempo else "   # one beat all through: that is fair",
        "gliding": "true" if gliding else "false",
        "fair": _FAIR if experiment.groups else "Say why in words that a pupil would use.",
        "rules": "".join(rule.text() for rule in heard.rules),
        "parts": "".join(part.text() for part in heard.parts),
        "stages_are": "Their names are told by: sonify show",
        "stage": quoted(_first_stage(experiment)),
        "questions": questions_text(experiment, _tunes(experiment)),
        "kept": quoted(_kept(experiment, heard)),
    }
    return re.sub(r"\{(\w+)\}", lambda found: filled[found[1]], template("inputs", "experiment_scene.toml"))


def with_roles(text: str, roles: Roles) -> str:
    """The text of a scene with its section [table], before the music."""
    section = f"# --- What is what in the table\n\n[table]\n{table_section(roles)}\n"
    return text.replace(_MUSIC, f"{section}{_MUSIC}", 1)


def table_section(roles: Roles) -> str:
    """The lines of a section [table]: only what is known."""
    groups = quoted(roles.groups) if isinstance(roles.groups, str) else listed(roles.groups or ())
    rows = (
        ("changed", quoted(roles.changed) if roles.changed else ""),
        ("measured", listed(roles.measured) if roles.measured else ""),
        ("repeats", listed(roles.repeats) if roles.repeats else ""),
        ("groups", groups if roles.groups else ""),
        ("kept", listed(roles.kept) if roles.kept else ""),
        ("unused", listed(roles.unused) if roles.unused else ""),
        ("sheet", quoted(roles.sheet) if roles.sheet else ""),
        ("model", quoted(roles.model) if roles.model else ""),
        ("across", {True: "true", False: "false", None: ""}[roles.across]),
    )
    return "".join(f"{key:<8} = {value}\n" for key, value in rows if value)


# --- who plays what --------------------------------------------------------------------------------------------------


def _alone(experiment: Experiment, second_as: str) -> _Heard:
    """One thing was tested: its first quantity is the tune, the next ones taps and shimmer."""
    first, *others = varying(experiment)
    second = others[0] if others else first
    tune = part_name(first.quantity, "tune")
    rules = [
        _rule(
            experiment,
            first,
            "pitch",
            ("C4", "A5"),
            f"{the_more(first.quantity, first.unit)}, the higher our notes.",
            tune,
        )
    ]
    parts = [
        PartBlock(
            name=tune,
            texture="melody",
            sounds=TUNES[0],
            meaning=f"You are the {first.quantity}. Your notes say what was measured at each step.",
        )
    ]
    if second_as:
        name, texture, sounds, to, heard = _SECOND[second_as]
        part = part_name(second.quantity, name)
        to = (
            ("0 per bar", to[1]) if second_as == "density" and second.counted else to
        )  # nothing counted, nothing tapped
        rules.append(
            _rule(
                experiment,
                second,
                second_as,
                to,
                f"{the_more(second.quantity, second.unit)}, the {heard} we {name[:-1]}.",
                part,
            )
        )
        meaning = (
            f"You are the {second.quantity}. {the_more(second.quantity, second.unit)}, the {heard} you {name[:-1]}."
        )
        parts.append(PartBlock(name=part, texture=texture, sounds=sounds, meaning=meaning))
    if experiment.timed:
        why = f"{the_more(first.quantity, first.unit)}, the quicker the beat."
        rules.insert(0, _rule(experiment, first, "tempo", ("66 bpm", "120 bpm"), why))
    if len(others) > 1:
        third, name = others[1], part_name(others[1].quantity, "shimmer")
        why = f"{the_more(third.quantity, third.unit)}, the louder we shimmer."
        rules.append(_rule(experiment, third, "dynamics", ("pp", "f"), why, name))
        meaning = f"You are the {third.quantity}. You swell and fade with it."
        parts.append(PartBlock(name=name, texture="tremolo", sounds=SHIMMER, meaning=meaning))
    parts += _steady(experiment)
    if (unsure := _unsure(experiment, first)) is not None:
        rules.append(unsure[0])
        parts.append(unsure[1])
    return _Heard(rules=tuple(rules), parts=tuple(parts), tempo=experiment.timed)


def _tunes(experiment: Experiment) -> list[str]:
    """The part of each group that is compared."""
    return unlike([part_name(group) for group in experiment.groups[:MOST_GROUPS]])


def _groups(experiment: Experiment) -> _Heard:
    """Groups are compared: a tune each, one rule and one range for all, and one kind of sound."""
    quantity = varying(experiment)[0].quantity
    rules, parts = [], []
    names = _tunes(experiment)
    for number, (series, part) in enumerate(zip(experiment.of(quantity), names, strict=False)):
        read = [name for name, there in zip(experiment.words, np.isfinite(series.values), strict=True) if there]
        why = f"{the_more(quantity, series.unit)}, the higher our notes. Every group has the same rule."
        rules.append(_rule(experiment, series, "pitch", ("C4", "A5"), why, part))
        meaning = (
            f"You are {series.group}. Your notes say what the {quantity} was here, by the same rule as all others."
        )
        rests = experiment.named and len(read) < len(experiment.labels)  # nothing lies between two words
        parts.append(
            PartBlock(
                name=part,
                texture="melody",
                sounds=TUNES[number % len(TUNES)],
                meaning=meaning,
                stages=read if rests else (),
            )
        )
    return _Heard(rules=tuple(rules), parts=(*parts, *_steady(experiment)))


def _steady(experiment: Experiment) -> tuple[PartBlock, ...]:
    """Who never changes: the beat, and the ground."""
    timed = experiment.timed
    beat = (
        "You are the clock. You come round again and again."
        if timed
        else "You are the steps. You are the same at each."
    )
    return (
        PartBlock(name="The clock" if timed else "The steps", texture="ostinato", sounds=STEADY, meaning=beat),
        PartBlock(
            name="Kept the same",
            texture="drone",
            sounds=GROUND,
            meaning="You are everything that we kept the same. You never change: that is what makes the test fair.",
        ),
    )


def _unsure(experiment: Experiment, series: Series) -> tuple[RuleBlock, PartBlock] | None:
    """How far repeats lie apart, to be heard on request; None where they do not."""
    spread = series.most - series.least
    if not bool((series.tries > 1).any()) or not np.nanmax(spread) > 0.0:
        return None
    name, unit = "How sure?", f"delta_{series.unit}" if series.unit in ("degC", "degF") else series.unit
    rule = RuleBlock(
        quantity=f"{series.name} spread",
        unit=unit,
        ends=round_ends(np.array([0.0, float(np.nanmax(spread))])),
        control="dynamics",
        to=("pp", "f"),
        why="The further our tries lay apart, the louder we shimmer: here we are not so sure.",
        part=name,
        asleep=True,
    )
    meaning = "You are our doubt: how far our tries lie apart. When you are loud, we should measure again."
    return rule, PartBlock(name=name, texture="tremolo", sounds=SHIMMER, meaning=meaning, asleep=True)


def _rule(
    experiment: Experiment, series: Series, control: str, to: tuple[str, str], why: str, part: str = ""
) -> RuleBlock:
    return RuleBlock(
        quantity=series.name,
        unit=series.unit,
        ends=shared_ends(experiment, series.quantity),
        control=control,
        to=to,
        why=why,
        part=part,
    )


def shared_ends(experiment: Experiment, quantity: str) -> tuple[float, float]:
    """One range for all groups of a quantity, so that the same value is the same sound in each, and in each repeat."""
    every = experiment.of(quantity)
    usual = [
        np.delete(one.values, spikes(one.values))
        if one.values.size > MANY and not one.counted
        else np.concatenate([one.least, one.most] if experiment.one_by_one else [one.values])
        for one in every
    ]
    zero = all(one.unit not in ("degC", "degF", "dB") for one in every)
    return round_ends(np.concatenate(usual), from_nothing=zero)


# --- words -----------------------------------------------------------------------------------------------------------


def _title(experiment: Experiment, name: str) -> str:
    told = ", ".join(experiment.quantities[:3])
    return f"Our experiment: {one_line(told, 60)}, {one_line(name, 60)}"


def _story(experiment: Experiment) -> str:
    quantity = experiment.quantities[0]
    if experiment.timed:
        where = f" in {len(experiment.groups)} places or groups" if experiment.groups else ""
        return f"We measured the {quantity} again and again{where}, wrote the numbers down, and now we play them."
    if experiment.shape == BEFORE_AFTER:
        return f"We measured the {quantity} before and after, wrote the numbers into a table, and now we play it."
    return (
        f"We changed one thing, {experiment.changed}, and measured the {quantity}. We wrote the numbers into a table, "
        "and now we play it, step by step."
    )


def _first_stage(experiment: Experiment) -> str:
    return "stretch 1" if experiment.timed else "the name of a step"


def _kept(experiment: Experiment, heard: _Heard) -> str:
    kept = (
        f"We kept the same: {', '.join(experiment.kept)}. "
        if experiment.kept
        else "Name everything that was the same. "
    )
    if heard.tempo:
        return f"{kept}In the music the instruments, the scale and the rules stay the same."
    return f"{kept}In the music the beat, the instruments and the rules stay the same."


_MUSIC = "# --- The music "
_FAIR = """All groups have one
# rule and one range: the same value is the same sound in each. Keep it so, or it is no fair test."""
_REPEATS = """
[conditions]
repeats = "mean"          # how repeats are heard: "mean", or "one by one" to hear how sure you are
"""
_CONDITIONS = """
[conditions]
level     = "10 %"        # a stretch that rises or falls by less than this share of the whole range counts as level
stretches = 6             # so many stretches are looked for, at most
"""
