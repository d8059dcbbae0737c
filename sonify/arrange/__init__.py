"""Arranging: Controls and a Classroom become a Score that pupils can play."""

from sonify.arrange.arranging import arrange
from sonify.arrange.playability import playability
from sonify.arrange.reach import bars_held, within_reach

__all__ = ["arrange", "bars_held", "playability", "within_reach"]
