"""A basin of salt water under a sloping cover in the sun: heat and vapour on their way from the water and out."""

from __future__ import annotations

import numpy as np

from sonify.constants import STEFAN_BOLTZMANN_W_PER_M2_K4, ZERO_CELSIUS_K
from sonify.science.ranges import FloatArray, Range, Values

_BY = "Dunkle's basin still"
_TEMPERATURE = Range("temperature_k", "K", ZERO_CELSIUS_K, ZERO_CELSIUS_K + 100.0, _BY)
_VAPOUR = Range("vapour_pressure_pa", "Pa", 0.0, 110_000.0, _BY)
_COEFFICIENT = Range("convection_w_m2_k", "W/(m² K)", 0.0, np.inf, _BY)
_LATENT = Range("temperature_k", "K", ZERO_CELSIUS_K, ZERO_CELSIUS_K + 200.0, "the latent heat of Sharqawy and others")
_SURFACE = Range("temperature_k", "K", 0.0, np.inf, "thermal radiation")
_EMISSIVITY = Range("emissivity", "1", 0.0, 1.0, "thermal radiation", above=True)
_WIND = Range("wind_m_s", "m/s", 0.0, 20.0, "the wind's cooling of a cover")
_CLOUD = Range("cloud_share", "1", 0.0, 1.0, "a share of the sky")


def still_convection(water_k: Values, cover_k: Values, water_pa: Values, cover_pa: Values) -> FloatArray:
    """How readily the air in a still carries heat from the water up to the cover, W/(m² K); 0 where it lies still.

        h = 0.884 (T_w - T_c + (p_w - p_c) T_w / (268900 - p_w))^(1/3)

    Args:
        water_k: temperature T_w of the water.
        cover_k: temperature T_c of the cover's inside.
        water_pa: vapour pressure p_w at the water's surface.
        cover_pa: vapour pressure p_c at the cover's wet inside.

    Raises:
        OutOfRange: a temperature outside 0 to 100 °C, a negative pressure, or not a number.

    Valid: a basin still under a cover at a small slope, water warmer than the cover, best near 50 °C; where the cover
        is the warmer (early morning) the air is layered and 0 is returned.
    Source: DUNKLE-1961.
    Check: water of 60 °C under a cover of 45 °C, 2.71 W/(m² K):
        >>> print(f"{still_convection(333.15, 318.15, 19946.0, 9595.0):.2f}")
        2.71
    """
    water, cover = _TEMPERATURE.checked(water_k), _TEMPERATURE.checked(cover_k)
    p_water, p_cover = _VAPOUR.checked(water_pa), _VAPOUR.checked(cover_pa)
    lift = water - cover + (p_water - p_cover) * water / (268_900.0 - p_water)
    return 0.884 * np.cbrt(np.maximum(lift, 0.0))


def still_evaporation(convection_w_m2_k: Values, water_pa: Values, cover_pa: Values) -> FloatArray:
    """The heat that vapour carries from the water to the cover, W/m²; negative where vapour goes down to the water.

        q = 0.016273 h (p_w - p_c)

    Args:
        convection_w_m2_k: coefficient h, as `still_convection` gives it.
        water_pa: vapour pressure p_w at the water's surface.
        cover_pa: vapour pressure p_c at the cover's wet inside.

    Raises:
        OutOfRange: a negative coefficient or pressure, or not a number.

    Valid: as `still_convection`; heat and vapour carried alike (Lewis number 1), near 50 °C.
    Source: DUNKLE-1961.
    Check: water of 60 °C under a cover of 45 °C, 456 W/m²:
        >>> print(f"{still_evaporation(2.71, 19946.0, 9595.0):.0f}")
        456
    """
    return 16.273e-3 * _COEFFICIENT.checked(convection_w_m2_k) * (_VAPOUR.checked(water_pa) - _VAPOUR.checked(cover_pa))


def latent_heat_of_hot_water(temperature_k: Values) -> FloatArray:
    """The heat that turns a kilogram of water into vapour, from freezing to far beyond boiling, J/kg.

        L = 2.501e6 - 2369 t + 0.2678 t^2 - 0.008103 t^3 - 2.079e-5 t^4, t in °C

    Args:
        temperature_k: temperature of the water.

    Raises:
        OutOfRange: below 0 °C, above 200 °C, or not a number.

    Valid: fresh water, 0 to 200 °C; from brine a little less leaves per joule (its salt is not carried).
    Source: SHARQAWY-2010, equation 37.
    Check: 100 °C, 2257 kJ/kg:
        >>> print(f"{latent_heat_of_hot_water(373.15) / 1000:.0f}")
        2257
    """
    t = _LATENT.checked(temperature_k) - ZERO_CELSIUS_K
    return 2.501e6 + t * (-2369.0 + t * (0.2678 + t * (-8.103e-3 - t * 2.079e-5)))


def enclosed_radiation(warm_k: Values, cold_k: Values, warm_emissivity: Values, cold_emissivity: Values) -> FloatArray:
    """The warmth that one wide surface radiates to another that faces it, W/m²; negative the other way.

        q = sigma (T_1^4 - T_2^4) / (1/e_1 + 1/e_2 - 1)

    Args:
        warm_k: temperature T_1 of the one surface.
        cold_k: temperature T_2 of the other.
        warm_emissivity: emissivity e_1 of the one surface.
        cold_emissivity: emissivity e_2 of the other.

    Raises:
        OutOfRange: a temperature below 0 K, an emissivity of 0 or less or above 1, or not a number.

    Valid: two parallel grey surfaces, wide beside their distance.
    Source: OPENSTAX-UP2, "Mechanisms of Heat Transfer" (Stefan-Boltzmann law); grey pair: common textbook formula.
    Check: black surfaces of 300 and 299 K, 6.09 W/m²:
        >>> print(f"{enclosed_radiation(300.0, 299.0, 1.0, 1.0):.2f}")
        6.09
    """
    one, other = _SURFACE.checked(warm_k), _SURFACE.checked(cold_k)
    pair = 1.0 / _EMISSIVITY.checked(warm_emissivity) + 1.0 / _EMISSIVITY.checked(cold_emissivity) - 1.0
    return STEFAN_BOLTZMANN_W_PER_M2_K4 * (one**4 - other**4) / pair


def cover_cooling(wind_m_s: Values) -> FloatArray:
    """How readily wind takes heat from the outside of a flat cover, W/(m² K).

        h = 2.8 + 3.0 v

    Args:
        wind_m_s: wind v along the cover.

    Raises:
        OutOfRange: a negative wind, one above 20 m/s, or not a number.

    Valid: flat covers of a metre or so, without radiation; measured up to 7 m/s, carried on here to 20 m/s.
    Source: WATMUFF-1977.
    Check: 4 m/s, 14.8 W/(m² K):
        >>> print(f"{cover_cooling(4.0):.1f}")
        14.8
    """
    return 2.8 + 3.0 * _WIND.checked(wind_m_s)


def sunlight_through_cloud(cloud_share: Values) -> FloatArray:
    """The share of a clear sky's sunlight that reaches the ground under so much cloud.

        share = 1 - 0.75 n^3.4

    Args:
        cloud_share: share n of the sky that is covered.

    Raises:
        OutOfRange: a share outside 0 to 1, or not a number.

    Valid: averages over an hour or more; mixed cloud.
    Source: KASTEN-CZEPLAK-1980.
    Check: half covered, 93 %:
        >>> print(f"{100 * sunlight_through_cloud(0.5):.0f}")
        93
    """
    return 1.0 - 0.75 * _CLOUD.checked(cloud_share) ** 3.4
