"""Kinds for a whole rig from the stock: worked cases, and every way tried where there are few."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.coverage.lens import lens_plan
from aimcalc.scene.model import Stock, Target
from aimcalc.solid.rig import solve_rig
from tests.lit import a_lamp, a_unit, a_wash

FOOT = 0.3048


def planned(units, targets, kinds, stock, **more):
    scene = a_wash(units, targets, kinds=kinds)
    scene = replace(scene, stock=tuple(Stock(kind=k, count=n) for k, n in stock.items()))
    return lens_plan(solve_rig(scene), **more)


# A throw of 22 ft and a pool of 8 ft wanted: fields of 19, 26 and 36 give 7'-4", 10'-2" and 14'-4"
# (common practice, no source, worked by 2 d tan(a / 2)); 19 is 8 % too small, 26 is 27 % too large.
def test_the_lens_nearest_to_the_wanted_pool():
    targets = [Target(name="a", x=0.0, y=0.0, z=5 - 22 * FOOT - 1)]
    kinds = [a_lamp("26", field=26.0), a_lamp("19", field=19.0), a_lamp("36", field=36.0)]
    stock = {"19": 1, "26": 1, "36": 1}
    plan = planned([a_unit(1, 0.0, target="a", kind="26")], targets, kinds, stock, pool=8 * FOOT)
    (one,) = plan.units
    assert one.proposed == "19"
    assert one.changes
    assert one.pool / FOOT == pytest.approx(7 + 4 / 12, abs=0.05)
    assert one.off == pytest.approx(22 * 2 * math.tan(math.radians(9.5)) / 8 - 1)
    assert one.cost == pytest.approx(-2 * math.log(1 + one.off), abs=1e-5)
    assert one.next_best == "26"
    assert one.next_cost == pytest.approx(
        math.log(22 * 2 * math.tan(math.radians(13)) / 8), abs=1e-5
    )
    assert plan.cost == pytest.approx(one.cost)
    assert [(s.kind, s.used, s.left, s.short) for s in plan.stock] == [
        ("19", 1, 0, 0),
        ("26", 0, 1, 0),
        ("36", 0, 1, 0),
    ]


def test_what_is_short_goes_where_it_counts_most():
    # pools of 2 m: the throws of 4, 6 and 9 m want 28.1, 18.9 and 12.7 degrees
    depths = {"a": 4.0, "b": 6.0, "c": 9.0}
    targets = [
        Target(name=n, x=float(k), y=0.0, z=4 - d) for k, (n, d) in enumerate(depths.items())
    ]
    units = [a_unit(k, float(k), target=n, kind="19") for k, n in enumerate(depths)]
    kinds = [a_lamp(str(f), field=float(f)) for f in (28, 19, 13)]
    plan = planned(units, targets, kinds, {"28": 3, "19": 0, "13": 1}, pool=2.0)
    by_target = {p.unit: p for p in plan.units}
    assert {p.first_choice for p in plan.units} == {"28", "19", "13"}
    assert by_target["p/2"].proposed == "13"
    assert by_target["p/0"].proposed == "28"
    assert by_target["p/1"].proposed == "28"
    assert by_target["p/1"].first_choice == "19"
    assert {s.kind: s.short for s in plan.stock} == {"28": 0, "19": 1, "13": 0}


def test_no_other_way_of_sharing_out_the_stock_costs_less():
    rng = np.random.default_rng(2)
    targets = [
        Target(name=f"t{k}", x=float(k) - 2, y=0.0, z=-float(rng.uniform(0, 6))) for k in range(5)
    ]
    kinds = [a_lamp(str(f), field=float(f)) for f in (10, 20, 30)]
    units = [a_unit(k, float(k) - 2, target=f"t{k}", kind="20") for k in range(5)]
    stock = {"10": 2, "20": 2, "30": 1}
    plan = planned(units, targets, kinds, stock, pool=1.8)
    throws = {
        u.unit: u.wanted_pool / 2 / math.tan(math.radians(u.wanted_field) / 2) for u in plan.units
    }

    def cost(unit, kind):
        ratio = math.log(2 * throws[unit] * math.tan(math.radians(float(kind)) / 2) / 1.8)
        return -2 * ratio if ratio < 0 else ratio

    every = [
        sum(cost(p.unit, kind) for p, kind in zip(plan.units, way, strict=True))
        for way in set(itertools.permutations([k for k, n in stock.items() for _ in range(n)]))
    ]
    assert plan.cost == pytest.approx(min(every))


def test_only_kinds_of_the_same_family_and_sort_are_taken():
    kinds = [
        a_lamp("spot", field=20.0),
        a_lamp("wide", field=30.0, family="fresnel"),
        a_lamp("pattern", field=30.0, has_gobo=True),
    ]
    units = [a_unit(1, 0.0, kind="spot", target="a"), a_unit(2, 1.0, kind="pattern", target="a")]
    targets = [Target(name="a", x=0.0, y=0.0)]
    plan = planned(units, targets, kinds, {"spot": 1, "wide": 9, "pattern": 1}, pool=3.0)
    assert {p.unit: p.proposed for p in plan.units} == {"p/1": "spot", "p/2": "pattern"}
    assert all(p.next_best is None for p in plan.units)


def test_a_place_for_which_nothing_is_left_is_told():
    units = [a_unit(1, 0.0), a_unit(2, 1.0)]
    plan = planned(units, [], [a_lamp()], {"k": 1})
    assert sorted(p.proposed or "" for p in plan.units) == ["", "k"]
    (empty,) = [p for p in plan.units if p.proposed is None]
    assert (empty.pool, empty.cost, empty.changes, empty.off) == (None, None, False, None)
    assert plan.stock[0].short == 1


def test_without_a_stock_the_scenes_kinds_are_there_without_end():
    targets = [Target(name="a", x=0.0, y=0.0), Target(name="b", x=2.0, y=0.0)]
    kinds = [a_lamp("20", field=20.0), a_lamp("40", field=40.0)]
    units = [a_unit(1, 0.0, target="a", kind="20"), a_unit(2, 2.0, target="b", kind="20")]
    plan = planned(units, targets, kinds, {}, pool=3.0)
    assert plan.stock == []
    assert {p.proposed for p in plan.units} == {"40"}  # 3 m at 4 m wants 41.1 degrees


def test_an_equal_wash_keeps_equal_light_where_pools_alone_would_not():
    # meeting neighbours alone would take the narrower, four times brighter kind; the rest keep theirs
    targets = [Target(name=f"t{k}", x=2.0 * k - 3, y=0.0) for k in range(4)]
    kinds = [a_lamp("dim", field=34.0, peak_cd=10000.0), a_lamp("hot", field=33.0, peak_cd=40000.0)]
    units = [a_unit(k, 2.0 * k - 3, target=f"t{k}", kind="dim") for k in range(4)]
    plan = planned(units, targets, kinds, {"dim": 4, "hot": 4})
    assert {p.proposed for p in plan.units} == {"dim"}
    assert all(p.light == pytest.approx(1.0) for p in plan.units)


def test_kept_units_keep_theirs_as_long_as_the_stock_has_them():
    targets = [Target(name="a", x=0.0, y=0.0), Target(name="b", x=2.0, y=0.0)]
    kinds = [a_lamp("20", field=20.0), a_lamp("40", field=40.0)]
    units = [
        a_unit(1, 0.0, target="a", kind="20"),
        a_unit(2, 2.0, target="b", kind="20"),
        a_unit(3, 0.0, target="a", kind="20", system="other"),
    ]
    plan = planned(units, targets, kinds, {"20": 1, "40": 9}, keep=["other"])
    found = {p.unit: (p.why, p.proposed) for p in plan.units}
    assert found["p/3"] == ("kept", "20")
    assert found["p/1"][1] == "40"


def test_a_kept_unit_that_the_stock_cannot_keep_is_told_its_misfit_and_nothing_else():
    # Pools of 20 and 40 degrees from one throw: ln(tan 20 / tan 10), 0.725; it used to be told as 100.725.
    targets = [Target(name="a", x=0.0, y=0.0)]
    kinds = [a_lamp("20", field=20.0), a_lamp("40", field=40.0)]
    units = [a_unit(1, 0.0, target="a", kind="20")]
    plan = planned(units, targets, kinds, {"40": 9}, keep=[units[0].system])
    misfit = math.log(math.tan(math.radians(20)) / math.tan(math.radians(10)))
    assert (plan.units[0].why, plan.units[0].proposed) == ("kept", "40")
    assert plan.units[0].cost == pytest.approx(misfit)
    assert plan.cost == pytest.approx(misfit)
