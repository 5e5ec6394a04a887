"""What each unit loses, by name."""

from __future__ import annotations

import sys

import msgspec
import numpy as np
import pytest
from scipy.interpolate import RegularGridInterpolator

from aimcalc.findings.pose import no_drop
from aimcalc.geometry.blocked import blocked
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.geometry.vectors import same
from aimcalc.scene.model import Solid
from aimcalc.solid import light_lost
from aimcalc.solid.light_lost import lenses_of, lost
from aimcalc.solid.rig import solve_rig
from tests.rigs import random_scene
from tests.solid.hanging import a_body, a_border, a_panel, a_pipe, a_rig, a_unit
from tests.studies import cases

DOWN = (0.0, 0.0, 1.65)  # under the pipe


def shelf(x0, z, name="shelf"):
    """A level sheet from x0 to stage left at a height."""
    return Solid(name=name, panel=((x0, -9, z), (9, -9, z), (9, 9, z), (x0, 9, z)))


def told(rig):
    return {answer.unit: answer for answer in rig.answers_with_losses}


def test_an_open_stage_takes_nothing_and_says_so():
    answer = told(a_rig())["p/1"]
    assert answer.blocked == 0.0
    assert answer.blocked_by == ()


def test_a_sheet_that_begins_on_the_axis_takes_half_the_light():
    # By symmetry.
    rig = a_rig([a_unit(point=DOWN)], solids=[shelf(0.0, 3.0)])
    (loss,) = told(rig)["p/1"].blocked_by
    assert loss.name == "shelf"
    assert loss.share == pytest.approx(0.5, abs=0.01)
    assert loss.height == pytest.approx(3.0)
    assert told(rig)["p/1"].blocked == loss.share


def test_the_largest_share_comes_first_and_they_add_up():
    solids = [shelf(0.1, 4.0, "high"), shelf(0.0, 3.0, "low")]
    answer = told(a_rig([a_unit(point=DOWN)], solids=solids))["p/1"]
    assert [loss.name for loss in answer.blocked_by] == ["low", "high"]
    assert sum(loss.share for loss in answer.blocked_by) == pytest.approx(answer.blocked)
    assert answer.blocked == pytest.approx(0.5, abs=0.01)


def test_other_units_count_and_own_parts_do_not():
    # A second unit hangs square in front of the first, 0.5 m US of its lens.
    pipes = [a_pipe("p"), a_pipe("q", y=1.0, trim=5.4)]
    rig = a_rig([a_unit(1), a_unit(1, position="q")], pipes=pipes)
    assert {loss.name for loss in told(rig)["p/1"].blocked_by} == {"q/1"}
    assert told(rig)["q/1"].blocked == 0.0


def test_what_stands_behind_the_face_takes_nothing():
    assert told(a_rig(solids=[a_panel("drop", 9.0, 0.0, 9.0)]))["p/1"].blocked == 0.0


def test_the_drop_that_is_aimed_at_takes_nothing():
    solids = [a_panel("drop", 4.0, 0.0, 9.0), a_border(2.0, 4.0)]
    answer = told(a_rig([a_unit(point=(0.0, 4.0, 3.0))], solids=solids))["p/1"]
    assert [loss.name for loss in answer.blocked_by] == ["border 1"]


def cyc_file(folder, climb, *, layout="C"):
    """10,000 cd at `climb` degrees up, in a bell of 14 up and down and 35 across; its table."""
    c, gamma = np.arange(0, 361, 5.0), np.arange(0, 91, 2.5)
    if layout == "A":
        level, upright = np.arange(-60, 61, 5.0), np.arange(-60, 61, 2.5)
        candela = _bell(level[:, None], upright[None], climb)
        rows, code, axes = [upright, level, *candela], 3, (level, upright)
    else:
        turn, off = np.radians(c)[:, None], np.radians(gamma)[None]
        right, up = np.sin(off) * np.cos(turn), np.sin(off) * np.sin(turn)
        upright = np.degrees(np.arcsin(np.clip(up, -1, 1)))
        level = np.degrees(np.arctan2(right, np.cos(off)))
        candela = _bell(level, upright, climb)
        candela[-1] = candela[0]
        rows, code, axes = [gamma, c, *candela], 1, (c, gamma)
    head = f"1 -1 1 {rows[0].size} {rows[1].size} {code} 2 0 0 0"
    text = [" ".join(f"{v:.6f}" for v in row) for row in rows]
    (folder / "cyc.ies").write_text(
        "\n".join(["IESNA91", "TILT=NONE", head, "1 1 9", *text]) + "\n"
    )
    return RegularGridInterpolator(axes, candela, bounds_error=False, fill_value=0.0)


def _bell(level, upright, climb):
    return 10_000 * np.exp(-(((upright - climb) / 14) ** 2) - (level / 35) ** 2)


def share_below(table, layout, line):
    """Share of the light over a tenth of the peak that goes out below `line` degrees up, by a fine sum."""
    turn, off = np.meshgrid(
        (np.arange(960) + 0.5) * (2 * np.pi / 960), (np.arange(500) + 0.5) * (np.pi / 2 / 500)
    )
    right, up, along = np.sin(off) * np.cos(turn), np.sin(off) * np.sin(turn), np.cos(off)
    if layout == "C":
        own = np.degrees(turn), np.degrees(off)
    else:
        own = np.degrees(np.arctan2(right, along)), np.degrees(np.arcsin(up))
    candela = table(np.stack(own, axis=-1))
    candela[candela < 0.1 * table.values.max()] = 0.0
    light = candela * np.sin(off)
    below = up < along * np.tan(np.radians(line))
    return light[below].sum() / light.sum()


# A unit that looks level at (0, 4, 5.5); a wall 2 m off goes up to its axis and `line` degrees more.
@pytest.mark.parametrize("layout", ["C", "A"])
@pytest.mark.parametrize(("climb", "line"), [(25, 0), (25, 20), (-25, 0), (0, 5)])
def test_light_that_a_file_throws_over_a_wall_is_not_lost(tmp_path, layout, climb, line):
    expected = share_below(cyc_file(tmp_path, climb, layout=layout), layout, line)
    kind = a_body(
        field=None, photometry="cyc.ies", family="cyc", width=None, drop_under=0.5, nose=0.0
    )
    wall = a_panel("wall", 2.0, 0.0, 5.5 + 2.0 * np.tan(np.radians(line)), half=900.0)
    rig = a_rig([a_unit(point=(0.0, 4.0, 5.5))], kinds=[kind], solids=[wall], folder=str(tmp_path))
    losses = {loss.name: loss.share for loss in told(rig)["p/1"].blocked_by}
    assert losses.get("wall", 0.0) == pytest.approx(expected, abs=0.01)
    if (climb, line) == (25, 0):
        assert expected < 0.05  # a profile even round the axis would say half


def test_a_file_lies_in_its_rays_as_its_unit_is_turned(tmp_path):
    # 25 up becomes 25 to one side when turned by 90: nothing above or below the axis any more than the other.
    cyc_file(tmp_path, 25)
    kind = a_body(field=None, photometry="cyc.ies", family="cyc", width=None)
    for turn, expected in ((0.0, [0.0, -1.0]), (90.0, [1.0, 0.0])):
        rig = a_rig([a_unit(turn=turn)], kinds=[kind], folder=str(tmp_path))
        lens = lenses_of(rig, np.zeros(1, int))
        mean = lens.patterns[0, 1:].mean(axis=1)
        side = np.cross(lens.axis[:, 0], lens.up[:, 0])
        world = mean[0] * lens.up[:, 0] + mean[1] * side
        across = np.array([world[0], world @ rig.aims.up[:, 0]])
        assert np.linalg.norm(across) == pytest.approx(0.4, abs=0.1)
        # The long way is across the file (C = 0); turned by 90 it stands upright, and C = 90 points SR.
        np.testing.assert_allclose(across / np.linalg.norm(across), -np.array(expected), atol=0.02)


@pytest.mark.parametrize("layout", ["round", "oval", "file"])
def test_shares_are_good_to_a_hundredth_against_a_dense_count(tmp_path, layout):
    """A wide lens near thin and broad things, at every place: 500 rays alone are up to 0.03 off here."""
    cyc_file(tmp_path, 10)
    given = {
        "round": {"field": 50.0},
        "oval": {"oval": (30.0, 90.0), "field": 52.0},
        "file": {"field": None, "photometry": "cyc.ies", "family": "cyc"},
    }[layout]
    rng = np.random.default_rng(2)
    units = [a_unit(k, float(2 * k - 8), point=(2.0 * k - 8, 4.0, 3.0)) for k in range(9)]
    solids = []
    for k in range(9):  # the axis comes down by 0.6 a metre from (x, 0.3, 5.5)
        x, y = 2 * k - 8 + rng.uniform(-0.1, 0.1), rng.uniform(0.45, 1.2)
        z = 5.5 - 0.6 * (y - 0.3) + rng.uniform(-0.15, 0.1)
        half = rng.uniform(0.02, 0.12)
        corners = ((x - half, y, z), (x + half, y, z), (x + half, y, z + 1), (x - half, y, z + 1))
        solids.append(Solid(name=f"s{k}", panel=corners))
    kind = a_body(width=0.4, **given)
    rig = a_rig(units, kinds=[kind], solids=solids, folder=str(tmp_path))
    dense = blocked(rig.solids.whole, lenses_of(rig, rig.solids.own, rays=60_000)).share
    assert ((dense > 0.02) & (dense < 0.98)).sum() >= 5
    assert np.abs(lost(rig, rig.solids).share - dense).max() < 0.01


def test_a_unit_without_an_aim_has_no_share():
    kinds = [a_body(drop_under=0.0)]
    answer = told(a_rig([a_unit(point=(0.0, 0.0, 6.0))], kinds=kinds))["p/1"]
    assert answer.blocked is None
    assert answer.blocked_by is None


@pytest.mark.parametrize(("nose", "known"), [(0.0, False), (0.02, False), (0.03, True)])
def test_a_lens_in_its_own_pipe_has_no_share(nose, known):
    # A tube of 48.3 mm, so 24.15 mm from its middle to its skin. It used to "lose 100 % of its field" to it.
    rig = a_rig([a_unit(point=DOWN)], kinds=[a_body(drop_under=0.0, nose=nose, width=None)])
    assert (told(rig)["p/1"].blocked is not None) == known
    (found,) = no_drop(rig)
    assert ("A lens in the pipe casts no light" in found.says) != known


def test_without_the_ray_engine_nothing_is_known_and_it_is_said(monkeypatch):
    monkeypatch.setitem(sys.modules, "embreex.mesh_construction", None)
    rig = a_rig(solids=[shelf(0.0, 3.0)])
    with pytest.raises(NoRayEngineError, match="embreex, which casts the rays, is not installed"):
        lost(rig, rig.solids)
    answer = told(rig)["p/1"]
    assert (answer.blocked, answer.blocked_by) == (None, None)


def test_shares_are_worked_out_once():
    rig = a_rig(solids=[shelf(0.0, 3.0)])
    assert rig.lost is rig.lost
    assert np.isfinite(rig.lost.share).all()


def crowd(mount, count, seed):
    """A random rig among 40 small boxes, some of them on the way of some light."""
    rng = np.random.default_rng(seed)
    low = rng.uniform((-9, -12, 0), (9, 9, 6), (40, 3))
    ends = np.concatenate((low, low + rng.uniform(0.02, 0.4, (40, 3))), axis=1)
    boxes = [Solid(name=f"b{k}", box=tuple(each)) for k, each in enumerate(ends.tolist())]
    scene = random_scene(mount, count, seed)
    return solve_rig(msgspec.structs.replace(scene, solids=tuple(boxes)))


@pytest.mark.long
@pytest.mark.parametrize("mount", ["under", "over", "out", "arm", "direct", "stand"])
def test_units_whose_rays_are_not_cast_would_lose_nothing(mount, monkeypatch):
    """Beside what is lost where the rays of all units are cast, whatever is on their way."""
    spared = 0
    for seed in range(cases(3, 30)):
        rig = crowd(mount, 30, seed)
        some = lost(rig, rig.solids)
        with monkeypatch.context() as patch:
            patch.setattr(
                light_lost,
                "_reached",
                lambda rig, boxes: np.indices((len(boxes), 30)).reshape(2, -1),
            )
            every = lost(rig, rig.solids)
        assert all(map(same, some, every))
        box, unit = light_lost._reached(rig, rig.solids.boxes)
        spared += 30 - np.unique(unit[box != rig.solids.own[unit]]).size
    assert spared > 0


def test_where_no_light_meets_anything_nothing_is_made_ready_for_rays():
    rig = a_rig([a_unit(point=DOWN)])
    assert told(rig)["p/1"].blocked == 0.0
    assert "whole" not in vars(rig.solids)
