"""Sun, air, vapour, cloud and rain."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
    (
        "ALMANAC-1988",
        "The Astronomical Almanac, page C24 (low-precision formulae for the Sun); Michalsky, J. J. (1988), The "
        "Astronomical Almanac's algorithm for approximate solar position (1950-2050), Solar Energy 40, 227-235.",
        "coefficients read in two independent programs; within 0.01° of the NREL solar position algorithm",
    ),
    (
        "AMS-GLOSSARY",
        "American Meteorological Society, Glossary of Meteorology, entry Dividing streamline; after Sheppard, P. A. "
        "(1956), Airflow over mountains, Quarterly Journal of the Royal Meteorological Society 82, 528-529.",
        "glossary read; the paper from memory",
    ),
    (
        "ASHRAE-2017",
        "ASHRAE (2017), Handbook: Fundamentals, chapter 1, Psychrometrics.",
        "printed values read in the tests of a psychrometrics library; reproduced",
    ),
    (
        "ATLAS-1973",
        "Atlas, D., Srivastava, R. C. and Sekhon, R. S. (1973), Doppler radar characteristics of precipitation at "
        "vertical incidence, Reviews of Geophysics 11, 1-35.",
        "formula read; within 1.8 % of Gunn and Kinzer's table",
    ),
    (
        "BOHREN-1987",
        "Bohren, C. F. (1987), Multiple scattering of light and some of its observable consequences, American Journal "
        "of Physics 55, 524-533.",
        "from memory, not verified",
    ),
    (
        "BOLTON-1980",
        "Bolton, D. (1980), The computation of equivalent potential temperature, Monthly Weather Review 108, "
        "1046-1053.",
        "formula from memory; within 0.05 K of a meteorology library's own method",
    ),
    (
        "BOWEN-1926",
        "Bowen, I. S. (1926), The ratio of heat losses by conduction and by evaporation from any water surface, "
        "Physical Review 27, 779-787.",
        "from memory; a shaded puddle settles at the wet bulb of a meteorology library",
    ),
    (
        "BRUTSAERT-1975",
        "Brutsaert, W. (1975), On a derivable formula for long-wave radiation from clear skies, Water Resources "
        "Research 11, 742-744.",
        "formula read in public code that cites it",
    ),
    (
        "DALTON-1802",
        "Dalton, J. (1802), Experimental essays on the constitution of mixed gases, Memoirs of the Manchester Literary "
        "and Philosophical Society 5, 535-602.",
        "from memory, not verified",
    ),
    (
        "FAO-56",
        "Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. (1998), Crop evapotranspiration, FAO Irrigation and "
        "Drainage Paper 56, Rome.",
        "examples read in an independent test suite with page numbers; reproduced",
    ),
    (
        "GUNN-KINZER-1949",
        "Gunn, R. and Kinzer, G. D. (1949), The terminal velocity of fall for water droplets in stagnant air, Journal "
        "of Meteorology 6, 243-248, table 2.",
        "table read in three independent cloud-physics programs",
    ),
    (
        "HARRISON-1963",
        "Harrison, L. P. (1963), Fundamental concepts and definitions relating to humidity, in Humidity and Moisture, "
        "volume 3, Reinhold; as quoted in FAO-56, annex 3.",
        "from memory; within 0.05 % of IAPWS-95 from 0 to 50 °C",
    ),
    (
        "HAURWITZ-1945",
        "Haurwitz, B. (1945), Insolation in relation to cloudiness and cloud density, Journal of Meteorology 2, "
        "154-166.",
        "formula as in a solar energy library; equal to it",
    ),
    (
        "HAYASHI-VAN-DER-KAMP-2000",
        "Hayashi, M. and van der Kamp, G. (2000), Simple equations to represent the volume-area-depth relations of "
        "shallow wetlands in small topographic depressions, Journal of Hydrology 237, 74-85.",
        "abstract read; the power functions from memory, and checked as the geometry of a bowl",
    ),
    (
        "KASTEN-CZEPLAK-1980",
        "Kasten, F. and Czeplak, G. (1980), Solar and terrestrial radiation dependent on the amount and type of "
        "cloud, Solar Energy 24, 177-189.",
        "from memory, not verified",
    ),
    (
        "KESSLER-1969",
        "Kessler, E. (1969), On the distribution and continuity of water substance in atmospheric circulations, "
        "Meteorological Monographs 10(32), American Meteorological Society.",
        "rate read in public code that cites it; threshold from memory",
    ),
    (
        "MARSHALL-PALMER-1948",
        "Marshall, J. S. and Palmer, W. McK. (1948), The distribution of raindrops with size, Journal of Meteorology "
        "5, 165-166.",
        "constants from memory, not verified",
    ),
    (
        "MEEUS-1998",
        "Meeus, J. (1998), Astronomical Algorithms, 2nd edition, Willmann-Bell, chapters 13, 15, 16, 47 to 49 and 58.",
        "formulae from memory, those of the Moon's phase read in other people's programs; heights, day lengths and "
        "phases agree with libraries of astronomy; example 48.a reproduced",
    ),
    (
        "MURPHY-KOOP-2005",
        "Murphy, D. M. and Koop, T. (2005), Review of the vapour pressures of ice and supercooled water for "
        "atmospheric applications, Quarterly Journal of the Royal Meteorological Society 131, 1539-1565, equation 10.",
        "coefficients and range read in four independent programs; within 0.05 % of IAPWS-95",
    ),
    (
        "PENMAN-1948",
        "Penman, H. L. (1948), Natural evaporation from open water, bare soil and grass, Proceedings of the Royal "
        "Society A 193, 120-145.",
        "from memory; worked as in PONCE-1989",
    ),
    (
        "PONCE-1989",
        "Ponce, V. M. (1989), Engineering Hydrology: Principles and Practices, Prentice Hall, section 2.2; solutions "
        "of the author's course at San Diego State University.",
        "solutions read; reproduced",
    ),
    (
        "PRIESTLEY-TAYLOR-1972",
        "Priestley, C. H. B. and Taylor, R. J. (1972), On the assessment of surface heat flux and evaporation using "
        "large-scale parameters, Monthly Weather Review 100, 81-92.",
        "from memory, not verified",
    ),
    (
        "RANZ-MARSHALL-1952",
        "Ranz, W. E. and Marshall, W. R. (1952), Evaporation from drops, Chemical Engineering Progress 48, 141-146 "
        "and 173-180.",
        "formula read in several independent programs that cite it",
    ),
    (
        "ROGERS-YAU-1989",
        "Rogers, R. R. and Yau, M. K. (1989), A Short Course in Cloud Physics, 3rd edition, Pergamon, section 8.",
        "constants read in two independent programs that cite equation 8.6",
    ),
    (
        "STEPHENS-1978",
        "Stephens, G. L. (1978), Radiation profiles in extended water clouds II: Parameterization schemes, Journal of "
        "the Atmospheric Sciences 35, 2123-2132.",
        "optical depth read in a radiative transfer library's notes; emissivity from memory",
    ),
    (
        "STULL-1988",
        "Stull, R. B. (1988), An Introduction to Boundary Layer Meteorology, Kluwer, chapter 11.",
        "from memory; follows from the heat balance of the layer",
    ),
    (
        "UNSWORTH-MONTEITH-1975",
        "Unsworth, M. H. and Monteith, J. L. (1975), Long-wave radiation at the ground, Quarterly Journal of the Royal "
        "Meteorological Society 101, 13-24.",
        "from memory, not verified",
    ),
    (
        "USSA-1976",
        "NOAA, NASA and US Air Force (1976), U.S. Standard Atmosphere, 1976, Washington.",
        "values from two independent libraries; reproduced",
    ),
    (
        "VAN-DER-ENT-2017",
        "van der Ent, R. J. and Tuinenburg, O. A. (2017), The residence time of water in the atmosphere revisited, "
        "Hydrology and Earth System Sciences 21, 779-790: 8.9 days, give or take 0.4.",
        "abstract read",
    ),
    (
        "WALLACE-HOBBS-2006",
        "Wallace, J. M. and Hobbs, P. V. (2006), Atmospheric Science, 2nd edition, Academic Press, section 3.5.",
        "from memory; within 0.2 K of a meteorology library's moist adiabat, up to 2 km",
    ),
)
