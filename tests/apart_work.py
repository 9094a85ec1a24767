"""Work for another process: generator functions at the top level of a module."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path


class Odd(Exception):
    """An error that can't be made again from what it was made of."""

    def __init__(self, one: str, two: str) -> None:
        super().__init__(f"{one} and {two}")


def counted(most: int) -> Iterator[int]:
    yield from range(most)


def who() -> Iterator[tuple[int, list[str]]]:
    yield os.getpid(), sorted(sys.modules)


def huge(size: int) -> Iterator[bytes]:
    for number in range(3):
        yield bytes([number]) * size


def silent(told: str = "") -> Iterator[int]:
    """Never yields; says where it runs."""
    if told:
        Path(told).write_text(str(os.getpid()), encoding="utf-8")
    while True:
        time.sleep(0.01)
    yield 1


def busy(told: str) -> Iterator[int]:
    """Never yields, never rests."""
    Path(told).write_text(str(os.getpid()), encoding="utf-8")
    number = 0
    while True:
        number += 1
    yield number


def failing(after: int) -> Iterator[int]:
    yield from range(after)
    raise ValueError("no paper left")


def failing_oddly() -> Iterator[int]:
    yield 1
    raise Odd("glue", "scissors")


def dying() -> Iterator[int]:
    yield 1
    os._exit(7)


def talking() -> Iterator[str]:
    print("this is for nobody")
    os.write(1, b"nor this")
    print("nor this", file=sys.stderr)
    yield sys.stdin.read()


def unsendable() -> Iterator[object]:
    yield lambda: None
