"""The shape of a scene file: which keys each table may have, and what may stand there."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import AfterValidator, Field, ValidationInfo, field_validator, model_validator

from sonify.inputs import readings
from sonify.inputs.authored import known_form, known_tie
from sonify.inputs.document import shown
from sonify.inputs.own_process import lasts_s
from sonify.inputs.own_shape import MOST_DRAWN, MOST_EVENTS, SOUND, DrawnShape, EventShape, Sound
from sonify.inputs.pattern_shape import PatternShape
from sonify.inputs.readings import UnreadableWord, unknown
from sonify.inputs.shapes import Line, Name, Shape, Text, one_of, read_by, size, within, words
from sonify.inputs.sound_shape import MOST_SOUNDS, SoundShape
from sonify.kinds.controls import CONTROLS
from sonify.kinds.experiments import MODELS
from sonify.kinds.lines import LINES
from sonify.kinds.pictures import MOST_SYMBOLS, STAGE_PICTURES
from sonify.kinds.textures import TEXTURES
from sonify.records.fact import wrong
from sonify.records.scene import BACKGROUNDS, CURVES, LOUDNESS_RANGES, STAGES_ALL, Metre

#: As many as a class file allows.
MOST_GROUPS = 12
MEASURES = 'two numbers with their units, such as ["5 degC", "25 degC"]'
YES_OR_NO = "true or false, without quotation marks"
EXAMPLES = {
    "tempo": '["66 bpm", "112 bpm"]',
    "pitch": '["C4", "A5"]',
    "density": '["1 per bar", "2 per beat"]',
    "dynamics": '["p", "f"]',
    "brightness": '["20 %", "80 %"]',
}


def condition(value: object) -> object:
    """A number with its unit, or a bare whole number for what is counted."""
    if isinstance(value, str):
        readings.measure_or_word(value)
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        if abs(value) > 1_000_000:
            raise UnreadableWord(wrong("error_inputs-bare-whole-number", value=shown(value)))
        return value
    if isinstance(value, float):
        raise UnreadableWord(wrong("error_inputs-bare-number-write", value=shown(value), value_2=f"{value:g}"))
    raise UnreadableWord(wrong("error_inputs-wanted-number-unit", value=shown(value)))


def file_beside(name: str) -> str:
    """The name of a file that lies beside the scene file: no folder, nothing hidden."""
    if name and (name != name.strip() or set(name) & set('/\\:<>"|?*') or name.startswith(".")):
        raise UnreadableWord(wrong("error_inputs-file-lies-beside", name=shown(name)))
    return name


def stage_names(value: object) -> object:
    """The word all, or a list of the names of stages."""
    if value == "all":
        return list(STAGES_ALL)
    if isinstance(value, str):
        raise UnreadableWord(wrong("error_inputs-write-list-stages", value=shown(value), value_2=value[:60]))
    if not isinstance(value, list) or not value or not all(isinstance(name, str) and name.strip() for name in value):
        raise UnreadableWord(wrong("error_inputs-wanted-list-names", value=shown(value)))
    if len(set(value)) < len(value) or (len(value) > 1 and "all" in value) or len(value) > 20:
        raise UnreadableWord(wrong("error_inputs-names-stage-twice"))
    return value


def symbol(name: str) -> str:
    """The name of a symbol; of so many, those that share a word with a wrong one are offered."""
    plain = " ".join(name.lower().split())
    if plain not in STAGE_PICTURES:
        near = [each for each in STAGE_PICTURES if set(each.split()) & set(plain.split())]
        raise unknown("picture", name, near or STAGE_PICTURES)
    return plain


def each_once(groups: list[int]) -> list[int]:
    """Numbers of groups, none of them twice."""
    if len(set(groups)) < len(groups):
        raise UnreadableWord(wrong("error_inputs-group-twice"))
    return groups


Groups = Annotated[
    list[Annotated[int, within(1, MOST_GROUPS)]], size(1, MOST_GROUPS, "groups"), AfterValidator(each_once)
]
Pictures = Annotated[list[Annotated[str, AfterValidator(symbol)]], size(0, MOST_SYMBOLS, "pictures")]
Claims = Annotated[list[Annotated[str, words(200), AfterValidator(known_form)]], size(0, 12, "claims")]
CLAIMS = 'a list of what the sentence claims, such as ["the beat is quickest here"]'


class MusicShape(Shape):
    length: Annotated[str, read_by(readings.length_s)] = Field(
        default="3 min", description='a time such as "3 min" or "90 s"'
    )
    metre: Annotated[str, read_by(readings.metre)] = Field(default="4/4", description='"2/4", "3/4" or "4/4"')
    scale: Annotated[str, read_by(readings.scale)] = Field(
        default="C pentatonic", description='a tonic and a mode, such as "C pentatonic" or "D dorian"'
    )
    tempo: Annotated[list[Annotated[str, read_by(readings.tempo_bpm)]], size(2, 2, "tempi")] = Field(
        default=["60 bpm", "132 bpm"], description='the slowest and the fastest beat, such as ["60 bpm", "132 bpm"]'
    )
    gliding: bool = Field(default=False, description=YES_OR_NO)
    loudness_range: Annotated[str, one_of("loudness range", LOUDNESS_RANGES)] = Field(
        default="classroom", description='"classroom" (quiet stages stay above a fan) or "wide"'
    )

    @field_validator("tempo")
    @classmethod
    def slowest_first(cls, ends: list[str]) -> list[str]:
        if readings.tempo_bpm(ends[0]) > readings.tempo_bpm(ends[1]):
            raise UnreadableWord(wrong("error_inputs-slowest-comes-first", ends=ends[0], ends_2=ends[1]))
        return ends


class HearShape(Shape):
    quantity: Name = Field(description="the name of a quantity that the process computes, in quotation marks")
    control: Annotated[str, one_of("control", CONTROLS)] = Field(
        alias="as", description=f"one of {', '.join(CONTROLS)}"
    )
    low_high: Annotated[list[Annotated[str, read_by(readings.measure)]], size(2, 2, "values")] = Field(
        alias="from", description=MEASURES
    )
    to: Annotated[list[Annotated[str, words(40)]], size(2, 2, "values")] = Field(
        description='two values in quotation marks, such as ["66 bpm", "112 bpm"] or ["p", "f"]'
    )
    why: Line = Field(description="the reason, in a pupil's words")
    curve: Annotated[str, one_of("curve", CURVES)] = Field(default="linear", description=f"one of {', '.join(CURVES)}")
    part: Name | None = Field(
        default=None, description="the name of a part; without it the rule holds for the whole piece"
    )
    claims: Claims = Field(default=[], description=CLAIMS)

    @field_validator("low_high")
    @classmethod
    def ends_differ(cls, ends: list[str]) -> list[str]:
        low, high = map(readings.measure, ends)
        if (low.value, low.unit) == (high.value, high.unit):
            raise UnreadableWord(wrong("error_inputs-both-ends-rule", text=low.text))
        return ends

    @field_validator("to")
    @classmethod
    def sounds_differ(cls, ends: list[str], info: ValidationInfo) -> list[str]:
        control = info.data.get("control")
        if control is None:
            return ends  # the control itself is at fault, and says so
        try:
            low, high = (readings.sound(control, text, Metre()) for text in ends)
        except ValueError as error:
            raise UnreadableWord(
                wrong("error_inputs-write-example", error=error, control=control, examples=EXAMPLES[control])
            ) from None
        if low == high:
            raise UnreadableWord(wrong("error_inputs-both-ends-nobody", ends=ends[0]))
        return ends


class PartShape(Shape):
    name: Annotated[str, words(40)] = Field(description="the name of the part, in quotation marks")
    texture: Annotated[str, one_of("texture", TEXTURES)] = Field(description=f"one of {', '.join(TEXTURES)}")
    sounds: Annotated[list[Name], size(1, 20, "instruments")] = Field(
        description='a list of instruments, the favourite first, such as ["ocean drum", "shaker", "voices"]'
    )
    stages: Annotated[Any, AfterValidator(stage_names)] = Field(default="all", validate_default=True)
    meaning: Annotated[str, words(400, least=0)] = Field(default="", description="a text for the group's card")
    rests: bool = Field(default=True, description=YES_OR_NO)
    partner: Name | None = Field(
        default=None,
        alias="with",
        description="the name of another part, in quotation marks: both come and go together",
    )
    on_beat: bool = Field(default=False, description=YES_OR_NO)
    even: bool = Field(default=False, description=YES_OR_NO)
    line: Annotated[str, one_of("line", LINES)] | None = Field(default=None, description=f"one of {', '.join(LINES)}")
    silent: bool = Field(default=False, description=YES_OR_NO)
    groups: Groups = Field(default=[], description="a list of the numbers of the groups that play it, such as [2]")
    lot: Annotated[str, words(40)] | None = Field(
        default=None,
        description="the name that the part had, in quotation marks: its notes are drawn as they were then",
    )
    claims: Claims = Field(default=[], description=CLAIMS)


class BackgroundShape(Shape):
    sound: Annotated[str, one_of("background sound", BACKGROUNDS)] = Field(
        description=f"one of {', '.join(BACKGROUNDS)}"
    )
    follows: Name = Field(description="the name of a quantity that the process computes, in quotation marks")
    loudest: Annotated[str, read_by(readings.velocity)] = Field(
        default="mp", description='a dynamic mark, such as "mp"'
    )


class StageShape(Shape):
    name: Name = Field(description="the name of a stage that the process finds, in quotation marks")
    caption: Annotated[str, words(200)] = Field(default="", description="one line for pupils, in quotation marks")
    share: Annotated[float, within(0.1, 10)] = Field(
        default=1.0, description="how long the stage lasts beside the others, a number from 0.1 to 10"
    )
    claims: Claims = Field(default=[], description=CLAIMS)
    lasts: Annotated[str, read_by(lasts_s)] = Field(
        default="", description='how long it takes, such as "20 min"; for stages of your own'
    )
    sound: Sound = Field(default=[], description=SOUND)
    why: Annotated[str, words(300)] = Field(default="", description="why it sounds so, in a pupil's words")
    picture: Pictures = Field(
        default=[], description='what it looks like, one to three names of symbols, such as ["tall plant", "up"]'
    )


class WordShape(Shape):
    word: Name = Field(description="a word in quotation marks")
    meaning: Line = Field(description="what it means, in quotation marks")


class MisconceptionShape(Shape):
    belief: Line = Field(description="what pupils often believe, in quotation marks")
    correction: Annotated[str, words(600)] = Field(description="what is true, in quotation marks")
    ask: Annotated[str, words(300, least=0)] = Field(default="", description="a question that brings it out")
    claims: Claims = Field(default=[], description=CLAIMS)


class QuestionShape(Shape):
    ask: Line = Field(description="a question in quotation marks")
    answer: Annotated[str, words(600)] = Field(description="its answer in quotation marks")
    claims: Claims = Field(default=[], description=CLAIMS)


class SentenceShape(Shape):
    text: Annotated[str, words(600)] = Field(description="a sentence of this scene, as it stands in one of its texts")
    only_if: Annotated[list[Annotated[str, words(200), AfterValidator(known_tie)]], size(1, 12, "ties")] = Field(
        description='where it holds: a list such as ["wind is at least 1 m/s"] or ["The hob plays in every bar"]'
    )
    otherwise: Annotated[str, words(600, least=0)] = Field(default="", description="what stands in its place elsewhere")


COLUMN = 'the heading of a column of the file, in quotation marks, such as "Height (cm)"'
COLUMNS = 'a list of headings of the file, such as ["Test 1", "Test 2"]'
Heading = Annotated[str, words(100)]
Columns = Annotated[list[Heading], size(0, 50, "columns")]


def one_or_more_columns(value: object) -> object:
    """A heading, or a list of headings."""
    if isinstance(value, str) or (isinstance(value, list) and all(isinstance(name, str) for name in value)):
        names = [value] if isinstance(value, str) else value
        if len(names) <= 50 and all(len(name) <= 100 and name.isprintable() for name in names):
            return value
    raise UnreadableWord(wrong("error_inputs-wanted", value=shown(value), column=COLUMN, columns=COLUMNS))


class TableShape(Shape):
    changed: Heading | None = Field(default=None, description=COLUMN)
    measured: Columns = Field(default=[], description=COLUMNS)
    repeats: Columns = Field(default=[], description=COLUMNS)
    groups: Annotated[Any, AfterValidator(one_or_more_columns)] = Field(
        default=None, description="a column of words, or a list of the columns that are the groups"
    )
    kept: Columns = Field(default=[], description=COLUMNS)
    unused: Columns = Field(default=[], description=COLUMNS)
    sheet: Heading | None = Field(default=None, description="the name of a sheet or a table of the file")
    across: bool | None = Field(default=None, description=YES_OR_NO)
    model: Annotated[str, one_of("model", MODELS)] | None = Field(
        default=None, description=f"one of {', '.join(MODELS)}"
    )

    @model_validator(mode="after")
    def one_role_each(self) -> TableShape:
        groups = self.groups if isinstance(self.groups, list) else [self.groups] if self.groups else []
        roles = {
            "changed": [self.changed] if self.changed else [],
            "measured": self.measured,
            "repeats": self.repeats,
            "groups": groups,
            "kept": self.kept,
            "unused": self.unused,
        }
        first: dict[str, str] = {}
        for role, names in roles.items():
            for name in names:
                if name in first:
                    # The first try may bear the name of what was measured: "paper clips", "try 2", "try 3".
                    if (first[name], role) == ("measured", "repeats") and len(names) > 1:
                        continue
                    raise UnreadableWord(
                        wrong("error_inputs-stands-under-under", name=shown(name), first=first[name], role=role)
                    )
                first[name] = role
        return self


class PracticalShape(Shape):
    do: Annotated[str, words(700)] = Field(description="what the class does, in quotation marks")
    kit: Annotated[list[Text], size(1, 20, "texts")] = Field(description="a list of what it takes")
    cautions: Annotated[list[Text], size(0, 10, "texts")] = Field(default=[], description="a list of texts")
    minutes: Annotated[int, within(5, 60)] = Field(default=20, description="a whole number from 5 to 60")


class SceneShape(Shape):
    title: Line = Field(description="a text in quotation marks")
    process: Name = Field(description='the name of a process, such as "water-cycle"')
    ages: Annotated[list[Annotated[int, within(4, 18)]], size(2, 2, "ages")] = Field(
        default=[7, 11], description="the youngest and the oldest age, such as [7, 11]"
    )
    story: Annotated[str, words(4000, least=0)] = Field(default="", description="a text in quotation marks")
    curriculum: Annotated[list[Text], size(0, 30, "texts")] = Field(default=[], description="a list of texts")
    cautions: Annotated[list[Text], size(0, 30, "texts")] = Field(default=[], description="a list of texts")
    teacher_notes: Annotated[list[Text], size(0, 30, "texts")] = Field(default=[], description="a list of texts")
    practical: PracticalShape | None = Field(
        default=None, description="a table [practical]: what the class does, with what, and how to take care"
    )
    data: Annotated[str, words(200, least=0), AfterValidator(file_beside)] = Field(
        default="", description='the name of a file of readings that lies beside this one, such as "readings.csv"'
    )
    table: TableShape | None = Field(
        default=None, description="a table [table] that says what is what in the file of readings"
    )
    conditions: dict[str, Annotated[Any, AfterValidator(condition)]] = Field(
        default={}, description='a table [conditions] with lines such as sea_temperature = "14 degC"'
    )
    music: MusicShape = Field(default=MusicShape(), description="a table [music]")
    circle: bool = Field(default=False, description=YES_OR_NO)
    hear: Annotated[list[HearShape], size(0, 40, "rules")] = Field(
        default=[], description="one table [[hear]] for each rule"
    )
    part: Annotated[list[PartShape], size(1, 12, "parts")] = Field(description="one table [[part]] for each part")
    background: Annotated[list[BackgroundShape], size(0, 8, "sounds")] = Field(
        default=[], description="tables [[background]]"
    )
    stage: Annotated[list[StageShape], size(0, 20, "stages")] = Field(default=[], description="tables [[stage]]")
    drawn: Annotated[list[DrawnShape], size(0, MOST_DRAWN, "quantities")] = Field(
        default=[], description="one table [[drawn]] for each quantity that you draw"
    )
    event: Annotated[list[EventShape], size(0, MOST_EVENTS, "events")] = Field(
        default=[], description="tables [[event]]"
    )
    vocabulary: Annotated[list[WordShape], size(0, 60, "words")] = Field(
        default=[], description="tables [[vocabulary]]"
    )
    misconception: Annotated[list[MisconceptionShape], size(0, 30, "tables")] = Field(
        default=[], description="tables [[misconception]]"
    )
    question: Annotated[list[QuestionShape], size(0, 60, "questions")] = Field(
        default=[], description="tables [[question]]"
    )

    pattern: Annotated[list[PatternShape], size(0, 12, "patterns")] = Field(
        default=[], description="tables [[pattern]]: a pattern that pupils made for a part"
    )
    sound: Annotated[list[SoundShape], size(0, MOST_SOUNDS, "sounds")] = Field(
        default=[], description="tables [[sound]]: a sound of your own, in a file beside this one"
    )
    sentence: Annotated[list[SentenceShape], size(0, 40, "sentences")] = Field(
        default=[], description="tables [[sentence]]"
    )

    @field_validator("ages")
    @classmethod
    def youngest_first(cls, ages: list[int]) -> list[int]:
        if ages[0] > ages[1]:
            raise UnreadableWord(wrong("error_inputs-youngest-comes-first", ages=ages[0], ages_2=ages[1]))
        return ages
