"""Kinds with their watts, their lamp, their frame and what hangs on them in one cell."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.kindbeside import other_watts, without_beside
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.places import HEADINGS, read, told

_KINDS = {
    "ERS 19": "ers",
    "ERS 36": "ers",
    "6in Fresnel": "fresnel",
    "PAR 64 WFL": "par",
    "PAR 64 MFL": "par",
    "3-cell Cyc": "flood",
    "Profile 25-50": "ers",
    "PC 500": "pc",
    "PC 1kW": "pc",
    "Flood 500W": "flood",
}


def _house() -> str:
    kinds = "\n".join(
        f'[[kind]]\nname = "{name}"\nfamily = "{family}"\nfield = {20 + k}\n'
        for k, (name, family) in enumerate(_KINDS.items())
    )
    return f"\n{kinds}"


def _read(tmp_path: Path, said: str) -> tuple[str | None, bool]:
    rows = [["LX 1", 1, "1 m SL", "ERS 19", "A"], ["LX 1", 2, "2 m SL", said, "A"]]
    scene = read(tmp_path, [HEADINGS, *rows], _house())
    return scene.units[1].kind, told(scene, said)


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("19 deg 575w", "ERS 19"),
        ("19° 750 watt", "ERS 19"),
        ("575w 19 deg", "ERS 19"),
        ("19deg HPL 575", "ERS 19"),
        ("ERS 36 (HPL 750)", "ERS 36"),
        ("ERS 36 575W 115V", "ERS 36"),
        ('ERS 36 6.25"', "ERS 36"),
        ('19 deg 6-1/4"', "ERS 19"),
        ("ERS 36 iris", "ERS 36"),
        ("ERS 36 TH", "ERS 36"),
        ("36 deg c/w iris", "ERS 36"),
        ("ERS 36 w/ gobo R77804", "ERS 36"),
        ('36 deg 575 w/ 7.5" top hat', "ERS 36"),
        ("6in Fresnel (BTL 500W)", "6in Fresnel"),
        ("PC 500 mit Torblende", "PC 500"),
        ("ERS 36 avec iris", "ERS 36"),
        ("PC 500 avec volets", "PC 500"),
        ("PC 500 con bandiere", "PC 500"),
        ("PC 500 met kleppen", "PC 500"),
        ("PC 500 ohne Tor", "PC 500"),
        ("1 ERS 36", "ERS 36"),
        ("1 Stk ERS 36", "ERS 36"),
        ("PC 500 mit 4-fach Tor", "PC 500"),
        ("PC 500 m/ Tor", "PC 500"),
        ("ERS 36 (1)", "ERS 36"),
        ('6" fresnel 750w BD', "6in Fresnel"),
        ('6" Fres w/ 4-way BD', "6in Fresnel"),
        ('6in Fresnel 1kW 7.5" CF', "6in Fresnel"),
        ('PAR 64 WFL 10" frame', "PAR 64 WFL"),
        ("P64 WFL 1kw short nose", "PAR 64 WFL"),
        ("3-cell", "3-cell Cyc"),
        ("3-cell cyc (3x1000W)", "3-cell Cyc"),
        ("zoom 25/50 (600)", "Profile 25-50"),
        ("Profile 25-50 230V + A-size gobo", "Profile 25-50"),
        ("PC 500 T18", "PC 500"),
        ("PC 1kW c/w barndoors", "PC 1kW"),
        ("PC 1kW on boom arm", "PC 1kW"),
    ],
)
def test_what_stands_beside_a_kind(tmp_path: Path, said: str, kind: str) -> None:
    found, heard = _read(tmp_path, said)
    assert found == kind
    assert heard


@pytest.mark.parametrize(
    "said",
    [
        "PC 650 T26",  # of no kind of the house
        "PC 1.2kW",
        "flood 1kW",
        "Flood 500W/1kW",
        "PC 500 + PC 1kW",
        "PC w/ barndoors",  # which
        "PAR 64 1kW",
        "PAR64 VNSP 1kw",
        "19 deg LED",
        "ERS 36 x2",
        "2 ERS 36 575w",
        "ERS 36 dimmer 12",
        "iris 575w",
    ],
)
def test_what_tells_another_kind_is_asked(tmp_path: Path, said: str) -> None:
    with pytest.raises(SceneError, match=r"kind|unit"):
        _read(tmp_path, said)


def test_nothing_is_left_of_what_stands_beside_alone() -> None:
    assert without_beside("w/ 4-way BD") == []
    assert without_beside("ERS 36") == []
    assert without_beside("PC 500 w/ BD") == ["PC 500"]


def test_watts_that_alone_tell_a_kind() -> None:
    assert other_watts("Fresnel 2kW", "Fresnel 1kW")
    assert not other_watts("Fresnel 1000", "Fresnel 1kW")
    assert not other_watts("6in Fresnel 750W", "6in Fresnel 1kW")
    assert not other_watts("Profile 19 750W", "Profile 19")
