"""What is kept of a rig after a change is what would be made again, and else it is made again."""

from __future__ import annotations

import math

import msgspec
import numpy as np
import pytest

from aimcalc.named import NamedTuple
from aimcalc.rig.kept import Each, Kept, alike, each


class Aims(NamedTuple):
    yoke: np.ndarray
    pan: np.ndarray

    def tipped(self, by):
        return self.yoke + by


class Settings(msgspec.Struct, frozen=True):
    unit: str
    tolerance: float


class Rig:
    """As little of a rig as has parts of every sort."""

    def __init__(self, before=None, *, yoke=(1.0, 2.0), pan=(3.0, 4.0), unit="m", tolerance=0.25):
        self.aims = Aims(np.array(yoke), np.array(pan))
        self.settings = Settings(unit, tolerance)
        self.names = ["a", "b"]
        self.kept = Kept(self, before and before.kept)

    @property
    def doubled(self):
        return self.aims.pan * 2

    def widest(self):
        return float(self.aims.yoke.max())


def first():
    """A rig that keeps what is made of it."""
    return Rig(Rig())


def asked_again(function, **change):
    """Whether a function is called again after a change; what it gives is in any case what it would give."""
    calls = []

    def call(rig):
        calls.append(rig)
        return function(rig)

    before = first()
    before.kept.ask(call)
    after = Rig(before, **change)
    assert alike(after.kept.ask(call), function(after))
    return len(calls) == 2


@pytest.mark.parametrize(
    "function",
    [
        lambda rig: rig.aims.yoke * 2,
        lambda rig: rig.aims.tipped(1.0),
        lambda rig: rig.widest(),
        lambda rig: list(rig.aims),
        lambda rig: rig.aims[0],
        lambda rig: rig.aims._replace(pan=1.0),
        lambda rig: rig.kept.ask(lambda inner: inner.aims.yoke.sum()),
    ],
    ids=["part", "method of a part", "method", "unpacked", "by place", "replaced", "asked within"],
)
def test_a_function_is_asked_again_when_what_it_read_has_changed_and_only_then(function):
    assert asked_again(function, yoke=(1.0, np.nextafter(2.0, 3)))
    assert not asked_again(function, unit="ft", tolerance=0.5)
    assert not asked_again(function)


def test_a_property_is_what_it_gives():
    assert asked_again(lambda rig: rig.doubled, pan=(3.0, 5.0))
    assert not asked_again(lambda rig: rig.doubled, yoke=(1.0, 5.0))


@pytest.mark.parametrize("wrap", [lambda part: part, lambda part: [part], lambda part: (1, part)])
def test_a_part_that_is_given_back_or_passed_on_is_itself_and_all_of_it_read(wrap):
    def back(rig):
        return wrap(rig.aims)

    def passed_on(rig):
        return rig.kept.ask(lambda inner, part: part, wrap(rig.aims), key="passed on")

    for rule in (back, passed_on):
        assert asked_again(rule, pan=(3.0, 5.0))
        assert not asked_again(rule, unit="ft")
        before = first()
        found = before.kept.ask(rule)
        while type(found) in (list, tuple):
            found = found[-1]
        assert type(found) is Aims


def test_what_is_read_only_after_something_else_counts_only_then():
    def rule(rig):
        return rig.settings.tolerance if rig.settings.unit == "ft" else 0.0

    assert not asked_again(rule, tolerance=0.5)
    assert asked_again(rule, unit="ft", tolerance=0.5)


def test_a_part_of_another_sort_is_another_part():
    def rule(rig):
        return rig.settings is not None

    before = first()
    assert before.kept.ask(rule) is True
    after = Rig(before)
    after.settings = None
    assert after.kept.ask(rule) is False


def test_what_a_function_is_given_counts_as_what_it_reads():
    calls = []

    def rule(rig, more):
        calls.append(more)
        return more

    before = first()
    before.kept.ask(rule, [1.0])
    assert Rig(before).kept.ask(rule, [1.0]) == [1.0]
    assert Rig(before).kept.ask(rule, [2.0]) == [2.0]
    assert calls == [[1.0], [2.0]]


def test_a_result_that_was_not_asked_for_after_one_change_is_there_after_the_next():
    def rule(rig):
        return [rig.widest()]

    before = first()
    result = before.kept.ask(rule)
    assert Rig(Rig(before)).kept.ask(rule) is result
    assert Rig(Rig(before, yoke=(9.0, 9.0))).kept.ask(rule) is result


def test_a_rig_made_from_nothing_keeps_nothing():
    calls = []

    def rule(rig):
        calls.append(rig)
        return rig.widest()

    rig = Rig()
    assert [rig.kept.ask(rule) for _ in range(2)] == [2.0, 2.0]
    assert calls == [rig, rig]  # itself, with nothing between


class Rows(NamedTuple):
    unit: np.ndarray
    of: np.ndarray


def divisors(numbers, more):
    """As many rows for each unit as its number has divisors."""
    pairs = [(k, d) for k, n in enumerate(numbers) for d in range(1, n + 1) if n % d == 0]
    unit, of = np.array(pairs, dtype=int).reshape(-1, 2).T
    return Rows(unit, of + more)


def test_of_units_only_those_that_changed_are_made_again_and_all_are_as_from_nothing():
    rng = np.random.default_rng(2)
    asked = []

    def some(numbers, more):
        asked.append(len(numbers))
        return divisors(numbers, more)

    rig, numbers = first(), rng.integers(0, 12, 30)
    rig.kept.of_units(some, [numbers], 0)
    for _ in range(20):
        rig, numbers = Rig(rig), numbers.copy()
        changed = rng.choice(30, 4, replace=False)
        numbers[changed] += 1
        found, wanted = rig.kept.of_units(some, [numbers], 0), divisors(numbers, 0)
        assert asked[-1] == 4
        assert alike(found, wanted)
    rig = Rig(rig)
    assert alike(rig.kept.of_units(some, [numbers], 1), divisors(numbers, 1))
    assert asked[-1] == 30
    rig = Rig(rig)
    assert alike(rig.kept.of_units(some, [numbers[1:]], 1), divisors(numbers[1:], 1))
    assert asked[-1] == 29
    before = len(asked)
    assert alike(Rig(rig).kept.of_units(some, [numbers[1:]], 1), divisors(numbers[1:], 1))
    assert len(asked) == before


def test_one_value_of_each_unit_is_put_where_its_unit_is():
    rig = first()

    def double(numbers):
        return each(numbers * 2.0)

    rig.kept.of_units(double, [np.arange(5)])
    told = Rig(rig).kept.of_units(double, [np.array([0, 7, 2, 3, 9])])
    assert isinstance(told, Each)
    assert told.value.tolist() == [0.0, 14.0, 4.0, 6.0, 18.0]


@pytest.mark.parametrize(
    ("a", "b"),
    [
        (0.0, -0.0),
        (1, 1.0),
        (1, True),
        (1.0, np.nextafter(1.0, 2)),
        ((1.0,), [1.0]),
        ({"a": 1, "b": 2}, {"b": 2, "a": 1}),
        (np.zeros(2), -np.zeros(2)),
        (np.zeros(2), np.zeros(2, np.float32)),
        (np.zeros((1, 2)), np.zeros((2, 1))),
        (Settings("m", 0.0), Settings("m", -0.0)),
        (object(), object()),
        (None, 0),
    ],
)
def test_what_differs_anywhere_is_not_alike(a, b):
    assert not alike(a, b)
    assert not alike([a], [b])


@pytest.mark.parametrize(
    "make",
    [
        lambda: math.nan,
        lambda: np.array([math.nan, -0.0]),
        lambda: Settings("m", math.nan),
        lambda: {"a": (1, "b", None, frozenset({"c"}), Aims(np.ones(2), np.ones(3)))},
    ],
)
def test_what_is_the_same_to_the_last_bit_is_alike(make):
    assert alike(make(), make())
