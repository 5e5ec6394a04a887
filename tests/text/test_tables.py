"""What the terminal shows: the sheets' own words, in columns, and findings with their count."""

from functools import cache
from pathlib import Path

import pytest

from aimcalc.findings import findings
from aimcalc.scene.model import Target, Unit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.tables import AIM_HEADERS, aim_rows, aims_text, counts, findings_text
from tests.rigs import a_kind, a_pipe, a_scene
from tests.sheets.pdf_reading import bare_sides, minus_signs
from tests.shows import rig_of

SCENES = Path(__file__).parents[2] / "scenes"
STOP = Finding("stop", "number-twice", "Two units are 3.", "Renumber.", unit="LX 1/3")
NOTE = Finding("note", "typical", "Kinds are typical.", "Measure.")


@cache
def solved(name):
    rig = rig_of(name)
    return rig, findings(rig)


def hand_case():
    """One unit at 6 m without drop, face 1.65 m up and 4 m out: 45 degrees would need 4.35 m."""
    kind = a_kind("ers-30", field=30.0, drop_under=0.0)
    unit = Unit(position="LX 1", number="3", kind="ers-30", at=1.0, target="A", channel="41")
    return solve_rig(
        a_scene(
            [unit], [Target(name="A", x=1.0, y=4.0)], pipes=[a_pipe("LX 1", trim=6.0)], kinds=[kind]
        )
    )


@pytest.mark.parametrize(("name", "length"), [("studio", "m"), ("playhouse", "ft"), ("raked", "m")])
def test_every_unit_is_told_and_no_number_has_a_sign(name, length):
    rig, found = solved(name)
    text = aims_text(rig, found, length)
    assert minus_signs(text) == []
    assert bare_sides(text) == []
    rows = [
        line for line in text.splitlines() if line.startswith("  ") and "  unit" not in line[:7]
    ]
    assert len(rows) == len(rig.units)
    for position in {unit.position for unit in rig.units}:
        assert f"\n{position}: " in text


def test_the_numbers_of_a_hand_case_are_in_its_row():
    (row,) = aim_rows(hand_case(), [], "m")
    told = dict(zip(AIM_HEADERS, row, strict=True))
    # atan(4.35 / 4) = 47.4 degrees; hypot(4, 4.35) = 5.91 m; lands at 4 * 6 / 4.35 = 5.52 m.
    assert told["down or up"] == "DOWN 47°"
    assert told["plumb"] == "43°"
    assert told["throw"] == "5.91 m"
    assert told["LANDS, ON or POLE"] == "LANDS 1.00 m SL, 5.50 m US"
    assert told["STAND up and down"] == "4.00 m US"
    assert told["square"] == "US"
    assert told["pan and swing"] == "SQUARE"
    assert told["channel"] == "41"
    # Near and far edges 4.35 / tan(62.4) and 4.35 / tan(32.4): 6.85 - 2.27 = 4.58 m long.
    assert told["field at face"].startswith("4.58 m x ")


def test_a_turn_at_the_dial_of_a_leaning_stem_is_called_so_beside_the_tape():
    """The roof bar of raked slopes: unit 1 heads 1 degree off DS, its dial reads SL 9."""
    rig, _ = solved("raked")
    cells = [dict(zip(AIM_HEADERS, row, strict=True)) for row in aim_rows(rig, [], "m")]
    (told,) = (row for row in cells if (row["position"], row["unit"]) == ("roof bar", "1"))
    assert told["pan and swing"] == "dial SL 9°"
    assert told["sight tape or heading"].endswith(" SL")
    assert not any("dial" in row["pan and swing"] for row in cells if row["position"] == "back bar")


def test_columns_line_up_under_their_heads():
    rig, found = solved("studio")
    block = aims_text(rig, found, "m").split("\n\n")[1].splitlines()
    head, rows = block[1], block[2:]
    for word in ("square", "throw", "STAND"):
        start = head.index(word)
        assert all(row[start - 1] == " " and row[start] != " " for row in rows)


def test_stops_and_warns_stand_on_their_row_and_notes_do_not():
    text = aims_text(hand_case(), [STOP, NOTE], "m")
    assert "STOP number-twice" in text
    assert "typical" not in text
    assert text.endswith("1 stop, 0 warnings, 1 note")


def test_a_finding_is_told_with_rule_place_reason_and_remedy():
    text = findings_text([STOP, NOTE])
    first, second, count = text.split("\n\n")
    assert first == "STOP  number-twice  LX 1/3\n    Two units are 3.\n    Do: Renumber."
    assert second.startswith("NOTE  typical  the scene\n")
    assert count == "1 stop, 0 warnings, 1 note"


def test_nothing_found_is_said():
    assert findings_text([]) == "Nothing found: no stop, no warning, no note."
    assert counts([]) == "Nothing found: no stop, no warning, no note."


def test_a_pool_that_never_closes_is_called_open():
    kind = a_kind("wide", field=60.0)
    unit = Unit(position="p", number="1", kind="wide", at=0.0, point=(0.0, 9.0, 5.0))
    (row,) = aim_rows(solve_rig(a_scene([unit], kinds=[kind])), [], "m")
    assert dict(zip(AIM_HEADERS, row, strict=True))["field at face"] == "OPEN"


def test_an_empty_rig_is_a_title_and_a_count():
    assert aims_text(solve_rig(a_scene([])), [], "m").startswith(
        "Test rig: 0 units\n\nNothing found"
    )
