"""What water, brine and other substances are like."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
    (
        "BRINE-DENSITY-1974",
        "Poradnik fizykochemiczny (1974), WNT, Warszawa: density of sodium chloride solutions, 15 and 20 °C.",
        "table read on a university's physics laboratory page; our round figure is within 0.7 % of it",
    ),
    (
        "BUTTER-HARDNESS",
        "Relation between thermal properties of butter and its hardness, Journal of Dairy Science: liquid fat at "
        "10 °C 41 % in summer and 35 % in winter; changes of phase about 5, 12, 20 and 30 °C.",
        "read in the abstract",
    ),
    (
        "CHOCOLATE-CONSTANTS",
        "Beckett, S. T. (editor, 2009), Industrial Chocolate Manufacture and Use, 4th edition, Blackwell, useful "
        "physical constants, pages 667-668: specific heat of chocolate 1590 (15 to 40 °C) and 1670 (40 to 60 °C) "
        "J/(kg K), latent heat of dark chocolate 46 and of milk chocolate 44 J/g, of cocoa butter 157 J/g.",
        "the two pages read in a stored copy",
    ),
    (
        "COCOA-BUTTER-FORMS",
        "Wille, R. L. and Lutton, E. S. (1966), Polymorphism of cocoa butter, Journal of the American Oil Chemists' "
        "Society 43, 491-496: forms I to VI melt at 17.3, 23.3, 25.5, 27.5, 33.8 and 36.3 °C.",
        "the six figures read in an encyclopedia's article; the paper itself not",
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
        "GEANKOPLIS-FOODS",
        "Geankoplis, C. J., Transport Processes and Separation Process Principles, 4th edition, Prentice Hall, "
        "appendix A.4, heat capacities of foods: butter with 15 % of water 2.30 kJ/(kg K) at 4.4 °C.",
        "the table read in a stored copy",
    ),
    (
        "GUELPH-MILK-FAT",
        "University of Guelph, Dairy Science and Technology, Milk lipids, physical properties: the last of milk fat "
        "melts at 37 °C; specific heat about 2.1 kJ/(kg K) at 40 °C.",
        "read",
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
        "KELL-1975",
        "Kell, G. S. (1975), Density, thermal expansivity, and compressibility of liquid water from 0° to 150 °C, "
        "Journal of Chemical and Engineering Data 20, 97-105.",
        "coefficients from memory; within 0.01 kg/m³ of IAPWS-95",
    ),
    (
        "MILK-FAT-1998",
        "Abd El-Rahman, A. M., Shalabi, S. I. and Kilara, A. (1998), Chemical and physical properties of anhydrous "
        "milk fat, Milchwissenschaft 53, 77-81: heat of fusion 80.8 J/g, melting point 35.6 °C.",
        "read in the abstract",
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
        "PARAFFIN-WAX",
        "Paraffin wax, as an encyclopedia's article has it: melts between about 46 and 68 °C, specific heat 2.14 to "
        "2.9 J/(g K), heat of fusion 200 to 220 J/g. Five commercial waxes: Ukrainczyk, N., Kurajica, S. and "
        "Sipusic, J. (2010), Chemical and Biochemical Engineering Quarterly 24, 129-137.",
        "range and specific heat read; heat of fusion from memory; of the paper the abstract alone",
    ),
    (
        "ROBINSON-STOKES-1959",
        "Robinson, R. A. and Stokes, R. H. (1959), Electrolyte Solutions, 2nd edition, Butterworths: water "
        "activity of sodium chloride, 25 °C.",
        "from memory, not verified; within 0.8 % of TEOS-10 sea water up to 120 g/kg",
    ),
    (
        "SALT-TABLE",
        "Solubility of salt at various temperatures: a salt producers' institute's table of saturated brine, mass "
        "per cent from -21 to 109 °C.",
        "read on two public pages; reproduced",
    ),
    (
        "SHARQAWY-2010",
        "Sharqawy, M. H., Lienhard, J. H. and Zubair, S. M. (2010), Thermophysical properties of seawater: a "
        "review of existing correlations and data, Desalination and Water Treatment 16, 354-380, equation 37.",
        "coefficients from memory; within 0.01 % of IAPWS-95",
    ),
    (
        "TEOS-10",
        "IOC, SCOR and IAPSO (2010), The international thermodynamic equation of seawater, UNESCO Manuals and "
        "Guides 56.",
        "values from the reference library",
    ),
    (
        "WAGNER-PRUSS-1993",
        "Wagner, W. and Pruss, A. (1993), International equations for the saturation properties of ordinary water "
        "substance, Journal of Physical and Chemical Reference Data 22, 783-787.",
        "coefficients from memory; within 0.01 % of IAPWS-95",
    ),
)
