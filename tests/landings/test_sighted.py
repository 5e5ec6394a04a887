"""Units turned by their sight tape: where marks lie by hand, and the budget against sampled hands."""

from __future__ import annotations

from math import cos, radians
from pathlib import Path

import msgspec
import numpy as np
import pytest

from aimcalc.landings import forward as f
from aimcalc.landings.budget import budget_of
from aimcalc.landings.sighted import hand_widths, mark_at, sighted
from aimcalc.rig.rig import Rig, allowed
from aimcalc.scene.model import Errors
from aimcalc.show import Show
from tests.landings.noisy import a_rig

ROOT = Path(__file__).parents[2]
SIGHT = 0.08  # m
OUT = 3.0  # m: where a tape lies by default
SAMPLES = 3000


def a_taped_rig(**errors: float) -> tuple[Rig, np.ndarray, np.ndarray]:
    rig = a_rig(np.random.default_rng(3), pipes=2, units=6, sight=SIGHT, **errors)
    own = msgspec.structs.replace(rig.scene.settings, tolerance=0.12)
    rig = Rig(msgspec.structs.replace(rig.scene, settings=own))
    return rig, rig.aims.sight, np.full(len(rig.units), OUT)


def test_a_mark_lies_on_the_line_from_the_pivot_to_the_target_on_plan() -> None:
    """By hand: where that line is 3 m from the pipe, the plan of a level pipe across the stage."""
    rig, sight, out = a_taped_rig()
    for k in np.flatnonzero(np.isfinite(sight)).tolist():
        pivot, face = rig.aims.pivot[:, k], rig.arrays.point[:, k]
        share = OUT / abs(face[1] - pivot[1])
        pipe = rig.positions[k]
        at = mark_at(rig, k, float(sight[k]), OUT) + np.array([0.0, *pipe.start[1:]])
        assert at[:2] == pytest.approx((pivot + share * (face - pivot))[:2], abs=1e-9)
        there = sighted(rig, f.printed(rig), sight, out)
        assert there.by[k] == f.SIGHT
        told = there.mark[0, k]  # as seen from the middle, which is on the centre line
        assert told == pytest.approx(round(at[0] / 0.05) * 0.05, abs=1e-9)  # marks go to 5 cm


def test_a_mark_missed_by_a_little_turns_by_as_much_as_the_tape_is_away() -> None:
    """By hand: e aside at 3 m out turns a unit that is panned by p by e cos(p)^2 / 3 m."""
    rig, sight, out = a_taped_rig()
    given = sighted(rig, f.printed(rig), sight, out)
    pan = np.degrees(rig.aims.pan)
    wide = hand_widths(rig, given)
    for k in np.flatnonzero(given.by == f.SIGHT).tolist():
        assert wide[k] == pytest.approx(SIGHT * cos(radians(pan[k])) ** 2 / OUT, rel=0.03)
    rest = given.by != f.SIGHT
    assert np.degrees(wide[rest]) == pytest.approx(np.full(rest.sum(), 2.0))  # set_pan


def test_chances_by_tape_are_those_of_hands_that_miss_their_mark_along_it() -> None:
    """Sampled: the mark itself is moved along the tape, by the pipe's own way; no dial is asked."""
    rig, sight, out = a_taped_rig(dial=30.0)
    budget = budget_of(rig, (sight, out))
    given = sighted(rig, f.printed(rig), sight, out)
    tape = np.flatnonzero(given.by == f.SIGHT)
    assert tape.size > 6
    units, given, face = f.some(f.held(rig), tape), f.some(given, tape), rig.arrays.point[:, tape]
    axis, rng, missed = rig.aims.axis[:, tape], np.random.default_rng(7), []
    plain = Errors()
    widths = np.zeros((9, 1))
    widths[[f.TRIM, f.SLOPE, f.MOVED, f.DROP], 0] = plain.trim, plain.slope, plain.pipe, plain.drop
    widths[f.MARKS, 0] = np.hypot(plain.marks, plain.mark)
    turns = plain.skew, plain.kick, np.hypot(plain.set_down, plain.level)
    widths[[f.SKEW, f.KICK, f.DOWN], 0] = np.radians(turns)
    for _ in range(SAMPLES):
        off = rng.normal(size=(9, tape.size)) * widths
        mark = given.mark + units.tube * SIGHT * rng.normal(size=tape.size)
        spot = f.landed(units, given._replace(mark=mark), f.plane_at(face, axis), off).point
        ways = [p - rig.aims.lens[:, tape] for p in (spot, face)]
        a, b = (way / np.linalg.norm(way, axis=0) for way in ways)
        angle = np.arccos(np.clip((a * b).sum(axis=0), -1, 1))
        missed.append(angle > allowed(rig, tape, a - b))
    assert np.mean(missed, axis=0) == pytest.approx(budget.nudge[tape], abs=0.03)
    dial = next(each for each in budget.helps if each.what == "dial")
    rest = np.setdiff1d(np.arange(len(rig.units)), tape)
    assert budget.expected - dial.expected <= budget.nudge[rest].sum() + 1e-9


def test_a_scene_says_by_its_errors_that_pan_is_set_by_the_tape() -> None:
    by_dial = Show.read(ROOT / "scenes" / "playhouse")
    by_tape = Show.read(ROOT / "scenes" / "playhouse", what_if=("errors.sight=1 cm",))
    marked = np.isfinite(by_tape.rig.tapes.sight)
    assert 10 < marked.sum() < marked.size
    before, after = (show.budget.widths[f.PAN] for show in (by_dial, by_tape))
    assert (after[marked] < before[marked]).all()
    assert np.array_equal(before[~marked], after[~marked], equal_nan=True)
    assert by_tape.budget.expected < by_dial.budget.expected
