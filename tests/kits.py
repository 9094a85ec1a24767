"""Kits for tests: random ones that hold together; large ones are in `tests.big_kits`.

A random kit is written as a person would write it: the sizes, counts and destinations are
kept beside the cuts while these are thought up, with whole numbers of an eighth of an inch
or of a millimetre and nothing of the engine's own.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field

from hypothesis import strategies as st

from tests.big_kits import big_kit, q, say_eighths
from tests.kit_parts import Kind, Paper, Sheet, widths_of

__all__ = ["big_kit", "kit_texts", "random_kit"]
_WAITS = ("", "trimmer away", "after filing")
COLOURS = ("navy", "teal", "ivory", "#c33", "Steel Blue", "goldenrod", "plum")


def kit_texts() -> st.SearchStrategy[str]:
    """Random kits that have nothing wrong with them."""
    return st.randoms(use_true_random=False).map(random_kit)


def random_kit(rng: random.Random) -> str:
    """One random kit."""
    return _Maker(rng).kit()


@dataclass
class _Maker:
    rng: random.Random
    metric: bool = False
    pages: int = 2
    pockets: list[tuple[str, list[int]]] = field(default_factory=list)
    kinds: dict[str, Kind] = field(default_factory=dict)
    lines: list[str] = field(default_factory=list)
    steps: list[str] = field(default_factory=list)
    scraps: int = 0
    scrap_sizes: list[tuple[int, int]] = field(default_factory=list)
    all_measured: bool = True
    numbers: int = 0
    bases: int = 0

    def chance(self, part: float = 0.5) -> bool:
        return self.rng.random() < part

    def new(self, what: str) -> str:
        self.numbers += 1
        return f"{what} {self.numbers}"

    def say(self, steps: int) -> str:
        """A length as a person writes it."""
        if self.metric:
            return self.rng.choice((f"{steps}", f"{steps} mm", f"{steps // 10}.{steps % 10} cm"))
        return say_eighths(steps, self.rng.choice((" ", "-")))

    def size(self, w: int, h: int) -> str:
        if self.metric:
            return f"{w} x {h}"
        times = self.rng.choice((" x ", " × ", "x"))
        return f"{say_eighths(w)}{times}{say_eighths(h)}"

    # The whole

    def kit(self) -> str:
        rng = self.rng
        self.metric = self.chance(0.3)
        self.pages = rng.randint(1, 12)
        page = (305, 305) if self.metric else rng.choice(((96, 96), (68, 88), (64, 64)))
        self._pockets()
        sheets = [self._sheet(page) for _ in range(rng.randint(1, 4))]
        self._packed()
        order = [name for name, waits in sheets if not waits]
        head = [
            "dryfit = 1",
            f"title = {q(self.new('Kit'))}",
            f'unit = "{"mm" if self.metric else "in"}"',
            f"page = {q(self.size(*page))}",
            f"pages = {self.pages}",
            f"stack = {q(rng.choice(('face down', 'face up')))}",
        ]
        if self.chance():
            head.append(f"order = [{', '.join(map(q, order))}]")
        if self.chance():
            sizes = self.all_measured and self.chance()
            said = ", ".join(q(self.size(*size)) for size in self.scrap_sizes)
            head.append(f"scraps = [{said}]" if sizes else f"scraps = {self.scraps}")
        for kind in self.kinds.values():
            self._piece(kind)
        return "\n".join((*head, "", *self.lines, *self.steps, ""))

    def _pockets(self) -> None:
        pages = list(range(1, self.pages + 1))
        if self.chance():
            pairs = [pages[i : i + 2] for i in range(0, len(pages), 2)]
            self.pockets = [("·".join(map(str, pair)), pair) for pair in pairs]
            return
        while pages:
            many = self.rng.randint(1, 4)
            taken, pages = pages[:many], pages[many:]
            label = "-".join(map(str, taken))
            self.pockets.append((label, taken))
            self.lines.append(f"[[pocket]]\nlabel = {q(label)}\npages = {taken}\n")

    def place(self) -> str:
        """A pocket by its label or by a page."""
        label, pages = self.rng.choice(self.pockets)
        return self.rng.choice((label, f"page {self.rng.choice(pages)}"))

    def _piece(self, kind: Kind) -> None:
        if kind.inline:
            return
        table = [f"[[piece]]\nname = {q(kind.name)}\nto = {self._to(kind)}"]
        if kind.size and self.chance():
            w, h = kind.size
            if kind.turns and self.chance():
                w, h = h, w
            if self.chance(0.3):
                table.append(f"smaller_by = {q(self.say(2))}")
                w += self.rng.randint(0, 2)
            table.append(f"size = {q(self.size(w, h))}")
        self.lines.append("\n".join(table) + "\n")

    def _to(self, kind: Kind) -> str:
        counts: dict[str, int] = {}
        for place in kind.pins:
            counts[place] = counts.get(place, 0) + 1
        for _ in range(kind.count - len(kind.pins)):
            place = self.place()
            counts[place] = counts.get(place, 0) + 1
        if kind.count == 1:
            (place,) = counts
            if place.startswith("page ") and self.chance():
                return place.removeprefix("page ")
            return self.rng.choice((q(place), f"[{q(place)}]", f"{{ {q(place)} = 1 }}"))
        if self.chance():
            return "{ " + ", ".join(f"{q(place)} = {n}" for place, n in counts.items()) + " }"
        return q(", ".join(f"{n} to {place}" for place, n in counts.items()))

    # Sheets and their cuts

    def _sheet(self, page: tuple[int, int]) -> tuple[str, bool]:
        """One sheet and all that is done with it; its name, and whether it waits."""
        rng = self.rng
        name = self.new("sheet")
        table = [f"[[sheet]]\nname = {q(name)}\nface = {q(rng.choice(COLOURS))}"]
        self.lines.append("")
        place = len(self.lines) - 1
        if self.steps and self.bases < self.pages and self.chance(0.25):
            first, self.bases = self.bases + 1, min(self.pages, self.bases + rng.randint(1, 3))
            pages = list(range(first, self.bases + 1))
            base = f"base = {first}" if len(pages) == 1 else f"bases = {pages}"
            side = 'use = "reverse"' if self.chance(0.3) else ""
            self.lines[place] = "\n".join((*table, base, side, ""))
            return name, True
        directional = self.chance(0.3)
        if directional:
            table.append('kind = "print"\ndirectional = true')
        waits = rng.choice(("",) * 4 + _WAITS[1:])
        if waits:
            table.append(f"wait = {q(waits)}")
        measured = self.chance(0.8)
        w, h = rng.randint(24, page[0]), rng.randint(24, page[1])
        if measured:
            table.append(f"size = {q(self.size(w, h))}")
        else:
            table.append("cut_apart = true")
            w, h = page
        self.lines[place] = "\n".join((*table, ""))
        verbs = ("knife", "tear") if waits else ("trim",)
        sheet = Sheet(name, directional, measured, verbs, _WAITS.index(waits))
        self._cut(sheet, Paper(name, w, h, whole=True), rng.randint(1, 3))
        return name, bool(waits)

    def _cut(self, sheet: Sheet, paper: Paper, depth: int) -> None:
        """A load, and what becomes of its parts."""
        rng = self.rng
        verb = rng.choice(sheet.verbs if sheet.measured else (sheet.verbs[0],))
        if verb == "trim" and self.chance(0.1):
            verb = "knife"
        step = [f"[[step]]\n{verb} = {q(paper.name)}"]
        sideways = paper.sideways
        if self.chance(0.2):
            edge = rng.choice(("top", "right", "bottom", "left"))
            step.append(f"lay = {q(f'top edge at {edge}')}")
            sideways = edge in ("left", "right")
            if self.chance(0.3):
                step.append("advised = true")
        elif self.chance(0.7):
            turn = rng.choice(("quarter", "left", "right", "half"))
            step.append(f"turn = {q(turn)}")
            sideways ^= turn != "half"
        if self.chance(0.2):
            step.append(f"up = {q(rng.choice(('face', 'reverse')))}")
        if paper.copies > 1:
            step.append(f"times = {paper.copies}")
        if self.chance(0.1):
            step.append('optional = true\ntools = ["bone folder"]\nnote = "Take care.\\nReally."')
        across_bed = False
        if verb == "tear":
            edge = rng.choice(("top", "right", "bottom", "left"))
            step.append(f"edge = {q(edge)}")
            across_bed = edge in ("top", "bottom")
        in_height = sideways ^ across_bed
        along = paper.h if in_height else paper.w
        widths, alike = widths_of(rng, along, sheet.measured)
        if len(widths) < 2:
            self._whole_piece(sheet, paper)
            return
        step.append(self._marks(sheet, verb, widths, along))
        parts = [
            Paper("", paper.w if in_height else width, width if in_height else paper.h,
                   paper.copies, in_height)
            for width in widths
        ]  # fmt: skip
        self._name_parts(sheet, parts, alike, depth, step)
        self.steps.append("\n".join(step) + "\n")
        self._go_on(sheet, parts, depth)

    def _marks(self, sheet: Sheet, verb: str, widths: list[int], along: int) -> str:
        if verb == "tear":
            return f"widths = [{', '.join(q(self.say(w)) for w in widths[:-1])}]"
        marks, at = [], along
        for width in widths[:-1]:
            at -= width
            if sheet.measured:
                marks.append(q(self.say(at)))
            else:
                marks.append(self.rng.choice((q("line"), q(f"about {self.say(at)}"))))
        return f"marks = [{', '.join(marks)}]"

    def _name_parts(
        self, sheet: Sheet, parts: list[Paper], alike: bool, depth: int, step: list[str]
    ) -> None:
        """Say what each part is."""
        if alike and sheet.measured and len(parts) > 2:
            first = self._kind_of_part(sheet, parts[0], depth, len(parts) - 1)
            for part in parts[1:-1]:
                part.name = first
            form = q(first)
            count = len(parts) - 1
            if first == "scrap":
                self._book_scraps(sheet, parts[:-1])
            if self.chance():
                form = f"{{ name = {q(first)}, count = {count} }}"
                form = f"[{form}]" if self.chance() else form
            step.append(f"gives = {form}")
        else:
            gives = []
            for part in parts[:-1]:
                name = self._kind_of_part(sheet, part, depth, 1)
                if name == "scrap":
                    self._book_scraps(sheet, [part])
                gives.append(self._written(sheet, part, name))
            step.append(f"gives = [{', '.join(gives)}]")
        rest = parts[-1]
        again = next((p for p in parts[:-1] if (p.w, p.h) == (rest.w, rest.h)), None)
        if (
            again
            and again.name in self.kinds
            and sheet.measured
            and not self.kinds[again.name].inline
        ):
            kind = self.kinds[again.name]
            rest.name = kind.name
            kind.count += rest.copies
            if rest.copies == 1 and self.chance():
                place = self.place()
                kind.pins.append(place)
                step.append(
                    f"rest = {{ name = {q(kind.name)}, to = {q(place)}, use = "
                    f'"reverse", note = "The last one." }}'
                )
                return
            step.append(f"rest = {q(kind.name)}")
            return
        name = self._kind_of_part(sheet, rest, depth, 1)
        if name == "scrap":
            self._book_scraps(sheet, [rest])
        step.append(f"rest = {self._written(sheet, rest, name)}")

    def _kind_of_part(self, sheet: Sheet, part: Paper, depth: int, count: int) -> str:
        rng = self.rng
        roles = ["piece", "piece", "scrap"]
        if depth > 0 and part.copies * count <= 40:
            roles += ["strip", "strip"]
        role = rng.choice(roles)
        if role == "scrap":
            part.name = "scrap"
        elif role == "strip":
            part.name = self.new("strip")
        else:
            part.name = self.new("piece")
            size = (part.w, part.h) if sheet.measured else None
            self.kinds[part.name] = Kind(
                part.name, part.copies * count, size, not sheet.directional, late=sheet.late
            )
        return part.name

    def _written(self, sheet: Sheet, part: Paper, name: str) -> str:
        kind = self.kinds.get(name)
        if kind is None or not self.chance(0.3):
            return q(name)
        kind.inline = self.place()
        size = ""
        if kind.size and self.chance():
            size = f", size = {q(self.size(*kind.size))}"
        return f"{{ name = {q(name)}, to = {q(kind.inline)}{size} }}"

    def _book_scraps(self, sheet: Sheet, parts: list[Paper]) -> None:
        for part in parts:
            self.scraps += part.copies
            self.scrap_sizes += [(part.w, part.h)] * part.copies
            self.all_measured &= sheet.measured

    def _whole_piece(self, sheet: Sheet, paper: Paper) -> None:
        """What is too small for the load that was thought of is cut out by hand."""
        made = "\n".join(self.steps)
        patterns = [
            kind.name
            for kind in self.kinds.values()
            if kind.late <= sheet.late and q(kind.name) in made
        ]
        shape = self.new("shape")
        self.kinds[shape] = Kind(shape, 2 * paper.copies, late=sheet.late)
        how = f"fussy_cut = {q(paper.name)}"
        if patterns and self.chance(0.7):
            how = f"trace = {q(paper.name)}\naround = {q(self.rng.choice(patterns))}"
        times = f"times = {paper.copies}\n" if paper.copies > 1 else ""
        optional = "optional = true\n" if self.chance(0.2) else ""
        self.steps.append(f"[[step]]\n{how}\ngives = [{q(shape)}, {q(shape)}]\n{times}{optional}")

    def _go_on(self, sheet: Sheet, parts: list[Paper], depth: int) -> None:
        """Cut the strips again; work on some of the pieces by hand."""
        strips: dict[str, Paper] = {}
        for part in parts:
            if part.name.startswith("strip") and part.name in strips:
                strips[part.name].copies += part.copies
            elif part.name.startswith("strip"):
                strips[part.name] = part
        ahead: list[Callable[[], None]] = [
            lambda strip=strip: self._strip(sheet, strip, depth - 1)  # type: ignore[misc]
            for strip in strips.values()
        ]
        self.rng.shuffle(ahead)
        for go in ahead:
            go()
        pieces = [p for p in parts if p.name in self.kinds and p.copies == 1]
        if pieces and self.chance(0.2):
            name = self.rng.choice(pieces).name
            late = self.rng.randrange(3)
            wait = f"wait = {q(_WAITS[late])}\n" if late else ""
            if self.chance():
                self.steps.append(f"[[step]]\nslit = {q(name)}\n{wait}")
            else:
                disc = self.new("disc")
                self.kinds[disc] = Kind(disc, 3, late=max(late, sheet.late))
                self.steps.append(
                    f"[[step]]\npunch = {q(name)}\n{wait}"
                    f"gives = {{ name = {q(disc)}, count = 3 }}\n"
                )

    def _strip(self, sheet: Sheet, strip: Paper, depth: int) -> None:
        if self.chance(0.15):
            self._whole_piece(sheet, strip)
        else:
            self._cut(sheet, strip, depth)

    # What is packed ready made

    def _packed(self) -> None:
        rng = self.rng
        for array in ("precut", "embellishment"):
            for _ in range(rng.randint(0, 2)):
                kind = Kind(self.new("packed"), rng.randint(1, 6))
                table = [f"[[{array}]]\nname = {q(kind.name)}\nface = {q(rng.choice(COLOURS))}"]
                ties = [k for k in self.kinds if not k.startswith("packed")]
                if ties and self.chance(0.3):
                    table.append(f"with = {q(rng.choice(ties))}")
                else:
                    table.append(f"to = {self._to(kind)}")
                if ties and self.chance(0.3):
                    table.append(f"goes_with = {q(rng.choice(ties))}\nsmall = true")
                self.lines.append("\n".join(table) + "\n")
        if self.chance(0.4):
            label, _ = rng.choice(self.pockets)
            self.lines.append(
                f"[[ribbon]]\nname = {q(self.new('ribbon'))}\ncolour = {q(rng.choice(COLOURS))}\n"
                f'length = "1 yd"\nto = {{ {q(label)} = "18 in" }}\n'
            )
        if self.chance(0.4):
            self.lines.append(f"[[set_aside]]\nname = {q(self.new('aside'))}\npages = [1]\n")
