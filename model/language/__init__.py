"""The languages that there are, and the words of the one in force.

A language is a package with two modules: `words` holds ``WORDS``, the sentences on a kit and its
run, and `phrases` holds ``PHRASES``, what the program says of itself. The classes of any other
language derive from those of `model.language.english`. A package is imported when it is in use.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from importlib import import_module
from typing import TYPE_CHECKING, NamedTuple, cast

if TYPE_CHECKING:
    from model.language.english.phrases import Phrases
    from model.language.english.words import English
    from model.manner import Manner
    from model.plan import Plan


class Language(NamedTuple):
    """One language.

    Attributes:
        name: What those who speak it call it.
        package: Where its words are.
    """

    name: str
    package: str


USUAL = "en"
"""What is taken where the system speaks none of these."""
LANGUAGES: dict[str, Language] = {
    USUAL: Language("English", "model.language.english"),
    "nl": Language("Nederlands", "model.language.dutch"),
}
"""The languages by their codes (ISO 639-1)."""


def code_in_force(chosen: str, environment: Mapping[str, str]) -> str:
    """The code of the language in force.

    Args:
        chosen: The crafter's choice; empty for what the system says.
        environment: The variables by which a POSIX system says it: the first that is set of
            ``LC_ALL``, ``LC_MESSAGES`` and ``LANG`` (POSIX.1-2017, Base Definitions 8.2).
    """
    if chosen in LANGUAGES:
        return chosen
    said = next(filter(None, map(environment.get, ("LC_ALL", "LC_MESSAGES", "LANG"))), "")
    code = said.partition(".")[0].partition("@")[0].partition("_")[0].lower()
    return code if code in LANGUAGES else USUAL


@lru_cache(maxsize=8)
def phrases_for(code: str) -> Phrases:
    """What the program says of itself in a language."""
    return cast("Phrases", import_module(f"{LANGUAGES[code].package}.phrases").PHRASES())


def words_for(code: str) -> type[English]:
    """The sentences of a language on a kit and its run."""
    return cast("type[English]", import_module(f"{LANGUAGES[code].package}.words").WORDS)


def words_of(plan: Plan, manner: Manner) -> English:
    """The sentences for one crafter on one kit.

    Args:
        plan: The plan that is told of.
        manner: How the crafter is told things, the language among it.
    """
    return words_for(manner.phrases.code)(plan, manner)
