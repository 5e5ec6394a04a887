"""The pictures in README are those that the command makes today."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from figures import make
from tests.shows import a_show, rig_of

ROOT = Path(__file__).parent.parent
FIGURES = ROOT / "figures"


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    folder = tmp_path_factory.mktemp("figures")
    make.main(folder, a_show(rig_of("playhouse")))
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


def test_the_picture_of_the_light_is_in_colour_and_the_same_twice(made):
    first = (made / "light-on-stage.png").read_bytes()
    assert make.light_on_stage(a_show(rig_of("playhouse"))) == first
    picture = np.asarray(Image.open(io.BytesIO(first)).convert("RGB"), dtype=int)
    assert (np.ptp(picture, axis=2) > 40).mean() > 0.02


def test_brighter_light_is_a_lighter_grey_by_even_steps():
    """Luminance weights of ITU-R BT.709, 0.2126, 0.7152, 0.0722, over linear light, then CIE L* (1976)."""
    from matplotlib import colormaps

    rgb = colormaps[make.COLOURS](np.linspace(0, 1, 64))[:, :3]
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    y = linear @ [0.2126, 0.7152, 0.0722]
    steps = np.diff(116 * np.cbrt(np.maximum(y, 0.008856)) - 16)
    assert steps.min() > 0
    assert steps.max() < 2.5 * np.median(steps)
