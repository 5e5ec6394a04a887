"""Mesh files that are taken as they are, with something to say about them."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE
from aimcalc.rig.solid.mesh_files import meshes_of
from aimcalc.rig.solve import Rig


def not_closed(rig: Rig) -> Iterator[Finding]:
    """Notes meshes with free edges: light is stopped by what is there, but something may be missing."""
    for name, mesh in meshes_of(rig.scene).items():
        if mesh.note:
            do = "Look at it; export it closed if a part of it is missing."
            yield Finding(NOTE, "mesh-open", f"Solid {name}: {mesh.note}.", do)
