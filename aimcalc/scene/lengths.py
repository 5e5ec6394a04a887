"""Lengths as people write them, in metres.

`"18'-6 1/2\\""`, `"18 ft 6 in"`, `"222in"`, `"5.64 m"`, `"564cm"`, a bare number in the scene's own unit,
with a sign or, where the axis allows it, a stage word: `"6'-2\\" SR"`, `"3.2 m DS"`, `"centre"`.
"""

from __future__ import annotations

import re

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
_FRACTIONS = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
_MARKS = str.maketrans(
    {
        **dict.fromkeys("′’‘ʹ´`", "'"),
        **dict.fromkeys("″”“ʺ„", '"'),
        **dict.fromkeys("−–—‐‑", "-"),
        **dict.fromkeys("\u00a0\u2009\u202f", " "),
        **{sign: f" {fraction}" for sign, fraction in _FRACTIONS.items()},
        "⁄": "/",
    }
)

_NUMBER = r"(?:\d[\d.,]*(?:e[-+]?\d+)?|[.,]\d+)"
_AMOUNT = rf"(?:(\d+)/(\d+)|({_NUMBER})(?:[ -]+(\d+)/(\d+))?)"
_LENGTH = re.compile(
    rf"(?:{_AMOUNT} ?(?:feet|foot|ft\.?|')(?!')[ -]*)?"
    rf"(?:{_AMOUNT} ?(m|metres?|meters?|cm|mm|inch|inches|in\.?|\"|'')?)?"
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
    return metres


def _bare(number: float, unit: str) -> float:
    if not -1e9 < number < 1e9:
        raise Wrong(f"a length of at most {LONGEST:.0f} m either way")
    above, below = UNITS[unit]
    return number * above / below


def _from_text(raw: str, unit: str, axis: str, centre: bool) -> float:
    text = " ".join(raw[: LONGEST_TEXT + 1].translate(_MARKS).split())
    if not text or len(text) > LONGEST_TEXT:
        raise Wrong(_expected(unit, axis))
    if centre and axis and text.lower() in CENTRE:
        return 0.0
    text, word = _take_word(text)
    sign = _word_sign(word, axis, unit) if word else 1.0
    if text[:1] in ("-", "+"):
        if word:
            raise Wrong(f"a sign or {word}, not both", f"Leave out {text[0]!r} or {word}.")
        sign = -1.0 if text[0] == "-" else 1.0
        text = text[1:].lstrip()
    return sign * _size(text.lower(), unit, axis)


def _take_word(text: str) -> tuple[str, str]:
    """The text without its stage word, and the word (or "")."""
    words = ("SL", "SR", "US", "DS")
    if text[-2:].upper() in words and not text[-3:-2].isalpha():
        return text[:-2].rstrip(), text[-2:].upper()
    if text[:2].upper() in words and not text[2:3].isalpha():
        return text[2:].lstrip(), text[:2].upper()
    return text, ""


def _word_sign(word: str, axis: str, unit: str) -> float:
    plus, minus = AXES[axis]
    if word in plus.split():
        return 1.0
    if word in minus.split():
        return -1.0
    raise Wrong(_expected(unit, axis), f"{word} says nothing along this direction.")


def _size(text: str, unit: str, axis: str) -> float:
    found = _LENGTH.fullmatch(text)
    if not text or not found:
        raise Wrong(_expected(unit, axis))
    feet = _amount(found.group(1, 2, 3, 4, 5))
    rest = _amount(found.group(6, 7, 8, 9, 10))
    name = _SPELLINGS.get((found[11] or "").rstrip("."), "")
    if feet is None:
        return _bare(rest or 0.0, name or unit)
    if name not in ("", "in"):
        raise Wrong("feet and inches, or one unit", "Do not mix feet with metric lengths.")
    return _feet_and_inches(feet, rest)


def _feet_and_inches(feet: float, inches: float | None) -> float:
    if inches is None:
        return _bare(feet, "ft")
    if feet != int(feet):
        raise Wrong("whole feet where inches follow", "Write 18'-6\" or 18.5'.")
    if inches >= INCHES_IN_A_FOOT:
        raise Wrong("less than 12 inches where feet come before them")
    return _bare(feet * INCHES_IN_A_FOOT + inches, "in")


def _amount(parts: tuple[str | None, ...]) -> float | None:
    """A number, a fraction, or a whole number with a fraction; None when nothing was written."""
    above, below, number, extra_above, extra_below = parts
    if above and below:
        return _fraction(above, below)
    if number is None:
        return None
    value = parse_number(number)
    if extra_above is None or extra_below is None:
        return value
    if value != int(value):
        raise Wrong("a whole number in front of a fraction")
    return value + _fraction(extra_above, extra_below)


def _fraction(above: str, below: str) -> float:
    if int(below) == 0:
        raise Wrong("a fraction that is not divided by zero")
    return int(above) / int(below)


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
