"""What students wrote, read from a typed file, and the marks of a class in words."""

from __future__ import annotations

import csv
import io
import os
from collections import Counter
from collections.abc import Sequence

from aimcalc.scene.files import csv_rows, read_whole
from aimcalc.scene.hanglist.table.sheetfile import decoded
from aimcalc.scene.hanglist.table.textmarks import MARKS
from aimcalc.scene.mistakes import MISSING, Log, SceneError, TooManyError, Where, Wrong
from aimcalc.teach.drill import Drill, Marks
from aimcalc.teach.question import Question

MEGABYTES = 3
HEADS = ("student", "question", "answer")
ASKS = "asks"
BLANK = "student,question,asks,answer"
Given = dict[int, dict[int, str]]


def blank_answers(work: Drill) -> bytes:
    """A file to type answers into: a row for every question of every student, in CSV."""
    rows: list[list[object]] = [list(BLANK.split(","))]
    for student, questions in enumerate(work.sheets, start=1):
        rows += [[student, number, asked(q), ""] for number, q in enumerate(questions, start=1)]
    text = io.StringIO()
    csv.writer(text).writerows(rows)
    return text.getvalue().encode()


def asked(question: Question) -> str:
    """What a question asks, in the few words by which a file of answers is known to be of this drill."""
    return f"{question.sort}, {question.subject}"


def read_answers(path: str, work: Drill) -> Given:
    """What each student wrote, by the number of the question: student, question, answer, in CSV.

    A column `asks`, where there is one, must say what the drill asks. A question without a row is one without
    an answer; a student without any is left out. Raises SceneError with every mistake of the file, its row
    and its column.
    """
    file, log = os.path.basename(path), Log()
    given: Given = {}
    try:
        text = decoded(read_whole(path, MEGABYTES))[0]
        rows = _rows(text)
        head = next((row for _, row in rows), [])
        keys = [cell.strip().casefold() for cell in head]
        if not set(HEADS) <= set(keys):
            came = ", ".join(head)[:60] or "nothing"
            raise Wrong(f"a row of headings: {BLANK}", came=came, rank=MISSING)
        columns = [keys.index(key) if key in keys else None for key in (*HEADS, ASKS)]
        for number, row in rows[1:]:
            cells = ["" if k is None or k >= len(row) else row[k].strip() for k in columns]
            if any(cells):
                _take(given, work, cells, Where(file, "", f"row {number}"), log)
        if not given and not log.mistakes:
            raise Wrong("at least one answer", "Fill in the answers.", came="none", rank=MISSING)
    except Wrong as wrong:
        log.add(Where(file, ""), "", wrong, file)
    except TooManyError:
        pass  # the report says that there may be more
    if log.mistakes:
        raise SceneError(file, log.mistakes)
    return given


def _rows(text: str) -> list[tuple[int, list[str]]]:
    """The rows that say anything, with their numbers, parted by whichever mark their head has most of."""
    head = next((line for line in text.splitlines() if line.strip()), "")
    rows = csv_rows(text, max(MARKS, key=head.count))
    return [(k, row) for k, row in enumerate(rows, start=1) if any(cell.strip() for cell in row)]


def _take(given: Given, work: Drill, cells: Sequence[str], where: Where, log: Log) -> None:
    most = len(work.sheets)
    student = _whole(cells[0], most)
    if student is None:
        log.add(where, "student", Wrong(f"the number of a worksheet, 1 to {most}"), cells[0])
        return
    questions = work.sheets[student - 1]
    question = _whole(cells[1], len(questions))
    if question is None:
        expected = f"the number of a question, 1 to {len(questions)}"
        log.add(where, "question", Wrong(expected), cells[1])
        return
    of = asked(questions[question - 1])
    if cells[3] and cells[3] != of:
        do = "Mark it with the --seed, --level, --students and scene that made the worksheets."
        log.add(where, ASKS, Wrong(f"what this drill asks there: {of}", do), cells[3])
        return
    mine = given.setdefault(student, {})
    if mine.get(question, cells[2]) != cells[2]:
        wrong = Wrong("each question answered once", "Leave out one of the two rows.")
        log.add(where, "answer", wrong, cells[2])
        return
    mine[question] = cells[2]


def _whole(text: str, most: int) -> int | None:
    return int(text) if text.isascii() and text.isdigit() and 1 <= int(text) <= most else None


def marks_text(marks: Sequence[Marks]) -> str:
    """The marks of a class: each student's, with the mistakes that give what was written; the class's."""
    lines = []
    for each in marks:
        groups = ", ".join(f"{group} {right} of {n}" for group, (right, n) in each.groups.items())
        lines.append(f"STUDENT {each.student}: {each.right} of {each.asked} right. {groups}.")
        for a in each.answers:
            if not a.right:
                wrote = f'"{a.given.strip()}"' if a.given.strip() else "nothing"
                lines.append(
                    f"  {a.question}. {a.sort}, {a.subject}: wrote {wrote}; it is {a.answer}: {a.mistake}."
                )
        lines.append("")
    made = Counter(name for each in marks for name in each.habits)
    if made:
        told = "; ".join(f"{name}: {n} of {len(marks)}" for name, n in made.most_common())
        lines.append(f"LOOK FOR, students who did so at least once: {told}.")
    else:
        lines.append("All answers are right.")
    return "\n".join(lines)
