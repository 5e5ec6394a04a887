"""Hang lists as people keep them are read as a careful person would, or asked about: none is silently
wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.messy import cases


@pytest.mark.parametrize("name", cases.names())
def test_a_messy_list_is_read_as_it_is_typed_or_asked_about(name: str, tmp_path: Path) -> None:
    assert cases.wrong(cases.case(name), tmp_path / "scene") == []


def test_there_are_forty_of_many_sorts() -> None:
    typed = [cases.case(name) for name in cases.names()]
    assert len(typed) >= 40
    endings = {what["list"].rpartition(".")[2] for what in typed}
    assert endings >= {"csv", "tsv", "xlsx", "ods", "xls"}
    assert sum("asked" in what for what in typed) >= 8


def _places(house: str, headings: str, row: str, root: Path) -> list[float | None] | str:
    """The place of the one unit of a list, or what is asked."""
    root.mkdir()
    (root / "typed.csv").write_text(
        f"Pipe,Unit,Type,Focus,{headings}\nLX 1,1,spot 26,area 1,{row}\n"
    )
    what = {"scene": house, "list": "typed.csv"}
    home = root / "scene"
    home.mkdir()
    try:
        return [unit.at for unit in load_scene(cases.write(what, home, root)).units]
    except SceneError as error:
        return error.report()


@pytest.mark.parametrize(
    ("headings", "row", "inches"),
    [
        ("SL (in),SR (in)", "18,", 18),
        ("SL (in),SR (in)", ",18", -18),
        ("SL in,SR in", "18,", 18),
        ("SL (inches),SR (inches)", ",18", -18),
        ("SL (cm),SR (cm)", "127,", 50),
        ("SL (ft),SR (ft)", "2,", 24),
        ("Distance Ft,In,SL/SR", "8,6,SL", 102),
        ("Distance from centre (ft),In,Side", "8,6,SR", -102),
        ("Distance,In,Side", "8,6 1/2,SL", 102.5),
        ("Distance,In,Side", '"8\'","6""",SL', 102),
        ("Distance,In", "8 SL,6", 102),
        ("Distance,In", "-8,6", -102),
        ("Distance,In,Side", "8,0,SL", 96),
        ("Distance,In,Side", "8,,SL", 96),
        ("Distance,In,Side", ",9,SL", 9),
        ("Ft,In,Side", "8,6 1/2,SL", 102.5),
        ("Position (in)", "18 SL", 18),
    ],
)
def test_a_place_in_two_columns_has_the_unit_that_each_heading_names(
    headings: str, row: str, inches: float, tmp_path: Path
) -> None:
    assert _places("feet", headings, row, tmp_path / "a") == [pytest.approx(inches * 0.0254)]


@pytest.mark.parametrize(
    ("headings", "row"),
    [
        ("Distance (m),In,Side", "2,6,SL"),
        ("Distance,In,Side", "8.5,6,SL"),
        ("Distance,In,Side", "8,14,SL"),
        ("Distance,In,Side", "8,half,SL"),
        ("Distance,Ft,In,Side", "8,8,6,SL"),
        ("Distance,Notes", "2 SL,CUT?"),
        ("Distance,Notes", "2 SL,cut - or is it?"),
    ],
)
def test_inches_beside_no_feet_and_a_unit_that_may_be_cut_are_asked_about(
    headings: str, row: str, tmp_path: Path
) -> None:
    assert "row 2" in _places("feet", headings, row, tmp_path / "a")


@pytest.mark.parametrize(
    "words",
    [
        "OMITTED in the second plot",
        "Deleted - see new plot",
        "CUT 11/4",
        "Struck after the preview",
    ],
)
def test_a_unit_that_is_called_cut_is_left_out_and_told(words: str, tmp_path: Path) -> None:
    house = (cases.HERE / "feet.toml").read_text(encoding="utf-8")
    (tmp_path / "scene.toml").write_text(
        house.replace("HANG", 'hang = "list.csv"').replace("SPACING", ""), encoding="utf-8"
    )
    rows = f"LX 1,1,2 SL,ers-30,area 1,\nLX 1,2,2 SL,ers-30,area 1,{words}\n"
    head = "Position,Unit,Distance,Type,Focus,Notes\n"
    (tmp_path / "list.csv").write_text(head + rows, encoding="utf-8")
    scene = load_scene(str(tmp_path))
    assert [unit.number for unit in scene.units] == ["1"]
    (told,) = [taken for taken in scene.taken if taken.rule == "list-cut"]
    assert told.severity == "warn"
    assert "row 3" in told.says
    assert words in told.says


def test_a_cut_of_the_beam_is_no_unit_that_is_cut(tmp_path: Path) -> None:
    for k, note in enumerate(("cut top shutter to border", "Cut off the legs")):
        assert _places("feet", "Distance,Notes", f"2 SL,{note}", tmp_path / str(k)) == [
            pytest.approx(24 * 0.0254)
        ]
