"""Channels, circuits and colours of a hang list, however their columns are headed."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Unit
from aimcalc.scene.readers import colour
from tests.scene.hanglist.listed import scene_of
from tests.scene.written import write_scene


def _units(tmp_path: Path, text: str) -> list[Unit]:
    path = write_scene(tmp_path, settings='hang = "list.csv"')
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    return list(load_scene(path).units)


def test_dim_beside_dimmer_is_a_dimension(tmp_path: Path) -> None:
    text = "Bar,Unit,Dim,Lantern,Sets to,Chan,Dimmer\nLX 1,1,2.5 SL,spot,A,7,13\nLX 1,2,1.0 SR,spot,A,8,14\n"
    units = _units(tmp_path, text)
    assert [(u.at, u.channel, u.circuit) for u in units] == [(2.5, "7", "13"), (-1.0, "8", "14")]


def test_dim_of_whole_numbers_beside_a_circuit_is_a_dimmer(tmp_path: Path) -> None:
    text = "Bar,Unit,Place,Lantern,Focus,Ckt,Dim\nLX 1,1,2.5 SL,spot,A,A7,13\nLX 1,2,1.0 SR,spot,A,A8,14\n"
    assert [unit.at for unit in _units(tmp_path, text)] == [2.5, -1.0]
    assert [unit.circuit for unit in _units(tmp_path / "again", text)] == ["A7", "A8"]


@pytest.mark.parametrize("heading", ["Dim ch", "Dimmer channel", "DIM. CH."])
def test_the_channel_of_a_dimmer_is_a_circuit(tmp_path: Path, heading: str) -> None:
    text = f"Bar,Unit,Place,Lantern,Focus,{heading}\nLX 1,1,2.5 SL,spot,A,13\n"
    (unit,) = _units(tmp_path, text)
    assert (unit.channel, unit.circuit) == (None, "13")


@pytest.mark.parametrize(
    "heading",
    [
        *("Colour correction", "Color correction", "L-filter", "Correction"),
        *("Diff / Colour", "Diffusion/Gel", "Gel/Diff", "Col & frost", "Filter / diffusion"),
        *("Diff/Col.", "Diffusion / Filter", "Frost or gel"),
    ],
)
def test_headings_of_colours(tmp_path: Path, heading: str) -> None:
    text = f"Bar,Unit,Place,Lantern,Focus,{heading}\nLX 1,1,2.5 SL,spot,A,L203\n"
    assert [unit.colour for unit in _units(tmp_path, text)] == ["L203"]


def test_a_gel_alone_among_the_remarks_is_the_colour_where_no_column_is(tmp_path: Path) -> None:
    text = "Bar,Unit,Place,Lantern,Focus,{}Notes\nLX 1,1,2 SL,spot,A,{}R80\nLX 1,2,1 SR,spot,A,{}haze first\n"
    units = _units(tmp_path, text.format("", "", ""))
    assert [(u.colour, u.note) for u in units] == [("R80", None), (None, "haze first")]
    units = _units(tmp_path / "again", text.format("Gel,", "L201,", ","))
    assert [(u.colour, u.note) for u in units] == [("L201", "R80"), (None, "haze first")]


def test_a_filter_of_frost_beside_the_colour_is_none(tmp_path: Path) -> None:
    text = "Bar,Unit,Place,Lantern,Focus,Colour,Diffusion filter\nLX 1,1,2.5 SL,spot,A,L203,R132\n"
    assert [unit.colour for unit in _units(tmp_path, text)] == ["L203"]


@pytest.mark.parametrize(
    "text", ["bez / none", "O/W - open", "clear/none", "- (open)", "NC (no gel)", "open or none"]
)
def test_no_colour_said_twice(text: str) -> None:
    assert colour(text) is None


@pytest.mark.parametrize("text", ["open / L201", "none - house gel", "Clear Blue", "L0/0", "+"])
def test_a_colour_beside_a_word_for_none(text: str) -> None:
    assert colour(text) == text


@pytest.mark.parametrize(
    "text", ["o. Filter", "ohne", "sans gél.".replace("é", "e"), "senza", "no filter"]
)
def test_no_colour_in_other_languages(text: str) -> None:
    assert colour(text) is None


@pytest.mark.parametrize("text", ["O", "L201", "Oslo", "singelo"])
def test_a_colour_that_only_begins_so(text: str) -> None:
    assert colour(text) == text


def _plugs(tmp_path: Path, desk: str, plug: str, more: str = "") -> list[tuple[object, object]]:
    """Channel and circuit of two units under two headings, 11 and 12 under the first of them."""
    text = f"pipe;unit;at;kind;target;{desk};{plug}{more and f';{more}'}\n"
    text += "LX 1;1;2 m SR;spot;A;11;101\nLX 1;2;1 m SR;spot;A;12;102\n"
    return [(unit.channel, unit.circuit) for unit in _units(tmp_path, text)]


PAIRS = """
Dimmer ch./Socket, Dim ch/Plug, Dimmer channel/Outlet, Desk/Mains, At the desk/Mains, Circuit on desk/Socket
Channel (desk)/Channel (dimmer), Ch (board)/Ch (dimmer rack), Control channel/Dimmer channel, Board/Outlet
Circuit/Gradateur, Circuit/Grada, Circuit/Ligne, N° circuit/N° gradateur, Circuits/Prise
Mémoire | canal/Ligne, Kreis/Stromkreis, Kreis am Pult/Stromkreis
Regler/Steckdose, Schieber/Dose, Pult/Strom, Stellkreis/Kreis
Mesa/Toma, Canal/Circuito, Consolle/Ritorno, Tafel/Kring, Regelkring/Dimmer, Bord/Dimmer, Pult/Stik
Lysbord/Kurs, Pöytä/Himmennin, Kanava/Pistorasia, Pulpit/Obwód, Taula/Circuit, Canal/Endoll, Kanál/Zásuvka
"""


@pytest.mark.parametrize("pair", [each for each in PAIRS.replace("\n", ", ").split(", ") if each])
@pytest.mark.parametrize("turned", [False, True])
def test_which_of_two_columns_is_the_channel(tmp_path: Path, pair: str, turned: bool) -> None:
    desk, plug = pair.replace(" | ", " & ").split("/")
    if turned:
        found = [(b, a) for a, b in _plugs(tmp_path, plug, desk)]
        assert [(b, a) for a, b in found] == [("101", "11"), ("102", "12")]
    else:
        assert _plugs(tmp_path, desk, plug) == [("11", "101"), ("12", "102")]


@pytest.mark.parametrize("plug", ["Steckdose", "Dimmer"])
def test_a_word_for_circuits_of_desk_or_house_is_asked_about(tmp_path: Path, plug: str) -> None:
    with pytest.raises(Exception, match="one column that holds the channel, and it may be"):
        _plugs(tmp_path, "Kreis", plug)


@pytest.mark.parametrize(("circuit", "dimmer"), [("Circuit", "Dimmer"), ("Kring", "Dimmer")])
def test_a_circuit_beside_its_dimmer_is_no_channel(
    tmp_path: Path, circuit: str, dimmer: str
) -> None:
    assert _plugs(tmp_path, circuit, dimmer) == [(None, "11"), (None, "12")]


def test_a_circuit_beside_its_dimmer_in_a_french_list_is_the_desks(tmp_path: Path) -> None:
    text = "Perche;N°;Distance;Projecteur;Visée;Circuit;Dimmer\nLX 1;1;2 m SR;spot;A;11;101\n"
    (unit,) = _units(tmp_path, text)
    assert (unit.channel, unit.circuit) == ("11", "101")


def test_mains_over_watts_is_no_circuit(tmp_path: Path) -> None:
    text = "pipe,unit,at,kind,target,Desk,Mains\nLX 1,1,2 m SR,spot,A,11,650\nLX 1,2,1 m SR,spot,A,12,500\n"
    assert [(u.channel, u.circuit) for u in _units(tmp_path, text)] == [("11", None), ("12", None)]


WORDS_BEFORE = """
Kreis: Kr. 41 Kr. 42 | Channel: Ch 41 Ch 42 | Dimmer: Dim 41 Dim 42 | Circuit: c.41 c.42
Kreis: Kreis 41 kreis 42 | Voie: voie 41 voie 42 | Kanal: K41 K42 | Canal: Can. 41 Can. 42
Channel: #41 #42 | Channel: No. 41 No. 42
Ligne: Ligne 41 Ligne 42 | Groep: gr. 41 gr. 42 | Krets: krets 41 krets 42 | Steckdose: Dose 41 Dose 42
Circuito: Circ. 41 Circ. 42 | Kreis: Kr. 41 42 | Channel: Kanal 41 Kanal 42 | Socket: Soc 41 Soc 42
"""


@pytest.mark.parametrize("said", WORDS_BEFORE.strip().replace("\n", " | ").split(" | "))
def test_a_word_before_the_number_in_every_cell_of_a_column(tmp_path: Path, said: str) -> None:
    heading, _, cells = said.partition(": ")
    first = cells[: cells.index("41") + 2]
    second = cells[len(first) :].strip()
    text = f"Bar;Unit;Place;Lantern;Focus;{heading}\nLX 1;1;2 m SL;spot;A;{first}\n"
    text += f"LX 1;2;1 m SR;spot;A;{second}\n"
    assert [unit.channel or unit.circuit for unit in _units(tmp_path, text)] == ["41", "42"]


@pytest.mark.parametrize(
    ("heading", "first", "second"),
    [
        ("Circuit", "L1", "R2"),
        ("Circuit", "L1", "L2"),
        ("Circuit", "DR 3", "DR 4"),
        ("Circuit", "A3", "A4"),
        ("Dimmer", "D3", "D4"),
        ("Multi", "M3-1", "M3-2"),
        ("Channel", "Ch A", "Ch B"),
        ("Kreis", "Kr. 3", "A 4"),
        ("Plug", "Bar 1", "Bar 2"),
    ],
)
def test_a_letter_of_a_range_stays(tmp_path: Path, heading: str, first: str, second: str) -> None:
    text = f"Bar;Unit;Place;Lantern;Focus;{heading}\nLX 1;1;2 m SL;spot;A;{first}\n"
    text += f"LX 1;2;1 m SR;spot;A;{second}\n"
    found = [unit.channel or unit.circuit for unit in _units(tmp_path, text)]
    assert found == [first, second]


@pytest.mark.parametrize(
    "pair",
    [
        "Circuit Name/Circuit Number",
        "Circuit/Circuit no",
        "Dimmer rack/Dimmer",
        "Dimmer/Dimmer no",
        "Outlet/Outlet number",
        "Circuit ID/Circuit #",
        "Channel name/Channel no",
        "Socket name/Socket",
        "Circuit label/Circuit",
        "Dimmer/Circuit Name/Circuit Number",
    ],
)
@pytest.mark.parametrize("turned", [False, True])
def test_the_number_of_a_circuit_beside_its_name(tmp_path: Path, pair: str, turned: bool) -> None:
    columns = [*zip(pair.split("/")[-2:], ("ADV", "1"), ("LX1", "2"), strict=True)]
    columns = columns[::-1] if turned else columns
    columns += [("Dimmer", "21", "22")] if pair.count("/") > 1 else []
    heads, one, two = map(",".join, zip(*columns, strict=True))
    text = f"Bar,Unit,Place,Lantern,Focus,{heads}\nLX 1,1,2 m SL,spot,A,{one}\nLX 1,2,1 m SR,spot,A,{two}\n"
    units = _units(tmp_path, text)
    assert [unit.channel or unit.circuit for unit in units] == ["1", "2"]
    assert "ADV" in str(units[0].note)


def test_the_name_of_a_circuit_that_has_its_number_in_it_says_more(tmp_path: Path) -> None:
    text = "Bar,Unit,Place,Lantern,Focus,Circuit,Circuit no\nLX 1,1,2 m SL,spot,A,A1,1\n"
    text += "LX 1,2,1 m SR,spot,A,B1,1\n"
    assert [unit.circuit for unit in _units(tmp_path, text)] == ["A1", "B1"]


@pytest.mark.parametrize(
    ("heads", "number"),
    [("Gel name,Gel no.", "02"), ("Gel colour,Gel", "R02"), ("Colour,Gel", "R02")],
)
def test_the_code_of_a_gel_beside_its_name(tmp_path: Path, heads: str, number: str) -> None:
    text = f"Bar,Unit,Place,Lantern,Focus,{heads}\nLX 1,1,2 m SL,spot,A,Bastard Amber,{number}\n"
    assert [unit.colour for unit in _units(tmp_path, text)] == [number]


@pytest.mark.parametrize("codes", [("N1",), ("N1", "N2"), ("KR4", "KR5"), ("NO1",)])
def test_letters_and_a_number_without_a_mark_name_a_circuit(
    codes: tuple[str, ...], tmp_path: Path
) -> None:
    rows = "".join(f"LX 1,{k},{k} m SL,spot,A,{code}\n" for k, code in enumerate(codes, 1))
    scene = scene_of(tmp_path, f"Position,No,Place,Fixture,Focus,Circuit\n{rows}")
    assert tuple(unit.circuit for unit in scene.units) == codes


@pytest.mark.parametrize(
    "said",
    ["n/c", "NC", "tbc", "TBA", "?", "n/a", "not patched", "keine", "aucun", "x", "/", "pending"],
)
def test_a_unit_that_is_plugged_nowhere_yet_has_no_channel(tmp_path: Path, said: str) -> None:
    head = "Bar,Unit,Place,Lantern,Focus,Ch,Circuit\n"
    text = f"{head}LX 1,1,2.5 SL,spot,A,7,13\nLX 1,2,1 SR,spot,A,{said},{said}\n"
    first, second = _units(tmp_path, text)
    assert (first.channel, first.circuit) == ("7", "13")
    assert (second.channel, second.circuit) == (None, None)


@pytest.mark.parametrize(
    ("number", "channel", "circuit"),
    [
        ("n° {}", "@{}", "ct {}"),
        ("N° {}", "ch {}", "circ. {}"),
        ("lamp {}", "#{}", "cct {}"),
        ("unit no. {}", "{}", "{}"),
        ("núm. {}", "{}", "{}"),
    ],
)
def test_words_before_every_number_of_a_column_are_left_out(
    tmp_path: Path, number: str, channel: str, circuit: str
) -> None:
    rows = [
        f"LX 1,{number.format(k)},{k} SL,spot,A,{channel.format(k)},{circuit.format(k + 10)}"
        for k in (1, 2)
    ]
    units = _units(tmp_path, "\n".join(["Bar,Unit,Place,Lantern,Focus,Ch,Circuit", *rows, ""]))
    assert [(u.number, u.channel, u.circuit) for u in units] == [("1", "1", "11"), ("2", "2", "12")]


@pytest.mark.parametrize("behind", ["spot L201", "spot + L201", "spot (L201)", "spot, l201"])
@pytest.mark.parametrize("column", [True, False])
def test_a_gel_behind_the_kind_is_the_colour(tmp_path: Path, behind: str, column: bool) -> None:
    head, cell = (",Gel", ",L201") if column else ("", "")
    text = f'Bar,Unit,Place,Focus,Lantern{head}\nLX 1,1,2.5 SL,A,"{behind}"{cell}\n'
    (unit,) = _units(tmp_path, text)
    assert unit.kind == "spot"
    assert str(unit.colour).casefold() == "l201"


def test_a_gel_behind_the_kind_that_is_another_than_the_colour_is_asked_about(
    tmp_path: Path,
) -> None:
    with pytest.raises(SceneError, match="spot L201"):
        _units(tmp_path, "Bar,Unit,Place,Focus,Lantern,Gel\nLX 1,1,2.5 SL,A,spot L201,L202\n")


DAYS = "Bar,Unit,Place,Lantern,Focus,Circuit\n" + "".join(
    f"LX 1,{n},{n} SL,spot,A,{{}}\n" for n in (1, 2, 3)
)


def test_circuits_that_became_dates_are_read_by_those_that_did_not(tmp_path: Path) -> None:
    """Pockets 1 to 3: "6-Mar" was 3-6, since no pocket is 6; where days come first, 3 May was 3/5."""
    units = _units(tmp_path, DAYS.format("3-33", "1-41", "6-Mar"))
    assert [unit.circuit for unit in units] == ["3-33", "1-41", "3-6"]
    units = _units(tmp_path / "again", DAYS.format("3/12", "1/10", "3-May"))
    assert [unit.circuit for unit in units] == ["3/12", "1/10", "3/5"]


def test_a_circuit_that_became_a_date_and_may_be_two_is_asked_about(tmp_path: Path) -> None:
    with pytest.raises(SceneError) as refused:
        _units(tmp_path, DAYS.format("3-33", "6-41", "6-Mar"))
    assert "3-6 or 6-3" in refused.value.report()


_WITH_CABLE = """Bar,Unit,Place,Lantern,Focus,Chan,{}
LX 1,1,2.5 SL,spot,A,7,{}
LX 1,2,1.0 SR,spot,A,8,{}
"""


@pytest.mark.parametrize("heading", ["Cable", "Tail", "Loom", "Multicable", "Jumper", "Lead"])
@pytest.mark.parametrize("cells", ["10m/5m", "25'/50'", "2 x 10 ft/none", "10m + 5m/-"])
def test_lengths_of_cables_are_no_circuits(tmp_path: Path, heading: str, cells: str) -> None:
    first, other = cells.split("/")
    units = _units(tmp_path, _WITH_CABLE.format(heading, first, other))
    assert [(unit.at, unit.circuit) for unit in units] == [(2.5, None), (-1.0, None)]
    assert first in str(units[0].note)


@pytest.mark.parametrize("own", ["house", "from venue", "5m own"])
def test_some_cables_may_say_whose_they_are(tmp_path: Path, own: str) -> None:
    text = _WITH_CABLE.format("Cable", "10m", "5m") + f"LX 1,3,1.5 SR,spot,A,9,{own}\n"
    units = _units(tmp_path, text)
    assert [unit.circuit for unit in units] == [None, None, None]
    assert own in str(units[2].note)


@pytest.mark.parametrize("cells", ["C1/C2", "1M/2M", "10m/B4"])
def test_names_of_cables_and_multis_are_circuits(tmp_path: Path, cells: str) -> None:
    units = _units(tmp_path, _WITH_CABLE.format("Cable", *cells.split("/")))
    assert [unit.circuit for unit in units] == cells.split("/")
