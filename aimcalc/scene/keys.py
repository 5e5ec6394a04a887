"""The words of a scene: every table and key with its meaning, how it is written, its default, an example.

Whoever explains a key takes its words from here: the listing, the schema for editors, README's tables and the
comments of the starter scene. The readers themselves are in `aimcalc.scene.tables`.
"""

from __future__ import annotations

from aimcalc.named import NamedTuple
from aimcalc.scene import forms as f
from aimcalc.scene.forms import Form, choice, list_of, one_or_more, plain, several
from aimcalc.scene.tables import DIMMINGS, FAMILIES, LENGTH_UNITS, MOUNTS, ZEROS

NEEDED = "needed"
NONE = "none"
NOT_COUNTED = "not counted"


class Key(NamedTuple):
    """One key: what it means, how its value is written, what is taken where it is left out, an example.

    `default` is the value as TOML where there is one, else words; `example` is TOML.
    """

    means: str
    form: Form
    default: str
    example: str

    @property
    def told_default(self) -> str:
        """The default as a person reads it: without the quotes of TOML."""
        return self.default.strip('"')


class Table(NamedTuple):
    """One table: what it is for, how it is headed, its keys, and which of them an entry cannot do without.

    Each of `needs` is a choice of sets of keys, one of which has to be there.
    """

    means: str
    head: str
    keys: dict[str, Key]
    needs: tuple[tuple[tuple[str, ...], ...], ...] = ()


def _needed(means: str, form: Form, example: str) -> Key:
    return Key(means, form, NEEDED, example)


_NAME = "its name; no other has it"
_X = _needed("how far it is from the centre line", f.X, '"2.0 m SL"')
_Y = _needed("how far it is from the plaster line", f.Y, '"1.5 m US"')
_KEEP_CLEAR = Key("where nothing can be clamped", f.STRETCHES, "nowhere", '[["0.5 m", "0.9 m"]]')
_PLUG = Key("its connector, in any words", f.TEXT, NONE, '"16 A"')

SCENE = {
    "title": _needed("the name of the show, on every sheet", f.NAME, '"My first rig"'),
    "unit": Key(
        "the unit of bare numbers, and of the sheets",
        choice(*LENGTH_UNITS),
        '"m"',
        '"ft"',
    ),
    "face_height": Key(
        "a standing face above what it stands on", f.LENGTH, '"1.65 m"', '"5\'-6\\""'
    ),
    "sight_out": Key(
        "how far out from each pipe its sight tape lies",
        f.SIZE,
        "the nearest whole distance on clear deck",
        '"3 m"',
    ),
    "tolerance": Key("how far a unit may miss: a share of its field angle", f.SHARE, "0.25", "0.2"),
    "volts": Key("of the mains, to turn watts into amperes", f.VOLTS, "not known", "230"),
    "continuous_share": Key(
        "share of its limit a circuit may carry for hours, local rule",
        f.SHARE,
        "all of it",
        "0.8",
    ),
    "revision": Key("of the scene, on every sheet", f.TEXT, "nothing", '"A"'),
    "note": Key("a remark for whoever reads the sheets", f.NOTE, "nothing", '"Tape from US."'),
    "gap_below": Key(
        "dark is where a system gives less than this of its mean",
        f.SHARE,
        "0.5",
        "0.4",
    ),
    "hang": Key("the list of the units: XLSX, CSV or ODS", f.FILE, NONE, '"hang.xlsx"'),
    "hang_sheet": Key(
        "the sheet of that list with the units", f.NAME, "the one that has them", '"Hang"'
    ),
    "corrections": Key(
        "what measured landings have shown: a file of learn", f.FILE, NONE, '"corrections.toml"'
    ),
    "typeface": Key(
        "a font file for letters that the sheets' own typeface lacks",
        f.FILE,
        "one of this computer",
        '"letters.ttf"',
    ),
}

STAGE = {
    "outline": Key(
        "the edge of the deck: corners, across then up the stage",
        f.POLYGON,
        "not known",
        "[[-4, -1], [4, -1], [4, 5], [-4, 5]]",
    ),
    "acting": Key(
        "the part of it that has to be lit",
        f.POLYGON,
        "the outline",
        "[[-3, 0], [3, 0], [3, 4], [-3, 4]]",
    ),
    "rake": Key("how the deck climbs upstage", f.RAKE, "0", '"1:16"'),
    "rake_from": Key("where it begins to climb", f.Y, "0", '"0.5 m US"'),
}


def _usual(means: str, form: Form, default: str, example: str) -> Key:
    return Key(f"{means} (estimate)", form, default, example)


ERRORS = {
    "trim": _usual("height of a pipe; 2 cm at most where measured", f.SIGMA, '"0.10 m"', '"4 in"'),
    "slope": _usual("one end of a pipe over the other", f.SIGMA, '"0.03 m"', '"2 cm"'),
    "pipe": _usual("a pipe's place up or down stage", f.SIGMA, '"0.05 m"', '"2 in"'),
    "skew": _usual("a pipe's turn on plan", f.SIGMA_ANGLE, "0.5", "1"),
    "marks": _usual("all marks of a pipe together, along it", f.SIGMA, '"0.03 m"', '"1 in"'),
    "mark": _usual("one clamp off its mark", f.SIGMA, '"0.01 m"', '"5 mm"'),
    "dial": _usual("what the pan dial always reads wrong", f.SIGMA_ANGLE, "1", "0.5"),
    "level": _usual("what the level always reads wrong", f.SIGMA_ANGLE, "0.5", "0.2"),
    "set_pan": _usual("a pan as a hand sets it", f.SIGMA_ANGLE, "2", "3"),
    "set_down": _usual("a down as a hand sets it", f.SIGMA_ANGLE, "1", "2"),
    "read_pan": _usual("a pan as it is read back", f.SIGMA_ANGLE, "0.5", "1"),
    "read_down": _usual("a down as it is read back", f.SIGMA_ANGLE, "0.2", "0.1"),
    "drop": _usual("the drop of a kind", f.SIGMA, '"0.02 m"', '"1 cm"'),
    "kick": _usual("a clamp turned round its pipe", f.SIGMA_ANGLE, "2", "1"),
    "landing": _usual("where a spot is read, each way", f.SIGMA, '"0.05 m"', '"2 cm"'),
    "sight": Key(
        "how far off its mark on the sight tape pan is set, if by tape",
        f.SIGMA,
        "none: pan is set by the dial",
        '"8 cm"',
    ),
}

PIPE = {
    "name": _needed(_NAME, f.NAME, '"pipe 1"'),
    "trim": Key(
        "height of the pipe's centre above the deck",
        f.SIZE,
        "needed, or trims, or start and end",
        "5.64",
    ),
    "trims": Key(
        "trims by act, the hang's first, of a pipe that moves",
        Form(
            "table of heights",
            {"type": "object", "additionalProperties": plain(f.SIZE), "minProperties": 1},
        ),
        "it stays at its trim",
        '{ "act 1" = "5.5 m", "act 2" = "6 m" }',
    ),
    "y": Key(
        "where it crosses the centre line, up or down the stage",
        f.Y,
        "needed, or start and end",
        '"3.0 m DS"',
    ),
    "from": Key("one end, across", f.X, "needed, or start and end", '"4 m SR"'),
    "to": Key("the other end, across", f.X, "needed, or start and end", '"4 m SL"'),
    "start": Key(
        "one end of a pipe that slopes or runs askew",
        f.POINT,
        "needed, or trim, y, from, to",
        "[-4, 0, 5.2]",
    ),
    "end": Key("its other end", f.POINT, "needed, or trim, y, from, to", "[4, 1, 5.2]"),
    "through": Key(
        "a point on its way, of a level arc; at counts along the arc",
        f.POINT,
        "a straight pipe",
        "[0, 2, 5.2]",
    ),
    "chords": Key(
        "the tubes of a truss; trim and ends are those of its own line",
        Form("list of {name, side, up}", {}),
        "one tube",
        '[{ name = "top", up = 0.5 }]',
    ),
    "zero": Key(
        "where at counts from",
        choice(*ZEROS),
        "centre line; middle with start, end",
        '"middle"',
    ),
    "clamp_opens": Key("which way the mouths of the clamps open", f.SIDE, "not told", '"US"'),
    "sight_out": Key("how far out its sight tape lies", f.SIZE, "as in [scene]", '"2.5 m"'),
    "measured": Key("somebody put a tape on its trim", f.TRUTH, "false", "true"),
    "rating": Key("what the venue has posted for it; never guess it", f.WEIGHT, NONE, '"250 kg"'),
    "pipe_weight": Key(
        "of the pipe itself, each metre or foot", f.LINE_WEIGHT, NOT_COUNTED, '"4.05 kg/m"'
    ),
    "lines": Key(
        "where its lift lines are, measured as at",
        list_of(f.ALONG, "a list of lengths"),
        "not known: no loads on lines",
        '["3 m SR", 0, "3 m SL"]',
    ),
    "circuits": Key(
        "its outlets",
        Form("list of {name, at, limit, plug}", {}),
        NONE,
        '[{ name = "1", at = "2 m SL" }]',
    ),
    "keep_clear": _KEEP_CLEAR,
    "spacing": Key(
        "clamp to clamp, of units with a number and no place",
        f.SIZE,
        "0.45 m or 18 in, and said so",
        '"0.5 m"',
    ),
    "spaced_from": Key("the end they are counted from", f.SIDE, "about its middle", '"SL"'),
    "marks": Key(
        "painted marks, measured as at: number 3 hangs on the third",
        list_of(f.ALONG, "a list of lengths"),
        NONE,
        '["1 m SL", 0, "1 m SR"]',
    ),
    "dead_hung": Key("it never comes in: no PIPE IN pages", f.TRUTH, "false", "true"),
}

CHORDS = {
    "name": _needed("of the tube; its units name it as their chord", f.NAME, '"top"'),
    "side": Key(
        "how far it is from the truss's line on plan: US or DS, or SL or SR",
        f.ALONG,
        "0",
        '"0.25 m DS"',
    ),
    "up": Key("how far it is above that line, or with a minus below it", f.LENGTH, "0", '"0.5 m"'),
}

CIRCUITS = {
    "name": _needed("of the outlet, as it is marked", f.NAME, '"LX1-4"'),
    "at": Key(
        "where it is, measured as its units are",
        f.ALONG,
        "needed, not on a stand",
        '"1.2 m SL"',
    ),
    "limit": Key("what the venue has posted for it", f.LIMIT, "none posted", '"10 A"'),
    "plug": _PLUG,
}

BOOM = {
    "name": _needed(_NAME, f.NAME, '"boom SL"'),
    "x": _X,
    "y": _Y,
    "height": _needed("of its top, above what it stands on", f.SIZE, '"4 m"'),
    "foot": Key(
        "where its tube starts; heights count from the plaster line's deck",
        f.HEIGHT,
        "it stands on the deck",
        '"2.4 m"',
    ),
    "square": Key("the way that is square for its units", f.SIDE, "to the centre line", '"US"'),
    "circuits": PIPE["circuits"]._replace(example='[{ name = "B1", at = "2 m" }]'),
    "keep_clear": _KEEP_CLEAR,
}

STAND = {
    "name": _needed(_NAME, f.NAME, '"floor SR"'),
    "x": _X,
    "y": _Y,
    "z": Key("height of its top", f.HEIGHT, "the deck", '"0.8 m"'),
    "circuits": PIPE["circuits"]._replace(example='[{ name = "F1", limit = "10 A" }]'),
}

TARGET = {
    "name": _needed(_NAME, f.NAME, '"area 3"'),
    "x": _X,
    "y": _Y,
    "z": Key(
        "height of what is stood on there, or of the point itself",
        f.HEIGHT,
        "the deck, rake and platforms included",
        '"0.6 m"',
    ),
    "face_height": Key("of who is there, a seated face say", f.LENGTH, "as in [scene]", '"1.2 m"'),
    "plane": Key(
        "what the lens axis goes through; point is x, y, z as given",
        choice("face", "deck", "point"),
        '"face"',
        '"deck"',
    ),
    "faces": Key(
        "the way its audience is, which its light is judged from", f.HEADING, '"DS"', '"SL"'
    ),
    "also": Key(
        "where it is later in the act: aims for there are printed too",
        list_of(
            Form("", {"anyOf": [plain(f.CORNER), plain(f.POINT)]}),
            "spots [[x, y], ...] or with z",
            1,
        ),
        "nowhere else",
        '[["1 m SL", "2 m US"]]',
    ),
    "without": Key(
        "systems that are not meant to light it",
        one_or_more(f.NAME, "a system's name, or a list of them"),
        "all are",
        '["back"]',
    ),
}

KIND = {
    "name": _needed(
        "its name; a generic kind of that name gives way to it", f.NAME, '"my front unit"'
    ),
    "family": _needed("what sort of unit it is", choice(*FAMILIES), '"ers"'),
    "field": Key(
        "full angle, to a tenth of the peak of its light",
        f.FULL,
        "needed, or oval or photometry",
        "30",
    ),
    "beam": Key(
        "full angle, to half of the peak", f.FULL, "the field over 1.82, a soft edge", "20"
    ),
    "photometry": Key(
        "a measured light distribution: an LM-63 or EULUMDAT file",
        f.FILE,
        "a smooth beam",
        '"front.ies"',
    ),
    "peak_cd": Key("intensity in the middle of the beam", f.CANDELA, "not known", "70000"),
    "lumens": Key("all of its light, in place of peak_cd", f.LUMENS, "not known", "6000"),
    "oval": Key(
        "the two fields of an oval beam",
        several("[narrow, wide] degrees", f.FULL, f.FULL),
        "a round one",
        "[15, 30]",
    ),
    "drop_under": Key(
        "pipe's centre down to the yoke bolts; on arm and direct too",
        f.LENGTH,
        "0",
        '"0.36 m"',
    ),
    "drop_over": Key(
        "the same of a unit that stands over its pipe, or on a stand", f.LENGTH, "0", '"0.36 m"'
    ),
    "nose": Key("from the yoke bolts to the lens", f.LENGTH, "0", '"0.35 m"'),
    "rise": Key("how far the axis passes above the yoke bolts", f.LENGTH, "0", '"0.02 m"'),
    "length": Key("of its body", f.SIZE, "that of its family, and said so", '"0.65 m"'),
    "width": Key("of its body", f.SIZE, "that of its family, and said so", '"0.22 m"'),
    "weight": Key("of the unit by itself", f.WEIGHT, NOT_COUNTED, '"8 kg"'),
    "clamp_weight": Key("of its clamp", f.WEIGHT, NOT_COUNTED, '"0.9 kg"'),
    "frame_weight": Key("of its colour frame, filled", f.WEIGHT, NOT_COUNTED, '"0.3 kg"'),
    "safety_weight": Key("of its safety cable", f.WEIGHT, NOT_COUNTED, '"0.2 kg"'),
    "watts": Key("what it draws", f.WATTS, "not counted", "600"),
    "yoke_range": Key(
        "how far it tips in its yoke: 0 is at right angles to the stem",
        several("[least, most] degrees", f.ANGLE, f.ANGLE),
        "all the way round",
        "[-90, 100]",
    ),
    "tail": Key("length of its own cable", f.SIZE, "not known", '"0.9 m"'),
    "tail_exit": Key(
        "where it leaves the body, from the yoke bolts",
        several("[back, below] lengths", f.LENGTH, f.LENGTH),
        "not known",
        '["0.25 m", "0.1 m"]',
    ),
    "has_frame": Key("a colour frame goes in front", f.TRUTH, "false", "true"),
    "frame_size": Key("of that frame, in the store's words", f.TEXT, NONE, '"190 mm"'),
    "has_gobo": Key("a pattern is in it", f.TRUTH, "false", "true"),
    "plug": _PLUG,
    "dimmed_by": Key(
        "what sets its level; with data, its circuit only feeds it",
        choice(*DIMMINGS),
        '"circuit"',
        '"data"',
    ),
    "top_hat": Key("length of a top hat in front of the lens", f.LENGTH, NONE, '"0.15 m"'),
    "label_distance": Key(
        "how near its label lets drapes be to the lens", f.LENGTH, "not known", '"0.8 m"'
    ),
}

UNIT = {
    "position": _needed("the pipe, boom or stand it is on", f.NAME, '"pipe 1"'),
    "number": _needed("its number there", f.NAME, "1"),
    "at": Key(
        "where its clamp is along the position; on a boom, its height",
        f.ALONG,
        "needed, not on a stand",
        '"2.5 m SL"',
    ),
    "chord": Key(
        "the tube of a truss that it is clamped to", f.TEXT, "needed on a truss", '"bottom"'
    ),
    "kind": _needed("what it is: a kind of yours or a generic one", f.NAME, '"ers-30"'),
    "target": Key("the target it is aimed at", f.NAME, "needed, or a point", '"area 3"'),
    "point": Key(
        "the point its lens axis goes through, in place of a target",
        f.POINT,
        "needed, or a target",
        "[2, 1.5, 1.65]",
    ),
    "mount": Key(
        "how it hangs",
        choice(*MOUNTS),
        "as its position asks",
        '"over"',
    ),
    "swing_out": Key(
        "how far its clamp is swung round the pipe from straight down",
        f.SWING,
        "straight down",
        '"30 DS"',
    ),
    "arm": Key(
        "length of the side arm it hangs from, on a boom", f.SIZE, "clamped direct", '"0.5 m"'
    ),
    "arm_to": Key("the way from the boom to the unit", f.HEADING, "needed on a boom", '"US"'),
    "arm_weight": Key("of that side arm", f.WEIGHT, NOT_COUNTED, '"1.5 kg"'),
    "system": Key("the job that it does together with others", f.TEXT, NONE, '"front warm"'),
    "channel": Key("its channel at the desk", f.TEXT, NONE, "23"),
    "circuit": Key("the outlet it is plugged into", f.TEXT, NONE, '"LX1-4"'),
    "dimmed_by": Key(
        "the same as of its kind, for this unit", choice(*DIMMINGS), "as its kind", '"data"'
    ),
    "colour": Key("its colour, in the words of the store", f.TEXT, NONE, '"straw + frost"'),
    "transmission": Key("the share of its light that the colour lets through", f.SHARE, "1", "0.6"),
    "precise": Key("it may miss by half of the usual only", f.TRUTH, "false", "true"),
    "turn": Key(
        "how the long axis of its oval or pattern lies, from level", f.TURN, "not told", '"across"'
    ),
    "hung": Key(
        "which way up the crew reports it",
        choice("tail down", "tail up"),
        "not reported",
        '"tail down"',
    ),
    "works": Key("whether it came on when tested", f.TRUTH, "not tested", "true"),
    "connector": Key(
        "where its tail is tied, along the pipe from the clamp",
        f.ALONG,
        "worked out",
        '"0.3 m SL"',
    ),
    "edge": Key(
        "how its edge is to look, printed on its row", choice("soft", "sharp"), "nothing", '"soft"'
    ),
    "note": Key(
        "a remark of one line, printed on its row", f.TEXT, "nothing", '"Cut off the border."'
    ),
}

SOLID = {
    "name": _needed(
        "its name; border or teaser in it makes a panel a border", f.NAME, '"border 1"'
    ),
    "box": Key("a box, by two corners", f.BOX, "needed, or panel or mesh", "[-1, 2, 0, 1, 3, 0.4]"),
    "panel": Key(
        "a flat sheet: border, leg, drop, flat",
        f.PANEL,
        "needed, or box or mesh",
        "[[-4, 1, 4], [4, 1, 4], [4, 1, 6], [-4, 1, 6]]",
    ),
    "mesh": Key(
        "a file of its shape: STL, OBJ, PLY or GLB", f.FILE, "needed, or box or panel", '"tree.stl"'
    ),
    "scale": Key("metres in one unit of the mesh file", f.NUMBER, "1", "0.001"),
    "move": Key("by how much the mesh is moved", f.POINT, "[0, 0, 0]", "[0, 2, 0]"),
    "stand_on": Key("people stand on it: a platform", f.TRUTH, "false", "true"),
}

SEATS = {
    "name": _needed("of the block of seats", f.NAME, '"stalls"'),
    "outline": _needed("its edge", f.POLYGON, "[[-5, -9], [5, -9], [5, -4], [-5, -4]]"),
    "eye": _needed("height of the eyes there", f.HEIGHT, '"1.2 m"'),
}

STOCK = {
    "kind": _needed("a kind of yours or a generic one", f.NAME, '"ers-30"'),
    "count": _needed("how many of it there are", f.COUNT, "12"),
}

CABLE = {
    "length": _needed("of one cable", f.SIZE, '"5 m"'),
    "count": _needed("how many of it there are", f.COUNT, "20"),
    "plug": _PLUG,
}

_COLUMN = one_or_more(f.NAME, "a heading or a letter, or a list")
_HELPS = {
    "side": "SL or SR, beside bare numbers",
    "height": "the height on a boom",
    "lens": "the degrees of the kind",
    "count": "how many units the row stands for",
    "remark": "a remark to keep",
}
HANG_COLUMNS = {
    key: Key(f"the column with {what}", _COLUMN, "found by its heading", f'"{key.upper()}"')
    for key, what in (*((key, f"the {key} of a unit") for key in UNIT), *_HELPS.items())
}


def _all(*keys: str) -> tuple[tuple[str, ...], ...]:
    return (keys,)


TABLES = {
    "scene": Table("the show, and what holds for all of it", "[scene]", SCENE, (_all("title"),)),
    "stage": Table("the deck", "[stage]", STAGE),
    "errors": Table(
        "how far out things usually are, one standard deviation each; the defaults are estimates",
        "[errors]",
        ERRORS,
    ),
    "hang_columns": Table(
        "what columns of the hang list hold, where their headings leave it open",
        "[hang_columns]",
        HANG_COLUMNS,
    ),
    "pipe": Table(
        "a tube that units hang on; curved, or a truss, too",
        "[[pipe]]",
        PIPE,
        (
            _all("name"),
            (("trim", "y", "from", "to"), ("trims", "y", "from", "to"), ("start", "end")),
        ),
    ),
    "chords": Table("a tube of a truss", "chords = [{ ... }] of a pipe", CHORDS, (_all("name"),)),
    "boom": Table("an upright tube", "[[boom]]", BOOM, (_all("name", "x", "y", "height"),)),
    "stand": Table(
        "a point on the deck for one unit", "[[stand]]", STAND, (_all("name", "x", "y"),)
    ),
    "circuits": Table(
        "an outlet", "circuits = [{ ... }] of a pipe, boom or stand", CIRCUITS, (_all("name"),)
    ),
    "target": Table("a place to light", "[[target]]", TARGET, (_all("name", "x", "y"),)),
    "kind": Table(
        "a type of unit; the generic ones need no entry (aimcalc kinds)",
        "[[kind]]",
        KIND,
        (_all("name", "family"), (("field",), ("oval",), ("photometry",))),
    ),
    "unit": Table(
        "one lighting unit, here or a row of the hang list",
        "[[unit]]",
        UNIT,
        (_all("position", "number", "kind"), (("target",), ("point",))),
    ),
    "solid": Table(
        "scenery that light meets",
        "[[solid]]",
        SOLID,
        (_all("name"), (("box",), ("panel",), ("mesh",))),
    ),
    "seats": Table(
        "a block of the audience", "[[seats]]", SEATS, (_all("name", "outline", "eye"),)
    ),
    "stock": Table("how many of a kind there are", "[[stock]]", STOCK, (_all("kind", "count"),)),
    "cable": Table(
        "how many cables of a length there are", "[[cable]]", CABLE, (_all("length", "count"),)
    ),
}
INSIDE = ("chords", "circuits")  # lists within an entry, not tables of the scene
SINGLE = ("scene", "stage", "errors", "hang_columns")
