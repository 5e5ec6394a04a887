"""The crew's page on phones: the page of `rig.html`, and the link by which ticks and landings arrive.

It alone may listen beyond this machine, since phones are other machines; `aimcalc.desk.guard` looks at all
that asks. A phone first hears what it has missed, then sends what is new on it, and is told what was kept;
what it was not told of it sends again.
"""

from __future__ import annotations

import asyncio
import io
import socket
from collections.abc import Awaitable, Callable
from contextlib import suppress
from typing import TYPE_CHECKING, Any

import msgspec
from starlette.applications import Starlette
from starlette.responses import Response
from starlette.routing import Route, WebSocketRoute
from starlette.websockets import WebSocket, WebSocketDisconnect

from aimcalc.desk.crew_journal import Event, Journal, JournalError, Kept
from aimcalc.desk.guard import LOOPBACK, Guard, new_key, server_of
from aimcalc.sheets.phone.page import served_page

if TYPE_CHECKING:
    from starlette.requests import Request

    from aimcalc.show import Show
    from aimcalc.text.stamp import PaperOptions

NOWHERE = ("192.0.2.1", 9)  # RFC 5737: an address that is nobody's; nothing is sent to it
LONGEST = 1 << 20  # bytes of a message from a phone
AT_ONCE = 500  # entries in a message to a phone
MOST_WAITING = 1_000  # messages that a phone has not taken: it is let go, and asks again
NOT_SENT = 1007  # RFC 6455, 7.4.1: a message that is not of the sort expected


class Hello(msgspec.Struct, tag="hello", forbid_unknown_fields=True):
    """What a phone says first: the print its page is of, the journal it last heard, how far."""

    print: str
    journal: str = ""
    have: int = 0


class Sent(msgspec.Struct, tag="events", forbid_unknown_fields=True):
    """Entries of a phone, each as it is: what is none is refused by itself."""

    events: list[dict[str, Any]]


class Phone:
    """One page that is linked."""

    def __init__(self, of: str) -> None:
        self.print = of
        self.out: asyncio.Queue[bytes] = asyncio.Queue(MOST_WAITING)
        self.gone = False

    def tell(self, **told: Any) -> None:
        """Put a message in its line; one whose line is full has gone."""
        try:
            self.out.put_nowait(msgspec.json.encode(told))
        except asyncio.QueueFull:
            self.gone = True


class Link:
    """All phones that are linked, and the journal that they share."""

    def __init__(self, journal: Journal, of: str, units: frozenset[str]) -> None:
        self.journal, self.print, self.units = journal, of, units
        self.name = journal.get("name") or new_key()
        journal.put("name", self.name)
        self.phones: set[Phone] = set()
        self.turn = asyncio.Lock()

    async def enter(self, hello: Hello) -> Phone:
        """A phone comes in, and is told what it has missed before anything else."""
        phone = Phone(hello.print)
        seq = hello.have if hello.journal == self.name else 0
        async with self.turn:  # nothing is added between what it has missed and what comes new
            phone.tell(journal=self.name, other=hello.print != self.print)
            while missed := await self._read(phone.print, seq):
                seq = missed[-1].seq
                phone.tell(events=[kept.event for kept in missed], seq=seq)
            phone.tell(ready=True)
            self.phones.add(phone)
        return phone

    async def _read(self, of: str, seq: int) -> list[Kept]:
        return await asyncio.to_thread(self.journal.since, of, seq, AT_ONCE)

    async def take(self, phone: Phone, sent: Sent) -> None:
        """Keep what a phone sent, answer for it when it is on disk, and tell the others."""
        events, refused = [], []
        for raw in sent.events:
            event = self._sound(phone, raw)
            if event is None:
                refused.append(str(raw.get("id", "")))
            else:
                events.append(event)
        async with self.turn:
            try:
                fresh = await asyncio.to_thread(self.journal.add, phone.print, events)
            except JournalError as error:
                phone.tell(trouble=str(error))
                return
            phone.tell(kept=[event.id for event in events], refused=refused)
            if fresh:
                for other in self.phones:
                    if other.print == phone.print:
                        other.tell(events=[kept.event for kept in fresh], seq=fresh[-1].seq)

    def _sound(self, phone: Phone, raw: dict[str, Any]) -> Event | None:
        """An entry that can be one of this show; None of anything else."""
        try:
            event = msgspec.convert(raw, Event)
        except msgspec.ValidationError:
            return None
        known = phone.print != self.print or event.unit in self.units
        return event if event.sound and known else None


class Crew:
    """The page of one show, ready to be served at `address`."""

    def __init__(
        self, show: Show, options: PaperOptions, journal: Journal, host: str, port: int | None
    ) -> None:
        """Listen; raises OSError where that cannot be. Without a port it is the one of last time, if free."""
        self.page = served_page(show, options)
        names = frozenset(name for name in show.rig.names if options.holds(name))
        self.link = Link(journal, self.page.print, names)
        self.socket = _listen(host, port, journal.get("port"))
        self.port: int = self.socket.getsockname()[1]
        self.key = journal.get("key") or new_key()
        journal.put("key", self.key)
        journal.put("port", str(self.port))
        self.host = own_address() if host == "0.0.0.0" else host
        hosts = {self.host, LOOPBACK, "localhost"} if host == "0.0.0.0" else {host}
        self.app = Guard(self._application(), self.key, [f"{each}:{self.port}" for each in hosts])
        self.server = server_of(self.app, LONGEST)

    @property
    def address(self) -> str:
        """The address of the page, key and all."""
        return f"http://{self.host}:{self.port}/{self.key}/"

    def serve(self) -> None:
        """Serve until Ctrl-C or `stop` ends it."""
        with suppress(KeyboardInterrupt):  # which the server hands on when it has ended
            self.server.run(sockets=[self.socket])
        self.socket.close()

    def stop(self) -> None:
        """End serving, from any thread."""
        self.server.should_exit = True

    def _application(self) -> Starlette:
        page = self.page
        files = {
            "/": (page.html, "text/html"),
            "/page.css": (page.look, "text/css"),
            "/page.js": (page.script, "text/javascript"),
            "/icon.svg": (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "image/svg+xml"),
        }
        routes = [Route(path, _file(*file)) for path, file in files.items()]
        routes.append(Route("/address.svg", self._code))
        app = Starlette(routes=[*routes, WebSocketRoute("/link", self._linked)])
        app.router.redirect_slashes = False
        return app

    async def _code(self, request: Request) -> Response:
        return Response(code_svg(self.address), media_type="image/svg+xml")

    async def _linked(self, socket: WebSocket) -> None:
        await socket.accept()
        phone, sending = None, None
        try:
            hello = msgspec.json.decode(await socket.receive_text(), type=Hello)
            phone = await self.link.enter(hello)
            sending = asyncio.get_running_loop().create_task(_send(socket, phone))
            while not phone.gone:
                sent = msgspec.json.decode(await socket.receive_text(), type=Sent)
                await self.link.take(phone, sent)
        except (msgspec.DecodeError, KeyError):
            await socket.close(NOT_SENT)
        except WebSocketDisconnect:
            pass
        finally:
            if sending is not None:
                sending.cancel()
            self.link.phones.discard(phone)


def _file(body: bytes, kind: str) -> Callable[[Request], Awaitable[Response]]:
    async def answer(request: Request) -> Response:
        return Response(body, media_type=kind)

    return answer


async def _send(socket: WebSocket, phone: Phone) -> None:
    with suppress(WebSocketDisconnect, RuntimeError):
        while not phone.gone:
            await socket.send_text((await phone.out.get()).decode())
        await socket.close()


def _listen(host: str, port: int | None, last: str) -> socket.socket:
    """A socket at a port, at that of last time, or at any free one."""
    if port is None and last.isdigit():
        with suppress(OSError):
            return socket.create_server((host, int(last)))
    return socket.create_server((host, port or 0))


def own_address() -> str:
    """The address that this machine has on its network; that of the machine alone where it has none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(NOWHERE)
        except OSError:
            return LOOPBACK
        return str(probe.getsockname()[0])


def code_svg(address: str) -> bytes:
    """An address as a QR code: black on white, with the margin that readers of it need."""
    import segno

    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(
        out, kind="svg", scale=8, border=4, dark="#000", light="#fff"
    )
    return out.getvalue()


def code_text(address: str) -> str:
    """The same for a terminal, two modules of it in a line."""
    import segno

    out = io.StringIO()
    segno.make(address, error="m", micro=False).terminal(out, border=4, compact=True)
    return out.getvalue()
