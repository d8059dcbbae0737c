"""Readings that a class takes itself, and its own pulse."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
    (
        "BELLMAN-1961",
        "Bellman, R. (1961), On the approximation of curves by line segments using dynamic programming, Communications "
        "of the ACM 4, 284.",
        "from memory, not verified; the search is checked against trying every cut",
    ),
    (
        "DOWNING-SOCIE-1982",
        "Downing, S. D. and Socie, D. F. (1982), Simple rainflow counting algorithms, International Journal of Fatigue "
        "4, 31-40.",
        "from memory, not verified; only the idea of closing the smallest swing first is taken",
    ),
    (
        "JCGM-100",
        "JCGM (2008), Evaluation of measurement data: Guide to the expression of uncertainty in measurement, "
        "JCGM 100:2008, section 4.2.1: the mean of repeated readings is the best estimate.",
        "from memory, not verified",
    ),
    (
        "OPENSTAX-CALC2",
        "OpenStax, Calculus, volume 2, section Numerical Integration.",
        "from memory; means are checked against exact integrals",
    ),
    (
        "PETERS-2014",
        "Peters, H., Whincup, P. H., Cook, D. G., Law, C. and Li, L. (2014), Trends in resting pulse rates in "
        "9-11-year-old children in the UK 1980-2008, Archives of Disease in Childhood 99, 10-14: girls 82.2, boys "
        "78.7 beats a minute.",
        "abstract read",
    ),
    (
        "PIERPONT-2000",
        "Pierpont, G. L., Stolpman, D. R. and Gornick, C. C. (2000), Heart rate recovery post-exercise as an index of "
        "parasympathetic activity, Journal of the Autonomic Nervous System 80, 169-174: one exponential may be "
        "reasonable after gentle exercise and is inadequate after the hardest.",
        "abstract read; authors and pages from memory",
    ),
    (
        "TUKEY-1977",
        "Tukey, J. W. (1977), Exploratory Data Analysis, Addison-Wesley, chapter 7 (running medians).",
        "from memory, not verified",
    ),
)
