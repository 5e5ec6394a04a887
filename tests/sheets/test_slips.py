"""Change slips, made of changed copies of the worked scenes and read back."""

from __future__ import annotations

import io
import re
from functools import cache
from pathlib import Path

import pypdfium2
import pytest

from aimcalc.landings.changes import Changes, Row
from aimcalc.sheets.slips import change_slips
from aimcalc.sheets.stale import stale, stale_words
from aimcalc.show import Show
from aimcalc.text.changes.compare import compared
from aimcalc.text.changes.compared import Compared
from aimcalc.text.stamp import PaperOptions, Stamp
from tests.sheets import pdf_reading

SCENES = Path(__file__).parents[2] / "scenes"
ASKED = {
    "studio": (
        "scene.revision=B",
        "front pipe.trim=2.9 m",
        "front pipe/2.at=1.6 m SL",
        "front pipe/3.channel=99",
        "front pipe/3.colour=L201",
        "front pipe/4.number=9",
        "boom SL.x=2.2 m SL",
        "back pipe/1.target=chair centre",
    ),
    "playhouse": (
        "scene.revision=E",
        "scene.face_height=4 ft",
        "pipe 1.trim=17'",
        "pipe 2/3.channel=777",
    ),
}


@cache
def made(scene: str, paper: str, length: str) -> tuple[Compared, bytes]:
    old, new = Show.read(SCENES / scene, length), Show.read(SCENES / scene, length, ASKED[scene])
    found = compared(old, new, light=False)
    options = PaperOptions(paper=paper, length=length, stamp=Stamp("K7MP4"))
    stream = io.BytesIO()
    count = change_slips(new, stream, options, found)
    assert count == len(pdf_reading.sizes(stream.getvalue()))
    return found, stream.getvalue()


CHOICES = [("studio", "a4", "m"), ("studio", "letter", "ft"), ("playhouse", "letter", "ft")]


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_nothing_overlaps_runs_out_or_is_told_by_a_minus_sign(scene, paper, length):
    _, data = made(scene, paper, length)
    texts = pdf_reading.pages(data)
    assert len(texts) >= 2
    for said, text, size in zip(
        pdf_reading.runs(data), texts, pdf_reading.sizes(data), strict=True
    ):
        assert not pdf_reading.overlaps(said)
        assert not pdf_reading.outside(said, size)
        assert not pdf_reading.minus_signs(text)
        assert not pdf_reading.bare_sides(text)


@pytest.mark.parametrize(("scene", "paper", "length"), CHOICES)
def test_every_row_to_print_again_is_on_the_slips_and_no_other(scene, paper, length):
    found, data = made(scene, paper, length)
    cover, *slips = [" ".join(page.split()) for page in pdf_reading.pages(data)]
    holders = re.findall(r"(LADDER|DECK|PROGRAMMER): (.*?)(?= [A-Z]{4,}:| What changed)", cover)
    assert len(holders) == 3
    for holder, told in holders:
        places = dict(place.split(": ") for place in told.split("; ") if place != "nobody")
        given = {f"{name}/{n}" for name, ns in places.items() for n in ns.split(", ")}
        assert given == {r.unit for r in found.changes.rows if holder.lower() in r.who}
    positions = {row.position for row in found.changes.rows if set(row.touch) - {"desk"}}
    assert positions == {n for n in found.positions if any(f"{n} CHANGE SLIP" in s for s in slips)}
    rows = {row.unit for row in found.changes.rows}
    assert rows != set(found.sides[1].units)


def test_old_and_new_figures_stand_together_under_both_revisions():
    _, data = made("studio", "a4", "m")
    page = next(p for p in pdf_reading.pages(data) if "front pipe CHANGE SLIP" in p)
    # 1.10 m and 1.60 m are as typed; DOWN by hand: atan((2.9 - 0.36 - 1.2) / hypot(1.6, 2.0)) = 27.6
    for words in ("1.10 m SL", "1.60 m SL", "DOWN 40°", "DOWN 28°", "9 NEW", "GONE", "K7MP4"):
        assert words in page
    assert "revision A to revision B" in page
    assert "COLOUR" in page
    assert "it was warm 1, now L201." in page
    back = next(p for p in pdf_reading.pages(data) if "back pipe CHANGE SLIP" in p)
    assert "chair SL" in back
    assert "chair centre" in back
    assert "front" not in back.replace("front of", "")


def test_what_is_old_is_struck_through_and_what_is_new_is_bold():
    _, data = made("studio", "a4", "m")
    page = next(
        p
        for p in pypdfium2.PdfDocument(data)
        if "front pipe CHANGE" in p.get_textpage().get_text_bounded()
    )
    image = page.render(scale=4).to_numpy()[:, :, 0]
    text = page.get_textpage()
    height = page.get_height()

    def dark(words: str) -> bool:
        """Whether a dark line runs through the middle of these words, all along them."""
        found = text.search(words).get_next()
        assert found is not None, words
        boxes = [text.get_charbox(k) for k in range(found[0], found[0] + found[1])]
        left, right = min(b[0] for b in boxes), max(b[2] for b in boxes)
        low, high = min(b[1] for b in boxes), max(b[3] for b in boxes)
        rows = image[
            round(4 * (height - high)) : round(4 * (height - low)),
            round(4 * left) : round(4 * right),
        ]
        return bool(((rows < 128).mean(axis=1) > 0.98).any())

    assert dark("1.10 m SL")
    assert dark("DOWN 40°")
    assert not dark("1.60 m SL")
    assert not dark("DOWN 28°")


def test_the_cover_says_who_is_given_what_and_which_older_sheets_serve_no_more():
    _, data = made("studio", "a4", "m")
    cover = " ".join(pdf_reading.pages(data)[0].split())
    assert "PROGRAMMER: front pipe: 3, 9, 4; back pipe: 1" in cover
    assert "front pipe, trim: 3.50 m to 2.90 m" in cover
    assert "Still good of revision A: pan-dial.pdf, plumb-card.pdf, steps-card.pdf." in cover


def test_the_programmer_s_slip_has_what_the_desk_is_patched_by():
    _, data = made("studio", "a4", "m")
    page = " ".join(pdf_reading.pages(data)[-1].split())
    assert "for the programmer" in page
    for words in ("front pipe/3 1 99", "warm 1 L201", "front pipe/9 NEW", "front pipe/4 GONE"):
        assert words in page


def test_a_sheet_is_out_of_date_where_its_own_rows_are():
    rows = (Row("a/1", "a", (), ("desk",)), Row("b/1", "b", (), ("aim",)))
    told = stale(Changes((), rows, 2))
    assert told["aim-sheets"] == "b"
    assert told["hang-sheets"] == ""
    assert told["test-sheet"] == "all of it"
    assert told["plumb-card"] == ""
    words = stale_words(Changes((), rows, 2), ["aim-sheets.pdf", "hang-sheets.pdf"], "of set K7MP4")
    assert words == [
        "Out of date of set K7MP4, in part: aim-sheets.pdf (b).",
        "Still good of set K7MP4: hang-sheets.pdf.",
    ]


def test_feet_are_told_in_feet():
    _, data = made("studio", "letter", "ft")
    page = next(p for p in pdf_reading.pages(data) if "front pipe CHANGE SLIP" in p)
    # 1.10 m is 43.31 in and 1.60 m 62.99 in, to the nearest quarter
    assert "3'-7 1/4\" SL" in page
    assert "5'-3\" SL" in page
    assert " m SL" not in page
