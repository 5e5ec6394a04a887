"""Six units of six mounts, worked with a pocket calculator from the scene file, against the printed sheet.

Each is worked in its comment from the figures that the scene file gives; the drop of the generic kinds is
0.36 m (common practice, no source), their fields are in their names. Rounding is half up: angles to 1 degree,
marks on deck to 5 cm or 3 in; tolerances (a quarter of the field; for the pan that over the cosine of the
angle between the axis and square to the stem) are cut to whole degrees.
"""

from __future__ import annotations

import io
from functools import cache

import pytest

from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.text.stamp import PaperOptions
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of


@cache
def sheet(scene: str, length: str) -> bytes:
    stream = io.BytesIO()
    aim_sheets(a_show(rig_of(scene), []), stream, PaperOptions(length=length))
    return stream.getvalue()


def printed(scene: str, length: str, position: str, number: str) -> list[str]:
    """The words of one unit's row on the first page of its position, cell by cell."""
    pages = pdf_reading.runs(sheet(scene, length))
    page = next(p for p in pages if any(f"| {position} |" in run.words for run in p))
    left = min(run.left for run in page if run.size == 20)
    column = [run for run in page if run.size == 20 and run.left < left + 25]
    column.sort(key=lambda run: -run.top)
    (k,) = (k for k, run in enumerate(column) if run.words == number)
    low = column[k + 1].top + 3 if k + 1 < len(column) else column[k].top - 60
    return [run.words for run in page if low < run.top < column[k].top + 3]


CASES = {
    # Under. Pivot 3.50 - 0.36 = 3.14 up at (1.10, -1.20); face 1.20 up over (0, 0.80): 1.10 m SR, 2.00 m US,
    # 1.94 m down. Pan atan(1.10 / 2.00) = 28.81; reach 2.283; down atan(1.94 / 2.283) = 40.36, plumb 50.
    # Tape 2 m out: 1.10 - 2 x 0.55 = 0. On by 1.20 / 1.94 of the way: 0.680 m SR, 0.80 + 1.237 = 2.037 m US.
    # Within 40 / 4 = 10; 10 / cos 40.36 = 13.1.
    ("studio", "m", "front pipe", "2"): [
        *("SR 29°", "square US", "AT ZERO", "DOWN", "40°", "plumb 50°"),
        *("chair centre", "CENTRE LINE", "0.80 m US", "LANDS", "0.70 m SR", "2.05 m US"),
        *("down 10°", "pan 13°"),
    ],
    # Over. Pivot 6.30 + 0.36 = 6.66 up at (2.40, -4.60). Mark 4 at (3.00, 4.50) on a rake of 1 in 16 is
    # 0.28125 up, its face 1.93125: 0.60 m SL, 9.10 m US, 4.72875 m down. Pan atan(0.60 / 9.10) = 3.77; reach
    # 9.1198; down atan(4.72875 / 9.1198) = 27.41, plumb 63. Tape 4 m out: 2.40 + 4 x 0.06593 = 2.664 SL.
    # Past the face it falls 0.51851 m a metre while the deck climbs 0.0625 x 9.10 / 9.1198 = 0.06236:
    # 1.65 / 0.58087 = 2.8406 m on: 3.187 m SL, 7.334 m US. Within 5; 5 / cos 27.41 = 5.6.
    ("raked", "m", "house bar", "2"): [
        *("OVER PIPE", "SL 4°", "square US", "2.65 m SL", "DOWN", "27°", "plumb 63°"),
        *("3.00 m SL", "4.50 m US", "LANDS", "3.20 m SL", "7.35 m US", "down 5°", "pan 5°"),
    ],
    # Out, 30 degrees to SR, on a pipe askew: from (5.60, -1.00) towards (4.40, -4.00), 3.2311 m, that is
    # (-0.37139, -0.92848) a metre. Clamp 1.50 m DS: (5.0429, -2.3927, 5.20). Square: (-0.92848, 0.37139).
    # Stem: half of that and 0.86603 down; pivot 0.36 along it: (4.8758, -2.3259, 4.8882). Mark 5 (0, 4.50),
    # face 1.93125: 4.8758 m SR, 6.8259 m US, 2.9570 m down. Heading atan(4.8758 / 6.8259) = 35.54 SR of US;
    # reach 8.3884; down atan(2.9570 / 8.3884) = 19.42. Off the pipe 7.0621 m, along it 4.5269 m US. At the
    # clamp square is tipped up by 30: 7.0621 x 0.86603 - 2.9570 / 2 = 4.6375, so the dial reads
    # atan(4.5269 / 4.6375) = 44.31; along the stem 7.0621 / 2 + 2.9570 x 0.86603 = 6.0919, so the yoke is
    # atan(6.0919 / hypot(4.6375, 4.5269)) = 43.23. Under 25 down: a pole as high as the face, 1.65.
    # Within 5; the heading 5 / cos 19.42 = 5.3, the dial 5 / cos 43.23 = 6.9. (The dial's used to stand
    # beside the heading.)
    ("raked", "m", "gallery bar SL", "2"): [
        *("1.50 m DS", "OUT 30° SR", "US 44°", "dial, square SR", "54° US of SR", "true heading"),
        *("DOWN", "19°", "plumb 71°", "CENTRE LINE", "4.50 m US", "POLE", "1.65 m", "at STAND"),
        *("down 5°", "heading 5°"),
        "not plumb. True heading 54° US of SR: FIRST dial US 44°, within 6°; THEN level DOWN 19°; LAST "
        "sight the hand, yoke 43° away from clamp.",
    ],
    # Arm. Boom at (3.40, 0.70), arm 0.45 m to SR: clamp (2.95, 0.70, 2.80), pivot 2.44 up. Chair SL
    # (1.60, 0.80), face 1.20: 1.35 m SR, 0.10 m US, 1.24 m down. Off straight across atan(0.10 / 1.35) = 4.24
    # US; reach 1.3537; down atan(1.24 / 1.3537) = 42.49. On by 1.20 / 1.24: 0.2935 m SL, 0.8968 m US.
    # Within 10; 10 / cos 42.49 = 13.6.
    ("studio", "m", "boom SL", "1"): [
        *("2.80 m UP", "ARM 0.45 m SR", "US 4°", "off across to SR", "as heading", "DOWN", "42°"),
        *("plumb 48°", "LANDS", "0.30 m SL", "0.90 m US", "down 10°", "pan 13°"),
    ],
    # Direct, the stem level to DS: pivot (3.40, 0.70 - 0.36, 2.10). Chair centre (0, 0.80), face 1.20: 3.40 m
    # SR, 0.46 m US, 0.90 m down. Off straight across atan(0.46 / 3.40) = 7.70 US; reach 3.4310; down
    # atan(0.90 / 3.4310) = 14.70. The clamp tips the nose atan(0.90 / 3.40) = 14.83; the yoke is
    # atan(0.46 / hypot(3.40, 0.90)) = 7.45 back towards the clamp. Within 30 / 4 = 7.5; the
    # heading 7.5 / cos 14.70 = 7.8, the clamp 7.5 / cos 7.45 = 7.6.
    ("studio", "m", "boom SL", "2"): [
        *(
            "2.10 m UP",
            "DIRECT, DS side",
            "US 8°",
            "off across to SR",
            "NOSE DOWN 15°",
            "at the clamp",
        ),
        *("DOWN", "15°", "plumb 75°", "POLE", "1.20 m", "at STAND", "down 7°", "heading 7°"),
        "not plumb. True heading 8° US of SR: FIRST clamp NOSE DOWN 15°, within 7°; THEN sight "
        "the hand, yoke 7° towards clamp; LAST check level DOWN",
        "15°.",
    ],
    # Stand, in feet. Pivot 0.36 m = 1.1811 ft up at (16.5, 7). Steps (0, 11) lie on a tread 2 ft up, the face
    # 7.5 ft: 16.5 ft SR, 4 ft US, 6.3189 ft up. Off straight across atan(4 / 16.5) = 13.63 US; reach 16.978;
    # up atan(6.3189 / 16.978) = 20.41. Within 40 / 4 = 10; 10 / cos 20.41 = 10.7.
    ("playhouse", "ft", "floor SL", "1"): [
        *("ON STAND", "US 14°", "off across to SR", "UP", "20°", "plumb 70°", "steps"),
        *("CENTRE LINE", "11'-0\" US", "POLE", "5'-6\"", "at STAND", "up 10°", "pan 10°"),
    ],
}


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[2]} {case[3]}")
def test_the_numbers_worked_by_hand_are_the_numbers_printed(case):
    words = printed(*case)
    assert set(CASES[case]) - set(words) == set(), words
