"""The way that units of booms stand from them, where a hang list says none."""

from __future__ import annotations

from aimcalc.scene.hanglist.rows.listrow import Around, Row
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.model import Taken
from aimcalc.scene.records import Place


def point_arms(rows: list[Row], around: Around, noticed: Noticed) -> None:
    """Point the units of booms that say no direction to the stage's middle, and warn of it."""
    assumed: dict[str, list[Row]] = {}
    for row in rows:
        position = row.raw.get("position")
        place = around.places.get(position) if isinstance(position, str) else None
        side = _inwards(place) if place and place.sort == "boom" else ""
        if side and "arm_to" not in row.raw:
            row.raw["arm_to"] = side
            assumed.setdefault(str(position), []).append(row)
    for position, without in assumed.items():
        many = "1 unit has" if len(without) == 1 else f"{len(without)} units have"
        side = without[0].raw["arm_to"]
        towards = "the middle" if side in ("SL", "SR") else "the stage"
        says = f"{many} no arm_to in {noticed.name}: assumed {side} of the boom, towards {towards}."
        do = "Write arm_to in the list: SL, SR, US, DS or degrees from the boom to the unit."
        noticed.last.append(Taken("arms-assumed", says, do, severity="warn", position=position))


def _inwards(place: Place) -> str:
    """The way from a boom to the middle of the stage; of one on the centre line in the house, upstage. "" of
    one on the stage's own centre line: it may face either way."""
    if place.x:
        return "SR" if place.x > 0 else "SL"
    return "US" if place.y < 0 else ""
