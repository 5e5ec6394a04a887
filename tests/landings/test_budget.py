"""The error budget: chances against scipy, ellipses by hand, all of it against the exact model, sampled."""

from __future__ import annotations

from itertools import pairwise
from math import cos, exp, hypot, pi, radians, sin, sqrt, tan

import msgspec
import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import ndtr  # the normal distribution, a number at a time

from aimcalc.landings import forward as f
from aimcalc.landings.budget import Budget, budget_of, chance
from aimcalc.rig.rig import Rig, allowed
from aimcalc.scene.model import Correction, Errors, Scene, Target, Unit
from tests.rigs import a_kind, a_pipe, a_scene, random_scene
from tests.shows import rig_of

NO_ERRORS = Errors(**dict.fromkeys(Errors.__struct_fields__, 0.0))
SAMPLES, LOT = 4000, 100  # rigs, so many at once


def chance_by_lines(mean: np.ndarray, covariance: np.ndarray) -> float:
    """The chance to be in the disc of radius 1, line by line: scipy's normal and scipy's quadrature."""
    wide = sqrt(covariance[0, 0])
    slope = covariance[0, 1] / covariance[0, 0]
    rest = sqrt(covariance[1, 1] - slope * covariance[0, 1])

    def line(turn: float) -> float:
        x, half = sin(turn), cos(turn)  # so that the edges of the disc are smooth
        middle = mean[1] + slope * (x - mean[0])
        ends = ndtr((half - middle) / rest) - ndtr((-half - middle) / rest)
        dense = exp(-(((x - mean[0]) / wide) ** 2) / 2) / (wide * sqrt(2 * pi))
        return half * dense * ends

    low, high = np.arcsin(np.clip(mean[0] + np.array([-9, 9]) * wide, -1, 1))
    cuts = np.linspace(low, high, 9)
    parts = [quad(line, *ends, epsabs=1e-12) for ends in pairwise(cuts)]
    return sum(part[0] for part in parts)


@pytest.mark.parametrize(("ratio", "right"), [(1, 1e-9), (3, 1e-6), (6, 1e-5), (30, 1e-3)])
def test_chances_are_those_of_a_numerical_library(ratio: float, right: float) -> None:
    rng = np.random.default_rng(4)
    for case in range(60):
        turn, wide = rng.uniform(0, np.pi), 10 ** rng.uniform(-1.3, 0.5)
        way = np.array([[cos(turn), -sin(turn)], [sin(turn), cos(turn)]])
        covariance = way @ np.diag([wide**2, (wide / ratio) ** 2]) @ way.T
        mean = np.zeros(2) if case % 2 else rng.uniform(-0.6, 0.6, size=2)
        told = chance(mean[:, None], covariance[..., None], np.eye(2)[..., None])[0]
        assert told == pytest.approx(chance_by_lines(mean, covariance), abs=right)


def test_an_oval_is_scaled_to_a_disc_along_its_own_ways() -> None:
    """A normal of widths 1 and 1, an ellipse of 2 by 1: hand-written sum over a grid of the plane."""
    turn = radians(30)
    scaled = np.array([[cos(turn) / 2, sin(turn) / 2], [-sin(turn), cos(turn)]])[..., None]
    told = chance(np.array([[0.3], [0.2]]), np.eye(2)[..., None], scaled)[0]
    x, y = np.meshgrid(*[np.arange(-6, 6, 0.01) + 0.005] * 2)
    along, beside = x * cos(turn) + y * sin(turn), y * cos(turn) - x * sin(turn)
    dense = np.exp(-((x - 0.3) ** 2 + (y - 0.2) ** 2) / 2) / (2 * np.pi)
    assert told == pytest.approx(dense[(along / 2) ** 2 + beside**2 < 1].sum() * 0.01**2, abs=2e-4)


def test_a_spot_has_the_same_chance_to_the_last_bit_alone_and_beside_others() -> None:
    """So that after a change only the units that it moved are asked anew."""
    rng = np.random.default_rng(11)
    mean, root, scaled = (
        rng.normal(size=(2, 37)),
        rng.normal(size=(2, 2, 37)),
        rng.normal(size=(2, 2, 37)),
    )
    given = mean, np.einsum("ijn,kjn->ikn", root, root), scaled
    every = chance(*given)
    for some in (slice(5, 6), slice(9, 12), slice(0, 36, 5)):
        assert chance(*(column[..., some] for column in given)).tobytes() == every[some].tobytes()


def one(down: float, **errors: float) -> Scene:
    """One unit of 20 degrees at a whole degree of down, 5 m over its face, with these errors alone."""
    drop, face = 0.4, 1.5
    unit = Unit(position="p", number="1", kind="k", at=0.0, target="t")
    target = Target(name="t", x=0.0, y=5.0 / tan(radians(down)), face_height=face)
    scene = a_scene(
        [unit],
        [target],
        pipes=[a_pipe(trim=5.0 + face + drop)],
        kinds=[a_kind(drop_under=drop, field=20.0)],
    )
    return msgspec.structs.replace(scene, errors=msgspec.structs.replace(NO_ERRORS, **errors))


@pytest.mark.parametrize("down", [30, 45, 60])
def test_a_trim_alone_by_hand(down: float) -> None:
    # The axis keeps its angles and goes up with the pipe: e up is e cos(down) across the axis, at a throw of
    # 5 / sin(down); on the level plane e / tan(down) to and fro. Tolerance is a quarter of 20 degrees.
    budget = budget_of(Rig(one(down, trim=0.3)))
    tangent = 0.3 * cos(radians(down)) / (5 / sin(radians(down)))
    assert budget.covariance[:, :, 0] == pytest.approx(np.diag([0, tangent**2]), abs=1e-12)
    assert budget.nudge[0] == pytest.approx(2 * ndtr(-tan(radians(5)) / tangent), abs=1e-6)
    assert budget.in_field[0] == pytest.approx(1 - 2 * ndtr(-tan(radians(10)) / tangent), abs=1e-6)
    # 95 % of a normal in two dimensions are within 2.4477 widths of its ellipse (chi-square, 2: 5.991).
    assert budget.long[0] == pytest.approx(2 * 2.4477 * 0.3 / tan(radians(down)), rel=1e-4)
    assert budget.wide[0] == pytest.approx(0.0, abs=1e-6)


def test_a_measured_trim_has_the_width_of_a_measurement() -> None:
    scene = one(45, trim=0.3)
    pipes = (msgspec.structs.replace(scene.pipes[0], measured=True),)
    budget = budget_of(Rig(msgspec.structs.replace(scene, pipes=pipes)))
    assert budget.widths[f.TRIM, 0] == pytest.approx(0.02)  # DESIGN: 0.02 m where measured


def test_what_corrections_have_settled_is_as_wide_as_their_interval() -> None:
    """95 % of a normal are within 1.96 widths: 0.0392 m to either side is a width of 0.02 m."""
    scene = one(45, trim=0.3, skew=2.0, drop=0.05, marks=0.1)
    made = (
        Correction(what="trim", of="p", value=-0.1, low=-0.1392, high=-0.0608),
        Correction(what="skew", of="p", value=0.0, low=-0.98, high=0.98),  # degrees: 0.5
        Correction(what="drop", of="other kind", value=0.0, low=-0.01, high=0.01),
        Correction(what="marks", of="p", value=0.0, low=-1.0, high=1.0),  # wider than it was
        Correction(what="level", of="rig", value=1.0, low=0.9, high=1.1),
        Correction(what="moved", of="p", value=0.2),
    )
    widths = budget_of(Rig(msgspec.structs.replace(scene, made=made))).widths[:, 0]
    assert widths[f.TRIM] == pytest.approx(0.02, abs=1e-5)
    assert np.degrees(widths[f.SKEW]) == pytest.approx(0.5, abs=1e-4)
    assert widths[f.DROP] == pytest.approx(0.05)
    assert widths[f.MARKS] == pytest.approx(0.1)
    assert widths[f.DOWN] == 0.0


def test_what_is_put_together_by_hand_is_the_root_of_squares() -> None:
    """A tool's bias and the hand that sets it; all marks of a pipe and one clamp."""
    scene = one(45, dial=3.0, set_pan=4.0, level=0.6, set_down=0.8, marks=0.03, mark=0.04)
    widths = budget_of(Rig(scene)).widths[:, 0]
    assert np.degrees(widths[[f.PAN, f.DOWN]]) == pytest.approx([5.0, 1.0])
    assert widths[f.MARKS] == pytest.approx(0.05)
    assert np.flatnonzero(widths).tolist() == [f.MARKS, f.PAN, f.DOWN]


def test_with_nothing_out_every_unit_hits() -> None:
    budget = budget_of(Rig(one(45)))
    assert budget.expected == pytest.approx(0.0, abs=1e-12)
    assert budget.in_beam[0] == pytest.approx(1.0)


def test_the_measurement_that_helps_most_is_of_what_is_out_most() -> None:
    for key, what, of in (
        ("trim", "trim", "p"),
        ("pipe", "moved", "p"),
        ("marks", "marks", "p"),
        ("drop", "drop", "k"),
        ("dial", "dial", ""),
        ("level", "level", ""),
    ):
        budget = budget_of(Rig(one(40, **{key: 6.0 if key in ("dial", "level") else 0.6})))
        first, second = budget.helps[:2]
        assert (first.what, first.of) == (what, of)
        assert first.expected < 0.02
        assert budget.expected > 0.05
        assert second.expected == pytest.approx(budget.expected)


def test_of_a_rig_without_units_nothing_is_expected() -> None:
    budget = budget_of(Rig(a_scene([], pipes=[a_pipe()])))
    assert budget.expected == 0.0
    assert budget.ranked.size == 0


# --- Against the exact model, sampled -------------------------------------------------------------


def drawn(rng: np.random.Generator, widths: np.ndarray) -> np.ndarray:
    """Errors (9, LOT x N) of widths (9, N), rig by rig."""
    errors = rng.normal(size=(LOT, *widths.shape)) * widths
    return errors.transpose(1, 0, 2).reshape(len(widths), -1)


def rig_by_rig(values: np.ndarray) -> np.ndarray:
    """Values (..., LOT x N) of a lot as (LOT, ..., N)."""
    return np.moveaxis(values.reshape(*values.shape[:-1], LOT, -1), -2, 0)


def sampled(rig: Rig, budget: Budget, seed: int, share: float = 1.0) -> tuple[np.ndarray, ...]:
    """SAMPLES rigs with everything out at random: exactly where the faces lie as the lenses see them.

    The spot as tangents across and up, (S, 2, N), and how far off the axis the face is, in radians, with the
    way of it, (S, N) and (S, 3, N). From two spots of one ray, its line.
    """
    rows = np.flatnonzero(np.isfinite(budget.nudge))
    many = np.tile(rows, LOT)
    units, given = f.some(f.held(rig), many), f.some(f.printed(rig), many)
    face, axis = rig.arrays.point[:, many], rig.aims.axis[:, many]
    throw = rig.aims.throw[many]
    rng, off, angle, way = np.random.default_rng(seed), [], [], []
    across = np.stack((axis[1], -axis[0], 0 * axis[0])) / np.hypot(axis[0], axis[1])
    up = np.cross(across, axis, axis=0)
    for _ in range(SAMPLES // LOT):
        errors = drawn(rng, budget.widths[:, rows]) * share
        far, near = (
            f.landed(units, given, f.plane_at(face - back * axis, axis), errors).point
            for back in (0.0, 0.5)
        )
        ray = (far - near) / np.sqrt(((far - near) ** 2).sum(axis=0))
        miss = far - face
        aside = miss - ray * (miss * ray).sum(axis=0)  # from the face square to the ray
        both = np.stack(((miss * across).sum(axis=0), (miss * up).sum(axis=0))) / throw
        off.append(rig_by_rig(both))
        along = throw - (miss * ray).sum(axis=0)
        angle.append(rig_by_rig(np.arctan2(np.sqrt((aside**2).sum(axis=0)), along)))
        way.append(rig_by_rig(aside))
    return np.concatenate(off), np.concatenate(angle), np.concatenate(way)


@pytest.mark.parametrize("mount", ["under", "over", "out", "arm", "direct", "stand"])
def test_small_errors_spread_as_the_covariance_says_for_every_mount(mount: str) -> None:
    rig = Rig(random_scene(mount, 30, 8))
    budget = budget_of(rig)
    off, _, _ = sampled(rig, budget, 9, share=0.05)
    found = np.stack([np.cov(off[:, :, k].T) for k in range(off.shape[2])], axis=-1) / 0.05**2
    told = budget.covariance[..., np.isfinite(budget.nudge)]
    size = told[0, 0] + told[1, 1]
    # A variance from 4,000 has a width of sqrt(2 / 4000) = 2.2 %: five of them, of 30 units.
    assert np.abs(found - told).max(axis=(0, 1)).max() < 0.12 * size.max()
    assert (np.abs(found - told).max(axis=(0, 1)) / size).max() < 0.12
    assert (np.abs(found - told).max(axis=(0, 1)) / size).mean() < 0.03


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked", "arena"])
def test_chances_of_the_worked_scenes_are_those_of_sampled_rigs(name: str) -> None:
    rig = rig_of(name)
    budget = budget_of(rig)
    rows = np.flatnonzero(np.isfinite(budget.nudge))
    off, angle, way = sampled(rig, budget, 5)
    limit = np.array([allowed(rig, rows, each) for each in way])
    missed = (angle > limit).mean(axis=0)
    assert missed == pytest.approx(budget.nudge[rows], abs=0.03)
    assert missed.sum() == pytest.approx(budget.expected, abs=0.01 * len(rows) ** 0.5 + 0.02)
    share = (rig.arrays.tolerance / rig.arrays.field)[rows]
    in_field = (angle < limit / share / 2).mean(axis=0)
    assert in_field == pytest.approx(budget.in_field[rows], abs=0.02)
    beam = (rig.arrays.beam / rig.arrays.field)[rows]
    in_beam = (angle < limit / share / 2 * beam).mean(axis=0)
    assert in_beam == pytest.approx(budget.in_beam[rows], abs=0.03)
    # The ellipse on the level plane: as many spots within it as it says.
    assert np.isfinite(off).all()


def test_the_level_ellipse_holds_95_of_100_spots_caught_on_the_level_plane() -> None:
    rig = rig_of("arena")
    budget = budget_of(rig)
    rows = np.flatnonzero(np.isfinite(budget.long) & (rig.aims.down > radians(30)))
    many = np.tile(rows, LOT)
    units, given = f.some(f.held(rig), many), f.some(f.printed(rig), many)
    face = rig.arrays.point[:, many]
    up = np.tile(np.array([[0.0], [0.0], [1.0]]), many.size)
    rng, lots = np.random.default_rng(2), []
    for _ in range(SAMPLES // LOT):
        errors = drawn(rng, budget.widths[:, rows])
        found = f.landed(units, given, f.plane_at(face, up), errors).point[:2]
        lots.append(rig_by_rig(found))
    spots = np.concatenate(lots)
    for k in range(rows.size):
        mine = spots[:, :, k]
        big = 2 * 2.4477 * np.sqrt(np.linalg.eigvalsh(np.cov(mine.T)))  # sampled, both widths
        assert budget.wide[rows[k]] == pytest.approx(big[0], rel=0.1)
        assert budget.long[rows[k]] == pytest.approx(big[1], rel=0.1)


def test_units_are_ranked_by_their_chance_and_sums_are_their_own() -> None:
    budget = budget_of(rig_of("playhouse"))
    falling = budget.nudge[budget.ranked]
    assert np.all(np.diff(falling) <= 0)
    assert budget.expected == pytest.approx(falling.sum())
    assert budget.helps[0].expected <= budget.helps[-1].expected <= budget.expected + 1e-12
    assert hypot(*budget.mean[:, budget.ranked[0]]) < radians(1.0)  # whole degrees leave no more
