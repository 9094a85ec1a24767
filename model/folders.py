"""Where dryfit keeps its files: sessions, kits, settings.

The environment variable DRYFIT_HOME puts all of them under one folder. Nothing is created here.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

HOME_VARIABLE = "DRYFIT_HOME"


class NoHomeError(Exception):
    """There is no folder to keep files in; the message says what to do about it."""


def sessions_folder() -> Path:
    """The folder of the sessions.

    Raises:
        NoHomeError: the user has no home folder and DRYFIT_HOME is not set.
    """
    return _data() / "sessions"


def kits_folder() -> Path:
    """The folder of the user's own kits.

    Raises:
        NoHomeError: as `sessions_folder`.
    """
    return _data() / "kits"


def demo_folder() -> Path:
    """The folder of the demo kits: in the wheel, or in the checkout."""
    here = Path(__file__).resolve().parent
    inside = here / "kits"
    return inside if inside.is_dir() else here.parent / "kits"


def demo_kit(name: str) -> Path | None:
    """A demo kit by its short name; None when there is none."""
    path = demo_folder() / f"{name}.toml"
    return path if path.is_file() else None


def find_kit(name: str) -> Path | None:
    """A kit or session by its path, or a demo kit by its name."""
    path = Path(name).expanduser()
    return path if path.is_file() else demo_kit(name)


def why_no_kit(name: str) -> str:
    """Why `find_kit` finds nothing by a name."""
    if Path(name).expanduser().is_dir():
        return f"{name} is a folder; name a kit or a session in it"
    return f"there is no kit or session {name!r}"


def kept_in() -> tuple[Path | None, Path | None, str]:
    """The folders of sessions and kits; None and a reason where there is no home."""
    try:
        return sessions_folder(), kits_folder(), ""
    except NoHomeError as error:
        return None, None, str(error)


def settings_file() -> Path:
    """The file of the settings.

    Raises:
        NoHomeError: as `sessions_folder`.
    """
    chosen = _chosen()
    if chosen is None:
        from platformdirs import user_config_path

        chosen = _checked(user_config_path)
    return chosen / "settings.toml"


def _data() -> Path:
    chosen = _chosen()
    if chosen is not None:
        return chosen
    from platformdirs import user_data_path

    return _checked(user_data_path)


def _chosen() -> Path | None:
    """The folder that DRYFIT_HOME names, or None."""
    named = os.environ.get(HOME_VARIABLE, "")
    if not named.strip():
        return None
    try:
        return Path(named).expanduser().absolute()
    except RuntimeError:  # "~" without a home
        raise NoHomeError(f"{HOME_VARIABLE} is {named!r}, but there is no home folder") from None


def _checked(ask: Callable[..., Path]) -> Path:
    """The folder that platformdirs names, unless it is one only by accident.

    Without a home some of its releases raise RuntimeError; others leave `~` as it is, and a folder
    of that name would be made wherever the program happens to run, or, with an empty HOME, lead to
    the root of the disk.
    """
    try:
        folder: Path | None = ask("dryfit", appauthor=False)
    except RuntimeError:
        folder = None
    if (
        folder is None
        or not folder.is_absolute()
        or folder.parts[1:2] in ((".local",), (".config",), ("Library",))
    ):
        raise NoHomeError(
            f"there is no home folder to keep sessions in; set {HOME_VARIABLE} to a folder"
        )
    return folder
