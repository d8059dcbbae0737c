"""Simple machines: what wheels with teeth and levers do to pace and force, and what friction takes."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_PACE = Range("turns_hz", "Hz", 0.0, np.inf, "a wheel that is turned")
_TEETH = Range("teeth", "", 4.0, np.inf, "a wheel with teeth")
_DRIVER = Range("driver_teeth", "", 4.0, np.inf, "a wheel with teeth")
_TORQUE = Range("torque_n_m", "N m", 0.0, np.inf, "a wheel that is turned")
_LOST = Range("lost_share", "", 0.0, 1.0, "what friction takes")
_LOAD = Range("load_n", "N", 0.0, np.inf, "a lever")
_ARM = Range("load_arm_m", "m", 0.0, np.inf, "a lever", above=True)
_EFFORT = Range("effort_arm_m", "m", 0.0, np.inf, "a lever", above=True)


def wheel_pace(turns_hz: Values, driver_teeth: Values, teeth: Values) -> FloatArray:
    """Return how often a second a wheel turns that another one drives, tooth by tooth.

        n = n_1 z_1 / z

    Args:
        turns_hz: how often a second the driving wheel turns, n_1.
        driver_teeth: how many teeth it has, z_1.
        teeth: how many the driven wheel has, z.

    Raises:
        OutOfRange: fewer than four teeth, or a pace below nothing.

    Valid: always, for teeth cannot slip: as many pass on one wheel as on the other.
    Source: OPENSTAX-CP1, Simple Machines.
    Check: 12 teeth drive 18, three turns for two:
        >>> print(f"{wheel_pace(3.0, 12, 18):.1f}")
        2.0
    """
    pace: FloatArray = _PACE.checked(turns_hz) * _DRIVER.checked(driver_teeth) / _TEETH.checked(teeth)
    return pace


def wheel_torque(torque_n_m: Values, driver_teeth: Values, teeth: Values, lost_share: Values) -> FloatArray:
    """Return the turning force of a wheel that another one drives, N m.

        M = M_1 z / z_1 (1 - q)

    Args:
        torque_n_m: turning force of the driving wheel, M_1.
        driver_teeth: how many teeth it has, z_1.
        teeth: how many the driven wheel has, z.
        lost_share: share q of the work that friction turns to heat.

    Raises:
        OutOfRange: fewer than four teeth, a force below nothing, a share outside 0 to 1.

    Valid: at a steady pace.
    Source: OPENSTAX-CP1, Simple Machines.
    Check: without friction, half as strong again from 12 teeth to 18:
        >>> print(f"{wheel_torque(2.0, 12, 18, 0.0):.1f}")
        3.0
    """
    kept = 1.0 - _LOST.checked(lost_share)
    torque: FloatArray = _TORQUE.checked(torque_n_m) * _TEETH.checked(teeth) / _DRIVER.checked(driver_teeth) * kept
    return torque


def lever_effort(load_n: Values, load_arm_m: Values, effort_arm_m: Values) -> FloatArray:
    """Return the force that holds a load with a lever, N.

        F = W l / L

    Args:
        load_n: weight W of the load.
        load_arm_m: from the turning point to the load, l.
        effort_arm_m: from the turning point to the hand, L.

    Raises:
        OutOfRange: a load below nothing, or an arm of nothing.

    Valid: forces at right angles to a stiff, light lever; friction at the turning point left out.
    Source: OPENSTAX-CP1, Simple Machines.
    Check: a wheelbarrow of 45.0 kg, 7.50 cm and 1.02 m from its axle, printed 32.4 N:
        >>> print(f"{lever_effort(45.0 * 9.80, 0.075, 1.02):.1f}")
        32.4
    """
    force: FloatArray = _LOAD.checked(load_n) * _ARM.checked(load_arm_m) / _EFFORT.checked(effort_arm_m)
    return force
