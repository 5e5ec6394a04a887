"""What a lens proposal would do, and that none is made which leaves more holes."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.coverage import lens
from aimcalc.coverage.lens import as_proposed, forecast, lens_outlook
from aimcalc.coverage.study import study_of
from aimcalc.scene.model import Solid, Stock, Target
from aimcalc.solid.rig import solve_rig
from tests.lit import a_lamp, a_unit, a_wash
from tests.shows import rig_of

STRIP = ((-4.0, -0.5), (4.0, -0.5), (4.0, 0.5), (-4.0, 0.5))
ROW = [Target(name=f"t{k}", x=2.0 * k - 3, y=0.0) for k in range(4)]


def a_row(kind, stock):
    kinds = [a_lamp("10", field=10.0, peak_cd=9000.0), a_lamp("34", field=34.0, peak_cd=9000.0)]
    units = [a_unit(k, 2.0 * k - 3, target=f"t{k}", kind=kind) for k in range(4)]
    scene = a_wash(units, ROW, kinds=kinds, acting=STRIP)
    return solve_rig(replace(scene, stock=tuple(Stock(kind=k, count=n) for k, n in stock.items())))


def test_lenses_that_are_too_narrow_are_changed_and_the_holes_close():
    rig = a_row("10", {"10": 4, "34": 4})
    outlook = lens_outlook(rig)
    assert {p.proposed for p in outlook.plan.units} == {"34"}
    wash = next(f for f in outlook.systems if f.system == "wash")
    assert wash.holes_now > 1.0
    assert wash.holes_then < 0.1 * wash.holes_now
    assert wash.then.u0 > wash.now.u0
    assert outlook.kept == []


def test_the_forecast_is_the_light_of_the_edited_scene():
    rig = a_row("10", {"10": 4, "34": 4})
    plan = lens_outlook(rig).plan
    scene = rig.scene
    edited = replace(scene, units=tuple(replace(u, kind="34") for u in scene.units))
    expected = study_of(solve_rig(edited)).systems["wash"]
    (found,) = [f for f in forecast(rig, plan) if f.system == "wash"]
    assert found.then == pytest.approx(expected.figures)
    assert found.holes_then == pytest.approx(sum(g.area for g in expected.gaps))


@pytest.mark.parametrize("changed", [(), (0,), (2, 3), (0, 1, 2, 3, 4, 5, 6, 7)])
def test_light_that_most_is_known_of_is_what_it_is_worked_out_from_nothing(changed):
    kinds = [a_lamp("10", field=10.0, peak_cd=9000.0), a_lamp("34", field=34.0, peak_cd=9000.0)]
    units = [
        a_unit(k, k - 3.5, to=(k - 3.5, 0.1 * k), kind="10", system=("wash", "cross")[k % 2])
        for k in range(8)
    ]
    scene = a_wash(units, (), kinds=kinds, acting=STRIP)
    flat = Solid(name="flat", panel=((0.3, -2, 0), (0.3, 2, 0), (0.3, 2, 3), (0.3, -2, 3)))
    scene = replace(scene, solids=(flat,))
    now = study_of(solve_rig(scene), spacing=0.1)
    edited = tuple(replace(u, kind="34") if k in changed else u for k, u in enumerate(units))
    then = solve_rig(replace(scene, units=edited))
    expected, found = study_of(then, spacing=0.1), study_of(then, spacing=0.1, known=[now])
    for name, system in expected.systems.items():
        np.testing.assert_allclose(found.systems[name].level, system.level, rtol=1e-9, atol=1e-9)
        np.testing.assert_array_equal(found.systems[name].counts, system.counts)
        assert len(found.systems[name].gaps) == len(system.gaps)
        moved = np.abs(system.level - now.systems[name].level).max() > 1.0
        assert moved == any(k in changed for k in now.systems[name].units.tolist())


@pytest.mark.parametrize("scene", ["playhouse", "raked", "studio"])
def test_no_system_is_left_with_more_holes_as_far_as_the_stock_has_what_it_has_now(scene):
    rig = rig_of(scene)
    outlook = lens_outlook(rig)
    present = {}
    for kind in rig.kinds:
        present[kind.name] = present.get(kind.name, 0) + 1
    enough = {s.kind: s.count >= present.get(s.kind, 0) for s in outlook.plan.stock}
    for found in outlook.systems:
        kinds = {u.kind for u in rig.units if u.system == found.system}
        if found.system != "all" and all(enough[kind] for kind in kinds):
            assert found.holes_then <= 1.1 * found.holes_now + 0.1


@pytest.mark.parametrize(("then", "kept"), [(2.29, []), (2.31, ["wash"])])
def test_a_system_keeps_what_it_has_from_a_tenth_and_the_smallest_hole_more(
    monkeypatch, then, kept
):
    # 2 m2 of holes now: a tenth more and the smallest hole told of, 0.1 m2, are 2.3 m2.
    def told(*given):
        return [f._replace(holes_now=2.0, holes_then=then) for f in forecast(*given)]

    monkeypatch.setattr(lens, "forecast", told)
    assert lens_outlook(a_row("10", {"10": 4, "34": 4})).kept == kept


def test_the_scene_is_left_as_it_was():
    rig = a_row("10", {"34": 4})
    before = rig.scene
    proposed = as_proposed(rig, lens_outlook(rig).plan)
    assert rig.scene is before
    assert {u.kind for u in rig.scene.units} == {"10"}
    assert {u.kind for u in proposed.scene.units} == {"34"}
    assert [u.number for u in proposed.units] == [u.number for u in rig.units]


def test_a_pool_that_is_asked_for_is_proposed_whatever_it_does():
    rig = a_row("34", {"10": 4, "34": 4})
    outlook = lens_outlook(rig, pool=0.7)
    assert {p.proposed for p in outlook.plan.units} == {"10"}
    wash = next(f for f in outlook.systems if f.system == "wash")
    assert wash.holes_then > wash.holes_now
