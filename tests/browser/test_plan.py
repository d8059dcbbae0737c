"""The Plan on a real server: from a first visit to a playing piece, changes and what they do, undo, files."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import pytest
from playwright.sync_api import Error, Page, Route, expect

from sonify import lesson
from sonify.say import say
from tests.browser.conftest import Opener, state, wait_until
from tests.browser.planning import SCENE, choose, drop, field, held, planned, shown, until

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]


def test_two_clicks_lead_from_a_first_visit_to_a_piece_that_sounds(visit: Opener) -> None:
    page = visit()
    page.get_by_role("button", name="Open and listen").click()
    page.wait_for_url("**/lesson/*#hear", timeout=20_000)
    wait_until(page, "document.activeElement.id === 'play'")
    page.keyboard.press("Space")
    wait_until(page, "s.playing && s.level > 0.001", seconds=20)
    assert state(page)["view"] == "hear"


def test_hear_and_conduct_lead_there_and_back_with_the_plan_as_it_was(visit: Opener) -> None:
    page = visit()
    choose(page)
    field(page, "set.wind").locator("input[type=number]").fill("7")
    planned(page)
    page.get_by_role("navigation", name="Views").get_by_role("link", name="Conduct").click()
    page.wait_for_url("**/lesson/*#conduct", timeout=20_000)
    page.keyboard.press("Escape")
    page.get_by_role("link", name="Plan").click()
    plan = planned(page)
    assert next(row["value"] for row in plan["conditions"] if row["name"] == "wind") == 7
    expect(field(page, "set.wind").locator("input[type=number]")).to_have_value("7")


def test_a_condition_changes_curve_key_verdicts_and_map_at_once(visit: Opener) -> None:
    page = visit()
    before = shown(page, choose(page))
    slider = field(page, "set.sea_temperature").locator("input[type=range]")
    slider.focus()
    for _ in range(8):
        page.keyboard.press("PageUp")
    until(page, "s.waiting", seconds=2)
    after = shown(page, planned(page))
    for name in ("curve", "stages", "rule", "map"):
        assert before[name] != after[name], name
    assert after["written"] == before["curve"] or after["written"], "the curve of the scene as written stays to compare"
    assert slider.evaluate("(each) => each === document.activeElement"), "the focus stays"
    expect(page.locator("#said")).to_contain_text("Sea temperature: ")
    assert page.locator(".fresh").count() > 0, "what changed is marked"
    # The numbers are the library's own.
    value = float(slider.input_value())
    scene = lesson.load(SCENE, {"sea_temperature": f"{value:g} degC"})
    bpms = [round(stage.bpm) for stage in lesson.study(scene).controls.time_map.stages]
    assert [int(text.split()[0]) for text in page.locator(".stage-bpm").all_inner_texts()] == bpms


def test_the_axis_shows_what_goes_with_the_quantity_beside_it(visit: Opener) -> None:
    page = visit()
    choose(page)
    # Mean molecule speeds have a temperature each: v = sqrt(8 R T / (pi M)), R and M of water from CODATA and IUPAC.
    for name in ("high", "low"):
        celsius, speed = page.locator(f"#curve-{name}").inner_text().split("\n")
        assert "°C" in celsius and "m/s" in speed
        kelvin = float(celsius.split()[0]) + 273.15
        assert (8 * 8.314463 * kelvin / (3.14159265 * 0.018015)) ** 0.5 == pytest.approx(
            float(speed.split()[0]), abs=1.5
        )


def test_a_rule_changes_tempo_key_and_exaggeration(visit: Opener) -> None:
    page = visit()
    choose(page)
    card = page.locator('[data-rule="0"]')
    exaggeration = card.locator(".exaggeration").inner_text()
    field(page, "rules.0.to.1").locator("input[type=range]").focus()
    for _ in range(3):
        page.keyboard.press("PageUp")
    planned(page)
    inputs = held(page)["inputs"]
    assert inputs["rules"]["0"]["to"][0] == "62 bpm", "the other end stays as it was"
    wanted = inputs["rules"]["0"]["to"][1].split()[0]
    assert int(wanted) > 114
    expect(card.locator("table").first).to_contain_text(f"{wanted} a minute")
    assert card.locator(".exaggeration").inner_text() != exaggeration
    field(page, "rules.0.to.1").get_by_role("button", name="Reset").click()
    planned(page)
    assert held(page)["inputs"]["rules"] == {}
    assert card.locator(".exaggeration").inner_text() == exaggeration
    words = say(lesson.study(lesson.load(SCENE)).controls.keys[0].exaggeration_words)
    assert exaggeration == words and "rises by" in words, "both changes are told, side by side"


def test_the_class_changes_who_plays(visit: Opener) -> None:
    page = visit()
    plan = choose(page)
    before = page.locator("#map").inner_text()
    page.get_by_text("Describe your class").click()
    page.get_by_role("button", name="Empty it").click()
    planned(page)
    assert page.locator("#map").inner_text() != before
    page.get_by_label("Find an instrument").fill("trian")
    names = page.locator("[data-instrument]:visible")
    assert names.count() == 1
    names.get_by_role("checkbox").check()
    names.get_by_role("spinbutton").fill("4")
    names.get_by_role("spinbutton").press("Tab")
    after = planned(page)
    assert after["class"]["cupboard"] == {"triangle": 4}
    assert after["map"] != plan["map"]
    expect(page.locator("#cupboard-words")).to_have_text("4 instruments of 1 kind.")


def test_undo_and_redo_go_through_every_step(visit: Opener) -> None:
    page = visit()
    first = choose(page)
    box = field(page, "set.wind").locator("input[type=number]")
    for value in ("6", "8"):
        box.fill(value)
        planned(page)
        page.wait_for_timeout(950)  # two changes of one field within a second are one step
    page.get_by_role("button", name="Undo").click()
    planned(page)
    expect(box).to_have_value("6")
    page.get_by_role("button", name="Undo").click()
    assert planned(page)["key"] == first["key"]
    expect(box).to_have_value("4")
    page.get_by_role("button", name="Redo").click()
    planned(page)
    expect(box).to_have_value("6")
    page.locator("#about-title").focus()
    page.keyboard.press("Control+z")
    assert planned(page)["key"] == first["key"]


def test_the_newest_answer_wins(visit: Opener) -> None:
    """The first of two answers is held back until the second is there: it must not overwrite it."""
    page = visit()
    choose(page)
    waiting = []
    page.route("**/api/plan", lambda route: waiting.append(route) if not waiting else route.continue_())
    box = field(page, "set.wind").locator("input[type=number]")
    box.fill("9")
    for _ in range(100):
        if waiting:
            break
        page.wait_for_timeout(20)
    box.fill("5")
    until(page, "s.plan.conditions.some((row) => row.name === 'wind' && row.value === 5)")
    late = waiting[0].fetch()
    with suppress(Error):  # the page has dropped its request
        waiting[0].fulfill(response=late)
    page.wait_for_timeout(300)
    assert next(row["value"] for row in planned(page)["conditions"] if row["name"] == "wind") == 5
    expect(box).to_have_value("5")


def test_what_takes_seconds_is_said_and_asked_for_again(visit: Opener) -> None:
    page = visit()
    choose(page)
    words = "The particles are on their way."
    told: list[int] = []

    def slow(route: Route) -> None:
        told.append(len(told))
        if len(told) <= 2:
            route.fulfill(status=202, json={"waiting": words, "share": 0.5})
        else:
            route.continue_()

    page.route("**/api/plan", slow)
    field(page, "set.wind").locator("input[type=number]").fill("8")
    expect(page.locator("#bar-words")).to_have_text(words)
    assert next(row["value"] for row in planned(page)["conditions"] if row["name"] == "wind") == 8
    assert len(told) == 3


def test_an_impossible_value_is_told_beside_its_field(visit: Opener) -> None:
    page = visit(expect_error="400 (Bad Request)")
    choose(page)
    box = field(page, "set.humidity").locator("input[type=number]")
    box.fill("400")
    error = field(page, "set.humidity").locator(".field-error")
    expect(error).to_be_visible()
    expect(error).to_contain_text("100")
    assert box.get_attribute("aria-invalid") == "true"
    assert box.evaluate("(each) => each === document.activeElement")
    box.fill("60")
    planned(page)
    expect(error).to_be_hidden()


def test_a_class_that_is_no_class_is_told_before_it_is_sent(visit: Opener) -> None:
    page = visit()
    choose(page)
    page.get_by_text("Describe your class").click()
    page.locator("#class-pupils").fill("900")
    page.locator("#class-pupils").press("Tab")
    expect(page.locator("#class-pupils-error")).to_contain_text("from 1 to 60")
    expect(page.locator("#bar-words")).to_have_text("Not taken over: pupils from 1 to 60. The plan is as it was.")
    assert held(page)["inputs"]["class"] is None
    steps = held(page)["before"]
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#class-pupils")).to_have_value("28")
    expect(page.locator("#class-pupils-error")).to_be_hidden()
    assert held(page)["before"] == steps, "only what was refused is undone"


def test_a_number_that_is_refused_while_an_answer_is_on_its_way_stays_told_and_its_correction_is_played(
    visit: Opener,
) -> None:
    page = visit()
    choose(page)
    page.get_by_text("Describe your class").click()
    waiting: list[Route] = []
    page.route("**/api/plan", lambda route: waiting.append(route))
    pupils, groups, error = (page.locator(f"#class-{name}") for name in ("pupils", "groups", "groups-error"))
    pupils.fill("31")
    pupils.press("Tab")
    while not waiting:
        page.wait_for_timeout(20)
    groups.fill("40")
    groups.press("Tab")
    expect(error).to_be_visible()
    waiting[0].continue_()
    planned(page)
    expect(error).to_be_visible()
    expect(groups).to_have_value("40")
    groups.fill("6")
    groups.press("Tab")
    while len(waiting) < 2:
        page.wait_for_timeout(20)
    page.get_by_role("navigation", name="Views").get_by_role("link", name="Hear").click()
    page.wait_for_url("**/lesson/*#hear", timeout=20_000)
    assert page.locator("#half-circle .place").count() == 6
    page.unroute("**/api/plan")
    page.get_by_role("link", name="Plan").click()
    planned(page)
    expect(groups).to_have_value("6")
    expect(error).to_be_hidden()


def saved(page: Page, button: str, folder: Path) -> Path:
    with page.expect_download() as download:
        page.get_by_role("button", name=button).click()
    path = folder / download.value.suggested_filename
    download.value.save_as(path)
    return path


def test_saved_files_are_read_by_the_command_line_and_by_the_page(visit: Opener, tmp_path: Path) -> None:
    page = visit()
    choose(page)
    field(page, "set.sea_temperature").locator("input[type=number]").fill("19")
    planned(page)
    page.get_by_text("Describe your class").click()
    page.locator("#class-groups").fill("4")
    page.locator("#class-groups").press("Tab")
    plan = planned(page)
    scene_file = saved(page, "Save the scene", tmp_path)
    class_file = saved(page, "Save the class", tmp_path)
    assert scene_file.name == f"{SCENE}.toml"
    made = lesson.study(lesson.load(scene_file), class_file)
    assert {c.name: c.measure.text for c in made.scene.conditions}["sea_temperature"] == "19 degC"
    assert made.classroom.groups == 4
    assert [part.name for part in made.score.group_parts] == [row["name"] for row in plan["map"]]
    assert [round(stage.bpm, 1) for stage in made.controls.time_map.stages] == [row["bpm"] for row in plan["stages"]]

    again = visit()
    drop(again, {path.name: path.read_bytes() for path in (scene_file, class_file)})
    until(again, "s.plan && !s.waiting && s.plan.class.groups === 4")
    reopened = planned(again)
    assert (reopened["map"], reopened["stages"]) == (plan["map"], plan["stages"])
    assert saved(again, "Save the scene", tmp_path).read_bytes() == scene_file.read_bytes()
    assert saved(again, "Save the class", tmp_path).read_bytes() == class_file.read_bytes()


def test_a_loggers_table_that_is_dropped_becomes_a_scene(visit: Opener, tmp_path: Path) -> None:
    page = visit()
    drop(page, {"windowsill.csv": (ROOT / "examples/windowsill-logger.csv").read_bytes()})
    plan = planned(page)
    assert plan["scene_file"] == "windowsill.toml"
    expect(page.locator("#bench .understood")).to_contain_text("windowsill.csv is open.")
    with page.expect_download(lambda download: download.suggested_filename == "windowsill.csv") as readings:
        scene_file = saved(page, "Save the scene", tmp_path)
    readings.value.save_as(tmp_path / "windowsill.csv")
    made = lesson.study(lesson.load(scene_file))
    assert [say(section.title) for section in made.score.sections] == [row["title"] for row in plan["stages"]]


def test_a_scene_and_the_readings_it_names_are_dropped_together(visit: Opener) -> None:
    page = visit(expect_error="400 (Bad Request)")
    scene, readings = ((ROOT / f"scenes/stretch-test.{kind}").read_bytes() for kind in ("toml", "csv"))
    drop(page, {"ours.toml": scene})
    expect(page.locator('#choose [data-error="file"]')).to_contain_text("stretch-test.csv")
    drop(page, {"ours.toml": scene, "stretch-test.csv": readings})
    plan = planned(page)
    assert plan["scene_file"] == "ours.toml"
    made = lesson.study("stretch-test")
    assert [row["name"] for row in plan["map"]] == [part.name for part in made.score.group_parts]


def test_readings_are_sent_again_to_a_server_that_was_started_anew(visit: Opener) -> None:
    page = visit(expect_error="410 (Gone)")
    drop(page, {"windowsill.csv": (ROOT / "examples/windowsill-logger.csv").read_bytes()})
    planned(page)
    sent: list[str] = []

    def once(route: Route) -> None:
        data = route.request.post_data_json["scene"]
        sent.append("csv" if "csv" in data else "key")
        if len(sent) == 1:
            route.fulfill(status=410, json={"error": "gone", "need": "csv", "where": "csv"})
        else:
            route.continue_()

    page.route("**/api/plan", once)
    page.locator('[data-rule="0"] [data-field="rules.0.to.1"]').get_by_role("button", name="more").click()
    planned(page)
    assert sent == ["key", "csv"]
    expect(page.locator("#trouble")).to_be_hidden()


def test_a_class_may_be_opened_before_a_scene_is_chosen_and_stays_for_every_scene(visit: Opener) -> None:
    page = visit()
    drop(page, {"ours.toml": (ROOT / "examples/few-instruments.toml").read_bytes()})
    expect(page.locator("#choose .understood")).to_contain_text("ours.toml is open.")
    few = lesson.load_class(ROOT / "examples/few-instruments.toml")
    for name in (SCENE, "two-cups"):
        plan = choose(page, name)
        assert (plan["class"]["groups"], len(plan["class"]["cupboard"])) == (few.groups, len(few.cupboard))
        assert plan["class_toml"] == (ROOT / "examples/few-instruments.toml").read_text("utf-8")
        page.get_by_role("button", name="Choose another scene").click()
    page.get_by_role("button", name="Undo").click()
    assert planned(page)["name"] == "two-cups"


def test_a_scene_just_opened_has_nothing_marked_as_changed(visit: Opener) -> None:
    page = visit()
    choose(page)
    page.get_by_role("button", name="Choose another scene").click()
    choose(page, "stretch-test")
    assert page.locator(".fresh").count() == 0
    assert "sets the tempo" not in page.locator("#curve-choice").inner_text(), "no rule of this scene does"


def test_a_file_of_another_kind_is_refused_with_what_to_do(visit: Opener) -> None:
    page = visit(expect_error="400 (Bad Request)")
    drop(page, {"picture.png": b"not for us"})
    error = page.locator('#choose [data-error="file"]')
    expect(error).to_contain_text("picture.png is a picture")
    expect(error).to_be_in_viewport()
    choose(page)
    drop(page, {"picture.png": b"not for us"})
    expect(page.locator('#bench [data-error="file"]')).to_be_in_viewport()
    page.get_by_role("button", name="Choose another scene").click()
    drop(page, {"broken.toml": b"title = "})
    expect(error).to_contain_text("broken.toml")
    assert held(page)["inputs"]["scene"] is None


def test_text_of_a_scene_is_shown_and_never_run(visit: Opener) -> None:
    page = visit()
    text = (ROOT / f"scenes/{SCENE}.toml").read_text("utf-8")
    hostile = '<img src=x onerror="document.title=1"><script>document.title=2</script>'
    odd = text.replace("Once round the harbour: the journey of a drop", hostile.replace('"', '\\"'))
    drop(page, {"odd.toml": odd.encode()})
    planned(page)
    assert page.locator("#title").inner_text() == hostile
    assert page.title() == "Plan a lesson: sonify"


def test_a_server_that_is_gone_is_told_and_the_plan_is_kept(visit: Opener) -> None:
    page = visit(expect_error="ERR_FAILED")
    choose(page)
    page.route("**/api/plan", lambda route: route.abort())
    field(page, "set.wind").locator("input[type=number]").fill("6")
    expect(page.locator("#trouble")).to_contain_text("does not answer")
    expect(page.locator("#bar-words")).to_contain_text("does not answer")
    page.unroute("**/api/plan")
    page.get_by_role("button", name="Try again").click()
    assert next(row["value"] for row in planned(page)["conditions"] if row["name"] == "wind") == 6
    expect(page.locator("#trouble")).to_be_hidden()


def test_every_word_of_the_trade_is_explained_where_it_stands(visit: Opener) -> None:
    page = visit()
    choose(page)
    for word in ("audible", "tempo", "exaggeration", "ostinato", "drone", "tremolo", "scatter"):
        button = page.get_by_role("button", name=f"What does “{word}” mean?").first
        button.click()
        words = page.locator(f"#{button.get_attribute('aria-controls')}")
        expect(words).to_be_visible()
        expect(words).to_contain_text(f"{word.capitalize()}: ")
        assert button.get_attribute("aria-expanded") == "true"
        button.click()
        expect(words).to_be_hidden()
