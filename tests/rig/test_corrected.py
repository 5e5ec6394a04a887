"""A rig with its corrections made is the rig that the forward model throws light from."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest

from aimcalc.landings import forward as f
from aimcalc.rig.corrected import corrected
from aimcalc.rig.places import place
from aimcalc.rig.solve import Solved
from aimcalc.scene.model import Correction
from tests.rigs import a_pipe, random_scene

OFF = {"trim": -0.3, "slope": 0.2, "moved": 0.15, "skew": 4.0, "marks": -0.12, "drop": 0.05}


def made(scene, off):
    """The scene with each of its positions and kinds corrected by the same."""
    every = [
        Correction(what=what, of=of, value=value)
        for what, value in off.items()
        for of in (scene.kinds if what == "drop" else scene.positions)
    ]
    return corrected(scene, tuple(every))


@pytest.mark.parametrize("mount", ["under", "over", "out"])
@pytest.mark.parametrize("tube", ["straight", "truss", "arc"])
def test_light_set_as_before_lands_where_the_forward_model_says(mount: str, tube: str) -> None:
    scene = random_scene(mount, 60, 31, tube)
    off = {k: v for k, v in OFF.items() if not (tube == "arc" and k in ("slope", "marks"))}
    rig, real = Solved(scene), Solved(made(scene, off))
    every = np.zeros((9, 60))
    for what, value in off.items():
        row = f.ERRORS.index(what)
        every[row] = np.radians(value) if what == "skew" else value
    given = f.exact(rig)
    units = f.held(rig)
    plane = f.Plane(np.tile([[0.0], [0.0], [1.0]], 60), np.zeros(60))
    order = [real.by_name[name] for name in rig.names]
    as_is = f.some(f.held(real), order)._replace(faces=units.faces, root=units.root)
    # A pipe within 4 degrees of the diagonal may now count towards its other end: those few are left out.
    ways = ((getattr(as_is, name), getattr(units, name)) for name in ("tube", "reference", "stem"))
    alike = [(now * f._skewed(was, every[f.SKEW])).sum(axis=0) > 0.9 for now, was in ways]
    same = np.all(alike, axis=0)
    one = f.landed(units, given, plane, every)
    other = f.landed(as_is, given, plane, np.zeros((9, 60)))
    good = same & one.there & other.there & (np.abs(one.point).max(axis=0) < 50)
    assert good.sum() > 25
    assert same.mean() > 0.9
    assert np.abs(one.point - other.point)[:, good].max() < 1e-9


def test_the_zero_mark_goes_with_its_pipe_wherever_the_centre_line_then_crosses_it() -> None:
    # From 2 m SR to 10 m SL its middle is 4 m SL. Turned by 40 degrees about it, the mark, 4 m along to SR,
    # comes to x = 4 - 4 cos 40, y = 4 sin 40 (clockwise from above the SR end goes upstage).
    pipe = msgspec.structs.replace(a_pipe(), start=(-2.0, 0.0, 6.0), end=(10.0, 0.0, 6.0))
    scene = random_scene("under", 1, 1)
    scene = msgspec.structs.replace(scene, pipes=(pipe,), units=())
    turned = corrected(scene, (Correction(what="skew", of="p", value=40.0),)).pipes[0]
    x, y = 4 - 4 * np.cos(np.radians(40)), 4 * np.sin(np.radians(40))
    assert place(turned).zero == pytest.approx((x, y, 6.0))


def test_corrections_are_made_once() -> None:
    scene = msgspec.structs.replace(
        random_scene("under", 3, 2),
        corrections=(Correction(what="trim", of="under 0", value=-0.3),),
    )
    once = corrected(scene)
    assert once.pipes[0].start[2] == pytest.approx(scene.pipes[0].start[2] - 0.3)
    assert corrected(once).pipes == once.pipes
    assert [each.what for each in once.made] == ["trim"]
    assert Solved(scene).scene.pipes == once.pipes
