"""Why a unit's numbers are what they are, for a terminal."""

from __future__ import annotations

from aimcalc.teach.explain import Explained
from aimcalc.text.columns import folded, table

KEYING = (
    "Key each line, write down what it shows, and go on with its letter. Degrees, not radians; × and ÷ before "
    "+ and less; less is the key that takes away, inv tan the one from a slope back to its angle."
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
        heads = ("what is out", "usually by", "moves the light")
        blocks.append(_table(f"{CHANGES} (by {told.basis})", heads, told.changes, width))
    return folded("\n\n".join("\n".join(block) for block in blocks), width)


def result(step: object) -> str:
    """What a step comes to on the sheet, with its rounding: "23°, to the nearest degree"."""
    prints, rounding = getattr(step, "prints", ""), getattr(step, "rounding", "")
    return f"{prints}, {rounding}" if prints else ""


def _table(title: str, heads: tuple[str, ...], rows: object, width: int | None) -> list[str]:
    lines = table(heads, [tuple(row) for row in rows], width)  # type: ignore[attr-defined]
    return [title, *(line for line in lines if line.strip())]
