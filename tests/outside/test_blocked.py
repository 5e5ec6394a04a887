"""Light lost to what stands in the way: the same rays by trimesh's own slow engine."""

from __future__ import annotations

import numpy as np
import trimesh.ray.ray_triangle as slow

from aimcalc.geometry.blocked import blocked, field_rays
from aimcalc.geometry.rays import caster
from aimcalc.geometry.solids import box, panel, soup, tube
from tests.geometry.test_occlusion import Everything
from tests.lenses import lenses


def test_the_same_rays_by_a_slow_engine_of_another_library_agree_exactly():
    room = soup(
        [
            panel([(-3, 2, 4.2), (3, 2, 4.2), (3, 2, 9), (-3, 2, 9)]),
            tube((-4, 1.5, 4.9), (4, 1.5, 4.7), radius=0.05),
            box((0.4, 2.5, 0), (1.2, 3.2, 2.4)),
        ]
    )
    lens = [(-1, 0, 6), (0.8, -1, 5.5), (2, -2, 5)]
    units = lenses(lens, [(0, 5, 1.65), (1, 4, 1.65), (-1, 5, 1.2)], radius=0.08)
    ready = caster(room)
    rays = field_rays(units, np.arange(3), ready.centre)
    start = rays.start.astype(float) + ready.centre
    way = rays.way.astype(float)
    triangles = room.corners.transpose(2, 0, 1)
    _, ray, place = slow.ray_triangle_id(triangles, start, way, tree=Everything(triangles))
    share = ((place - start[ray]) * way[ray]).sum(axis=1) / (way[ray] ** 2).sum(axis=1)
    stands = np.zeros(1500, dtype=bool)
    stands[ray[(share > 0) & (share < rays.limit[ray])]] = True

    told = blocked(ready, units)
    by_slow = stands.reshape(3, 500).mean(axis=1)
    assert (by_slow > 0).all()
    assert told.share.tolist() == by_slow.tolist()
