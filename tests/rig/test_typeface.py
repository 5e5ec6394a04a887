"""Letters that other typefaces lend: found in their files, drawn as they are, refused in words."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from aimcalc.rig import typeface as lending
from aimcalc.rig.letters import now_lent
from aimcalc.rig.typeface import TypefaceError, lent_to, outlines
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.text import typeset
from tests.findings.clean import CLEAN, with_settings
from tests.typefaces import typeface

SEARCH = lending.found_here  # before a test puts another in its place

SCENE = """
[scene]
title = "舞台"
{typeface}

[[pipe]]
name = "A"
trim = 5
y = 0
from = -5
to = 5
"""


def a_scene(folder: Path, key: str = ""):  # type: ignore[no-untyped-def]
    (folder / "scene.toml").write_text(SCENE.format(typeface=key), encoding="utf-8")
    return load_scene(folder)


def tables(font: TTFont) -> dict[int, tuple[int, dict[str, int]]]:
    """Where each Unicode table of letters of a font is, by its form, and its glyphs as fontTools has them."""
    raw, found = font.reader["cmap"], {}
    for k, table in enumerate(font["cmap"].tables):
        if table.isUnicode():
            at = int.from_bytes(raw[8 + 8 * k : 12 + 8 * k], "big")
            known = {chr(code): font.getGlyphID(name) for code, name in table.cmap.items()}
            found[table.format] = (at, known)
    return found


def test_every_letter_is_found_where_another_reader_finds_it() -> None:
    """DejaVu Sans has tables of both forms."""
    font = TTFont(typeset.font_file(typeset.REGULAR))
    raw, forms = font.reader["cmap"], tables(font)
    strange = ["舞", "\U0001f3ad", "\U0010ffff", "\0"]
    at, known = forms[4]
    segments = lending._segments(raw, at)
    found = {c: lending._in_segments(segments, ord(c)) for c in [*known, *strange]}
    assert len(known) > 5000
    assert {c: number for c, number in found.items() if number} == known
    at, known = forms[12]
    groups = lending._groups(raw, at)
    found = {c: lending._in_groups(groups, ord(c)) for c in [*known, *strange]}
    assert len(known) > 5000
    assert {c: number for c, number in found.items() if number} == known


@pytest.mark.parametrize("cubic", [False, True], ids=["TrueType", "CFF"])
def test_an_outline_is_that_of_the_file(tmp_path: Path, cubic: bool) -> None:
    """The box of the test's typeface: 50 to 600 and a round side, 800 high, a foot 100 deep, 900 wide."""
    file = typeface(tmp_path / "a.otf", "舞🎭", cubic=cubic)
    lent = outlines(str(file), "舞🎭台")
    assert sorted(lent) == ["舞", "🎭"]
    letter = lent["舞"]
    assert letter.advance == 0.9
    assert [step for step, _ in letter.outline].count("closePath") == 2
    points = {p for _, points in letter.outline for p in points if p}
    assert {(0.05, 0), (0.05, 0.8), (0.6, 0.8), (0.6, 0), (0.4, -0.1), (0.3, 0)} <= points
    assert {p[0] for p in points if p[0] > 0.6}, "the round side"
    assert max(p[0] for p in points) <= 0.85 + 1e-3


def test_a_typeface_taller_than_a_line_is_made_smaller(tmp_path: Path) -> None:
    file = typeface(tmp_path / "a.ttf", "舞", top=1600, foot=-100)
    letter = outlines(str(file), "舞")["舞"]
    assert letter.advance == pytest.approx(0.45)  # 0.8 / 1.6 of 0.9
    assert max(p[1] for _, points in letter.outline for p in points if p) == pytest.approx(0.8)


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda data: data[:300], "it is broken, or is no TrueType or OpenType font file"),
        (lambda data: b"", "it is broken, or is no TrueType or OpenType font file"),
        (lambda data: b"%PDF-1.4 and so on", "it is broken, or is no TrueType"),
        (lambda data: data.replace(b"glyf", b"CBDT"), "its letters have no outlines"),
    ],
)
def test_a_file_that_cannot_be_used_is_told_with_its_place(
    tmp_path: Path, spoil, said: str
) -> None:  # type: ignore[no-untyped-def]
    file = typeface(tmp_path / "a.ttf", "舞台")
    file.write_bytes(spoil(file.read_bytes()))
    scene = a_scene(tmp_path, 'typeface = "a.ttf"')
    with pytest.raises(SceneError) as told:
        lent_to(scene)
    (mistake,) = told.value.mistakes
    assert mistake.place() == "scene.toml, [scene], typeface"
    assert f"a.ttf: {said}" in mistake.came
    assert mistake.do == "Name another file, or leave the key out."


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"may_embed": False}, "its maker does not allow it to be embedded in a page"),
        ({"weight": 100}, "too thin for copies (weight 100, least 300)"),
    ],
)
def test_what_may_not_or_should_not_be_printed_is_refused(tmp_path: Path, how, said: str) -> None:  # type: ignore[no-untyped-def]
    file = typeface(tmp_path / "a.ttf", "舞台", **how)
    with pytest.raises(TypefaceError) as told:
        outlines(str(file), "舞")
    assert said in str(told.value)


def test_a_broken_file_that_no_letter_needs_is_not_opened(tmp_path: Path) -> None:
    scene = with_settings(CLEAN, title="Plain", typeface="missing.ttf")
    assert lent_to(scene).letters == {}


def test_the_typeface_that_the_scene_names_comes_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = typeface(tmp_path / "own.ttf", "舞", top=700)
    found = typeface(tmp_path / "found.ttf", "舞台", top=500)
    monkeypatch.setattr(lending, "found_here", lambda: (str(found),))
    lent = lent_to(a_scene(tmp_path, f'typeface = "{own.name}"')).letters
    tops = {c: max(p[1] for _, ps in lent[c].outline for p in ps if p) for c in "舞台"}
    assert tops == {"舞": 0.7, "台": 0.5}


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("a.woff2", "a file ending in .ttf or .otf or .ttc or .otc"),
        ("../a.ttf", "a file in the scene's folder or below it"),
        ("none.ttf", "a file that can be read"),
    ],
)
def test_a_typeface_lies_in_the_scenes_folder(tmp_path: Path, name: str, expected: str) -> None:
    with pytest.raises(SceneError) as told:
        a_scene(tmp_path, f'typeface = "{name}"')
    assert [(m.key, m.expected) for m in told.value.mistakes] == [("typeface", expected)]


def test_typefaces_are_looked_for_in_the_usual_folders_best_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("x/unifont.otf", "y/z/DroidSansFallbackFull.ttf", "y/another.ttf"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(b"")
    monkeypatch.setattr(lending, "_folders", lambda: [str(tmp_path / "none"), str(tmp_path)])
    found = SEARCH.__wrapped__()
    assert [os.path.basename(path) for path in found] == [
        "DroidSansFallbackFull.ttf",
        "unifont.otf",
    ]


@pytest.mark.parametrize("system", ["linux", "darwin", "win32"])
def test_every_system_has_folders_of_its_own(system: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.platform", system)
    folders = lending._folders()
    assert len(folders) >= 2
    assert all("ont" in folder for folder in folders)


def test_nothing_is_lent_outside() -> None:
    assert now_lent().letters == {}
