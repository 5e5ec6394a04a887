"""What functions have made of a rig, kept for the rig after a change, with all that they read of it.

A function is given the rig by something that stands for it, gives what the rig gives, and notes it: every
value that is read, by the way to it ("aims", "yoke"), in the order of reading. After a change the same ways
are read of the rig as it is now. Where every value is the same to the last bit the function would do the
same again, and its result is taken over. So nobody has to say what a rule depends on, and nobody can forget
it. What is asked so must read files and whatever else may change through the rig alone. An object that says
`only_remembers` gives what would be found without it, and is not noted.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from operator import is_
from types import FunctionType
from typing import Any, TypeVar, cast

import msgspec
import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.vectors import same
from aimcalc.named import NamedTuple

T = TypeVar("T")
R = TypeVar("R", bound=tuple[Any, ...])
Flags = NDArray[np.bool_]
Columns = Sequence[NDArray[Any]]
Way = tuple[str, ...]  # attributes, one after the other


class Each(NamedTuple):
    """One value of each of N units, as `Kept.of_units` gives it."""

    unit: NDArray[np.int64]
    value: NDArray[np.float64]


def each(values: NDArray[np.float64]) -> Each:
    """The values (N, ...) of N units."""
    return Each(np.arange(len(values)), values)


class _Made(NamedTuple):
    """A result: of what it was made beside the rig, all that was read, in order, and what came of it."""

    given: tuple[object, ...]
    reads: tuple[tuple[Way, object], ...]
    result: Any


class Kept:
    """Results made of one rig. `before` are those of the rig that this one was made from by a change.

    A rig made from nothing keeps nothing: whoever asks once does not pay for it.
    """

    def __init__(self, of: object, before: Kept | None) -> None:
        self._of = of
        self.keeps = before is not None
        self._made: dict[object, _Made] = {} if before is None else dict(before._made)
        self._known: dict[Way, object] = {} if before is None else dict(before._known)
        self._read: set[Way] = set()  # of what is known, what has been read of this rig

    def ask(self, function: Callable[..., T], *given: object, key: object = None) -> T:
        """What a function makes of the rig and of what else it is given; the one before if that is the same.

        Asked once by each `key`. Whoever receives the result leaves it as it is.
        """
        return cast(T, self._asked((function, key), given).result)

    def _asked(self, key: tuple[Callable[..., Any], object], given: tuple[object, ...]) -> _Made:
        if not self.keeps:
            return _Made(given, (), key[0](self._of, *given))
        made = self._made.get(key)
        if made is None or not alike(made.given, given) or not all(map(self._as_read, made.reads)):
            reads: dict[Way, object] = {}
            result = _plain(key[0](_Standing(self._of, (), reads, self), *given))
            made = self._made[key] = _Made(given, tuple(reads.items()), result)
        return made

    def _as_read(self, read: tuple[Way, object]) -> bool:
        """Whether what was read is still the same."""
        way, then = read
        if way not in self._read:
            now: Any = self._of
            for name in way:
                now = getattr(now, name)
            self.known(way, now)
        now = self._known[way]
        return now is then or alike(now, then)

    def known(self, way: Way, now: object) -> object:
        """What is noted of a value, its type where it has parts: the very object noted before if it is alike.

        So a value that stays the same is compared once after each change, however many have read it.
        """
        if way not in self._read:
            note = type(now) if _has_parts(now) else now
            then = self._known.get(way, self)
            self._known[way] = then if alike(then, note) else note
            self._read.add(way)
        return self._known[way]

    def of_units(
        self, function: Callable[..., R], columns: Columns, *given: object, key: object = None
    ) -> R:
        """What a function makes of N units, each by itself: made anew of those whose `columns` have changed.

        The columns (N, ...) and what else is given are all that the function receives. Its arrays have any
        number of rows for each unit; the first array says whose they are, rising. Asked once by each `key`.
        """
        if not self.keeps:
            return function(*columns, *given)
        made = self._made.get((function, key))
        if made is None or not alike(made.given[1:], given):
            result = function(*columns, *given)
        else:
            result = _partly(function, columns, given, made)
        self._made[function, key] = _Made((tuple(columns), *given), (), result)
        return result


def _partly(
    function: Callable[..., R], columns: Columns, given: tuple[object, ...], made: _Made
) -> R:
    """The rows of what was made before that are of units whose columns are the same, and the others anew."""
    old, kept = cast(R, made.result), _alike_rows(columns, cast(Columns, made.given[0]))
    if kept is None or not kept.any():
        return function(*columns, *given)
    if kept.all():
        return old
    anew, mine = np.flatnonzero(~kept), kept[old[0]]
    found = function(*(column[anew] for column in columns), *given)
    unit = np.concatenate((old[0][mine], anew[found[0]]))
    order = np.argsort(unit, kind="stable")
    rest = (np.concatenate((a[mine], b)) for a, b in zip(old[1:], found[1:], strict=True))
    return cast(R, cast(Any, type(old))._make(column[order] for column in (unit, *rest)))


def _alike_rows(columns: Columns, before: Columns) -> Flags | None:
    """Which rows (N,) of all arrays (N, ...) are the same to the last bit; None where shapes differ."""
    found = np.ones(columns[0].shape[0], np.bool_)
    for now, then in zip(columns, before, strict=True):
        if now.shape != then.shape or now.dtype != then.dtype:
            return None
        if now is not then and now.size:
            bits = [np.ascontiguousarray(each).view(np.uint8) for each in (now, then)]
            found &= (bits[0] == bits[1]).reshape(found.size, -1).all(axis=1)
    return found


class _Standing:
    """Stands for a rig, or for a part of it that has parts of its own, and notes what is read."""

    def __init__(self, of: object, way: Way, reads: dict[Way, object], kept: Kept) -> None:
        self.standing_for, self.standing_way = of, way
        self.standing_reads, self.standing_kept = reads, kept

    @property  # type: ignore[misc]
    def __class__(self) -> type:
        return type(self.standing_for)

    def __getattr__(self, name: str) -> Any:
        of = self.standing_for
        method = _in_class(cast(Any, type(of)), name)
        if isinstance(method, FunctionType):  # what it reads is noted, not the method
            value: Any = method.__get__(self)
        elif isinstance(method, classmethod | staticmethod):
            value = getattr(of, name)
        else:
            value = self._read(name, getattr(of, name))
        vars(self)[name] = value  # read once
        return value

    def _read(self, name: str, value: object) -> object:
        way, reads = (*self.standing_way, name), self.standing_reads
        if isinstance(value, Kept):
            return _Asking(value, reads)
        if getattr(value, "only_remembers", False):
            return value
        note = reads[way] = self.standing_kept.known(way, value)
        parts = isinstance(note, type)
        return _Standing(value, way, reads, self.standing_kept) if parts else value

    def __iter__(self) -> Any:
        return iter([getattr(self, name) for name in self._fields])

    def __getitem__(self, place: Any) -> Any:
        return tuple(self)[place]

    def __len__(self) -> int:
        return len(self._fields)


@lru_cache(maxsize=4096)
def _in_class(of: type, name: str) -> object:
    """What the class of an object says of one of its names: a method, say; None where it says nothing."""
    return next((vars(each)[name] for each in of.__mro__ if name in vars(each)), None)


class _Asking:
    """What is asked by a function that was itself asked: what that reads, this one has read."""

    def __init__(self, kept: Kept, reads: dict[Way, object]) -> None:
        self._kept, self._reads, self.keeps = kept, reads, kept.keeps

    def ask(self, function: Callable[..., T], *given: object, key: object = None) -> T:
        made = self._kept._asked((function, key), _plain(given))
        for way, value in made.reads:
            self._reads.setdefault(way, value)
        return cast(T, made.result)

    def of_units(
        self, function: Callable[..., R], columns: Columns, *given: object, key: object = None
    ) -> R:
        return self._kept.of_units(function, columns, *_plain(given), key=key)


def _plain(value: Any) -> Any:
    """A value, or a tuple or list of values, with each itself that something stands for; all of it is read.

    What is kept stands for nothing: it would hold on to every rig since the first.
    """
    if type(value) is _Standing:
        of: Any = type(value.standing_for)
        for name in of._fields if issubclass(of, tuple) else of.__struct_fields__:
            _plain(getattr(value, name))
        return value.standing_for
    if not isinstance(value, tuple | list):
        return value
    parts = [_plain(part) for part in value]
    if all(map(is_, parts, value)):
        return value
    return type(value)(parts) if type(value) in (tuple, list) else cast(Any, value)._make(parts)


def _has_parts(value: object) -> bool:
    """Whether a value is read part by part: a record, or an object of a class of ours."""
    if isinstance(value, msgspec.Struct):
        return True
    return hasattr(value, "_fields") if isinstance(value, tuple) else hasattr(value, "__dict__")


def alike(a: object, b: object) -> bool:
    """Whether two values are the same to the last bit, arrays within tuples, dicts and records too.

    Objects that are none of these are the same only where they are one.
    """
    if a is b:
        return True
    if type(a) is not type(b):
        return False
    if isinstance(a, float):
        other = cast(float, b)
        return (a == other and a != 0.0) or a.hex() == other.hex()  # there are two noughts
    if isinstance(a, str | int | bytes | frozenset):
        return a == b
    if isinstance(a, np.ndarray | np.generic):
        return same(cast(Any, a), cast(Any, b))
    if isinstance(a, tuple | list):
        others = cast(tuple[object, ...], b)
        return len(a) == len(others) and (all(map(is_, a, others)) or all(map(alike, a, others)))
    if isinstance(a, dict):
        return alike(list(a.items()), list(cast(dict[object, object], b).items()))
    if isinstance(a, msgspec.Struct):
        return all(map(alike, msgspec.structs.astuple(a), msgspec.structs.astuple(cast(Any, b))))
    return False
