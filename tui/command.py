"""The command line. What needs no screen imports none."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from model.reading import Reader

_SUBCOMMANDS = ("kits", "check", "sessions", "report", "lines", "plan", "schema")
_ABOUT = (
    "Steps through a page kit one cut at a time, keeps the pocket inventory, and warns "
    "before a piece is lost in the wrong pair."
)


def version() -> str:
    """The version of the installed package."""
    from importlib.metadata import PackageNotFoundError
    from importlib.metadata import version as installed

    try:
        return installed("dryfit")
    except PackageNotFoundError:
        return "not installed"


def main(argv: Sequence[str] | None = None) -> int:
    """Run dryfit.

    Args:
        argv: The arguments; by default those of the process.

    Returns:
        The exit code: 0 for all is well, 1 when something is wrong with a kit or a file,
        2 when the arguments are, 141 when whoever read what is printed went away.
    """
    args = list(sys.argv[1:] if argv is None else argv)
    _utf8_output()
    try:
        try:
            return _run(args)
        finally:  # also where argparse has printed its help and ends the program
            _flush()
    except BrokenPipeError:
        return _reader_gone()


def _run(args: list[str]) -> int:
    if args in (["--version"], ["-V"]):
        print(f"dryfit {version()}")
        return 0
    if args and args[0] in _SUBCOMMANDS:
        from tui import headless

        return headless.run(args)
    if len(args) == 1 and not args[0].startswith("-"):
        return _open(args[0], False)  # what most starts are, without a parser to load
    import argparse

    parser = argparse.ArgumentParser(prog="dryfit", description=_ABOUT)
    parser.add_argument(
        "kit",
        nargs="?",
        help="a kit file, a session, or a demo kit's name (postcard, harbour, cards); "
        "without it the shelf opens",
    )
    parser.add_argument("--version", "-V", action="store_true", help="print the version")
    parser.add_argument("--ascii", action="store_true", help="only ASCII characters, this once")
    parser.epilog = (
        "Other commands: dryfit kits (the kits at hand), dryfit check KIT (what is wrong with a "
        "kit file), dryfit sessions (what was begun), dryfit report SESSION (its account), dryfit "
        "lines KIT (the same run by plain lines, for screen readers and scripts), dryfit plan FILE "
        "(how to cut wanted pieces from the paper at hand), dryfit schema (the JSON Schema of kit "
        "files). Each takes --help."
    )
    chosen = parser.parse_args(args)
    if chosen.version:
        print(f"dryfit {version()}")
        return 0
    return _open(chosen.kit or "", chosen.ascii)


def _open(name: str, ascii: bool) -> int:
    """Open a kit or a session, or the shelf when none is named."""
    from model.folders import find_kit, why_no_kit

    start = find_kit(name) if name else None
    if name and start is None:
        print(f"dryfit: {why_no_kit(name)}", file=sys.stderr)
        return 2
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        print("dryfit: the table needs a terminal; see dryfit --help", file=sys.stderr)
        return 2
    # What is loaded now stays: looking through it for garbage would only hold up the start.
    gc.disable()
    from model.ahead import ReadAhead

    # Before anything else is loaded, so that both go on side by side.
    ahead = ReadAhead(start)
    try:
        return _run_app(start, ascii, ahead.read)
    finally:
        ahead.close()


def _run_app(start: Path | None, ascii: bool, read: Reader) -> int:
    from dataclasses import replace

    from model.folders import NoHomeError, kept_in, settings_file
    from model.settings import read_settings
    from tui.app import DryfitApp

    try:
        settings_path: Path | None = settings_file()
    except NoHomeError:
        settings_path = None
    settings, troubles = read_settings(settings_path)
    if ascii:
        settings = replace(settings, ascii=True)
    sessions, _, why = kept_in()
    app = DryfitApp(settings, settings_path, start, sessions, why, read)
    app.troubles = troubles
    try:
        app.run()
    finally:
        app.close_sessions()
    # A crash inside the program must not look like a good end to whoever called it.
    return app.return_code or 0


def _flush() -> None:
    """Write what waits now: a reader that is gone can't be noticed quietly any later."""
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:  # as where a program is started without any
            stream.flush()


def _reader_gone() -> int:
    """End quietly when nobody reads what is printed, as with ``dryfit report S | head``.

    What still waits is written nowhere, so that Python does not complain of it when it ends
    (https://docs.python.org/3/library/signal.html#note-on-sigpipe).

    Returns:
        What a shell says of a program that ended so: 128 and the number of SIGPIPE.
    """
    import os

    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:
            os.dup2(nowhere, stream.fileno())
    return 128 + 13


def _utf8_output() -> None:
    """Fractions and dots are printed on every system, however its locale is set."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")


if __name__ == "__main__":
    sys.exit(main())
