"""What is kept in mind while a random kit is thought up; lengths are whole steps of its grid."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass
class Kind:
    name: str
    count: int = 0
    size: tuple[int, int] | None = None
    turns: bool = True
    pins: list[str] = field(default_factory=list)
    inline: str = ""


@dataclass
class Sheet:
    name: str
    directional: bool
    measured: bool
    verbs: tuple[str, ...]


@dataclass
class Paper:
    """Alike rectangles in hand: in the sheet's frame, and whether they lie sideways."""

    name: str
    w: int
    h: int
    copies: int = 1
    sideways: bool = False
    whole: bool = False
