"""Arranging: Controls and a Classroom become a Score that pupils can play."""

from sonify.arrange.arranging import arrange
from sonify.arrange.playability import playability
from sonify.arrange.reach import within_reach

__all__ = ["arrange", "playability", "within_reach"]
