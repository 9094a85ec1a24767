"""Where one stands, in the table's row of what was said: it asks for no key."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from model.language.english.table import TablePhrases
from tui.widgets.panel import Row, fit


def greeting_row(parts: Sequence[str], width: int, words: TablePhrases, key: str = "n") -> Row:
    """As much of a greeting as there is room for, and the key that shows the whole.

    Args:
        parts: Its parts, what matters most first.
        width: How many cells there are.
        words: The words of the table.
        key: The key that shows the whole.
    """
    if not parts:
        return []
    more = f": {words.more()}"
    tail = f". {key}{more}"
    said = parts[0]
    for part in parts[1:]:
        longer = f"{said}; {part}"
        if 1 + cell_len(longer) + cell_len(tail) > width:
            continue
        said = longer
    said = fit(said, max(0, width - 1 - cell_len(tail)))
    return [(f" {said}. ", "good"), (key, "key"), (more, "good")]
