"""Words on engraved pages: names of staves that leave each other room, and what is told over the bar it belongs to."""

from __future__ import annotations

from lxml import etree

from sonify.notation.staff_names import MEI, set_names
from sonify.notation.words_above import PACE, join_words, keep_over_their_bar


def lines_of(label: etree._Element) -> list[str]:
    return [label.text or "", *(each.tail or "" for each in label.findall(f"{MEI}lb"))]


def names(longest: int, most: int) -> list[list[str]]:
    root = etree.fromstring(
        f'<m xmlns="{MEI[1:-1]}"><staffDef><label>3 The spots, second group\nWood block</label>'
        "<labelAbbr>3 W.B.</labelAbbr></staffDef><staffDef><label>4 The counters\nHand drum</label></staffDef></m>"
    )
    set_names(root, longest, most)
    return [lines_of(label) for label in root.iter(f"{MEI}label")]


def test_a_name_has_two_lines_beside_its_staff_and_in_large_letters_one() -> None:
    assert names(37, 2) == [["3 The spots, second group", "Wood block"], ["4 The counters", "Hand drum"]]
    assert names(24, 2) == [["3 The spots, second", "group: W.B."], ["4 The counters", "Hand drum"]]
    assert names(32, 1) == [["3 The spots, second group: W.B."], ["4 The counters"]]


def bar_of(words: str) -> etree._Element:
    return etree.fromstring(f'<measure xmlns="{MEI[1:-1]}">{words}</measure>')


def told(staff: str, text: str, kind: str = "") -> str:
    return f'<dir place="above" staff="{staff}" tstamp="1" type="{kind}"><rend>{text}</rend></dir>'


def test_words_that_move_to_a_staff_with_words_of_its_own_become_one_text() -> None:
    bar = bar_of(told("1", "Largo", PACE) + told("1", "It melts") + told("2", "Change: p") + told("3", "Come in"))
    join_words(bar, "1", "2")
    assert ["".join(each.itertext()) for each in bar] == ["Largo", "It meltsChange: p", "Come in"]
    assert len(bar[1].findall(f"{MEI}lb")) == 1
    twice = bar_of(told("1", "Stop and rest") + told("2", "Stop and rest"))
    join_words(twice, "1", "2")
    assert ["".join(each.itertext()) for each in twice] == ["Stop and rest"]


def test_long_lines_near_the_end_of_a_system_are_broken_to_its_room() -> None:
    text = "The hob goes on, the thermometer<lb/>waits at nought. Where does the heat go?"
    system = [bar_of(told("1", text)) for _ in range(4)]
    keep_over_their_bar(system, 80)
    longest = [max(map(len, lines_of(bar[0][0]))) for bar in system]
    assert longest[0] == 40 and longest[2] <= 0.9 * 80 * 2 / 4 and longest[3] <= 0.9 * 80 / 4 + 4
