"""Large kits for benchmarks, and the words that test kits are written with."""

from __future__ import annotations

import json
from fractions import Fraction


def q(text: str) -> str:
    """Text in TOML's quotes."""
    return json.dumps(text, ensure_ascii=False)


def say_eighths(steps: int, between: str = " ") -> str:
    """So many eighths of an inch, as the trade writes them."""
    whole, part = divmod(Fraction(steps, 8), 1)
    if not part:
        return str(whole)
    return f"{whole}{between}{part}" if whole else str(part)


def big_kit(pieces: int) -> str:
    """A kit with so many pieces; its length grows with them.

    A sheet gives 36 squares of 2 x 2 in: half of them alike, half with names of their own.

    Args:
        pieces: How many, at least 2.
    """
    pages = min(40, max(1, pieces // 10))
    full, left = divmod(pieces, 36)
    out = [
        f'dryfit = 1\ntitle = "Large"\nunit = "in"\npage = "12 x 12"\npages = {pages}\nscraps = 0\n'
    ]
    for number in range(full):
        out.append(_big_sheet(number, pages))
    if left:
        out.append(_last_sheet(full, left, pages))
    return "\n".join(out)


def _big_sheet(number: int, pages: int) -> str:
    page = number % pages + 1
    sheet = f"sheet {number + 1}"
    out = [f'[[sheet]]\nname = "{sheet}"\nface = "navy"\n']
    next_page = (number + 1) % pages + 1
    places = f"9 to page {page}, 9 to page {next_page}" if pages > 1 else "18 to page 1"
    out.append(f'[[piece]]\nname = "{sheet} alike"\nsize = "2 x 2"\nto = "{places}"\n')
    rows = [f"{sheet} row {row}" for row in range(3)]
    alike = f'{{ name = "{sheet} strip", count = 3 }}'
    out.append(
        f'[[step]]\ntrim = "{sheet}"\nmarks = [10, 8, 6, 4, 2]\n'
        f'gives = [{alike}, "{rows[0]}", "{rows[1]}"]\nrest = "{rows[2]}"\n'
    )
    out.append(
        f'[[step]]\ntrim = "{sheet} strip"\nturn = "quarter"\ntimes = 3\n'
        f'marks = [10, 8, 6, 4, 2]\ngives = "{sheet} alike"\nrest = "{sheet} alike"\n'
    )
    for row, name in enumerate(rows):
        own = [f"{sheet} own {row}{column}" for column in range(6)]
        for piece in own:
            out.append(f'[[piece]]\nname = "{piece}"\nsize = "2 x 2"\nto = {page}\n')
        gives = ", ".join(f'"{piece}"' for piece in own[:-1])
        out.append(
            f'[[step]]\ntrim = "{name}"\nturn = "quarter"\nmarks = [10, 8, 6, 4, 2]\n'
            f'gives = [{gives}]\nrest = "{own[-1]}"\n'
        )
    return "\n".join(out)


def _last_sheet(number: int, pieces: int, pages: int) -> str:
    sheet = f"sheet {number + 1}"
    if pieces == 1:
        return f'[[precut]]\nname = "{sheet} only"\nface = "navy"\nto = {pages}\n'
    out = [f'[[sheet]]\nname = "{sheet}"\nface = "navy"\n']
    own = [f"{sheet} own {n}" for n in range(pieces)]
    for piece in own:
        out.append(f'[[piece]]\nname = "{piece}"\nto = {pages}\n')
    marks = ", ".join(q(say_eighths(2 * n)) for n in range(pieces - 1, 0, -1))
    gives = ", ".join(q(piece) for piece in own[:-1])
    out.append(
        f'[[step]]\ntrim = "{sheet}"\nmarks = [{marks}]\ngives = [{gives}]\nrest = "{own[-1]}"\n'
    )
    return "\n".join(out)
