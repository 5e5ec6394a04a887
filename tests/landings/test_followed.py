"""Hands that follow what is learned, on the same rig with the same faulty tools: whether they then hit.

The light is thrown by the forward model on the rig as plotted, with what is truly off of it.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import msgspec
import numpy as np
import pytest

from aimcalc.landings import forward as f
from aimcalc.rig.rig import allowed
from aimcalc.scene.corrected import corrections_toml, read_corrections
from aimcalc.scene.mistakes import Log, SceneError
from aimcalc.sheets.learned import Outcome, outcome_of
from aimcalc.show import Show
from tests.landings.noisy import a_rig

CAREFUL = {"set_down": 0.1, "set_pan": 0.2, "landing": 0.01, "mark": 0.0}
LEVEL, DIAL, KICK = 2.5, 5.0, 9.0  # degrees
LOW = -0.45  # m
SLACK = 0.25  # degrees: what landings leave open
PIPE, KICKED = "pipe 0", "pipe 1/3"


class World:
    """A rig as it really is: two pipes of eight, what is off of it, how its units stand."""

    def __init__(self, seed: int, **off: float) -> None:
        scene = a_rig(np.random.default_rng(seed), pipes=2, units=8, **CAREFUL).scene
        own = msgspec.structs.replace(scene.settings, tolerance=0.12)
        self.show = Show(msgspec.structs.replace(scene, settings=own))
        self.rig = self.show.rig
        self.off = np.zeros((9, len(self.rig.units)))
        on_pipe = [unit.position == PIPE for unit in self.rig.units]
        self.off[f.TRIM, on_pipe] = off.get("trim", 0.0)
        self.off[f.DOWN] = np.radians(off.get("level", 0.0))
        self.off[f.PAN] = np.radians(off.get("dial", 0.0))
        self.off[f.KICK, self.rig.by_name[KICKED]] = np.radians(off.get("kick", 0.0))
        self.given = f.printed(self.rig)

    def landings(self, path: Path, units: Iterable[str], trim: bool = True) -> str:
        """The list of where these units land, read to a millimetre, and of the trim of their low pipe."""
        up = np.tile([[0.0], [0.0], [1.0]], len(self.rig.units))
        floor = f.plane_at(np.zeros_like(up), up)
        told = f.landed(f.held(self.rig), self.given, floor, self.off)
        lines = ["unit,x,y,trim"]
        for name in units:
            x, y, _ = told.point[:, self.rig.by_name[name]]
            across = f"{abs(x):.3f} m {'SL' if x >= 0 else 'SR'}"
            lines.append(f"{name},{across},{abs(y):.3f} m {'US' if y >= 0 else 'DS'},")
        if trim:
            height = self.rig.scene.positions[PIPE].start[2] + self.off[f.TRIM].min()
            lines.append(f"{PIPE},,,{height:.3f} m")
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
        return str(path)

    def set_again(self, show: Show, units: Iterable[str], by: np.ndarray | None = None) -> None:
        """Set units as a show prints them: with what is put right, or with as much allowed for as `by`."""
        printed = f.printed(show.rig)
        for name in units:
            k, now = self.rig.by_name[name], show.rig.by_name[name]
            for column, new in zip(self.given, printed, strict=True):
                column[..., k] = new[..., now]
            rows = [f.PAN, f.DOWN, f.KICK]
            self.off[rows, k] = 0.0 if by is None else self.off[rows, k] - by[rows, k]

    def misses(self, by: float = 0.0) -> list[str]:
        """The units whose spots are off their faces by this many degrees more than they may be."""
        plane = f.plane_at(self.rig.arrays.point, self.rig.aims.axis)
        told = f.landed(f.held(self.rig), self.given, plane, self.off)
        ways = [p - self.rig.aims.lens for p in (told.point, self.rig.arrays.point)]
        a, b = (way / np.linalg.norm(way, axis=0) for way in ways)
        every = np.arange(len(self.rig.units))
        angle = np.arccos(np.clip((a * b).sum(axis=0), -1, 1))
        over = angle - allowed(self.rig, every, a - b) > np.radians(by)
        return [self.rig.names[k] for k in every[over]]


def corrected_show(show: Show, outcome: Outcome, path: Path) -> Show:
    """The show of its scene once the file that was made is named in it, by way of the file."""
    path.write_text(corrections_toml(outcome.corrections, outcome.landings), encoding="utf-8")
    log, scene = Log(), show.plotted
    found, landings = read_corrections(str(path), path.name, scene, log)
    assert not log.mistakes
    own = msgspec.structs.replace(scene.settings, corrections=path.name)
    return Show(
        msgspec.structs.replace(scene, settings=own, corrections=found, learned_from=landings)
    )


CASES = [
    {"level": LEVEL},
    {"dial": -DIAL},
    {"kick": KICK},
    {"trim": LOW},
    {"trim": LOW, "level": -LEVEL},
    {"trim": LOW, "level": LEVEL, "dial": DIAL, "kick": KICK},
]


@pytest.mark.parametrize("off", CASES, ids=lambda off: "+".join(off))
@pytest.mark.parametrize("how", ["put right", "allowed for"])
def test_who_does_what_is_told_hits_and_the_others_need_not_be_touched(
    off: dict[str, float], how: str, tmp_path: Path
) -> None:
    missed = 0
    for seed in range(3):
        world = World(seed, **off)
        missed += len(world.misses())
        standing = set(world.misses(-SLACK))
        outcome = outcome_of(world.show, world.landings(tmp_path / "l.csv", world.rig.names))
        now = corrected_show(world.show, outcome, tmp_path / "corrections.toml")
        units = {*outcome.rows, *outcome.again}
        by = None
        if how == "allowed for":  # level, dial and clamp stay as they are: so much is taken off
            by = np.zeros_like(world.off)
            for each in outcome.learned.to_put_right:
                value = np.radians(each.value)
                if each.what == "kick":
                    continue  # a clamp is plumbed in any case
                by[f.DOWN if each.what == "level" else f.PAN] = value
            by[f.KICK] = world.off[f.KICK]
        world.set_again(now, units, by)
        assert set(outcome.again) <= standing
        assert world.misses(SLACK) == []
    assert missed > 0


def test_learned_again_from_a_list_that_grew_only_what_is_new_counts(tmp_path: Path) -> None:
    """A low pipe corrected, who was asked to set again has done so; more landings change nothing of it."""
    for seed in range(3):
        world = World(seed, trim=LOW)
        some = world.rig.names[:3]
        first = world.landings(tmp_path / "l.csv", some)
        outcome = outcome_of(world.show, first)
        assert outcome.known == 0
        now = corrected_show(world.show, outcome, tmp_path / "corrections.toml")
        with pytest.raises(SceneError) as refused:
            outcome_of(now, first)
        assert "none but those" in refused.value.report()
        world.set_again(now, {*outcome.rows, *outcome.again})
        grown = Path(first).read_text(encoding="utf-8")
        more = world.landings(tmp_path / "more.csv", world.rig.names[1:8], trim=False)
        grown += Path(more).read_text(encoding="utf-8").partition("\n")[2]
        kept = [line for line in grown.splitlines() if line.split(",")[0] not in some[1:]]
        (tmp_path / "l.csv").write_text("\n".join(kept) + "\n", encoding="utf-8")
        again = outcome_of(now, str(tmp_path / "l.csv"))
        assert again.known == 2  # the first unit's spot, and the trim
        total = next(c for c in again.corrections if (c.what, c.of) == ("trim", PIPE))
        assert total.value == pytest.approx(LOW, abs=0.02)
        assert total.low < LOW < total.high
        assert len(again.rows) <= 1


def test_a_unit_that_was_not_asked_to_be_set_again_counts_as_first_printed(tmp_path: Path) -> None:
    """Of a pipe a little low hardly anybody is asked: held against the new numbers, the spots of those that
    were not would seem to contradict each other."""
    for seed in range(3):
        world = World(seed, trim=-0.25)
        pipe = world.rig.names[:8]
        outcome = outcome_of(world.show, world.landings(tmp_path / "l.csv", pipe, trim=False))
        now = corrected_show(world.show, outcome, tmp_path / "corrections.toml")
        asked = {*outcome.rows, *outcome.again}
        world.set_again(now, asked)
        world.off[f.PAN] += 0.002  # so that no spot is the one that was read before
        left = [name for name in pipe if name not in asked]
        assert len(left) > 3
        again = outcome_of(now, world.landings(tmp_path / "more.csv", left, trim=False))
        first, total = (
            next(c.value for c in found.corrections if (c.what, c.of) == ("trim", PIPE))
            for found in (outcome, again)
        )
        assert again.known == 0
        assert again.learned.doubted == ()
        assert abs(total + 0.25) <= abs(first + 0.25) + 0.01
