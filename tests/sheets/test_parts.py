"""Sheets of some positions or units alone: their rows and no others, and that they are a part."""

from __future__ import annotations

import csv
import io
import json
import shutil
from pathlib import Path

import pytest
from python_calamine import CalamineWorkbook

from aimcalc.sheets.pieces import PieceError, chosen_in_part
from aimcalc.sheets.prep import options_for, part_of, prepare, sets_in
from aimcalc.show import Show
from aimcalc.text.stamp import PaperOptions
from tests.sheets import pdf_reading

SCENES = Path(__file__).parents[2] / "scenes"


@pytest.fixture(scope="module")
def studio() -> Show:
    return Show.read(SCENES / "studio")


@pytest.fixture(scope="module")
def one_pipe(studio, tmp_path_factory) -> Path:
    out = tmp_path_factory.mktemp("part") / "out"
    named = "aim-sheets,cards,hang-sheets,hang-strip,labels,lists,saddles"
    return made(studio, out, positions=["back pipe"], only=named)


def made(show: Show, folder: Path, positions=(), units=None, only=None) -> Path:
    part = part_of(show.rig, positions, units)
    pieces = chosen_in_part(only, units=units is not None)
    prepare(show, str(folder), options_for(show.rig, part=part), pieces)
    return folder


def text(file: Path) -> str:
    return " ".join(" ".join(pdf_reading.pages(file.read_bytes())).split())


def test_every_page_says_that_it_is_a_part_and_of_what(studio, one_pipe, tmp_path):
    files = sorted(one_pipe.glob("*.pdf"))
    stems = ["aim-sheets", "cards", "hang-sheets", "hang-strip", "labels", "saddle-labels"]
    assert [f.stem for f in files] == stems
    files += sorted(made(studio, tmp_path / "out", ["back pipe"]).glob("*.pdf"))
    assert [f.stem for f in files[6:]] == ["cards", "pack-back-pipe"]
    for file in files:
        for page in pdf_reading.pages(file.read_bytes()):
            assert "PART: back pipe | set" in page
        for said in pdf_reading.runs(file.read_bytes()):
            assert not [pair for pair in pdf_reading.overlaps(said) if "PART" in "".join(pair)]


def test_the_rows_are_those_of_the_position_and_no_other(studio, one_pipe):
    assert "front pipe AT TRIM" not in text(one_pipe / "aim-sheets.pdf")
    assert "back pipe AT TRIM" in text(one_pipe / "aim-sheets.pdf")
    cards = text(one_pipe / "cards.pdf")
    assert cards.count("back pipe") == len(studio.rig.rows["back pipe"]) + len(
        pdf_reading.sizes((one_pipe / "cards.pdf").read_bytes())
    )  # on every card, and in the corner of every page
    assert "boom SL" not in text(one_pipe / "hang-sheets.pdf")
    assert "front pipe" not in text(one_pipe / "hang-strip.pdf")
    assert "front pipe" not in text(one_pipe / "saddle-labels.pdf")


def test_lists_hold_these_units_and_say_part(studio, one_pipe):
    names = [name for name in studio.rig.names if name.startswith("back pipe/")]
    rows = list(csv.DictReader(io.StringIO((one_pipe / "aims.csv").read_text())))
    assert [row["unit"] for row in rows] == names
    assert {row["part"] for row in rows} == {"PART: back pipe"}
    told = json.loads((one_pipe / "aims.json").read_text())
    assert [unit["unit"] for unit in told["units"]] == names
    assert told["part"] == "PART: back pipe"
    book = CalamineWorkbook.from_path(one_pipe / "aims.xlsx")
    aims = book.get_sheet_by_name("aims").to_python()
    assert "PART: back pipe" in aims[0][0]
    assert len(aims) == len(names) + 3  # two lines and the heads


def test_some_units_are_their_rows_in_the_words_of_the_whole_sheet(studio, tmp_path):
    out = made(studio, tmp_path / "out", units="front pipe/3, back pipe/2", only="aim-sheets")
    runs = pdf_reading.runs((out / "aim-sheets.pdf").read_bytes())
    pages = pdf_reading.pages((out / "aim-sheets.pdf").read_bytes())
    (front,) = [r for r, p in zip(runs, pages, strict=True) if "front pipe AT TRIM" in p]
    large = [run.words for run in front if run.size > 19]
    row = next(a for a in studio.rig.answers if a.unit == "front pipe/3")
    assert "3" in large
    assert f"{round(row.down)}°" in large
    assert not {"1", "2", "4", "5", "6"} & set(large)
    assert not any("START END" in run.words for run in front)  # the row does not start at unit 3


def test_a_part_has_the_mark_of_its_set_and_the_record_says_part(studio, one_pipe):
    told = sets_in(str(one_pipe))["aim-sheets.pdf"]
    assert told is not None
    assert told.set == options_for(studio.rig).stamp.mark
    assert told.words.endswith("(PART: back pipe)")


def test_a_part_never_takes_the_place_of_a_whole_sheet(studio, one_pipe, tmp_path):
    whole = tmp_path / "whole"
    prepare(studio, str(whole), options_for(studio.rig), chosen_in_part("lists", units=True))
    before = (whole / "aims.csv").read_bytes()
    with pytest.raises(PieceError, match="Name another folder"):
        made(studio, whole, positions=["back pipe"])
    assert (whole / "aims.csv").read_bytes() == before
    again = tmp_path / "again"
    shutil.copytree(one_pipe, again)
    made(studio, again, positions=["front pipe"], only="cards")  # a part may replace a part


@pytest.mark.parametrize(
    ("positions", "units", "says"),
    [
        (["front pip"], None, 'no position is called "front pip". Did you mean "front pipe"?'),
        (["zzz"], None, "There are: front pipe, back pipe, boom SL"),
        ([], "front pipe/33", 'no unit is called "front pipe/33". Did you mean "front pipe/3"?'),
    ],
)
def test_a_name_that_is_none_is_told_with_the_nearest(studio, positions, units, says):
    with pytest.raises(ValueError, match=says.replace("?", r"\?")):
        part_of(studio.rig, positions, units)


def test_what_only_the_whole_rig_has_is_refused_in_part():
    with pytest.raises(ValueError, match="plan: made of the whole rig only"):
        chosen_in_part("plan,cards", units=False)
    with pytest.raises(ValueError, match="hang-strip: made of whole positions only"):
        chosen_in_part("hang-strip", units=True)


def test_a_part_without_names_is_what_of_the_set_can_be_in_part():
    for units in (True, False):
        told = [piece.name for piece in chosen_in_part(None, units=units)]
        assert told == ["packs", "cards", "phone", "lists"]


def test_many_units_are_counted_where_their_names_do_not_fit():
    units = frozenset(f"front pipe/{k}" for k in range(40))
    options = PaperOptions(part=units, part_name=", ".join(units))
    assert options.part_words == "PART: 40 units"


def test_the_cover_says_how_much_of_the_rig_it_tells_of(one_pipe):
    cover = " ".join(pdf_reading.pages((one_pipe / "aim-sheets.pdf").read_bytes())[0].split())
    assert "3 units of 12 units on 3 positions. The others are not shown." in cover


def test_a_pack_in_part_has_its_own_rows_alone(studio, tmp_path):
    out = made(studio, tmp_path / "out", units="front pipe/3, back pipe/2")
    files = sorted(file.name for file in out.glob("*.pdf"))
    assert files == ["cards.pdf", "pack-back-pipe.pdf", "pack-front-pipe.pdf"]
    ladder, deck = pdf_reading.runs((out / "pack-front-pipe.pdf").read_bytes())
    for page in (ladder, deck):
        assert [run.words for run in page if run.size == 20 and run.left < 30] == ["3"]
        assert not any("START END" in run.words for run in page)  # the row does not start at unit 3
