"""Units as arrays of sources."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.pools import level_across
from aimcalc.light.lamps import CandelaTable, body_right, joined, measured_lamps, smooth_lamps

TABLE = CandelaTable(
    layout="C",
    start=(0.0, 0.0),
    step=(1.0, 1.0),
    values=np.ones((1, 5)),
    ends=False,
    error=0.0,
    peak_cd=900.0,
    field=0.5,
)
AXES = np.array([[0, 1.0, 0, 3], [1, 1, 0, 0], [0, -1, -1, 0]])


def four():
    lens = np.arange(12.0).reshape(3, 4)
    return smooth_lamps(lens, AXES, peak_cd=[1, 2, 3, 4], beam=0.2, field=0.4, transmission=0.5)


def test_axes_become_unit_length_and_single_values_serve_all():
    lamps = four()
    np.testing.assert_allclose((lamps.axis**2).sum(axis=0), 1)
    np.testing.assert_array_equal(lamps.transmission, np.full(4, 0.5))
    assert lamps.size == 4


def test_the_bodys_right_is_level_when_it_is_upright_and_swaps_when_it_is_upside_down():
    axis, up = np.array([[0.0], [1], [0]]), np.array([[0.0], [0], [1]])
    np.testing.assert_allclose(body_right(axis, up), [[1], [0], [0]])
    np.testing.assert_allclose(body_right(axis, -up), [[-1], [0], [0]])


def test_lots_are_joined_in_order_with_their_own_tables_and_taken_apart_again():
    across = level_across(AXES)
    files = measured_lamps(four().lens, AXES, table=TABLE, across=across)
    other = measured_lamps(four().lens, AXES, table=TABLE._replace(peak_cd=5.0), across=across)
    all_of_them = joined(four(), files, other)
    assert all_of_them.size == 12
    assert all_of_them.table.tolist() == [-1] * 4 + [0] * 4 + [1] * 4
    assert [table.peak_cd for table in all_of_them.tables] == [900, 5]
    np.testing.assert_array_equal(all_of_them.peak_cd[4:], [900] * 4 + [5] * 4)
    few = all_of_them.take([9, 0])
    assert few.table.tolist() == [1, -1]
    np.testing.assert_array_equal(few.lens, four().lens[:, [1, 0]])
    assert all_of_them.take(all_of_them.table < 0).size == 4


def test_no_units_at_all_are_lamps_too():
    none = smooth_lamps(np.zeros((3, 0)), np.zeros((3, 0)), peak_cd=1, beam=0.2, field=0.4)
    assert none.size == 0
    assert joined(none, four()).size == 4


def test_an_oval_has_its_wide_field_along_across():
    lens, axis = np.zeros((3, 1)), AXES[:, :1]
    lamps = smooth_lamps(lens, axis, peak_cd=1, beam=0.2, field=0.4, oval=(0.3, 0.6))
    assert lamps.wide[0] == pytest.approx(2 * lamps.narrow[0])
