"""Dutch sentences for the ear: signs that a screen reader skips become words, and back."""

from __future__ import annotations

import re

from model.language.dutch.grammar import number_word

_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8",
    "⅝": "5/8", "⅞": "7/8", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6",
    "⅚": "5/6",
}  # fmt: skip
_PARTS = {
    2: "half", 3: "derde", 4: "kwart", 5: "vijfde", 6: "zesde", 8: "achtste", 16: "zestiende",
    32: "tweeëndertigste", 64: "vierenzestigste",
}  # fmt: skip
_TOPS = {1: "een", **{number: number_word(number) for number in range(2, 11)}} | {
    11: "elf", 12: "twaalf", 13: "dertien", 14: "veertien", 15: "vijftien",
}  # fmt: skip
"""Larger ones are told in figures: a voice reads them."""
_FRACTION = re.compile(
    r"(?<![\w./])(?:(\d{1,9})[ -])?(\d{1,3})/(\d{1,3})(?![\w/]|\.\d)"
    r"(?= (?P<unit>(?:vierkante )?(?:inch|millimeter|centimeter)\b))?"
)
_SIGNS = str.maketrans(
    {
        **dict.fromkeys("‘’‚′", "'"),
        **dict.fromkeys("“”„″«»", '"'),
        **dict.fromkeys("·•‐‑−", "-"),
        **dict.fromkeys("–—", ","),
        "⁄": "/",
        "×": "x",
        "~": " ongeveer ",
        "&": " en ",
        "+": " plus ",
        "=": " is ",
        "→": " naar ",
        "%": " procent",
        "°": " graden",
        "[": "(",
        "]": ")",
        "{": "(",
        "}": ")",
    }
)
_TIMES = re.compile(r"(?<=[\w)]) ?x (?=(?:ongeveer )?\d)|(?<=\d)x(?=\d)")
_OFTEN = re.compile(r"(?<![\w.,/])(\d+) x (?=[a-z])")
"""So many times, as a list of mistakes has it."""
_IN_WHAT = (
    "de|het|een|één|elk|elke|ieder|iedere|allebei|beide|je|jouw|zijn|haar|hun|deze|dit|die|dat|"
    "vak|vakken|hoopje|stapel|stukken|plaats|totaal|the|an?|your|its|this|that|each|both|pocket|"
    r"\d[\w-]*"
)
"""What comes after the preposition that is written like the unit: ``2 in vak 7``, ``2 in 3·4``."""
_UNITS = (
    (re.compile(r"(?<=\d) ?(sq )in\b|(?<=\d) ?(in²)"), "inch"),
    (re.compile(rf"(?<=\d) (sq )?in\b(?! (?:{_IN_WHAT})\b)(?=[ ),.;:?!]|$)"), "inch"),
    (re.compile(r"(?<=\d) ?(sq )?mm\b|(?<=\d) ?(mm²)"), "millimeter"),
    (re.compile(r"(?<=\d) ?(sq )?cm\b|(?<=\d) ?(cm²)"), "centimeter"),
)
_MINUTES = re.compile(r"(?<=\d) min\b")
_HOURS = re.compile(r"(?<=\d) [uh](?= \d{1,2} min| tot \d| geleden| over\b| aan\b|[),.;:]|$)")
_ONE = re.compile(r"(?<![\d./,-])1$")
_NONE = re.compile(r"(?<=\d uur) 00 min\b")
_LEADING = re.compile(r"(?<=uur )0(?=\d)")
_HELD = "\ue000"
"""Stands for what is kept as it is; no text has it (it is for private use)."""
_KEPT = frozenset(" .,:;?!'\"()-/" + _HELD)
"""Signs that voices take as a pause or as nothing, and the stroke, which is told before."""


def spoken(text: str, exact: str = "") -> str:
    """A sentence as it is heard: ``3½ × 5½ in`` is ``3 en een half bij 5 en een half inch``.

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
    text = _TIMES.sub(" bij ", text)
    text = _OFTEN.sub(r"\1 keer: ", text)
    # The hours go by the minutes behind them.
    text = _MINUTES.sub(_minutes, _LEADING.sub("", _NONE.sub("", _HOURS.sub(" uur", text))))
    for unit, word in _UNITS:
        text = unit.sub(
            lambda m, word=word: f" {'vierkante ' * any(m.groups())}{word}",  # type: ignore[misc]
            text,
        )
    text = _FRACTION.sub(_fraction, text).replace("en/of", "of")
    text = re.sub(r"(?<=\w)/(?=\w)", " of ", text).replace("/", " ")
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
                made += " inch"
                continue
            quoted = not quoted
        made += part
    return made


def _minutes(found: re.Match[str]) -> str:
    return " minuut" if _ONE.search(found.string[: found.start()]) else " minuten"


def _fraction(found: re.Match[str]) -> str:
    whole, top, bottom = found[1], int(found[2]), int(found[3])
    word, many = _PARTS.get(bottom), _TOPS.get(top, str(top))
    if word is None:
        said = f"{top} van {bottom}"
    elif bottom == 2 and top != 1:
        said = f"{many} halven"
    elif bottom == 2 and not whole and found["unit"]:
        said = "een halve"
    else:
        said = f"{many} {word}"
    return f"{whole} en {said}" if whole else said


_BOTTOMS = {word: bottom for bottom, word in _PARTS.items()} | {
    "halve": 2, "halven": 2, "vierde": 4, "vierden": 4, "tweeendertigste": 32,
}  # fmt: skip
_COUNTS = {word: top for top, word in _TOPS.items()} | {"één": 1}
_TOP = rf"(?P<top>{'|'.join(map(re.escape, _COUNTS))}|\d+)"
_PART = rf"(?P<part>{'|'.join(sorted(map(re.escape, _BOTTOMS), key=len, reverse=True))})\b"
_ENDS = r"(?= *(?:(?:vierkante )?inch|in\b|duim|bij\b|x\b|mm\b|cm\b|millimeter|centimeter|[,.)]|$))"
"""What comes after a measure; een halve maan is none."""
_MIXED = re.compile(rf"\b(?P<whole>\d+) (?:en )?{_TOP} ?{_PART}", re.IGNORECASE)
_ALONE = re.compile(
    rf"\b(?:{_TOP} ?{_PART}{_ENDS}|(?P<half>halve|half)(?= (?:inch|bij)\b))", re.IGNORECASE
)
_ONE_AND_A_HALF = re.compile(rf"\banderhal(?:f|ve)\b{_ENDS}", re.IGNORECASE)
_OTHERS = (
    (re.compile(r"(?<=\d) ?duim\b", re.IGNORECASE), " inch"),
    (re.compile(r"(?<=\d) millimeters?\b", re.IGNORECASE), " mm"),
    (re.compile(r"(?<=\d) centimeters?\b", re.IGNORECASE), " cm"),
    (re.compile(r"\bongeveer (?=\d)", re.IGNORECASE), ""),
    (
        re.compile(r"(?:(?<=\d)|(?<=\d mm|\d cm|\d in)|(?<=\d inch)) bij (?=\d)", re.IGNORECASE),
        " x ",
    ),
)


def written(text: str) -> str:
    """What somebody typed as it was heard, in figures: ``3 en een half bij 8`` is ``3 1/2 x 8``.

    Args:
        text: What was typed; what is no measure stays.
    """
    text = _ONE_AND_A_HALF.sub("1 1/2", text)
    text = _ALONE.sub(_figures, _MIXED.sub(_figures, text))
    for said, short in _OTHERS:
        text = said.sub(short, text)
    return text


def _figures(found: re.Match[str]) -> str:
    said = found.groupdict()
    if said.get("half"):
        return "1/2"
    top = said["top"].casefold()
    whole = f"{said['whole']} " if said.get("whole") else ""
    return f"{whole}{_COUNTS.get(top, top)}/{_BOTTOMS[said['part'].casefold()]}"
