"""Shows of rigs, each result of which is made once for all tests of a process that ask for it.

Tests may look at a rig and its show as long as they like, and change neither.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache, cached_property, lru_cache
from pathlib import Path

from aimcalc.scene.loading import load_scene
from aimcalc.show import Show
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig, solve_rig

SCENES = Path(__file__).parents[1] / "scenes"
MOST = 16  # rigs whose shows are kept


@cache
def rig_of(name: str) -> SolidRig:
    """One of the worked scenes, solved."""
    return solve_rig(load_scene(SCENES / name))


@lru_cache(MOST)
def show_of(rig: SolidRig) -> Show:
    """The show of a rig that a test has solved already."""
    show = Show(rig.scene)
    show.rig = rig
    return show


class _Judged(Show):
    """The show of a rig with findings of a test's choice, and all else from the show that is kept."""

    def __init__(self, rig: SolidRig, findings: Iterable[Finding]) -> None:
        super().__init__(rig.scene)
        self.rig = rig
        self.findings = list(findings)

    @cached_property
    def hang(self):
        return show_of(self.rig).hang

    @cached_property
    def light(self):
        return show_of(self.rig).light

    @cached_property
    def survey(self):
        return show_of(self.rig).survey


def a_show(rig: SolidRig, findings: Iterable[Finding] | None = None) -> Show:
    """The show of this rig; its findings are made on first use where none are given."""
    return show_of(rig) if findings is None else _Judged(rig, findings)
