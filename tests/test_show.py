"""A show makes each of its results once, whoever asks for them."""

from __future__ import annotations

from pathlib import Path

import pytest

import aimcalc.coverage.study
import aimcalc.findings
import aimcalc.hang.plan
import aimcalc.solid.rig
from aimcalc import cli

STUDIO = str(Path(__file__).parent.parent / "scenes" / "studio")
MADE = (
    (aimcalc.solid.rig, "solve_rig"),
    (aimcalc.hang.plan, "hang_plan"),
    (aimcalc.coverage.study, "study_of"),
    (aimcalc.findings, "checks"),
    (aimcalc.findings, "hang_findings"),
)


@pytest.mark.parametrize(
    ("call", "never"),
    [
        (["prep", STUDIO, "-o", "out"], ()),
        (["check", STUDIO], ("study_of",)),
        (["solve", STUDIO], ("study_of",)),
        (["hang", STUDIO], ("study_of",)),
    ],
    ids=lambda part: part[0] if part else "",
)
def test_a_command_makes_each_result_once(call, never, monkeypatch, tmp_path, capsys):
    counts = {}

    def counted(name, make):
        def once_more(*given, **named):
            counts[name] = counts.get(name, 0) + 1
            return make(*given, **named)

        return once_more

    for module, name in MADE:
        monkeypatch.setattr(module, name, counted(name, getattr(module, name)))
    monkeypatch.chdir(tmp_path)
    assert cli.run(call) == 0
    assert counts == {name: 1 for _, name in MADE if name not in never}
