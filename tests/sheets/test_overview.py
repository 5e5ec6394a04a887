"""The rig in one picture."""

import io
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Stage
from aimcalc.sheets.plans.overview import DPI, EYE, draw_overview, overview
from aimcalc.text.stamp import PaperOptions
from tests.shows import a_show, rig_of
from tests.solid.hanging import a_body, a_panel, a_rig, a_unit

SCENES = Path(__file__).parents[2] / "scenes"
STAGE = Stage(outline=((-5.0, 0.0), (5.0, 0.0), (5.0, 7.0), (-5.0, 7.0)))


@cache
def drawing_of(name):
    return draw_overview(rig_of(name), PaperOptions())


def words(drawing):
    return [each.text for each in drawing.words]


def boxes(drawing):
    """The white boxes behind labels."""
    return [s.points for s in drawing.shapes if s.weight == 0.0 and s.fill == "white"]


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_every_position_that_holds_units_is_named_and_the_sides_of_the_stage(name):
    scene = load_scene(SCENES / name)
    used = {unit.position for unit in scene.units}
    assert used | {"SL", "SR", "US", "DS"} <= set(words(drawing_of(name)))


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_names_do_not_cover_each_other(name):
    placed = [(b.min(axis=0), b.max(axis=0)) for b in boxes(drawing_of(name))]
    assert len(placed) > 5
    for k, (low, high) in enumerate(placed):
        for other_low, other_high in placed[k + 1 :]:
            assert (high <= other_low).any() or (other_high <= low).any()


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_nothing_is_drawn_off_the_page(name):
    drawing = drawing_of(name)
    ends = np.concatenate([line.points for line in drawing.lines])
    assert (ends >= 0).all()
    assert (ends <= (drawing.width, drawing.height)).all()


def test_the_picture_is_grey_of_the_size_of_tabloid_and_the_same_each_time():
    rig = a_rig(stage=STAGE)
    first, again = io.BytesIO(), io.BytesIO()
    for stream in (first, again):
        overview(a_show(rig, []), stream, PaperOptions(paper="letter"))
    assert first.getvalue() == again.getvalue()
    picture = Image.open(first)
    assert picture.mode == "L"
    assert picture.size == (17 * DPI, 11 * DPI)  # ANSI/ASME Y14.1 size B


def dashes(drawing):
    return {line.dash for line in drawing.lines}


def test_tall_panels_are_glass_and_low_ones_hide_what_is_behind_them():
    low, tall = (a_panel("flat", 1.0, 0.0, high, half=9.0) for high in (2.9, 5.5))
    assert "dotted" not in dashes(draw_overview(a_rig(stage=STAGE, solids=[low]), PaperOptions()))
    assert "dotted" in dashes(draw_overview(a_rig(stage=STAGE, solids=[tall]), PaperOptions()))


def test_a_unit_behind_scenery_that_hides_it_is_not_drawn():
    # A box between the eye and a pipe hides the whole unit; its body's lines are gone.
    from aimcalc.scene.model import Solid

    pivot = np.array([0.0, 0.0, 5.64])
    middle = pivot + 2.0 * EYE.toward
    wall = Solid(name="wall", box=(*(middle - 1.0), *(middle + 1.0)))
    units = [a_unit(point=(0.0, 4.0, 1.65))]
    bare = draw_overview(a_rig(units, kinds=[a_body()]), PaperOptions())
    hidden = draw_overview(a_rig(units, kinds=[a_body()], solids=[wall]), PaperOptions())
    short = [line for line in bare.lines if line.weight == 1.0]
    left = [line for line in hidden.lines if line.weight == 1.0]
    assert len(short) > 40
    assert len(left) < 20  # nine edges of the box


def test_without_the_ray_engine_hidden_lines_show_and_the_picture_says_so(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "embreex.mesh_construction", None)
    drawing = draw_overview(a_rig(stage=STAGE), PaperOptions())
    assert "Hidden lines show: the library embreex is not installed." in words(drawing)


def test_an_empty_rig_is_a_page_with_its_title():
    drawing = draw_overview(a_rig([], pipes=[]), PaperOptions(draft=True))
    assert drawing.draft
    assert "THE RIG, seen from the house" in words(drawing)
