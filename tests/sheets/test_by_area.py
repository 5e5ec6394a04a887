"""The programmer's sheet: directions, angles and shares worked out again from where units hang."""

import csv
import io
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from aimcalc.rig.solve import solve_rig
from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Kind, Stage, Target, Unit
from aimcalc.sheets.by_area import by_area
from aimcalc.sheets.paper import PaperOptions
from tests.rigs import a_scene
from tests.sheets import pdf_reading

SCENES = Path(__file__).parents[2] / "scenes"
FEET = PaperOptions(paper="letter", length="ft")
CASES = [("studio", PaperOptions()), ("playhouse", FEET), ("raked", PaperOptions())]


@cache
def rig_of(name):
    return solve_rig(load_scene(SCENES / name))


@cache
def sheets_of(name, options):
    pdf, table = io.BytesIO(), io.BytesIO()
    count = by_area(rig_of(name), [], pdf, table, options)
    return pdf.getvalue(), table.getvalue(), count


def rows_of(data):
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))


def made(rig):
    pdf, table = io.BytesIO(), io.BytesIO()
    by_area(rig, [], pdf, table, PaperOptions())
    return " ".join(pdf_reading.pages(pdf.getvalue())), rows_of(table.getvalue())


@pytest.mark.parametrize(("name", "options"), CASES)
def test_no_text_covers_another_no_sign_no_bare_side(name, options):
    data, _, count = sheets_of(name, options)
    assert len(pdf_reading.sizes(data)) == count
    for page, size in zip(pdf_reading.runs(data), pdf_reading.sizes(data), strict=True):
        assert pdf_reading.overlaps(page) == []
        assert pdf_reading.outside(page, size) == []
    for text in pdf_reading.pages(data):
        assert pdf_reading.minus_signs(text) == []
        assert pdf_reading.bare_sides(text) == []


@pytest.mark.parametrize(("name", "options"), CASES)
def test_every_target_has_its_heading_and_every_unit_that_is_aimed_there_a_row(name, options):
    data, table, _ = sheets_of(name, options)
    text = " ".join(pdf_reading.pages(data))
    scene = rig_of(name).scene
    for target in scene.targets:
        assert f"{target.name}: " in text
    aimed = {(r["target"], r["unit"]) for r in rows_of(table) if r["aimed here"] == "yes"}
    known = {k.name for k in scene.kinds.values() if k.peak_cd or k.lumens or k.photometry}
    hung = {
        (u.target, f"{u.position}/{u.number}") for u in scene.units if u.target and u.kind in known
    }
    assert aimed <= hung
    assert len(aimed) > 0.9 * len(hung)  # scenery may stand before a few


@pytest.mark.parametrize(("name", "options"), CASES)
def test_directions_and_angles_are_those_from_the_target_to_the_lens(name, options):
    """By plain trigonometry on the solved lens and the unit's own face point; only aimed rows."""
    rig = rig_of(name)
    places = dict(zip(rig.names, range(len(rig.names)), strict=True))
    rows = [row for row in rows_of(sheets_of(name, options)[1]) if row["aimed here"] == "yes"]
    assert rows
    for row in rows:
        k = places[row["unit"]]
        x, y, z = rig.aims.lens[:, k] - rig.arrays.point[:, k]
        assert float(row["down (deg)"]) == pytest.approx(np.degrees(np.arctan(z / np.hypot(x, y))))
        off = float(row["comes from (deg)"]) - np.degrees(np.arctan2(x, y))
        assert np.cos(np.radians(off)) == pytest.approx(1.0)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_shares_of_a_target_add_up_to_one_and_follow_the_light(name, options):
    rows = rows_of(sheets_of(name, options)[1])
    for target in {row["target"] for row in rows}:
        lux = np.array([float(r["square on (lx)"]) for r in rows if r["target"] == target])
        share = np.array([float(r["share"]) for r in rows if r["target"] == target])
        assert share.sum() == pytest.approx(1.0, abs=1e-5)
        assert share == pytest.approx(lux / lux.sum(), abs=1e-5)
        assert (np.diff(lux) <= 1e-6).all()


def two_units(**near):
    """Two like units on one line, one 4 m and one 8 m above what they light straight down."""
    kind = Kind(name="k", family="ers", field=10.0, beam=6.0, drop_under=0.0, peak_cd=64_000.0)
    units = [
        Unit(position="p", number="1", kind="k", at=-5.0, target="low", system="top", **near),
        Unit(position="p", number="2", kind="k", at=5.0, target="high", system="top", channel="2"),
    ]
    targets = [
        Target(name="low", x=-5.0, y=0.0, z=-2.0, plane="point"),
        Target(name="high", x=5.0, y=0.0, z=2.0, plane="point"),
    ]
    stage = Stage(outline=((-6.0, -2.0), (6.0, -2.0), (6.0, 2.0), (-6.0, 2.0)))
    return solve_rig(a_scene(units, targets, kinds=[kind], stage=stage))


def test_levels_balance_throws_by_the_inverse_square():
    """8 m and 4 m: 64,000 / 64 = 1,000 lx and 64,000 / 16 = 4,000 lx, so the near one goes to 25 %."""
    text, rows = made(two_units(channel="1"))
    assert [(r["target"], float(r["square on (lx)"])) for r in rows] == [
        ("low", pytest.approx(1000.0, rel=1e-3)),
        ("high", pytest.approx(4000.0, rel=1e-3)),
    ]
    assert [float(r["balanced level"]) for r in rows] == pytest.approx([1.0, 0.25], rel=1e-3)
    assert "full" in text
    assert "25 %" in text


def test_text_that_a_spreadsheet_would_run_stays_text():
    _, rows = made(two_units(channel="=1+1"))
    assert rows[0]["channel"] == "'=1+1"


def test_a_unit_without_a_channel_is_told_by_its_name():
    text, _ = made(two_units())
    assert "no ch" in text
    assert "p/1" in text


def test_without_an_area_the_sheet_says_what_is_missing_and_the_list_has_heads_only():
    rig = solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(0, 1, 1))]))
    text, rows = made(rig)
    assert "no area to cover" in text
    assert rows == []


def test_the_same_rig_gives_the_same_bytes():
    pdf, table = io.BytesIO(), io.BytesIO()
    by_area(rig_of("studio"), [], pdf, table, PaperOptions())
    assert (pdf.getvalue(), table.getvalue()) == sheets_of("studio", PaperOptions())[:2]
