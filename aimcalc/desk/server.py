"""The server of the live page: its few files and drawings, and the socket that everything else goes through.

It listens on this machine alone; what asks is looked at by `aimcalc.desk.guard` first.
"""

from __future__ import annotations

import asyncio
import os
import socket
import threading
import webbrowser
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from functools import cache
from importlib.resources import files
from importlib.util import find_spec
from typing import TYPE_CHECKING

import msgspec
from starlette.applications import Starlette
from starlette.responses import Response
from starlette.routing import Route, WebSocketRoute
from starlette.websockets import WebSocket, WebSocketDisconnect

from aimcalc.desk import asked, drawings, others
from aimcalc.desk.guard import LOOPBACK, Guard, new_key, server_of
from aimcalc.desk.live import Live, Page, encode
from aimcalc.desk.session import Session

if TYPE_CHECKING:
    from starlette.requests import Request

    from aimcalc.show import Show

Answer = Callable[["Request"], Awaitable[Response]]
HTML, CSS, SCRIPT = "text/html", "text/css", "text/javascript"
FILES = {
    "": ("index.html", HTML),
    "desk.css": ("desk.css", CSS),
    "desk.js": ("desk.js", SCRIPT),
    "icon.svg": ("icon.svg", "image/svg+xml"),
}
VIEWER = ("resources", "templates", "viewer.zip")
LONGEST_MESSAGE = 65_536  # bytes from a page


class Desk:
    """The live page of one session, ready to be served: `address` is where."""

    def __init__(self, session: Session, port: int = 0, key: str | None = None) -> None:
        """Listen; raises OSError where the port is taken. The key is a new one unless one is given."""
        self.scene = session.path
        self.others = _words_of(others.open_at(session.path))
        self.live = Live(session, self.others)
        self.socket = socket.create_server((LOOPBACK, port))
        self.port: int = self.socket.getsockname()[1]
        self.key = key or new_key()
        self.app = Guard(application(self.live), self.key, [f"{LOOPBACK}:{self.port}"])
        self.server = server_of(self.app, LONGEST_MESSAGE)

    @property
    def address(self) -> str:
        """The address of the page, key and all."""
        return f"http://{LOOPBACK}:{self.port}/{self.key}/"

    def serve(self, browser: bool = False) -> None:
        """Serve until Ctrl-C or `stop` ends it; open the page in the user's browser if that is asked for."""
        others.enter(self.scene, self.port)
        if browser:
            threading.Thread(target=webbrowser.open, args=(self.address,), daemon=True).start()
        try:
            self.server.run(sockets=[self.socket])
        except KeyboardInterrupt:  # which the server hands on when it has ended
            pass
        finally:
            others.leave(self.scene, self.port)

    def stop(self) -> None:
        """End serving, from any thread."""
        self.server.should_exit = True


def _words_of(ports: list[int]) -> str:
    """What is said of other desks of the same scene; empty where there are none."""
    if not ports:
        return ""
    return "Another desk has this scene open: what one saves, the other reads again."


def application(live: Live) -> Starlette:
    """All that can be asked for, under any key: the guard has looked at it."""

    @asynccontextmanager
    async def working(app: Starlette) -> AsyncIterator[None]:
        work = asyncio.get_running_loop().create_task(live.work())
        yield
        work.cancel()
        with suppress(asyncio.CancelledError):
            await work

    routes = [
        *(Route(f"/{name}", _file(*file)) for name, file in FILES.items()),
        Route("/three.js", _three),
        Route("/plan", _drawing(live, lambda: live.session.show, drawings.plan_svg)),
        Route("/section", _drawing(live, lambda: live.session.show, drawings.section_svg)),
        Route("/plan-before", _drawing(live, lambda: live.session.base, drawings.plan_svg)),
        Route("/section-before", _drawing(live, lambda: live.session.base, drawings.section_svg)),
        Route("/model.glb", _model(live)),
        WebSocketRoute("/live", _socket(live)),
    ]
    app = Starlette(routes=routes, lifespan=working)
    app.router.redirect_slashes = False  # a name that is none of ours is nowhere
    return app


def _file(name: str, kind: str) -> Callable[[Request], Response]:
    def answer(request: Request) -> Response:
        return Response(page_file(name), media_type=kind)

    return answer


def page_file(name: str) -> bytes:
    """One of the page's own files."""
    return files("aimcalc.desk").joinpath("page", name).read_bytes()


def _drawing(
    live: Live, which: Callable[[], Show], draw: Callable[[Show], drawings.Picture]
) -> Answer:
    async def answer(request: Request) -> Response:
        picture = await live.beside(lambda: draw(which()))
        return Response(encode(picture._asdict()), media_type="application/json")

    return answer


def _model(live: Live) -> Answer:
    async def answer(request: Request) -> Response:
        from aimcalc.solid.model import rig_glb

        return Response(
            await live.beside(lambda: rig_glb(live.session.show.rig)),
            media_type="model/gltf-binary",
        )

    return answer


def _three(request: Request) -> Response:
    return Response(viewer(), media_type=SCRIPT)


@cache
def viewer() -> bytes:
    """The MIT viewer library that trimesh carries: its page's script up to where the page itself begins."""
    from zipfile import ZipFile

    found = find_spec("trimesh")  # which is not loaded for it
    folders = found.submodule_search_locations if found else None
    if not folders:
        return b""
    with ZipFile(os.path.join(folders[0], *VIEWER)) as packed:
        page = packed.read("viewer.html.template")
    script = page.partition(b"<script>")[2].partition(b"</script>")[0]
    return script.partition(b"var camera,controls,scene,renderer")[0]


def _socket(live: Live) -> Callable[[WebSocket], Awaitable[None]]:
    async def answer(socket: WebSocket) -> None:
        await socket.accept()
        page = Page()
        await live.enter(page)
        sending = asyncio.get_running_loop().create_task(_send(socket, page))
        try:
            while True:
                text = await socket.receive_text()
                try:
                    live.wake(page, asked.read(text))
                except msgspec.DecodeError:
                    await socket.close(1007)  # RFC 6455, 7.4.1: not what was to be sent
                    break
        except WebSocketDisconnect:
            pass
        finally:
            sending.cancel()
            live.leave(page)

    return answer


async def _send(socket: WebSocket, page: Page) -> None:
    with suppress(WebSocketDisconnect, RuntimeError):
        while True:
            await socket.send_text((await page.out.get()).decode())
