"""Label sheets by their measures: what is read, what is refused and how."""

from __future__ import annotations

import pytest

from aimcalc.text.label_sheet import USUAL, LabelSheetError, label_sheet

A4 = (210.0, 297.0)
LETTER = (215.9, 279.4)


@pytest.mark.parametrize(
    ("text", "paper", "columns", "rows", "width", "height"),
    [
        ("3x8 63.5x33.9 mm", A4, 3, 8, 63.5, 33.9),
        ("2 x 7  9.91 x 3.81 cm", A4, 2, 7, 99.1, 38.1),
        ("3x10 2 5/8x1 in", LETTER, 3, 10, 66.675, 25.4),  # 2.625 in = 66.675 mm
        ("3×8 63.5×33.9MM", A4, 3, 8, 63.5, 33.9),
        ("1x1 100x50 mm", A4, 1, 1, 100.0, 50.0),
    ],
)
def test_measures_are_read_in_their_unit(text, paper, columns, rows, width, height):
    sheet = label_sheet(text, paper)
    assert (sheet.columns, sheet.rows) == (columns, rows)
    assert (sheet.width, sheet.height) == pytest.approx((width, height))
    assert sheet.gaps == (0.0, 0.0)
    assert sheet.margins is None
    assert sheet.typed


def test_without_margins_the_labels_lie_in_the_middle_of_the_paper():
    # 210 - 3 x 63.5 = 19.5, half of it 9.75; 297 - 8 x 33.9 = 25.8, half of it 12.9.
    assert label_sheet("3x8 63.5x33.9 mm", A4).begins(A4) == pytest.approx((9.75, 12.9))
    # With gaps of 2.5 mm across: 210 - 190.5 - 5 = 14.5, half of it 7.25.
    gapped = label_sheet("3x8 63.5x33.9 mm, gaps 2.5x0", A4)
    assert gapped.begins(A4) == pytest.approx((7.25, 12.9))


def test_margins_and_gaps_are_from_the_side_and_the_top():
    sheet = label_sheet("2x7 99.1x38.1 mm, margins 4.65x15.15, gaps 2.5x0", A4)
    assert sheet.begins(A4) == pytest.approx((4.65, 15.15))
    assert sheet.taken == pytest.approx((200.7, 266.7))  # 2 x 99.1 + 2.5; 7 x 38.1


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_usual_sheet_fits_its_paper(paper):
    size = {"a4": A4, "letter": LETTER}[paper]
    assert min(USUAL[paper].begins(size)) > 4.0
    assert not USUAL[paper].typed


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", 'such as "3x8 63.5x33.9 mm"'),
        ("3x8", 'came "3x8"'),
        ("63.5x33.9 mm", "expected the measures"),
        ("3x8 63.5x33.9", "expected the measures"),  # no unit
        ("3x8 63.5x33.9 mm gaps 2x0", "expected the measures"),
        ("3x8 -63.5x33.9 mm", "expected the measures"),
        ("0x8 63.5x33.9 mm", "expected 1 to 40 labels across and down, came 0 x 8"),
        ("3x8 20x10 mm", "at least 45 x 24 mm, came 20 x 10 mm"),
        ("4x8 63.5x33.9 mm", "210.0 mm across; came 254 mm of labels"),
        ("3x9 63.5x33.9 mm", "297.0 mm down; came 305.1 mm of labels"),
        ("3x8 63.5x33.9 mm, margins 30x5", "came 190.5 mm of labels and a margin of 30 mm"),
        ("3x8 5/0x33.9 mm", "expected a fraction such as 5/8"),
    ],
)
def test_what_is_no_label_sheet_is_refused_with_what_was_expected(text, says):
    with pytest.raises(LabelSheetError) as refused:
        label_sheet(text, A4)
    assert says in str(refused.value)
