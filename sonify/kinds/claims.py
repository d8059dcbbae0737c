"""What a sentence may claim. A row says how the claim is settled; `facts.verdicts` has the code, one function a row."""

from __future__ import annotations

#: left and right: readings.
CLAIMS = {
    "figure": "every figure is the one that its reading gives, to the digits printed",
    "rises": "left's quantity is clearly higher at the end than at the start, and hardly falls between",
    "falls": "left's quantity is clearly lower at the end than at the start, and hardly rises between",
    "steady": "left's quantity hardly changes from start to end",
    "swings": "left's quantity goes up and down between start and end",
    "more": "left is clearly more than right",
    "less": "left is clearly less than right",
    "same": "left and right are the same within what can be told",
    "at least": "left is no less than right",
    "at most": "left is no more than right",
    "quicker": "the beat of left's bars is quicker than that of right's, by enough to hear",
    "slower": "the beat of left's bars is slower than that of right's, by enough to hear",
    "same beat": "the beat of left's bars and of right's cannot be told apart",
    "louder": "left's part is played louder than right's",
    "softer": "left's part is played softer than right's",
    "higher": "left's part plays higher than right's",
    "lower": "left's part plays lower than right's",
    "busier": "left's part plays more notes a bar than right's",
    "sparser": "left's part plays fewer notes a bar than right's",
    "plays": "left's part sounds in these bars",
    "plays throughout": "left's part sounds in every one of these bars",
    "silent": "left's part does not sound in these bars",
    "together": "left's part and the part beside it sound together in most bars of the one that plays less",
    "apart": "left's part and the part beside it never sound in the same bar",
    "starts alike": "left's part and the part beside it begin on the same note",
    "every beat": "left's part strikes on every beat of these bars",
    "one pattern": "left's part repeats one rhythm, bar for bar",
    "order of size": "the readings of the stages come in the order of size",
    "greatest": "no other stage has a larger reading",
    "least": "no other stage has a smaller reading",
    "first": "nothing of the kind comes earlier",
    "last": "nothing of the kind comes later",
}
