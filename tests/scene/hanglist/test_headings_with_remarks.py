"""Headings with a remark, in more words than a key needs, or cut short as crews cut them."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from tests.scene.hanglist.listed import scene_of

HEADINGS = {
    "circuit": """
Ccts; Ckts; Crcts; Cct no.; Circ.; Ckt - FOH only; Cct – see house plan; Socket no. on bar; Outlet on bar
Truss circuit; Bar cct no; Circuit number on bar; 15A outlet; 13A socket; Mults; Multis; Circuit (15 amps)
""",
    "channel": """
Memo desk ch; Memo ch; Desk ch; Board ch; Console chan; DMX ch on desk; Desk channel (DMX); Board ch; Chl
Ch on the desk; DMX channel no; Plotted ch; Softpatch channel; Ch - see patch sheet
""",
    "target": """
Trained on; Looks towards; Shining at; Throws to; Dressed to; Focus across; Falls to; Where it's pointing
Where it's focused; Focus - TBC; Area - A to F; Focus (to be checked)
""",
    "kind": "Lamp type & wattage; Wattage/type; Type - degrees; Beam / type; Luminaire model; Light used",
    "position": "Bar it's on; Where it's hung; Hung off; Bar letter; Bar - as hung; Position - house name",
    "number": "Lamp no - from PS; No. - chalk; Number - plan",
    "at": "Metres from centre (approx); Approx. m from CL; Dist fm CL; Lateral offset; Across (m)",
    "colour": "Gel in frame; Color media; Gel - Lee unless noted; Colour - check stock",
}
ELSE = """
Circuit - tested; Circuit (tested); Channel - hookup date; Gel (Y/N); Ch - old; Ch - iris; Gel - bottom
No. of channels; How many gels; Number of circuits; DMX; DMX no; DMX address; Memo; Memory; Preset; Bar dims
Position - lantern; Unit - cost; Dimmer check; Focus time; Gel frame; Lights on at; Turned on; Target - X; 15A
DMX ch on fixture; Circuit - breaker; Channel - cue no; Colour - no of cuts; Boom dims mm from floor
Desk model; Bar - trim; Channel - intensity; Channel - roll; Circuit - max; Circuit - fused; Colour - order
Channel - fade time; Type - order; Channel (intensity)
"""


@pytest.mark.parametrize(
    ("key", "heading"),
    [
        (key, h)
        for key, lines in HEADINGS.items()
        for line in lines.split("\n")
        for h in line.split("; ")
        if h
    ],
)
def test_headings_in_more_words(key: str, heading: str) -> None:
    assert meaning(heading).keys[:1] == (key,)


@pytest.mark.parametrize(
    "heading", [h for line in ELSE.strip().split("\n") for h in line.split("; ")]
)
def test_headings_of_something_else(heading: str) -> None:
    assert meaning(heading).keys == ()


def test_circuits_beside_the_channels_of_a_desk(tmp_path: Path) -> None:
    text = "Bar,no,Where,kind,Focus,Memo desk ch,Ccts\nLX 1,1,2 m SL,spot,A,12,2/1\n"
    (unit,) = scene_of(tmp_path, text).units
    assert (unit.channel, unit.circuit) == ("12", "2/1")


@pytest.mark.parametrize("heading", ["No. of channels", "How many channels", "Channels (count)"])
def test_how_many_channels_a_unit_has_is_none_of_them(tmp_path: Path, heading: str) -> None:
    text = f"bar,no,at,kind,focus,{heading}\nLX 1,1,2 m SL,spot,A,8\nLX 1,2,1 m SL,spot,A,4\n"
    assert {unit.channel for unit in scene_of(tmp_path, text).units} == {None}


@pytest.mark.parametrize(
    ("heading", "cells", "colour", "circuit"),
    [
        ("Colour temp", "3200 5600", None, None),
        ("Colour temp", "L201 L202", "L201", None),
        ("Filter size", "185 150", None, None),
        ("CCT", "3200K 5600K", None, None),
        ("CCT", "3200 5600", None, None),
        ("CCT", "3201 3202", None, "3201"),
        ("Cct", "12 14", None, "12"),
    ],
)
def test_temperatures_and_sizes_are_no_gels_and_no_circuits(
    tmp_path: Path, heading: str, cells: str, colour: str | None, circuit: str | None
) -> None:
    first, second = cells.split()
    text = f"bar,no,at,kind,focus,{heading}\nLX 1,1,2 m SL,spot,A,{first}\nLX 1,2,1 m SL,spot,A,{second}\n"
    unit = scene_of(tmp_path, text).units[0]
    assert (unit.colour, unit.circuit) == (colour, circuit)


@pytest.mark.parametrize("heading", ["Desk ch", "Ch", "Board channel"])
def test_the_channel_of_the_desk_before_that_of_dmx(tmp_path: Path, heading: str) -> None:
    text = f"bar,no,at,kind,focus,DMX ch,{heading}\nLX 1,1,2 m SL,spot,A,101,1\n"
    (unit,) = scene_of(tmp_path, text).units
    assert (unit.channel, unit.note) == ("1", "DMX ch: 101")


def test_a_channel_of_dmx_alone_stays_one(tmp_path: Path) -> None:
    text = "bar,no,at,kind,focus,DMX ch\nLX 1,1,2 m SL,spot,A,101\n"
    assert scene_of(tmp_path, text).units[0].channel == "101"


@pytest.mark.parametrize("remark", ["focus note", "Focus notes", "Focussing note", "Note on focus"])
@pytest.mark.parametrize("aims", ["dancers at", "Actors at", "lights the singer at", "People at"])
@pytest.mark.parametrize("behind", [True, False])
def test_notes_on_the_focus_beside_who_stands_where(
    tmp_path: Path, remark: str, aims: str, behind: bool
) -> None:
    rows = [("Door", "off the floor"), ("Table", "")]
    heads, cells = (aims, remark), [f"{a},{b}" if behind else f"{b},{a}" for a, b in rows]
    text = f"bar,no,at,kind,{','.join(heads if behind else heads[::-1])}\n"
    text += "".join(f"LX 1,{n},{n} m SL,spot,{cell}\n" for n, cell in enumerate(cells, start=1))
    units = scene_of(tmp_path, text).units
    assert [unit.target for unit in units] == ["Door", "Table"]
    assert "off the floor" in (units[0].note or "")


@pytest.mark.parametrize("remark", ["Cue note", "Shutter note", "Focus notes"])
def test_notes_beside_a_column_of_targets(tmp_path: Path, remark: str) -> None:
    text = f"bar,no,at,kind,{remark},area\nLX 1,1,2 m SL,spot,soft edge,Door\n"
    assert [unit.target for unit in scene_of(tmp_path, text).units] == ["Door"]


def test_focus_notes_over_targets_alone_stay_theirs(tmp_path: Path) -> None:
    text = "bar,no,at,kind,focus notes\nLX 1,1,2 m SL,spot,Door\nLX 1,2,1 m SL,spot,Table\n"
    assert [unit.target for unit in scene_of(tmp_path, text).units] == ["Door", "Table"]
