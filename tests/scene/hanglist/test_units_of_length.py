"""The length unit of places: as a line says it, or the only one in which they are on their positions."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.unitfit import Figure, unit_that_fits
from tests.scene.hanglist.places import HEADINGS, places, read, told, units
from tests.scene.hanglist.places import listed as _listed
from tests.scene.written import refused


@pytest.mark.parametrize(
    "line",
    [
        "mm, minus = SR of centre",
        "dims mm from CL",
        "ALL SIZES MM",
        "Gala (millimetres; from CL)",
        "sizes in millimetres",
        "spacings mm",
        "mm from centre line",
        "WINTER FIT-UP   house rig   mm off C/L",
        "Gala - millimetres from CL",
        "Panto, mm either side of the centre line",
        "positions given as mm, SL / SR",
        "everything mm",
        "Units mm",
        "Gala / mm",
        "mm throughout",
    ],
)
def test_a_line_says_the_unit(tmp_path: Path, line: str) -> None:
    scene = read(tmp_path, [[line], HEADINGS, *units("LX 1", "3500 SR", "150 SL", "3500 SL")])
    assert places(scene) == [-3.5, 0.15, 3.5]


@pytest.mark.parametrize(
    "line",
    [
        "trims mm above deck",
        "all gel frames 185 mm",
        "Bridge (12 m)",
        "M, a murder",
        "first unit 2 mm from centre",
        "hung 20 cm off CL",
        "Hall - M",
        "units 12",
    ],
)
def test_a_line_of_something_else_says_none(tmp_path: Path, line: str) -> None:
    scene = read(tmp_path, [[line], HEADINGS, *units("LX 1", "3.5 SR", "1.5 SL")])
    assert places(scene) == [-3.5, 1.5]


def test_thousands_in_metres_are_millimetres(tmp_path: Path) -> None:
    rows = [HEADINGS, *units("LX 1", "3500 SR", "150 SL", "3500 SL"), *units("boom SR", 350, 2600)]
    scene = read(tmp_path, rows)
    assert places(scene) == [-3.5, 0.15, 3.5]
    assert places(scene, "boom SR") == [0.35, 2.6]
    assert told(scene, "read in mm", "the only one")


def test_metres_in_a_scene_of_centimetres(tmp_path: Path) -> None:
    bars = units("LX 1", "3.50 SR", "0.5 SL", "3.50 SL")
    settings = 'unit = "cm"'
    text = [HEADINGS, *bars]
    path = _listed(tmp_path, text, settings)
    toml = Path(path) / "scene.toml"
    toml.write_text(
        toml.read_text()
        .replace("trim = 6", "trim = 600")
        .replace("from = -5", "from = -500")
        .replace("to = 5", "to = 500")
    )
    from aimcalc.scene.loading import load_scene

    scene = load_scene(path)
    assert places(scene) == [-3.5, 0.5, 3.5]
    assert told(scene, "read in m:")


def test_one_place_in_thousands_among_metres(tmp_path: Path) -> None:
    scene = read(tmp_path, [HEADINGS, *units("LX 1", "3.5 SR", "1.5 SR", "4500 SL")])
    assert places(scene) == [-3.5, -1.5, 4.5]
    assert told(scene, "4500 mm")


@pytest.mark.parametrize("place", ["45 SL", "450 SL", "6500 SL"])
def test_one_place_that_may_be_a_slip_is_asked(tmp_path: Path, place: str) -> None:
    mistakes = refused(_listed(tmp_path, [HEADINGS, *units("LX 1", "3.5 SR", "1.5 SR", place)]))
    assert [mistake.key for mistake in mistakes] == ["column C (at)"]


def test_what_two_units_fit_is_asked() -> None:
    figures = [Figure("LX 1", value, True, -5.0, 5.0) for value in (-40.0, 10.0, 40.0)]
    assert unit_that_fits(figures, "m") == "cm"  # 0.04 m is no place for three
    wide = [Figure("LX 1", value, True, -5.0, 5.0) for value in (-450.0, 100.0, 450.0)]
    assert unit_that_fits(wide, "m") == ""


def test_what_may_count_from_an_end_is_asked() -> None:
    figures = [Figure("LX 1", value, False, -5.0, 5.0) for value in (75.0, 400.0, 925.0)]
    assert (
        unit_that_fits(figures, "m") == ""
    )  # centimetres from an end, or millimetres from the middle
    assert unit_that_fits([f._replace(from_end=True) for f in figures], "cm") == ""


def test_figures_in_a_house_of_feet_may_be_feet_and_inches_run_together() -> None:
    figures = [Figure("1E", value, True, -6.0, 6.0) for value in (-162.0, -54.0, 54.0)]
    assert unit_that_fits(figures, "ft") == ""
    assert unit_that_fits([f._replace(value=f.value / 12) for f in figures], "ft") == ""


@pytest.mark.parametrize("heading", ["mm", "(MM)", "millimetres"])
@pytest.mark.parametrize("bars", ["Bar", "Place"])
def test_a_unit_alone_heads_the_column_of_places(tmp_path: Path, heading: str, bars: str) -> None:
    head = [bars, "Item", heading, "Type", "Focus"]
    scene = read(tmp_path, [head, *units("LX 1", -4200, 0, 4200)])
    assert places(scene) == [-4.2, 0.0, 4.2]


def test_two_columns_of_units_alone_are_asked_about(tmp_path: Path) -> None:
    head = ["Bar", "Item", "mm", "m", "Type", "Focus"]
    rows = [["LX 1", n, at, 2 * n, "spot", "A"] for n, at in ((1, 1200), (2, 3400))]
    assert refused(_listed(tmp_path, [head, *rows]))
