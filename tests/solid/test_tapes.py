"""Sight tapes: how far out each lies, side by side of each pipe, worked by hand."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.findings import findings
from aimcalc.scene.model import Seats, Solid, Stage, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import FOOT, a_pipe, a_scene

# One unit on the centre line of a pipe over the plaster line, turned 45 degrees to SL: its mark is as far
# SL as the tape is out. The pivot is 14 in = 0.356 m under a trim of 6 m: 5.644 m up.
UNIT = Unit(position="p", number="1", kind="k", at=0.0, point=(6.0, 6.0, 1.5))
BACK = Unit(position="p", number="2", kind="k", at=1.0, point=(1.0, -6.0, 1.5))


def floor(y0=-8.0, y1=8.0):
    return Stage(outline=((-9.0, y0), (9.0, y0), (9.0, y1), (-9.0, y1)))


def solid(*box, stand_on=False):
    return Solid(name="thing", box=box, stand_on=stand_on)


def panel(x0, x1, y, z0, z1):
    corners = ((x0, y, z0), (x1, y, z0), (x1, y, z1), (x0, y, z1))
    return Solid(name="thing", panel=corners)


def scene(*units, seats=(), own=None, **more):
    more.setdefault("stage", floor())
    made = a_scene(list(units or [UNIT]), pipes=[a_pipe(trim=6.0, y=0.0, sight_out=own)], **more)
    return replace(made, seats=tuple(seats))


def rules(rig):
    return [f.rule for f in findings(rig) if "tape" in f.rule]


SEATS = Seats(name="stalls", outline=((-9, 2.5), (9, 2.5), (9, 3.5), (-9, 3.5)), eye=1.0)


@pytest.mark.parametrize(
    ("given", "out"),
    [
        ({}, 3.0),  # nothing is in the way of the usual 3 m
        ({"stage": Stage()}, 3.0),  # nothing is known
        ({"stage": floor(y1=2.9)}, 2.0),
        ({"stage": floor(y1=3.02)}, 2.0),  # 2 cm from the edge
        ({"stage": floor(y1=1.5)}, 1.0),
        ({"stage": floor(y1=0.9)}, None),
        ({"seats": [SEATS]}, 4.0),  # 2 m and 4 m are as near: the farther is the finer
        # A box at x 1 to 4, y 2.5 to 3.5. The way to the mark at (4, 4) is 5.644 (1 - 3.5 / 4) = 0.71 m up
        # where it leaves the box behind.
        ({"solids": [solid(1, 2.5, 0, 4, 3.5, 0.5)]}, 4.0),
        ({"solids": [solid(1, 2.5, 0, 4, 3.5, 1.0)]}, 2.0),
        # All of the tape on one platform; across the edge of one.
        ({"solids": [solid(-6, 2, 0, 6, 6, 0.6, stand_on=True)]}, 3.0),
        ({"solids": [solid(1, 2, 0, 6, 3.5, 0.6, stand_on=True)]}, 4.0),
        ({"solids": [panel(-8, 8, 2.5, 0.0, 5.0)]}, 2.0),  # a drop
        # A border 1 m out, 3.2 m up. The way to the mark is 5.644 (1 - 1 / out) up there: 3.76 for 3 m,
        # 2.82 for 2 m, 4.23 for 4 m.
        ({"solids": [panel(-8, 8, 1.0, 3.2, 5.5)]}, 2.0),
        ({"solids": [panel(-8, 8, 1.0, 3.9, 5.5)]}, 3.0),
    ],
)
def test_a_tape_lies_at_the_whole_distance_nearest_to_3_m_that_is_clear(given, out):
    rig = solve_rig(scene(**given))
    (answer,) = rig.answers
    assert answer.sight_out == out
    assert answer.sight == pytest.approx(out)  # tan 45 = 1; no tape, no mark
    assert rules(rig) == ([] if out else ["no-tape"])


@pytest.mark.parametrize(("y1", "feet"), [(11.0, 10), (9.5, 9), (2.2, 2), (0.5, None)])
def test_in_a_scene_in_feet_it_is_whole_feet(y1, feet):
    rig = solve_rig(scene(stage=floor(y1=y1 * FOOT), unit="ft"))
    assert rig.answers[0].sight_out == (feet and pytest.approx(feet * FOOT))


def test_each_side_of_a_pipe_has_a_tape_of_its_own():
    rig = solve_rig(scene(UNIT, BACK, stage=floor(y0=-1.5, y1=4.0)))
    assert [(t.side, t.out) for t in rig.tapes.every] == [("US", 3.0), ("DS", 1.0)]
    assert [a.sight_out for a in rig.answers] == [3.0, 1.0]
    rig = solve_rig(scene(UNIT, BACK, stage=floor(y0=-0.5, y1=4.0)))
    assert [a.sight for a in rig.answers] == [pytest.approx(3.0), None]


def test_a_unit_past_60_degrees_has_no_say_in_where_the_tape_lies():
    far = Unit(position="p", number="2", kind="k", at=8.0, point=(8.9, 0.2, 1.5))
    rig = solve_rig(scene(UNIT, far))
    assert [a.sight_out for a in rig.answers] == [3.0, None]


def test_what_is_typed_for_a_pipe_wins_over_what_is_typed_for_all():
    assert solve_rig(scene(sight_out=2.0)).answers[0].sight_out == 2.0
    assert solve_rig(scene(sight_out=2.0, own=4.0)).answers[0].sight_out == 4.0


def test_a_typed_distance_is_kept_and_warned_of_with_what_is_in_the_way():
    rig = solve_rig(scene(sight_out=3.0, stage=floor(y1=2.9)))
    assert rig.answers[0].sight_out == 3.0
    (told,) = [f for f in findings(rig) if f.rule == "tape-cannot-lie"]
    assert told.severity == "warn"
    assert told.says == "The sight tape 3.00 m US of the pipe runs off the deck."
    assert told.do == 'Give the pipe sight_out = "2 m", the nearest that can be laid.'


NAMED = {
    "lies in the seats (stalls)": {"seats": [SEATS]},
    "meets thing": {"solids": [solid(1, 2.5, 0, 4, 3.5, 1.0)]},
    "is hidden by thing": {"solids": [panel(-8, 8, 2.5, 0.0, 5.0)]},
}


@pytest.mark.parametrize("words", NAMED)
def test_what_is_in_the_way_is_named(words):
    rig = solve_rig(scene(sight_out=3.0, **NAMED[words]))
    assert [f.says for f in findings(rig) if f.rule == "tape-cannot-lie"] == [
        f"The sight tape 3.00 m US of the pipe {words}."
    ]


def random_stage(seed):
    """A deck and three boxes about, with units that face both ways."""
    rng = np.random.default_rng(seed)
    boxes = []
    for k in range(3):
        x, y = rng.uniform((-5, -6), (5, 6))
        wide, deep, high = rng.uniform((0.5, 0.5, 0.2), (4, 2, 3))
        boxes.append(Solid(name=f"box {k}", box=(x, y, 0.0, x + wide, y + deep, high)))
    y0, y1 = rng.uniform(-6, -0.5), rng.uniform(1.5, 7)
    return {"stage": floor(y0, y1), "solids": boxes, "unit": ("m", "ft")[seed % 2]}


def typed(text):
    number, feet = text.removesuffix(" m").removesuffix("'"), text.endswith("'")
    return float(number) * (FOOT if feet else 1.0)


def test_the_advice_given_can_be_laid():
    """Each advised distance, typed in, is warned of no more; without one, what is said to do is enough."""
    given = {"set": 0, "left out": 0}
    for seed in range(60):
        stage, units = random_stage(seed), (UNIT, BACK) if seed % 3 else (UNIT,)
        told = findings(solve_rig(scene(*units, sight_out=3.1, **stage)))
        for found in (f for f in told if f.rule == "tape-cannot-lie"):
            if found.do.startswith("Give"):
                better = typed(found.do.split('"')[1])
                mended = scene(*units, sight_out=3.1, own=better, **stage)
                given["set"] += 1
            else:
                mended = scene(*units, **stage)
                given["left out"] += 1
            assert "tape-cannot-lie" not in rules(solve_rig(mended))
    assert min(given.values()) >= 3
