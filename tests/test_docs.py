"""Every command, scene and option of note is documented, and the documents name nothing that is not there."""

from __future__ import annotations

import re
from pathlib import Path

import sonify
from sonify import lesson
from sonify.cli.commands import app
from sonify.processes import PROCESSES

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def commands() -> list[str]:
    return [str(c.name or c.callback.__name__) for c in app.registered_commands if c.callback]


def test_every_command_is_in_the_readme_and_has_help() -> None:
    assert sorted(set(re.findall(r"^\| `sonify (\w+)", README, flags=re.MULTILINE))) == sorted(commands())
    assert all(c.callback and c.callback.__doc__ for c in app.registered_commands)


def test_every_scene_is_in_the_readme() -> None:
    assert sorted(re.findall(r"^\| `([\w-]+)` \|", README, flags=re.MULTILINE)) == lesson.scene_names()


def topics() -> list[list[str]]:
    """The rows of the table of topics, a list of cells each."""
    text = (ROOT / "scenes" / "TOPICS.md").read_text(encoding="utf-8")
    rows = [[cell.strip() for cell in row.strip("|").split("|")] for row in text.split("\n") if row.startswith("|")]
    return rows[2:]


def test_every_scene_serves_a_topic_and_every_scene_that_is_named_is_there() -> None:
    named = {name for row in topics() for name in re.findall(r"`([\w-]+)`", row[2])}
    assert sorted(named) == lesson.scene_names()


def test_every_way_in_to_a_topic_is_one() -> None:
    for year, topic, scenes, ways, lacks in topics():
        assert set(re.findall(r"`([\w-]+)`", ways)) <= {*PROCESSES, "measure"}, topic
        assert lacks, f"{topic}: what sound cannot carry"
        assert scenes or ways or "classification" in topic, (
            f"year {year}, {topic}: nothing serves it, and why is not said"
        )


def test_the_topics_are_those_of_the_programme_of_study() -> None:
    # England, science programmes of study, key stage 2 (2013): headings of Years 3 to 6 as a school's page lists them
    headings = {
        "3": ["plants", "animals", "rocks", "light", "forces and magnets"],
        "4": ["living things", "animals", "states of matter", "sound", "electricity"],
        "5": ["living things", "animals", "materials", "Earth and space", "forces"],
        "6": ["living things", "animals", "evolution and inheritance", "light", "electricity"],
    }
    for year, wanted in headings.items():
        assert [row[1].split(":")[0] for row in topics() if row[0] == year] == wanted


def test_every_process_has_a_scene() -> None:
    assert {lesson.load(name).process for name in lesson.scene_names()} == set(PROCESSES)


def test_every_file_the_documents_point_to_is_there() -> None:
    for text in (README, DEVELOPERS):
        for target in re.findall(r"\]\(([^)#:]+)\)", text):
            assert (ROOT / target).exists(), target


def test_every_room_is_on_the_map() -> None:
    rooms = {p.name for p in (ROOT / "sonify").iterdir() if p.is_dir() and (p / "__init__.py").is_file()}
    rooms |= {p.name for p in (ROOT / "sonify").glob("*.py") if p.name not in ("__init__.py", "__main__.py")}
    missing = [room for room in rooms if room not in DEVELOPERS]
    assert not missing


def test_the_version_has_a_changelog_entry() -> None:
    assert f"## {sonify.__version__}" in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
