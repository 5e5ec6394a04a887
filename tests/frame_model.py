"""A pipe on its lift lines by another program: a frame model of PyNite (the package PyNiteFEA).

The pipe is a row of stiff members between nodes at its loads, lines and ends; every line is a support that is
as good as rigid. A line that cannot push is a support spring that acts one way, which PyNite finds by rounds
of its own.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

BENDING = 1e3  # E I of the pipe: shares of rigid lines do not depend on it
LINE = 1e9  # stiffness of a line, over a million times that of any span


def frame_shares(lines, load, *, push: bool) -> np.ndarray:
    """What every line carries, in the order given; `push` lets a line press down too."""
    from Pynite import FEModel3D  # takes half a second, of every process that collects tests

    ends = (load.start, load.end) if load.per_length else ()
    places = np.unique(np.concatenate((lines, load.at, ends)))
    model = FEModel3D()
    model.add_material("stiff", BENDING, BENDING, 0.3, 1.0)
    model.add_section("pipe", A=1.0, Iy=1.0, Iz=1.0, J=1.0)
    for k, place in enumerate(places.tolist()):
        model.add_node(f"n{k}", place, 0.0, 0.0)
        model.def_support(f"n{k}", k == 0, False, True, True, k == 0, False)
    for k, (here, there) in enumerate(pairwise(places)):
        model.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "stiff", "pipe")
        if load.per_length and load.start <= here and there <= load.end:
            model.add_member_dist_load(f"m{k}", "FY", -load.per_length, -load.per_length)
    for at, weight in zip(load.at, load.weight, strict=True):
        model.add_node_load(f"n{np.searchsorted(places, at)}", "FY", -float(weight))
    held = [f"n{k}" for k in np.searchsorted(places, lines)]
    for node in held:
        model.def_support_spring(node, "DY", LINE, None if push else "-")
    model.analyze(check_stability=False)
    return np.array(
        [-LINE * min(model.nodes[n].DY["Combo 1"], np.inf if push else 0.0) for n in held]
    )
