"""Which column holds the kinds where two headings might, and marks and words for the kind above."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.kindbeside import by_words
from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Unit
from tests.scene.written import write_scene

KINDS = '[[kind]]\nname = "Profile 26"\nfamily = "ers"\nfield = 26\n'


def _units(folder: Path, text: str) -> list[Unit]:
    path = write_scene(folder, KINDS, settings='hang = "hang.csv"')
    (folder / "hang.csv").write_text(text, encoding="utf-8")
    return list(load_scene(path).units)


def test_lamp_over_kinds_beside_spot_over_places(tmp_path: Path) -> None:
    text = "Hangs on,#,Spot,Lamp,Focus\nLX 1,1,2 m SR,Profile 26,A\nLX 1,2,2 m SL,spot,A\n"
    units = _units(tmp_path, text)
    assert [(unit.kind, unit.number) for unit in units] == [("Profile 26", "1"), ("spot", "2")]


def test_spot_over_kinds_is_the_kind_beside_lamp_over_numbers(tmp_path: Path) -> None:
    text = "Hangs on,Lamp,Dist from centre,Spot,Focus\nLX 1,1,2 m SR,Profile 26,A\nLX 1,2,1 m SR,spot,A\n"
    units = _units(tmp_path, text)
    assert [(unit.kind, unit.number) for unit in units] == [("Profile 26", "1"), ("spot", "2")]


@pytest.mark.parametrize(
    "word",
    ["do.", "Do", "dito", "Likewise", "as before", "idem", "id.", "dsgl.", "same type", "detto"],
)
def test_words_for_the_kind_above(tmp_path: Path, word: str) -> None:
    text = f"position,number,at,kind,target\nLX 1,1,2 m SR,Profile 26,A\nLX 1,2,1 m SR,{word},A\n"
    assert [unit.kind for unit in _units(tmp_path, text)] == ["Profile 26", "Profile 26"]


@pytest.mark.parametrize("heading", ["Sorte", "Which sort it is", "Gizmo"])
def test_kinds_under_a_strange_heading_beside_lamps_that_count_up(
    heading: str, tmp_path: Path
) -> None:
    # "1" would be short for both of the kinds of 1 kW.
    kinds = "".join(
        f'[[kind]]\nname = "{name} 1kW"\nfamily = "pc"\nfield = 30\n' for name in ("PC", "Wash")
    )
    path = write_scene(tmp_path, kinds, settings='hang = "hang.csv"')
    text = f"Hangs on,Lamp,Dist from centre,{heading},Focus\nLX 1,1,2 m SR,PC 1kW,A\n"
    (tmp_path / "hang.csv").write_text(text + "LX 1,2,1 m SR,Wash 1kW,A\n", encoding="utf-8")
    units = load_scene(path).units
    assert [(unit.kind, unit.number) for unit in units] == [("PC 1kW", "1"), ("Wash 1kW", "2")]


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        *(("Mover - spot", "Moving Spot"), ("mover wash", "Moving Wash")),
        *(("4-ckt strip", "Strip 4-circuit"), ("Strip, 4 cct", "Strip 4-circuit")),
        *(("PAR 64 medium (MFL)", "PAR 64 MFL"), ("MFL par 64", "PAR 64 MFL")),
        *(("Par 64 medium", "PAR 64 MFL"), ("parcan 64 wide flood", ""), ("Par 56 medium", "")),
        *(("Profile 26 zoom", ""), ("PAR 64 VNSP", ""), ("3-ckt strip", ""), ("Mover", "")),
    ],
)
def test_a_kind_by_its_words_in_another_order(written: str, kind: str, tmp_path: Path) -> None:
    names = ("Profile 26", "Moving Spot", "Moving Wash", "Strip 4-circuit", "PAR 64 MFL")
    names += ("PAR 64 NSP",)
    assert by_words(written, names) == kind
