"""The page on the phone throws light as the program does: to 1e-9, units of every mount, in the browser."""

from __future__ import annotations

import json
from functools import cache

import numpy as np
import pytest

from aimcalc.geometry.deck import Deck, landing
from aimcalc.geometry.vectors import level_direction, to_radians
from aimcalc.landings.forward import DIAL, HEADING, SIGHT, Plane, exact, held, landed
from aimcalc.landings.said import Said
from aimcalc.landings.where import where
from aimcalc.rig.places import WORDS, body_of, place
from aimcalc.sheets.phone.page import part
from aimcalc.sheets.phone.throws import throws_of
from aimcalc.solid.rig import solve_rig
from aimcalc.text.rows import heading_bases
from tests.rigs import random_scene
from tests.shows import rig_of
from tests.studies import cases

FIT = 1e-9  # m, of one metre of throw and more: what both may lose to rounding
STEEP = 0.02  # of a ray against its plane: flatter ones multiply what rounding leaves
NEAR = 200.0  # m
MOUNTS = [
    *(("under", tube) for tube in ("straight", "truss", "arc")),
    *(("over", "straight"), ("out", "straight"), ("out", "arc")),
    *(("arm", "straight"), ("arm", "foot"), ("direct", "straight"), ("stand", "straight")),
]


@pytest.fixture(scope="module")
def thrower(chromium):
    """Runs a function of the page's own throwing, batches in and batches out."""
    page = chromium.new_page()
    page.set_content("<p></p>")
    page.add_script_tag(content=part("throw.js") + ";globalThis.throwing = throwing;")

    def run(body: str, given: object) -> object:
        script = f"(text) => {{ const given = JSON.parse(text); {body} }}"
        return page.evaluate(script, json.dumps(given))

    yield run
    page.close()


@cache
def rigs(mount: str, tube: str):
    return solve_rig(random_scene(mount, cases(300, 2_000), 7, tube))


def thrown_from(rig):
    throws = throws_of(rig, heading_bases(rig), "m")
    kept = [k for k, each in enumerate(throws) if each is not None]
    return kept, [throws[k] for k in kept]


def planes(rig, kept, rng):
    """A plane for each unit: level at its face, level at the deck, or a rake of its own."""
    sort, slope = rng.integers(0, 3, len(kept)), rng.uniform(-0.12, 0.12, len(kept))
    normal = np.array([np.zeros(len(kept)), np.where(sort == 2, -slope, 0.0), np.ones(len(kept))])
    offset = np.where(sort == 0, rig.arrays.point[2, kept], 0.0)
    return Plane(normal, offset)


def set_anew(rig, kept, by, rng):
    """Units set by dial, heading or sight, to what no sheet says; for `landed`, and for the page."""
    count, given = len(kept), exact(rig)
    down = to_radians(rng.uniform(-20, 88, count))
    pan, sign = to_radians(rng.uniform(0, 90, count)), rng.choice((-1, 1), count).astype(np.int8)
    heading = rng.uniform(-np.pi, np.pi, count)
    turn = rig.aims._replace(pan=_spread(rig, kept, pan), swing_sign=_spread(rig, kept, sign)).turn
    anew = given._replace(
        by=np.full(given.by.size, by),
        turn=turn,
        heading=_spread(rig, kept, heading),
        down=_spread(rig, kept, down),
    )
    asked = [{"down": d} for d in down.tolist()]
    if by == DIAL:
        told = zip(asked, pan.tolist(), sign.tolist(), strict=True)
        return anew, [{**one, "pan": p, "sign": s} for one, p, s in told]
    if by == HEADING:
        return anew, [{**o, "heading": h} for o, h in zip(asked, heading.tolist(), strict=True)]
    sights = rng.uniform(-5, 5, count)
    marks = np.zeros((3, given.by.size))
    for k, sight in zip(kept, sights.tolist(), strict=True):
        marks[:, k] = mark_of(rig, k, sight)
    return anew._replace(mark=marks), [
        {**one, "sight": s} for one, s in zip(asked, sights.tolist(), strict=True)
    ]


def _spread(rig, kept, values):
    every = np.zeros(len(rig.units), dtype=values.dtype)
    every[kept] = values
    return every


def mark_of(rig, k, sight):
    """A mark on the tape as seen from the middle of the pipe: along it on plan, and out square to it."""
    position, answer = rig.positions[k], rig.answers[k]
    here = place(position)
    run = np.array([here.along[0], here.along[1], 0.0])
    out = np.array([*here.square[:2], 0.0]) * rig.aims.square_sign[k] * answer.sight_out
    return here.zero - np.array(body_of(position)[0]) + sight * run / np.linalg.norm(run) + out


RAYS = """
const told = given.units.map((unit, k) => {
  const set = given.sets[k];
  if (set.pan !== undefined) set.turn = throwing.turnOf(unit, set.pan, set.sign);
  return throwing.ray(unit, set);
});
"""
CUTS = RAYS + "return told.map((ray, k) => throwing.cut(ray, given.normals[k], given.offsets[k]));"


@pytest.mark.long
@pytest.mark.parametrize(("mount", "tube"), MOUNTS)
@pytest.mark.parametrize("by", [DIAL, HEADING, SIGHT], ids=["dial", "heading", "sight"])
def test_a_unit_set_anyhow_lands_where_the_program_has_it(thrower, mount, tube, by):
    rig, rng = rigs(mount, tube), np.random.default_rng(11)
    kept, throws = thrown_from(rig)
    if by == SIGHT:
        kept, throws = _with_tapes(kept, throws)
    if not kept:
        assert by == SIGHT
        assert mount not in ("under", "over") or tube == "arc"
        return
    plane = planes(rig, kept, rng)
    anew, asked = set_anew(rig, kept, by, rng)
    units, sets = held(rig), anew
    some = type(units)._make(column[..., kept] for column in units)
    those = type(sets)._make(column[..., kept] for column in sets)
    told = landed(some, those, plane, np.zeros((9, len(kept))))
    given = {
        "units": throws,
        "sets": asked,
        "normals": plane.normal.T.tolist(),
        "offsets": plane.offset.tolist(),
    }
    ours = thrower(CUTS, given)
    assert [point is not None for point in ours] == told.there.tolist()
    steep = told.there & (told.reach < NEAR) & _comes(told, plane, some)
    found = np.array([ours[k] for k in np.flatnonzero(steep)]).T
    assert steep.sum() > len(kept) / 8
    np.testing.assert_allclose(found, told.point[:, steep], rtol=0, atol=FIT)


def _with_tapes(kept, throws):
    with_tape = [(k, t) for k, t in zip(kept, throws, strict=True) if t["sight"]]
    return [k for k, _ in with_tape], [t for _, t in with_tape]


def _comes(told, plane, units):
    """Rays that come to their plane steeply enough: their fall from the pivot over their length."""
    pivot = units.middle + units.spot + units.arm + units.drop * units.stem
    fall = np.abs((plane.normal * pivot).sum(axis=0) - plane.offset)
    return fall > STEEP * told.reach


DECKS = [
    Deck(),
    Deck(0.08, -1.0),
    Deck(-0.06, 0.5),
    Deck(0.05, 0.0, np.array([[-3, 1, 0, 0, 4, 0.8], [1, 2, 0, 5, 6, 1.4]], dtype=float).T),
]


@pytest.mark.parametrize("deck", DECKS, ids=["level", "raked", "falling", "platforms"])
def test_light_comes_down_on_deck_and_platforms_where_the_program_has_it(thrower, deck):
    rng = np.random.default_rng(3)
    count = 3_000
    start = rng.uniform((-8, -9, -0.2), (8, 9, 9), (count, 3)).T
    way = level_direction(rng.uniform(-np.pi, np.pi, count))
    fall = to_radians(rng.uniform(-30, 90, count))
    way = way * np.cos(fall) - np.array([[0], [0], [1.0]]) * np.sin(fall)
    told = landing(deck, start, way)
    given = {
        "deck": {
            "rake": deck.rake,
            "rake_from": deck.rake_from,
            "boxes": deck.boxes.T.tolist(),
        },
        "rays": list(zip(start.T.tolist(), way.T.tolist(), strict=True)),
    }
    body = "return given.rays.map(([at, way]) => throwing.landing(given.deck, at, way)?.reach ?? null);"
    ours = np.array([np.nan if far is None else far for far in thrower(body, given)])
    assert (np.isnan(ours) == np.isnan(told)).all()
    near = told < NEAR
    np.testing.assert_allclose(ours[near], told[near], rtol=1e-12, atol=FIT)


MISSES = (
    RAYS
    + """
return told.map((ray, k) => {
  const unit = given.units[k];
  return [ray.lens, ray.axis, throwing.past(unit, ray).by, throwing.miss(unit, ray)];
});
"""
)


@pytest.mark.parametrize("of", ["under", "over", "arm", "playhouse"])
def test_a_miss_is_that_of_where_and_so_is_what_it_may_be(thrower, of):
    rig = rig_of(of) if of == "playhouse" else solve_rig(random_scene(of, 120, 5))
    rng = np.random.default_rng(2)
    kept, throws = thrown_from(rig)
    assert of != "playhouse" or any(each["oval"] for each in throws)
    sets, founds, units = [], [], []
    for k, unit in zip(kept, throws, strict=True):
        answer = rig.answers[k]
        if not unit["dial"] or answer.swing is None or not 5 < answer.down < 75:
            continue
        # So near to its plotted aim that the other way round to the same down is farther from it.
        pan, down = (float(angle + rng.uniform(-4, 4)) for angle in (answer.pan, answer.down))
        if not 0 < pan <= 90:
            continue
        said = Said(pan=(pan, answer.swing), down=down)
        founds.append(where(rig, k, said, float("nan")))
        sign = 1 if answer.swing == WORDS[int(rig.words.swing[k])] else -1
        sets.append({"pan": np.radians(pan), "sign": sign, "down": np.radians(down)})
        units.append(unit)
    told = thrower(MISSES, {"units": units, "sets": sets})
    for found, (lens, _, by, miss) in zip(founds, told, strict=True):
        np.testing.assert_allclose(lens, found.lens, atol=FIT)
        np.testing.assert_allclose(miss["off"], np.radians(found.miss), atol=1e-9)
        np.testing.assert_allclose(miss["may"], np.radians(found.may), atol=1e-9)
        assert (by is None) == bool(np.isnan(found.past).any())
        if by is not None and np.linalg.norm(found.past) < NEAR:
            np.testing.assert_allclose(by, found.past, atol=1e-8)
    assert len(founds) > 30
