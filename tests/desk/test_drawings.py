"""Plan and section as pictures of a page: everything that can be moved is there by name, at its place."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

from aimcalc.desk.drawings import Picture, plan_svg, section_svg
from aimcalc.scene.loading import load_scene
from aimcalc.show import Show
from tests.scene.written import UNIT, unit, write_scene
from tests.shows import a_show, rig_of

SVG = "{http://www.w3.org/2000/svg}"
FT = 0.3048  # m, exact
NAMES = ("playhouse", "raked", "studio", "arena")
HOSTILE = """<script>alert("1 & 2")</script>'"""


def groups(picture: Picture) -> dict[str, list[ElementTree.Element]]:
    """The groups of a picture by whose they are."""
    found: dict[str, list[ElementTree.Element]] = {}
    for group in ElementTree.fromstring(picture.svg).iter(f"{SVG}g"):
        found.setdefault(group.attrib["data-name"], []).append(group)
    return found


def points(elements: list[ElementTree.Element]) -> np.ndarray:
    """Every corner of the paths of some groups, (n, 2)."""
    paths = [path.attrib["d"] for each in elements for path in each.iter(f"{SVG}path")]
    pairs = re.findall(r"(-?[\d.]+) (-?[\d.]+)", " ".join(paths))
    return np.array(pairs, dtype=float)


def at(picture: Picture, x: float, y: float) -> tuple[float, float]:
    a, b, c, d, e, f = picture.matrix
    return a * x + c * y + e, b * x + d * y + f


@pytest.mark.parametrize("draw", [plan_svg, section_svg])
@pytest.mark.parametrize("name", NAMES)
def test_what_can_be_moved_is_there_by_its_name(name: str, draw: Callable[[Show], Picture]) -> None:
    rig = rig_of(name)
    found = groups(draw(a_show(rig)))
    aimed = {u.target for u in rig.units if u.target}
    targets = {t.name for t in rig.scene.targets} if draw is plan_svg else aimed
    assert found.keys() >= {*rig.names, *targets}
    drawn = rig.scene.positions if draw is plan_svg else [p.name for p in rig.scene.booms]
    assert found.keys() >= set(drawn)


@pytest.mark.parametrize("name", NAMES)
def test_a_point_in_metres_is_where_the_matrix_says(name: str) -> None:
    """The cross of a target has its middle there; a pipe on the plan ends there."""
    rig = rig_of(name)
    picture = plan_svg(a_show(rig))
    found = groups(picture)
    for target in rig.scene.targets:
        strokes = [g for g in found[target.name] if g.find(f"{SVG}path[@fill='none']") is not None]
        middle = [
            (p.min(axis=0) + p.max(axis=0)) / 2 for g in strokes if len(p := points([g])) == 4
        ]
        assert any(np.allclose(m, at(picture, target.x, target.y), atol=0.002) for m in middle)
    for pipe in rig.scene.pipes:
        if pipe.chords:
            continue
        corners = points(found[pipe.name])
        for end in (pipe.start, pipe.end):
            assert np.abs(corners - at(picture, *end[:2])).max(axis=1).min() < 0.002


def test_the_rulers_which_the_paper_draws_agree_with_the_matrix() -> None:
    picture = plan_svg(a_show(rig_of("playhouse")))
    texts = {t.text: t for t in ElementTree.fromstring(picture.svg).iter(f"{SVG}text")}
    (x10, _), (x20, _) = at(picture, 10 * FT, 0), at(picture, 20 * FT, 0)
    middle = {
        word: float(texts[word].attrib["x"]) + float(texts[word].attrib["textLength"]) / 2
        for word in ("10' SL", "20' SL")
    }
    assert middle["10' SL"] == pytest.approx(x10, abs=0.01)
    assert middle["20' SL"] == pytest.approx(x20, abs=0.01)


def test_the_section_has_upstage_to_the_right_and_its_pipes_at_their_trims() -> None:
    """Pipe 1 of the playhouse: 4 ft US, trim 19 ft; its trim is told beside it."""
    picture = section_svg(a_show(rig_of("playhouse")))
    pipe = groups(picture)["pipe 1"]
    dot = next(points([g]) for g in pipe if g.find(f"{SVG}path[@fill='#000']") is not None)
    assert np.allclose(dot.mean(axis=0), at(picture, 4 * FT, 19 * FT), atol=0.05)
    words = [t.text for g in pipe for t in g.iter(f"{SVG}text")]
    assert sorted(words) == ["19'-0\"", "pipe 1"]
    assert at(picture, 1, 0)[0] > at(picture, 0, 0)[0]
    assert at(picture, 0, 1)[1] < at(picture, 0, 0)[1]


@pytest.mark.parametrize("draw", [plan_svg, section_svg])
@pytest.mark.parametrize("name", NAMES)
def test_a_picture_is_black_on_white_within_its_edges_and_of_a_screens_shape(
    name: str, draw: Callable[[Show], Picture]
) -> None:
    picture = draw(a_show(rig_of(name)))
    root = ElementTree.fromstring(picture.svg)
    wide, high = map(float, root.attrib["viewBox"].split()[2:])
    assert 0.8 < wide / high < 2
    looks = {e.attrib[k] for e in root.iter() for k in ("fill", "stroke") if k in e.attrib}
    assert looks <= {"#000", "#fff", "none"}
    assert "nan" not in picture.svg
    every = points([root])
    assert every.min() > -0.5
    assert every[:, 0].max() < wide + 0.5
    assert every[:, 1].max() < high + 0.5
    for text in root.iter(f"{SVG}text"):
        assert not re.search(r"(?<![\d'])[-−]\d", text.text or "")
        assert float(text.attrib["font-size"]) > 2.6  # mm: 7.5 pt


@pytest.mark.parametrize("draw", [plan_svg, section_svg])
def test_names_that_would_be_code_are_text_and_units_without_an_aim_are_drawn(
    tmp_path: Path, draw: Callable[[Show], Picture]
) -> None:
    """The second unit is aimed at its own pivot, which no turn of it can hit."""
    path = write_scene(
        tmp_path / "s",
        UNIT.replace('"A"', f"'''{HOSTILE}'''"),
        unit(number="2", target=None, point="[0, 2, 6]"),
    )
    file = Path(path, "scene.toml")
    file.write_text(file.read_text().replace('name = "A"', f"name = '''{HOSTILE}'''"))
    picture = draw(Show(load_scene(path)))
    assert "<script" not in picture.svg
    assert groups(picture).keys() >= {HOSTILE, "LX 1/1", "LX 1/2"}
    assert "nan" not in picture.svg


@pytest.mark.parametrize("draw", [plan_svg, section_svg])
def test_a_scene_without_stage_or_units_has_a_picture_too(
    tmp_path: Path, draw: Callable[[Show], Picture]
) -> None:
    picture = draw(Show(load_scene(write_scene(tmp_path / "s"))))
    assert groups(picture).keys() >= {"boom SR"}


def test_the_same_show_gives_the_same_picture() -> None:
    show = a_show(rig_of("studio"))
    assert plan_svg(show) == plan_svg(show)
    assert section_svg(show) == section_svg(show)
