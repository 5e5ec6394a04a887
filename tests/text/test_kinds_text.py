"""The generic kinds in a terminal, one of them to copy, and their drawn page."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from aimcalc.cli import run
from aimcalc.cli.scene import STARTER
from aimcalc.scene.loading import generic_kinds, generic_tables, load_scene
from aimcalc.scene.tables import FAMILIES
from aimcalc.sheets.kinds_page import HEIGHT, WIDTH, draw_kinds, kinds_page
from aimcalc.text.kinds_text import FAMILY_WORDS, PICTURES, kind_entry, kind_row, kinds_text
from tests.sheets.pdf_reading import minus_signs, outside, overlaps, pages, runs, sizes

KINDS = generic_tables()


def test_every_family_has_its_picture_and_words() -> None:
    assert set(PICTURES) == set(FAMILY_WORDS) == set(FAMILIES)
    for family, lines in PICTURES.items():
        picture = "\n".join(lines)
        assert picture.count("o") == picture.count("+") == 1, family
        pipe = next(line.index("o") for line in lines if "o" in line)
        bolts = next(line.index("+") for line in lines if "+" in line)
        assert abs(pipe - bolts) <= 1, family
        assert len({len(line) for line in lines}) == 1, family


def test_every_kind_is_listed_with_its_figures_within_80_columns() -> None:
    text = kinds_text(80)
    assert max(map(len, text.splitlines())) <= 80
    for name in KINDS:
        assert sum(line.split()[:1] == [name] for line in text.splitlines()) == 1, name
    (line,) = (line for line in text.splitlines() if line.startswith("  ers-30 "))
    assert line.split() == [
        "ers-30",
        "30°",
        "20°",
        "70",
        "0.36",
        "m",
        "0.34",
        "m",
        "0.6",
        "m",
        "0.22",
        "m",
        "7",
        "kg",
        "600",
    ]
    assert kind_row(KINDS["par-15x30"])[1] == "15 x 30°"


@pytest.mark.parametrize("name", KINDS)
def test_a_copied_kind_is_read_as_the_generic_one_but_as_ones_own(
    name: str, tmp_path: Path
) -> None:
    scene = Path(STARTER).read_text(encoding="utf-8") + kind_entry(name) + "\n"
    (tmp_path / "scene.toml").write_text(scene, encoding="utf-8")
    own = load_scene(tmp_path).kinds[name]
    (typical,) = generic_kinds({name: KINDS[name]}).values()
    assert not own.typical
    for field in typical.__struct_fields__:
        if field != "typical":
            assert getattr(own, field) == getattr(typical, field), field
    assert all("  # " in line for line in kind_entry(name).splitlines() if line)


def test_the_command_names_the_kinds_where_one_is_unknown(capsys: Any) -> None:
    assert run(["kinds", "ers-31"]) == 2
    assert "ers-30" in capsys.readouterr().err
    assert run(["kinds", "ers-30", "-o", "page.txt"]) == 2
    assert "page.pdf" in capsys.readouterr().err


def test_the_drawn_page_is_one_page_within_its_edges_without_overlaps(tmp_path: Path) -> None:
    path = tmp_path / "kinds.pdf"
    assert run(["kinds", "-o", str(path)]) == 0
    data = path.read_bytes()
    (text,) = pages(data)
    assert all(name in text for name in KINDS)
    assert "drop_under" in text
    assert not overlaps(runs(data)[0])
    assert not outside(runs(data)[0], sizes(data)[0])
    assert not minus_signs(text)
    for drawn in (*draw_kinds().lines, *draw_kinds().shapes):
        low, high = drawn.points.min(axis=0), drawn.points.max(axis=0)
        assert (low >= 5).all()
        assert (high <= np.array([WIDTH, HEIGHT]) - 5).all()


def test_the_page_can_be_a_picture() -> None:
    picture = BytesIO()
    kinds_page(picture, png=True)
    assert picture.getvalue().startswith(b"\x89PNG")
