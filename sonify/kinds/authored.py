"""What an author may say that a sentence of the scene claims, in plain words: `claims = ["the gap rises"]`."""

from __future__ import annotations

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One form. words: with {quantity}, {other quantity}, {part}, {other part} and {stage} for names, {value} for a
    number with its unit; {in} may be left out or be "in STAGE", {here} is "here" or "in STAGE". kind: a row of
    `kinds.claims`. how: the reading compared."""

    words: str
    kind: str
    how: str


def _forms(kind: str, how: str, *words: str) -> tuple[Form, ...]:
    return tuple(Form(words=each, kind=kind, how=how) for each in words)


#: What a sentence may be tied to besides: a condition of the scene, by the name it has in the file.
TIES = ("{condition} is at least {value}", "{condition} is at most {value}", "{condition} is {value}")

FORMS = (
    *_forms("rises", "change", "the {quantity} rises{in}", "the {quantity} grows{in}"),
    *_forms("falls", "change", "the {quantity} falls{in}", "the {quantity} shrinks{in}"),
    *_forms("steady", "change", "the {quantity} hardly changes{in}"),
    *_forms("never falls", "change", "the {quantity} never falls{in}"),
    *_forms("more", "mean", "the {quantity} is more{in} than in {stage}"),
    *_forms("less", "mean", "the {quantity} is less{in} than in {stage}"),
    *_forms("more", "mean", "the {quantity} is more than the {other quantity}{in}"),
    *_forms("at least", "least", "the {quantity} is at least {value}{in}"),
    *_forms("at most", "most", "the {quantity} is at most {value}{in}"),
    *_forms("greatest", "most", "the {quantity} is greatest{here}", "the {quantity} is widest{here}"),
    *_forms("least", "least", "the {quantity} is least{here}"),
    *_forms("quicker", "bpm", "the beat is quicker{in} than in {stage}"),
    *_forms("slower", "bpm", "the beat is slower{in} than in {stage}"),
    *_forms("same beat", "bpm", "the beat is as quick{in} as in {stage}"),
    *_forms("greatest", "bpm", "the beat is quickest{here}"),
    *_forms("least", "bpm", "the beat is slowest{here}"),
    *_forms("every beat", "beats struck", "every beat is one beat of {part}{in}"),
    *_forms("together", "bars together", "{part} and {other part} play together{in}"),
    *_forms("apart", "bars together", "{part} and {other part} never play together{in}"),
    *_forms("starts alike", "first pitch", "{part} and {other part} begin on the same note{in}"),
    *_forms("ends higher", "last pitch", "{part} ends higher than {other part}"),
    *_forms("one range", "octaves", "{part} and {other part} sound alike at the same value"),
    *_forms("each alone", "bars sounding", "no two of {part} strike at one moment{in}"),
    *_forms("one pattern", "patterns", "{part} keeps one pattern{in}"),
    *_forms("plays throughout", "bars sounding", "{part} plays in every bar{in}", "{part} play in every bar{in}"),
    *_forms("louder", "velocity", "{part} is louder{in} than in {stage}", "{part} are louder{in} than in {stage}"),
    *_forms("softer", "velocity", "{part} is softer{in} than in {stage}", "{part} are softer{in} than in {stage}"),
    *_forms(
        "brighter", "brightness", "{part} is brighter{in} than in {stage}", "{part} are brighter{in} than in {stage}"
    ),
    *_forms("darker", "brightness", "{part} is darker{in} than in {stage}", "{part} are darker{in} than in {stage}"),
    *_forms("greatest", "brightness", "{part} is brightest{here}"),
    *_forms("least", "brightness", "{part} is darkest{here}"),
    *_forms("grows brighter", "brightness gained", "{part} grows brighter{in}", "{part} grow brighter{in}"),
    *_forms("grows darker", "brightness gained", "{part} grows darker{in}", "{part} grow darker{in}"),
    *_forms("begins dark", "first brightness", "{part} begins dark{in}", "{part} begin dark{in}"),
    *_forms("begins bright", "first brightness", "{part} begins bright{in}", "{part} begin bright{in}"),
    *_forms("higher", "pitch", "{part} is higher{in} than in {stage}", "{part} are higher{in} than in {stage}"),
    *_forms("lower", "pitch", "{part} is lower{in} than in {stage}", "{part} are lower{in} than in {stage}"),
    *_forms("busier", "strokes a bar", "{part} is busier{in} than in {stage}", "{part} are busier{in} than in {stage}"),
    *_forms(
        "sparser", "strokes a bar", "{part} is sparser{in} than in {stage}", "{part} are sparser{in} than in {stage}"
    ),
    *_forms("greatest", "velocity", "{part} is loudest{here}"),
    *_forms("least", "velocity", "{part} is softest{here}"),
    *_forms("greatest", "pitch", "{part} is highest{here}"),
    *_forms("least", "pitch", "{part} is lowest{here}"),
    *_forms("silent", "bars sounding", "{part} is silent{in}", "{part} are silent{in}"),
    *_forms("plays", "bars sounding", "{part} plays{in}", "{part} play{in}"),
)
