"""What changed between two rigs, by hand and by what the sheets of both print."""

from __future__ import annotations

import re
from math import atan2, degrees

import msgspec
import numpy as np
import pytest

from aimcalc.landings.changes import Change, Changes, Side
from aimcalc.landings.compare import compare
from aimcalc.scene.model import Scene, Target, Unit
from aimcalc.solid.rig import SolidRig, solve_rig
from aimcalc.text.rows import rows_of
from tests.rigs import a_kind, a_pipe, a_scene, random_scene

DROP = 0.35
KINDS = [a_kind("k", drop_under=DROP), a_kind("narrow", field=12.0, drop_under=DROP)]
FACE = 1.65  # m, the scene's own


def unit(number: object, **values: object) -> Unit:
    given = {"position": "p", "number": str(number), "kind": "k", "at": 0.0, "target": "t"}
    return Unit(**{**given, **values})  # type: ignore[arg-type]


def scene(*units: Unit, trim: float = 6.0, targets: list[Target] | None = None) -> Scene:
    """A pipe over the plaster line; where nothing else is said one target 4 m upstage of it."""
    there = targets or [Target(name="t", x=0.0, y=4.0)]
    return a_scene(list(units), there, pipes=[a_pipe(trim=trim)], kinds=KINDS)


def side(of: Scene, *, print_only: bool = False) -> Side:
    return Side(solve_rig(of).answers, None if print_only else of)


def changed(old: Scene, new: Scene, *, print_only: bool = False) -> Changes:
    return compare(side(old, print_only=print_only), side(new))


def figures(found: Changes) -> dict[str, dict[str, tuple[object, object]]]:
    """Those that serve no more, by unit."""
    return {
        row.unit: {f.figure: (f.was, f.now) for f in row.figures if f.left} for row in found.rows
    }


def by_hand(trim: float, y: float = 4.0) -> int:
    """DOWN as printed: a unit on the centre line, its pivot a drop under the pipe, its target y upstage."""
    return round(degrees(atan2(trim - DROP - FACE, y)))


def test_a_lower_trim_changes_downs_by_the_right_triangle_and_no_pan():
    old, new = scene(unit(1), unit(2, at=3.0)), scene(unit(1), unit(2, at=3.0), trim=5.0)
    assert (by_hand(6.0), by_hand(5.0)) == (45, 37)
    found = changed(old, new)
    assert found.changes == (Change("trim", "pipe", "p", 6.0, 5.0),)
    # unit 2 is 5 m off on plan: arctan(4 / 5) = 38.7, arctan(3 / 5) = 31.0; 26 x 0.25 = 6.5 are allowed
    assert figures(found)["p/1"]["down"] == (45.0, 37.0)
    assert figures(found)["p/2"]["down"] == (39.0, 31.0)
    assert all("pan" not in told for told in figures(found).values())


def test_a_trim_within_tolerance_is_told_and_reprints_nothing():
    assert by_hand(6.0) - by_hand(5.5) == 4  # of 6.5 that it may be out
    found = changed(scene(unit(1)), scene(unit(1), trim=5.5))
    assert [change.what for change in found.changes] == ["trim"]
    assert found.rows == ()


def test_a_narrow_unit_leaves_its_tolerance_where_a_wide_one_does_not():
    units = [unit(1), unit(2, kind="narrow", at=0.5)]
    found = changed(scene(*units), scene(*units, trim=5.5))
    assert list(figures(found)) == ["p/2"]  # 12 x 0.25 = 3 degrees, and 4 are wanted
    assert found.rows[0].touch == ("aim",)
    # The old LANDS, 5.65 m out under a lens 5.15 m up, is at 42.4 degrees: 1.2 from 41.2.
    assert found.rows[0].who == ("ladder",)


def test_a_target_moved_under_the_tolerance_is_told_but_not_as_a_row():
    # 0.3 m to the side at 5.66 m from the lens: 3 degrees; 0.2 m nearer: 1.4 degrees more down
    near = [Target(name="t", x=0.3, y=3.8)]
    found = changed(scene(unit(1)), scene(unit(1), targets=near))
    assert found.changes == (Change("moved", "target", "t", (0.0, 4.0), (0.3, 3.8)),)
    assert found.rows == ()


def test_a_target_moved_by_more_is_a_row_with_its_pan():
    # arctan(1.5 / 4) = 20.6 degrees of pan, of 6.5 / cos(45) = 9.2
    found = changed(scene(unit(1)), scene(unit(1), targets=[Target(name="t", x=1.5, y=4.0)]))
    assert figures(found)["p/1"]["pan"] == (0.0, 21.0)
    assert found.rows[0].who == ("ladder", "deck")


def test_two_units_that_changed_places_are_told_as_swapped():
    targets = [Target(name="t", x=0.0, y=4.0), Target(name="u", x=3.0, y=4.0)]
    one, two = unit(1, channel="11", at=1.0), unit(2, at=-1.0, target="u", channel="12")
    old = scene(one, two, targets=targets)
    new = scene(
        unit(1, channel="12", target="u", at=1.0), unit(2, channel="11", at=-1.0), targets=targets
    )
    found = changed(old, new)
    assert found.changes == (Change("swapped", "unit", "p/1", other="p/2"),)
    assert set(figures(found)) == {"p/1", "p/2"}  # their rows are printed anew
    places = scene(
        msgspec.structs.replace(one, at=-1.0), msgspec.structs.replace(two, at=1.0), targets=targets
    )
    assert changed(old, places).changes == (Change("swapped", "unit", "p/1", other="p/2"),)
    assert changed(old, places).rows[0].touch == ("hang", "aim")


def test_three_units_that_went_round_are_no_swap():
    targets = [Target(name=n, x=x, y=4.0) for n, x in (("t", 0.0), ("u", 3.0), ("v", -3.0))]
    old = scene(*(unit(k, target=t) for k, t in enumerate("tuv")), targets=targets)
    new = scene(*(unit(k, target=t) for k, t in enumerate("uvt")), targets=targets)
    assert [change.what for change in changed(old, new).changes] == ["re-aimed"] * 3


def test_what_is_written_of_a_unit_goes_to_whom_it_concerns():
    old = scene(unit(1, channel="1", circuit="A", colour="L201"), unit(2), unit(3))
    new = scene(unit(1, channel="2", circuit="B", colour="L202"), unit(2), unit(4))
    found = changed(old, new)
    told = {(change.what, change.name): (change.was, change.now) for change in found.changes}
    assert told == {
        ("channel", "p/1"): ("1", "2"),
        ("circuit", "p/1"): ("A", "B"),
        ("colour", "p/1"): ("L201", "L202"),
        ("new", "p/4"): (None, None),
        ("gone", "p/3"): (None, None),
    }
    rows = {row.unit: row for row in found.rows}
    assert rows["p/1"].touch == ("colour", "plug", "desk")
    assert rows["p/1"].who == ("ladder", "programmer")
    assert (rows["p/4"].change, rows["p/4"].touch) == ("new", ("hang", "aim"))
    assert (rows["p/3"].change, rows["p/3"].touch) == ("gone", ("strike",))
    assert "p/2" not in rows


@pytest.mark.parametrize(("at", "printed"), [(1.002, False), (1.003, True), (1.005, True)])
def test_a_mark_counts_where_another_is_printed(at: float, printed: bool):
    found = changed(scene(unit(1, at=1.0)), scene(unit(1, at=at)))  # marks go by 5 mm
    assert [change.what for change in found.changes] == ["moved"]
    assert bool(found.rows) == printed


def test_feet_have_their_own_marks():
    old, new = side(scene(unit(1, at=0.995))), side(scene(unit(1, at=1.0)))
    assert not compare(old, new, "ft").rows  # 39.17 and 39.37 in, both 39 1/4
    assert compare(old, new, "m").rows


def test_a_print_alone_tells_positions_moved_whole_and_units_moved_along():
    old = scene(unit(1, at=1.0), unit(2, at=2.0), unit(3, at=-2.0))
    new = scene(unit(1, at=1.0), unit(2, at=2.5), unit(3, at=-2.0), trim=5.0)
    found = changed(old, new, print_only=True)
    lower, moved = found.changes
    assert (lower.what, lower.of, lower.name) == ("moved", "position", "p")
    assert lower.now == pytest.approx((0.0, 0.0, -1.0))
    assert (moved.what, moved.name) == ("moved", "p/2")
    assert set(figures(found)) == {"p/1", "p/2", "p/3"}
    assert "at" in figures(found)["p/2"]
    assert "at" not in figures(found)["p/1"]


def edited(base: Scene, rng: np.random.Generator) -> Scene:
    """The scene with some of everything changed."""
    replace = msgspec.structs.replace
    units = list(base.units)
    for k in rng.choice(len(units), 4, replace=False).tolist():
        off = tuple(np.add(units[k].point, rng.normal(0, 1.0, 3)).tolist())
        edit = [{"point": off}, {"channel": "7"}, {"colour": "L201"}]
        if units[k].at is not None:
            edit.append({"at": units[k].at + rng.normal(0, 0.5)})
        units[k] = replace(units[k], **edit[rng.integers(len(edit))])
    a, b = rng.choice(len(units), 2, replace=False).tolist()
    units[a], units[b] = (
        replace(units[a], point=units[b].point),
        replace(units[b], point=units[a].point),
    )
    units.pop(int(rng.integers(len(units))))
    lower = [replace(p, start=(*p.start[:2], p.start[2] - 0.3)) for p in base.pipes[:2]]
    return replace(base, units=tuple(units), pipes=(*lower, *base.pipes[2:]))


CASES = [(mount, seed) for mount in ("under", "out", "arm", "direct", "stand") for seed in range(3)]


@pytest.mark.parametrize(("mount", "seed"), CASES)
def test_the_same_rig_has_no_changes_and_both_orders_mirror_each_other(mount: str, seed: int):
    rng = np.random.default_rng(seed)
    base = random_scene(mount, 12, seed)
    new = edited(base, rng)
    for print_only in (False, True):
        old, then = side(base, print_only=print_only), side(new, print_only=print_only)
        for same in (old, then):
            assert compare(same, same).changes == ()
            assert compare(same, same).rows == ()
        there, back = compare(old, then), compare(then, old)
        assert len(there.changes) >= 3
        turned = {"new": "gone", "gone": "new"}
        assert {
            (turned.get(c.what, c.what), c.of, c.name, repr(c.now), repr(c.was))
            for c in there.changes
            if c.of != "position"
        } == {
            (c.what, c.of, c.name, repr(c.was), repr(c.now))
            for c in back.changes
            if c.of != "position"
        }
        assert {
            (r.unit, turned.get(r.change, r.change), f.figure, f.now, f.was, f.within, f.left)
            for r in there.rows
            for f in r.figures
        } == {
            (r.unit, r.change, f.figure, f.was, f.now, f.within, f.left)
            for r in back.rows
            for f in r.figures
        }


def printed_downs(rig: SolidRig) -> dict[str, int]:
    """DOWN and UP of every unit as its row prints them, below level counted plus."""
    found = {}
    for name, row in zip(rig.names, rows_of(rig, [], "m"), strict=True):
        figure = int(re.sub(r"\D", "", row.tip.angle) or 0)
        found[name] = -figure if row.tip.word == "UP" else figure
    return found


@pytest.mark.parametrize("seed", range(4))
def test_rows_are_those_whose_sheets_differ_by_more_than_the_unit_may_be_out(seed: int):
    base = random_scene("under", 30, seed)
    new = edited(base, np.random.default_rng(seed))
    a, b = solve_rig(base), solve_rig(new)
    was, now = printed_downs(a), printed_downs(b)
    allowed = {
        name: min(
            a.answers[a.by_name[name]].down_tolerance, b.answers[b.by_name[name]].down_tolerance
        )
        for name in now
    }
    expected = {name for name in now if abs(was[name] - now[name]) > allowed[name]}
    found = compare(Side(a.answers, base), Side(b.answers, new))
    assert expected
    assert {unit for unit, told in figures(found).items() if "down" in told} == expected


@pytest.mark.parametrize("seed", range(4))
def test_whoever_leaves_a_row_as_it_is_still_hits(seed: int):
    """Set as printed for the old rig, a unit that is not told of is within its tolerance in the new one."""
    base = random_scene("under", 40, seed)
    replace = msgspec.structs.replace
    pipes = tuple(
        replace(p, start=(*p.start[:2], p.start[2] + 0.6), end=(*p.end[:2], p.end[2] + 0.6))
        for p in base.pipes
    )
    new = replace(base, pipes=pipes)
    a, b = solve_rig(base), solve_rig(new)
    told = {row.unit for row in compare(Side(a.answers, base), Side(b.answers, new)).rows}
    kept = [k for k, name in enumerate(b.names) if name not in told]
    assert 3 < len(kept) < 40
    for k in kept:
        then, now = a.answers[a.by_name[b.names[k]]], b.answers[k]
        off = abs(round(then.down) - now.down)
        assert off <= now.down_tolerance + 0.5  # half a degree is what rounding may add


def test_what_is_printed_beside_the_figures_counts_too():
    old, new = scene(unit(1, note="iris"), unit(2)), scene(unit(1), unit(2, edge="soft", turn=90.0))
    rows = {row.unit: row for row in changed(old, new).rows}
    assert rows["p/1"].touch == ("read",)
    assert rows["p/1"].who == ("ladder",)
    assert figures(changed(old, new))["p/2"] == {"turn": (None, 90.0), "edge": (None, "soft")}
    assert rows["p/2"].touch == ("aim",)
