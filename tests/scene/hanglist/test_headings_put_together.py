"""Headings of channels, circuits, colours and numbers that are put together of known words."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from tests.scene.hanglist.listed import scene_of, told_of

CHANNELS = """
LX channel; Show channel; Lantern channel; Light board channel; Kanalnummer; Pultkanal; Stellwerkskanal
Stellwerkkreis; Circuit jeu; Circuit du jeu d'orgue; Canal console; N° de voie; Canal de la mesa
Nº do canal; Canale mixer luci; Lichttafelkanaal; Kanaalnr; Lysbordskanal; Kanal på lyspult; Ljuskanal
Nr kanału; Kanał na konsoli
"""
CIRCUITS = """
House dimmer; House circuit no; Venue dimmer #; Patch dim; Lantern circuit; Wall socket; Kreisnummer
Hausdimmer Nr.; Lastkreis; Stromkreisnr.; N° gradateur; Prise n°; Circuit salle; Nº de toma
Circuito de la casa; Canale dimmer; N. presa; Dimmergroep; Huiskring; Stroomgroep; Lysdæmper; Dæmper nr
Strømkreds; Dimmerkurs; Ljuskrets; Uttagsnr; Nr obwodu; Ściemniacz nr; Gniazdko; Obwód oświetleniowy
Tomada n.º
"""
COLOURS = """
LX colour; Lantern gel; Colour required; Filternr.; Farbnummer; Lichtfarbe; Réf. gélatine; N° de filtre
Couleur Lee; Nº filtro; Filtro de color; Numero gelatina; Kleurnummer; Filterkleur; Cor do filtro
Farvefilter; Fargenr; Ljusfärg; Kolor filtra; Nr folii
"""
NUMBERS = """
Gerätenr.; Lampennummer; N° de projecteur; Nº de foco; N. faro; Armatuurnr; Lampenummer; Nr lampy; N.º
"""
ELSE = """
Gel size; Filter holder; Farbtemperatur; Colour temp; Kanal Ton; Sound channel; Costume colour
Old channel; Channel name; Dimmer type; Cable colour; Old gel; Anzahl Lampen; Kabelnr
House lights; Channel used for; Gel cut; Where it goes; What it is for; Goes to; Plug type; Colour of cable
Fader time; Circuit breaker rating; Has gel; Has colour; Colour runs
"""
LONG_HAND = {
    "circuit": """
Plugged into socket; Plugs into; Goes to socket; Which socket; Socket it is on; Plugged in at; Steckt in
Branché sur; Enchufado en; Zit op kring; Dimmer it runs from; Runs off; Fed from; Patched to; Wired to
Which circuit it is plugged into; Where it is plugged in; Outlet it is plugged into; Hängt an Kreis
Angeschlossen an; Collegato a; Ligado em; Aangesloten op; Kopplad till; Runs on dimmer; Socket it goes to
""",
    "channel": """
Desk channel it is on; Which channel on the desk; Fader; Fader on the desk; Which fader it is on
Channel it comes up on; Comes up on channel
""",
    "colour": "What colour is in it; Colour in it; Gel it has in it; What gel is in it",
    "kind": "Kind of lamp; Sort of lantern it is; What sort of light it is",
    "target": "What it is to light; What it should light; Thing to light; What it has to light",
    "position": "Which bar it is on; Bar it hangs on; Pipe it hangs from; What it hangs on",
}


def _each(lines: str) -> list[str]:
    return [heading for line in lines.strip().splitlines() for heading in line.split("; ")]


@pytest.mark.parametrize(
    ("key", "heading"),
    [
        (key, heading)
        for key, lines in (
            ("channel", CHANNELS),
            ("circuit", CIRCUITS),
            ("colour", COLOURS),
            ("number", NUMBERS),
        )
        for heading in _each(lines)
    ],
)
def test_headings_put_together_of_known_words(key: str, heading: str) -> None:
    assert meaning(heading).keys == (key,)


@pytest.mark.parametrize(
    ("key", "heading"), [(key, h) for key, lines in LONG_HAND.items() for h in _each(lines)]
)
def test_headings_in_long_hand(key: str, heading: str) -> None:
    assert meaning(heading).keys == (key,)


def test_a_socket_and_a_channel_in_long_hand(tmp_path: Path) -> None:
    text = (
        "Bar it hangs on,unit,at,Sort of lantern it is,What it is to light,Plugged into socket,"
        "Desk channel it is on,What colour is in it\nLX 1,1,2 m SR,spot,A,W1,12,L201\n"
    )
    (unit,) = scene_of(tmp_path, text).units
    assert (unit.position, unit.target, unit.circuit) == ("LX 1", "A", "W1")
    assert (unit.channel, unit.colour) == ("12", "L201")


@pytest.mark.parametrize("tick", ["yes", "not yet"])
def test_whether_a_unit_is_plugged_is_no_circuit(tmp_path: Path, tick: str) -> None:
    text = f"pipe,unit,at,kind,target,Is it plugged in\nLX 1,1,2 m SR,spot,A,{tick}\n"
    assert scene_of(tmp_path, text).units[0].circuit is None


@pytest.mark.parametrize("heading", _each(ELSE))
def test_headings_with_a_word_that_says_something_else(heading: str) -> None:
    assert not {"channel", "circuit", "colour", "number"} & set(meaning(heading).keys)


@pytest.mark.parametrize(("desk", "plug"), [("Stellwerk", "Kreis"), ("Circuit jeu", "Gradateur")])
def test_two_columns_of_channels_and_circuits(tmp_path: Path, desk: str, plug: str) -> None:
    text = (
        f"pipe,unit,at,kind,target,{plug},{desk}\nLX 1,1,2 m SR,spot,A,12,1\nLX 1,2,0,spot,A,14,2\n"
    )
    units = scene_of(tmp_path, text).units
    assert [(unit.channel, unit.circuit) for unit in units] == [("1", "12"), ("2", "14")]


def test_the_trades_own_word_is_taken_before_one_put_together(tmp_path: Path) -> None:
    text = "pipe,unit,at,kind,target,House dimmer,Circuit\nLX 1,1,2 m SR,spot,A,12,1\n"
    assert scene_of(tmp_path, text).units[0].circuit == "1"
    assert "House dimmer" in told_of(tmp_path, text)


@pytest.mark.parametrize(("cell", "channel"), [("14", "14"), ("front of house", None)])
def test_a_word_for_a_desk_alone_is_heard_over_numbers(
    tmp_path: Path, cell: str, channel: str | None
) -> None:
    text = f"pipe,unit,at,kind,target,Consola\nLX 1,1,2 m SR,spot,A,{cell}\n"
    assert scene_of(tmp_path, text).units[0].channel == channel


@pytest.mark.parametrize(("cell", "circuit"), [("SL1-1", "SL1-1"), ("SR 2", "SR 2")])
@pytest.mark.parametrize("heading", ["Ckt", "House dimmer"])
def test_circuits_of_booms_that_look_like_places(
    tmp_path: Path, heading: str, cell: str, circuit: str
) -> None:
    text = (
        f"position,unit,where on boom,ht,kind,target,{heading}\nboom SR,1,head,2 m,spot,A,{cell}\n"
    )
    unit = scene_of(tmp_path, text).units[0]
    assert (unit.at, unit.circuit) == (2.0, circuit)


def test_a_dimension_with_sides_is_still_a_place(tmp_path: Path) -> None:
    text = "pipe,unit,Dim,kind,target\nLX 1,1,2 SR,spot,A\nLX 1,2,1 SL,spot,A\n"
    assert [unit.at for unit in scene_of(tmp_path, text).units] == [-2.0, 1.0]


@pytest.mark.parametrize(
    "heading", ["Steckt in", "Branché sur", "Ingeplugd in", "Where it plugs in"]
)
def test_numbers_under_where_it_is_plugged_in_are_circuits(tmp_path: Path, heading: str) -> None:
    text = f"pipe,unit,at,kind,target,{heading}\nLX 1,1,2 m SR,spot,A,22\nLX 1,2,0,spot,A,24\n"
    assert [unit.circuit for unit in scene_of(tmp_path, text).units] == ["22", "24"]
