"""The ladder sheet: what a row says is all that hands need, and is what pencil and paper say.

Each unit of CASES is worked in its comment from the figures of the scene file and the hang list; the drop of
the generic kinds is 0.36 m (1.1811 ft), their fields are in their names. Rounding is half up: angles to 1
degree, marks on deck to 5 cm or 3 in. Tolerances are a quarter of the field, for the pan over the cosine of
down, cut to whole degrees. A tail is tied at its outlet where that is within reach, else 0.25 m (9 3/4 in)
towards it (common practice, no source).
"""

from __future__ import annotations

import io
import re
from functools import cache

import pypdfium2
import pytest

from aimcalc.scene.model import Boom, Pipe, Unit
from aimcalc.sheets.ladder import ladder
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.ladder_rows import ladder_rows
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

HEADS = {
    *("UNIT", "HANG AT", "KIND, circuit", "SQUARE", "FACES", "SWING", "SIGHT TAPE", "NO TAPE"),
    *("HEADING", "STAND AT", "AT CLAMP", "DOWN / UP", "WITHIN", "TAIL"),
}
SCENES = ("playhouse", "studio", "raked", "arena")
HALF = 17.5  # pt from the middle of a row to its edge, at least


@cache
def sheet(scene: str, length: str = "m", paper: str = "a4") -> bytes:
    stream = io.BytesIO()
    ladder(a_show(rig_of(scene)), stream, PaperOptions(length=length, paper=paper))
    return stream.getvalue()


def made(rig, findings=None, **options) -> bytes:
    stream = io.BytesIO()
    ladder(a_show(rig, findings), stream, PaperOptions(**options))
    return stream.getvalue()


def rows(data: bytes, position: str) -> dict[str, dict[str, list[str]]]:
    """Unit: head of the column: the words of its cell, downwards and then along."""
    found = {}
    for page in pdf_reading.runs(data):
        if not any(f"| {position} |" in run.words for run in page):
            continue
        heads = [run for run in page if run.words in HEADS and run.size < 12]
        top, left = min(run.bottom for run in heads), min(run.left for run in heads)
        numbers = [r for r in page if r.size == 20 and abs(r.left - left) < 8 and r.top < top]
        for number in numbers:
            middle = number.bottom - 1.5
            words: dict[str, list[str]] = {}
            mine = [r for r in page if abs((r.bottom + r.top) / 2 - middle) < HALF]
            for run in sorted(mine, key=lambda r: (-round((r.bottom - middle) / 6), r.left)):
                over = max((h for h in heads if h.left <= run.left + 3), key=lambda h: h.left)
                words.setdefault(over.words, []).append(run.words)
            found[number.words] = words
    return found


CASES = {
    # Pivot 20 - 16/12 = 18.6667 up at (19, -14). Area 6 (12, 8), face 5.5: 7 SR, 22 US, 13.1667 down. Pan
    # atan(7 / 22) = 17.65; reach 23.087; down atan(13.1667 / 23.087) = 29.70. Tape 13 out: 19 - 13 x 7 / 22 =
    # 14.864. Within 24 / 4 = 6; 6 / cos 29.70 = 6.9. Outlet H1 at the clamp.
    ("playhouse", "ft", "house pipe", "1"): (
        {"UNIT": "1 ch 26", "HANG AT": "19'-0\" SL", "SQUARE": "US", "TAIL": "at clamp"}
        | {"KIND, circuit": "ers-24 house circuit H1 cool 1", "SIGHT TAPE": "14'-9\" SL"}
        | {"SWING": "SR 18°", "DOWN / UP": "DOWN 30° plumb 60°", "WITHIN": "down 6° pan 6°"}
    ),
    # Pivot 18.8189 up at (5, -14). Area 1 (12, 2): 7 SL, 16 US, 13.3189 down. Pan atan(7 / 16) = 23.63; reach
    # 17.464; down atan(13.3189 / 17.464) = 37.33. Tape 5 + 13 x 7 / 16 = 10.6875. Within 7.5; 7.5 / cos 37.33
    # = 9.4. Outlet H8 at the clamp.
    ("playhouse", "ft", "house pipe", "8"): (
        {"UNIT": "8 ch 1", "HANG AT": "5'-0\" SL", "SQUARE": "US", "TAIL": "at clamp"}
        | {"KIND, circuit": "ers-30 circuit H8 warm 1", "SIGHT TAPE": "10'-9\" SL"}
        | {"SWING": "SL 24°", "DOWN / UP": "DOWN 37° plumb 53°", "WITHIN": "down 7° pan 9°"}
    ),
    # Faces DS while most of pipe 1 faces US: at you. Pivot 17.8189 up at (19.25, 4). Area 1 (12, 2): 7.25 SR,
    # 2 DS, 12.3189 down. Pan atan(7.25 / 2) = 74.58, past 60: no tape; reach 7.5208; down
    # atan(12.3189 / 7.5208) = 58.59. Within 10; 10 / cos 58.59 = 19.2. Outlet A1 at the clamp.
    ("playhouse", "ft", "pipe 1", "1"): (
        {"UNIT": "1 ch 61", "HANG AT": "19'-3\" SL", "SQUARE": "AT YOU", "TAIL": "at clamp"}
        | {"KIND, circuit": "ers-40 circuit A1 lavender", "SIGHT TAPE": "NO TAPE then the dial"}
        | {"SWING": "SR 75°", "DOWN / UP": "DOWN 59° plumb 31°", "WITHIN": "down 10° pan 19°"}
    ),
    # Area 11 (6, 15) on the 4 ft platform, face 9.5: 7 SR, 11 US, 8.3189 down of (13, 4). Pan atan(7 / 11) =
    # 32.47; reach 13.038; down atan(8.3189 / 13.038) = 32.54. Tape 5 out: 13 - 5 x 7 / 11 = 9.818. Within
    # 7.5; 7.5 / cos 32.54 = 8.9. Outlet A3 at 12'-3" SL, 9 in to SR.
    ("playhouse", "ft", "pipe 1", "2"): (
        {"UNIT": "2 ch 31", "HANG AT": "13'-0\" SL", "SQUARE": "US", "TAIL": "SR 0'-9\""}
        | {"KIND, circuit": "ers-30 circuit A3 cool 1", "SIGHT TAPE": "9'-9\" SL"}
        | {"SWING": "SR 32°", "DOWN / UP": "DOWN 33° plumb 57°", "WITHIN": "down 7° pan 8°"}
    ),
    # Pivot 20.5 - 1.1811 = 19.3189 up at (1, 24). Area 12 (0, 15), face 9.5: 1 SR, 9 DS, 9.8189 down. Pan
    # atan(1 / 9) = 6.34; reach 9.0554; down atan(9.8189 / 9.0554) = 47.32. The tape DS is 10 out: 1 - 10 / 9
    # = 0.111 SR. Within 10; 10 / cos 47.32 = 14.8. Outlet E7, the seventh at 3'-6" from 19'-3" SL: 1'-9" SR.
    ("playhouse", "ft", "pipe 5", "5"): (
        {"UNIT": "5 ch 52", "HANG AT": "1'-0\" SL", "SQUARE": "AT YOU", "TAIL": "SR 0'-9 3/4\""}
        | {"KIND, circuit": "fresnel-40 circuit E7 cool blue", "SIGHT TAPE": "AT ZERO DS tape"}
        | {"SWING": "SR 6°", "DOWN / UP": "DOWN 47° plumb 43°", "WITHIN": "down 10° pan 14°"}
    ),
    # Boom at (18.5, 5), arm 1.25 to DS: pivot 9.5 - 1.1811 = 8.3189 up at (18.5, 3.75). The clock is
    # (3, 17.5833, 9.5): 15.5 SR, 13.8333 US, 1.1811 up. Off straight across atan(13.8333 / 15.5) = 41.75;
    # reach 20.775; up atan(1.1811 / 20.775) = 3.25. Within 5; 5 / cos 3.25 = 5.0. The cable comes up the
    # boom, on the US side of the clamp.
    ("playhouse", "ft", "boom SL", "5"): (
        {"UNIT": "5 ch 79", "HANG AT": "9'-6\" UP ARM 1'-3\" DS", "TAIL": "US 0'-9 3/4\""}
        | {"KIND, circuit": "ers-20 circuit SL5 amber", "HEADING": "US 42° of straight SR"}
        | {"FACES": "SR", "DOWN / UP": "UP 3° plumb 87°", "WITHIN": "up 5° pan 5°"}
    ),
    # Pivot 1.1811 up at (16.5, 7). Steps (0, 11) on a tread 2 up, face 7.5: 16.5 SR, 4 US, 6.3189 up. Off
    # straight across atan(4 / 16.5) = 13.63; reach 16.978; up atan(6.3189 / 16.978) = 20.41. Within 10; 10.7.
    # It is put where the scene file says: 16'-6" SL, 7' US.
    ("playhouse", "ft", "floor SL", "1"): (
        {
            "UNIT": "1 ch 98",
            "STAND AT": "16'-6\" SL 7'-0\" US",
            "KIND, circuit": "fresnel-40 circuit FP1 no colour",
            "FACES": "SR",
        }
        | {"HEADING": "US 14° of straight SR", "DOWN / UP": "UP 20° plumb 70°"}
        | {"WITHIN": "up 10° pan 10°"}
    ),
    # Over. Pivot 6.66 up at (2.40, -4.60). Mark 4 (3.00, 4.50) on a rake of 1 in 16, face 1.93125: 0.60 SL,
    # 9.10 US, 4.72875 down. Pan atan(0.60 / 9.10) = 3.77; reach 9.1198; down 27.41. Tape 4 out: 2.40
    # + 4 x 0.06593 = 2.664. Within 5; 5 / cos 27.41 = 5.6. Outlet H2 at 2.7 SL.
    ("raked", "m", "house bar", "2"): (
        {"UNIT": "2 ch 4", "HANG AT": "2.40 m SL OVER PIPE", "SQUARE": "US", "TAIL": "SL 0.30 m"}
        | {"KIND, circuit": "ers-20 circuit H2 straw", "SIGHT TAPE": "2.65 m SL"}
        | {
            "SWING": "SL 4° on the dial",
            "DOWN / UP": "DOWN 27° plumb 63°",
            "WITHIN": "down 5° pan 5°",
        }
    ),
    # Out, 30 degrees to SR, on a pipe askew: worked in tests/sheets/test_printed_by_hand.py. Heading 35.54 SR
    # of US is 54.46 US of SR; down 19.42; the dial 44.31. Within 5; the heading 5.3. Outlet GL2 at the clamp.
    ("raked", "m", "gallery bar SL", "2"): (
        {"UNIT": "2 ch 15", "HANG AT": "1.50 m DS OUT 30° SR", "SQUARE": "SR", "TAIL": "at clamp"}
        | {"KIND, circuit": "ers-20 circuit GL2 pale blue", "SIGHT TAPE": "NO TAPE sight the hand"}
        | {"SWING": "US 44° on the dial", "DOWN / UP": "DOWN 19° plumb 71°"}
        | {"WITHIN": "down 5° heading 5°"}
    ),
    # Direct, the stem level to DS: pivot (3.40, 0.34, 2.10). Chair centre (0, 0.80), face 1.20: 3.40 SR,
    # 0.46 US, 0.90 down. Off straight across 7.70; reach 3.4310; down 14.70. The clamp tips the nose
    # 14.83. Within 7.5; the heading 7.8. Outlet W2 is at 0.3 up, out of reach; which way the tail
    # lasts longest is not worked here.
    ("studio", "m", "boom SL", "2"): (
        {"UNIT": "2 ch 32", "HANG AT": "2.10 m UP DIRECT DS side", "FACES": "SR"}
        | {"KIND, circuit": "ers-30 circuit W2 no colour", "HEADING": "US 8° of straight SR"}
        | {"AT CLAMP": "DOWN 15° tip at the clamp", "DOWN / UP": "DOWN 15° plumb 75°"}
        | {"WITHIN": "down 7° heading 7°"}
    ),
}
NOT_WORKED = {("studio", "boom SL", "2"): "TAIL"}


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[2]} {case[3]}")
def test_all_that_must_be_done_to_a_unit_is_read_off_its_row_alone(case):
    scene, length, position, number = case
    told = {
        head: " ".join(words)
        for head, words in rows(sheet(scene, length), position)[number].items()
    }
    told.pop(NOT_WORKED.get((scene, position, number), ""), None)
    expected = dict(CASES[case])
    if "wedge" in told.get("SWING", ""):  # a rough turn: within half of what the pan may be off
        swing, _, wedge = told["SWING"].partition(" wedge ")
        within = float(expected["WITHIN"].split("pan ")[1].rstrip("°")) + 1
        turned = float(swing.split(" ")[1].rstrip("°"))
        assert abs(float(wedge.rstrip("°")) - turned) <= within / 2 + 0.5
        told["SWING"] = swing
    assert told == expected


@pytest.mark.parametrize("scene", ["playhouse", "studio", "raked", "arena"])
@pytest.mark.parametrize(("length", "paper"), [("m", "a4"), ("ft", "letter")])
def test_nothing_overlaps_runs_out_or_is_told_by_a_minus_sign(scene, length, paper):
    data = sheet(scene, length, paper)
    for size, page in zip(pdf_reading.sizes(data), pdf_reading.runs(data), strict=True):
        assert pdf_reading.overlaps(page) == []
        assert pdf_reading.outside(page, size) == []
    said = "\n".join(pdf_reading.pages(data))
    assert pdf_reading.minus_signs(said) == []
    assert pdf_reading.bare_sides(said) == []


@pytest.mark.parametrize("scene", ["playhouse", "studio", "raked", "arena"])
@pytest.mark.parametrize(("length", "paper"), [("m", "a4"), ("ft", "letter")])
def test_no_word_is_condensed_below_ten_points_or_on_end(scene, length, paper):
    """Only what the user named at length is squeezed, and the footer and the cautions under all pages."""
    document = pypdfium2.PdfDocument(sheet(scene, length, paper))
    for page in document:
        text = page.get_textpage()
        for item in page.get_objects(filter=[1]):
            matrix, words = item.get_matrix(), pdf_reading._words(item, text)
            low = item.get_bounds()[1] < 52  # footer and cautions
            assert matrix.b == 0, words
            assert pdf_reading._size(item) >= 10, words
            assert low or matrix.a >= 0.85, words


def test_a_position_is_one_side_where_it_fits_and_all_its_sides_say_which():
    pages = pdf_reading.pages(sheet("playhouse", "ft", "letter"))
    assert len(pages) == 12  # 11 positions, 20 units on the house pipe
    house = [" ".join(page.split()) for page in pages if "| house pipe |" in page]
    assert ["side 1 of 2" in house[0], "side 2 of 2" in house[1]] == [True, True]
    told = rows(sheet("playhouse", "ft", "letter"), "house pipe")
    assert list(told) == [str(k) for k in range(1, 21)]
    assert not any("side 1" in page for page in pages if "| pipe 1 |" in page)


def test_what_us_counts_from_and_who_to_ask_is_said_once_a_page():
    for page in pdf_reading.pages(sheet("playhouse", "ft")):
        said = " ".join(page.split())
        assert said.count("from the plaster line") == 1
        assert said.count("STOP, ask the head electrician") == 1
        assert "the light still covers the face" in said
        assert said.index("1 ") < said.index("3 LEVEL")


def test_a_page_with_a_tape_draws_it_and_one_without_says_that_the_dial_is_fine():
    for page in pdf_reading.pages(sheet("playhouse", "ft")):
        said = " ".join(page.split())
        has = "SIGHT TAPE the fine swing" in said or "SIGHT TAPE" in said
        assert ("eye along the barrel" in said) == has
        assert ("along the pipe's line" in said or "the pipe's line" in said) == has
        assert ("0 on centre line" in said) == has


def test_pan_again_at_trim_is_said_of_what_comes_in_and_of_nothing_else():
    pages = {
        p.split(" LADDER")[0].split("\n")[-1].strip(): " ".join(p.split())
        for p in pdf_reading.pages(sheet("playhouse", "ft"))
    }
    told = [page for page in pages.values() if "AT TRIM: check where it lands, pan again" in page]
    assert len(told) == 5  # pipes 1 to 5 fly; the house pipe, the rail, booms and stands do not


def test_a_truss_is_called_one_and_a_leaning_stem_has_its_down_first():
    truss = " ".join(pdf_reading.pages(sheet("arena"))[0].split())
    assert "You stand DS of the truss" in truss
    assert "the truss's line" in truss
    assert "OVER PIPE" not in truss
    roof = next(p for p in pdf_reading.pages(sheet("raked")) if "| roof bar |" in p)
    said = " ".join(roof.split())
    assert said.count("STEM LEANS True heading") == 5
    assert "STEM LEANS: by FIRST, THEN, LAST under its row." in said
    assert said.count("NO TAPE sight the hand") == 1  # it is swung out: no tape serves it
    assert "True heading 23° SR of US: FIRST dial SR 38°" in said
    assert len(re.findall(r"FIRST level DOWN \d+°; THEN tape; LAST check dial", said)) == 4


def test_only_findings_for_these_hands_stand_on_a_row_and_every_stop_does():
    rig = solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=0.0, point=(1, 3, 1))]))
    found = [
        Finding("warn", "too-close", "Too close to unit 2.", "", unit="p/1"),
        Finding("warn", "field-cut", "Loses light.", "", unit="p/1"),
        Finding("stop", "field-cut", "Loses all its light.", "", unit="p/1"),
        Finding("warn", "no-rating", "No rating is posted.", "", position="p"),
    ]
    said = " ".join(pdf_reading.pages(made(rig, found))[0].split())
    assert "WARN Too close to unit 2." in said
    assert "STOP Loses all its light." in said
    assert "WARN No rating is posted." in said
    assert "Loses light." not in said


def test_a_note_and_an_edge_are_on_the_row():
    unit = Unit(
        position="p",
        number="1",
        kind="k",
        at=0.0,
        point=(1, 3, 1),
        note="iris in the case",
        edge="soft",
        colour="L201",
        circuit="9",
    )
    data = made(solve_rig(a_scene([unit])), [])
    assert rows(data, "p")["1"]["KIND, circuit"] == ["k 26°", "circuit 9", "L201, EDGE soft"]
    assert "NOTE iris in the case" in " ".join(pdf_reading.pages(data)[0].split())


def test_a_unit_that_hangs_tail_up_is_stopped():
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(1, 3, 1), hung="tail up")
    data = made(solve_rig(a_scene([unit])))
    assert "STOP" in rows(data, "p")["1"]["SWING"]


def test_no_units_is_a_page_that_says_so():
    assert "This scene has no units." in pdf_reading.pages(made(solve_rig(a_scene([]))))[0]


def test_a_sloping_pipe_a_side_bar_and_a_boom_have_their_rows():
    slope = Pipe(name="slope", start=(-4, 0, 5), end=(4, 0, 6))
    bar = Pipe(name="bar", start=(5, -4, 6), end=(5, 4, 6), zero="middle")
    boom = Boom(name="boom", x=5.0, y=5.0, height=5.0)
    units = [
        Unit(position="slope", number="1", kind="k", at=1.0, point=(0, 4, 1)),
        Unit(position="bar", number="1", kind="k", at=1.0, point=(0, 0, 1)),
        Unit(
            position="boom",
            number="1",
            kind="k",
            at=3.0,
            mount="arm",
            arm=0.4,
            arm_to=270.0,
            point=(0, 0, 1),
        ),
    ]
    data = made(solve_rig(a_scene(units, pipes=[slope, bar], booms=[boom])), [])
    assert rows(data, "bar")["1"]["HANG AT"] == ["1.00 m", "US"]
    assert rows(data, "boom")["1"]["HANG AT"] == ["3.00 m UP", "ARM 0.40 m SR"]
    assert "STEM LEANS" in " ".join(pdf_reading.pages(data)[0].split())


def way_of(scene: str, unit: str, facing: str):
    show = a_show(rig_of(scene))
    names = dict.fromkeys(show.rig.rows, facing)
    return ladder_rows(show, "m", names)[show.rig.by_name[unit]]


def test_the_arrow_lies_square_to_the_tube_where_the_unit_hangs():
    # Rail DS is an arc of the arena through (-4.2, -3.4), (0, -5.2) and (4.2, -3.4): rise 1.8, half chord
    # 4.2, radius (4.2 ** 2 + 1.8 ** 2) / 3.6 = 5.80, its centre 0.60 US. Unit 1 is 3.2 along it from the
    # middle: 3.2 / 5.80 = 31.61 degrees; square looks at the centre, 31.61 to SR of US. Unit 3, 1.1 to SR:
    # 10.87 to SL.
    assert way_of("arena", "rail DS/1", "US").way == pytest.approx(360.0 - 31.61, abs=0.01)
    assert way_of("arena", "rail DS/3", "US").way == pytest.approx(10.87, abs=0.01)
    # The gallery bar runs from (5.60, -1.00) to (4.40, -4.00): atan(1.2 / 3) = 21.80 off up and down the
    # stage, so square lies as far to US of SR; its reader faces SR.
    assert way_of("raked", "gallery bar SL/1", "SR").way == pytest.approx(21.80, abs=0.01)
    rail = " ".join(
        next(p for p in pdf_reading.pages(sheet("arena")) if "| rail DS |" in p).split()
    )
    assert "CURVED: measure HANG AT along the curve." in rail


def test_a_clamp_swung_out_level_has_its_square_straight_down():
    # Arena, truss 2: swung out 90 to DS the stem is level, so a body at right angles to it that looked US
    # while it hung now looks at the floor. One swung out by 20 or 30 still looks to its side.
    row = way_of("arena", "truss/2", "US")
    assert (row.square, row.way) == ("straight down", None)
    assert way_of("raked", "roof bar/2", "DS").square == "US"
    assert way_of("raked", "gallery bar SL/2", "SR").square == "SR"


def test_a_point_that_is_sighted_is_named_and_placed_on_its_row():
    # From the scene file: the clock is at 3'-0" SL, 17'-7" US and 9'-6" up, the tree at 12'-6" SR, 11'-9" US
    # and 8'-0" up; marks on deck are told to 3 in. What a tape sets has no such line.
    said = [" ".join(p.split()) for p in pdf_reading.pages(sheet("playhouse", "ft"))]
    boom, floor = (next(p for p in said if f"| {name} |" in p) for name in ("boom SL", "floor SR"))
    assert "POINT clock, 3'-0\" SL, 17'-6\" US, 9'-6\" UP." in boom
    assert "POINT tree, 12'-6\" SR, 11'-9\" US, 8'-0\" UP." in floor
    assert not [p for p in said if "| pipe 1 |" in p and "POINT " in p]


@pytest.mark.parametrize("scene", SCENES)
def test_no_swing_is_left_without_its_tool(scene):
    show = a_show(rig_of(scene))
    for row in ladder_rows(show, "m", dict.fromkeys(show.rig.rows, "US")):
        assert bool(row.swing) == bool(row.swing_note), row


@pytest.mark.parametrize("scene", SCENES)
def test_every_word_of_a_row_is_told_on_its_page(scene):
    words = {
        r"ARM \d": "ARM:",
        r"OUT \d": "OUT:",
        "OVER PIPE(?!:)": "OVER PIPE:",
        "DIRECT(?!:)": "DIRECT:",
    }
    words |= {r"yoke \d": "yoke:", "chord [DU]S": "chord:"}
    words |= {f"{word} (ACROSS|UP AND|\\d)": f"{word}:" for word in ("OVAL", "PATTERN")}
    for page in pdf_reading.pages(sheet(scene)):
        said = " ".join(page.split())
        for word, meaning in words.items():
            assert meaning in said or not re.search(word, said), (meaning, said)
        assert "steps card, one to each crew, from pack-head" in said
        opens = "clamps open" in said or "Clamps open towards you, unless" in said
        assert opens or "of the stand" in said


def test_a_stand_is_put_where_the_scene_says_and_on_what():
    # The step of the arena is 0.45 m high; the stand takes its height.
    assert way_of("arena", "step SL/1", "SR").stands == (
        "3.50 m SL",
        "3.50 m US",
        "on step, 0.45 m UP",
    )
    page = next(p for p in pdf_reading.pages(sheet("playhouse", "ft")) if "| floor SR |" in p)
    assert "stand at 17'-11\" SR, 3'-6\" US" in " ".join(page.split())


def test_a_further_spot_names_its_tape_and_is_on_the_ladder_sheet():
    # Arena, truss 4 hangs 1.50 SL and 0.15 US, 5.60 up less 0.36. Spot 2, 0.90 SL and 0.90 DS: 0.60 SR, 1.05
    # DS: pan atan(0.60 / 1.05) = 29.74; 2 m out of the truss's middle the line is 1.50 - 0.60 x 2.15 / 1.05
    # = 0.271 SL.
    said = " ".join(pdf_reading.pages(sheet("arena"))[0].split())
    # The drop is 0.36: the face, 1.60 up, is 3.64 down at 1.209 away: DOWN 71.6. Field 20: within 5, the
    # pan 5 / cos 71.6 = 15.8.
    assert (
        "SPOT 2 swing SR 30° from square DS, sight 0.25 m SL on the tape 2.00 m DS, DOWN 72°, plumb 18°, "
        "within down 5°, pan 15°." in said
    )
    assert "LOCK at the aim of this row, crier. SPOT 2 and SPOT 3: to check it by" in said
    assert {"tape 2.00 m US", "tape 2.00 m DS"} <= {
        run.words for run in pdf_reading.runs(sheet("arena"))[0]
    }


def test_a_trim_says_above_what_on_a_rake_and_where_else_the_pipe_hangs():
    for page in pdf_reading.pages(sheet("raked")):
        assert "above the deck at the plaster line" in " ".join(page.split())


def test_a_pipe_that_hangs_otherwise_in_another_act_has_its_rows_for_it():
    # Arena, market bar 2 hangs 1.00 SR and 2.40 US, and points at the middle of the floor, 2.60 away. The
    # drop is 0.36: at 4.40 it is 4.04 down, atan(4.04 / 2.60) = 57.2; at 5.20 4.84, atan(4.84 / 2.60) = 61.8.
    market = next(p for p in pdf_reading.pages(sheet("arena")) if "| market bar |" in p)
    said = " ".join(market.split())
    assert "ACT storm: trim 5.20 m measured. Set and lock the rows above" in said
    assert said.count("CHECK ONLY") == 3
    again = said.partition("ACT storm")[2]
    assert "DOWN 62° plumb 28°" in again


def page_of(scene: str, length: str, position: str) -> str:
    pages = [" ".join(p.split()) for p in pdf_reading.pages(sheet(scene, length))]
    return next(page for page in pages if f"| {position} |" in page)


def test_who_flies_a_pipe_is_told_what_stands_in_its_way_and_what_to_do():
    # Booms and the stand at SR say themselves that they are in the way of pipe 1; the other stand does not.
    said = page_of("playhouse", "ft", "pipe 1")
    assert (
        "WARN In the way of pipe 1 as it flies: boom SL, boom SR, floor SR/1. "
        "Clear this before pipe 1 comes in; warn whoever is flying." in said
    )
    for name in ("boom SL", "boom SR", "floor SR"):
        assert "in the way of pipe 1 as it flies" in page_of("playhouse", "ft", name)
    for name in ("floor SL", "pipe 2", "house pipe"):
        assert "way of pipe 1" not in page_of("playhouse", "ft", name)


def test_what_is_not_to_be_set_is_told_as_large_as_the_figures_beside_it():
    runs = [run for page in pdf_reading.runs(sheet("arena")) for run in page]
    assert [run.size for run in runs if run.words == "CHECK ONLY"] == [20, 20]
    assert "CHECK ONLY: turn nothing" in page_of("arena", "m", "truss")


def test_a_stand_has_no_clamp_to_lock_and_no_tail_to_tick():
    stand, boom = page_of("playhouse", "ft", "floor SR"), page_of("playhouse", "ft", "boom SR")
    assert "Lock and check the clamp" in boom
    assert "upright, " in boom
    assert "clamp" not in stand
    assert "spigot locked, THEN aim" in stand
    assert "upright, " not in stand
