"""Blocked shares against the bare occlusion query of the ray library on the very same rays."""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.blocked import Lenses, blocked, field_rays
from aimcalc.geometry.bodies import body_soup, hung, set_parts
from aimcalc.geometry.rays import caster
from aimcalc.geometry.solids import Shape, box, merged, panel, soup, tube
from tests.hung import a_build
from tests.lenses import a_pattern, facing

FIELDS = ((20, 13), (26, 18), (36, 25), (50, 32))


def units_of(count, rays, *, first_owner):
    """Units on pipes across the stage every 1.5 m, aimed over it, and their bodies."""
    rng = np.random.default_rng(5)
    row = np.arange(count) // 12
    clamp = np.stack((np.arange(count) % 12 - 5.5, 1.5 * row - 4, 6 + 0.1 * (row % 5)))
    face = clamp + rng.uniform((-2, 2, -5), (2, 5, -4), (count, 3)).T
    axis, up = facing(clamp - np.array([[0.0], [0.0], [0.36]]), face)
    build = a_build(count)
    lens = clamp + np.array([[0.0], [0.0], [-0.3556]]) + build.nose * axis
    stem, square = np.zeros((2, 3, count))
    stem[2], square[1] = -1.0, 1.0
    rig = hung(build, clamp=clamp, stem=stem, square=square, axis=axis, up=up)
    own = first_owner + np.arange(count)
    lenses = Lenses(
        lens=lens,
        axis=axis,
        up=up,
        face=face,
        radius=np.full(count, 0.075),
        own=own,
        which=np.arange(count) % len(FIELDS),
        patterns=np.stack([a_pattern(field, beam, rays) for field, beam in FIELDS]),
    )
    return lenses, body_soup(set_parts(rig), build, own)


def stage():
    """Borders, legs, platforms and pipes."""
    shapes = []
    for y in np.arange(-4, 8, 1.5):
        shapes.append(
            panel([(-8, y + 0.6, 5.4), (8, y + 0.6, 5.4), (8, y + 0.6, 8), (-8, y + 0.6, 8)])
        )
        shapes.append(tube((-7, y, 6), (7, y, 6), radius=0.024))
        legs = ([(x, y, 0), (x + 1, y, 0), (x + 1, y, 7), (x, y, 7)] for x in (-7, 7))
        shapes.extend(panel(leg) for leg in legs)
    shapes += [box((x, 3, 0), (x + 1, 5, 0.2 * k)) for k, x in enumerate(range(-4, 4))]
    return soup(shapes)


def a_mesh(faces, *, depth):
    """Balls strewn over a stage of some depth, some of them in the light."""
    rng = np.random.default_rng(8)
    balls, rings, sides = faces // 2000, 25, 40
    turn, fall = np.meshgrid(2 * np.pi * np.arange(sides) / sides, np.linspace(0, np.pi, rings + 1))
    ball = np.stack((np.sin(fall) * np.cos(turn), np.sin(fall) * np.sin(turn), np.cos(fall)))
    ball = ball.reshape(3, -1)
    k, j = (part.ravel() for part in np.meshgrid(np.arange(rings), np.arange(sides), indexing="ij"))
    here, there = k * sides + j, k * sides + (j + 1) % sides
    grid = np.concatenate(
        ([here, there, here + sides], [there, there + sides, here + sides]), axis=1
    )
    middles = rng.uniform((-6, -4, 1), (6, depth - 4, 4), (balls, 3))
    sizes = rng.uniform(0.3, 0.9, balls)
    shapes = [Shape(m[:, None] + s * ball, grid) for m, s in zip(middles, sizes, strict=True)]
    return soup(shapes)


def compared(ratios, name, scenery, count, rays, *, bar, rounds):
    first_owner = int(scenery.owner.max()) + 1
    lenses, bodies = units_of(count, rays, first_owner=first_owner)
    ready = caster(merged(scenery, bodies))
    start, way, limit = field_rays(lenses, np.arange(count), ready.centre)
    told = blocked(ready, lenses)
    assert 0.01 < told.share.mean() < 0.5  # something stands in the light, and not in all of it

    def floor():
        return ready.engine.run(start, way, dists=limit, query="OCCLUDED")

    ratios(name, lambda: blocked(ready, lenses), floor, bar=bar, rounds=rounds)


def test_shares_of_72_units_and_a_full_stage(ratios):
    name = "blocked, 72 units x 500 rays, full stage / raw occlusion"
    compared(ratios, name, stage(), 72, 500, bar=2.0, rounds=15)


def test_shares_of_600_units_before_a_mesh_of_100_000_faces(ratios):
    mesh = a_mesh(100_000, depth=1.5 * 600 / 12)
    assert mesh.owner.size == 100_000
    name = "blocked, 600 units x 2,000 rays, 100,000 faces / raw"
    compared(ratios, name, mesh, 600, 2000, bar=3.0, rounds=3)
