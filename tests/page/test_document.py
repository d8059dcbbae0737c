"""The page as one text: safe, self-contained, small, and the same for the same lesson."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from dataclasses import replace
from hashlib import sha256

import pytest

from sonify.kinds.controls import CONTROLS
from sonify.page import PageTooBig, page_html
from sonify.page.document import STYLES, first_sentence, json_text, script, style, told
from sonify.records.sounds import PageSample
from tests.page.blips import blips
from tests.page.lessons import HOSTILE, hostile_lesson, page_of, palette
from tests.sample import sample_lesson
from tests.studies import studied


def element(text: str, start: str, end: str) -> str:
    return text.split(start, 1)[1].split(end, 1)[0]


def test_the_policy_names_the_one_script_and_style_by_hash() -> None:
    text = page_of(sample_lesson())
    policy = element(text, 'Content-Security-Policy" content="', '"').replace("&#39;", "'")
    for tag in ("script", "style"):
        inside = element(text, f"<{tag}>", f"</{tag}>")
        assert f"{tag}-src 'sha256-{b64encode(sha256(inside.encode()).digest()).decode()}'" in policy
    assert policy.startswith("default-src 'none';")


def test_nothing_points_outside_the_file() -> None:
    text = page_of(sample_lesson())
    assert set(re.findall(r"https?://[^\s'\"<]+", text)) <= {"http://www.w3.org/2000/svg"}, "a name, not an address"
    assert not re.search(r"<(link|img|iframe|object|embed|audio|video)\b|\ssrc=|@import|url\((?!#)", text)


def test_our_own_parts_cannot_close_their_elements() -> None:
    assert "</script" not in script() and "<!--" not in script()
    assert "</style" not in style()
    assert len(STYLES) == len(set(STYLES))


def test_hostile_texts_are_escaped_in_html_and_in_data() -> None:
    text = page_of(hostile_lesson())
    assert HOSTILE not in text
    assert text.count("<script") == text.count("</script>") == 4
    data = json.loads(element(text, 'id="lesson-data">', "</script>"))
    assert data["title"] == HOSTILE


def test_json_refuses_what_is_not_a_number() -> None:
    assert json_text({"a": "<b>"}) == '{"a":"\\u003cb>"}'
    with pytest.raises(ValueError, match="not JSON compliant"):
        json_text(float("nan"))


def test_the_same_lesson_makes_the_same_page() -> None:
    assert page_of(sample_lesson()) == page_of(sample_lesson())


def test_a_page_that_grew_too_big_is_refused_and_says_what_to_do() -> None:
    lesson = sample_lesson()
    sounds = blips(lesson.score)
    big = replace(sounds, samples=(*sounds.samples, PageSample(name="long", pcm=bytes(8_000_000))))
    with pytest.raises(PageTooBig, match=r"11\.\d MB; it may take 10 MB\. Make the piece shorter"):
        page_html(lesson, big, palette())


def test_the_head_has_room_for_the_storys_first_sentence() -> None:
    assert first_sentence("One drop lies\n in the sea. It is 14.5 degrees! And so on.") == "One drop lies in the sea."
    assert first_sentence("Water at 14.5 °C warms! More.") == "Water at 14.5 °C warms!"
    assert first_sentence("no stop") == "no stop"


def test_without_scripts_the_page_says_where_to_turn() -> None:
    text = page_of(sample_lesson())
    assert "conductor.pdf" in element(text, "<noscript>", "</noscript>")


def test_the_key_says_why_and_how_much_it_exaggerates() -> None:
    text = page_of(sample_lesson())
    key = sample_lesson().controls.keys[0]
    for words in (key.sentence, key.rule.why, key.exaggeration_words):
        assert words in text


def test_every_control_is_asked_about_in_plain_words_under_headings_with_capitals() -> None:
    for message in ("hear-asked", "hear-headed"):
        assert len({told(message, control=control) for control in CONTROLS}) == len(CONTROLS)
    lesson = sample_lesson()
    key = lesson.controls.keys[0]
    quiet = replace(key, rule=replace(key.rule, control="dynamics"), stages=(("Rain", "18 °C", "fairly loud"),))
    text = page_of(replace(lesson, controls=replace(lesson.controls, keys=(quiet,))))
    assert "<h4>Why this loudness?</h4>" in text and "dynamics" not in element(text, 'id="why-title"', "</section>")
    heads = re.findall(r'<th scope="col">([^<]*)</th>', text)
    assert heads == ["Stage", "Journey temperature", "Loudness"]


def test_facts_are_said_wherever_a_template_prints_them() -> None:
    """A scene whose rules, stages and notes are facts: no record is printed as the program writes it."""
    text = page_of(studied("playground-puddle"))
    assert not re.search(r"\b(Fact|Named|Amount)\(", text)
