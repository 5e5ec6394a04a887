"""The fewest units to touch from one show to another: by hand, and against trying every matching."""

from __future__ import annotations

from itertools import permutations
from math import atan2, cos, degrees, floor, hypot, radians
from typing import Any

import msgspec
import numpy as np
import pytest

from aimcalc.landings.changeover import Changeover, Job, changeover
from aimcalc.landings.changes import Side
from aimcalc.landings.patches import matched
from aimcalc.scene.model import Scene, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene

DROP, FACE, TRIM, Y = 0.35, 1.65, 6.0, 4.0
MAY = 26.0 * 0.25  # degrees: a quarter of the field
KINDS = [a_kind("k", drop_under=DROP), a_kind("other", drop_under=DROP)]
TARGETS = [Target(name=n, x=x, y=Y) for n, x in (("t", -3.0), ("u", 0.0), ("v", 3.0))]


def unit(number: object, **values: object) -> Unit:
    given = {"position": "p", "number": str(number), "kind": "k", "at": 0.0, "target": "u"}
    return Unit(**{**given, **values})  # type: ignore[arg-type]


def scene(*units: Unit, trim: float = TRIM) -> Scene:
    pipes = [a_pipe(trim=trim), a_pipe("q", trim=trim, y=1.0)]
    return a_scene(list(units), TARGETS, pipes=pipes, kinds=KINDS)


def side(of: Scene, *, print_only: bool = False) -> Side:
    return Side(solve_rig(of).answers, None if print_only else of)


def over(old: Scene, new: Scene, *, print_only: bool = False) -> Changeover:
    return changeover(side(old, print_only=print_only), side(new, print_only=print_only))


def told(found: Changeover) -> dict[str | None, tuple[str | None, tuple[str, ...]]]:
    """By new unit (None: struck) which does it and what is to be done."""
    return {job.unit: (job.was, job.to_do) for job in found.jobs}


def test_the_same_show_touches_nothing():
    there = scene(unit(1, at=1.0), unit(2, at=-1.0, target="t"))
    for print_only in (False, True):
        found = over(there, there, print_only=print_only)
        assert (found.touch, found.patched, found.touch_patched) == (0, (), None)


def test_units_that_are_numbered_otherwise_are_patched_and_not_moved():
    old = scene(unit(1, at=1.0, channel="1"), unit(2, at=-1.0, target="t", channel="2"))
    new = scene(unit(2, at=1.0, channel="1"), unit(1, at=-1.0, target="t", channel="7"))
    found = over(old, new)
    assert found.touch == 0
    assert set(found.jobs) == {
        Job("p/2", "p/1", "p", (), "1", "1"),
        Job("p/1", "p/2", "p", (), "7", "2"),
    }
    assert over(old, new, print_only=True).touch == 0


def test_each_sort_of_work_is_told_by_itself():
    # From 0.5 m SL to u and to v: arctan(0.5 / 4) = 7 SR and arctan(2.5 / 4) = 32 SL
    old = scene(
        unit(1, at=-4.0, target="t"),
        unit(2, at=0.5),
        unit(3, at=2.0, colour="amber"),
        unit(4, at=4.0, circuit="A"),
        unit(5, at=5.0, kind="other"),
    )
    new = scene(
        unit(1, at=-4.0, target="t", channel="9"),
        unit(2, at=0.5, target="v"),
        unit(3, at=2.0, colour="blue"),
        unit(4, at=4.0, circuit="B"),
        unit(6, at=-5.0, position="q"),
    )
    found = over(old, new)
    assert told(found) == {
        "p/1": ("p/1", ()),
        "p/2": ("p/2", ("aim",)),
        "p/3": ("p/3", ("colour",)),
        "p/4": ("p/4", ("plug",)),
        "q/6": (None, ("hang",)),
        None: ("p/5", ("strike",)),
    }
    assert found.touch == 5


def test_a_mark_that_the_new_show_lacks_goes_to_the_nearest_one_that_it_wants():
    old = scene(unit(1, at=-4.0), unit(2, at=4.0), unit(3, at=0.0))
    new = scene(unit(1, at=4.5), unit(2, at=-4.5), unit(3, at=0.0))
    found = told(over(old, new))
    assert {name: was for name, (was, _) in found.items()} == {
        "p/1": "p/2",
        "p/2": "p/1",
        "p/3": "p/3",
    }
    assert found["p/1"][1][0] == found["p/2"][1][0] == "move"


def test_a_kind_never_stands_in_for_another_nor_a_position():
    old = scene(unit(1, at=1.0), unit(2, at=-1.0))
    for new in (
        scene(unit(1, at=1.0, kind="other"), unit(2, at=-1.0)),
        scene(unit(1, at=1.0, position="q"), unit(2, at=-1.0)),
    ):
        works = [job.to_do for job in over(old, new).jobs if job.to_do]
        assert works == [("hang",), ("strike",)]


def test_a_trim_within_tolerance_touches_nobody():
    there = (unit(1, at=0.0), unit(2, at=1.0))
    # arctan(4.0 / 4) = 45, arctan(3.5 / 4) = 41.2 degrees: 4 of 6.5; at 4.0 m arctan(2.0 / 4) = 26.6
    assert over(scene(*there), scene(*there, trim=5.5)).touch == 0
    assert over(scene(*there), scene(*there, trim=4.0)).touch == 2


def test_swapped_jobs_are_patched_and_the_distance_is_told():
    old = scene(unit(1, at=1.0, target="t", channel="1"), unit(2, at=-1.0, target="v", channel="2"))
    new = scene(unit(1, at=1.0, target="v", channel="2"), unit(2, at=-1.0, target="t", channel="1"))
    found = over(old, new)
    # As plotted both turn: arctan(-4 / 4) = 45 SR becomes arctan(2 / 4) = 27 SL.
    assert [job.to_do for job in found.jobs] == [("aim",), ("aim",)]
    assert (found.touch, found.touch_patched) == (2, 0)
    assert [(p.unit, p.by, p.channel, p.to_do) for p in found.patched] == [
        ("p/1", "p/2", "2", ()),
        ("p/2", "p/1", "1", ()),
    ]
    assert found.patched[0].apart == pytest.approx(2.0)


def test_a_job_in_another_colour_is_not_patched():
    old = scene(unit(1, at=1.0, target="t", colour="amber"), unit(2, at=-1.0, target="v"))
    new = scene(unit(1, at=1.0, target="v", colour="amber"), unit(2, at=-1.0, target="t"))
    assert (over(old, new).touch, over(old, new).touch_patched) == (2, None)


def test_a_new_unit_may_take_the_job_whose_unit_already_lights_another():
    old = scene(unit(1, at=1.0, target="t"))
    new = scene(unit(1, at=1.0, target="v"), unit(2, at=-1.0, target="t"))
    found = over(old, new)
    # As plotted 1 is re-aimed and 2 hung; 1 already lights t, so the new one may light v.
    assert (found.touch, found.touch_patched) == (2, 1)
    assert [(p.unit, p.by, p.to_do) for p in found.patched] == [
        ("p/1", "p/2", ("hang",)),
        ("p/2", "p/1", ()),
    ]


def whole(angle: float) -> float:
    """As printed: whole degrees, halves away from zero."""
    return floor(abs(angle) + 0.5) * (1 if angle >= 0 else -1)


X = {target.name: target.x for target in TARGETS}


def angles(at: float, target: str) -> tuple[float, float]:
    """Pan to SL and down by right triangles, degrees; pivot and lens are one."""
    off = X[target] - at
    return degrees(atan2(off, Y)), degrees(atan2(TRIM - DROP - FACE, hypot(off, Y)))


def serves(was: Unit, now: Unit) -> bool:
    """Same mark, same colour, printed angles within tolerance."""
    (pan, down), (pan_now, down_now) = angles(was.at, was.target), angles(now.at, now.target)  # type: ignore[arg-type]
    may_pan = min(MAY / cos(radians(d)) for d in (down, down_now))
    return (
        was.at == now.at
        and was.colour == now.colour
        and abs(whole(pan) - whole(pan_now)) <= may_pan
        and abs(whole(down) - whole(down_now)) <= MAY
    )


def lights(was: Unit, now: Unit) -> bool:
    """Colour right, and the face of the job within tolerance of the axis as it is."""

    def way(target: str) -> Any:
        v = np.array([X[target] - was.at, Y, FACE - TRIM + DROP])  # type: ignore[operator]
        return v / np.linalg.norm(v)

    apart = degrees(np.arccos(min(1.0, way(was.target) @ way(now.target))))  # type: ignore[arg-type]
    return was.colour == now.colour and apart <= MAY


def shows(seed: int) -> tuple[list[Unit], list[Unit]]:
    """Two shows of up to five units, each on a mark of its own."""
    rng = np.random.default_rng(seed)
    found = []
    for numbers in ("abcde", "bcdea"):
        many = int(rng.integers(2, 6))
        marks = rng.choice(np.arange(-3.0, 3.5, 1.0), many, replace=False)
        found.append(
            [
                unit(
                    numbers[k],
                    at=float(mark),
                    target="tuv"[rng.integers(3)],
                    colour=("amber", "blue")[rng.integers(2)],
                )
                for k, mark in enumerate(marks)
            ]
        )
    return found[0], found[1]


@pytest.mark.parametrize("seed", range(60))
def test_no_matching_touches_fewer_of_all_that_there_are(seed: int):
    old, new = shows(seed)
    found = over(scene(*old), scene(*new))
    size = max(len(old), len(new))
    least = min(
        sum(
            1
            if i >= len(old) or j >= len(new)  # struck, or hung
            else not serves(old[i], new[j])
            for j, i in enumerate(order)
        )
        for order in permutations(range(size))
    )
    assert found.touch == least


@pytest.mark.parametrize("seed", range(60))
def test_no_change_of_jobs_touches_fewer_of_all_that_there_are(seed: int):
    old, new = shows(seed)
    found = over(scene(*old), scene(*new))
    by_mark = {each.at: each for each in old}
    struck = sum(job.to_do == ("strike",) for job in found.jobs)

    def touched(place: Unit, job: Unit) -> bool:
        stays = by_mark.get(place.at)
        if stays is None:
            return True
        return not (serves(stays, job) if place is job else lights(stays, job))

    least = struck + min(
        sum(touched(place, job) for place, job in zip(new, order, strict=True))
        for order in permutations(new)
    )
    fewest = found.touch if found.touch_patched is None else found.touch_patched
    assert fewest == least
    assert (found.touch_patched is None) == (found.touch == least)
    if found.patched:
        assert sorted(p.unit for p in found.patched) == sorted(p.by for p in found.patched)


@pytest.mark.parametrize("seed", range(40))
def test_a_matching_is_the_least_part_by_part(seed: int):
    rng = np.random.default_rng(seed)
    rows, columns = rng.integers(1, 6, 2).tolist()
    costs = [
        [tuple(rng.integers(0, most, 1)[0] for most in (2, 4, 900)) for _ in range(columns)]
        for _ in range(rows)
    ]
    chosen = matched(costs)
    assert len(chosen) == min(rows, columns)
    assert all(len({pair[k] for pair in chosen}) == len(chosen) for k in (0, 1))

    def total(pairs: Any) -> tuple[int, ...]:
        return tuple(sum(costs[i][j][part] for i, j in pairs) for part in range(3))

    wide = rows <= columns
    every = permutations(range(max(rows, columns)), min(rows, columns))
    least = min(total([(k, m) if wide else (m, k) for k, m in enumerate(order)]) for order in every)
    assert total(chosen) == least


def test_units_on_one_mark_are_matched_by_what_they_do():
    """Two on one mark, numbered the other way round: each keeps its job."""
    one, two = unit(1, at=1.0, target="t"), unit(2, at=1.0, target="v")
    renamed = (msgspec.structs.replace(one, number="2"), msgspec.structs.replace(two, number="1"))
    found = told(over(scene(one, two), scene(*renamed)))
    assert found == {"p/2": ("p/1", ()), "p/1": ("p/2", ())}


def test_a_pipe_that_has_moved_carries_its_units():
    old, new = scene(unit(1), unit(2, at=1.0)), scene(unit(1), unit(2, at=1.0), trim=5.5)
    assert over(old, new, print_only=True).touch == 0


def test_nothing_hangs_in_either():
    assert over(scene(), scene()) == Changeover(())
    assert told(over(scene(), scene(unit(1)))) == {"p/1": (None, ("hang",))}
