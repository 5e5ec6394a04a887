"""A page of the sheet by area: its figures by plain sums, and by the rig solved again without a unit."""

from __future__ import annotations

import io
import math
import re
from functools import cache

import msgspec
import numpy as np
import pytest

from aimcalc.coverage.study import study_of
from aimcalc.coverage.systems import Below
from aimcalc.scene.model import Target
from aimcalc.sheets.by_area import by_area
from aimcalc.show import Show
from aimcalc.text.stamp import PaperOptions
from tests.lit import FACE, LENS, a_lamp, a_rig, a_unit, a_wash, candela
from tests.sheets import pdf_reading
from tests.shows import show_of

TARGETS = [
    Target(name="SL end", x=2.0, y=0.5),
    Target(name="SR end", x=-2.0, y=0.5),
    Target(name="US", x=0.5, y=1.5, faces=90.0),
]
UNITS = [  # in hang order, from the SL end
    a_unit(1, 3.0, target="SL end", channel="11", system="wash", colour="straw"),
    a_unit(2, 2.4, to=(2.0, 0.5), channel="14", system="wash", colour="blue"),
    a_unit(3, 1.2, target="SL end", channel="15", system="cool", transmission=0.4),
    a_unit(4, 0.5, target="US", channel="13", system="wash", colour="straw"),
    a_unit(5, -1.0, target="US", channel="16", system="cool", colour="blue"),
    a_unit(6, -3.0, target="SR end", channel="12", system="wash", colour="straw"),
]
POINTS = {t.name: (t.x, t.y, FACE) for t in TARGETS}
NAMES = tuple(POINTS)
LINE = 6.0  # pt: what is so near in height is one line
Point = tuple[float, float, float]


def _middle(said: pdf_reading.Said) -> float:
    return (said.bottom + said.top) / 2


@cache
def _rows(name: str) -> tuple[list[list[str]], list[list[str]]]:
    """The two tables of a target's page, row by row, cells from left to right."""
    files = [io.BytesIO() for _ in range(4)]
    by_area(show_of(_rig()), *files, PaperOptions())
    for page in pdf_reading.runs(files[0].getvalue()):
        if any(said.words.startswith(f"{name}: ") for said in page):
            rows: list[list[pdf_reading.Said]] = []
            for said in sorted(page, key=_middle, reverse=True):
                if not rows or _middle(rows[-1][0]) - _middle(said) > LINE:
                    rows.append([])
                rows[-1].append(said)
            cells = [[s.words for s in sorted(row, key=lambda s: s.left)] for row in rows]
            parted = next(k for k, row in enumerate(cells) if row[0].endswith("if one is gone"))
            return cells[:parted], cells[parted:]
    raise AssertionError(name)


@cache
def _rig():
    return a_rig(UNITS, TARGETS)


def _mine(rows: list[list[str]], channel: str) -> list[str]:
    (row,) = (row for row in rows if row[0].removeprefix("> ") == channel and len(row) > 3)
    return row


def _aim(unit) -> Point:
    return unit.point or POINTS[unit.target]


def _light(unit, point: Point, aim: Point | None = None) -> tuple[float, list[float]]:
    """Lux on a card square to a unit at a point, and the way its light goes; by the written formula."""
    lens = (unit.at, 0.0, LENS)
    far = math.dist(lens, point)
    ray = [(b - a) / far for a, b in zip(lens, point, strict=True)]
    axis = np.subtract(aim or _aim(unit), lens)
    off = math.degrees(math.acos(min(1.0, float(axis @ ray) / math.hypot(*axis))))
    return unit.transmission * candela(off) / far**2, ray


def _told(unit, name: str) -> bool:
    """Whether a unit has a row of its own: aimed here, or 2 % of the light and more."""
    total = sum(_light(each, POINTS[name])[0] for each in UNITS)
    return unit.target == name or _light(unit, POINTS[name])[0] / total >= 0.02


CASES = [(u, n) for n in NAMES for u in UNITS if _told(u, n)]


@pytest.mark.parametrize(("unit", "name"), CASES, ids=[f"{n}-{u.channel}" for u, n in CASES])
def test_shares_and_lux_of_every_row_are_a_plain_sum(unit, name: str) -> None:
    row = _mine(_rows(name)[0], unit.channel)
    here = POINTS[name]
    total = sum(_light(each, here)[0] for each in UNITS)
    lux, ray = _light(unit, here)
    up = math.degrees(math.asin(-ray[2]))
    front = ray[1] if name != "US" else -ray[0]  # a card that faces DS, or SL
    lit = [cell.removesuffix(" lx") for cell in row if cell.endswith(" lx")]
    wanted = [lux * max(0.0, front), lux * -ray[2]]
    assert [float(v) for v in lit] == [pytest.approx(v, abs=0.51) for v in wanted]
    assert f"{up:.0f}°" in row
    assert f"{100 * lux / total:.0f} %" in row
    assert (row[0][:2] == "> ") == (unit.target == name)


@pytest.mark.parametrize("unit", UNITS, ids=[u.channel for u in UNITS])
def test_what_goes_dark_is_what_the_rig_solved_without_the_unit_lacks(unit) -> None:
    (name, *_) = (n for n in NAMES if (unit, n) in CASES)
    whole = show_of(_rig()).light.systems[unit.system]
    cell = show_of(_rig()).light.plane.grid.cell_area
    left = [other for other in UNITS if other is not unit]
    again = study_of(a_rig(left, TARGETS), below=Below(lux=whole.below)).systems[unit.system]
    dark = np.count_nonzero((again.level < whole.below) & (whole.level >= whole.below)) * cell
    row = _mine(_rows(name)[0], unit.channel)
    printed = [cell for cell in row if cell.endswith(" m2")]
    assert printed == ([f"{dark:.2f} m2"] if dark else [])
    assert dark > 0 or unit.channel == "14"


@pytest.mark.parametrize("system", ["wash", "cool"])
def test_at_the_printed_faders_the_areas_of_a_system_read_alike(system: str) -> None:
    mine = [u for u in UNITS if u.system == system and u.target]
    faders = {}
    for unit in mine:
        row = _mine(_rows(unit.target)[0], unit.channel)
        shares = [c for c in row if c == "full" or c.endswith(" %")]
        faders[unit.channel] = 1.0 if shares[-1] == "full" else float(shares[-1][:-2]) / 100
    readings = {
        target: sum(faders[u.channel] * _light(u, POINTS[target])[0] for u in mine)
        for target in {u.target for u in mine}
    }
    if system == "wash":  # the unit on a bare point is levelled with the rest
        row = _mine(_rows("SL end")[0], "14")
        level = next(c for c in reversed(row) if c == "full" or c.endswith(" %"))
        level = 1.0 if level == "full" else float(level[:-2]) / 100
        for target in readings:
            readings[target] += level * _light(UNITS[1], POINTS[target])[0]
    # a printed level is within half of a hundredth, of levels from a fifth up
    assert max(readings.values()) / min(readings.values()) == pytest.approx(1.0, abs=0.03)


FILL = re.compile(r"ch (\d+) \((\d+)°, (?:([a-z ]+), )?(\d+) lx, (from [A-Za-z ]+|as it is)\)")


@pytest.mark.parametrize("name", NAMES)
def test_who_could_fill_in_comes_from_nearly_the_same_way_and_gives_what_is_told(name: str) -> None:
    here, seen = POINTS[name], 0
    by_channel = {unit.channel: unit for unit in UNITS}
    for row in _rows(name)[1]:
        gone = by_channel.get(row[0])
        if gone is None:
            continue
        lux, ray = _light(gone, here)
        for channel, off, colour, told, how in FILL.findall(" ".join(row)):
            other = by_channel[channel]
            there, way = _light(other, here, None if how == "as it is" else here)
            between = math.degrees(math.acos(sum(a * b for a, b in zip(ray, way, strict=True))))
            assert float(off) == pytest.approx(between, abs=0.51)
            # a turned unit points at a mark on the deck, 5 cm to the next, and the face above it
            assert float(told) == pytest.approx(there, rel=0.01)
            assert there >= lux / 2
            assert colour == ("" if other.colour == gone.colour else other.colour or "no colour")
            assert how == "as it is" or how == f"from {other.target or 'a point'}"
            seen += 1
    assert seen or name != "SL end"  # where three of the wash light one face


def test_a_dark_area_is_told_who_could_be_turned_there() -> None:
    """A narrow unit 14° off it could; 16,000 cd at 4 m down and 1 m across give 16000 / 17 = 941 lx."""
    spot = a_lamp(field=12.0, beam=9.0)
    units = [a_unit(1, 2.0, channel="1"), a_unit(2, 0.5, channel="2")]
    scene = a_wash(units, [Target(name="hole", x=-0.5, y=0.0)], kinds=[spot])
    files = [io.BytesIO() for _ in range(4)]
    by_area(Show(scene), *files, PaperOptions())
    text = pdf_reading.pages(files[0].getvalue())[0]
    assert "nothing lights it" in text
    assert "941 lx" in text
    assert "p/2" in text
    assert "p/1" not in text


def test_units_of_unknown_light_say_so() -> None:
    units = [msgspec.structs.replace(UNITS[0], kind="x"), UNITS[1]]
    dark = a_lamp("x", peak_cd=None)
    scene = a_wash(units, TARGETS[:1], kinds=[a_lamp(), dark])
    files = [io.BytesIO() for _ in range(4)]
    by_area(Show(scene), *files, PaperOptions())
    assert "not known" in pdf_reading.pages(files[0].getvalue())[0]
