"""What is kept in mind while a random kit is thought up; lengths are whole steps of its grid."""

from __future__ import annotations

import random
from dataclasses import dataclass, field


@dataclass
class Kind:
    name: str
    count: int = 0
    size: tuple[int, int] | None = None
    turns: bool = True
    pins: list[str] = field(default_factory=list)
    inline: str = ""
    late: int = 0


@dataclass
class Sheet:
    name: str
    directional: bool
    measured: bool
    verbs: tuple[str, ...]
    late: int = 0


@dataclass
class Paper:
    """Alike rectangles in hand: in the sheet's frame, and whether they lie sideways."""

    name: str
    w: int
    h: int
    copies: int = 1
    sideways: bool = False
    whole: bool = False


def widths_of(rng: random.Random, along: int, measured: bool) -> tuple[list[int], bool]:
    """The widths of the parts in the order of the cuts, and whether all but one are alike."""
    if measured and rng.random() < 0.5:
        width = rng.randint(2, max(2, along // 2))
        most = min(5, (along - 1) // width)
        count = rng.randint(1, most) if most else 0
        return [width] * count + [along - width * count], True
    cuts = sorted(rng.sample(range(1, along), min(rng.randint(1, 4), along - 1)), reverse=True)
    widths = [a - b for a, b in zip([along, *cuts], [*cuts, 0], strict=True)]
    return (widths if measured else sorted(widths)), False
