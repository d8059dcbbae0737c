"""What is true without any table: directions, limits, inverses, balances."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.science.atmosphere import standard_pressure
from sonify.science.evaporation import (
    combined_evaporation,
    energy_evaporation,
    heat_to_air,
    humid_evaporation,
    mass_transfer_evaporation,
    transfer_coefficient,
    wind_evaporation,
)
from sonify.science.humidity import (
    mixing_ratio,
    relative_humidity,
    vapour_density,
    vapour_pressure_from_wet_bulb,
    wet_bulb_temperature,
)
from sonify.science.kinetic import mean_free_path, mean_speed
from sonify.science.lifting import (
    DRY_LAPSE_K_PER_M,
    climb_height,
    condensation_height,
    lifted_temperature,
    mixed_depth,
    saturation_aloft,
)
from sonify.science.radiation import (
    clear_sky_sunlight,
    cloud_blackness,
    cloud_optical_depth,
    cloud_transmittance,
    net_thermal_radiation,
    sky_emissivity,
)
from sonify.science.rain import MM_PER_HOUR, median_drop_diameter, rain_forming_rate
from sonify.science.runoff import direct_runoff, released_share
from sonify.science.saturation import dew_point, saturation_slope, saturation_vapour_pressure
from sonify.science.sun import day_length_h, sun_height

KELVIN = st.floats(273.15, 313.15)


@given(st.floats(1.0, 2000.0), st.floats(1e-3, 0.3))
def test_four_times_the_mass_is_half_as_fast_and_four_times_the_heat_twice(t_k: float, molar: float) -> None:
    speed = mean_speed(t_k, molar)
    assert mean_speed(t_k, 4 * molar) == pytest.approx(speed / 2)
    assert mean_speed(4 * t_k, molar) == pytest.approx(2 * speed)


def test_thinner_air_lets_molecules_fly_further() -> None:
    assert mean_free_path(288.0, 5e4, 3.65e-10) == pytest.approx(2 * mean_free_path(288.0, 1e5, 3.65e-10))


@given(KELVIN)
def test_saturated_air_is_100_per_cent_humid_and_at_its_dew_point(t_k: float) -> None:
    e_air = saturation_vapour_pressure(t_k)
    assert relative_humidity(e_air, t_k) == pytest.approx(1.0)
    assert dew_point(e_air) == pytest.approx(t_k, abs=1e-5)
    assert wet_bulb_temperature(t_k, e_air, 101_325.0) == pytest.approx(t_k, abs=1e-4)
    assert vapour_pressure_from_wet_bulb(t_k, t_k, 101_325.0) == pytest.approx(float(e_air))


@given(KELVIN, st.floats(0.05, 0.99))
def test_the_wet_bulb_lies_between_dew_point_and_air(t_k: float, share: float) -> None:
    e_air = share * saturation_vapour_pressure(t_k)
    wet = float(wet_bulb_temperature(t_k, e_air, 101_325.0))
    assert float(dew_point(e_air)) < wet < t_k
    assert vapour_pressure_from_wet_bulb(t_k, wet, 101_325.0) == pytest.approx(float(e_air), abs=0.05)


def test_warm_air_holds_more_and_the_slope_says_how_much() -> None:
    t_k = np.linspace(273.15, 323.15, 51)
    rise = np.gradient(saturation_vapour_pressure(t_k), t_k)
    assert np.all(rise > 0)
    np.testing.assert_allclose(saturation_slope(t_k)[1:-1], rise[1:-1], rtol=0.006)


def test_supercooled_water_and_the_melting_point_join_smoothly() -> None:
    t_k = np.linspace(250.0, 300.0, 501)
    assert np.all(np.diff(np.log(saturation_vapour_pressure(t_k)), 2) < 0)


@given(KELVIN, st.floats(0.0, 1.0), st.floats(0.0, 20.0))
def test_nothing_evaporates_into_saturated_air_as_warm_as_the_water(t_k: float, share: float, wind: float) -> None:
    c = transfer_coefficient(10.0, 0.0003)
    deficit = (1.0 - share) * saturation_vapour_pressure(t_k)
    assert wind_evaporation(wind, 0.0, t_k, c) == 0.0
    assert mass_transfer_evaporation(wind, 0.0) == 0.0
    assert wind_evaporation(wind, deficit, t_k, c) >= 0.0
    assert wind_evaporation(wind, -deficit, t_k, c) == pytest.approx(-wind_evaporation(wind, deficit, t_k, c))
    assert heat_to_air(wind, 0.0, t_k, c) == 0.0


def test_evaporation_goes_with_the_deficit_and_the_wind() -> None:
    c = transfer_coefficient(10.0, 0.0003)
    once = wind_evaporation(4.0, 500.0, 288.0, c)
    assert wind_evaporation(4.0, 1000.0, 288.0, c) == pytest.approx(2 * once)
    assert wind_evaporation(8.0, 500.0, 288.0, c) == pytest.approx(2 * once)


def test_still_air_dries_a_puddle_by_one_author_and_not_by_the_other() -> None:
    assert mass_transfer_evaporation(0.0, 500.0) > 0.0
    assert wind_evaporation(0.0, 500.0, 288.0, transfer_coefficient(10.0, 0.0003)) == 0.0


@given(st.floats(0.0, 10.0), st.floats(0.0, 10.0), st.floats(0.0, 20.0))
def test_the_combination_lies_between_energy_and_wind(energy: float, wind: float, ratio: float) -> None:
    both = float(combined_evaporation(energy, wind, ratio))
    assert min(energy, wind) - 1e-9 <= both <= max(energy, wind) + 1e-9


def test_humid_evaporation_is_the_energy_share_of_the_combination_and_a_quarter_more() -> None:
    assert humid_evaporation(5.0, 2.0) == pytest.approx(1.26 * combined_evaporation(5.0, 0.0, 2.0))


def test_energy_evaporation_pays_the_latent_heat() -> None:
    assert energy_evaporation(2.4538e6 * 1e-5, 293.15) == pytest.approx(1e-5, rel=1e-4)


def test_dry_air_condenses_higher_up() -> None:
    heights = condensation_height(293.15, np.array([293.15, 291.0, 285.0, 275.0]))
    assert heights[0] == pytest.approx(0.0, abs=0.1)
    assert np.all(np.diff(heights) > 0)


@given(KELVIN, st.floats(0.1, 1.0), st.floats(0.0, 3000.0))
def test_lifted_air_holds_no_more_vapour_than_it_can_and_keeps_its_energy(t_k: float, share: float, z: float) -> None:
    w = float(mixing_ratio(share * saturation_vapour_pressure(t_k), 101_325.0))
    aloft = float(lifted_temperature(t_k, w, z))
    dry = t_k - DRY_LAPSE_K_PER_M * z
    held = min(w, float(saturation_aloft(aloft, z)))
    assert aloft >= dry - 1e-6
    assert 1004.6 * (aloft - dry) == pytest.approx(2.501e6 * (w - held), abs=0.05)


@given(KELVIN, st.floats(0.1, 0.95))
def test_lifting_stays_dry_up_to_the_condensation_height(t_k: float, share: float) -> None:
    """Bolton's level and the lifting by energy are two authors: they meet within 25 m and 2 %."""
    e_air = share * saturation_vapour_pressure(t_k)
    base = float(condensation_height(t_k, dew_point(e_air)))
    if base > 3500.0:
        return
    w = float(mixing_ratio(e_air, 101_325.0))
    below, above = max(0.98 * base - 25.0, 0.0), 1.02 * base + 25.0
    assert lifted_temperature(t_k, w, below) == pytest.approx(t_k - DRY_LAPSE_K_PER_M * below, abs=1e-4)
    assert lifted_temperature(t_k, w, above) > t_k - DRY_LAPSE_K_PER_M * above + 1e-3


def test_wind_climbs_twice_as_high_at_twice_the_speed_and_less_in_firmer_layers() -> None:
    assert climb_height(8.0, 0.01, 285.0) == pytest.approx(2 * climb_height(4.0, 0.01, 285.0))
    assert climb_height(4.0, 0.04, 285.0) == pytest.approx(0.5 * climb_height(4.0, 0.01, 285.0))


def test_the_stirred_layer_spends_just_the_heat_it_was_given() -> None:
    """Q = rho c_p times the area between the old profile of potential temperature and the mixed one."""
    for heat in (2e5, 1e6, 3e6, 6e6):
        h = float(mixed_depth(heat, 400.0, 0.02, 0.004, 285.0))
        z = np.linspace(0.0, h, 20_001)
        theta = np.where(z < 400.0, 0.02 * z, 0.02 * 400.0 + 0.004 * (z - 400.0))
        density = 101_325.0 / (8.31446261815324 / 0.0289647 * 285.0)
        assert density * 1004.6 * np.trapezoid(theta[-1] - theta, z) == pytest.approx(heat, rel=1e-3)


def test_the_sun_stands_highest_at_noon_and_overhead_in_the_tropics() -> None:
    angles = np.radians(np.linspace(-180.0, 180.0, 361))
    heights = sun_height(np.radians(54.0), 0.3, angles)
    assert int(np.argmax(heights)) == 180
    assert np.degrees(sun_height(0.3, 0.3, 0.0)) == pytest.approx(90.0, abs=1e-5)
    assert day_length_h(0.0, 0.0, 0.0) == pytest.approx(12.0)


def test_sunlight_is_nought_at_night_and_less_under_thicker_cloud() -> None:
    assert clear_sky_sunlight(-0.2) == 0.0
    through = cloud_transmittance(cloud_optical_depth(np.array([0.0, 0.01, 0.1, 1.0])))
    assert through[0] == 1.0
    assert np.all(np.diff(through) < 0)
    black = cloud_blackness(np.array([0.0, 0.005, 0.05, 5.0]))
    assert black[0] == 0.0
    assert np.all(np.diff(black) > 0) and black[-1] == pytest.approx(1.0)


def test_cloud_warms_the_night() -> None:
    clear, covered = sky_emissivity(285.0, 900.0), sky_emissivity(285.0, 900.0, 1.0)
    assert clear < covered <= 1.0
    lost = [float(net_thermal_radiation(285.0, 285.0, sky, 0.97)) for sky in (float(clear), float(covered))]
    assert lost[0] > lost[1] >= 0.0


def test_a_millimetre_an_hour_is_what_it_says() -> None:
    assert pytest.approx(1e-3, rel=1e-12) == MM_PER_HOUR * 3600.0


def test_thin_cloud_makes_no_rain_and_heavier_rain_has_larger_drops() -> None:
    assert rain_forming_rate(0.4e-3) == 0.0
    assert rain_forming_rate(1.0e-3) > 0.0
    assert np.all(np.diff(median_drop_diameter(np.array([0.2, 1.0, 5.0, 50.0]) * MM_PER_HOUR)) > 0)


@given(st.floats(0.0, 0.5), st.floats(30.0, 100.0))
def test_no_more_runs_off_than_rains(rain_m: float, curve: float) -> None:
    assert 0.0 <= direct_runoff(rain_m, curve) <= rain_m + 1e-12


def test_all_rain_runs_off_a_sealed_surface() -> None:
    assert direct_runoff(0.02, 100.0) == pytest.approx(0.02)


@given(st.floats(0.0, 1e5), st.floats(0.0, 1e5), st.floats(1.0, 1e5))
def test_a_reservoir_forgets_how_its_time_was_cut(first: float, second: float, residence: float) -> None:
    kept = (1.0 - released_share(first, residence)) * (1.0 - released_share(second, residence))
    assert 1.0 - released_share(first + second, residence) == pytest.approx(float(kept), abs=1e-12)


def test_pressure_falls_with_height_and_carries_the_air_above() -> None:
    """dp/dz = -rho g."""
    z = np.linspace(0.0, 5000.0, 501)
    p = standard_pressure(z)
    density = p * 0.0289647 / (8.31446261815324 * (288.15 - 0.0065 * z))
    np.testing.assert_allclose(np.gradient(p, z)[1:-1], -(density * 9.80665)[1:-1], rtol=1e-4)


def test_moist_air_density_is_that_of_its_vapour_pressure() -> None:
    assert vapour_density(1000.0, 300.0) == pytest.approx(2 * vapour_density(500.0, 300.0))
