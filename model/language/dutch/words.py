"""All sentences on a kit and its run that a crafter is told, in Dutch."""

from __future__ import annotations

from model.language.english.words import English

WORDS = English
