"""The scene as plain records: what the user wrote, checked, in SI lengths.

Lengths are metres, weights kilograms, loads watts, currents amperes. Angles stay in **degrees** here,
as the user typed them; `aimcalc.rig.arrays` turns them into radians, once. Points are ``(x, y, z)`` in
the frame of the stage: x to stage left, y upstage, z up from the deck at the plaster line.
"""

from __future__ import annotations

from functools import cached_property
from typing import Literal

import msgspec

from aimcalc.named import NamedTuple

Point = tuple[float, float, float]
PlanPoint = tuple[float, float]
Stretch = tuple[float, float]  # of a tube: from and to, measured as `at`, the lesser first
Mount = Literal["under", "over", "out", "arm", "direct", "stand"]
Side = Literal["SL", "SR", "US", "DS"]
Dimming = Literal["circuit", "data"]

MEASURED_TRIM = 0.02  # m: what a trim measured with a tape may be out (estimate)

HIDDEN = ", hidden"  # ends the source of a unit in a row that the hang list hides


class Settings(msgspec.Struct, frozen=True, kw_only=True):
    """`[scene]`."""

    title: str
    unit: Literal["m", "cm", "mm", "ft", "in"] = "m"  # that lengths are told in
    typed_in: Literal["m", "cm", "mm", "ft", "in"] | None = None  # bare numbers, where that differs
    face_height: float = 1.65
    sight_out: float | None = None  # for every pipe that gives none; None: where a tape can lie
    tolerance: float = 0.25  # share of the field angle a miss may be
    volts: float | None = None
    continuous_share: float | None = None  # of a circuit's limit, by the local rule
    revision: str = ""
    note: str = ""
    gap_below: float | None = None  # share of a system's mean below which a point is a hole
    corrections: str | None = None  # the file of them, relative to the scene's folder
    hang: str | None = None  # the hang list's file, relative to the scene's folder
    typeface: str | None = None  # the font file of letters that DejaVu Sans lacks, likewise
    hang_sheet: str | None = None  # the sheet of it that has the units, where several may

    @property
    def own_unit(self) -> str:
        """The unit that the user writes in, whatever lengths are told in."""
        return self.typed_in or self.unit


class Stage(msgspec.Struct, frozen=True, kw_only=True):
    """`[stage]`. The deck is z = rake * max(0, y - rake_from), platforms apart."""

    outline: tuple[PlanPoint, ...] = ()
    acting: tuple[PlanPoint, ...] = ()  # equals `outline` where the user gave none
    rake: float = 0.0
    rake_from: float = 0.0


class Correction(msgspec.Struct, frozen=True, kw_only=True):
    """`[[correction]]` of a corrections file: true minus plotted, metres or degrees.

    Those of the pipes and the drops are made in the scene; a dial, a level or a kick is to be put right.
    """

    what: Literal["trim", "slope", "skew", "moved", "marks", "drop", "dial", "level", "kick"]
    of: str
    value: float
    low: float | None = None
    high: float | None = None


class Errors(msgspec.Struct, frozen=True, kw_only=True):
    """`[errors]`: one standard deviation of each thing that can be out, metres and degrees.

    The defaults are estimates of ours, from no source.
    """

    trim: float = 0.10
    slope: float = 0.03  # of one end over the other
    pipe: float = 0.05  # up or down stage
    skew: float = 0.5
    marks: float = 0.03
    mark: float = 0.01
    dial: float = 1.0
    level: float = 0.5
    set_pan: float = 2.0
    set_down: float = 1.0
    read_pan: float = 0.5
    read_down: float = 0.2
    drop: float = 0.02
    kick: float = 2.0
    landing: float = 0.05
    sight: float | None = None  # along the sight tape, which pan is then set by where it has a mark

    def trim_of(self, pipe: Pipe) -> float:
        """Of a pipe's trim: at most `MEASURED_TRIM` where it was measured."""
        return min(self.trim, MEASURED_TRIM) if pipe.measured else self.trim


class Circuit(msgspec.Struct, frozen=True, kw_only=True):
    """One outlet of a position, with the limit that the venue posts for it."""

    name: str
    at: float
    limit_amps: float | None = None
    limit_watts: float | None = None
    plug: str | None = None


def runs_across(start: Point, end: Point) -> bool:
    """True for a pipe that runs more across the stage than up and down it."""
    return abs(end[0] - start[0]) >= abs(end[1] - start[1])


class Trim(msgspec.Struct, frozen=True, kw_only=True):
    """Where a pipe hangs in one act."""

    act: str
    trim: float


class Chord(msgspec.Struct, frozen=True, kw_only=True):
    """One tube of a truss, by how far it lies from the truss's own line."""

    name: str
    side: float = (
        0.0  # on plan, square to the truss: + upstage, or to stage left where it runs upstage
    )
    up: float = 0.0


class Pipe(msgspec.Struct, frozen=True, kw_only=True):
    """`[[pipe]]`, always as two end points in the order the user wrote them.

    With `through` it is the level arc from start to end through that point. With `chords` it is a truss: its
    ends, trim, zero, lines and sight tape are those of its own line, its units are clamped to the chords.
    """

    name: str
    start: Point
    end: Point
    through: Point | None = None
    trims: tuple[Trim, ...] = ()  # of a pipe that moves, the hang's first
    chords: tuple[Chord, ...] = ()
    zero: Literal["centre line", "middle", "start", "end"] = "centre line"
    clamp_opens: Side | None = None
    measured: bool = False
    rating: float | None = None
    pipe_weight: float | None = None  # kg/m
    lines: tuple[float, ...] = ()
    circuits: tuple[Circuit, ...] = ()
    sight_out: float | None = None  # how far out its sight tape lies
    keep_clear: tuple[Stretch, ...] = ()
    dead_hung: bool = False  # it never comes in
    spacing: float | None = None  # clamp to clamp of units that have a number and no place
    spaced_from: Side | None = None  # the end they are counted from; None: about its middle
    zero_off: float = (
        0.0  # how far its zero mark really lies along it, towards SL (US): a correction
    )
    marks: tuple[float, ...] = ()  # painted on it, as `at`: number n hangs on the n-th


class Boom(msgspec.Struct, frozen=True, kw_only=True):
    """`[[boom]]`, a vertical tube: standing on the deck, or from `foot` up.

    Heights on it count from what it stands on; with a `foot`, from the deck at the plaster line.
    """

    name: str
    x: float
    y: float
    height: float  # of its top
    foot: float | None = None
    square: Side | None = None
    circuits: tuple[Circuit, ...] = ()
    keep_clear: tuple[Stretch, ...] = ()


class Stand(msgspec.Struct, frozen=True, kw_only=True):
    """`[[stand]]`, a point on the deck; `z` is None where the deck's own height is meant."""

    name: str
    x: float
    y: float
    z: float | None = None
    circuits: tuple[Circuit, ...] = ()


Position = Pipe | Boom | Stand


class Spot(msgspec.Struct, frozen=True, kw_only=True):
    """One more place of a target; `z` is None where the deck's own height is meant."""

    x: float
    y: float
    z: float | None = None


class Target(msgspec.Struct, frozen=True, kw_only=True):
    """`[[target]]`. `z` and `face_height` are None where the scene's own are meant."""

    name: str
    x: float
    y: float
    z: float | None = None
    face_height: float | None = None
    plane: Literal["face", "deck", "point"] = "face"
    plane_given: bool = False
    without: tuple[str, ...] = ()  # systems that are not meant to light it
    faces: float | None = None  # heading in degrees of who stands there; None: DS, the house
    also: tuple[Spot, ...] = ()  # where it is later in the act


class Kind(msgspec.Struct, frozen=True, kw_only=True):
    """`[[kind]]`: a type of unit. Angles are full angles in degrees."""

    name: str
    family: Literal["ers", "fresnel", "pc", "par", "flood", "cyc"]
    field: float | None = None  # None: taken from `photometry`
    beam: float | None = None
    photometry: str | None = None  # file name, relative to the scene's folder
    peak_cd: float | None = None
    lumens: float | None = None
    oval: tuple[float, float] | None = None  # narrow, wide field
    drop_under: float = 0.0
    drop_over: float = 0.0
    nose: float = 0.0
    rise: float = 0.0
    length: float | None = None
    width: float | None = None
    weight: float | None = None  # of the unit by itself
    clamp_weight: float | None = None  # of what hangs it; nothing on a stand
    frame_weight: float | None = None  # of its colour frame with the colour in it
    safety_weight: float | None = None  # of its safety cable; nothing on a stand
    watts: float | None = None
    yoke_range: tuple[float, float] | None = None
    tail: float | None = None
    tail_exit: tuple[float, float] | None = None  # back, below of the pivot
    has_frame: bool = False
    frame_size: str | None = None  # of its colour frame, in the words of the store
    has_gobo: bool = False
    plug: str | None = None
    dimmed_by: Dimming = "circuit"  # what sets its level
    top_hat: float | None = None  # length of a top hat in front of the lens
    label_distance: float | None = None  # distance the unit's label asks for, lens to drape
    typical: bool = False  # from the generic catalogue, not from the user's own sheet


class Unit(msgspec.Struct, frozen=True, kw_only=True):
    """`[[unit]]` or one row of the hang list."""

    position: str
    number: str
    kind: str
    at: float | None = None
    chord: str | None = None  # the tube of a truss that it is clamped to
    target: str | None = None
    point: Point | None = None
    mount: Mount = "under"
    swing_out: float = 0.0  # degrees round the pipe from straight down
    out_to: Side | None = None  # the side `swing_out` goes to; None: US (SL on an up-and-down pipe)
    arm: float = 0.0
    arm_to: float | None = None  # heading in degrees
    arm_weight: float | None = None  # of the side arm it hangs under
    system: str | None = None
    channel: str | None = None
    circuit: str | None = None
    dimmed_by: Dimming | None = None  # None: as its kind
    colour: str | None = None
    transmission: float = 1.0
    precise: bool = False
    turn: float | None = None  # oval or pattern: degrees of its long axis from level, 0 = across
    hung: Literal["tail down", "tail up"] | None = None
    works: bool | None = None
    connector: float | None = None  # along the pipe from the clamp, + as `at`
    edge: Literal["soft", "sharp"] | None = None
    note: str | None = None  # printed on its row
    source: str = ""  # where it was written, for messages: "hang.xlsx, sheet Hang, row 7"


class Solid(msgspec.Struct, frozen=True, kw_only=True):
    """`[[solid]]`: exactly one of `box`, `panel`, `mesh`."""

    name: str
    box: tuple[float, float, float, float, float, float] | None = None  # low corner, high corner
    panel: tuple[Point, Point, Point, Point] | None = None
    mesh: str | None = None
    scale: float = 1.0
    move: Point = (0.0, 0.0, 0.0)
    stand_on: bool = False


class Seats(msgspec.Struct, frozen=True, kw_only=True):
    """`[[seats]]`: a block of the audience; `eye` is the height of its eyes above z = 0."""

    name: str
    outline: tuple[PlanPoint, ...]
    eye: float


class Stock(msgspec.Struct, frozen=True, kw_only=True):
    """`[[stock]]`: how many of a kind the venue owns."""

    kind: str
    count: int


class Cable(msgspec.Struct, frozen=True, kw_only=True):
    """`[[cable]]`: how many cables of one length the venue owns."""

    length: float
    count: int
    plug: str | None = None


class Taken(msgspec.Struct, frozen=True):
    """Something that was taken for granted in reading the hang list, or that landings have shown."""

    rule: str
    says: str
    do: str
    severity: Literal["warn", "note"] = "note"
    position: str | None = None
    unit: str | None = None


class Scene(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """A whole scene. `kinds` holds every kind that a unit uses, generic ones included."""

    settings: Settings
    stage: Stage
    pipes: tuple[Pipe, ...]
    booms: tuple[Boom, ...]
    stands: tuple[Stand, ...]
    targets: tuple[Target, ...]
    kinds: dict[str, Kind]
    units: tuple[Unit, ...]
    solids: tuple[Solid, ...] = ()
    seats: tuple[Seats, ...] = ()
    errors: Errors = Errors()
    corrections: tuple[Correction, ...] = ()  # still to be made in it
    made: tuple[Correction, ...] = ()  # those that are made
    learned_from: tuple[str, ...] = ()  # landings that told them, as learn writes them down
    stock: tuple[Stock, ...] = ()
    cables: tuple[Cable, ...] = ()
    taken: tuple[Taken, ...] = ()  # for granted, in reading the hang list
    hang_columns: tuple[tuple[str, str, str], ...] = ()  # letters, heading, what it holds
    folder: str = "."  # where the scene's files are; named files stay below it
    file: str = ""  # its own name, for messages
    what_if: tuple[str, ...] = ()  # what was set for one call alone: "pipe 1.trim=5.8 m"

    @cached_property
    def positions(self) -> dict[str, Position]:
        """Every pipe, boom and stand by name, in the order written."""
        every: tuple[Position, ...] = (*self.pipes, *self.booms, *self.stands)
        return {position.name: position for position in every}


def told_in(scene: Scene, unit: Literal["m", "ft"] | None) -> Scene:
    """The scene with everything about it told in metres or in feet; as it is where nothing is asked.

    Lengths are metres inside, so that only words change, and what goes by the unit: hang marks that a tape
    in that unit shows, and whole distances.
    """
    own = scene.settings
    if unit is None or (unit == "ft") == (own.unit in ("ft", "in")):
        return scene
    settings = msgspec.structs.replace(own, unit=unit, typed_in=own.unit)
    return msgspec.structs.replace(scene, settings=settings)


class Variant(NamedTuple):
    """The scene at another time: pipes at their trims of an act, or targets at their next spots.

    `name` is the act's, or "spot 2"; `pipes` and `targets` name those that are elsewhere.
    """

    name: str
    pipes: frozenset[str]
    targets: frozenset[str]
    scene: Scene


def variants(scene: Scene) -> list[Variant]:
    """What `trims` and `also` make of a scene, without its own first trims and spots; units as they are.

    Acts come in the order in which the pipes name them, then the second spots, the third ones ...
    """
    acts = dict.fromkeys(trim.act for pipe in scene.pipes for trim in pipe.trims[1:])
    most = max((len(target.also) for target in scene.targets), default=0)
    return [*(_at_act(scene, act) for act in acts), *(_at_spot(scene, n) for n in range(most))]


def _at_act(scene: Scene, act: str) -> Variant:
    heights = {p.name: t.trim for p in scene.pipes for t in p.trims[1:] if t.act == act}
    replace = msgspec.structs.replace
    pipes = [
        replace(
            pipe,
            start=(*pipe.start[:2], heights[pipe.name]),
            end=(*pipe.end[:2], heights[pipe.name]),
            trims=(Trim(act=act, trim=heights[pipe.name]),),
        )
        if pipe.name in heights
        else replace(pipe, trims=pipe.trims[:1])
        for pipe in scene.pipes
    ]
    plain = tuple(replace(target, also=()) for target in scene.targets)
    return Variant(
        act, frozenset(heights), frozenset(), replace(scene, pipes=tuple(pipes), targets=plain)
    )


def _at_spot(scene: Scene, row: int) -> Variant:
    """Every target that has it at its `row`-th further spot."""
    replace = msgspec.structs.replace
    moved = frozenset(target.name for target in scene.targets if len(target.also) > row)
    targets = [
        _moved(t, t.also[row]) if t.name in moved else replace(t, also=()) for t in scene.targets
    ]
    pipes = tuple(replace(pipe, trims=pipe.trims[:1]) for pipe in scene.pipes)
    return Variant(
        f"spot {row + 2}",
        frozenset(),
        moved,
        replace(scene, targets=tuple(targets), pipes=pipes),
    )


def _moved(target: Target, spot: Spot) -> Target:
    """A target at one of its further spots; a bare point keeps its height where none is written."""
    z = target.z if spot.z is None and target.plane == "point" else spot.z
    return msgspec.structs.replace(target, x=spot.x, y=spot.y, z=z, also=())
