"""Each word of the trade that the page uses, explained for somebody who is no musician and no scientist."""

from __future__ import annotations

from sonify.kinds.controls import CONTROLS
from sonify.records.fact import fact
from sonify.say import say

#: The words that are explained where they stand, each by its message `term-...`.
TERMS = (
    *("scene", "stage", "condition", "rule", "tempo", "pitch", "density", "dynamics", "brightness"),
    *("drone", "ostinato", "melody", "tremolo", "scatter"),
    *("scaffold", "exaggeration", "audible", "linear", "logarithmic", "stems", "swap"),
)


def terms() -> dict[str, str]:
    """Word -> one or two plain sentences. The page shows them where the word stands."""
    return {term: say(fact(f"term-{term}")) for term in TERMS}


def control_words() -> dict[str, str]:
    """What each control of the sound is called on the page."""
    return {control: say(fact(f"term-control-{control}")) for control in CONTROLS}
