"""Every page and file says which set it is of; the same scene gives the same mark, any change another."""

import csv
import io
import json
import re
import shutil
import zipfile
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pypdfium2
import pytest
from python_calamine import CalamineWorkbook

from aimcalc.scene.loading import load_scene
from aimcalc.sheets import prep
from aimcalc.sheets.pieces import PIECES, SET
from aimcalc.sheets.plans.overview import draw_overview
from aimcalc.show import Show
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import LISTS, SET_FILE, PaperOptions, Stamp, said
from aimcalc.text.typeset import new_canvas, pdf_bytes
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

SCENES = Path(__file__).parents[2] / "scenes"
EVENING = datetime(2025, 11, 14, 16, 2, 9, tzinfo=timezone(timedelta(hours=-3, minutes=-30)))
TIME = "14 Nov, 16:02"


def mark(scene, **options):
    return prep.options_for(solve_rig(load_scene(scene)), **options).stamp.mark


@pytest.fixture
def studio(tmp_path):
    shutil.copytree(SCENES / "studio", tmp_path / "copy")
    return tmp_path / "copy"


def changed(studio, old, new):
    file = studio / "scene.toml"
    text = file.read_text()
    assert old in text
    file.write_text(text.replace(old, new, 1))
    return studio


def test_a_mark_is_five_letters_and_figures_that_nobody_mistakes():
    marks = {mark(SCENES / name, paper=p) for name in ("studio", "raked") for p in ("a4", "letter")}
    assert len(marks) == 4
    for each in marks:
        assert re.fullmatch("[A-Z][A-Z0-9]{4}", each)
        assert not set(each) & set("0O1IL2Z5S8BGQUAE")


def test_the_same_scene_has_the_same_mark_wherever_it_lies_and_whatever_its_comments_say(studio):
    assert mark(studio) == mark(SCENES / "studio")
    changed(studio, "[scene]", "# a remark\n\n[scene]")
    assert mark(studio) == mark(SCENES / "studio")
    assert mark(studio, section="front pipe/1") == mark(studio)  # one page more of the same set


def test_a_length_written_in_another_way_is_no_change(studio):
    before = mark(changed(studio, "trim = 3.50", 'trim = "3.5 m"'))
    assert before == mark(SCENES / "studio") == mark(changed(studio, '"3.5 m"', '"350 cm"'))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("trim = 3.50", "trim = 3.51"),
        ('revision = "A"', 'revision = "B"'),
        ("number = 1", "number = 91"),
        ('title = "Three', 'title = "Four'),
    ],
)
def test_any_change_of_the_scene_gives_another_mark(studio, old, new):
    assert mark(changed(studio, old, new)) != mark(SCENES / "studio")


def test_paper_length_and_draft_give_other_marks():
    ways = ({}, {"paper": "letter"}, {"length": "ft"}, {"draft": True})
    assert len({mark(SCENES / "studio", **way) for way in ways}) == 4


def test_what_a_mesh_and_a_photometric_file_hold_is_part_of_the_mark(studio):
    text = (studio / "scene.toml").read_text()
    mesh = '\n[[solid]]\nname = "rock"\nmesh = "rock.obj"\nmove = [0, 9, 0]\n'
    (studio / "scene.toml").write_text(text + mesh)
    corners = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\n"
    (studio / "rock.obj").write_text(f"{corners}f 1 2 3\nf 1 2 4\nf 1 3 4\nf 2 3 4\n")
    before = mark(studio)
    (studio / "rock.obj").write_text(
        f"{corners.replace('0 0 1', '0 0 2')}f 1 2 3\nf 1 2 4\nf 1 3 4\nf 2 3 4\n"
    )
    assert len({before, mark(studio), mark(SCENES / "studio")}) == 3


# --- on every page and in every file ------------------------------------------------------------------


@pytest.fixture(scope="module", params=[SET, PIECES], ids=["set", "pieces"])
def drafted(request, tmp_path_factory):
    """All of `prep --draft`, printed on a known evening; and every piece in a file of its own."""
    folder = tmp_path_factory.mktemp("stamped") / "out"
    rig = rig_of("studio")
    options = prep.options_for(rig, draft=True, printed=EVENING)
    prep.prepare(a_show(rig), str(folder), options, request.param)
    return folder, options.stamp.mark


def test_every_page_tells_set_and_time_and_draft(drafted):
    folder, mark = drafted
    files = sorted(folder.glob("*.pdf"))
    made = [file for piece in PIECES for file in piece.files if file.endswith(".pdf")]
    if (folder / "pack-head.pdf").exists():
        made = ["cards.pdf", "drawings.pdf", "pack-head.pdf"]
        made += ["pack-back-pipe.pdf", "pack-boom-SL.pdf", "pack-front-pipe.pdf"]
    assert [path.name for path in files] == sorted(made)
    for file in files:
        for page in pdf_reading.pages(file.read_bytes()):
            assert f"DRAFT | set {mark}, {TIME} | page " in page, file.name


def test_every_card_and_every_tile_of_a_strip_tells_its_set(drafted):
    folder, mark = drafted
    cards = "".join(pdf_reading.pages((folder / "cards.pdf").read_bytes()))
    assert cards.count(f"rev A, set {mark}, {TIME}") == 12
    if (folder / "pack-head.pdf").exists():
        return  # the strip is printed by name alone, as among the pieces
    strips = "".join(pdf_reading.pages((folder / "hang-strip.pdf").read_bytes()))
    assert len(re.findall(rf"tile \d+ of \d+[^\n]*, set {mark}", strips)) == len(
        re.findall(r"tile \d+ of \d+", strips)
    )


def test_the_picture_of_the_rig_tells_its_set():
    rig = rig_of("studio")
    options = prep.options_for(rig, printed=EVENING)
    told = [words.text for words in draw_overview(rig, options).words]
    assert options.stamp.words in told


def test_every_row_of_every_csv_tells_set_time_draft_and_caution(drafted):
    folder, mark = drafted
    files = sorted(folder.glob("*.csv"))
    assert len(files) == 4
    for file in files:
        rows = list(csv.DictReader(file.open(newline="")))
        assert rows
        for row in rows:
            told = [row[c] for c in ("revision", "set", "printed", "draft", "caution")]
            assert told == ["A", mark, "2025-11-14 16:02", "DRAFT", LISTS], file.name


@pytest.mark.parametrize("name", ["aims.xlsx", "counts.xlsx"])
def test_every_sheet_of_a_workbook_tells_set_time_draft_and_caution(drafted, name):
    folder, mark = drafted
    data = (folder / name).read_bytes()
    book = CalamineWorkbook.from_filelike(io.BytesIO(data))
    assert len(book.sheet_names) >= 3
    for sheet in book.sheet_names:
        first, second, *_ = book.get_sheet_by_name(sheet).to_python(skip_empty_area=False)
        assert first[0].startswith("DRAFT | Three Chairs by a Window")
        assert first[0].endswith(f"| rev A | set {mark}, {TIME}")
        assert second[0] == LISTS
    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        core = parts.read("docProps/core.xml").decode()
        sheets = [n for n in parts.namelist() if n.startswith("xl/worksheets/sheet")]
        for sheet in sheets:  # the lines stay in sight: three rows are frozen
            assert 'ySplit="3"' in parts.read(sheet).decode()
    assert f"<dc:subject>set {mark}, {TIME}</dc:subject>" in core
    assert "2025-11-14T19:32:09Z</dcterms:created>" in core  # 16:02:09 is 3 h 30 behind UTC


def test_the_json_tells_its_set_after_the_answer(drafted):
    folder, mark = drafted
    told = json.loads((folder / "aims.json").read_bytes())
    assert list(told)[:4] == ["scene", "unit_of_length", "units", "findings"]
    assert (told["set"], told["draft"], told["revision"]) == (mark, True, "A")
    assert told["printed"] == "2025-11-14T16:02:09-03:30"
    assert told["cautions"].startswith("GEOMETRY ONLY")


def test_dates_and_set_in_the_properties_of_a_pdf_are_true(drafted):
    folder, mark = drafted
    for file in folder.glob("*.pdf"):
        about = pypdfium2.PdfDocument(file.read_bytes()).get_metadata_dict()
        assert about["CreationDate"] == about["ModDate"] == "D:20251114160209-03'30'"
        assert about["Subject"] == f"set {mark}, {TIME}"


def test_without_a_time_the_date_is_always_the_same_and_pages_tell_the_set_alone():
    made = []
    for _ in range(2):
        canvas = new_canvas("x", (100, 100), Stamp("K7MP4"))
        canvas.showPage()
        made.append(pdf_bytes(canvas))
    assert made[0] == made[1]
    assert Stamp("K7MP4").words == "set K7MP4"
    assert Stamp("").words == ""


def test_a_time_is_said_with_the_months_name():
    assert said(datetime(2026, 3, 5, 9, 7, tzinfo=UTC)) == "5 Mar, 09:07"


def test_the_record_tells_the_set_of_every_file(drafted):
    folder, mark = drafted
    told = json.loads((folder / SET_FILE).read_bytes())
    files = [path.name for path in folder.iterdir() if path.name != SET_FILE]
    assert sorted(told) == sorted(files)
    assert {(each["set"], each["printed"]) for each in told.values()} == {
        (mark, "2025-11-14T16:02:09-03:30")
    }


def test_what_was_set_stands_on_every_page_and_list_with_draft(tmp_path):
    asked = ["front pipe.trim=4 m", "boom SL.x=-2 m"]
    show = Show.read(SCENES / "studio", what_if=asked)
    options = prep.options_for(show.rig)
    assert options.draft
    says = "DRAFT, as if front pipe.trim = 4 m; boom SL.x = minus 2 m"
    prep.prepare(show, str(tmp_path / "out"), options)
    for file in sorted((tmp_path / "out").glob("*.pdf")):
        for page in pypdfium2.PdfDocument(file):
            assert says in page.get_textpage().get_text_bounded().replace("\r\n", " ")
    rows = list(csv.DictReader((tmp_path / "out" / "aims.csv").open(newline="")))
    assert {row["draft"] for row in rows} == {says}
    assert json.loads((tmp_path / "out" / "aims.json").read_text())["what_if"] == asked
    sheet = CalamineWorkbook.from_path(tmp_path / "out" / "aims.xlsx").get_sheet_by_index(0)
    assert says in sheet.to_python()[0][0]


def test_a_long_list_of_what_was_set_stays_within_one_line_of_the_page():
    asked = tuple(f"front pipe/{k}.note={'word ' * 12}" for k in range(1, 10))
    over = PaperOptions(what_if=asked).over
    assert len(over) <= 88
    assert over.startswith("DRAFT, as if front pipe/1.note = word word")
    assert over.endswith("; and 8 more")
    assert PaperOptions(draft=True).over == ""


def test_a_set_with_something_set_for_it_has_a_mark_of_its_own():
    plain, tried = (
        Show.read(SCENES / "studio"),
        Show.read(SCENES / "studio", None, ["scene.note=x"]),
    )
    assert prep.options_for(plain.rig).stamp.mark != prep.options_for(tried.rig).stamp.mark
