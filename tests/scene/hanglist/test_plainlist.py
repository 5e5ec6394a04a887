"""A hang list in the words of a scene is read alike with and without what is known of how people write."""

from __future__ import annotations

import csv
import string
from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from aimcalc.scene.hanglist import plainlist
from aimcalc.scene.hanglist.rows.listrow import Around, HangList
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.scene.written import write_scene
from tests.studies import cases

SCENES = Path(__file__).parents[3] / "scenes"
HEADINGS = ("position", "number", "at", "kind", "target", "mount", "arm", "arm_to", "system")
HEADINGS += ("channel", "circuit", "colour", "transmission", "precise", "turn")
ROW = (
    "LX 1",
    "1",
    "1.5 m SL",
    "spot",
    "A",
    "under",
    "",
    "",
    "",
    "12",
    "H1",
    "warm 1",
    "0.5",
    "",
    "",
)


def _read(path: str, monkeypatch: pytest.MonkeyPatch, *, plainly: bool) -> tuple[Scene | str, bool]:
    """A scene or why it was refused, and whether its list was plain; read so only where it may be."""
    found: list[bool] = []
    plain = plainlist.read_plain

    def told(path: str, name: str, around: Around) -> HangList | None:
        listed = plain(path, name, around) if plainly else None
        found.append(listed is not None)
        return listed

    with monkeypatch.context() as patch:
        patch.setattr(plainlist, "read_plain", told)
        try:
            return load_scene(path), found == [True]
        except SceneError as refused:
            return str(refused), found == [True]


def _is_plain(path: str, monkeypatch: pytest.MonkeyPatch) -> bool:
    return _read(path, monkeypatch, plainly=True)[1]


def _alike(path: str, monkeypatch: pytest.MonkeyPatch) -> Scene | str:
    """What both ways of reading give, which is the same."""
    one, _ = _read(path, monkeypatch, plainly=True)
    other, _ = _read(path, monkeypatch, plainly=False)
    if isinstance(one, str) or isinstance(other, str):
        assert one == other
    else:
        assert one.units == other.units
        assert one.taken == other.taken
        assert one.hang_columns == other.hang_columns
    return one


def _written(
    folder: Path, rows: Sequence[Sequence[str]], headings: Sequence[str] = HEADINGS
) -> str:
    path = write_scene(folder, settings='hang = "hang.csv"')
    with (folder / "hang.csv").open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([headings, *rows])
    return path


@pytest.mark.parametrize("list_of", ["hang.xlsx", "hang.csv"])
def test_the_list_of_the_playhouse_is_read_alike(
    list_of: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for file in (SCENES / "playhouse").iterdir():
        (tmp_path / file.name).write_bytes(file.read_bytes())
    toml = tmp_path / "scene.toml"
    toml.write_text(toml.read_text("utf-8").replace("hang.xlsx", list_of), "utf-8")
    assert _is_plain(str(tmp_path), monkeypatch)
    scene = _alike(str(tmp_path), monkeypatch)
    assert isinstance(scene, Scene)
    assert len(scene.units) == 78


_LENGTHS = st.one_of(
    st.builds("{:.2f} m".format, st.floats(0.1, 4.9)),
    st.builds("{}'-{}\"".format, st.integers(0, 12), st.integers(0, 11)),
    st.builds("{}'-{} 1/2\"".format, st.integers(0, 12), st.integers(0, 11)),
)
_WORDS = st.builds(
    lambda words, number: " ".join([*words, *number]),
    st.lists(st.text(string.ascii_lowercase, min_size=2, max_size=9), min_size=1, max_size=3),
    st.lists(st.sampled_from(["1", "2", "12"]), max_size=1),
)
_CIRCUITS = st.builds(
    "{}{}".format, st.text(string.ascii_uppercase, max_size=2), st.integers(1, 999)
)


@st.composite
def _rows(draw: st.DrawFn) -> list[str]:
    position = draw(st.sampled_from(["LX 1", "boom SR", "floor"]))
    length, mount, arm, arm_to = draw(_LENGTHS), draw(st.sampled_from(["under", "over"])), "", ""
    at = f"{length} {draw(st.sampled_from(['SL', 'SR']))}"
    if position == "boom SR":
        at, mount, arm, arm_to = length, "arm", "0.3 m", draw(st.sampled_from(["SL", "US"]))
    if position == "floor":
        at, mount = "", "stand"
    channel = str(draw(st.integers(1, 999)))
    some = st.one_of(st.just(""), _WORDS)
    share = draw(st.sampled_from(["", "0.5", ".25", "1"]))
    cells = [position, str(draw(st.integers(1, 999))), at, "spot", "A", mount, arm, arm_to]
    return [*cells, draw(some), channel, draw(_CIRCUITS), draw(some), share, "", ""]


@pytest.mark.long
@settings(
    deadline=None,
    max_examples=cases(30, 1_000),
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(rows=st.lists(_rows(), min_size=1, max_size=8, unique_by=lambda row: (row[0], row[1])))
def test_whatever_is_plain_is_read_alike(
    rows: list[list[str]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = _written(tmp_path, rows)
    assume(_is_plain(path, monkeypatch))  # too few of them would fail too
    _alike(path, monkeypatch)


@pytest.mark.parametrize("more", [[], [["", ""]], [[""] * 20], [["", " "], ROW]])
def test_a_plain_row_is_plain(
    more: list[list[str]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = _written(tmp_path, [ROW, *more])
    assert _is_plain(path, monkeypatch)
    assert isinstance(_alike(path, monkeypatch), Scene)


@pytest.mark.parametrize(
    ("key", "cell"),
    [
        *(("position", "LX1"), ("position", ""), ("position", "lx 1"), ("number", "1-3")),
        *(("number", ""), ("number", "1 (new)"), ("at", "1.5"), ("at", "1.5 m"), ("at", "")),
        *(("at", "1.5 m left"), ("kind", "Spot"), ("kind", "do."), ("target", "a")),
        *(("target", "A, B"), ("mount", "hung"), ("channel", "(12)"), ("channel", "12+13")),
        *(("circuit", "CH12"), ("circuit", "A1 / B2"), ("colour", "n/c"), ("colour", "L201")),
        *(
            ("colour", "cut"),
            ("colour", "intet"),
            ("system", "see above"),
            ("precise", "x"),
            ("transmission", "50%"),
        ),
    ],
)
def test_what_may_mean_more_is_left_to_the_others(
    key: str, cell: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    row = [cell if heading == key else was for heading, was in zip(HEADINGS, ROW, strict=True)]
    assert not _is_plain(_written(tmp_path, [ROW, row]), monkeypatch)


@pytest.mark.parametrize(
    "headings",
    [
        ("Position", *HEADINGS[1:]),
        (*HEADINGS[:-1], "remark"),
        (*HEADINGS[:-1], "number"),
        ("pos", *HEADINGS[1:]),
    ],
)
def test_other_headings_are_left_to_the_others(
    headings: Sequence[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert not _is_plain(_written(tmp_path, [ROW], headings), monkeypatch)


@pytest.mark.parametrize("line", [["All from the SR end"], ["-", "-"], ["*** spare ***"]])
def test_a_line_of_words_is_left_to_the_others(
    line: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert not _is_plain(_written(tmp_path, [ROW, line]), monkeypatch)
