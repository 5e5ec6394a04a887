"""Letters that the sheets cannot set."""

from __future__ import annotations

import io
import pkgutil
from collections.abc import Callable
from pathlib import Path

import msgspec
import pypdfium2
import pytest

import aimcalc
from aimcalc.findings.alike import LEND
from aimcalc.rig.typeface import FOUND, found_here
from aimcalc.sheets.pieces import PIECES
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.findings.clean import CLEAN, changed, found, says, told, with_settings, with_unit
from tests.shows import a_show
from tests.typefaces import typeface

SEARCH = found_here  # before a test puts another in its place
Lenders = Callable[..., list[Path]]


@pytest.fixture
def lenders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Lenders:
    """Puts typefaces with these letters on this machine, best first."""

    def put(*letters: str) -> list[Path]:
        paths = [typeface(tmp_path / f"{k}.ttf", some) for k, some in enumerate(letters)]
        monkeypatch.setattr("aimcalc.rig.typeface.found_here", lambda: tuple(map(str, paths)))
        return paths

    return put


def test_a_title_in_chinese_stops_with_its_letters_and_place() -> None:
    scene = with_settings(title="Macbeth 舞台")
    assert told(scene) == [("stop", "letters-not-printed", None)]
    assert says(scene, "letters-not-printed") == (
        "The sheets' typefaces have no 舞 (U+821E) and 台 (U+53F0). They are in [scene] title."
    )


def test_hebrew_stops_though_the_typeface_has_it_since_it_runs_from_the_right() -> None:
    scene = with_unit("front/3", system="מסך")
    (finding,) = (f for f in found(scene) if f.rule == "letters-not-printed")
    assert "run from the right: מ (U+05DE), ס (U+05E1) and ך (U+05DA)" in finding.says
    assert "unit front/3, system" in finding.says


def test_what_stacks_or_joins_stops_though_a_typeface_has_it(lenders: Lenders) -> None:
    """A mark over a letter, a conjoining Korean letter, a word of an Indian script, a flag."""
    lenders("ขอบที่ㅎᄒमंच🇨")
    scene = with_settings(title="ขอบ ที่ ㅎ ᄒ मंच 🇨")
    assert told(scene) == [("stop", "letters-not-printed", None)]
    assert says(scene, "letters-not-printed") == (
        "The sheets cannot set letters that join or stack: ี (U+0E35), ่ (U+0E48), ᄒ (U+1112), म (U+092E), "
        "ं (U+0902), च (U+091A) and 🇨 (U+1F1E8). They are in [scene] title."
    )


def test_letters_that_a_typeface_here_lends_are_nothing_to_tell(lenders: Lenders) -> None:
    scene = with_settings(title="Macbeth 舞台")
    lenders("舞")
    assert says(scene, "letters-not-printed").startswith(
        "The sheets' typefaces have no 台 (U+53F0)."
    )
    lenders("舞台")
    assert told(scene) == []


def test_letters_of_two_typefaces_are_taken_from_both(lenders: Lenders) -> None:
    lenders("舞", "台舞")
    assert told(with_settings(title="舞台")) == []


def test_a_typeface_here_that_is_broken_is_passed_over(lenders: Lenders) -> None:
    first, _ = lenders("舞台", "舞台")
    first.write_bytes(first.read_bytes()[:200])
    assert told(with_settings(title="舞台")) == []


def test_accents_greek_and_cyrillic_print() -> None:
    assert told(with_settings(title="Čechov Чехов Τσέχωφ")) == []


def renamed(scene=CLEAN):  # type: ignore[no-untyped-def]
    """The clean rig with its front pipe, a target, a channel and the title in letters that do not print."""
    pipes = tuple(
        msgspec.structs.replace(p, name="前管" if p.name == "front" else p.name)
        for p in scene.pipes
    )
    targets = tuple(
        msgspec.structs.replace(t, name=t.name.replace("A", "כיסא")) for t in scene.targets
    )
    units = tuple(
        msgspec.structs.replace(
            u,
            position="前管" if u.position == "front" else u.position,
            target="כיסא" if u.target == "A" else u.target,
            colour="青",
            channel="🎭 " + u.number,
        )
        for u in scene.units
    )
    scene = changed(scene, pipes=pipes, targets=targets, units=units)
    return with_settings(scene, title="三把椅子", revision="校")


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.name)
def test_no_piece_of_a_draft_has_an_empty_box_or_crashes(piece) -> None:  # type: ignore[no-untyped-def]
    rig = solve_rig(renamed())
    streams = [io.BytesIO() for _ in piece.files]
    pkgutil.resolve_name(piece.maker)(
        a_show(rig, found(rig.scene)), *streams, PaperOptions(draft=True)
    )
    for file, stream in zip(piece.files, streams, strict=True):
        if file.endswith(".pdf"):
            document = pypdfium2.PdfDocument(io.BytesIO(stream.getvalue()))
            said = "".join(page.get_textpage().get_text_bounded() for page in document)
            assert not set("前管三把椅子校青כיסא🎭") & set(said)
            if piece.name == "cards":
                assert "[524D][7BA1]" in said


SCENE = """
[scene]
title = "舞台"

[[pipe]]
name = "A"
trim = 5
y = 0
from = -5
to = 5
"""


@pytest.mark.parametrize("way", ["name it in [scene]", "Install", "write it with other letters"])
def test_each_way_that_the_advice_names_lifts_the_stop(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    scene = tmp_path / "scene.toml"
    scene.write_text(SCENE, encoding="utf-8")
    (stop,) = (f for f in aimcalc.read(tmp_path).findings if f.severity == "stop")
    assert way.casefold() in stop.do.casefold()
    with pytest.raises(ValueError, match="舞"):
        aimcalc.read(tmp_path).write(tmp_path / "sheets", ["counts"])
    if way.startswith("name"):
        typeface(tmp_path / "FILE.ttf", "舞台")
        key = 'typeface = "FILE.ttf"'
        assert key in stop.do
        scene.write_text(SCENE.replace("[scene]", f"[scene]\n{key}"), encoding="utf-8")
    elif way == "Install":
        fonts = tmp_path / "fonts" / "truetype"
        fonts.mkdir(parents=True)
        typeface(fonts / "DroidSansFallback.ttf", "舞台")
        assert "Droid Sans Fallback" in stop.do
        monkeypatch.setattr("aimcalc.rig.typeface._folders", lambda: [str(tmp_path / "fonts")])
        monkeypatch.setattr("aimcalc.rig.typeface.found_here", SEARCH.__wrapped__)
    else:
        scene.write_text(SCENE.replace("舞台", "Stage, Σκηνή, Сцена"), encoding="utf-8")
    show = aimcalc.read(tmp_path)
    assert not [f for f in show.findings if f.severity == "stop"]
    assert show.write(tmp_path / "sheets", ["counts"])


def test_typefaces_that_the_advice_names_are_looked_for() -> None:
    for name in ("Noto Sans CJK", "Droid Sans Fallback", "GNU Unifont"):
        assert name in LEND
        plain = name.removeprefix("GNU ").replace(" ", "").casefold()
        assert any(file.casefold().startswith(plain) for file in FOUND)
