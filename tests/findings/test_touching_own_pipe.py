"""Bodies against the tube that holds them."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest

from aimcalc.findings.touching import TUBE_RADIUS
from aimcalc.rig.rig import Rig
from aimcalc.scene.loading import generic_kinds, generic_tables
from aimcalc.scene.model import Boom, Pipe, Scene
from aimcalc.solid.rig import solve_rig
from tests.findings.clean import (
    CLEAN,
    a_kind,
    a_unit,
    changed,
    found,
    says,
    told,
    with_kind,
    with_special,
    with_units,
)
from tests.rigs import INCH

BIG = {
    "drop_under": 14 * INCH,
    "drop_over": 14 * INCH,
    "nose": 14 * INCH,
    "length": 26 * INCH,
    "width": 8 * INCH,
}


def hung(down: float, mount: str = "over", **kind: object) -> Scene:
    """back/4 aimed straight DS and so far down, 4 m from its pivot."""
    body = a_kind("body", **{**BIG, **kind})
    drop = body.drop_over if mount == "over" else -body.drop_under
    a = radians(down)
    point = (-4.0, 6.0 - 4 * cos(a), 5.5 + drop - 4 * sin(a))
    return with_special(point, with_kind(body), kind="body", mount=mount)


@pytest.mark.parametrize(
    ("down", "severity"),
    [(60.0, None), (68.5, None), (70.0, "warn"), (73.0, "warn"), (74.0, "stop"), (80.0, "stop")],
)
def test_an_over_hung_body_strikes_its_pipe_from_69_degrees_down(
    down: float, severity: str | None
) -> None:
    # Common practice, no source: drop 14 in, body 4 in and pipe 0.95 in in radius; 14 cos(69.3) = 4.95. How
    # thick the pipe is nobody typed: a stop needs its middle line in the body, 14 cos(73.4) = 4.
    assert told(hung(down)) == ([(severity, "strikes-own-pipe", "back/4")] if severity else [])


def test_a_typical_body_in_the_middle_of_its_pipe_is_a_warning_that_says_so() -> None:
    scene = hung(80.0, typical=True)
    (severity, _, _), *_ = told(scene)
    assert severity == "warn"
    assert says(scene, "strikes-own-pipe").endswith(
        "strikes its own pipe. By typical sizes of body."
    )


def test_the_sentence_gives_the_drop_and_the_body() -> None:
    assert says(hung(75.0), "strikes-own-pipe") == (
        "Unit 4, 75° down with a drop of 0.36 m and a body 0.20 m across, strikes its own pipe."
    )


def test_a_short_nose_passes_over_the_pipe() -> None:
    # At 75 down the pipe is 14 sin(75) = 13.5 in ahead of the pivot; a lens at 10 in ends well before it.
    assert told(hung(75.0, nose=10 * INCH)) == []


@pytest.mark.parametrize(("back", "severity"), [(0.32, None), (0.35, "warn"), (0.37, "stop")])
def test_a_long_back_strikes_the_pipe_above_when_the_lens_points_straight_down(
    back: float, severity: str | None
) -> None:
    # Hung under with a drop of 0.36: the pipe's underside is 0.36 - 0.024 = 0.336 over the pivot.
    scene = hung(90.0, "under", drop_under=0.36, length=14 * INCH + back)
    struck = [f for f in told(scene) if f[1] == "strikes-own-pipe"]
    assert struck == ([(severity, "strikes-own-pipe", "back/4")] if severity else [])


@pytest.mark.parametrize("missing", ["length", "width"])
def test_a_kind_without_its_sizes_is_judged_by_its_familys_and_never_stops(missing: str) -> None:
    # It used to lose the check without a word.
    scene = hung(80.0, **{missing: None})
    assert told(scene) == [("warn", "strikes-own-pipe", "back/4"), ("warn", "body-not-known", None)]
    assert says(scene, "strikes-own-pipe").endswith("By typical sizes of body.")


@pytest.mark.parametrize(("arm", "stops"), [(0.25, True), (0.7, False)])
def test_a_body_under_a_short_side_arm_strikes_the_boom(arm: float, stops: bool) -> None:
    # Aimed away from the boom, level enough: 12 in of back reach the boom 0.25 m behind the pivot.
    reach = {"mount": "arm", "arm": arm, "arm_to": 270.0, "kind": "body"}
    unit = a_unit("mast", 1, 5.0, None, point=(-4.0, 2.0, 4.0), **reach)
    scene = with_units(unit, scene=with_kind(a_kind("body", **BIG)))
    scene = changed(scene, booms=(*scene.booms, Boom(name="mast", x=4.0, y=2.0, height=6.0)))
    assert (("stop", "strikes-own-pipe", "mast/1") in told(scene)) is stops


def test_no_generic_kind_strikes_its_pipe_when_hung_under_and_tipped_anyhow() -> None:
    for kind in generic_kinds(generic_tables()).values():
        pipe = Pipe(name="back", start=(-6.0, 6.0, 5.5), end=(6.0, 6.0, 5.5), measured=True)
        units = tuple(
            a_unit(
                "back", n, 6.0 - n / 2, None, point=aimed(n, down, kind.drop_under), kind=kind.name
            )
            for n, down in enumerate((0.0, 30.0, 60.0, 75.0, 85.0, 90.0), 1)
        )
        scene = changed(CLEAN, pipes=(pipe,), units=units, kinds={kind.name: kind}, booms=())
        assert [f.says for f in found(scene) if f.rule == "strikes-own-pipe"] == [], kind.name


def aimed(n: int, down: float, drop: float) -> tuple[float, float, float]:
    a = radians(down)
    return (6.0 - n / 2, 6.0 - 4 * cos(a), 5.5 - drop - 4 * sin(a))


def test_what_strikes_agrees_with_points_strewn_over_body_and_tube() -> None:
    rig = solve_rig(crowd(120))
    stopped = {f.unit for f in found(rig.scene) if f.rule == "strikes-own-pipe"}
    near = [nearest_by_points(rig, k) for k in range(len(rig.units))]
    clear = 0.008  # m; the points are this far apart
    assert {rig.names[k] for k, d in enumerate(near) if d < TUBE_RADIUS - clear} <= stopped
    assert {rig.names[k] for k, d in enumerate(near) if d > TUBE_RADIUS + clear}.isdisjoint(stopped)
    assert 10 < len(stopped) < 110


def crowd(count: int) -> Scene:
    """Units under and over pipes that run every way, aimed anywhere."""
    rng = np.random.default_rng(3)
    pipes, units = [], []
    for k in range(count):
        end = rng.normal(size=3) * (2, 2, 0.3)
        pipes.append(
            Pipe(name=f"p{k}", start=tuple((-end).tolist()), end=tuple(end.tolist()), zero="middle")
        )
        point = tuple((rng.normal(size=3) * 4).tolist())
        mount = "over" if k % 2 else "under"
        units.append(a_unit(f"p{k}", 1, 0.0, None, point=point, mount=mount, kind="body"))
    kind = a_kind("body", **{**BIG, "length": 0.8, "rise": 0.03})
    return changed(
        CLEAN, pipes=tuple(pipes), units=tuple(units), kinds={"body": kind}, booms=(), targets=()
    )


def nearest_by_points(rig: Rig, k: int) -> float:
    """Least distance between points over the whole body and the tube's middle line, near the clamp."""
    kind, pipe = rig.kinds[k], rig.positions[k]
    assert isinstance(pipe, Pipe)
    axis, up = rig.aims.axis[:, k], rig.aims.up[:, k]
    side = np.cross(axis, up)
    depth = np.linspace(kind.nose - (kind.length or 0), kind.nose, 110)
    radius = np.linspace(0, (kind.width or 0) / 2, 12)
    turn = np.linspace(0, 2 * np.pi, 60)
    d, r, t = (a.ravel() for a in np.meshgrid(depth, radius, turn, indexing="ij"))
    body = rig.aims.pivot[:, k] + kind.rise * up
    body = body + np.outer(d, axis) + np.outer(r * np.cos(t), up) + np.outer(r * np.sin(t), side)
    a, b = np.array(pipe.start), np.array(pipe.end)
    share = np.clip((body - a) @ (b - a) / ((b - a) @ (b - a)), 0, 1)
    return float(np.linalg.norm(body - a - np.outer(share, b - a), axis=1).min())
