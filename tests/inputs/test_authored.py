"""What an author says that a sentence claims: forms that are known, names that there are, and clear words where not."""

from __future__ import annotations

import pytest

from sonify import lesson
from sonify.errors import BadFile
from sonify.inputs.authored import authored, known_form
from sonify.inputs.document import Fault
from sonify.inputs.readings import UnreadableWord
from sonify.inputs.scene_file import read_scene
from sonify.kinds.authored import FORMS, Form
from sonify.kinds.claims import CLAIMS
from sonify.kinds.readings import READINGS
from sonify.records.scene import AuthoredClaim
from sonify.say import say
from sonify.storage import shelf
from sonify.study.names import check_names

PARTS = ("Cup A", "Cup B", "The gap")


def read(text: str, stage: str = "apart") -> AuthoredClaim:
    found = authored(text, key="stage.0.claims.0", stage=stage, parts=PARTS)
    assert isinstance(found, AuthoredClaim), found
    return found


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.words)
def test_every_form_is_a_claim_that_can_be_settled_and_is_read_as_itself(form: Form) -> None:
    assert form.kind in CLAIMS and form.how in READINGS
    text = form.words
    names = {"quantity": "gap", "other quantity": "pace", "part": "Cup A", "other part": "cup b", "stage": "level"}
    names["value"] = "3 degC"
    for place, name in names.items():
        text = text.replace("{" + place + "}", name)
    endings = {"{in}": (" in home", ""), "{here}": (" here", " in home")}
    for ending in next((endings[place] for place in endings if place in text), ("",)):
        written = text.replace("{in}", ending).replace("{here}", ending)
        found = read(written)
        ways = [(way.kind, way.how, way.stage) for way in (found, *found.otherwise)]
        assert (form.kind, form.how, "home" if "home" in ending else "apart") in ways


def test_names_may_hold_words_of_a_form() -> None:
    quantities = ("water in the towel", "water in the paper")
    claim = read("the water in the towel is more than the water in the paper in parting")
    known = claim.known(quantities, ["parting"])
    assert known is not None
    assert (known.quantity, known.beside_quantity, known.stage) == (*quantities, "parting")
    assert read("the water in the towel falls").known(quantities, ["apart"]).stage == "apart"  # type: ignore[union-attr]


def test_a_claim_in_no_form_is_refused_with_the_forms() -> None:
    with pytest.raises(UnreadableWord, match=r"one of these forms.*the beat is quicker than in \{stage\}"):
        known_form("the cups dance beautifully")


def test_a_part_that_is_not_there_and_a_place_that_nobody_knows_are_told() -> None:
    missing = authored("Cup C plays", key="k", stage="", parts=PARTS)
    assert (
        isinstance(missing, Fault) and "no part is called" in say(missing.message) and "Cup A" in say(missing.message)
    )
    nowhere = authored("the beat is quickest here", key="k", stage="", parts=PARTS)
    assert isinstance(nowhere, Fault) and 'end with "in STAGE"' in say(nowhere.message)


@pytest.mark.parametrize(
    ("claim", "told"),
    [
        ("the cups dance", "one of these forms"),
        ("the gape falls", 'unknown quantity "gape"; did you mean "gap"'),
        ("the beat is quicker than in levle", 'unknown stage "levle"; did you mean "level"'),
        ("Cup C plays", "no part is called"),
    ],
)
def test_a_faulty_claim_is_refused_with_its_line(claim: str, told: str) -> None:
    text = shelf.scene_path("two-cups").read_text(encoding="utf-8")
    wrong = text.replace('["the gap rises", ', f'["{claim}", ', 1)
    assert wrong != text
    line = wrong[: wrong.index(claim)].count("\n") + 1
    with pytest.raises(BadFile, match=told) as caught:
        check_names(read_scene(wrong, file="mine.toml", name="mine"), lesson.catalogue())
    assert caught.value.line == line
