"""Which pocket a label or a page means."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from model.finding import Findings, Path
from model.kit import Destination, Kit, Pocket
from model.meant import meant_page, meant_places

_APART = re.compile(r"[\s·.\-–/&+]+")
_COUNTS = re.compile(r"\w\s+(?:to|on|onto|in|into|for|at)\s", re.IGNORECASE)
_PAGE = re.compile(r"(?:page\s*)?([0-9]{1,4})")


_SPAN = re.compile(r"pages\s*([0-9]{1,3})\s*(?:to|-|–|through|until)\s*([0-9]{1,3})")


def label_key(label: str) -> str:
    """A pocket's label without the way its pages are set apart: ``3·4`` is ``3-4``."""
    return _APART.sub("·", label.strip().casefold()).strip("·")


def pocket_said(kit: Kit, text: str) -> int | None:
    """The pocket that a crafter means: by a page number, or by its label however it is set apart.

    Args:
        kit: The kit.
        text: ``3``, ``page 3``, ``3-4``, ``3 4``, or a label.

    Returns:
        Its index; None when there is none.
    """
    page = _PAGE.fullmatch(text.strip().casefold())
    found = kit.pocket_of_page(int(page[1])) if page else None
    if found is not None:
        return found.index
    key = label_key(text)
    return next((p.index for p in kit.pockets if key and label_key(p.label) == key), None)


@dataclass(slots=True)
class Pockets:
    """The pockets of a kit, found by label and by page.

    Attributes:
        pages: How many pages the kit has.
        findings: Where errors go.
        unsure: Pockets could not be read; so nothing is said of one that can't be found.
        pageless: The number of pages could not be read; so nothing is said of a page.
        excused: Something was not found, and nothing was said of it.
        all: The pockets, in order.
    """

    pages: int
    findings: Findings
    unsure: bool
    pageless: bool = False
    excused: bool = False
    all: list[Pocket] = field(default_factory=list)
    _labels: dict[str, int] = field(default_factory=dict)
    _of_page: dict[int, int] = field(default_factory=dict)
    _homeless: set[int] = field(default_factory=set)
    _missing: list[tuple[int, Path]] = field(default_factory=list)

    def pair_up(self) -> None:
        """The usual pockets: pages 1·2, 3·4, and so on."""
        for first in range(1, self.pages + 1, 2):
            pages = range(first, min(first + 2, self.pages + 1))
            self.add("·".join(map(str, pages)), pages, ("pages",))

    def add(self, label: str, pages: Sequence[int], where: Path) -> None:
        """Add a pocket at the end of the file; one without a label is of use for its pages."""
        key = label_key(label)
        if key and key in self._labels:
            self.findings.grave(
                "pocket-twice",
                where,
                f'two pockets are labelled "{label}"',
                "give each a label of its own",
            )
            self.unsure = True
            return
        pocket = Pocket(len(self.all), label, tuple(pages))
        for page in pages:
            if page in self._of_page:
                other = self.all[self._of_page[page]].label if page in self._of_page else label
                self.findings.grave(
                    "page-twice",
                    (*where, "pages"),
                    f'page {page} is in pocket "{other}" already',
                    "a page belongs to one pocket",
                )
            elif self.page(page, (*where, "pages")):
                self._of_page[page] = pocket.index
        if key:
            self._labels[key] = pocket.index
        self.all.append(pocket)

    def page(self, page: int, where: Path) -> bool:
        """Whether the kit has a page; an error is noted when not."""
        if 1 <= page <= self.pages:
            return True
        if self.pageless:
            self.excused = True
        else:
            self._missing.append((page, where))
        return False

    def tell_missing(self) -> None:
        """Note the pages that were asked for and are not there, each once.

        Where they go on from the last page without a gap, it is the number of pages that is
        wrong, and they are told together.
        """
        places: dict[int, list[Path]] = {}
        for page, where in self._missing:
            places.setdefault(page, []).append(where)
        has = f"the kit has pages 1 to {self.pages}" if self.pages > 1 else "it has one page"
        pages = sorted(places)
        if len(pages) > 1 and pages == [*range(self.pages + 1, self.pages + 1 + len(pages))]:
            some = f"{pages[0]} to {pages[-1]}" if len(pages) > 2 else f"{pages[0]} and {pages[1]}"
            self.findings.grave(
                "no-such-page",
                places[pages[0]][0],
                f"there are no pages {some}",
                f"{has}; if it has more, correct pages at the top",
                [where for page in pages for where in places[page]],
            )
            return
        for page, all_of in places.items():
            self.findings.grave("no-such-page", all_of[0], f"there is no page {page}", has, all_of)

    def _lost(self, key: str, code: str, where: Path, what: str, remedy: Callable[[], str]) -> None:
        """Note what was not found, once, unless a broken table may be the reason."""
        if self.unsure or self.pageless:
            self.excused = True
        else:
            self.findings.once(("pocket", key), code, where, what, remedy)

    def destination(self, raw: str | int, count: int, where: Path) -> Destination | None:
        """Where a label, ``page N`` or a page number leads; None with an error noted."""
        if isinstance(raw, str):
            found = self._labels.get(label_key(raw))
            if found is not None:
                return Destination(found, None, count)
            numbered = _PAGE.fullmatch(raw.strip().casefold())
            if not numbered and (self._beyond(raw, where) or self._pages_without(raw, where)):
                return None
            if not numbered:
                self._lost(
                    raw,
                    "unknown-pocket",
                    where,
                    f'no pocket is labelled "{raw}"',
                    lambda: (
                        self._meant(raw, count)
                        or self.findings.did_you_mean(raw, [p.label for p in self.all])
                    ),
                )
                return None
            page = int(numbered[1])
        else:
            page = raw
        if not self.page(page, where):
            return None
        pocket = self._of_page.get(page)
        if pocket is None:
            self._without_pocket([page], where)
            return None
        return Destination(pocket, page, count)

    def _without_pocket(self, pages: Sequence[int], where: Path) -> None:
        """Note pages that no pocket holds, each once."""
        new = [page for page in pages if page not in self._homeless]
        self._homeless.update(new)
        if not new:
            self.excused = True
            return
        several = len(new) > 1
        listed = " and ".join(map(str, new))
        self._lost(
            f"pages {listed}",
            "page-without-pocket",
            where,
            f"page{'s' * several} {listed} {'have' if several else 'has'} no pocket",
            lambda: (
                f"add {'them' if several else 'it'} to the pages of a [[pocket]]: where any "
                "stands, all are listed"
            ),
        )

    def _beyond(self, raw: str, where: Path) -> bool:
        """Whether a label names two neighbouring pages, both beyond the last; noted then."""
        pair = re.fullmatch(r"([0-9]{1,3})·([0-9]{1,3})", label_key(raw[:40]))
        pages = [int(number) for number in pair.groups()] if pair else []
        if not pages or pages[0] <= self.pages or pages[1] != pages[0] + 1:
            return False
        for page in pages:
            self.page(page, where)
        return True

    def _pages_without(self, raw: str, where: Path) -> bool:
        """Whether a label names two pages that are there and have no pocket; noted then."""
        numbers = label_key(raw[:40]).split("·")
        if not all(re.fullmatch("[0-9]{1,3}", number) for number in numbers):
            return False
        pages = [int(number) for number in numbers]
        if any(not 1 <= page <= self.pages or page in self._of_page for page in pages):
            return False
        self._without_pocket(pages, where)
        return True

    def _meant(self, raw: str, count: int) -> str:
        """A remedy for a place that is there, but written in another way; else empty."""
        pair = re.sub(r"^pages?\b|\band\b", " ", raw[:60].casefold())
        joined = self._labels.get(label_key(pair))
        if joined is not None:
            return f'did you mean "{self.all[joined].label}"?'
        page = meant_page(raw)
        if 1 <= page <= self.pages:
            if any(c.isdigit() for c in raw):
                return f'did you mean "page {page}"?'
            return f'write pages in figures, such as "page {page}"'
        span = _SPAN.fullmatch(raw.strip().casefold())
        if span and 0 < int(span[2]) - int(span[1]) < 6:
            each = [f"{count} to page {page}" for page in range(int(span[1]), int(span[2]) + 1)]
            return f'name each page: "{", ".join(each)}"'
        parts = meant_places(raw, count)
        places = [self._figures(place) for place, _ in parts]
        if not parts or not all(places):
            return ""
        counted = any(number > 1 for _, number in parts) or bool(_COUNTS.search(raw))
        counted = counted or len(parts) == 1
        told = [
            f"{number} to {place}" if counted else place
            for place, (_, number) in zip(places, parts, strict=True)
        ]
        if len(told) == 1:
            return f'write "{told[0]}"'
        return f'set places apart by commas: "{", ".join(told)}"'

    def _figures(self, place: str) -> str:
        """A place as it should be written; empty when the kit does not have it."""
        found = self._labels.get(label_key(place))
        if found is not None:
            return self.all[found].label
        page = meant_page(place)
        return f"page {page}" if 1 <= page <= self.pages else ""

    def to(
        self, entries: Iterable[tuple[str | int, int]] | None, where: Path
    ) -> tuple[tuple[Destination, ...], bool]:
        """All places that a `to` names.

        Returns:
            The places, each once with its count, and whether all could be found.
        """
        found = list(self._each(entries or (), where))
        places = merged(each for each in found if each is not None)
        return places, None not in found

    def _each(
        self, entries: Iterable[tuple[str | int, int]], where: Path
    ) -> Iterator[Destination | None]:
        for raw, count in entries:
            yield self.destination(raw, count, where)


def merged(places: Iterable[Destination]) -> tuple[Destination, ...]:
    """The same places, each once, with their counts added up."""
    counts: dict[tuple[int, int | None], int] = {}
    for to in places:
        key = (to.pocket, to.page)
        counts[key] = counts.get(key, 0) + to.count
    return tuple(Destination(pocket, page, count) for (pocket, page), count in counts.items())
