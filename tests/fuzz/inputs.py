"""The sorts of input: each makes a folder with a scene, and the calls to make with it, from a seed.

A new sort of file takes its place with one function under `@sort("its name")`.
"""

from __future__ import annotations

import csv
import functools
import io
import struct
from collections.abc import Callable
from math import cos, sin, tau
from pathlib import Path
from random import Random
from typing import NamedTuple

from tests.fuzz import mangle

ROOT = Path(__file__).resolve().parents[2]
SCENES = ("studio", "playhouse", "raked", "arena")
CHEAP = (
    "check SCENE",
    "check SCENE --json",
    "solve SCENE",
    "solve SCENE --json",
    "solve SCENE --csv",
)
CALLS = (
    *("hang SCENE", "hang SCENE --json", "cover SCENE --grid 0.6", "cover SCENE --json --grid 1"),
    *(
        "lens SCENE",
        "lens SCENE --json",
        "lens SCENE -o OUT/lens.csv",
        "lens SCENE -o OUT/lens.toml",
    ),
    *("solve SCENE --glb OUT/rig.glb", "prep SCENE -o OUT/set --draft --only lists,counts"),
    *(
        "prep SCENE -o OUT/set --draft --only lists,by-area",
        "prep SCENE -o OUT/set --only aim-sheets",
    ),
    "prep SCENE -o OUT/set --draft --only aim-sheets,hang-sheets,counts",
)


class Input(NamedTuple):
    """Files of a scene's folder by name, and calls: SCENE is that folder, OUT one to write into."""

    files: dict[str, bytes]
    calls: tuple[str, ...]


SORTS: dict[str, Callable[[Random], Input]] = {}


def sort(name: str) -> Callable[[Callable[[Random], Input]], Callable[[Random], Input]]:
    """Enter a generator in `SORTS`."""

    def entered(make: Callable[[Random], Input]) -> Callable[[Random], Input]:
        SORTS[name] = make
        return make

    return entered


def calls(random: Random) -> tuple[str, ...]:
    """Two cheap calls and one of the others."""
    return random.choice(CHEAP), random.choice(CALLS), random.choice(CALLS + CHEAP)


@functools.cache
def worked(name: str) -> dict[str, bytes]:
    """The files of a worked scene."""
    return {path.name: path.read_bytes() for path in sorted((ROOT / "scenes" / name).iterdir())}


SMALL = """[scene]
title = "small"
unit = "m"
face_height = 1.65
HANG
[stage]
outline = [[-4, -1], [4, -1], [4, 5], [-4, 5]]
acting = [[-2, 0], [2, 0], [2, 2], [-2, 2]]
[[pipe]]
name = "p"
trim = 5.0
y = "2 m DS"
from = "4 m SR"
to = "4 m SL"
rating = "100 kg"
pipe_weight = "4 kg/m"
lines = ["3 m SR", "3 m SL"]
circuits = [{ name = "c1", at = "1 m SL", limit = "10 A" }, { name = "c2", at = 0 }]
[[boom]]
name = "b"
x = "3 m SL"
y = "1 m US"
height = 3
[[stand]]
name = "s"
x = "3 m SR"
y = "1 m US"
[[target]]
name = "door"
x = "1 m SL"
y = "1 m US"
plane = "face"
[[target]]
name = "mark"
x = 0
y = 2
plane = "deck"
[[kind]]
name = "k"
family = "ers"
field = 26
beam = 18
peak_cd = 90000
drop_under = 0.4
drop_over = 0.42
nose = 0.35
rise = 0.02
length = 0.6
width = 0.3
weight = "8 kg"
watts = 750
yoke_range = [-150, 150]
tail = 0.9
tail_exit = [0.2, 0.1]
top_hat = 0.15
label_distance = 0.5
[[solid]]
name = "box"
box = [-1, 3, 0, 1, 4, 0.5]
stand_on = true
[[seats]]
name = "stalls"
outline = [[-4, -9], [4, -9], [4, -4], [-4, -4]]
eye = 1.2
[[stock]]
kind = "k"
count = 4
[[stock]]
kind = "ers-30"
count = 4
[[cable]]
length = 5
count = 3
"""
UNITS = """[[unit]]
position = "p"
number = 1
at = "1 m SL"
kind = "k"
target = "door"
system = "front"
channel = 1
circuit = "c1"
colour = "blue"
transmission = 0.5
[[unit]]
position = "p"
number = 2
at = "1 m SR"
kind = "ers-30"
point = [0, 1, 1]
mount = "out"
system = "front"
channel = 2
swing_out = 10
[[unit]]
position = "b"
number = 1
at = 2
kind = "fresnel-40"
target = "mark"
mount = "arm"
arm = 0.4
arm_to = "SR"
system = "side"
turn = 5
"""
ROWS = (
    "position,number,at,kind,target,mount,arm,arm_to,swing_out,system,channel,circuit,colour,transmission,turn",
    "p,1,1 m SL,k,door,under,,,,front,1,c1,blue,0.5,",
    "p,2,0,ers-30,mark,out,,,10,front,2,,,,3",
    "b,1,2,fresnel-40,mark,arm,0.4,SR,,side,3,,,0.9,",
    "s,1,,pc-50,door,,,,,side,4,,,,",
)


def small(hang: str = "", more: str = "") -> str:
    """A small scene: with units of its own, or with a hang list; `more` at its end."""
    scene = SMALL.replace("HANG", f'hang = "{hang}"' if hang else "")
    return scene + ("" if hang else UNITS) + more


def odd_scene(random: Random, text: str) -> str:
    """A scene with a few lines spoilt: keys with odd values, keys moved, entries doubled."""
    for _ in range(random.choice((1, 1, 1, 1, 2, 3))):
        way = random.random()
        if way < 0.5:
            rows = text.split("\n")
            k = random.choice([k for k, row in enumerate(rows) if "=" in row] or [0])
            key, _, value = rows[k].partition("=")
            odd = (
                mangle.one_number(random, value)
                if random.random() < 0.75
                else mangle.odd_toml(random)
            )
            rows[k] = f"{key}= {odd}"
            text = "\n".join(rows)
        elif way < 0.6:
            text = _known_key(random, text)
        elif way < 0.7:
            entries = text.split("[[")
            k = random.randrange(len(entries))
            entries[k:k] = [entries[k]] * random.choice((1, 1, 2, 30))
            text = "[[".join(entries)
        else:
            text = mangle.lines(random, text)
    return text


def _known_key(random: Random, text: str) -> str:
    """A key that an entry may have, given to one of any sort, with an odd value."""
    from aimcalc.scene import tables

    rows = text.split("\n")
    heads = [k for k, row in enumerate(rows) if row.startswith("[")]
    if not heads:
        return text
    at = random.choice(heads)
    name = rows[at].strip("[] ")
    make = getattr(tables, f"{name}_readers", tables.unit_readers)
    made = make("m") if random.random() < 0.95 else tables.kind_readers("m")
    rows.insert(at + 1, f"{random.choice(sorted(made))} = {mangle.odd_toml(random)}")
    return "\n".join(rows)


@sort("scene")
def scene(random: Random) -> Input:
    """A worked scene, spoilt."""
    files = dict(worked(random.choice(SCENES)))
    files["scene.toml"] = odd_scene(random, files["scene.toml"].decode()).encode()
    return Input(files, calls(random))


@sort("small scene")
def small_scene(random: Random) -> Input:
    """A small scene with a bit of everything, spoilt."""
    return Input({"scene.toml": odd_scene(random, small()).encode()}, calls(random))


@sort("scene bytes")
def scene_bytes(random: Random) -> Input:
    """A scene whose bytes are spoilt."""
    return Input({"scene.toml": mangle.bytes_of(random, small().encode())}, calls(random))


@sort("plenty")
def plenty(random: Random) -> Input:
    """A thing in plenty: units in one place, corners, circuits, lines, entries."""
    many = random.choice((100, 1000, 3000))
    ring = ", ".join(
        f"[{4 * cos(k * tau / many):.6f}, {2 + 3 * sin(k * tau / many):.6f}]" for k in range(many)
    )
    step = 7.8 / many
    unit = '[[unit]]\nposition = "{}"\nnumber = {}\nat = {}\nkind = "{}"\ntarget = "door"\n'
    where = random.choice(("p", "b"))
    kind = random.choice(("k", "ers-30"))
    way = random.randrange(7)
    if way == 0:
        return Input(
            {"scene.toml": small().replace("acting = [[", f"acting = [{ring}] # ").encode()},
            calls(random),
        )
    if way == 1:
        circuits = ", ".join(f'{{ name = "n{k}", at = {step * k - 3.9:.4f} }}' for k in range(many))
        return Input(
            {
                "scene.toml": small()
                .replace("circuits = [{", f"circuits = [{circuits}, {{")
                .encode()
            },
            calls(random),
        )
    if way == 2:
        lines = ", ".join(f"{step * k - 3.9:.4f}" for k in range(many))
        return Input(
            {"scene.toml": small().replace("lines = [", f"lines = [{lines}, ").encode()},
            calls(random),
        )
    if way == 3:
        more = [unit.format(where, 10 + k, 1, kind) for k in range(many)]
    elif way == 4:
        more = [unit.format("p", 10 + k, f"{step * k - 3.9:.4f}", kind) for k in range(many)]
    elif way == 5:
        more = [f'[[seats]]\nname = "s{k}"\noutline = [{ring}]\neye = 1\n' for k in range(100)][
            : 100000 // many
        ]
    else:
        more = [
            f'[[solid]]\nname = "s{k}"\nbox = [{k % 30 * 0.2}, 3, 0, {k % 30 * 0.2 + 0.1}, 4, {k % 7 + 1}]\n'
            for k in range(many)
        ]
    return Input({"scene.toml": small(more="".join(more)).encode()}, calls(random))


@sort("names")
def names(random: Random) -> Input:
    """Names that a spreadsheet would take for formulas, that no font has, that fill a page."""
    text = small()
    for name in random.sample(
        ('"p"', '"door"', '"k"', '"front"', '"c1"', '"blue"', '"box"', '"small"', "= 1\n"), 4
    ):
        word = mangle.quoted(random.choice(mangle.ODD_WORDS))
        text = text.replace(name, f"= {word}\n" if name == "= 1\n" else word)
    return Input({"scene.toml": text.encode()}, ("solve SCENE --csv", *calls(random), CALLS[9]))


@sort("files outside")
def files_outside(random: Random) -> Input:
    """File names that lead out of the scene's folder, absolute, by .. or by a link."""
    which = random.randrange(3)
    name = random.choice(mangle.OUTSIDE) + random.choice(
        ("", (".csv", ".ies", ".stl")[which], ".xlsx", ".obj", ".toml")
    )
    more = ("", "photometry = ", "mesh = ")[which]
    if which == 0:
        text = small("HERE").replace('"HERE"', mangle.quoted(name))
    elif which == 1:
        text = small().replace("field = 26", more + mangle.quoted(name))
    else:
        text = small(more=f'[[solid]]\nname = "m"\n{more}{mangle.quoted(name)}\n')
    return Input({"scene.toml": text.encode()}, calls(random))


def odd_rows(random: Random) -> list[list[str]]:
    """A hang list with some cells, rows or columns spoilt."""
    rows = [row.split(",") for row in ROWS]
    for _ in range(random.choice((0, 1, 1, 2, 4))):
        row = random.choice(rows)
        way = random.random()
        if way < 0.7 and row:
            k = random.randrange(len(row))
            row[k] = random.choice((*mangle.ODD_WORDS, *mangle.ODD_NUMBERS))
        elif way < 0.8:
            rows.insert(random.randrange(len(rows)), list(row))
        elif way < 0.9 and row:
            row.pop()
        else:
            row += [""] * random.choice((1, 50))
    return rows


@sort("hang list CSV")
def hang_csv(random: Random) -> Input:
    """A hang list as text."""
    if random.random() < 0.3:
        data = mangle.bytes_of(random, "\n".join(ROWS).encode())
    else:
        out = io.StringIO(newline="")
        csv.writer(out, delimiter=random.choice(",,,;\t")).writerows(odd_rows(random))
        data = out.getvalue().encode("utf-8", "replace")
    return Input({"scene.toml": small("h.csv").encode(), "h.csv": data}, calls(random))


def xlsx(random: Random, rows: list[list[str]]) -> bytes:
    """Rows as a workbook: numbers, formulas, dates and truths among the cells."""
    import datetime

    import xlsxwriter

    out = io.BytesIO()
    with xlsxwriter.Workbook(out, {"in_memory": True, "nan_inf_to_errors": True}) as book:
        sheet = book.add_worksheet("Hang")
        for r, row in enumerate(rows):
            for c, cell in enumerate(row):
                way = random.random() if r else 0.5
                if way < 0.005:
                    sheet.write_formula(r, c, "=1/0", None, random.choice(("#DIV/0!", 5, "x", "")))
                elif way < 0.008:
                    sheet.write_datetime(
                        r,
                        c,
                        datetime.datetime(2000, 1, 2, 3),
                        book.add_format({"num_format": "d m"}),
                    )
                elif way < 0.01:
                    sheet.write_boolean(r, c, True)
                elif way < 0.4 and cell.replace(".", "", 1).isdigit() and cell.isascii():
                    sheet.write_number(r, c, float(cell))
                else:
                    sheet.write_string(r, c, cell[:32000])
        if random.random() < 0.05:
            sheet.write_string(random.choice((70, 100_000)), random.choice((3, 900)), "x")
    return out.getvalue()


REPEATS = (2, 500, 100_000)  # times that a row of an OpenDocument sheet may be said to stand there


def ods(random: Random, rows: list[list[str]]) -> bytes:
    """Rows as an OpenDocument sheet."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    book = OpenDocumentSpreadsheet()
    sheet = Table(name="Hang")
    for row in rows:
        often = {"numberrowsrepeated": random.choice(REPEATS)} if random.random() < 0.03 else {}
        line = TableRow(**often)
        for cell in row:
            plain = "".join(c for c in cell if c >= " ")
            if random.random() < 0.4 and plain.replace(".", "", 1).isdigit() and plain.isascii():
                box = TableCell(valuetype="float", value=plain)
            else:
                box = TableCell(valuetype="string", stringvalue=plain)
            box.addElement(P(text=plain))
            line.addElement(box)
        sheet.addElement(line)
    book.spreadsheet.addElement(sheet)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _book(random: Random, name: str, write: Callable[[Random, list[list[str]]], bytes]) -> Input:
    data = write(random, odd_rows(random))
    way = random.random()
    if way < 0.3:
        data = mangle.bytes_of(random, data)
    elif way < 0.7:
        data = mangle.member(random, data)
    return Input({"scene.toml": small(name).encode(), name: data}, calls(random))


@sort("hang list XLSX")
def hang_xlsx(random: Random) -> Input:
    """A workbook with odd cells, spoilt XML or turned bits."""
    return _book(random, "h.xlsx", xlsx)


@sort("hang list ODS")
def hang_ods(random: Random) -> Input:
    """An OpenDocument sheet with odd cells, spoilt XML or turned bits."""
    return _book(random, "h.ods", ods)


LM63 = """IESNA:LM-63-2002
[TEST] invented
TILT=INCLUDE
1
2
0 90
1 0.5
1 2000 1 5 3 1 2 0.2 0.1 0
1 1 750
0 10 20 30 90
0 45 90
10000 5000 200 20 0
10000 6000 100 20 0
10000 7000 50 20 0
"""
EULUMDAT = (
    "Nobody/1/4/4/90/4/30/R/unit/N/f/today/300/200/100/0/80/0/0/0/0/100/100/1/0/1/1/lamp/2000/3200/1A/750"
    "/0/0/0/0/0/0/0/0/0/0/0/90/180/270/0/30/60/90/1000/500/20/0/1000/400/20/0/"
).replace("/", "\n")


def with_photometry(scene: str, name: str) -> str:
    """The small scene with the light of one of its kinds from a file."""
    return scene.replace("field = 26\nbeam = 18\npeak_cd = 90000", f'photometry = "{name}"')


def _photometry(random: Random, name: str, text: str) -> Input:
    if random.random() < 0.2:
        data = mangle.bytes_of(random, text.encode())
    else:
        for _ in range(random.choice((1, 1, 2, 4))):
            text = mangle.lines(random, text)
        data = text.encode()
    scene = with_photometry(small(), name)
    return Input(
        {"scene.toml": scene.encode(), name: data}, ("cover SCENE --grid 0.6", *calls(random))
    )


@sort("photometry LM-63")
def lm63(random: Random) -> Input:
    """A photometric file of North American form."""
    return _photometry(random, random.choice(("k.ies", "k.txt")), LM63)


@sort("photometry EULUMDAT")
def eulumdat(random: Random) -> Input:
    """A photometric file of European form."""
    return _photometry(random, random.choice(("k.ldt", "k.dat")), EULUMDAT)


@functools.cache
def box_mesh(form: str) -> bytes:
    """A box over the stage in one of the forms that meshes come in."""
    import trimesh

    box = trimesh.creation.box((1, 1, 2))
    box.apply_translation((0, 3, 1))
    more = {"encoding": "ascii"} if form == "ply text" else {}
    data = box.export(
        file_type={"stl text": "stl_ascii", "ply text": "ply"}.get(form, form), **more
    )
    return data.encode() if isinstance(data, str) else data


def _mesh(form: str) -> None:
    @sort(f"mesh {form.upper().replace(' TEXT', ' text')}")
    def mesh(random: Random) -> Input:
        data = box_mesh(form)
        name = f"m.{form[:3] if random.random() < 0.95 else random.choice(('stl', 'obj', 'ply', 'glb'))}"
        if random.random() < 0.5 and form in ("obj", "stl text", "ply text"):
            text = data.decode()
            for _ in range(random.choice((1, 2, 4))):
                text = mangle.lines(random, text)
            data = text.encode()
        elif random.random() < 0.3 and form == "stl":
            at = 84 + 50 * random.randrange(12) + 12 + 4 * random.randrange(9)
            odd = random.choice((float("nan"), float("inf"), 3e38, -3e38, 1e-40, 1e20, 0.0))
            data = data[:at] + struct.pack("<f", odd) + data[at + 4 :]
        elif random.random() < 0.5 and form == "glb":
            data = _glb(random, data)
        else:
            data = mangle.bytes_of(random, data)
        more = f'[[solid]]\nname = "m"\nmesh = "{name}"\n'
        more += random.choice(
            (
                "",
                "",
                "scale = 1e-7\n",
                "scale = 300\n",
                "stand_on = true\n",
                "move = [100, 0, -2]\n",
            )
        )
        return Input({"scene.toml": small(more=more).encode(), name: data}, calls(random))


def _glb(random: Random, data: bytes) -> bytes:
    """Binary glTF with its JSON spoilt and its lengths right."""
    (size,) = struct.unpack_from("<I", data, 12)
    told = mangle.one_number(random, data[20 : 20 + size].decode().strip())
    if random.random() < 0.2:
        told = told.replace('"bufferView"', '"uri":"../secret.bin","bufferView"', 1)
    if random.random() < 0.2:
        told = told.replace('"byteLength"', '"uri":"../secret.bin","byteLength"', 1)
    text = told.encode()
    text += b" " * (-len(text) % 4)
    rest = struct.pack("<I", len(text)) + b"JSON" + text + data[20 + size :]
    return data[:8] + struct.pack("<I", 12 + len(rest)) + rest


for _form in ("stl", "stl text", "obj", "ply", "ply text", "glb"):
    _mesh(_form)


@functools.cache
def font_file(cubic: bool) -> bytes:
    """A small typeface with the letters of `_typeface`, its outlines of either form."""
    from tempfile import TemporaryDirectory

    from tests.typefaces import typeface

    with TemporaryDirectory() as folder:
        return typeface(Path(folder, "t.ttf"), "舞台灯\U0001f3ad", cubic=cubic).read_bytes()


@sort("typeface")
def a_typeface(random: Random) -> Input:
    """A font file whose letters a scene borrows: a table's numbers, its place or its length spoilt."""
    data = font_file(random.random() < 0.4)
    if random.random() < 0.6:
        tables = struct.unpack_from(">H", data, 4)[0]
        entry = 12 + 16 * random.randrange(tables)
        at, length = struct.unpack_from(">II", data, entry + 8)
        spot = at + random.randrange(max(length, 1))
        if random.random() < 0.2:
            spot = entry + random.randrange(16)
        odd = random.choice((b"\0\0", b"\xff\xff", b"\x7f\xff", b"\x80\0", random.randbytes(2)))
        data = data[:spot] + odd + data[spot + 2 :]
    else:
        data = mangle.bytes_of(random, data)
    scene = small().replace("[scene]", '[scene]\ntypeface = "t.ttf"', 1)
    scene = scene.replace('title = "', 'title = "舞台灯\U0001f3ad ', 1)
    prep = "prep SCENE -o OUT/set --draft --only fall-plan,aim-sheets"
    return Input({"scene.toml": scene.encode(), "t.ttf": data}, ("check SCENE", prep))


@sort("points")
def points(random: Random) -> Input:
    """A file of points at which the light is asked for."""
    text = "x,y,z\n0,1,1.5\n1 m SL,2,0\n-1,1,1\n"
    for _ in range(random.choice((1, 2, 4))):
        text = mangle.lines(random, text)
        if random.random() < 0.3:
            text = text.replace("1", random.choice(mangle.ODD_WORDS), 1)
    call = "cover SCENE --json --grid 1 --points SCENE/points.csv"
    files = {"scene.toml": small().encode(), "points.csv": text.encode("utf-8", "replace")}
    return Input(files, (call, call.replace(" --json", "")))
