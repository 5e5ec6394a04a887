"""The quick reader of plain TOML: what Python's own reader says, or nothing."""

import random
import time
import tomllib
from pathlib import Path

import pytest

from aimcalc.scene.plain_toml import plain
from tests.studies import cases

ROOT = Path(__file__).parents[2]
SCENES = sorted(ROOT.glob("scenes/*/scene.toml"))


def own(text):
    """What Python's own reader says, as text (1 is not 1.0, nor -0.0 0.0); None where it refuses."""
    try:
        return repr(tomllib.loads(text))
    except (ValueError, RecursionError):
        return None


@pytest.mark.parametrize("file", SCENES, ids=lambda file: file.parent.name)
def test_a_worked_scene_is_read_whole(file):
    text = file.read_text(encoding="utf-8").replace("\r\n", "\n")
    assert repr(plain(text)) == own(text)


READ = [
    "",
    "# nothing\n\n",
    'a = "b" # a comment with "quotes"\n[t]\nx = 1\n[[u]]\ny = -0.5\n[[u]]\ny = +0.50\nz = true',
    "a = -0\nb = -0.0\nc = 0.1\nd = 999999999999999",
    'a = "#"\nb = "[[x]]"\nc = ""\n\t[ t ]\t# here\n\tx\t=\t1\t',
    'a = 1e3\nb = 0x1F\nc = 1_000\nd = inf\ne = 2026-01-02\nf = \'c:\\x\'\ng = "\\u00e9\\""',
    "a = [1]\nb = [ -1.5,2 , +3.25 ] \nc = [0, -0.0,]\nd = [] # none\ne = [1, 2] # two",
    "a = [[1, 2], [3, 4]] # a comment\nb = {x = 1, y = [2]}",
    "a = [\n  1, # one ]\n  2,\n]\nb = 2",
    "a = [\n [1,\n ],\n [2\n ],\n] # end\nb = 2",
]
LEFT = [
    "a.b = 1",
    '"a" = 1',
    "[a.b]\nx = 1",
    "[[a.b]]\nx = 1",
    'a = """x\ny = 1\n"""',
    "a = '''x\ny = 1\n'''",
    "a = [1,\n2]\nb = [\n3\n]",
]
REFUSED = [
    "a = 1\na = 2",
    "[a]\n[a]",
    "[[a]]\n[a]",
    "[a]\n[[a]]",
    "a = 1\n[a]",
    "a = [1]\n[[a]]",
    "a = []\n[[a]]",
    "[[a]\nx = 1",
    "[a]]\nx = 1",
    "a = 01",
    "a = 1.",
    "a = .5",
    "a = True",
    "a = tru",
    'a = "b',
    'a = "b" c',
    "a = ",
    "a = [1, , 2]",
    "a = [,]",
    "a = [01]",
    "a = [1 2]",
    "a",
    "a = 1 b = 2",
    "a = 1\r",
    "a = 1 # \x07",
    "# \x07",
    'a = "\x07"',
    "a = [\n1\n",
    "a = [\n1\n]]\nb = 1",
    "é = 1",
    "a = \u0661",
    "a = " + "9" * 5000,
    "a = [" * 3 + "\n]\n" * 20,
]


@pytest.mark.parametrize("text", READ)
def test_what_is_plain_is_read_as_it_is(text):
    assert repr(plain(text)) == own(text) is not None


@pytest.mark.parametrize("text", LEFT)
def test_what_is_not_plain_is_left_to_pythons_own_reader(text):
    assert own(text) is not None
    assert plain(text) is None


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_wrong_is_left_to_be_refused(text):
    assert own(text) is None
    assert plain(text) is None


def spoilt(text, rng):
    """A text with some letters lost, doubled, moved or changed, and some lines too."""
    lines = text.split("\n")
    for _ in range(rng.randint(1, 3)):
        k = rng.randrange(len(lines))
        line = lines[k]
        at = rng.randrange(len(line) + 1)
        sign = rng.choice("[]{}\"'=#,.\\ \t\r\x01é0-+_ea")
        lines[k] = rng.choice((line[:at] + sign + line[at:], line[:at] + line[at + 1 :], line[:at]))
        if rng.random() < 0.3:
            lines.insert(rng.randrange(len(lines)), rng.choice(lines))
    return "\n".join(lines)


@pytest.mark.long
def test_spoilt_scenes_are_read_alike_or_left():
    rng = random.Random(11)
    texts = [file.read_text(encoding="utf-8") for file in SCENES]
    read = 0
    for _ in range(cases(200, 5000)):
        lines = rng.choice(texts).split("\n")
        first = rng.randrange(len(lines))
        text = spoilt("\n".join(lines[first : first + 40]), rng)
        found = plain(text)
        read += found is not None
        assert found is None or repr(found) == own(text), text
    assert read > 10


def test_lists_that_never_end_are_given_up_at_once():
    text = "a = [\n" + "[1,\n],\n" * 20_000
    begun = time.perf_counter()
    assert plain(text) is None
    assert time.perf_counter() - begun < 2.0
