"""Why a unit's numbers are what they are, for a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from aimcalc.teach.calculator import Step
from aimcalc.teach.explain import Explained
from aimcalc.text.columns import folded, table

KEYING = (
    "Key each line, write down what it shows, and go on with its letter. Degrees, not radians; × and ÷ "
    "before + and less; less is the key that takes away, inv tan the one from a slope back to its angle."
)
CHANGES = "WHAT WOULD CHANGE IT MOST"
HEADS = "what is out", "usually by", "moves the light"


def explain_text(told: Explained, width: int | None = None) -> str:
    """Everything of one unit, section by section, no wider than the terminal."""
    blocks = [[told.heading, *told.findings]]
    blocks.append(_table("WHERE EACH NUMBER COMES FROM", ("", "", ""), told.figures, width))
    blocks.append(["IN WORDS", *(f"  {line}" for line in told.formula)])
    if told.steps:
        rows = [(s.letter, s.what, f"{s.keys} = {s.shows}", result(s)) for s in told.steps]
        lines = _table("BY POCKET CALCULATOR", ("", "", "", ""), rows, width)
        blocks.append([lines[0], f"  {KEYING}", *lines[1:]])
    blocks.append(["THE CHOICE", *(f"  {line}" for line in told.choice)])
    if told.changes:
        blocks.append(_table(f"{CHANGES} (by {told.basis})", HEADS, told.changes, width))
    return folded("\n\n".join("\n".join(block) for block in blocks), width)


def result(step: Step) -> str:
    """What a step comes to on the sheet, with its rounding: "23°, to the nearest degree"."""
    return f"{step.prints}, {step.rounding}" if step.prints else ""


def _table(
    title: str, heads: Sequence[str], rows: Sequence[Sequence[str]], width: int | None
) -> list[str]:
    return [title, *filter(str.strip, table(heads, rows, width))]
