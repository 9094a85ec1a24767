"""All pieces of one paper: answers as they come."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from model.planning.fewscraps import FewScraps
from model.planning.filling import Filled, sheets_in
from model.planning.greedy import greedy
from model.planning.loads import holds
from model.planning.sheets import Cutting, fewest_sheets
from model.planning.small import exact_small
from model.planning.sparing import Sparing
from model.planning.tidying import scraps_of
from model.planning.units import Whole
from model.planning.work import Work
from model.planning.yields import best_yield

_SMALL = 200_000
_LEVELS = (200_000, 3_000_000, 6_000_000)
_QUICK = 1  # up to so many scraps a sheet, nothing else comes before


@dataclass(frozen=True, slots=True)
class Answer:
    """What is known of one paper.

    Attributes:
        whole: The pieces and the boards.
        cutting: What is cut from which board.
        missing_least: No cutting misses less, by weight.
        scraps_least: None with as few sheets leaves fewer scraps.
    """

    whole: Whole
    cutting: Cutting
    missing_least: int = 0
    scraps_least: int = 0

    @property
    def missing(self) -> int:
        """The weight of the pieces that are missing."""
        return sum(
            count * kind.value
            for count, kind in zip(self.cutting.left, self.whole.kinds, strict=True)
        )

    @property
    def scraps(self) -> int:
        """How many scraps are left."""
        rooms = self.whole.rooms
        return sum(
            scraps_of(one.block, rooms[one.room].width, rooms[one.room].height)
            for one in self.cutting.filled
        )


def _holds(whole: Whole, filled: tuple[Filled, ...]) -> bool:
    return all(
        holds(one.block, whole.rooms[one.room].width, whole.rooms[one.room].height, whole.narrow)
        for one in filled
    )


def answers(whole: Whole, work: Work, after: Work) -> Iterator[Answer]:
    """Answers, the first at once, the later ones mostly better.

    Args:
        whole: The pieces and the boards.
        work: How much may be looked at for what is missing, and for sheets.
        after: How much then for scraps.
    """
    kinds, rooms = whole.kinds, whole.rooms
    filled, left = greedy(kinds, rooms, whole.narrow)
    answer = Answer(whole, Cutting(filled, left, sheets_in(rooms, filled), 0))
    yield answer
    known = None if any(left) else answer.cutting
    for cutting in fewest_sheets(kinds, rooms, work, whole.narrow, known):
        answer = Answer(whole, cutting)
        yield answer
    if answer.missing:
        # Even where no work is left something more than the first answer is tried.
        some = Work(max(work.left, 50_000), work.stop)
        cutting, least = best_yield(kinds, rooms, some, whole.narrow)
        work.spend(some.spent)
        better = Answer(whole, cutting, least)
        now = (answer.missing, answer.cutting.sheets)
        if _holds(whole, cutting.filled) and (better.missing, cutting.sheets) <= now:
            answer = better
        else:
            answer = replace(answer, missing_least=min(least, answer.missing))
        yield answer
    yield from _improved(answer, after)


def _improved(answer: Answer, work: Work) -> Iterator[Answer]:
    cutting = answer.cutting
    alike = not any(cutting.left) and len(answer.whole.rooms) == 1
    if not alike or cutting.sheets > cutting.least:
        exact = _exact(answer, work, min(_SMALL, work.left // 2))
        if exact is not None:
            yield exact
            return
    if not any(cutting.left):
        for spared in _spared(answer, work):
            answer = spared
            yield answer
    if not (alike and cutting.sheets == cutting.least and answer.scraps == answer.scraps_least):
        exact = _exact(answer, work, work.left // 2)
        if exact is not None:
            yield exact


def _exact(answer: Answer, work: Work, most: int) -> Answer | None:
    whole = answer.whole
    if whole.narrow or most <= 0:
        return None
    pieces = sum(kind.count for kind in whole.kinds)
    share = work.share(most)
    boards = pieces if answer.missing else answer.cutting.sheets
    small = exact_small(whole.kinds, whole.rooms, boards, share)
    work.spend(share.spent)
    return None if small is None else Answer(whole, *small)


def _spared(answer: Answer, work: Work) -> Iterator[Answer]:
    """The same sheets with fewer and fewer scraps.

    Two searches take turns: one that tries this and that, and one that leaves nothing out, which
    takes longer with every scrap more that a sheet may leave.
    """
    whole, cutting = answer.whole, answer.cutting
    sparing = Sparing(whole.kinds, whole.rooms, cutting.filled, whole.narrow)
    sparing.tidy(work)
    few: FewScraps | None = None
    if len(whole.rooms) == 1 and not whole.rooms[0].free:
        few = FewScraps(whole.kinds, whole.rooms, 0, cutting.sheets, sparing.scraps)
    least = sparing.least if few and len(cutting.filled) == 1 else 0

    def now() -> Answer:
        proved = max(least, few.least) if few else 0
        return replace(answer, cutting=replace(cutting, filled=sparing.filled), scraps_least=proved)

    yield now()
    batches = sparing.run(work)
    next(batches, None)
    going = True
    while not work.over and sparing.scraps > now().scraps_least:
        level = -1
        if few and not few.done:
            few.lower(sparing.scraps)
            level = few.level
            most = _LEVELS[min(level, len(_LEVELS) - 1)] if going else work.left // 2
            for search in (few.deepen, lambda some: few.mix(sparing.sets(0), some)):
                share = work.share(most)
                if (filled := search(share)) and _holds(whole, filled):
                    sparing.take(filled)
                    few.lower(sparing.scraps)
                work.spend(share.spent)
                yield now()
        if not going and (few is None or few.done or few.level == level):
            return
        if level >= _QUICK or not few or few.done:
            going = going and next(batches, 0) is None
        yield now()
