"""`aimcalc where`, called as a user calls it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from aimcalc import cli

SCENES = Path(__file__).parents[1] / "scenes"


@pytest.fixture
def call(capfd):
    def run(*arguments):
        status = cli.run(["where", *map(str, arguments)])
        out, err = capfd.readouterr()
        assert "Traceback" not in err
        return status, out, err

    return run


def test_set_as_printed_it_will_do(call):
    status, out, err = call(SCENES / "studio", "front pipe/1")
    assert (status, err) == (0, "")
    lines = out.splitlines()
    assert lines[0].startswith("front pipe/1: dial ")
    assert lines[-1].startswith("That will do")


def test_set_by_its_tape_and_a_level_it_is_told_as_by_its_dial(call):
    """The plotted mark and the plotted pan are one aim, but for what either is rounded by."""
    aims = json.loads(_solved("studio"))
    unit = next(u for u in aims["units"] if u["sight"] is not None)
    sight = f"{abs(unit['sight']):.4f} m {'SL' if unit['sight'] >= 0 else 'SR'}"
    pan = f"{unit['pan']:.4f} {unit['swing']}"
    by_tape, by_dial = (
        json.loads(call(SCENES / "studio", unit["unit"], "--json", *how)[1])
        for how in (("--sight", sight), ("--pan", pan))
    )
    assert by_tape["set"]["heading"] == pytest.approx(by_dial["set"]["heading"], abs=0.01)
    assert by_tape["past_face"] == pytest.approx(by_dial["past_face"], abs=0.01)


def _solved(name: str) -> str:
    from aimcalc.text.lists import as_json
    from tests.shows import rig_of

    return as_json(rig_of(name), []).decode()


@pytest.mark.parametrize("unit", ["boom SL/1", "boom SL/2", "back pipe/1"])
def test_every_mount_of_a_scene_can_be_asked(call, unit):
    for how in ((), ("--yoke", "20 away"), ("--json",)):
        status, out, _ = call(SCENES / "studio", unit, *how)
        assert status == 0
        assert out


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (["front pipe/1", "--down", "steep"], "expected degrees from level"),
        (["front pipe/1", "--pan", "22"], "expected a pan with its side, SL or SR"),
        (["front pipe/1", "--pan", "22 left"], "Say SL or SR"),
        (["front pipe/1", "--pan", "22 US"], "expected the side that it swings to"),
        (["front pipe/1", "--sight", "there"], "expected a length"),
        (["boom SL/1", "--sight", "2 m SL"], "expected a unit that has a sight tape"),
        (["front pipe/1", "--yoke", "40"], "which way from the clamp"),
        (["front pipe/1", "--pan", "2 SL", "--sight", "2 m SL"], "not both"),
        (["front pipe/1", "--down", "2", "--yoke", "2 away"], "not both"),
        (["front pip/11"], "expected a name of the scene"),
    ],
)
def test_a_wrong_word_is_told_in_a_sentence(call, wrong, told):
    status, out, err = call(SCENES / "studio", *wrong)
    assert (status, out) == (2, "")
    assert told in err
