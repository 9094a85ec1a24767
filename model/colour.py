"""Paper colours: read from a kit file, made legible, and put into plain words.

A colour is `(red, green, blue)`, each a whole number from 0 to 255, in sRGB.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from math import dist

Rgb = tuple[int, int, int]

BLACK: Rgb = (0, 0, 0)
WHITE: Rgb = (255, 255, 255)

_HEX = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", re.ASCII | re.IGNORECASE)
_LATER_NAMES = {"rebeccapurple": (0x66, 0x33, 0x99)}  # CSS Color 4; the package ends with CSS 3
_LONGEST_NAME = 40  # far beyond any name; what is longer is cut in a message

# Examples of each plain word: a colour gets the word of the nearest one. Every CSS name is there.
# Where a name says the word itself it is followed, unless most people would see another hue; the
# rest is our own judgement, with no source. CSS has few dark and dull colours: those with a # come
# from the colour name survey at https://xkcd.com/color/rgb ("dark green", "dull purple", "dusty
# pink", "almost black", "olive brown"...; CC0); the tests check the whole against its other names.
_EXAMPLES = {
    "red": "red darkred crimson firebrick indianred maroon orangered tomato #bb3f3f",
    "orange": "orange coral darkorange darksalmon lightsalmon peachpuff sandybrown #c65102 #d8863b",
    "yellow": "yellow darkkhaki gold goldenrod khaki palegoldenrod #d5b60a",
    "green": (
        "green chartreuse darkgreen darkolivegreen darkseagreen forestgreen greenyellow honeydew "
        "lawngreen lightgreen lime limegreen mediumseagreen mediumspringgreen olive olivedrab "
        "palegreen seagreen springgreen yellowgreen #033500 #3c4d03 #74a662"
    ),
    "teal": (
        "teal aquamarine cadetblue cyan darkcyan darkturquoise lightseagreen mediumaquamarine "
        "mediumturquoise paleturquoise turquoise #014d4e #5f9e8f"
    ),
    "blue": (
        "blue cornflowerblue darkblue darkslateblue deepskyblue dodgerblue lightblue lightcyan "
        "lightskyblue lightsteelblue mediumblue mediumslateblue midnightblue navy powderblue "
        "royalblue skyblue slateblue steelblue #00035b #214761 #49759c"
    ),
    "purple": (
        "purple blueviolet darkmagenta darkorchid darkviolet indigo lavender magenta mediumorchid "
        "mediumpurple orchid plum rebeccapurple thistle violet #35063e #84597e"
    ),
    "pink": (
        "pink deeppink hotpink lavenderblush lightcoral lightpink mediumvioletred mistyrose "
        "palevioletred salmon #cb416b #d58a94"
    ),
    "brown": (
        "brown burlywood chocolate darkgoldenrod peru rosybrown saddlebrown sienna tan "
        "#341c02 #876e4b #645403"
    ),
    "black": "black #070d0d",
    "grey": (
        "grey darkgrey darkslategrey dimgrey gainsboro lightgrey lightslategrey silver slategrey "
        "#363737"
    ),
    "white": "white aliceblue azure floralwhite ghostwhite mintcream seashell snow whitesmoke",
    "cream": (
        "antiquewhite beige bisque blanchedalmond cornsilk ivory lemonchiffon lightgoldenrodyellow "
        "lightyellow linen moccasin navajowhite oldlace papayawhip wheat"
    ),
}
COLOUR_WORDS = tuple(_EXAMPLES)
"""Every word that `colour_word` may give."""


class ColourError(ValueError):
    """A text that is no colour. Its message says what is wrong and what would be right.

    Attributes:
        likely: The colour name that was probably meant, or None.
    """

    def __init__(self, message: str, likely: str | None = None) -> None:
        """Keep the message and the likely name."""
        super().__init__(message)
        self.likely = likely


@cache
def _names() -> dict[str, Rgb]:
    """Give every CSS colour name, in small letters, with its colour."""
    # Not at the top: most starts of the program need no name of a colour.
    import webcolors  # type: ignore[import-untyped]

    found = {name: webcolors.name_to_rgb(name) for name in webcolors.names()}
    return {name: (c.red, c.green, c.blue) for name, c in found.items()} | _LATER_NAMES


def parse_colour(text: str) -> Rgb:
    """Read a colour as a kit file gives it.

    Args:
        text: A CSS colour name, in any case and with or without spaces ("steelblue",
            "Steel Blue"), or `#rgb` or `#rrggbb`.

    Returns:
        Red, green and blue, 0 to 255.

    Raises:
        ColourError: It is neither.

    Source: CSS Color Module Level 4, sections "Named Colors" and "The RGB Hexadecimal Notations";
    the spaces are our own leniency.
    """
    plain = text.strip()
    if not plain:
        raise ColourError('no colour given; write a name such as "ivory", or #rrggbb')
    if plain.startswith("#"):
        if not _HEX.fullmatch(plain):
            raise ColourError(
                f'"{_shown(plain)}" is no colour; '
                "after # come three or six of 0-9 and a-f, as in #4682b4"
            )
        digits = plain[1:] if len(plain) == 7 else "".join(2 * digit for digit in plain[1:])
        return int(digits[:2], 16), int(digits[2:4], 16), int(digits[4:], 16)
    name = "".join(plain.lower().split())
    rgb = _names().get(name)
    if rgb is None:
        raise _unknown(plain, name)
    return rgb


def _shown(text: str) -> str:
    """Give a text as a message may quote it: short, and without what a terminal would obey."""
    short = text if len(text) <= _LONGEST_NAME else text[:_LONGEST_NAME] + "..."
    return "".join(char if char.isprintable() else " " for char in short)


def _unknown(text: str, name: str) -> ColourError:
    """Make the error for a name that CSS does not have."""
    shown = _shown(text)
    if re.fullmatch(r"[0-9a-f]{6}", name):
        return ColourError(f'"{shown}" is no colour; did you mean "#{name}"?', f"#{name}")
    # Not at the top: only a mistake needs it.
    from difflib import get_close_matches

    close = get_close_matches(name, _names(), n=1)
    if close:
        return ColourError(f'"{shown}" is no colour; did you mean "{close[0]}"?', close[0])
    return ColourError(
        f'"{shown}" is no colour; write a CSS colour name such as "ivory", or #rrggbb'
    )


def _linear(rgb: Rgb) -> tuple[float, float, float]:
    """Undo the sRGB curve: the three channels as shares of light, 0 to 1.

    Source: WCAG 2.2, definition of "relative luminance".
    """

    def channel(value: int) -> float:
        share = value / 255
        return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)

    return channel(rgb[0]), channel(rgb[1]), channel(rgb[2])


def contrast(a: Rgb, b: Rgb) -> float:
    """Give the contrast ratio of two colours, from 1 (alike) to 21 (black and white).

    Source: WCAG 2.2, definitions of "contrast ratio" and "relative luminance"
    (https://www.w3.org/TR/WCAG22/).
    """
    lights = []
    for rgb in (a, b):
        red, green, blue = _linear(rgb)
        lights.append(0.2126 * red + 0.7152 * green + 0.0722 * blue)
    return (max(lights) + 0.05) / (min(lights) + 0.05)


@lru_cache(1024)
def ink_on(rgb: Rgb) -> Rgb:
    """Give the ink, black or white, that stands out better on a paper of that colour."""
    return BLACK if contrast(BLACK, rgb) >= contrast(WHITE, rgb) else WHITE


@lru_cache(1024)
def faint_on(rgb: Rgb) -> Rgb:
    """Give an ink for outlines and textures of a paper: fainter than for words, but seen.

    WCAG 2.2, 1.4.11 asks for 3:1 of what must be seen to be understood and is no text.
    """
    ink = ink_on(rgb)
    for share in range(8, 21):
        mixed = [(share * a + (20 - share) * b) // 20 for a, b in zip(ink, rgb, strict=True)]
        faint: Rgb = (mixed[0], mixed[1], mixed[2])
        if contrast(faint, rgb) >= 3:
            return faint
    return ink


def _perceived(rgb: Rgb) -> tuple[float, float, float]:
    """Give a colour as OKLab lightness, a and b, in which distance is roughly difference seen.

    Source: Björn Ottosson, "A perceptual color space for image processing" (2020),
    https://bottosson.github.io/posts/oklab/, the matrices for linear sRGB.
    """
    r, g, b = _linear(rgb)
    long = (0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b) ** (1 / 3)
    medium = (0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b) ** (1 / 3)
    short = (0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b) ** (1 / 3)
    return (
        0.2104542553 * long + 0.7936177850 * medium - 0.0040720468 * short,
        1.9779984951 * long - 2.4285922050 * medium + 0.4505937099 * short,
        0.0259040371 * long + 0.7827717662 * medium - 0.8086757660 * short,
    )


@cache
def _examples() -> tuple[tuple[tuple[float, float, float], str], ...]:
    """Give each example as it is perceived, with its word."""
    return tuple(
        (_perceived(parse_colour(name)), word)
        for word, names in _EXAMPLES.items()
        for name in names.split()
    )


@lru_cache(1024)
def colour_word(rgb: Rgb) -> str:
    """Give the plain English word for a colour, for finding a piece by it.

    Returns:
        One of `COLOUR_WORDS`. It says the nearest of some 140 named colours' word; between two
        hues it is a judgement, not a fact.
    """
    light, a, b = _perceived(rgb)
    nearest = min(
        _examples(),
        key=lambda e: (e[0][0] - light) ** 2 + (e[0][1] - a) ** 2 + (e[0][2] - b) ** 2,
    )
    return nearest[1]


@lru_cache(4096)
def difference(a: Rgb, b: Rgb) -> float:
    """Give how different two colours look: their distance in OKLab, 0 for the same."""
    return dist(_perceived(a), _perceived(b))
