"""Files that phones give back are joined: nothing is lost, what differs is told, nothing is half written."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from aimcalc.desk.phone_files import joined, joined_bytes
from aimcalc.landings.readings import read_landings
from tests.shows import rig_of
from tests.test_cli import call  # noqa: F401

HEADS = "position,unit,x,y,on,height,down,pan,sight,note,when,phone,id,over"
TICKS = "position,unit,tick,value,when,phone,id,over"


def landing(number, x, y, phone, name, over="", position="house pipe", **more):
    row = {
        "position": position,
        "unit": number,
        "x": x,
        "y": y,
        "phone": phone,
        "id": name,
        "over": over,
    }
    return {**row, **more}


def saved(path, heads, rows):
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, heads.split(","))
    writer.writeheader()
    writer.writerows(rows)
    path.write_bytes(text.getvalue().encode("utf-8-sig"))
    return str(path)


@pytest.fixture
def two(tmp_path, call):  # noqa: F811
    """Two files joined on the command line: exit status, lines said, rows written."""

    def run(heads, a, b):
        files = [saved(tmp_path / f"{k}.csv", heads, rows) for k, rows in enumerate((a, b))]
        status, said, errors = call("merge", *files, "-o", str(tmp_path / "out.csv"))
        out = tmp_path / "out.csv"
        rows = list(csv.DictReader(io.StringIO(out.read_text("utf-8-sig")))) if out.exists() else []
        return status, [*said.splitlines(), *errors.splitlines()], rows

    return run


def test_landings_of_two_phones_are_one_file_that_learn_reads(two, tmp_path):
    a = [landing("1", "11'-9\" SL", "9'-3\" US", "phone A", "A1")]
    b = [landing("2", "2.5 m SR", "3 m US", "phone B", "B1", down="DOWN 31")]
    status, said, rows = two(HEADS, a, b)
    assert (status, said) == (0, [f"{tmp_path}/out.csv: 2 rows of landings."])
    assert [row["id"] for row in rows] == ["A1", "B1"]
    spots = read_landings(str(tmp_path / "out.csv"), rig_of("playhouse")).spots
    assert [rig_of("playhouse").names[spot.unit] for spot in spots] == [
        "house pipe/1",
        "house pipe/2",
    ]


def test_two_spots_of_one_unit_are_told_in_a_sentence_and_both_kept(two):
    a = [landing("1", "11'-9\" SL", "9'-3\" US", "phone A", "A1")]
    b = [landing("1", "12'-9\" SL", "9'-3\" US", "phone B", "B1")]
    status, said, rows = two(HEADS, a, b)
    assert status == 1
    assert said[1:] == [
        "house pipe/1 landed at 11'-9\" SL, 9'-3\" US on phone A; 12'-9\" SL, 9'-3\" US on phone B. "
        "All are kept: look again, strike out what is wrong."
    ]
    assert [row["id"] for row in rows] == ["A1", "B1"]


# 3 in (76 mm) apart is one spot; so are a metre and a hundred centimetres. 6 in (152 mm) apart are two.
@pytest.mark.parametrize(
    ("x", "status"),
    [("12'-0\" SL", 0), ("366 cm SL", 0), ("12'-3\" SL", 1), ("11'-9\" SR", 1), ("12 SL ft", 1)],
)
def test_spots_that_are_one_to_anybody_who_reads_them_do_not_differ(two, x, status):
    a = [landing("1", "11'-9\" SL", "9' US", "phone A", "A1")]
    assert two(HEADS, a, [landing("1", x, "9' US", "phone B", "B1")])[0] == status


def test_a_spot_that_was_put_right_by_somebody_who_saw_it_is_left_out(two):
    a = [landing("1", "11'-9\" SL", "9'-3\" US", "phone A", "A1")]
    b = [landing("1", "12'-9\" SL", "9'-3\" US", "phone B", "B1", over="A1")]
    status, said, rows = two(HEADS, a, b)
    assert (status, [row["id"] for row in rows]) == (0, ["B1"])
    assert said[0].endswith("1 row of landings. 1 row left out: put right later.")


def tick(name, value, phone, of="safety", over=""):
    row = {
        "position": "pipe 1",
        "unit": "3",
        "tick": of,
        "value": value,
        "when": "2025-11-14T16:02",
    }
    return {**row, "phone": phone, "id": name, "over": over}


def test_ticks_that_phones_differ_on_count_as_not_done(two):
    a = [tick("A1", "yes", "phone A"), tick("A2", "yes", "phone A", "hung")]
    b = [
        tick("B1", "yes", "phone B"),
        tick("B2", "no", "phone B", over="B1"),
        tick("B3", "yes", "phone B", "hung"),
    ]
    status, said, rows = two(TICKS, a, b)
    assert status == 1
    assert said[1:] == [
        "pipe 1/3, safety: yes on phone A; no on phone B. It counts as not done: look at the unit."
    ]
    assert len(rows) == 5


def test_an_entry_that_somebody_edited_by_hand_is_told(two):
    a = [landing("1", "11'-9\" SL", "9' US", "phone A", "A1")]
    b = [landing("1", "11'-9\" SL", "9' US", "phone A", "A1", note="iris")]
    status, said, rows = two(HEADS, a, b)
    assert (status, len(rows)) == (1, 2)
    assert said[1] == "house pipe/1: the row A1 was edited in one of the files. Both are kept."


@settings(deadline=None, max_examples=30)
@given(
    st.lists(
        st.tuples(st.integers(1, 4), st.sampled_from("xy"), st.booleans(), st.booleans()),
        max_size=12,
    )
)
def test_no_row_is_lost_and_none_comes_twice_in_any_order(tmp_path_factory, entries):
    """Every row in the one file, the other or both; joined either way round, and with what was joined."""
    folder = tmp_path_factory.mktemp("joined")
    rows = [
        (tick(f"E{k}", value, "phone A", of=f"t{unit}"), in_a, in_b)
        for k, (unit, value, in_a, in_b) in enumerate(entries)
    ]
    a = saved(folder / "a.csv", TICKS, [row for row, here, _ in rows if here])
    b = saved(folder / "b.csv", TICKS, [row for row, _, here in rows if here])
    wanted = {row["id"] for row, *here in rows if any(here)}
    for pair in ([a, b], [b, a]):
        found = joined(pair)
        assert sorted(row["id"] for row in found.rows) == sorted(wanted)
        (folder / "both.csv").write_bytes(joined_bytes(found))
        again = joined([str(folder / "both.csv"), a])
        assert again.rows == found.rows


@pytest.mark.parametrize(
    ("b", "said"),
    [
        (
            "",
            "expected: a file saved from the phone's page: headings position, unit, and x, y or tick",
        ),
        ("number,colour\n1,red\n", "got:      number, colour"),
        (TICKS + "\n", "expected: files of one sort"),
        (None, "no such file"),
    ],
)
def test_what_is_no_file_of_the_page_is_refused_and_nothing_is_written(tmp_path, call, b, said):  # noqa: F811
    a = saved(tmp_path / "a.csv", HEADS, [landing("1", "1 m SL", "2 m US", "phone A", "A1")])
    if b is not None:
        (tmp_path / "b.csv").write_text(b)
    status, _, errors = call("merge", a, str(tmp_path / "b.csv"), "-o", str(tmp_path / "out.csv"))
    assert status == 2
    assert said in errors
    assert not (tmp_path / "out.csv").exists()


def test_a_file_that_is_joined_is_not_written_over(tmp_path, call):  # noqa: F811
    a, b = (saved(tmp_path / f"{n}.csv", HEADS, []) for n in "ab")
    status, _, errors = call("merge", a, b, "-o", b)
    assert status == 2
    assert "is one of the files to join" in errors
    assert call("merge", a, "-o", str(tmp_path / "out.csv"))[0] == 2
