"""Letters that the sheets cannot set: paper with an empty box for a name is worse than none."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import STOP
from aimcalc.rig.letters import from_the_right, lacking
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import listed

NOT_PRINTED = ("source", "hang", "mesh", "photometry")  # names of files
SAID_ELSEWHERE = ("position", "kind", "target")  # a unit's: told of these themselves


def letters(rig: Rig) -> Iterator[Finding]:
    """Stops once for letters that the typeface lacks, and once for those that run from the right."""
    where: dict[str, list[str]] = {}
    for place, text in _texts(rig):
        for letter in lacking(text):
            where.setdefault(letter, []).append(place)
    for right in (False, True):
        found = {c: places for c, places in where.items() if from_the_right(c) is right}
        if found:
            yield _told(found, right)


def _told(found: dict[str, list[str]], right: bool) -> Finding:
    named = listed(f"{letter} (U+{ord(letter):04X})" for letter in found)
    places = listed(dict.fromkeys(place for some in found.values() for place in some))
    says = f"The typeface of the sheets has no {named}. They are in {places}."
    if right:
        says = (
            f"The sheets cannot set letters that run from the right: {named}. They are in {places}."
        )
    do = "Write it with other letters; Latin, Greek and Cyrillic print. A draft spells them by number."
    return Finding(STOP, "letters-not-printed", says, do)


def _texts(rig: Rig) -> Iterator[tuple[str, str]]:
    """Every text of a scene that reaches paper, with its place: ([[pipe]] "A", "A")."""
    scene = rig.scene
    for entry, what in (
        (scene.settings, "[scene]"),
        *((one, "[[pipe]]") for one in scene.pipes),
        *((one, "[[boom]]") for one in scene.booms),
        *((one, "[[stand]]") for one in scene.stands),
        *((one, "[[target]]") for one in scene.targets),
        *((one, "[[kind]]") for one in scene.kinds.values()),
        *((one, "[[solid]]") for one in scene.solids),
        *((one, "[[seats]]") for one in scene.seats),
        *((one, "[[cable]]") for one in scene.cables),
    ):
        yield from _of(entry, what)
    for name, unit in zip(rig.names, rig.units, strict=True):
        yield from _of(unit, f"unit {name},", SAID_ELSEWHERE)


def _of(entry: msgspec.Struct, what: str, said: tuple[str, ...] = ()) -> Iterator[tuple[str, str]]:
    for key in entry.__struct_fields__:
        value: Any = getattr(entry, key)
        if isinstance(value, str) and key not in (*NOT_PRINTED, *said) and not value.isascii():
            yield (f'{what} "{value}"' if key == "name" else f"{what} {key}"), value
        elif isinstance(value, tuple):
            for part in value:
                if isinstance(part, msgspec.Struct):
                    yield from _of(part, f"{what} {key}")
