"""A crafter's settings: units, ruler and looks, kept in one small TOML file.

Unknown keys are kept as they are, so that an older dryfit loses nothing of a newer one.
"""

from __future__ import annotations

import os
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from model.language import LANGUAGES, code_in_force, phrases_for
from model.language.english.phrases import Phrases
from model.length import LengthError, Unit, parse_length
from model.lengthtext import LengthStyle, write_length
from model.manner import Manner
from model.ruler import GRADUATIONS

UNITS = ("kit", "in", "cm", "mm")
FIGURES = ("usual", "large", "largest")
BOUNCES = (0, 80, 150, 300)
"""Thousandths of a second in which the same key is the same press; the second is usual."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What a crafter chose.

    Attributes:
        units: ``kit`` (as the kit is written), ``in``, ``cm`` or ``mm``.
        ruler: What the trimmer's ruler reads to, a key of `GRADUATIONS`; ``kit`` takes
            1/16 in for an inch kit and 1 mm for a metric one.
        tearing_ruler: The width of the ruler to tear against, as written.
        ascii: Only ASCII characters.
        left_handed: The trimmer is worked mirrored.
        theme: The looks; empty for the usual ones.
        by_load: Cut a whole load first, then file from the pile.
        keys: The keys that were chosen for commands, as they are written; `model.keymap`
            reads them.
        taught: The first run was taught, or the lessons were ended.
        figures: How large the mark is set: one of `FIGURES`.
        bounce: How soon the same key comes again that counts as one press, in thousandths of a
            second: one of `BOUNCES`.
        bell: The terminal's bell rings when a warning is raised.
        language: The code of a language of `model.language`; empty for what the system says.
        unknown: Keys that this version does not know, kept for the next save.
    """

    units: str = "kit"
    ruler: str = "kit"
    tearing_ruler: str = "3 in"
    ascii: bool = False
    left_handed: bool = False
    theme: str = ""
    by_load: bool = False
    keys: Mapping[str, Any] = field(default_factory=dict)
    taught: bool = False
    figures: str = "usual"
    bell: bool = False
    bounce: int = 80
    language: str = ""
    unknown: Mapping[str, Any] = field(default_factory=dict)

    @property
    def phrases(self) -> Phrases:
        """What the program says of itself, in the crafter's language."""
        return phrases_for(code_in_force(self.language, os.environ))

    def manner(self, kit_unit: Unit) -> Manner:
        """How this crafter is told things of a kit.

        Args:
            kit_unit: The kit's own unit.
        """
        unit = kit_unit if self.units == "kit" else Unit(self.units)
        own = "1/16 in" if unit is Unit.IN else "1 mm"
        try:
            tearing = parse_length(self.tearing_ruler, Unit.IN)
        except LengthError:
            tearing = parse_length("3 in", Unit.IN)
        return Manner(
            LengthStyle(unit, self.ascii),
            GRADUATIONS[own if self.ruler == "kit" else self.ruler],
            tearing,
            self.left_handed,
            self.phrases,
        )


_KNOWN = (
    "units", "ruler", "tearing_ruler", "ascii", "left_handed", "theme", "by_load", "figures",
    "bell", "bounce", "language", "taught", "keys",
)  # fmt: skip


def read_settings(path: Path | None) -> tuple[Settings, tuple[str, ...]]:
    """Read the settings.

    Args:
        path: The file; None when there is no place for one.

    Returns:
        The settings, and a line for each value that can't be used (its usual value is
        taken instead). A file that is not there is no trouble.
    """
    if path is None:
        return Settings(), ()
    try:
        raw = tomllib.loads(path.read_text(encoding="utf-8"))
    except (FileNotFoundError, NotADirectoryError):
        return Settings(), ()
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as error:
        return Settings(), (f"{path}: can't be read ({error}); the usual settings are used",)
    settings = Settings(unknown={k: v for k, v in raw.items() if k not in _KNOWN})
    troubles: list[str] = []
    for key in _KNOWN:
        if key in raw:
            changed, why = with_value(settings, key, raw[key])
            settings = changed
            if why:
                troubles.append(f"{path}: {key}: {why}; the usual value is used")
    return settings, tuple(troubles)


def with_value(settings: Settings, key: str, value: object) -> tuple[Settings, str]:
    """The settings with one value changed.

    Args:
        settings: The settings.
        key: Which one.
        value: Its new value.

    Returns:
        The new settings and an empty text; or the old ones and why it can't be.
    """
    if key not in _KNOWN:
        return settings, "there is no such setting"
    if type(value) is not type(getattr(settings, key)):
        return settings, "is of the wrong kind"
    if key == "units" and value not in UNITS:
        return settings, f"must be one of {', '.join(UNITS)}"
    if key == "figures" and value not in FIGURES:
        return settings, f"must be one of {', '.join(FIGURES)}"
    if key == "bounce" and value not in BOUNCES:
        return settings, f"must be one of {', '.join(map(str, BOUNCES))}"
    if key == "language" and value and value not in LANGUAGES:
        return settings, f"must be empty, or one of {', '.join(LANGUAGES)}"
    if key == "ruler" and value != "kit" and value not in GRADUATIONS:
        return settings, f"must be kit, or one of {', '.join(GRADUATIONS)}"
    if key == "tearing_ruler":
        try:
            length = parse_length(str(value), Unit.IN)
        except LengthError as error:
            return settings, str(error)
        value = write_length(length, LengthStyle(Unit.IN, ascii=True), with_unit=True)
        if value.startswith("~"):
            value = write_length(length, LengthStyle(Unit.MM, ascii=True))
    changes: dict[str, Any] = {key: value}
    return replace(settings, **changes), ""


def save_settings(settings: Settings, path: Path | None) -> str:
    """Write the settings, whole or not at all.

    A file that could not be read is kept beside the new one, with ``.old`` at its name's end.

    Args:
        settings: The settings.
        path: The file; None when there is no place for one.

    Returns:
        Why they could not be saved; empty when they were.
    """
    import tomli_w

    if path is None:
        return "there is no folder for settings here"
    values = {**settings.unknown, **{key: getattr(settings, key) for key in _KNOWN}}
    if not settings.keys:
        del values["keys"]  # an empty table would say nothing
    draft: Path | None = None
    try:
        path = path.resolve()  # a link to the file stays a link
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        draft = Path(name)
        with os.fdopen(handle, "wb") as file:
            tomli_w.dump(values, file)
            file.flush()
            os.fsync(file.fileno())
        if not _readable(path):
            path.replace(path.with_name(path.name + ".old"))
        draft.replace(path)
        draft = None
    except (OSError, RuntimeError) as error:  # RuntimeError: links that lead in a circle
        return f"{path}: {getattr(error, 'strerror', None) or error}"
    finally:
        if draft is not None:
            draft.unlink(missing_ok=True)
    return ""


def _readable(path: Path) -> bool:
    """Whether nothing is lost by writing over a file: it is not there, or it can be read."""
    try:
        tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return True
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError):
        return False
    return True
