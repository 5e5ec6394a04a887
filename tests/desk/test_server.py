"""The desk's server as anybody on this machine may ask it, through plain sockets."""

from __future__ import annotations

import http.client
import json
import socket
import subprocess
import sys
from contextlib import suppress

import pytest
import websockets
from websockets.sync.client import connect

from aimcalc.desk import others
from tests.shows import SCENES

FILES = [
    "",
    "desk.css",
    "desk.js",
    "icon.svg",
    "three.js",
    "plan",
    "section",
    "plan-before",
    "model.glb",
]
# Ways up and out of a folder of files, as they are tried everywhere; none of these names may be found.
OUTSIDE = [
    "../scene.toml",
    "..%2f..%2fscene.toml",
    "%2e%2e/%2e%2e/etc/passwd",
    "....//scene.toml",
    "/etc/passwd",
    "//etc/passwd",
    "page/desk.js",
    "desk.js/",
    "desk.js%00.html",
    "scene.toml",
    "__init__.py",
    "..\\scene.toml",
    ".",
    "..",
]


def got(desk, path, **headers):
    """Status, headers and body of one request, sent as it is written."""
    line = http.client.HTTPConnection("127.0.0.1", desk.port, timeout=20)
    line.putrequest("GET", path, skip_host=True)
    for name, value in {"Host": f"127.0.0.1:{desk.port}", **headers}.items():
        line.putheader(name, value)
    line.endheaders()
    answer = line.getresponse()
    body = answer.read()
    line.close()
    return answer.status, {k.lower(): v for k, v in answer.getheaders()}, body


@pytest.mark.parametrize("name", FILES)
def test_the_page_has_its_files_under_the_policy(desk, name):
    one = desk()
    status, headers, body = got(one, f"/{one.key}/{name}")
    assert status == 200
    assert len(body) > 100
    assert headers["content-security-policy"].startswith("default-src 'none'; script-src 'self';")
    assert headers["x-content-type-options"] == "nosniff"
    assert "server" not in headers


def test_nothing_else_is_here(desk):
    one = desk()
    for path in OUTSIDE:
        status, _, body = got(one, f"/{one.key}/{path}")
        assert status == 404, path
        assert b"root:" not in body
        assert b"[[" not in body


def test_without_the_key_or_from_elsewhere_nothing_is_told(desk):
    one = desk()
    assert got(one, "/")[0] == 404
    assert got(one, "/desk.js")[0] == 404
    assert got(one, f"/{one.key[:-1]}/")[0] == 404
    assert got(one, f"/{one.key}/", Host="evil.example")[0] == 403
    assert got(one, f"/{one.key}/", Host=f"localhost:{one.port}")[0] == 403
    assert got(one, f"/{one.key}/plan", Origin="http://evil.example")[0] == 403


def line_to(desk, key=None, host="127.0.0.1", **options):
    """A line to the live socket; `host` is a name for this machine."""
    return connect(
        f"ws://{host}:{desk.port}/{key or desk.key}/live",
        sock=socket.create_connection(("127.0.0.1", desk.port), 20),
        max_size=None,
        **{"origin": f"http://{host}:{desk.port}", **options},
    )


def opened(desk, **options):
    """What the live socket says first, or the status that refused it."""
    try:
        with line_to(desk, **options) as line:
            return json.loads(line.recv(20))
    except websockets.exceptions.InvalidStatus as refused:
        return refused.response.status_code


def test_the_socket_answers_our_page_alone(desk):
    one = desk()
    assert "set" in opened(one)
    assert opened(one, key="x" * 22) == 403
    assert opened(one, origin="http://evil.example") == 403
    assert opened(one, origin=None) == 403
    assert opened(one, host="evil.example") == 403


def test_what_no_page_of_ours_sends_ends_its_line_and_nothing_else(desk):
    one = desk()

    def send(text):
        with line_to(one) as line, suppress(websockets.exceptions.ConnectionClosed):
            line.send(text)
            while True:
                line.recv(20)
        return line.protocol.close_code

    for text in (
        '{"do":"run","what":"rm"}',
        "[",
        '{"do":"move","n":"x"}',
        '{"do":"undo"' + " " * 9 + "}}",
    ):
        assert send(text) == 1007
    assert send("x" * 70_000) == 1009
    assert "set" in opened(one)


def test_it_listens_on_this_machine_alone(desk):
    one = desk()
    assert one.socket.getsockname()[0] == "127.0.0.1"
    assert one.address.startswith(f"http://127.0.0.1:{one.port}/")


def test_a_second_desk_of_a_scene_is_told_of_the_first(desk):
    first = desk()
    while not others.open_at(first.scene):  # it has begun to listen
        pass
    second = desk()
    assert first.others == ""
    assert "Another desk" in second.others
    assert desk("raked").others == ""


def test_a_desk_that_died_is_no_other_desk(tmp_path):
    with socket.create_server(("127.0.0.1", 0)) as gone:
        port = gone.getsockname()[1]
    others._write(str(tmp_path), [port])
    assert others.open_at(str(tmp_path)) == []
    others.leave(str(tmp_path), port)


def test_the_command_prints_its_address_first_and_ends_cleanly():
    """As a terminal sends Ctrl-C: SIGINT."""
    import signal

    call = [sys.executable, "-m", "aimcalc", "desk", str(SCENES / "studio"), "--no-browser"]
    with subprocess.Popen(call, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as run:
        address = run.stdout.readline().strip()
        port, key = address.removeprefix("http://127.0.0.1:").strip("/").split("/")
        line = http.client.HTTPConnection("127.0.0.1", int(port), timeout=20)
        line.request("GET", f"/{key}/")
        assert line.getresponse().status == 200
        run.send_signal(signal.SIGINT)
        said, told = run.communicate(timeout=20)
        assert (run.returncode, said) == (0, "")
        assert "Traceback" not in told


def test_a_port_that_is_taken_is_told(desk):
    one = desk()
    call = [
        sys.executable,
        "-m",
        "aimcalc",
        "desk",
        str(SCENES / "studio"),
        "--port",
        str(one.port),
    ]
    run = subprocess.run(call, capture_output=True, text=True, timeout=60)
    assert run.returncode == 2
    assert f"Port {one.port} cannot be had" in run.stderr


def told_until(line, known, test):
    """Hear a line, what it tells gathered in `known`, until a message meets a test; that message."""
    while True:
        message = json.loads(line.recv(20))
        known.update(message["set"])
        if test(message):
            return message


def test_of_moves_that_wait_the_latest_wins_and_the_drawing_is_not_sent_again(desk):
    one, known = desk(), {}
    with line_to(one) as line:
        told_until(line, known, lambda message: "findings" in message["set"])
        name = next(key[2:] for key in known if key.startswith("t/"))
        last = 200
        for n in range(1, last + 1):
            move = {"do": "move", "n": n, "sort": "target", "name": name, "x": n / 100, "y": 0.5}
            line.send(json.dumps(move))
        answers, sizes = [], []
        told_until(
            line,
            known,
            lambda m: answers.append(m["n"]) or sizes.append(m["set"]) or m["n"] == last,
        )
        assert len(set(answers)) < last  # those between were left out
        assert known[f"t/{name}"]["at"][0] == last / 100
        moved = {key for fresh in sizes for key in fresh if key.startswith("u/")}
        others_units = {
            key for key in known if key.startswith("u/") and known[key]["target"] != name
        }
        assert moved.isdisjoint(others_units)
        assert all("drawn" not in fresh for fresh in sizes)
    with line_to(one) as line:  # the hand that held it is gone, and it stays where it was
        told_until(line, known, lambda message: known["changes"]["done"] != [])
    assert known["t/" + name]["at"][0] == last / 100


def test_two_hands_take_nothing_from_each_other(desk):
    one, known = desk(), {}
    with line_to(one) as first, line_to(one) as second:
        told_until(first, known, lambda message: "findings" in message["set"])
        names = [key[2:] for key in known if key.startswith("t/")][:2]
        for n, (line, name) in enumerate(zip((first, second), names, strict=True), 1):
            move = {"do": "move", "n": n, "sort": "target", "name": name, "x": n / 4, "y": 0.5}
            line.send(json.dumps(move))
            told_until(first, known, lambda m, name=name, n=n: known[f"t/{name}"]["at"][0] == n / 4)
        second.send('{"do":"drop"}')
        told_until(first, known, lambda message: len(known["changes"]["done"]) == 2)
        assert [known[f"t/{name}"]["at"][0] for name in names] == [0.25, 0.5]
