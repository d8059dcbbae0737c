"""Tables as primary schools write them (tests/inputs/tables), read as experiments; expected.toml was written first."""

from __future__ import annotations

import pytest

from sonify.errors import BadFile, UnknownName
from sonify.inputs.experiment import read_experiment
from sonify.inputs.experiment_of_logger import log_of
from sonify.inputs.experiment_words import doubts_as_findings, understood
from sonify.records.experiment import Experiment, Roles
from sonify.say import say
from tests.inputs.tables import EXPECTED, FOLDER, TOLD, corrected, differences, read, told

READ = [name for name, wanted in EXPECTED.items() if "refused" not in wanted]
REFUSED = [name for name, wanted in EXPECTED.items() if "refused" in wanted]


def experiment(text: str, **roles: object) -> Experiment:
    return read_experiment(text.encode(), file="ours.csv", roles=Roles(**roles))  # type: ignore[arg-type]


def message(text: str, **roles: object) -> str:
    with pytest.raises((BadFile, UnknownName)) as refused:
        experiment(text, **roles)
    return str(refused.value)


def doubts(found: Experiment) -> dict[str, str]:
    return {doubt.about: doubt.flag for doubt in found.doubts}


def test_every_file_of_the_folder_is_expected() -> None:
    files = {path.name for path in FOLDER.iterdir() if path.suffix not in (".toml", ".py", "")}
    assert files == set(EXPECTED) and len(READ) >= 60


@pytest.mark.parametrize("name", READ)
def test_a_table_is_what_its_class_would_say(name: str) -> None:
    wrong = differences(read(name), EXPECTED[name])
    if wrong and (roles := corrected(name)) is not None:
        wrong = differences(read(name, roles), EXPECTED[name])
    assert not wrong


@pytest.mark.parametrize("name", READ[::16])
def test_two_sentences_of_a_table_are_those_that_were_read_through(name: str) -> None:
    assert told(name) == TOLD[name]


@pytest.mark.long
def test_two_sentences_of_every_table_are_those_that_were_read_through() -> None:
    assert {name: told(name) for name in READ} == TOLD


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_experiment_is_refused_with_its_reason(name: str) -> None:
    with pytest.raises(BadFile, match=EXPECTED[name]["refused"]) as refused:
        read(name)
    assert refused.value.file == name


@pytest.mark.parametrize("name", READ)
def test_a_file_read_with_the_roles_it_was_read_with_is_the_same(name: str) -> None:
    first = read(name, corrected(name))
    again = read(name, first.roles)
    assert again.roles == first.roles
    assert (again.shape, again.changed, again.labels, again.groups) == (
        first.shape,
        first.changed,
        first.labels,
        first.groups,
    )
    assert [(s.name, s.unit, repr(s.values), repr(s.tries)) for s in again.series] == [
        (s.name, s.unit, repr(s.values), repr(s.tries)) for s in first.series
    ]
    # What was said is no guess any more.
    assert not {each for each in doubts(again).values() if each} - set(doubts(first).values())


@pytest.mark.parametrize("name", READ)
def test_what_was_understood_guessed_and_noticed_can_be_said(name: str) -> None:
    found = read(name)
    noticed = [*doubts_as_findings(found), *found.table.findings]
    said = [say(words) for words in (*understood(found), *(w for each in noticed for w in (each.message, each.fix)))]
    assert found.changed in " ".join(said) or found.shape == "before-after"
    assert all(quantity in " ".join(said) for quantity in found.quantities)


# --- roles that a person gives ---------------------------------------------------------------------------------------


def test_columns_are_named_by_heading_label_or_name_in_any_case() -> None:
    text = "Hand span (cm),Height (cm),Foot (cm)\n14,120,20\n15,125,21\n"
    for name in ("Height (cm)", "height (CM)", "height", "Height"):
        found = experiment(text, changed=name, measured=("foot",))
        assert (found.changed, found.quantities, found.unused) == ("height", ("foot",), ("Hand span (cm)",))


def test_what_is_taken_for_groups_can_be_different_quantities_and_the_other_way_round() -> None:
    text = "Day,Sill (cm),Cupboard (cm)\n1,0,0\n2,3,4\n"
    guessed = experiment(text)
    assert (guessed.groups, doubts(guessed)["groups"]) == (
        ("Sill", "Cupboard"),
        '--measured "Sill (cm)" --measured "Cupboard (cm)"',
    )
    said = experiment(text, measured=("Sill (cm)", "Cupboard (cm)"))
    assert (said.groups, said.quantities) == ((), ("sill", "cupboard"))
    apart = "Day,Height (cm),Width (cm)\n1,0,0\n2,3,4\n"
    assert experiment(apart).groups == ()
    assert experiment(apart, groups=("Height (cm)", "Width (cm)")).groups == ("Height", "Width")
    assert experiment(text, groups="").groups == ()


def test_a_name_that_no_column_has_names_what_several_columns_measured() -> None:
    text = "Layers,Test 1,Test 2\n1,8,9\n2,5,6\n"
    assert (experiment(text).quantities, doubts(experiment(text))) == (
        ("reading",),
        {"measured-name": "--measured NAME"},
    )
    named = experiment(text, measured=("paper clips",))
    assert (named.quantities, named.doubts, named.of("paper clips")[0].tries.tolist()) == (("paper clips",), (), [2, 2])


def test_a_table_in_which_no_step_can_be_read_is_refused() -> None:
    """Found by tests.campaign spreadsheets: limits where the numbers should stand that were changed."""
    assert "every reading is missing" in message("Layers,Clips\n<5,3\n,4\n<5,5\n")


def test_a_name_that_is_nowhere_is_refused_with_the_names_there_are() -> None:
    text = "Layers,Clips\n1,8\n2,5\n"
    for roles in ({"changed": "Layer"}, {"measured": ("Clip",)}, {"repeats": ("Test 1",)}, {"groups": "Place"}):
        told = message(text, **roles)
        assert "Allowed: Clips, Layers" in told, told
    assert 'unknown sheet or table "Again"' in message(text, sheet="Again")


def test_she_chooses_among_several_tables_by_title_or_place() -> None:
    text = "Carpet\nHeight,Distance\n1,2\n2,4\n\nTiles\nHeight,Distance\n1,5\n2,9\n"
    assert experiment(text).of("distance")[0].values.tolist() == [2, 4]
    for sheet in ("Tiles", "tiles", "table 2"):
        chosen = experiment(text, sheet=sheet)
        assert (chosen.of("distance")[0].values.tolist(), doubts(chosen)) == ([5, 9], {})


def test_a_unit_of_time_is_said_with_the_column() -> None:
    text = "Time,Height (cm)\n0,1\n5,2\n"
    assert (experiment(text).steps.tolist(), doubts(experiment(text))) == (
        [0, 5],
        {"time-unit": '--changed "Time (min)"'},
    )
    said = experiment(text, changed="Time (min)")
    assert (said.steps.tolist(), said.doubts) == ([0, 300], ())


# --- what cells cost -------------------------------------------------------------------------------------------------


def test_an_empty_cell_costs_that_cell_only() -> None:
    found = experiment("Layers,Test 1,Test 2\n1,8,9\n2,,6\n3,4,\n")
    (series,) = found.series
    assert (series.values.tolist(), series.tries.tolist()) == ([8.5, 6, 4], [2, 1, 1])
    assert (series.least.tolist(), series.most.tolist()) == ([8, 6, 4], [9, 6, 4])


def test_rows_keep_the_numbers_they_have_in_the_file() -> None:
    found = experiment("Our table\n\nDay,Rain (mm)\n1,4\n\n2,x\n3,7\n")
    assert found.table.rows.tolist() == [4, 6, 7]
    odd = next(
        finding
        for finding in found.table.findings
        if "odd" in say(finding.message) or "No numbers" in say(finding.message)
    )
    assert say(odd.message) == "No numbers, so they count as missing: x, in row 6."


def test_a_mean_that_is_not_the_mean_of_its_tries_is_told() -> None:
    text = "Layers,Test 1,Test 2,Mean\n1,8,10,9\n2,5,7,4\n"
    told = [say(finding.message) for finding in experiment(text).table.findings]
    assert told == ["The mean in the file is not the mean of the tries, in row 3. The mean of the tries is played."]


def test_the_steps_come_in_order_of_what_was_changed() -> None:
    found = experiment("Weight (g),Stretch (cm)\n300,9\n100,3\n200,6\n")
    assert (found.steps.tolist(), found.labels) == ([100, 200, 300], ("100", "200", "300"))
    assert found.series[0].values.tolist() == [3, 6, 9]


@pytest.mark.parametrize(
    ("cells", "steps"),
    [
        (["11pm", "12am", "1am"], [0, 3600, 7200]),
        (["10:00", "1:00", "4:00"], [0, 3 * 3600, 6 * 3600]),
        (["22:30", "23:30", "0:30"], [0, 3600, 7200]),
        (["28 December", "3 January"], [0, 6 * 86400]),
        (["Friday", "Monday", "Tuesday"], [0, 3 * 86400, 4 * 86400]),
        (["start", "10 mins", "1 hour"], [0, 600, 3600]),
        (["quarter to 9", "9 o'clock", "quarter past nine"], [0, 900, 1800]),
        (["4/5/2026 09:30", "4/5/2026 10:00"], [0, 1800]),
        (["after 1 week", "after 3 weeks"], [0, 14 * 86400]),
    ],
)
def test_times_go_on_as_a_class_means_them(cells: list[str], steps: list[float]) -> None:
    rows = "".join(f"{cell},{number * number}\n" for number, cell in enumerate(cells, 1))
    found = experiment(f"When,Height (cm)\n{rows}")
    assert (found.shape, found.steps.tolist()) == ("time", steps)
    assert found.labels == tuple(cells)


def test_a_date_and_a_clock_in_two_columns_are_one_moment() -> None:
    found = experiment("Date,Time,Temp (°C)\n4 May 2026,09:00,11\n4 May 2026,15:00,17\n5 May 2026,09:00,12\n")
    assert (found.steps.tolist(), found.changed) == ([0, 21600, 86400], "date and time")
    assert (found.table.start_day, found.table.clock_start) == (739740, 9.0)


def test_many_names_before_and_after_are_repeats() -> None:
    rows = "".join(f"P{number},{70 + number},{110 + number}\n" for number in range(10))
    found = experiment(f"Pupil,Pulse before,Pulse after\n{rows}")
    assert (found.shape, found.groups, found.series[0].values.tolist()) == ("before-after", (), [74.5, 114.5])
    assert found.series[0].tries.tolist() == [10, 10] and doubts(found) == {"averaged": "--groups Pupil"}


def test_a_loggers_long_table_is_readings_over_time() -> None:
    rows = "".join(f"{number},{20 + number % 7},{number % 90}\n" for number in range(6000))
    found = experiment(f"Time (s),Temp (°C),Light (lux)\n{rows}")
    assert (found.shape, found.quantities, found.steps.size) == ("time", ("temp", "light"), 6000)
    assert experiment(f"Time (s),Temp (°C),Light (lux)\n{rows}", measured=("Light (lux)",)).quantities == ("light",)
    assert "no column of times" in message("A,B\n" + "1,2\n" * 6000)


def test_a_log_is_long_over_time_and_read_alike_by_both_readers() -> None:
    def log(rows: str, heading: str = "Time (min),Temp (°C)") -> bool:
        data = f"{heading}\n{rows}".encode()
        found = read_experiment(data, file="ours.csv")
        return log_of(data, found, file="ours.csv") is not None

    assert log("".join(f"{number},{number % 9}\n" for number in range(50)))
    assert not log("".join(f"{number},{number % 9}\n" for number in range(30)))
    assert not log("".join(f"Week {number},{number % 9}\n" for number in range(1, 50)), "When,Height (cm)")
    assert not log(
        "".join(f"{number},{number % 9},{number % 7}\n" for number in range(50)), "Day,Sill (cm),Fridge (cm)"
    )
