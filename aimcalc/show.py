"""One scene and every result of it, each made once on first use: what sheets, lists and commands receive.

A module that only some results need is loaded by the property that makes them: a scene that cannot be read
is told of before any of them.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from os import PathLike
    from typing import Any, Literal, Self

    import numpy as np

    from aimcalc.coverage.asked import Place
    from aimcalc.coverage.study import Study
    from aimcalc.coverage.survey import Survey
    from aimcalc.geometry.vectors import Array
    from aimcalc.hang.records import HangPlan
    from aimcalc.landings.budget import Budget
    from aimcalc.landings.trims import Trims
    from aimcalc.scene.model import Scene
    from aimcalc.solid.answers import Finding
    from aimcalc.solid.rig import SolidRig

    Words = np.ndarray[Any, np.dtype[np.str_]]


class Show:
    """A scene with its results. Lengths in metres; arrays of points are (3, N), N units in hang order.

    Whatever first needs a photometric file or a mesh that cannot be used raises SceneError.
    """

    def __init__(self, scene: Scene, before: Show | None = None) -> None:
        self.plotted = scene  # no correction made in it
        if scene.corrections:
            from aimcalc.rig.corrected import corrected

            scene = corrected(scene)
        self.scene = scene
        self._before = before
        if before is not None:
            before._before = None  # or every show since the first would be kept

    def changed(self, scene: Scene) -> Show:
        """The show of a scene that is this one with some changes, for whoever asks again after every change.

        Its results are those of a show made from nothing, to the last bit; what this one has worked out
        and no change can have touched is not worked out again.
        """
        return Show(scene, self)

    @classmethod
    def read(
        cls,
        scene: str | PathLike[str],
        length: Literal["m", "ft"] | None = None,
        what_if: Sequence[str] = (),
    ) -> Self:
        """The show of a scene file, or of a folder that holds scene.toml.

        Its words are in `length`, else in the scene's own unit; numbers are metres in any case. `what_if`
        changes values before they are read, its file stays as it is: "pipe 1.trim=5.8 m". Raises
        SceneError with every mistake of the files.
        """
        from aimcalc.scene.loading import load_scene
        from aimcalc.scene.model import told_in

        return cls(told_in(load_scene(scene, what_if), length))

    @cached_property
    def rig(self) -> SolidRig:
        """Every unit, aimed."""
        from aimcalc.solid.rig import solve_rig

        return solve_rig(self.scene, self._known("rig"))

    def _known(self, result: str) -> Any:
        """A result of the show before the change; None where there is none, or nobody asked for it."""
        return None if self._before is None else vars(self._before).get(result)

    @cached_property
    def aims(self) -> dict[str, Array | Words]:
        """Each unit's answer as columns (N,): the JSON keys that hold a number or a word, by their names.

        Metres and degrees; what does not exist is NaN, or an empty word. Points are in `rig`: (3, N).
        """
        import msgspec
        import numpy as np

        from aimcalc.solid.answers import Answer

        answers = self.rig.answers_with_losses
        columns: dict[str, Array | Words] = {}
        for field in msgspec.structs.fields(Answer):
            cells = [getattr(answer, field.name) for answer in answers]
            if field.type in (float, float | None):
                columns[field.name] = np.array(cells, np.float64)
            elif field.type in (str, str | None):
                columns[field.name] = np.array([cell or "" for cell in cells], np.str_)
        return columns

    @cached_property
    def hang(self) -> HangPlan:
        """The work at the pipe: marks, loads, tails, cable, circuits, counts."""
        from aimcalc.hang.plan import hang_plan

        return hang_plan(self.rig)

    @cached_property
    def budget(self) -> Budget:
        """How far off its face each unit will land, set as printed, and which will want a nudge."""
        from aimcalc.landings.budget import budget_of

        tapes = None if self.scene.errors.sight is None else self.rig.tapes
        return budget_of(self.rig, tapes and (tapes.sight, tapes.out))

    @cached_property
    def trims(self) -> tuple[Trims, ...]:
        """At which trims of each pipe its units still hit, untouched or re-tilted; how level it must be."""
        from aimcalc.landings.trims import trims_of

        return trims_of(self.rig)

    @cached_property
    def light(self) -> Study:
        """The light of each system over the acting area, and its holes.

        Raises NoAreaError, GridError and NoRayEngineError, as `aimcalc.coverage.study.study_of` does.
        """
        from aimcalc.coverage.study import study_of

        return study_of(self.rig, before=self._known("light"), keep=self._before is not None)

    @cached_property
    def survey(self) -> Survey | str:
        """The light with who could fill its holes and what lights each area; a sentence where there is none.

        The fewest re-aims, which take long, are not searched for.
        """
        return self._surveyed(helpers=True)

    @cached_property
    def areas(self) -> Survey | str:
        """What lights each area, without who could fill the holes: that takes longer than all of it."""
        return self.__dict__.get("survey") or self._surveyed(helpers=False)

    @cached_property
    def places(self) -> list[Place] | str:
        """What lights each target, what goes dark without each unit; a sentence where there is none."""
        from aimcalc.coverage.asked import at_targets
        from aimcalc.coverage.systems import GridError, NoAreaError
        from aimcalc.geometry.rays import NoRayEngineError

        try:
            return at_targets(self.light)
        except (GridError, NoAreaError, NoRayEngineError) as error:
            return str(error)

    def _surveyed(self, *, helpers: bool) -> Survey | str:
        from aimcalc.coverage.survey import CoverOptions, survey_of
        from aimcalc.coverage.systems import GridError, NoAreaError
        from aimcalc.geometry.rays import NoRayEngineError

        try:
            return survey_of(self.light, CoverOptions(helpers=helpers, fewest=False))
        except (GridError, NoAreaError, NoRayEngineError) as error:
            return str(error)

    @cached_property
    def findings(self) -> list[Finding]:
        """What the crew should know of aims, solids and the work at the pipe, worst first."""
        from aimcalc.findings import checks

        return checks(self.rig, [*self.hang_findings, *self.landing_findings])

    @cached_property
    def quick_findings(self) -> list[Finding]:
        """The same without what takes the longest, light that is cut and what the audience sees.

        Every stop is among them.
        """
        from aimcalc.findings import checks

        return checks(self.rig, [*self.hang_findings, *self.landing_findings], rays=False)

    @cached_property
    def hang_findings(self) -> list[Finding]:
        """What is to be known of hanging and plugging, worst first."""
        from aimcalc.findings import hang_findings

        return hang_findings(self.rig, self.hang)

    @cached_property
    def landing_findings(self) -> list[Finding]:
        """What is to be known of where the light will land when things are off as they usually are."""
        from aimcalc.findings import landing_findings

        return landing_findings(self.rig, self.budget)
