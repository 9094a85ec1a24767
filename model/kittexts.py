"""Which words differ between two versions of a kit whose work is the same."""

from __future__ import annotations

from dataclasses import fields

from model.kit import Kit, PieceKind, SetAside, Sheet, Work

_HEAD = ("title", "edition", "author", "note", "ruler")


def changed_texts(old: Kit, new: Kit) -> tuple[str, ...]:
    """What the two kits say differently.

    Args:
        old: The kit as it was.
        new: The kit as it is.

    Returns:
        Names, as the kit has them: ``title``, ``author``, the names of pieces, sheets and
        set-asides, and what a step is done to. Empty when they say the same.
    """
    changed = [name for name in _HEAD if getattr(old, name) != getattr(new, name)]
    for before, after in (
        (list(old.kinds.values()), list(new.kinds.values())),
        (old.sheets, new.sheets),
        (old.set_asides, new.set_asides),
    ):
        had = {each.name: _said(each) for each in before}
        changed += [each.name for each in after if had.pop(each.name, None) != _said(each)]
        changed += had
    was, now = [_said(work) for work in old.work], [_said(work) for work in new.work]
    changed += [work.take for work, said in zip(new.work, now, strict=True) if said not in was]
    changed += [work.take for work, said in zip(old.work, was, strict=True) if said not in now]
    return tuple(dict.fromkeys(changed))


def _said(thing: PieceKind | Sheet | SetAside | Work) -> tuple[object, ...]:
    """All that is said of a thing, without its place in the file."""
    said: list[object] = []
    for each in fields(thing):
        value = getattr(thing, each.name)
        if each.name in ("gives", "rest"):
            gives = value if isinstance(value, tuple) else (value,)
            said.append([(g.name, g.to, g.use, g.note) if g else None for g in gives])
        elif each.name != "where":
            said.append(value)
    return tuple(said)
