"""Blocks that have been looked at, by what may be put beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model.planning.blocks import Block


class Closed:
    """Blocks by their scraps, and by scraps and side.

    With few scraps nearly every two blocks that are put together match along the cut.
    """

    def __init__(self) -> None:
        """No block yet."""
        self.every: dict[int, list[Block]] = {}
        self.matching: dict[tuple[int, bool, int], list[Block]] = {}

    def add(self, block: Block) -> None:
        """Note a block.

        Args:
            block: The block.
        """
        self.every.setdefault(block.scraps, []).append(block)
        for across, side in ((True, block.height), (False, block.width)):
            self.matching.setdefault((block.scraps, across, side), []).append(block)

    def beside(self, block: Block, allowed: int) -> Iterator[tuple[bool, Sequence[Block]]]:
        """The blocks that may go beside one, or above it, with so many scraps in all.

        Args:
            block: The one.
            allowed: The scraps.

        Yields:
            Whether they go beside it, and the blocks.
        """
        spare = allowed - block.scraps
        for scraps in range(spare):
            every = self.every.get(scraps, ())
            yield True, every
            yield False, every
        yield True, self.matching.get((spare, True, block.height), ())
        yield False, self.matching.get((spare, False, block.width), ())
