"""TOML as nearly every scene is written, a line a key, two to five times quicker than Python's own reader.

Only what cannot mean anything else is read here: heads of one plain word, bare keys, text without escapes,
plain numbers, true and false. Any other value is Python's own reader's; and where a line is anything else,
or anything is wrong, the whole document is, so that what is accepted, understood and told stays the same.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Any

_COMMENT = r"[ \t]*(?:#[^\x00-\x08\x0a-\x1f\x7f]*)?"
_NUMBER = r"[+-]?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,17})?"
_KEY = re.compile(
    r"[ \t]*([A-Za-z0-9_-]+)[ \t]*=[ \t]*"
    r'(?:"([^"\\\x00-\x08\x0a-\x1f\x7f]*)"'
    rf"|({_NUMBER})|(true|false)|(\S.*))" + _COMMENT
)
_NUMBERS = re.compile(rf"\[[ \t]*{_NUMBER}[ \t]*(?:,[ \t]*{_NUMBER}[ \t]*)*\][ \t]*")
_HEAD = re.compile(r"[ \t]*(\[\[?)[ \t]*([A-Za-z0-9_-]+)[ \t]*(\]\]?)" + _COMMENT)
_NOTHING = re.compile(_COMMENT)
MOST_ENDS = 8  # lines that may end a list of several lines and do not, before it is given up


def plain(text: str) -> dict[str, Any] | None:
    """The tables of a document, as `tomllib.loads` gives them; None where that has to be asked.

    Lines end in a line feed alone. Raises RecursionError for lists nested too deep.
    """
    found: dict[str, Any] = {}
    table, listed = found, set[str]()
    lines = iter(text.split("\n"))
    for line in lines:
        match = _KEY.fullmatch(line)
        if match is None:
            if _NOTHING.fullmatch(line):
                continue
            head = _HEAD.fullmatch(line)
            if head is None or len(head[1]) != len(head[3]):
                return None
            name, table = head[2], {}
            if len(head[1]) == 2 and (name in listed or name not in found):
                found.setdefault(name, []).append(table)
                listed.add(name)
            elif name in found:
                return None
            else:
                found[name] = table
            continue
        key, words, number, truth, other = match.groups()
        if key in table:
            return None
        if words is not None:
            table[key] = words
        elif number is not None:
            table[key] = _number(number)
        elif truth is not None:
            table[key] = truth == "true"
        else:
            value = _value(other, lines)
            if value is None:
                return None
            table[key] = value
    return found


def _number(text: str) -> int | float:
    return float(text) if "." in text else int(text)


def _value(text: str, lines: Iterator[str]) -> Any:
    """A value in the words of TOML, a list with the lines that it goes on in; None where it is not clear."""
    if _NUMBERS.fullmatch(text):
        return [_number(part) for part in text.rstrip(" \t")[1:-1].split(",")]
    try:
        return tomllib.loads(f"v={text}")["v"]
    except ValueError:
        if not text.startswith("["):
            return None
    tried = 0
    for line in lines:
        text = f"{text}\n{line}"
        if line.lstrip(" \t").startswith("]"):
            try:
                (value,) = tomllib.loads(f"v={text}").values()
            except ValueError:
                tried += 1
                if tried == MOST_ENDS:
                    return None
            else:
                return value
    return None
