"""Questions for the end of a lesson on an experiment of one's own: the table and the ear give their answers."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sonify.inputs.scene_blocks import quoted, was
from sonify.kinds.experiments import NUMBER, SHAPES
from sonify.records.experiment import Experiment, Series

#: Readings from so many on may hold wild ones, which stretch no rule and answer no question.
MANY = 40


def varying(experiment: Experiment) -> list[Series]:
    """The first series of each quantity that changes at all; all of them where none does."""
    firsts = [experiment.of(quantity)[0] for quantity in experiment.quantities]
    moving = [
        one
        for one in firsts
        if np.nanmax([np.nanmax(s.values) - np.nanmin(s.values) for s in experiment.of(one.quantity)]) > 0
    ]
    return moving or firsts


def questions_text(experiment: Experiment, tunes: Sequence[str] = ()) -> str:
    """Questions whose answers stand in the table, and are heard. tunes: the part of each group, in their order.

    Whose tune is highest is asked only of a class in which one value is one note in all of them (a cupboard may hold an
    instrument that sounds an octave higher), and at the end only where its last note is the highest: near values are
    one note.
    """
    rows = [_highest(experiment), _between(experiment)] if not experiment.groups else [_winner(experiment)]
    rows += [_unsure_step(experiment)]
    asked = [row for row in rows if row is not None]
    text = "".join(f"\n[[question]]\nask    = {quoted(ask)}\nanswer = {quoted(answer)}\n" for ask, answer in asked)
    if len(tunes) < 2 or not rows[0]:
        return text
    tied = [f"{tunes[0]} and {other} sound alike at the same value" for other in tunes[1:]]
    quantity = varying(experiment)[0].quantity
    where = "Where was most of all"
    if SHAPES[experiment.shape].ordered:
        where = f"Whose {quantity} {was(quantity)} greatest at the end"
        top = _greatest_last(experiment, quantity)
        if top >= len(tunes):  # of so many groups not all are played
            return text.replace(quoted(rows[0][0]), quoted(f"{where}, and how do you know?"), 1)
        tied += [f"{tunes[top]} ends higher than {other}" for other in tunes if other != tunes[top]]
    ties = ", ".join(map(quoted, tied))
    instead = quoted(f"{where}, and how do you know?")
    return f"{text}\n[[sentence]]\ntext      = {quoted(rows[0][0])}\nonly_if   = [{ties}]\notherwise = {instead}\n"


def _highest(experiment: Experiment) -> tuple[str, str] | None:
    """Where the tune is highest: only where one step alone has the greatest value."""
    series = varying(experiment)[0]
    values = series.values
    top = np.flatnonzero(values == np.nanmax(values))
    if top.size != 1 or values.size > MANY or np.nanmin(values) == np.nanmax(values):
        return None
    ask = f"Where was the tune highest, and what does that tell you about the {series.quantity}?"
    most = "we counted the most" if series.counted else f"the {series.quantity} {was(series.quantity)} greatest"
    return ask, f"{_place(experiment, int(top[0]))}: there {most}."


def _between(experiment: Experiment) -> tuple[str, str] | None:
    """A guess between two steps, or where only whole things can be changed, beyond the last one."""
    steps = experiment.steps
    if experiment.shape != NUMBER or steps.size < 3:
        return None
    widest = int(np.argmax(np.diff(steps)))
    middle = float(steps[widest] + steps[widest + 1]) / 2.0
    whole = not _unit(experiment) and bool(np.all(steps == np.round(steps)))
    if whole and middle != round(middle):
        middle = float(np.floor(middle))
    beyond = middle in steps
    asked = f"{float(2 * steps[-1] - steps[-2]) if beyond else middle:.6g} {_unit(experiment)}".strip()
    ask = f"We did not test {asked} ({experiment.changed}). What would you expect to hear, and how could we find out?"
    answer = "That the tune goes on in the same way" if beyond else "Something between the two steps beside it"
    return ask, f"{answer}, most likely. We would have to test it."


def _winner(experiment: Experiment) -> tuple[str, str] | None:
    """Which group's tune is highest at the end, or of all where the steps have no order: only where it is one alone."""
    quantity = varying(experiment)[0].quantity
    if not SHAPES[experiment.shape].ordered:
        return _highest_of_all(experiment)
    last = [one.values[-1] for one in experiment.of(quantity)]
    if not np.all(np.isfinite(last)) or sorted(last)[-1] == sorted(last)[-2]:
        return None
    group = experiment.groups[_greatest_last(experiment, quantity)]
    ask = (
        f"All tunes have the same rule. Whose was highest at the end, and what does that tell you about the {quantity}?"
    )
    return ask, f"That of {group}: there the {quantity} {was(quantity)} greatest."


def _greatest_last(experiment: Experiment, quantity: str) -> int:
    return int(np.argmax([one.values[-1] for one in experiment.of(quantity)]))


def _highest_of_all(experiment: Experiment) -> tuple[str, str] | None:
    """Where, and in which group, the one highest note is."""
    quantity = varying(experiment)[0].quantity
    every = np.array([one.values for one in experiment.of(quantity)])
    if np.count_nonzero(every == np.nanmax(every)) != 1:
        return None
    group, at = (int(place) for place in np.unravel_index(int(np.nanargmax(every)), every.shape))
    ask = "All tunes have the same rule. Where was the highest note of all, and what does that tell you?"
    where = f"{_place(experiment, at)}, {experiment.of(quantity)[group].group}"
    return ask, f"{where}: there the {quantity} {was(quantity)} greatest."


def _unsure_step(experiment: Experiment) -> tuple[str, str] | None:
    """Where the repeats lay furthest apart: only where that is one step alone."""
    series = varying(experiment)[0]
    spread = np.nan_to_num(series.most - series.least)
    widest = np.flatnonzero(spread == spread.max())
    if experiment.groups or not spread.max() > 0.0 or widest.size != 1:
        return None
    return (
        "Where would you measure again, and why?",
        f"{_place(experiment, int(widest[0]))}: there our tries lay furthest apart.",
    )


def _unit(experiment: Experiment) -> str:
    return "" if experiment.changed_unit in ("no unit", "", "1") else experiment.changed_unit


def _place(experiment: Experiment, at: int) -> str:
    label = experiment.labels[at]
    if experiment.shape == NUMBER:
        unit = _unit(experiment)
        return f"At {label} {unit}" if unit else f"At {label} ({experiment.changed})"
    return f"At {label}" if experiment.timed else label[:1].upper() + label[1:]
