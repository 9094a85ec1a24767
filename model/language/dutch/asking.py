"""Sentences of plain lines on what can be typed, in Dutch."""

from __future__ import annotations

from collections.abc import Mapping

COMMANDS: Mapping[str, str] = {
    "klaar": "done",
    "restje": "scrap",
    "terug": "undo",
    "opnieuw": "redo",
    "zoek": "find",
    "niet dit": "not it",
    "tel": "count",
    "tel alles": "count all",
    "stel uit": "put off",
    "vak": "pocket",
    "vakken": "pockets",
    "stel in": "set",
    "ja": "yes",
    "nee": "no",
    "stop": "quit",
}
