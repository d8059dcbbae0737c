"""Facts to sentences: figures, lists and stretches of time as a child reads them; another language in its place."""

from __future__ import annotations

import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress

import pytest
from fluent.runtime import FluentBundle, FluentResource

from sonify.records.fact import Amount, ClockTime, Date, Duration, Fact, Named, Note, Words, fact
from sonify.say import ENGLISH, Language, say, sentence, speaking


def spoken(text: str) -> Language:
    """A language whose one file, `try`, holds this text."""

    def messages(stem: str) -> str:
        if stem == "try":
            return text
        return ENGLISH.messages(stem)

    return Language("test", "en_GB", messages)


def told(text: str, words: Words) -> str:
    with speaking(spoken(text)):
        return say(words)


@pytest.mark.parametrize(
    ("arg", "text"),
    [
        (Amount(value=14.0, unit="degC"), "14 °C"),
        (Amount(value=-0.04, unit="degC", places=1), "0.0 °C"),
        (Amount(value=-2.54, unit="degC", places=1), "−2.5 °C"),
        (Amount(value=0.00123, unit="1"), "0.00123"),
        (Amount(value=86_400.0, unit="s"), "86400 s"),
        (Duration(seconds=90), "90 seconds"),
        (Duration(seconds=1), "1 second"),
        (Duration(seconds=9_600), "2 hours 40 minutes"),
        (Duration(seconds=86_400), "24 hours"),
        (Duration(seconds=3 * 86_400 + 5 * 3600), "3 days 6 hours"),
        (Duration(seconds=963 * 86_400), "2 years 8 months"),
        (Duration(seconds=0), "0 seconds"),
        (ClockTime(hours=14.34), "14:20"),
        (ClockTime(hours=23.995), "00:00"),
        (Date(day=730_120), "1 January 2000"),
        (Date(day=730_120, parts="my"), "January 2000"),
        (Note(70), "B♭4"),
        (Named("instrument", "our own thunder sheet"), "our own thunder sheet"),
        (("a", "b", "c"), "a, b and c"),
        (("a",), "a"),
    ],
)
def test_an_argument_is_said_as_a_child_reads_it(arg: object, text: str) -> None:
    assert told("try-it = { $it }\n", Fact("try-it", (("it", arg),))) == text  # type: ignore[arg-type]


@pytest.mark.parametrize(("value", "text"), [(12.25, "12.3"), (12.35, "12.4"), (-0.25, "−0.3"), (1250.0, "1250")])
def test_halves_are_rounded_up_as_pupils_learn_it(value: float, text: str) -> None:
    assert say(fact("value-alone", value=Amount(value=value, digits=3 if abs(value) > 1 else 1))) == text


def test_sentences_follow_each_other_and_empty_ones_leave_no_gap() -> None:
    assert told("try-a = First.\ntry-b = Second.\n", (fact("try-a"), "", (), fact("try-b"))) == "First. Second."


def test_a_count_takes_its_plural() -> None:
    text = "try-n =\n    { $n ->\n        [one] one tap\n       *[other] { $n } taps\n    }\n"
    assert [told(text, fact("try-n", n=n)) for n in (1, 4)] == ["one tap", "4 taps"]


def test_no_isolating_marks_stand_round_what_fills_a_place() -> None:
    assert told("try-it = ({ $it })\n", fact("try-it", it="x")) == "(x)"


def test_a_missing_message_or_place_is_our_own_mistake_and_is_named() -> None:
    with pytest.raises(LookupError, match="no message try-other"):
        told("try-it = x\n", fact("try-other"))
    with pytest.raises(LookupError, match="try-it"):
        told("try-it = { $it }\n", fact("try-it"))


def test_a_persons_own_text_is_never_taken_for_a_message() -> None:
    assert say("cooling-apart") == "cooling-apart"


def test_a_sentence_that_begins_with_a_name_begins_with_a_capital() -> None:
    with speaking(spoken("try-it = { $it } falls.\n")):
        assert sentence(fact("try-it", it="the gap")) == "The gap falls."


def test_threads_that_say_a_file_s_first_sentences_at_once_all_say_them(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each message needs Fluent's own parser; while one thread reads its message, the others begin with theirs."""
    count = 4
    language = spoken(
        "".join(f"try-{n} = {n} {{ NUMBER($n) ->\n    [one] cup\n   *[other] cups\n }}\n" for n in range(count))
    )
    together = threading.Barrier(count)
    made, add = language._new_bundle, FluentBundle.add_resource

    def slow() -> FluentBundle:
        with suppress(threading.BrokenBarrierError):
            together.wait(0.3)
        return made()

    def added(self: FluentBundle, resource: FluentResource) -> None:
        time.sleep(0.05)
        add(self, resource)

    monkeypatch.setattr(language, "_new_bundle", slow)
    monkeypatch.setattr(FluentBundle, "add_resource", added)
    with ThreadPoolExecutor(count) as threads:
        said = list(threads.map(lambda n: language.message(f"try-{n}", {"n": 2}), range(count)))
    assert said == [f"{n} cups" for n in range(count)]
