"""Small sums on points and directions held as arrays of shape (3, N): rows x, y, z; degrees and radians.

No other module turns degrees into radians or back.
"""

from __future__ import annotations

import math
import os
from collections.abc import Callable, Sequence
from typing import Any, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
Numbers = NDArray[np.int64]


@overload
def to_radians(degrees: float) -> float: ...
@overload
def to_radians(degrees: Array | Sequence[Any]) -> Array: ...
def to_radians(degrees: float | Array | Sequence[Any]) -> float | Array:
    """Angles in radians, one or an array of any shape: what a scene, a file or a limit says in degrees."""
    return math.radians(degrees) if isinstance(degrees, float | int) else np.radians(degrees)


@overload
def to_degrees(radians: float) -> float: ...
@overload
def to_degrees(radians: Array | Sequence[Any]) -> Array: ...
def to_degrees(radians: float | Array | Sequence[Any]) -> float | Array:
    """Angles in degrees, one or an array of any shape, for whoever reads them."""
    return math.degrees(radians) if isinstance(radians, float | int) else np.degrees(radians)


@overload
def heading_degrees(radians: float) -> float: ...
@overload
def heading_degrees(radians: Array) -> Array: ...
def heading_degrees(radians: float | Array) -> float | Array:
    """Headings in degrees, 0 or more and below 360, one or an array of any shape."""
    turn = to_degrees(radians) % 360.0
    return turn * (turn != 360.0)  # a hair under 0 rounds to 360


def points(values: ArrayLike) -> Array:
    """Points as a (3, N) array, from N rows of x, y, z (also from no rows at all)."""
    rows = np.asarray(values, dtype=np.float64).reshape(-1, 3)
    return np.ascontiguousarray(rows.T)


def same_columns(a: NDArray[Any], b: NDArray[Any]) -> NDArray[np.bool_]:
    """Which of N columns of two arrays (..., N) of one shape are the same to the last bit, NaN too, (N,)."""
    bits = [np.ascontiguousarray(each).view(f"u{each.dtype.itemsize}") for each in (a, b)]
    return np.asarray((bits[0] == bits[1]).reshape(-1, a.shape[-1]).all(axis=0))


def same(a: NDArray[Any], b: NDArray[Any]) -> bool:
    """Whether two arrays of any shape are the same in shape and to the last bit (a NaN is one NaN's like)."""
    return a is b or (a.shape == b.shape and a.dtype == b.dtype and a.tobytes() == b.tobytes())


def distinct(numbers: Numbers) -> tuple[Numbers, Numbers]:
    """Whole numbers (N,) each once, rising, (K,), and which of those each is, (N,).

    As `np.unique`, which loads all of numpy.ma: a tenth of what numpy takes to load.
    """
    order = np.argsort(numbers, kind="stable")
    rising = numbers[order]
    new = np.ones(numbers.size, np.bool_)
    new[1:] = rising[1:] != rising[:-1]
    place = np.empty(numbers.size, np.int64)
    place[order] = np.cumsum(new) - 1
    return rising[new], place


def among(numbers: Numbers, others: Numbers) -> NDArray[np.bool_]:
    """Which of whole numbers are one of the others (K,), (N,): as `np.isin`, which loads numpy.ma as well."""
    if not others.size:
        return np.zeros(numbers.size, np.bool_)
    rising = np.sort(others)
    place = np.minimum(np.searchsorted(rising, numbers), rising.size - 1)
    return np.asarray(rising[place] == numbers)


def dot(a: Array, b: Array) -> Array:
    """Scalar products of two (3, N) arrays, shape (N,)."""
    return np.asarray(a[0] * b[0] + a[1] * b[1] + a[2] * b[2])


def cross(a: Array, b: Array) -> Array:
    """Vector products of two (3, N) arrays, shape (3, N)."""
    product = np.empty(np.broadcast_shapes(a.shape, b.shape))
    for k in range(3):
        i, j = (k + 1) % 3, (k + 2) % 3
        np.multiply(a[i], b[j], out=product[k])
        product[k] -= a[j] * b[i]
    return product


FEW = 64  # numbers: a loop over as many is quicker than numpy's own along a last axis


def least(values: Array) -> Array:
    """The least along the last axis, (...,) of (..., K), as `values.min(axis=-1)`; of few many times quicker.

    Raises ValueError for none at all.
    """
    return _along_last(np.minimum, values)


def most(values: Array) -> Array:
    """The most along the last axis, (...,) of (..., K), as `values.max(axis=-1)`; none raises ValueError."""
    return _along_last(np.maximum, values)


def _along_last(either: np.ufunc, values: Array) -> Array:
    count = values.shape[-1]
    if not 1 < count <= FEW:
        return np.asarray(either.reduce(values, axis=-1))
    found = either(values[..., 0], values[..., 1])
    for k in range(2, count):
        either(found, values[..., k], out=found)
    return np.asarray(found)


def angles_between(a: Array, b: Array) -> Array:
    """Angles in radians, 0 to pi, between directions of any length, (3, ...) that broadcast.

    From sine and cosine both, so that small angles keep their digits.
    """
    across = cross(a, b)
    return np.asarray(np.arctan2(np.sqrt(dot(across, across)), dot(a, b)))


def turned(v: Array, about: Array, angle: Array) -> Array:
    """Directions `v` turned by `angle` (radians, right-handed) about unit directions `about`.

    Shapes (3, N), (3, N), (N,). The rotation formula of Rodrigues.
    """
    c, s = np.cos(angle), np.sin(angle)
    return np.asarray(v * c + cross(about, v) * s + about * (dot(about, v) * (1 - c)))


def level_direction(heading: Array) -> Array:
    """Level unit directions for plan headings (radians clockwise from upstage), shape (3, N)."""
    return np.stack((np.sin(heading), np.cos(heading), np.zeros_like(heading)))


def square_to(directions: Array) -> tuple[Array, Array]:
    """Two unit directions square to each unit direction (3, N) and to each other, right-handed."""
    aside = np.zeros_like(directions)
    aside[np.argmin(np.abs(directions), axis=0), np.arange(directions.shape[1])] = 1.0
    first = cross(directions, aside)
    first /= np.sqrt(dot(first, first))
    return first, cross(directions, first)


def sine_cosine(angle: Array) -> tuple[Array, Array]:
    """Sine and cosine of angles (radians, any shape) from the tangent of their halves.

    sin = 2 t / (1 + t^2), cos = (1 - t^2) / (1 + t^2), t = tan(angle / 2): one tangent costs numpy a
    quarter of a sine and a cosine. Good to a few units in the last place of 1.
    """
    t = np.tan(0.5 * angle)
    square = t * t
    scale = 1.0 / (1.0 + square)
    return 2.0 * t * scale, (1.0 - square) * scale


def nan_where_negative(value: Array) -> Array:
    """0 where `value` is 0 or more, NaN where it is negative, in its shape: to be added.

    Cheaper than a mask.
    """
    return np.asarray(0.0 * np.sqrt(value))


LINE = 8  # numbers in a line of the cache


def aligned(rows: int, count: int) -> Array:
    """Room for numbers, shape (rows, count), not yet filled; every row starts with a line of the cache.

    numpy puts a sum of two rows there in half the time that it takes across two lines.
    """
    wide = -(-count // LINE) * LINE
    room = np.empty(rows * wide + LINE)
    first = -room.__array_interface__["data"][0] // room.itemsize % LINE
    return room[first : first + rows * wide].reshape(rows, wide)[:, :count]


BLOCK = 16384  # units at a time: what one thread alone works on stays in its core's own cache
BLOCK_OF_MANY = 4 * BLOCK  # threads hand the interpreter on at every call: fewer and longer ones
SPAN = 4 * BLOCK_OF_MANY  # units of one thread that lie together: it seldom asks for another's page


def in_blocks(count: int, work: Callable[[slice], None]) -> None:
    """Call `work` with slices that cover 0..count once. It must write to its own slice only.

    numpy lets go of the interpreter inside its loops, so threads really run side by side.
    """
    cores = min(8, os.cpu_count() or 1)
    spans = range(0, count, SPAN)
    alone = len(spans) <= 1 or cores == 1
    size = BLOCK if alone else BLOCK_OF_MANY

    def span(first: int) -> None:
        last = min(first + SPAN, count)
        for k in range(first, last, size):
            work(slice(k, min(k + size, last)))

    if alone:
        for first in spans:
            span(first)
        return
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(cores) as pool:
        for _ in pool.map(span, spans):
            pass
