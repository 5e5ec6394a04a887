"""The smooth candela profile and its flux."""

from __future__ import annotations

from math import gamma, log, pi, radians, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad, quad

from aimcalc.light import profiles

# Full angles in degrees: narrow, usual, nearly equal, far apart, wide.
PAIRS = [(10, 18), (20, 26), (25, 26), (5, 60), (30, 55), (100, 178)]


@pytest.mark.parametrize(("beam", "field"), PAIRS)
def test_half_the_peak_at_the_beam_edge_and_a_tenth_at_the_field_edge(beam, field):
    angles = {"beam": radians(beam), "field": radians(field)}
    edges = np.array([0.0, radians(beam / 2), radians(field / 2)])
    np.testing.assert_allclose(
        profiles.relative_intensity(edges, **angles), [1, 0.5, 0.1], rtol=1e-12
    )


@pytest.mark.parametrize(("beam", "field"), PAIRS)
def test_flux_agrees_with_adaptive_quadrature_of_the_written_formula(beam, field):
    half_beam, half_field = radians(beam / 2), radians(field / 2)
    n = log(log(10) / log(2)) / log(half_field / half_beam)
    w = half_beam / log(2) ** (1 / n)

    def ring(theta):
        return 2 * pi * np.exp(-((theta / w) ** n)) * np.sin(theta)

    expected, _ = quad(ring, 0, pi / 2, points=[min(w, 1.5)], epsrel=1e-12, limit=400)
    got = profiles.flux_per_candela(beam=2 * half_beam, field=2 * half_field)
    assert got == pytest.approx(expected, rel=1e-9)


def test_flux_of_a_narrow_profile_tends_to_the_flat_sky_closed_form():
    # For small angles sin(theta) = theta and the integral is 2 pi w^2 Gamma(2/n) / n.
    field, n = radians(1.0), 2.5
    ratio = (log(10) / log(2)) ** (1 / n)
    w = (field / 2) / log(10) ** (1 / n)
    expected = 2 * pi * w**2 * gamma(2 / n) / n
    got = profiles.flux_per_candela(beam=field / ratio, field=field)
    assert got == pytest.approx(expected, rel=5e-5)  # next term of sin is w^2 / 6 of this


def test_flux_of_an_oval_agrees_with_a_double_integral_of_the_written_formula():
    n, narrow, wide = 2.3, radians(24), radians(48)
    scale = 2 * log(10) ** (1 / n)

    def ray(theta, phi):
        along, square = np.cos(phi) * scale / wide, np.sin(phi) * scale / narrow
        return np.exp(-((theta * np.hypot(along, square)) ** n)) * np.sin(theta)

    expected = 4 * dblquad(ray, 0, pi / 2, 0, pi / 2, epsrel=1e-9)[0]
    beam = 1.0 / (log(10) / log(2)) ** (1 / n)
    got = profiles.flux_per_candela(beam=beam, field=1.0, narrow=narrow, wide=wide)
    assert got == pytest.approx(expected, rel=1e-8)


@given(st.floats(0.02, 2.5), st.floats(1.02, 6))
def test_an_oval_of_equal_fields_has_the_flux_of_the_round_profile(field, ratio):
    beam = field / ratio
    oval = profiles.flux_per_candela(beam=beam, field=field, narrow=field, wide=field)
    expected = profiles.flux_per_candela(beam=beam, field=field)
    assert oval == pytest.approx(expected, rel=1e-9, abs=1e-15)


def test_the_default_beam_is_that_of_a_gaussian():
    # Half-angle at 10 % = a sqrt(ln 10 / ln 2) for half-angle a at 50 % (algebra): 1.8226157 a.
    assert 26 / profiles.default_beam(26.0) == pytest.approx(1.8226157, abs=1e-7)
    assert profiles.profile_power(profiles.default_beam(26.0), 26.0) == pytest.approx(2, abs=1e-12)
    assert pytest.approx(sqrt(log(10) / log(2))) == profiles.GAUSSIAN_RATIO


def test_peak_times_flux_per_candela_gives_the_lumens_back():
    angles = {"beam": np.radians([15.0, 30.0]), "field": np.radians([26.0, 50.0])}
    peak = profiles.peak_from_lumens(9000.0, **angles)
    np.testing.assert_allclose(peak * profiles.flux_per_candela(**angles), 9000.0)
    assert peak[0] > peak[1]  # the same lumens in a smaller cone are brighter


def test_nothing_leaves_a_unit_backwards():
    back = profiles.relative_intensity(np.radians([89.9, 90.0, 170.0]), beam=1.5, field=3.0)
    assert back[0] > 0
    assert not back[1:].any()


def test_very_steep_profiles_do_not_overflow():
    with np.errstate(all="raise", under="ignore"):
        edge = profiles.relative_intensity(np.radians([0.0, 80.0]), beam=0.0999999, field=0.1)
    np.testing.assert_array_equal(edge, [1.0, 0.0])


@pytest.mark.parametrize(("beam", "field"), [(26, 26), (30, 26), (0, 26), (10, np.nan)])
def test_a_beam_that_is_not_smaller_than_the_field_is_refused_with_both_numbers(beam, field):
    with pytest.raises(ValueError, match=f"smaller than the field angle.*beam {beam} and field"):
        profiles.profile_power([15, beam], [26, field])
