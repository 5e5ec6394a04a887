"""What the page is told of units: the words of the answers, the lines of the paper, and only what changed."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.desk import told
from aimcalc.desk.asked import Look
from aimcalc.desk.light import light_told
from aimcalc.light.grid import area
from aimcalc.show import Show
from aimcalc.text import words as w
from tests.shows import rig_of, show_of

SCENES = ["arena", "playhouse", "raked", "studio"]
LONG = 30.0  # m


def lights(show, rows=None):
    """What is told of some units' light, or of all, by their names."""
    rows = range(len(show.rig.units)) if rows is None else rows
    return {key[2:]: value for key, value in told.light_of_units(show, list(rows))}


@pytest.mark.parametrize("scene", SCENES)
def test_how_units_are_set_is_told_as_their_answers_have_it(scene):
    """The other way: the records behind `solve --json`, which the page does not wait for."""
    show = show_of(rig_of(scene))
    unit = told.length_unit(show)
    found = lights(show)
    assert found.keys() == {answer.unit for answer in show.rig.answers}
    for answer in show.rig.answers:
        one = found[answer.unit]
        if answer.throw is None:
            assert "swing" not in one
            continue
        tip = w.tip(answer.down)
        assert one["swing"] == w.turn(answer.pan, answer.swing)
        assert one["tip"] == f"{tip.word} {tip.angle}".rstrip()
        assert one["throw"] == w.length(answer.throw, unit, w.SIZE)
        assert one["lens"] == pytest.approx(answer.lens, abs=0.0006)
        assert one["face"] == pytest.approx(answer.face, abs=0.0006)


@pytest.mark.parametrize("scene", SCENES)
def test_the_lines_of_a_pool_enclose_its_area(scene):
    """A line of straight pieces leaves out a hundredth at the most, but of a pool that hardly closes."""
    show = show_of(rig_of(scene))
    found, checked = lights(show), 0
    for answer, kind in zip(show.rig.answers, show.rig.kinds, strict=True):
        pool = answer.face_pool
        if pool is None or not pool.closed or kind.oval or pool.length > LONG:
            continue
        (rim,) = [rim for field, rim in found[answer.unit]["rims"] if field]
        assert rim[0] == rim[-1]
        assert area(rim[:-1]) == pytest.approx(pool.area, rel=0.01)
        checked += 1
    assert checked > 5


@pytest.mark.parametrize("scene", SCENES)
def test_what_a_move_changes_is_told_and_nothing_else(scene):
    """By brute force: every unit is told before and after, and those that differ are the moved ones."""
    show = show_of(rig_of(scene))
    old = show.scene.targets[0]
    targets = (replace(old, x=old.x + 0.4), *show.scene.targets[1:])
    now = Show(replace(show.scene, targets=targets))
    moved = {now.rig.names[k] for k in told.moved_units(now.rig, show.rig)}
    before, after = lights(show), lights(now)
    assert moved == {name for name in after if after[name] != before[name]}
    assert moved == {
        n for n, u in zip(now.rig.names, now.rig.units, strict=True) if u.target == old.name
    }


def test_light_and_holes_are_those_of_the_study():
    show = show_of(rig_of("playhouse"))
    for name, system in show.light.systems.items():
        found = light_told(show, Look(system=name))
        assert len(found["holes"]) == len(system.gaps)
        for hole, gap in zip(found["holes"], system.gaps, strict=True):
            edge = np.array(hole["edge"]).reshape(-1, 2)
            assert edge.min(axis=0) == pytest.approx(gap.box[:2], abs=0.001)
            assert edge.max(axis=0) == pytest.approx(gap.box[2:], abs=0.001)


def test_a_higher_threshold_leaves_no_less_dark():
    show = show_of(rig_of("playhouse"))
    shares = [0.2, 0.5, 0.8]
    dark = [
        sum(len(hole["hatch"]) for hole in light_told(show, Look(system="all", share=s))["holes"])
        for s in shares
    ]
    assert dark[0] < dark[1] < dark[2]


def test_without_an_area_the_light_is_a_sentence():
    show = show_of(rig_of("studio"))
    bare = Show(replace(show.scene, stage=replace(show.scene.stage, outline=(), acting=())))
    found = light_told(bare, Look(system="all"))
    assert "no area to cover" in found["says"]
    assert found["holes"] == []
