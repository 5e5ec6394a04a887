"""The page on the phone, opened from its storage: reading, finding, ticking, landings, looks, two pages."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from aimcalc.landings.readings import read_landings
from aimcalc.scene.model import Target, Unit
from aimcalc.sheets import prep
from aimcalc.sheets.phone.page import phone_page
from aimcalc.show import Show
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_scene
from tests.shows import a_show, rig_of

GLOVE, LEAST_FIGURE = 56, 32  # px


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """The page of a scene as a file, its address given back."""
    made: dict[str, str] = {}

    def address(name: str) -> str:
        if name not in made:
            show = a_show(rig_of(name))
            path = tmp_path_factory.mktemp("phone") / "rig.html"
            path.write_bytes(phone_page(show, prep.options_for(show.rig)))
            made[name] = path.as_uri()
        return made[name]

    return address


def unit_at(address: str, name: str) -> str:
    return f"{address}#unit={name.replace(' ', '%20').replace('/', '%2F')}"


def cells(page) -> dict[str, str]:
    """What each cell of a unit's page shows, by its label."""
    script = "all => all.map(c => [c.querySelector('dt b').textContent, c.querySelector('dd').innerText])"
    return dict(page.eval_on_selector_all(".cells > div", script))


# The figures are those worked by hand in tests/sheets/test_ladder.py and tests/sheets/test_deck.py.
def test_a_unit_fills_the_screen_with_what_its_rows_say(open_page, files):
    page = open_page(unit_at(files("playhouse"), "house pipe/1"), "phone")
    told = cells(page)
    assert told["SIGHT TAPE"] == "14'-9\" SL"
    assert told["DOWN"].split() == ["30°", "plumb", "60°"]
    assert "unit 1, swing stage right, tape 14-9 stage left, down thirty" in page.inner_text("main")
    sizes = page.eval_on_selector_all(
        ".fig", "all => all.map(f => parseFloat(getComputedStyle(f).fontSize))"
    )
    assert min(sizes) >= LEAST_FIGURE
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_units_follow_one_another_as_the_ladder_goes(open_page, files):
    page = open_page(files("playhouse"), "phone")
    names = [p["name"] for p in page.evaluate("journal.data.positions")]
    page.click("text=Next")
    page.wait_for_selector(f"h2:text-is('{names[0]}')")  # the page turns once its address has
    seen = []
    for _ in range(3):
        page.keyboard.press("ArrowRight")
        page.wait_for_selector(f"h2:text-is('Unit {len(seen) + 1}')")
        seen.append(page.inner_text("h2"))
    assert seen == ["Unit 1", "Unit 2", "Unit 3"]
    page.keyboard.press("ArrowLeft")
    page.wait_for_selector("h2:text-is('Unit 2')")
    page.reload()
    assert page.inner_text("h2") == "Unit 2"


def test_what_is_ticked_outlives_a_reload_and_is_seen_by_a_second_page(open_page, files):
    address = unit_at(files("playhouse"), "pipe 1/2")
    page = open_page(address, "phone")
    second = page.context.new_page()
    second.goto(address)
    page.click('[data-tick="hung"]')
    page.click('[data-tick="safety"]')
    second.wait_for_selector('[data-tick="safety"][aria-pressed="true"]')
    second.click('[data-tick="hung"]')
    page.wait_for_selector('[data-tick="hung"][aria-pressed="false"]')
    page.reload()
    pressed = page.eval_on_selector_all(
        ".tick", "all => all.map(t => [t.dataset.tick, t.ariaPressed])"
    )
    assert [tick for tick, on in pressed if on == "true"] == ["safety"]
    assert page.inner_text('[data-tick="safety"]').split() == ["✓", "safety", "cable", "done"]


def test_a_tick_keeps_the_focus_and_says_what_it_did(open_page, files):
    page = open_page(unit_at(files("studio"), _first("studio")), "phone")
    page.focus('[data-tick="pan"]')
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.dataset.tick") == "pan"
    assert page.inner_text("#said") == "pan: done."


def _first(name: str) -> str:
    return rig_of(name).names[0]


def test_a_browser_that_keeps_nothing_says_so_at_once_and_the_files_still_leave_it(
    open_page, files
):
    page = open_page(files("studio"), "phone")
    page.context.add_init_script("Storage.prototype.setItem = () => { throw new Error('full'); };")
    page.goto("about:blank")
    page.goto(unit_at(files("studio"), _first("studio")))
    page.click('[data-tick="hung"]')
    page.wait_for_selector("#said:has-text('hung: done. This browser does not keep it')")
    assert "hung,yes" in saved(page, "ticks")


def test_what_is_kept_of_another_print_and_what_is_no_entry_stay_as_they_are(open_page, files):
    page = open_page(unit_at(files("studio"), _first("studio")), "phone")
    page.click('[data-tick="hung"]')
    page.evaluate(
        """() => { const key = Object.keys(localStorage).find(k => k.includes(' event '));
        localStorage.setItem(key.replace(journal.data.print, 'older'), localStorage.getItem(key));
        localStorage.setItem(key + 'x', '{"id":'); }"""
    )
    page.reload()
    page.wait_for_selector('[data-tick="hung"][aria-pressed="true"]')
    page.click("text=More")
    page.wait_for_selector("main:has-text('On this phone too: 1 entry of other prints')")


def test_a_unit_is_found_by_number_channel_and_target(open_page, files):
    page = open_page(files("playhouse") + "#find", "phone")
    rig = rig_of("playhouse")
    unit = rig.units[rig.by_name["pipe 1/2"]]
    for asked in (f"ch {unit.channel}", unit.target, "pipe 1/2", "2"):
        page.fill("[data-find]", asked)
        found = page.eval_on_selector_all("main li button", "all => all.map(b => b.textContent)")
        assert any(words.startswith("pipe 1, unit 2") for words in found), asked
    page.fill("[data-find]", f"ch {unit.channel}")
    page.press("[data-find]", "Enter")
    page.wait_for_selector(".cells")


def test_a_tap_on_the_plan_tells_what_hangs_there_and_what_lights_the_spot(open_page, files):
    page = open_page(files("studio") + "#plan", "phone")
    rig = rig_of("studio")
    k = next(k for k, a in enumerate(rig.answers) if a.face_pool and a.face_pool.closed)
    for point, heading in (
        (rig.aims.pivot[:, k], "Hung here"),
        (rig.arrays.point[:, k], "Lights this spot"),
    ):
        x, y = page.evaluate(
            """([x, y]) => { const svg = document.querySelector('svg.plan');
            svg.scrollIntoView({block: 'center'});
            const p = new DOMPoint(x * 100, -y * 100).matrixTransform(svg.getScreenCTM());
            return [p.x, p.y]; }""",
            point[:2].tolist(),
        )
        page.touchscreen.tap(x, y)
        page.wait_for_selector(f"h3:has-text('{heading}')")
        assert f"unit {rig.units[k].number}" in page.inner_text("main")


def test_what_is_read_off_a_unit_tells_where_it_lands(open_page, files):
    """The sentence is that of `aimcalc where` (tests/landings/test_where.py has its figures by hand)."""
    from aimcalc.landings.said import said
    from aimcalc.landings.where import where
    from aimcalc.text.where_text import where_text

    rig = rig_of("playhouse")
    page = open_page(unit_at(files("playhouse"), "house pipe/1"), "phone")
    k = rig.by_name["house pipe/1"]
    for fill, told in (
        ({"down": "33"}, {"down": "33"}),
        ({"down": "28", "pan": "10"}, {"down": "28", "pan": f"10 {rig.answers[k].swing}"}),
        ({"down": "", "pan": "", "sight": "12'-6\""}, {"sight": "12'-6\" SL"}),
    ):
        for key, value in fill.items():
            page.fill(f'[data-set="{key}"]', value)
        read = said(rig.scene, "house pipe", **told)
        found = where(rig, k, read, rig.answers[k].sight_out)
        passes = where_text(rig, found, "ft").splitlines()[2]
        lines = page.inner_text("[data-told]").splitlines()
        assert lines[0] == passes
        assert lines[2].startswith(("That will do", "That will not do")[not found.will_do])
    page.fill('[data-set="down"]', "steep")
    assert page.inner_text("[data-told]") == "Down: a number of degrees, 0 to 90."


def keep_a_spot(page, x: str, y: str) -> None:
    page.fill('[data-land="x"]', x)
    page.fill('[data-land="y"]', y)
    page.click('[data-land="keep"]')


def saved(page, what: str) -> str:
    page.evaluate("page.go('more')")
    with page.expect_download() as download:
        page.click(f'[data-save="{what}"]')
    return Path(download.value.path()).read_text(encoding="utf-8-sig")


def test_landings_leave_the_phone_as_the_file_that_learn_reads(open_page, files, tmp_path):
    page = open_page(unit_at(files("playhouse"), "house pipe/1"), "phone")
    keep_a_spot(page, "twelve", "9'")
    assert "A length" in page.inner_text("#said")
    page.fill('[data-set="down"]', "31")
    keep_a_spot(page, "11'-9\"", "9' 3 1/2\"")
    page.reload()
    assert "Kept: 11'-9\" SL, 9' 3 1/2\" US, DOWN 31" in page.inner_text("main")
    page.fill("[data-note]", "=2+3, iris")
    page.press("[data-note]", "Tab")
    (tmp_path / "landings.csv").write_text(saved(page, "landings"), encoding="utf-8-sig")
    rig = rig_of("playhouse")
    (spot,) = read_landings(str(tmp_path / "landings.csv"), rig).spots
    assert rig.names[spot.unit] == "house pipe/1"
    # 11'-9" and 9'-3 1/2" in metres: 141 and 111.5 inches of 25.4 mm
    assert (spot.x, spot.y, spot.down) == pytest.approx((141 * 0.0254, 111.5 * 0.0254, 31.0))
    rows = list(csv.DictReader(io.StringIO(saved(page, "ticks"))))
    assert [(r["position"], r["unit"], r["tick"], r["value"]) for r in rows] == [
        ("house pipe", "1", "note", "'=2+3, iris")
    ]


VIEWS = (
    ("unit", "pipe 1/1"),
    *((view, None) for view in ("position=0", "find", "plan", "more", "start")),
)
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
LEAST_SIDES = """all => all.map(e => e.getBoundingClientRect()).filter(r => r.height)
    .map(r => Math.min(r.height, r.width))"""


@pytest.mark.parametrize(
    ("look", "size", "views"),
    [
        ("dark", "phone", VIEWS),
        ("bright", "desktop", VIEWS),
        ("bright", "phone", VIEWS[:1]),
        ("dark", "desktop", VIEWS[:1]),
    ],
)
def test_no_rule_of_wcag_is_broken_in_either_look(open_page, files, look, size, views):
    from axe_playwright_python.sync_playwright import Axe

    page = open_page(files("playhouse") + "#more", size)
    page.click(f'[data-wear="{look}"]')
    for view, of in views:
        page.evaluate("([view, of]) => page.go(view, of ?? undefined)", [view, of])
        page.wait_for_selector(f"main[data-view='{view.partition('=')[0]}']")
        found = Axe().run(page, options={"runOnly": RULES}).response
        assert [(v["id"], [n["html"] for n in v["nodes"]]) for v in found["violations"]] == []
        low = page.eval_on_selector_all("button, input, select, textarea", LEAST_SIDES)
        assert min(low) >= GLOVE
    assert page.evaluate("document.documentElement.dataset.look") == look


def test_names_are_text_whatever_they_say(open_page, tmp_path):
    name = "<script>alert(1)</script>"
    unit = Unit(position="p", number=name, kind="k", at=1.0, target="<img src=x onerror=alert(1)>")
    scene = a_scene([unit], [Target(name=unit.target, x=0.0, y=3.0)])
    (tmp_path / "rig.html").write_bytes(phone_page(Show(scene), PaperOptions()))
    page = open_page((tmp_path / "rig.html").as_uri() + "#find", "phone")
    page.fill("[data-find]", "<script")
    page.click("main li button")
    page.wait_for_selector(".cells")
    page.click('[data-tick="hung"]')
    assert page.evaluate("document.querySelectorAll('main script, main img').length") == 0
    assert unit.target in page.inner_text("main")


def test_lengths_are_read_as_the_program_reads_them(open_page, files):
    from aimcalc.scene.lengths import parse_length

    page = open_page(files("studio"))
    typed = [
        "18'-6 1/2\"",
        "18' 6.5\"",
        "7'",
        "5.64 m",
        "564cm",
        "222in",
        "3",
        "2,5",
        '6 1/2"',
        "0'-0\"",
        "5 ft 3 in",
    ]
    told = page.evaluate("all => all.map(text => lengths.read(text, 'ft'))", typed)
    assert told == pytest.approx([parse_length(text, "ft") for text in typed], abs=1e-12)
    wrong = ["", "x", "5 SL", "5.5' 3\"", "5'13\"", "-3", "1e9", "3/0", "2000 m"]
    assert (
        page.evaluate("all => all.map(t => Number.isNaN(lengths.read(t, 'm')))", wrong)
        == [True] * 9
    )
