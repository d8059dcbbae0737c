"""Every source that a formula or a note cites, one table a topic. A docstring's "Source:" names its key here.

checked: "read" where the figure or formula was read on a public page or in a reference library's own code or tests,
"reproduced" where our function gives the source's printed numbers, "from memory" where only that stands behind it.
"""

from __future__ import annotations

from sonify.records.lesson import Source
from sonify.science.sources.everyday import ROWS as EVERYDAY
from sonify.science.sources.flow import ROWS as FLOW
from sonify.science.sources.general import ROWS as GENERAL
from sonify.science.sources.measuring import ROWS as MEASURING
from sonify.science.sources.particles import ROWS as PARTICLES
from sonify.science.sources.substances import ROWS as SUBSTANCES
from sonify.science.sources.weather import ROWS as WEATHER

_TABLES = (EVERYDAY, FLOW, GENERAL, MEASURING, PARTICLES, SUBSTANCES, WEATHER)

SOURCES: dict[str, Source] = {key: table[key] for table in _TABLES for key in table}
assert len(SOURCES) == sum(map(len, _TABLES)), "one source stands in two tables"
