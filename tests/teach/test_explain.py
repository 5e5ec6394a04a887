"""`aimcalc explain`: what is printed leads by pocket calculator to every figure that is printed."""

from __future__ import annotations

import re
from io import BytesIO

import numpy as np
import pytest

from aimcalc import cli
from aimcalc.scene.model import Target, Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.teach.calculator import inches
from aimcalc.teach.explain import explain_text, explained
from aimcalc.teach.explain_page import explain_page
from aimcalc.teach.sources import exact
from aimcalc.teach.worked import worked
from aimcalc.text.rows import rows_of
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene, random_scene
from tests.sheets.pdf_reading import overlaps, pages, runs
from tests.shows import SCENES, a_show, rig_of
from tests.teach.calculator import key_in, written_down

NAMES = ("studio", "raked", "arena", "playhouse")
LINE = re.compile(r"^  ([A-Z]\d*)  (\S.*?)  +(\S.*) = ([\d.]+)(?:  +(\S+(?: m| in)?), (.*))?$")
TUBES = [
    *((mount, tube) for mount in ("under", "over", "out") for tube in ("straight", "truss", "arc")),
    *((mount, tube) for mount in ("arm", "direct") for tube in ("straight", "foot")),
    ("stand", "straight"),
]


def unit_of(name):
    return "ft" if rig_of(name).scene.settings.unit in ("ft", "in") else "m"


def keyed(lines):
    """Every line keyed in, letter by letter: (what, result, printed, how it is rounded)."""
    letters = {}
    for line in lines:
        found = LINE.match(line)
        if found is None:
            continue
        letter, what, keys, shows, prints, rounding = found.groups()
        digits = len(shows.partition(".")[2])
        value = key_in(keys, letters)
        assert abs(value - float(shows)) <= 0.6 * 10.0**-digits or digits < 4, line
        assert abs(written_down(value, 8) - float(shows)) < 1e-4, line
        letters[letter] = float(shows)
        yield what, float(shows), prints, rounding


def rounds_to(value, prints, rounding):
    """Whether a result, rounded as it says, is the printed figure."""
    if rounding.startswith("down to a whole degree"):
        told = "any" if value >= 45 else f"{max(1, int(value + 1e-9))}°"
    elif rounding == "to the nearest degree":
        told = f"{int(value + 0.5)}°"
    else:
        step, unit = rounding.partition(":")[0].removeprefix("to the nearest ").split(" ")
        size = int(value / float(step) + 0.5 + 1e-9) * float(step)
        told = f"{size:.3f}"[: -1 if f"{size:.3f}".endswith("0") else None] + " m"
        if unit == "in":
            feet, rest = divmod(round(4 * size), 48)
            assert rest % 4 == 0
            told = f"{feet}'-{rest // 4}\""
    return prints == told


def figures_of(row, answer, unit):
    """The figures of a unit's row and of its answer, by what a step is called."""
    return {
        "PAN": (row.turn, row.clamp),
        "YOKE": (row.clamp,),
        "TRUE": (row.sight, row.clamp),
        "DOWN from": (row.tip.angle or "0°",),
        "UP from": (row.tip.angle or "0°",),
        "LEVEL from": ("0°",),
        "PLUMB": (row.tip.plumb,),
        "DOWN may": (row.within[0],),
        "UP may": (row.within[0],),
        "LEVEL may": (row.within[0],),
        "pan may": (row.within[1],),
        "SIGHT": (row.sight,),
        "LANDS, from the c": (row.mark.first,),
        "LANDS, from the p": (row.mark.second,),
    }


@pytest.mark.parametrize("name", NAMES)
def test_every_printed_figure_of_every_unit_comes_out_of_the_printed_keys(name):
    rig, unit = rig_of(name), unit_of(name)
    show, rows = a_show(rig, ()), rows_of(rig, (), unit)
    for k, (row, answer) in enumerate(zip(rows, rig.answers, strict=True)):
        told = explain_text(explained(show, k, unit)).splitlines()
        found = list(keyed(told))
        named = {what.split(" ")[0].rstrip(",") for what, *_ in found}
        assert {"PLUMB", "THROW", "FIELD"} <= named | ({"FIELD"} if rig.kinds[k].oval else set())
        assert "SIGHT" in named or answer.sight is None or not row.sight
        assert "PAN" in named or row.turn in ("", "PAN FREE")
        figures = figures_of(row, answer, unit)
        for what, value, prints, rounding in found:
            if prints:
                assert rounds_to(value, prints, rounding), (rig.names[k], what, value, prints)
                mine = [texts for start, texts in figures.items() if what.startswith(start)]
                if not mine:
                    assert what.startswith(("THROW", "FIELD"))
                    metres = answer.throw if what.startswith("THROW") else answer.field_diameter
                    inside = metres if unit == "m" else metres / 0.0254
                    assert value == pytest.approx(inside, abs=2e-3)
                elif ":" in rounding:  # the sheet has a word for nothing
                    assert rounding.partition(": ")[2] in mine[0]
                elif prints != "0°":
                    assert any(prints in text for text in mine[0]), (rig.names[k], what, prints)


@pytest.mark.parametrize("length", ["m", "ft"])
@pytest.mark.parametrize(("mount", "tube"), TUBES)
def test_the_keys_lead_to_the_solvers_angles_of_any_mount(mount, tube, length):
    """Lenses off their pivots, sloping and askew pipes, chords, arcs: the solver's own answers."""
    rig = solve_rig(random_scene(mount, 25, 11, tube))
    rows = rows_of(rig, (), length)
    told = 0
    for row, answer in zip(rows, rig.answers, strict=True):
        letters = {}
        for step in worked(rig, row, length):
            value = key_in(step.keys, letters)
            letters[step.letter] = float(step.shows)
            assert value == pytest.approx(float(step.shows), abs=6e-5)
            exactly = {
                "PAN": answer.pan,
                "YOKE": abs(answer.yoke),
                "DOWN from": abs(answer.down),
                "UP from": abs(answer.down),
            }
            for start, angle in exactly.items():
                if step.what.startswith(start):
                    told += 1
                    assert float(step.shows) == pytest.approx(angle, abs=0.02)
            if step.prints:
                assert rounds_to(float(step.shows), step.prints, step.rounding), step
    assert told >= 20


def test_a_unit_of_the_teaching_room_by_hand():
    """front pipe/1: at 2.7 SL, 1.2 DS, trim 3.5, drop 0.36; face 1.6 SL, 0.8 US, 1.2 up; tape 2 m out.

    Aside 1.1, ahead 2.0, fall 1.94: pan 28.81, plan 2.2825, down 40.36, way 2.9956, throw 2.6756, sight
    2.7 - 1.1 = 1.6; past the face 1.2 / 1.94 = 0.61856 of the way: LANDS 0.92 SL, 2.04 US.
    """
    found = keyed(explain_text(explained(a_show(rig_of("studio")), 0, "m")).splitlines())
    results = {what: (value, prints) for what, value, prints, _ in found}
    assert results["PAN from square, at the clamp"] == (28.8108, "29°")
    assert results["pivot to face on plan"][0] == 2.2825
    assert results["DOWN from level"] == (40.3627, "40°")
    assert results["PLUMB, what is left to 90°"] == (50, "50°")
    assert results["THROW, lens to face"] == (2.6756, "2.68 m")
    assert results["SIGHT, from the tape's 0"] == (1.6, "1.60 m")
    assert results["LANDS, from the centre line to SL"] == (0.9195, "0.90 m")
    assert results["LANDS, from the plaster line to US"] == (2.0372, "2.05 m")


def text_of(name, unit):
    rig = rig_of(name)
    return explain_text(explained(a_show(rig), rig.by_name[unit], unit_of(name)))


def test_each_number_says_where_it_came_from():
    told = text_of("playhouse", "house pipe/3")
    assert re.search(r"at +15'-0\" = 180 in SL +typed: hang.xlsx, sheet Hang, row 4", told)
    assert re.search(r"drop +1'-4\" = 16 in from clamp to pivot +typed: \[\[kind\]\]", told)
    assert re.search(r"PAN +SR 22° square US +derived: plan triangle", told)
    studio = text_of("studio", "front pipe/1")
    assert re.search(r"drop +0.36 m .* generic estimate: measure one of yours", studio)
    assert re.search(r"pipe +front pipe: trim 3.50 m measured +typed: \[\[pipe\]\]", studio)
    assert re.search(r"tape lies +2 m US of the pipe +typed: sight_out", studio)


@pytest.mark.parametrize(
    ("metres", "told"),
    [
        (222.5 * 0.0254, "222 1/2 in"),
        (0.0254 / 64, "1/64 in"),
        (0.3048, "12 in"),
        (1.0, "39.3701 in"),
    ],
)
def test_inches_are_exact_fractions(metres, told):
    assert inches(metres) == told
    assert exact(222.5 * 0.0254, "ft") == "18'-6 1/2\" = 222 1/2 in"


@pytest.mark.parametrize(
    ("name", "unit", "says"),
    [
        ("studio", "front pipe/1", "Two ways hit it. Chosen: yoke 40° away from the clamp, upright. The "
         "other: half a turn at the clamp, yoke 140° away from the clamp; it would hang upside down."),
        ("raked", "house bar/2", "Over: its stem points up, so the drop is added to the height."),
        ("raked", "roof bar/2", "Sloping pipe: one end is 0.6 m higher."),
        ("raked", "roof bar/2", "Clamp swung out: its stem leans"),
        ("studio", "boom SL/3", "the clamp tips the nose and the yoke sets the heading"),
        ("studio", "boom SL/3", "Open pool: at DOWN 3°"),
        ("arena", "ladder SL/1", "Arm: it hangs under the arm's end"),
        ("arena", "ladder SL/1", "Boom: turns are told as headings"),
    ],
)  # fmt: skip
def test_it_explains_the_choice(name, unit, says):
    assert says in text_of(name, unit)


def test_an_oval_field_says_that_its_two_ways_differ():
    rig = rig_of("playhouse")
    ovals = [rig.names[k] for k, kind in enumerate(rig.kinds) if kind.oval]
    assert "Oval field" in text_of("playhouse", ovals[0])
    assert "oval" in text_of("playhouse", ovals[0]).split("THE CHOICE")[0]


def test_the_other_way_is_the_solvers_own_with_its_yoke_kept_from_the_first():
    """With the first way outside the yoke's travel the solver takes the second: the angle that was told."""
    kind = a_kind(drop_under=0.4, nose=0.3, field=30.0, rise=0.03)
    unit = Unit(position="p", number="1", kind="k", at=1.0, target="t")
    target = Target(name="t", x=-1.0, y=4.0)
    scene = a_scene([unit], pipes=[a_pipe()], kinds=[kind], targets=[target])
    told = explain_text(explained(a_show(solve_rig(scene)), 0, "m"))
    other = int(re.search(r"The other: half a turn at the clamp, yoke (\d+)°", told)[1])
    bound = a_kind(drop_under=0.4, nose=0.3, field=30.0, rise=0.03, yoke_range=(90.0, 180.0))
    second = solve_rig(a_scene([unit], pipes=[a_pipe()], kinds=[bound], targets=[target]))
    assert second.answers[0].attitude == "upside down"
    assert abs(second.answers[0].yoke - other) <= 0.5


def test_what_would_change_it_most_by_hand():
    """A kind of 0.02 m more drop lowers the light by it: square to a beam 40.4 down, 0.02 cos 40.4 = 0.015.

    A level 1.118 out (hand 1, level 0.5) at 2.9956 m from the pivot: 0.0585.
    """
    told = explained(a_show(rig_of("studio")), 0, "m")
    moves = {change.what: change.moves for change in told.changes}
    assert moves["down, level and hand"] == "0.06 m"
    assert [float(change.moves[:-2]) for change in told.changes] == sorted(
        (float(change.moves[:-2]) for change in told.changes), reverse=True
    )
    assert np.isclose(0.02 * np.cos(np.radians(40.3627)), 0.0152, atol=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_the_page_has_no_overlap_no_minus_and_every_key(name):
    rig, unit = rig_of(name), unit_of(name)
    show, paper = a_show(rig), {"m": "a4", "ft": "letter"}[unit_of(name)]
    for k in range(0, len(rig.units), 5 if len(rig.units) < 30 else 17):
        told, out = explained(show, k, unit), BytesIO()
        assert explain_page(show, told, out, PaperOptions(paper=paper, length=unit)) == 2
        again = BytesIO()
        explain_page(show, told, again, PaperOptions(paper=paper, length=unit))
        assert out.getvalue() == again.getvalue()
        for page in runs(out.getvalue()):
            assert overlaps(page) == [], rig.names[k]
        text = "\n".join(pages(out.getvalue()))
        assert not re.search(r"(?<![\w'])[-\u2212]\d", text)
        for step in told.steps:
            assert step.shows in text
        assert "GEOMETRY ONLY" in text


def test_the_command_prints_and_writes(capfd, tmp_path):
    file = tmp_path / "why.pdf"
    assert cli.run(["explain", str(SCENES / "studio"), "front pipe/1", "-o", str(file)]) == 0
    out, err = capfd.readouterr()
    assert out.startswith("front pipe/1: ers-40 on chair SL, hung under\n")
    assert err == ""
    assert len(pages(file.read_bytes())) == 2


def test_a_unit_that_is_none_is_refused_with_the_nearest(capfd):
    assert cli.run(["explain", str(SCENES / "studio"), "front pipe/99"]) == 2
    assert 'Did you mean "front pipe/' in capfd.readouterr().err
