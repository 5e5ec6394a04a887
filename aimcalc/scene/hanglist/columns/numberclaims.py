"""Which of two columns that may be it holds the numbers of the units, by what their cells count."""

from __future__ import annotations

from aimcalc.scene.hanglist.columns.byvalues import Cells, told
from aimcalc.scene.hanglist.columns.headings import Meaning
from aimcalc.scene.hanglist.rows.listrow import text_of


def restarting(keys: dict[int, str], meanings: dict[int, Meaning], values: Cells) -> dict[int, str]:
    """Take for the number the one column that counts from 1 on each position and may be it by its heading, in
    place of one that counts the rows or names the units; what it holds."""
    by_key = {key: k for k, key in keys.items()}
    number, position = by_key.get("number"), by_key.get("position")
    if number is None or position is None or number not in meanings or meanings[number].exact:
        return {}
    names_units = "channel" in meanings[number].keys  # an ID, which the desk may call it by
    may_be = [
        k
        for k, m in meanings.items()
        if k not in keys and ("number" in m.keys or (names_units and (m.fitting or not m.keys)))
    ]
    found = [k for k in may_be if values.restarts(k, position)]
    if len(found) != 1 or values.restarts(number, position):
        return {}
    del keys[number]
    if names_units and "channel" not in keys.values():
        keys[number] = "channel"
    keys[found[0]] = "number"
    return {found[0]: told(values.of(found[0]))}


def initialled(keys: dict[int, str], meanings: dict[int, Meaning], values: Cells) -> dict[int, str]:
    """Take for the number an ID that begins with the first letters of its position, "FT1" on the Front Truss,
    and for the channel the number of the whole list that stands beside it; what they hold."""
    by_key = {key: k for k, key in keys.items()}
    number, channel, position = (by_key.get(key) for key in ("number", "channel", "position"))
    if number is None or channel is None or position is None or channel not in meanings:
        return {}
    whole = [text for text in map(text_of, values.of(number)) if text.isdecimal()]
    if "number" not in meanings[channel].keys or not values.initialled(channel, position):
        return {}
    if len(set(whole)) != len(values.rows) or values.initialled(number, position):
        return {}
    keys[number], keys[channel] = "channel", "number"
    return {k: told(values.of(k)) for k in (number, channel)}
