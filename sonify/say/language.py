"""A language: its messages, read when they are first needed, and how a fact becomes a text in it."""

from __future__ import annotations

import re
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache, partial
from typing import TYPE_CHECKING, Any

from sonify.records.fact import Amount, Arg, ClockTime, Date, Duration, Elapsed, Fact, Named, Note, Words
from sonify.say.entries import entries, named_in, needs_places, plain_text
from sonify.say.numbers import Numbers
from sonify.say.written import Written, filled, written
from sonify.templates import template

if TYPE_CHECKING:
    from fluent.runtime import FluentBundle

#: Fluent refuses a place filled with more than a thousand letters, and the list of all instruments is longer: beyond so
#: many a mark stands in for the text while the message is formatted, from the letters that no text has (private use).
LONGEST_PLACE = 500
FIRST_MARK = 0xE000
#: Verbs that agree with what a place is filled with: messages of `verb.ftl`.
VERBS = ("rises", "falls", "is", "does", "was", "goes", "stays", "changes", "lies", "has", "plays", "rests", "greater")
#: Where a thing's name ends and what belongs to it begins; ends of words that are no plural, and plurals without s.
_OF = re.compile(
    r" (?:of|in|on|at|for|from|to|until|after|before|behind|through|between|under|over|without|with|per|who|that|which"
    r"|a|an) |[:,(]"
)
_DONE = re.compile(r".{2,}ed|left|found|held|made|seen|sold|grown|sunk")
SINGULAR = ("ss", "us", "is", "gas", "lens", "bias")
IRREGULAR = ("people", "children", "mice", "lice", "feet", "teeth", "geese", "men", "fungi", "larvae")


class Language:
    """Messages and numbers of one language. messages: the text of the Fluent file of that name; LookupError if none."""

    def __init__(self, code: str, locale: str, messages: Callable[[str], str]) -> None:
        self.code, self.messages = code, messages
        self.numbers = Numbers(locale, self.message)
        self._locale, self._english = locale, locale.startswith("en")
        self._files: dict[str, _File | None] = {}

    def text(self, words: Words) -> str:
        """Words as they are read: a person's own as they are, a fact by its message, several one after the other."""
        if isinstance(words, str):
            return words
        if isinstance(words, Fact):
            return self.message(words.message, {name: self._place(name, arg) for name, arg in words.args})
        return " ".join(filter(None, map(self.text, words)))

    def message(self, identifier: str, args: Mapping[str, Any] | None = None) -> str:
        """A message with its places filled. LookupError: no such message, or a place that nothing fills."""
        file = self._file(identifier)
        if file is None or identifier not in file.sources:
            raise LookupError(f"no message {identifier} in {self.code}")
        if _on_page.get() and identifier + ON_PAGE in file.sources:
            identifier += ON_PAGE
        if identifier in file.plain:
            return file.plain[identifier]
        pieces = file.written(identifier)
        if pieces is not None:
            told = filled(pieces, args or {}, file.written, self._agreed, english=self._english)
            if told is not None:
                return told
        bundle = file.holding(identifier)
        pattern = bundle.get_message(identifier).value
        if pattern is None:
            raise LookupError(f"message {identifier} has no value")
        places = dict(args or {})
        long = {name: arg for name, arg in places.items() if isinstance(arg, str) and len(arg) > LONGEST_PLACE}
        marks = {chr(FIRST_MARK + number): name for number, name in enumerate(long)}
        text, faults = bundle.format_pattern(pattern, {**places, **{name: mark for mark, name in marks.items()}})
        if faults:
            raise LookupError(f"message {identifier}: {faults[0]}")
        said = str(text)
        return "".join(long[marks[letter]] if letter in marks else letter for letter in said) if marks else said

    def knows(self, identifier: str) -> bool:
        file = self._file(identifier)
        return file is not None and identifier in file.sources

    def name(self, kind: str, identifier: str) -> str:
        """The name of something in the catalogue; of anything else its identifier, which a person wrote."""
        key = f"{kind}-{slug(identifier)}"
        return self.message(key) if self.knows(key) else identifier

    def _place(self, name: str, arg: Arg) -> Any:
        """What fills a place. In a sentence a quantity of one group, "height: sill", is "height (sill)"."""
        said = self._argument(arg)
        if name != "quantity" or not isinstance(said, str):
            return said
        quantity, of, group = said.partition(": ")
        return self.message("key-quantity-in-group", {"quantity": quantity, "group": group}) if of and group else said

    def _argument(self, arg: Arg) -> Any:
        match arg:
            case Amount():
                return self.numbers.amount(arg)
            case Duration():
                return self.numbers.duration(arg.seconds, arg.digits)
            case ClockTime():
                return self.numbers.clock(arg.hours)
            case Date():
                return self.numbers.date(arg.day, arg.parts)
            case Elapsed():
                return self.numbers.elapsed(arg.seconds)
            case Note():
                return self.numbers.note(arg.midi)
            case Named():
                return self.name(arg.kind, arg.id)
            case Fact():
                return self.text(arg)
            case tuple():
                return self.numbers.listed([str(self._argument(each)) for each in arg])
            case _:
                return arg

    def _agreeing(self, verb: str, noun: object) -> str:
        """A verb as its noun wants it: { RISES($quantity) }."""
        name = str(noun)
        return self.message(f"verb-{verb}", {"many": "yes" if is_plural(name) else "no", "head": head_of(name)})

    def _agreed(self, verb: str, noun: str) -> str:
        """The same for { RISES(...) }. LookupError: there is no such verb."""
        if verb.lower() not in VERBS:
            raise LookupError(verb)
        return self._agreeing(verb.lower(), noun)

    def sources(self, stem: str) -> dict[str, str]:
        """The source of each message of one file, by its identifier. LookupError: there is no such file."""
        file = self._file(stem)
        if file is None:
            raise LookupError(stem)
        return file.sources

    def _file(self, identifier: str) -> _File | None:
        stem = identifier.partition("-")[0]
        if stem not in self._files:
            self._files[stem] = self._read(stem)
        return self._files[stem]

    def _read(self, stem: str) -> _File | None:
        try:
            text = self.messages(stem)
        except LookupError:
            return None
        return _File(entries(text), self._new_bundle)

    def _new_bundle(self) -> FluentBundle:
        from fluent.runtime import FluentBundle  # only where something is said

        agreeing: dict[str, Any] = {verb.upper(): partial(self._agreeing, verb) for verb in VERBS}
        locales = [self._locale.replace("_", "-")]
        return FluentBundle(locales, functions=agreeing, use_isolating=False)  # marks would enter MIDI and PDF


class _File:
    """The messages of one file. plain: what those say that have nothing to be worked out."""

    def __init__(self, sources: dict[str, str], new_bundle: Callable[[], FluentBundle]) -> None:
        self.sources = sources
        self.plain = {name: said for name, text in sources.items() if (said := plain_text(text)) is not None}
        self._written: dict[str, Written | None] = {}
        self._new_bundle = new_bundle
        self._held: FluentBundle | None = None
        self._whole: set[str] = set()  # messages that the bundle holds with all that stands in them
        self._reading = threading.Lock()

    def written(self, identifier: str) -> Written | None:
        """The pieces of a message: most need no other parser. None for one that does, or that is not there."""
        if identifier not in self._written:
            source = self.sources.get(identifier)
            self._written[identifier] = None if source is None else written(source)
        return self._written[identifier]

    def holding(self, identifier: str) -> FluentBundle:
        """The bundle, with this message and those that stand in it. Threads that ask at once get the same one."""
        if identifier not in self._whole:
            with self._reading:
                self._hold(identifier)
        assert self._held is not None
        return self._held

    def _hold(self, identifier: str) -> None:
        from fluent.runtime import FluentResource

        if identifier in self._whole:
            return
        if self._held is None:
            self._held = self._new_bundle()
        text = self.sources[identifier]
        if not self._held.has_message(identifier):
            self._held.add_resource(FluentResource(text))
            for name in named_in(text, self.sources):
                self._hold(name)
        self._whole.add(identifier)  # last: whoever finds it here takes no lock


def is_plural(noun: str) -> bool:
    """Whether a name, of a class's own column it may be, is of several things.

    >>> [is_plural(noun) for noun in ("frogs", "number of frogs", "woodlice in the shade", "mass", "Cup A and Cup B")]
    [True, False, True, False, True]
    >>> [is_plural(noun) for noun in ("cubes dissolved", "pupils who walk", "time for 10 swings")]
    [True, True, False]
    """
    last = head_of(noun)
    return " and " in f" {noun} " or last.endswith(IRREGULAR) or (last.endswith("s") and not last.endswith(SINGULAR))


def head_of(name: str) -> str:
    """The word of a name that says what kind of thing it is, in small letters.

    >>> [head_of(name) for name in ("length of the swing", "water left", "noon shadow", "Cubes dissolved")]
    ['length', 'water', 'shadow', 'cubes']
    """
    head = _OF.split(name.strip(), maxsplit=1)[0].lower()
    words = [word for word in head.split() if not _DONE.fullmatch(word)] or head.split()  # "clips lifted", "cubes left"
    return words[-1] if words else ""


def slug(name: str) -> str:
    """A name as part of a message's identifier: "C pentatonic" is C-pentatonic.

    >>> slug("temperature of cup A"), slug("1/min")
    ('temperature-of-cup-A', '1-min')
    """
    return "-".join("".join(c if c.isascii() and c.isalnum() else " " for c in name).split())


def _english(stem: str) -> str:
    try:
        return template("say/en", f"{stem}.ftl")
    except FileNotFoundError:
        raise LookupError(stem) from None


ENGLISH = Language("en", "en_GB", _english)
_spoken: ContextVar[Language] = ContextVar("spoken", default=ENGLISH)
#: What a message's identifier ends in that says the same to somebody who sees fields and panels, and no file.
ON_PAGE = "-on-page"
_on_page: ContextVar[bool] = ContextVar("on page", default=False)


@contextmanager
def on_page() -> Iterator[None]:
    """Say everything for a while as it is said on the page of the server."""
    token = _on_page.set(True)
    try:
        yield
    finally:
        _on_page.reset(token)


@contextmanager
def speaking(language: Language) -> Iterator[None]:
    """Say everything in this language for a while."""
    token = _spoken.set(language)
    try:
        yield
    finally:
        _spoken.reset(token)


def say(words: Words) -> str:
    """The text of a fact or of a person's own words.

    A bare string is a person's own text; to say a message that has no places, use `say(fact("its-identifier"))`.
    """
    return _spoken.get().text(words)


def sentence(words: Words) -> str:
    """The text with a capital letter at its start, for what begins with a name."""
    text = say(words)
    return text[:1].upper() + text[1:]


def spoken() -> Language:
    """The language of the moment."""
    return _spoken.get()


def plain_messages(stem: str) -> dict[str, str]:
    """Every message of one file that has no places to fill, said: what a template shows by identifier."""
    return _plain(_spoken.get(), stem)


@cache
def _plain(language: Language, stem: str) -> dict[str, str]:
    return {name: language.message(name) for name, text in language.sources(stem).items() if not needs_places(text)}
