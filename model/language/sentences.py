"""Messages that come from elsewhere, put as sentences."""

from __future__ import annotations


def sentence(text: str) -> str:
    """A message of the system or of a file's reader as a sentence."""
    text = text.strip()
    return f"{text[:1].upper()}{text[1:]}{'' if text[-1:] in '.!?' else '.'}"
