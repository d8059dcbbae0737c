"""Scene files: what a right one becomes, and what each wrong one says."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import BadFile, SonifyError
from sonify.inputs.scene_file import read_scene
from sonify.records.scene import STAGES_ALL, Measure, Scene
from tests.inputs.samples import SCENE, changed


def scene(text: str) -> Scene:
    return read_scene(text, file="small.toml", name="small")


def message(text: str) -> str:
    with pytest.raises(BadFile) as refused:
        scene(text)
    return str(refused.value)


def test_a_scene_file_becomes_a_scene() -> None:
    found = scene(SCENE)
    assert (found.name, found.title, found.process, found.ages) == ("small", "A small scene", "water-cycle", (8, 11))
    assert (found.music.length_s, found.music.slowest_bpm, found.music.fastest_bpm) == (180.0, 60.0, 132.0)
    tempo, density = found.rules
    assert (tempo.control, tempo.low, tempo.high) == (
        "tempo",
        Measure(text="571 m/s", value=571.0, unit="m/s"),
        Measure(text="592 m/s", value=592.0, unit="m/s"),
    )
    assert (tempo.to_low, tempo.to_high, tempo.part, tempo.key) == (66.0, 112.0, None, "hear.0")
    assert (density.to_low, density.to_high, density.part, density.curve) == (0.25, 2.0, "The rain", "linear")
    assert [part.stages for part in found.parts] == [STAGES_ALL, ("precipitation",)]
    assert found.parts[1].meaning == "You are the rain."
    assert (found.background[0].kind, found.background[0].loudest) == ("sea", 44.0)
    assert (found.stages[0].share, found.vocabulary[0].word, found.questions[0].ask) == (
        1.5,
        "rain",
        "Where does the rain go?",
    )
    assert found.origin.line("hear.1.from") == 31


def test_a_bare_whole_number_is_a_condition_without_a_unit() -> None:
    day = next(condition for condition in scene(SCENE).conditions if condition.name == "day")
    assert day.measure == Measure(text="172", value=172.0, unit="1")


def test_what_is_left_out_has_the_documented_default() -> None:
    short = re.sub(r"\[music\].*?(?=\[\[hear)", "", SCENE, flags=re.DOTALL)
    music = scene(changed(short, "ages = [8, 11]\n", "")).music
    assert (music.length_s, music.metre.text, music.scale.name, music.gliding) == (180.0, "4/4", "C pentatonic", False)


def test_density_in_three_four_counts_three_beats_to_the_bar() -> None:
    assert scene(changed(SCENE, '"4/4"', '"3/4"')).rules[1].to_low == pytest.approx(1 / 3)


def test_line_breaks_within_a_text_are_spaces() -> None:
    assert scene(changed(SCENE, '"One drop sets out."', '"""One drop\n   sets out.\n"""')).story == "One drop sets out."


def test_a_title_may_be_any_script_and_300_letters_long() -> None:
    title = ("Ein Tropfen, 一滴の水, قطرة ماء, 💧 " * 20)[:299] + "."
    assert scene(changed(SCENE, "A small scene", title)).title == title
    assert "line 1: title: is 301 characters long; up to 300 are allowed" in message(
        changed(SCENE, "A small scene", "x" * 301)
    )


# (what to replace, by what, the message)
WRONG = [
    ('title = "A', 'titel = "A', r'line 1: titel: unknown key; did you mean "title"\? Allowed here: ages'),
    ('title = "A small scene"\n', "", r"small.toml: title: missing; wanted: a text in quotation marks"),
    ('"A small scene"', '"  \\t "', "line 1: title: is empty"),
    ('"A small scene"', '"a\\u001bb"', r"line 1: title: holds the character U\+001B, which cannot be printed"),
    ('"A small scene"', "7", "line 1: title: is 7; wanted: a text in quotation marks"),
    ('"A small scene"', "Hello", r"line 1: not valid TOML at column 9: Invalid value; a text needs quotation marks"),
    ("ages = [8, 11]", "ages = [11, 8]", "line 3: ages: the youngest comes first, and 11 is more than 8"),
    ("ages = [8, 11]", "ages = [8]", "line 3: ages: holds 1 ages; allowed: exactly 2"),
    ("ages = [8, 11]", "ages = [true, 11]", "line 3: ages.0: is true; wanted: the youngest and the oldest age"),
    ("ages = [8, 11]", "ages = [8, 99]", "line 3: ages.1: is 99; allowed: 4 to 18"),
    ('"14 degC"', "14.5", r"line 10: conditions.sea_temperature: is the bare number 14.5; write it with its unit"),
    ('"14 degC"', '"14"', 'line 10: conditions.sea_temperature: "14" has no unit; write it with one'),
    ('"14 degC"', '"1e400 degC"', "line 10: conditions.sea_temperature: .* is too large a number"),
    ('"14 degC"', '"14 s**9**9**9"', r"line 10: conditions.sea_temperature: .* is not a unit"),
    ("day = 172", "day = 0x" + "f" * 400, "line 9: conditions.day: is a number of more than 15 digits; a bare whole"),
    ("day = 172", "day = true", "line 9: conditions.day: is true; wanted: a number with its unit"),
    ("day = 172", 'day = 172\nstory = "x"', 'line 10: conditions.story: .*"story" belongs at the top of the file'),
    ("[conditions]", "[[conditions]]", r"line 7: conditions: is a list; wanted: a table \[conditions\]"),
    ('"3 min"', '"29 s"', 'line 13: music.length: "29 s" is outside what is allowed: 30 s to 60 min'),
    ('"3 min"', '"61 min"', "line 13: music.length: .*: 30 s to 60 min"),
    ('"3 min"', '"3 cm"', "line 13: music.length: .* a measure in s is wanted"),
    ('"4/4"', '"6/8"', 'line 14: music.metre: "6/8" is not a metre .* Allowed: 2/4, 3/4, 4/4'),
    ('"C pentatonic"', '"C pentatonik"', r'line 15: music.scale: unknown mode .* did you mean "pentatonic"\?'),
    ('"C pentatonic"', '"H major"', 'line 15: music.scale: "H major" is not a scale'),
    ('["60 bpm", "132 bpm"]', '["132 bpm", "60 bpm"]', "line 16: music.tempo: the slowest comes first"),
    ('["60 bpm", "132 bpm"]', '["20 bpm", "132 bpm"]', r"line 16: music.tempo.0: .* 30 to 240 bpm"),
    ('["60 bpm", "132 bpm"]', '["60", "132 bpm"]', 'line 16: music.tempo.0: "60" is not read here; .* "66 bpm"'),
    ("gliding = false", "gliding = 1", "line 17: music.gliding: is 1; wanted: true or false"),
    ("gliding = false", "glide = false", r'line 17: music.glide: unknown key; did you mean "gliding"\?'),
    ('as = "tempo"', 'as = "temppo"', r'line 21: hear.0.as: unknown control "temppo"; did you mean "tempo"\? Allowed'),
    ('curve = "linear"', 'curve = "liner"', r'line 24: hear.0.curve: unknown curve .* did you mean "linear"\?'),
    ('["571 m/s", "592 m/s"]', '["571 m/s", "571 m/s"]', "line 22: hear.0.from: both ends are 571 m/s"),
    ('["571 m/s", "592 m/s"]', '["571", "592 m/s"]', 'line 22: hear.0.from.0: "571" has no unit'),
    ('["571 m/s", "592 m/s"]', '"571 m/s"', "line 22: hear.0.from: is .571 m/s.; wanted: two numbers"),
    ('["571 m/s", "592 m/s"]', "[571, 592]", "line 22: hear.0.from.1: is 592; wanted: two numbers with their units"),
    ('["66 bpm", "112 bpm"]', '["66 bpm", "66 bpm"]', "line 23: hear.0.to: both ends are 66 bpm"),
    ('["66 bpm", "112 bpm"]', '["C4", "C5"]', r'line 23: hear.0.to: "C4" .* For tempo write for example \["66 bpm"'),
    ('why = "Warmer', 'because = "Warmer', "line 19: hear.0.why: missing; wanted: the reason"),
    ('as = "density"', 'as = "tempo"', "line 30: hear.1.part: a class follows one conductor"),
    ('part = "The rain"', 'part = "The rane"', r'line 30: hear.1.part: no part .* did you mean "The rain"\?'),
    ('name = "The sea"', 'name = "The Rain"', r'line 42: part.1.name: there are two parts called "The rain"'),
    ('name = "The sea"', 'name = "Count-in"', 'line 36: part.0.name: "count-in" is the name of the count-in'),
    ('texture = "drone"', 'texture = "drones"', r'line 37: part.0.texture: .* did you mean "drone"\? Allowed'),
    ('["ocean drum", "voices"]', "[]", "line 38: part.0.sounds: holds 0 instruments; allowed: 1 to 20"),
    ('["ocean drum", "voices"]', '["ocean drum", ""]', "line 38: part.0.sounds.1: is empty"),
    ('["ocean drum", "voices"]', '"ocean drum"', "line 38: part.0.sounds: is .ocean drum.; wanted: a list"),
    ('["precipitation"]', '"precipitation"', r'line 45: part.1.stages: .* \["precipitation"\]'),
    ('["precipitation"]', '["rain", ""]', "line 45: part.1.stages: is a list; wanted"),
    ('["precipitation"]', '["all", "rain"]', "line 45: part.1.stages: names a stage twice"),
    ('stages = "all"', "rests = 0", "line 39: part.0.rests: is 0; wanted: true or false, without quotation marks"),
    ('stages = "all"', "rest = false", r'line 39: part.0.rest: unknown key; did you mean "rests"\?'),
    (
        'stages = "all"',
        "on_beat = true",
        'line 39: part.0.on_beat: only a pattern can be the beat: write texture = "ost',
    ),
    (
        'stages = "all"',
        "even = true",
        'line 39: part.0.even: only a pattern can have even strokes: write texture = "ost',
    ),
    (
        'stages = "all"',
        'with = "The rane"',
        r'line 39: part.0.with: no part .* did you mean "The rain"\? Allowed: The ra',
    ),
    ('stages = "all"', 'with = "The sea"', "line 39: part.0.with: a part cannot go with itself. Allowed: The rain"),
    (
        '["precipitation"]',
        '"all"\nwith = "The sea"\n[[part]]\nname = "X"\ntexture = "drone"\nsounds = ["voices"]\nwith = "The rain"',
        'part.2.with: a part cannot go with "The rain", which goes with another part already. Allowed: The sea',
    ),
    ('sound = "sea"', 'sound = "see"', r'line 49: background.0.sound: .* did you mean "sea"\?'),
    ('loudest = "p"', 'loudest = "loud"', "line 51: background.0.loudest: .* Allowed: pp, p, mp, mf, f, ff"),
    ("share = 1.5", "share = 0", "line 56: stage.0.share: is 0; allowed: 0.1 to 10"),
    ("share = 1.5", "share = nan", "line 56: stage.0.share: is nan; allowed: 0.1 to 10"),
    ("share = 1.5", "share = true", "line 56: stage.0.share: is true; wanted: .* a number from 0.1 to 10"),
    ('title = "A small scene"', 'title = "x"\ntitle = "y"', "line 2: title: given twice, first on line 1"),
    ("ages = [8, 11]", "ages = " + "1" * 5000, "a number has more than 4300 digits"),
    ("ages = [8, 11]", "ages = " + "[" * 99, "line 3: tables or lists stand within each other more than 24 deep"),
]


def test_a_part_may_never_rest_be_the_beat_and_go_with_another() -> None:
    given = 'stages = "all"\nrests = false\nwith = "The rain"'
    sea, rain = scene(changed(changed(SCENE, 'stages = "all"', given), '"drone"', '"ostinato"\non_beat = true')).parts
    assert (sea.rests, sea.partner, sea.on_beat) == (False, "The rain", True)
    assert (rain.rests, rain.partner, rain.on_beat) == (True, "", False)


@pytest.mark.parametrize(("old", "new", "says"), WRONG, ids=[f"{row[1][:30]}" for row in WRONG])
def test_a_wrong_line_is_named_with_what_is_allowed(old: str, new: str, says: str) -> None:
    with pytest.raises(BadFile, match=says) as refused:
        scene(changed(SCENE, old, new))
    assert str(refused.value).startswith("small.toml")


def test_several_faults_are_named_at_once_in_the_order_of_their_lines() -> None:
    text = changed(SCENE, "day = 172", "day = 1.5")
    text = changed(text, 'as = "tempo"', 'as = "temppo"')
    text = changed(text, 'name = "The sea"', 'name = "The rain"')
    rows = message(text).split("\n")
    assert rows[0] == "small.toml: 3 things to mend"
    assert [re.match(r"  small.toml, line (\d+): ([\w.]+): ", row).groups() for row in rows[1:]] == [  # type: ignore[union-attr]
        ("9", "conditions.day"),
        ("21", "hear.0.as"),
        ("42", "part.1.name"),
    ]


def test_of_very_many_faults_the_first_are_listed_and_the_rest_counted() -> None:
    rows = message(SCENE + "".join(f"\n[[hear]]\nx{n} = 1" for n in range(9))).split("\n")
    assert len(rows) == 10
    assert rows[0] == "small.toml: 54 things to mend"
    assert rows[-1] == "  and 46 more"


def test_a_scene_needs_a_part_and_a_rule() -> None:
    start = SCENE[: SCENE.index("[[hear]]")]
    assert re.search(r"hear: missing; wanted: one table \[\[hear\]\]", message(start))
    assert re.search(r"part: missing; wanted: one table \[\[part\]\]", message(start))


def test_a_rule_may_reach_past_the_tempo_limits_and_the_mapping_tells_what_it_held() -> None:
    assert scene(changed(SCENE, '"112 bpm"', '"140 bpm"')).rules[0].to_high == 140.0


def test_two_rules_for_one_control_of_one_part_are_refused() -> None:
    text = SCENE + '\n[[hear]]\nquantity = "x"\nas = "density"\npart = "The rain"\nfrom = ["1 m", "2 m"]\n'
    text += 'to = ["1 per bar", "1 per beat"]\nwhy = "so"\n'
    assert "line 73: hear.2.as: the density of the same part already follows rule 2 of the file" in message(text)


def test_a_message_holds_nothing_that_a_terminal_obeys() -> None:
    assert message(f'"\\u001b[2J" = 1\n{SCENE}').isprintable()


def test_windows_line_ends_and_a_byte_order_mark_change_nothing() -> None:
    assert scene("\ufeff" + SCENE.replace("\n", "\r\n")) == scene(SCENE)


KEYS = st.sampled_from(["title", "process", "ages", "conditions", "music", "hear", "part", "stage", "as", "from", "to"])
LEAVES = st.sampled_from(
    ["1", "-1", "0x" + "f" * 400, "1e999", "nan", "true", '"x"', '"14 degC"', '"C4"', '"tempo"', "[]", "{}", '""']
) | st.text(alphabet='[]{}"=.,#\\ ab1\u0000\u0085').map(lambda text: f"'{text}'")
LINES = (
    st.builds("{} = {}".format, KEYS, LEAVES)
    | st.builds("[{}]".format, KEYS)
    | st.builds("[[{}]]".format, KEYS)
    | st.builds("{} = [{}, {}]".format, KEYS, LEAVES, LEAVES)
)


@given(st.text() | st.lists(LINES).map("\n".join))
def test_any_text_is_a_scene_or_a_clear_refusal(text: str) -> None:
    try:
        scene(text)
    except SonifyError as error:
        assert str(error).startswith("small.toml")


@given(st.integers(0, SCENE.count("\n")), LINES)
def test_any_line_put_anywhere_is_a_scene_or_a_clear_refusal(at: int, line: str) -> None:
    rows = SCENE.split("\n")
    rows.insert(at, line)
    try:
        assert scene("\n".join(rows)).parts
    except SonifyError as error:
        assert str(error).startswith("small.toml")


@given(st.sampled_from(sorted(set(re.findall(r"= (.+)", SCENE)))), LEAVES)
def test_any_value_put_anywhere_is_a_scene_or_a_clear_refusal(old: str, new: str) -> None:
    try:
        assert scene(SCENE.replace(f"= {old}", f"= {new}", 1)).rules
    except SonifyError as error:
        assert str(error).startswith("small.toml")
