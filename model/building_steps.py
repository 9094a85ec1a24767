"""From the [[step]] tables of a kit file to the author's steps, and the pieces they declare."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from model import kitfile as f
from model.finding import Path
from model.kit import SCRAP, Destination, Give, PieceKind, Source, Verb, Wait, Work
from model.names import KINDS, Names
from model.pockets import Pockets, merged

WAITS = {None: Wait.NO, "trimmer away": Wait.TRIMMER_AWAY, "after filing": Wait.AFTER_FILING}
_TURNS = {None: 0, "quarter": 1, "right": 1, "half": 2, "left": 3}
_LOAD_KEYS = ("up", "lay", "advised", "turn", "marks", "gives", "rest", "times")
_OWN_KEYS: dict[str, tuple[str, ...]] = {
    "trim": _LOAD_KEYS,
    "knife": _LOAD_KEYS,
    "tear": ("up", "lay", "advised", "turn", "widths", "edge", "gives", "rest", "times"),
    "fussy_cut": ("up", "gives", "rest", "times"),
    "trace": ("up", "around", "gives", "rest", "times"),
    "slit": ("up", "for", "length", "times"),
    "punch": ("up", "gives", "times"),
    "do": (),
}
_ANY_KEYS = ("optional", "wait", "tools", "needs", "caution", "note")


@dataclass(slots=True)
class StepBuilder:
    """Reads the steps.

    Attributes:
        names: The kit's names; pieces that are declared on the spot join them.
        pockets: The kit's pockets.
        made: All names that steps make.
    """

    names: Names
    pockets: Pockets
    made: set[str] = field(default_factory=set)
    # Kinds whose destinations are said copy by copy, in the steps that make them.
    _gathering: dict[str, list[Destination]] = field(default_factory=dict)

    def works(self, tables: Sequence[tuple[int, f.Table]]) -> tuple[Work, ...]:
        """All steps, in the author's order."""
        steps = [(index, table) for index, table in tables if isinstance(table, f.StepTable)]
        self._gathering = {
            kind.name: []
            for kind in self.names.kinds.values()
            if kind.source is Source.CUT and not kind.to and not self._silent(kind.name)
        }
        for index, table in steps:
            self._declare(table, ("step", index))
        works = [work for index, table in steps if (work := self._work(table, ("step", index)))]
        for name, places in self._gathering.items():
            if places:
                kind = self.names.kinds[name]
                self.names.kinds[name] = replace(kind, to=merged(places))
        return tuple(works)

    def _silent(self, name: str) -> bool:
        doubts = self.names.doubts
        return doubts.silent(name) or doubts.places_unknown(name)

    def _declare(self, table: f.StepTable, where: Path) -> None:
        """Pieces that have a destination and no [[piece]] table of their own."""
        for give, place in _gives_of(table, where):
            if give.to is None or give.name.casefold() == SCRAP:
                continue
            if give.name in self.names.kinds or self.names.doubts.may_be(give.name):
                continue
            if self.names.claim(give.name, place, "a piece"):
                self.names.kinds[give.name] = PieceKind(
                    give.name, Source.CUT, size=give.size, use=give.use or "face",
                    note=give.note, where=place,
                )  # fmt: skip
                self._gathering[give.name] = []

    def _work(self, table: f.StepTable, where: Path) -> Work | None:
        verbs = [verb for verb in f.VERBS if getattr(table, verb) is not None]
        if len(verbs) != 1:
            self._verb_error(table, verbs, where)
            return None
        verb = verbs[0]
        self._check_keys(table, verb, where)
        self._check_needs(table, where)
        gives = self._gives(table, where)
        rest = None
        if table.rest:
            if table.rest.count not in (None, 1):
                self.names.findings.grave(
                    "rest-count",
                    (*where, "rest"),
                    "what is left is one piece, it can't be counted",
                    "leave count out",
                )
            rest = self._give(table.rest, (*where, "rest"), table.times)
        return Work(
            verb=Verb(verb),
            take=getattr(table, verb),
            up=table.up or "face",
            up_said=table.up is not None,
            lay=table.lay,
            advised=table.advised,
            turn=_TURNS[table.turn],
            marks=tuple(table.marks),
            widths=tuple(table.widths),
            edge=table.edge,
            gives=gives,
            rest=rest,
            around=table.around or table.for_ or "",
            length=table.length,
            times=table.times,
            optional=table.optional,
            wait=WAITS[table.wait],
            tools=tuple(table.tools),
            needs=tuple(table.needs),
            hazards=tuple(dict.fromkeys(table.caution)),
            note=table.note,
            where=where,
        )

    def _verb_error(self, table: f.StepTable, verbs: list[str], where: Path) -> None:
        doubts = self.names.doubts
        doubts.cuts = True
        doubts.names.update(getattr(table, verb) for verb in verbs if verb != "do")
        gives = [give.name for give, _ in _gives_of(table, where)]
        doubts.names.update(gives)
        doubts.note_broken("step", gives)
        self._check_needs(table, where)
        for give, place in _gives_of(table, where):
            self.pockets.to(give.to, (*place, "to"))
        if doubts.lost_of(where) & {*f.VERBS}:
            return  # its verb is there, and could not be read
        self.names.findings.grave(
            "step-verb",
            where,
            f"a step has one verb, this one has {' and '.join(verbs)}"
            if verbs
            else "this step has no verb",
            "make a step of each" if verbs else f"write one of {', '.join(f.VERBS)}",
        )

    def _check_keys(self, table: f.StepTable, verb: str, where: Path) -> None:
        allowed = {*_OWN_KEYS[verb], *_ANY_KEYS, verb}
        said = {name.rstrip("_") for name in table.model_fields_set}
        wrong = [key for key in f.keys_of(f.StepTable) if key in said - allowed]
        if wrong:
            quoted = [f'"{key}"' for key in wrong]
            these = " and ".join(filter(None, (", ".join(quoted[:-1]), quoted[-1])))
            self.names.findings.grave(
                "key-without-sense",
                (*where, wrong[0]),
                f"{these} {'has' if len(wrong) == 1 else 'have'} no meaning in a {verb} step",
                _instead(verb, wrong) or f"it takes {', '.join((*_OWN_KEYS[verb], *_ANY_KEYS))}",
            )
            # What it was to make is not made, so a later step may miss it.
            self.names.doubts.unnamed |= bool({"marks", "widths", "gives", "rest"} & {*wrong})
            if {"gives", "rest"} & {*wrong}:
                parts = [give.name for give, _ in _gives_of(table, where)]
                self.names.doubts.names.update(name for name in parts if name != SCRAP)
                self.names.doubts.cuts = True
            if verb == "do" and {"marks", "widths", "gives", "rest"} & {*wrong}:
                self.names.doubts.takes = True
                self.names.doubts.wordless = True  # it names what it cuts, but in a sentence
        lay_lost = "lay" in self.names.doubts.lost_of(where)
        if table.advised and table.lay is None and "advised" in allowed and not lay_lost:
            self.names.findings.grave(
                "key-without-sense",
                (*where, "advised"),
                '"advised" has no meaning without a lay',
                'write lay = "...", or leave advised out',
            )

    def _check_needs(self, table: f.StepTable, where: Path) -> None:
        names = self.names
        broken = names.doubts.broken_names("set_aside", *KINDS)
        for need in table.needs:
            known = names.used.get(need) == "a set-aside" or need in names.kinds
            if not known and not names.doubts.may_be(need):
                names.findings.once(
                    ("name", need),
                    "unknown-name",
                    (*where, "needs"),
                    f'nothing set aside is called "{need}"',
                    partial(
                        names.findings.did_you_mean,
                        need,
                        names.that_are(need, "a set-aside"),
                        broken,
                    ),
                )

    def _gives(self, table: f.StepTable, where: Path) -> tuple[Give, ...]:
        if table.gives is None:
            return ()
        if isinstance(table.gives, f.GiveTable):
            alike = table.gives.count or len(table.marks) or len(table.widths) or 1
            give = self._give(table.gives, (*where, "gives"), alike * table.times)
            return (give,) * alike
        gives: list[Give] = []
        for number, each in enumerate(table.gives):
            count = each.count or 1
            give = self._give(each, (*where, "gives", number), count * table.times)
            gives.extend([give] * count)
        return tuple(gives)

    def _give(self, table: f.GiveTable, where: Path, copies: int) -> Give:
        """One part of a cut.

        Args:
            table: As written.
            where: Its place.
            copies: How many alike parts it stands for.
        """
        name = table.name
        if name.casefold() == SCRAP:
            if table.to is not None:
                self.names.findings.grave(
                    "scrap-filed", where, "a scrap has no pocket", "leave its to out"
                )
            return Give(SCRAP, None, None, table.note, where)
        self.made.add(name)
        kind = self.names.kinds.get(name)
        if kind is None:
            if self.names.used.get(name) == "a set-aside":
                self.names.claim(name, where, "a part of a cut")
            self._check_strip(table, where)
            self.pockets.to(table.to, (*where, "to"))
            return Give(name, None, None, table.note, where)
        self._state_size(kind, table, where)
        use = table.use if table.use != kind.use else None
        note = table.note if table.note != kind.note else ""
        places, sure = self.pockets.to(table.to, (*where, "to"))
        if not sure:
            self.names.doubts.placeless.add(name)
        if not places or kind.source is not Source.CUT:
            return Give(name, None, use, note, where)
        total = sum(to.count for to in places)
        one = places[0] if len(places) == 1 and total == 1 else None
        gathers = self._gathering.get(name)
        if gathers is not None:
            if one:
                gathers.append(replace(one, count=copies))
            else:
                gathers.extend(places)
            # Copies that differ in nothing may stand for one another, wherever they go.
            to = one if use or note else None
            if one or total == copies:
                return Give(name, to, use, note, where)
        elif one:
            return Give(name, one, use, note, where)
        self.names.doubts.forgiven.add(name)
        lost = self.names.doubts.lost_of(where) | self.names.doubts.lost_of(kind.where)
        if lost & {"marks", "widths", "gives", "rest", "times", "to"}:
            return Give(name, None, use, note, where)
        self.names.findings.grave(
            "copy-to",
            where,
            f"{_so_many(copies, name)} come off here, but to names places for {total}"
            if copies > 1
            else f'this one copy of "{name}" is sent to {total} places',
            "count the copies here, or leave to out and say it in its [[piece]]",
        )
        return Give(name, None, use, note, where)

    def _check_strip(self, table: f.GiveTable, where: Path) -> None:
        if self.names.doubts.may_be(table.name) or table.to is not None:
            return
        for key in ("size", "use"):
            if getattr(table, key) is not None:
                self.names.doubts.forgiven.add(table.name)
                self.names.findings.grave(
                    "no-piece",
                    where,
                    f'"{table.name}" has a {key} here, but it is no piece',
                    "give it a pocket with to, or declare it as a [[piece]]",
                )
                return

    def _state_size(self, kind: PieceKind, table: f.GiveTable, where: Path) -> None:
        if table.size is None or table.size == kind.size:
            return
        if kind.size is None:
            self.names.kinds[kind.name] = replace(kind, size=table.size)
        else:
            self.names.findings.grave(
                "size-twice",
                (*where, "size"),
                f'the size of "{kind.name}" is stated otherwise elsewhere',
                "one name is one kind: state its size once",
            )


def _gives_of(table: f.StepTable, where: Path) -> list[tuple[f.GiveTable, Path]]:
    """All parts that a step names, with their places."""
    found: list[tuple[f.GiveTable, Path]] = []
    if isinstance(table.gives, f.GiveTable):
        found.append((table.gives, (*where, "gives")))
    else:
        found += [(each, (*where, "gives", n)) for n, each in enumerate(table.gives or ())]
    if table.rest:
        found.append((table.rest, (*where, "rest")))
    return found


def _instead(verb: str, wrong: Sequence[str]) -> str:
    """What to write instead of keys that another verb takes; empty when that is not clear."""
    if verb == "tear" and "marks" in wrong:
        return "a tear takes widths = [...], each from the edge that is then loose"
    if verb in ("trim", "knife") and "widths" in wrong:
        return f"a {verb} takes marks = [...]: what stays on the bed at each cut"
    if verb == "do" and {"marks", "gives"} & {*wrong}:
        return f"do is for what no other verb says; the others are {', '.join(f.VERBS[:-1])}"
    return ""


def _so_many(count: int, name: str) -> str:
    return f'{count} of "{name}"'
