"""Answers about an area, a point or a channel as a terminal shows them, and as JSON."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest

from aimcalc import cli
from aimcalc.coverage.asked import at_target
from aimcalc.sheets.by_area import by_area
from aimcalc.text.light.ask_text import place_text
from aimcalc.text.stamp import PaperOptions
from tests.shows import rig_of, show_of

SCENES = Path(__file__).parents[2] / "scenes"
STUDIO, PLAYHOUSE = str(SCENES / "studio"), str(SCENES / "playhouse")


@pytest.fixture
def call(capsys: Any) -> Any:
    """One call: its status, stdout and stderr."""

    def run(*arguments: str) -> tuple[int, str, str]:
        status = cli.run(["ask", *arguments])
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        return status, out, err

    return run


@pytest.mark.parametrize(("scene", "area"), [("studio", "chair SL"), ("playhouse", "area 3")])
def test_an_area_is_told_in_one_screen(scene: str, area: str) -> None:
    rig = rig_of(scene)
    text = place_text(rig, at_target(show_of(rig).light, area), "linear", "ft", 80)
    lines = text.splitlines()
    assert len(lines) <= 24
    assert max(map(len, lines)) <= 80
    assert "-" not in text.replace("5'-6", "").replace("2'-0", "").replace("'-", "")


def test_an_area_says_how_its_light_comes_and_who_could_fill_in(call: Any) -> None:
    status, out, _ = call(PLAYHOUSE, "--area", "Area 3")
    assert status == 0
    (row,) = (line for line in out.splitlines() if line.split()[:1] == [">23"])
    # House pipe/6 hangs SL of the area, which is on the centre line, and lights it from the house.
    assert "front cool" in row
    assert " SL of DS " in row
    assert "cool 1: ch 29 (" in row
    assert "from area 9" in row  # where it points in the hang list
    assert "linear law" in out


def test_json_tells_all_of_it_and_the_two_agree(call: Any) -> None:
    status, out, _ = call(PLAYHOUSE, "--area", "area 3", "--json")
    found = json.loads(out)
    assert status == 0
    assert found["place"] == "area 3"
    assert found["law"] == "linear"
    shares = [each["share"] for each in found["light"]]
    assert sum(shares) + found["all_others_share"] == pytest.approx(1.0)
    assert sum(each["lux"] for each in found["light"]) == pytest.approx(
        found["lux"] * (1 - found["all_others_share"])
    )
    (mine,) = (each for each in found["light"] if each["channel"] == "23")
    assert mine["aimed"]
    assert [fill["channel"] for fill in mine["could_fill_in"]][:2] == ["29", "22"]
    assert mine["dark_without"][0]["system"] == "front cool"
    square = json.loads(call(PLAYHOUSE, "--area", "area 3", "--json", "--law", "square")[1])
    (other,) = (each for each in square["light"] if each["channel"] == "23")
    assert other["even_light"] == mine["even_light"] == mine["fader"]
    assert other["fader"] ** 2 == pytest.approx(mine["fader"])


def test_a_point_is_written_as_on_a_plan(call: Any) -> None:
    here = json.loads(call(PLAYHOUSE, "--at", "3' SL, 4' US", "--json")[1])
    assert here["place"] is None
    assert here["point"][:2] == pytest.approx([3 * 0.3048, 4 * 0.3048])
    assert here["point"][2] == pytest.approx(5.5 * 0.3048)  # the scene's face height
    bare = json.loads(call(PLAYHOUSE, "--at", "3; 4; 6", "--json")[1])
    assert bare["point"] == pytest.approx([3 * 0.3048, 4 * 0.3048, 6 * 0.3048])


def test_a_dark_place_says_so(call: Any) -> None:
    status, out, _ = call(STUDIO, "--at", "0, 30 m US")
    assert status == 0
    assert "Nothing lights it." in out


def test_light_that_nobody_has_given_is_not_known(call: Any, capsys: Any, tmp_path: Path) -> None:
    """The starter's own kind has no candela."""
    scene = str(tmp_path / "my")
    assert cli.run(["start", scene]) == 0
    capsys.readouterr()
    (row,) = (r for r in call(scene, "--area", "door")[1].splitlines() if ">1 " in r)
    assert row.count("not known") == 4  # share, face, level, dark
    found = json.loads(call(scene, "--area", "door", "--json")[1])
    (mine,) = (each for each in found["light"] if each["channel"] == "1")
    assert mine["lux"] is mine["share"] is mine["level"] is None
    assert mine["dark_without"] is None
    assert "is not known" in call(scene, "--channel", "1")[1]
    assert json.loads(call(scene, "--channel", "1", "--json")[1])["dark_without"] is None


def test_a_channel_says_what_it_lights(call: Any) -> None:
    status, out, _ = call(PLAYHOUSE, "--channel", "23")
    assert status == 0
    assert out.startswith("channel 23: 1 unit\n")
    assert "house pipe/6" in out
    assert "front cool" in out
    found = json.loads(call(PLAYHOUSE, "--channel", "23", "--json")[1])
    assert found["lights"][0]["target"] == "area 3"
    assert found["dark_without"][0]["system"] == "front cool"


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ([], "Give one of --area, --channel and --at."),
        (["--area", "chair SL", "--channel", "1"], "Give one of"),
        (["--area", "chair"], "chair SL or chair centre or chair SR"),
        (["--area", "sofa"], "There are: chair SL, chair centre, chair SR"),
        (["--area", ""], "expected a name"),
        (["--channel", "99"], "There are: 11, 12"),
        (["--at", "there"], "3' SL, 4' US"),
        (["--at", "3 US, 4 SL"], "3' SL, 4' US"),
        (["--at", "1, 2, 3, 4"], "3' SL, 4' US"),
        (["--law", "cubic", "--area", "chair SL"], "'linear', 'square'"),
    ],
)
def test_a_wrong_call_is_told_what_was_expected(arguments: list[str], says: str, call: Any) -> None:
    status, out, err = call(STUDIO, *arguments)
    assert status == 2
    assert not out
    assert says in err


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_the_sheet_by_area_says_what_is_answered(name: str) -> None:
    show = show_of(rig_of(name))
    files = [io.BytesIO() for _ in range(4)]
    by_area(show, *files, PaperOptions())
    rows = list(csv.DictReader(io.StringIO(files[1].getvalue().decode("utf-8-sig"))))
    for target in show.scene.targets[:4]:
        mine = [row for row in rows if row["target"] == target.name]
        light = at_target(show.light, target.name).light
        assert len(mine) == len(light)
        for row, each in zip(mine, light, strict=True):
            assert row["unit"] == show.rig.names[each.comes.unit]
            values = list(row.values())
            told = [
                each.comes.bearing,
                each.comes.down,
                each.comes.lux,
                each.comes.share,
                each.even,
            ]
            printed = [float(v) if v else None for v in values[6:11]]
            assert printed == [
                None if t is None else pytest.approx(t, rel=1e-4, abs=1e-4) for t in told
            ]
