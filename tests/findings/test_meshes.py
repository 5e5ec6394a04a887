"""What is said of mesh files that are taken as they are."""

from __future__ import annotations

import os

import pytest

from aimcalc.scene.model import Solid
from tests.findings.clean import CLEAN, changed
from tests.findings.judged import says, told

OPEN = "v 9 9 0\nv 10 9 0\nv 9 10 0\nv 9 9 1\nf 1 3 2\nf 1 2 4\nf 2 3 4\n"
CLOSED = OPEN + "f 3 1 4\n"


@pytest.mark.parametrize(("text", "notes"), [(OPEN, 1), (CLOSED, 0)])
def test_a_mesh_with_free_edges_is_a_note(tmp_path, text, notes):
    (tmp_path / "tent.obj").write_text(text)
    solid = Solid(name="tent", mesh="tent.obj")
    scene = changed(CLEAN, folder=os.fspath(tmp_path), solids=(solid,))
    assert told(scene) == [("note", "mesh-open", None)] * notes
    if notes:
        assert says(scene, "mesh-open") == (
            "Solid tent: tent.obj is not closed: some of its edges are free."
        )
