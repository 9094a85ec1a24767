"""The settings in plain lines: read out, changed and kept."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields, replace
from pathlib import Path

from model.settings import Settings, save_settings, with_value

_INCHES = re.compile(r"\binch(?:es)?\b")
_MILLIMETRES = re.compile(r"\bmillimet(?:re|er)s?\b")
_FLAGS = {"yes": True, "y": True, "on": True, "no": False, "n": False, "off": False}


class Choices:
    """What the crafter chose, and where it is kept.

    Attributes:
        trouble: Why the last change is not kept; empty when it is.
    """

    def __init__(
        self, settings: Settings, path: Path | None = None, ascii_once: bool = False
    ) -> None:
        """Prepare.

        Args:
            settings: What was read.
            path: Where settings are kept; None for nowhere.
            ascii_once: Only ASCII characters, which was asked for this once and is not kept.
        """
        self._kept = settings
        self._path = path
        self._ascii_once = ascii_once
        self.trouble = ""

    @property
    def settings(self) -> Settings:
        """What holds now."""
        return replace(self._kept, ascii=True) if self._ascii_once else self._kept

    def values(self) -> Mapping[str, object]:
        """The value of each setting, by its key."""
        return {field.name: getattr(self.settings, field.name) for field in fields(Settings)}

    def typed(self, key: str, text: str) -> str:
        """Change a setting to what was typed; gives back why it can't be, or nothing.

        Args:
            key: Which setting.
            text: What was typed.
        """
        said = self._kept.phrases.typed.written(" ".join(text.casefold().split()))
        value: object = _INCHES.sub("in", _MILLIMETRES.sub("mm", said))
        if isinstance(getattr(self._kept, key), bool):
            value = _FLAGS.get(str(value), value)
        elif isinstance(getattr(self._kept, key), int) and said.isdecimal():
            value = int(said)
        if key == "ascii" and isinstance(value, bool):
            self._ascii_once = False
        return self.change(key, value)

    def change(self, key: str, value: object) -> str:
        """Change a setting, and keep it; gives back why it can't be, or nothing."""
        self.trouble = ""
        changed, why = with_value(self._kept, key, value)
        if why:
            return why
        self._kept = changed
        self.trouble = save_settings(changed, self._path)
        return ""
