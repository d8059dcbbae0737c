"""Every scene's sheets looked at by program: on both papers, in ordinary and large print, for two classes.

What is counted: text cut off, text on text, letters under 12 points on a page for pupils, halves left empty on a page
that is printed, and faults of PDF/UA-1.
"""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from page import ValidationProfile, validate_pdf_bytes

from sonify.kinds.pupil_sheets import ALSO
from sonify.lesson import sheet_files
from sonify.notation.free import free_as_boxes
from sonify.notation.musicxml import musicxml_bytes
from sonify.paper.printlist import PrintRow
from tests.campaign.tally import Tally
from tests.paper.looked import blank_halves, colliding, cut_off, small
from tests.paper.sheets import settings
from tests.studies import SCENES, studied

LEAST_PT = 12.0
#: Class, paper, large print.
PRINTS = (
    ("well-stocked", "a4", False),
    ("few-instruments", "us-letter", False),
    ("well-stocked", "a4", True),
    ("nine-groups", "a4", False),
    ("nine-groups", "us-letter", True),
)


def sheets(tally: Tally, every: int, seed: int = 1) -> None:
    """A share of the scenes, each in every print. seed: which share."""
    with TemporaryDirectory() as folder:
        for scene in SCENES[(seed - 1) % every :: every]:
            for classroom, paper, large in PRINTS:
                for name, data, shown in _files(scene, classroom, paper, large):
                    where = f"{scene}, {classroom}, {paper}{', large' if large else ''}, {name}"
                    _look(tally, data, shown, Path(folder) / f"{name}.pdf", where)


def _files(scene: str, classroom: str, paper: str, large: bool) -> list[tuple[str, bytes, set[int]]]:
    """Each file with its name and the pages that are printed."""
    lesson, rows = studied(scene, classroom), list[PrintRow]()
    chosen = settings(paper=paper, large_print=large, also=ALSO)
    made = list(sheet_files.sheets(lesson, lambda: musicxml_bytes(free_as_boxes(lesson.score)), chosen, rows.extend))
    found = []
    for file, data in made:
        shown = {page for row in rows if row.file == file for page in row.pages}
        if file == "teacher.pdf" and shown:
            shown.discard(max(shown))  # the last page of a guide ends where it ends
        found.append((file.removesuffix(".pdf"), data, shown))
    return found


def _look(tally: Tally, data: bytes, shown: set[int], file: Path, where: str) -> None:
    file.write_bytes(data)
    looks = {
        "text cut off": cut_off(file) if file.stem != "poster" else [],
        "text on text": colliding(file),
        "letters too small": small(data, LEAST_PT) if file.stem == "pupils" else [],
        "half a page empty": [f"page {page}" for page in blank_halves(file) if page in shown],
        "PDF/UA-1": [fault.rule_id for fault in validate_pdf_bytes(data, profile=ValidationProfile.PDF_UA_1).failures],
    }
    for kind, faults in looks.items():
        tally.add(kind)
        for fault in faults:
            tally.wrong(kind, fault, where)
