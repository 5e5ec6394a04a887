"""Puts into README what the commands that it shows print today: `python figures/readme.py`.

Where README leaves lines out (a line `...`), as many paragraphs or lines stand before it as did before, and
as many lines after it.
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SHOWN = re.compile(r"```console\n\$ aimcalc ([^\n]*)\n(.*?)```", re.DOTALL)


def printed(call: str) -> str:
    """What one call prints; what it writes goes elsewhere."""
    words = shlex.split(call)
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "scenes").symlink_to(ROOT / "scenes")
        done = subprocess.run(
            [sys.executable, "-m", "aimcalc", *words],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            check=False,
        )
    return done.stdout


def shortened(text: str, shown: str) -> str:
    """A text with as much left out as README leaves out of it now."""
    if "...\n" not in shown:
        return text
    before, after = shown.split("...\n")
    if before.endswith("\n\n"):
        paragraphs = text.split("\n\n")
        head = "\n\n".join(paragraphs[: before.count("\n\n")]) + "\n\n"
    else:
        head = "".join(text.splitlines(keepends=True)[: before.count("\n")])
    lines = text.splitlines(keepends=True)
    return f"{head}...\n{''.join(lines[len(lines) - after.count(chr(10)) :])}"


def renewed(found: re.Match[str]) -> str:
    """One block of README as it has to be today."""
    call, shown = found.groups()
    return f"```console\n$ aimcalc {call}\n{shortened(printed(call), shown)}```"


def with_keys(text: str) -> str:
    """README with the tables and keys that a scene has today."""
    from aimcalc.text.keys_text import keys_in_short

    short = keys_in_short()
    heads = re.escape(short.split("\n")[0])
    return re.sub(heads + r"\n(\|[^\n]*\n)*", lambda _: f"{short}\n", text)


def main() -> None:
    """Rewrite README's blocks and its table of keys."""
    readme = ROOT / "README.md"
    text = readme.read_text(encoding="utf-8")
    readme.write_text(with_keys(SHOWN.sub(renewed, text)), encoding="utf-8")


if __name__ == "__main__":
    main()
