"""A lens proposal printed, and as files that can be read again and compared."""

from __future__ import annotations

import csv
import io
import json
import tomllib

import pytest

from aimcalc.coverage.lens import lens_outlook
from aimcalc.solid.rig import solve_rig
from aimcalc.text.light.lens_text import (
    FILE_KEYS,
    lens_csv,
    lens_file,
    lens_json,
    lens_text,
    lens_toml,
)
from tests.lit import a_lamp, a_unit, a_wash
from tests.shows import rig_of


@pytest.fixture(scope="module")
def raked():
    rig = rig_of("raked")
    return rig, lens_outlook(rig)


def test_every_unit_has_a_row_and_every_system_an_outlook(raked):
    rig, outlook = raked
    text = lens_text(rig, outlook, "m")
    for each in outlook.plan.units:
        assert f"\n  {each.unit} " in text
    part = text.split("What it would do\n")[1]
    assert [row.split()[0] for row in part.splitlines()[1:]] == [f.system for f in outlook.systems]


# The scene hangs nine ers-20 and stocks six.
def test_what_is_short_and_what_takes_its_place_is_said(raked):
    rig, outlook = raked
    text = lens_text(rig, outlook, "m")
    short = {s.kind: s.short for s in outlook.plan.stock if s.short}
    assert short
    for kind, count in short.items():
        assert f"{kind} is short: {count} more wanted than the " in text
    for each in outlook.plan.units:
        if each.first_choice != each.proposed:
            assert (
                f"{each.unit}: {each.first_choice} would be best; {each.proposed} is what is left."
                in text
            )
    for system in outlook.kept:
        assert f"System {system} keeps what it has" in text


def test_toml_and_csv_say_the_same_unit_by_unit(raked):
    rig, outlook = raked
    toml = tomllib.loads(lens_toml(rig, outlook.plan).decode())
    heads, *rows = csv.reader(io.StringIO(lens_csv(rig, outlook.plan).decode(), newline=""))
    assert heads == list(FILE_KEYS)
    assert len(rows) == len(toml["unit"]) == len(rig.units)
    for row, entry, proposal in zip(rows, toml["unit"], outlook.plan.units, strict=True):
        told = {k: v for k, v in zip(heads, row, strict=True) if v}
        assert told == {k: str(v) for k, v in entry.items()}
        assert entry["proposed"] == proposal.proposed
        assert entry["wanted_field"] == pytest.approx(proposal.wanted_field, abs=1e-6)
    assert {s["kind"]: s["count"] for s in toml["stock"]} == {
        s.kind: s.count for s in outlook.plan.stock
    }


def test_the_file_is_toml_or_csv(raked):
    rig, outlook = raked
    assert lens_file(rig, outlook.plan, csv=True) == lens_csv(rig, outlook.plan)
    assert lens_file(rig, outlook.plan, csv=False) == lens_toml(rig, outlook.plan)


def test_the_json_holds_the_whole_proposal(raked):
    rig, outlook = raked
    told = json.loads(lens_json(rig, outlook))
    assert [u["unit"] for u in told["units"]] == rig.names
    assert told["kept"] == outlook.kept


def test_names_with_marks_of_their_own_survive_the_toml():
    kind = a_lamp('six "inch"\\new')
    rig = solve_rig(a_wash([a_unit(1, 0.0, kind=kind.name)], kinds=[kind]))
    plan = lens_outlook(rig).plan
    assert tomllib.loads(lens_toml(rig, plan).decode())["unit"][0]["kind"] == kind.name


def test_without_a_stock_it_says_so():
    rig = solve_rig(a_wash([a_unit(1, 0.0)]))
    text = lens_text(rig, lens_outlook(rig), "m")
    assert "The scene has no [[stock]]" in text
    assert "\nStock\n" not in text
