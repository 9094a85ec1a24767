"""Words that wrap beneath their own beginning, and not beneath the mark before them."""

from __future__ import annotations

import re
from functools import lru_cache

from textual.content import Content
from textual.css.styles import RulesMap
from textual.strip import Strip
from textual.style import Style
from textual.visual import RenderOptions, Visual

_TIE = "\ue000"  # means nothing to anyone, and is as wide as a space
_SIZE = re.compile(r" ([×x]) (?=[\d¼-¾⅐-⅞])")
_TIED = rf"{_TIE}\1{_TIE}"


class Hanging(Visual):
    """A row of a list: a mark, and words that keep clear of it however many lines they take.

    A size stays on one line.
    """

    def __init__(self, text: Content, indent: int) -> None:
        """Keep the words.

        Args:
            text: All of the row.
            indent: How many cells of it are the mark, its spaces among them.
        """
        self._text = text
        self._indent = indent
        self._wrapped = lru_cache(maxsize=2)(self._wrap)

    def _wrap(self, width: int) -> Content:
        if width < 3 * self._indent or len(self._text) <= self._indent:
            return self._text  # there is no room to be neat in
        mark, words = self._text.divide([self._indent]) if self._indent else ("", self._text)
        held = Content(_SIZE.sub(_TIED, words.plain), list(words.spans))
        lines = [
            Content(line.plain.replace(_TIE, " "), list(line.spans))
            for line in held.wrap(width - self._indent)
        ]
        return Content.assemble(mark, Content(f"\n{' ' * self._indent}").join(lines))

    def render_strips(
        self, width: int, height: int | None, style: Style, options: RenderOptions
    ) -> list[Strip]:
        """The rows of cells."""
        return self._wrapped(width).render_strips(width, height, style, options)

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        """The width on one line."""
        return self._text.get_optimal_width(rules, container_width)

    def get_height(self, rules: RulesMap, width: int) -> int:
        """How many lines it takes."""
        return self._wrapped(width).get_height(rules, width)
