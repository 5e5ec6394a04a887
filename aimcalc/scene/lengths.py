"""Lengths as people write them, in metres.

`"18'-6 1/2\\""`, `"18 ft 6 in"`, `"222in"`, `"5.64 m"`, `"564cm"`, a bare number in the scene's own unit,
with a sign or, where the axis allows it, a stage word: `"6'-2\\" SR"`, `"3.2 m DS"`, `"centre"`.
"""

from __future__ import annotations

from functools import lru_cache

from aimcalc.scene.mistakes import Wrong

# Metres in one unit, as a fraction so that each value is rounded once.
# foot 0.3048 m and inch 25.4 mm exactly (international yard and pound agreement, 1959).
UNITS = {"m": (1, 1), "cm": (1, 100), "mm": (1, 1000), "ft": (3048, 10000), "in": (254, 10000)}
INCHES_IN_A_FOOT = 12

LONGEST = 1000.0  # metres; nothing on a stage is further away
LONGEST_TEXT = 40

# Axis -> (words of its plus direction, words of its minus direction)
AXES = {"x": ("SL", "SR"), "y": ("US", "DS"), "": ("", ""), "any": ("SL US", "SR DS")}
CENTRE = ("centre", "center", "centre line", "center line", "cl")

_SPELLINGS = {
    "cm": "cm",
    "mm": "mm",
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("in", "inch", "inches", '"', "''"), "in"),
}
_FEET = ("'", "ft", "feet", "foot")
_FIGURES = "0123456789"

# What people type for a mark -> that mark, set apart by spaces.
_MARKS = str.maketrans(
    {
        **dict.fromkeys("'′’‘ʹ´`", " ' "),
        **dict.fromkeys('"″”“ʺ„', ' " '),
        **dict.fromkeys("-−–—‐‑", " - "),
        **dict.fromkeys("/⁄", " / "),
        "+": " + ",
        "¼": " 1 / 4",
        "½": " 1 / 2",
        "¾": " 3 / 4",
        "⅛": " 1 / 8",
        "⅜": " 3 / 8",
        "⅝": " 5 / 8",
        "⅞": " 7 / 8",
        "⅓": " 1 / 3",
        "⅔": " 2 / 3",
    }
)


def parse_length(raw: object, unit: str = "m", axis: str = "", *, centre: bool = True) -> float:
    """Metres, from text with a unit or a bare number in `unit` (m, cm, mm, ft, in).

    Args:
        raw: what the user wrote: a str, int or float.
        unit: the unit of a bare number.
        axis: "x" allows SL and SR in place of a sign, "y" US and DS, "any" all four, "" none.
        centre: whether "centre" means 0 here (only with an axis).

    Raises:
        Wrong: when it is no length, not finite, over 1000 m, or its direction makes no sense.
    """
    if isinstance(raw, str):
        metres = _from_text(raw, unit, axis, centre)
    elif isinstance(raw, (int, float)) and not isinstance(raw, bool):
        metres = _bare(raw, unit)
    else:
        raise Wrong(_expected(unit, axis))
    if not -LONGEST <= metres <= LONGEST:  # also refuses NaN
        raise Wrong(f"a length of at most {LONGEST:.0f} m either way", "Check the unit.")
    return metres + 0.0  # no minus zero


def _bare(number: float, unit: str) -> float:
    if not -1e9 < number < 1e9:
        raise Wrong(f"a length of at most {LONGEST:.0f} m either way")
    above, below = UNITS[unit]
    return number * above / below


@lru_cache(4096)  # rows of a list say the same lengths again and again
def _from_text(raw: str, unit: str, axis: str, centre: bool) -> float:
    expected = _expected(unit, axis)
    if len(raw) > LONGEST_TEXT:
        raise Wrong(expected)
    if centre and axis and " ".join(raw.lower().split()) in CENTRE:
        return 0.0
    tokens = _tokens(raw)
    word = _take_word(tokens)
    sign = _word_sign(word, axis, expected) if word else 1.0
    if tokens and tokens[0] in ("-", "+"):
        mark = tokens.pop(0)
        if word:
            raise Wrong(f"a sign or {word}, not both", f"Leave out {mark!r} or {word}.")
        sign = -1.0 if mark == "-" else 1.0
    return sign * _size(tokens, unit, expected)


def _tokens(text: str) -> list[str]:
    """Numbers, words and marks, in lower case: `18'-6.5in` gives 18, ', -, 6.5, in."""
    tokens = []
    for piece in text.lower().replace("''", '"').translate(_MARKS).split():
        word = piece.lstrip(_FIGURES + ".,")
        number = piece[: len(piece) - len(word)]
        tokens += [part for part in (number, word.rstrip(".")) if part]
    return tokens


def _take_word(tokens: list[str]) -> str:
    """Take the stage word off either end of `tokens`; "" when there is none."""
    for end in (-1, 0):
        if tokens and tokens[end] in ("sl", "sr", "us", "ds"):
            return tokens.pop(end).upper()
    return ""


def _word_sign(word: str, axis: str, expected: str) -> float:
    plus, minus = AXES[axis]
    if word in plus.split():
        return 1.0
    if word in minus.split():
        return -1.0
    raise Wrong(expected, f"Leave out {word}: it does not go with this key.")


def _size(tokens: list[str], unit: str, expected: str) -> float:
    feet = next((i for i, token in enumerate(tokens) if token in _FEET), None)
    if feet is not None:
        inches = tokens[feet + 1 :]
        if inches and _SPELLINGS.get(inches[-1]) == "in":
            del inches[-1]
        if len(inches) > 1 and inches[0] == "-":
            del inches[0]
        return _feet_and_inches(tokens[:feet], inches, expected)
    if tokens and tokens[-1] in _SPELLINGS:
        unit = _SPELLINGS[tokens.pop()]
    return _bare(_amount(tokens, expected), unit)


def _feet_and_inches(feet: list[str], inches: list[str], expected: str) -> float:
    whole = _amount(feet, expected)
    if not inches:
        return _bare(whole, "ft")
    rest = _amount(inches, expected)
    if whole != int(whole):
        raise Wrong("whole feet where inches follow", "Write 18'-6\" or 18.5'.")
    if rest >= INCHES_IN_A_FOOT:
        raise Wrong("less than 12 inches where feet come before them")
    return _bare(whole * INCHES_IN_A_FOOT + rest, "in")


def _amount(tokens: list[str], expected: str) -> float:
    """A number, a fraction, or a whole number with a fraction."""
    if len(tokens) == 1 and tokens[0][0] in _FIGURES + ".,":
        return parse_number(tokens[0])
    if len(tokens) == 5 and tokens[1] == "-":  # 6-1/2
        del tokens[1]
    if not 3 <= len(tokens) <= 4 or tokens.pop(-2) != "/" or not all(map(_whole, tokens)):
        raise Wrong(expected)
    *before, above, below = map(int, tokens)
    if below == 0:
        raise Wrong("a fraction that is not divided by zero")
    return sum(before) + above / below


def _whole(token: str) -> bool:
    return token.isascii() and token.isdigit()


def parse_number(text: str) -> float:
    """A number from text; one comma may stand for the decimal point where it cannot mean thousands.

    Raises:
        Wrong: when it is no number, or `1,234` could be either.
    """
    if "," in text:
        whole, _, decimals = text.partition(",")
        if "," in decimals or "." in text:
            raise Wrong("a number with one decimal mark", "Write 1234.5 without other marks.")
        if len(decimals) == 3 and whole.strip("+-0"):
            raise Wrong(
                "a number that reads in one way only",
                f"Write {whole}.{decimals} or {whole}{decimals}.",
            )
        text = f"{whole}.{decimals}"
    try:
        return float(text)
    except ValueError:
        raise Wrong("a number") from None


def _expected(unit: str, axis: str) -> str:
    words = {"x": ", with SL or SR", "y": ", with US or DS", "any": "", "": ""}[axis]
    return f'a length such as "18\'-6 1/2\\"", "5.64 m" or a number of {unit}{words}'
