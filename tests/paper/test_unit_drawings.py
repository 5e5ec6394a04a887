"""The small drawings of one unit."""

from __future__ import annotations

import io
import math

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from aimcalc.paper.page import Box, Page, write_pages
from aimcalc.paper.stance import Turned, draw_plan, draw_side, turned
from aimcalc.scene.model import Boom, Pipe, Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.rows import heading_bases
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_scene
from tests.sheets import pdf_reading

BOX = Box(100, 500, 230, 580)


def answer_of(unit, **scene):
    rig = solve_rig(a_scene([unit], **scene))
    leaning = abs(rig.arrays.stem[2, 0]) < 1 - 1e-9
    return rig.answers[0], rig.positions[0], leaning, heading_bases(rig)[0]


def unit(point, **values):
    return Unit(
        **{"position": "p", "number": "1", "kind": "k", "at": 0.0, "point": point, **values}
    )


# Facing US, SL is clockwise; facing DS, SR is; facing SL, DS is.
@pytest.mark.parametrize(
    ("point", "facing", "clockwise"),
    [
        ((2, 5, 1), "US", 21.8),
        ((-2, 5, 1), "US", -21.8),
        ((2, -5, 1), "DS", -21.8),
        ((0, 5, 1), "US", 0.0),
    ],
)
def test_a_unit_is_turned_clockwise_from_the_side_faced(point, facing, clockwise):
    found = turned(*answer_of(unit(point)))
    assert found.facing == facing
    assert found.clockwise == pytest.approx(clockwise, abs=0.01)  # atan(2 / 5) = 21.80


def test_a_skewed_pipe_turns_from_its_own_square():
    pipe = Pipe(
        name="p", start=(-4, -1, 6), end=(4, 1, 6), zero="middle"
    )  # square is 14.04 SR of US
    found = turned(*answer_of(unit((0, 5, 1)), pipes=[pipe]))
    assert found.clockwise == pytest.approx(14.04, abs=0.01)


# The pipe of a unit swung out, counted from the side that its true heading is counted from (`base`).
@pytest.mark.parametrize(
    ("pipe", "base", "runs"),
    [
        # Across the stage: square to US, along SR.
        (Pipe(name="p", start=(-4, 0, 6), end=(4, 0, 6)), "US", 90.0),
        (Pipe(name="p", start=(-4, 0, 6), end=(4, 0, 6)), "SR", 0.0),
        # Skewed, its SL end 2 m further US in 8: heading 90 - atan(2 / 8) = 75.96 from US.
        (Pipe(name="p", start=(-4, -1, 6), end=(4, 1, 6), zero="middle"), "US", 75.96),
        (Pipe(name="p", start=(-4, -1, 6), end=(4, 1, 6), zero="middle"), "SL", 165.96),
        # Bent, as in tests/sheets/test_strip_marks.py: 3.2 m SL the tube has turned 31.61 to US.
        (
            Pipe(
                name="p",
                start=(-4.2, -3.4, 6),
                through=(0, -5.2, 6),
                end=(4.2, -3.4, 6),
                zero="middle",
            ),
            "US",
            90.0 - 31.61,
        ),
    ],
)
def test_a_leaning_unit_s_pipe_is_drawn_where_it_runs(pipe, base, runs):
    at = 3.2 if pipe.through else 0.0
    out = unit((0, 5, 1), at=at, mount="out", swing_out=30.0, out_to="DS")
    answer, position, leaning, _ = answer_of(out, pipes=[pipe])
    found = turned(answer, position, leaning, base)
    assert found.facing == base
    assert found.pipe == pytest.approx(runs, abs=0.01)


@pytest.mark.parametrize("degrees", [70.0, 75.0, 80.0, 85.0, 89.0, -70.0, -80.0, -89.0])
@pytest.mark.parametrize("reader", [None, "US"])
def test_an_arrow_keeps_off_the_letters_beside_it(degrees, reader):
    way = Turned("US", degrees)
    text, paths = drawn(lambda sheet: draw_plan(sheet, BOX, way, on_pipe=True, reader=reader))
    head = paths[-1]
    for run in text:
        beside = head[2] < run.left or head[0] > run.right
        assert beside or head[3] < run.bottom or head[1] > run.top


def test_a_boom_unit_turns_from_straight_across_or_its_opposite():
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    arm = {"at": 3.0, "mount": "arm", "arm": 0.5, "arm_to": 90.0}
    found = turned(*answer_of(unit((0, -2, 1), **arm), pipes=[], booms=[boom]))
    assert found.facing == "SL"
    assert found.clockwise == pytest.approx(19.98, abs=0.01)  # DS is clockwise of SL; atan(2 / 5.5)
    found = turned(
        *answer_of(unit((-12, 1, 1), **{**arm, "arm_to": 270.0}), pipes=[], booms=[boom])
    )
    assert found.facing == "SR"
    assert found.clockwise == pytest.approx(10.30, abs=0.01)  # US is clockwise of SR; atan(1 / 5.5)


def test_straight_down_and_no_aim_have_no_turn():
    assert turned(*answer_of(unit((0, 0, 0)))) is None
    lost = answer_of(unit((0, 0.1, 6.0 - 14 * 0.0254)), kinds=[a_kind(rise=0.5)])
    assert turned(*lost) is None


def drawn(draw) -> tuple[list[pdf_reading.Said], list[tuple[float, float, float, float]]]:
    """Text and the boxes of the filled black shapes of one drawing."""
    stream = io.BytesIO()
    write_pages(stream, [Page(draw, "f")], PaperOptions(), title="t")
    page = pypdfium2.PdfDocument(stream)[0]
    paths = list(page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]))
    return pdf_reading.runs(stream.getvalue())[0], [p.get_bounds() for p in paths]


@pytest.mark.parametrize(("point", "side"), [((3, 3, 1), 1), ((-3, 3, 1), -1)])
def test_the_plan_arrow_points_to_the_side_the_nose_swings_to(point, side):
    answer, position, leaning, base = answer_of(unit(point))
    text, paths = drawn(
        lambda sheet: draw_plan(sheet, BOX, turned(answer, position, leaning, base), on_pipe=True)
    )
    said = {run.words: run for run in text}
    assert said["SR"].right < said["SL"].left  # facing US
    middle = (BOX.left + BOX.right) / 2
    head = paths[-1]  # the arrow's head is drawn last
    assert ((head[0] + head[2]) / 2 - middle) * side > 5
    assert all(p[0] >= BOX.left and p[2] <= BOX.right and p[3] <= BOX.top for p in paths)


# Level, steep, straight down, and above level; the nose points to the line's end.
@pytest.mark.parametrize("point", [(0, 9, 5.6), (0, 3, 1), (0, 0, 0), (0, 5, 9)])
def test_the_clip_is_drawn_above_the_lens_axis_and_the_tail_below_it(point):
    answer, *_ = answer_of(unit(point))
    text, paths = drawn(lambda sheet: draw_side(sheet, BOX, answer))
    said = {run.words: run for run in text}
    assert pdf_reading.overlaps(text) == []
    down = math.radians(answer.down)
    pivot = (BOX.left + 0.46 * BOX.width, (BOX.bottom + BOX.top) / 2)

    def above_axis(run):
        x, y = (run.left + run.right) / 2 - pivot[0], (run.bottom + run.top) / 2 - pivot[1]
        return x * math.sin(down) + y * math.cos(down)

    assert above_axis(said["CLIP up"]) > 8
    assert above_axis(said["tail"]) < -8
    assert all(p[0] >= BOX.left - 8 and p[2] <= BOX.right + 8 for p in paths)


def test_a_body_on_its_side_says_where_its_clip_is():
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    direct = unit((0, 2, 1), at=3.0, mount="direct", arm_to=180.0)
    answer, *_ = answer_of(direct, pipes=[], booms=[boom])
    text, _ = drawn(lambda sheet: draw_side(sheet, BOX, answer, "CLIP US"))
    assert "CLIP US" in [run.words for run in text]
