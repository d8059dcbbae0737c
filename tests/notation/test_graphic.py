"""The graphic score: where a mark lies is when and how high and how loud its note is; blanks are empty boxes."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise

import numpy as np
import pytest

from sonify.errors import OutOfRange, UnknownName
from sonify.notation.drawing import width_of
from sonify.notation.graphic import Canvas, Curve, graphic_alt, graphic_lane, graphic_score
from sonify.notation.lanes import Frame, dynamics
from sonify.notation.systems import lines
from sonify.records.curve import science_curve
from sonify.records.palette import HATCHINGS, read_palette
from sonify.records.score import DynamicMark, Part, Score, Section
from tests.catalogue import ROOT
from tests.notation import drawn
from tests.sample import sample_lesson, sample_score

PALETTE = read_palette((ROOT / "shared" / "palette.toml").read_text(encoding="utf-8"))
PAGE = Canvas(width_mm=186.0, height_mm=255.0, palette=PALETTE, text_pt=11.0)
CARD = Canvas(width_mm=180.0, height_mm=34.0, palette=PALETTE, text_pt=12.0)
RAMP = Curve(name="warmth", unit="degC", beats=tuple(map(float, range(49))), values=tuple(map(float, range(10, 59))))


def page_of(score: Score, **options: bool) -> str:
    [page] = graphic_score(score, PAGE, RAMP, **options)
    return page


def struck(part: Part) -> set[tuple[F, int]]:
    return {(note.beat, note.midi) for note in part.notes}


def test_every_note_has_its_mark_and_no_mark_is_made_up() -> None:
    score = sample_score()
    found: dict[str, set[tuple[F, int]]] = {}
    for mark in drawn.marks(page_of(score)):
        found.setdefault(mark.part, set()).add((mark.beat, mark.key))
    assert found == {part.name: struck(part) for part in score.group_parts}


def test_marks_lie_at_one_place_a_beat_in_time_order() -> None:
    """Left edges against beats: a straight line, whatever the part (least squares, numpy's own)."""
    marks = drawn.marks(page_of(sample_score()))
    beats, left = np.array([float(m.beat) for m in marks]), np.array([m.x for m in marks])
    slope, start = np.polyfit(beats, left, 1)
    assert slope > 1.0
    np.testing.assert_allclose(left, start + slope * beats, atol=0.02)


def test_height_follows_pitch_and_thickness_loudness() -> None:
    marks = drawn.marks(page_of(sample_score()))
    cloud = sorted((m for m in marks if m.part == "The cloud"), key=lambda m: m.key)
    heights = [m.y for m in cloud]
    assert heights == sorted(heights, reverse=True) and heights[0] - heights[-1] > 4
    storm = sorted((m for m in marks if m.part == "The storm"), key=lambda m: m.beat)  # it grows from 50 to 80
    thick = [m.thick for m in storm]
    assert thick == sorted(thick) and thick[-1] > 1.3 * thick[0]


def test_long_notes_are_long_and_taps_are_not() -> None:
    marks = drawn.marks(page_of(sample_score()))
    sea = next(m for m in marks if m.part == "The sea")
    assert sea.long > 4 * max(m.long for m in marks if m.part == "The rain")


def test_what_pupils_invent_is_an_empty_box_as_long_as_its_bars() -> None:
    score = sample_score(with_blank=True)
    page = page_of(score)
    [box] = drawn.blanks(page)
    assert (box.part, box.bar, box.bars) == ("The cloud", 9, 2)
    marks = drawn.marks(page)
    slope, start = np.polyfit([float(m.beat) for m in marks], [m.x for m in marks], 1)
    assert box.x == pytest.approx(start + 32 * slope, abs=0.5)
    assert box.width == pytest.approx(8 * slope, abs=1.0)
    assert "Their own idea: bars 9 to 10." in graphic_alt(score)
    assert "your own idea" in " ".join(drawn.texts(page))
    assert "your own idea" not in " ".join(drawn.texts(page_of(sample_score())))


def test_no_group_is_told_by_colour_only() -> None:
    """Without colours each group still differs: its number and name are written, and its hatching is its own."""
    page, texts = page_of(sample_score()), drawn.texts(page_of(sample_score()))
    for part in sample_score().group_parts:
        assert str(part.group) in texts and part.name.split()[-1] in " ".join(texts)
    one = replace(PAGE, palette=tuple(replace(style, colour="#777777") for style in PALETTE))
    [grey] = graphic_score(sample_score(), one, RAMP)
    hatchings = {}
    for index, part in enumerate(sample_score().group_parts):
        badge = grey[grey.index(f'id="c0-0-n{index}"') :]
        path = re.search(r'<path d="([^"]*)"', badge)
        assert path
        slopes = re.findall(r"M(\S+) (\S+?)L(\S+) (\S+?)(?=M|$)", path[1])
        rising = {(float(x2) - float(x)) * (float(y2) - float(y)) < 0 for x, y, x2, y2 in slopes}
        hatchings[part.group] = (frozenset(re.findall("[A-Za-z]", path[1])), "h0.01" in path[1], frozenset(rising))
    assert len(set(hatchings.values())) == len(hatchings) == 4
    assert page != grey and len(HATCHINGS) == 8


def test_stages_are_columns_with_letters_and_bars_have_numbers() -> None:
    texts = drawn.texts(page_of(sample_score()))
    assert [text for text in texts if text in "ABC"] == ["A", "B", "C"]
    assert {"Evaporation", "Condensation", "Precipitation"} <= set(texts)
    assert {"1", "5", "9"} <= set(texts)


def test_the_curve_is_the_quantity_at_its_beats() -> None:
    page = page_of(sample_score())
    [points] = drawn.curve_points(page)
    marks = drawn.marks(page)
    slope, start = np.polyfit([float(m.beat) for m in marks], [m.x for m in marks], 1)
    x, y = np.array(points).T
    np.testing.assert_allclose(x, start + slope * np.array(RAMP.beats), atol=0.02)
    fall, foot = np.polyfit(RAMP.values, y, 1)
    assert fall < 0
    np.testing.assert_allclose(y, foot + fall * np.array(RAMP.values), atol=0.02)
    assert {"58", "10", "[°C]"} <= set(" ".join(drawn.texts(page)).split())


def test_the_science_curve_is_the_timeline_at_the_pieces_beats() -> None:
    lesson = sample_lesson()
    curve = science_curve(lesson)
    assert curve is not None and curve.name == "journey temperature"
    wanted = lesson.timeline.at(curve.name, lesson.controls.time_map.model_time_s(np.array(curve.beats))) - 273.15
    np.testing.assert_allclose(curve.values, wanted, atol=1e-9)
    assert curve.beats[-1] == 48 and science_curve(lesson, "rain rate") is not None
    assert science_curve(replace(lesson, controls=replace(lesson.controls, curves=()))) is None
    with pytest.raises(UnknownName, match="moonlight"):
        science_curve(lesson, "moonlight")


def test_a_long_piece_goes_on_over_systems_and_pages_without_losing_a_bar() -> None:
    score = sample_score()
    starts = range(1, 161, 16)
    sections = tuple(
        Section(name=f"s{bar}", title=f"Stage {bar}", letter=letter, bar=bar, bars=16)
        for bar, letter in zip(starts, "ABCDEFGHIJ", strict=True)
    )
    long = replace(score, bars=160, sections=sections)
    systems = lines(long, 5, 36)
    assert [bar for first, last in systems for bar in range(first, last + 1)] == list(range(1, 161))
    assert all(last - first < 36 for first, last in systems)
    assert {first for first, _ in systems} <= {section.bar for section in sections}
    pages = graphic_score(long, PAGE)
    assert len(pages) > 1 and {drawn.sizes(page) for page in pages} == {("186mm", "255mm")}
    notes = Counter((m.part, m.beat, m.key) for page in pages for m in drawn.marks(page))
    assert {(part, beat) for part, beat, _ in notes} == {(p.name, n.beat) for p in score.group_parts for n in p.notes}


@pytest.mark.parametrize("canvas", [PAGE, replace(PAGE, text_pt=18.0), replace(PAGE, width_mm=250.0, height_mm=170.0)])
def test_words_stay_on_the_paper_and_never_lie_upon_each_other(canvas: Canvas) -> None:
    for page in graphic_score(sample_score(with_blank=True), canvas, RAMP):
        drawn.check_words(page)
    for part in sample_score().group_parts:
        drawn.check_words(graphic_lane(sample_score(with_blank=True), part.name, replace(canvas, height_mm=60.0)))


def test_words_beside_the_curve_are_whole_in_large_print() -> None:
    curve = replace(RAMP, name="largest grain", values=(0.003, *RAMP.values[1:]))
    [page] = graphic_score(sample_score(), replace(PAGE, text_pt=18.0), curve)
    assert {"largest", "0.003"} <= set(drawn.texts(page))


def test_one_part_alone_fits_a_card() -> None:
    score = sample_score(with_blank=True)
    page = graphic_lane(score, "The cloud", CARD)
    assert drawn.sizes(page) == ("180mm", "34mm")
    assert {(m.beat, m.key) for m in drawn.marks(page)} == struck(score.parts[3])
    assert [(b.bar, b.bars) for b in drawn.blanks(page)] == [(9, 2)]
    with pytest.raises(UnknownName, match=r"The clod.*The cloud"):
        graphic_lane(score, "The clod", CARD)


def test_any_name_can_be_drawn_and_too_little_room_is_refused_clearly() -> None:
    score = sample_score()
    odd = replace(score.parts[1], name='雨 & "snow" <x> ' + "very long " * 12)
    score = replace(score, parts=(score.parts[0], odd, *score.parts[2:]), title="\u202eمطر" + "y" * 300)
    page = page_of(score)
    assert any("\ufffd" in text for text in drawn.texts(page)) and any("…" in text for text in drawn.texts(page))
    with pytest.raises(OutOfRange, match="height of a lane .*5 parts"):
        graphic_score(score, replace(PAGE, height_mm=60.0), RAMP, whole=True)


@pytest.mark.parametrize(("text_pt", "needed"), [(10.0, 1), (18.0, 2)])
def test_twelve_parts_go_on_over_pages_and_every_group_stays_whole(text_pt: float, needed: int) -> None:
    score = sample_score()
    parts = [
        replace(score.parts[1 + k % 5], group=1 + k // 2, team=1 + k % 2, name=f"Part number {k}") for k in range(12)
    ]
    score = replace(score, parts=(score.parts[0], *parts), sections=score.sections[:1])
    canvas = Canvas(width_mm=250.0, height_mm=170.0, palette=PALETTE, text_pt=text_pt)
    pages = graphic_score(score, canvas, RAMP)
    assert len(pages) == needed
    named = [{mark.part for mark in drawn.marks(page)} for page in pages]
    assert sorted(name for names in named for name in names) == sorted(part.name for part in parts)
    groups = [group for names in named for group in {part.group for part in parts if part.name in names}]
    assert sorted(groups) == [1, 2, 3, 4, 5, 6]
    for page in pages:
        drawn.check_words(page)


def test_same_score_same_drawing() -> None:
    assert graphic_score(sample_score(), PAGE, RAMP) == graphic_score(sample_score(), PAGE, RAMP)


def test_a_curve_in_steps_of_ten_climbs_by_as_much_for_ten_times_as_much() -> None:
    curve = Curve(name="pace", unit="1", beats=(0.0, 1.0, 2.0), values=(1.0, 10.0, 100.0), tenfold=True)
    assert curve.heights == pytest.approx((0.0, 1.0, 2.0))  # decimal logarithms, by definition
    page = graphic_score(sample_score(), PAGE, curve)[0]
    assert [page.count(f'data-power="{power}"') > 0 for power in (0, 1, 2, 3)] == [True, True, True, False]
    assert "Curve: ten times" in page
    level = graphic_score(sample_score(), PAGE, replace(curve, tenfold=False))[0]
    assert "data-power" not in level and "ten times" not in level


def test_steps_of_ten_need_values_above_nothing() -> None:
    with pytest.raises(ValueError, match="falls to 0"):
        Curve(name="pace", unit="1", beats=(0.0, 1.0), values=(1.0, 0.0), tenfold=True)


def test_crowded_dynamic_marks_keep_apart_and_the_loudest_is_there() -> None:
    """A card of 62 bars: p and pp two bars from each other at the end, f between mp and mf."""
    frame = Frame(x=0.3, y=0.0, height=20.0, first=1, last=62, bar_mm=179.4 / 62, beats=4)
    at = ((25, "pp"), (32, "p"), (37, "mp"), (39, "f"), (41, "mf"), (59, "p"), (61, "pp"))
    part = replace(sample_score().group_parts[0], dynamics=tuple(DynamicMark(bar=bar, mark=mark) for bar, mark in at))
    told = [re.search(r'x="([0-9.]+)".*>(\w+)</text>', each) for each in dynamics(part, frame, 4.2, 30.0)]
    placed = [(float(found[1]), found[2]) for found in told if found]
    assert len(placed) == len(told)
    for (x, mark), (following, _) in pairwise(placed):
        assert following >= x + width_of(mark, 4.2, bold=True) + 1.0
    assert "f" in {mark for _, mark in placed} and [mark for _, mark in placed][-2:] == ["p", "pp"]
