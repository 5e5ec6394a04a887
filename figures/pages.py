"""Makes the pictures of pages in a browser that README shows: `python figures/pages.py [FOLDER]`.

Without a folder they go into `pages` beside this file. Chromium has to be there, and what comes with the
`test` extra.
"""

from __future__ import annotations

import io
import shutil
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread
from typing import Any

from PIL import Image

HERE = Path(__file__).resolve().parent
SCENE = HERE.parent / "scenes" / "playhouse"
SIZE = {"width": 1280, "height": 800}
PHONE = {"width": 390, "height": 844}
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def desk_page(browser: Any) -> bytes:
    """The desk with the light of one unit on the plan, its ladder row beneath and the findings beside."""
    from aimcalc.desk.server import Desk
    from aimcalc.desk.session import Session

    with TemporaryDirectory() as folder:  # where no other desk has it open
        scene = shutil.copytree(SCENE, Path(folder) / SCENE.name)
        desk = Desk(Session(str(scene)))
        serving = Thread(target=desk.serve)
        serving.start()
        try:
            return _shot(browser, desk.address)
        finally:
            desk.stop()
            serving.join()


def _shot(browser: Any, address: str) -> bytes:
    page = browser.new_page(viewport=SIZE)
    page.goto(address)
    page.wait_for_selector("#findings li")
    page.wait_for_selector("#paper svg")
    page.fill("#find", "house pipe/17")
    page.press("#find", "Enter")
    page.wait_for_selector("#ladder dd")
    page.wait_for_selector(".live .field")
    page.evaluate("document.activeElement.blur()")
    picture: bytes = page.screenshot()
    page.close()
    return picture


def phone_page(browser: Any) -> bytes:
    """The page on the phone in both its looks, one unit in each, side by side."""
    from aimcalc.sheets.phone.page import phone_page as made
    from aimcalc.sheets.prep import options_for
    from aimcalc.show import Show

    show = Show.read(SCENE)
    with TemporaryDirectory() as folder:
        file = Path(folder) / "rig.html"
        file.write_bytes(made(show, options_for(show.rig)))
        page = browser.new_page(viewport=PHONE)
        page.goto(file.as_uri() + "#more")
        shots = []
        for look, unit in (("dark", "house%20pipe%2F17"), ("bright", "pipe%201%2F1")):
            page.evaluate("page.go('more')")
            page.click(f'[data-wear="{look}"]')
            page.evaluate("unit => { location.hash = 'unit=' + unit; }", unit)
            page.wait_for_selector("main[data-view='unit']")
            page.evaluate("document.activeElement.blur()")
            shots.append(Image.open(io.BytesIO(page.screenshot())))
        page.close()
    both = Image.new("RGB", (2 * PHONE["width"] + 20, PHONE["height"]), "white")
    for k, shot in enumerate(shots):
        both.paste(shot, (k * (PHONE["width"] + 20), 0))
    out = io.BytesIO()
    both.save(out, "PNG")
    return out.getvalue()


PAGES = {"desk.png": desk_page, "phone.png": phone_page}


def main(folder: Path = HERE / "pages", browser: Any = None) -> None:
    """Write every picture into `folder`, in grey."""
    if browser is None:
        from playwright.sync_api import sync_playwright

        found = next(path for name in BROWSERS if (path := shutil.which(name)))
        with sync_playwright() as driver:
            main(folder, driver.chromium.launch(executable_path=found, args=["--no-sandbox"]))
        return
    folder.mkdir(parents=True, exist_ok=True)
    for name, make in PAGES.items():
        with Image.open(io.BytesIO(make(browser))) as picture:
            picture.convert("L").save(folder / name, "PNG", optimize=True)
        print(folder / name)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
