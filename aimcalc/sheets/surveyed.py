"""The light of a rig worked out once for all the sheets that show it."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from aimcalc.rig.light.survey import Survey
    from aimcalc.rig.solve import Rig


@lru_cache(maxsize=1)
def surveyed(rig: Rig) -> Survey | str:
    """The light of a rig with its holes and helpers, or in a sentence why it cannot be worked out."""
    from aimcalc.geometry.occlusion import NoRayEngineError
    from aimcalc.rig.light.plane import GridError, NoAreaError
    from aimcalc.rig.light.survey import CoverOptions, survey

    try:
        return survey(rig, CoverOptions(fewest=False))
    except (GridError, NoAreaError, NoRayEngineError) as error:
        return str(error)
