"""The work at the pipe compared: loads by the law of the lever, wedges by a right triangle."""

from __future__ import annotations

import io
from math import atan2, degrees

import pytest
from msgspec.structs import replace

from aimcalc.landings.changes import Load
from aimcalc.scene.model import Circuit, Kind, Scene, Target, Unit
from aimcalc.sheets.hang_sheets import hang_sheets
from aimcalc.show import Show
from aimcalc.text.changes.compare import compared
from aimcalc.text.changes.compared import Compared
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import SCENES

KIND = Kind(
    name="k", family="ers", field=26.0, drop_under=0.36, weight=10.0, tail=0.9, tail_exit=(0.1, 0.1)
)


def _scene(at: float, *, x: float = 0.0, weight: float = 10.0) -> Scene:
    """One unit on a pipe of no typed weight, lift lines 2 m to either side, its outlet in the middle."""
    unit = Unit(position="p", number="1", kind="k", at=at, target="t", circuit="C1")
    pipe = replace(a_pipe("p", trim=6.0), lines=(-2.0, 2.0), circuits=(Circuit(name="C1", at=0.0),))
    targets = [Target(name="t", x=x, y=4.0)]
    return a_scene([unit], targets, pipes=[pipe], kinds=[replace(KIND, weight=weight)])


def _found(old: Scene, new: Scene) -> Compared:
    return compared(Show(old), Show(new), light=False)


def _figures(found: Compared) -> dict[str, tuple[object, object, bool]]:
    return {f.figure: (f.was, f.now, f.left) for row in found.changes.rows for f in row.figures}


def test_lift_lines_carry_by_the_law_of_the_lever() -> None:
    """10 kg in the middle: 5 and 5. At 1 m SL, 3 m from the SR line and 1 m from the SL one: 2.5 and 7.5."""
    assert _found(_scene(0.0), _scene(1.0)).changes.loads[-2:] == (
        Load("p", "line at 2.00 m SR", "5.0 kg", "2.5 kg"),
        Load("p", "line at 2.00 m SL", "5.0 kg", "7.5 kg"),
    )


def test_a_heavier_kind_is_told_of_its_position_and_of_no_row() -> None:
    found = _found(_scene(0.0), _scene(0.0, weight=12.0))
    assert found.changes.rows == ()
    assert found.changes.loads == (
        Load("p", "weight", "at least 10.0 kg", "at least 12.0 kg"),
        Load("p", "line at 2.00 m SR", "5.0 kg", "6.0 kg"),
        Load("p", "line at 2.00 m SL", "5.0 kg", "6.0 kg"),
    )


def test_a_line_that_is_no_more_has_no_load_now() -> None:
    new = _scene(0.0)
    (pipe,) = new.pipes
    three = replace(new, pipes=(replace(pipe, lines=(-2.0, 0.0, 2.0)),))
    told = {load.what: (load.was, load.now) for load in _found(three, new).changes.loads}
    # over the middle line the whole of it hangs on that one
    assert told["line at CENTRE"] == ("10.0 kg", None)


def _pan(x: float) -> int:
    return round(degrees(atan2(x, 4.0)))


def test_a_wedge_serves_on_where_the_unit_still_hits_with_it() -> None:
    """26 x 0.25 = 6.5 degrees may be out, on plan the more so: 2 / 4 is 27 degrees, 2.2 / 4 is 29."""
    assert (_pan(2.0), _pan(2.2), _pan(3.6)) == (27, 29, 42)
    near = _found(_scene(0.0, x=2.0), _scene(0.0, x=2.2))
    assert near.changes.rows == ()
    assert near.changes.loads == (Load("p", "wedges", "27°", "29°"),)
    far = _figures(_found(_scene(0.0, x=2.0), _scene(0.0, x=3.6)))
    assert far["wedge"] == ("27° SL of US", "42° SL of US", True)
    across = _figures(_found(_scene(0.0, x=2.0), _scene(0.0, x=-2.0)))
    assert across["wedge"] == ("27° SL of US", "27° SR of US", True)


def test_a_tail_that_reaches_its_outlet_needs_a_cable_where_the_unit_is_moved_away() -> None:
    was, now, left = _figures(_found(_scene(0.2), _scene(2.4)))["cable"]
    assert was == "TAIL REACHES OUTLET"
    assert str(now).startswith("NO CABLE, needs ")  # the store of this scene lists none
    assert left


@pytest.mark.parametrize(
    ("scene", "change"),
    [
        ("studio", "front pipe/2.at=1.6 m SL"),
        ("studio", "front pipe.trim=2.9 m"),
        ("raked", "house bar/3.at=1.4 m SL"),
        ("raked", "house bar/5.circuit=H1"),
    ],
)
def test_what_is_told_stands_on_the_hang_sheets_of_then_and_now(scene: str, change: str) -> None:
    old, new = Show.read(SCENES / scene), Show.read(SCENES / scene, None, [change])
    found = compared(old, new, light=False)
    pages = [_text(show) for show in (old, new)]
    told = [
        (str(words), page)
        for row in found.changes.rows
        for figure in row.figures
        if figure.figure in ("cable", "tail")
        for words, page in zip((figure.was, figure.now), pages, strict=True)
    ]
    told += [
        (words.split()[0].strip(","), page)
        for load in found.changes.loads
        for words, page in zip((load.was, load.now), pages, strict=True)
        if words
    ]
    assert told
    for words, page in told:
        for part in words.split(", "):
            assert "".join(part.split()) in page, part


def _text(show: Show) -> str:
    """The hang sheets of a show, without their spaces: cells are cut into lines."""
    stream = io.BytesIO()
    hang_sheets(show, stream, PaperOptions())
    return "".join("".join(page.split()) for page in pdf_reading.pages(stream.getvalue()))


def test_a_print_alone_has_no_work_at_the_pipe_to_compare() -> None:
    found = _found(_scene(0.0), _scene(1.0))
    assert found.sides[0].hung is not None
    from aimcalc.landings.changes import Side
    from aimcalc.landings.compare import compare

    bare = Side(found.sides[0].units.values())
    assert compare(bare, found.sides[1]).loads == ()


def test_the_same_show_has_no_work_to_tell() -> None:
    assert _found(_scene(1.0), _scene(1.0)).changes.loads == ()
    assert _figures(_found(_scene(1.0), _scene(1.0))) == {}
