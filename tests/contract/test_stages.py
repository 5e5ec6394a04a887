"""Stages that a plain pipe across a plain deck does not describe, as a user writes them."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.sheets.cards import unit_cards
from aimcalc.sheets.hang_sheets import hang_sheets
from aimcalc.show import Show
from aimcalc.text.lists import as_csv, as_json
from aimcalc.text.stamp import PaperOptions
from tests.sheets.pdf_reading import pages
from tests.toml_rig import level_pipe, table, unit, written

CHAIR = table("target", name="chair", x=1, y=3, plane="face")
STAGE = "[stage]\noutline = [[-6, -3], [6, -3], [6, 9], [-6, 9]]\n"


def a_show(folder: Path, *tables: str, kinds: str = "") -> Show:
    """The show of a scene with a deck and one target, chair."""
    return Show(load_scene(written(folder, STAGE, CHAIR, *tables, kinds=kinds)))


def sheet(make: object, show: Show) -> str:
    """All words of one sheet, however its lines are broken."""
    paper = io.BytesIO()
    make(show, paper, PaperOptions())  # type: ignore[operator]
    return " ".join(" ".join(pages(paper.getvalue())).split())


NOTE = "iris is in the case, fit it last"


@pytest.mark.parametrize("make", [aim_sheets, unit_cards, hang_sheets])
def test_a_units_note_and_edge_stand_on_its_row_and_card(tmp_path: Path, make: object) -> None:
    show = a_show(tmp_path, level_pipe(), unit(target="chair", note=NOTE, edge="soft"))
    said = sheet(make, show)
    assert NOTE in said
    assert "EDGE" in said
    assert "soft" in said


def test_a_units_note_and_edge_are_in_the_lists(tmp_path: Path) -> None:
    show = a_show(tmp_path, level_pipe(), unit(target="chair", note=f" {NOTE}\n", edge="Sharp"))
    (told,) = json.loads(as_json(show.rig, []))["units"]
    assert (told["edge"], told["note"]) == ("sharp", NOTE)
    head, row = as_csv(show.rig, []).decode().splitlines()
    assert head.split(",")[-3:] == ["edge", "note", "findings"]
    assert NOTE in row
