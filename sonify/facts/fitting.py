"""A scene fitted to its lesson: what its author wrote for other settings, or of a part that nobody plays, is marked in
the teacher's sheet and left out of the pupils'.

A teacher can judge a sentence and is told which to look at, so hers stay, each with a remark. Pupils take a sheet at
its word, so of their sentences the doubtful ones go.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import replace
from functools import lru_cache

import numpy as np

from sonify.facts.authored import false_claims
from sonify.facts.evidence import Evidence
from sonify.kinds.experiments import REPEATS
from sonify.kinds.readings import SCIENCE
from sonify.records.controls import Controls
from sonify.records.fact import Words, fact
from sonify.records.findings import Finding
from sonify.records.played import bars_played
from sonify.records.scene import STAGES_ALL, AuthoredClaim, PartPlan, Rule, Scene
from sonify.records.score import Score, Section

#: Fewer strokes a bar are none (ours).
_HALF_A_STROKE = 0.5
_SENTENCES = re.compile(r"(?<=[.!?])\s+|(?<=[.!?][”\"'’])\s+")
_SPELLED = (
    "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|eighteen|twenty|thirty|forty|fifty|sixty|"
    "eighty|hundred|thousand|half|third|thirds|quarter|quarters|tenth|tenths|hundredth|hundredths"
)
_UNITS = (
    r"seconds?|minutes?|hours?|days?|nights?|weeks?|months?|years?|degrees?|metres?|(?:centi|milli|kilo)metres?|"
    r"(?:milli)?litres?|(?:kilo)?grams?|kilojoules?|per cent|times|hundredths?|tenths?|thirds?|quarters?|"
    r"parts? in|beats|past|o'clock|in the (?:morning|afternoon|evening)|at night"
)
#: Numbers so large that they are read off something where they stand by themselves: "Twenty. Twenty-three."
_READ_OFF = "(?:thir|four|fif|six|seven|eigh|nine)teen|(?:twen|thir|for|fif|six|seven|eigh|nine)ty|hundred"
#: What holds at one setting and may not at the next: a figure, or a number in letters with a unit or a comparison.
_FIGURE = re.compile(
    rf"\d[\d.,]*|\b(?:{_SPELLED})\b(?=(?:[ -](?:and|or|a|an|to|{_SPELLED}))*[ -](?:{_UNITS})\b)|"
    rf"\bminus (?:{_SPELLED}|{_READ_OFF})\b|(?:(?<=[.!?:,] )|(?<=^))(?:a )?(?:{_READ_OFF})(?:-\w+)?(?=[.!?,;])|"
    rf"\ban hour and\b|\babout an? (?:minute|hour|day|week|month|year)\b|\bhalf (?:an?|as|of|its)\b|"
    r"\btwice (?:as|the)\b|\b(?:a|one) (?:fifth|third|quarter|tenth)\b",
    re.IGNORECASE,
)
#: Figures that belong to no setting: an assignment to type, a school year.
_NO_FIGURE = re.compile(r"\w+ ?= ?\"[^\"]*\"|\bYears? \d(?: (?:to|and) \d)?", re.IGNORECASE)
#: A quotation in a finding is cut to so many words on each side of its figure.
_AROUND = 5
#: What follows the name of a part where it is meant as something that is played.
_PLAYS = (
    r"(?:group|part|player|tap|tune|melody|drone)s?\b|"
    r"(?:(?:would|will|can|must|do|does|did) )?(?:(?:never|always|only) )?(?:play(?:s|ed|ing)?|rest(?:s|ed)|"
    r"com(?:es|e) in|"
    r"(?:is|are|was|were) (?:silent|loud|louder|loudest|soft|softer|softest|heard|busy|busier|busiest))\b"
)
#: What is said of a part as it sounds; the beat is everybody's.
_OF_SOUND = re.compile(
    r"\b(?:tunes?|melod(?:y|ies)|notes?|taps?|drones?|hums?|silent|shimmer|loud(?:er|est)?|soft(?:er|est|ly)?|"
    r"(?:high|low|busi)(?:er|est))\b",
    re.IGNORECASE,
)


# --- conditions ------------------------------------------------------------------------------------------------------


def fitted_to_conditions(
    scene: Scene,
    before: Scene,
    stages: Collection[str],
    evidence: Evidence,
    own: Collection[str] = (),
    *,
    readings: bool = False,
) -> tuple[Scene, tuple[Finding, ...]]:
    """The scene with its doubtful sentences marked or left out where its conditions or rules are not those it was
    written for, and one finding that quotes them. What a word means holds at any setting.

    before: the scene as its author wrote it. stages: all that the process may find. own: texts that were put in place
    of the author's: whoever wrote them knew the settings of now. readings: whether others stand in place of its own.
    """
    if _settings(scene) == _settings(before) and not readings:
        return scene, ()
    false = [claim for claim in false_claims(scene, stages, evidence, whole=False) if claim.how in SCIENCE]
    doubt = _Doubt(scene, false, own)
    remark = fact("authored-check", what="readings" if readings else "settings")
    remarks: list[tuple[str, Words]] = [
        (text, remark) for text in (*scene.story.split("\n\n"), *scene.teacher_notes) if doubt.stale(text)
    ]
    for table, rows in (
        ("misconception", [(m.correction,) for m in scene.misconceptions]),  # what it asks is a thought, not a figure
        ("question", [(q.answer, q.ask) for q in scene.questions]),
    ):
        for number, texts in enumerate(rows):
            found = [text for text in texts if doubt.stale(text, f"{table}.{number}")]
            remarks += [(text, remark) for text in found[:1]]
    told = replace(
        scene,
        remarks=(*scene.remarks, *remarks),
        stages=tuple(replace(each, caption=doubt.kept(each.caption, each.key)) for each in scene.stages),
        parts=tuple(replace(each, meaning=doubt.kept(each.meaning, each.key)) for each in scene.parts),
        rules=tuple(replace(each, why=doubt.kept(each.why, each.key)) for each in scene.rules),
    )
    # what was left out is not printed, so nothing that it claims is a problem
    told = replace(told, claims=tuple(claim for claim in told.claims if _sentence_of(claim) not in doubt.left_out))
    return told, doubt.findings("readings" if readings else "settings")


def _settings(scene: Scene) -> object:
    """What the sentences of a scene were written for: its conditions in any order, and its rules, whatever their parts
    are called."""
    places = {part.name: number for number, part in enumerate(scene.parts)}
    rules = tuple(
        (r.quantity, r.control, r.low, r.high, r.to_low, r.to_high, r.curve, places.get(r.part or ""))
        for r in scene.rules
    )
    return frozenset((each.name, each.measure) for each in scene.conditions if each.name != REPEATS), rules


class _Doubt:
    """Sentences that hold a figure which none of their claims holds, or whose claims have become false."""

    def __init__(self, scene: Scene, false: Iterable[AuthoredClaim], own: Collection[str] = ()) -> None:
        self.own = own
        self.claims: dict[str, set[str]] = {}
        for claim in scene.claims:
            self.claims.setdefault(_sentence_of(claim), set()).update(figures(claim.text))
        self.false = {_sentence_of(claim) for claim in false}
        self.left_out: set[str] = set()
        self.quoted: list[str] = []

    def stale(self, text: str, key: str = "") -> bool:
        """Whether anything in a text is doubtful; what is, is quoted."""
        return self.kept(text, key) != " ".join(text.split())

    def kept(self, text: str, key: str = "") -> str:
        """The sentences of a text that are not."""
        if text in self.own:
            return " ".join(text.split())
        if key in self.false:
            self.quoted.append(_quotation(text))
            if key.partition(".")[0] in ("stage", "part", "hear"):  # of the others the teacher judges
                self.left_out.add(key)
            return ""
        kept = []
        for sentence in _SENTENCES.split(" ".join(text.split())):
            if figures(sentence) <= self.claims.get(key, set()):
                kept.append(sentence)
            else:
                self.quoted.append(_quotation(sentence))
        return " ".join(kept)

    def findings(self, what: str) -> tuple[Finding, ...]:
        if not self.quoted:
            return ()
        quotes = "; ".join(f"“{each}”" for each in dict.fromkeys(self.quoted))
        message = fact("authored-for-other-conditions", quotes=quotes, what=what)
        return (Finding(kind="claim", message=message, fix=fact("authored-for-other-conditions-fix")),)


def _sentence_of(claim: AuthoredClaim) -> str:
    """The key of the sentence that carries a claim: "stage.0.claims.1" is one of "stage.0"."""
    return claim.key.partition(".claims")[0]


@lru_cache(maxsize=4096)
def figures(text: str) -> frozenset[str]:
    """The figures of a text that may hold at one setting and not at the next.

    >>> sorted(figures("Dry after 5 hours, and twice as warm, in Year 4."))
    ['5', 'twice as']
    >>> figures("Two saucers, one of them in a bag.")
    frozenset()
    """
    return frozenset(found.lower().rstrip(".,") for found in _FIGURE.findall(_NO_FIGURE.sub(" ", text)))


def _quotation(text: str) -> str:
    """A sentence, cut to the words around its first figure where it is long.

    >>> _quotation('Now set start_temperature = "4 degC" and let both of the tunes begin lower, at ("20") degrees.')
    '… the tunes begin lower, at ("20") degrees.'
    """
    found = _FIGURE.search(_NO_FIGURE.sub(lambda none: " " * len(none[0]), text))
    at = text.rfind(" ", 0, found.start()) + 1 if found else 0
    before, after = text[:at].split(), text[at:].split()
    head, tail = before[-_AROUND:], after[: 2 * _AROUND]
    start = "… " if len(before) > len(head) else ""
    return f"{start}{' '.join([*head, *tail])}{' …' if len(after) > len(tail) else ''}"


# --- the class -------------------------------------------------------------------------------------------------------


def left_out(scene: Scene, score: Score) -> tuple[str, ...]:
    """The parts of the scene that nobody plays in this piece."""
    played = {scene.plan_name(part.name) for part in score.group_parts}
    return tuple(plan.name for plan in scene.parts if plan.name not in played)


def fitted_to_class(scene: Scene, score: Score, controls: Controls) -> Scene:
    """The scene with its parts as the class plays them: without those that nobody plays, their rules, and questions and
    misconceptions that ask about them.

    A part keeps only the stages it plays in: it may rest in one for want of a group, or because enough is heard there.
    """
    silent = left_out(scene, score)
    parts = tuple(_as_played(plan, scene, score, controls) for plan in scene.parts if plan.name not in silent)
    if not silent:
        return replace(scene, parts=parts)
    asked = {_sentence_of(claim) for claim in scene.claims if {claim.part, claim.beside} & {*silent}}

    def fits(table: str, number: int, *texts: str) -> bool:
        return f"{table}.{number}" not in asked and not any(speaks_of(" ".join(texts), name) for name in silent)

    gone: set[str] = set()
    misconceptions, questions = [], []
    for number, belief in enumerate(scene.misconceptions):
        if fits("misconception", number, belief.belief, belief.correction, belief.ask):
            misconceptions.append(belief)
        else:
            gone.add(f"misconception.{number}")
    for number, question in enumerate(scene.questions):
        if fits("question", number, question.ask, question.answer):
            questions.append(question)
        else:
            gone.add(f"question.{number}")
    remarks = [
        (text, fact("authored-nobody-plays", part=name))
        for text in scene.teacher_notes
        for name in silent
        if speaks_of(text, name)
    ]
    rules: tuple[Rule, ...] = tuple(rule for rule in scene.rules if rule.part not in silent)
    unsaid = gone | {rule.key for rule in scene.rules if rule not in rules}
    unsaid |= {plan.key for plan in scene.parts if plan.name in silent}
    claims = tuple(claim for claim in scene.claims if _sentence_of(claim) not in unsaid)
    return replace(
        scene,
        parts=parts,
        rules=rules,
        misconceptions=tuple(misconceptions),
        questions=tuple(questions),
        claims=claims,
        remarks=(*scene.remarks, *remarks),
    )


def _as_played(plan: PartPlan, scene: Scene, score: Score, controls: Controls) -> PartPlan:
    """A part with the stages in which it has something to play, no tap at all included: that is heard, too."""
    beats = score.metre.beats
    own = [part for part in score.group_parts if scene.plan_name(part.name) == plan.name]
    bars = {int(note.beat // beats) + 1 for part in own for note in part.notes}
    given = [(e.bar, e.bars) for part in own for e in part.entries] + [(b.bar, b.bars) for p in own for b in p.blanks]
    bars |= {bar for first, count in given for bar in range(first, first + count)}
    none = [section.name for section in score.sections if _asked_for_nothing(plan, controls, section, beats)]
    inside = tuple(s.name for s in score.sections if s.name in none or bars & set(range(s.bar, s.bar + s.bars)))
    planned = [s.name for s in score.sections if plan.stages == STAGES_ALL or s.name in plan.stages]
    return plan if not inside or set(planned) <= set(inside) else replace(plan, stages=inside)


def _asked_for_nothing(plan: PartPlan, controls: Controls, section: Section, beats: int) -> bool:
    """Whether a part's rule asks for no stroke in a stage of its own: its silence is what there is to hear."""
    first = (section.bar - 1) * beats
    return (plan.stages == STAGES_ALL or section.name in plan.stages) and any(
        curve.part == plan.name
        and curve.rule.control == "density"
        and float(np.sum(curve.results[first : first + section.bars * beats])) < _HALF_A_STROKE * section.bars
        for curve in controls.curves
    )


def speaks_of(text: str, part: str) -> bool:
    """Whether a text speaks of a part as something that is played, by its name.

    >>> speaks_of("The rain group played more and more taps.", "The rain")
    True
    >>> speaks_of("Rain must be salty, because it comes from the sea.", "The rain")
    False
    """
    name = re.escape(re.sub(r"^(?:the|a|an) ", "", part, flags=re.IGNORECASE))
    named = rf"\b{name}(?:['’]s)? (?:{_PLAYS})"
    owned = rf"\b(?:group|part|players?|melody|tune|taps) of (?:the )?{name}\b"
    return re.search(f"{named}|{owned}", text, re.IGNORECASE) is not None


def of_missing_stages(scene: Scene, process_stages: Collection[str], score: Score) -> tuple[tuple[str, Words], ...]:
    """A remark beside each question and misconception whose claims speak of a stage that does not come here."""
    came = {section.name for section in score.sections}
    found: dict[str, Words] = {}
    for claim in scene.claims:
        for stage in (claim.stage, claim.than):
            if stage in process_stages and stage not in came:
                for text in _text_of(scene, claim):
                    found.setdefault(text, fact("authored-stage-missing", stage=stage))
    return tuple(found.items())


def not_heard(scene: Scene, score: Score) -> tuple[tuple[str, Words], ...]:
    """A remark beside each question and misconception that speaks of what a part plays, and whose claims on the science
    are of a stage in which that part rests: what the science does there cannot be heard.

    scene: with all of its author's sentences, as the keys of the claims count them.
    """
    bars = bars_played(scene, score)
    found: dict[str, Words] = {}
    for claim in scene.claims:
        told = _text_of(scene, claim)
        if claim.how not in SCIENCE or not any(map(_OF_SOUND.search, (*told, *_asked_with(scene, claim)))):
            continue
        rules = [rule for rule in scene.rules if rule.quantity == claim.quantity and rule.control != "tempo"]
        names = [rule.part for rule in rules if rule.part in bars]
        if len(names) < len(rules) or not names or not all(bars[name] for name in names):
            continue  # everybody's rule, or a part that nobody plays: told elsewhere
        for section in score.sections:
            if section.name not in (claim.stage, claim.than):
                continue
            here = range(section.bar, section.bar + section.bars)
            if not any(bars[name].intersection(here) for name in names):
                remark = fact("authored-rests-there", part=names[0], stage=section.title)
                found |= {text: remark for text in told if text not in found}
    return tuple(found.items())


def _asked_with(scene: Scene, claim: AuthoredClaim) -> tuple[str, ...]:
    """The question that a claim's answer belongs to."""
    table, _, number = _sentence_of(claim).partition(".")
    return (scene.questions[int(number)].ask,) if table == "question" else ()


def _text_of(scene: Scene, claim: AuthoredClaim) -> tuple[str, ...]:
    """The text, where it is the teacher's, that carries a claim: an answer or a correction."""
    table, _, number = _sentence_of(claim).partition(".")
    if table == "misconception":
        return (scene.misconceptions[int(number)].correction,)
    return (scene.questions[int(number)].answer,) if table == "question" else ()


def not_so(scene: Scene, false: Iterable[AuthoredClaim]) -> tuple[tuple[str, Words], ...]:
    """A remark beside each question and misconception that claims what is not so in this piece. scene: with all of its
    author's sentences, as the keys of the claims count them."""
    texts = dict.fromkeys(text for claim in false for text in _text_of(scene, claim))
    return tuple((text, fact("authored-not-so")) for text in texts)
