"""The cover of the aim sheets."""

from __future__ import annotations

import io
import re

from aimcalc.findings import findings
from aimcalc.scene.model import Boom, Unit
from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text.facts import LONG
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of


def texts_of(rig, found=()) -> list[str]:
    stream = io.BytesIO()
    aim_sheets(a_show(rig, found), stream, PaperOptions())
    return [" ".join(text.split()) for text in pdf_reading.pages(stream.getvalue())]


def cover_of(rig, found=()) -> str:
    return " ".join(text for text in texts_of(rig, found) if "| cover |" in text)


def a_rig(**settings):
    units = [
        Unit(position="p", number="1", kind="made", at=1.0, point=(1.0, 5.0, 1.5)),
        Unit(position="p", number="2", kind="typical", at=0.0, point=(0.0, 5.0, 1.5)),
        Unit(position="q", number="1", kind="made", at=0.0, point=(0.0, 5.0, 1.5)),
        Unit(
            position="b",
            number="1",
            kind="made",
            at=2.0,
            mount="arm",
            arm_to=90.0,
            point=(0.0, 5.0, 1.5),
        ),
    ]
    kinds = [a_kind("made"), a_kind("typical", typical=True, drop_under=0.0)]
    pipes = [a_pipe(), a_pipe("q", measured=True)]
    booms = [Boom(name="b", x=-5, y=0, height=4)]
    return solve_rig(a_scene(units, pipes=pipes, booms=booms, kinds=kinds, **settings))


def test_the_cover_counts_units_positions_and_findings():
    found = [
        Finding("stop", "a", "It is upside down.", "Turn it.", unit="p/1"),
        *[Finding("warn", "b", "It is cut.", "Move it.", unit="p/2")] * 2,
        Finding("note", "c", "It is steep.", "Look.", unit="q/1"),
    ]
    cover = cover_of(a_rig(), found)
    assert "4 units on 3 positions" in cover
    assert "1 stop, 2 warnings, 1 note." in cover


def test_stops_and_warns_are_listed_with_what_to_do_and_notes_are_not():
    found = [
        Finding("warn", "b", "It is cut.", "Move it.", unit="p/2"),
        Finding("stop", "a", "It is upside down.", "Turn it.", unit="p/1"),
        Finding("note", "c", "It is steep.", "Look.", unit="q/1"),
        Finding("warn", "d", "The whole rig is mirrored.", "Check the plan."),
    ]
    cover = cover_of(a_rig(), found)
    assert cover.index("p/1: It is upside down. Turn it.") < cover.index("p/2: It is cut. Move it.")
    assert "Scene: The whole rig is mirrored. Check the plan." in cover
    assert "It is steep." not in cover


def test_what_was_assumed_is_named():
    cover = cover_of(a_rig())
    assert "as plotted, not measured: p." in cover
    assert re.search(r"with typical figures, .*: typical\.", cover)
    assert "from pipe to pivot is taken as 0 for typical" in cover


def test_the_cover_has_every_caution_in_full():
    cover = cover_of(a_rig())
    for heading, text in LONG:
        assert heading in cover
        assert text in cover


def test_the_contents_name_the_pages_where_the_sheets_are():
    rig = rig_of("playhouse")
    texts = texts_of(rig, findings(rig))
    cover = " ".join(text for text in texts if "| cover |" in text)
    listed = re.findall(
        r"(AT TRIM|PIPE IN|ON THE BOOM|ON THE STAND) pages? (\d+)(?: to (\d+))?", cover
    )
    assert len(listed) == 16  # 7 pipes at trim, 5 of them also in, 2 booms, 2 stands
    for title, first, last in listed:
        for page in range(int(first), int(last or first) + 1):
            assert title in texts[page - 1], (title, page)
    tables = [k for k, text in enumerate(texts, 1) if "START END" in text or "ON THE STAND" in text]
    assert tables[-1] == max(int(last or first) for _, first, last in listed)


def test_many_findings_run_over_more_covers_and_the_contents_still_hold():
    found = [
        Finding("warn", "b", f"Trouble {k}. " + "words " * 20, "Mend it.", unit="p/2")
        for k in range(60)
    ]
    texts = texts_of(a_rig(), found)
    covers = [text for text in texts if "| cover |" in text]
    assert len(covers) > 2
    assert all(f"Trouble {k}." in " ".join(covers) for k in range(60))
    (page,) = re.findall(r"q 1 unit, trim 6.00 m measured: AT TRIM page (\d+)", " ".join(covers))
    assert "| q |" in texts[int(page) - 1]


def test_the_scene_s_note_and_revision_are_on_the_cover():
    cover = cover_of(a_rig(note="Ask for the key.", revision="B"))
    assert "Note: Ask for the key." in cover
    assert "Aim sheets, revision B" in cover
    assert "no revision given" in cover_of(a_rig())
