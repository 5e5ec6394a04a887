"""Hang lists without a table: 24 texts of as many imagined people, typed with their right readings before
anything read them, in the shape of those of `tests/unseen7`; lines that must be asked about; made lines.

First reading of the first twelve: 4 as a careful person reads them, 4 refused though they can be read, 4 read
wrong with a note that tells it (SL taken for the first letters of Stand Left; a colour kept as a remark). Of
the second twelve, once those were read: 7 as they should, 5 asked about though they can be read, none wrong.
"""

from __future__ import annotations

import contextlib
import random
from pathlib import Path

import openpyxl
import pytest

from aimcalc.scene.hanglist import lists
from aimcalc.scene.hanglist.lines.freelines import KEYS, FreeLines, free_lines
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.rows.listrow import Around
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import Log, SceneError
from tests.unseen7.test_unseen7 import differences, read

HERE = Path(__file__).parent
NAMES = sorted(path.stem for path in HERE.glob("*.toml"))


@pytest.mark.parametrize("name", NAMES)
def test_a_text_is_read_as_a_careful_person_reads_it(name: str, tmp_path: Path) -> None:
    assert differences(name, tmp_path / "scene", HERE) == []


def reading(text: str, folder: Path, house: str = "chapel") -> tuple[list[dict], str, bool]:
    """What a text of one's own is read as, all that is said of it, and whether the reading stops."""
    (folder / "own.txt").write_text(text, encoding="utf-8")
    (folder / "own.toml").write_text(f'list = "own.txt"\nhouse = "{house}.house"\n', "utf-8")
    (folder / f"{house}.house").write_bytes((HERE / f"{house}.house").read_bytes())
    return read("own", folder / "scene", folder)


# Each under "Bar 2", beside what the question must name.
ASKED = {
    "1 Spot 20 2m SL focus Pulpit ch 3, see 4": '"see 4"',
    "1 Spot 20 2m SL Pulpit Lectern ch 3": '"Lectern"',
    "1 Spot 20 2m SL 1m SR Pulpit ch 3": '"1m SR"',
    "1 Spot 20 2m SL Pulpit ch 3 ch 4": "which channel",
    "1 Spot 20 2m SL Pulpit ch 3, 4": '"4"',
    "1 Spot 20 2m SL Pulpit 7": '"7"',
    "1 Spot 2m SL Pulpit ch 3": "Spot 20 or Spot 35",
    "1 Wurble 5k 2m SL focus Pulpit ch 3": '"Wurble 5k"',
    "1 Spot 20 2m SL focus Throne ch 3": '"Throne"',
    "1 Spot 20 2m left focus Pulpit ch 3": "SL or SR",
    "1-4 Spot 20 2m SL focus Pulpit": "one unit a row",
    "2 x Spot 20 2m SL focus Pulpit": '"2 x"',
    "1 Spot 20 2m SL not Pulpit ch 3": '"not"',
    "1 Spot 20 moved 2m SL to 3m SL focus Pulpit ch 3": '"3m SL"',
    "1 Spot 20, 2m from SL end, Pulpit, ch 3": '"SL end"',
    "1 Spot 20, 2m SL, Pulpit?, ch 3": "leaves open",
    "1 Spot 20, 2m SL, Pulpit, ch TBC": '"ch TBC"',
    "1 Spot 20, 2m SL, Pulpit, LX9, ch 3": '"LX9"',
    "1 Spot 20, 2m SL, Pulpit - CUT?": "does not",
    "1 Spot 20 2m SL Pulpit ch 3, 2 Spot 35 1m SR Lectern": "2 Spot 35",
    "Spot 20, 2m SL, Pulpit, ch 3": "number",
    "1 Spot 20, 2m SL, focus\nPulpit, ch 3": "goes on",
    "Bar 9\n1 Spot 20, 2m SL, Pulpit": '"Bar 9"',
    "the new perch\n1 Spot 20, 2m SL, Pulpit": "position",
    "Skybar\n1 Spot 20, 2m SL, Pulpit": '"Skybar"',
    "Bar 3 from here on\n1 Spot 20, 2m SL, Pulpit": "stands over",
    "1 Spot 20, 2m SL, focus Pulpit Lectern, ch 3": '"Lectern"',
    "1 Spot 20, 2m SL, Pulpit, amber L201, ch 3": "which colour",
    "1 Spot 20, 2m, Pulpit, ch 3, + top hat SR": "top hat SR",
    "1 Spot 20, 2m SL, Pulpit, ch 3 (was Lectern)": "was Lectern",
    "1 Spot 20, 2m SL, Pulpit, Fresnel, ch 3": '"Fresnel"',
    "please take down:\nBar 3\n1 Spot 20, 2m SL, Pulpit": "hang",
}


def test_a_line_that_is_called_cut_is_left_out_and_told(tmp_path: Path) -> None:
    text = "Bar 2\n8 Spot 20, 1.5 m SR, Lectern, ch 9\n1 Spot 20, 2m SL, Pulpit - CUT\n"
    units, said, stopped = reading(text, tmp_path)
    assert [unit["number"] for unit in units] == ["8"]
    assert not stopped
    assert "the unit of row 3 is left out, called cut" in said


@pytest.mark.parametrize("line", ASKED)
def test_a_line_that_may_be_two_things_is_asked_about(line: str, tmp_path: Path) -> None:
    above = "Bar 2\n8 Spot 20, 1.5 m SR, Lectern, ch 9\n"
    units, said, _ = reading(f"{above}{line}\n", tmp_path)
    assert units == []
    assert ASKED[line] in said
    assert any(f"row {n}" in said for n in range(3, 6)), said


def test_units_without_targets_need_them_by_their_rows(tmp_path: Path) -> None:
    text = "STAND LEFT\n1  0.45m  PC 650  ch 1  N/C  shin\n2  1.2m  PC 650  ch 2  L201  head\n"
    _, said, _ = reading(text, tmp_path)
    assert "own.txt, rows 2, 3, target" in said
    assert "headings" not in said


def test_what_is_no_unit_is_counted_and_how_the_first_was_read_is_told(tmp_path: Path) -> None:
    text = (
        "Hi Jo,\n\nBar 1\n1 - Spot 20 - 2m SL - focus Pulpit - ch 3 - with an iris\n"
        "the ladder is in the vestry, mind the font\n2 - same - 2m SR - focus Lectern - ch 4\n"
        "Cheers\n> did you count them?\n"
    )
    units, said, stops = reading(text, tmp_path)
    assert [unit["position"] for unit in units] == ["Bar 1", "Bar 1"]
    assert [unit["kind"] for unit in units] == ["Spot 20", "Spot 20"]
    assert not stops
    assert "is read as number 1, at 2m SL, kind Spot 20, target Pulpit, channel 3" in said
    assert 'kept as remarks of their units: "with an iris"' in said
    assert "rows 1, 5, 7, 8 hold no unit" in said


@pytest.mark.parametrize(
    "remark", ["thanks", "remember the bonds", "Tea at half nine?", "(all top hung)"]
)
def test_a_remark_leaves_what_follows_where_it_was(remark: str, tmp_path: Path) -> None:
    text = f"Bar 1\n1 Spot 20 2m SL Pulpit\n{remark}\n2 Spot 20 2m SR Lectern\n"
    units, _, _ = reading(text, tmp_path)
    assert [unit["position"] for unit in units] == ["Bar 1", "Bar 1"]


def test_a_unit_may_go_on_in_the_line_below(tmp_path: Path) -> None:
    units, said, _ = reading("Bar 1\n1 Spot 20, 2m SL\n   focus Pulpit, ch 3, L201\n", tmp_path)
    assert [(u["target"], u["channel"], u["colour"]) for u in units] == [("Pulpit", "3", "L201")]
    assert "going on with the unit above: row 3" in said


def test_figures_are_in_the_unit_that_a_line_names(tmp_path: Path) -> None:
    units, _, _ = reading("feet off centre\nBar 1\n1 Spot 20 12 SR Pulpit ch 3\n", tmp_path)
    assert units[0]["at"] == pytest.approx(-12 * 0.3048)


def test_free_lines_in_a_column_of_a_workbook(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    for line in ("Bar 1", "1 - Spot 20 - 2m SL - focus Pulpit - ch 3"):
        book.active.append([line])
    book.save(tmp_path / "own.xlsx")
    house = (HERE / "chapel.house").read_text("utf-8")
    scene = house.replace("[scene]\n", '[scene]\nhang = "own.xlsx"\n', 1)
    (tmp_path / "scene.toml").write_text(scene, "utf-8")
    (unit,) = load_scene(str(tmp_path)).units
    assert (unit.position, unit.number, unit.kind, unit.target) == (
        "Bar 1",
        "1",
        "Spot 20",
        "Pulpit",
    )


def test_a_slip_of_the_finger_is_read_and_told(tmp_path: Path) -> None:
    units, said, _ = reading("Bar 1\n1 Frenel 1k 2m SL Pulpti ch 3\n", tmp_path)
    assert [(u["kind"], u["target"]) for u in units] == [("Fresnel 1k", "Pulpit")]
    assert '"Frenel 1k" is Fresnel 1k' in said
    assert '"Pulpti" is Pulpit' in said


# --- Made lines: what they say is known, so that none may be read as anything else --------------------

KINDS = ("Spot 20", "Spot 35", "Fresnel 650", "Fresnel 1k", "PC 650", "Flood 500")
TARGETS = ("Pulpit", "Lectern", "Choir", "Piano", "Soloist", "Steps", "Organ", "Backcloth")
PLACES = ("2.2m SL", "2.2 m SR", "2.2 SL", "SL 1.4m", "0.0m", "on CL", "3m left", "7'6\" SL")
COLOURS = ("", "L201", "R80", "N/C", "half CTB", "amber", "L103+R132")
AIMS = ("{}", "focus {}", "-> {}", "on {}", "at the {}", "to {}", "onto {}")
CHANNELS = ("ch {}", "ch{}", "chan {}", "channel {}", "ch. {}")
BETWEEN = (", ", " - ", "  ", "; ", "\t", " ", " | ", " – ")
FIRST = ("{} ", "#{} ", "{}. ", "{}: ", "{}) ", "unit {} ", "no {}: ", "{} - ", "{}, ")


def made(dice: random.Random) -> tuple[str, dict[str, str]]:
    """A line of a unit, and what it says."""
    said = {
        "number": str(dice.randint(1, 40)),
        "at": dice.choice(PLACES),
        "kind": dice.choice(KINDS),
        "target": dice.choice(TARGETS),
        "channel": str(dice.randint(1, 300)),
        "colour": dice.choice(COLOURS),
    }
    target = dice.choice(AIMS).format(said["target"])
    parts = [said["kind"], said["at"], target, dice.choice(CHANNELS).format(said["channel"])]
    parts += [said["colour"]] * bool(said["colour"])
    dice.shuffle(parts)
    return dice.choice(FIRST).format(said["number"]) + dice.choice(BETWEEN).join(parts), said


def around(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Around:
    """What of the chapel a list is read by."""
    caught: list[Around] = []

    def read_list(_path: str, _name: str, around: Around, _log: Log) -> lists.HangList:
        caught.append(around)
        return lists.HangList([])

    house = (HERE / "chapel.house").read_text("utf-8")
    (folder / "x.txt").write_text("x", "utf-8")
    (folder / "scene.toml").write_text(
        house.replace("[scene]\n", '[scene]\nhang = "x.txt"\n', 1), "utf-8"
    )
    with monkeypatch.context() as patched:
        patched.setattr(lists, "read_list", read_list)
        load_scene(str(folder))
    return caught[0]


def parsed(lines: list[str], scene: Around) -> FreeLines | None:
    return free_lines(lines, Meanings("x.txt", scene, Log(), Noticed("x.txt")))


def test_a_made_line_is_read_as_it_was_made_or_asked_about(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    scene = around(tmp_path, monkeypatch)
    dice = random.Random(12)
    asked = 0
    for _ in range(300):
        line, said = made(dice)
        found = parsed([line], scene)
        assert found is not None, line
        if found.asked:
            asked += 1
            continue
        cells = dict(zip(KEYS, found.head.rows[0], strict=True))
        assert cells == {"position": "", "circuit": "", "note": "", **said}, line
    assert asked <= 6  # two in a hundred


def test_no_part_of_a_second_unit_is_lost_in_silence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two units in a line without a mark between them are never one."""
    scene = around(tmp_path, monkeypatch)
    dice = random.Random(5)
    for _ in range(60):
        (first, one), (second, other) = made(dice), made(dice)
        if one["channel"] == other["channel"]:
            continue
        found = parsed([f"{first}, {second}"], scene)
        assert found is not None
        assert found.asked, f"{first}, {second}"


SCRAPS = (
    *KINDS,
    *TARGETS,
    *PLACES,
    *COLOURS,
    *FIRST,
    *BETWEEN,
    "Bar 1",
    "ch",
    "focus",
    "(",
    ")",
    "/",
    "?",
    "{}",
    "½",
    "''",
    "\x00",
)


def test_no_line_breaks_the_reading(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    scene = around(tmp_path, monkeypatch)
    dice = random.Random(3)
    for _ in range(25):
        lines = ["".join(dice.choices(SCRAPS, k=dice.randint(0, 14))) for _ in range(8)]
        parsed(lines, scene)
        (tmp_path / "x.txt").write_text("\n".join(lines), "utf-8")
        with contextlib.suppress(SceneError):
            load_scene(str(tmp_path))
