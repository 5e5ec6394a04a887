"""The pictures in README are those that the command makes today."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

ROOT = Path(__file__).parent.parent
FIGURES = ROOT / "figures"


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    spec = importlib.util.spec_from_file_location("figures_make", FIGURES / "make.py")
    make = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(make)
    folder = tmp_path_factory.mktemp("figures")
    make.main(folder)
    return folder


def shades(path: Path) -> np.ndarray:
    """A picture at 96 x 96 in grey: what is drawn, whatever the drawing library's edges look like."""
    with Image.open(path) as picture:
        return np.asarray(picture.convert("L").resize((96, 96), Image.Resampling.BOX), float)


def test_every_figure_that_readme_shows_is_made_and_none_is_left_over(made):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    names = {path.name for path in made.iterdir()}
    assert len(names) >= 2
    assert names == {path.name for path in FIGURES.glob("*.png")}
    assert all(f"(figures/{name})" in readme for name in names)


def test_the_figures_shown_are_what_the_command_makes(made):
    for path in FIGURES.glob("*.png"):
        difference = np.abs(shades(path) - shades(made / path.name))
        assert difference.mean() < 2.0, path.name
        assert difference.max() < 96.0, path.name
