"""Sentences for the ear, in Dutch."""

from __future__ import annotations

from model.language.english.ear import spoken, written

__all__ = ["spoken", "written"]
