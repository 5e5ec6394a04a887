"""The package's own NamedTuple does what that of `typing` does."""

import copy
import pickle
import re
import typing

import pytest

from aimcalc.named import NamedTuple, regex
from tests.source import MODULES, text

TYPINGS = r"from typing import (\([^)]*|[^\n]*)\bNamedTuple\b|\btyping\.NamedTuple\b|\bnamedtuple\b"


def test_the_package_uses_no_other():
    """That of `typing` would make every command start later."""
    assert {name for name in MODULES if re.search(TYPINGS, text(name))} == {"aimcalc.named"}
    assert any(re.search(r"from aimcalc\.named import NamedTuple", text(name)) for name in MODULES)


class Ours(NamedTuple):
    """A point with a name."""

    x: float
    y: "float"
    name: str = "STAND"
    height: float | None = None

    @property
    def both(self):
        return self.x + self.y


class Typed(typing.NamedTuple):
    """A point with a name."""

    x: float
    y: "float"
    name: str = "STAND"
    height: float | None = None

    @property
    def both(self):
        return self.x + self.y


class Narrower(Ours):
    """One that is made of another."""


CALLS = [
    lambda of: of(1.0, 2.0),
    lambda of: of(1.0, y=2.0, height=3.0),
    lambda of: of(1.0, 2.0)._replace(name="face"),
    lambda of: of._make([1.0, 2.0, "face", None]),
    lambda of: of(1.0, 2.0)._asdict(),
    lambda of: of._fields,
    lambda of: of._field_defaults,
    lambda of: of.__match_args__,
    lambda of: of.__doc__,
    lambda of: (of(1.0, 2.0).name, of(1.0, 2.0)[2], of(1.0, 2.0).both, [*of(1.0, 2.0)]),
    lambda of: of(1.0, 2.0) == (1.0, 2.0, "STAND", None),
    lambda of: hash(of(1.0, 2.0)),
    lambda of: repr(of(1.0, 2.0)).removeprefix(of.__name__),
    lambda of: typing.get_type_hints(of),
    lambda of: tuple(copy.copy(of(1.0, 2.0))),
    lambda of: pickle.loads(pickle.dumps(of(1.0, 2.0))) == of(1.0, 2.0),
]


@pytest.mark.parametrize("call", CALLS)
def test_it_answers_as_that_of_typing_does(call):
    assert call(Ours) == call(Typed)


@pytest.mark.parametrize(
    ("call", "error"),
    [
        (lambda of: of(1.0), TypeError),
        (lambda of: of(1.0, 2.0, "a", None, 5), TypeError),
        (lambda of: of(1.0, 2.0, z=3), TypeError),
        (lambda of: of._make([1.0]), TypeError),
        (lambda of: of(1.0, 2.0)._replace(z=3), ValueError),
        (lambda of: setattr(of(1.0, 2.0), "x", 3.0), AttributeError),
        (lambda of: setattr(of(1.0, 2.0), "z", 3.0), AttributeError),
    ],
)
def test_it_refuses_what_that_of_typing_refuses(call, error):
    for of in (Ours, Typed):
        with pytest.raises(error):
            call(of)


def test_one_that_is_made_of_another_keeps_its_fields():
    first = Narrower(1.0, 2.0)
    assert type(first) is Narrower
    assert (first.both, Narrower._fields, type(first._replace(x=2.0))) == (
        3.0,
        Ours._fields,
        Narrower,
    )
    assert type(Ours(1.0, 2.0)) is Ours


def test_a_class_without_fields_is_empty():
    class Nothing(NamedTuple):
        pass

    assert Nothing() == ()


def test_fields_with_a_default_stand_last():
    with pytest.raises(TypeError, match="stand last"):

        class Wrong(NamedTuple):
            x: float = 0.0
            y: float


def test_a_pattern_is_compiled_when_it_is_asked_and_is_that_of_re(monkeypatch):
    words = regex(r"(\d+)\s*(m|ft)\b", re.IGNORECASE)
    assert "search" not in vars(words)
    plain = re.compile(r"(\d+)\s*(m|ft)\b", re.IGNORECASE)
    for said in ("3 M", "12ft on 7 m", "none"):
        assert words.findall(said) == plain.findall(said)
        assert words.sub("-", said) == plain.sub("-", said)
        assert bool(words.fullmatch(said)) is bool(plain.fullmatch(said))
    assert words.groups == 2
    assert words.pattern == plain.pattern
    monkeypatch.setattr(re, "compile", None)  # from here on it is not compiled
    assert words.search("3 m")[1] == "3"
