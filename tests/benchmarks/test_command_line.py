"""What a command takes from a cold start, in units of a bare `import numpy` in the same run."""

import json
import time
from pathlib import Path

import pytest

from aimcalc.sheets.pieces import PIECES
from tests.benchmarks.cold import ENTRY, children_used, import_numpy, process

PLAYHOUSE = str(Path(__file__).parents[2] / "scenes" / "playhouse")


EVERY = ",".join(piece.name for piece in PIECES)


@pytest.mark.parametrize(
    ("arguments", "bar"),
    [
        (["--help"], 0.7),
        (["keys"], 0.8),
        (["solve", PLAYHOUSE], 2.0),  # all but the rays
        (["solve", PLAYHOUSE, "--json"], 2.0),  # and the solids: 78 bodies, 39,000 rays
        (["check", PLAYHOUSE], 2.0),  # and the work at the pipe
    ],
)
def test_a_command_starts_quickly(arguments, bar, ratios):
    """What stops `check` and `--json` over their bars, in imports of numpy: modules to load are 0.4 (those of
    click, msgspec, embreex and this package), the scene and its list 0.3, 160,000 rays and their tree 0.4.
    """
    words = " ".join(arguments).replace(PLAYHOUSE, "playhouse")
    name = f"cold: aimcalc {words} / import numpy, CPU"
    ratios(name, process(*ENTRY, *arguments), import_numpy, bar=bar, clock=children_used)


@pytest.mark.parametrize(
    ("only", "clock", "bar"),
    [
        ("section,lists", children_used, 6),
        ("aim-sheets,cards,plan,lists", children_used, 16),  # what the crew aims by
        (EVERY, children_used, 18),  # and the hang and the light, each in a file of its own
        (None, children_used, 18),  # the packs
        (None, time.perf_counter, 18),  # the same by the clock on the wall, a lane to a core
    ],
)
def test_the_sheets_of_the_playhouse_are_made_in_few_imports(tmp_path, ratios, only, clock, bar):
    pieces = [] if only is None else ["--only", only]
    made = process(*ENTRY, "prep", PLAYHOUSE, "-o", str(tmp_path / "out"), *pieces)
    of = "CPU" if clock is children_used else "wall"
    told = {EVERY: "every piece", None: "the set"}.get(only, only)
    name = f"cold: aimcalc prep playhouse, {told} / import numpy, {of}"
    ratios(name, made, import_numpy, bar=bar, rounds=3, clock=clock)


@pytest.mark.parametrize(("command", "bar"), [("check", 30.0), ("solve", 20.0)])
def test_a_scene_of_10_000_units_is_answered_in_proportion(command, bar, tmp_path, ratios):
    """10,000 units on 400 positions among 500 solids, from TOML.

    No light meets anything, which `check` tells by boxes: where rays have to be cast, the tree of 775,600
    triangles takes 6 imports of numpy, and five million rays 8.
    """
    scene = tmp_path / "scene.toml"
    scene.write_text(large_scene(400, 25, 500))
    made = process(*ENTRY, command, str(tmp_path))
    name = f"cold: aimcalc {command}, 10,000 units / import numpy, CPU"
    ratios(name, made, import_numpy, bar=bar, rounds=1, clock=children_used)


def large_scene(positions: int, on_each: int, solids: int) -> str:
    """A scene of two stages side by side: pipes a metre apart, units nearly a metre, boxes about the deck."""
    depth = positions / 2
    corners = [[-32, -3], [32, -3], [32, depth + 2], [-32, depth + 2]]
    sizes = {"drop_under": 0.36, "nose": 0.34, "length": 0.6, "width": 0.26}
    kinds = ({"family": "ers", "field": 26}, {"family": "fresnel", "field": 36})
    tables = [("stage", {"outline": corners})]
    for k, kind in enumerate(kinds):
        tables.append(("kind", {"name": f"K{k}", **kind, **sizes, "weight": "7 kg", "watts": 750}))
    for k in range(positions):
        x, y = 16 if k % 2 else -16, k // 2
        ends = {"start": [x - 12, y, 7.5], "end": [x + 12, y, 7.5], "zero": "middle"}
        tables.append(("pipe", {"name": f"P{k}", **ends, "lines": [-8, 0, 8]}))
        across = [{"name": f"T{k}/{j}", "x": x + 4 * j - 8, "y": y + 3} for j in range(5)]
        tables += [("target", keys) for keys in across]
        for j in range(on_each):
            unit = {"position": f"P{k}", "number": j + 1, "at": round(11.5 - 23 * j / on_each, 2)}
            unit |= {"kind": f"K{j % 2}", "target": f"T{k}/{4 - 5 * j // on_each}"}
            tables.append(("unit", unit | {"system": f"S{j % 4}", "channel": on_each * k + j + 1}))
    for k in range(solids):
        x, y = (7 * k) % 60 - 30, depth * k / solids
        box = [x, y, 0, x + 1, y + 0.6, 0.4 + k % 5 / 4]
        tables.append(("solid", {"name": f"B{k}", "box": box}))
    one = {"stage"}
    written = ['[scene]\ntitle = "Large"\n']
    for name, keys in tables:
        head = f"[{name}]" if name in one else f"[[{name}]]"
        lines = [f"{key} = {json.dumps(value)}" for key, value in keys.items()]
        written.append("\n".join((head, *lines, "")))
    return "\n".join(written)
