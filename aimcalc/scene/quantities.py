"""Weights, loads, angles and slopes as people write them, in SI (angles in degrees).

Each function takes what was written and gives back a number, or raises `Wrong`.
"""

from __future__ import annotations

from aimcalc.named import NamedTuple
from aimcalc.scene.lengths import LONGEST_TEXT, parse_number
from aimcalc.scene.mistakes import Wrong

POUND = 0.45359237  # kg, exactly (international yard and pound agreement, 1959)
FOOT = 0.3048  # m, exactly

_WEIGHTS = {"kg": 1.0, "g": 0.001, "lb": POUND, "lbs": POUND}
_LINE_WEIGHTS = {"kg/m": 1.0, "lb/ft": POUND / FOOT, "lbs/ft": POUND / FOOT}
_HEADINGS = {"US": 0.0, "SL": 90.0, "DS": 180.0, "SR": 270.0}
_TURNS = {"ACROSS": 0.0, "UP AND DOWN": 90.0}
_WATTS = {"W": 1.0, "w": 1.0, "kW": 1000.0, "kw": 1000.0}
_DEGREES = ("", "°", "deg", "degree", "degrees")


class Limit(NamedTuple):
    """The posted limit of a circuit, in the unit it was typed in."""

    amps: float | None
    watts: float | None


def number(raw: object) -> float:
    """A finite number.

    Raises:
        Wrong: when it is none, or over 1e9 in size.
    """
    value, unit = _split(raw, "a number")
    if unit:
        raise Wrong("a number without a unit", f"Leave out {unit!r}.")
    return value


def weight(raw: object) -> float:
    """Kilograms, from `"12 kg"` or `"26 lb"`."""
    return _with_unit(raw, _WEIGHTS, 'a weight with its unit: "12 kg" or "26 lb"')


def weight_per_length(raw: object) -> float:
    """Kilograms a metre, from `"4.05 kg/m"` or `"2.72 lb/ft"`."""
    expected = 'a weight per length with its unit: "4.05 kg/m" or "2.72 lb/ft"'
    return _with_unit(raw, _LINE_WEIGHTS, expected)


def watts(raw: object) -> float:
    """Watts, from a bare number, `"750 W"` or `"1.2 kW"`."""
    return _with_unit(raw, {"": 1.0, **_WATTS}, 'watts: 750, "750 W" or "1.2 kW"')


def volts(raw: object) -> float:
    """Volts, from a bare number or `"120 V"`."""
    return _with_unit(raw, {"": 1.0, "V": 1.0, "v": 1.0}, 'volts: 230 or "230 V"')


def limit(raw: object) -> Limit:
    """A circuit's limit from `"20 A"` or `"2400 W"`, left in the unit it was typed in.

    Raises Wrong where the unit is missing or another, or the number is not over 0.
    """
    expected = 'a current or a load with its unit: "20 A" or "2400 W"'
    value, unit = _split(raw, expected)
    amps = unit in ("A", "a")
    if value <= 0 or not (amps or unit in _WATTS):
        raise Wrong(expected, "" if unit else "Add A or W.")
    return Limit(value, None) if amps else Limit(None, value * _WATTS[unit])


def degrees(raw: object) -> float:
    """Degrees, from a number, `"25 deg"` or `"25°"`."""
    expected = 'an angle in degrees: 25, "25 deg" or "25°"'
    return _with_unit(raw, dict.fromkeys(_DEGREES, 1.0), expected)


def heading(raw: object) -> float:
    """A heading in degrees, 0 up to 360, from a stage word or an angle clockwise from US."""
    expected = "SL, SR, US, DS or a heading in degrees clockwise from US"
    return _angle(raw, _HEADINGS, 360.0, expected) % 360.0


def swing_out(raw: object) -> tuple[float, str | None]:
    """Degrees round the pipe from straight down, and the side swung to where one was written.

    Raises Wrong where it is no angle over 0 and under 180.
    """
    expected = 'degrees over 0 and under 180, with the side swung to: "30 DS"'
    side = None
    if isinstance(raw, str) and raw.strip()[-2:].upper() in _HEADINGS:
        raw, side = raw.strip()[:-2], raw.strip()[-2:].upper()
    try:
        value = degrees(raw)
    except Wrong:
        raise Wrong(expected) from None
    if not 0.0 < value < 180.0:
        raise Wrong(expected, "Give the side as a word, not as a sign." if value < 0 else "")
    return value, side


def rake(raw: object) -> float:
    """Rise per run, from `"1:16"`, `"1/16"`, `"1 in 16"` or a number; at most 1 either way.

    Raises Wrong where it is none of these, or steeper.
    """
    expected = 'a rise per run such as "1:16" or 0.0625'
    value = _ratio(raw, expected) if isinstance(raw, str) else number(raw)
    if not -1.0 <= value <= 1.0:
        raise Wrong(expected, "A deck steeper than 1:1 is no deck.")
    return value


def turn(raw: object) -> float:
    """Degrees of a long axis from level: an angle, `across` (0) or `up and down` (90)."""
    expected = '"across", "up and down" or degrees from level, -180 to 180'
    return _angle(raw, _TURNS, 180.0, expected)


def _angle(raw: object, words: dict[str, float], most: float, expected: str) -> float:
    """Degrees from one of `words`, or from an angle of -180 to `most`."""
    if isinstance(raw, str) and raw.strip().upper() in words:
        return words[raw.strip().upper()]
    try:
        value = degrees(raw)
    except Wrong:
        raise Wrong(expected) from None
    if not -180.0 <= value <= most:
        raise Wrong(expected)
    return value


def _ratio(text: str, expected: str) -> float:
    for mark in (":", "/", " in "):
        above, found, below = text.partition(mark)
        if found:
            rise, run = number(above), number(below)
            if run <= 0:
                raise Wrong(expected)
            return rise / run
    return number(text)


def _with_unit(raw: object, scale: dict[str, float], expected: str) -> float:
    value, unit = _split(raw, expected)
    if unit not in scale:
        known = [name for name in scale if name]
        raise Wrong(expected, f"Use {' or '.join(known[:2])}." if unit else "Add the unit.")
    return value * scale[unit]


def _split(raw: object, expected: str) -> tuple[float, str]:
    """A number and the unit behind it ("" when there is none)."""
    unit = ""
    if isinstance(raw, str):
        value, unit = _number_and_unit(raw.strip().replace("−", "-"), expected)
    elif isinstance(raw, (int, float)) and not isinstance(raw, bool):
        value = raw
    else:
        raise Wrong(expected)
    if not -1e9 <= value <= 1e9:  # also refuses NaN
        raise Wrong(f"{expected}, at most 1e9 in size")
    return float(value), unit


def _number_and_unit(text: str, expected: str) -> tuple[float, str]:
    unit = text.lstrip("+-0123456789.,")
    number = text[: len(text) - len(unit)]
    if len(text) > LONGEST_TEXT or not number.strip("+-.,"):
        raise Wrong(expected)
    if unit[:1] in ("e", "E"):  # 1e-05, as a spreadsheet may write it
        number, unit = text, ""
    return parse_number(number), unit.strip()
