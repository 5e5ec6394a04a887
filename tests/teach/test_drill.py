"""`aimcalc drill`: keys by sums of the numbers that are told, mistakes planted and named, the same bytes."""

from __future__ import annotations

import csv
import json
import math
import random
import re
from io import BytesIO

import pytest

from aimcalc import cli
from aimcalc.teach.drill import LEVELS, SORTS, answer_words, drill, judged, marked, questions_of
from aimcalc.teach.question import GROUPS
from aimcalc.teach.worksheets import key_pages, worksheets
from aimcalc.text.stamp import PaperOptions
from tests.sheets.pdf_reading import overlaps, runs
from tests.shows import SCENES, a_show, rig_of
from tests.studies import cases

NAMES = ("studio", "raked", "arena", "playhouse")
FOOT, INCH, POUND = 0.3048, 0.0254, 0.45359237
LENGTH = r"(\d+'-\d+(?: \d/\d)?\"|\d+(?:\.\d+)? m)"


def show_of(name):
    return a_show(rig_of(name))


def metres(text):
    """A printed length, read without the program: 3'-4 1/2" or 1.25 m."""
    found = re.fullmatch(r"(\d+)'-(\d+)(?: (\d)/(\d))?\"", text)
    if found is None:
        return float(text.removesuffix(" m"))
    feet, inches, a, b = found.groups()
    return int(feet) * FOOT + (int(inches) + (int(a) / int(b) if a else 0.0)) * INCH


def place(text):
    """A printed place along a line: + on the SL or US side."""
    if text in ("the zero mark", "on the centre line", "on the plaster line"):
        return 0.0
    size, side = text.rsplit(" ", 1)
    return metres(size) * {"SL": 1, "US": 1, "SR": -1, "DS": -1}[side]


def lengths(text):
    return [metres(found) for found in re.findall(LENGTH, text)]


def points(text):
    """The plan points of "clamp X, Y; face X, Y." in a question."""
    found = re.search(r"clamp (.+?), (.+?); face (.+?), (.+?)\. (?:Which|The)", text)
    return [place(part) for part in found.groups()]


def own_sum(question, show):
    """The answer from what the question tells alone; None of what a drawing has to be read for."""
    asks = question.asks
    if question.sort == "weigh":
        parts = re.findall(r"(\d+) [^,]+? of ([\d.]+) (kg|lb)", asks.split(" carries ")[1])
        return sum(int(n) * float(w) * (POUND if u == "lb" else 1.0) for n, w, u in parts)
    if question.sort == "reach":
        whole, kept, way = lengths(asks)
        return whole - kept - way
    if question.sort == "turn back":
        told = re.search(r"outlet is at (.+?), the connector at (.+?)\. The cable", asks).groups()
        outlet, end = map(place, told)
        stock, kept = lengths(asks.split("The cable")[1])
        over = (stock - kept - abs(end - outlet)) / 2
        return end + math.copysign(over, end - outlet)
    if question.sort == "mark":
        first, last, at = re.search(
            r"runs from (.+?) to (.+?) and is .*? hangs at (.+?)\. How", asks
        ).groups()
        assert place(first) != place(last)
        return abs(place(at) - place(first))
    if question.sort == "square":
        x, y, fx, fy = points(asks)
        if "US" in question.choices:
            return "US" if fy > y else "DS"
        return "SL" if fx > x else "SR"
    if question.sort == "sight":
        x, y, fx, fy = points(asks)
        out = lengths(asks.split("The tape")[1])[0]
        own = show.scene.positions[question.subject.rpartition("/")[0]]
        at = next(u.at for u in show.scene.units if f"{u.position}/{u.number}" == question.subject)
        if abs(own.start[0] - own.end[0]) > abs(own.start[1] - own.end[1]):
            return at + out * (fx - x) / abs(fy - y)
        return at + out * (fy - y) / abs(fx - x)
    if question.sort == "down":
        told = lengths(asks.split(":", 1)[1])
        pivot, face, away = told[1], told[2], told[-1]
        below = " below" in asks.split("the face is")[1]
        return math.degrees(math.atan2(pivot - (-face if below else face), away))
    if question.sort == "pool":
        field = float(re.search(r"field is (\d+)°", asks)[1])
        return 2 * lengths(asks)[0] * math.tan(math.radians(field / 2))
    return None


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("sort", SORTS)
def test_every_key_comes_out_of_the_sum_that_the_question_tells(name, sort):
    show = show_of(name)
    for question in questions_of(show, sort):
        told = own_sum(question, show)
        if told is None:
            continue
        if isinstance(told, str):
            assert told == question.answer, question.asks
        else:
            near = question.near + (
                0.5 * 3 if sort == "pool" else 0.0
            )  # its field is told in whole degrees
            assert abs(told - question.answer) <= near, question.asks


@pytest.mark.parametrize("name", NAMES)
def test_what_a_drawing_is_read_for_is_what_the_scene_says(name):
    show = show_of(name)
    units = {f"{u.position}/{u.number}": u for u in show.scene.units}
    targets = {t.name: t for t in show.scene.targets}
    found = 0
    for question in questions_of(show, "plot"):
        at = place(re.search(r"hangs at (.+), counted", question.asks)[1])
        assert units[question.subject].at == pytest.approx(at, abs=0.006)
        assert units[question.subject].number == question.answer
        found += 1
    for question in questions_of(show, "lands"):
        x, y = re.search(r"the face at (.+), (.+)\?", question.asks).groups()
        unit = units[question.subject]
        assert unit.number == question.answer
        if unit.target is not None:
            target = targets[unit.target]
            assert (target.x, target.y) == pytest.approx((place(x), place(y)), abs=0.006)
            found += 1
    assert found >= 4


@pytest.mark.parametrize("name", NAMES)
def test_a_mistake_is_never_taken_for_the_answer_nor_for_another(name):
    show = show_of(name)
    for sort in SORTS:
        for question in questions_of(show, sort):
            assert question.mistakes
            for mistake in question.mistakes:
                words = answer_words(question, mistake.gives, show.scene.settings.unit)
                right, told = judged(question, words, show.scene.settings.unit)
                assert (right, told) == (False, mistake.name), (question.asks, words)
            words = answer_words(question, question.answer, show.scene.settings.unit)
            assert judged(question, words, show.scene.settings.unit) == (True, None)


def written(value, question, rng, unit):
    """An answer as a student writes it: with noise of a third of what is near, as one standard deviation,
    cut off at what is near, and rounded as people round (common practice, no source)."""
    if isinstance(value, str):
        return value
    noise = max(-0.8, min(0.8, rng.gauss(0.0, 1 / 3))) * question.near
    value += noise
    if question.form == "angle":
        return f"{value:.1f}"
    if question.form == "weight":
        return f"{value / POUND:.1f} lb" if unit in ("ft", "in") else f"{value:.1f} kg"
    size = f"{abs(value) / INCH:.1f} in" if unit in ("ft", "in") else f"{abs(value):.3f} m"
    if question.form != "place":
        return size
    return f"{size} {question.sides[value < 0]}"


@pytest.mark.long
def test_of_1000_students_the_planted_mistake_is_named_and_no_right_answer_is_marked_wrong():
    show = show_of("playhouse")
    unit = show.scene.settings.unit
    work = drill(show, seed=11, students=60, level=3)
    rng = random.Random(20)
    named = planted = right = 0
    students = cases(100, 1000)
    for k in range(students):
        student = k % len(work.sheets) + 1
        questions = work.sheets[student - 1]
        wrong = rng.randrange(len(questions)) if k % 2 else None
        given, meant = {}, None
        for number, question in enumerate(questions):
            value = question.answer
            if number == wrong:
                meant = rng.choice(question.mistakes)
                value = meant.gives
            given[number + 1] = written(value, question, rng, unit)
        for number, answer in enumerate(marked(work, student, given).answers):
            if number == wrong:
                planted += 1
                named += answer.mistake == meant.name
            else:
                right += 1
                assert answer.right, (answer, questions[number].asks)
    assert planted == students // 2
    assert right > 5 * students
    assert named >= 0.95 * planted


def test_a_sheet_asks_the_same_sorts_of_every_student_and_more_at_higher_levels():
    show = show_of("playhouse")
    seen = []
    for level in LEVELS:
        work = drill(show, seed=3, students=5, level=level)
        sorts = {tuple(q.sort for q in sheet) for sheet in work.sheets}
        assert len(sorts) == 1
        groups = [GROUPS.index(q.group) for q in work.sheets[0]]
        assert groups == sorted(groups)
        assert len({tuple(q.subject for q in sheet) for sheet in work.sheets}) == 5
        seen.append(set(sorts.pop()))
    assert seen[0] < seen[1] < seen[2] == set(SORTS)


def pdfs(seed):
    show, out = show_of("studio"), []
    options = PaperOptions(paper="a4", length="m")
    for make in (worksheets, key_pages):
        target = BytesIO()
        make(show, drill(show, seed=seed, students=3, level=3), target, options)
        out.append(target.getvalue())
    return out


def test_the_same_seed_gives_the_same_bytes_and_another_seed_another_sheet():
    assert pdfs(5) == pdfs(5)
    assert pdfs(5)[0] != pdfs(6)[0]


@pytest.mark.parametrize("name", NAMES)
def test_every_sheet_is_one_page_with_nothing_over_anything(name):
    show = show_of(name)
    options = PaperOptions(paper="letter" if name == "playhouse" else "a4")
    for level in LEVELS:
        work = drill(show, seed=2, students=4, level=level)
        for make in (worksheets, key_pages):
            target = BytesIO()
            assert make(show, work, target, options) == 4
            for page in runs(target.getvalue()):
                assert overlaps(page) == []


def test_answers_go_out_blank_and_come_back_marked(tmp_path, capfdbinary):
    folder = tmp_path / "class"
    call = ["drill", str(SCENES / "studio"), "--seed", "4", "--students", "2", "--level", "3"]
    assert cli.run([*call, "-o", str(folder)]) == 0
    assert b"answers.csv" in capfdbinary.readouterr().out
    assert sorted(p.name for p in folder.iterdir()) == [
        "answers.csv", "key.pdf", "light-plot.pdf", "pool-plan.pdf", "worksheets.pdf"
    ]  # fmt: skip
    rows = list(csv.DictReader((folder / "answers.csv").open()))
    work = drill(show_of("studio"), seed=4, students=2, level=3)
    for row in rows:
        question = work.sheets[int(row["student"]) - 1][int(row["question"]) - 1]
        value = question.answer
        if row["student"] == "2" and question.sort == "down":
            value = next(m.gives for m in question.mistakes if m.name == "from plumb")
        row["answer"] = answer_words(question, value, "m")
    with (folder / "done.csv").open("w", newline="") as file:
        writer = csv.DictWriter(file, rows[0])
        writer.writeheader()
        writer.writerows(rows)
    assert cli.run([*call, "--mark", str(folder / "done.csv")]) == 0
    told = capfdbinary.readouterr().out.decode()
    assert "STUDENT 1: 10 of 10 right" in told or re.search(r"STUDENT 1: (\d+) of \1 right", told)
    assert "from plumb: 1 of 2" in told
    assert cli.run([*call, "--mark", str(folder / "done.csv"), "--json"]) == 0
    first, second = json.loads(capfdbinary.readouterr().out)["students"]
    assert first["right"] == first["asked"] == second["right"] + 1
    assert second["habits"] == {"from plumb": 1}


HEAD = "student,question,answer\n"
WRONG = {
    "": "at least|a row of headings",
    HEAD: "at least one answer",
    HEAD + "9,1,3\n": "the number of a worksheet, 1 to 2",
    HEAD + "x,1,3\n": "the number of a worksheet, 1 to 2",
    HEAD + "1,99,3\n": "the number of a question",
    HEAD + "1,1,3\n1,1,4\n": "each question answered once",
    'student,question,asks,answer\n1,1,"pool, nothing/1",3\n': "--seed, --level, --students",
    "name,mark\nA,3\n": "a row of headings",
}


@pytest.mark.parametrize("text", WRONG)
def test_a_file_that_cannot_be_marked_is_told_in_words(text, tmp_path, capfd):
    file = tmp_path / "answers.csv"
    file.write_text(text)
    call = ["drill", str(SCENES / "studio"), "--seed", "4", "--students", "2", "--mark", str(file)]
    assert cli.run(call) == 2
    told = capfd.readouterr().err
    assert re.search(WRONG[text], told), told
    assert "Traceback" not in told


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ([], "expected -o DIR"),
        (["-o", "x", "--mark", "y.csv"], "expected -o DIR"),
        (["--mark", "nowhere.csv"], "nowhere.csv"),
        (["--students", "0", "-o", "x"], "--students"),
        (["--level", "4", "-o", "x"], "--level"),
    ],
)
def test_a_call_that_cannot_be_done_writes_nothing(more, says, tmp_path, monkeypatch, capfd):
    monkeypatch.chdir(tmp_path)
    assert cli.run(["drill", str(SCENES / "studio"), "--seed", "1", *more]) == 2
    assert says in capfd.readouterr().err
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("sort", "typed", "says"),
    [
        ("sight", "", "no answer"),
        ("sight", "banana", "cannot be read"),
        ("square", "upstage", None),
        ("square", "U.S.", None),
    ],
)
def test_what_is_written_in_other_words_is_read_as_it_is_meant(sort, typed, says):
    show = show_of("studio")
    question = next(q for q in questions_of(show, sort) if q.answer != "DS")
    assert judged(question, typed, "m")[1] == says


def test_a_place_without_its_side_is_named():
    show = show_of("playhouse")
    question = next(q for q in questions_of(show, "sight") if abs(q.answer) > 1)
    assert judged(question, f"{abs(question.answer):.2f} m", "ft") == (False, "no side told")
