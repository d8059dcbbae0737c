"""Particles: their forces, their motion in a box, their order."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
    (
        "ALLEN-TILDESLEY-2017",
        "Allen, M. P. and Tildesley, D. J. (2017), Computer Simulation of Liquids, 2nd edition, Oxford University "
        "Press, chapters 1, 3 and 5.",
        "from memory; pair energies and forces agree with an atomic simulation library",
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
        "IKESHOJI-HAFSKJOLD-1994",
        "Ikeshoji, T. and Hafskjold, B. (1994), Non-equilibrium molecular dynamics calculation of heat conduction in "
        "liquid and through liquid-gas interface, Molecular Physics 81, 251-261.",
        "from memory; follows from the definition of the energy of motion",
    ),
    (
        "LENNARD-JONES-1931",
        "Lennard-Jones, J. E. (1931), Cohesion, Proceedings of the Physical Society 43, 461-482.",
        "from memory; agrees with an atomic simulation library",
    ),
    (
        "NELSON-HALPERIN-1979",
        "Nelson, D. R. and Halperin, B. I. (1979), Dislocation-mediated melting in two dimensions, Physical Review B "
        "19, 2457-2484.",
        "from memory, not verified",
    ),
    (
        "ROWLEY-1975",
        "Rowley, L. A., Nicholson, D. and Parsonage, N. G. (1975), Monte Carlo grand canonical ensemble calculation "
        "in a gas-liquid transition region for 12-6 argon, Journal of Computational Physics 17, 401-414: 119.8 K and "
        "0.3405 nm.",
        "figures read as quoted on a public page on argon",
    ),
    (
        "SWOPE-1982",
        "Swope, W. C., Andersen, H. C., Berens, P. H. and Wilson, K. R. (1982), A computer simulation method for the "
        "calculation of equilibrium constants for the formation of physical clusters of molecules, Journal of "
        "Chemical Physics 76, 637-649 (velocity Verlet).",
        "from memory; its energy drift is measured in a test",
    ),
)
