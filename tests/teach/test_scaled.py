"""`aimcalc scale`: a low practice pipe keeps every angle of the stage, and says what it cannot keep."""

from __future__ import annotations

import json
import math
import re
from io import BytesIO

import numpy as np
import pytest

from aimcalc import cli
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Pipe, Target, Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.teach.scaled import scaled
from aimcalc.teach.scaled_page import scaled_page
from aimcalc.teach.scaled_text import scaled_json, scaled_text
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene, random_scene, thrown
from tests.sheets.pdf_reading import overlaps, pages, runs
from tests.shows import SCENES, a_show, rig_of

HEIGHT = 2.2


def straight(name):
    """The straight pipes of a scene that hold units."""
    rig = rig_of(name)
    return [
        position
        for position, rows in rig.rows.items()
        if rows
        and isinstance(rig.scene.positions[position], Pipe)
        and rig.scene.positions[position].through is None
    ]


PIPES = [
    (name, position)
    for name in ("studio", "raked", "arena", "playhouse")
    for position in straight(name)
]


def apart(one, other):
    """Degrees between two headings."""
    return abs((one - other + 180) % 360 - 180)


@pytest.mark.parametrize(("name", "position"), PIPES)
def test_the_practice_pipe_solved_by_itself_has_the_angles_of_the_stage(name, position):
    rig = rig_of(name)
    practice = scaled(a_show(rig), position, HEIGHT)
    low = practice.show.rig
    for j, k in enumerate(practice.rows):
        there, here = rig.answers[k], low.answers[j]
        assert here.number == there.number
        assert (here.square, here.attitude) == (there.square, there.attitude)
        assert here.swing == there.swing or there.pan < 1e-6  # square, but for rounding
        for angle in ("pan", "down", "yoke", "roll"):
            assert getattr(here, angle) == pytest.approx(getattr(there, angle), abs=1e-6)
        assert apart(here.heading, there.heading) < 1e-6


@pytest.mark.parametrize(("name", "position"), PIPES)
def test_two_tapes_and_a_stick_give_pan_and_down_of_units_hung_under_it(name, position):
    """From the printed places alone: aside and out on the floor, height less drop less the spot's height."""
    rig = rig_of(name)
    told = json.loads(scaled_json(scaled(a_show(rig), position, HEIGHT)))
    pipe = rig.scene.positions[position]
    if pipe.start[2] != pipe.end[2]:  # its stems lean along it: the test above has them
        return
    plus = ("SL", "US")
    for unit in told["units"]:
        k = rig.by_name[unit["unit"]]
        if rig.units[k].mount != "under":
            continue
        spot = unit["spot_at"]
        along = spot["along"] * (1 if spot["along_side"] in plus else -1)
        aside = along - unit["at"]
        fall = HEIGHT - rig.kinds[k].drop_under - spot["up"]
        answer = rig.answers[k]
        assert math.degrees(math.atan2(abs(aside), spot["out"])) == pytest.approx(
            answer.pan, abs=1e-5
        )
        assert spot["out_side"] == answer.square
        assert math.degrees(math.atan2(fall, math.hypot(aside, spot["out"]))) == pytest.approx(
            answer.down, abs=1e-5
        )
        if unit["sight"] is not None:
            slope = math.tan(math.radians(answer.pan)) * unit["sight_out"]
            way = 1 if aside > 0 else -1
            assert unit["sight"] == pytest.approx(unit["at"] + way * slope, abs=1e-6)


def test_the_teaching_room_by_hand():
    """k = (2.2 - 0.36) / (3.5 - 0.36) = 0.585987; unit 1 at 2.7, spot 1.6 SL, 2.0 out, 1.2 up, all times k.

    Its tape lies 2 k, to a whole half metre 1.0 m, out: 1.58217 - 1.1 / 2 = 1.03217.
    """
    told = json.loads(scaled_json(scaled(a_show(rig_of("studio")), "front pipe", HEIGHT)))
    k = 1.84 / 3.14
    first = told["units"][0]
    assert told["scale"] == pytest.approx(k)
    assert first["at"] == pytest.approx(2.7 * k)
    assert first["sight"] == pytest.approx(2.7 * k - 0.55)
    assert first["sight_out"] == 1.0
    assert first["spot_at"]["along"] == pytest.approx(1.6 * k)
    assert first["spot_at"]["out"] == pytest.approx(2.0 * k)
    assert first["spot_at"]["up"] == pytest.approx(1.2 * k)


@pytest.mark.parametrize("mount", ["under", "over", "out"])
@pytest.mark.parametrize("tube", ["straight", "truss"])
def test_the_ray_thrown_from_what_is_told_hits_the_practice_spot(mount, tube):
    """Lenses off their pivots, sloping pipes, chords: thrown forward by the tests' own mounts."""
    rig = solve_rig(random_scene(mount, 20, 3, tube))
    hit = 0
    for position in rig.rows:
        try:
            practice = scaled(a_show(rig), position, 2.4)
        except Wrong:
            continue
        answer = practice.show.rig.answers[0]
        if answer.attitude == "plumb":
            continue
        lens, axis, _ = thrown(answer, practice.show.scene)
        way = np.array(answer.face) - lens
        assert np.linalg.norm(np.cross(axis, way)) < 1e-8
        hit += 1
    assert hit >= 8


def test_a_unit_of_another_drop_has_its_spot_higher_by_what_does_not_shrink():
    """Drops 0.4 and 0.6, trim 6, height 2.2: k = 1.8 / 5.6; the deep one's spot is (1 - k) 0.2 lower."""
    kinds = [
        a_kind("k", drop_under=0.4, nose=0.2, field=20.0),
        a_kind("deep", drop_under=0.6, field=20.0),
    ]
    units = [
        Unit(position="p", number="1", kind="k", at=-2.0, target="t"),
        Unit(position="p", number="2", kind="k", at=0.0, target="t"),
        Unit(position="p", number="3", kind="deep", at=2.0, target="t"),
    ]
    scene = a_scene(units, pipes=[a_pipe()], kinds=kinds, targets=[Target(name="t", x=0.0, y=4.0)])
    practice = scaled(a_show(solve_rig(scene)), "p", 2.2)
    k = 1.8 / 5.6
    told = {unit["unit"]: unit for unit in json.loads(scaled_json(practice))["units"]}
    assert told["p/1"]["spot_at"]["up"] == pytest.approx(1.65 * k)
    assert told["p/3"]["spot_at"]["up"] == pytest.approx(1.65 * k - (1 - k) * 0.2)
    assert told["p/3"]["spot_off_scale"] == pytest.approx(-(1 - k) * 0.2)
    assert "Unit 3: its spot is 0.135 m lower than to scale" in scaled_text(practice, "m")


def test_units_that_have_no_room_side_by_side_hang_in_rounds():
    """Bodies 0.3 wide, 0.1 for hands: from 0.4 on they fit. 0.9 apart times k = 0.3214 is 0.289."""
    kind = a_kind(drop_under=0.4, nose=0.2, field=20.0, width=0.3, length=0.5)
    units = [
        Unit(position="p", number=f"{n}", kind="k", at=0.9 * n, target="t") for n in range(1, 7)
    ]
    scene = a_scene(units, pipes=[a_pipe()], kinds=[kind], targets=[Target(name="t", x=0.0, y=4.0)])
    told = json.loads(scaled_json(scaled(a_show(solve_rig(scene)), "p", 2.2)))
    assert [sorted(group) for group in told["rounds"]] == [["1", "3", "5"], ["2", "4", "6"]]


@pytest.mark.parametrize(
    ("name", "position", "height", "says"),
    [
        ("studio", "boom SL", 2.2, "a straight pipe or truss"),
        ("arena", "rail DS", 2.2, "a straight pipe or truss"),
        ("studio", "front pipe", 4.0, "between the drop, 0.36 m, and the trim, 3.50 m"),
        ("studio", "front pipe", 0.5, "from each lens to its spot"),
    ],
)
def test_what_will_not_do_is_refused_in_words(name, position, height, says):
    with pytest.raises(Wrong, match=re.escape(says)):
        scaled(a_show(rig_of(name)), position, height)


@pytest.mark.parametrize(("name", "position"), PIPES[:8])
def test_its_sheet_has_no_overlap_and_boxes_in_the_order_of_care(name, position):
    rig = rig_of(name)
    unit = "ft" if rig.scene.settings.unit in ("ft", "in") else "m"
    practice, out = scaled(a_show(rig), position, HEIGHT), BytesIO()
    options = PaperOptions(paper="letter" if unit == "ft" else "a4", length=unit)
    scaled_page(practice, out, options)
    for page in runs(out.getvalue()):
        assert overlaps(page) == []
    text = "\n".join(pages(out.getvalue()))
    assert not re.search(r"(?<![\w'])[-\u2212]\d", text)
    heads = [text.index(f" {word}") for word in ("safe", "upright", "tail", "landing")]
    assert heads == sorted(heads)
    assert "Minors and untrained people work on the deck only" in " ".join(text.split())
    assert "GEOMETRY ONLY" in text


def test_the_command(capfd, tmp_path):
    file = tmp_path / "low.pdf"
    call = ["scale", str(SCENES / "studio"), "front pipe", "--height", "2.2m"]
    assert cli.run([*call, "-o", str(file)]) == 0
    assert capfd.readouterr().out.startswith(
        "front pipe on a practice pipe 2.20 m high, scale 0.586\n"
    )
    assert len(pages(file.read_bytes())) == 2
    assert cli.run([*call, "--json"]) == 0
    assert json.loads(capfd.readouterr().out)["position"] == "front pipe"
    assert cli.run([*call[:-1], "9 m"]) == 2
    assert "expected a height between the drop, 0.36 m, and the trim" in capfd.readouterr().err
