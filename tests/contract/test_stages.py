"""Stages that a plain pipe across a plain deck does not describe, as a user writes them."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.sheets.cards import unit_cards
from aimcalc.sheets.hang_sheets import hang_sheets
from aimcalc.show import Show
from aimcalc.text.lists import as_csv, as_json
from aimcalc.text.stamp import PaperOptions
from tests.rigs import thrown
from tests.sheets.pdf_reading import pages
from tests.toml_rig import kind, level_pipe, table, unit, written

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


# --- a tube that starts above the deck ------------------------------------------------------------

LADDER = {"name": "ladder", "x": -5.0, "y": 2.0, "foot": 3.0, "height": 5.5}
ON_LADDER = {"position": "ladder", "arm": 0.4, "arm_to": "SL", "target": "chair"}


def test_heights_on_a_tube_with_a_foot_count_from_the_deck_at_the_plaster_line(
    tmp_path: Path,
) -> None:
    """On a platform of 0.5 m a boom's heights count from the platform, a hung tube's do not."""
    boom = {key: value for key, value in LADDER.items() if key != "foot"} | {"name": "boom"}
    under = table("solid", name="step", box=[-6, 1, 0, -4, 3, 0.5], stand_on=True)
    show = a_show(
        tmp_path,
        *(table("boom", **keys) for keys in (LADDER, boom)),
        under,
        unit(**ON_LADDER | {"at": 4}),
        unit(**ON_LADDER | {"at": 4, "position": "boom"}),
    )
    assert [answer.clamp for answer in show.rig.answers] == [(-4.6, 2.0, 4.0), (-4.6, 2.0, 4.5)]


def test_a_unit_on_a_tube_with_a_foot_hits_as_told(tmp_path: Path) -> None:
    show = a_show(tmp_path, table("boom", **LADDER), unit(**ON_LADDER | {"at": 4.2}))
    (answer,) = show.rig.answers
    lens, axis, _ = thrown(answer, show.scene)
    assert lens + axis * answer.throw == pytest.approx((1, 3, 1.65), abs=1e-9)
    said = sheet(hang_sheets, show)
    assert "its foot 3.00 m above the deck" in said
    assert "tube from 3.00 m up to 5.50 m" in sheet(aim_sheets, show)


def test_a_unit_below_the_foot_is_a_stop(tmp_path: Path) -> None:
    for at, past in ((2.9, "0.10 m past the foot"), (3.0, ""), (5.6, "0.10 m past the top")):
        show = a_show(tmp_path, table("boom", **LADDER), unit(**ON_LADDER | {"at": at}))
        told = [f.says for f in show.findings if f.severity == "stop"]
        assert [past in says for says in told] == ([True] if past else [])


def test_a_foot_above_the_top_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="a foot below the top of the boom"):
        a_show(tmp_path, table("boom", **LADDER | {"foot": 5.5}))


def test_a_tube_whose_foot_is_under_the_deck_is_a_stop(tmp_path: Path) -> None:
    show = a_show(tmp_path, table("boom", **LADDER | {"foot": -0.2}))
    assert [f.rule for f in show.findings if f.severity == "stop"] == ["under-deck"]


# --- a stand on a platform ------------------------------------------------------------------------


def test_a_stand_without_z_stands_on_the_platform_under_it(tmp_path: Path) -> None:
    platform = table("solid", name="step", box=[-2, 4, 0, 2, 6, 0.8], stand_on=True)
    stands = (
        table("stand", name="on it", x=0, y=5),
        table("stand", name="given", x=1, y=5, z=0.3),
        table("stand", name="beside", x=3, y=5),
    )
    units = (unit(position=n, at=None, target="chair") for n in ("on it", "given", "beside"))
    show = a_show(tmp_path, platform, *stands, *units)
    assert [answer.clamp[2] for answer in show.rig.answers] == [0.8, 0.3, 0.0]


# --- places where nothing can be clamped ----------------------------------------------------------


@pytest.mark.parametrize(
    ("at", "stops"), [(0.99, 0), (1.0, 0), (1.01, 1), (1.5, 1), (1.59, 1), (1.6, 0), (1.7, 0)]
)
def test_a_clamp_in_a_stretch_to_keep_clear_is_a_stop(
    tmp_path: Path, at: float, stops: int
) -> None:
    pipe = level_pipe(keep_clear=[["1.6 m SL", "1 m SL"], [-3, -2]])
    show = a_show(tmp_path, pipe, unit(at=at, target="chair"))
    told = [f for f in show.findings if f.severity == "stop"]
    assert [f.rule for f in told] == ["keep-clear"] * stops
    assert all(f.says.endswith("kept clear, 1.00 m SL to 1.60 m SL.") for f in told)


def test_the_hang_sheet_tells_what_is_to_be_kept_clear(tmp_path: Path) -> None:
    show = a_show(tmp_path, level_pipe(keep_clear=[[1, 1.6], [-3, -2]]), unit(at=2, target="chair"))
    assert "clamp nothing from 1.00 m SL to 1.60 m SL, nor from 3.00 m SR to 2.00 m SR." in sheet(
        hang_sheets, show
    )


# --- dead-hung pipes ------------------------------------------------------------------------------


@pytest.mark.parametrize(("lines", "comes_in"), [([], True), ([-3, 3], True)])
def test_a_dead_hung_pipe_has_no_pipe_in_pages(
    tmp_path: Path, lines: list[float], comes_in: bool
) -> None:
    for dead, said in ((False, comes_in), (True, False)):
        pipe = level_pipe(lines=lines, dead_hung=dead)
        words = sheet(aim_sheets, a_show(tmp_path, pipe, unit(at=1, target="chair")))
        assert ("p PIPE IN" in words) is said
        assert ("dead hung" in words) is dead


# --- circuits that only feed ----------------------------------------------------------------------


def _rules(folder: Path, first: dict[str, object], second: dict[str, object]) -> list[str]:
    on = {"circuit": "7", "target": "chair"}
    units = [
        unit(**on | {"number": n, "at": n, "channel": str(n)} | more)
        for n, more in ((1, first), (2, second))
    ]
    show = a_show(folder, level_pipe(), *units)
    names = ("circuit-twice", "circuit-fades", "twofer")
    return [f.rule for f in show.findings if f.rule in names]


def test_channels_share_a_circuit_that_does_not_dim_them(tmp_path: Path) -> None:
    data: dict[str, object] = {"dimmed_by": "data"}
    assert _rules(tmp_path, {}, {}) == ["circuit-twice"]
    assert _rules(tmp_path, data, data) == ["twofer"]
    assert _rules(tmp_path, data, {}) == ["circuit-fades"]
    assert _rules(tmp_path, data, {"channel": None}) == ["twofer"]


def test_a_unit_overrules_its_kind_about_dimming(tmp_path: Path) -> None:
    by_data = kind(dimmed_by="data")
    on: dict[str, object] = {"circuit": "7", "target": "chair"}
    for said, rule in ((None, "twofer"), ("circuit", "circuit-twice")):
        units = [
            unit(**on | {"number": n, "at": n, "channel": str(n), "dimmed_by": said})
            for n in (1, 2)
        ]
        show = a_show(tmp_path, level_pipe(), *units, kinds=by_data)
        assert rule in [f.rule for f in show.findings]
