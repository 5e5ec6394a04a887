"""Yoke bars and their lines on paper, against another package's turns and against looking along the stem."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.vectors import points
from aimcalc.rig.places import place
from aimcalc.scene.model import Pipe, Unit
from aimcalc.sheets.strip.marks import bars_on_paper, yoke_bars
from aimcalc.solid.rig import solve_rig
from tests.rigs import WORD, a_kind, a_pipe, a_scene, random_scene, thrown


def on_paper(rig, ways):
    """Angles on paper in degrees, each pipe's lines running to the side named in `ways`."""
    along = []
    for position, way in zip(rig.positions, ways, strict=True):
        direction = np.array(place(position).along)
        along.append(direction * np.sign(np.dot(direction, WORD[way])))
    return np.degrees(bars_on_paper(yoke_bars(rig), rig.arrays.stem, points(along)))


@pytest.mark.parametrize("mount", ["under", "over", "out", "arm", "direct", "stand"])
def test_a_bar_is_square_to_the_stem_and_to_the_lens(mount):
    # thrown() turns the told pan and yoke about the mount by scipy's rotations.
    rig = solve_rig(random_scene(mount, 60, seed=8))
    bars = yoke_bars(rig)
    stems = rig.arrays.stem
    for k, answer in enumerate(rig.answers):
        if answer.pan is None:
            continue
        _, axis, _ = thrown(answer, rig.scene)
        assert np.dot(bars[:, k], bars[:, k]) == pytest.approx(1.0)
        assert np.dot(bars[:, k], axis) == pytest.approx(0.0, abs=1e-9)
        assert np.dot(bars[:, k], stems[:, k]) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("mount", ["under", "over", "out"])
def test_a_line_on_the_paper_looks_parallel_to_the_bar_along_the_stem(mount):
    """Sloping, skew pipes too: a point of the line, moved along the stem, lies on the bar's direction."""
    rig = solve_rig(random_scene(mount, 80, seed=9))
    along = points([place(position).along for position in rig.positions])
    angles = bars_on_paper(yoke_bars(rig), rig.arrays.stem, along)
    checked = 0
    for k, answer in enumerate(rig.answers):
        if answer.pan is None:
            continue
        _, axis, _ = thrown(answer, rig.scene)
        stem, pipe = rig.arrays.stem[:, k], along[:, k]
        looking = stem if stem[2] <= 0 else -stem
        up = np.cross(pipe, looking)  # across the paper, as the reader sees it
        up /= np.linalg.norm(up)
        line = np.cos(angles[k]) * pipe + np.sin(angles[k]) * up
        seen = line - np.dot(line, stem) * stem
        bar = np.cross(stem, axis)
        assert np.linalg.norm(np.cross(seen, bar)) == pytest.approx(0.0, abs=1e-9)
        checked += 1
    assert checked > 70


# From plain trigonometry. Aimed 2 m aside and 5 m out: pan atan(2/5) = 21.8 degrees. The paper is a plan
# with the facing side up; seen from above with US up, SL is to its end, and a clockwise turn is negative.
# A nose swung from US to SL, or from DS to SR, turns clockwise seen from above; its bar turns with it.
TURN = np.degrees(np.arctan2(2, 5))


@pytest.mark.parametrize("mount", ["under", "over"])
@pytest.mark.parametrize(
    ("point", "way", "expected"),
    [
        ((2.0, 5.0, 1.0), "SL", -TURN),  # US, swung SL: clockwise
        ((-2.0, 5.0, 1.0), "SL", TURN),  # US, swung SR
        ((2.0, -5.0, 1.0), "SL", TURN),  # DS, swung SL, on a paper with US up
        ((-2.0, -5.0, 1.0), "SL", -TURN),
        ((2.0, -5.0, 1.0), "SR", TURN),  # the paper turned round: the line is the same line
        ((2.0, 5.0, 1.0), "SR", -TURN),
        ((0.0, 5.0, 1.0), "SL", 0.0),
    ],
)
def test_bars_of_both_square_sides_and_both_swings(mount, point, way, expected):
    unit = Unit(position="p", number="1", kind="k", at=0.0, mount=mount, point=point)
    assert on_paper(solve_rig(a_scene([unit])), [way]) == pytest.approx([expected], abs=1e-9)


def test_a_pipe_up_and_down_the_stage():
    # Hung at x = 5, aimed at x = 0, 2 m upstage of it: faces SR, swung US by 21.8 degrees. From above with
    # SR up the paper, US is to its end; SR to US is clockwise.
    pipe = Pipe(name="p", start=(5, -4, 6), end=(5, 4, 6), zero="middle")
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(0.0, 2.0, 1.0))
    rig = solve_rig(a_scene([unit], pipes=[pipe]))
    assert on_paper(rig, ["US"]) == pytest.approx([-TURN], abs=1e-9)


def test_the_line_for_a_sloping_pipe_is_that_of_its_dial():
    # The stem is square to the pipe, so who looks along it sees the paper as it is. Climbs 3 in 4 to SL;
    # pivot 0.3556 m along (0.6, 0, -0.8). Along the pipe the point is 0.8 x - 0.6 fall further on.
    # (The stem used to be taken as plumb, the paper as foreshortened.)
    pipe = Pipe(name="p", start=(-4, 0, 3), end=(4, 0, 9), zero="middle")
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(2.0, 5.0, 1.0))
    rig = solve_rig(a_scene([unit], pipes=[pipe]))
    aside = 0.8 * 2.0 - 0.6 * 5.0  # clamp to point; the drop is square to the pipe
    expected = -np.degrees(np.arctan(aside / 5))
    assert on_paper(rig, ["SL"]) == pytest.approx([expected], abs=1e-9)


def test_a_swung_out_clamp_is_read_along_its_own_stem():
    # Swung 30 degrees out to US, the line drawn is that of the dial at the clamp.
    unit = Unit(
        position="p",
        number="1",
        kind="k",
        at=0.0,
        mount="out",
        swing_out=30.0,
        out_to="US",
        point=(2.0, 5.0, 1.0),
    )
    rig = solve_rig(a_scene([unit], pipes=[a_pipe()]))
    (answer,) = rig.answers
    assert answer.swing == "SL"
    assert on_paper(rig, ["SL"]) == pytest.approx([-answer.pan], abs=1e-9)


def test_no_aim_has_no_bar():
    # The point is the pivot itself, and the axis passes 5 cm beside the pivot: it can never be hit.
    pivot = (0.0, 0.0, 6 - 14 * 0.0254)
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=pivot)
    rig = solve_rig(a_scene([unit], kinds=[a_kind(rise=0.05)]))
    assert np.isnan(yoke_bars(rig)).all()
