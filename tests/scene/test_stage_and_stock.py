"""Stage, targets, kinds, solids, seats, stock and cables: kept as written, or refused."""

from __future__ import annotations

from math import sqrt
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from tests.scene.written import BASE, only, refused, write_scene

KIND = '\n[[kind]]\nname = "K"\nfamily = "ers"\n'
SOLID = '\n[[solid]]\nname = "S"\n'


def test_the_acting_area_is_the_outline_where_none_is_written(tmp_path: Path) -> None:
    text = (
        '[stage]\noutline = [["5 m SR", 0], [5, 0], [5, 8]]\nrake = "1:20"\nrake_from = "1 m US"\n'
    )
    stage = load_scene(write_scene(tmp_path, text)).stage
    assert stage.outline == stage.acting == ((-5.0, 0.0), (5.0, 0.0), (5.0, 8.0))
    assert (stage.rake, stage.rake_from) == (0.05, 1.0)


def test_a_target_remembers_whether_its_plane_was_written(tmp_path: Path) -> None:
    text = '[[target]]\nname = "B"\nx = 1\ny = 2\nz = 0.5\nplane = "point"\nface_height = 1.2\n'
    plain, pointed = load_scene(write_scene(tmp_path, text)).targets
    assert (plain.plane, plain.plane_given, plain.z) == ("face", False, None)
    assert (pointed.plane, pointed.plane_given, pointed.z) == ("point", True, 0.5)
    assert pointed.face_height == 1.2


def test_a_target_taken_as_a_point_needs_its_height(tmp_path: Path) -> None:
    text = '[[target]]\nname = "B"\nx = 1\ny = 2\nplane = "point"\n'
    assert only(write_scene(tmp_path, text)).key == "z"


def test_everything_of_a_kind_is_kept(tmp_path: Path) -> None:
    (tmp_path / "lens.ies").write_text("x")
    text = KIND + (
        'field = 26\nbeam = 18\nphotometry = "lens.ies"\npeak_cd = 90000\n'
        'oval = [12, 24]\ndrop_under = "36 cm"\ndrop_over = 0.3\nnose = 0.3\nrise = -0.02\n'
        'length = 0.6\nwidth = 0.3\nweight = "10 lb"\nwatts = "575 W"\nyoke_range = [-90, 130]\n'
        'tail = 0.9\ntail_exit = [0.2, 0.1]\nhas_frame = true\nhas_gobo = "no"\nplug = "stage pin"\n'
        "top_hat = 0.15\nlabel_distance = 0.5\n"
        'clamp_weight = "1.5 lb"\nframe_weight = "0.3 kg"\nsafety_weight = "0.4 kg"\n'
    )
    kind = load_scene(write_scene(tmp_path, text)).kinds["K"]
    assert (kind.field, kind.beam, kind.oval) == (26.0, 18.0, (12.0, 24.0))
    assert (kind.drop_under, kind.drop_over, kind.nose, kind.rise) == (0.36, 0.3, 0.3, -0.02)
    assert (kind.photometry, kind.peak_cd, kind.watts) == ("lens.ies", 90000.0, 575.0)
    assert kind.weight == pytest.approx(4.5359237)  # ten pounds
    gear = (kind.clamp_weight, kind.frame_weight, kind.safety_weight)
    assert gear == pytest.approx((0.68038856, 0.3, 0.4))
    assert (kind.yoke_range, kind.tail, kind.tail_exit) == ((-90.0, 130.0), 0.9, (0.2, 0.1))
    assert (kind.has_frame, kind.has_gobo, kind.plug) == (True, False, "stage pin")
    assert (kind.top_hat, kind.label_distance, kind.typical) == (0.15, 0.5, False)


def test_a_kind_with_a_field_alone_has_no_beam_of_ours(tmp_path: Path) -> None:
    kind = load_scene(write_scene(tmp_path, KIND + "field = 26\n")).kinds["K"]
    assert (kind.beam, kind.yoke_range, kind.weight) == (None, None, None)


def test_an_oval_alone_gives_the_round_field_of_its_area(tmp_path: Path) -> None:
    kind = load_scene(write_scene(tmp_path, KIND + "oval = [12, 27]\n")).kinds["K"]
    assert kind.field == sqrt(12 * 27) == 18.0


@pytest.mark.parametrize(
    ("keys", "key", "expected"),
    [
        ("", "field", "field (full angle in degrees), oval or photometry"),
        ("field = 0", "field", "over 0 and under 180"),
        ("field = 180", "field", "over 0 and under 180"),
        ("field = nan", "field", "an angle"),
        ("field = 20\nbeam = 21", "beam", "no wider than the field"),
        ("oval = [24, 12]", "oval", "the narrow field first"),
        ("oval = 24", "oval", "the narrow and the wide field"),
        ("field = 20\nnose = -0.1", "nose", "from 0 to 20"),
        ("field = 20\nlength = 0", "length", "greater than 0"),
        ("field = 20\nweight = 7", "weight", "a weight with its unit"),
        ("field = 20\nwatts = -5", "watts", "greater than 0"),
        ("field = 20\nyoke_range = [90, -90]", "yoke_range", "the least angle first"),
        ("field = 20\nyoke_range = [-200, 90]", "yoke_range", "from -180 to 180"),
        ("field = 20\ntail_exit = [0.1]", "tail_exit", "two lengths [back, below]"),
        ('photometry = "none.ies"', "photometry", "a file that can be read"),
        ('photometry = "../x.ies"', "photometry", "in the scene's folder"),
    ],
)
def test_an_impossible_kind_is_refused(tmp_path: Path, keys: str, key: str, expected: str) -> None:
    mistake = only(write_scene(tmp_path, f"{KIND}{keys}\n"))
    assert (mistake.key, expected in mistake.expected) == (key, True), mistake.text()


def test_a_box_keeps_its_low_corner_first(tmp_path: Path) -> None:
    text = SOLID + 'box = [2, "4 m US", 1.2, "2 m SR", 2, 0]\nstand_on = true\n'
    solid = load_scene(write_scene(tmp_path, text)).solids[0]
    assert solid.box == (-2.0, 2.0, 0.0, 2.0, 4.0, 1.2)
    assert solid.stand_on is True


def test_a_panel_and_a_mesh_are_kept(tmp_path: Path) -> None:
    (tmp_path / "wall.STL").write_text("solid")
    text = SOLID + "panel = [[-6, 1, 5], [6, 1, 5], [6, 1, 7], [-6, 1, 7]]\n"
    text += '[[solid]]\nname = "M"\nmesh = "wall.STL"\nscale = 0.001\nmove = ["1 m SR", 0, 2]\n'
    panel, mesh = load_scene(write_scene(tmp_path, text)).solids
    assert panel.panel == ((-6, 1, 5), (6, 1, 5), (6, 1, 7), (-6, 1, 7))
    assert (mesh.mesh, mesh.scale, mesh.move) == ("wall.STL", 0.001, (-1.0, 0.0, 2.0))


@pytest.mark.parametrize(
    ("keys", "key", "expected"),
    [
        ("", "box", "one of box, panel or mesh"),
        ("box = [0, 0, 0, 1, 1, 0]", "box", "differ in x, y and z"),
        ("box = [0, 0, 0, 1, 1]", "box", "two corners"),
        ("box = [0, 0, 0, 1, 1, 1]\nscale = 2", "scale", "they place a mesh"),
        ("panel = [[0, 0, 0], [1, 0, 0], [1, 0, 1]]", "panel", "4 to 4 of them, not 3"),
        # Corners of a square in crossed order: its diagonals become two parallel sides.
        ("panel = [[0, 0, 0], [1, 0, 0], [0, 0, 1], [1, 0, 1]]", "panel", "enclose an area"),
        (
            "panel = [[0, 0, 0], [4, 0, 0], [4, 0, 3], [0, 0.5, 3]]",  # half a metre upstage of the rest
            "panel",
            "the fourth is 0.50 m (20 in) off that of the first three",
        ),
        ('mesh = "wall.stl"', "mesh", "a file that can be read"),
        ('mesh = "wall.exe"', "mesh", "ending in .stl or .obj or .ply or .glb"),
        ('mesh = "/etc/passwd"', "mesh", "in the scene's folder"),
    ],
)
def test_an_impossible_solid_is_refused(tmp_path: Path, keys: str, key: str, expected: str) -> None:
    mistake = only(write_scene(tmp_path, f"{SOLID}{keys}\n"))
    assert (mistake.key, expected in mistake.expected) == (key, True), mistake.text()


@pytest.mark.parametrize(
    ("corners", "taken"),
    [
        (
            "[[0, 0, 0], [4, 0, 0], [4, 0, 3], [0, 0.019, 3]]",
            True,
        ),  # as typing to the inch leaves it
        ("[[0, 0, 0], [4, 0, 0], [4, 0, 3], [0, 0.03, 3]]", False),
        (
            "[[0, 0, 0], [2, 0.001, 0], [4, 0, 0], [2, 1.5, 3]]",
            True,
        ),  # three corners all but in a line
        (
            "[[0, 0, 0], [4, 0, 0], [4, 0.5, 3], [4, 0.5, 3]]",
            True,
        ),  # a triangle: a corner said twice
        ("[[0, 0, 0], [4, 1, 0], [4, 3, 2], [0, 2, 2]]", True),  # turned and leaning, yet flat
    ],
)
def test_a_panel_has_to_be_flat_to_2_cm(tmp_path: Path, corners: str, taken: bool) -> None:
    path = write_scene(tmp_path, f"{SOLID}panel = {corners}\n")
    if taken:
        assert len(load_scene(path).solids) == 1
    else:
        assert "(1 in) off" in only(path).expected


def test_two_shapes_in_one_solid_are_refused(tmp_path: Path) -> None:
    text = SOLID + "box = [0, 0, 0, 1, 1, 1]\npanel = [[0,0,0],[1,0,0],[1,0,1],[0,0,1]]\n"
    assert only(write_scene(tmp_path, text)).expected == "one shape, and box is written too"


def test_seats_stock_and_cables_are_kept(tmp_path: Path) -> None:
    text = '[[seats]]\nname = "stalls"\noutline = [[-5, -3], [5, -3], [5, -12]]\neye = "1.2 m"\n'
    text += '[[stock]]\nkind = "spot"\ncount = 12\n[[stock]]\nkind = "fresnel-40"\ncount = 0\n'
    text += '[[cable]]\nlength = "10 m"\ncount = 20\nplug = "stage pin"\n'
    scene = load_scene(write_scene(tmp_path, text))
    assert (scene.seats[0].eye, len(scene.seats[0].outline)) == (1.2, 3)
    assert [(entry.kind, entry.count) for entry in scene.stock] == [("spot", 12), ("fresnel-40", 0)]
    assert (scene.cables[0].length, scene.cables[0].count) == (10.0, 20)
    assert scene.kinds["fresnel-40"].typical is True


def test_stock_of_an_unknown_kind_is_refused_with_the_nearest(tmp_path: Path) -> None:
    mistake = only(write_scene(tmp_path, '[[stock]]\nkind = "fresnel 40"\ncount = 3\n'))
    assert mistake.advice() == 'Did you mean "fresnel-40"?'


@pytest.mark.parametrize("settings", ["tolerance = 0", "tolerance = 25", "tolerance = nan"])
def test_a_tolerance_is_a_share(tmp_path: Path, settings: str) -> None:
    mistake = refused(write_scene(tmp_path, settings=settings))[0]
    assert mistake.key == "tolerance"


def test_the_defaults_of_a_scene_are_those_of_its_unit(tmp_path: Path) -> None:
    metric = load_scene(write_scene(tmp_path / "m")).settings
    # No sight_out of its own: the tape lies where it can (tests/rig/test_tapes.py).
    assert (metric.face_height, metric.sight_out, metric.tolerance) == (1.65, None, 0.25)
    feet = load_scene(write_scene(tmp_path / "ft", settings='unit = "FT"')).settings
    assert (feet.unit, feet.face_height) == ("ft", 1.65)
    assert feet.sight_out is None
    own = load_scene(write_scene(tmp_path / "own", settings='unit = "in"\nsight_out = 60'))
    assert own.settings.sight_out == 60 * 0.0254


def test_a_refused_unit_of_length_is_the_only_mistake_it_makes(tmp_path: Path) -> None:
    base = BASE.replace("trim = 6", "trim = 6000").replace("height = 4", "height = 4000")
    mistake = only(write_scene(tmp_path, settings='unit = "milimetre"', base=base))
    assert (mistake.key, mistake.came) == ("unit", '"milimetre"')


@pytest.mark.parametrize(
    ("written", "read"), [('"back"', ("back",)), ('["back", "side"]', ("back", "side"))]
)
def test_a_target_may_do_without_a_system_or_several(tmp_path: Path, written, read) -> None:
    text = f'[[target]]\nname = "T2"\nx = 0\ny = 1\nwithout = {written}\n'
    for n, system in enumerate(("back", "side"), 7):
        text += f'[[unit]]\nposition = "LX 1"\nnumber = {n}\nat = {n - 6}\nkind = "spot"\ntarget = "T2"\n'
        text += f'system = "{system}"\n'
    target = load_scene(write_scene(tmp_path, text)).targets[-1]
    assert target.without == read


@pytest.mark.parametrize("written", ['"bcak"', '["back", "bcak"]'])
def test_a_system_that_no_unit_belongs_to_is_refused(tmp_path: Path, written) -> None:
    text = f'[[target]]\nname = "T2"\nx = 0\ny = 1\nwithout = {written}\n'
    text += '[[unit]]\nposition = "LX 1"\nnumber = 7\nat = 1\nkind = "spot"\ntarget = "T2"\nsystem = "back"\n'
    mistake = refused(write_scene(tmp_path, text))[0]
    assert (mistake.key, mistake.expected) == ("without", "the name of a system")
    assert mistake.choices == ("back",)
