"""The light of the playhouse's systems against an independent ray tracer, with and without scenery.

Radiance's rtrace (from the binaries of pyradiance) gets the units as spheres of 1 mm with the written profile
(`tests.ray_tracer`) and the scenery as black polygons; it works in its own way from there.
"""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.coverage.sources import seen_from
from aimcalc.coverage.study import study_of
from aimcalc.coverage.survey import CoverOptions, light_at
from aimcalc.coverage.systems import face_z, light_of, systems_of
from aimcalc.light.grid import inside
from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig
from aimcalc.text.light.cover_json import cover
from tests import ray_tracer
from tests.black_scenery import black

POINTS = 2000
RNG_SEED = 12
AGREE = 1e-3  # the tracer works in single precision, from spheres of 1 mm
FAINT = 1e-4  # lx: what single precision leaves where shadow is all
UP, TO_HOUSE = np.array([0.0, 0, 1]), np.array([0.0, -1, 0])


@pytest.fixture(scope="module")
def scene():
    return load_scene("scenes/playhouse")


def plain(scene):
    """The same scene without what is solid and not stood on, so that heights stay what they are."""
    return replace(scene, solids=tuple(s for s in scene.solids if s.stand_on))


def places(rig):
    """Random points at face height over the acting area."""
    rng = np.random.default_rng(RNG_SEED)
    acting = np.array(rig.scene.stage.acting)
    x, y = rng.uniform(acting.min(axis=0), acting.max(axis=0), (2 * POINTS, 2)).T
    on = np.flatnonzero(inside(x, y, acting))[:POINTS]
    assert on.size == POINTS
    return np.stack((x[on], y[on], face_z(rig, x[on], y[on])))


def traced(folder, rig, lamps, points, normal):
    return ray_tracer.lux(
        folder, ray_tracer.smooth_scene(folder, lamps) + black(rig), points, normal
    )


@pytest.mark.parametrize("solids", [False, True], ids=["without solids", "with solids"])
def test_every_system_agrees_with_the_ray_tracer_at_2000_points(tmp_path, scene, solids):
    rig = solve_rig(scene if solids else plain(scene))
    study = study_of(rig)
    points, lamps = places(rig), study.sources.lamps
    systems = systems_of(rig)
    ours = light_of(
        lamps, seen_from(study.sight, lamps.lens, points), points, systems, ("level", "house")
    )
    for name, units in systems.items():
        some = lamps.take(units)
        level, house = (traced(tmp_path, rig, some, points, n) for n in (UP, TO_HOUSE))
        np.testing.assert_allclose(ours[name][0], level, rtol=AGREE, atol=FAINT, err_msg=name)
        # light that grazes the upright plane: a source of 1 mm is off by its size, whatever is left of it
        off = np.abs(ours[name][1] - house)
        assert (off <= AGREE * np.maximum(level, house) + FAINT).all(), name
    open_air = ray_tracer.lux(tmp_path, ray_tracer.smooth_scene(tmp_path, lamps), points, UP)
    lit_less = np.mean(level < 0.95 * open_air)  # `level` is that of "all", which comes last
    assert lit_less > 0.02 if solids else lit_less < 0.02


def test_the_figures_told_are_the_ray_tracers_over_the_same_grid(tmp_path, scene):
    rig = solve_rig(scene)
    study = study_of(rig)
    told = {s.system: s for s in cover(rig, CoverOptions(fewest=False)).systems}
    for name in ("front cool", "back", "all"):
        some = study.sources.lamps.take(study.systems[name].units)
        lux = traced(tmp_path, rig, some, study.plane.points, UP)
        assert told[name].mean == pytest.approx(lux.mean(), rel=AGREE)
        assert told[name].least == pytest.approx(lux.min(), rel=AGREE, abs=FAINT)
        assert told[name].most == pytest.approx(lux.max(), rel=AGREE)
        near = np.mean(np.isclose(lux, lux.mean() / 2, rtol=2 * AGREE))  # either side, by rounding
        half = np.mean(lux >= lux.mean() / 2)
        assert told[name].share_above_half == pytest.approx(half, abs=near + 1e-12)


def test_light_at_listed_points_is_the_ray_tracers(tmp_path, scene):
    rig = solve_rig(scene)
    study = study_of(rig)
    points = places(rig)[:, :20]
    every = [each for each in light_at(study, [tuple(p) for p in points.T]) if each.system == "all"]
    for normal, key in ((UP, "level"), (TO_HOUSE, "house")):
        theirs = traced(tmp_path, rig, study.sources.lamps, points, normal)
        np.testing.assert_allclose([getattr(each, key) for each in every], theirs, rtol=AGREE)
