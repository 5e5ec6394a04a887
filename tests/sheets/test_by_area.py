"""The programmer's sheet: directions, angles and shares worked out again from where units hang."""

import csv
import io
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from aimcalc.scene.model import Kind, Solid, Stage, Target, Unit
from aimcalc.sheets.by_area import by_area
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

SCENES = Path(__file__).parents[2] / "scenes"
FEET = PaperOptions(paper="letter", length="ft")
CASES = [("studio", PaperOptions()), ("playhouse", FEET), ("raked", PaperOptions())]


def written(rig, options):
    """The four files, and the number of pages of the first."""
    files = [io.BytesIO() for _ in range(4)]
    count = by_area(a_show(rig, []), *files, options)
    return [file.getvalue() for file in files], count


@cache
def sheets_of(name, options):
    (pdf, areas, _, _), count = written(rig_of(name), options)
    return pdf, areas, count


@cache
def lists_of(name):
    (_, _, channels, angles), _ = written(rig_of(name), PaperOptions())
    return rows_of(channels), rows_of(angles)


def rows_of(data):
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))


def made(rig):
    (pdf, areas, _, _), _ = written(rig, PaperOptions())
    return " ".join(pdf_reading.pages(pdf)), rows_of(areas)


@pytest.mark.parametrize(("name", "options"), CASES)
def test_no_text_covers_another_no_sign_no_bare_side(name, options):
    data, _, count = sheets_of(name, options)
    assert len(pdf_reading.sizes(data)) == count
    pdf_reading.assert_apart(data)
    pdf_reading.assert_no_signs(data)


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
def test_shares_are_of_all_the_light_at_the_target(name, options):
    found = a_show(rig_of(name)).survey
    rest = {area.target: area.rest for area in found.areas}
    rows = rows_of(sheets_of(name, options)[1])
    for target in {row["target"] for row in rows}:
        lux = np.array([float(r["square on (lx)"]) for r in rows if r["target"] == target])
        share = np.array([float(r["share"]) for r in rows if r["target"] == target])
        assert share.sum() + rest[target] == pytest.approx(1.0, abs=1e-5)
        assert share == pytest.approx(lux / lux.sum() * (1 - rest[target]), abs=1e-5)
        aimed = [r["aimed here"] == "yes" for r in rows if r["target"] == target]
        assert ((share >= 0.02 - 1e-6) | np.array(aimed)).all()
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
    (pdf, areas, channels, angles), _ = written(rig, PaperOptions())
    assert "no area to cover" in " ".join(pdf_reading.pages(pdf))
    assert (rows_of(areas), rows_of(channels), rows_of(angles)) == ([], [], [])
    assert channels.startswith(b"channel,units")


def a_face(at, *, y=-4.0, trim=6.0, solids=()):
    """One unit at `at` along a pipe, on a face 1.65 m over the origin."""
    unit = Unit(position="p", number="1", kind="k", at=at, target="mark", channel="7")
    kind = Kind(name="k", family="ers", field=20.0, drop_under=0.0)
    return solve_rig(
        a_scene(
            [unit],
            [Target(name="mark", x=0.0, y=0.0)],
            pipes=[a_pipe("p", y=y, trim=trim)],
            kinds=[kind],
            solids=list(solids),
        )
    )


def told_of_face(**placed):
    (pdf, _, _, angles), _ = written(a_face(**placed), PaperOptions())
    (row,) = rows_of(angles)
    return " ".join(" ".join(pdf_reading.pages(pdf)).split()), row


# 3 m SL and 4 m DS of the face, 5 m over it: atan(5 / 5) = 45 up, atan(5 / 4) = 51 in the section,
# atan(3 / 4) = 37 on plan. From 1.65 m up, the head's shadow is 1.65 / 5 of (3, 4) further on.
def test_angles_at_the_face_and_the_shadow_are_on_the_sheet_and_in_the_list_without_an_area_too():
    text, row = told_of_face(at=3.0, trim=6.65)
    for said in ("45°", "51°", "37° SL", "1.00 m SR, 1.30 m US", "a cube's diagonal", "35° up"):
        assert said in text
    assert float(row["elevation (deg)"]) == pytest.approx(45.0)
    assert float(row["shadow on deck x (m)"]) == pytest.approx(-0.99)
    assert float(row["shadow on deck y (m)"]) == pytest.approx(1.32)
    assert row["upright"] == ""


# On a drop 0.5 m behind: 5 / 4 * 0.5 below the face's 1.65 m, 1.025 m up: a height on
# what is upright is told to 1 cm, as on the aim sheets.
def test_a_drop_that_catches_the_shadow_is_named_with_the_place_on_it():
    drop = Solid(name="sky", panel=((-5, 0.5, 0), (5, 0.5, 0), (5, 0.5, 6), (-5, 0.5, 6)))
    text, row = told_of_face(at=0.0, trim=6.65, solids=[drop])
    assert "sky: CENTRE LINE, 0.50 m US, 1.03 m up" in text
    assert (row["upright"], float(row["shadow on upright z (m)"])) == ("sky", pytest.approx(1.025))


def test_light_from_below_the_face_says_so_and_has_no_shadow_on_the_deck():
    text, _ = told_of_face(at=0.0, y=-2.0, trim=0.2)
    assert "36° below" in text  # atan(1.45 / 2)
    assert "nowhere on the deck" in text


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_every_channel_has_a_row_and_every_unit_at_a_face_its_angles(name):
    channels, angles = lists_of(name)
    units = rig_of(name).units
    assert {row["channel"] for row in channels} == {unit.channel for unit in units if unit.channel}
    at_targets = {f"{unit.position}/{unit.number}" for unit in units if unit.target}
    assert {row["unit"] for row in angles if row["target"]} <= at_targets
    assert len(angles) > len(units) / 2


def test_the_same_rig_gives_the_same_bytes():
    once, again = (written(rig_of("studio"), PaperOptions()) for _ in range(2))
    assert once == again


# The same 45 degrees and more on a table, at the foot of a drop, and stopped by a border on its way: 5 in 4.
@pytest.mark.parametrize(
    ("solid", "said"),
    [
        (Solid(name="table", box=(-1, 0.2, 0, 1, 2, 0.65)), "0.80 m US on table"),
        (
            Solid(name="sky", panel=((-5, 1.31, 0), (5, 1.31, 0), (5, 1.31, 6), (-5, 1.31, 6))),
            "1.30 m US, at the foot of sky",  # 1.65 - 1.25 x 1.31 = 0.0125 m up
        ),
        (
            Solid(name="border", panel=((-5, -2, 3), (5, -2, 3), (5, -2, 6), (-5, -2, 6))),
            "none: border stops the light before the face",
        ),
    ],
)
def test_the_shadow_is_where_the_light_stops(solid, said):
    text, _ = told_of_face(at=0.0, trim=6.65, solids=[solid])
    assert said in " ".join(text.split())


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_each_area_has_a_page_of_its_own(name):
    """A designer who asks about one area is handed one page."""
    data, _, _ = sheets_of(name, dict(CASES)[name])
    texts = pdf_reading.pages(data)
    for target in rig_of(name).scene.targets:
        (page,) = (k for k, text in enumerate(texts) if f"{target.name}: " in text)
        heads = [t.name for t in rig_of(name).scene.targets if f"\n{t.name}: " in texts[page]]
        assert heads == [target.name]
        assert "continued" not in texts[page]
