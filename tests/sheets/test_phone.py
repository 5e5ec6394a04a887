"""The page on the phone says what the paper says, in one file that holds all of it and nothing that runs."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import re
from datetime import datetime
from functools import cache

import msgspec
import pytest

from aimcalc.scene.model import Target, Unit
from aimcalc.sheets import prep
from aimcalc.sheets.deck import deck
from aimcalc.sheets.ladder import ladder
from aimcalc.sheets.phone.page import phone_page
from aimcalc.sheets.pieces import chosen
from aimcalc.show import Show
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_pipe, a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

MEGABYTE = 1_000_000
SCENES = [("playhouse", "ft"), ("raked", "m"), ("studio", "m"), ("arena", "m")]


@cache
def page_of(name: str, length: str = "m") -> str:
    show = a_show(rig_of(name))
    return phone_page(show, prep.options_for(show.rig, length=length)).decode()


def data_in(page: str) -> dict[str, object]:
    (found,) = re.findall(r'<script type="application/json" id="data">(.*?)</script>', page, re.S)
    return json.loads(found)


@cache
def paper(make: object, name: str, length: str) -> dict[str, str]:
    """What the sheets of each position say."""
    stream, show = io.BytesIO(), a_show(rig_of(name))
    make(show, stream, prep.options_for(show.rig, length=length))
    told: dict[str, str] = {}
    for page in pdf_reading.runs(stream.getvalue()):
        words = " ".join(run.words for run in page)
        position = next(p for p in show.rig.rows if f"| {p} |" in words)
        told[position] = f"{told.get(position, '')} {words}"
    return told


def tokens(words: str) -> set[str]:
    """Words with a figure in them."""
    return {word.rstrip(".") for word in re.findall(r"[^\s,;:()]*\d[^\s,;:()]*", words)}


def strings(told: object) -> str:
    """All that is said anywhere in what JSON holds."""
    if isinstance(told, str):
        return told
    inside = told.values() if isinstance(told, dict) else told if isinstance(told, list) else ()
    return " ".join(map(strings, inside))


@pytest.mark.parametrize(("name", "length"), SCENES)
def test_every_figure_of_the_page_is_on_the_sheets_of_its_position(name, length):
    data = data_in(page_of(name, length))
    up, below = paper(ladder, name, length), paper(deck, name, length)
    assert len(data["units"]) == len(rig_of(name).units)
    for unit in data["units"]:
        position = data["positions"][unit["position"]]["name"]
        said = tokens(f"{up[position]} {below[position]}")
        for label, _, figures, words, _ in unit["cells"]:
            for told in (*figures, *words):
                assert tokens(told) <= said, (unit["name"], label, told)
        for word, says, _ in unit["told"]:
            assert word in up[position]
            assert tokens(says) <= said, (unit["name"], says)


@pytest.mark.parametrize(("name", "length"), SCENES)
def test_every_figure_of_a_ladder_sheet_s_rows_is_on_the_page(name, length):
    data = data_in(page_of(name, length))
    for n, position in enumerate(data["positions"]):
        mine = [
            [u["cells"], u["acts"], u["told"], u["number"]]
            for u in data["units"]
            if u["position"] == n
        ]
        of_page = tokens(strings([*mine, position, data["caution"], data["set"], data["title"]]))
        told = tokens(paper(ladder, name, length)[position["name"]])
        assert {t for t in told if t[-1] in "°'\""} <= of_page, position["name"]


def test_the_page_is_one_file_of_a_size_that_any_phone_takes():
    assert len(page_of("playhouse", "ft").encode()) < MEGABYTE


def test_a_thousand_units_stay_under_five_megabytes():
    units = [
        Unit(
            position=f"p{k % 20}",
            number=str(k),
            kind="k",
            at=(k // 20 - 25) / 3,
            target=f"t{k % 9}",
        )
        for k in range(1_000)
    ]
    targets = [Target(name=f"t{k}", x=k - 4.0, y=2.0) for k in range(9)]
    pipes = [a_pipe(f"p{k}", y=k - 9.0) for k in range(20)]
    scene = a_scene(units, targets, pipes=pipes)
    assert len(phone_page(a_show(Show(scene).rig, ()), PaperOptions())) < 5 * MEGABYTE


def test_nothing_runs_on_the_page_but_the_script_it_was_made_with_and_nothing_is_loaded():
    page = page_of("playhouse", "ft")
    (script,) = re.findall(r"<script>(.*?)</script>", page, re.S)
    (look,) = re.findall(r"<style>(.*?)</style>", page, re.S)
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]*)"', page)
    hashes = [
        base64.b64encode(hashlib.sha256(p.encode()).digest()).decode() for p in (script, look)
    ]
    assert f"script-src 'sha256-{hashes[0]}'; style-src 'sha256-{hashes[1]}'" in policy
    assert "default-src 'none'" in policy
    assert "connect-src 'none'" in policy
    assert "unsafe" not in policy
    assert not re.findall(r"\b(?:src|href)=(?!\"data:,\")", page.replace(script, ""))
    assert not re.findall(r"https?://(?!www\.w3\.org/2000/svg)", page)


def test_a_unit_called_script_is_text():
    name = '</script><script>alert("1")</script>'
    unit = Unit(position="p", number=name, kind="k", at=1.0, target="<b>t", colour="<i>&amp;")
    scene = a_scene([unit], [Target(name="<b>t", x=0.0, y=3.0)])
    scene = msgspec.structs.replace(
        scene, settings=msgspec.structs.replace(scene.settings, title="</title><script>x")
    )
    page = phone_page(Show(scene), PaperOptions()).decode()
    assert page.count("<script") == 2
    assert page.count("</script") == 2
    assert "<title>&lt;/title&gt;&lt;script&gt;x</title>" in page
    (told,) = data_in(page)["units"]
    assert told["name"] == f"p/{name}"


def test_prep_writes_the_page_and_twice_the_same(tmp_path):
    show = a_show(rig_of("studio"))
    for folder in ("a", "b"):
        prep.prepare(show, str(tmp_path / folder), prep.options_for(show.rig), chosen("phone"))
    first, second = (tmp_path / folder / "rig.html" for folder in ("a", "b"))
    assert first.read_bytes() == second.read_bytes()
    assert set(json.loads((tmp_path / "a" / "set.json").read_bytes())) == {"rig.html"}


def test_a_draft_and_a_part_say_so_on_the_page():
    show = a_show(rig_of("studio"))
    position = next(name for name, members in show.rig.rows.items() if members)
    part = prep.part_of(show.rig, [position])
    options = prep.options_for(show.rig, draft=True, part=part)
    data = data_in(phone_page(show, options).decode())
    assert data["over"] == f"DRAFT, PART: {position}"
    assert {unit["position"] for unit in data["units"]} == {0}
    assert [p["name"] for p in data["positions"]] == [position]


def test_what_is_kept_on_a_phone_is_kept_for_one_print():
    """The time of print changes nothing; a figure that changes is another print."""
    show = a_show(rig_of("studio"))
    later = prep.options_for(show.rig, length="m", printed=datetime(2025, 11, 14, 16, 2))
    data = data_in(phone_page(show, later).decode())
    assert data["set"].endswith("14 Nov, 16:02")
    assert data["print"] == data_in(page_of("studio", "m"))["print"]
    assert data_in(page_of("studio", "ft"))["print"] != data_in(page_of("studio", "m"))["print"]


def test_a_scene_without_units_has_a_page():
    data = data_in(phone_page(Show(a_scene([])), PaperOptions()).decode())
    assert data["units"] == []
    assert data["positions"] == []


def test_no_figure_reads_as_a_minus_sign_and_no_side_is_the_reader_s():
    for name, length in SCENES:
        data = data_in(page_of(name, length))
        for unit in data["units"]:
            for _, _, figures, words, _ in unit["cells"]:
                told = " ".join([*figures, *words])
                assert pdf_reading.minus_signs(told) == []
                assert pdf_reading.bare_sides(told) == []
