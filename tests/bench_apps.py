"""The plainest Textual apps, to measure dryfit against: ``bench_apps.py empty`` or ``region``.

``empty`` shows nothing, and imports only what dryfit cannot do without. ``region X Y W H`` has
one widget as large as the screen, and each key gives that region of it new, styled rows.
"""

from __future__ import annotations

import sys


def empty() -> None:
    """An app with nothing in it, after importing the libraries that dryfit stands on."""
    import tomllib  # noqa: F401

    import filelock  # noqa: F401
    import platformdirs  # noqa: F401
    import tomli_w  # noqa: F401
    import webcolors  # type: ignore[import-untyped]  # noqa: F401
    from pydantic import BaseModel
    from textual.app import App

    class Any(BaseModel):  # what makes models is loaded with the first of them
        word: str

    App[None]().run()


def region(left: int, top: int, width: int, height: int) -> None:
    """One ``render_line`` widget; space gives a region of it new rows.

    Args:
        left: First column.
        top: First row.
        width: In cells.
        height: In rows.
    """
    from rich.segment import Segment
    from rich.style import Style
    from textual.app import App, ComposeResult
    from textual.geometry import Region
    from textual.strip import Strip
    from textual.widget import Widget

    papers = [Style.parse(f"black on rgb({r},120,90)") for r in (90, 130, 170, 210)]

    class Board(Widget):
        DEFAULT_CSS = "Board { width: 1fr; height: 1fr; }"
        number = 0

        def render_line(self, y: int) -> Strip:
            total = self.size.width
            if not top <= y < top + height:
                return Strip.blank(total)
            part = width // len(papers)
            widths = [part] * (len(papers) - 1) + [width - part * (len(papers) - 1)]
            segments = [
                Segment(f"{self.number + y}".center(w), papers[(self.number + n) % len(papers)])
                for n, w in enumerate(widths)
            ]
            row = [Segment(" " * left), *segments, Segment(" " * (total - left - width))]
            return Strip(row, total)

    class Plain(App[None]):
        BINDINGS = [("space", "go", "Go")]  # noqa: RUF012

        def compose(self) -> ComposeResult:
            yield Board()

        def action_go(self) -> None:
            board = self.query_one(Board)
            board.number += 1
            board.refresh(Region(left, top, width, height))

    Plain().run()


if __name__ == "__main__":
    if sys.argv[1] == "empty":
        empty()
    else:
        region(*map(int, sys.argv[2:6]))
