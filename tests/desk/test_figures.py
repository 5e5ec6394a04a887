"""The pictures of pages in README are those that the command makes today, as browsers draw alike."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import numpy as np
import pytest

from tests.test_figures import FIGURES, ROOT, shades


@pytest.fixture(scope="module")
def made(tmp_path_factory, chromium):
    spec = importlib.util.spec_from_file_location("figures_pages", FIGURES / "pages.py")
    pages = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(pages)
    folder: Path = tmp_path_factory.mktemp("pages")
    pages.main(folder, chromium)
    return folder


def test_the_pages_shown_are_what_the_command_makes(made):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    names = {path.name for path in made.iterdir()}
    assert names == {path.name for path in (FIGURES / "pages").glob("*.png")}
    for name in names:
        assert f"(figures/pages/{name})" in readme
        difference = np.abs(shades(FIGURES / "pages" / name) - shades(made / name))
        assert difference.mean() < 4.0, (
            name
        )  # another version of the browser rounds lines and letters otherwise
