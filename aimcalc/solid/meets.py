"""Where light stops: the first surface that a ray meets, the deck or one of the scene's own solids.

The one rule behind every sheet. The deck ends at the stage's outline, where there is one; what is past it
(the house floor, a dock) is not known, so light that goes there meets nothing. A unit below the deck
shines through an opening in it. Pipes and units stop no axis.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.deck import Deck, bare_height, first_met, landing
from aimcalc.geometry.solids import Soup, soup
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple
from aimcalc.rig.places import inside

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig


DECK = "deck"
# A place on a slope is found by its two plan distances or by its height. A spot that moves on a face sloping
# by s moves cos s in plan and sin s in height for each metre: past 45 degrees the height is the better mark.
UPRIGHT_FROM = np.sqrt(0.5)  # of the normal's z: below it the face is upright
AT_POINT = 0.001  # m: what stops the axis this little before its point is what is lit
ON_DECK = 0.001  # m; a cloth or a line this thin is the deck itself


class Meets(NamedTuple):
    """What N rays meet first. NaN, and -1 for `surface`: nothing.

    `surface` is a place in `names`: the scene's solids as written, then the deck. `point` and `normal`
    are (3, N), the normal a unit direction on the side the light comes from. `height` is above the deck,
    platforms apart, and `reach` the distance from the ray's start, (N,). `top` is where light comes down
    on something near level: deck, platform, table; `upright` is every other surface: a wall, a steep
    face, an underside.
    """

    names: tuple[str, ...]
    surface: Indices
    point: Array
    height: Array
    normal: Array
    reach: Array
    top: Flags
    upright: Flags

    @property
    def on_deck(self) -> Flags:
        """Rays, (N,), that meet the deck itself."""
        return np.asarray(self.surface == len(self.names) - 1)

    @property
    def on_solid(self) -> Flags:
        """Rays, (N,), that meet one of the scene's solids."""
        return np.asarray((self.surface >= 0) & ~self.on_deck)


def meets(rig: Rig, solids: Soup, start: Array, direction: Array) -> Meets:
    """What rays from `start` along `direction` (unit length), (3, N), meet first.

    Needs no library that casts rays. Raises SceneError where a mesh file cannot be used.
    `solids` are the scene's own, see `scenery_of`.
    """
    met = first_met(solids.corners, start, direction)
    deck = _deck_reach(rig, start, direction)
    to_solid = np.where(met.face < 0, np.inf, met.distance)
    on_deck = np.nan_to_num(deck, nan=np.inf) <= to_solid + ON_DECK
    on_deck &= np.isfinite(deck)
    reach = np.where(on_deck, deck, met.distance)
    point = start + reach * direction
    normal = np.where(on_deck, _deck_normal(rig.deck, point[1]), _normals(solids, met.face))
    normal = np.where(dot(normal, direction) > 0, -normal, normal)
    there = np.isfinite(reach)
    top = there & (normal[2] >= UPRIGHT_FROM)
    owner = np.append(solids.owner, -1)[met.face]
    return Meets(
        names=(*(solid.name for solid in rig.scene.solids), DECK),
        surface=np.where(on_deck, len(rig.scene.solids), owner),
        point=point,
        height=point[2] - bare_height(rig.deck, point[1]),
        normal=normal,
        reach=reach,
        top=top,
        upright=there & ~top,
    )


def scenery_of(rig: Rig) -> Soup:
    """The scene's own solids as triangles, owner numbers in the order written."""
    from aimcalc.solid.solids import solids_of

    return soup([thing.shape for thing in solids_of(rig)])


def _deck_reach(rig: Rig, start: Array, direction: Array) -> Array:
    """Distance along rays to the deck itself, platforms apart, (N,); NaN where there is no deck."""
    reach = landing(Deck(rig.deck.rake, rig.deck.rake_from), start, direction)
    outline = rig.scene.stage.outline
    if outline:
        x, y, _ = np.nan_to_num(start + reach * direction)
        reach = np.where(inside(outline, x, y), reach, np.nan)
    return np.asarray(reach)


def _deck_normal(deck: Deck, y: Array) -> Array:
    rake = np.where(y > deck.rake_from, deck.rake, 0.0)
    size = np.hypot(1.0, rake)
    return np.stack((np.zeros_like(y), -rake / size, 1.0 / size))


def _normals(solids: Soup, face: Indices) -> Array:
    """Unit normals of triangles, (3, N); NaN for face -1."""
    if not solids.faces.size:
        return np.full((3, face.size), np.nan)
    a, b, c = (solids.vertices[:, solids.faces[k, face]] for k in range(3))
    normal = cross(b - a, c - a)
    size = np.sqrt(dot(normal, normal))
    with np.errstate(invalid="ignore"):  # of a triangle without area
        return np.asarray(np.where(face < 0, np.nan, normal / size))
