"""Light in the audience's eyes, and units that it sees."""

from __future__ import annotations

import re

import pytest

from aimcalc.scene.model import Seats
from tests.findings.clean import CLEAN, changed, with_pipe, with_special
from tests.findings.judged import says, told, upright, with_solids

STALLS = CLEAN.seats[0]  # from 6 to 14 m DS, 6 m either side, eyes at 0.5 m


def in_eyes(scene):
    return [f for f in told(scene) if f[1] == "field-in-seats"]


def test_a_back_light_that_points_at_the_front_row_is_told_with_how_many_and_where():
    # From the back pipe (6 m US, 5.1 m up) at a point on the front row.
    scene = with_special((-4.0, -6.0, 0.5))
    assert in_eyes(scene) == [("warn", "field-in-seats", "back/4")]
    text = says(scene, "field-in-seats")
    assert text.startswith("Unit 4 throws its field into ")
    assert " % of stalls; worst at " in text
    assert text.endswith(", eyes 0.50 m up.")


def test_nearly_all_seats_or_few_are_counted_as_they_are():
    # A block 2 m wide and 2 m deep about the point that is lit lies wholly in a field of 26 at 13 m.
    small = Seats(name="box", outline=((-5, -8), (-3, -8), (-3, -6), (-5, -6)), eye=0.5)
    scene = changed(with_special((-4.0, -7.0, 0.5)), seats=(small,))
    assert "into the eyes of 100 % of box" in says(scene, "field-in-seats")


def test_scenery_in_between_keeps_the_light_off_the_seats():
    wall = upright("wall", 0.0, 0.0, 7.0)
    assert in_eyes(with_solids(wall, scene=with_special((-4.0, -6.0, 0.5)))) == []


def seen(low: float, trim: float = 5.5):
    """A border 2 m DS of the back pipe; the front row's eyes are at (y = -6, z = 0.5)."""
    ends = {"start": (-6.0, 6.0, trim), "end": (6.0, 6.0, trim)}
    scene = with_pipe("back", CLEAN, **ends)
    return with_solids(upright("border 1", 4.0, low, 9.0), scene=scene)


def rules(scene):
    return [f for f in told(scene) if f[1] == "seen-under-border"]


@pytest.mark.parametrize(("low", "tells"), [(4.1, False), (4.7, True)])
def test_units_that_hang_below_the_line_of_sight_are_told(low: float, tells: bool):
    # 41 down, the lowest corner of a back unit's body is at y = 5.77 + 0.135 sin 41 = 5.86 and
    # z = 4.94 - 0.135 cos 41 = 4.84: the line to it from the front row passes y = 4 at
    # 0.5 + 4.34 (10 / 11.86) = 4.16 m.
    assert rules(seen(low)) == ([("warn", "seen-under-border", "back")] if tells else [])


def test_the_sentence_names_border_block_and_how_much_of_a_body():
    text = says(seen(4.7), "seen-under-border")
    assert text.startswith("All 3 units show under border 1 from the front row of stalls: ")
    assert re.search(r": up to \d+ % of unit [123]'s body\.$", text)
    scene = seen(4.7)
    one = tuple(u for u in scene.units if u.position != "back" or u.number == "2")
    assert re.search(
        r": \d+ % of its body\.$", says(changed(scene, units=one), "seen-under-border")
    )


def test_without_borders_or_without_seats_nobody_is_hidden_or_seen():
    assert rules(with_solids(upright("wall", 4.0, 4.7, 9.0))) == []
    assert rules(changed(seen(4.7), seats=())) == []
