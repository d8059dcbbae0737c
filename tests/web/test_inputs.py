"""What a page sends, read for its shape alone."""

from __future__ import annotations

import pytest

from sonify.web.inputs import conditions_in


@pytest.mark.parametrize(
    ("given", "read"),
    [
        ("5", 5),
        (" +7 ", 7),
        ("-12", -12),
        (172, 172),
        ("--5", "--5"),
        ("+-5", "+-5"),
        ("5 degC", "5 degC"),
        ("\u0665", "\u0665"),
    ],
)
def test_only_what_is_a_whole_number_becomes_one(given: str | int, read: str | int) -> None:
    assert conditions_in({"set": {"day": given}}) == {"day": read}
