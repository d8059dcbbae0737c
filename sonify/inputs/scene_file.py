"""The text of a scene file as a Scene. Shape, units and the file's own names are checked here; the names of processes,
quantities, stages and instruments are for `lesson`, which knows the registries."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from sonify.inputs import readings
from sonify.inputs.authored import authored, tied
from sonify.inputs.document import Document, Fault, read_document, refuse, shown
from sonify.inputs.own_pattern import faults_of_patterns, own_patterns
from sonify.inputs.own_process import drawn_quantity, lasts_s, own_event
from sonify.inputs.own_sound import faults_of_sounds, own_sounds
from sonify.inputs.text import text_of
from sonify.records.experiment import Roles
from sonify.records.fact import did_you_mean, wrong
from sonify.records.own_pattern import OwnPattern
from sonify.records.scene import (
    AuthoredClaim,
    BackgroundPlan,
    Condition,
    Measure,
    Misconception,
    Music,
    PartPlan,
    Practical,
    Question,
    Rule,
    Scene,
    Sentence,
    StageNote,
    Tie,
    Word,
)
from sonify.records.score import COUNT_IN

__all__ = ["read_scene", "text_of"]

if TYPE_CHECKING:
    from sonify.inputs.scene_shape import (
        HearShape,
        MusicShape,
        PartShape,
        PracticalShape,
        SceneShape,
        SentenceShape,
        TableShape,
    )


def read_scene(text: str, *, file: str, name: str) -> Scene:
    """The scene that a file's text describes.

    Args:
        text: the whole file.
        file: its name as the user gave it, for messages.
        name: the scene's own name, the file's stem.

    Raises BadFile, which names every fault with its line, its key and what is allowed.
    """
    from sonify.inputs.scene_shape import SceneShape  # loads pydantic
    from sonify.inputs.shapes import keys_of, validated

    document = read_document(text, file=file)
    shape, faults = validated(SceneShape, document.data)
    faults += [*_faults_between(document.data), *_misplaced(document.data, keys_of(SceneShape))]
    claims = _claims(shape) if shape is not None else []
    sentences = _sentences(shape) if shape is not None else []
    faults += [each for each in (*claims, *sentences) if isinstance(each, Fault)]
    if shape is None or faults:
        refuse(faults, document.origin)
    music = _music(shape.music)
    made = own_patterns(shape.pattern, music)
    if faults := [*(each for each in made if isinstance(each, Fault)), *faults_of_sounds(shape.sound, shape.part)]:
        refuse(faults, document.origin)
    rules = tuple(_rule(number, hear, music) for number, hear in enumerate(shape.hear))
    read = tuple(each for each in claims if isinstance(each, AuthoredClaim))
    patterns = tuple(each for each in made if isinstance(each, OwnPattern))
    scene = replace(_scene(shape, document, name, music, rules), claims=read, patterns=patterns)
    held = tuple(each for each in sentences if isinstance(each, Sentence))
    if faults := [fault for each in held if (fault := _misquoted(each, scene)) is not None]:
        refuse(faults, document.origin)
    return replace(scene, sentences=held)


def _sentences(shape: SceneShape) -> list[Sentence | Fault]:
    """Those that stand only where something is so. A Fault where one is tied to a part that the scene has not."""
    return [_sentence(number, row, shape) for number, row in enumerate(shape.sentence)]


def _sentence(number: int, row: SentenceShape, shape: SceneShape) -> Sentence | Fault:
    ties: list[Tie] = []
    claims: list[AuthoredClaim] = []
    parts = [part.name for part in shape.part]
    key = f"sentence.{number}"
    for text in row.only_if:
        tie = tied(text)
        read = tie or authored(text, key=f"{key}.only_if", stage="", parts=parts)
        match read:
            case Tie():
                ties.append(read)
            case AuthoredClaim():
                claims.append(read)
            case Fault():
                return read
    said, otherwise = (" ".join(each.split()) for each in (row.text, row.otherwise))
    return Sentence(text=said, ties=tuple(ties), claims=tuple(claims), otherwise=otherwise, key=key)


def _misquoted(sentence: Sentence, scene: Scene) -> Fault | None:
    """Where no text of the scene has the sentence, or where a title, an answer or the like is nothing without it."""
    where = [text for text in (" ".join(each.split()) for each in scene.texts()) if sentence.text in text]
    if not where:
        return Fault(key=f"{sentence.key}.text", message=wrong("error_inputs-no-such-sentence"))
    asked = [scene.title, *(t for q in scene.questions for t in (q.ask, q.answer))]
    asked += [t for m in scene.misconceptions for t in (m.belief, m.correction)]
    if not sentence.otherwise and sentence.text in (" ".join(each.split()) for each in asked):
        return Fault(key=sentence.key, message=wrong("error_inputs-whole-sentence"))
    return None


def _claims(shape: SceneShape) -> list[AuthoredClaim | Fault]:
    """What the sentences of the scene claim, table by table."""
    parts = [part.name for part in shape.part]
    tables = {
        "hear": [("", hear.claims) for hear in shape.hear],
        "part": [("", part.claims) for part in shape.part],
        "stage": [(stage.name, stage.claims) for stage in shape.stage],
        "misconception": [("", row.claims) for row in shape.misconception],
        "question": [("", row.claims) for row in shape.question],
    }
    return [
        authored(text, key=f"{table}.{number}.claims.{place}", stage=stage, parts=parts)
        for table, rows in tables.items()
        for number, (stage, claims) in enumerate(rows)
        for place, text in enumerate(claims)
    ]


def _scene(shape: SceneShape, document: Document, name: str, music: Music, rules: tuple[Rule, ...]) -> Scene:
    owned = {each.part for each in shape.pattern}
    return Scene(
        name=name,
        title=shape.title,
        process=shape.process,
        story=shape.story,
        ages=(shape.ages[0], shape.ages[1]),
        music=music,
        rules=rules,
        parts=tuple(_part(number, part, owned) for number, part in enumerate(shape.part)),
        conditions=tuple(Condition(name=key, measure=_measure(value)) for key, value in shape.conditions.items()),
        background=tuple(
            BackgroundPlan(
                kind=b.sound, quantity=b.follows, loudest=readings.velocity(b.loudest), key=f"background.{number}"
            )
            for number, b in enumerate(shape.background)
        ),
        stages=tuple(
            StageNote(
                stage=s.name,
                caption=s.caption,
                share=s.share,
                key=f"stage.{number}",
                lasts_s=lasts_s(s.lasts) if s.lasts else 0.0,
                sounds=tuple(s.sound),
                why=s.why,
                picture=tuple(s.picture),
            )
            for number, s in enumerate(shape.stage)
        ),
        drawn=tuple(drawn_quantity(number, each) for number, each in enumerate(shape.drawn)),
        events=tuple(own_event(number, each) for number, each in enumerate(shape.event)),
        circle=shape.circle,
        curriculum=tuple(shape.curriculum),
        vocabulary=tuple(Word(word=v.word, meaning=v.meaning) for v in shape.vocabulary),
        misconceptions=tuple(
            Misconception(belief=m.belief, correction=m.correction, ask=m.ask) for m in shape.misconception
        ),
        questions=tuple(Question(ask=q.ask, answer=q.answer) for q in shape.question),
        cautions=tuple(shape.cautions),
        teacher_notes=tuple(shape.teacher_notes),
        practical=_practical(shape.practical) if shape.practical is not None else None,
        origin=document.origin,
        sounds=own_sounds(shape.sound),
        data=shape.data,
        roles=_roles(shape.table) if shape.table is not None else None,
    )


def _practical(shape: PracticalShape) -> Practical:
    return Practical(do=shape.do, kit=tuple(shape.kit), cautions=tuple(shape.cautions), minutes=shape.minutes)


def _roles(shape: TableShape) -> Roles:
    return Roles(
        changed=shape.changed,
        measured=tuple(shape.measured),
        repeats=tuple(shape.repeats),
        groups=tuple(shape.groups) if isinstance(shape.groups, list) else shape.groups,
        kept=tuple(shape.kept),
        unused=tuple(shape.unused),
        sheet=shape.sheet,
        across=shape.across,
        model=shape.model,
    )


def _music(shape: MusicShape) -> Music:
    slowest, fastest = (readings.tempo_bpm(text) for text in shape.tempo)
    return Music(
        length_s=readings.length_s(shape.length),
        metre=readings.metre(shape.metre),
        scale=readings.scale(shape.scale),
        slowest_bpm=slowest,
        fastest_bpm=fastest,
        gliding=shape.gliding,
        loudness_range=shape.loudness_range,
    )


def _rule(number: int, hear: HearShape, music: Music) -> Rule:
    low, high = (readings.measure(text) for text in hear.low_high)
    to_low, to_high = (readings.sound(hear.control, text, music.metre) for text in hear.to)
    return Rule(
        quantity=hear.quantity,
        control=hear.control,
        low=low,
        high=high,
        to_low=to_low,
        to_high=to_high,
        to_low_text=hear.to[0],
        to_high_text=hear.to[1],
        why=hear.why,
        curve=hear.curve,
        part=hear.part,
        key=f"hear.{number}",
    )


def _part(number: int, part: PartShape, owned: Collection[str]) -> PartPlan:
    """One [[part]]. owned: the parts for which pupils made a pattern, which is neither the beat nor even by itself."""
    own = part.name in owned
    return PartPlan(
        name=part.name,
        texture=part.texture,
        sounds=tuple(part.sounds),
        meaning=part.meaning,
        stages=tuple(" ".join(stage.split()) for stage in part.stages),
        key=f"part.{number}",
        rests=part.rests,
        partner=part.partner or "",
        on_beat=part.on_beat and not own,
        even=part.even and not own,
        line=part.line or "",
        silent=part.silent,
        groups=tuple(part.groups),
        lot=part.lot or "",
    )


def _measure(value: str | int) -> Measure:
    if isinstance(value, int):
        return Measure(text=str(value), value=float(value), unit="1")
    return readings.measure_or_word(value)


def _faults_between(data: dict[str, Any]) -> list[Fault]:
    """Names within the file that do not fit each other. Reads the raw tables, so that it also serves a faulty file."""
    parts = dict(_texts(data, "part", "name"))
    faults = [
        *_twice(data, "part", "name", "part"),
        *_twice(data, "stage", "name", "stage"),
        *_twice(data, "drawn", "name", "drawn"),
        *_nothing_heard(data),
    ]
    faults += [
        Fault(key=f"part.{number}.name", message=wrong("error_inputs-name-count-take", count_in=COUNT_IN))
        for number, name in parts.items()
        if name.casefold() == COUNT_IN
    ]
    for number, name in _texts(data, "hear", "part"):
        if parts and name not in parts.values():
            faults.append(_no_part(name, parts.values(), f"hear.{number}.part"))
    faults += faults_of_patterns([*_texts(data, "pattern", "part")], list(parts.values()))
    if "table" in data and not data.get("data"):
        message = wrong("error_inputs-says-what-what")
        faults.append(Fault(key="table", message=message))
    return faults + _faults_of_rules(data) + _faults_of_parts(data, parts)


def _misplaced(data: dict[str, Any], top: set[str]) -> Iterator[Fault]:
    """Words under [conditions] whose key belongs above it: they would pass for a condition's choice."""
    rows = data.get("conditions")
    for name, value in rows.items() if isinstance(rows, dict) else ():
        if name in top and isinstance(value, str) and readings.is_word(value):
            yield Fault(key=f"conditions.{name}", message=wrong("error_inputs-at-the-top", name=name))


def _nothing_heard(data: dict[str, Any]) -> Iterator[Fault]:
    """A scene says what is heard by rules, or stage by stage."""
    rows = data.get("stage")
    told = any(isinstance(row, dict) and row.get("sound") for row in (rows if isinstance(rows, list) else []))
    if not data.get("hear") and not told:
        message = wrong("error_inputs-missing-wanted-table")
        if data.get("process") == "in-order":
            message = wrong("error_inputs-missing-stage-says")
        yield Fault(key="hear", message=message)


def _no_part(name: str, names: Collection[str], key: str) -> Fault:
    allowed = ", ".join(sorted(set(names)))
    return Fault(
        key=key,
        message=wrong(
            "error_inputs-part-called-allowed",
            name=shown(name),
            near=did_you_mean(name[:60], names),
            allowed=allowed,
        ),
    )


def _faults_of_parts(data: dict[str, Any], parts: dict[int, str]) -> list[Fault]:
    """A part that goes with none of the others, and what only some textures or rules can do."""
    faults: list[Fault] = []
    partners = dict(_texts(data, "part", "with"))
    led = {parts.get(number) for number in partners}
    for number, name in partners.items():
        others = [other for place, other in parts.items() if place != number and other not in led]
        if name not in parts.values():
            faults.append(_no_part(name, others, f"part.{number}.with"))
        elif name not in others:
            same = name == parts.get(number)
            why = wrong("error_inputs-itself") if same else wrong("error_inputs-partnered", name=shown(name))
            allowed = ", ".join(others) if others else wrong("error_inputs-no-partner")
            message = wrong("error_inputs-part-go-allowed", why=why, allowed=allowed)
            faults.append(Fault(key=f"part.{number}.with", message=message))
    textures = dict(_texts(data, "part", "texture"))
    rows = data.get("part")
    if isinstance(rows, list) and rows and all(isinstance(row, dict) and row.get("silent") is True for row in rows):
        faults.append(Fault(key="part.0.silent", message=wrong("error_edits-all-silent")))
    for number, row in enumerate(rows if isinstance(rows, list) else []):
        if not isinstance(row, dict) or textures.get(number) == "ostinato":
            continue
        for key, told in (("on_beat", "error_inputs-pattern-beat-write"), ("even", "error_inputs-pattern-even-write")):
            if row.get(key) is True:
                faults.append(Fault(key=f"part.{number}.{key}", message=wrong(told)))
    return faults


def _faults_of_rules(data: dict[str, Any]) -> list[Fault]:
    """Two rules for one control of one part; a tempo for one part alone."""
    faults: list[Fault] = []
    owners = dict(_texts(data, "hear", "part"))
    first: dict[tuple[str, str | None], int] = {}
    for number, control in _texts(data, "hear", "as"):
        whose = (control, owners.get(number))
        if whose in first:
            message = wrong("error_inputs-same-part-already", control=control, value=first[whose] + 1)
            faults.append(Fault(key=f"hear.{number}.as", message=message))
        first.setdefault(whose, number)
        if control == "tempo" and number in owners:
            message = wrong("error_inputs-class-follows-conductor")
            faults.append(Fault(key=f"hear.{number}.part", message=message))
    return faults


def _texts(data: dict[str, Any], table: str, key: str) -> Iterator[tuple[int, str]]:
    """(number of the table, text) wherever the tables of one kind have this key with a text."""
    rows = data.get(table)
    for number, row in enumerate(rows if isinstance(rows, list) else []):
        if isinstance(row, dict) and isinstance(row.get(key), str):
            yield number, " ".join(row[key].split())


def _twice(data: dict[str, Any], table: str, key: str, kind: str) -> Iterator[Fault]:
    first: dict[str, int] = {}
    for number, name in _texts(data, table, key):
        if name.casefold() in first:
            message = wrong("error_inputs-called-give-each", kind=wrong(f"error_inputs-two-{kind}"), name=shown(name))
            yield Fault(key=f"{table}.{number}.{key}", message=message)
        first.setdefault(name.casefold(), number)
