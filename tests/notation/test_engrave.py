"""Engraved pages: every note drawn, every mark shown, nothing clipped, the same wherever they are made."""

from __future__ import annotations

import io
import re
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
import typst
from lxml import etree
from PIL import Image
from pypdf import PdfReader

from sonify.errors import OutOfRange, UnknownName
from sonify.notation import engrave, mei, svg
from sonify.notation import texts as page_texts
from sonify.notation.engrave import engraved_pages
from sonify.notation.mei import MEI, XML_ID
from sonify.notation.musicxml import musicxml_bytes
from sonify.records.score import Score
from tests.catalogue import ROOT, catalogue
from tests.notation.boxes import boxes, inner, width_ems
from tests.notation.reading import struck
from tests.sample import cue as sample_cue
from tests.sample import sample_score

FONTS = [str(ROOT / "shared" / "fonts")]


def pages_of(score: Score, **options: object) -> tuple[str, ...]:
    return engraved_pages(musicxml_bytes(score), **options)  # type: ignore[arg-type]


def tiled(times: int, groups: int = 1) -> Score:
    """The sample, several times over, for more groups: a piece of real length."""
    one = sample_score(with_blank=True)
    parts = [one.parts[0]]
    for group in range(groups):
        for part in one.parts[1:]:
            parts.append(
                replace(
                    part,
                    name=f"{part.name} {group + 1}" if group else part.name,
                    group=part.group + 4 * group,
                    notes=tuple(replace(n, beat=n.beat + one.end_beat * k) for k in range(times) for n in part.notes),
                    dynamics=tuple(replace(d, bar=d.bar + one.bars * k) for k in range(times) for d in part.dynamics),
                    blanks=tuple(replace(b, bar=b.bar + one.bars * k) for k in range(times) for b in part.blanks),
                )
            )
    return replace(
        one,
        bars=one.bars * times,
        parts=tuple(parts),
        sections=tuple(replace(s, bar=s.bar + one.bars * k) for k in range(times) for s in one.sections),
        cues=tuple(replace(c, bar=c.bar + one.bars * k) for k in range(times) for c in one.cues),
        tempi=tuple(replace(t, bar=t.bar + one.bars * k) for k in range(times) for t in one.tempi),
    )


def texts(pages: tuple[str, ...]) -> list[str]:
    return [box.text for page in pages for box in boxes(page)]


def check_texts(pages: tuple[str, ...]) -> None:
    """Every line of text is on its page, and none lies on another."""
    for page in pages:
        edge = inner(etree.fromstring(page.encode()))
        found = boxes(page)
        assert found
        for box in found:
            assert edge.left <= box.left and box.right <= edge.right, box
            assert edge.top <= box.top and box.bottom <= edge.bottom, box
        for one, other in combinations(found, 2):
            assert not one.overlap(other), (one, other)


def pdf(page: str, **options: list[str]) -> bytes:
    """The page through the typesetting library, with the project's fonts only; no warning allowed."""
    source = (
        '#set document(title: "Score")\n#set page(width: auto, height: auto, margin: 0mm)\n'
        '#figure(alt: "Score", image(bytes(sys.inputs.page), format: "svg"))'
    )
    document, warnings = typst.compile_with_warnings(
        source.encode(), sys_inputs={"page": page}, font_paths=FONTS, ignore_system_fonts=True, **options
    )
    assert not warnings
    return bytes(document)


def test_every_notehead_is_drawn() -> None:
    score = sample_score()
    written = sum(len(struck(part)) for part in score.parts)  # the sample ties nothing
    drawn = sum(len(re.findall(r'class="notehead"', page)) for page in pages_of(score))
    assert drawn == written


def test_a_failed_or_empty_reading_is_an_error() -> None:
    with pytest.raises(RuntimeError, match="could not read the score"):
        engraved_pages(b"<score-partwise/>" * 2)


def test_a_lost_note_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(svg, "notes", lambda page: 3)
    with pytest.raises(RuntimeError, match=r"drew 3 notes of \d+"):
        pages_of(sample_score())


def doubled(*, apart: bool = False, name: str = "The sea", tied: bool = True) -> Score:
    """The sample with a second instrument in the sea's part, doing the same, or the same but for one stroke or tie."""
    score = sample_score()
    sea = score.parts[1]
    drum = tuple(replace(note, beats=note.beats * 2) for note in sea.notes[::2])
    stick = tuple(replace(note, instrument="rain-stick", midi=70) for note in (drum if tied else sea.notes))
    if apart:
        stick = stick[:-1]
    both = replace(sea, name=name, notes=tuple(sorted((*drum, *stick), key=lambda note: note.beat)))
    return replace(score, parts=(score.parts[0], both, *score.parts[2:]), instruments=catalogue().instruments, cues=())


def names_of_the_sea(score: Score) -> list[str]:
    found = texts(pages_of(score))
    return [text for text in found if "drum" in text or "stick" in text]


def test_instruments_of_a_part_that_do_the_same_share_a_staff() -> None:
    score = doubled()
    written = sum(len(struck(part)) for part in score.parts)
    page = pages_of(score)[0]
    assert names_of_the_sea(score) == ["Ocean drum, rain stick"]
    # Of the sea's 6 + 6 strokes 6 are drawn, each tied to a second note in the next bar.
    assert len(re.findall(r'class="notehead"', "".join(pages_of(score)))) == written - 6 + 6
    assert page.count('class="tie"') >= 1
    check_texts(pages_of(score))


def test_nothing_is_left_hanging_on_a_staff_that_was_taken_out() -> None:
    toolkit = engrave._toolkit()
    engrave._load(toolkit, musicxml_bytes(doubled()).decode(), engrave.OPTIONS)
    root = etree.fromstring(mei.condensed(toolkit.getMEI({}), [["X1", "X2", "1", "2"]]).encode())
    ids = {element.get(XML_ID) for element in root.iter()}
    staves = {staff.get("n") for staff in root.iter(f"{MEI}staff")}
    for element in root.iter():
        for end in ("startid", "endid"):
            assert element.get(end, "#")[1:] in ids | {""}
        assert element.get("staff") in staves | {None}


@pytest.mark.parametrize("difference", [{"apart": True}, {"tied": False}])
def test_instruments_that_differ_in_one_stroke_or_tie_keep_their_staves(difference: dict[str, bool]) -> None:
    assert names_of_the_sea(doubled(**difference)) == ["Ocean drum", "Rain stick"]  # type: ignore[arg-type]


def test_texts_are_in_our_font_and_no_private_use_character_is_left() -> None:
    for page in pages_of(tiled(2), staff_mm=8.0):
        assert not re.search("[\ue000-\uf8ff]", page)
        assert "Times" not in page and "@font-face" not in page
        assert page_texts.TEXT_FONT in page


@pytest.mark.parametrize(("staff_mm", "text_pt"), [(6.0, 10.0), (6.0, 8.0), (8.5, 18.0)])
def test_words_have_the_size_asked_for(staff_mm: float, text_pt: float) -> None:
    """In the page's own units and millimetres; a point is 1/72 of an inch."""
    for page in pages_of(sample_score(), staff_mm=staff_mm, text_pt=text_pt):
        root = etree.fromstring(page.encode())
        edge = inner(root)
        mm_a_unit = float(root.get("width", "").removesuffix("mm")) / (edge.right - edge.left)
        sizes = {
            float(leaf.get("font-size", "0").removesuffix("px"))
            for leaf in root.iter("{http://www.w3.org/2000/svg}tspan", "{http://www.w3.org/2000/svg}text")
            if (leaf.text or "").strip() and leaf.get("font-size")
        }
        assert min(sizes) * mm_a_unit / 25.4 * 72 == pytest.approx(text_pt, rel=0.03)


def test_all_marks_are_on_the_pages_though_resting_staves_are_hidden() -> None:
    score = tiled(3)
    pages = pages_of(score)
    found = " ".join(texts(pages))
    for section in score.sections:
        assert f"{section.title}: {section.caption}" in found
    for words in ("Adagio (unhurried)", "= 66", "= 104", "your idea", "Stop", "Come in", "New beat"):
        assert words in found, words
    assert found.count("Stop") == 3
    assert found.count("your idea") == 3
    numbers = [int(text) for text in texts(pages) if text.isdigit()]
    assert numbers == list(range(1, 37)), "every bar has its number, once"
    assert "Clv." not in found, "the count-in shows in the first system only, by its full name"
    assert "1 Oc.Dr." in found


@pytest.mark.parametrize("staff_mm", [6.0, 10.0])
@pytest.mark.parametrize("landscape", [False, True])
def test_no_text_is_clipped_or_lies_on_another(staff_mm: float, landscape: bool) -> None:
    check_texts(pages_of(tiled(4), staff_mm=staff_mm, landscape=landscape))


def test_long_and_foreign_names_and_texts_find_room() -> None:
    score = sample_score()
    names = [
        "The wide and restless sea of the harbour",
        "W" * 40,
        "The 雨 𝄞 שלום e\u0301 \ue000",
        "Rain, drizzle, sleet and a little hail!",
        "Thunder",
    ]
    new = dict(zip([part.name for part in score.group_parts], names, strict=True))
    caption = "Water that has warmed in the shallow bay rises unseen over the town and the hill. " * 2 + "W" * 36
    score = replace(
        score,
        parts=(score.parts[0], *(replace(part, name=new[part.name]) for part in score.group_parts)),
        cues=tuple(
            replace(c, part=new.get(c.part, ""), mark="ff", pattern=1, what="then look at all of them")
            for c in score.cues
        ),
        sections=tuple(replace(section, caption=caption) for section in score.sections),
    )
    pages = pages_of(score)
    check_texts(pages)
    assert "3 The � � ���� é �" in texts(pages)
    assert pdf(pages[0], pdf_standards=["ua-1"])


def test_where_nobody_plays_a_pupils_staff_is_shown_not_the_count_in() -> None:
    score = replace(sample_score(), bars=24)
    found = texts(engraved_pages(musicxml_bytes(score, group=3), staff_mm=9.0))
    assert found.count("Clv.") == 0 and found.count("3 S.Glk.") >= 2


def test_a_long_rest_is_one_bar_and_keeps_what_stands_above_it() -> None:
    score = replace(sample_score(), bars=24)
    pages = engraved_pages(musicxml_bytes(score, group=3))
    found = texts(pages)
    assert [text for text in found if text in "ABC"] == ["A", "B", "C"]
    for words in ("Evaporation: The sea warms.", "Precipitation: Rain falls.", "= 80", "Stop"):
        assert words in found, words
    assert [int(text) for text in found if text.isdigit()] == [1, 5, 6, 7, 8, 9, 12]
    assert sum(len(re.findall('class="multiRest"', page)) for page in pages) >= 3
    check_texts(pages)


def test_a_long_cue_at_the_end_of_a_line_stays_on_the_page() -> None:
    score = sample_score()
    last = sample_cue(12, "", "stop", beat=score.cues[-1].beat, what="W" * 24)
    for page in pages_of(replace(score, cues=(last,))):
        edge = inner(etree.fromstring(page.encode()))
        assert all(box.right <= edge.right + 1 for box in boxes(page))


def test_our_font_at_its_size_is_never_wider_than_the_engraver_reckons() -> None:
    import verovio

    folder = Path(verovio.__file__).parent / "data" / "text"
    for bold, file in ((False, "Times.xml"), (True, "Times-bold.xml")):
        table = etree.parse(str(folder / file)).getroot()
        each = float(table.get("units-per-em"))
        reckoned = {int(g.get("c"), 16): float(g.get("h-a-x") or g.get("w")) / each for g in table.iter("{*}g")}
        for text in {*texts(pages_of(sample_score())), "Mezzo-soprano", "whirled tubes", "Wiggle fingers, then stop"}:
            ours = width_ems(text, bold=bold) * page_texts.TEXT_SCALE
            assert ours <= sum(reckoned.get(ord(letter), 0.5) for letter in text) * 1.02, text
            assert width_ems(text, bold=True) <= page_texts.LETTER_EMS * len(text) + 0.4, text


def test_the_note_of_a_metronome_mark_shows_outside_a_browser() -> None:
    page = pages_of(sample_score())[0]
    root = etree.fromstring(page.encode())
    head = next(element for element in root.iter(f"{svg.SVG}ellipse") if "rotate" in element.get("transform", ""))
    place = re.findall(r"-?[\d.]+", head.getparent().get("transform"))  # type: ignore[union-attr]
    x, y, size = map(float, place)
    centre = (x + float(head.get("cx", "0")) * size, y + float(head.get("cy", "0")) * size)
    edge = inner(root)
    width, height = edge.right - edge.left, edge.bottom - edge.top
    png = typst.compile(
        b'#set page(width: auto, height: auto, margin: 0mm)\n#image(bytes(sys.inputs.page), format: "svg")',
        sys_inputs={"page": page},
        font_paths=FONTS,
        ignore_system_fonts=True,
        format="png",
        ppi=144,
    )
    picture = np.asarray(Image.open(io.BytesIO(png)).convert("L"))
    across, down = centre[0] / width * picture.shape[1], (centre[1] - edge.top) / height * picture.shape[0]
    assert picture[round(down), round(across)] < 60, "the head is black"
    assert 0.005 < (picture < 128).mean() < 0.2, "there is a score on the page"


def test_the_typesetter_shows_every_letter_in_the_bundled_font() -> None:
    document = PdfReader(io.BytesIO(pdf(pages_of(sample_score())[0])))
    text = document.pages[0].extract_text()
    for words in ("Rising vapour", "Alto xylophone", "Condensation: A cloud forms.", "Andante (quick walk)"):
        assert words in text
    fonts = str(document.pages[0]["/Resources"])
    assert "/Font" in fonts


@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 210.0, 297.0), ("us-letter", 215.9, 279.4)])
def test_pages_are_the_size_of_the_paper_within_its_margins(paper: str, width: float, height: float) -> None:
    for landscape in (False, True):
        page = pages_of(sample_score(), paper=paper, landscape=landscape, margins_mm=(12.0, 12.0))[0]
        size = (height, width) if landscape else (width, height)
        box = PdfReader(io.BytesIO(pdf(page))).pages[0].mediabox
        points = [(side - 24.0) / 25.4 * 72 for side in size]
        assert [float(box.width), float(box.height)] == pytest.approx(points, abs=0.2)


def test_a_tall_score_is_made_smaller_until_it_fits() -> None:
    score = tiled(1, groups=4)
    pages = pages_of(score, landscape=True)
    assert max(svg.filled(page) for page in pages) <= 1
    tall = engrave._pages(musicxml_bytes(score), engrave.EngravedSheet(width_mm=267, height_mm=180, staff_mm=6.0))
    assert max(svg.filled(page) for page in tall) > 1, "at the size asked it would not fit"


def test_too_many_staves_for_the_paper_are_refused() -> None:
    with pytest.raises(OutOfRange, match=r"staff is .* mm.*legible"):
        pages_of(tiled(1, groups=9), landscape=True)


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(UnknownName, match='unknown paper "a5"'):
        pages_of(sample_score(), paper="a5")


def test_pages_are_the_same_twice_and_in_threads() -> None:
    data = musicxml_bytes(tiled(2))
    once = engraved_pages(data)
    assert once == engraved_pages(data)
    with ThreadPoolExecutor(4) as pool:
        assert all(found == once for found in pool.map(engraved_pages, [data] * 4))


def test_a_last_page_with_one_system_is_spared_where_a_slightly_smaller_staff_does() -> None:
    music = musicxml_bytes(sample_score())
    asked = engrave.EngravedSheet(width_mm=194.0, height_mm=265.0, staff_mm=7.2)
    assert [page.count('class="system"') for page in engrave._pages(music, asked)] == [3, 1]
    assert len(engraved_pages(music, staff_mm=7.2)) == 1
