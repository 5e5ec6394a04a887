"""The crew's reports, typed back."""

from aimcalc.hang.plan import to_do
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_scene


def test_reports_sort_units_into_done_and_left():
    reports = [{}, {"hung": "tail down"}, {"hung": "tail down", "works": True}, {"works": False}]
    units = [
        Unit(position="p", number=str(k), at=4.0 - k, kind="k", point=(0, 4, 1.6), **report)
        for k, report in enumerate(reports)
    ]
    got = to_do(solve_rig(a_scene(units)))
    assert got.hung == ["p/1", "p/2", "p/3"]
    assert got.to_hang == ["p/0"]
    assert got.to_test == ["p/0", "p/1"]  # what is not hung yet has not been tested either
    assert got.failed == ["p/3"]


def test_an_empty_rig_has_nothing_left():
    got = to_do(solve_rig(a_scene([])))
    assert (got.hung, got.to_hang, got.to_test, got.failed) == ([], [], [], [])
