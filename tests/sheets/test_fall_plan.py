"""Where the light falls, on paper."""

import io
from pathlib import Path

import numpy as np
import pytest

from aimcalc.scene.model import Solid, Stage
from aimcalc.sheets.plans.fall_plan import (
    MOST_FALLS,
    NOT_KNOWN,
    ON_LEVEL,
    UP_A_WALL,
    draw_fall_plan,
    fall_plan,
    outline_of,
)
from aimcalc.sheets.plans.plandraw import codes_of, runs_up
from aimcalc.sheets.plans.pool_plan import systems_of
from aimcalc.solid.light_fall import LightFall
from aimcalc.text.stamp import PaperOptions
from tests.sheets import pdf_reading
from tests.sheets.printed import falls
from tests.shows import a_show, rig_of
from tests.solid.hanging import a_panel, a_rig, a_unit

SCENES = Path(__file__).parents[2] / "scenes"
STAGE = Stage(outline=((-5.0, -1.0), (5.0, -1.0), (5.0, 8.0), (-5.0, 8.0)))


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_there_is_a_page_for_every_system_and_nothing_covers_anything(name):
    rig, pdf = rig_of(name), io.BytesIO()
    assert fall_plan(a_show(rig, []), pdf, PaperOptions()) == len(systems_of(rig, MOST_FALLS))
    data = pdf.getvalue()
    pdf_reading.assert_apart(data)
    for text in pdf_reading.pages(data):
        assert ": where light falls" in text
        assert pdf_reading.minus_signs(text) == []


def thick(drawing):
    return [line for line in drawing.lines if line.weight == UP_A_WALL]


def test_light_that_runs_up_a_wall_is_a_thick_line_along_its_foot():
    wall = a_panel("wall", 3.0, 0.0, 9.0)
    (bare,) = draw_fall_plan(a_rig(stage=STAGE), PaperOptions())
    (lit,) = draw_fall_plan(a_rig(stage=STAGE, solids=[wall]), PaperOptions())
    legend = 1
    assert len(thick(bare)) == legend
    (line,) = thick(lit)[:1]
    assert np.ptp(line.points[:, 1]) == pytest.approx(0, abs=1e-3)
    assert np.ptp(line.points[:, 0]) > 5.0


def test_on_a_platform_the_outline_steps_in_from_that_on_the_deck():
    stand = Solid(name="platform", box=(-9.0, 3.0, 0.0, 9.0, 9.0, 1.2), stand_on=True)
    (bare,), (stood) = (
        draw_fall_plan(a_rig(stage=STAGE, solids=s), PaperOptions()) for s in ([], [stand])
    )
    assert len(stood[0].lines) > len(bare.lines)


def test_a_closed_piece_comes_back_to_its_start_and_straight_ones_run_up():
    ring = np.array([[0.0, 1.0, 1.0], [0.0, 0.0, 1.0], [0.0, 0.0, 0.0]])
    closed, cut = LightFall(0, "deck", True, ring), LightFall(0, "deck", False, ring)
    assert outline_of(closed).tolist() == [[0, 0], [1, 0], [1, 1], [0, 0]]
    assert len(outline_of(cut)) == 3
    assert not runs_up(outline_of(closed))
    assert runs_up(np.array([[0.0, 0.0], [1.0, 2.0], [2.0, 4.0]]))


def test_without_the_ray_engine_the_pages_say_that_nobody_knows(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "embreex.mesh_construction", None)
    (page,) = draw_fall_plan(a_rig([a_unit()], stage=STAGE), PaperOptions())
    assert NOT_KNOWN in [words.text for words in page.words]


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_every_units_light_bears_its_tag_and_is_thicker_than_all_else(name):
    rig = rig_of(name)
    systems = systems_of(rig, MOST_FALLS)
    assert max(len(system.units) for system in systems) <= MOST_FALLS
    for system, page in zip(systems, falls(name, PaperOptions()), strict=True):
        said = {word.text for word in page.words}
        codes = codes_of(rig, system.units)
        for k in system.units:
            number = rig.units[k].number
            assert (f"{codes[rig.units[k].position]}/{number}" if codes else number) in said
        plan = [ln for ln in page.lines if ln.weight not in (ON_LEVEL, UP_A_WALL)]
        assert max(ln.weight for ln in plan if ln.points[:, 1].min() > 130.0) < ON_LEVEL
        assert not [word.text for word in page.words if "No room" in word.text]
