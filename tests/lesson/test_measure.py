"""From a class's own readings to a lesson: the scene beside the file, refusals, and what is never overwritten."""

from __future__ import annotations

from pathlib import Path

import pytest

from sonify import lesson
from sonify.errors import BadFile, SonifyError
from sonify.say import say

ROOT = Path(__file__).resolve().parent.parent.parent
#: Invented.
POND = "Time,Temp (°C)\n" + "".join(
    f"{8 + i // 6:02d}:{10 * (i % 6):02d},{14 + abs(i - 20) * 0.3:.1f}\n" for i in range(41)
)
CLOTHS = "Material,Test 1 (ml),Test 2 (ml)\npaper,12,13\ntowel,22,21\nsponge,16,15\n"


def written(folder: Path, text: str, name: str = "pond.csv") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("text", "stages"), [(POND, ["stretch 1", "stretch 2"]), (CLOTHS, ["paper", "towel", "sponge", "in order"])]
)
def test_the_scene_that_is_written_is_a_lesson_at_once(tmp_path: Path, text: str, stages: list[str]) -> None:
    path, said, _ = lesson.measure(written(tmp_path, text))
    assert path == tmp_path / "pond.toml" and len(said) >= 3
    studied = lesson.study(path)
    assert [stage.name for stage in studied.timeline.stages] == stages
    assert [finding.message for finding in studied.problems] == []
    assert all(part.notes for part in studied.score.parts)
    assert lesson.pack_facts(studied)["data"]["name"] == "pond.csv"


def test_the_readings_are_those_of_the_file_when_the_scene_is_loaded(tmp_path: Path) -> None:
    path, _, _ = lesson.measure(written(tmp_path, CLOTHS))
    written(tmp_path, CLOTHS.replace("sponge,16,15", "sponge,61,51"))
    assert lesson.simulate(path).quantity("volume").in_unit().max() == pytest.approx(61.0)


def test_a_material_without_a_reading_has_no_part(tmp_path: Path) -> None:
    path, _, noticed = lesson.measure(written(tmp_path, CLOTHS + "felt,,\n"))
    assert "felt" not in path.read_text(encoding="utf-8")
    assert any("row 5" in say(finding.message) for finding in noticed)


def test_a_scene_that_is_there_stays(tmp_path: Path) -> None:
    (tmp_path / "pond.toml").write_text("mine", encoding="utf-8")
    with pytest.raises(SonifyError, match="is there already, and nothing was written"):
        lesson.measure(written(tmp_path, POND))
    assert (tmp_path / "pond.toml").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a,b\nc,d\n", "nothing was measured in this table"),
        ("Time (s),Temp (°C)\n0,14\n", "one row of readings"),
        ("Time (s),Temp (°C)\n0,14\n1,15\n", "readings at 2 different times; a piece needs three"),
        ("Time (s),Temp (°C)\n0,\n1,\n2,\n", "every reading is missing"),
        (
            "Date,Temp (°C)\n2026-03-02,\n2026-03-03,\nlater,14\n",
            "every reading is missing in the rows that say which step",
        ),
        ("Material,Stretch\nwool,12 cm\nfelt,30 mm\n", "mixed units"),
        ("Material,Stretch (cm)\nwool,12\nwool,13\n", r"readings of one step alone \(wool\)"),
        (
            "Material,Stretch (cm)\n" + "".join(f"cloth {'abcdefghijklmnop'[i]},{i}\n" for i in range(14)),
            "14 kinds of material are too many for a class: 12 at most",
        ),
        (",".join(f"c{i}" for i in range(200)) + "\n" + ",".join(["1"] * 200) + "\n", "200 columns"),
    ],
)
def test_readings_that_cannot_be_played_get_one_message_and_nothing_is_written(
    tmp_path: Path, text: str, message: str
) -> None:
    with pytest.raises(BadFile, match=message) as caught:
        lesson.measure(written(tmp_path, text))
    assert caught.value.file == "pond.csv" and "\n" not in str(caught.value)
    assert [path.name for path in tmp_path.iterdir()] == ["pond.csv"]


def test_a_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadFile, match="there is no such data file"):
        lesson.measure(tmp_path / "nowhere.csv")


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('data    = "pond.csv"', "", "plays readings of your own, and no file of them is named"),
        ('"pond.csv"', '"gone.csv"', "there is no such data file"),
        ('"pond.csv"', '"../pond.csv"', "the file lies beside this one"),
        ('"pond.csv"', '"data/pond.csv"', "the file lies beside this one"),
        ('"pond.csv"', "'C:\\pond.csv'", "the file lies beside this one"),
        ('"measured"', '"water-cycle"', "computes its own quantities and reads no file"),
        ('quantity = "temp"', 'quantity = "tmep"', 'did you mean "temp"'),
        ('"14 degC"', '"14 lux"', "lux"),
        ("follow    = 1", "follow    = 3", "3 is out of range; the file has 1"),
    ],
)
def test_a_scene_of_readings_that_is_spoilt_says_where(tmp_path: Path, old: str, new: str, message: str) -> None:
    path, _, _ = lesson.measure(written(tmp_path, POND))
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(SonifyError, match=message):
        lesson.simulate(path)


def test_conditions_can_be_set_for_one_run(tmp_path: Path) -> None:
    path, _, _ = lesson.measure(written(tmp_path, POND))
    with pytest.raises(SonifyError, match=r'--set follow="3": 3 is out of range'):
        lesson.simulate(lesson.load(path, {"follow": 3}))
    assert len(lesson.simulate(lesson.load(path, {"level": "50 %"})).stages) == 2


def test_the_example_of_the_readme_becomes_a_scene(tmp_path: Path) -> None:
    data = (ROOT / "examples" / "windowsill-logger.csv").read_bytes()
    (tmp_path / "windowsill-logger.csv").write_bytes(data)
    path, said, noticed = lesson.measure(tmp_path / "windowsill-logger.csv")
    assert "Windows-1252" in say(said[0]) and "decimal comma" in say(said[0])
    assert {"temp", "light"} <= {finding.where for finding in noticed}
    assert lesson.study(path).problems == ()
