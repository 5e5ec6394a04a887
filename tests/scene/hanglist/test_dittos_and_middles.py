"""Marks for the cell above and words for the middle in other languages; kinds under "Lens"; places that count
from the plaster line by their heading."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.listed import asked_of, places_of, scene_of, units_of
from tests.scene.written import write_scene

DITTOS = (
    *(
        "jw.",
        "j.w.",
        "jak wyżej",
        "tak samo",
        "s.o.",
        "siehe oben",
        "ebenso",
        "idem",
        "le même",
        "ci-dessus",
    ),
    *(
        "ídem",
        "lo mismo",
        "c.s.",
        "uguale",
        "o mesmo",
        "hetzelfde",
        "zie boven",
        "d:o",
        "samma som ovan",
    ),
    *("som over", "se over", "totéž"),
)


@pytest.mark.parametrize("ditto", DITTOS)
def test_dittos_in_other_languages(tmp_path: Path, ditto: str) -> None:
    text = "position;number;at;kind;target;colour\nLX 1;1;2 m SR;wide;Door;L201\n"
    text += f"{ditto};2;1 m SL;{ditto};A;{ditto}\n"
    assert units_of(tmp_path, text)[1] == ("LX 1", "2", "wide", "A")
    assert scene_of(tmp_path, text).units[1].colour == "L201"


def test_a_colour_is_no_ditto(tmp_path: Path) -> None:
    text = "position,number,at,kind,target,colour\nLX 1,1,2 m SR,spot,A,L201\nLX 1,2,1 m SL,spot,A,straw\n"
    assert scene_of(tmp_path, text).units[1].colour == "straw"


@pytest.mark.parametrize(
    "middle",
    [
        *(
            "oś",
            "w osi",
            "na osi",
            "auf Mitte",
            "in der Mitte",
            "dans l'axe",
            "sur l'axe",
            "au centre",
        ),
        *("en el eje", "al centro", "in asse", "in het midden", "no centro"),
    ],
)
def test_the_middle_in_other_languages(tmp_path: Path, middle: str) -> None:
    text = f"position;number;at;kind;target\nLX 1;1;{middle};spot;A\nLX 1;2;1 m SL;spot;A\n"
    assert places_of(tmp_path, text) == [0.0, 1.0]


def test_off_stage_is_not_the_middle(tmp_path: Path) -> None:
    text = "position;number;at;kind;target\nLX 1;1;os;spot;A\nLX 1;2;1 m SL;spot;A\n"
    assert '"os"' in asked_of(tmp_path, text)


@pytest.mark.parametrize("heading", ["Odległość (z widowni lub ze sceny)", "Avstand (hvor fra?)"])
def test_no_places_are_assumed_beside_a_foreign_heading_of_distances(
    tmp_path: Path, heading: str
) -> None:
    text = f"position;number;{heading};kind;target\nLX 1;1;2,50 obok;spot;A\nLX 1;2;daleko;spot;A\n"
    assert "may hold it" in asked_of(tmp_path, text)


OWN = """
[[kind]]
name = "ERS 50"
family = "ers"
field = 50

[[kind]]
name = "ERS 36"
family = "ers"
field = 36
"""


@pytest.mark.parametrize(
    ("cells", "kind"),
    [
        *((cell, "ERS 50") for cell in ("50 deg ERS", "50 deg", "50° ellipsoidal", "ERS 50 deg")),
        ("36 deg ERS", "ERS 36"),
        ("40 deg ERS", "ers-40"),
    ],
)
def test_the_houses_own_kind_under_lens(tmp_path: Path, cells: str, kind: str) -> None:
    path = write_scene(tmp_path, OWN, settings='hang = "hang.csv"')
    text = f"position,number,at,lens,target\nLX 1,1,2 m SR,{cells},A\n"
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert load_scene(path).units[0].kind == kind


def test_the_houses_own_kind_by_its_sort_and_its_lens(tmp_path: Path) -> None:
    path = write_scene(tmp_path, OWN, settings='hang = "hang.csv"')
    text = "position,number,at,type,lens,target\nLX 1,1,2 m SR,ERS,50 deg,A\nLX 1,2,0,ERS,36,A\n"
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert [unit.kind for unit in load_scene(path).units] == ["ERS 50", "ERS 36"]


@pytest.mark.parametrize(
    "heading", ["U/S of PL", "Upstage of P/L", "From PL", "ft US of plaster", "US of prosc"]
)
def test_places_from_the_plaster_line(heading: str) -> None:
    found = meaning(heading)
    assert (found.keys, found.plaster, found.plus) == (("at",), True, "")


@pytest.mark.parametrize("heading", ["D/S of PL", "Downstage of plaster line", "Dist. DS of PL"])
def test_places_downstage_of_the_plaster_line(heading: str) -> None:
    found = meaning(heading)
    assert (found.keys, found.plaster, found.plus) == (("at",), True, "DS")


@pytest.mark.parametrize("heading", ["PL", "Focus from PL", "Colour of plug", "US of prosc end"])
def test_headings_that_do_not_count_from_the_plaster_line(heading: str) -> None:
    assert not meaning(heading).plaster


SIDE_PIPE = """
[[pipe]]
name = "Gallery"
start = [6, 1, 5]
end = [6, 9, 5]
"""


@pytest.mark.parametrize(("heading", "at"), [("U/S of PL", -2.0), ("D/S of PL", -8.0)])
def test_a_gallery_measured_from_the_plaster_line(tmp_path: Path, heading: str, at: float) -> None:
    path = write_scene(tmp_path, SIDE_PIPE, settings='hang = "hang.csv"')
    text = f"position,number,{heading},kind,target\nGallery,1,3 m,spot,A\n"
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert load_scene(path).units[0].at == pytest.approx(at)  # from its middle, 5 m upstage


STAGE = """
[[target]]
name = "CS"
x = 0
y = 3

[[target]]
name = "CSR"
x = -3
y = 3
"""


def test_a_target_in_letters_is_no_ditto(tmp_path: Path) -> None:
    """ "C.S." is centre stage in a house that has it, and "come sopra" in one that has not."""
    text = "Bar;No;Place;Lamp;Focus\nLX 1;1;2 m SR;spot;C.S.R.\nLX 1;2;1 m SR;spot;C.S.\n"
    path = write_scene(tmp_path, STAGE, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert [unit.target for unit in load_scene(path).units] == ["CSR", "CS"]
    again = text.replace("C.S.R.", "A")
    assert [unit[3] for unit in units_of(tmp_path / "again", again, "hang.csv")] == ["A", "A"]
