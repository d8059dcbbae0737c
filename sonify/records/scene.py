"""A scene file as records: what the author wrote, validated for shape and units. No science, no music made."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import field, replace

from sonify.frozen import dataclass
from sonify.records.drawing import DrawnQuantity, OwnEvent
from sonify.records.experiment import Experiment, Roles
from sonify.records.fact import Words
from sonify.records.own_pattern import DECIDES, OwnPattern
from sonify.records.own_sound import OwnSound
from sonify.records.table import Table

CURVES = ("linear", "logarithmic", "decibels")
#: Natural sounds that may lie under the recording.
BACKGROUNDS = ("sea", "wind", "rain", "stream")
STAGES_ALL = ("all",)
#: The processes whose stages stand in the scene itself.
OWN = ("drawn", "in-order")
#: How far apart quiet and loud lie in the recording: about 10 LU, or as far as the marks say.
LOUDNESS_RANGES = ("classroom", "wide")


@dataclass(frozen=True, slots=True, kw_only=True)
class Origin:
    """Where a record was written: file name as the user gave it, and the line of each dotted key (`hear.0.from`)."""

    file: str
    lines: tuple[tuple[str, int], ...] = ()
    sha256: str = ""  # of the text, so that a pack can say which scene and class it was made from
    text: str = field(default="", repr=False, compare=False)

    def line(self, key: str) -> int | None:
        """The line of a dotted key, or of the nearest enclosing table that has one."""
        return enclosing_line(key, dict(self.lines))


def enclosing_line(key: str, lines: Mapping[str, int]) -> int | None:
    """The line of a dotted key, or of the nearest enclosing table that has one. For many keys, make `lines` once."""
    while key:
        if key in lines:
            return lines[key]
        key = key.rpartition(".")[0]
    return None


WORD = "word"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A number with its unit as written ("14 degC"): the process that knows the condition turns it into SI.

    A condition may be a word instead ("butter"): its unit is WORD, and its text is all there is.
    """

    text: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """One line of a scene's [conditions]. A bare whole number (`day = 172`) has the unit "1"."""

    name: str
    measure: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A condition set for this run only. before: what the scene file has, None where it leaves it to the process."""

    name: str
    before: Measure | None
    after: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Metre:
    """Simple metres only: the beat is the crotchet. `beats` in a bar: 2, 3 or 4."""

    beats: int = 4

    @property
    def text(self) -> str:
        return f"{self.beats}/4"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A mode: its name ("C pentatonic"), tonic pitch class 0..11, pitch classes in rising order from the tonic."""

    name: str
    tonic: int
    pitch_classes: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Music:
    """The limits of the music. Seconds and beats a minute."""

    length_s: float = 180.0
    metre: Metre = Metre()
    scale: Scale = Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9))
    slowest_bpm: float = 60.0
    fastest_bpm: float = 132.0
    gliding: bool = False  # False: the tempo steps at a stage and is held
    loudness_range: str = "classroom"  # one of LOUDNESS_RANGES


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """`hear QUANTITY as CONTROL`: low..high of the quantity becomes to_low..to_high of the control.

    low and high carry units as written (`Measure`); `mapping` turns them into SI once the quantity is known.
    to_low and to_high are in the control's own unit (kinds.controls); either may be the larger.
    part: the part it shapes, or None for the whole piece. key: "hear.0", for messages. asked: the rule as it is
    written, where a class's instruments do not reach so far and it was drawn in.
    """

    quantity: str
    control: str
    low: Measure
    high: Measure
    to_low: float
    to_high: float
    to_low_text: str
    to_high_text: str
    why: str
    curve: str = "linear"
    part: str | None = None
    key: str = "hear.0"
    asked: Rule | None = None

    @property
    def as_asked(self) -> Rule:
        """The rule as it is written, with the reason that holds here."""
        return replace(self.asked, why=self.why) if self.asked is not None else self


@dataclass(frozen=True, slots=True, kw_only=True)
class PartPlan:
    """One group's part as the scene asks for it. `sounds`: instrument names in order of preference.

    rests: False for a part that goes on in every bar of its stages, the opening and the way home included. partner: the
    part with which it comes in and rests, "" for none. on_beat: an ostinato that is the beat itself. even: an ostinato
    whose strokes lie at equal distances, three against two. line: easy, core
    or stretch, "" for the class's. silent: it stays in the scene, and nobody plays it. groups: who plays it, from 1,
    where somebody said so, and with it who sits where. lot: the name by which its notes are drawn, "" for its own.
    """

    name: str
    texture: str
    sounds: tuple[str, ...]
    meaning: str = ""  # "You are the sea. ..." for the group's card
    stages: tuple[str, ...] = STAGES_ALL
    key: str = "part.0"
    rests: bool = True
    partner: str = ""
    on_beat: bool = False
    even: bool = False
    line: str = ""
    silent: bool = False
    groups: tuple[int, ...] = ()
    lot: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BackgroundPlan:
    """A natural sound laid under the recording (not played by pupils). kind: sea, wind, rain, stream.

    Its level follows `quantity` from silence at the quantity's least to `loudest` (velocity) at its most.
    """

    kind: str
    quantity: str
    loudest: float = 57.0
    key: str = "background.0"


@dataclass(frozen=True, slots=True, kw_only=True)
class StageNote:
    """What the scene says about a stage the process finds: a caption for pupils and its share of the bars.

    Where the process is the author's own, these are its stages, in order. lasts_s: how long one takes, 0 where nobody
    says; sounds: how it is to sound, and why. picture: names of kinds.pictures, side by side.
    """

    stage: str
    caption: str
    share: float = 1.0
    key: str = "stage.0"
    lasts_s: float = 0.0
    sounds: tuple[str, ...] = ()
    why: str = ""
    picture: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    word: str
    meaning: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Misconception:
    """What pupils often believe, what is true, and a question that brings it out."""

    belief: str
    correction: str
    ask: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    ask: str
    answer: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Practical:
    """What the class does with its own hands: what it takes, how to take care, and how long it lasts."""

    do: str
    kit: tuple[str, ...]
    cautions: tuple[str, ...] = ()
    minutes: int = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class AuthoredClaim:
    """What a sentence of the scene claims, as its author says. kind, how: as `kinds.authored` has them.

    stage: where, "" for the whole piece; than: the stage it is compared with; value: the figure it is compared with.
    key: "stage.0.claims.1", for messages.
    otherwise: other ways to read the words, for names that hold words of a form ("the water in the towel falls"): it is
    the first whose names there are.
    """

    text: str
    kind: str
    how: str
    quantity: str = ""
    beside_quantity: str = ""
    part: str = ""
    beside: str = ""
    stage: str = ""
    than: str = ""
    value: Measure | None = None
    key: str = ""
    otherwise: tuple[AuthoredClaim, ...] = ()

    def known(self, quantities: Collection[str], stages: Collection[str]) -> AuthoredClaim | None:
        """The way to read it whose quantities and stages there are."""
        for way in (self, *self.otherwise):
            asked = [name for name in (way.quantity, way.beside_quantity) if name]
            if all(name in quantities for name in asked) and {way.stage, way.than} <= {*stages, ""}:
                return way
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """What a sentence may be tied to: a condition at a value. way: "at least", "at most" or "is"."""

    condition: str
    way: str
    value: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """A sentence of the scene's that stands only where something is so. text: as it stands in one of the scene's texts.

    otherwise: what stands in its place elsewhere, "" for nothing. key: "sentence.0", for messages.
    """

    text: str
    ties: tuple[Tie, ...] = ()
    claims: tuple[AuthoredClaim, ...] = ()
    otherwise: str = ""
    key: str = "sentence.0"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A complete scene. `name` is the file's stem, fit for a folder name.

    data: the name of the file of readings beside the scene file, for a process that plays a class's own; "" for none.
    table: those readings. roles: what is what in that file, where the scene says so, and `experiment` what was read by
    them. changes: conditions set for this run; `conditions` has them already.
    """

    name: str
    title: str
    process: str
    story: str
    ages: tuple[int, int]
    music: Music
    rules: tuple[Rule, ...]
    parts: tuple[PartPlan, ...]
    conditions: tuple[Condition, ...] = ()
    background: tuple[BackgroundPlan, ...] = ()
    stages: tuple[StageNote, ...] = ()
    curriculum: tuple[str, ...] = ()
    vocabulary: tuple[Word, ...] = ()
    misconceptions: tuple[Misconception, ...] = ()
    questions: tuple[Question, ...] = ()
    cautions: tuple[str, ...] = ()
    teacher_notes: tuple[str, ...] = ()  # paragraphs on what the model leaves out, with their sources
    practical: Practical | None = None
    origin: Origin = field(default_factory=lambda: Origin(file="(made in Python)"))
    data: str = ""
    table: Table | None = None
    roles: Roles | None = None
    experiment: Experiment | None = None
    changes: tuple[Change, ...] = ()
    drawn: tuple[DrawnQuantity, ...] = ()
    events: tuple[OwnEvent, ...] = ()
    circle: bool = False  # the last stage leads back to the first; for a process of the author's own
    claims: tuple[AuthoredClaim, ...] = ()  # what its sentences claim, in the order of the file
    sentences: tuple[Sentence, ...] = ()  # those of them that do not hold for every class and setting
    remarks: tuple[tuple[str, Words], ...] = ()  # a text of the author's, and what is to be said beside it here
    patterns: tuple[OwnPattern, ...] = ()  # that pupils made, one a part
    sounds: tuple[OwnSound, ...] = ()  # that pupils recorded

    def remarked(self, text: str) -> Words:
        """A text of the author's with what is to be said beside it."""
        remark = tuple(words for written, words in self.remarks if written == text)
        return (text, *remark) if remark else text

    def texts(self) -> Iterator[str]:
        """Everything that its author wrote to be read in a lesson."""
        yield from (self.title, self.story, *self.teacher_notes, *self.cautions)
        yield from (each.caption for each in self.stages)
        yield from (each.meaning for each in self.parts)
        yield from (each.why for each in self.rules)
        yield from (text for each in self.misconceptions for text in (each.belief, each.correction, each.ask))
        yield from (text for each in self.questions for text in (each.ask, each.answer))

    def retold(self, tell: Callable[[str], str]) -> Scene:
        """The same scene with another wording for each of those texts."""
        return replace(
            self,
            title=tell(self.title),
            story=tell(self.story),
            teacher_notes=tuple(filter(None, map(tell, self.teacher_notes))),
            cautions=tuple(filter(None, map(tell, self.cautions))),
            stages=tuple(replace(each, caption=tell(each.caption)) for each in self.stages),
            parts=tuple(replace(each, meaning=tell(each.meaning)) for each in self.parts),
            rules=tuple(replace(each, why=tell(each.why)) for each in self.rules),
            misconceptions=tuple(
                Misconception(belief=tell(each.belief), correction=tell(each.correction), ask=tell(each.ask))
                for each in self.misconceptions
            ),
            questions=tuple(Question(ask=tell(each.ask), answer=tell(each.answer)) for each in self.questions),
            remarks=tuple((tell(text), remark) for text, remark in self.remarks),
        )

    @property
    def own_stages(self) -> bool:
        """Nothing was found by a model or in readings: the stages, and all that is heard, are the author's own."""
        return self.process in OWN

    def sounding(self) -> Scene:
        """The scene without its silent parts and what only they follow."""
        silent = {part.name for part in self.parts if part.silent}
        if not silent:
            return self
        parts = (part for part in self.parts if not part.silent)
        return replace(
            self,
            parts=tuple(replace(part, partner="") if part.partner in silent else part for part in parts),
            rules=tuple(rule for rule in self.rules if rule.part not in silent),
            patterns=tuple(one for one in self.patterns if one.part not in silent),
        )

    def plan_name(self, part: str) -> str:
        """The part of the scene that a part of the score plays, alone or as one group's share of it."""
        names = [plan.name for plan in self.parts]
        return part if part in names else next((name for name in names if part.startswith(f"{name}, ")), part)

    def pattern_of(self, part: str) -> OwnPattern | None:
        """What pupils made for a part of the scene."""
        return next((one for one in self.patterns if one.part == part), None)

    def set_aside(self, rule: Rule) -> bool:
        """Whether a rule of a part's own is not played, because pupils decided in its place."""
        return rule.control in DECIDES and rule.part is not None and self.pattern_of(rule.part) is not None

    def as_written(self) -> Scene:
        """The scene as its file has it, without the changes for this run."""
        changed = {change.name: change.before for change in self.changes}
        kept = (
            replace(condition, measure=before) if (before := changed.get(condition.name)) else condition
            for condition in self.conditions
            if changed.get(condition.name, True) is not None
        )
        return replace(self, conditions=tuple(kept), changes=())
