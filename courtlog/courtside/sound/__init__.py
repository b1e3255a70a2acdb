"""What the court sounds like: which sounds there are, how they are made, and who plays them.

They are waves of our own, played by the system's programs, so that no library is needed. What plays
them loads with the first sound: a silent court does not pay for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.courtside.sound import loudspeaker, programs, sounds, waves
else:
    __getattr__ = loader(__name__)
