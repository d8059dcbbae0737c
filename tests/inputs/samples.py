"""Small files that are right, for tests to spoil one line of. Invented data."""

from __future__ import annotations

SCENE = """\
title = "A small scene"
process = "water-cycle"
ages = [8, 11]
story = "One drop sets out."
curriculum = ["Science, Year 4"]

[conditions]
latitude = "54 deg"
day = 172
sea_temperature = "14 degC"

[music]
length = "3 min"
metre = "4/4"
scale = "C pentatonic"
tempo = ["60 bpm", "132 bpm"]
gliding = false

[[hear]]
quantity = "mean molecule speed"
as = "tempo"
from = ["571 m/s", "592 m/s"]
to = ["66 bpm", "112 bpm"]
curve = "linear"
why = "Warmer water has faster molecules."

[[hear]]
quantity = "rain rate"
as = "density"
part = "The rain"
from = ["0 mm/h", "5 mm/h"]
to = ["1 per bar", "2 per beat"]
why = "More rain, more taps."

[[part]]
name = "The sea"
texture = "drone"
sounds = ["ocean drum", "voices"]
stages = "all"

[[part]]
name = "The rain"
texture = "scatter"
sounds = ["claves", "claps"]
stages = ["precipitation"]
meaning = "You are the rain."

[[background]]
sound = "sea"
follows = "evaporation rate"
loudest = "p"

[[stage]]
name = "precipitation"
caption = "Drops fall."
share = 1.5

[[vocabulary]]
word = "rain"
meaning = "water drops that fall"

[[misconception]]
belief = "Rain falls out of holes in the sky."
correction = "It falls when cloud drops have grown large."
ask = "What makes a drop grow?"

[[question]]
ask = "Where does the rain go?"
answer = "Down the river to the sea."
"""

CLASS = """\
year = 5
pupils = 28
groups = 5
minutes = 60
needs = ["large print"]

[cupboard]
glockenspiel = 3
"ocean drum" = 1
triangle = 2
"""


def changed(text: str, old: str, new: str) -> str:
    """The text with its one `old` made `new`."""
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
    return text.replace(old, new)
