"""The ways in which the value of a key is written: each in words, and as JSON Schema (draft 7).

A schema takes whatever the reader of such a value takes and refuses most of what it refuses: what only the
whole scene can tell (a name that is none, corners that enclose nothing) it lets pass.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from aimcalc.named import NamedTuple

Schema = dict[str, Any]


class Form(NamedTuple):
    """One way to write a value: in words, as JSON Schema, and `name` where several keys share it."""

    words: str
    schema: Schema
    name: str = ""


def _any_case(word: str) -> str:
    """A pattern of a word in capitals or not: JSON Schema has no flag for it."""
    letters = (f"[{c.lower()}{c.upper()}]" if c.isalpha() else c for c in word)
    return "".join(letters).replace(" ", " +")


def _one_of(words: Sequence[str]) -> str:
    return "|".join(map(_any_case, words))


def _text(pattern: str) -> Schema:
    return {"type": "string", "pattern": f"^ *({pattern}) *$"}


def _either(*schemas: Schema) -> Schema:
    return {"anyOf": list(schemas)}


_PLAIN = "[0-9.,]+"
_SIGN = "[-+−]?"
_POWER = "([eE][-+]?[0-9]+)?"
_CENTRE = ("centre", "center", "centre line", "center line", "cl")
_MARKS = r"""0-9 .,'’′‘ʹ´`"″”“ʺ„/⁄+\-−–—‐‑¼½¾⅛⅜⅝⅞⅓⅔"""
_UNIT = "[mM](et(re|er)s?)?|[cC][mM]|[fF]([tT]|eet|oot)|[iI][nN](ch(es)?)?"
_LENGTH = f"[{_MARKS}]*[0-9¼½¾⅛⅜⅝⅞⅓⅔]([{_MARKS}]|{_UNIT})*"
_SIDES = {"x": ("SL", "SR"), "y": ("US", "DS"), "any": ("SL", "SR", "US", "DS")}
_ANGLE = f"{_SIGN}{_PLAIN}{_POWER} *(°|deg|degrees?)?"


def _quantity(units: Sequence[str], *, bare: bool) -> Schema:
    written = _text(f"\\+?{_PLAIN} *({'|'.join(units)})")
    plain = {"type": "number", "exclusiveMinimum": 0}
    number = _text(f"\\+?{_PLAIN}{_POWER}")
    return _either(plain, written, number) if bare else written


def _length(axis: str) -> Schema:
    if not axis:
        return _either({"type": "number"}, _text(_LENGTH))
    side = _one_of(_SIDES[axis])
    put = f"(({side}) )?{_LENGTH} *({side})?|{_one_of(_CENTRE)}"
    return _either({"type": "number"}, _text(put))


def choice(*words: str) -> Form:
    """One of some words, in capitals or not."""
    schema = _either({"enum": list(words)}, _text(_one_of(words)))
    return Form(" or ".join((", ".join(words[:-1]), words[-1])).removeprefix(" or "), schema)


def list_of(form: Form, words: str, least: int = 0) -> Form:
    """A list of values written alike."""
    items: Schema = {"type": "array", "items": plain(form)}
    return Form(words, items | ({"minItems": least} if least else {}))


def one_or_more(form: Form, words: str) -> Form:
    """One value, or a list of them."""
    return Form(words, _either(plain(form), list_of(form, words, 1).schema))


def several(words: str, *forms: Form) -> Form:
    """A list of one value for each form; in a spreadsheet's cell `1; 2; 3`."""
    count = len(forms)
    items = [plain(form) for form in forms]
    array = {"type": "array", "items": items, "minItems": count, "maxItems": count}
    return Form(words, _either(array, {"type": "string", "pattern": "[;,]"}))


def plain(form: Form) -> Schema:
    """The schema of a form, by reference where it has a name."""
    return {"$ref": f"#/definitions/{form.name}"} if form.name else form.schema


_WORD = {"type": ["string", "number"]}
_AN_ANGLE = _either({"type": "number", "minimum": -360, "maximum": 360}, _text(_ANGLE))

TEXT = Form("text", _WORD, "text")
NAME = Form("text", _either({"type": "string", "pattern": "[^ ]"}, {"type": "number"}), "name")
NOTE = Form("text, of several lines if need be", {"type": "string"}, "note")
FILE = Form("a file's name", NAME.schema, "file")
TRUTH = Form(
    "true or false",
    _either(
        {"type": "boolean"},
        _text(f"({_one_of(('true', 'yes', 'x', 'y', '1', 'false', 'no', 'n', '0'))})?"),
        {"enum": [0, 1]},
    ),
    "truth",
)
COUNT = Form("a whole number", {"type": "integer", "minimum": 0}, "count")
NUMBER = Form("a number over 0", _quantity(("",), bare=True), "number")
SHARE = Form(
    "a share, over 0 and up to 1",
    _either(
        {"type": "number", "exclusiveMinimum": 0, "maximum": 1}, _text(f"\\+?{_PLAIN}{_POWER}")
    ),
    "share",
)
CANDELA = NUMBER._replace(words="candela")
LUMENS = NUMBER._replace(words="lumens")
LENGTH = Form("a length", _length(""), "length")
SIZE = Form(
    "a length over 0",
    _either({"type": "number", "exclusiveMinimum": 0}, _text(_LENGTH)),
    "size",
)
SIGMA = Form("a length", _either({"type": "number", "minimum": 0}, _text(_LENGTH)), "spread")
SIGMA_ANGLE = Form(
    "degrees",
    _either({"type": "number", "minimum": 0, "maximum": 45}, _text(_ANGLE)),
    "spread of an angle",
)
HEIGHT = LENGTH._replace(words="a height")
X = Form("a length, SL or SR", _length("x"), "x")
Y = Form("a length, US or DS", _length("y"), "y")
ALONG = Form("a length, SL or SR, US or DS", _length("any"), "along")
ANGLE = Form("degrees", _AN_ANGLE, "angle")
FULL = Form(
    "degrees, the full angle",
    _either({"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 180}, _text(_ANGLE)),
    "full angle",
)
WEIGHT = Form("a weight with kg or lb", _quantity(("kg", "g", "lb", "lbs"), bare=False), "weight")
LINE_WEIGHT = Form(
    "a weight in kg/m or lb/ft",
    _quantity(("kg/m", "lb/ft", "lbs/ft"), bare=False),
    "weight of a length",
)
WATTS = Form("watts", _quantity(("W", "w", "kW", "kw"), bare=True), "watts")
VOLTS = Form("volts", _quantity(("V", "v"), bare=True), "volts")
LIMIT = Form("amperes or watts", _quantity(("A", "a", "W", "w", "kW", "kw"), bare=False), "limit")
RAKE = Form(
    "rise per run",
    _either(
        {"type": "number", "minimum": -1, "maximum": 1},
        _text(f"{_SIGN}{_PLAIN}{_POWER}( *(:|/| in ) *{_PLAIN})?"),
    ),
    "rake",
)
SIDE = choice("SL", "SR", "US", "DS")
HEADING = Form(
    "SL, SR, US, DS or degrees clockwise from US", _either(*SIDE.schema["anyOf"], _AN_ANGLE), "way"
)
SWING = Form(
    "degrees, with the side swung to",
    _either(
        {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 180},
        _text(f"{_ANGLE} *({_one_of(SIDE.schema['anyOf'][0]['enum'])})?"),
    ),
    "swing",
)
TURN = Form(
    "across, up and down or degrees",
    _either(*choice("across", "up and down").schema["anyOf"], _AN_ANGLE),
    "turn",
)
POINT = several("a point [x, y, z]", X, Y, LENGTH)._replace(name="point")
CORNER = several("a corner [x, y]", X, Y)._replace(name="corner")
POLYGON = list_of(CORNER, "corners [[x, y], ...]", 3)._replace(name="polygon")
BOX = several("[x, y, z, x, y, z]", X, Y, LENGTH, X, Y, LENGTH)
PANEL = list_of(POINT, "four corners [x, y, z]", 4)
STRETCHES = list_of(
    several("a stretch [from, to]", ALONG, ALONG), "stretches [[from, to], ...], measured as at"
)
