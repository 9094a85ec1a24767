"""What a line that is not TOML was probably meant to be, in the words of a crafter.

A mended line is only proposed when it can be read.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator

from model import kitfile as f

_SHOWN = 60  # characters of a line that a message repeats
_LONGEST = 400  # a longer line is not guessed at
_STRAIGHT = str.maketrans("“”„‟«»‘’‚‛", '""""""\'\'\'\'')
_HEADER = re.compile(r"\s*\[+\s*([A-Za-z_-]+)\s*\]*\s*")
_STATEMENT = re.compile(r"\s*([\w.-]+|\"[^\"]*\")\s*=\s*(.*)")
_COLON = re.compile(r"\s*([\w-]+)\s*:\s*(.+)")
_WORDY = re.compile(r"\s*([A-Za-z]\w*(?:[ -]+\w+)+)\s*=\s*(.*)")
_SIGNS = re.compile(r"\s*([^\s\"'=\[\]{},#][^\"'=\[\]{},#]*?)\s*=\s*(.*)")
_INNER_KEY = re.compile(r"([{,])\s*(?![\w-]+\s*=)([^\s\"'={},][^\"'={},]*?)\s*=")
_NEXT = re.compile(r"\[|[\w.-]+\s*=|\"[^\"]*\"\s*=")
_NUMBER = re.compile(r"[1-9][0-9]*(?:\.[0-9]+)?|0\.[0-9]+|0")
_QUOTED = re.compile(r"\"[^\"]*\"?|(?<!\w)'[^']*'?")
_LISTS = {"marks", "widths", "pages", "bases"}
_TEXTS = {"title", "edition", "author", "note", "do", "words", "picture", "name", "lay"}

_COMMA = "a comma between entries"
_LIST = "a list needs [ ]"
_EQUALS = "= stands between a key and its value"
_KEY = "a key with such signs needs quotes"
_TEXT = "text needs quotes"
_CLOSE = "its closing quote is missing"


def shorten(line: str, column: int = 1) -> str:
    """A line of the file as a message shows it: the part around a column."""
    plain = line.strip()
    start = max(0, column - 1 - (len(line) - len(line.lstrip())) - _SHOWN // 2)
    if len(plain) <= _SHOWN:
        return plain
    start = min(start, len(plain) - _SHOWN)
    end = start + _SHOWN
    return ("..." if start else "") + plain[start:end] + ("..." if end < len(plain) else "")


def mend(text: str, line: int, column: int, said: str) -> tuple[int, str]:
    """Where a syntax error really is, and what would be right.

    Args:
        text: The whole text.
        line: The line that the parser names, from 1.
        column: Its column, from 1; 0 for the end of the text.
        said: What the parser says.

    Returns:
        The line to look at, and what would be right; that is empty when nothing is known.
    """
    lines = text.split("\n")
    line = min(line, len(lines))
    while not column and line > 1 and not lines[line - 1].strip():
        line -= 1  # a text that ends too early ends with its last line
    if said.startswith("Unterminated"):
        for mark in ('"""', "'''"):
            if text.count(mark) % 2:
                opened = text.count("\n", 0, text.rfind(mark)) + 1
                return opened, f"a text in {mark} ends with {mark}"
    here = lines[line - 1]
    before = here[: column - 1] if column else ""
    if said.startswith("Unclosed array") and not (column and before.strip()):
        return _open_list(lines, line, here[column - 1 :] if column else "")
    if len(here) > _LONGEST:
        return line, ""
    if _reads(here):
        return _alone(lines, line), _in_its_place(here)
    for hint, fixed in _fixes(here):
        if _reads(fixed):
            return line, f"{hint}: {fixed.strip()}" if len(fixed) <= 2 * _SHOWN else hint
    # A line of a list that goes over several lines.
    if "=" not in here and said.startswith(("Invalid value", "Unclosed array", "Illegal")):
        entries, hint = _entries(_without_comment(here))
        if _reads(f"x = [{entries}]"):
            return line, f"{hint}: {entries}," if len(entries) <= 2 * _SHOWN else hint
    return line, _unsure(here, said)


def _reads(line: str) -> bool:
    try:
        tomllib.loads(line)
    except (ValueError, RecursionError):
        return False
    return True


def _open_list(lines: list[str], line: int, rest: str) -> tuple[int, str]:
    """A list that goes over several lines, or should not."""
    if rest and not _NEXT.match(rest):
        for number in range(line - 1, 0, -1):
            last = lines[number - 1].strip()
            if last and not last.startswith("#"):
                shown = "" if "#" in last or len(last) > _SHOWN else f": {last},"
                return number, _COMMA + shown
    first = line if not rest else line - 1
    for number in range(first, 0, -1):
        opening = lines[number - 1]
        if re.search(r"=\s*\[", opening):
            fixed = f"{opening.strip()}]"
            close = "the list lacks its ]"
            short = len(fixed) <= 2 * _SHOWN and _reads(fixed)
            return number, f"{close}: {fixed}" if short else close
    return line, "a list lacks its ]"


def _alone(lines: list[str], line: int) -> int:
    """The line of the heading that differs from the others of its array, if that is wrong."""
    header = _HEADER.fullmatch(lines[line - 1])
    if not header or not lines[line - 1].strip().startswith("[["):
        return line
    alone = re.compile(rf"\s*\[\s*{re.escape(header[1])}\s*\]\s*(?:#.*)?")
    return next((n for n, text in enumerate(lines[:line], 1) if alone.fullmatch(text)), line)


def _in_its_place(here: str) -> str:
    """What is wrong with a line that is right when it stands alone."""
    header = _HEADER.fullmatch(here)
    if header:
        if header[1] in f.TABLES:
            return f"above each of them stands [[{header[1]}]]"
        return "this table stands here twice"
    key = _STATEMENT.match(here)
    return f'"{key[1][:_SHOWN]}" stands twice in its table; write it once' if key else ""


def _unsure(here: str, said: str) -> str:
    """What can be told without a mended line."""
    value = _STATEMENT.fullmatch(here)
    if "Illegal character '\\n'" in said:
        return _CLOSE
    if value and "{" in value[2] and value[2].count("{") != value[2].count("}"):
        return "a table in { } stands on one line, and ends with }"
    if value and not _without_comment(value[2]):
        return "a value is missing after ="
    if not value and "=" not in here and not here.strip().startswith(("[", "]", "{", '"')):
        return 'a line is key = value, such as title = "..."; before a remark stands #'
    return ""


# Mended lines, the likelier ones first; whoever asks takes the first that can be read.

_Fixes = Iterator[tuple[str, str]]


def _fixes(here: str) -> _Fixes:
    straight = here.translate(_STRAIGHT)
    if straight != here and re.search("[“”„‟«»]|=\\s*[‘’‚‛]", here):
        yield "quotes must be straight, \" or '", straight
    header = _HEADER.fullmatch(here)
    if header:
        many = header[1] in f.TABLES
        yield "the brackets don't match", f"[[{header[1]}]]" if many else f"[{header[1]}]"
    found = _STATEMENT.fullmatch(here)
    if found:
        yield from _values(found[1], found[2])
        return
    colon, wordy, signs = _COLON.fullmatch(here), _WORDY.fullmatch(here), _SIGNS.fullmatch(here)
    if colon:
        hint, key, value = _EQUALS, colon[1], colon[2]
    elif wordy:
        hint, key, value = "a key is one word", re.sub("[ -]+", "_", wordy[1]), wordy[2]
    elif signs:
        hint, key, value = _KEY, f'"{signs[1]}"', signs[2]
    else:
        return
    yield hint, f"{key} = {value}"
    for also, fixed in _values(key, value):
        yield f"{hint}, and {also}", fixed


def _values(key: str, raw: str) -> _Fixes:
    value = _without_comment(raw)
    if not value:
        if re.match("#[0-9a-fA-F]", raw):
            yield _TEXT, f'{key} = "{raw.split()[0]}"'
        return
    if value.casefold() in ("true", "false"):
        yield "true and false are written small", f"{key} = {value.casefold()}"
    elif value.startswith("{"):
        yield from _tables(key, value)
    elif value.startswith(("[", "(")):
        yield from _lists(key, value)
    elif key not in _TEXTS and re.search("[,;]", _QUOTED.sub("", value)):
        yield _LIST, f"{key} = [{value}]"
        entries, hint = _entries(value)
        yield f"{_LIST}, and {hint}", f"{key} = [{entries}]"
    elif key in _LISTS:
        hint, text = _text(value)
        yield f"{_LIST}, and {hint}", f"{key} = [{text}]"
    else:
        hint, text = _text(value)
        yield hint, f"{key} = {text}"


def _tables(key: str, value: str) -> _Fixes:
    hints: list[str] = []
    steps: tuple[tuple[str, str | re.Pattern[str], str], ...] = (
        (_COMMA, r"\s*;\s*", ", "),
        (_EQUALS, r"(?<=[\"\w])\s*:\s*", " = "),
        (_KEY, _INNER_KEY, r'\1 "\2" ='),
        (_COMMA, r"(?<=[\"\w}])\s+(?=(?:\w+|\"[^\"]*\")\s*=)", ", "),
        ("no comma before }", r",\s*}", " }"),
        ("the table lacks its }", r"(?<![},{])$", " }"),
    )
    for hint, old, new in steps:
        mended = re.sub(old, new, value)
        if mended != value:
            value = mended
            hints += [hint] * (hint not in hints)
            yield ", ".join(hints), f"{key} = {value}"


def _lists(key: str, value: str) -> _Fixes:
    ends = r"[])]+$" if "{" in value else r"[])}]+$"
    closed = f"[{re.sub(ends, '', value[1:])}]"
    if closed != value:
        many = value.endswith("]]")
        yield "one ] too many" if many else "a list begins with [, ends with ]", f"{key} = {closed}"
    single = re.sub(r",(?:\s*,)+", ",", re.sub(r"^\[\s*,", "[", closed))
    if single != closed:
        yield "one comma too many", f"{key} = {single}"
    for old in (r"\s*;\s*", r"(?<=[\"}])\s+(?=[\"{])"):
        yield _COMMA, f"{key} = {re.sub(old, ', ', single)}"
    commas = re.sub(r"(?<=[\"\w}])\s+(?=(?:\w+|\"[^\"]*\")\s*=)", ", ", single)
    if commas != single:
        yield _COMMA, f"{key} = {commas}"
    inner = single[1:-1].strip()
    if not re.search(r"[{}\[\]]", inner):
        entries, hint = _entries(inner)
        yield hint, f"{key} = [{entries}]"


def _entries(value: str) -> tuple[str, str]:
    """The entries of a list, each in the quotes that it needs, and what was wrong with them."""
    if re.fullmatch(r"[0-9.]+(?:\s+[0-9.]+)+", value):
        value = ",".join(value.split())
    hints = [_COMMA] if ";" in value else []
    made: list[str] = []
    for part in re.split("[,;]", value):
        plain = part.strip()
        if not plain:
            continue
        if _NUMBER.fullmatch(plain) or _reads(f"x = {plain}"):
            made.append(plain)
        else:
            hint, text = _text(plain)
            made.append(text)
            hints += [hint] * (hint not in hints)
    return ", ".join(made), ", and ".join(hints) or _COMMA


def _text(value: str) -> tuple[str, str]:
    """A text in the quotes that it needs, and what was wrong with it."""
    first, last = value[0], value[-1]
    opened, closed = first in "\"'", last in "\"'" and len(value) > 1
    inner = value[opened : len(value) - closed] if opened else value
    if opened and closed:
        if "\\" in inner:
            hint = "text with \\ in it stands between ' '"
        else:
            hint = f"text with {first} in it stands between other quotes"
    elif opened:
        hint = _CLOSE
    elif closed and not re.search(r"[0-9][\"']$", value):  # else it is an inch mark
        hint, inner = "its opening quote is missing", value[:-1]
    else:
        hint = _TEXT
    quote = "'" if '"' in inner or "\\" in inner else '"'
    return hint, f"{quote}{inner}{quote}"


def _without_comment(value: str) -> str:
    """A value without the remark after it."""
    bare = _QUOTED.sub(lambda found: "x" * len(found[0]), value)
    return value[: bare.find("#")].strip() if "#" in bare else value.strip()
