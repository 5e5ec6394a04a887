"""The whole set in one go: the right files, all or nothing whenever it is killed.

That another process gives the same bytes is in `test_lanes.py`.
"""

import io
import json
import os
import random
import re
import signal
import subprocess
import sys
import time
import zipfile
from datetime import UTC, datetime
from pathlib import Path

import pypdfium2
import pytest
import python_calamine
from PIL import Image

from aimcalc.findings import findings
from aimcalc.sheets import prep
from aimcalc.sheets.pieces import DRAWN, HEAD, PIECES, Piece, chosen
from aimcalc.text.stamp import Stamp
from aimcalc.text.whole import HIDDEN, mend
from tests.sheets import pdf_reading, printed
from tests.shows import a_show, rig_of
from tests.studies import cases

ROOT = Path(__file__).parents[2]
STUDIO = ROOT / "scenes" / "studio"
FILES = [
    "aims.csv",
    "aims.json",
    "aims.xlsx",
    "by-area.csv",
    "cards.pdf",
    "counts.xlsx",
    "drawings.pdf",
    "pack-back-pipe.pdf",
    "pack-boom-SL.pdf",
    "pack-front-pipe.pdf",
    "pack-head.pdf",
]


def is_whole(path):
    """Whether a file can be read to its end by a reader of its kind."""
    data = path.read_bytes()
    if path.suffix == ".pdf":
        return len(pypdfium2.PdfDocument(io.BytesIO(data))) > 0
    if path.suffix == ".png":
        Image.open(io.BytesIO(data)).load()
    elif path.suffix == ".xlsx":
        python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    elif path.suffix == ".json":
        json.loads(data)
    return data.endswith(b"\n") or path.suffix not in (".csv", ".json")


@pytest.fixture
def rig():
    return rig_of("studio")


@pytest.fixture
def prepared():
    return printed.whole_set("studio")


@pytest.fixture
def apart():
    return printed.apart("studio")


@pytest.mark.parametrize("which", ["prepared", "apart"])
def test_every_piece_makes_its_files_and_they_are_whole(which, request):
    folder, made = request.getfixturevalue(which)
    names = os.listdir(folder)
    assert set(FILES) <= set(names) or which == "apart"
    assert all(is_whole(folder / name) for name in names)
    assert [file for each in made for file in each.piece.files if file not in names] == []


@pytest.mark.parametrize("which", ["prepared", "apart"])
def test_pages_are_counted_as_they_are(which, request):
    folder, made = request.getfixturevalue(which)
    for each in made:
        if each.pages is not None:
            files = [folder / name for name in each.piece.files if name.endswith(".pdf")]
            pages = [len(pypdfium2.PdfDocument(io.BytesIO(file.read_bytes()))) for file in files]
            assert each.pages == sum(pages)


def test_the_pages_of_the_packs_are_those_of_the_pieces(prepared, apart):
    """Word by word but for what stands in the corner; each page once, and in the packs' order."""

    def words(file):
        corner = re.compile(r"(?:set \w+ \| )?page \d+ of \d+")
        return [
            " ".join(sorted(corner.sub("", " ".join(page.split())).split()))
            for page in pdf_reading.pages(file.read_bytes())
        ]

    (packs, _), (alone, _) = prepared, apart
    files = {piece.name: piece.files[0] for piece in PIECES}
    for pack, names in (("pack-head.pdf", HEAD), ("drawings.pdf", DRAWN)):
        pages = [p for name in names if name in files for p in words(alone / files[name])]
        assert words(packs / pack) == pages
    told = [
        p
        for file in sorted(packs.glob("pack-*.pdf"))
        if "head" not in file.name
        for p in words(file)
    ]
    pieces = [p for name in ("ladder", "deck") for p in words(alone / files[name])]
    assert sorted(told) == sorted(pieces)


def test_a_pack_s_pages_are_numbered_through(prepared):
    pages = pdf_reading.pages((prepared[0] / "pack-head.pdf").read_bytes())
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page


@pytest.mark.parametrize(
    ("which", "only"),
    [("prepared", ()), ("apart", ("--only", ",".join(piece.name for piece in PIECES)))],
)
def test_the_same_scene_gives_the_same_bytes_in_another_process(which, only, request, tmp_path):
    folder, _ = request.getfixturevalue(which)
    again = tmp_path / "again"
    subprocess.run(
        [
            *(sys.executable, "-m", "aimcalc", "prep", STUDIO, "-o", again, "--reproducible"),
            *only,
        ],
        check=True,
        cwd=ROOT,
        capture_output=True,
    )
    assert sorted(os.listdir(folder)) == sorted(os.listdir(again))
    for name in os.listdir(folder):
        assert (folder / name).read_bytes() == (again / name).read_bytes(), name


def test_no_file_names_another_program(prepared):
    folder, _ = prepared
    others = re.compile(
        rb"reportlab|opensource|matplotlib|pillow|microsoft|excel|office theme|=\"xl\"", re.I
    )
    for name in os.listdir(folder):
        data = (folder / name).read_bytes()
        if name.endswith(".xlsx"):
            with zipfile.ZipFile(io.BytesIO(data)) as book:
                parts = {part: book.read(part) for part in book.namelist()}
            assert b"<Application>aimcalc</Application>" in parts["docProps/app.xml"]
            data = b"".join(parts.values())
        if name.endswith(".pdf"):
            meta = pypdfium2.PdfDocument(io.BytesIO(data)).get_metadata_dict()
            assert (meta["Creator"], meta["Producer"], meta["Author"]) == ("aimcalc", "aimcalc", "")
        assert others.findall(data) == [], name


def test_draft_is_across_every_page_of_every_pdf(rig, tmp_path):
    options = prep.options_for(rig, draft=True)
    prep.prepare(
        a_show(rig, findings(rig)), str(tmp_path / "out"), options, chosen("aim-sheets,cards,plan")
    )
    for name in ("aim-sheets.pdf", "cards.pdf", "pool-plan.pdf"):
        assert all("DRAFT" in t for t in pdf_reading.pages((tmp_path / "out" / name).read_bytes()))


@pytest.mark.parametrize(
    ("scene", "paper", "length"), [("studio", "a4", "m"), ("playhouse", "letter", "ft")]
)
def test_paper_and_length_follow_the_scenes_unit_unless_asked_otherwise(scene, paper, length):
    rig = rig_of(scene)
    options = prep.options_for(rig)
    assert (options.paper, options.length, options.draft) == (paper, length, False)
    other = prep.options_for(rig, paper="a4", length="m", draft=True)
    assert (other.paper, other.length, other.draft) == ("a4", "m", True)


def test_each_piece_is_told_before_it_is_begun(rig, tmp_path):
    told = []
    pieces = chosen("lists")
    prep.prepare(a_show(rig, []), str(tmp_path / "o"), prep.options_for(rig), pieces, told.append)
    assert told == pieces


def test_files_of_an_older_run_are_named_when_they_are_not_renewed(prepared, tmp_path):
    folder, pieces = prepared
    before, made = prep.sets_in(str(folder)), [each.piece for each in pieces]
    stamp = Stamp("K7MP4")
    (told,) = prep.left_alone(before, chosen("plan"), stamp)
    for name in ("pack-back-pipe.pdf", "cards.pdf", "aims.csv", "aims.xlsx", "aims.json"):
        assert name in told
    assert "pool-plan.pdf" not in told
    assert prep.left_alone(before, made, stamp) == []
    assert prep.sets_in(str(tmp_path / "none")) == {}


def test_what_a_run_replaces_and_leaves_is_told_by_set(rig, tmp_path):
    def run(names, **options):
        made = prep.options_for(rig, **options)
        before = prep.sets_in(str(tmp_path))
        prep.prepare(a_show(rig, []), str(tmp_path), made, chosen(names))
        told = prep.replaced(before, chosen(names), made.stamp)
        return made.stamp.mark, told, prep.left_alone(before, chosen(names), made.stamp)

    morning, noon = (datetime(2025, 11, 14, hour, 2, tzinfo=UTC) for hour in (9, 12))
    first, *told = run("lists,pan-dial", printed=morning)
    assert told == ["", []]
    again, *told = run("lists", printed=noon)
    assert again == first
    assert told[0].startswith(f"Printed again: replaces set {first} of 14 Nov, 09:02")
    assert told[1] == [f"Left as they were, of the same set {first} of 14 Nov, 09:02: pan-dial.pdf"]
    other, *told = run("lists", length="ft")
    assert other != first
    assert told[0] == f"Replaces set {first} of 14 Nov, 12:02."
    assert told[1] == [f"Left as they were, still of set {first} of 14 Nov, 09:02: pan-dial.pdf"]
    (tmp_path / "set.json").write_text("{")  # no record that can be read
    _, *told = run("lists")
    assert told[0] == "Replaces files of no known set."
    assert told[1] == ["Left as they were, perhaps of an older scene: pan-dial.pdf"]


def test_a_piece_that_fails_leaves_nothing_behind(rig, tmp_path):
    broken = Piece("broken", ("x.pdf",), "tests.sheets.test_prep:fails")
    with pytest.raises(OSError, match="disk is full"):
        prep.prepare(
            a_show(rig, []),
            str(tmp_path / "out"),
            prep.options_for(rig),
            [*chosen("lists"), broken],
        )
    assert list(tmp_path.iterdir()) == []


def fails(show, stream, options):
    """A maker that writes a little and then finds the disk full."""
    stream.write(b"half")
    raise OSError(28, "disk is full")


@pytest.mark.long
@pytest.mark.skipif(os.name != "posix", reason="needs a kill that cannot be caught")
@pytest.mark.parametrize("exists", [False, True])
def test_killed_at_any_moment_the_folder_holds_whole_files_or_none(tmp_path, exists):
    """Killed at moments spread over a run; what stands is one whole set, ours or the last.

    The runs print in metres and in feet by turns, so that each one's set has another mark.
    """
    folder, moments = tmp_path / "out", random.Random(4)
    if exists:
        folder.mkdir()
        (folder / "mine.txt").write_text("my own\n")
    call = [sys.executable, "-m", "aimcalc", "prep", STUDIO, "-o", folder, "--only", "plan,lists"]
    for k in range(cases(4, 8)):
        unit = ("m", "ft")[k % 2]
        line = [*call, "--length", unit]
        with subprocess.Popen(line, cwd=ROOT, stdout=subprocess.DEVNULL) as run:
            time.sleep(moments.uniform(0.15, 1.5))
            run.send_signal(signal.SIGKILL)
        mend(str(folder))
        present = sorted(os.listdir(folder)) if folder.exists() else []
        assert all(is_whole(folder / name) for name in present)
        if "aims.json" in present:
            mark = json.loads((folder / "aims.json").read_bytes())["set"]
            told = {of.set for of in prep.sets_in(str(folder)).values()}
            assert told == {mark}
            (page, *_) = pdf_reading.pages((folder / "pool-plan.pdf").read_bytes())
            assert f"set {mark}," in page
        if exists:
            assert (folder / "mine.txt").read_text() == "my own\n"
    subprocess.run(call, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    assert [p for p in tmp_path.iterdir() if HIDDEN in p.name] == []
    assert {"pool-plan.pdf", "pool-plan.png", "aims.csv"} <= set(os.listdir(folder))


@pytest.mark.skipif(os.name != "posix", reason="needs a signal of its own")
def test_interrupted_it_says_so_in_words_and_clears_up(tmp_path):
    call = [sys.executable, "-m", "aimcalc", "prep", STUDIO, "-o", tmp_path / "out"]
    with subprocess.Popen(call, cwd=ROOT, stderr=subprocess.PIPE, text=True) as run:
        while not any(HIDDEN in name for name in os.listdir(tmp_path)):
            time.sleep(0.005)
        run.send_signal(signal.SIGINT)
        said = run.stderr.read()
    assert run.returncode == 130
    assert "Traceback" not in said
    assert "Nothing was changed in" in said
    assert list(tmp_path.iterdir()) == []
