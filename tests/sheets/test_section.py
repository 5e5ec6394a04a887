"""The section: what it shows of the worked scenes, what its figures are, and that it can be read."""

import io
from functools import cache
from math import atan2, degrees, hypot
from pathlib import Path

import msgspec
import numpy as np
import pytest

from aimcalc.sheets.plans.section import draw_sections, section
from aimcalc.text.stamp import PaperOptions
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of
from tests.solid.hanging import a_body, a_border, a_pipe, a_rig, a_unit

SCENES = Path(__file__).parents[2] / "scenes"
FEET = PaperOptions(paper="letter", length="ft")
CASES = [
    ("studio", PaperOptions(section=("front pipe/1", "boom SL/2"))),
    ("playhouse", msgspec.structs.replace(FEET, section=("pipe 4/1", "house pipe/10"))),
    ("raked", PaperOptions(section=("roof bar/2",))),
]


@cache
def section_of(name, options):
    pdf = io.BytesIO()
    pages = section(a_show(rig_of(name), []), pdf, options)
    return pdf.getvalue(), pages


def words(drawing):
    return [each.text for each in drawing.words]


@pytest.mark.parametrize(("name", "options"), CASES)
def test_there_is_a_page_for_the_centre_line_and_one_for_each_unit_asked_for(name, options):
    data, count = section_of(name, options)
    pages = pdf_reading.pages(data)
    assert len(pages) == count == 1 + len(options.section)
    assert "SECTION at the centre line" in pages[0]
    for text, unit in zip(pages[1:], options.section, strict=True):
        assert f"SECTION through unit {unit}" in text


@pytest.mark.parametrize(
    ("paper", "size"),
    # ISO 216 A3 420 x 297 mm; ANSI/ASME Y14.1 size B 17 x 11 in.
    [("a4", (420 / 25.4 * 72, 297 / 25.4 * 72)), ("letter", (17 * 72, 11 * 72))],
)
def test_it_is_a3_or_tabloid_on_its_long_side(paper, size):
    pdf = io.BytesIO()
    section(a_show(rig_of("studio"), []), pdf, PaperOptions(paper=paper))
    assert pdf_reading.sizes(pdf.getvalue())[0] == pytest.approx(size, abs=1.0)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_no_text_covers_another_or_leaves_the_paper(name, options):
    data, _ = section_of(name, options)
    pdf_reading.assert_apart(data)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_no_minus_sign_and_no_bare_side(name, options):
    pdf_reading.assert_no_signs(section_of(name, options)[0])


@pytest.mark.parametrize(("name", "options"), CASES)
def test_every_page_says_what_it_was_worked_out_from(name, options):
    data, count = section_of(name, options)
    settings = rig_of(name).scene.settings
    for number, text in enumerate(pdf_reading.pages(data), 1):
        for said in (
            settings.title,
            f"revision {settings.revision}",
            f"page {number} of {count}",
            "drop ",
            "face height ",
            "scale ",
            "GEOMETRY ONLY",
        ):
            assert said in text


def test_trims_borders_and_distances_are_told_as_the_scene_has_them():
    text = pdf_reading.pages(section_of("playhouse", CASES[1][1])[0])[0]
    for said in (
        "pipe 1 19'-0\" measured",
        "pipe 2 19'-6\" plotted",
        "border 2 16'-0\"",
        "proscenium header 14'-6\"",
        "14'-0\" DS",  # house pipe
        "7'-6\" US",  # border 2
        "stalls, eyes 1'-6\"",
        "face 5'-6\"",
    ):
        assert said in text


def test_the_same_scene_gives_the_same_bytes():
    again = io.BytesIO()
    section(a_show(rig_of("raked"), []), again, CASES[2][1])
    assert again.getvalue() == section_of("raked", CASES[2][1])[0]


def test_draft_is_written_across_every_page():
    options = PaperOptions(draft=True, section=("front pipe/1",))
    assert [page.draft for page in draw_sections(rig_of("studio"), options)] == [True, True]


def test_the_axis_is_drawn_at_the_units_own_angle_when_cut_along_its_beam():
    rig = rig_of("playhouse")
    options = msgspec.structs.replace(FEET, section=("pipe 4/1",))
    page = draw_sections(rig, options)[1]
    k = rig.names.index("pipe 4/1")
    # The thickest straight line of two points that is no deck: from lens to face.
    axes = [line.points for line in page.lines if line.weight == 1.5 and len(line.points) == 2]
    throw = float(rig.aims.throw[k]) * 1000 / 48  # mm at 1/4" = 1'-0"
    (axis,) = [p for p in axes if hypot(*(p[1] - p[0])) == pytest.approx(throw, rel=1e-3)]
    down = degrees(atan2(abs(axis[1][1] - axis[0][1]), abs(axis[1][0] - axis[0][0])))
    assert down == pytest.approx(float(np.degrees(rig.aims.down[k])), abs=0.01)
    assert "36°" in words(page)


def test_an_empty_rig_still_has_its_stage():
    (page,) = draw_sections(a_rig([], solids=[a_border(2.0, 5.0)]), PaperOptions())
    assert "border 1" in words(page)
    assert "p" in words(page)


def test_without_the_ray_engine_the_section_is_drawn_all_the_same(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "embreex.mesh_construction", None)
    (page,) = draw_sections(a_rig(), PaperOptions())
    assert any("unit 1" in text for text in words(page))


def test_hostile_names_fit_and_a_unit_without_an_aim_is_left_out():
    kinds = [a_body(), a_body("still", drop_under=0.0)]
    long = "Upstage centre electric number four of the touring rig"
    units = [a_unit("1" * 30, position=long), a_unit(2, 0.0, kind="still", point=(0.0, 0.0, 6.0))]
    rig = a_rig(units, kinds=kinds, pipes=[a_pipe(), a_pipe(long, y=3.0)])
    pdf = io.BytesIO()
    assert section(a_show(rig, []), pdf, PaperOptions(section=(f"{long}/{'1' * 30}",))) == 2
    for page, size in zip(
        pdf_reading.runs(pdf.getvalue()), pdf_reading.sizes(pdf.getvalue()), strict=True
    ):
        assert pdf_reading.outside(page, size) == []
