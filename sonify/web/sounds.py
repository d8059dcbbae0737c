"""The sounds of a lesson for its page: rendered as soon as the lesson is asked for, in a thread, and kept."""

from __future__ import annotations

from sonify import lesson
from sonify.page.audio import sounds_data
from sonify.page.document import json_text
from sonify.web.desk import Kept, Study

#: About 5 MB each.
MOST_KEPT = 10


class Sounds:
    """Kept by the Score's own inputs: what sounds is a function of the Score alone."""

    def __init__(self) -> None:
        self._kept: Kept[bytes] = Kept(MOST_KEPT)

    def of(self, study: Study) -> bytes:
        """The sounds as JSON, as the page reads them."""
        score = study.lesson.score
        return self._kept.of(study.key, lambda: json_text(sounds_data(lesson.sounds_of(score))).encode())
