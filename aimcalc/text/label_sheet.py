"""A sheet of labels by its measures: how many, how large, where they begin, what lies between.

`"3x8 63.5x33.9 mm"`; with `", margins 7.2x12.9"` (from the paper's side and top) where they do not lie in the
middle of the paper, and `", gaps 2.5x0"` where they do not touch.
"""

from __future__ import annotations

import re

import msgspec

from aimcalc.named import regex

MILLIMETRES = {"mm": 1.0, "cm": 10.0, "in": 25.4}
NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
PAIR = rf"({NUMBER})\s*[x×]\s*({NUMBER})"
FORM = regex(
    rf"\s*(\d+)\s*[x×]\s*(\d+)\s+{PAIR}\s*(mm|cm|in)"
    rf"(?:\s*,\s*margins?\s+{PAIR})?(?:\s*,\s*gaps?\s+{PAIR})?\s*",
    re.IGNORECASE,
)
EXAMPLE = (
    '"3x8 63.5x33.9 mm" (across x down, width x height), then ", margins 7x13" and ", gaps 2.5x0"'
)
LEAST = (45.0, 24.0)  # mm: what is printed on a smaller label nobody reads in the dark
MOST = 40  # labels one way


class LabelSheetError(ValueError):
    """A text that is no label sheet; the message says what was expected and what came."""


class LabelSheet(msgspec.Struct, frozen=True):
    """Columns and rows of labels, in millimetres.

    `margins` are from the paper's side and top; None where the labels lie in the middle. `typed` where the
    user says what the labels measure: then nothing is drawn to cut along.
    """

    columns: int
    rows: int
    width: float
    height: float
    gaps: tuple[float, float] = (0.0, 0.0)
    margins: tuple[float, float] | None = None
    typed: bool = True

    def begins(self, paper: tuple[float, float]) -> tuple[float, float]:
        """How far the first label is from the side and the top of a paper (width and height in mm)."""
        if self.margins is not None:
            return self.margins
        wide, tall = self.taken
        return (paper[0] - wide) / 2, (paper[1] - tall) / 2

    @property
    def taken(self) -> tuple[float, float]:
        """Width and height of all labels with their gaps."""
        wide = self.columns * self.width + (self.columns - 1) * self.gaps[0]
        return wide, self.rows * self.height + (self.rows - 1) * self.gaps[1]


# Sizes that are widely sold for either paper (common practice, no source).
USUAL = {
    "a4": LabelSheet(3, 8, 63.5, 33.9, gaps=(2.5, 0.0), typed=False),
    "letter": LabelSheet(3, 10, 66.675, 25.4, gaps=(3.175, 0.0), typed=False),
}


def label_sheet(text: str, paper: tuple[float, float]) -> LabelSheet:
    """The sheet that a text describes, on a paper of this width and height in mm.

    Raises:
        LabelSheetError: for a text of another form, labels too small to read, and labels that do not fit.
    """
    found = FORM.fullmatch(text)
    if found is None:
        raise LabelSheetError(
            f'expected the measures of a label sheet such as {EXAMPLE}, came "{text}".'
        )
    columns, rows = int(found[1]), int(found[2])
    unit = found[5].lower()
    pairs = [
        None if found[k] is None else (_number(found[k], unit), _number(found[k + 1], unit))
        for k in (3, 6, 8)
    ]
    size = pairs[0] or (0.0, 0.0)
    if not (0 < columns <= MOST and 0 < rows <= MOST):
        raise LabelSheetError(
            f"expected 1 to {MOST} labels across and down, came {columns} x {rows}."
        )
    if size[0] < LEAST[0] or size[1] < LEAST[1]:
        raise LabelSheetError(
            f"expected labels of at least {LEAST[0]:g} x {LEAST[1]:g} mm, came {size[0]:g} x {size[1]:g} mm: "
            "nobody reads a smaller one in the dark."
        )
    sheet = LabelSheet(columns, rows, *size, gaps=pairs[2] or (0.0, 0.0), margins=pairs[1])
    _refuse_outside(sheet, paper)
    return sheet


def _refuse_outside(sheet: LabelSheet, paper: tuple[float, float]) -> None:
    for name, begin, taken, room in zip(
        ("across", "down"), sheet.begins(paper), sheet.taken, paper, strict=True
    ):
        if begin < -1e-9 or begin + taken > room + 1e-9:
            margin = f" and a margin of {begin:g} mm" if sheet.margins is not None else ""
            raise LabelSheetError(
                f"expected labels that fit on the paper, which is {room:.1f} mm {name}; came {taken:g} mm of "
                f"labels{margin}. Measure one label, the gaps and the margin again, or name another paper "
                "with --paper."
            )


def _number(text: str, unit: str) -> float:
    """Millimetres of "63.5", "5/8" or "2 5/8" in a unit."""
    whole, _, part = text.strip().rpartition(" ")
    value = float(whole) if whole else 0.0
    over, bar, under = part.partition("/")
    if bar and float(under) == 0.0:
        raise LabelSheetError(f'expected a fraction such as 5/8, came "{text}".')
    value += float(over) / float(under) if bar else float(part)
    return value * MILLIMETRES[unit]
