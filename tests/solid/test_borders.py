"""Borders, the front row, and what borders are meant to hide."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.scene.model import Boom, Seats, Solid
from aimcalc.solid.side_view import border_before, borders_of, front_row_of, masked, sight_points
from tests.solid.hanging import a_body, a_border, a_panel, a_pipe, a_rig, a_unit

STALLS = Seats(name="stalls", outline=((-4, -12), (4, -12), (4, -5), (-4, -5)), eye=0.5)
BALCONY = Seats(name="balcony", outline=((-4, -16), (4, -16), (4, -9), (-4, -9)), eye=4.0)


def test_a_border_is_an_upright_panel_that_is_called_one():
    flat = Solid(name="border of the carpet", panel=((0, 0, 0), (4, 0, 0), (4, 2, 0), (0, 2, 0)))
    block = Solid(name="border box", box=(0, 0, 0, 1, 1, 1))
    solids = [
        a_panel("header", 0, 4, 8),
        a_border(2, 5, "Border 1"),
        flat,
        block,
        a_border(4, 5, "teaser"),
    ]
    assert borders_of(a_rig(solids=solids).scene) == [1, 4]


def test_the_front_row_is_that_of_the_block_nearest_to_the_stage():
    row = front_row_of(a_rig(seats=[BALCONY, STALLS]).scene)
    assert row.name == "stalls"
    assert row.eyes[1] == pytest.approx(-5.0)
    assert row.eyes[2] == pytest.approx(0.5)
    assert (row.eyes[0].min(), row.eyes[0].max()) == (-4.0, 4.0)
    assert np.diff(row.eyes[0]).max() <= 1.0
    assert front_row_of(a_rig().scene) is None


def test_borders_hide_what_hangs_upstage_of_the_first_of_them():
    pipes = [a_pipe("p", y=1.0), a_pipe("q", y=3.0), a_pipe("r", y=6.0)]
    booms = [Boom(name="boom", x=6.0, y=5.0, height=5.0)]
    units = [a_unit(1, position=name) for name in "pqr"]
    units.append(a_unit(1, 3.0, position="boom", mount="arm", arm=0.4, arm_to=270.0))
    units.append(a_unit(2, 1.0, position="q", kind="bare"))
    solids = [a_border(2.0, 5.0), a_border(5.0, 5.2, "border 2")]
    rig = a_rig(
        units,
        pipes=pipes,
        booms=booms,
        solids=solids,
        kinds=[a_body(), a_body("bare", length=None)],
    )
    hidden = masked(rig)
    assert [rig.names[k] for k in hidden] == ["q/1", "r/1"]
    assert sight_points(rig, hidden).shape == (3, 2, 16)
    assert border_before(rig, [int(hidden[0])]) == "border 1"
    assert border_before(rig, [int(hidden[1])]) == "border 2"


def test_without_borders_nothing_is_meant_to_be_hidden():
    assert masked(a_rig(solids=[a_panel("header", -1, 4, 8)])).size == 0
