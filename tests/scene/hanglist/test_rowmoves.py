"""Remarks that say another place, position or target of a unit than its row."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, scene_of

LIST = "position,number,at,kind,target,note\nLX 1,1,2 m SL,spot,A,\nLX 1,2,1 m SL,spot,A,{}\n"


@pytest.mark.parametrize(
    "said",
    [
        "now at 2 m SL",
        "moved to LX 2",
        "hang at 3 m SL",
        "actually SR",
        "new gel; should be on stage right",
        "moved to 1.5 m SL (June)",
        "now on LX 2",
        "corrected to 1 m SR",
        "now on Table",
    ],
)
def test_another_place_is_asked_about(tmp_path: Path, said: str) -> None:
    assert "one place of a unit" in asked_of(tmp_path, LIST.format(said))


@pytest.mark.parametrize(
    "said",
    [
        "now at 1 m SL",
        "moved to LX 1",
        "actually SL",
        "was 3 m SL",
        "moved 200 mm SL",  # from where, and the row may have it
        "moved from LX 2",
        "now L202",
        "hang on safety",
        "hung on boom arm",
        "should be 36 deg",
        "now working",
        "moved to desk 2",
        "focus on Table first",
    ],
)
def test_what_is_no_other_place_is_a_remark(tmp_path: Path, said: str) -> None:
    unit = scene_of(tmp_path, LIST.format(said)).units[1]
    assert (unit.at, unit.note) == (1.0, said)
