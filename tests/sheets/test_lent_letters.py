"""Sheets with letters that another typeface lends: on every page, measured, drawn in PDF and PNG alike."""

from __future__ import annotations

import io
from pathlib import Path

import msgspec
import numpy as np
import pytest
from PIL import Image

from aimcalc.paper.drawing import PT, Drawing, Words
from aimcalc.paper.drawpdf import write_pdf
from aimcalc.paper.drawpng import write_png
from aimcalc.paper.page import PAPERS
from aimcalc.rig.letters import lending
from aimcalc.rig.typeface import lent_to
from aimcalc.sheets.pieces import PIECES
from aimcalc.sheets.prep import options_for, prepare
from aimcalc.show import Show
from aimcalc.solid.rig import solve_rig
from aimcalc.text import typeset
from tests.findings.clean import CLEAN, changed, with_settings
from tests.sheets import pdf_reading
from tests.typefaces import typeface

NAMES = {"front": "观众席上方的长管子", "back": "后管", "boom": "柱子"}
LETTERS = "".join(NAMES.values()) + "三把椅子校青正面冷光舞台"


@pytest.fixture
def lender(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = typeface(tmp_path / "lender.ttf", LETTERS, top=800, foot=-120)
    monkeypatch.setattr("aimcalc.rig.typeface.found_here", lambda: (str(path),))
    return path


def chinese(scene=CLEAN):  # type: ignore[no-untyped-def]
    """The clean rig with its positions, a system, units, the title and the revision in Chinese."""
    renamed = {
        sort: tuple(
            msgspec.structs.replace(one, name=NAMES[one.name]) for one in getattr(scene, sort)
        )
        for sort in ("pipes", "booms")
    }
    units = tuple(
        msgspec.structs.replace(
            unit,
            position=NAMES[unit.position],
            number=f"{unit.number}台",
            colour="青",
            system="正面冷光" if unit.system == "cool" else unit.system,
        )
        for unit in scene.units
    )
    return with_settings(changed(scene, units=units, **renamed), title="三把椅子", revision="校4")


def test_every_sheet_has_the_letters_and_nothing_overlaps(tmp_path: Path, lender: Path) -> None:
    typeface(lender, LETTERS, top=880, foot=-120)  # as Chinese typefaces are
    show = Show(chinese())
    assert "letters-not-printed" not in {found.rule for found in show.findings}
    packs = prepare(show, str(tmp_path / "packs"), options_for(show.rig))
    prepare(show, str(tmp_path / "set"), options_for(show.rig), PIECES)
    assert sum("柱子" in file for made in packs for file in made.piece.files) == 1
    files = [file for piece in PIECES for file in piece.files]
    for file in (file for file in files if file.endswith(".pdf")):
        data = (tmp_path / "set" / file).read_bytes()
        said = "\n".join(pdf_reading.pages(data))
        assert "三把椅子" in said, file
        assert "校4" in said, file
        assert not set("[]") & set(said), file
        for page in pdf_reading.runs(data):
            assert pdf_reading.overlaps(page) == [], file
        for size, page in zip(pdf_reading.sizes(data), pdf_reading.runs(data), strict=True):
            assert pdf_reading.outside(page, size) == [], file
    for file in ("aim-sheets.pdf", "cards.pdf", "hang-sheets.pdf", "hang-strip.pdf"):
        said = "".join("".join(pdf_reading.pages((tmp_path / "set" / file).read_bytes())).split())
        assert all(name in said for name in NAMES.values()), file
        assert "台" in said, file
    for file in (file for file in files if file.endswith(".png")):
        with Image.open(tmp_path / "set" / file) as picture:
            assert np.asarray(picture).min() == 0
    assert "三把椅子" in (tmp_path / "set" / "aims.json").read_text(encoding="utf-8")
    assert "观众席上方的长管子" in (tmp_path / "set" / "aims.csv").read_text(encoding="utf-8-sig")


def test_the_width_of_a_mixed_line_counts_both_typefaces(lender: Path) -> None:
    """Every lent letter is 0.9 of the type size wide; pdfium measures what is drawn."""
    plain = typeset.text_width("LX 1 ", typeset.REGULAR, 20)
    with lending(lent_to(chinese())):
        assert typeset.text_width("LX 1 三台", typeset.REGULAR, 20) == pytest.approx(plain + 36)
        assert typeset.fit("三台", typeset.BOLD, 20, 28.8).squeeze == pytest.approx(0.8)
        assert typeset.wrap("三台三台", typeset.BOLD, 20, 36.1) == ["三台", "三台"]
    assert typeset.text_width("LX 1 舞台", typeset.REGULAR, 20) > plain + 60, "spelled by numbers"


@pytest.mark.parametrize("bold", [False, True])
def test_pdf_and_png_draw_a_letter_in_the_same_place(lender: Path, bold: bool) -> None:
    """The box of the test's typeface: 0.05 to 0.81 across, 0.12 deep and 0.80 high, of 72 pt."""
    drawing = Drawing(100, 60)
    drawing.words.append(Words(20, 20, "台A", 72, bold))
    pdf, png = io.BytesIO(), io.BytesIO()
    with lending(lent_to(chinese())):
        write_pdf(pdf, [drawing], "t")
        write_png(png, [drawing], dpi=254)
    letter = next(run for run in pdf_reading.runs(pdf.getvalue())[0] if run.words == "台")
    left, foot = 20 / PT, 20 / PT
    assert letter.left == pytest.approx(left + 0.05 * 72, abs=2.0)
    assert letter.bottom == pytest.approx(foot - 0.12 * 72, abs=2.0)
    assert letter.top == pytest.approx(foot + 0.80 * 72, abs=2.0)
    ink = np.asarray(Image.open(io.BytesIO(png.getvalue()))) < 128  # 10 dots to the mm
    drawn = ink[:, : int(10 * (20 + 0.85 * 72 * PT))]
    rows, columns = np.flatnonzero(drawn.any(axis=1)), np.flatnonzero(drawn.any(axis=0))
    assert columns[0] / 10 == pytest.approx(20 + 0.05 * 72 * PT, abs=0.7)
    assert 60 - rows[-1] / 10 == pytest.approx(20 - 0.12 * 72 * PT, abs=0.3)
    assert 60 - rows[0] / 10 == pytest.approx(20 + 0.80 * 72 * PT, abs=0.3)
    share = drawn[rows[0] : rows[-1], columns[0] : columns[-1]].mean()
    assert share > 0.6, "a box, filled"


def test_white_words_in_a_black_box_are_white_in_both_typefaces(
    tmp_path: Path, lender: Path
) -> None:
    """The START END box: its white row of a Chinese number, and the lines drawn after it black."""
    import pypdfium2

    from aimcalc.paper.page import Page, write_pages
    from aimcalc.text.stamp import PaperOptions

    def draw(sheet) -> None:  # type: ignore[no-untyped-def]
        sheet.box(sheet.body._replace(bottom=sheet.body.top - 200), black=True)
        sheet.text(100, 700, "台", 100, bold=True, white=True)
        sheet.line(50, 300, 500, 300, weight=4)

    stream = io.BytesIO()
    with lending(lent_to(chinese())):
        write_pages(stream, [Page(draw, "t")], PaperOptions(), title="t")
    page = pypdfium2.PdfDocument(io.BytesIO(stream.getvalue()))[0]
    grey = np.asarray(page.render(scale=1, grayscale=True).to_pil())
    height = round(PAPERS["a4"][1])
    assert grey[height - 730, 120] > 250
    assert grey[height - 800 : height - 790, 103:108].max() < 5, "the box over the letter"
    assert grey[height - 300, 200] < 5


def test_the_same_letters_give_the_same_bytes_and_others_another_mark(
    tmp_path: Path, lender: Path
) -> None:
    made = []
    for folder in ("one", "two"):
        show = Show(chinese())
        options = options_for(show.rig)
        prepare(show, str(tmp_path / folder), options, PIECES[:2])
        made.append((options.stamp.mark, (tmp_path / folder / "aim-sheets.pdf").read_bytes()))
    assert made[0] == made[1]
    typeface(lender, LETTERS, top=700)
    assert options_for(solve_rig(chinese())).stamp.mark != made[0][0]


def test_a_scene_of_plain_letters_borrows_none(lender: Path) -> None:
    assert solve_rig(CLEAN).lent.letters == {}
