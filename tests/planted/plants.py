"""Mistakes to plant in the worked scenes, each with what must be said about it.

    python tests/planted/plants.py reading playhouse planted-playhouse

writes a copy of a scene with all its reading (or rig, or solid) mistakes, to look at with `aimcalc check`.
Reading mistakes get a scene refused; rig mistakes are read, and found when the rig is looked over; solid
mistakes are stops once the rig is made solid.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable
from typing import NamedTuple

SCENES = os.path.join(os.path.dirname(__file__), "..", "..", "scenes")


class Plant(NamedTuple):
    """One mistake: the text it takes the place of (its first occurrence) and what must be said."""

    file: str
    clean: str
    wrong: str
    says: tuple[str, ...]  # all of them in one mistake of the report


READING: dict[str, tuple[Plant, ...]] = {
    "studio": (
        Plant(
            "scene.toml",
            "face_height = 1.2 ",
            "face_height = nan ",
            ("scene.toml, [scene], face_height", "got:      nan"),
        ),
        Plant(
            "scene.toml",
            '[[target]]\nname = "chair SL"',
            '[[target]]\nwithout = "frnt cool"\nname = "chair SL"',
            ('[[target]] "chair SL", without', 'Did you mean "front cool"?'),
        ),
        Plant(
            "scene.toml",
            "volts = 230",
            "volts = 230\ncontinuous_share = 80",
            ("scene.toml, [scene], continuous_share", "a share over 0 and at most 1"),
        ),
        Plant(
            "scene.toml",
            'colour = "cool 1"',
            'color = "cool 1"',
            ('[[unit]] "front pipe/1"', '"color"', 'Did you mean "colour"?'),
        ),
        Plant(
            "scene.toml",
            '\nat = "2.70 m SL"',
            '\nat = "2.70 m SL"\narm_weight = "1.5 kg"',
            ('[[unit]] "front pipe/1", arm_weight', "only a unit on a boom has an arm"),
        ),
        Plant(
            "scene.toml",
            'at = "0.25 m SL"',
            'at = "0.25 m US"',
            ('[[unit]] "back pipe/2", at', "Leave out US: it does not go with this key"),
        ),
        Plant(
            "scene.toml",
            'target = "chair SR"',
            'target = "chairs SR"',
            ('[[unit]] "front pipe/4", target', 'Did you mean "chair SR"?'),
        ),
        Plant(
            "scene.toml",
            'rating = "120 kg"',
            'rating = "120 kg"\nkeep_clear = [["1 m SL", "2 m SL", "3 m SL"]]',
            ('[[pipe]] "front pipe", keep_clear', "a stretch [from, to]"),
        ),
        Plant(
            "scene.toml",
            'clamp_opens = "DS"',
            'clamp_opens = "DS"\ndead_hung = "never"',
            ('[[pipe]] "front pipe", dead_hung', "true or false"),
        ),
        Plant(
            "scene.toml",
            "[[boom]]\nname",
            '[[boom]]\nfoot = "9 m"\nname',
            ("[[boom]]", "a foot below the top of the boom"),
        ),
        Plant(
            "scene.toml",
            'circuit = "F4"\n',
            'circuit = "F4"\ndimmed_by = "dmx"\n',
            ('[[unit]] "front pipe/4", dimmed_by', "one of: circuit, data"),
        ),
        Plant(
            "scene.toml",
            'rating = "120 kg"',
            'rating = "120"',
            ('[[pipe]] "front pipe", rating', 'got:      "120"', "kg"),
        ),
        Plant(
            "scene.toml",
            'kind = "pc-50"',
            'kind = "pc 5O"',
            ('[[unit]] "back pipe/1", kind', 'Did you mean "pc-50"?'),
        ),
        Plant(
            "scene.toml",
            'mount = "direct"',
            'mount = "clamped"',
            ('[[unit]] "boom SL/2", mount', "direct"),
        ),
        Plant(
            "scene.toml",
            'circuit = "F3"\n',
            'circuit = "F3"\nedge = "sof"\n',
            ('[[unit]] "front pipe/3", edge', 'Did you mean "soft"?'),
        ),
        Plant(
            "scene.toml",
            'circuit = "F5"\n',
            'circuit = "F5"\nnote = true\n',
            ('[[unit]] "front pipe/5", note', "got:      true"),
        ),
        Plant(
            "scene.toml",
            "transmission = 0.70",
            "transmission = 70",
            ('[[unit]] "front pipe/3", transmission', "got:      70"),
        ),
        Plant(
            "scene.toml",
            "trim = 3.50",
            'trim = 3.50\ntrims = { "act 1" = 3.5 }',
            ('[[pipe]] "front pipe", trim', "trims gives the hang's first"),
        ),
        Plant(
            "scene.toml",
            '[[target]]\nname = "chair centre"',
            '[[target]]\nalso = [[1, 2], [3]]\nname = "chair centre"',
            ('[[target]] "chair centre", also', "a spot [x, y], or [x, y, z]"),
        ),
        Plant(
            "scene.toml",
            '[[target]]\nname = "chair SR"',
            '[[target]]\nfaces = "out"\nname = "chair SR"',
            ('[[target]] "chair SR", faces', 'got:      "out"'),
        ),
        Plant("scene.toml", "[[seats]]", "[[seat]]", ("seat", 'Did you mean "seats"?')),
        Plant(
            "scene.toml",
            'kind = "ers-30"\ncount = 4',
            'kind = "ers-30"\ncount = -4',
            ("[[stock]]", "count", "got:      -4"),
        ),
        Plant(
            "scene.toml",
            'note = "Lesson',
            'hang = "../playhouse/hang.csv"\nnote = "Lesson',
            ("scene.toml, [scene], hang", "folder", "../playhouse/hang.csv"),
        ),
    ),
    "arena": (
        Plant(
            "hang.csv",
            "truss,1,4.2 m SL,DS low,",
            "truss,1,4.2 m SL,DS lo,",
            ("column D (chord)", 'Did you mean "DS low"?'),
        ),
        Plant(
            "hang.csv",
            "rail US,2,1.1 m SL,,",
            "rail US,2,1.1 m SL,DS low,",
            ("column D (chord)", "its position has no chords"),
        ),
        Plant(
            "hang.csv",
            "truss,6,0.8 m SR,US low,",
            "truss,6,0.8 m SR,,",
            ("chord", "the chord it is clamped to: DS low, US low, DS high"),
        ),
        Plant(
            "scene.toml",
            'through = ["0 m", "5.2 m DS", 5.0]',
            'through = ["0 m", "5.2 m DS", 5.4]',
            ('[[pipe]] "rail DS", through', "three points at one height"),
        ),
        Plant(
            "scene.toml",
            "trims = { market = 4.40, storm = 5.20 }",
            "trims = [4.40, 5.20]",
            ('[[pipe]] "market bar", trims', "trims by act"),
        ),
        Plant(
            "scene.toml",
            'name = "ladder SL"\nx = "5.4 m SL"\ny = "0.6 m US"\nfoot = 2.80',
            'name = "ladder SL"\nx = "5.4 m SL"\ny = "0.6 m US"\nfoot = 5.20',
            ('[[boom]] "ladder SL", foot', "a foot below the top of the boom"),
        ),
        Plant(
            "scene.toml",
            "faces = 225",
            "faces = 400",
            ('[[target]] "crier", faces', "got:      400"),
        ),
        Plant(
            "scene.toml",
            'dimmed_by = "data"',
            'dimmed_by = "desk"',
            ('[[kind]] "led-wash", dimmed_by', "one of: circuit, data"),
        ),
    ),
    "playhouse": (
        Plant(
            "hang.csv",
            'house pipe,1,"19\'-0"" SL"',
            "house pipe,1,nineteen",
            ("hang.csv, row 2, column C (at)", 'got:      "nineteen"'),
        ),
        Plant(
            "hang.csv",
            "balcony rail,1,",
            "balcony ring,1,",
            ("hang.csv, row 22, column A (position)", 'Did you mean "balcony rail"?'),
        ),
        Plant(
            "hang.csv",
            "narrator SR,under",
            "narrative SR,under",
            ("hang.csv, row 27, column E (target)", 'Did you mean "narrator SR"?'),
        ),
        Plant(
            "hang.csv",
            'arm,"1\'-3""",DS,side,62',
            'arm,"1\'-3""",out,side,62',
            ("column H (arm_to)", 'got:      "out"'),
        ),
        Plant(
            "hang.csv",
            'pipe 2,1,"19\'-3"" SL",ers-40,area 6,under',
            'pipe 2,1,"19\'-3"" SL",ers-40,area 6,stand',
            ("column F (mount)", "under"),
        ),
        Plant(
            "scene.toml",
            'frame_size = "7 1/2 in"',
            "frame_size = [7.5, 7.5]",
            ('[[kind]] "ers-24 house", frame_size', "text"),
        ),
        Plant(
            "scene.toml",
            'weight = "18 lb"',
            'weight = "18 lb"\nclamp_weight = "1.5"',
            ('[[kind]] "ers-24 house", clamp_weight', '"1.5"'),
        ),
        Plant(
            "scene.toml",
            'name = "ers-24 house"',
            'name = "ers-24 house"\nframe_weight = "0 lb"',
            ('[[kind]] "ers-24 house", frame_weight', "a weight greater than 0"),
        ),
        Plant(
            "scene.toml",
            'name = "cyc-100 house"',
            'name = "cyc-100 house"\nsafety_weight = "1 ft"',
            ('[[kind]] "cyc-100 house", safety_weight', '"1 ft"'),
        ),
        Plant(
            "scene.toml",
            'mesh = "tree.obj"',
            'mesh = "../tree.obj"',
            ('[[solid]] "apple tree", mesh', "folder", '"../tree.obj"'),
        ),
        Plant(
            "scene.toml",
            "beam = 16",
            "beam = 61",
            ('[[kind]] "ers-24 house", beam', "no wider than the field"),
        ),
        Plant(
            "scene.toml",
            'limit = "20 A", plug',
            'limit = "20", plug',
            ('[[pipe]] "house pipe", circuit 1, limit', "Add A or W."),
        ),
        Plant(
            "scene.toml",
            "box = [-2, 10, 0, 2, 12, 2]",
            "box = [-2, 10, 0, 2, 10, 2]",
            ('[[solid]] "step", box', "A thin sheet is a panel."),
        ),
        Plant(
            "scene.toml",
            "panel = [[16, 0, 0], [24, 0, 0], [24, 0, 24], [16, 0, 24]]",
            "panel = [[16, 0, 0], [24, 0, 0], [24, 0, 24], [16, 2, 24]]",
            ("panel", "four corners on one plane", "(24 in) off"),
        ),
        Plant(
            "scene.toml",
            'name = "leg 1 SR"',
            'name = "leg 1 SL"',
            ('[[solid]] "leg 1 SL", name', "that no other [[solid]] has"),
        ),
        Plant(
            "scene.toml",
            'plane = "deck"',
            'plane = "floor"',
            ('[[target]] "shade SL", plane', "face, deck, point"),
        ),
    ),
    "raked": (
        Plant(
            "scene.toml",
            'name = "house bar"\n',
            'name = "house bar"\nspaced_from = "US"\n',
            ('[[pipe]] "house bar", spaced_from', "an end of this pipe: SL or SR"),
        ),
        Plant(
            "scene.toml",
            "\ntrim = 6.30",
            '\nmarks = ["1 m SL", "1 m US"]\ntrim = 6.30',
            ('[[pipe]] "house bar", marks', "value 2", "Leave out US"),
        ),
        Plant(
            "scene.toml",
            "rake_from = 0\n",
            'rake_from = 0\n\n[hang_columns]\ntarget = "Pourpose"\n',
            ("hang.csv, row 1", "[hang_columns] target", '"Pourpose"'),
        ),
        Plant(
            "scene.toml",
            'clamp_opens = "DS"',
            'clamp_opens = "out"',
            ('[[pipe]] "house bar", clamp_opens', "SL, SR, US, DS"),
        ),
        Plant(
            "scene.toml",
            'sight_out = "4 m"',
            'sight_out = "4 m DS"',
            ('[[pipe]] "house bar", sight_out', "Leave out DS: it does not go with this key"),
        ),
        Plant("scene.toml", 'rake = "1:16"', 'rake = "16:1"', ("[stage], rake", "1:16")),
        Plant(
            "scene.toml",
            "\n[stage]",
            '\n[errors]\nset_pan = "2 m"\n\n[stage]',
            ("[errors], set_pan", "degrees"),
        ),
        Plant(
            "scene.toml",
            'zero = "start"',
            'zero = "strat"',
            ('[[pipe]] "gallery bar SL", zero', 'Did you mean "start"?'),
        ),
        Plant(
            "scene.toml",
            'trim = 6.00\ny = "7.9 m US"',
            'trim = inf\ny = "7.9 m US"',
            ('[[pipe]] "back bar", trim', "got:      inf"),
        ),
        Plant(
            "hang.csv",
            "out,30 SL",
            "out,30 DS",
            ("column G (swing_out)", "SL or SR"),
        ),
        Plant(
            "hang.csv",
            "fresnel-40,mark 2,under",
            "fresnel-40,mark 2,over head",
            ("column F (mount)", "under"),
        ),
        Plant(
            "hang.csv",
            "house bar,3,0.60 m SL",
            "house bar,3,0.60 yd SL",
            ("column C (at)", '"0.60 yd SL"'),
        ),
        Plant(
            "scene.toml",
            'name = "mark 5"\nx = "0 m"',
            'name = "mark 5"\nx = "0 m US"',
            ('[[target]] "mark 5", x', '"0 m US"'),
        ),
        Plant(
            "scene.toml",
            "stand_on = true",
            "standon = true",
            ('[[solid]] "hilltop"', '"standon"', 'Did you mean "stand_on"?'),
        ),
    ),
}


class RigPlant(NamedTuple):
    """One rig mistake, and the findings that it adds to those of the clean scene."""

    file: str
    clean: str
    wrong: str
    adds: tuple[tuple[str, str | None], ...]  # (rule, unit or position; None: the whole scene)


RIG: dict[str, tuple[RigPlant, ...]] = {
    "studio": (
        # The crew reports a body turned over: its colour frame is underneath.
        RigPlant(
            "scene.toml",
            'at = "1.10 m SL"',
            'at = "1.10 m SL"\nhung = "tail up"',
            (("upside-down", "front pipe/2"),),
        ),
        # The boom faces the wall by declaration, its side-arm unit the stage.
        RigPlant(
            "scene.toml",
            "height = 3.0",
            'height = 3.0\nsquare = "SL"',
            (("faces-away", "boom SL/1"),),
        ),
        # Typed from the wrong end of the boom's own height.
        RigPlant("scene.toml", "at = 2.8\n", "at = 3.8\n", (("off-the-end", "boom SL/1"),)),
        # The deck drawn too small: a chair stands beside it.
        RigPlant(
            "scene.toml",
            "outline = [[-4.2, -1.8], [4.2, -1.8], [4.2, 3.6], [-4.2, 3.6]]",
            "outline = [[-1.2, -1.8], [4.2, -1.8], [4.2, 3.6], [-1.2, 3.6]]",
            (
                ("target-off-stage", None),
                ("acting-off-deck", None),
                ("tape-cannot-lie", "front pipe"),
                ("tape-cannot-lie", "back pipe"),
            ),
        ),
        # Clamped where the middle lift line picks up the pipe.
        RigPlant(
            "scene.toml", 'at = "0.25 m SL"', 'at = "0.02 m SL"', (("on-lift-line", "back pipe/2"),)
        ),
    ),
    "playhouse": (
        RigPlant("hang.csv", "house pipe,2,", "house pipe,1,", (("number-twice", "house pipe"),)),
        RigPlant(
            "hang.csv",
            'pipe 1,1,"19\'-3"" SL"',
            'pipe 1,1,"22\'-0"" SL"',
            (("off-the-end", "pipe 1/1"),),
        ),
        RigPlant(
            "hang.csv",
            'pipe 2,2,"12\'-0"" SL"',
            'pipe 2,2,"9\'-0"" SL"',
            (("on-lift-line", "pipe 2/2"),),
        ),
        # Unit 4 is typed 6 in from unit 3.
        RigPlant(
            "hang.csv",
            'pipe 1,4,"4\'-6"" SL"',
            'pipe 1,4,"6\'-6"" SL"',
            (("too-close", "pipe 1"),),
        ),
        RigPlant(
            "hang.csv",
            'balcony rail,3,"2\'-0"" SL"',
            'balcony rail,3,"9\'-0"" SL"',
            (("numbers-out-of-order", "balcony rail"),),
        ),
        # The door special on the channel of the tree special.
        RigPlant(
            "hang.csv", "door,under,,,,87,", "door,under,,,,88,", (("channel-shared", "pipe 1/4"),)
        ),
        # A pattern whose long axis nobody has given a direction.
        RigPlant("hang.csv", "yes,across", "yes,", (("no-turn", "pipe 4/2"),)),
        # One side unit left out of its system.
        RigPlant(
            "hang.csv", "area 11,under,,,side,", "area 11,under,,,,", (("area-not-covered", None),)
        ),
        # An area on the platform aimed at as if the platform were not there.
        RigPlant(
            "scene.toml",
            'y = "15\' US"',
            'y = "15\' US"\nz = 0',
            (("height-differs", None),),
        ),
        RigPlant(
            "scene.toml",
            'name = "narrator SL"\nx = "13\' SL"',
            'name = "narrator SL"\nx = "31\' SL"',
            (("target-off-stage", "balcony rail/1"), ("no-tape", "balcony rail")),
        ),
        # The tall clock drawn round the middle of the platform.
        RigPlant(
            "scene.toml",
            'box = ["2\'-3\\"", "17\'-7\\"", 4, "3\'-9\\"", 18, "10\'-6\\""]',
            "box = [-1, 14, 4, 1, 16, 10.5]",
            (("target-in-scenery", None),),
        ),
        # One pipe hung with its clamps the other way about.
        RigPlant(
            "scene.toml",
            'trim = "20\'"\ny = "16\' US"\nfrom = "21\' SR"\nto = "21\' SL"\nclamp_opens = "US"',
            'trim = "20\'"\ny = "16\' US"\nfrom = "21\' SR"\nto = "21\' SL"\nclamp_opens = "DS"',
            (("clamps-mixed", None),),
        ),
        # A yoke that stops short of the drop.
        RigPlant(
            "scene.toml",
            "yoke_range = [-120, 120]",
            "yoke_range = [-120, 70]",
            tuple(("yoke-travel", f"pipe 5/{n}") for n in (1, 2, 4, 6, 8, 9)),
        ),
        RigPlant(
            "hang.csv",
            "area 12,under,,,front warm",
            "area 12,over,,,front warm",
            (("over-on-flown", "pipe 1/8"),),
        ),
    ),
    "arena": (
        # Into a sling of the truss, at the very line.
        RigPlant(
            "hang.csv",
            "truss,7,4.2 m SR",
            "truss,7,3.5 m SR",
            (("keep-clear", "truss/7"), ("on-lift-line", "truss/7")),
        ),
        # On the gallery's rail.
        RigPlant(
            "hang.csv", "ladder SL,1,4.8 m", "ladder SL,1,4.0 m", (("keep-clear", "ladder SL/1"),)
        ),
        # A tube that starts above the lower of its units, and above its outlet.
        RigPlant(
            "scene.toml",
            'y = "0.6 m DS"\nfoot = 2.80',
            'y = "0.6 m DS"\nfoot = 3.60',
            (("off-the-end", "ladder SR/2"), ("outlet-unlikely", "ladder SR")),
        ),
        # Past the end of the bend, which is 4.70 m along it from its middle.
        RigPlant(
            "hang.csv", "rail US,4,3.2 m SR", "rail US,4,4.8 m SR", (("off-the-end", "rail US/4"),)
        ),
        # The crier's third spot typed with its figures swapped for the wings.
        RigPlant(
            "scene.toml",
            '["0.9 m SL", "0.9 m US"]]',
            '["0.9 m SL", "9.0 m US"]]',
            (("target-off-stage", "truss/4"),),
        ),
        # Two units on one spot of one chord.
        RigPlant("hang.csv", "truss,4,1.5 m SL", "truss,4,2.2 m SL", (("one-spot", "truss"),)),
    ),
    "raked": (
        # Typed in feet.
        RigPlant("scene.toml", "trim = 6.00", "trim = 18.0", (("another-unit", "back bar"),)),
        # A steep unit put over its pipe: the body comes down on the tube.
        RigPlant(
            "hang.csv",
            "hilltop,under,,,33",
            "hilltop,over,,,33",
            (("strikes-own-pipe", "back bar/3"), ("over-on-flown", "back bar/3")),
        ),
        # One end of a level bar 12 cm low.
        RigPlant(
            "scene.toml",
            "end = [-4.4, -4.0, 5.20]",
            "end = [-4.4, -4.0, 5.08]",
            (("out-of-level", "gallery bar SR"),),
        ),
        RigPlant(
            "scene.toml",
            'measured = true\nrating = "250 kg"',
            'rating = "250 kg"',
            (("trim-not-measured", "house bar"),),
        ),
        # The hilltop's height forgotten.
        RigPlant(
            "scene.toml",
            'y = "6.8 m US"\nplane',
            'y = "6.8 m US"\nz = 0.0\nplane',
            (("height-differs", None),),
        ),
    ),
}


class SolidPlant(NamedTuple):
    """One mistake with solids: the text it takes the place of, and what it is told with.

    A stop is told of sizes that the scene has typed, a warning where typical ones are concerned.
    """

    file: str
    clean: str
    wrong: str
    tells: tuple[tuple[str, str, str | None], ...]  # severity, rule, and the unit or position


# The scenes themselves have no stop.
SOLID: dict[str, tuple[SolidPlant, ...]] = {
    "studio": (
        # A flat stood upstage of the back pipe, against the backs of its units.
        SolidPlant(
            "scene.toml",
            "[[seats]]",
            '[[solid]]\nname = "flat"\n'
            "panel = [[-2, 3.0, 0], [2, 3.0, 0], [2, 3.0, 3.4], [-2, 3.0, 3.4]]\n\n[[seats]]",
            (("warn", "touches-solid", "back pipe"),),
        ),
    ),
    "playhouse": (
        # Two units typed 10 in apart.
        SolidPlant(
            "hang.csv",
            'pipe 1,4,"4\'-6"" SL"',
            'pipe 1,4,"6\'-2"" SL"',
            (("warn", "bodies-touch", "pipe 1"),),
        ),
        # A border moved into the pipe behind it.
        SolidPlant(
            "scene.toml",
            "panel = [[-22, 21.5, 17.75], [22, 21.5, 17.75], [22, 21.5, 23], [-22, 21.5, 23]]",
            "panel = [[-22, 20.5, 17.75], [22, 20.5, 17.75], [22, 20.5, 23], [-22, 20.5, 23]]",
            (("stop", "touches-solid", "pipe 4"), ("warn", "touches-solid", "pipe 4")),
        ),
        # A spare batten in the next line set, 9 in upstage of pipe 3.
        SolidPlant(
            "scene.toml",
            "# The posted plate of pipe 4 is missing: ask before loading it.\n",
            '[[pipe]]\nname = "spare batten"\ntrim = "22\'"\ny = "16\'-9\\" US"\nfrom = "21\' SR"\n'
            'to = "21\' SL"\nlines = ["18\' SR", "18\' SL"]\n\n',
            (("warn", "in-line-set", "pipe 3"),),
        ),
        # The same 4 in upstage of pipe 5, whose cyc units are the house's own.
        SolidPlant(
            "scene.toml",
            "# --- Booms in the first wing",
            '[[pipe]]\nname = "spare batten"\ntrim = "22\'"\ny = "24\'-4\\" US"\nfrom = "21\' SR"\n'
            'to = "21\' SL"\nlines = ["18\' SR", "18\' SL"]\n\n# --- Booms in the first wing',
            (("stop", "in-line-set", "pipe 5"), ("warn", "in-line-set", "pipe 5")),
        ),
        # A label that asks for 9 ft, read for 18 in; the drop is 3 ft 6 in away.
        SolidPlant(
            "scene.toml",
            'label_distance = "1\'-6\\""',
            'label_distance = "9\'"',
            (("stop", "label-distance", "pipe 5"),),
        ),
        # A drop of 7 in: the bar of such a yoke is inside the body.
        SolidPlant(
            "scene.toml",
            'drop_under = "16\\""\ndrop_over = "17\\""\nnose = "17\\""\nrise = 0\nlength = "27\\""\n'
            'width = "9\\""\nweight = "18 lb"\nwatts = 750\nyoke_range = [-155, 155]\n',
            'drop_under = "7\\""\ndrop_over = "17\\""\nnose = "17\\""\nrise = 0\nlength = "27\\""\n'
            'width = "9\\""\nweight = "18 lb"\nwatts = 750\n',
            (("warn", "strikes-own-yoke", "house pipe"),),
        ),
        # Two of the house's own units typed 6 in apart.
        SolidPlant(
            "hang.csv",
            'house pipe,3,"15\'-0"" SL"',
            'house pipe,3,"18\'-6"" SL"',
            (("stop", "bodies-touch", "house pipe"),),
        ),
    ),
    "arena": (
        # A cloth let in between the chords of the truss and the units on its face.
        SolidPlant(
            "scene.toml",
            '[[solid]]\nname = "well"',
            '[[solid]]\nname = "cloth"\n'
            "panel = [[-2, -0.35, 4], [4, -0.35, 4], [4, -0.35, 6.5], [-2, -0.35, 6.5]]\n\n"
            '[[solid]]\nname = "well"',
            (("stop", "touches-solid", "truss/2"),),
        ),
    ),
    "raked": (
        # A back wall drawn at the back bar instead of behind it.
        SolidPlant(
            "scene.toml",
            '[[target]]\nname = "hilltop"',
            '[[solid]]\nname = "back wall"\n'
            "panel = [[-5, 8.05, 0], [5, 8.05, 0], [5, 8.05, 6.5], [-5, 8.05, 6.5]]\n\n"
            '[[target]]\nname = "hilltop"',
            (("warn", "touches-solid", "back bar"),),
        ),
    ),
}


def plant(scene: str, plants: Iterable[Plant | RigPlant | SolidPlant], folder: str) -> str:
    """The path of a copy of a worked scene in `folder`, with every one of `plants` in it.

    A scene with a hang list in both forms reads the CSV one, which is where plants are put.
    """
    shutil.copytree(os.path.join(SCENES, scene), folder, dirs_exist_ok=True)
    _edit(folder, Plant("scene.toml", 'hang = "hang.xlsx"', 'hang = "hang.csv"', ()), must=False)
    for one in plants:
        _edit(folder, one)
    return folder


def _edit(folder: str, one: Plant | RigPlant | SolidPlant, *, must: bool = True) -> None:
    path = os.path.join(folder, one.file)
    with open(path, encoding="utf-8", newline="") as file:
        text = file.read()
    if must and one.clean not in text:
        raise LookupError(f"{one.file} no longer holds {one.clean!r}")
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write(text.replace(one.clean, one.wrong, 1))


if __name__ == "__main__":
    plant(
        sys.argv[2],
        {"reading": READING, "rig": RIG, "solid": SOLID}[sys.argv[1]][sys.argv[2]],
        sys.argv[3],
    )
