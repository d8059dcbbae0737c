"""Heating and cooling, stills, and textbooks that serve several topics."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
    (
        "DUNKLE-1961",
        "Dunkle, R. V. (1961), Solar water distillation: the roof type still and a multiple effect diffusion "
        "still, International Developments in Heat Transfer, ASME, part V, 895-902.",
        "coefficients read in four independent programs, two of which cite it; the paper itself not read",
    ),
    (
        "MOSAIC-COOLING-WATER",
        "Data set CoolingWater of the R package mosaicData: water left in a mug, 222 readings a minute apart.",
        "loaded once from a data package and fitted; eight of its readings are kept in a test",
    ),
    (
        "OPENSTAX-CALC1",
        "OpenStax, Calculus, volume 1, section Exponential Growth and Decay.",
        "worked examples read; reproduced",
    ),
    (
        "OPENSTAX-CP",
        "OpenStax, College Physics, chapter Temperature, Kinetic Theory, and the Gas Laws.",
        "read; worked examples reproduced",
    ),
    (
        "OPENSTAX-UP2",
        "OpenStax, University Physics, volume 2, chapters Temperature and Heat, The Kinetic Theory of Gases.",
        "read; worked examples reproduced",
    ),
    (
        "WATMUFF-1977",
        "Watmuff, J. H., Charters, W. W. S. and Proctor, D. (1977), Solar and wind induced external coefficients "
        "for solar collectors, COMPLES 2, 56.",
        "from memory, not verified",
    ),
)
