"""What would be right where a table of a kit file has the wrong shape."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from model import kitfile as f
from model.finding import Path
from model.length import NumberText

_EXAMPLES = {
    "dryfit": "dryfit = 1",
    "title": 'title = "..."',
    "page": 'page = "12 x 12"',
    "name": 'name = "..."',
    "label": 'label = "1·2"',
    "face": 'face = "..." (a colour)',
    "colour": 'colour = "..."',
}
PLACE_WORDS = ("page", "pages", "pocket", "pockets")
COUNT_WORDS = ("count", "number", "quantity", "copies")
"""Keys that people write beside, or instead of, ``to``."""

_NUMBERS = ("pages", "bases")
_WRITTEN = 80  # a longer remedy is none


def example(key: str, model: type[f.Table]) -> str:
    """How a key that is missing may be written; ``it`` where that is not known."""
    if key == "pages":
        return "pages = 2" if model is f.Head else "pages = [1, 2]"
    return _EXAMPLES.get(key, "it")


def elsewhere(key: str, model: type[f.Table]) -> str:
    """Where a key belongs that is known in another place only; empty when it is not known."""
    if "to" in f.keys_of(model):
        if key in PLACE_WORDS:
            return 'where its copies go is said in to, such as to = "page 3"'
        if key in COUNT_WORDS:
            return 'how many there are is said in to, such as to = "2 to page 3"'
    if key in f.keys_of(f.Head):
        return "it belongs at the top of the file, above the first table"
    tables = [f"[[{array}]]" for array, table in f.TABLES.items() if key in f.keys_of(table)]
    return f"it belongs in {' or '.join(tables)}" if len(tables) in (1, 2) else ""


def lacks_verb(raw: Mapping[str, Any], unknown: list[str]) -> str:
    """What a step with an unknown key needs when it has no verb; empty when it seems to have."""
    if any(verb in raw for verb in f.VERBS):
        return ""
    known = f.keys_of(f.StepTable)
    if any(near in f.VERBS for key in unknown for near in get_close_matches(key, known, n=1)):
        return ""
    return f'a step has one of {", ".join(f.VERBS)}; for anything else write do = "..."'


def named_so(key: str, value: Any) -> str:
    """How a part is named, where its name, or another word for name, is the key; else empty."""
    if isinstance(value, int) and not isinstance(value, bool) and 0 < value <= 1000:
        return _short(f'write {{ name = "{key}", count = {value} }}')
    if key in ("piece", "strip", "kind", "part") and isinstance(value, str):
        return _short(f'write name = "{value}"')
    return ""


def renamed(key: str | int, value: Any) -> str:
    """How the one name in a list is written; empty when there are none or several."""
    alone = value[0] if isinstance(value, list) and len(value) == 1 else None
    return _short(f'write {key} = "{alone}"') if isinstance(alone, str) else ""


def retyped(kind: str, path: Path, value: Any) -> str:
    """How a value of the wrong type is written rightly; empty when that is not clear."""
    text = value if isinstance(value, str) and not isinstance(value, NumberText) else ""
    if kind == "int_type" and re.fullmatch("[0-9]{1,6}", text):
        return f"write {text} without quotes"
    if kind == "bool_type" and text.casefold() in ("true", "false", "yes", "no"):
        return f"write {'true' if text.casefold() in ('true', 'yes') else 'false'} without quotes"
    if kind == "list_type" and path and (text or isinstance(value, (int, NumberText))):
        entries = _entries(str(path[-1]), text) if text else [shown(value)]
        return _short(f"write {path[-1]} = [{', '.join(entries)}]") if entries else ""
    return ""


def _entries(key: str, text: str) -> list[str]:
    """The entries of a list that was written as one text; none when they are not clear."""
    if key not in _NUMBERS:
        parts = [part.strip() for part in text.split(",")]
        return [part if re.fullmatch("[1-9][0-9]*", part) else f'"{part}"' for part in parts]
    span = re.fullmatch(r"\s*([0-9]{1,3})\s*(?:-|–|to|\.\.+)\s*([0-9]{1,3})\s*", text)
    if span:
        pages = range(int(span[1]), int(span[2]) + 1)
        return [str(page) for page in pages] if len(pages) <= 20 else []
    return re.findall("[0-9]+", text) if re.fullmatch(r"[0-9,;·&+\s]*", text) else []


def _short(remedy: str) -> str:
    return remedy if len(remedy) <= _WRITTEN else ""


def shown(value: Any) -> str:
    """A value as a message repeats it."""
    if isinstance(value, str):
        return value if isinstance(value, NumberText) else f'"{value}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int):  # Python refuses to write a very long one
        return str(value) if abs(value) < 10**12 else "a number as long as this"
    if isinstance(value, (list, dict)):
        return "a list" if isinstance(value, list) else "a table"
    return str(value)
