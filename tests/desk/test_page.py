"""The live page in a real browser: what a hand, a key and a typed value do, on a desk and on a phone."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from threading import Thread

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from aimcalc.desk import live
from aimcalc.desk.server import Desk
from aimcalc.text.lists import as_json
from tests.desk.conftest import SIZES
from tests.shows import SCENES

HOSTILE = "<script>globalThis.owned = 1</script><img src=x onerror=alert(1)>"


def opened(desk, open_page, scene="studio", size="desktop"):
    one = desk(scene)
    page = open_page(one.address, size)
    expect(page.locator("#findings li").first).to_be_visible()
    expect(page.locator("#paper svg")).to_be_attached()
    return one, page


def find(page, name):
    page.fill("#find", name)
    page.press("#find", "Enter")
    expect(page.locator("#chosen")).to_have_text(name)
    expect(page.locator("#find")).not_to_be_focused()


def middle(page, what=".live circle.mark"):
    """Where the ring round what is chosen is on the screen."""
    while (box := page.locator(what).first.bounding_box()) is None:  # it is being drawn anew
        pass
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(page, start, by, steps=12):
    page.mouse.move(*start)
    page.mouse.down()
    page.mouse.move(start[0] + by[0], start[1] + by[1], steps=steps)
    page.mouse.up()


def changes(page):
    return page.locator("#changes li:not(.gone)")


def test_a_target_is_dragged_and_its_units_follow(desk, open_page):
    one, page = opened(desk, open_page)
    name = one.live.session.show.scene.targets[0].name
    find(page, name)
    was = page.input_value("#set-x")
    drag(page, middle(page), (60, 25))
    expect(changes(page)).to_have_count(1)
    expect(changes(page)).to_contain_text(name)
    expect(page.locator("#set-x")).not_to_have_value(was)
    moved = one.live.session.show.scene.targets[0]
    assert (
        moved.x > one.live.session.base.scene.targets[0].x
    )  # the right hand of a plan is SL, which is +
    assert moved.y < one.live.session.base.scene.targets[0].y


def test_it_stays_under_the_hand(desk, open_page):
    """The mark is where the hand left it, but for the centimetre that a place is rounded to."""
    one, page = opened(desk, open_page)
    find(page, one.live.session.show.scene.targets[0].name)
    x, y = middle(page)
    drag(page, (x, y), (48, -36))
    expect(changes(page)).to_have_count(1)
    now = middle(page)
    assert now == pytest.approx((x + 48, y - 36), abs=4)


def test_a_unit_slides_along_its_pipe_and_no_other_way(desk, open_page):
    one, page = opened(desk, open_page)
    name = one.live.session.show.rig.names[1]
    find(page, name)
    drag(page, middle(page), (40, 90))
    expect(changes(page)).to_have_count(1)
    now, base = (s.rig.arrays.clamp[:, 1] for s in (one.live.session.show, one.live.session.base))
    assert now[0] > base[0]
    assert now[1:].tolist() == base[1:].tolist()


def test_a_whole_pipe_is_dragged_on_the_plan_and_trimmed_in_the_section(desk, open_page):
    one, page = opened(desk, open_page)
    pipe = one.live.session.show.scene.pipes[1]
    find(page, pipe.name)
    box = page.locator(".live .pipe").first.bounding_box()
    end = (box["x"] + 3, box["y"] + box["height"] / 2)
    drag(page, end, (0, 30))
    expect(changes(page)).to_have_count(1)
    assert one.live.session.show.scene.pipes[1].start[1] < pipe.start[1]
    page.click("[data-view=section]")
    expect(page.locator("#paper")).to_have_attribute("aria-label", "Section")
    drag(page, middle(page, ".live circle.pipe"), (0, 25))
    expect(changes(page)).to_have_count(2)
    expect(changes(page).nth(1)).to_contain_text("trim")
    assert one.live.session.show.scene.pipes[1].start[2] < pipe.start[2]


def test_typed_values_undo_redo_and_a_refused_one(desk, open_page):
    one, page = opened(desk, open_page)
    name = one.live.session.show.scene.targets[0].name
    find(page, name)
    page.fill("#set-x", "1.25 m SL")
    page.press("#set-x", "Enter")
    expect(changes(page)).to_have_text(f"{name}: 1.25 m SL")
    page.fill("#set-x", "three apples")
    page.press("#set-x", "Enter")
    expect(page.locator("#said")).to_contain_text("three apples")
    expect(changes(page)).to_have_count(1)
    page.click("#undo")
    expect(changes(page)).to_have_count(0)
    expect(page.locator("#changes .gone")).to_have_count(1)
    page.click("#redo")
    expect(changes(page)).to_have_count(1)
    page.locator("#paper").focus()
    page.keyboard.press("Control+z")
    expect(changes(page)).to_have_count(0)


def test_a_kind_a_mount_and_a_colour_are_chosen(desk, open_page):
    one, page = opened(desk, open_page)
    name = one.live.session.show.rig.names[0]
    find(page, name)
    kinds = page.locator("#set-kind option").all_text_contents()
    other = next(kind for kind in kinds if kind.startswith("fresnel"))
    page.select_option("#set-kind", other)
    expect(changes(page)).to_have_count(1)
    page.select_option("#set-mount", "over")
    expect(changes(page)).to_have_count(2)
    expect(page.locator("#ladder")).to_contain_text("OVER PIPE")
    page.fill("#set-colour", "L201")
    page.press("#set-colour", "Enter")
    expect(changes(page)).to_have_count(3)
    expect(page.locator("#ladder")).to_contain_text("L201")
    unit = one.live.session.show.rig.units[0]
    assert (unit.kind, unit.mount, unit.colour) == (other, "over", "L201")


def test_arrow_keys_move_what_is_chosen(desk, open_page):
    one, page = opened(desk, open_page)
    target = one.live.session.show.scene.targets[0]
    find(page, target.name)
    page.locator("#paper").focus()
    for _ in range(3):
        page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("ArrowUp")
    expect(changes(page)).to_have_count(1)
    now = one.live.session.show.scene.targets[0]
    assert now.x == pytest.approx(target.x + 0.75, abs=0.011)
    assert now.y == pytest.approx(target.y + 0.01, abs=0.011)


def test_a_page_that_is_loaded_again_has_lost_nothing(desk, open_page):
    one, page = opened(desk, open_page)
    name = one.live.session.show.scene.targets[0].name
    find(page, name)
    page.fill("#set-y", "1 m US")
    page.press("#set-y", "Enter")
    expect(changes(page)).to_have_count(1)
    page.reload()
    expect(changes(page)).to_have_text(f"{name}: 1.00 m US")


def test_two_pages_show_the_same(desk, open_page):
    one, page = opened(desk, open_page)
    other = open_page(one.address)
    name = one.live.session.show.scene.targets[0].name
    find(page, name)
    find(other, name)
    drag(page, middle(page), (50, 0))
    expect(changes(other)).to_have_count(1)
    typed = json.loads(one.live.told[f"t/{name}"])["typed"]["x"]
    assert typed != "0 m"
    expect(other.locator("#set-x")).to_have_value(typed)
    expect(page.locator("#set-x")).to_have_value(typed)


def test_a_lost_desk_is_told_and_found_again(desk, open_page):
    one, page = opened(desk, open_page)
    page.errors.clear()
    one.stop()
    expect(page.locator("#cut")).to_be_visible()
    expect(page.locator("#cut")).to_contain_text("does not answer")
    while True:  # until the old one has let its port go
        try:
            again = Desk(one.live.session, one.port, key=one.key)
            break
        except OSError:
            pass
    thread = Thread(target=again.serve, daemon=True)
    thread.start()
    expect(page.locator("#cut")).to_be_hidden()
    expect(page.locator("#findings li").first).to_be_visible()
    page.close()
    again.stop()
    thread.join()
    page.errors.clear()  # a line that could not be opened is what was looked for


def test_a_file_changed_in_an_editor_is_shown_and_a_mistake_told(desk, open_page, tmp_path):
    _, page = opened(desk, open_page)
    file = tmp_path / "studio" / "scene.toml"
    right = file.read_text()
    file.write_text(right.replace('title = "', 'title = "Seen again: '))
    expect(page.locator("#title")).to_contain_text("Seen again")
    file.write_text(right.replace('unit = "m"', 'unit = "ells"'))
    expect(page.locator("#trouble")).to_contain_text("ells")
    expect(page.locator("#title")).to_contain_text("Seen again")
    file.write_text(right)
    expect(page.locator("#trouble")).to_be_hidden()
    expect(page.locator("#title")).not_to_contain_text("Seen again")


def test_names_are_text_whatever_they_are(desk, open_page, tmp_path):
    folder = tmp_path / "hostile"
    shutil.copytree(SCENES / "studio", folder)
    file = folder / "scene.toml"
    plain = file.read_text()
    named = plain.replace('"chair SL"', json.dumps(HOSTILE)).replace(
        "number = 1\n", 'number = "<script>"\n'
    )
    assert named.count("<script>") > 3
    file.write_text(named)
    one, page = opened(desk, open_page, folder)
    name = next(name for name in one.live.session.show.rig.names if "<script>" in name)
    find(page, HOSTILE)
    find(page, name)
    expect(page.locator("#ladder")).to_contain_text("<script>")
    page.fill("#set-colour", HOSTILE)
    page.press("#set-colour", "Enter")
    expect(page.locator("#ladder")).to_contain_text("onerror")
    for view in ("table", "section", "model", "plan"):
        page.click(f"[data-view={view}]")
        page.wait_for_timeout(300)
    page.click("[data-view=table]")
    expect(page.locator("#table")).to_contain_text("<script>")
    assert page.evaluate(
        "[globalThis.owned, document.querySelectorAll('body script, body img').length]"
    ) == [None, 0]


def test_light_is_shown_by_system_with_holes_and_who_could_fill_them(desk, open_page):
    one, page = opened(desk, open_page, "playhouse")
    page.click("#light")
    expect(page.locator("#holes li").first).to_contain_text("Hole 1")
    expect(page.locator(".live .equal").first).to_be_attached()
    level = page.text_content("#figures")
    page.check("[name=plane][value=house]")
    expect(page.locator("#figures")).to_contain_text("Towards the house")
    page.check("[name=plane][value=level]")
    expect(page.locator("#figures")).to_have_text(level)
    before = page.locator("#holes li").count()
    page.locator("#share").fill("90")
    expect(page.locator("#figures")).not_to_have_text(level)
    assert page.text_content("#shown") == "90 %"
    page.locator("#share").fill("50")
    expect(page.locator("#holes li")).to_have_count(before)
    page.locator("#holes button").first.click()
    expect(changes(page)).to_have_count(1)
    expect(changes(page)).to_contain_text("point")
    page.select_option("#system", one.live.session.show.rig.units[0].system)
    expect(page.locator("#figures")).not_to_have_text(level)


def test_before_and_after_stand_side_by_side(desk, open_page):
    one, page = opened(desk, open_page)
    find(page, one.live.session.show.scene.targets[0].name)
    drag(page, middle(page), (50, 0))
    page.click("#before")
    expect(page.locator("#was svg")).to_be_attached()
    left, right = page.locator("#was").bounding_box(), page.locator("#now").bounding_box()
    assert left["x"] + left["width"] <= right["x"] + 1
    assert abs(left["y"] - right["y"]) < 1


def test_the_rig_stands_in_three_dimensions_and_one_choice_is_everywhere(desk, open_page):
    one, page = opened(desk, open_page)
    name = one.live.session.show.rig.names[2]
    page.click("[data-view=table]")
    page.get_by_role("button", name=name, exact=True).last.click()
    expect(page.locator("#chosen")).to_have_text(name)
    page.click("[data-view=model]")
    expect(page.locator("#model canvas")).to_be_visible()
    expect(page.locator("#chosen")).to_have_text(name)
    page.click("[data-view=plan]")
    expect(page.locator(".live text").first).to_have_text(name)


@pytest.mark.parametrize("size", SIZES)
def test_it_is_readable_and_usable_by_the_rules_of_wcag(desk, open_page, size):
    """WCAG 2.2, levels A and AA, as far as axe-core can tell."""
    one, page = opened(desk, open_page, "studio", size)
    find(page, one.live.session.show.rig.names[0])
    page.click("#light")
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
    for view in ("table", "section", "plan"):
        page.click(f"[data-view={view}]")
        found = Axe().run(page, options={"runOnly": {"type": "tag", "values": tags}}).response
        assert found["passes"]
        broken = [(v["id"], [n["html"] for n in v["nodes"]]) for v in found["violations"]]
        assert broken == [], view
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), view


def test_a_finger_drags_on_a_phone(desk, open_page):
    one, page = opened(desk, open_page, "studio", "phone")
    target = one.live.session.show.scene.targets[0]
    find(page, target.name)
    page.locator("#paper").scroll_into_view_if_needed()
    drag(page, middle(page), (30, 0))
    expect(changes(page)).to_have_count(1)
    assert one.live.session.show.scene.targets[0].x > target.x


def test_everything_is_black_or_white(desk, open_page):
    """No colour that means anything: every colour that is styled is grey, nothing lighter than half black."""
    _, page = opened(desk, open_page)
    looks = page.evaluate(
        """[...document.querySelectorAll("body *")].filter((e) => e.checkVisibility()).flatMap((e) => {
            const s = getComputedStyle(e);
            return [s.color, s.backgroundColor, s.borderTopColor, s.fill, s.stroke];
        })"""
    )
    for look in {look for look in looks if look.startswith("rgb")}:
        red, green, blue, *alpha = map(float, re.findall(r"[\d.]+", look))
        assert red == green == blue, look
        assert red in (0, 255) or alpha == [0], look


def tried(page, session):
    """Two changes by hand and one by typing."""
    scene = session.show.scene
    find(page, scene.targets[0].name)
    drag(page, middle(page), (40, 20))
    expect(changes(page)).to_have_count(1)
    find(page, session.show.rig.names[1])
    drag(page, middle(page), (30, 0))
    expect(changes(page)).to_have_count(2)
    find(page, scene.pipes[1].name)
    page.fill("#set-trim", "3.2 m")
    page.press("#set-trim", "Enter")
    expect(changes(page)).to_have_count(3)


def answers(text):
    """What `solve --json` says, but for what was set for one call alone."""
    told = json.loads(text)
    told.pop("what_if", None)
    return told


def test_the_saved_scene_solved_by_the_command_line_gives_the_same(desk, open_page, tmp_path):
    one, page = opened(desk, open_page)
    session = one.live.session
    tried(page, session)
    page.click("#save")
    page.fill("#folder", str(tmp_path / "saved"))
    page.click("dialog button[value=save]")
    expect(page.locator("#said")).to_contain_text("Saved as")
    call = [sys.executable, "-m", "aimcalc", "solve", str(tmp_path / "saved"), "--json"]
    run = subprocess.run(call, capture_output=True, check=False, timeout=60)
    assert answers(run.stdout) == answers(as_json(session.show.rig, session.show.findings))
    assert answers(run.stdout) != answers(as_json(session.base.rig, session.base.findings))
    expect(changes(page)).to_have_count(3)  # the page stays with its own scene


def test_saved_into_its_own_files_nothing_is_left_to_undo(desk, open_page, tmp_path):
    one, page = opened(desk, open_page)
    session, file = one.live.session, tmp_path / "studio" / "scene.toml"
    comments = [line for line in file.read_text().splitlines() if line.startswith("#")]
    tried(page, session)
    wanted = answers(as_json(session.show.rig, session.show.findings))
    page.click("#save")
    page.check("[name=where][value=same]")
    page.click("dialog button[value=save]")
    expect(page.locator("#said")).to_contain_text("Saved: ")
    expect(page.locator("#undo")).to_be_disabled()
    assert answers(as_json(session.base.rig, session.base.findings)) == wanted
    assert [line for line in file.read_text().splitlines() if line.startswith("#")] == comments


def test_nothing_is_saved_over_what_was_changed_meanwhile(desk, open_page, tmp_path, monkeypatch):
    monkeypatch.setattr(live, "LOOKS", 1e6)  # the desk has not seen it yet
    one, page = opened(desk, open_page)
    tried(page, one.live.session)
    file = tmp_path / "studio" / "scene.toml"
    file.write_text(file.read_text() + "# typed beside\n")
    text = file.read_text()
    page.click("#save")
    page.check("[name=where][value=same]")
    page.click("dialog button[value=save]")
    expect(page.locator("#said")).to_contain_text("changed after being read")
    assert file.read_text() == text
    expect(changes(page)).to_have_count(3)


def test_a_failure_of_ours_is_told_and_the_desk_goes_on(desk, open_page, monkeypatch):
    one, page = opened(desk, open_page)
    find(page, one.live.session.show.scene.targets[0].name)
    monkeypatch.setattr(one.live.session, "do", lambda step: 1 / 0)
    page.fill("#set-x", "1 m SL")
    page.press("#set-x", "Enter")
    expect(page.locator("#said")).to_contain_text("ZeroDivisionError")
    monkeypatch.undo()
    page.fill("#set-x", "1.5 m SL")
    page.press("#set-x", "Enter")
    expect(changes(page)).to_have_count(1)
