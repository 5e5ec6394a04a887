"""Light that nobody has given is not known: never 0 lx, in figures, holes, points, areas, levels and JSON."""

from __future__ import annotations

import csv
import io
import json

import msgspec
import numpy as np
import pytest

from aimcalc.coverage.lens import lens_outlook
from aimcalc.coverage.survey import CoverOptions, survey
from aimcalc.scene.model import Target
from aimcalc.text.light.cover_json import as_record
from aimcalc.text.light.cover_lists import areas_csv
from aimcalc.text.light.cover_text import cover_text
from aimcalc.text.light.lens_text import lens_text
from tests.lit import FACE, FIELD, LENS, a_lamp, a_rig, a_unit

KINDS = [a_lamp(), a_lamp("x", peak_cd=None)]
TARGETS = [Target(name="SL", x=2.0, y=0.0), Target(name="SR", x=-2.0, y=0.0)]
POINTS = ((2.0, 0.0, FACE), (-2.0, 0.0, FACE), (-3.9, 1.9, FACE))


def surveyed(units, targets=TARGETS):
    options = CoverOptions(points=POINTS)
    return survey(a_rig(units, targets, kinds=KINDS), options)


@pytest.fixture(scope="module")
def none():
    return surveyed([a_unit(1, 2.0, target="SL", kind="x"), a_unit(2, -2.0, target="SR", kind="x")])


@pytest.fixture(scope="module")
def some():
    return surveyed(
        [a_unit(1, 2.0, target="SL"), a_unit(2, -2.0, target="SR", kind="x", channel="7")]
    )


def test_a_system_without_candela_has_no_figures_and_no_holes(none):
    told = json.loads(msgspec.json.encode(as_record(none)))
    for system in told["systems"]:
        assert [system[k] for k in ("mean", "least", "most", "u0", "share_above_half")] == [
            None
        ] * 5
        assert system["gaps"] == []
    assert {p[k] for p in told["points"] for k in ("level", "house", "cylindrical")} == {None}
    assert told["balance"] == told["reaims"] == []


def test_and_the_terminal_says_so_without_a_lux(none):
    text = cover_text(none, "m")
    assert " 0 lx" not in text
    assert "nan" not in text.lower().replace("unknown", "")
    assert "wash: light not known. Give its kinds peak_cd, lumens or photometry." in text


def test_only_the_ground_in_an_unknown_field_is_left_out(some):
    wash = some.study.systems["wash"]
    x, y, _ = some.study.plane.points
    radius = (LENS - FACE) * np.tan(np.radians(FIELD / 2))  # 2.31 m round x = -2
    inside = np.hypot(x + 2.0, y) <= radius
    np.testing.assert_array_equal(np.isnan(wash.level), inside)
    assert wash.figures.least == pytest.approx(wash.level[~inside].min())
    for gap in wash.gaps:
        assert not inside[gap.cells].any()
    assert "wash: the light of 1 of 2 units is not known" in cover_text(some, "m")


def test_a_point_in_an_unknown_field_is_not_known_and_others_are(some):
    light = {(each.point, each.system): each.level for each in some.points}
    assert light[POINTS[0], "wash"] == pytest.approx(1000.0)  # 16000 / 4^2
    assert np.isnan(light[POINTS[1], "wash"])
    assert light[POINTS[2], "wash"] > 0  # 2.7 m off the middle of the unknown pool, 2.31 m wide


def test_units_without_candela_are_named_in_the_balance(some):
    (balance,) = some.balances
    assert balance.unknown.tolist() == [1]
    assert balance.targets == ["SL"]
    assert "Light not known: ch 7." in cover_text(some, "m")


def test_the_list_by_area_has_empty_cells_for_it(some):
    heads, *told = csv.reader(io.StringIO(areas_csv(some).decode(), newline=""))
    (row,) = [dict(zip(heads, r, strict=True)) for r in told if r[heads.index("unit")] == "p/2"]
    assert [row[k] for k in ("square on (lx)", "share", "on upright (lx)")] == ["", "", ""]
    assert row["aimed here"] == "yes"


def test_a_lens_proposal_does_not_hold_unknown_light_to_have_no_holes():
    units = [a_unit(1, 2.0, target="SL", kind="x"), a_unit(2, -2.0, target="SR", kind="x")]
    rig = a_rig(units, TARGETS, kinds=KINDS)
    outlook = lens_outlook(rig)
    assert outlook.kept == []
    assert "nan" not in lens_text(rig, outlook, "m")


def test_a_unit_without_candela_is_never_offered(some):
    assert all(h.unit != 1 for holes in some.helpers.values() for hole in holes for h in hole)
