"""Every scene's sheets in the pseudo-language, ordinary and large print."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from tests.campaign.tally import Tally
from tests.paper.said import off_the_page, pseudo_sheets, unsaid
from tests.studies import SCENES, studied

KIND = "sheets in the pseudo-language"


def sheets(tally: Tally, every: int) -> None:
    """A share of the scenes, each in both prints."""
    with TemporaryDirectory() as folder:
        for scene in SCENES[::every]:
            lesson = studied(scene)
            for large in (False, True):
                for sheet, data in pseudo_sheets(lesson, large_print=large).items():
                    tally.add(KIND)
                    where = f"{scene}, {sheet}{', large print' if large else ''}"
                    for word in sorted(unsaid(data, lesson)):
                        tally.wrong(KIND, f"not said: {word}", where)
                    for word in off_the_page(data, Path(folder)):
                        tally.wrong(KIND, f"off the page: {word}", where)
