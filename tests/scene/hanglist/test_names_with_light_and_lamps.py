"""Names with what lights them or what burns in them beside: no part of the name, and never another name."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.readers import colour
from tests.scene.hanglist.listed import asked_in, scene_in

HEAD = "position,number,at,kind,target"
NINE = tuple(
    f"{row} {side}" for row in ("Down", "Mid", "Up") for side in ("Left", "Center", "Right")
)
AREAS = ("Area 1", "Area 2", "Area 3", "Throne", "Cyc")
KINDS = {
    "ERS 26": "ers",
    "PAR WFL": "par",
    "PAR NSP": "par",
    "Fresnel 8in": "fresnel",
    "Cyc Cell": "cyc",
}
ONE_PAR = {"ERS 26": "ers", "Par CP62": "par", "Fresnel": "fresnel", "Cyc Flood": "cyc"}


def _house(targets: tuple[str, ...] = AREAS, kinds: dict[str, str] = KINDS) -> str:
    parts = ['[scene]\ntitle = "House"\nunit = "m"\nhang = "list.csv"']
    parts += ['[[pipe]]\nname = "LX 1"\ntrim = 6\ny = 1\nfrom = -6\nto = 6']
    parts += [
        f'[[target]]\nname = "{n}"\nx = {1 - k % 3}\ny = {k // 3}' for k, n in enumerate(targets)
    ]
    parts += [f'[[kind]]\nname = "{n}"\nfamily = "{f}"\nfield = 30' for n, f in kinds.items()]
    return "\n\n".join(parts) + "\n"


def _unit(root: Path, house: str, kind: str, target: str) -> tuple[str | None, str | None]:
    cells = [f'"{cell.replace(chr(34), 2 * chr(34))}"' for cell in (kind, target)]
    unit = scene_in(root, house, [HEAD, f"LX 1,1,1 m SL,{','.join(cells)}"]).units[0]
    return unit.kind, unit.target


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("Down Center cool", "Down Center"),
        ("cool Down Center", "Down Center"),
        ("Cool wash down center", "Down Center"),
        ("Down Center/cool", "Down Center"),
        ("Front wash Down Center", "Down Center"),
        ("Mid Center warm", "Mid Center"),
        ("Center cool", "Mid Center"),
        ("Up Center backlight", "Up Center"),
        ("down cntr clr", "Down Center"),
        ("Down Ctr bk", "Down Center"),
    ],
)
def test_words_of_light_leave_a_part_of_the_stage(tmp_path: Path, said: str, meant: str) -> None:
    assert _unit(tmp_path, _house(NINE), "ERS 26", said)[1] == meant


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("DS wash, Area 3", "Area 3"),
        ("US wash: Area 2", "Area 2"),
        ("FOH warm, Area 2", "Area 2"),
        ("SL side, Area 1", "Area 1"),
        ("Blue wash - Area 1", "Area 1"),
        ("Spec: Throne", "Throne"),
        ("Area 2 cl", "Area 2"),
        ("Throne N/C", "Throne"),
    ],
)
def test_a_target_behind_what_it_is_lit_for(tmp_path: Path, said: str, meant: str) -> None:
    assert _unit(tmp_path, _house(), "ERS 26", said)[1] == meant


@pytest.mark.parametrize(
    "said", ["Throne, Area 2", "Thron, Area 2", "Area 1, Area 2", "not Area 3, Area 2"]
)
def test_two_targets_are_asked(tmp_path: Path, said: str) -> None:
    assert said in asked_in(tmp_path, _house(), [HEAD, f'LX 1,1,1 m SL,ERS 26,"{said}"'])


@pytest.mark.parametrize("said", ["Sx SL, Mid Left", "SL side, Mid Left"])
def test_a_side_from_which_a_part_of_the_stage_is_lit(tmp_path: Path, said: str) -> None:
    assert _unit(tmp_path, _house(NINE), "ERS 26", said)[1] == "Mid Left"


@pytest.mark.parametrize(
    "said",
    [
        "Up wash, Mid Left",
        "Down Center / Up Center cool",
        "Down Left Center cool",
        "Down Center Left warm",
        "Left cool",
    ],
)
def test_two_parts_of_the_stage_are_asked(tmp_path: Path, said: str) -> None:
    assert said in asked_in(tmp_path, _house(NINE), [HEAD, f'LX 1,1,1 m SL,ERS 26,"{said}"'])


@pytest.mark.parametrize(
    ("kinds", "said", "meant"),
    [
        (KINDS, "PAR 64 WFL", "PAR WFL"),
        (KINDS, "PAR64 NSP", "PAR NSP"),
        (KINDS, "1kW PAR 64 WFL", "PAR WFL"),
        (KINDS, "Par 64 (WFL)", "PAR WFL"),
        (KINDS, "WFL PAR64", "PAR WFL"),
        (KINDS, "P64 WFL", "PAR WFL"),
        (KINDS, '6" ERS 26', "ERS 26"),
        (KINDS, "Cyc flood", "Cyc Cell"),
        (KINDS, "Far cyc", "Cyc Cell"),
        (ONE_PAR, "PAR 64", "Par CP62"),
        (ONE_PAR, "Par 64 CP62", "Par CP62"),
        (ONE_PAR, "PAR 64 1kW", "Par CP62"),
        (ONE_PAR, "Par 64 MFL", "Par CP62"),
        (ONE_PAR, "lampe CP62", "Par CP62"),
        (ONE_PAR, "6in Fresnel", "Fresnel"),
    ],
)
def test_a_kind_with_its_lamp_and_size(
    tmp_path: Path, kinds: dict[str, str], said: str, meant: str
) -> None:
    assert _unit(tmp_path, _house(kinds=kinds), said, "Throne")[0] == meant


@pytest.mark.parametrize(
    ("kinds", "said"),
    [
        (KINDS, "PAR 64"),  # two are of it
        (KINDS, "PAR 56 WFL"),
        (KINDS, "PAR 64 VNSP"),
        (KINDS, '6" Fresnel'),
        (ONE_PAR, "PAR 56"),
        (ONE_PAR, "PAR 64 CP61"),
        (ONE_PAR, "Par 64 WFL"),
        (ONE_PAR, "LED Par 64"),
        ({"ERS 26": "ers", "LED Par": "par"}, "PAR 64"),
    ],
)
def test_another_lamp_or_size_is_asked(tmp_path: Path, kinds: dict[str, str], said: str) -> None:
    cell = said.replace('"', '""')
    assert "kind" in asked_in(
        tmp_path, _house(kinds=kinds), [HEAD, f'LX 1,1,1 m SL,"{cell}",Throne']
    )


@pytest.mark.parametrize(
    "word",
    [
        "ofärgad",
        "ufarget",
        "farveløs",
        "néant",
        "nulla",
        "Klart",
        "open wit",
        "(none)",
        "[open]",
        "CLR",
        "00",
        "Ø",
    ],
)
def test_a_word_for_no_colour(word: str) -> None:
    assert colour(word) is None
