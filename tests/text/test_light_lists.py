"""The light as lists: JSON, and CSV by area and by channel."""

from __future__ import annotations

import csv
import io
import json

import pytest

from aimcalc.coverage.survey import CoverOptions, survey
from aimcalc.scene.model import Target
from aimcalc.text.light.cover_json import cover_json
from aimcalc.text.light.cover_lists import (
    ANGLE_HEADS,
    AREA_HEADS,
    CHANNEL_HEADS,
    angles_csv,
    areas_csv,
    channels_csv,
)
from tests.lit import a_rig, a_unit, candela

TARGETS = [Target(name="=SL", x=2.0, y=0.0), Target(name="SR", x=-2.0, y=0.0)]
UNITS = [
    a_unit(1, 2.0, target="=SL", channel="11", colour="rose"),
    a_unit(2, -2.0, target="SR", channel="2"),
    a_unit(3, 2.0, target="=SL", channel="11", system="spare"),
]


@pytest.fixture(scope="module")
def found():
    return survey(a_rig(UNITS, TARGETS), CoverOptions(fewest=False))


def rows(data):
    return list(csv.reader(io.StringIO(data.decode(), newline="")))


def test_the_areas_have_a_row_for_each_unit_at_each_target(found):
    heads, *told = rows(areas_csv(found))
    assert heads == list(AREA_HEADS)
    by_target = {}
    for row in told:
        by_target.setdefault(row[0], []).append(dict(zip(heads, row, strict=True)))
    assert set(by_target) == {
        "'=SL",
        "SR",
    }  # text that a spreadsheet would work out is kept as text
    assert len(by_target["'=SL"]) == 2
    one = by_target["SR"][0]
    assert (one["channel"], one["unit"], one["system"], one["aimed here"]) == (
        "2",
        "p/2",
        "wash",
        "yes",
    )
    assert float(one["square on (lx)"]) == pytest.approx(1000.0)
    # 1000 lx from straight above; the other two each spill on it, 45 off their axes (tests/lit.py)
    assert float(one["share"]) == pytest.approx(1000 / (1000 + 2 * candela(45.0) / 32), abs=1e-6)
    assert float(one["on upright (lx)"]) == pytest.approx(0.0, abs=1e-9)  # from straight above
    assert float(one["upright faces (deg)"]) == 180.0
    assert float(one["down (deg)"]) == pytest.approx(90.0)


def test_the_channels_have_what_they_light(found):
    heads, *told = rows(channels_csv(found))
    assert heads == list(CHANNEL_HEADS)
    assert [row[0] for row in told] == ["2", "11"]
    assert told[1][1:] == ["p/1; p/3", "wash; spare", "rose", "'=SL"]


def test_the_angles_have_a_row_for_each_unit_at_a_face():
    deck = ((-4.0, -2.0), (4.0, -2.0), (4.0, 4.0), (-4.0, 4.0))
    rig = a_rig([a_unit(1, 0.0, target="mark")], [Target(name="mark", x=0.0, y=3.0)], acting=deck)
    heads, row = rows(angles_csv(rig))
    assert heads == list(ANGLE_HEADS)
    told = dict(zip(heads, row, strict=True))
    # 4 m up and 3 m DS of the face, the head 1 m up: 53.13 degrees, the shadow 0.75 m US of it
    assert float(told["elevation (deg)"]) == pytest.approx(53.130102)
    assert float(told["plan angle from straight on (deg)"]) == 0
    assert float(told["shadow on deck y (m)"]) == pytest.approx(3.75)
    assert (told["side"], told["upright"], told["shadow on upright x (m)"]) == ("", "", "")


def test_the_json_is_one_object_that_ends_in_a_line(found):
    data = cover_json(found)
    assert data.endswith(b"}\n")
    assert json.loads(data)["systems"][0]["system"] in ("wash", "spare")
