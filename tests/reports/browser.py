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

_FLAGS = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)


def there_is_one() -> bool:
    """Whether this machine has Chromium and its driver."""
    return all(map(shutil.which, ("chromium", "chromedriver")))


class Browser:
    """One window."""

    def __init__(self, port: int, profile: Path) -> None:
        self._root = f"http://127.0.0.1:{port}/session"
        options = {"args": [*_FLAGS, f"--user-data-dir={profile}"]}
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
def browser(profile: Path) -> Iterator[Browser]:
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
            window = Browser(port, profile)
            try:
                yield window
            finally:
                window.close()
        finally:
            driver.terminate()
