"""Letters that the sheets cannot set."""

from __future__ import annotations

import io
import pkgutil

import msgspec
import pypdfium2
import pytest

from aimcalc.sheets.pieces import PIECES
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.findings.clean import CLEAN, changed, found, says, told, with_settings, with_unit
from tests.shows import a_show


def test_a_title_in_chinese_stops_with_its_letters_and_place() -> None:
    scene = with_settings(title="Macbeth 舞台")
    assert told(scene) == [("stop", "letters-not-printed", None)]
    assert says(scene, "letters-not-printed") == (
        "The typeface of the sheets has no 舞 (U+821E) and 台 (U+53F0). They are in [scene] title."
    )


def test_hebrew_stops_though_the_typeface_has_it_since_it_runs_from_the_right() -> None:
    scene = with_unit("front/3", system="מסך")
    (finding,) = (f for f in found(scene) if f.rule == "letters-not-printed")
    assert "run from the right: מ (U+05DE), ס (U+05E1) and ך (U+05DA)" in finding.says
    assert "unit front/3, system" in finding.says


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
