"""What can be read off a lesson as one number: of its science, or of what is played."""

from __future__ import annotations

#: Readings of the Timeline. `of` is a quantity; start and end are model seconds.
SCIENCE = {
    "first": "the value at the start",
    "last": "the value at the end",
    "mean": "the mean over time",
    "most": "the largest value",
    "least": "the smallest value",
    "change": "the value at the end less the value at the start",
    "total": "the integral over time",
    "when most": "the model time of the largest value",
    "when least": "the model time of the smallest value",
    "when over": "the first model time at which it is at least `level`",
    "when under": "the first model time at which it is at most `level`",
    "halving": "how long it takes to come from its start to half of that",
    "median": "the middle value over time, at 121 equal times",
    "spread": "from the value that a tenth of 121 equal times lies below to the one that a tenth lies above",
    "line start": "where the straight line with the middle of all slopes begins, at 121 equal times, within the values",
    "line end": "where that line ends",
}
#: Readings of model time itself. `of` is a stage ("" for the whole run) or an event.
TIME = {
    "begins": "model time at which a stage begins",
    "ends": "model time at which a stage ends",
    "lasts": "how long a stage takes",
    "happens": "model time of an event",
}
#: What the scene sets, or a source prints. `of` is a condition; a fixed number stands in `level`.
GIVEN = {"condition": "a condition of this run, in SI", "fixed": "a number that stands in the sentence's source"}
#: Readings of the Score. `of` is a part ("" for all who play); start and end are bars, the last not included.
SCORE = {
    "bpm": "the mean tempo, by time",
    "bpm at": "the tempo of the first bar",
    "strokes a bar": "notes begun, a bar; of all who play, without the pulse that a waiting group keeps",
    "velocity": "the mean velocity of its notes",
    "level played": "the mean level of its notes in the recording, in decibels",
    "brightness": "the mean brightness of its notes, 0 soft beaters to 1 hard ones, where a rule sets it",
    "first brightness": "the brightness of the first of them",
    "brightness gained": "the brightness of the last of them less that of the first",
    "pitch": "the mean pitch of its notes, as a MIDI number",
    "first pitch": "the pitch of its first note there",
    "last pitch": "the pitch of the last note there that the key asks for, of its last note where it asks for none",
    "highest": "its highest pitch",
    "lowest": "its lowest pitch",
    "bars sounding": "bars in which it begins a note or holds one",
    "bars together": "bars in which it and `beside` both sound",
    "octaves": "by how many octaves it is moved to suit its instrument",
    "patterns": "how many different bars of rhythm it plays",
    "beats struck": "the share of beats on which it strikes",
}
#: Readings of a rule of the scene. `of` is the rule's key ("hear.0").
RULE = {
    "by rule": "the sound that the rule gives a value of its quantity (in SI, in `level`), in its control's own unit",
    "size by rule": "the same as the ear sizes it: beats a minute, frequency, taps, amplitude",
    "mean by rule": "the mean sound that the rule gives its quantity from start to end (model seconds), as heard",
    "low end": "the lower end of the rule's range, in SI",
    "high end": "the higher end of the rule's range, in SI",
    "sound at low end": "the sound at the lower end of the range, in its control's own unit",
    "sound at high end": "the sound at the higher end of the range",
}
READINGS = SCIENCE | TIME | GIVEN | SCORE | RULE
