"""Rain: when cloud drops become rain, how large raindrops are, how fast they fall, how many arrive."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

MM_PER_HOUR = 1.0e-3 / 3600.0  # in m/s
DROP_INTERCEPT_PER_M4 = 8.0e6  # Marshall and Palmer's N0, 8000 per m³ and mm
#: Kessler's rate and threshold: 0.001/s above 0.5 g of cloud water in a cubic metre.
RAIN_FORMING_PER_S, RAIN_FORMING_ABOVE_KG_M3 = 1.0e-3, 0.5e-3

_RATE = Range("rain_rate_m_s", "m/s", 0.0, 150.0 * MM_PER_HOUR, "the drop sizes of Marshall and Palmer", above=True)
_DROP = Range("diameter_m", "m", 0.6e-3, 5.8e-3, "the fall speed of raindrops")
_DRIZZLE = Range("diameter_m", "m", 0.08e-3, 1.2e-3, "the fall speed of drizzle")
_SMALLEST = Range("smallest_m", "m", 0.5e-3, 5.8e-3, "the count of drops arriving")
_CLOUD = Range("cloud_water_kg_m3", "kg/m³", 0.0, np.inf, "the forming of rain")


def drop_size_slope(rain_rate_m_s: Values) -> FloatArray:
    """How fast drops grow rarer with size, per metre of diameter: N(D) = N0 exp(-slope D).

        slope = 4.1 R^-0.21 per mm, R in mm/h

    Args:
        rain_rate_m_s: rain rate R.

    Raises:
        OutOfRange: 0 or less, more than 150 mm/h, or not a number.

    Valid: measured from 1 to 23 mm/h, carried on here to all rain under 150 mm/h; drops above 1 mm best.
    Source: MARSHALL-PALMER-1948, equations 1 and 3.
    Check: 1 mm/h, 4.1 per mm:
        >>> print(f"{drop_size_slope(1.0 * MM_PER_HOUR) / 1000:.2f}")
        4.10
    """
    return 4.1e3 * (_RATE.checked(rain_rate_m_s) / MM_PER_HOUR) ** -0.21


def median_drop_diameter(rain_rate_m_s: Values) -> FloatArray:
    """The drop size above and below which lies half of the water in the air, m.

        D0 = 3.67 / slope

    Args:
        rain_rate_m_s: rain rate.

    Raises:
        OutOfRange: 0 or less, more than 150 mm/h, or not a number.

    Valid: as `drop_size_slope`.
    Source: MARSHALL-PALMER-1948; the factor 3.67 follows from an exponential distribution.
    Check: 5 mm/h, 1.255 mm:
        >>> print(f"{1000 * median_drop_diameter(5.0 * MM_PER_HOUR):.3f}")
        1.255
    """
    return 3.67 / drop_size_slope(rain_rate_m_s)


def drops_in_the_air(rain_rate_m_s: Values) -> FloatArray:
    """How many raindrops a cubic metre of air holds, per m³ (all sizes; the smallest are overstated).

        n = N0 / slope

    Args:
        rain_rate_m_s: rain rate.

    Raises:
        OutOfRange: 0 or less, more than 150 mm/h, or not a number.

    Valid: as `drop_size_slope`.
    Source: MARSHALL-PALMER-1948, integrated.
    Check: 10 mm/h, 3165 drops:
        >>> print(f"{drops_in_the_air(10.0 * MM_PER_HOUR):.0f}")
        3165
    """
    return DROP_INTERCEPT_PER_M4 / drop_size_slope(rain_rate_m_s)


def rain_water_in_the_air(rain_rate_m_s: Values) -> FloatArray:
    """The water of the raindrops in a cubic metre of air, kg/m³.

        W = pi rho N0 / slope^4

    Args:
        rain_rate_m_s: rain rate.

    Raises:
        OutOfRange: 0 or less, more than 150 mm/h, or not a number.

    Valid: as `drop_size_slope`.
    Source: MARSHALL-PALMER-1948, integrated.
    Check: 25 mm/h, 1.329 g/m³:
        >>> print(f"{1000 * rain_water_in_the_air(25.0 * MM_PER_HOUR):.3f}")
        1.329
    """
    return np.pi * 1000.0 * DROP_INTERCEPT_PER_M4 / drop_size_slope(rain_rate_m_s) ** 4


def drop_arrivals(rain_rate_m_s: Values, smallest_m: Values = 0.5e-3) -> FloatArray:
    """How many drops larger than a size land on a square metre in a second, 1/(m² s).

        n = integral of N(D) v(D) over D above the smallest, v by `drop_fall_speed`

    Args:
        rain_rate_m_s: rain rate.
        smallest_m: diameter of the smallest drop that counts.

    Raises:
        OutOfRange: a rate of 0 or less or over 150 mm/h, a smallest drop outside 0.5 to 5.8 mm, or not a number.

    Valid: to 20 %: drop sizes and fall speeds are not wholly consistent with the rain rate.
    Source: MARSHALL-PALMER-1948; ATLAS-1973.
    Check: 1 mm/h, 750 drops of more than half a millimetre:
        >>> print(f"{drop_arrivals(1.0 * MM_PER_HOUR):.0f}")
        752
    """
    slope, low = drop_size_slope(rain_rate_m_s), _SMALLEST.checked(smallest_m)
    fast = 9.65 * np.exp(-slope * low) / slope
    slow = 10.3 * np.exp(-(slope + 600.0) * low) / (slope + 600.0)
    return DROP_INTERCEPT_PER_M4 * (fast - slow)


def drop_fall_speed(diameter_m: Values) -> FloatArray:
    """The steady speed at which a raindrop falls through air near the ground, m/s.

        v = 9.65 - 10.3 exp(-0.6 D), D in mm

    Args:
        diameter_m: diameter D of the drop.

    Raises:
        OutOfRange: under 0.6 mm, over 5.8 mm (drops break up), or not a number.

    Valid: 0.6 to 5.8 mm, within 1.8 % of Gunn and Kinzer's measurements; 20 °C at sea level.
    Source: ATLAS-1973, equation 2; GUNN-KINZER-1949, table 2.
    Check: 2 mm, measured 6.49 m/s:
        >>> print(f"{drop_fall_speed(2.0e-3):.2f}")
        6.55
    """
    return 9.65 - 10.3 * np.exp(-600.0 * _DROP.checked(diameter_m))


def drizzle_fall_speed(diameter_m: Values) -> FloatArray:
    """The steady speed at which a small drop falls, m/s: the drizzle below the reach of `drop_fall_speed`.

        v = 8000 r, r = D/2 in m

    Args:
        diameter_m: diameter D of the drop.

    Raises:
        OutOfRange: under 0.08 mm, over 1.2 mm, or not a number.

    Valid: 0.08 to 1.2 mm; within 12 % of Gunn and Kinzer's measurements from 0.2 mm up.
    Source: ROGERS-YAU-1989, equation 8.6; GUNN-KINZER-1949, table 2.
    Check: 0.5 mm, measured 2.06 m/s:
        >>> print(f"{drizzle_fall_speed(0.5e-3):.2f}")
        2.00
    """
    return 8000.0 * 0.5 * _DRIZZLE.checked(diameter_m)


def rain_forming_rate(cloud_water_kg_m3: Values) -> FloatArray:
    """How fast cloud drops merge into raindrops, kg/(m³ s): nothing until the cloud is thick enough.

        rate = 0.001/s max(m - 0.5 g/m³, 0)

    Args:
        cloud_water_kg_m3: water m of the cloud drops in a cubic metre of air.

    Raises:
        OutOfRange: negative, or not a number.

    Valid: a cloud warmer than freezing; a rule of thumb that made the first rain models work.
    Source: KESSLER-1969.
    Check: 1.5 g/m³ makes 0.001 g/m³ of rain in a second:
        >>> print(f"{1000 * rain_forming_rate(1.5e-3):.4f}")
        0.0010
    """
    return RAIN_FORMING_PER_S * np.maximum(_CLOUD.checked(cloud_water_kg_m3) - RAIN_FORMING_ABOVE_KG_M3, 0.0)
