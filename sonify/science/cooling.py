"""Cooling towards the room: Newton's law, how fast heat passes a wall, and where one exponential is not enough."""

from __future__ import annotations

import numpy as np

from sonify.errors import OutOfRange
from sonify.science.ranges import FloatArray, Range, Values

_BY = "Newton's law of cooling"
_TIME = Range("time_s", "s", 0.0, np.inf, _BY)
_START = Range("start_k", "K", 0.0, np.inf, _BY)
_ROOM = Range("room_k", "K", 0.0, np.inf, _BY)
_RATE = Range("rate_per_s", "1/s", 0.0, np.inf, _BY)
_LATER = Range("later_k", "K", 0.0, np.inf, _BY)
_PAST = Range("time_s", "s", 0.0, np.inf, _BY, above=True)
_SHARE = Range("share of the warmth left", "1", 0.0, 1.0, _BY, above=True)
_AREA = Range("area_m2", "m²", 0.0, np.inf, "the conduction through a wall", above=True)
_THICKNESS = Range("wall_m", "m", 0.0, np.inf, "the conduction through a wall")
_CONDUCTIVITY = Range("conductivity_w_m_k", "W/(m K)", 0.0, np.inf, "the conduction through a wall", above=True)
_FILM = Range("film_w_m2_k", "W/(m² K)", 0.0, np.inf, "the conduction through a wall", above=True)
_CAPACITY = Range("capacities_j_k", "J/K", 0.0, np.inf, "two stores of heat", above=True)
_BETWEEN = Range("between_w_k", "W/K", 0.0, np.inf, "two stores of heat", above=True)
_OUTWARD = Range("outward_w_k", "W/K", 0.0, np.inf, "two stores of heat")


def newton_temperature(time_s: Values, start_k: Values, room_k: Values, rate_per_s: Values) -> FloatArray:
    """The temperature of something left to itself in a room, K.

        T = T_room + (T_start - T_room) exp(-k t)

    Args:
        time_s: time t since the start.
        start_k: temperature T_start at the start.
        room_k: temperature T_room that it ends at.
        rate_per_s: rate k: heat lost per kelvin of difference, over heat held per kelvin.

    Raises:
        OutOfRange: a negative time, temperature or rate, or not a number.

    Valid: one well-stirred body, loss in proportion to the difference; a real mug of hot water misses it by up to 9 K
        in the first minutes, because the mug warms and the water evaporates.
    Source: OPENSTAX-CALC1, "Exponential Growth and Decay".
    Check: soda of 71 °F in a refrigerator of 35 °F at k = 0.02513 a minute, after 60 minutes, printed 43 °F:
        >>> f = lambda t_f: (t_f + 459.67) / 1.8
        >>> print(f"{1.8 * newton_temperature(60.0, f(71.0), f(35.0), 0.025131) - 459.67:.0f}")
        43
    """
    start, room = _START.checked(start_k), _ROOM.checked(room_k)
    return room + (start - room) * np.exp(-_RATE.checked(rate_per_s) * _TIME.checked(time_s))


def newton_rate(time_s: Values, start_k: Values, later_k: Values, room_k: Values) -> FloatArray:
    """The rate of Newton's law from two readings, 1/s.

        k = ln((T_start - T_room) / (T_later - T_room)) / t

    Args:
        time_s: time t between the readings.
        start_k: the first reading T_start.
        later_k: the second reading T_later, between the first and the room's.
        room_k: temperature T_room of the room.

    Raises:
        OutOfRange: no time between them, a second reading that is not between the first and the room, or not a number.

    Valid: as `newton_temperature`.
    Source: OPENSTAX-CALC1, "Exponential Growth and Decay".
    Check: coffee from 200 °F to 180 °F in 2 minutes, room 70 °F, 0.0835 a minute:
        >>> f = lambda t_f: (t_f + 459.67) / 1.8
        >>> print(f"{newton_rate(2.0, f(200.0), f(180.0), f(70.0)):.4f}")
        0.0835
    """
    return -np.log(_left(start_k, later_k, room_k)) / _PAST.checked(time_s)


def newton_time(start_k: Values, later_k: Values, room_k: Values, rate_per_s: Values) -> FloatArray:
    """How long something takes to reach a temperature, s.

        t = ln((T_start - T_room) / (T_later - T_room)) / k

    Args:
        start_k: temperature T_start at the start.
        later_k: temperature T_later asked for, between the start and the room's.
        room_k: temperature T_room of the room.
        rate_per_s: rate k of Newton's law.

    Raises:
        OutOfRange: a temperature that is not between start and room, a negative rate, or not a number.

    Valid: as `newton_temperature`; at rate 0 the time is endless.
    Source: OPENSTAX-CALC1, "Exponential Growth and Decay".
    Check: that coffee reaches 175 °F after 2.56 minutes:
        >>> f = lambda t_f: (t_f + 459.67) / 1.8
        >>> print(f"{newton_time(f(200.0), f(175.0), f(70.0), newton_rate(2.0, f(200.0), f(180.0), f(70.0))):.2f}")
        2.56
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        time_s: FloatArray = -np.log(_left(start_k, later_k, room_k)) / _RATE.checked(rate_per_s)
    return np.where(np.isnan(time_s), 0.0, time_s)[()]  # nothing to wait for, at no rate: already there


def wall_conductance(area_m2: Values, wall_m: Values, conductivity_w_m_k: Values, film_w_m2_k: Values) -> FloatArray:
    """Heat that passes a wall and the air outside it, for each kelvin of difference, W/K.

        G = A / (d/lambda + 1/h)

    Args:
        area_m2: area A of the wall.
        wall_m: thickness d of the wall; 0 for none.
        conductivity_w_m_k: thermal conductivity lambda of its material.
        film_w_m2_k: heat that passes to the air and the room from a square metre, h (about 10 indoors).

    Raises:
        OutOfRange: an area, a conductivity or a film of 0 or less, a negative thickness, or not a number.

    Valid: flat walls, or round ones that are thin against their width.
    Source: OPENSTAX-UP2, "Mechanisms of Heat Transfer" (conduction), with the air's film in series (common practice).
    Check: 1 m² of a wall that lets 2 W through for each kelvin, behind a film of 10 W/(m² K), 1.67 W/K:
        >>> print(f"{wall_conductance(1.0, 0.02, 0.04, 10.0):.2f}")
        1.67
    """
    wall = _THICKNESS.checked(wall_m) / _CONDUCTIVITY.checked(conductivity_w_m_k)
    return _AREA.checked(area_m2) / (wall + 1.0 / _FILM.checked(film_w_m2_k))


def two_store_decay(
    capacities_j_k: tuple[float, float], between_w_k: float, outward_w_k: tuple[float, float]
) -> tuple[FloatArray, FloatArray]:
    """How two stores of heat that touch cool together: the two rates (1/s), and what decays with each.

        C1 dT1/dt = -g (T1 - T2) - g1 T1,  C2 dT2/dt = g (T1 - T2) - g2 T2,  T above the room's

    Returns the rates, the smaller first, and the matrix whose columns are the pairs (T1, T2) that die away with them.

    Args:
        capacities_j_k: heat C1 and C2 that each store holds for a kelvin.
        between_w_k: heat g that passes between them for each kelvin of difference.
        outward_w_k: heat g1 and g2 that each gives to the room for each kelvin.

    Raises:
        OutOfRange: a capacity or a link of 0 or less, a negative loss, or not a number.

    Valid: each store well stirred; every link by Newton's law, so each temperature is a sum of two exponentials.
    Source: OPENSTAX-CALC1, "Exponential Growth and Decay", for each link; two readings of a real mug need two rates.
    Check: alike stores, 1 J/K and 1 W/K outward each, 1 W/K between: 1 and 3 a second:
        >>> print(two_store_decay((1.0, 1.0), 1.0, (1.0, 1.0))[0].round(6).tolist())
        [1.0, 3.0]
    """
    c = _CAPACITY.checked(np.array(capacities_j_k))
    g, out = _BETWEEN.checked(between_w_k), _OUTWARD.checked(np.array(outward_w_k))
    # Scaled by the roots of the capacities the matrix is symmetric: real rates, and exact to rounding.
    root = np.sqrt(c)
    inner = np.array([[g + out[0], -g], [-g, g + out[1]]]) / np.outer(root, root)
    rates, shapes = np.linalg.eigh(inner)
    return np.maximum(rates, 0.0), shapes / root[:, None]


def _left(start_k: Values, later_k: Values, room_k: Values) -> FloatArray:
    """The share of the difference from the room that is left at the second reading."""
    start, later, room = _START.checked(start_k), _LATER.checked(later_k), _ROOM.checked(room_k)
    if np.any(start == room):
        raise OutOfRange("start_k", float(np.ravel(room)[0]), "K", "a start that differs from the room", _BY)
    return _SHARE.checked((later - room) / (start - room))
