"""What a conductor does: actions, the gesture of each, and why. Their words and drawings are found by these names."""

from __future__ import annotations

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One kind of cue. fine: what a beginner may leave to the players. gestures: how to show it."""

    id: str
    gestures: tuple[str, ...]
    fine: bool = False


#: How a pattern is shown, from the first on.
FINGERS = ("one-finger", "two-fingers", "three-fingers")
#: In the order in which they are done at one moment.
ACTIONS = {
    row.id: row
    for row in (
        Action(id="start", gestures=("start",)),
        Action(id="tempo", gestures=("quicker", "slower", "quicker-by-and-by", "slower-by-and-by")),
        Action(id="enter", gestures=("come-in",)),
        Action(id="change", gestures=(*FINGERS, "change", "own-idea", "softer-beaters", "harder-beaters", "letter")),
        Action(id="rest", gestures=("rest", "breath")),
        Action(id="louder", gestures=("louder",), fine=True),
        Action(id="softer", gestures=("softer",), fine=True),
        Action(id="stop", gestures=("stop",)),
    )
}
#: Which action a gesture belongs to.
ACTION_OF = {gesture: row.id for row in ACTIONS.values() for gesture in row.gestures}
