"""A headless Chromium driven by chromedriver over its own protocol; only the standard library."""

from __future__ import annotations

import base64
import json
import re
import shutil
import socket
import subprocess
import urllib.request
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

PAPERS = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}
"""Width and height in inches."""

KEYS = {"Tab": "\ue004", "Shift": "\ue008", "ArrowLeft": "\ue012", "ArrowRight": "\ue014"}
"""Source: W3C, WebDriver, 17.4.2, keyboard actions."""

_FLAGS = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)


def there_is_one() -> bool:
    """Whether this machine has Chromium and its driver."""
    return all(map(shutil.which, ("chromium", "chromedriver")))


class Browser:
    """One window."""

    def __init__(self, port: int, profile: Path, *flags: str) -> None:
        self._root = f"http://127.0.0.1:{port}/session"
        options = {"args": [*_FLAGS, *flags, f"--user-data-dir={profile}"]}
        wanted = {"browserName": "chrome", "goog:chromeOptions": options}
        made = self._call("POST", "", {"capabilities": {"alwaysMatch": wanted}})
        self._root += f"/{made['sessionId']}"

    def open(self, page: Path) -> None:
        """Load the file."""
        self._call("POST", "/url", {"url": page.resolve().as_uri()})

    def run(self, script: str, *arguments: object) -> Any:
        """What a script returns."""
        return self._call("POST", "/execute/sync", {"script": script, "args": arguments})

    def wait_for(self, script: str, *arguments: object) -> Any:
        """What a script hands to its last argument, a callback."""
        return self._call("POST", "/execute/async", {"script": script, "args": arguments})

    def until(self, state: str) -> None:
        """Wait until an expression is true, looked at with each picture of the screen."""
        look = f"(function look() {{ ({state}) ? done(1) : requestAnimationFrame(look); }})();"
        self.wait_for(f"const done = arguments[0]; {look}")

    def press(self, *keys: str) -> None:
        """Press keys on the keyboard, one after the other; see KEYS for those without a sign."""
        strokes = [
            {"type": kind, "value": KEYS.get(key, key)}
            for key in keys
            for kind in ("keyDown", "keyUp")
        ]
        self._act(strokes)

    def press_with_shift(self, key: str) -> None:
        """Press a key while Shift is held."""
        shift = KEYS["Shift"]
        strokes = [("keyDown", shift), ("keyDown", key), ("keyUp", key), ("keyUp", shift)]
        self._act([{"type": kind, "value": value} for kind, value in strokes])

    def _act(self, strokes: list[dict[str, str]]) -> None:
        keyboard = {"type": "key", "id": "keyboard", "actions": strokes}
        self._call("POST", "/actions", {"actions": [keyboard]})

    def wide(self, pixels: int) -> None:
        """A window of so many CSS pixels, without scroll bars, as on a phone."""
        size = {"width": pixels, "height": 900, "deviceScaleFactor": 1, "mobile": True}
        self._cdp("Emulation.setDeviceMetricsOverride", size)

    def printed_pages(self, paper: str) -> int:
        """Pages of the file printed to PDF."""
        width, height = PAPERS[paper]
        size = {"paperWidth": width, "paperHeight": height, "preferCSSPageSize": True}
        pdf = base64.b64decode(self._cdp("Page.printToPDF", size)["data"])
        assert pdf.startswith(b"%PDF")
        return len(re.findall(rb"/Type\s*/Page\b", pdf))

    def as_on(self, medium: str) -> None:
        """Style the page as on this medium: `screen` or `print`."""
        self._cdp("Emulation.setEmulatedMedia", {"media": medium})

    def close(self) -> None:
        """End the browser."""
        self._call("DELETE", "")

    def _cdp(self, command: str, parameters: Mapping[str, object]) -> Any:
        return self._call("POST", "/goog/cdp/execute", {"cmd": command, "params": parameters})

    def _call(self, method: str, path: str, body: object = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self._root + path, data, method=method)
        with urllib.request.build_opener(urllib.request.ProxyHandler({})).open(
            request, timeout=60
        ) as answer:
            return json.load(answer)["value"]


@contextmanager
def browser(profile: Path, *flags: str) -> Iterator[Browser]:
    """A browser with an empty profile, ended afterwards."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with subprocess.Popen(
        ["chromedriver", f"--port={port}"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
    ) as driver:
        try:
            assert driver.stdout is not None
            for line in driver.stdout:
                if b"started successfully" in line:
                    break
            window = Browser(port, profile, *flags)
            try:
                yield window
            finally:
                window.close()
        finally:
            driver.terminate()
