"""README shows what the commands print today."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from aimcalc import cli

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
SHOWN = re.findall(r"```console\n\$ aimcalc ([^\n]*)\n(.*?)```", README, re.DOTALL)


def test_readme_shows_the_output_of_several_commands():
    assert len(SHOWN) >= 3


@pytest.mark.parametrize(("call", "shown"), SHOWN, ids=[call for call, _ in SHOWN])
def test_readme_shows_what_the_command_prints(call, shown, monkeypatch, capsys, tmp_path):
    """A line `...` stands for lines left out."""
    words = shlex.split(call)
    if "-o" in words:  # scenes are named from the root, what is written goes elsewhere
        (tmp_path / "scenes").symlink_to(ROOT / "scenes")
        monkeypatch.chdir(tmp_path)
    else:
        monkeypatch.chdir(ROOT)
    assert cli.run(words) == 0
    printed = capsys.readouterr().out
    parts = [re.escape(part) for part in shown.split("...\n")]
    assert re.fullmatch(r"(?:.*\n)*?".join(parts) + r"\n*", printed), (
        f"README no longer shows:\n{printed}"
    )


def test_the_lines_of_python_in_readme_run(monkeypatch, tmp_path, capsys):
    (lines,) = re.findall(r"```python\n(.*?)```", README, re.DOTALL)
    (tmp_path / "scenes").symlink_to(ROOT / "scenes")
    monkeypatch.chdir(tmp_path)
    names: dict[str, object] = {}
    exec(lines, names)
    steep, warnings, light = capsys.readouterr().out.splitlines()
    assert min(map(len, (steep, warnings, light))) > len("[] []")
    files = {path.name for path in (tmp_path / "sheets").iterdir()}
    assert files == {"aim-sheets.pdf", "aims.csv", "aims.xlsx", "aims.json", "set.json"}


def test_the_scene_in_readme_can_be_read_and_solved(tmp_path, capsys):
    (scene,) = re.findall(r"```toml\n(.*?)```", README, re.DOTALL)
    (tmp_path / "scene.toml").write_text(scene, encoding="utf-8")
    assert cli.run(["solve", str(tmp_path)]) == 0
    assert "pipe 1: 1 unit" in capsys.readouterr().out
