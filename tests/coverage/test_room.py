"""Whether a unit set anew has room: neighbours' bodies and the way of its light."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.new_aims import joined_aims, new_aims_at
from aimcalc.coverage.study import study_of
from aimcalc.scene.model import Solid
from tests.lit import a_lamp, a_rig, a_unit

LONG = a_lamp(drop_under=0.4, nose=0.6, length=0.9, width=0.3)
WIDE = ((-6.0, -6.0), (6.0, -6.0), (6.0, 6.0), (-6.0, 6.0))


def aimed(study, unit, x, y):
    return new_aims_at(study, np.array([unit]), np.array([x]), np.array([y]))


# Bodies 0.3 m wide, noses 0.6 m from the pivot, 45 down: a nose reaches 0.6 cos 45 = 0.42 m out on plan, and
# turned 23 it moves 0.42 sin 23 = 0.17 m aside. 0.5 m apart there are 0.2 m between them: one alone
# clears its neighbour, both turned towards each other they meet.
def test_two_that_would_meet_are_not_re_aimed_together():
    units = [a_unit(1, 0.25, to=(0.25, 4.0)), a_unit(2, -0.25, to=(-0.25, 4.0))]
    study = study_of(a_rig(units, kinds=[LONG], acting=WIDE))
    both = joined_aims([aimed(study, 0, -1.45, 4.0), aimed(study, 1, 1.45, 4.0)])
    assert study.room.for_each(both).tolist() == [True, True]
    assert study.room.together(both).unit.tolist() == [0]


def test_one_that_would_strike_its_neighbour_is_not_offered():
    # 0.42 m apart, 0.12 m between them (0.02 between their yokes): less than the 0.17 m
    units = [a_unit(1, 0.21, to=(0.21, 4.0)), a_unit(2, -0.21, to=(-0.21, 4.0))]
    study = study_of(a_rig(units, kinds=[LONG], acting=WIDE))
    still, turned = aimed(study, 0, 0.21, 4.2), aimed(study, 0, -1.5, 4.0)
    assert study.room.for_each(still).tolist() == [True]
    assert study.room.for_each(turned).tolist() == [False]


@pytest.mark.parametrize(("width", "can"), [(0.05, True), (3.0, False)])
def test_one_whose_light_would_be_cut_is_not_offered(width, can):
    # a flat half-way to the face, beside the axis: it cuts a sliver of the field, or nearly half of it
    flat = Solid(
        name="flat",
        panel=((0.02, 2.0, 0), (0.02 + width, 2.0, 0), (0.02 + width, 2.0, 4), (0.02, 2.0, 4)),
    )
    rig = a_rig([a_unit(1, 0.0, to=(0.0, 1.8))], kinds=[LONG], solids=[flat], acting=WIDE)
    study = study_of(rig)
    assert study.room.for_each(aimed(study, 0, 0.0, 4.0)).tolist() == [can]
