"""What is found in the light: each rule planted, and nothing where nothing is wrong."""

from __future__ import annotations

from aimcalc.coverage.survey import CoverOptions, survey
from aimcalc.findings.light import light_findings
from aimcalc.rig.wording import area
from aimcalc.scene.model import Target
from tests.coverage.holes import STRIP, a_row
from tests.lit import a_lamp, a_rig, a_unit


def told(rig):
    return light_findings(survey(rig, CoverOptions(fewest=False)))


def test_an_even_wash_has_none():
    assert told(a_row({}, acting=STRIP)) == []


def test_a_hole_is_a_warn_with_its_size_place_and_what_to_do():
    (found,) = told(a_row({2: (3.0, 0.0), 3: (-3.0, 0.0)}))
    assert (found.severity, found.rule) == ("warn", "hole-in-system")
    assert found.says.startswith("System wash has a hole of ")
    assert "m2 with its middle" in found.says
    assert "lx wanted" in found.says
    assert found.do.startswith("Re-aim p/")
    assert "closes" in found.do


def test_many_holes_of_a_system_are_one_finding():
    (found,) = told(a_row({2: (3.0, 0.0)}, acting=STRIP))
    assert " holes, " in found.says
    assert "the largest" in found.says


def test_where_no_unit_helps_it_says_to_add_one():
    fixed = a_lamp(field=20.0, yoke_range=(89.0, 91.0))  # straight down, whatever is wished for
    (found,) = told(a_rig([a_unit(1, 3.5)], kinds=[fixed], acting=STRIP))
    assert found.do.startswith("No re-aim in the system closes more than it uncovers: add a unit")


# Throws of 4 and 6 m: 2.25 to 1 at equal level; 4 and 5.5 m: 1.89 to 1.
def test_a_system_more_than_twice_as_bright_at_one_target_is_a_warn():
    def rules(depth):
        targets = [
            Target(name="near", x=3.0, y=0.0),
            Target(name="far", x=-3.0, y=0.0, z=4 - depth),
        ]
        units = [a_unit(1, 3.0, target="near"), a_unit(2, -3.0, target="far")]
        found = told(a_rig(units, targets, kinds=[a_lamp(field=10.0)]))
        return [f for f in found if f.rule == "levels-unlike"]

    (found,) = rules(6.0)
    assert found.severity == "warn"
    assert found.says == ("System wash at equal levels is 2.2 times as bright at near as at far.")
    assert rules(5.5) == []


def test_kinds_without_candela_are_named():
    units = [a_unit(1, 0.0), a_unit(2, 1.0, kind="x"), a_unit(3, 2.0, kind="x")]
    found = told(a_rig(units, kinds=[a_lamp(), a_lamp("x", peak_cd=None)]))
    (first,) = [f for f in found if f.rule == "no-candela"]
    assert "2 of 3 units" in first.says
    assert "Kind x has" in first.says


def test_front_angles_are_a_note_that_gives_both_readings():
    target = Target(name="t", x=0.0, y=3.0)
    found = told(a_rig([a_unit(1, 0.0, target="t")], [target]))
    (note,) = [f for f in found if f.rule == "front-angles"]
    assert note.severity == "note"
    # 4 m up and 3 m DS: 53 degrees, within ten of 45 and not of 35
    assert (
        "Of 1 unit lighting a face from the front, 1 comes 35° to 55° up (45° as the true"
        in note.says
    )
    assert "0 come 25° to 45° up" in note.says
    assert note.do == "Ask the designer which 45° is meant."


def test_areas_are_in_the_scenes_own_unit():
    assert area(0.82, "m") == "0.82 m2"
    assert area(0.82, "cm") == "0.82 m2"
    assert area(0.09290304, "ft") == area(0.09290304, "in") == "1.0 ft2"
