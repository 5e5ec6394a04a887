"""The colour picture: a true PNG whose colours get lighter with the light, in grey too."""

import io

import numpy as np
from PIL import Image

from figures.make import COLOURS, light_picture
from tests.shows import a_show, rig_of


def test_the_picture_is_in_colour_and_the_same_twice():
    show = a_show(rig_of("studio"))
    first, second = io.BytesIO(), io.BytesIO()
    light_picture(show, first)
    light_picture(show, second)
    assert first.getvalue() == second.getvalue()
    picture = np.asarray(Image.open(first).convert("RGB"), dtype=int)
    assert (np.ptp(picture, axis=2) > 40).mean() > 0.02


def test_brighter_light_is_a_lighter_grey_by_even_steps():
    """Luminance weights of ITU-R BT.709, 0.2126, 0.7152, 0.0722, over linear light, then CIE L* (1976)."""
    from matplotlib import colormaps

    rgb = colormaps[COLOURS](np.linspace(0, 1, 64))[:, :3]
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    y = linear @ [0.2126, 0.7152, 0.0722]
    steps = np.diff(116 * np.cbrt(np.maximum(y, 0.008856)) - 16)
    assert steps.min() > 0
    assert steps.max() < 2.5 * np.median(steps)
