"""`prep` and `where` with a list of units as they were focused, called as a user calls them."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc import cli
from tests.sheets import pdf_reading

SCENES = Path(__file__).parents[1] / "scenes"


@pytest.fixture
def call(capfd):
    def run(*arguments):
        status = cli.run([*map(str, arguments)])
        out, err = capfd.readouterr()
        assert "Traceback" not in err
        return status, out, err

    return run


def test_after_a_bump_a_card_has_the_numbers_of_the_focus(call, tmp_path):
    focused, out = tmp_path / "focused.csv", tmp_path / "cards"
    focused.write_text("unit,pan,down,cut\nfront pipe/3,17 SL,52,top off\nfront pipe/4,16 SR,51,\n")
    asked = ["--only", "cards", "--units", "front pipe/3,front pipe/5", "--focused", focused]
    status, _, err = call("prep", SCENES / "studio", "-o", out, *asked)
    assert (status, err) == (0, "")
    data = (out / "cards.pdf").read_bytes()
    (text,) = pdf_reading.pages(data)
    assert pdf_reading.overlaps(pdf_reading.runs(data)[0]) == []
    words = " ".join(text.split())
    assert words.count("AS FOCUSED") == 1  # 5 is as plotted
    assert "52°" in words
    assert "SL 17°" in words
    assert "NOTE: cut top off" in words
    _, told, _ = call("where", SCENES / "studio", "front pipe/3", "--focused", focused)
    assert told.startswith("front pipe/3: dial SL 17°, DOWN 52°")
    same = call("where", SCENES / "studio", "front pipe/3", "--pan", "17 SL", "--down", "52")
    assert same[1] == told


def test_a_list_of_focused_units_is_asked_for_where_it_can_serve(call, tmp_path):
    focused = tmp_path / "focused.csv"
    focused.write_text("unit,pan,down\nfront pipe/3,17 SL,52\n")
    out = tmp_path / "out"
    for asked in (["--only", "plan"], [], ["--since", SCENES / "studio"]):
        _, _, err = call("prep", SCENES / "studio", "-o", out, "--focused", focused, *asked)
        assert "--focused with --only cards" in err
    bad = tmp_path / "bad.csv"
    bad.write_text("unit,pan,down\nfront pipe/33,17 SL,52\n")
    status, _, err = call("prep", SCENES / "studio", "-o", out, "--only", "cards", "--focused", bad)
    assert status == 2
    assert "front pipe/33" in err
    assert not out.exists()
    where = ["where", SCENES / "studio", "front pipe/5", "--focused", focused]
    assert "expected a row of front pipe/5" in call(*where)[2]
    assert "Give --focused alone" in call(*where, "--down", "47")[2]
