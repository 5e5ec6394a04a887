"""The crew's page on phones: live between two of them, through broken links and restarts, and locked."""

from __future__ import annotations

import json
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from pathlib import Path
from threading import Thread

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from websockets.exceptions import ConnectionClosed, InvalidStatus
from websockets.sync.client import connect

from aimcalc import cli
from aimcalc.desk.crew import Crew, code_svg, code_text
from aimcalc.desk.crew_journal import Event, Journal, JournalError
from aimcalc.sheets.prep import options_for
from tests.desk.conftest import SLOW
from tests.shows import a_show, rig_of

ROOT = Path(__file__).parents[2]
SCENE = "studio"
FIRST = rig_of(SCENE).names[0]


class Served:
    """A crew page served by this process, that can be stopped and begun again."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.begin()

    def begin(self) -> None:
        self.journal = Journal(str(self.path))
        show = a_show(rig_of(SCENE))
        self.crew = Crew(show, options_for(show.rig), self.journal, "127.0.0.1", None)
        self.thread = Thread(target=self.crew.serve, daemon=True)
        self.thread.start()

    def end(self) -> None:
        self.crew.stop()
        self.thread.join(SLOW / 1000)
        assert not self.thread.is_alive()
        self.journal.close()

    @property
    def link(self) -> str:
        return self.crew.address.replace("http:", "ws:") + "link"

    def at(self, view: str) -> str:
        return f"{self.crew.address}#{view}"


@pytest.fixture
def served(tmp_path):
    crew = Served(tmp_path / "crew.sqlite")
    yield crew
    crew.end()


def unit_view(name: str = FIRST) -> str:
    return f"unit={name.replace(' ', '%20').replace('/', '%2F')}"


def linked(page, words: str = "Linked: all is sent.") -> None:
    page.wait_for_selector(f"#link:has-text('{words}')")


def without_links(*pages) -> None:
    """Take the links out of what the browser told of that it could not have."""
    for page in pages:
        page.errors[:] = [error for error in page.errors if "/link' failed" not in error]


def test_what_one_phone_ticks_the_other_and_the_board_see_as_it_is_ticked(served, open_page):
    one, two = (open_page(served.at(unit_view()), "phone") for _ in range(2))
    board = open_page(served.at("board"))
    for page in (one, two, board):
        linked(page)
    one.click('[data-tick="hung"]')
    two.wait_for_selector('[data-tick="hung"][aria-pressed="true"]')
    board.wait_for_selector(f"li:has-text('{FIRST}, hung: done')")
    position, _ = FIRST.rsplit("/", 1)
    cells = board.inner_text(f"tr:has-text('{position}')").split("\t")
    assert cells[2:4] == ["1", "0"]
    two.fill('[data-land="x"]', "1 m")
    two.fill('[data-land="y"]', "2 m")
    two.click('[data-land="keep"]')
    one.wait_for_selector("text=Kept: 1 m SL, 2 m US")
    assert one.evaluate("journal.open(journal.data.units[0].name, 'landing').length") == 1


def test_a_phone_without_a_link_goes_on_and_catches_up(served, open_page):
    page = open_page(served.at(unit_view()), "phone")
    linked(page)
    served.end()
    linked(page, "Not linked")
    page.click('[data-tick="safety"]')
    page.click('[data-tick="tail"]')
    linked(page, "2 entries wait on this phone, sent later")
    served.begin()  # the same file: the same key and port
    linked(page)
    assert {kept.event.what for kept in _every(served)} == {"safety", "tail"}
    second = open_page(served.at(unit_view()), "phone")
    second.wait_for_selector('[data-tick="tail"][aria-pressed="true"]')
    without_links(page)


def _every(served):
    return served.journal.since(served.crew.link.print, 0, 1_000)


def test_what_two_phones_tick_differently_without_a_link_is_told_on_the_board(served, open_page):
    one, two = (open_page(served.at(unit_view()), "phone") for _ in range(2))
    one.click('[data-tick="hung"]')
    two.wait_for_selector('[data-tick="hung"][aria-pressed="true"]')
    served.end()
    for page in (one, two):
        linked(page, "Not linked")
    one.click('[data-tick="hung"]')
    two.click('[data-tick="hung"]')
    two.click('[data-tick="hung"]')
    served.begin()
    for page in (one, two):
        page.wait_for_selector('[data-tick="hung"]:has-text("phones differ: look")')
        assert page.get_attribute('[data-tick="hung"]', "aria-pressed") == "false"
    board = open_page(served.at("board"))
    board.wait_for_selector(f"button:has-text('{FIRST}: hung')")
    without_links(one, two)


def test_no_rule_of_wcag_is_broken_by_the_board(served, open_page):
    from axe_playwright_python.sync_playwright import Axe

    for size in ("phone", "desktop"):
        page = open_page(served.at("board"), size)
        linked(page)
        rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
        found = Axe().run(page, options={"runOnly": rules}).response["violations"]
        assert [(each["id"], [n["html"] for n in each["nodes"]]) for each in found] == []
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


# --- What is sent, by hand ---------------------------------------------------------------------------


def an_event(name: str = "E1", **values: object) -> dict[str, object]:
    event = {"id": name, "when": "2025-11-14T16:02:09.120Z", "phone": "phone A", "unit": FIRST}
    return {**event, "what": "hung", "value": True, "over": [], **values}


def origin(served) -> str:
    return f"http://127.0.0.1:{served.crew.port}"


def linked_by_hand(served):
    """A link, left to the server's end to close."""
    return connect(served.link, origin=origin(served), open_timeout=10).__enter__()


class Hand:
    """A link spoken by hand: says hello, and gives the answers to what it sends."""

    def __init__(self, served, **hello: object) -> None:
        self.socket = linked_by_hand(served)
        self.say(type="hello", **{"print": served.crew.link.print, **hello})
        self.first, self.missed = self.hear(), []
        while not (told := self.hear()).get("ready"):
            self.missed += told.get("events", [])

    def say(self, **told: object) -> None:
        self.socket.send(json.dumps(told))

    def hear(self) -> dict[str, object]:
        return json.loads(self.socket.recv(timeout=10))

    def send(self, *events: object) -> dict[str, object]:
        self.say(type="events", events=list(events))
        while "kept" not in (told := self.hear()):
            pass
        return told


def test_an_entry_that_was_answered_for_is_on_the_disk_and_sent_again_it_changes_nothing(served):
    hand = Hand(served)
    for _ in range(3):
        assert hand.send(an_event()) == {"kept": ["E1"], "refused": []}
    with sqlite3.connect(served.path) as base:
        assert base.execute("select count(*) from event").fetchone() == (1,)
    again = Hand(served)
    assert [event["id"] for event in again.missed] == ["E1"]
    name = served.crew.link.name
    assert Hand(served, journal=name, have=_every(served)[-1].seq).missed == []
    assert [e["id"] for e in Hand(served, journal="another", have=99).missed] == ["E1"]


@pytest.mark.parametrize(
    "wrong",
    [
        {"unit": "no/such"},
        {"what": "rigged"},
        {"value": "yes"},
        {"what": "landing", "value": True},
        {"what": "landing", "value": {"x": "1 m SL", "z": "2"}},
        {"what": "note", "value": "x" * 501},
        {"id": "A+B"},
        {"id": ""},
        {"when": "yesterday"},
        {"over": ["x"] * 51},
        {"more": 1},
    ],
)
def test_an_entry_that_is_none_is_refused_alone_and_the_link_stays(served, wrong):
    hand = Hand(served)
    told = hand.send({**an_event("bad"), **wrong}, an_event("good"))
    assert told["kept"] == ["good"]
    assert len(told["refused"]) == 1
    assert [kept.event.id for kept in _every(served)] == ["good"]


@pytest.mark.parametrize(
    "said", ["", "no json", "[]", '{"type":"events","events":3}', '{"type":"x"}']
)
def test_a_message_that_is_none_ends_the_link_and_keeps_nothing(served, said):
    hand = Hand(served)
    hand.socket.send(said)
    with pytest.raises(ConnectionClosed):
        hand.socket.recv(timeout=10)
    assert _every(served) == []
    assert Hand(served).send(an_event())["kept"] == ["E1"]


def test_a_page_of_an_older_print_is_told_so_and_what_it_ticked_is_kept_apart(served):
    hand = Hand(served, print="older")
    assert hand.first["other"] is True
    assert hand.send(an_event(unit="gone/1"))["kept"] == ["E1"]
    assert _every(served) == []
    assert served.journal.count(served.crew.link.print) == (0, 1)


@pytest.mark.parametrize(
    "wrong",
    [
        {"origin": "http://evil.example"},
        {"origin": None},
        {"path": "ws://127.0.0.1:{port}/link"},
        {"path": "ws://127.0.0.1:{port}/not-the-key/link"},
    ],
)
def test_a_link_is_had_with_the_key_from_our_own_page_alone(served, wrong):
    path = wrong.pop("path", served.link).format(port=served.crew.port)
    with (
        pytest.raises((InvalidStatus, ConnectionClosed, ValueError)) as refusal,
        connect(path, **{"origin": origin(served), **wrong}) as link,
    ):
        link.recv(timeout=5)
    if isinstance(refusal.value, InvalidStatus):
        assert refusal.value.response.status_code == 403


def test_a_name_that_somebody_points_at_this_machine_is_not_our_host(served):
    lines = (
        f"GET /{served.crew.key}/link HTTP/1.1",
        "Host: evil.example",
        "Upgrade: websocket",
        "Connection: Upgrade",
        "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==",
        "Sec-WebSocket-Version: 13",
        "Origin: http://evil.example",
    )
    with socket.create_connection(("127.0.0.1", served.crew.port), timeout=10) as ours:
        ours.sendall("\r\n".join([*lines, "", ""]).encode())
        assert ours.recv(64).startswith(b"HTTP/1.1 403")


def test_nothing_but_the_page_is_served(served, open_page):
    page = open_page(served.crew.address)
    ask = "async path => (await fetch(path)).status"
    for path in ("page.css", "page.js", "address.svg"):
        assert page.evaluate(ask, path) == 200
    for path in ("crew.sqlite", "../", "/", "scene.toml", "%2e%2e/scene.toml", "page.html"):
        assert page.evaluate(ask, path) == 404
    page.errors.clear()


# --- The journal -------------------------------------------------------------------------------------

NAMES = st.lists(st.integers(0, 9), max_size=8)


@settings(deadline=None, max_examples=12)
@given(st.lists(NAMES, max_size=6))
def test_entries_sent_in_any_order_and_any_number_of_times_are_there_once(
    tmp_path_factory, batches
):
    path = str(tmp_path_factory.mktemp("journal") / "crew.sqlite")
    for batch in batches:  # a restart before each
        journal = Journal(path)
        journal.add("p", [_made(k) for k in batch])
        journal.close()
    journal = Journal(path)
    names = [kept.event.id for kept in journal.since("p", 0, 1_000)]
    journal.close()
    assert names == list(dict.fromkeys(f"E{k}" for batch in batches for k in batch))


def _made(k: int) -> Event:
    return Event(f"E{k}", "2025-11-14T16:02:09.120Z", "phone A", "p/1", "hung", True, [])


def test_a_file_that_is_no_journal_is_refused_and_left_as_it_is(tmp_path):
    (tmp_path / "notes.txt").write_text(
        "no journal, but a text that is long enough to be looked at" * 20
    )
    before = (tmp_path / "notes.txt").read_bytes()
    with pytest.raises(
        JournalError, match=r"notes\.txt cannot keep .* Name another file with --keep"
    ):
        Journal(str(tmp_path / "notes.txt"))
    assert (tmp_path / "notes.txt").read_bytes() == before
    with pytest.raises(JournalError, match="unable to open"):
        Journal(str(tmp_path / "no" / "such" / "folder"))


def test_what_holds_the_key_is_nobody_else_s_to_read(served):
    Hand(served).send(an_event())
    beside = list(served.path.parent.glob("crew.sqlite*"))
    assert len(beside) > 1
    assert {file.stat().st_mode & 0o077 for file in beside} == {0}


# --- The command --------------------------------------------------------------------------------------


def test_the_address_is_a_code_for_phones_and_a_file_for_screens():
    svg = code_svg("http://192.0.2.7:8123/the-key/").decode()
    assert svg.count("<path") == 2
    assert 'fill="#fff"' in svg
    assert len(code_text("http://192.0.2.7:8123/the-key/").splitlines()) > 10


def test_the_command_prints_the_address_serves_and_ends_by_interrupt(tmp_path):
    call = [sys.executable, "-m", "aimcalc", "crew", str(ROOT / "scenes" / SCENE)]
    call += ["--host", "127.0.0.1", "--keep", str(tmp_path / "crew.sqlite")]
    addresses = []
    for _ in range(2):  # a restart has the address of before
        with subprocess.Popen(
            call, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        ) as run:
            addresses.append(run.stdout.readline().strip())
            assert re.fullmatch(r"http://127\.0\.0\.1:\d+/[\w-]{22}/", addresses[-1])
            _wait_for(addresses[-1])
            run.send_signal(signal.SIGINT)
            out, errors = run.stdout.read(), run.stderr.read()
            assert run.wait(20) == 0
            assert "█" in out or "▄" in out
            assert "This machine alone can open it" in errors
            assert "Traceback" not in errors
    assert addresses[0] == addresses[1]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (("--host", "192.0.2.200"), "Cannot listen at 192.0.2.200: "),
        (("--keep", "no/such/folder/x"), "cannot keep what the crew ticks: unable to open"),
    ],
)
def test_what_cannot_be_had_is_told_in_a_sentence(tmp_path, capfd, asked, said):
    kept = () if "--keep" in asked else ("--keep", str(tmp_path / "crew.sqlite"))
    assert cli.run(["crew", str(ROOT / "scenes" / SCENE), *asked, *kept]) == 2
    told = capfd.readouterr()
    assert said in told.err
    assert told.out == ""


def _wait_for(address: str) -> None:
    link = address.replace("http:", "ws:") + "link"
    ours = address.rsplit("/", 2)[0]
    for _ in range(100):
        try:
            with connect(link, origin=ours):
                return
        except OSError:
            time.sleep(0.05)
    raise AssertionError("nothing answers")
