"""`aimcalc lesson`: a room, a fair rota, all the paper of a class, the same bytes for the same seed."""

from __future__ import annotations

import csv
import re
import shlex
from collections import Counter
from pathlib import Path

import numpy as np
import pytest

from aimcalc import cli
from aimcalc.show import Show
from aimcalc.teach.cable_page import reaches
from aimcalc.teach.lesson_plan import DOES, JOBS, LEAST, MOST, WATCH, groups_of, rota, unit_in_round
from tests.sheets.pdf_reading import overlaps, pages, runs

INCH = 0.0254


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("lesson") / "room"
    assert cli.run(["lesson", str(made)]) == 0
    return made


@pytest.mark.parametrize("count", range(LEAST, MOST + 1))
def test_everyone_does_each_job_once_and_each_job_has_one_who_does_it(count):
    rotas = rota(range(1, count + 1))
    people = [m for one in rotas for m in one.members]
    assert sorted(people) == list(range(1, count + 1))
    for one in rotas:
        size = len(one.members)
        assert 4 <= size <= 7
        assert len(one.rounds) == size
        for jobs in one.rounds:
            assert Counter(jobs) == Counter([*JOBS, *[WATCH] * (size - 4)])
        for member in range(size):
            done = Counter(jobs[member] for jobs in one.rounds)
            assert all(done[job] == 1 for job in JOBS)
    assert (
        max(map(len, (one.members for one in rotas)))
        - min(map(len, (one.members for one in rotas)))
        <= 1
    )


@pytest.mark.parametrize(
    ("count", "sizes"), [(4, [4]), (7, [7]), (16, [4] * 4), (18, [5, 5, 4, 4]), (40, [4] * 10)]
)
def test_groups_by_hand(count, sizes):
    assert groups_of(count) == sizes


@pytest.mark.parametrize("count", [3, 41])
def test_a_class_that_is_too_small_or_too_large_has_no_rota(count):
    with pytest.raises(ValueError, match=f"expected a class of 4 to 40, got {count}"):
        rota(range(count))
    assert set(DOES) == {*JOBS, WATCH}


def test_no_two_groups_of_a_wave_are_at_one_unit_and_each_comes_to_all():
    for r in range(4):
        assert len({unit_in_round(4, g, r) for g in range(4)}) == 4
    assert {unit_in_round(4, 1, r) for r in range(4)} == {0, 1, 2, 3}


def test_the_folder_holds_all_that_a_class_prints(folder):
    assert sorted(each.name for each in folder.iterdir()) == [
        "1-lesson.pdf",
        "2-right-way-up.pdf",
        "3-steps-card.pdf",
        "4-aim-sheet.pdf",
        "5-cable-and-knots.pdf",
        "6-log-sheet.pdf",
        "7-worksheets.pdf",
        "8-key.pdf",
        "9-light-plot.pdf",
        "answers.csv",
        "log.csv",
        "scene.toml",
    ]
    plan = " ".join(pages((folder / "1-lesson.pdf").read_bytes())[0].split())
    assert re.search(r"mark for safe .* upright clip on top.* tail below.* landing the light", plan)
    assert "Minors and untrained people work on the deck only" in plan
    with open(folder / "log.csv", encoding="utf-8", newline="") as file:
        assert len(list(csv.DictReader(file))) == 16


def test_every_page_is_whole_has_its_cautions_and_no_minus(folder):
    for file in sorted(folder.glob("*.pdf")):
        data = file.read_bytes()
        assert all(overlaps(page) == [] for page in runs(data)), file.name
        for text in pages(data):
            assert "GEOMETRY ONLY" in text or "nobody climbs for this sheet" in text, file.name
            assert not re.search(r"(?<![\w'])[-\u2212]\d", text), file.name


@pytest.mark.parametrize("name", ["1-lesson", "2-right-way-up", "5-cable-and-knots", "6-log-sheet"])
def test_every_sheet_of_the_class_has_boxes_to_sign(folder, name):
    text = "\n".join(pages((folder / f"{name}.pdf").read_bytes()))
    assert "signed" in text or "initials" in text


def test_the_same_seed_gives_the_same_bytes_and_another_another_order(folder, tmp_path):
    for seed in ("1", "2"):
        assert cli.run(["lesson", str(tmp_path / seed), "--seed", seed]) == 0
    for file in folder.iterdir():
        assert (tmp_path / "1" / file.name).read_bytes() == file.read_bytes()
    for name in ("1-lesson.pdf", "2-right-way-up.pdf"):
        assert (tmp_path / "2" / name).read_bytes() != (folder / name).read_bytes()


def test_an_edited_room_is_kept_and_a_typed_log_too(tmp_path, capfd):
    made = tmp_path / "room"
    assert cli.run(["lesson", str(made)]) == 0
    scene = made / "scene.toml"
    text = scene.read_text(encoding="utf-8").replace('trim = "2.20 m"', 'trim = "2.40 m"')
    scene.write_text(text, encoding="utf-8")
    (made / "log.csv").write_text(
        "group,unit,x,y\n1,practice pipe/1,0.1 SR,2.2 US\n", encoding="utf-8"
    )
    assert cli.run(["lesson", str(made), "--students", "9"]) == 0
    assert scene.read_text(encoding="utf-8") == text
    assert "practice pipe/1,0.1 SR" in (made / "log.csv").read_text(encoding="utf-8")
    assert "2.40 m high" in " ".join(pages((made / "1-lesson.pdf").read_bytes())[0].split())
    capfd.readouterr()
    assert cli.run(["lesson", str(made), "--log", str(made / "log.csv")]) == 0
    assert "group" in capfd.readouterr().out
    assert "WHAT THE LIGHT SAID" in pages((made / "class-page.pdf").read_bytes())[0]


def test_the_worksheets_are_marked_by_the_command_that_it_names(tmp_path, capfd):
    """It reads the answers as they lie there to be typed: none is typed yet."""
    made = tmp_path / "a room"
    assert cli.run(["lesson", str(made), "--students", "5", "--seed", "3"]) == 0
    call = shlex.split(re.search(r"aimcalc (drill .*)", capfd.readouterr().out)[1])
    assert (
        len(
            {text for text in pages((made / "7-worksheets.pdf").read_bytes()) if "orksheet" in text}
        )
        >= 5
    )
    assert cli.run(call) == 0
    assert "no answer" in capfd.readouterr().out


def test_a_room_without_units_is_told(tmp_path, capfd):
    made = tmp_path / "room"
    assert cli.run(["lesson", str(made)]) == 0
    scene = made / "scene.toml"
    text = scene.read_text(encoding="utf-8")
    scene.write_text(text[: text.index("[[unit]]")], encoding="utf-8")
    capfd.readouterr()
    assert cli.run(["lesson", str(made)]) == 2
    assert "Traceback" not in capfd.readouterr().err


def test_what_cannot_be_done_is_told_in_words(tmp_path, capfd):
    assert cli.run(["lesson", str(tmp_path / "a"), "--students", "3"]) == 2
    assert "expected a class of 4 to 40, got 3" in capfd.readouterr().err
    assert not (tmp_path / "a").exists()
    assert cli.run(["lesson", str(tmp_path / "b"), "--log", "no.csv"]) == 2
    assert "Make the lesson first" in capfd.readouterr().err
    assert not (tmp_path / "b").exists()


def test_the_reach_of_a_tail_by_hand(folder):
    """Unit 1: pivot (2.1, 0, 1.86), pan p to SR, down d; exit 0.24 back and 0.10 below, along f and u.

    f = (-sin p cos d, cos p cos d, -sin d), u = (-sin p sin d, cos p sin d, cos d); aside 1.4, ahead 1.4,
    fall 1.16.
    """
    rig = Show.read(folder).rig
    p, d = np.arctan2(1.4, 1.4), np.arctan2(1.16, np.hypot(1.4, 1.4))

    def leaves(p):
        f = np.array([-np.sin(p) * np.cos(d), np.cos(p) * np.cos(d), -np.sin(d)])
        u = np.array([-np.sin(p) * np.sin(d), np.cos(p) * np.sin(d), np.cos(d)])
        return np.array([2.1, 0.0, 2.2 - 0.34]) - 0.24 * f - 0.10 * u

    for told in reaches(rig, 0):
        way = -1 if told.side == "SR side" else 1
        tie = np.array([2.1 + way * told.at, 0.0, 2.2])
        assert told.aim == pytest.approx(np.linalg.norm(leaves(p) - tie), abs=2e-3)
        assert told.square == pytest.approx(np.linalg.norm(leaves(0.0) - tie), abs=2e-3)
        assert told.worst >= max(told.aim, told.square) - 2e-3
        assert told.spare == pytest.approx(0.90 - 0.15 - told.worst)
    good = {round(told.at / INCH): told for told in reaches(rig, 0) if told.side != "SR side"}
    assert good[9].spare > 0
    assert good[12].spare > 0
    assert good[24].spare < 0


def test_the_rooms_own_scene_has_no_stop(folder):
    show = Show.read(folder)
    assert not [found for found in show.findings if found.severity == "stop"]
    assert {answer.attitude for answer in show.rig.answers} == {"upright"}
    assert Path(folder / "scene.toml").read_text(encoding="utf-8").startswith("# A practice room")
