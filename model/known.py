"""What is worked out once of a plan, to tell its things apart: made when it is first asked for."""

from __future__ import annotations

from functools import cached_property

from model.find import Finder
from model.likeness import LookAlikes
from model.plan import Plan
from model.thin import ThinStrips


class Known:
    """Look-alikes, thin strips and the finder of one plan."""

    def __init__(self, plan: Plan) -> None:
        """Nothing worked out yet.

        Args:
            plan: The plan.
        """
        self.plan = plan

    @cached_property
    def looks(self) -> LookAlikes:
        """Its look-alikes."""
        return LookAlikes(self.plan)

    @cached_property
    def thin(self) -> ThinStrips:
        """Its thin strips."""
        return ThinStrips(self.plan)

    @cached_property
    def finder(self) -> Finder:
        """Finds its things."""
        return Finder(self.plan)
