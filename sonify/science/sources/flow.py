"""Water and grains on the move: on and in the ground, through filters, into cloth."""

from __future__ import annotations

from sonify.science.sources.rows import table

ROWS = table(
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
        "DARCY-1856",
        "Darcy, H. (1856), Les fontaines publiques de la ville de Dijon, Dalmont, Paris; ranges of conductivity: "
        "Freeze, R. A. and Cherry, J. A. (1979), Groundwater, Prentice Hall, table 2.2.",
        "law is textbook knowledge; ranges from memory, not verified",
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
        "GREEN-AMPT-1911",
        "Green, W. H. and Ampt, G. A. (1911), Studies on soil physics, part I: the flow of air and water through "
        "soils, Journal of Agricultural Science 4, 1-24.",
        "formula read in several independent programs and on a hydrology page; a lecture's example reproduced",
    ),
    (
        "HAZEN-1904",
        "Hazen, A. (1904), On sedimentation, Transactions of the American Society of Civil Engineers 53, 45-88.",
        "from memory, not verified",
    ),
    (
        "HOCK-2003",
        "Hock, R. (2003), Temperature index melt modelling in mountain areas, Journal of Hydrology 282, 104-115.",
        "formula read in two models' manuals and factors of 1 to 8 mm a day for each degree in three; the paper from "
        "memory",
    ),
    (
        "ISO-14688-1",
        "ISO 14688-1, Geotechnical investigation and testing: identification and classification of soil (clay "
        "below 0.002 mm, silt to 0.063 mm, sand to 2 mm, gravel to 63 mm).",
        "from memory, not verified",
    ),
    (
        "LUCAS-1918",
        "Lucas, R. (1918), Ueber das Zeitgesetz des kapillaren Aufstiegs von Fluessigkeiten, Kolloid-Zeitschrift "
        "23, 15-22.",
        "from memory, not verified",
    ),
    (
        "MEIN-LARSON-1973",
        "Mein, R. G. and Larson, C. L. (1973), Modeling infiltration during a steady rain, Water Resources Research "
        "9, 384-394.",
        "formula and example read in a university's lecture notes; reproduced",
    ),
    (
        "PRUPPACHER-KLETT-1997",
        "Pruppacher, H. R. and Klett, J. D. (1997), Microphysics of Clouds and Precipitation, 2nd edition, Kluwer, "
        "table 10.1 (drag on rigid spheres).",
        "table read in a public program's data file that cites it",
    ),
    (
        "RALEIGH-2013",
        "Raleigh, M. S., Landry, C. C., Hayashi, M., Quinton, W. L. and Lundquist, J. D. (2013), Approximating snow "
        "surface temperature from standard temperature and humidity data, Water Resources Research 49, 8053-8069.",
        "rule read in a hydrological model's code that cites it; the paper from memory",
    ),
    (
        "RAWLS-1983",
        "Rawls, W. J., Brakensiek, D. L. and Miller, N. (1983), Green-Ampt infiltration parameters from soils data, "
        "Journal of Hydraulic Engineering 109, 62-70.",
        "abstract read; the table from memory, suctions of two soils read in a model's data file",
    ),
    (
        "RUTH-1935",
        "Ruth, B. F. (1935), Studies in filtration III: derivation of general filtration equations, Industrial and "
        "Engineering Chemistry 27, 708-723.",
        "law read on two engineering pages; the paper from memory",
    ),
    (
        "SCHILLER-NAUMANN-1935",
        "Schiller, L. and Naumann, A. (1935), A drag coefficient correlation, Zeitschrift des Vereins Deutscher "
        "Ingenieure 77, 318-320.",
        "formula and limit read in several independent programs; within 5 % of the tables it is compared with, 9 % "
        "at Re 300",
    ),
    (
        "TR-55",
        "United States Department of Agriculture (1986), Urban Hydrology for Small Watersheds, Technical Release 55.",
        "tables and example read; reproduced",
    ),
    (
        "USACE-1998",
        "United States Army Corps of Engineers (1998), Runoff from Snowmelt, Engineer Manual 1110-2-1406, chapters 2 "
        "and 5.",
        "table of contents read; the formula follows from the heat of fusion",
    ),
    (
        "WASHBURN-1921",
        "Washburn, E. W. (1921), The dynamics of capillary flow, Physical Review 17, 273-283.",
        "from memory, not verified",
    ),
    (
        "YEN-CHOW-1980",
        "Yen, B. C. and Chow, V. T. (1980), Design hyetographs for small drainage structures, Journal of the "
        "Hydraulics Division 106, 1055-1076.",
        "formula read in several independent programs; the paper from memory",
    ),
)
