"""Names that differ stay different on paper, however long they are."""

import io
import pkgutil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.sheets.cards import unit_cards
from aimcalc.sheets.pieces import chosen
from aimcalc.text.names import short, short_number, short_unit, shortened
from aimcalc.text.stamp import PaperOptions
from tests import toml_rig
from tests.sheets.pdf_reading import pages
from tests.shows import a_show

LONG = "Front of house catwalk number"  # 29 letters: the cut used to come before what differs
KIND = "profile spot of the main house"


def two_pipes(folder):
    tables = []
    for n in (1, 2):
        tables += [
            toml_rig.table("pipe", name=f"{LONG} {n}", y=-n, trim=6.0, from_=-5, to=5),
            toml_rig.table("target", name=f"the armchair beside the door {n}", x=n, y=2),
            toml_rig.table("kind", **{**toml_rig.KIND, "name": f"{KIND} {n}"}),
            toml_rig.unit(
                position=f"{LONG} {n}",
                number=f"catwalk-{n}",
                kind=f"{KIND} {n}",
                target=f"the armchair beside the door {n}",
            ),
        ]
    stage = "[stage]\noutline = [[-6, -1], [6, -1], [6, 8], [-6, 8]]\n"
    return toml_rig.rig(folder, stage, *tables, kinds=" ")


@given(st.sets(st.text("ab 1", min_size=1, max_size=40), max_size=40), st.integers(6, 30))
def test_different_names_are_never_shortened_to_the_same(names, letters):
    names = {" ".join(name.split()) for name in names} - {""}
    told = shortened(names, letters)
    assert len(set(told.values())) == len(names)
    for name, text in told.items():
        assert text == name if len(name) <= letters else len(text) <= letters or text == name


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("Front of house catwalk number 1", "Front of house catwalk number 2"),
        ("Front of house catwalk 1 above the stalls", "Front of house catwalk 2 above the stalls"),
        ("1 front of house catwalk over the stalls", "2 front of house catwalk over the stalls"),
    ],
)
def test_names_that_differ_at_their_end_middle_or_beginning_keep_what_differs(first, second):
    told = shortened([first, second], 24)
    assert max(map(len, told.values())) <= 24
    assert "1" in told[first]
    assert "2" in told[second]


def test_a_name_as_a_cut_would_make_it_stays_its_own():
    cut = "abcdefghi…"
    assert len(set(shortened([cut, "abcdefghijklmnop"], 10).values())) == 2


def test_a_thousand_names_of_one_beginning_stay_different():
    names = [f"{LONG} {n} of the new theatre" for n in range(1000)]
    told = shortened(names, 24)
    assert len(set(told.values())) == 1000
    assert max(map(len, told.values())) <= 24


def test_a_scene_shortens_what_it_names_together(tmp_path):
    rig = two_pipes(tmp_path)
    names = [*rig.scene.positions, *(t.name for t in rig.scene.targets), *rig.scene.kinds]
    assert len({short(rig, name) for name in names}) == 6
    assert short_number(rig, 0) != short_number(rig, 1)
    assert short_unit(rig, 0) != short_unit(rig, 1)
    assert short(rig, "unit cards") == "unit cards"


def test_cards_of_two_pipes_of_one_beginning_tell_them_apart(tmp_path):
    rig = two_pipes(tmp_path)
    stream = io.BytesIO()
    unit_cards(a_show(rig, []), stream, PaperOptions())
    (page,) = pages(stream.getvalue())
    for name in (*rig.scene.positions, *(t.name for t in rig.scene.targets)):
        assert short(rig, name) in page


@pytest.mark.parametrize(
    "name",
    [
        *("aim-sheets", "cards", "hang-sheets", "hang-strip", "test-sheet", "counts", "by-area"),
        *("saddles", "head-page"),
    ],
)
def test_every_piece_of_paper_tells_two_pipes_of_one_beginning_apart(tmp_path, name):
    rig = two_pipes(tmp_path)
    (piece,) = chosen(name)
    streams = [io.BytesIO() for _ in piece.files]
    pkgutil.resolve_name(piece.maker)(a_show(rig), *streams, PaperOptions())
    said = "".join("".join(pages(streams[0].getvalue())).split()).replace("\ufffe", "-")
    for pipe in rig.scene.positions:
        forms = (pipe, short(rig, pipe), short(rig, pipe, 20))
        assert any("".join(form.split()) in said for form in forms)


def test_what_tells_two_names_apart_is_kept_as_whole_words():
    names = [f"Front of house catwalk, number {n}, stage left" for n in ("one", "two")]
    assert list(shortened(names, 24).values()) == [
        "Front of…one, stage left",
        "Front of…two, stage left",
    ]


def test_no_number_is_cut_in_two():
    told = shortened(["catwalk-1", "catwalk-2", "catwalk-11"], 8)
    assert list(told.values()) == ["catwal…1", "catwal…2", "catwa…11"]
    rows = [f"Front of house catwalk number {n}" for n in (1, 2, 12)]
    assert [text.rpartition(" ")[2] for text in shortened(rows, 24).values()] == ["1", "2", "12"]
