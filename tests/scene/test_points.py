"""Lists of points in CSV: read in every usual shape, refused with file, row and column."""

from __future__ import annotations

import pytest

from aimcalc.scene import points as module
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.points import read_points

FOOT = 0.3048


def read(tmp_path, text, unit="m", name="meter.csv"):
    path = tmp_path / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_points(str(path), unit)


def refused(tmp_path, text, **more):
    with pytest.raises(SceneError) as error:
        read(tmp_path, text, **more)
    return error.value.report()


@pytest.mark.parametrize(
    "text",
    [
        "1,2,1.6\n-3,0.5,2\n",
        "x,y,z\n1,2,1.6\n-3,0.5,2\n",
        "\ufeffX;Y;Z\r\n1;2;1.6\r\n\r\n-3;0.5;2\r\n",
        "z\tx\ty\n1.6\t1\t2\n2\t-3\t0.5",
        "name,x,y,z\nmark,1,2,1.6\nspot,-3,0.5,2\n",
        "1 m,2 m US,1.6 m\n3 m SR,50 cm,2\n",
        '1,2,1.6\n"3 m SR", 0.5 , 2 \n\n,,\n',
        'mark,x,y,z\n"one; two",1,2,1.6\n"x;y;z",-3,0.5,2\n',
        "1,0;2,0;1,6\n-3;0,5;2\n",
        "1,0\t2,0\t1,6\n-3\t0,5\t2\n",
    ],
)
def test_every_usual_shape_gives_the_same_points(tmp_path, text):
    assert read(tmp_path, text) == [(1, 2, 1.6), (-3, 0.5, 2)]


def test_bare_numbers_are_in_the_scenes_unit_and_feet_and_inches_are_read(tmp_path):
    found = read(tmp_path, "6'-6\" SL;2 US;5.5\n", unit="ft")
    assert found == [pytest.approx((6.5 * FOOT, 2 * FOOT, 5.5 * FOOT))]


def test_every_bad_cell_is_told_with_its_row_and_column(tmp_path):
    report = refused(tmp_path, "x,y,z\n1,far,1\n1,1\n2,2,nan\n")
    assert "meter.csv cannot be used: 3 mistakes." in report
    assert "meter.csv, row 2, column B (y)" in report
    assert 'got:      "far"' in report
    assert "meter.csv, rows 3, 4, column C (z)" in report


def test_a_stage_word_of_another_direction_is_refused(tmp_path):
    assert "row 1, column A (x)" in refused(tmp_path, "1 US,2,1\n")


def test_headings_that_are_not_x_y_and_z_are_told(tmp_path):
    report = refused(tmp_path, "across,deep,up\n1,2,3\n")
    assert "row 1" in report
    assert "across, deep, up" in report


def test_a_list_without_a_point_is_told(tmp_path):
    for text in ("", "\n\n", "x,y,z\n"):
        assert "no point" in refused(tmp_path, text)


def test_what_is_no_text_or_no_file_is_told(tmp_path):
    assert "binary data" in refused(tmp_path, b"1,2,\0")
    assert "UTF-8" in refused(tmp_path, b"1,2,\xff")
    with pytest.raises(SceneError) as error:
        read_points(str(tmp_path / "gone.csv"), "m")
    assert "no such file" in error.value.report()
    with pytest.raises(SceneError) as error:
        read_points(str(tmp_path), "m")
    assert "a folder" in error.value.report()


def test_too_many_points_are_refused(tmp_path, monkeypatch):
    monkeypatch.setattr(module, "MOST_POINTS", 3)
    assert "at most 3 points" in refused(tmp_path, "1,1,1\n" * 4)


def test_a_list_with_more_mistakes_than_are_kept_is_told_and_cut(tmp_path):
    report = refused(tmp_path, "x,y,z\n" + "a,b,c\n" * 2000)
    assert "reading stopped here" in report


def test_an_open_quote_over_the_whole_file_is_told_in_words(tmp_path):
    text = '1,2,"' + "3" * 200_000
    assert "CSV that can be read" in refused(tmp_path, text)
