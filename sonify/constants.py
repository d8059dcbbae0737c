"""Physical constants, SI, one a line with its unit and edition. Derive what can be derived."""

# Exact by definition of the SI (CODATA 2018 and 2022).
BOLTZMANN_J_PER_K = 1.380649e-23
AVOGADRO_PER_MOL = 6.02214076e23
GAS_CONSTANT_J_PER_MOL_K = BOLTZMANN_J_PER_K * AVOGADRO_PER_MOL

DAY_S = 86_400.0  # a day as accepted beside the SI (SI Brochure, table 8, from memory)
ZERO_CELSIUS_K = 273.15  # exact by definition
STEFAN_BOLTZMANN_W_PER_M2_K4 = 5.670374419e-8  # CODATA 2022, derived from exact constants
STANDARD_GRAVITY_M_PER_S2 = 9.80665  # exact by convention (CGPM 1901)
STANDARD_ATMOSPHERE_PA = 101_325.0  # exact by convention

# Molar masses, kg/mol: IUPAC abridged standard atomic weights.
MOLAR_MASS_WATER_KG_PER_MOL = 0.01801528
MOLAR_MASS_DRY_AIR_KG_PER_MOL = 0.0289647  # US Standard Atmosphere 1976 gives 28.9644 g/mol
