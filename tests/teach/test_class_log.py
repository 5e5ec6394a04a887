"""Predict, then light it: a class's log, the ranking of causes for each group, the class's page."""

from __future__ import annotations

import csv
import io
import math

import pytest

from aimcalc.paper.page import write_pages
from aimcalc.scene.mistakes import SceneError
from aimcalc.teach.class_log import COLUMNS, LOOK_FOR, read_class
from aimcalc.teach.class_page import class_page, class_text, log_csv, log_pages
from aimcalc.text.stamp import PaperOptions
from tests.sheets.pdf_reading import overlaps, pages, runs
from tests.shows import a_show, rig_of

SHOW = a_show(rig_of("studio"))
# Units of the front pipe by hand: at (SL), the pan they print (degrees to SL), down.
# Their pivots are 1.2 m DS and 3.14 m up.
FRONT = {
    1: (2.70, -29, 40),
    2: (1.10, -29, 40),
    3: (0.55, 28, 41),
    4: (-0.55, -28, 41),
    5: (-1.10, 29, 40),
    6: (-2.70, 29, 40),
}


def lands(number, *, pan=1, floor=None):
    """Where a unit of the front pipe lands by trigonometry; `pan` -1 mirrored, `floor` its own down."""
    at, turn, down = FRONT[number]
    far = 3.14 / math.tan(math.radians(down if floor is None else floor))
    return at + far * math.sin(math.radians(pan * turn)), -1.2 + far * math.cos(math.radians(turn))


def at_feet(number):
    """Where it lands tipped at the feet of its chair in place of the face: STAND itself, 0.8 m US."""
    return {1: 1.6, 2: 0.0, 3: 1.6, 4: -1.6, 5: 0.0, 6: -1.6}[number], 0.8


def log(tmp_path, rows, name="log.csv", mark=","):
    text = io.StringIO()
    out = csv.DictWriter(text, COLUMNS, delimiter=mark)
    out.writeheader()
    for group, number, spot, more in rows:
        out.writerow(
            {
                "group": group,
                "unit": f"front pipe/{number}",
                "x": f"{abs(spot[0]):.2f} {'SL' if spot[0] >= 0 else 'SR'}",
                "y": f"{spot[1]:.2f} US",
                **more,
            }
        )
    path = tmp_path / name
    path.write_text(text.getvalue(), encoding="utf-8")
    return str(path)


def test_each_groups_mistake_is_the_likeliest_cause(tmp_path):
    rows = [("A", n, lands(n), {}) for n in (1, 3, 4, 6)]
    rows += [("B", n, lands(n, pan=-1 if n == 2 else 1), {}) for n in (2, 3, 5, 6)]
    rows += [("C", n, at_feet(n) if n == 3 else lands(n), {}) for n in (1, 2, 3, 4)]
    groups = {group.name: group for group in read_class(SHOW, log(tmp_path, rows))}
    assert groups["A"].causes[0].cause == "none"
    assert (groups["B"].causes[0].cause, groups["B"].causes[0].of) == ("mirrored", "front pipe/2")
    assert (groups["C"].causes[0].cause, groups["C"].causes[0].of) == (
        "face-for-floor",
        "front pipe/3",
    )
    assert groups["B"].look_for.startswith("Say SL or SR aloud")


def test_misses_and_nudges_by_hand(tmp_path):
    """Unit 1 lands 1.2 / 1.94 of its way past the face, 0.92 SL, 2.04 US; noted 0.3 SL and 0.4 US of that."""
    where = (1.6 - 1.1 * 1.2 / 1.94, 0.8 + 2.0 * 1.2 / 1.94)
    spot = (where[0] + 0.30, where[1] + 0.40)
    more = {
        "predicted x": f"{where[0]:.4f} SL",
        "predicted y": f"{where[1]:.4f} US",
        "after x": f"{where[0]:.4f} SL",
        "after y": f"{where[1] + 0.05:.4f} US",
        "nudges": "3",
        "learnt": "lock first",
    }
    (group,) = read_class(SHOW, log(tmp_path, [("A", 1, spot, more)]))
    (one,) = group.tries
    assert one.before == pytest.approx(0.5, abs=0.01)
    assert one.predicted == pytest.approx(0.5, abs=0.01)
    assert one.after == pytest.approx(0.05, abs=1e-3)
    assert (one.nudges, one.learnt, group.nudges) == (3, "lock first", 3)
    told = class_text([group], "m")
    assert "0.50 m" in told
    assert "0.05 m" in told


def test_a_landing_that_nothing_explains_is_named(tmp_path):
    """Unit 4 noted 1.7 m off, up stage and to SL, where no one cause of it alone would be alike to."""
    rows = [("A", n, lands(n), {}) for n in (1, 2, 3, 5, 6)]
    rows.append(("A", 4, (lands(4)[0] + 1.4, lands(4)[1] + 0.9), {}))
    (group,) = read_class(SHOW, log(tmp_path, rows))
    assert group.causes[0].cause == "none"
    assert group.doubted == ("front pipe/4",)
    assert group.look_for.startswith("Look again at front pipe/4")


def test_every_cause_has_something_to_look_for():
    from aimcalc.landings.causes import COMMON
    from aimcalc.landings.forward import ERRORS

    told = set(LOOK_FOR)
    assert set(COMMON) <= told
    assert {what for what in ERRORS if what not in ("pan", "down")} <= told


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ("group,x\nA,1 SL\n", "a row of headings"),
        ("group,unit,x,y\n", "at least one row"),
        ("group,unit,x,y\n,front pipe/1,1 SL,2 US\n", "the group whose row this is"),
        ("group,unit,x,y\nA,nosuch/1,1 SL,2 US\n", "a unit of the scene"),
        ("group,unit,x,y,nudges\nA,front pipe/1,1 SL,2 US,many\n", "how many nudges"),
        ("group,unit,x,y\nA,front pipe/1,one,2 US\n", "row 2"),
    ],
)
def test_a_log_that_cannot_be_used_is_refused_in_words(rows, says, tmp_path):
    path = tmp_path / "log.csv"
    path.write_text(rows, encoding="utf-8")
    with pytest.raises(SceneError) as caught:
        read_class(SHOW, str(path))
    assert says in caught.value.report()


def test_semicolons_as_spreadsheets_write_them(tmp_path):
    (group,) = read_class(SHOW, log(tmp_path, [("A", 1, lands(1), {})], mark=";"))
    assert group.tries[0].before < 0.1


def test_the_log_to_type_is_read_back_once_filled_in(tmp_path):
    text = log_csv(SHOW, ["1", "2"]).decode()
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == 2 * len(SHOW.rig.units)
    rows[0] |= {"x": "0.92 SL", "y": "2.04 US"}
    out = io.StringIO()
    again = csv.DictWriter(out, COLUMNS)
    again.writeheader()
    again.writerows(rows)
    path = tmp_path / "log.csv"
    path.write_text(out.getvalue(), encoding="utf-8")
    (group,) = read_class(SHOW, str(path))
    assert [one.unit for one in group.tries] == ["front pipe/1"]


def test_the_pages_have_no_overlap_and_the_boxes_to_sign(tmp_path):
    rows = [
        (g, n, lands(n, pan=-1 if (g, n) == ("B", 2) else 1), {"nudges": "1"})
        for g in "ABCD"
        for n in (2, 3, 5)
    ]
    groups = read_class(SHOW, log(tmp_path, rows))
    out, sheet = io.BytesIO(), io.BytesIO()
    class_page(SHOW, groups, out, PaperOptions())
    write_pages(
        sheet,
        log_pages(SHOW, ["1", "2"], PaperOptions()),
        PaperOptions(),
        title="log",
        landscape=True,
    )
    for data in (out.getvalue(), sheet.getvalue()):
        assert all(overlaps(page) == [] for page in runs(data))
        assert all("GEOMETRY ONLY" in text for text in pages(data))
    assert "swung to the wrong side" in " ".join(pages(out.getvalue())[0].split())
    starts = [text.split()[5] for text in pages(sheet.getvalue()) if "continued" not in text]
    assert starts == ["1", "2"]
    assert all("signed" in text for text in pages(sheet.getvalue()))
