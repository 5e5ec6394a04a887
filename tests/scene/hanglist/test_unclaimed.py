"""Columns of which a heading tells one word alone, or not what the cells say: by these they are known."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import places_of, scene_of, units_of

ROWS = (
    ("LX 1", "1", "2 m SL", "spot", "Door", "11", "31", "L201"),
    ("LX 1", "2", "1 m SR", "wide", "Table", "12", "32", "R80"),
    ("LX 2", "1", "3 m SR", "spot", "A", "17", "40", "L201"),
)
HEADS = ("position", "number", "at", "kind", "target", "channel", "circuit", "colour")


def listed(**headed: str) -> str:
    """The list with other headings, and without the columns whose heading is "-"."""
    heads = [headed.get(head, head) for head in HEADS]
    rows = [
        [cell for cell, head in zip(row, heads, strict=True) if head != "-"]
        for row in (heads, *ROWS)
    ]
    return "\n".join(",".join(row) for row in rows) + "\n"


@pytest.mark.parametrize(
    ("key", "heading"),
    [
        *(
            ("channel", word)
            for word in ("Cue board channel", "Memory desk channel", "Ch on new board")
        ),
        *(
            ("channel", word)
            for word in ("Rank channel", "Channel for plotting", "Canal du vieux jeu")
        ),
        *(("circuit", word) for word in ("Main dimmer", "Circuit behind bar", "Dimmer in cellar")),
        *(
            ("circuit", word)
            for word in ("Steckdose im Turm", "Desk dimmer no.", "Gradateur au sous-sol")
        ),
        *(
            ("colour", word)
            for word in ("Cut", "Gel cut", "Swatch ref", "Colour stock", "Folie im Magazin")
        ),
        *(("kind", word) for word in ("Lantern kind used", "Lantern as hired", "Gun")),
        *(("target", word) for word in ("Area of play", "Shoots into", "Throws to")),
    ],
)
def test_a_heading_that_holds_the_word_of_a_key_is_of_it(
    tmp_path: Path, key: str, heading: str
) -> None:
    place = HEADS.index(key)
    units = scene_of(tmp_path, listed(**{key: heading})).units
    assert [str(getattr(unit, key)) for unit in units] == [row[place] for row in ROWS]


@pytest.mark.parametrize(
    ("key", "heading"),
    [
        *(
            ("channel", word)
            for word in ("Old channel", "DMX channel count", "Sound channel", "Channel mode")
        ),
        *(("circuit", word) for word in ("Old dimmer no", "Circuit load in kW", "Dimmer rating")),
        *(
            ("circuit", word)
            for word in ("Dimmer cards", "Circuit tested", "Dimmer %", "Circuit ft")
        ),
        *(
            ("channel", word)
            for word in ("Desk position", "Channel mixer gain", "Wireless channel")
        ),
        *(("colour", word) for word in ("Spare gel", "Old gel")),
    ],
)
def test_one_of_another_time_or_thing_is_not(tmp_path: Path, key: str, heading: str) -> None:
    units = scene_of(tmp_path, listed(**{key: heading})).units
    assert not any(getattr(unit, key) for unit in units)


@pytest.mark.parametrize("heading", ["Dim/Ch", "Ch/Dim", "Ch=Dim", "Dimmer & Channel"])
def test_one_number_of_channel_and_dimmer_is_the_channel(tmp_path: Path, heading: str) -> None:
    units = scene_of(tmp_path, listed(channel=heading, circuit="-")).units
    assert [unit.channel for unit in units] == ["11", "12", "17"]


@pytest.mark.parametrize("heading", ["Hung at", "At", "Hang point", "Hung", "Where"])
def test_a_position_and_its_number_stand_under_a_word_of_places(
    tmp_path: Path, heading: str
) -> None:
    rows = "LX 1 #1,spot,Door\nLX 1 #2,wide,Table\nLX 2 #1,spot,A\n"
    found = units_of(tmp_path, f"{heading},kind,target\n{rows}")
    assert found == [
        ("LX 1", "1", "spot", "Door"),
        ("LX 1", "2", "wide", "Table"),
        ("LX 2", "1", "spot", "A"),
    ]


@pytest.mark.parametrize(
    "heading", ["Height", "Ht", "Setting", "Ref dim", "Trim", "Height or spot"]
)
def test_heights_on_booms_and_places_on_pipes_share_a_column(tmp_path: Path, heading: str) -> None:
    text = (
        f"position,number,{heading},kind,target\nboom SR,1,0.5 m,spot,Door\nboom SR,2,1.5 m,spot,Door\n"
        "boom SR,3,2.5 m,wide,Table\nLX 2,1,3.5 m SL,spot,A\nLX 2,2,3.5 m SR,spot,A\n"
    )
    assert places_of(tmp_path, text) == [0.5, 1.5, 2.5, 3.5, -3.5]


@pytest.mark.parametrize("heading", ["Spot", "", "Stop", "Seat"])
def test_letters_and_figures_round_a_middle_are_places(tmp_path: Path, heading: str) -> None:
    text = (
        f"L and R are the dancers' own.\nposition,number,{heading},kind,target\nLX 1,1,L 3,spot,Door\n"
        "LX 1,2,C,spot,A\nLX 1,3,R 2.5,wide,Table\nLX 2,1,R 4,spot,A\n"
    )
    assert places_of(tmp_path, text) == [3, 0, -2.5, -4]


def test_lists_of_codes_with_a_stroke_are_read_one_by_one(tmp_path: Path) -> None:
    text = (
        "1X, 2X = LX 1, LX 2 from the front. B/1 = boom SR. Bars in m from CL.\n"
        "position,number,at,kind,target\n1X,1,1 SL,spot,Door\n2X,1,2 SR,wide,A\nB/1,1,1.5,spot,A\n"
    )
    assert [unit[0] for unit in units_of(tmp_path, text)] == ["LX 1", "LX 2", "boom SR"]


@pytest.mark.parametrize(
    "heading", ["Lens", "System", "Socket", "Notes", "Arm", "Count", "Circuit"]
)
def test_lengths_with_their_sides_are_the_place_whatever_they_are_called(
    tmp_path: Path, heading: str
) -> None:
    units = scene_of(tmp_path, listed(at=heading, circuit="Dimmer")).units
    assert [unit.at for unit in units] == [2, -1, -3]
    assert [unit.circuit for unit in units] == ["31", "32", "40"]


@pytest.mark.parametrize(
    ("heading", "holds"), [("Lens", '8"'), ("Socket", "SL 4"), ("Notes", "1 m cable")]
)
def test_what_says_no_side_of_a_length_is_no_place(
    tmp_path: Path, heading: str, holds: str
) -> None:
    rows = "".join(f"LX 1,{n},{holds},spot,Door\n" for n in (1, 2, 3))
    text = f"position,number,{heading},kind,target\n{rows}"
    assert len(set(places_of(tmp_path, text))) == 3  # spread along the pipe
