"""Forty more hang lists, typed with their right reading before how lists are read was looked at.

Only the units are compared, and whether a list is asked about, or stopped for two units of one number: not
the words of notes. `key=*` is a key that a careful person may read in more ways than one; `note~words` a
remark that has those words; remarks that are not typed are not compared.

First reading: 16 of 40 as a careful person reads them. Since then: 40 of 40. `WRONG` is
for what becomes of one that is not.

The expectation of one list changed with a rule since: a unit that is called cut is left out and warned of,
where it was to be asked about (moved-later); and of
bare-sides: a bare L or R is the stage's, with a warning, where most units are then aimed to their own side.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.findings.numbering import twice
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from tests.messy import cases

HERE = Path(__file__).parent
NAMES = sorted(path.stem for path in HERE.glob("*.toml"))
WRONG: dict[str, str] = {}
KEYS = [key for key in cases.OTHERS if key != "note"]


def _unit(row: str, unit: Unit, metres: float) -> list[str]:
    position, number, at, kind, target, *more = (cell.strip() for cell in row.split("|"))
    typed = dict(part.split("=", 1) for part in more if "=" in part)
    bare = Unit(position="", number="", kind="")
    want: dict[str, Any] = {key: typed.get(key, str(getattr(bare, key))) for key in KEYS}
    want |= {"position": position, "number": number, "kind": kind, "target": target}
    found = [
        f"{position}/{number}: {key} is {getattr(unit, key)!r}, not {value!r}"
        for key, value in want.items()
        if value not in ("*", str(getattr(unit, key)))
    ]
    if (None if unit.at is None else round(unit.at, 9)) != (
        round(float(at) * metres, 9) if at else None
    ):
        found.append(f"{position}/{number}: at is {unit.at!r}, not {at!r} of {metres} m")
    remarks = [part.split("~")[1] for part in more if "~" in part]
    found += [
        f"{position}/{number}: its remark is {unit.note!r}, without {words!r}"
        for words in remarks
        if words not in (unit.note or "")
    ]
    return found


def _wrong(name: str, root: Path) -> list[str]:
    what = cases.case(name, HERE)
    try:
        scene = load_scene(cases.write(what, root, HERE))
    except SceneError as error:
        report = [mistake.text() for mistake in error.mistakes]
        missed = [
            words
            for words in what.get("asked", [])
            if not any(all(w in text for w in words) for text in report)
        ]
        return (
            [f"not asked about {missed}: {report}"]
            if missed
            else []
            if "asked" in what
            else ["refused", *report]
        )
    if "asked" in what:
        if any(
            found.severity == "stop" for found in twice(solve_rig(scene))
        ):  # nothing is printed of it
            return []
        return [
            f"read, and it should have been asked: {[(u.position, u.number, u.at) for u in scene.units]}"
        ]
    rows = what["units"].strip().splitlines()
    found = [] if len(rows) == len(scene.units) else [f"{len(scene.units)} units, not {len(rows)}"]
    for row, unit in zip(rows, scene.units, strict=False):
        found += _unit(row, unit, cases.METRES[what["at"]])
    return found


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(name, marks=pytest.mark.xfail(strict=True, reason=WRONG[name]))
        if name in WRONG
        else name
        for name in NAMES
    ],
)
def test_a_list_nobody_had_seen_has_the_units_typed_beside_it(name: str, tmp_path: Path) -> None:
    assert _wrong(name, tmp_path / "scene") == []


def test_there_are_forty_and_most_of_them_can_be_read() -> None:
    assert len(NAMES) == 40
    assert sum("units" in cases.case(name, HERE) for name in NAMES) >= 30
