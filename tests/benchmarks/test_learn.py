"""What learning from landings takes, in units of a process that imports numpy and scipy.optimize."""

import sys
from pathlib import Path

import numpy as np

from aimcalc.landings import forward as f
from tests.benchmarks.cold import ENTRY, children_used, process
from tests.shows import rig_of

PLAYHOUSE = str(Path(__file__).parents[2] / "scenes" / "playhouse")
FLOOR = process(sys.executable, "-c", "import numpy, scipy.optimize")


def test_twenty_landings_of_78_units_are_learned_from_in_a_few_imports(
    tmp_path: Path, ratios
) -> None:
    rig = rig_of("playhouse")
    rng = np.random.default_rng(1)
    level = np.tile([[0.0], [0.0], [1.0]], len(rig.units))
    off = rng.normal(size=(9, len(rig.units))) * 0.01
    told = f.landed(f.held(rig), f.printed(rig), f.plane_at(rig.aims.lands, level), off)
    x, y = told.point[:2]
    near = np.flatnonzero(told.there & (np.abs(x) < 5) & (y > 0) & (y < 5))
    assert near.size >= 20
    rows = [f"{rig.names[k]},{x[k]:.3f} m,{y[k]:.3f} m" for k in rng.permutation(near)[:20]]
    file = tmp_path / "landings.csv"
    file.write_text("unit,x,y\n" + "\n".join(rows) + "\n")
    learned = process(*ENTRY, "learn", PLAYHOUSE, str(file), "--json")
    name = "cold: aimcalc learn playhouse, 20 landings / import numpy and scipy.optimize, CPU"
    ratios(name, learned, FLOOR, bar=4.0, clock=children_used)
