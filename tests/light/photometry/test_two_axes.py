"""Types A and B, whose directions are told by two angles: lumens by a second integration."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from scipy.interpolate import RegularGridInterpolator

from tests.printed_lamps import two_axes


@pytest.mark.parametrize(("layout", "code"), [("A", 3), ("B", 2)])
def test_lumens_of_types_a_and_b_by_integration_over_the_solid_angle(tmp_path, layout, code):
    level, upright = np.linspace(-40, 40, 9), np.linspace(-20, 25, 10)
    candela = np.random.default_rng(3).uniform(0, 1000, (9, 10))
    read = two_axes(tmp_path / "unit.ies", code, level, upright, candela)
    table = RegularGridInterpolator((np.radians(level), np.radians(upright)), candela)
    # A solid angle is d level d upright times the cosine of the angle that is taken second.
    second = 1 if layout == "A" else 0
    nodes, weights = np.polynomial.legendre.leggauss(6)
    total = 0.0
    for a, b in itertools.pairwise(np.radians(level)):
        for c, d in itertools.pairwise(np.radians(upright)):
            x, y = (a + b + (b - a) * nodes) / 2, (c + d + (d - c) * nodes) / 2
            pair = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1)
            part = table(pair) * np.cos(pair[..., second])
            total += (weights @ part @ weights) * (b - a) * (d - c) / 4
    assert read.lumens == pytest.approx(total, rel=1e-9)
