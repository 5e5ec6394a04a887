"""A browser for the pages, and a server in this process that serves them a scene."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from threading import Thread

import pytest

from tests.shows import SCENES

NAMES = ("chromium", "chromium-browser", "google-chrome")
LACKING = (
    f"no browser here: none of {', '.join(NAMES)} was found. "
    "Install one: apt-get update && apt-get install -y chromium"
)
SIZES = {"desktop": (1280, 800), "phone": (390, 844)}
SLOW = 20_000  # ms that a page may take to show what a test waits for, on a busy machine


@pytest.fixture(scope="session")
def chromium() -> Iterator[object]:
    """The browser of this process; a machine that has none skips, and fails where `CI` is set."""
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    if found is None and os.environ.get("CI"):
        pytest.fail(LACKING)
    if found is None:
        pytest.skip(LACKING)
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=SLOW)

    with (
        sync_playwright() as driver,
        closing(driver.chromium.launch(executable_path=found, args=["--no-sandbox"])) as browser,
    ):
        yield browser


@pytest.fixture
def open_page(chromium):
    """Opens an address in a window of its own; the test fails if the page asks anybody but this machine.

    It also fails where the page logs an error, such as one of its security policy, unless the test takes
    the errors out of `page.errors` itself.
    """
    contexts, pages, strangers = [], [], []

    def allowed(route):
        if route.request.url.startswith(("http://127.0.0.1:", "blob:", "data:", "file:")):
            route.continue_()
        else:
            strangers.append(route.request.url)
            route.abort()

    def opened(address: str, size: str = "desktop", **options: object):
        width, height = SIZES[size]
        context = chromium.new_context(
            viewport={"width": width, "height": height},
            has_touch=size == "phone",
            is_mobile=size == "phone",
            **options,
        )
        contexts.append(context)
        context.route("**/*", allowed)
        page = context.new_page()
        page.set_default_timeout(SLOW)
        page.errors = []
        page.on("pageerror", lambda error: page.errors.append(str(error)))
        page.on("console", lambda said: said.type == "error" and page.errors.append(f"{said.text}"))
        pages.append(page)
        page.goto(address)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert strangers == []
    assert [error for page in pages for error in page.errors] == []


@pytest.fixture
def desk(tmp_path):
    """Opens desks of copies of the worked scenes, served by this process until the test ends."""
    from aimcalc.desk.server import Desk
    from aimcalc.desk.session import Session

    running = []

    def opened(scene: str | Path = "studio", port: int = 0) -> Desk:
        folder = tmp_path / scene if isinstance(scene, str) else scene
        if not folder.exists():
            shutil.copytree(SCENES / scene, folder)
        one = Desk(Session(str(folder)), port)
        thread = Thread(target=one.serve, daemon=True)
        thread.start()
        running.append((one, thread))
        return one

    yield opened
    for one, thread in running:
        one.stop()
        thread.join(SLOW / 1000)
        assert not thread.is_alive()
