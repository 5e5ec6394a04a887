"""Which sheets are out of date after a change: those, and no others, that come out otherwise when printed."""

from __future__ import annotations

import importlib
import io
from functools import cache

import msgspec
import pytest

from aimcalc.landings.changes import Change, Changes, Row
from aimcalc.scene.model import Kind, Scene, Seats, Solid, Stage, Target, Unit
from aimcalc.sheets.pieces import PIECES
from aimcalc.sheets.stale import LIKE, TOLD, WORKED, stale, stale_words, with_packs
from aimcalc.show import Show
from aimcalc.text.changes.compare import compared
from aimcalc.text.stamp import PaperOptions, Stamp
from tests.rigs import a_pipe, a_scene

replace = msgspec.structs.replace
OPTIONS = PaperOptions(stamp=Stamp("K7MP4"))
FLAT = Solid(name="flat", box=(-3.0, 3.4, 0.0, -2.2, 3.5, 2.4))
KIND = Kind(
    name="k",
    family="ers",
    field=26.0,
    peak_cd=90_000.0,
    drop_under=0.36,
    nose=0.3,
    length=0.6,
    width=0.2,
    weight=7.0,
    watts=600.0,
    has_frame=True,
)


def _unit(number: int, at: float, target: str, **more: object) -> Unit:
    given = {"position": "p", "number": str(number), "kind": "k", "at": at, "target": target}
    return Unit(**{**given, "system": "front", "channel": str(number), **more})  # type: ignore[arg-type]


@cache
def _scene() -> Scene:
    scene = a_scene(
        [
            _unit(1, 2.0, "a", circuit="C1", colour="straw"),
            _unit(2, -2.0, "b", circuit="C2", colour="blue"),
        ],
        [Target(name="a", x=1.0, y=3.0), Target(name="b", x=-1.0, y=3.0)],
        pipes=[
            replace(a_pipe("p", y=0.0, trim=5.0), lines=(-3.0, 3.0), rating=200.0, pipe_weight=3.0)
        ],
        kinds=[KIND],
        solids=[FLAT],
        stage=Stage(outline=((-4, -1), (4, -1), (4, 5), (-4, 5))),
    )
    stalls = Seats(name="stalls", outline=((-3, -8), (3, -8), (3, -3), (-3, -3)), eye=1.2)
    return replace(scene, seats=(stalls,))


def _printed(scene: Scene) -> dict[str, list[bytes]]:
    """Every sheet as it is written, under one stamp."""
    show, found = Show(scene), {}
    for piece in PIECES:
        module, _, name = piece.maker.partition(":")
        files = [io.BytesIO() for _ in piece.files]
        getattr(importlib.import_module(module), name)(show, *files, OPTIONS)
        found[piece.name] = [file.getvalue() for file in files]
    return found


@cache
def _before() -> dict[str, list[bytes]]:
    return _printed(_scene())


def _pipe(**values: object) -> Scene:
    (pipe,) = _scene().pipes
    return replace(_scene(), pipes=(replace(pipe, **values),))


def _solid(**values: object) -> Scene:
    return replace(_scene(), solids=(replace(FLAT, **values),))


def _kind(**values: object) -> Scene:
    return replace(_scene(), kinds={"k": replace(KIND, **values)})


def _first(**values: object) -> Scene:
    first, *others = _scene().units
    return replace(_scene(), units=(replace(first, **values), *others))


DRAWINGS = {"plan", "fall-plan", "section", "gap-map", "by-area", "overview"}
# What is named though it is printed as before (the flat stands off the section's cut), and what comes out
# otherwise though the old one serves on.
CASES = {
    "scenery moved": (
        lambda: _solid(box=(-3.0, 3.0, 0.0, -2.2, 3.1, 2.4)),
        {"head-page", "by-area", "lists", "section"},
        set(),
    ),
    "scenery gone": (
        lambda: replace(_scene(), solids=()),
        {"head-page", "by-area", "lists", "section"},
        set(),
    ),
    "a rating": (lambda: _pipe(rating=300.0), set(), set()),
    "lift lines": (lambda: _pipe(lines=(-2.5, 2.5)), {"counts"}, set()),
    "what a pipe weighs": (lambda: _pipe(pipe_weight=4.0), set(), set()),
    "what a kind weighs": (lambda: _kind(weight=9.0), set(), set()),
    "what a kind gives": (lambda: _kind(peak_cd=45_000.0), set(), set()),
    "eyes of the audience": (
        lambda: replace(_scene(), seats=(replace(_scene().seats[0], eye=1.5),)),
        {"head-page", "aim-sheets"},
        set(),
    ),
    "a colour": (
        lambda: _first(colour="rose"),
        {"cards", "hang-sheets", "gap-map", "test-sheet"},
        set(),
    ),
    "a channel": (
        lambda: _first(channel="99"),
        set(),
        {"aim-sheets", "cards", "hang-sheets", "gap-map", "ladder", "deck"},
    ),
    "a unit moved": (lambda: _first(at=1.2), {"test-sheet"}, set()),
    "nothing": (_scene, set(), set()),
}


@pytest.mark.parametrize("name", CASES)
def test_a_sheet_is_named_where_it_is_printed_otherwise(name: str) -> None:
    make, too_many, serving = CASES[name]
    scene = make()
    now, before = _printed(scene), _before()
    differ = {sheet for sheet in before if now[sheet] != before[sheet]}
    changes = compared(Show(_scene()), Show(scene), light=False).changes
    named = {sheet for sheet, where in stale(changes).items() if where and sheet in before}
    too_many = too_many | set(LIKE)  # named where either of those that they are like is
    assert differ - serving <= named
    assert named - too_many <= differ
    assert not differ & named & serving


def test_scenery_that_is_moved_leaves_what_is_drawn_of_it_out_of_date() -> None:
    """A flat that no light comes near: no row changes, and the old plans show it where it is not."""
    far = (3.4, 4.6, 0.0, 3.9, 4.8, 1.0)
    near = (3.4, 4.4, 0.0, 3.9, 4.6, 1.0)
    old, new = _solid(box=far), _solid(box=near)
    changes = compared(Show(old), Show(new), light=False).changes
    assert changes.rows == ()
    told = stale(changes)
    assert {sheet for sheet in DRAWINGS if told[sheet] == "all of it"} == DRAWINGS
    assert (told["aim-sheets"], told["hang-strip"], told["pan-dial"]) == ("", "", "")


def test_every_sheet_that_is_named_is_one() -> None:
    names = {piece.name for piece in PIECES}
    told = {sheet for keys in TOLD.values() for sheets in keys.values() for sheet in sheets}
    assert told | set(WORKED) <= names
    # the tools hold for any rig, and the steps for as long as units hang in the same ways
    assert names - set(WORKED) - set(LIKE) == {"pan-dial", "plumb-card", "steps"}


def test_the_pack_of_a_position_is_out_of_date_where_its_sheets_are() -> None:
    """Whether a trim was measured stands on both sheets of a position, though no row of it changes."""
    changes = compared(Show(_scene()), Show(_pipe(measured=True)), light=False).changes
    assert changes.rows == ()
    part, out, good = stale_words(changes, with_packs(changes), "of A")
    assert "cards.pdf (p)" in part
    assert "pack-p.pdf" in out
    assert "steps-card.pdf" in good
    # A title stands on every page of every pack, whatever positions there are.
    changes = Changes((Change("title", "scene", "", "One", "Other"),), (), 2)
    assert "pack-*.pdf" in " ".join(stale_words(changes, with_packs(changes), "of A"))


def test_a_change_of_one_position_leaves_the_packs_of_the_others() -> None:
    rows = (Row("b/1", "b", (), ("aim",)),)
    files = ["pack-a.pdf", "pack-b.pdf", "pack-head.pdf"]
    out, good = stale_words(Changes((), rows, 2), files, "of A")
    assert out == "Out of date of A: pack-head.pdf, pack-b.pdf."
    assert good == "Still good of A: pack-a.pdf."
