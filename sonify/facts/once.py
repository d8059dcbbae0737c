"""What is found out about a lesson is found out once: sheets, page and cues read the same."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar
from weakref import WeakKeyDictionary

from sonify.records.lesson import Lesson

Found = TypeVar("Found")


def once_a_lesson(find: Callable[[Lesson], Found]) -> Callable[[Lesson], Found]:
    """The function, remembering what it found for a lesson as long as that lesson is in use."""
    known: WeakKeyDictionary[Lesson, Found] = WeakKeyDictionary()

    @wraps(find)
    def found(lesson: Lesson) -> Found:
        if lesson not in known:
            known[lesson] = find(lesson)
        return known[lesson]

    return found
