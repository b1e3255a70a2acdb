"""A loudspeaker that plays nothing and keeps what it was asked for."""

from __future__ import annotations

from courtlog.courtside.sound.loudspeaker import Request


class Recorder:
    """Stands in for the loudspeaker of a court."""

    def __init__(self, requests: list[Request]) -> None:
        self._requests = requests

    def ask(self, request: Request) -> None:
        """Keep it."""
        self._requests.append(request)

    def wait_until_silent(self) -> None:
        """It always is."""

    def close(self) -> None:
        """Nothing plays."""
