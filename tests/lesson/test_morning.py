"""`sonify redeal`: a pack dealt out again, and nothing of it written to. The pack here holds what the command reads."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from sonify import lesson
from sonify.data.exports import score_json
from sonify.errors import SonifyError
from sonify.lesson.morning import missing, redeal
from sonify.storage.pack import building
from tests.paper.texts import page_texts
from tests.studies import studied


@pytest.fixture(scope="module")
def pack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("morning") / "two-cups"
    study = studied("two-cups")
    with building(folder, lesson.pack_facts(study)) as work:
        (work / "score.json").write_text(score_json(study.score), encoding="utf-8", newline="\n")
    return folder


def digests(folder: Path) -> dict[str, str]:
    return {file.name: hashlib.sha256(file.read_bytes()).hexdigest() for file in sorted(folder.iterdir())}


def test_it_says_what_to_write_and_writes_nothing(pack: Path) -> None:
    before = digests(pack)
    lines = redeal(pack, ["3"], ["triangle"])
    assert lines[0] == "No group plays triangle: no card changes."
    assert lines[2].startswith("Group 1: 4 instead of 6 players; ")  # the other of them comes from group 2
    assert lines[3].startswith("Group 2: 5 instead of 6 players; ")
    assert lines[-1] == "Nothing to print: the music and all sheets stay as they are."
    assert digests(pack) == before


def test_what_was_typed_is_read_or_refused_in_one_message() -> None:
    asked = missing(["3", "2 in group 4", "1 of 4"], ["triangle", "2 Triangles", "pairs of claves"])
    assert asked.absent == ((0, 3), (4, 3))
    assert asked.broken == (("claves", 1), ("triangle", 3))
    for absent, broken, told in (
        (["three"], [], "is no number of absent pupils"),
        (["0"], [], "is no number of absent pupils"),
        ([], ["0 triangles"], "names no instrument"),
        ([], ["tuba"], "unknown instrument"),
        ([], [], "nobody is absent"),
    ):
        with pytest.raises(SonifyError, match=told):
            missing(absent, broken)


def test_what_is_no_pack_or_another_class_is_refused(pack: Path, tmp_path: Path) -> None:
    with pytest.raises(SonifyError, match="is no lesson pack"):
        redeal(tmp_path, ["3"])
    with pytest.raises(SonifyError, match="another class file"):
        redeal(pack, ["3"], classroom=Path(__file__).parents[2] / "examples" / "few-instruments.toml")
    for there in (pack, tmp_path):
        with pytest.raises(SonifyError, match="is there already"):
            redeal(pack, ["3"], out=there)
    assert list(tmp_path.iterdir()) == []


def test_a_pack_of_other_music_is_refused(pack: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    with building(other, lesson.pack_facts(studied("two-cups"))) as work:
        (work / "score.json").write_text("{}", encoding="utf-8")
    with pytest.raises(SonifyError, match="would make other music"):
        redeal(other, ["3"])


@pytest.mark.long
def test_cards_of_today_are_made_in_a_folder_of_their_own(pack: Path, tmp_path: Path) -> None:

    out = tmp_path / "today"
    lines = redeal(pack, ["1 in group 3"], out=out)
    assert (out / "today.txt").read_text(encoding="utf-8").splitlines() == lines
    pages = lesson_pages(out)
    text = page_texts((out / "pupils.pdf").read_bytes())
    assert pages and all("5 players" in text[page - 1] or "Group 3" in text[page - 1] for page in pages)


def lesson_pages(out: Path) -> list[int]:
    import json

    (row,) = json.loads((out / "pack.json").read_text(encoding="utf-8"))["print"]
    return list(row["pages"])
