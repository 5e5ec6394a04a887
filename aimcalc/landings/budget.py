"""How far off its face each unit will land, set as printed, and how many units will want a nudge.

What can be out (`[errors]`, one standard deviation each) is carried to the spot by the moves of the forward
model. A spot is told by the two tangents of its angle off the face as the lens sees it, `across` (level, to
the right as seen along the beam) and `up`, so that the same figures hold on whatever plane it is caught:

    x = m + J e,  e about nothing with widths w:   x is normal about m with covariance J W W J'

m is what whole degrees on paper leave. A **nudge** is a unit that misses its face by more than its tolerance
(`[scene] tolerance`, a share of the field), so that somebody must touch it once the light is on. What hand
and reader add at one unit counts with it (`set_pan`, `set_down`, `mark`); how well a spot is read (`landing`)
does not: it moves no light. A pipe's sag counts as its trim. A unit set by its sight tape has no error of a
dial: it misses its mark by `sight`, and its pivot lies off its own mark by `marks` and `mark`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.pools import level_across
from aimcalc.geometry.vectors import Array, cross, to_radians
from aimcalc.landings.forward import (
    BY_TAPE,
    DIAL,
    DOWN,
    DROP,
    ERRORS,
    KICK,
    LOCAL,
    MARKS,
    MOVED,
    PAN,
    SIGHT,
    SKEW,
    SLOPE,
    TRIM,
    Set,
    held,
    landed,
    plane_at,
    printed,
    some,
)
from aimcalc.landings.sighted import hand_widths, sighted
from aimcalc.named import NamedTuple
from aimcalc.rig.kept import Each, each
from aimcalc.scene.model import MEASURED_TRIM, Pipe, Stand

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig

NODES = 96  # directions that a chance is summed over
SPOTS_AT_ONCE = 512  # more would leave the cache
MADE = {**LOCAL, "drop": DROP}
WIDEST = to_radians(80.0)  # of a half angle or a tolerance, so that it has a tangent
OF_95 = 2 * np.sqrt(
    -2 * np.log(0.05)
)  # full width, in standard deviations, of an ellipse that holds 95 %
LEVEL = np.sin(to_radians(5.0))  # an axis nearer to level has no ellipse on the level plane
SURE = 1e-6  # chance of a nudge below which a unit is sure to hit
NOTHING = 1e-24  # a square of tangents: what is told to be known exactly


class Budget(NamedTuple):
    """What is to be expected of N units. NaN: no aim.

    `widths` (9, N) of `ERRORS`, metres and radians; `moves` (9, 2, N) what each moves the spot by, in
    tangents across and up; `mean` (2, N) and `covariance` (2, 2, N) of the spot likewise. Chances (N,) that
    the face is `in_beam`, `in_field`, and that the unit wants a `nudge`. `long` and `wide` (N,), metres, of
    the ellipse on the level plane through the face that holds 95 % of spots (NaN: the axis is nearly level).
    `ranked` has the units that want a nudge the likeliest first.
    """

    widths: Array
    moves: Array
    mean: Array
    covariance: Array
    in_beam: Array
    in_field: Array
    nudge: Array
    long: Array
    wide: Array
    ranked: Indices
    helps: tuple[Help, ...]

    @property
    def expected(self) -> float:
        """How many units of the rig will want a nudge."""
        return float(np.nansum(self.nudge))


class Help(NamedTuple):
    """What one more measurement is worth: the expected nudges of the rig with it.

    `what` is trim, moved (its distance from the plaster line), marks, drop, dial or level, `of` a position
    or a kind, empty for the two tools.
    """

    what: str
    of: str
    expected: float


def budget_of(rig: Rig, tape: tuple[Array, Array] | None = None) -> Budget:
    """The error budget of a rig, every unit set as printed; the measurements that help, the best first.

    `tape` has each unit's mark on its sight tape and how far out that lies, (N,), where pan is set by it.
    """
    count = len(rig.units)
    rows = np.flatnonzero(np.isfinite(rig.aims.throw))
    every = printed(rig) if tape is None else sighted(rig, printed(rig), *tape)
    given = some(every, rows)
    widths = _widths(rig, rows, given)
    widths[PAN] = np.hypot(widths[PAN], hand_widths(rig, every)[rows])
    mean, moves = _tangents(rig, rows, given)
    covariance = _covariance(widths, moves)
    scaled = np.stack([_scaled(rig, rows, which) for which in ("beam", "field", "tolerance")])
    measured = list(_measured(rig))
    better = _better(widths, given.by == SIGHT, measured)
    columns = [np.moveaxis(column, -1, 0) for column in (mean, covariance, moves, better, scaled)]
    in_beam, in_field, hits, *saved = rig.kept.of_units(_chances, columns).value.T
    nudge = 1 - hits
    long, wide = _level_ellipse(rig, rows, covariance)
    order = rows[np.argsort(-nudge, kind="stable")]
    total, words = float(nudge.sum()), [what for what, _, _ in measured]
    may = nudge > SURE
    helps = [
        Help(what, of, total - less)
        for what, of, less in _helped(rig, rows[may], words, [less[may] for less in saved])
    ]

    def of_all(column: Array) -> Array:
        """A column (..., K) as one of all units (..., N)."""
        every = np.full((*column.shape[:-1], count), np.nan)
        every[..., rows] = column
        return every

    return Budget(
        widths=of_all(widths),
        moves=of_all(moves),
        mean=of_all(mean),
        covariance=of_all(covariance),
        in_beam=of_all(in_beam),
        in_field=of_all(in_field),
        nudge=of_all(nudge),
        long=of_all(long),
        wide=of_all(wide),
        ranked=order,
        helps=tuple(sorted(helps, key=lambda each: each.expected)),
    )


def _widths(rig: Rig, rows: Indices, given: Set) -> Array:
    """One standard deviation (9, K) of each of `ERRORS` of some units."""
    errors = rig.scene.errors
    mine = [rig.positions[k] for k in rows.tolist()]
    pipe = np.array([isinstance(position, Pipe) for position in mine], dtype=bool)
    stand = np.array([isinstance(position, Stand) for position in mine], dtype=bool)
    trims = [errors.trim_of(p) if isinstance(p, Pipe) else 0.0 for p in mine]
    dial, set_down, level = (
        to_radians(width) for width in (errors.dial, errors.set_down, errors.level)
    )
    found = np.zeros((len(ERRORS), rows.size))
    found[TRIM] = trims
    found[SLOPE] = np.where(pipe, errors.slope, 0.0)
    found[MOVED] = np.where(pipe, errors.pipe, 0.0)
    found[SKEW] = to_radians(errors.skew)
    found[MARKS] = np.hypot(np.where(stand, 0.0, errors.marks), errors.mark)
    found[DROP] = errors.drop
    found[KICK] = np.where(stand, 0.0, to_radians(errors.kick))
    found[PAN] = np.where(given.by == DIAL, dial, 0.0)  # and the hand's own
    found[DOWN] = np.hypot(set_down, level)
    _learned(rig, rows, found)
    return found


def _learned(rig: Rig, rows: Indices, widths: Array) -> None:
    """Narrow the widths of what corrections have been made for to what their 95 % intervals leave."""
    if not rig.scene.made:
        return
    from aimcalc.landings.spots import left_of

    units = [rig.units[k] for k in rows.tolist()]
    for (what, of), left in left_of(rig.scene).items():
        error = MADE[what]
        left = float(np.hypot(left, rig.scene.errors.mark)) if error == MARKS else left
        whose = [u.kind if error == DROP else u.position for u in units]
        mine = np.array([name == of for name in whose], dtype=bool)
        widths[error, mine] = np.minimum(widths[error, mine], left)


def _tangents(rig: Rig, rows: Indices, given: Set) -> tuple[Array, Array]:
    """Where units set as printed land off their faces, (2, K), and the moves of that, (9, 2, K)."""
    face, axis = rig.arrays.point[:, rows], rig.aims.axis[:, rows]
    units = some(held(rig), rows)
    told = landed(units, given, plane_at(face, axis), np.zeros((len(ERRORS), rows.size)))
    across = level_across(axis)
    ways = np.stack((across, cross(across, axis))) / rig.aims.throw[rows]
    off = np.where(told.there, told.point - face, 0.0)
    return np.einsum("wkn,kn->wn", ways, off), np.einsum("wkn,jkn->jwn", ways, told.moves)


def _covariance(widths: Array, moves: Array) -> Array:
    """J W W J' (2, 2, K)."""
    sized = moves * widths[:, None]
    return np.asarray((sized[:, :, None] * sized[:, None]).sum(axis=0))


def _scaled(rig: Rig, rows: Indices, which: str) -> Array:
    """What makes a field, a beam or a tolerance the disc of radius 1, (2, 2, K): rows are its two ways."""
    full = {"beam": rig.arrays.beam, "field": rig.arrays.field, "tolerance": rig.arrays.field}
    narrow, wide, turn = full[which].copy(), full[which].copy(), np.zeros(len(rig.units))
    ovals = rig.ovals
    own = ovals.beam if which == "beam" else ovals.field
    narrow[ovals.rows], wide[ovals.rows], turn[ovals.rows] = own[0], own[1], ovals.turn
    share = 0.5 if which != "tolerance" else rig.arrays.tolerance / rig.arrays.field
    c, s = np.cos(turn), np.sin(turn)
    along, beside = (np.tan(np.minimum(share * angle, WIDEST)) for angle in (wide, narrow))
    return np.stack((np.stack((c, s)) / along, np.stack((-s, c)) / beside))[..., rows]


def chance(mean: Array, covariance: Array, scaled: Array) -> Array:
    """The chance (K,) that a normal spot falls within an ellipse: |A x| < 1, A `scaled` (2, 2, K).

    In its own widths the spot is z, x = m + L z, and along every direction z = r u of the plane the chance
    to be between the radii r1 and r2 where the ellipse begins and ends is exp(-r1^2 / 2) - exp(-r2^2 / 2);
    the mean of it over `NODES` directions is the chance. It is right within 1e-5 where L is at most 6 times
    as wide one way as the other, in radii of the ellipse, and within 1e-3 up to 30 times; the mean within it.
    """
    found = [np.zeros(0)]
    for k in range(0, mean.shape[-1], SPOTS_AT_ONCE):
        some = (each[..., k : k + SPOTS_AT_ONCE] for each in (mean, covariance, scaled))
        found.append(_chance(*some))
    return np.concatenate(found)


def _chance(mean: Array, covariance: Array, scaled: Array) -> Array:
    """The same for some spots, all at once; that of each is the same to the last bit beside any others."""
    centre = (scaled * mean).sum(axis=1)
    ways = [(j, k) for j in range(2) for k in range(2)]
    sized = sum(scaled[:, j, None] * covariance[j, k] * scaled[:, k] for j, k in ways)
    first = np.sqrt(sized[0, 0] + NOTHING)
    slant = sized[0, 1] / first
    second = np.sqrt(np.maximum(sized[1, 1] - slant**2, 0.0) + NOTHING)
    turn = np.arange(NODES)[:, None] * (2 * np.pi / NODES)
    way = first * np.cos(turn), slant * np.cos(turn) + second * np.sin(turn)
    a = way[0] ** 2 + way[1] ** 2
    b = centre[0] * way[0] + centre[1] * way[1]
    root = b * b - a * (centre[0] ** 2 + centre[1] ** 2 - 1)
    half = np.sqrt(np.maximum(root, 0.0))
    near, far = ((np.maximum(r, 0.0) / a) ** 2 for r in (-b - half, half - b))
    found = np.where(root > 0, np.exp(-near / 2) - np.exp(-far / 2), 0.0)
    return np.asarray(np.cumsum(found, axis=0)[-1] / NODES)  # a mean of one column adds otherwise


def _chances(mean: Array, covariance: Array, moves: Array, better: Array, scaled: Array) -> Each:
    """Chances (K, 3) that spots are within a beam, a field and a tolerance, and what else is saved, (K, M).

    That is how much less likely a nudge is with each of `better` widths (K, 9, M); nothing of units that
    are all but sure to hit: they are not asked.
    """
    mean, covariance, moves, better, scaled = (
        np.moveaxis(column, 0, -1) for column in (mean, covariance, moves, better, scaled)
    )
    found = [chance(mean, covariance, one) for one in scaled]
    some = np.flatnonzero(1 - found[-1] > SURE)
    many = better.shape[1]
    tried = [_covariance(better[:, k, some], moves[..., some]) for k in range(many)]
    middle, within = (np.tile(column[..., some], many) for column in (mean, scaled[-1]))
    hits = chance(middle, np.concatenate(tried, axis=-1), within)
    saved = np.zeros((many, mean.shape[-1]))
    saved[:, some] = 1 - found[-1][some] - 1 + hits.reshape(many, -1)
    return each(np.concatenate((found, saved)).T)


def _level_ellipse(rig: Rig, rows: Indices, covariance: Array) -> tuple[Array, Array]:
    """Full length and width, metres, of the ellipses on the level face planes that hold 95 % of spots."""
    slant = np.abs(np.sin(rig.aims.down[rows]))
    stretch = np.stack((np.ones_like(slant), 1 / np.where(slant > LEVEL, slant, np.nan)))
    xx, xy, yy = (covariance[i, j] * stretch[i] * stretch[j] for i, j in ((0, 0), (0, 1), (1, 1)))
    middle, apart = (xx + yy) / 2, np.hypot((xx - yy) / 2, xy)
    far = OF_95 * rig.aims.throw[rows]
    return far * np.sqrt(middle + apart), far * np.sqrt(np.maximum(middle - apart, 0.0))


def _better(widths: Array, by_tape: Flags, measured: list[tuple[str, int, float]]) -> Array:
    """The widths (9, M, K) with each single measurement; whoever is set by tape has no use for a dial."""
    better = np.repeat(widths[:, None], len(measured), axis=1)
    for k, (what, error, width) in enumerate(measured):
        mine = ~by_tape if what == "dial" else slice(None)
        better[error, k, mine] = np.minimum(widths[error, mine], width)
    return better


def _helped(
    rig: Rig, rows: Indices, words: list[str], saved: list[Array]
) -> Iterator[tuple[str, str, float]]:
    """What each measurement (its word) saves of the expected nudges of some units, as (what, of, saved)."""
    where, what_of = _keys([rig.units[k].position for k in rows.tolist()])
    kinds, what_kind = _keys([rig.units[k].kind for k in rows.tolist()])
    pipes = [name for name in where if isinstance(rig.scene.positions[name], Pipe)]
    for what, less in zip(words, saved, strict=True):
        if what in ("dial", "level"):
            yield what, "", float(less.sum())
        elif what == "drop":
            yield from zip([what] * len(kinds), kinds, _sums(less, what_kind, kinds), strict=True)
        else:
            sums = dict(zip(where, _sums(less, what_of, where), strict=True))
            yield from ((what, name, sums[name]) for name in pipes)


def _measured(rig: Rig) -> Iterator[tuple[str, int, float]]:
    """What can be measured: its word, which of `ERRORS`, and its width from then on."""
    errors = rig.scene.errors
    yield "trim", TRIM, MEASURED_TRIM
    yield "moved", MOVED, BY_TAPE
    yield "marks", MARKS, float(np.hypot(BY_TAPE, errors.mark))
    yield "drop", DROP, BY_TAPE
    by_hand = (errors.set_pan, errors.read_pan), (errors.set_down, errors.read_down)
    for (what, error), (hand, read) in zip((("dial", PAN), ("level", DOWN)), by_hand, strict=True):
        yield what, error, to_radians(float(np.hypot(hand, read)))


def _keys(words: list[str]) -> tuple[list[str], Indices]:
    """Different words in the order they come, and which of them each is."""
    every = list(dict.fromkeys(words))
    place = {word: k for k, word in enumerate(every)}
    return every, np.array([place[word] for word in words], dtype=np.intp)


def _sums(values: Array, which: Indices, names: list[str]) -> list[float]:
    found: list[float] = np.bincount(which, values, len(names)).tolist()
    return found
