"""What a class can try itself: swings, falls, strings, shadows, plants; and the sky over the playground."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
    (
        "NIST-DLMF",
        "NIST Digital Library of Mathematical Functions, chapters 19 (elliptic integrals, 19.8) and 22 (Jacobian "
        "elliptic functions, 22.19 and 22.20).",
        "numbers of equations from memory; checked against scipy's functions and by stepping through the motion",
    ),
    (
        "OPENSTAX-CP1",
        "OpenStax, College Physics, sections The Simple Pendulum and Drag Forces.",
        "worked examples read in stored copies of the text; reproduced",
    ),
)
