"""Who gets an answer from a server of ours: what knows its key, from our own page, at our own address."""

from __future__ import annotations

import pytest

from aimcalc.desk.guard import Guard, headers_for, new_key

KEY, HOST = "the-key", "127.0.0.1:8123"
OURS = "http://127.0.0.1:8123"
# Names of this machine and of others, keys and ways that a page of somebody else might try.
FOREIGN_HOSTS = [
    "evil.example",
    "evil.example:8123",
    "127.0.0.1",
    "127.0.0.1:8124",
    "localhost:8123",
]
FOREIGN_ORIGINS = [
    "http://evil.example",
    "null",
    "https://127.0.0.1:8123",
    "http://127.0.0.1:8124",
    "",
]
WRONG_PATHS = ["/", "", "//", "/the-ke", "/the-key-", "/THE-KEY", "/../the-key", "/desk.js", "/é"]


def run(coroutine):
    """What a coroutine gives that waits for nothing."""
    with pytest.raises(StopIteration) as ended:
        coroutine.send(None)
    return ended.value.value


async def asked(path, headers, kind="http", method="GET"):
    """The status that a request gets, and what the application behind the guard saw."""
    seen, sent = [], []

    async def app(scope, receive, send):
        seen.append(scope)
        await send({"type": "http.response.start", "status": 200, "headers": []})

    async def send(message):
        sent.append(message)

    raw = [(k.lower().encode(), v.encode()) for k, v in headers]
    scope = {"type": kind, "path": path, "headers": raw, "method": method, "root_path": ""}
    await Guard(app, KEY, [HOST])(scope, None, send)
    return sent[0], seen


def answer(path="/the-key/", host=HOST, origin=None, **more):
    headers = [("Host", host)] if host is not None else []
    headers += [] if origin is None else [("Origin", origin)]
    return run(asked(path, headers, **more))


def test_our_own_page_gets_its_answer_with_the_policy():
    first, seen = answer()
    assert first["status"] == 200
    assert seen[0]["root_path"] == "/the-key"
    assert dict(first["headers"])[b"content-security-policy"].startswith(
        b"default-src 'none'; script-src 'self';"
    )


@pytest.mark.parametrize("host", [*FOREIGN_HOSTS, None])
def test_another_host_gets_nothing(host):
    first, seen = answer(host=host)
    assert (first["status"], seen) == (403, [])


@pytest.mark.parametrize("origin", FOREIGN_ORIGINS)
@pytest.mark.parametrize("kind", ["http", "websocket"])
def test_another_origin_gets_nothing(origin, kind):
    first, seen = answer(origin=origin, kind=kind)
    assert seen == []
    assert first == {"type": "websocket.close", "code": 1008} or first["status"] == 403


def test_a_socket_needs_our_origin_and_key():
    assert answer(kind="websocket", origin=OURS)[1] != []
    assert answer(kind="websocket")[1] == []
    assert answer(kind="websocket", origin=OURS, path="/other/live")[1] == []
    assert answer(kind="websocket", origin="http://evil.example", host="evil.example")[1] == []


def test_two_hosts_or_two_origins_are_none():
    headers = [("Host", HOST), ("Host", HOST)]
    assert run(asked("/the-key/", headers))[0]["status"] == 403
    headers = [("Host", HOST), ("Origin", OURS), ("Origin", "http://evil.example")]
    assert run(asked("/the-key/", headers))[0]["status"] == 403


@pytest.mark.parametrize("path", WRONG_PATHS)
def test_without_the_key_nothing_is_here(path):
    first, seen = answer(path=path)
    assert (first["status"], seen) == (404, [])


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS"])
def test_nothing_is_sent_to_us_by_request(method):
    assert answer(method=method)[0]["status"] == 405


def test_keys_are_long_and_differ():
    keys = {new_key() for _ in range(1000)}
    assert len(keys) == 1000
    assert min(map(len, keys)) >= 21  # 128 bits at 6 a letter


def test_the_policy_lets_nothing_but_our_own_files_run():
    """As the Content Security Policy level 3 reads it: nothing unsafe, no other host, no frame around us."""
    policy = dict(headers_for([HOST]))[b"content-security-policy"].decode()
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == rules["style-src"] == "'self'"
    assert rules["connect-src"] == f"'self' ws://{HOST}"
    assert rules["frame-ancestors"] == rules["base-uri"] == rules["form-action"] == "'none'"
    assert "unsafe" not in policy
