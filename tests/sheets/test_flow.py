"""Running text in columns."""

from __future__ import annotations

from aimcalc.sheets.aim_cover import HEADING, TYPE, Paragraph, columns, set_lines

LONG = "Only people trained and authorised for this very ladder go up with a second person. " * 3


def said(lines):
    return " ".join(f"{line.lead} {line.words}" for line in lines).split()


def test_every_word_is_set_once_and_in_order():
    blocks = set_lines([Paragraph("Height.", LONG), Paragraph("Last", "words")], 200)
    assert said(line for block in blocks for line in block) == [
        "Height.",
        *LONG.split(),
        "Last",
        "words",
    ]


def test_a_heading_stays_with_the_paragraph_after_it():
    blocks = set_lines([Paragraph("Heading", "", True), Paragraph("a", "b")], 200)
    assert len(blocks) == 1
    assert [line.size for line in blocks[0]] == [HEADING, TYPE]


def test_a_last_heading_is_not_lost():
    assert said(set_lines([Paragraph("Heading", "", True)], 200)[0]) == ["Heading"]


def test_a_long_lead_takes_lines_of_its_own():
    (block,) = set_lines([Paragraph("a lead longer than half of the line it is on", "text")], 200)
    assert [(line.lead != "", line.words) for line in block][-1] == (False, "text")


def test_columns_are_never_taller_than_allowed_and_lose_nothing():
    blocks = set_lines([Paragraph(f"{k}.", LONG) for k in range(9)], 200)
    cut = columns(blocks, 150)
    assert max(sum(line.height for line in column) for column in cut) <= 150
    assert said(line for column in cut for line in column) == said(
        line for block in blocks for line in block
    )
    assert len(cut) > 1


def test_a_paragraph_is_not_torn_unless_it_is_taller_than_a_column():
    blocks = set_lines([Paragraph("", LONG), Paragraph("", LONG)], 200)
    tall = sum(line.height for line in blocks[0])
    cut = columns(blocks, tall * 1.5)
    assert [len(column) for column in cut] == [len(blocks[0]), len(blocks[1])]
    torn = columns(blocks[:1], tall / 2)
    assert len(torn) > 1
