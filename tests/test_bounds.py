"""Whole commands on lists that say much in a few bytes: time and memory go with what is told.

Each runs in a process of its own, which tells its processor time and the most memory it held.
"""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

import pytest

from tests.studies import cases

GIB = 1024 * 1024  # kB
RUN = """
import resource, sys
from pathlib import Path
from aimcalc.cli import run
status = run(sys.argv[1:])
sys.stdout.flush()
used = resource.getrusage(resource.RUSAGE_SELF)
# ru_maxrss starts from what the process that forked this one held; the system's own mark starts at nothing.
told = Path("/proc/self/status")
lines = told.read_text().splitlines() if told.exists() else []
held = next((int(line.split()[1]) for line in lines if line.startswith("VmHWM")), used.ru_maxrss)
print(status, used.ru_utime + used.ru_stime, held, file=sys.stderr)
"""
HEAD = '[scene]\ntitle = "heap"\nhang = "hang.csv"\n[stage]\n'
DECK = "outline = [[-10, 0], [10, 0], [10, 12], [-10, 12]]\n"
TARGET = '[[target]]\nname = "c"\nx = 0.5\ny = 4\n'


def pipe(name: str, y: float, reach: float = 10.0) -> str:
    return f'[[pipe]]\nname = "{name}"\ny = {y}\ntrim = 5\nfrom = {-reach}\nto = {reach}\n'


def scene(
    folder: Path, positions: str, rows: list[tuple[str, int, float]], mount: str = ""
) -> Path:
    (folder / "scene.toml").write_text(HEAD + DECK + positions + TARGET)
    way = "US" if mount else ""
    lines = [f"{position},{number},{at},ers-30,c,{mount},{way}" for position, number, at in rows]
    head = "position,number,at,kind,target,mount,arm_to"
    (folder / "hang.csv").write_text("\n".join([head, *lines]))
    return folder


def called(*arguments: str | Path) -> tuple[int, str, float, int]:
    """Exit status, what was printed (of a refusal, why), seconds of processor time, kB held at most."""
    done = subprocess.run(
        [sys.executable, "-c", RUN, *map(str, arguments)], capture_output=True, text=True
    )
    assert "Traceback" not in done.stderr, done.stderr
    told, _, figures = done.stderr.strip().rpartition("\n")
    status, seconds, held = figures.split()
    assert "aimcalc itself has failed" not in done.stderr, done.stderr
    return int(status), done.stdout or told, float(seconds), int(held)


def heaped(folder: Path, count: int) -> Path:
    """So many units in one place."""
    return scene(folder, pipe("LX", 0), [("LX", number, 0.0) for number in range(1, count + 1)])


@pytest.mark.long
def test_ten_thousand_in_one_place_are_told_in_one_stop(tmp_path: Path) -> None:
    # The bars: 1 GiB and 10 s for 10,000.
    count = cases(1_000, 10_000)
    status, text, seconds, held = called("check", heaped(tmp_path, count))
    assert status == 1
    assert text.count("STOP") == 1
    assert (
        f"Units 1, 2, 3, 4, 5, 6, 7 and {count - 7} more at the zero mark are clamped on one spot"
        in text
    )
    assert held < GIB
    assert seconds < cases(2, 10)


def test_positions_heaped_up_are_refused_a_look_at_their_bodies(tmp_path: Path) -> None:
    # 1500 booms in one place: every unit would meet every other, and each finding name two.
    names = [f"b{k}" for k in range(1500)]
    booms = "".join(f'[[boom]]\nname = "{name}"\nx = 1\ny = 1\nheight = 5\n' for name in names)
    rows = [(name, 1, 3.0) for name in names]
    status, text, _, held = called("check", scene(tmp_path, booms, rows, "direct"))
    assert status == 1
    assert "1493 more have over 30 others within reach of their bodies" in text
    assert held < GIB


def test_more_systems_than_can_be_lit_are_refused_by_number(tmp_path: Path) -> None:
    folder = scene(tmp_path, pipe("LX", 0), [("LX", k, k / 40) for k in range(1, 301)])
    rows = (folder / "hang.csv").read_text().splitlines()
    named = [f"{row},s{k}" for k, row in enumerate(rows[1:])]
    (folder / "hang.csv").write_text("\n".join([f"{rows[0]},system", *named]))
    done = subprocess.run(
        [sys.executable, "-m", "aimcalc", "cover", str(folder)], capture_output=True, text=True
    )
    assert done.returncode == 2
    assert "at most 200 systems can be worked out, and the scene has 300" in done.stderr


@pytest.mark.long
def test_a_long_row_is_told_in_words_that_go_with_its_length(tmp_path: Path) -> None:
    # Half a metre apart, a row of n: what is told of each unit must not name the whole row.
    def told(count: int) -> int:
        rows = [("LX", k + 1, (k - count / 2) * 0.5) for k in range(count)]
        folder = tmp_path / str(count)
        folder.mkdir()
        return len(called("check", scene(folder, pipe("LX", 0, count), rows))[1])

    few = cases(150, 300)
    assert told(2 * few) < 3 * told(few)


@pytest.mark.long
def test_units_of_one_circuit_are_told_in_words_that_go_with_their_number(tmp_path: Path) -> None:
    # Each unit shares its circuit with all the others.
    def told(count: int) -> int:
        circuits = 'circuits = [{name = "c", at = 1}]\n'
        folder = scene(tmp_path, pipe("LX", 0) + circuits, [])
        rows = [f"LX,{number},0,ers-30,c,c" for number in range(1, count + 1)]
        head = "position,number,at,kind,target,circuit"
        (folder / "hang.csv").write_text("\n".join([head, *rows]))
        status, text, _, held = called("hang", folder)
        assert (status, held < GIB) == (1, True)
        assert f"and {count - 25} more" in text  # 24 of the others are named
        return len(text)

    few = cases(200, 500)
    assert told(4 * few) < 5 * told(few)


def test_a_list_longer_than_any_rig_is_refused_by_its_limit(tmp_path: Path) -> None:
    # 100,000 rows in two kilobytes; 20,000 with a unit in each are read.
    folder = scene(tmp_path, pipe("LX", 0), [])
    toml = folder / "scene.toml"
    toml.write_text(toml.read_text().replace("hang.csv", "hang.ods"))
    heads, row = ["position", "number", "at", "kind", "target"], ["LX", "1", "0", "ers-30", "c"]
    (folder / "hang.ods").write_bytes(repeated_row(heads, row, 100_000))
    status, text, _, held = called("check", folder)
    assert status == 2
    assert "at most 20,000 rows with a unit in each" in text
    assert held < GIB / 4


def test_a_row_of_millions_of_cells_is_refused_before_it_is_split(tmp_path: Path) -> None:
    folder = scene(tmp_path, pipe("LX", 0), [])
    (folder / "hang.csv").write_text("position,number" + "," * 19_000_000)
    status, text, seconds, held = called("check", folder)
    assert status == 2
    assert "16,384 cells" in text
    assert "line 1" in text
    assert (seconds < 10, held < GIB / 4) == (True, True)


@pytest.mark.long
def test_sheets_of_more_units_than_a_rig_has_are_refused_by_the_limit(tmp_path: Path) -> None:
    count = cases(2_001, 10_000)
    heap, out = heaped(tmp_path, count), tmp_path / "set"
    status, text, _, held = called("prep", heap, "-o", out, "--draft")
    assert status == 2
    assert f"The scene has {count:,} units; sheets are made of at most 2,000." in text
    assert not out.exists()
    assert held < GIB
    status, *_ = called("prep", heap, "-o", out, "--draft", "--only", "lists")
    assert (status, (out / "aims.csv").read_text().count("\n") > count) == (1, True)


def test_rows_that_hold_nothing_cost_nothing(tmp_path: Path) -> None:
    # A head of 16,000 columns without a name, and below it a million empty lines.
    folder = scene(tmp_path, pipe("LX", 0), [("LX", 1, 0.0)])
    head, *rows = (folder / "hang.csv").read_text().splitlines()
    (folder / "hang.csv").write_text("\n".join([head + "," * 16_000, *rows, "\n" * 1_000_000]))
    status, _, seconds, held = called("check", folder)
    assert status == 0
    assert (seconds < 20, held < GIB / 4) == (True, True)


def repeated_row(heads: list[str], row: list[str], count: int) -> bytes:
    """An ODS workbook of headings and one row that is said to stand there `count` times."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    book, sheet = OpenDocumentSpreadsheet(), Table(name="Hang")
    for cells, times in ((heads, 1), (row, count)):
        line = TableRow(numberrowsrepeated=times)
        for cell in cells:
            box = TableCell(valuetype="string", stringvalue=cell)
            box.addElement(P(text=cell))
            line.addElement(box)
        sheet.addElement(line)
    book.spreadsheet.addElement(sheet)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
