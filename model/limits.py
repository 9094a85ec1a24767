"""The limits of a kit file. What goes past one is refused with a message, never a crash.

They are far beyond any kit that a person would cut, and keep a file that is broken, or
meant to do harm, from filling the memory or holding up the program.
"""

from __future__ import annotations

MOST_BYTES = 4 * 1024 * 1024
"""The size of a file, in bytes."""
MOST_DEPTH = 8
"""How deep tables and arrays may lie within one another; a kit needs six."""
MOST_TABLES = 20_000
"""Tables in one array, such as ``[[piece]]``."""
MOST_PIECES = 20_000
"""Things in all that come into being: pieces, strips, scraps, and what is packed ready made."""
MOST_PAGES = 400
"""Pages of a kit, and pages or pockets named in one place."""
MOST_MARKS = 100
"""Marks, widths or parts of one load."""
MOST_TIMES = 100
"""How often one step may be repeated."""
MOST_COPIES = 1_000
"""Copies of a kind in one place."""
LONGEST_NAME = 60
"""Characters of a name."""
LONGEST_LINE = 300
"""Characters of a title, an edition, words or a free step."""
LONGEST_NOTE = 4_000
"""Characters of a note."""
