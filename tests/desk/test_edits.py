"""Edits: the scene they make, slowly and fast, in words, as typed, and the list of them."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from aimcalc.desk.edits import (
    Changes,
    Edit,
    as_typed,
    by_points,
    changed,
    edit_of,
    moved,
    pipe_to,
    step_words,
    target_to,
    unit_index,
    unit_to,
    words,
)
from aimcalc.rig.places import place
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.scene.written import UNIT, write_scene
from tests.test_changed import told

SCENES = Path(__file__).parents[2] / "scenes"
NAMES = ("playhouse", "raked", "studio", "arena")
INCH = 0.0254  # m, exact


@pytest.fixture(scope="module")
def scenes() -> dict[str, Scene]:
    return {name: load_scene(SCENES / name) for name in NAMES}


# --- the scene that edits make ---


def test_an_edit_is_what_set_makes_of_it(scenes: dict[str, Scene]) -> None:
    path = SCENES / "playhouse"
    mine = changed(path, [Edit("area 3", "y", "1' US"), Edit("pipe 1/1", "colour", None)])
    assert mine == load_scene(path, ["area 3.y=1' US", "pipe 1/1.colour="])
    assert next(t for t in mine.targets if t.name == "area 3").y == pytest.approx(0.3048)
    assert load_scene(path) == scenes["playhouse"]


def test_a_mistake_names_the_edit_and_not_a_command_line() -> None:
    with pytest.raises(SceneError) as caught:
        changed(SCENES / "studio", [Edit("chair SL", "x", "wide"), Edit("chair 9", "x", 1)])
    places = {mistake.place() for mistake in caught.value.mistakes}
    assert places == {"chair SL, x", "chair 9, x"}


@pytest.mark.parametrize("value", ["5.8", 5.8, "5.8 m", "a  b", 'say "3"', "", [1, "2 m"], True])
def test_no_two_values_are_typed_alike(tmp_path: Path, value: object) -> None:
    """Or a drag could be taken for no move at all."""
    path = write_scene(tmp_path / "s", UNIT)
    asked = Edit("LX 1/1", "note", value)
    try:
        typed = changed(path, [asked]).what_if
    except SceneError:
        return
    other = changed(path, [asked._replace(value=f"{value} ")]).what_if
    assert typed != other


MOVED = {
    "playhouse": ["area 3.x", "area 3.y", "pipe 2.y", "pipe 2.trim", "pipe 2/3.at", "boom SL/2.at",
                  "boom SL.y", "floor SR.x", "clock.y", "house pipe/1.at"],
    "raked": ["mark 2.x", "back bar.y", "back bar.trim", "gallery bar SL/1.at", "roof bar/2.at"],
    "studio": ["chair SR.x", "chair SR.y", "front pipe.trim", "back pipe/2.at", "boom SL/1.at"],
    "arena": ["crier.x", "floor.y", "market bar.y", "truss.trim", "rail DS/1.at", "step SL.y",
              "truss/2.at"],
}  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
@given(data=st.data())
@settings(max_examples=25, deadline=None)
def test_the_fast_way_makes_the_very_scene_that_reading_makes(
    name: str, data: st.DataObject
) -> None:
    some = data.draw(st.lists(st.sampled_from(MOVED[name]), min_size=1, max_size=3, unique=True))
    far = st.floats(0.1, 6).map(lambda metres: round(metres, 3))
    written = st.one_of(far, far.map(lambda m: f"{m} m"), far.map(lambda m: as_typed(m, "ft")))

    def edits() -> list[Edit]:
        return [Edit(*each.rsplit(".", 1), data.draw(written)) for each in some]

    first, then = edits(), edits()
    before = changed(SCENES / name, first)
    fast = moved(before, then)
    assert fast is not None
    assert told(fast) == told(changed(SCENES / name, then))
    assert fast.positions == changed(SCENES / name, then).positions


def test_the_fast_way_leaves_to_reading_what_it_cannot_know(scenes: dict[str, Scene]) -> None:
    path = SCENES / "playhouse"
    before = changed(path, [Edit("area 3", "x", 1), Edit("pipe 1/1", "kind", "ers-30")])
    x, kind = Edit("area 3", "x", 2), Edit("pipe 1/1", "kind", "ers-30")
    assert moved(before, [x, kind]) is not None
    assert moved(before, [x]) is None  # one less
    assert moved(before, [x, kind, Edit("area 3", "y", 2)]) is None  # one more
    assert moved(before, [x, kind._replace(value="ers-20")]) is None
    assert moved(before, [x._replace(value="wide"), kind]) is None
    assert moved(scenes["playhouse"], [x]) is None


def test_a_target_that_says_how_a_list_is_read_is_never_moved_the_fast_way(tmp_path: Path) -> None:
    """Plus is read as SL while the units are aimed to their own side; with the target gone across, that is
    asked, which only reading can do."""
    path = write_scene(tmp_path / "s", settings='hang = "hang.csv"')
    rows = "".join(f"LX 1,{n},{at},spot,A\n" for n, at in ((1, 3), (2, 2), (3, 1), (4, -1)))
    Path(path, "hang.csv").write_text("position,number,dist from centre,kind,target\n" + rows)
    before = changed(path, [Edit("A", "x", 2)])
    assert moved(before, [Edit("A", "x", -2)]) is None
    with pytest.raises(SceneError):
        changed(path, [Edit("A", "x", -2)])


# --- where things are dragged to ---


@pytest.mark.parametrize(
    ("metres", "unit", "axis", "typed"),
    [
        (3 * 12 * INCH, "ft", "x", "3' SL"),
        (-3.5 * 12 * INCH, "ft", "x", "3'-6\" SR"),
        (6.4 * INCH, "ft", "y", "0'-6\" US"),
        (0.4 * INCH, "ft", "y", "0'"),
        (41.6 * INCH, "in", "y", "42 in US"),
        (1.604, "m", "x", "1.6 m SL"),
        (-1.655, "m", "y", "1.66 m DS"),
        (3.0, "m", "", "3 m"),
        (-0.3, "m", "", "-0.3 m"),
        (0.004, "m", "x", "0 m"),
        (1.234, "cm", "x", "123 cm SL"),
        (1.234, "mm", "", "1230 mm"),
    ],
)
def test_a_place_is_rounded_and_written_as_a_person_would(
    metres: float, unit: str, axis: str, typed: str
) -> None:
    assert as_typed(metres, unit, axis) == typed


@given(
    st.floats(-30, 30),
    st.sampled_from(["m", "cm", "mm", "ft", "in"]),
    st.sampled_from(["x", "y", ""]),
)
def test_what_is_typed_reads_as_the_place_within_half_a_step(
    metres: float, unit: str, axis: str
) -> None:
    read = parse_length(as_typed(metres, unit, axis), unit, axis)
    assert abs(read - metres) <= (INCH if unit in ("ft", "in") else 0.01) / 2 + 1e-9
    assert as_typed(read, unit, axis) == as_typed(metres, unit, axis)


def test_a_target_is_put_to_a_point(scenes: dict[str, Scene]) -> None:
    step = target_to(scenes["playhouse"], "area 3", 0.93, -0.31)
    assert step == (Edit("area 3", "x", "3'-1\" SL"), Edit("area 3", "y", "1' DS"))


def test_a_unit_slides_along_its_pipe_and_not_past_its_end(scenes: dict[str, Scene]) -> None:
    """The studio's front pipe is level, 6 m long, zero on the centre line."""
    studio = scenes["studio"]
    was = (1.1, -1.2, 3.5)
    assert unit_to(studio, "front pipe/2", was, (1.4, 5.0, None)) == (
        Edit("front pipe/2", "at", "1.4 m SL"),
    )
    assert unit_to(studio, "front pipe/2", was, (-9.0, 0.0, None))[0].value == "3 m SR"
    assert unit_to(studio, "front pipe/2", was, (None, 5.0, 1.0))[0].value == "1.1 m SL"
    assert unit_to(studio, "boom SL/2", (3.4, 0.7, 2.1), (None, 9.0, 2.45))[0].value == "2.45 m"
    assert unit_to(studio, "nobody/1", was, (0, 0, 0)) == ()
    assert unit_to(scenes["playhouse"], "floor SL/1", was, (0, 0, 0)) == ()


@pytest.mark.parametrize("name", ["raked", "arena"])
def test_a_unit_follows_a_pipe_that_slopes_turns_or_bends(
    scenes: dict[str, Scene], name: str
) -> None:
    """Put to where a clamp is on plan, it is measured as that clamp is: within half a centimetre."""
    scene = scenes[name]
    seen = 0
    for unit in scene.units:
        position = scene.positions[unit.position]
        if unit.at is None or not hasattr(position, "start"):
            continue
        for by in (-0.4, 0.25):
            here, there = (place(position, unit.at + k, unit.chord) for k in (0.0, by))
            was = [z + unit.at * a for z, a in zip(here.zero, here.along, strict=True)]
            to = [z + (unit.at + by) * a for z, a in zip(there.zero, there.along, strict=True)]
            who = f"{unit.position}/{unit.number}"
            (edit,) = unit_to(scene, who, was, (to[0], to[1], None))
            again = changed(SCENES / name, [edit])
            at = again.units[unit_index(scene, who)].at
            assert at == pytest.approx(unit.at + by, abs=0.0051)
            seen += 1
    assert seen > 20


def test_a_pipe_is_put_elsewhere_by_the_keys_it_is_written_with(scenes: dict[str, Scene]) -> None:
    assert by_points(str(SCENES / "raked")) == {"gallery bar SL", "gallery bar SR", "roof bar"}
    assert pipe_to(scenes["raked"], "back bar", False, y=7.512, trim=6.1) == (
        Edit("back bar", "y", "7.51 m US"),
        Edit("back bar", "trim", "6.1 m"),
    )
    assert pipe_to(scenes["raked"], "roof bar", True, y=4.504, trim=5.9) == (
        Edit("roof bar", "start", ["5 m SL", "4.2 m US", "5.6 m"]),
        Edit("roof bar", "end", ["5 m SR", "4.8 m US", "6.2 m"]),
    )
    step = pipe_to(scenes["arena"], "market bar", False, trim=4.6)
    assert step == (Edit("market bar", "trims", {"market": "4.6 m", "storm": "5.2 m"}),)
    bar = changed(SCENES / "arena", step).positions["market bar"]
    assert [trim.trim for trim in bar.trims] == [4.6, 5.2]
    assert pipe_to(scenes["arena"], "nothing", False, y=1) == ()


# --- in words ---


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        (Edit("area 3", "y", "1'"), "area 3: 1'-0\" US"),
        (Edit("area 3", "x", 0), "area 3: on the centre line"),
        (Edit("pipe 1", "trim", "19'-6\""), "pipe 1: trim 19'-6\""),
        (Edit("pipe 1/3", "at", "2' SR"), "pipe 1/3: at 2'-0\" SR"),
        (Edit("boom SL/2", "at", 6.5), "boom SL/2: at 6'-6\""),
        (Edit("pipe 1/3", "kind", "ers-30"), "pipe 1/3: kind ers-30"),
        (Edit("pipe 1/3", "colour", None), "pipe 1/3: no colour"),
        (Edit("pipe 1", "measured", False), "pipe 1: not measured"),
        (Edit("area 3", "face_height", 5), "area 3: face height 5'-0\""),
        (Edit("area 3", "y", "no length"), 'area 3: y "no length"'),
        (Edit("<script>", "x", 3), "<script>: 3'-0\" SL"),
    ],
)
def test_an_edit_in_words(scenes: dict[str, Scene], edit: Edit, says: str) -> None:
    assert words(scenes["playhouse"], edit) == says


def test_a_drag_of_a_target_is_told_as_one_change(scenes: dict[str, Scene]) -> None:
    step = (Edit("area 3", "x", "3' SL"), Edit("area 3", "y", "1' DS"))
    assert step_words(scenes["playhouse"], step) == "area 3: 3'-0\" SL, 1'-0\" DS"


# --- undo and redo ---


def test_changes_are_undone_and_redone_in_order() -> None:
    a, b = (Edit("A", "x", 1),), (Edit("B", "x", 2),)
    both = Changes().made(a).made(b)
    assert both.edits == (*a, *b)
    back = both.undo()
    assert (back.edits, back.undo().edits, back.undo().undo().edits) == (a, (), ())
    assert back.redo() == both == both.redo()
    assert back.made(a).undone == ()


def test_a_drag_is_one_change_and_another_of_the_same_thing_a_second() -> None:
    drag = [(Edit("A", "x", n),) for n in range(4)]
    made = Changes().made(drag[0])
    for step in drag[1:3]:
        made = made.made(step, going_on=True)
    again = made.made(drag[3])
    assert again.done == (drag[2], drag[3])
    assert again.edits == drag[3]
    assert again.undo().edits == drag[2]


# --- what a page may send ---


@pytest.mark.parametrize("raw", [["A", "x", 1], ["A", "x", None], ["u/1", "point", [1, "2 m", 3]]])
def test_a_page_sends_edits_as_lists(raw: list[object]) -> None:
    assert edit_of(raw) == Edit(*raw)


@pytest.mark.parametrize(
    "raw",
    [
        None,
        "A.x=1",
        ["A", "x"],
        ["A", 3, 1],
        ["", "x", 1],
        ["A\n", "x", 1],
        ["A", "x", {"a": 1}],
        ["A", "x", "9" * 5000],
        ["A", "x", [[[[1]]]]],
        ["A", "x", [1] * 500],
    ],
)
def test_what_is_no_edit_is_told(raw: object) -> None:
    with pytest.raises(ValueError, match="Expected"):
        edit_of(raw)


def test_a_number_that_is_none_is_a_mistake_of_its_edit() -> None:
    with pytest.raises(SceneError, match="chair SL, x"):
        changed(SCENES / "studio", [edit_of(["chair SL", "x", math.nan])])
