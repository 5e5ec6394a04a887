"""The records of `cover`: the public keys, what must hold between them, the same answer every time."""

from __future__ import annotations

import json

import msgspec
import pytest

from aimcalc.coverage.survey import CoverOptions, survey, survey_of
from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig
from aimcalc.text.light.cover_json import as_record, cover, cover_json
from tests.coverage.holes import STRIP, a_row
from tests.lit import a_rig, a_unit
from tests.shows import a_show, rig_of

# The keys of systems, gaps, help and points are a contract with other people's programs.
SYSTEM = {
    "system",
    "plane_z",
    "spacing",
    "mean",
    "least",
    "most",
    "u0",
    "share_above_half",
    "gaps",
}
GAP = {"centre", "area", "least", "help"}
HELP = {"unit", "point", "heading", "down", "gain", "uncovers"}
POINT = {"x", "y", "z", "system", "level", "house", "cylindrical"}


@pytest.fixture(scope="module")
def playhouse():
    rig = rig_of("playhouse")
    options = CoverOptions(points=((0.0, 1.0, 1.6), (2.0, 2.0, 1.6)), fewest=False)
    return rig, json.loads(cover_json(survey_of(a_show(rig).light, options)))


def test_systems_gaps_help_and_points_have_their_public_keys(playhouse):
    _, told = playhouse
    assert [s["system"] for s in told["systems"]] == [
        "front cool",
        "front warm",
        "side",
        "back",
        "all",
    ]
    for system in told["systems"]:
        assert set(system) == SYSTEM
        assert system["gaps"]
        for gap in system["gaps"]:
            assert set(gap) == GAP
            assert len(gap["centre"]) == 2
            for helper in gap["help"]:
                assert set(helper) == HELP
                assert len(helper["point"]) == 3
    assert len(told["points"]) == 10
    assert all(set(point) == POINT for point in told["points"])
    assert told["unit_of_length"] == "m"


def test_the_figures_hold_together(playhouse):
    _, told = playhouse
    for system in told["systems"]:
        assert system["least"] <= system["mean"] <= system["most"]
        assert system["u0"] == pytest.approx(system["least"] / system["mean"])
        assert 0 <= system["share_above_half"] <= 1
        assert system["plane_z"] == pytest.approx(5.5 * 0.3048)
        for gap in system["gaps"]:
            assert gap["least"] < system["mean"] / 2
            assert gap["area"] >= 0.1
        areas = [gap["area"] for gap in system["gaps"]]
        assert areas == sorted(areas, reverse=True)
    means = {s["system"]: s["mean"] for s in told["systems"]}
    assert sum(means[n] for n in means if n != "all") < means["all"]


def test_help_names_units_of_the_system_that_can_be_set_so(playhouse):
    rig, told = playhouse
    of = dict(zip(rig.names, (unit.system for unit in rig.units), strict=True))
    for system in told["systems"]:
        for gap in system["gaps"]:
            net = [h["gain"] - h["uncovers"] for h in gap["help"]]
            assert net == sorted(net, reverse=True)
            for helper in gap["help"]:
                assert system["system"] in ("all", of[helper["unit"]])
                assert 0 <= helper["heading"] < 360
                assert -90 <= helper["down"] <= 90
                assert helper["gain"] > 0


def test_points_are_told_only_where_they_are_asked_for():
    told = json.loads(msgspec.json.encode(cover(a_rig([a_unit(1, 0.0)]))))
    assert "points" not in told
    assert set(told) == {"scene", "unit_of_length", "systems", "reaims", "balance", "findings"}


def test_re_aims_and_balance_are_told_by_name():
    rig = a_row({2: (3.0, 0.0)}, acting=STRIP)
    told = as_record(survey(rig))
    (reaim, _) = told.reaims
    assert (reaim.system, reaim.closed, reaim.proved, len(reaim.moves)) == ("wash", True, True, 1)
    assert reaim.moves[0].unit in rig.names
    (balance,) = told.balance
    assert {level.unit for level in balance.units} == set(rig.names)
    assert balance.spread_at_full >= balance.spread >= 1


def test_without_the_search_no_re_aims_are_told():
    rig = a_row({2: (3.0, 0.0)}, acting=STRIP)
    found = survey(rig, CoverOptions(fewest=False))
    assert found.fewest == {}
    assert as_record(found).reaims == []
    assert found.helpers["wash"][0]


def test_the_same_scene_gives_the_same_bytes():
    def once():
        return msgspec.json.encode(cover(solve_rig(load_scene("scenes/studio"))))

    assert once() == once()


def test_a_rig_without_units_is_told_as_dark():
    (every,) = cover(a_rig([])).systems
    assert (every.system, every.mean, every.u0, every.share_above_half) == ("all", 0, 0, 0)
    assert [gap.area for gap in every.gaps] == [pytest.approx(32.0)]
    assert every.gaps[0].help == []


def test_progress_names_what_is_done():
    told = []
    survey(a_row({2: (3.0, 0.0)}), progress=lambda what, share: told.append((what, share)))
    assert any("who could fill a hole" in what for what, _ in told)
    assert all(0 <= share <= 1 for _, share in told)


def test_holes_beyond_the_largest_dozen_are_told_without_help(monkeypatch):
    monkeypatch.setattr("aimcalc.coverage.survey.MOST_HOLES", 1)
    told = cover(solve_rig(load_scene("scenes/studio")), CoverOptions(fewest=False))
    system = told.systems[0]
    assert len(system.gaps) > 1
    assert system.gaps[0].help
    assert all(gap.help == [] for gap in system.gaps[1:])
