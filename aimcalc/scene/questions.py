"""Open questions of a scene: a value of "?" that somebody has still to find out."""

from __future__ import annotations

from aimcalc.scene.mistakes import QUESTION, Where, Wrong

MARK = "?"
FREE = (
    "system",
    "channel",
    "circuit",
    "colour",
    "note",
)  # where a question mark is a word as any other

QUESTIONS = {
    ("scene", "title"): "What is the show called?",
    ("scene", "unit"): "Which unit are bare numbers in: m, cm, mm, ft or in?",
    ("pipe", "trim"): "How high is the pipe's centre above the deck?",
    ("pipe", "y"): "How far US or DS of the plaster line is it?",
    ("pipe", "from"): "Where is its SR end, from the centre line?",
    ("pipe", "to"): "Where is its SL end, from the centre line?",
    ("boom", "x"): "How far SL or SR of the centre line does it stand?",
    ("boom", "y"): "How far US or DS of the plaster line does it stand?",
    ("boom", "height"): "How high is it?",
    ("stand", "x"): "How far SL or SR of the centre line does it stand?",
    ("stand", "y"): "How far US or DS of the plaster line does it stand?",
    ("target", "x"): "How far SL or SR of the centre line is it?",
    ("target", "y"): "How far US or DS of the plaster line is it?",
    ("kind", "family"): "Which family is it of: ers, fresnel, pc, par, flood or cyc?",
    (
        "kind",
        "field",
    ): "What is its field angle, the full angle to a tenth of the middle, in degrees?",
}


def is_open(key: str, value: object) -> bool:
    """Whether the value of a key is a question that nobody has answered yet."""
    return key not in FREE and isinstance(value, str) and value.strip() == MARK


def question(where: Where, key: str) -> Wrong:
    """What is asked at a key whose value is a question mark."""
    asked = QUESTIONS.get((where.table.strip("[]"), key), f"What is {key}?")
    return Wrong(f"an answer: {asked}", 'Write it in place of "?".', rank=QUESTION)
