"""What each unit loses, by name."""

from __future__ import annotations

import sys

import numpy as np
import pytest

from aimcalc.geometry.occlusion import NoRayEngineError
from aimcalc.rig.solid.lost import answers_with_losses, lost
from aimcalc.scene.model import Solid
from tests.rig.solid.hanging import a_body, a_border, a_panel, a_pipe, a_rig, a_unit

DOWN = (0.0, 0.0, 1.65)  # under the pipe


def shelf(x0, z, name="shelf"):
    """A level sheet from x0 to stage left at a height."""
    return Solid(name=name, panel=((x0, -9, z), (9, -9, z), (9, 9, z), (x0, 9, z)))


def told(rig):
    return {answer.unit: answer for answer in answers_with_losses(rig)}


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


def test_a_unit_without_an_aim_has_no_share():
    kinds = [a_body(drop_under=0.0)]
    answer = told(a_rig([a_unit(point=(0.0, 0.0, 6.0))], kinds=kinds))["p/1"]
    assert answer.blocked is None
    assert answer.blocked_by is None


def test_without_the_ray_engine_nothing_is_known_and_it_is_said(monkeypatch):
    monkeypatch.setitem(sys.modules, "embreex.mesh_construction", None)
    rig = a_rig(solids=[shelf(0.0, 3.0)])
    with pytest.raises(NoRayEngineError, match="embreex, which casts the rays, is not installed"):
        lost(rig)
    answer = told(rig)["p/1"]
    assert (answer.blocked, answer.blocked_by) == (None, None)


def test_shares_are_worked_out_once():
    rig = a_rig(solids=[shelf(0.0, 3.0)])
    assert rig.lost is rig.lost
    assert np.isfinite(rig.lost.share).all()
