"""Every source that a formula or a note cites, in one table. A docstring's "Source:" names its key here.

checked: "read" where the figure or formula was read on a public page or in a reference library's own code or tests,
"reproduced" where our function gives the source's printed numbers, "from memory" where only that stands behind it.
"""

from __future__ import annotations

from sonify.records.lesson import Source


def _table(*rows: tuple[str, str, str]) -> dict[str, Source]:
    return {key: Source(key=key, text=text, checked=checked) for key, text, checked in rows}


SOURCES: dict[str, Source] = _table(
    (
        "ALLEN-TILDESLEY-2017",
        "Allen, M. P. and Tildesley, D. J. (2017), Computer Simulation of Liquids, 2nd edition, Oxford University "
        "Press, chapters 1, 3 and 5.",
        "from memory; pair energies and forces agree with an atomic simulation library",
    ),
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
        "BARKER-1981",
        "Barker, J. A., Henderson, D. and Abraham, F. F. (1981), Phase diagram of the two-dimensional Lennard-Jones "
        "system; evidence for first-order transitions, Physica A 106, 226-238.",
        "abstract read; the triple point at 0.415 depths from memory",
    ),
    (
        "BERENDSEN-1984",
        "Berendsen, H. J. C., Postma, J. P. M., van Gunsteren, W. F., DiNola, A. and Haak, J. R. (1984), Molecular "
        "dynamics with coupling to an external bath, Journal of Chemical Physics 81, 3684-3690.",
        "formula read in the notes of simulation programs",
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
        "BRINE-DENSITY-1974",
        "Poradnik fizykochemiczny (1974), WNT, Warszawa: density of sodium chloride solutions, 15 and 20 °C.",
        "table read on a university's physics laboratory page; our round figure is within 0.7 % of it",
    ),
    (
        "BRUTSAERT-1975",
        "Brutsaert, W. (1975), On a derivable formula for long-wave radiation from clear skies, Water Resources "
        "Research 11, 742-744.",
        "formula read in public code that cites it",
    ),
    (
        "CARMAN-1937",
        "Carman, P. C. (1937), Fluid flow through granular beds, Transactions of the Institution of Chemical "
        "Engineers 15, 150-166; after Kozeny, J. (1927), Sitzungsberichte der Akademie der Wissenschaften in Wien "
        "136, 271-306.",
        "from memory, not verified",
    ),
    (
        "CHOW-1988",
        "Chow, V. T., Maidment, D. R. and Mays, L. W. (1988), Applied Hydrology, McGraw-Hill, sections 3.5 and 8.5.",
        "from memory, not verified; the examples' answers are reproduced",
    ),
    (
        "CRC-IONS",
        "CRC Handbook of Chemistry and Physics, Ionic Conductivity and Diffusion at Infinite Dilution: sodium "
        "1.334, chloride 2.032 (10^-9 m²/s, 25 °C).",
        "from memory, not verified",
    ),
    (
        "CRC-SOLUBILITY",
        "CRC Handbook of Chemistry and Physics, Aqueous Solubility of Inorganic Compounds at Various Temperatures: "
        "sodium chloride.",
        "from memory, not verified; within 0.4 % of SALT-TABLE",
    ),
    (
        "DALTON-1802",
        "Dalton, J. (1802), Experimental essays on the constitution of mixed gases, Memoirs of the Manchester Literary "
        "and Philosophical Society 5, 535-602.",
        "from memory, not verified",
    ),
    (
        "DARCY-1856",
        "Darcy, H. (1856), Les fontaines publiques de la ville de Dijon, Dalmont, Paris; ranges of conductivity: "
        "Freeze, R. A. and Cherry, J. A. (1979), Groundwater, Prentice Hall, table 2.2.",
        "law is textbook knowledge; ranges from memory, not verified",
    ),
    (
        "DUNKLE-1961",
        "Dunkle, R. V. (1961), Solar water distillation: the roof type still and a multiple effect diffusion "
        "still, International Developments in Heat Transfer, ASME, part V, 895-902.",
        "coefficients read in four independent programs, two of which cite it; the paper itself not read",
    ),
    (
        "FAO-56",
        "Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. (1998), Crop evapotranspiration, FAO Irrigation and "
        "Drainage Paper 56, Rome.",
        "examples read in an independent test suite with page numbers; reproduced",
    ),
    (
        "FRIES-DREYER-2008",
        "Fries, N. and Dreyer, M. (2008), An analytic solution of capillary rise restrained by gravity, Journal of "
        "Colloid and Interface Science 320, 259-263.",
        "from memory; equal to a numerical solution of the equation",
    ),
    (
        "GEANKOPLIS-1993",
        "Geankoplis, C. J. (1993), Transport Processes and Unit Operations, 3rd edition, Prentice Hall, examples "
        "14.2-1 and 14.2-2.",
        "from memory, not verified; the example's figures fit together and are reproduced",
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
        "HAZEN-1904",
        "Hazen, A. (1904), On sedimentation, Transactions of the American Society of Civil Engineers 53, 45-88.",
        "from memory, not verified",
    ),
    (
        "IAPWS-2008-VISCOSITY",
        "IAPWS (2008), Release on the IAPWS Formulation 2008 for the Viscosity of Ordinary Water Substance, with "
        "the equation for 0.1 MPa; Huber, M. L. and others (2009), Journal of Physical and Chemical Reference Data "
        "38, 101-125.",
        "coefficients from memory; within 0.05 % of a steam-table library's full formulation",
    ),
    (
        "IAPWS-95",
        "Wagner, W. and Pruss, A. (2002), The IAPWS formulation 1995 for the thermodynamic properties of ordinary "
        "water, Journal of Physical and Chemical Reference Data 31, 387-535.",
        "values from two independent libraries",
    ),
    (
        "IAPWS-R1-76",
        "IAPWS (2014), Revised Release on Surface Tension of Ordinary Water Substance, R1-76(2014).",
        "coefficients from memory; equal to a steam-table library's",
    ),
    (
        "IKESHOJI-HAFSKJOLD-1994",
        "Ikeshoji, T. and Hafskjold, B. (1994), Non-equilibrium molecular dynamics calculation of heat conduction in "
        "liquid and through liquid-gas interface, Molecular Physics 81, 251-261.",
        "from memory; follows from the definition of the energy of motion",
    ),
    (
        "ISO-14688-1",
        "ISO 14688-1, Geotechnical investigation and testing: identification and classification of soil (clay "
        "below 0.002 mm, silt to 0.063 mm, sand to 2 mm, gravel to 63 mm).",
        "from memory, not verified",
    ),
    (
        "KASTEN-CZEPLAK-1980",
        "Kasten, F. and Czeplak, G. (1980), Solar and terrestrial radiation dependent on the amount and type of "
        "cloud, Solar Energy 24, 177-189.",
        "from memory, not verified",
    ),
    (
        "KELL-1975",
        "Kell, G. S. (1975), Density, thermal expansivity, and compressibility of liquid water from 0° to 150 °C, "
        "Journal of Chemical and Engineering Data 20, 97-105.",
        "coefficients from memory; within 0.01 kg/m³ of IAPWS-95",
    ),
    (
        "KESSLER-1969",
        "Kessler, E. (1969), On the distribution and continuity of water substance in atmospheric circulations, "
        "Meteorological Monographs 10(32), American Meteorological Society.",
        "rate read in public code that cites it; threshold from memory",
    ),
    (
        "LENNARD-JONES-1931",
        "Lennard-Jones, J. E. (1931), Cohesion, Proceedings of the Physical Society 43, 461-482.",
        "from memory; agrees with an atomic simulation library",
    ),
    (
        "LUCAS-1918",
        "Lucas, R. (1918), Ueber das Zeitgesetz des kapillaren Aufstiegs von Fluessigkeiten, Kolloid-Zeitschrift "
        "23, 15-22.",
        "from memory, not verified",
    ),
    (
        "MARSHALL-PALMER-1948",
        "Marshall, J. S. and Palmer, W. McK. (1948), The distribution of raindrops with size, Journal of Meteorology "
        "5, 165-166.",
        "constants from memory, not verified",
    ),
    (
        "MEEUS-1998",
        "Meeus, J. (1998), Astronomical Algorithms, 2nd edition, Willmann-Bell, chapters 13 and 15.",
        "formulae from memory; heights and day lengths agree with two solar libraries",
    ),
    (
        "MURPHY-KOOP-2005",
        "Murphy, D. M. and Koop, T. (2005), Review of the vapour pressures of ice and supercooled water for "
        "atmospheric applications, Quarterly Journal of the Royal Meteorological Society 131, 1539-1565, equation 10.",
        "coefficients and range read in four independent programs; within 0.05 % of IAPWS-95",
    ),
    (
        "NELSON-HALPERIN-1979",
        "Nelson, D. R. and Halperin, B. I. (1979), Dislocation-mediated melting in two dimensions, Physical Review B "
        "19, 2457-2484.",
        "from memory, not verified",
    ),
    (
        "NERNST-1888",
        "Nernst, W. (1888), Zur Kinetik der in Loesung befindlichen Koerper, Zeitschrift fuer physikalische Chemie "
        "2, 613-637.",
        "from memory, not verified",
    ),
    (
        "NERNST-BRUNNER-1904",
        "Nernst, W. (1904), Theorie der Reaktionsgeschwindigkeit in heterogenen Systemen, and Brunner, E. (1904), "
        "Reaktionsgeschwindigkeit in heterogenen Systemen, Zeitschrift fuer physikalische Chemie 47, 52-55 and "
        "56-102.",
        "from memory, not verified",
    ),
    (
        "NOYES-WHITNEY-1897",
        "Noyes, A. A. and Whitney, W. R. (1897), The rate of solution of solid substances in their own solutions, "
        "Journal of the American Chemical Society 19, 930-934.",
        "from memory, not verified",
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
        "PRUPPACHER-KLETT-1997",
        "Pruppacher, H. R. and Klett, J. D. (1997), Microphysics of Clouds and Precipitation, 2nd edition, Kluwer, "
        "table 10.1 (drag on rigid spheres).",
        "table read in a public program's data file that cites it",
    ),
    (
        "RANZ-MARSHALL-1952",
        "Ranz, W. E. and Marshall, W. R. (1952), Evaporation from drops, Chemical Engineering Progress 48, 141-146 "
        "and 173-180.",
        "formula read in several independent programs that cite it",
    ),
    (
        "ROBINSON-STOKES-1959",
        "Robinson, R. A. and Stokes, R. H. (1959), Electrolyte Solutions, 2nd edition, Butterworths: water "
        "activity of sodium chloride, 25 °C.",
        "from memory, not verified; within 0.8 % of TEOS-10 sea water up to 120 g/kg",
    ),
    (
        "ROGERS-YAU-1989",
        "Rogers, R. R. and Yau, M. K. (1989), A Short Course in Cloud Physics, 3rd edition, Pergamon, section 8.",
        "constants read in two independent programs that cite equation 8.6",
    ),
    (
        "ROWLEY-1975",
        "Rowley, L. A., Nicholson, D. and Parsonage, N. G. (1975), Monte Carlo grand canonical ensemble calculation "
        "in a gas-liquid transition region for 12-6 argon, Journal of Computational Physics 17, 401-414: 119.8 K and "
        "0.3405 nm.",
        "figures read as quoted on a public page on argon",
    ),
    (
        "RUTH-1935",
        "Ruth, B. F. (1935), Studies in filtration III: derivation of general filtration equations, Industrial and "
        "Engineering Chemistry 27, 708-723.",
        "law read on two engineering pages; the paper from memory",
    ),
    (
        "SALT-TABLE",
        "Solubility of salt at various temperatures: a salt producers' institute's table of saturated brine, mass "
        "per cent from -21 to 109 °C.",
        "read on two public pages; reproduced",
    ),
    (
        "SCHILLER-NAUMANN-1935",
        "Schiller, L. and Naumann, A. (1935), A drag coefficient correlation, Zeitschrift des Vereins Deutscher "
        "Ingenieure 77, 318-320.",
        "formula and limit read in several independent programs; within 5 % of the tables it is compared with, 9 % "
        "at Re 300",
    ),
    (
        "SHARQAWY-2010",
        "Sharqawy, M. H., Lienhard, J. H. and Zubair, S. M. (2010), Thermophysical properties of seawater: a "
        "review of existing correlations and data, Desalination and Water Treatment 16, 354-380, equation 37.",
        "coefficients from memory; within 0.01 % of IAPWS-95",
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
        "SWOPE-1982",
        "Swope, W. C., Andersen, H. C., Berens, P. H. and Wilson, K. R. (1982), A computer simulation method for the "
        "calculation of equilibrium constants for the formation of physical clusters of molecules, Journal of "
        "Chemical Physics 76, 637-649 (velocity Verlet).",
        "from memory; its energy drift is measured in a test",
    ),
    (
        "TEOS-10",
        "IOC, SCOR and IAPSO (2010), The international thermodynamic equation of seawater, UNESCO Manuals and "
        "Guides 56.",
        "values from the reference library",
    ),
    (
        "TR-55",
        "United States Department of Agriculture (1986), Urban Hydrology for Small Watersheds, Technical Release 55.",
        "tables and example read; reproduced",
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
        "WAGNER-PRUSS-1993",
        "Wagner, W. and Pruss, A. (1993), International equations for the saturation properties of ordinary water "
        "substance, Journal of Physical and Chemical Reference Data 22, 783-787.",
        "coefficients from memory; within 0.01 % of IAPWS-95",
    ),
    (
        "WALLACE-HOBBS-2006",
        "Wallace, J. M. and Hobbs, P. V. (2006), Atmospheric Science, 2nd edition, Academic Press, section 3.5.",
        "from memory; within 0.2 K of a meteorology library's moist adiabat, up to 2 km",
    ),
    (
        "WASHBURN-1921",
        "Washburn, E. W. (1921), The dynamics of capillary flow, Physical Review 17, 273-283.",
        "from memory, not verified",
    ),
    (
        "WATMUFF-1977",
        "Watmuff, J. H., Charters, W. W. S. and Proctor, D. (1977), Solar and wind induced external coefficients "
        "for solar collectors, COMPLES 2, 56.",
        "from memory, not verified",
    ),
)
