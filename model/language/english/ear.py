"""Sentences for the ear: signs that a screen reader skips or spells become words, and back."""

from __future__ import annotations

import re

_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8",
    "⅝": "5/8", "⅞": "7/8", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6",
    "⅚": "5/6",
}  # fmt: skip
_PARTS = {
    2: "half", 3: "third", 4: "quarter", 5: "fifth", 6: "sixth", 8: "eighth", 16: "sixteenth",
    32: "thirty-second", 64: "sixty-fourth",
}  # fmt: skip
_FRACTION = re.compile(r"(?<![\w./])(?:(\d{1,9})[ -])?(\d{1,3})/(\d{1,3})(?![\w/]|\.\d)")
_SIGNS = str.maketrans(
    {
        **dict.fromkeys("‘’‚′", "'"),
        **dict.fromkeys("“”„″«»", '"'),
        **dict.fromkeys("·•‐‑−", "-"),
        **dict.fromkeys("–—", ","),
        "⁄": "/",
        "×": "x",
        "~": " about ",
        "&": " and ",
        "+": " plus ",
        "=": " is ",
        "→": " to ",
        "%": " percent",
        "°": " degrees",
        "[": "(",
        "]": ")",
        "{": "(",
        "}": ")",
    }
)
_TIMES = re.compile(r"(?<=[\w)]) ?x (?=(?:about )?\d)|(?<=\d)x(?=\d)")
_OFTEN = re.compile(r"(?<![\w.,/])(\d+) x (?=[a-z])")
"""So many times, as a list of mistakes has it."""
_AFTER = r"(?= (?:of|or|to|side|sides|wide|long|off|left|on either|square|circle)\b| ?[),.;:]|$)"
_INCH = re.compile(rf"(?<=\d) (sq )?in\b{_AFTER}|(?<=\d) (sq )in\b")
_UNITS = (
    (re.compile(r"(?<=\d) ?(sq )?mm\b"), "millimetre"),
    (re.compile(r"(?<=\d) ?(sq )?cm\b"), "centimetre"),
    (re.compile(r"(?<=\d) (sq )?min\b"), "minute"),
    (re.compile(r"(?<=\d) (sq )?h\b"), "hour"),
)
_ONE = re.compile(r"(?<![\d./,-])(?<!and )(?<!\d )(?<!0)1$")
_PART_ALONE = re.compile(r"(?<![\d/.])(?<!\d )\d+/\d+$")
_AS_A_WORD = re.compile(r" (?:side|sides|circle|square)\b")
"""An 8 inch side, but 8 inches of it."""
_LEADING = re.compile(r"(?<=hour )0(?=\d)|(?<=hours )0(?=\d)")
_HELD = "\ue000"
"""Stands for what is kept as it is; no text has it (it is for private use)."""
_KEPT = frozenset(" .,:;?!'\"()-/" + _HELD)
"""Signs that voices take as a pause or as nothing, and the stroke, which is told before."""


def spoken(text: str, exact: str = "") -> str:
    """A sentence as it is heard: ``3½ × 5½ in`` is ``3 and a half by 5 and a half inches``.

    Args:
        text: One sentence or several.
        exact: A part of it that is kept as it stands: a path, or what somebody typed.

    Returns:
        Letters and digits of any language, spaces, and signs of punctuation.
    """
    if exact and exact in text:
        return spoken(text.replace(exact, _HELD, 1)).replace(_HELD, exact, 1)
    for sign, figures in _VULGAR.items():
        if sign in text:
            text = re.sub(rf"(?<=\d){sign}", f" {figures}", text).replace(sign, figures)
    text = " ".join(_inch_marks(text.translate(_SIGNS)).split())
    text = _TIMES.sub(" by ", text)
    text = _OFTEN.sub(lambda m: f"{m[1]} time{'s' * (m[1] != '1')}: ", text)
    text = _INCH.sub(lambda m: _unit(m, "inch"), text)
    for unit, word in _UNITS:
        text = unit.sub(lambda m, word=word: _unit(m, word), text)  # type: ignore[misc]
    text = _LEADING.sub("", text)
    text = _FRACTION.sub(_fraction, text)
    text = text.replace("a half of an ", "half an ").replace("and/or", "or")
    text = re.sub(r"(?<=\w)/(?=\w)", " or ", text).replace("/", " ")
    text = "".join(
        char if char.isalnum() or char in _KEPT or char == _HELD else " " for char in text
    )
    return re.sub(r" +(?=[.,;:?!)])|(?<=\() +", "", " ".join(text.split()))


def _inch_marks(text: str) -> str:
    """``9 1/2"`` in inches, unless the sign ends what is quoted."""
    if '"' not in text:
        return text
    made, quoted = "", False
    for part in re.split(r'(")', text):
        if part == '"':
            if not quoted and made[-1:].isdigit():
                made += " inches"
                continue
            quoted = not quoted
        made += part
    return made


def _unit(found: re.Match[str], word: str) -> str:
    """A unit after its number: one of it or several."""
    before = found.string[: found.start()]
    square = "square " if any(found.groups()) else ""
    if _AS_A_WORD.match(found.string[found.end() :]):
        return f" {square}{word}"
    if _PART_ALONE.search(before):
        return f" of {'an' if word[0] in 'ih' else 'a'} {square}{word}"
    many = "" if _ONE.search(before) else "es" if word.endswith("ch") else "s"
    return f" {square}{word}{many}"


def _fraction(found: re.Match[str]) -> str:
    whole, top, bottom = found[1], int(found[2]), int(found[3])
    word = _PARTS.get(bottom)
    if word is None:
        said = f"{top} over {bottom}"
    elif top == 1:
        said = f"{'an' if word[0] == 'e' else 'a'} {word}"
    else:
        said = f"{top} {'halves' if bottom == 2 else word + 's'}"
    return f"{whole} and {said}" if whole else said


_WORDS = {word: bottom for bottom, word in _PARTS.items()} | {"halve": 2}
_ENDS = r"(?= *(?:(?:of )?an? inch|inch|in\b|by\b|x\b|mm\b|cm\b|[,.)]|$))"
"""What comes after a measure; a teal half and a half moon are none."""
_PART = rf"(?P<part>{'|'.join(map(re.escape, _WORDS))})s?\b"
_MIXED = re.compile(rf"\b(?P<whole>\d+) (?:and )?(?P<top>an?|one|\d+) {_PART}", re.IGNORECASE)
_ALONE = re.compile(
    rf"\b(?:(?P<top>an?|one|\d+) {_PART}{_ENDS}|(?P<half>half)(?= (?:an )?inch| by ))",
    re.IGNORECASE,
)
_OF_A = re.compile(r"(?<=\d) (?:of )?an? (?=inch)", re.IGNORECASE)
_METRIC = (
    (re.compile(r"(?<=\d) millimet(?:re|er)s?\b", re.IGNORECASE), " mm"),
    (re.compile(r"(?<=\d) centimet(?:re|er)s?\b", re.IGNORECASE), " cm"),
    (re.compile(r"\babout (?=\d)", re.IGNORECASE), ""),
)


def written(text: str) -> str:
    """What somebody typed as it was heard, in figures: ``3 and a half by 8`` is ``3 1/2 by 8``.

    Args:
        text: What was typed; what is no measure stays.
    """
    text = _OF_A.sub(" ", _ALONE.sub(_figures, _MIXED.sub(_figures, text)))
    for unit, short in _METRIC:
        text = unit.sub(short, text)
    return text


def _figures(found: re.Match[str]) -> str:
    said = found.groupdict()
    if said.get("half"):
        return "1/2"
    top = said["top"] if said["top"].isdigit() else "1"
    whole = f"{said['whole']} " if said.get("whole") else ""
    return f"{whole}{top}/{_WORDS[said['part'].casefold()]}"
