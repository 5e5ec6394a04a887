"""Lenses for tests of what stands in the light: places in metres, angles in degrees."""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.blocked import Lenses
from aimcalc.geometry.rays import pattern
from aimcalc.light.profiles import relative_intensity


def a_pattern(field, beam, rays=500):
    """Rays of the smooth profile."""
    angle = np.linspace(0, np.radians(field) / 2, 2049)
    return pattern(
        rays, angle, relative_intensity(angle, beam=np.radians(beam), field=np.radians(field))
    )


def facing(lens, face):
    """Axis and body-up of upright units at `lens` that point at `face`, both (3, N)."""
    axis = face - lens
    axis = axis / np.linalg.norm(axis, axis=0)
    side = np.cross(axis, np.array([[0.0], [1e-9], [1.0]]), axis=0)
    up = np.cross(side / np.linalg.norm(side, axis=0), axis, axis=0)
    return axis, up


def lenses(lens, face, *, field=26.0, beam=18.0, radius=0.0, own=-1, rays=500):
    """Units at some points (N rows) that face some points, all with the same field."""
    lens = np.array(lens, dtype=float).reshape(-1, 3).T
    face = np.array(face, dtype=float).reshape(-1, 3).T
    count = lens.shape[1]
    axis, up = facing(lens, face)
    return Lenses(
        lens=lens,
        axis=axis,
        up=up,
        face=face,
        radius=np.full(count, radius),
        own=np.full(count, own),
        which=np.zeros(count, dtype=np.int64),
        patterns=a_pattern(field, beam, rays)[None],
    )
