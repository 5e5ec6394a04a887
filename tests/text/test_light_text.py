"""What `aimcalc cover` prints: every number that the survey holds, in words, without a minus sign."""

from __future__ import annotations

import re

import pytest

from aimcalc.coverage.survey import CoverOptions, survey, survey_of
from aimcalc.scene.model import Target
from aimcalc.text.light.cover_text import cover_text
from tests.coverage.holes import STRIP, a_row
from tests.lit import a_lamp, a_rig, a_unit
from tests.shows import a_show, rig_of


@pytest.fixture(scope="module")
def playhouse():
    rig = rig_of("playhouse")
    found = survey_of(a_show(rig).light, CoverOptions(points=((0.0, 1.0, 1.6),)))
    return found, cover_text(found, "ft")


def test_every_system_has_its_row_and_its_holes(playhouse):
    found, text = playhouse
    for name, system in found.study.systems.items():
        counts = f"{system.counts.min():.0f} to {system.counts.max():.0f}"
        figures = rf"{system.units.size} +{counts} +{system.figures.mean:.0f} lx"
        assert re.search(rf"^  {name} +{figures}", text, re.M)
        heading = "All units" if name == "all" else name
        part = text.split(f"\n{heading}: dark where under ")[1]
        for k, gap in enumerate(system.gaps):
            assert f"  hole {k + 1}: {gap.area / 0.3048**2:.1f} ft2 at " in part


def test_helpers_are_named_with_channel_new_aim_and_both_areas(playhouse):
    found, text = playhouse
    best = found.helpers["front cool"][0][0]
    unit = found.study.rig.units[best.unit]
    line = next(row for row in text.splitlines() if f"{unit.position}/{unit.number} (ch" in row)
    assert f"off {unit.target} to " in line
    assert re.search(r"\(\d+° S[LR] of US, DOWN \d+°\): closes \d+\.\d ft2 of it, uncovers ", line)


def test_there_is_no_minus_sign_and_no_bare_left_or_right(playhouse):
    _, text = playhouse
    assert not re.search(r"(^|[\s(])[-−]\d", text)
    assert not re.search(r"\b(left|right)\b", text)


def test_points_name_the_strongest_units(playhouse):
    found, text = playhouse
    part = text.split("\nPoints\n")[1]
    assert "CENTRE LINE, 3'-3 1/4\" US, 5'-3\" up" in part
    for light in found.points:
        assert f"{light.level:.0f} lx" in part


def test_levels_are_told_by_channel_with_equal_ones_together(playhouse):
    found, text = playhouse
    part = text.split("\nBalance (light in proportion to level: a linear dimmer law)\n")[1].split(
        "\n\n"
    )[0]
    assert "ch 61, 65 at 100 %" in part
    assert len(part.splitlines()) == len(found.balances)


def test_re_aims_say_how_well_they_do():
    text = cover_text(survey(a_row({2: (3.0, 0.0)}, acting=STRIP)), "m")
    assert "Re-aims together: 1 unit closes every hole.\n" in text
    none = [a_unit(1, 3.5)]
    fixed = a_lamp(field=20.0, yoke_range=(89.0, 91.0))
    text = cover_text(survey(a_rig(none, kinds=[fixed], acting=STRIP)), "m")
    assert "Re-aims together" not in text
    assert "every unit has a job of its own: none is re-aimed" in text  # the only one of its system


def test_a_system_alike_at_full_says_so():
    targets = [Target(name="a", x=3.0, y=0.0), Target(name="b", x=-3.0, y=0.0)]
    units = [a_unit(1, 3.0, target="a"), a_unit(2, -3.0, target="b")]
    text = cover_text(survey(a_rig(units, targets)), "m")
    assert "  wash: even at full." in text


def test_a_dark_rig_is_told_without_dividing_by_nothing():
    up = a_unit(1, 0.0, point=(0.0, 0.0, 9.0), mount="over")
    text = cover_text(survey(a_rig([up])), "m")
    assert "hole 1: 32.00 m2 at CENTRE LINE, PLASTER LINE" in text
    assert "of the mean" not in text.split("darkest")[1].splitlines()[0]
