"""What is told of a thing in hand so that it is not taken for another, nor lies about unplaced."""

from __future__ import annotations

from model.language.english.words import English
from model.plan import Item
from model.session import Session


def notices_of(session: Session, words: English, item: str) -> tuple[str, ...]:
    """The likeliest thing that something may be mistaken for now, in words; or nothing.

    Only one: a list of dangers is not read (our own judgement).

    Args:
        session: The session.
        words: The sentences for this crafter.
        item: What is to be filed, trimmed or cut by hand.
    """
    return tuple(words.alike(each) for each in session.known.looks.about(session.state, item)[:1])


def backing_of(session: Session, words: English, item: Item) -> tuple[str, ...]:
    """What a thin strip most likely backs, where the kit itself says nothing of it.

    Args:
        session: The session.
        words: The sentences for this crafter.
        item: A piece.
    """
    found = session.known.thin.backs(item)
    if not found or found[0].stated is not None:
        return ()
    return (words.backing(found[0]),)
