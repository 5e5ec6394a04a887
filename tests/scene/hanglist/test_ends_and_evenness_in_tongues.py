"""Ends of a pipe, even spacing, heights and whose left and right it is, in the words of other languages."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.readers import colour
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.hanglist.places import listed, places, read, told, units
from tests.scene.written import refused

HEADS = ["Bar", "Unit", "{}", "Type", "Focus"]


def rows_under(heading: str, *cells: Any) -> list[list[Any]]:
    return [[word.format(heading) for word in HEADS], *units("LX 1", *cells)]


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("destra e sinistra guardando il pubblico", "stage"),
        ("destra e sinistra guardando il palco", "house"),
        ("Sx e Dx spalle al pubblico", "house"),
        ("izquierda y derecha mirando al público", "stage"),
        ("izquierda y derecha mirando al escenario", "house"),
        ("izquierda/derecha mirando desde el público", "house"),
        ("izq y der de cara al público", "stage"),
        ("izquierda y derecha de espaldas al público", "house"),
        ("gauche et droite face au public", "stage"),
        ("gauche / droite face à la scène", "house"),
        ("gauche et droite dos au public", "house"),
        ("gauche et droite en regardant la salle", "stage"),
        ("links und rechts mit Blick ins Publikum", "stage"),
        ("links und rechts mit Blick auf die Bühne", "house"),
        ("links/rechts Blickrichtung zum Publikum", "stage"),
        ("links/rechts Blick der Zuschauer", "house"),
        ("links/rechts vom Publikum aus mit Blick auf die Bühne", "house"),
        ("li/re aus Sicht des Darstellers", "stage"),
        ("li./re. = Zuschauersicht", "house"),
        ("links en rechts kijkend naar het toneel", "house"),
        ("links en rechts kijkend naar de zaal", "stage"),
        ("links en rechts kijkend de zaal in", "stage"),
        ("L/R kijkend vanuit de zaal naar het toneel", "house"),
        ("L en R in kolom 3: gezien vanuit de zaal.", "house"),
        ("vänster och höger vänd mot publiken", "stage"),
        ("vänster/höger vänd mot scenen", "house"),
        ("lewa/prawa patrząc na scenę", "house"),
        ("lewa i prawa twarzą do widowni", "stage"),
        ("vlevo a vpravo při pohledu na jeviště", "house"),
        ("esquerda e direita olhando para o palco", "house"),
        ("esquerda/direita de frente para o público", "stage"),
        ("esquerra i dreta mirant l'escenari", "house"),
    ],
)
def test_whose_left_and_right_it_is_by_where_somebody_looks(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


@pytest.mark.parametrize(
    "line", ["links/rechts in Blickrichtung Publikum", "links en rechts, blikrichting zaal"]
)
def test_a_look_that_may_be_either_way_is_nobodys(line: str) -> None:
    assert said_by([(1, [line])]).bare == ""


@pytest.mark.parametrize(
    ("line", "left", "right"),
    [
        ("G/D vus de la salle", "2,5 G", "1,5 D"),
        ("I/D del público", "2,5 m I", "1,5 m D"),
        ("D e I del público", "I 2,5", "D 1,5"),
        ("izquierda (I) y derecha (D) del público", "2,5 I", "1,5 D"),
        ("S/D dalla platea", "2,5 S", "1,5 D"),
        ("E/D vistos da plateia", "2,5 E", "1,5 D"),
        ("V/H sett från salongen", "2,5 V", "1,5 H"),
        ("V/H set fra salen", "2,5 m V", "1,5 m H"),
        ("L/P od widowni", "2,5 L", "1,5 P"),
        ("L/P z pohledu diváka", "2,5 L", "1,5 P"),
        ("L und R vom Zuschauer aus", "L 2,5", "R 1,5"),
        ("L en R vanuit de zaal gezien", "2,5 L", "1,5 R"),
        ("li/re vom Zuschauerraum aus gesehen", "li 2,5", "re 1,5"),
        ("gauche/droite du spectateur", "G 2,5", "1,5 D"),
        ("izquierda y derecha del público", "2,5 I", "D 1,5"),
        ("sinistra e destra viste dalla platea", "2,5 S", "1,5 D"),
        ("vänster/höger sett från salongen", "2,5 V", "1,5 H"),
        ("li/re Zuschauersicht", "2,5 li.", "1,5 re."),
        ("li. u. re. vom Publikum aus", "2,5 m li", "1,5 m re"),
    ],
)
def test_letters_of_sides_that_a_line_explains(
    tmp_path: Path, line: str, left: str, right: str
) -> None:
    scene = read(tmp_path, [[line], *rows_under("Distance", left, 0, right)])
    assert places(scene) == [-2.5, 0.0, 1.5]
    assert told(scene, left)


@pytest.mark.parametrize(("left", "right"), [("li 2,5", "re 1,5"), ("2,5 li.", "1,5 re.")])
def test_letters_of_nobodys_sides_are_asked(tmp_path: Path, left: str, right: str) -> None:
    mistakes = refused(listed(tmp_path, rows_under("Abstand", left, 0, right)))
    assert any("SL or SR" in mistake.expected for mistake in mistakes)


def test_a_column_of_li_and_re(tmp_path: Path) -> None:
    head = ["Zug", "Nr.", "cm", "li/re", "Type", "Focus"]
    rows = [["LX 1", 1, 250, "li", "spot", "A"], ["LX 1", 2, 150, "re", "spot", "A"]]
    line = "Maße ab Mitte, li/re vom Zuschauer"
    assert places(read(tmp_path, [[line], head, *rows])) == [-2.5, 1.5]


@pytest.mark.parametrize(
    ("line", "end"),
    [
        ("alle Maße in cm ab linkem Ende der Zugstange (links vom Zuschauer aus)", "SR"),
        ("gemessen ab linkem Zugende / Brückenende (vom Zuschauer aus links)", "SR"),
        ("gemessen vom linken Ende (aus Sicht des Darstellers)", "SL"),
        ("Maße vom rechten Stangenende, rechts = Zuschauersicht", "SL"),
        ("mesures en m depuis l'extrémité gauche de la perche (vue de la salle)", "SR"),
        ("cotes prises du bout jardin de la perche", "SR"),
        ("distances depuis l'extrémité côté cour", "SL"),
        ("mesures depuis le bout droit (du comédien)", "SR"),
        ("medidas desde el extremo izquierdo de la vara (visto desde el público)", "SR"),
        ("metros desde el extremo derecho de la vara (derecha del actor)", "SR"),
        ("todas en metros desde la punta derecha (del actor) de la vara", "SR"),
        ("misure dall'estremità sinistra (vista dalla platea)", "SR"),
        ("misure in cm dal capo destro dell'americana (destra attore)", "SR"),
        ("misure dall'estremo lato corte", "SL"),
        ("maten in cm vanaf het linker uiteinde van de trek (links = vanuit de zaal)", "SR"),
        ("maten in cm vanaf het rechtereind van de trek, rechts vanuit de zaal gezien", "SL"),
        ("gemeten vanaf het uiteinde tuinkant", "SR"),
        ("maten vanaf de linkerkant van de trek (vanuit de zaal gezien)", "SR"),
        ("mått i cm från vänstra änden av röret, sett från scenen", "SL"),
        ("mål fra venstre ende, set fra salen", "SR"),
        ("mål i cm fra høyre ende (sett fra salen)", "SL"),
        ("mitat vasemmasta päästä, katsomosta katsottuna", "SR"),
        ("wymiary w cm od lewego końca (od widowni)", "SR"),
        ("rozměry v cm od levého konce (z pohledu diváka)", "SR"),
        ("mides en cm des de l'extrem dret (de l'actor)", "SR"),
        ("medidas em cm a partir da ponta esquerda (do ator)", "SL"),
        ("links/rechts vom Zuschauer aus. Maße ab linkem Stangenende", "SR"),
        ("Gemessen in cm vom Ende des Zuges, das vom Zuschauer aus links ist", "SR"),
        ("Medidas desde el extremo de la vara que queda a la derecha del actor", "SR"),
        ("mesurées depuis l'extrémité de la perche côté jardin", "SR"),
        ("maten vanaf het uiteinde van de trek, links vanuit de zaal", "SR"),
    ],
)
def test_the_end_that_a_line_says(line: str, end: str) -> None:
    assert said_by([(1, [line])]).end == end


@pytest.mark.parametrize(
    "line",
    [
        "gemessen ab linkem Ende",
        "gemessen ab Ende",
        "alle Maße von links",
        "mesures depuis le bout gauche de la perche",
        "mesures depuis jardin",
        "medidas desde el extremo de la vara",
        "todas las medidas desde la izquierda",
        "misure dal capo sinistro",
        "misure da sinistra",
        "maten vanaf de linkerkant van de trek",
        "mått från vänster ände",
        "distances from the left",
    ],
)
def test_an_end_of_nobodys_side_is_asked(tmp_path: Path, line: str) -> None:
    said = said_by([(1, [line])])
    assert said.end == ""
    assert said.vague
    assert refused(listed(tmp_path, [[line], *rows_under("Distance", 2.5, 1, 3)]))


@pytest.mark.parametrize(
    "line", ["Nummerierung von links", "numérotés de jardin à cour", "numerati da sinistra"]
)
def test_an_order_is_no_end(line: str) -> None:
    assert said_by([(1, [line])]).vague == ""


@pytest.mark.parametrize(
    ("heading", "end"),
    [
        ("Distancia al extremo derecho (actor)", "SR"),
        ("Abstand vom linken Ende (Zuschauersicht)", "SR"),
        ("cm dall'estremità sinistra (attore)", "SL"),
        ("Distance du bout jardin (m)", "SR"),
        ("m depuis bout cour", "SL"),
        ("cm vanaf uiteinde hofkant", "SL"),
        ("Avstånd från vänster ände (från salongen)", "SR"),
        ("Od lewego końca (widz)", "SR"),
    ],
)
def test_the_end_that_a_heading_says(heading: str, end: str) -> None:
    found = meaning(heading)
    assert (found.keys, found.end) == (("at",), end)


@pytest.mark.parametrize(
    ("line", "heading", "first"),
    [
        ("vanaf het linker uiteinde (links = vanuit de zaal)", "cm vanaf links", -3.5),
        ("gemessen ab linkem Zugende (vom Zuschauer aus links)", "cm ab Ende", -3.5),
        ("links und rechts vom Zuschauer aus", "cm ab linkem Ende", -3.5),
        ("desde el extremo derecho (derecha del actor)", "Distancia al extremo derecho", -3.5),
        ("left and right as the audience sees them", "cm from left end", -3.5),
        ("izquierda y derecha del actor", "cm desde el extremo izquierdo", 3.5),
    ],
)
def test_a_heading_and_a_line_together(
    tmp_path: Path, line: str, heading: str, first: float
) -> None:
    cells = (150, 300) if "cm" in heading else ("1,50", "3,00")
    scene = read(tmp_path, [[line], *rows_under(heading, *cells)])
    assert places(scene) == [first, first - (1.5 if first > 0 else -1.5)]


@pytest.mark.parametrize("heading", ["cm ab linkem Ende", "Distancia al extremo derecho"])
def test_a_heading_of_an_end_of_nobodys_side_is_asked(tmp_path: Path, heading: str) -> None:
    assert refused(listed(tmp_path, rows_under(heading, 150, 300)))


@pytest.mark.parametrize(
    "line",
    [
        "cotes en m depuis le bout avant (face) de la passerelle",
        "cotes en m depuis le bout face",
        "Maße in m vom vorderen Ende der Galerie",
        "medidas en m desde el extremo delantero",
        "misure in m dall'estremità anteriore",
        "maten in m vanaf het voorste uiteinde",
        "mått i m från främre änden",
        "ballatoi: m dall'estremità verso il pubblico",
        "zijbruggen: m vanaf de kant van de zaal",
    ],
)
def test_the_front_end_of_a_pipe_up_and_down_the_stage(tmp_path: Path, line: str) -> None:
    rows = [[line], [word.format("At") for word in HEADS], *units("side", 1.5, 4)]
    assert places(read(tmp_path, rows), "side") == [-1.5, 1.0]


@pytest.mark.parametrize(
    "line",
    [
        "Tout est réparti également sur la perche.",
        "Projecteurs équidistants",
        "à intervalles réguliers",
        "Distanze uguali su ogni americana",
        "proiettori distribuiti uniformemente",
        "repartidos por igual en cada vara",
        "a distancias iguales",
        "igualmente espaçados",
        "gleichmäßig verteilt",
        "in gleichen Abständen",
        "gelijkmatig verdeeld over de trek",
        "lampen op gelijke afstanden",
        "jämnt fördelade",
        "jævnt fordelt",
        "lika avstånd",
        "a distanza regolare",
        "in regelmäßigen Abständen",
        "distances identiques entre projecteurs",
        "równe odstępy",
        "rovnoměrně rozmístěno",
        "repartits uniformement",
        "tasavälein",
    ],
)
def test_even_spacing(tmp_path: Path, line: str) -> None:
    assert said_by([(1, [line])]).even
    rows = [["Bar", "Unit", "Type", "Focus"], *([["LX 1", n, "spot", "A"] for n in (1, 2)])]
    scene = read(tmp_path, [[line], *rows])
    assert places(scene) == [2.5, -2.5]
    assert told(scene, "spread evenly")


@pytest.mark.parametrize(
    "line",
    [
        "Le piano est également éclairé",
        "à égale distance de l'axe",
        "regelmatig controleren",
        "alle Geräte gleich",
    ],
)
def test_other_words_of_evenness_space_nothing(line: str) -> None:
    assert not said_by([(1, [line])]).even


BOOM = [["Bar", "Unit", "Distance", "Type", "Focus"]]


@pytest.mark.parametrize(
    "cell",
    [
        *(
            "2,5 h",
            "h 2,5",
            "H = 2,5",
            "2,5 m hoog",
            "2,5 haut",
            "haut. 2,5",
            "hauteur 2,5",
            "alt. 2,5",
        ),
        *("altezza 2,5", "2,5 alto", "Höhe 2,5", "2,5 m hoch", "Hö 2,5", "2,5 m über Boden"),
        *("2,5 m desde el suelo", "2,5 m vom Boden", "2,5 da terra", "2,5 m von unten"),
    ],
)
def test_heights_on_booms(tmp_path: Path, cell: str) -> None:
    scene = read(tmp_path, [*BOOM, *units("boom SR", cell)])
    assert places(scene, "boom SR") == [2.5]


@pytest.mark.parametrize("cell", ["0,5 m von oben", "0,5 m du haut", "0,5 m dall'alto"])
def test_what_counts_down_from_the_top(tmp_path: Path, cell: str) -> None:
    english = read(tmp_path / "e", [*BOOM, *units("boom SR", "0.5 m from top")])
    scene = read(tmp_path / "f", [*BOOM, *units("boom SR", cell)])
    assert places(scene, "boom SR") == places(english, "boom SR")


@pytest.mark.parametrize(
    ("heading", "keys"),
    [
        *(("Was", ("kind", "target")), ("Quoi", ("kind", "target")), ("Wohin", ("target",))),
        *(("Waarheen", ("target",)), ("Richt op", ("target",)), ("Worauf", ("target",))),
        *(("Dove", ("position",)), ("Waar", ("position",)), ("Plek", ("at", "position"))),
        *(("Cote", ("at", "side")), ("Côté", ("side",)), ("CÔTÉ", ("side",))),
    ],
)
def test_headings_of_a_word(heading: str, keys: tuple[str, ...]) -> None:
    assert meaning(heading).keys == keys


def test_cote_is_the_side_where_its_cells_are_sides(tmp_path: Path) -> None:
    head = ["Perche", "No", "Distance", "COTE", "Projecteur", "Visée"]
    rows = [["LX 1", 1, 2.5, "jardin", "spot", "A"], ["LX 1", 2, 1.5, "cour", "spot", "A"]]
    assert places(read(tmp_path / "side", [head, *rows])) == [-2.5, 1.5]
    head, rows = ["Perche", "No", "Cote", "Projecteur", "Visée"], units("LX 1", "2,5 jardin", 0)
    assert places(read(tmp_path / "place", [head, *rows])) == [-2.5, 0.0]


@pytest.mark.parametrize("word", ["nessuna", "ohne", "sans", "keine", "aucune", "ninguno", "geen"])
def test_words_of_no_colour(word: str) -> None:
    assert colour(word) is None


HOUSE = """
[scene]
title = "House"
hang = "list.csv"

[[pipe]]
name = "Trek 1"
trim = 6
y = 2
from = -5
to = 5

{booms}

[[target]]
name = "Tafel"
x = 0
y = 3

[[kind]]
name = "PC"
family = "fresnel"
field = 50
"""


def booms(left: float) -> str:
    words = "[[boom]]\nname = '{}'\nx = {}\ny = 0.2\nheight = 5\n"
    return words.format("Portaal links", left) + words.format("Portaal rechts", -left)


LIST = ("Trek;Nr;Plek;Armatuur;Richt op", "Trek 1;1;2,5 m toneel rechts;PC;Tafel")


def test_toneel_links_is_that_of_the_stage_where_the_house_names_its_sides_so(
    tmp_path: Path,
) -> None:
    scene = scene_in(tmp_path, HOUSE.format(booms=booms(6)), LIST)
    assert [unit.at for unit in scene.units] == [-2.5]
    lines = ("X: vanaf het midden, + is toneel links", "Trek;Nr;X;Armatuur;Richt op")
    scene = scene_in(tmp_path, HOUSE.format(booms=booms(6)), (*lines, "Trek 1;1;2,5;PC;Tafel"))
    assert [unit.at for unit in scene.units] == [2.5]


@pytest.mark.parametrize("others", ["", booms(-6)])
def test_toneel_links_is_asked_where_the_house_does_not_tell(tmp_path: Path, others: str) -> None:
    assert "SL or SR" in asked_in(tmp_path, HOUSE.format(booms=others), LIST)


def test_a_side_in_brackets_is_kept() -> None:
    assert in_english("2,5 m (links)") == "2,5 m (left)"
    assert in_english("2,80 L van midden") == "2,80 l of centre"


@pytest.mark.parametrize(
    ("line", "sr_first"),
    [
        ("répartis à intervalles égaux, de jardin à cour", True),
        ("répartis à intervalles égaux, de cour à jardin", False),
        ("gleichmäßig verteilt, von links nach rechts (Zuschauer)", True),
        ("gleichmäßig verteilt, von rechts nach links (Zuschauer)", False),
        ("repartidos por igual, de izquierda a derecha vista del público", True),
        ("distribuiti uniformemente da destra a sinistra (attore)", True),
        ("gelijkmatig verdeeld, van links naar rechts gezien vanuit de zaal", True),
        ("jämnt fördelade från vänster till höger sett från salongen", True),
        ("Aparatos equidistantes, el 1 a la derecha del actor", True),
        ("evenly spaced, left to right as seen from the house", True),
        ("evenly spaced left to right from the stage", False),
    ],
)
def test_the_end_at_which_numbers_begin(tmp_path: Path, line: str, *, sr_first: bool) -> None:
    rows = [["Bar", "Unit", "Type", "Focus"], *([["LX 1", n, "spot", "A"] for n in (1, 2)])]
    assert places(read(tmp_path, [[line], *rows])) == ([-2.5, 2.5] if sr_first else [2.5, -2.5])


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("Abst. Mitte (+ = re. vom Zuschauer)", (-2.5, 1.5)),
        ("m (- = li Zuschauer)", (-2.5, 1.5)),
        ("Maß", ("2,5 li. (Zuschauer)", "1,5 re. (Zuschauer)")),
        ("Cote", ("2,5 m à gauche (vu du public)", "1,5 m à droite (vu du public)")),
        ("Misura", ("2,5 a sinistra (vista dal pubblico)", "1,5 a destra (vista dal pubblico)")),
        (
            "Medida",
            ("2,5 m del extremo derecho (actor)", "6,5 m desde el extremo derecho del actor"),
        ),
        ("Cote", ("2,5 du bout jardin", "3,5 m depuis le bout cour")),
    ],
)
def test_places_that_say_themselves_whose_they_are(
    tmp_path: Path, heading: str, cells: tuple[Any, Any]
) -> None:
    assert places(read(tmp_path, rows_under(heading, *cells))) == [-2.5, 1.5]


@pytest.mark.parametrize(
    "line",
    [
        "Seiten aus Sicht Zuschauer",
        "Alle Seitenangaben vom Zuschauerraum aus!",
        "Alle Angaben aus Zuschauersicht",
        "tout vu de la salle",
        "tutto visto dal pubblico",
        "todo visto desde el público",
        "alles gezien vanuit de zaal",
        "Links und rechts vom Betrachter aus",
        "sx e dx per chi guarda",
        "links/rechts = publiekszicht",
    ],
)
def test_all_as_the_seats_see_it(line: str) -> None:
    assert said_by([(1, [line])]).bare == "house"


@pytest.mark.parametrize(
    "line", ["alles fertig", "tout est dans la salle", "Angaben in cm", "tutti al pubblico"]
)
def test_other_lines_of_all_say_nothing_of_sides(line: str) -> None:
    assert said_by([(1, [line])]).bare == ""


@pytest.mark.parametrize(
    "line",
    [
        "Galeries : mesures depuis le cadre de scène",
        "Galerien: Maße ab Portal",
        "ballatoi: misure dal boccascena",
        "pasarelas: medidas desde la embocadura",
        "zijbruggen: maten vanaf de toneellijst",
        "zijbruggen: maten vanaf het portaal",
    ],
)
def test_what_counts_from_the_proscenium(tmp_path: Path, line: str) -> None:
    rows = [[line], [word.format("At") for word in HEADS], *units("side", 1.5, 4)]
    assert places(read(tmp_path, rows), "side") == [-1.5, 1.0]


def test_c_in_a_column_of_sides_is_cour_where_the_house_has_jardin(tmp_path: Path) -> None:
    house = HOUSE.format(booms=booms(6)).replace("Portaal links", "Tour cour")
    house = house.replace("Portaal rechts", "Tour jardin")
    heads = "Perche;N°;Distance axe;Côté;Projecteur;Vise"
    rows = ("Trek 1;1;2,5;C;PC;Tafel", "Trek 1;2;1,5;J;PC;Tafel", "Trek 1;3;0;C;PC;Tafel")
    scene = scene_in(tmp_path, house, (heads, *rows))
    assert [unit.at for unit in scene.units] == [2.5, -1.5, 0.0]


def test_short_words_for_toneel_links(tmp_path: Path) -> None:
    lines = [LIST[0], LIST[1].replace("toneel rechts", "TR")]
    assert [u.at for u in scene_in(tmp_path, HOUSE.format(booms=booms(6)), lines).units] == [-2.5]
    assert "SL or SR" in asked_in(tmp_path, HOUSE.format(booms=""), lines)


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("A eje (m)", ("2,5 m jardín", "1,5 m corte")),
        ("Mitte (m)", ("2,5 à jardin", "1,5 à cour")),
        ("Cote", ("2,5 m à jardin", "1,5 m à cour")),
    ],
)
def test_garden_and_court(tmp_path: Path, heading: str, cells: tuple[str, str]) -> None:
    assert places(read(tmp_path, rows_under(heading, *cells))) == [-2.5, 1.5]


def test_der_and_izq_in_a_column_of_sides(tmp_path: Path) -> None:
    head = ["Vara", "Nº", "A eje (m)", "Lado", "Aparato", "Foco"]
    rows = [["LX 1", 1, 2.5, "Izq", "spot", "A"], ["LX 1", 2, 1.5, "Der", "spot", "A"]]
    line = ["Lado visto por el público"]
    assert places(read(tmp_path / "said", [line, head, *rows])) == [-2.5, 1.5]
    assert refused(listed(tmp_path / "open", [head, *rows]))


def test_what_a_bracket_says_beside_a_side_is_a_remark(tmp_path: Path) -> None:
    scene = read(tmp_path, rows_under("Distance", "2.2m S.L. (was 1.8, moved for the speaker)"))
    assert places(scene) == [2.2]


@pytest.mark.parametrize(
    ("line", "end"),
    [
        ("0 = SR end of pipe", "SR"),
        ("0 is the SL end of each pipe", "SL"),
        ("SL end = 0", "SL"),
        ("SR end is zero", "SR"),
        ("0 m = SL end", "SL"),
        ("tape 0 at SL", "SL"),
        ("0 = house left end", "SR"),
        ("Nullpunkt = Ende SL", "SL"),
        ("0 = extremo SR", "SR"),
        ("zéro = extrémité cour", "SL"),
    ],
)
def test_an_end_that_is_nought_is_where_places_count_from(line: str, end: str) -> None:
    assert said_by([(1, [line])]).end == end


@pytest.mark.parametrize("line", ["0 = centre line", "SL end = 0.5 m", "SR end = 6 m", "+ = SL"])
def test_what_is_nought_elsewhere_is_no_end_that_places_count_from(line: str) -> None:
    assert not said_by([(1, [line])]).end


@pytest.mark.parametrize(
    "line",
    [
        "Abstand der Scheinwerfer 1,5 m",
        "Lampenabstand 1,5 m",
        "Abstand je 1,5 m",
        "alle 1,5 m ein Scheinwerfer",
        "entraxe 1,50 m",
        "un projecteur tous les 1,50 m",
        "espacés de 1,5 m",
        "interasse 1,5 m",
        "distanziati di 1,5 m",
        "ogni 1,5 m",
        "espaciado 1,5 m",
        "separación 1,5 m",
        "cada 1,5 m",
        "tussenafstand 1,5 m",
        "om de 1,5 m",
        "h.o.h. 1,5 m",
        "c/c 1,5 m",
        "med 1,5 m mellanrum",
        "avstånd mellan lampor 1,5 m",
        "odstęp 1,5 m",
        "rozteč 1,5 m",
        "pitch 1.5 m",
        "1.5 m between units",
    ],
)
def test_how_far_units_are_apart_is_said_in_other_languages(line: str) -> None:
    assert said_by([(1, [line])]).step == "1.5 m"


@pytest.mark.parametrize(
    "line", ["Abstand vom Portal 1,5 m", "Distance from CL 1.5 m", "afstand van het midden 1,5 m"]
)
def test_how_far_something_is_from_a_line_is_no_step(line: str) -> None:
    assert not said_by([(1, [line])]).step
