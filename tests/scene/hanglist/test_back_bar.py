"""The back bar of a house whose bars go by numbers."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

ROWS = ("Where,No,From centre,Lantern,Pointing at", "{},1,1 m SL,Spot,Cyc")


def _house(**bars: float) -> str:
    pipes = "".join(
        f'\n[[pipe]]\nname = "{name.replace("_", " ")}"\ntrim = 6\ny = {y}\nfrom = -5\nto = 5\n'
        for name, y in bars.items()
    )
    return (
        f'[scene]\ntitle = "Bars"\nhang = "list.csv"\n{pipes}'
        '\n[[target]]\nname = "Cyc"\nx = 0\ny = 7\n'
        '\n[[kind]]\nname = "Spot"\nfamily = "ers"\nfield = 26\n'
    )


HOUSE = _house(FOH_Bridge=-6, LX_1=1, LX_2=3, LX_3=5)


@pytest.mark.parametrize("said", ["Back bar", "the rear LX", "LAST BAR", "back electric"])
def test_the_last_bar_is_the_back_bar(tmp_path: Path, said: str) -> None:
    scene = scene_in(tmp_path, HOUSE, [line.format(said) for line in ROWS])
    assert scene.units[0].position == "LX 3"
    assert any(said in taken.says and "LX 3" in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    ("house", "said"),
    [
        (_house(LX_1=1, LX_2=3, Cyc_Bar=5), "Back bar"),  # the last one has no number
        (_house(LX_1=5, LX_2=3, LX_3=1), "Back bar"),  # numbers from the back
        (_house(LX_1=1, LX_2=3, LX_3=3.1), "Back bar"),  # two of them at the back
        (HOUSE, "Back"),  # may be light from the back
        (HOUSE, "Back wall"),
        (HOUSE, "Middle bar"),
    ],
)
def test_a_back_bar_that_may_be_another_is_asked_about(
    tmp_path: Path, house: str, said: str
) -> None:
    assert "position" in asked_in(tmp_path, house, [line.format(said) for line in ROWS])
