"""PDF/UA-1 (ISO 14289-1) by a second look, besides that of typst, which makes the files: `page-validation`.

That validator (MIT; its authors hold it to the veraPDF test files) reads the bytes and shares no code with typst.
"""

from __future__ import annotations

import pytest
from page import ValidationProfile, validate_pdf_bytes

from sonify.paper import pupils_pdf
from tests.paper.packs import printed
from tests.paper.sheets import MAKERS, sample, settings
from tests.paper.test_needs import with_needs
from tests.studies import EXAMPLES


def faults(data: bytes) -> list[str]:
    report = validate_pdf_bytes(data, profile=ValidationProfile.PDF_UA_1)
    assert report.rules.total > 100
    return [f"{failure.rule_id}: {failure.message}" for failure in report.failures]


@pytest.mark.parametrize("sheet", MAKERS)
def test_every_sheet_meets_the_standard(sheet: str) -> None:
    stream = sample(sheet).stream
    stream.seek(0)
    assert faults(stream.read()) == []


@pytest.mark.parametrize("sheet", MAKERS)
def test_the_ready_made_pack_meets_it(sheet: str) -> None:
    assert faults((EXAMPLES / "harbour-pack" / f"{sheet}.pdf").read_bytes()) == []


@pytest.mark.long
def test_cards_of_their_own_and_drawings_to_feel_meet_it() -> None:
    assert faults(pupils_pdf(with_needs(), settings())) == []


@pytest.mark.long
@pytest.mark.parametrize("scene", ["woodlice-count", "the-sea-that-stayed-warm"])
def test_large_print_meets_it(scene: str) -> None:
    found = printed(scene, "few-instruments")
    assert faults(found.pupils) == [] and faults(found.teacher) == []


def test_the_look_finds_what_is_wrong() -> None:
    import typst

    bad = typst.compile(b'#set page("a5")\n= Head\n=== Too deep\n#table(columns: 2)[a][b]')
    found = " ".join(faults(bytes(bad)))
    assert "HEADING-NESTING" in found and "METADATA-TITLE" in found
