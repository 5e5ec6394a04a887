"""What happens between pages and a session: one thing after the other, what the hand needs first.

Moves are answered at once with where the light goes; of several that wait the latest wins. Light lost
follows while the hand moves, the ladder rows, findings, loads and the light over the area when it rests.
"""

from __future__ import annotations

import asyncio
import gc
import traceback
from collections import deque
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from functools import partial
from time import perf_counter
from typing import TYPE_CHECKING, Any, TypeVar

import msgspec

from aimcalc.coverage.systems import GridError, NoAreaError
from aimcalc.desk import asked as ask
from aimcalc.desk import told
from aimcalc.desk.light import helpers_told, light_told
from aimcalc.desk.savedlist import SaveError
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.scene.mistakes import SceneError

if TYPE_CHECKING:
    from aimcalc.desk.session import Session
    from aimcalc.show import Show

T = TypeVar("T")
OUR_FAULT = (
    "The desk itself has failed, not you; what was tried stays. Please report this with your scene:"
)
OFTEN = 0.1  # s between answers to what takes longer than a frame, while the hand moves
RESTS = 0.1  # s without a move
IDLE = 0.6  # s more until what takes longest is begun: another move may come
LOOKS = 0.5  # s between looks at the files
AT_REST = ("light", "findings", "ladder", "loads", "helpers")  # what is told then, in this order
WORDS = {
    "lost": told.lost_told,
    "findings": told.findings_told,
    "ladder": told.ladder_told,
    "loads": told.loads_told,
}
encode = msgspec.json.Encoder().encode


class Page:
    """One open page: what waits to be sent to it, and the light that it shows."""

    def __init__(self) -> None:
        self.out: asyncio.Queue[bytes] = asyncio.Queue()
        self.look = ask.Look()
        self.answered = 0  # the last of its moves that was answered
        self.asked = 0.0  # when that came


class Live:
    """A session, the pages that show it, and what they have been told."""

    def __init__(self, session: Session, notice: str = "") -> None:
        self.session = session
        self.notice = notice  # what every page says beside the show's title
        self.pages: list[Page] = []
        self.told: dict[str, bytes] = {}
        self.drawn = 0  # how often the drawings have changed
        self.inbox: deque[tuple[Page, ask.Asked, float]] = deque()
        self.due: dict[str, float] = {}  # what is to be told, and when
        self._last: Show | None = None  # the show whose lights pages have
        self._holder: Page | None = None  # whose hand moved something last
        self._helping: asyncio.Task[None] | None = None
        self._woken = asyncio.Event()
        self._hand = ThreadPoolExecutor(1, "hand")
        self._slow = ThreadPoolExecutor(1, "slow")
        self._drawing = ThreadPoolExecutor(1, "drawing")

    # --- pages ---

    async def enter(self, page: Page) -> None:
        """Tell a page all that is known, and keep it told."""
        self.pages.append(page)
        page.out.put_nowait(_message(page, self.told))
        self.wake(page, ask.Look())

    def leave(self, page: Page) -> None:
        """A page has gone; what its hand held stays where it is."""
        self.pages.remove(page)
        if page is self._holder:
            self.wake(page, ask.Drop())

    def wake(self, page: Page, asked: ask.Asked) -> None:
        """Something is asked; of moves that wait one after the other only the latest is kept."""
        if isinstance(asked, ask.Move) and self.inbox and isinstance(self.inbox[-1][1], ask.Move):
            self.inbox.pop()
        self.inbox.append((page, asked, perf_counter()))
        self._woken.set()

    async def work(self) -> None:
        """Answer until somebody cancels this."""
        await self._in(self._hand, self._all)
        self._tell_soon(0.0)
        looked = perf_counter()
        while True:
            self._woken.clear()
            now = perf_counter()
            due = [what for what, when in self.due.items() if when <= now]
            nearest = min([looked + LOOKS, *self.due.values()])
            try:
                if self.inbox:
                    await self._answer(*self.inbox.popleft())
                elif due:
                    await self._follow(due[0])
                elif now >= looked + LOOKS:
                    looked = now
                    if await self._in(self._hand, self.session.reload):
                        await self._change()
                else:
                    with suppress(TimeoutError):
                        await asyncio.wait_for(self._woken.wait(), max(nearest - now, 0.0))
            except Exception as error:  # whoever has the page open has not saved yet
                traceback.print_exc()
                await asyncio.sleep(OFTEN)
                self._say_all(f"{OUR_FAULT} {type(error).__name__}: {error}")

    # --- answers ---

    async def _answer(self, page: Page, asked: ask.Asked, came: float) -> None:
        if isinstance(asked, ask.Move):
            page.answered, page.asked = asked.n, came
        try:
            await self._done(page, asked)
        except SceneError as error:
            self._say(page, error.report())
        except (ValueError, SaveError) as error:
            self._say(page, str(error))

    async def _done(self, page: Page, asked: ask.Asked) -> None:
        session = self.session
        if isinstance(asked, ask.Move):
            if self._holder not in (None, page) and session.held:
                await self._in(
                    self._hand, session.drop
                )  # another page's hand has moved something else
            self._holder = page
            await self._in(self._hand, partial(self._move, asked))
            self._tell_soon(RESTS)
        elif isinstance(asked, ask.Drop) and not session.held:
            return
        elif isinstance(asked, ask.Grab):
            await self._in(self._hand, lambda: session.grab(ask.step_of(session, asked)))
        elif isinstance(asked, ask.Look):
            page.look = asked
            self.due["light"] = self.due["helpers"] = perf_counter()
        elif isinstance(asked, ask.Save):
            said = await self._in(self._hand, partial(session.save, asked.folder))
            await self._change()
            self._say(page, said)
        else:
            await self._in(self._hand, partial(_do, session, asked))
            await self._change()

    def _move(self, asked: ask.Move) -> None:
        self.session.move(ask.step_of(self.session, asked))
        self._lights()

    async def _change(self) -> None:
        """Tell a change that is no move: all that there is, at once, and what follows as soon as it can."""
        self.drawn += 1
        await self._in(self._hand, self._all)
        self._tell_soon(0.0)

    def _tell_soon(self, rest: float) -> None:
        now = perf_counter()
        self.due.setdefault("lost", now + min(OFTEN, rest))
        for what in AT_REST:
            self.due.pop(what, None)
            self.due[what] = now + rest + (IDLE if what == "helpers" else 0.0)

    async def _follow(self, what: str) -> None:
        del self.due[what]
        show = self.session.show
        if what in WORDS:
            await self._in(self._hand, lambda: self._tell_values(WORDS[what](show)))
        elif what == "light":
            await self._in(self._hand, partial(_lit, show))
            for look in self._looks():
                light = await self._in(self._hand, partial(light_told, show, look))
                self._to_lookers(look, show, "light", light)
        elif self._helping is None or self._helping.done():
            self.session.known = show  # all that the next show can take over has been asked
            await self._in(self._hand, gc.collect)  # what a hand has moved on from hangs together
            self._helping = asyncio.get_running_loop().create_task(self._helpers())
        else:
            self.due[what] = perf_counter() + OFTEN

    async def _helpers(self) -> None:
        """Who could fill the holes, worked out beside everything else; told if it is still so."""
        show = self.session.show
        for look in self._looks():
            if show is self.session.show and look in self._looks() and look.plane == "level":
                found = await self._in(self._slow, partial(helpers_told, show, look))
                self._to_lookers(look, show, "helpers", found)

    def _looks(self) -> set[ask.Look]:
        return {page.look for page in self.pages if page.look.system}

    def _to_lookers(self, look: ask.Look, show: Show, key: str, value: Any) -> None:
        if show is not self.session.show:
            return
        for page in self.pages:
            if page.look == look:
                page.out.put_nowait(_message(page, {key: encode(value)}))

    # --- what is told; in the hand's own thread ---

    def _all(self) -> None:
        """Everything that there is, and nothing that there is no more."""
        show = self.session.show
        now = {key: encode(value) for key, value in told.scene_told(self.session)}
        now["drawn"], now["notice"] = encode(self.drawn), encode(self.notice)
        now |= {key: encode(value) for key, value in told.light_of_units(show, self._moved(show))}
        there = {f"{sort}/{name}" for sort in told.OF_UNITS for name in show.rig.names}
        there |= {f"load/{name}" for name in show.scene.positions} | set(told.LATER)
        gone = self.told.keys() - now.keys() - there
        self._tell({**now, **dict.fromkeys(gone, b"null")})

    def _lights(self) -> None:
        """Where the light of those units goes that a move has changed, and where things are."""
        show, before = self.session.show, self._last.scene if self._last else None
        moved = self._moved(show)
        self._tell_values(
            [*told.light_of_units(show, moved), *told.things_told(self.session, before)]
        )

    def _moved(self, show: Show) -> list[int]:
        """The units whose lights pages do not have yet as they are in this show; they will be told."""
        last, self._last = self._last, show
        return told.moved_units(show.rig, last.rig if last else None)

    def _tell_values(self, values: Iterable[tuple[str, Any]]) -> None:
        self._tell({key: encode(value) for key, value in values})

    def _tell(self, values: dict[str, bytes]) -> None:
        """Send what is not as it was to every page."""
        fresh = {key: value for key, value in values.items() if self.told.get(key) != value}
        self.told.update(fresh)
        for key in [key for key, value in fresh.items() if value == b"null"]:
            del self.told[key]
        self._send(fresh)

    def _send(self, fresh: dict[str, bytes]) -> None:
        def send() -> None:
            for page in self.pages:
                page.out.put_nowait(_message(page, fresh))

        self._loop.call_soon_threadsafe(send)

    def _say_all(self, words: str) -> None:
        for page in self.pages:
            self._say(page, words)

    def _say(self, page: Page, words: str) -> None:
        page.out.put_nowait(_message(page, {"said": encode(words)}))

    async def beside(self, work: Callable[[], T]) -> T:
        """What takes long and nobody's hand waits for, worked out beside everything else."""
        return await self._in(self._drawing, work)

    async def _in(self, where: ThreadPoolExecutor, work: Callable[[], T]) -> T:
        self._loop = asyncio.get_running_loop()
        return await self._loop.run_in_executor(where, work)


def _lit(show: Show) -> None:
    """Work out the light of a show, for whoever shows it and for the next show; where there is any."""
    with suppress(NoAreaError, GridError, NoRayEngineError):
        show.light  # noqa: B018


def _do(session: Session, asked: ask.Drop | ask.Undo | ask.Redo | ask.Put | ask.Apply) -> None:
    """Do what changes the session and is no move. Raises SceneError and ValueError as the session does."""
    if isinstance(asked, ask.Drop):
        session.drop()
    elif isinstance(asked, ask.Undo):
        session.undo()
    elif isinstance(asked, ask.Redo):
        session.redo()
    else:
        session.do(ask.step_of(session, asked))


def _message(page: Page, values: dict[str, bytes]) -> bytes:
    """What a page is sent: values by their keys; which of its moves they answer and how long that took."""
    took = 1000 * (perf_counter() - page.asked) if page.asked else 0.0
    raw = {key: msgspec.Raw(value) for key, value in values.items()}
    return encode({"n": page.answered, "ms": round(took, 2), "set": raw})
