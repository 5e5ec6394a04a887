"""Who may speak to a server of ours: the page that was given its key, at the address it was given.

A page of the web that somebody has open beside ours can make a browser ask any address of this machine. It
cannot know the key, its requests name it as their origin, and a name that it points at this machine is not
our host.
"""

from __future__ import annotations

import secrets
from collections.abc import Collection
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple

if TYPE_CHECKING:
    import uvicorn
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

LOOPBACK = "127.0.0.1"  # this machine, and nobody else
KEY_BYTES = 16  # of randomness in an address
REFUSED = 1008  # RFC 6455, 7.4.1: a policy was not kept
NOT_HERE = b"Nothing is here. Open the address that aimcalc printed, with its key."
NOT_ASKED = b"This may be read only from the address that aimcalc printed."
METHODS = ("GET", "HEAD")


def new_key() -> str:
    """A key for one run of a server, 128 random bits as letters that an address may hold."""
    return secrets.token_urlsafe(KEY_BYTES)


def server_of(app: ASGIApp, longest: int) -> uvicorn.Server:
    """A server of a guarded application: it logs errors alone, and takes messages of `longest` bytes."""
    import uvicorn

    config = uvicorn.Config(
        app,
        log_level="error",
        access_log=False,
        server_header=False,
        proxy_headers=False,
        ws_max_size=longest,
        timeout_graceful_shutdown=1,
    )
    return uvicorn.Server(config)


class Refusal(NamedTuple):
    """Why a request gets nothing."""

    status: int
    says: bytes


class Guard:
    """An ASGI application that hands on what asks with the key, from our own page, at one of our hosts.

    `hosts` are "127.0.0.1:8000" and the like, as a browser writes them. The address of a page is
    http://HOST/KEY/; what `app` sees of it is the rest, with the key in `root_path`. Everything that it
    answers carries the headers of `headers`.
    """

    def __init__(self, app: ASGIApp, key: str, hosts: Collection[str]) -> None:
        self.app = app
        self.key = key
        self.hosts = frozenset(host.lower() for host in hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand on, or refuse."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        refusal = self.refusal(scope)
        if refusal is not None:
            await _refuse(scope["type"], refusal, send)
            return
        headers = headers_for(self.hosts)

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *headers]
            await send(message)

        await self.app({**scope, "root_path": f"/{self.key}"}, receive, with_headers)

    def refusal(self, scope: Scope) -> Refusal | None:
        """Why a request is refused; None for one that may go on.

        An origin is asked of everything that has one, and of every WebSocket: those are the requests that
        pages of others can make without being asked first.
        """
        hosts, origins = _all(scope, b"host"), _all(scope, b"origin")
        if len(hosts) != 1 or hosts[0].lower() not in self.hosts:
            return Refusal(403, NOT_ASKED)
        ours = f"http://{hosts[0].lower()}"
        if [origin for origin in origins if origin.lower() != ours]:
            return Refusal(403, NOT_ASKED)
        if scope["type"] == "websocket" and len(origins) != 1:
            return Refusal(403, NOT_ASKED)
        if scope["type"] == "http" and scope["method"] not in METHODS:
            return Refusal(405, NOT_ASKED)
        given = scope["path"].lstrip("/").partition("/")[0].encode()
        return None if secrets.compare_digest(given, self.key.encode()) else Refusal(404, NOT_HERE)


def headers_for(hosts: Collection[str]) -> list[tuple[bytes, bytes]]:
    """What tells a browser to run nothing but our own files, keep nothing and tell nobody the address.

    Sockets are named beside 'self', which not every browser counts them to.
    """
    sockets = " ".join(f"ws://{host}" for host in sorted(hosts))
    policy = (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
        f"connect-src 'self' {sockets}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    )
    return [
        (b"content-security-policy", policy.encode()),
        (b"x-content-type-options", b"nosniff"),
        (b"referrer-policy", b"no-referrer"),
        (b"cross-origin-resource-policy", b"same-origin"),
        (b"cross-origin-opener-policy", b"same-origin"),
        (b"cache-control", b"no-store"),
    ]


def _all(scope: Scope, name: bytes) -> list[str]:
    return [value.decode("latin-1") for key, value in scope["headers"] if key.lower() == name]


async def _refuse(kind: str, refusal: Refusal, send: Send) -> None:
    if kind == "websocket":  # the server answers the handshake with 403
        await send({"type": "websocket.close", "code": REFUSED})
        return
    plain = [
        (b"content-type", b"text/plain; charset=utf-8"),
        (b"content-length", str(len(refusal.says)).encode()),
        (b"x-content-type-options", b"nosniff"),
    ]
    await send({"type": "http.response.start", "status": refusal.status, "headers": plain})
    await send({"type": "http.response.body", "body": refusal.says})
