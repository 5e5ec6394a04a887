"""What a list says that its codes stand for, wherever it says it, and kinds that stand over their units."""

from __future__ import annotations

from pathlib import Path

import pytest
from xlsxwriter import Workbook

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.written import write_scene

KINDS = """
[[kind]]
name = "Profile 26"
family = "ers"
field = 26

[[kind]]
name = "6in Fresnel"
family = "fresnel"
field = 45

[[kind]]
name = "8in Fresnel"
family = "fresnel"
field = 50
"""
HEAD = "position,number,at,kind,target\n"


def _kinds(folder: Path, text: str) -> list[str]:
    path = write_scene(folder, KINDS, settings='hang = "hang.csv"')
    (folder / "hang.csv").write_text(text, encoding="utf-8")
    return [unit.kind for unit in load_scene(path).units]


def _asked(folder: Path, text: str) -> str:
    with pytest.raises(SceneError) as error:
        _kinds(folder, text)
    return error.value.report()


ROWS = "LX 1,1,2 m SL,P,A\nLX 1,2,1 m SL,F6,A\nLX 1,3,0,F8,A\n"
READ = ["Profile 26", "6in Fresnel", "8in Fresnel"]


@pytest.mark.parametrize(
    "line",
    [
        '"P = profile, F6 / F8 = fresnel"',
        "P = profile 26;  F6 = 6in fres;  F8 = 8in fres",
        '"Key: P = profile 26, F6 / F8 = fresnels"',
        "P=Profile 26,F6=6in Fresnel,F8=8in Fresnel",
        "KEY\nP,Profile 26\nF6,6in Fresnel\nF8,8in Fresnel",
        "Lamp codes\nP: profile 26\nF6: fresnel 6in\nF8: fresnel 8in",
        "Legend\nP / F6 / F8,Profile 26 / 6in Fresnel / 8in Fresnel",
        '"Key: P = Profile 26, F6 = 6in Fresnel, F8 = 8in Fresnel. Places in metres from the centre line"',
    ],
)
def test_a_key_is_read_above_and_below_the_units(tmp_path: Path, line: str) -> None:
    assert _kinds(tmp_path / "above", f"{line}\n\n{HEAD}{ROWS}") == READ
    assert _kinds(tmp_path / "below", f"{HEAD}{ROWS}\n{line}\n") == READ


def test_a_key_may_have_a_sheet_of_its_own(tmp_path: Path) -> None:
    path = write_scene(tmp_path, KINDS, settings='hang = "hang.xlsx"')
    with Workbook(tmp_path / "hang.xlsx") as book:
        hang, key = book.add_worksheet("Hang"), book.add_worksheet("Key")
        for number, line in enumerate((HEAD + ROWS).splitlines()):
            hang.write_row(number, 0, line.split(","))
        for number, row in enumerate(
            [("Symbol", "Lantern"), *zip(["P", "F6", "F8"], READ, strict=True)]
        ):
            key.write_row(number, 0, row)
    assert [unit.kind for unit in load_scene(path).units] == READ


def test_a_code_that_stands_for_two_kinds_is_asked(tmp_path: Path) -> None:
    report = _asked(tmp_path, f"X = profile 26\nX = 6in fresnel\n\n{HEAD}LX 1,1,0,X,A\n")
    assert '"X"' in report
    report = _asked(tmp_path / "size", f"X = fresnel\n\n{HEAD}LX 1,1,0,X,A\n")
    assert '"X"' in report


def test_a_remark_with_a_sign_in_the_row_of_a_unit_hides_no_unit(tmp_path: Path) -> None:
    text = f"{HEAD[:-1]},notes\nLX 1,1,0,spot,A,P = profile 26\nLX 1,2,1 m SL,P,A,\n"
    assert _kinds(tmp_path, text) == ["spot", "Profile 26"]


def test_a_kind_over_its_units_is_theirs(tmp_path: Path) -> None:
    rows = "FRESNELS 6in (2)\nLX 1,1,2 m SL,A\nLX 1,2,1 m SL,A\n\n*** Profiles ***\nLX 1,3,0,A\n"
    head = "position,number,at,target\n"
    assert _kinds(tmp_path, head + rows) == ["6in Fresnel", "6in Fresnel", "Profile 26"]


def test_a_heading_that_two_kinds_fit_is_asked(tmp_path: Path) -> None:
    report = _asked(tmp_path, "position,number,at,target\nFRESNELS\nLX 1,1,2 m SL,A\n")
    assert '"FRESNELS" may be' in report
    report = _asked(tmp_path / "title", "position,number,at,target\nBlackbird\nLX 1,1,2 m SL,A\n")
    assert "Add kind." in report


@pytest.mark.parametrize(("said", "at"), [("stage left", 2.0), ("stage right", -2.0)])
def test_a_legend_on_another_sheet_says_which_side_plus_is(
    tmp_path: Path, said: str, at: float
) -> None:
    path = write_scene(tmp_path, KINDS, settings='hang = "hang.xlsx"')
    with Workbook(tmp_path / "hang.xlsx") as book:
        key, hang = book.add_worksheet("Legend"), book.add_worksheet("Hang")
        key.write_row(0, 0, ["m", f"metres from centre line, + is {said}"])
        for number, row in enumerate(
            [["bar", "no", "m", "lamp", "focus"], ["LX 1", 1, "+2", "spot", "A"]]
        ):
            hang.write_row(number, 0, row)
    assert [unit.at for unit in load_scene(path).units] == [at]


SIGNS = "LX 1,1,2 m SL,{0},A\nLX 1,2,1 m SL,{1},A\nLX 1,3,0,{2},A\n"


@pytest.mark.parametrize(
    "signs",
    [
        ("[]", "o", ">"),
        ("*", "O", "#"),
        ("(x)", "( )", "()"),
        ("□", "○", "△"),
        ("■", "●", "▲"),
        ("<>", "><", "@"),
        ("+", "x", "o"),
    ],
)
def test_signs_that_are_drawn_for_kinds(tmp_path: Path, signs: tuple[str, ...]) -> None:
    if "( )" in signs:
        signs = ("(x)", "(o)", "()")
    line = f"{signs[0]} = Profile 26   {signs[1]} = 6in Fresnel   {signs[2]} = 8in Fresnel\n"
    assert _kinds(tmp_path, line + HEAD + SIGNS.format(*signs)) == READ
    assert _kinds(tmp_path, HEAD + SIGNS.format(*signs) + line) == READ


def test_a_sign_of_a_legend_is_no_ditto_mark(tmp_path: Path) -> None:
    line = "^ = Profile 26   o = 6in Fresnel   > = 8in Fresnel\n"
    assert _kinds(tmp_path, line + HEAD + SIGNS.format("o", "^", ">")) == [
        "6in Fresnel",
        "Profile 26",
        "8in Fresnel",
    ]


def test_signs_that_no_legend_explains_are_asked_about(tmp_path: Path) -> None:
    line = "[] = Profile 26   o = 6in Fresnel\n"
    assert '">"' in _asked(tmp_path, line + HEAD + SIGNS.format("[]", "o", ">"))
    twice = "[] = Profile 26   o = 6in Fresnel\n[] = 8in Fresnel\n"
    assert '"[]"' in _asked(tmp_path, twice + HEAD + SIGNS.format("[]", "o", "o"))


HUNG = [["Hang", "No", "At", "Inst", "Focus"], ["QX", 1, "1 m SL", "P", "A"]]
HUNG += [["1L", 1, 2, "F6", "A"]]
OF_SHEET = '\n[[pipe]]\nname = "Beam 1"\ntrim = 6\ny = 3\nfrom = -5\nto = 5\n'
OF_SHEET += '\n[[boom]]\nname = "Boom 1L"\nx = 5\ny = 2\nheight = 4\n'
PAIRS = [["QX", "Beam 1"], ["1L", "Boom 1 Left"], ["P", "Profile 26"], ["F6", "6in Fresnel"]]


def _of_sheets(folder: Path, name: str, rows: list[list[str]]) -> list[tuple[str, object]]:
    path = write_scene(folder, KINDS, OF_SHEET, settings='hang = "hang.xlsx"')
    with Workbook(folder / "hang.xlsx") as book:
        for called, cells in (("Hang", HUNG), (name, rows)):
            sheet = book.add_worksheet(called)
            for n, row in enumerate(cells):
                sheet.write_row(n, 0, row)
    return [(unit.position, unit.kind) for unit in load_scene(path).units]


@pytest.mark.parametrize("name", ["key", "Abbreviations", "Sheet2", "Positions"])
@pytest.mark.parametrize(
    "rows",
    [
        PAIRS,
        [["Code", "Name"], *PAIRS],
        [pair[::-1] for pair in PAIRS],
        [[" = ".join(pair)] for pair in PAIRS],
        [[": ".join(pair)] for pair in PAIRS],
    ],
)
def test_a_sheet_of_codes_alone_is_a_legend(
    name: str, rows: list[list[str]], tmp_path: Path
) -> None:
    read = [("Beam 1", "Profile 26"), ("Boom 1L", "6in Fresnel")]
    assert _of_sheets(tmp_path, name, rows) == read


def test_what_no_legend_tells_is_asked(tmp_path: Path) -> None:
    with pytest.raises(SceneError):
        _of_sheets(tmp_path, "Sheet2", [*PAIRS[1:], ["QZ", "Beam 1"]])


def test_a_key_at_the_foot_may_go_on_with_how_places_are_read(tmp_path: Path) -> None:
    head = "pos,nr,x,u,target\n"
    rows = "LX 1,1,-2,P,A\nLX 1,2,1,F6,A\n"
    foot = (
        '"Key: P = Profile 26, F6 = 6in Fresnel, F8 = 8in Fresnel. x in metres from the centre line, '
        'plus is stage left"\n'
    )
    path = write_scene(tmp_path, KINDS, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(head + rows.replace("F6", "F8") + foot)
    units = load_scene(path).units
    assert [(unit.kind, unit.at) for unit in units] == [("Profile 26", -2.0), ("8in Fresnel", 1.0)]


CODED = "position,number,at,kind,target,colour\nLX 1,1,2 m SL,P,A,W\nLX 1,2,1 m SL,Q,A,C\n"


def _coded(folder: Path, text: str) -> list[tuple[str, str]]:
    path = write_scene(folder, KINDS, settings='hang = "hang.csv"')
    (folder / "hang.csv").write_text(text, encoding="utf-8")
    return [(unit.kind, str(unit.colour)) for unit in load_scene(path).units]


OF_KINDS = [("Profile 26", "R02"), ("8in Fresnel", "R60")]
GELS = '"W = warm (R02), C = R60"\n'


@pytest.mark.parametrize(
    "foot",
    [
        "\nP,Profile 26\nQ,8in Fresnel\n",
        "\nP is Profile 26 and Q is 8in Fresnel\n",
        '\n"Profile 26 (P), 8in Fresnel (Q)"\n',
        "P = Profile 26\nQ = 8in Fresnel\n",
        '"P = Profile 26, Q = 8in Fresnel"\n',
    ],
)
def test_keys_of_kinds_and_colours_at_the_foot(foot: str, tmp_path: Path) -> None:
    assert _coded(tmp_path, f"{CODED}{GELS}{foot}") == OF_KINDS


def test_a_key_beside_the_units(tmp_path: Path) -> None:
    lines = CODED.splitlines()
    beside = [",,Key,", ",,P,Profile 26", ",,Q,8in Fresnel"]
    rows = [line + more for line, more in zip(lines, beside, strict=True)]
    assert _coded(tmp_path, "\n".join(rows) + f"\n{GELS}") == OF_KINDS


@pytest.mark.parametrize("gels", ["", "W = warm\n", '"W = R02, W = R60"\n'])
def test_a_colour_that_no_key_tells_stays_as_it_is(gels: str, tmp_path: Path) -> None:
    foot = "P = Profile 26\nQ = 8in Fresnel\n"
    assert [gel for _, gel in _coded(tmp_path, f"{CODED}{gels}{foot}")] == ["W", "C"]


def test_pairs_of_positions_and_kinds_are_no_key(tmp_path: Path) -> None:
    more = '\n[[pipe]]\nname = "LX 2"\ntrim = 6\ny = 4\nfrom = -5\nto = 5\n'
    path = write_scene(tmp_path, KINDS, more, settings='hang = "hang.csv"')
    rows = "\nLX 1,spot\n1,2 m SL,A\n\nLX 2,Profile 26\n1,1 m SL,A\n"
    (tmp_path / "hang.csv").write_text(f"number,at,target\n{rows}", encoding="utf-8")
    read = [(unit.position, unit.kind) for unit in load_scene(path).units]
    assert read == [("LX 1", "spot"), ("LX 2", "Profile 26")]


KEYED = "Position,No,At,T,Lights\nLX 1,1,2 m SL,P,A\nLX 1,2,1 m SL,F,A\nLX 1,3,0,E,A\n\n"


def test_a_key_under_the_heading_of_its_column(tmp_path: Path) -> None:
    key = "T:\nP,Profile 26\nF,6in Fresnel\nE,8in Fresnel\n"
    assert _kinds(tmp_path, KEYED + key) == READ


def test_a_key_of_what_is_no_kind_is_asked(tmp_path: Path) -> None:
    assert "kind" in _asked(tmp_path, KEYED + "T:\nP,Prompt\nF,Floor\nE,East\n")


def test_a_column_beside_that_says_what_codes_are(tmp_path: Path) -> None:
    more = '[[target]]\nname = "DSR"\nx = -3\ny = 1\n'
    path = write_scene(tmp_path, more, settings='hang = "hang.csv"')
    rows = [
        "Position,No,At,Type,Area,,Areas",
        "LX 1,1,2 m SL,spot,C,,C = DSR",
        "LX 1,2,0,spot,A,,B = DSR",
        "LX 1,3,1 m SR,spot,B",
    ]
    (tmp_path / "hang.csv").write_text("\n".join(rows), encoding="utf-8")
    assert [unit.target for unit in load_scene(path).units] == ["DSR", "A", "DSR"]
