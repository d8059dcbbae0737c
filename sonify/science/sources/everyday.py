"""What a class can try itself: swings, falls, strings, shadows, plants; and the sky over the playground."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
    (
        "FLETCHER-ROSSING-1998",
        "Fletcher, N. H. and Rossing, T. D. (1998), The Physics of Musical Instruments, 2nd edition, Springer, "
        "chapters 2 (strings and bars) and 8 (pipes).",
        "from memory, not verified; the bar's number is checked against its own equation",
    ),
    (
        "GOMPERTZ-1825",
        "Gompertz, B. (1825), On the nature of the function expressive of the law of human mortality, Philosophical "
        "Transactions of the Royal Society 115, 513-583; as a curve of growth in many later works.",
        "from memory, not verified; the curve is checked against its own equation",
    ),
    (
        "ISO-9613-2",
        "ISO 9613-2 (1996), Acoustics: attenuation of sound during propagation outdoors, part 2, section 7.1 "
        "(geometrical divergence).",
        "the standard from memory; 57.0 dB at 200 m read in a program's printed report",
    ),
    (
        "JPL-ELEMENTS",
        "Standish, E. M., Keplerian Elements for Approximate Positions of the Major Planets, Solar System Dynamics, "
        "Jet Propulsion Laboratory: mean ovals at the beginning of 2000.",
        "from memory; years and places agree with a library of astronomy",
    ),
    (
        "LOTKA-VOLTERRA",
        "Lotka, A. J. (1925), Elements of Physical Biology, Williams and Wilkins; Volterra, V. (1926), Fluctuations in "
        "the abundance of a species considered mathematically, Nature 118, 558-560.",
        "from memory, not verified; the kept sum and the averages are checked against the equations themselves",
    ),
    (
        "NASA-FACT-SHEETS",
        "Williams, D. R., Planetary Fact Sheets, NASA Goddard Space Flight Center: half long axes and sidereal years.",
        "from memory, not verified; reproduced by Kepler's third law",
    ),
    (
        "NIST-DLMF",
        "NIST Digital Library of Mathematical Functions, chapters 19 (elliptic integrals, 19.8) and 22 (Jacobian "
        "elliptic functions, 22.19 and 22.20).",
        "numbers of equations from memory; checked against scipy's functions and by stepping through the motion",
    ),
    (
        "OPENSTAX-CP1",
        "OpenStax, College Physics, sections The Simple Pendulum and Drag Forces; Resistors in Series and Parallel, "
        "Electromotive Force: Terminal Voltage, Kirchhoff's Rules; Simple Machines.",
        "worked examples read in stored copies of the text, those of circuits and machines from memory; reproduced",
    ),
    (
        "REED-HOLLAND-1919",
        "Reed, H. S. and Holland, R. H. (1919), The growth rate of an annual plant Helianthus, Proceedings of the "
        "National Academy of Sciences 5, 135-144: mean heights of 58 sunflowers each week for twelve weeks.",
        "heights from memory, not found in stored texts; fitted anew, by us",
    ),
    (
        "VERHULST",
        "Verhulst, P.-F. (1838), Notice sur la loi que la population suit dans son accroissement, Correspondance "
        "mathématique et physique 10, 113-121.",
        "from memory, not verified; the growth that a limit slows, as in every textbook",
    ),
)
