"""Units as loggers, spreadsheets and people write them in headings: "Temp (°C)", "Temperature [degC]", "T / °C".

A unit is believed only if it stands in these tables, or is put together from what stands there: a general library takes
"cat" for a hundredth of a technical atmosphere, and "pH" for a picohenry.
"""

from __future__ import annotations

import re

from sonify.units import NO_UNIT

#: Our name of a unit (as `sonify.units` reads it) and how people write it, small letters.
_SPELLINGS = {
    "degC": "°c ºc ˚c ℃ degc deg.c celsius centigrade c degcelsius",
    "degF": "°f ºf ˚f ℉ degf deg.f fahrenheit f",
    "K": "kelvin kelvins",
    "percent": "% percent percentage pct %rh rh% rh per-cent %r.h. %humidity",
    "ppm": "ppm",
    "lux": "lux lx",
    "klux": "klx klux",
    "dB": "db dba dbc dbb decibel decibels",
    "ms": "ms msec millisecond milliseconds",
    "s": "s sec secs second seconds",
    "min": "min mins minute minutes",
    "h": "h hr hrs hour hours",
    "day": "d day days",
    "week": "week weeks",
    "year": "year years yr yrs",
    "um": "um µm μm micron microns micrometre micrometres",
    "mm": "mm millimetre millimetres millimeter millimeters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "m": "m metre metres meter meters",
    "km": "km kilometre kilometres kilometer kilometers",
    "inch": "in inch inches",
    "foot": "ft foot feet",
    "mg": "mg milligram milligrams",
    "ug": "ug µg μg microgram micrograms",
    "g": "g gram grams",
    "kg": "kg kilogram kilograms kilo kilos",
    "ml": "ml millilitre millilitres milliliter milliliters cc",
    "cl": "cl centilitre centilitres",
    "dl": "dl decilitre decilitres",
    "l": "l litre litres liter liters ltr",
    "mN": "millinewton millinewtons",
    "N": "newton newtons",
    "Pa": "pa pascal pascals",
    "hPa": "hpa hectopascal hectopascals",
    "kPa": "kpa kilopascal kilopascals",
    "mbar": "mbar mb millibar millibars",
    "bar": "bar bars",
    "mmHg": "mmhg",
    "atm": "atm",
    "psi": "psi",
    "V": "volt volts",
    "mV": "mv millivolt millivolts",
    "A": "amp amps ampere amperes",
    "mA": "ma milliamp milliamps",
    "W": "watt watts",
    "kW": "kw kilowatt kilowatts",
    "kWh": "kwh",
    "J": "joule joules",
    "kJ": "kj kilojoule kilojoules",
    "ohm": "ohm ohms ω",
    "Hz": "hz hertz",
    "kHz": "khz kilohertz",
    "rpm": "rpm",
    "1/min": "bpm beats/min beats/minute /min per-minute perminute 1/min min-1",
    "mile/hour": "mph",
    "km/h": "kph kmh kmph",
    "knot": "knot knots kn kt kts",
    "deg": "° deg degree degrees",
    "count": "count counts",
}
UNITS = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings.split()}
#: Letters whose case tells them apart.
_EXACT = {
    "K": "K",
    "N": "N",
    "V": "V",
    "A": "A",
    "W": "W",
    "J": "J",
    "S": "S",
    "mS": "mS",
    "µS": "uS",
    "μS": "uS",
    "uS": "uS",
}
#: Words that are units in brackets, and English or a label anywhere else.
_ONLY_IN_BRACKETS = frozenset(
    (
        *"amshdglnkvwjcf",
        "in",
        "bar",
        "min",
        "day",
        "days",
        "week",
        "weeks",
        "year",
        "years",
        "count",
        "foot",
        "rh",
        "kt",
    )
)
TIME_UNITS = {"ms", "s", "min", "h", "day", "week", "year"}

_BRACKETS = re.compile(r"(.*?)[\s_]*[(\[{]\s*([^()\[\]{}]*(?:\([A-Za-z]\))?)\s*[)\]}]\s*(.*)")
_GAP = r"[\s_]+(?:-\s+)?"
_DECIBELS = re.compile(r"\bdB\s?\(?([ABC])\)?(?=$|[\s)\]])", re.IGNORECASE)
_POWER = re.compile(r"([^\d²³^*-]+)(?:(?:\^|\*\*)?(-?[123])|([²³]))?")
_PLAIN_POWERS = {"²": "2", "³": "3"}


def unit_named(text: str) -> str | None:
    """The unit that a text names, None where it names none that we know.

    >>> unit_named("°C"), unit_named("m/s"), unit_named("W m-2"), unit_named("µg/m³"), unit_named("cat")
    ('degC', 'm/s', 'W/m**2', 'ug/m**3', None)
    """
    text = _DECIBELS.sub(r"dB\1", " ".join(text.split()))
    if not 0 < len(text) <= 30:
        return None
    if text.casefold() in ("beats per minute", "per minute", "beats a minute"):
        return "1/min"
    whole = _EXACT.get(text) or UNITS.get(re.sub(r"\s+", "", text.casefold())) or UNITS.get(text.casefold())
    if whole:
        return whole
    over: list[str] = []
    under: list[str] = []
    for number, part in enumerate(re.split(r"\s*/\s*|\s+per\s+", text)):
        # a mere space multiplies only where powers tell units from words: "W m-2", not "in g"
        for factor in re.split(r"[\s·*.](?!\*)" if "-" in part else r"[·*.](?!\*)", part):
            found = _POWER.fullmatch(factor)
            unit = (_EXACT.get(found[1]) or UNITS.get(found[1].casefold())) if found else None
            if found is None or unit is None or "/" in unit:
                return None
            power = int(found[2] or _PLAIN_POWERS.get(found[3] or "", "1"))
            place = over if (power > 0) == (number == 0) else under
            place.append(unit if abs(power) == 1 else f"{unit}**{abs(power)}")
    if not over and not under:
        return None
    return "/".join(["*".join(over) or "1", *under])


def name_and_unit(heading: str, others: str = "") -> tuple[str, str]:
    """What a heading calls its column ("" for nothing but a unit), and the unit, NO_UNIT where it names none.

    others: all the headings of the table: where one of them has a "max", this one's "(min)" is no minute.

    >>> name_and_unit("Temp (°C)"), name_and_unit("Temperature [degC]"), name_and_unit("Light, lux")
    (('Temp', 'degC'), ('Temperature', 'degC'), ('Light', 'lux'))
    >>> name_and_unit("Temp (inside)"), name_and_unit("t/s"), name_and_unit("pH")
    (('Temp (inside)', 'no unit'), ('t', 's'), ('pH', 'no unit'))
    """
    heading = _DECIBELS.sub(r"dB\1", " ".join(heading.split()))
    name, unit = _parted(heading)
    warm = "temp" in heading.casefold()
    if unit == "min" and "max" in others.casefold() or unit == "deg" and warm:
        return heading, NO_UNIT  # degrees of what scale, nobody says
    return (name, unit) if unit else (heading, NO_UNIT)


def _parted(heading: str) -> tuple[str, str | None]:
    found = _BRACKETS.fullmatch(heading)
    if found and (unit := unit_named(found[2])):
        return f"{found[1]} {found[3]}".strip(), unit
    own = unit_named(heading)
    if own and (len(heading) > 1 and own in TIME_UNITS or heading.casefold() not in _ONLY_IN_BRACKETS):
        return heading, own
    for sign in (r"\s*,\s*", r"\s+/\s*|\s*/\s+", r"\s+in\s+", _GAP, r"/"):
        pieces = list(re.finditer(sign, heading))
        for piece in pieces if sign == _GAP else pieces[-1:]:
            name, rest = heading[: piece.start()], heading[piece.end() :]
            unit = unit_named(rest)
            if unit and name and (sign != _GAP or _plain(rest, name)):
                return name.strip(" _-"), unit
    return heading, None


def _plain(text: str, name: str) -> bool:
    """Behind a mere space or underline: a unit that is no English word and no label; C and F behind a temperature."""
    if text.casefold() in ("c", "f"):
        return "temp" in name.casefold()
    return text.casefold() not in _ONLY_IN_BRACKETS
