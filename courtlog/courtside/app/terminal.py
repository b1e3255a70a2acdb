"""The terminal under the court screen: it may hang up, vanish without a word, stop and go on.

Everything is in the book already, so that leaving is all there is to do when it has gone.
"""

from __future__ import annotations

import asyncio
import contextlib
import contextvars
import errno
import os
import select
import signal
import sys
import threading
import time
from functools import partial
from typing import TYPE_CHECKING, Any, cast

from courtlog.courtside.app.sure_output import MOST_FAILURES, SureOutput
from courtlog.courtside.app.terminal_reader import TerminalReader

if TYPE_CHECKING:
    from textual.app import App
    from textual.driver import Driver
    from textual.message import Message

TAKE_THE_SCREEN = "\x1b[?1049h\x1b[?25l\x1b[?7l\x1b[?2004h"
"""Other screen, no cursor, no wrapping, pasted text marked (xterm control sequences)."""

LOOK_AGAIN = 1.0
"""Seconds between two looks at whether the terminal has gone."""

_LOOKS, _BETWEEN = 10, 0.02
"""Looks at a terminal that has nothing to read, and seconds between them, until it has gone."""

_HUNG_UP = (errno.EIO, errno.ENXIO, errno.EBADF)
"""What the system answers about a terminal that is no more."""

KEY_WAIT = 0.1
"""Seconds within which a lone Escape is one, as Textual waits for it too."""

PATIENCE = 5.0
"""Seconds after which a program whose terminal has gone ends itself, should leaving hang."""


def driver() -> type[Driver] | None:
    """Textual's driver of this system, mended where it takes the keys twice after going on.

    A write that fails does not end its thread for writing either.
    """
    if sys.platform == "win32":
        return None
    # Windows has neither.
    import termios

    from textual.drivers.linux_driver import LinuxDriver

    class CourtDriver(LinuxDriver):
        """Takes the terminal again after every stop, with one thread for the keys."""

        _modes: list[Any] | None = None

        def __init__(self, *args: Any, **named: Any) -> None:
            super().__init__(*args, **named)
            self._file = cast("Any", SureOutput(cast("Any", self._file), self._recover))

        def run_input_thread(self) -> None:
            """Read keys until the application leaves the terminal."""
            size = partial(os.get_terminal_size, self.fileno)
            reader = TerminalReader(size, cast("Any", self._app).is_writing)
            while not self.exit_event.is_set():
                for event in self._next(reader):
                    self.process_message(event)

        def send_message(self, message: Message) -> None:
            """Hand a message to the application (an `OwnApp`), from the thread that reads."""
            with contextlib.suppress(RuntimeError):  # the program has ended meanwhile
                take = cast("Any", self._app).take
                self._loop.call_soon_threadsafe(take, message, context=self._context)

        def _next(self, reader: TerminalReader) -> list[Message]:
            """What comes within a moment; a terminal that has gone sends nothing."""
            try:
                if not select.select([self.fileno], [], [], KEY_WAIT)[0]:
                    return reader.nothing_came()
                if data := os.read(self.fileno, 4096):
                    return reader.read(data)
            except OSError:
                pass
            self.exit_event.wait(KEY_WAIT)
            return []

        def start_application_mode(self) -> None:
            self._loop = asyncio.get_running_loop()
            self._context = contextvars.copy_context()  # names the application as the active one
            cast("Any", super()).start_application_mode()
            with contextlib.suppress(termios.error):
                self._modes = termios.tcgetattr(self.fileno)

        def _recover(self, in_a_row: int) -> None:
            """Draw again, or leave, after a write that failed; called by the thread that writes."""
            with contextlib.suppress(RuntimeError):  # the program has ended meanwhile
                if in_a_row < MOST_FAILURES:
                    self._loop.call_soon_threadsafe(draw_all, self._app)
                else:
                    self._loop.call_soon_threadsafe(_leave_unseen, self._app)

        def _sigcont_application(self, *_: object) -> None:
            if self._must_signal_resume:
                super()._sigcont_application()
            elif self._modes is not None and not has_gone():
                # Stopped from outside, or not at all: keys go on being read, no thread is added.
                with contextlib.suppress(termios.error):
                    termios.tcsetattr(self.fileno, termios.TCSANOW, self._modes)
                self.write(TAKE_THE_SCREEN)
                self._loop.call_soon_threadsafe(draw_all, self._app)

    return CourtDriver


def draw_all(app: App[Any]) -> None:
    """Draw every line again: another program has written over them."""
    if app.screen_stack:
        app.screen.refresh(layout=True)


def leave_with(app: App[None]) -> None:
    """End the application with its terminal: at a hang-up, when told to end, when it has gone."""
    if sys.platform == "win32" or app.is_headless:
        return
    loop = asyncio.get_running_loop()

    def leave() -> None:
        if has_gone():
            _let_go_of_the_terminal()
        app.exit()

    for number in (signal.SIGHUP, signal.SIGTERM):
        if signal.getsignal(number) is not signal.SIG_IGN:
            loop.add_signal_handler(number, leave)

    def wait() -> None:
        while not has_gone(LOOK_AGAIN):
            if loop.is_closed():
                return
        with contextlib.suppress(RuntimeError):  # the program has ended meanwhile
            loop.call_soon_threadsafe(leave)

    threading.Thread(target=wait, name="terminal-gone", daemon=True).start()


if sys.platform == "win32":

    def has_gone(wait: float = 0, terminal: int = 0) -> bool:
        """No: a window of Windows that closes ends its programs itself."""
        return False

else:
    import fcntl
    import termios

    def has_gone(wait: float = 0, terminal: int = 0) -> bool:
        """Whether nobody holds the other end of a terminal; waits that many seconds for it to go.

        It is one that has something to read, and nothing in it. A poll for a hang-up would be
        answered at once by every terminal of macOS.
        """
        try:
            for look in range(_LOOKS):
                if not select.select([terminal], [], [], 0 if look else wait)[0]:
                    return False
                if any(fcntl.ioctl(terminal, termios.FIONREAD, bytes(4))):
                    break
                time.sleep(_BETWEEN)  # a key may just have been read
            else:
                return True
        except OSError as error:
            if error.errno in _HUNG_UP:
                return True
        time.sleep(wait)  # what waits to be read would end the next look at once
        return False


def _leave_unseen(app: App[Any]) -> None:
    """Leave with an exit code that says that nothing could be shown any more."""
    _let_go_of_the_terminal()
    app.exit(return_code=1)


def _let_go_of_the_terminal() -> None:
    """Read and write nothing from now on, so that what waits for either goes on at once."""
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)
    end = threading.Timer(PATIENCE, os._exit, [1])
    end.daemon = True
    end.start()
