"""The shelf: its headings, and what is told of a kit or a session."""

from __future__ import annotations

from datetime import timedelta

from model.language.english.grammar import counted


class ShelfPhrases:
    """Words of the shelf."""

    def title(self) -> str:
        """The title."""
        return "dryfit: the shelf"

    def head(self, part: str) -> str:
        """The heading of a part: ``unfinished``, ``kits``, ``finished``."""
        return {
            "unfinished": "Go on with",
            "kits": "Start a kit",
            "finished": "Finished, or not readable",
        }[part]

    def how_far(self, done: int, steps: int, to_file: int) -> str:
        """How far a run is, for those who are not at its table.

        Args:
            done: Steps done or left out.
            steps: Steps in all; 0 when not known.
            to_file: Things still to be filed when all steps are done.
        """
        if done < steps or not steps:
            return f"{done} of {counted(steps, 'step')} done"
        said = f"all {counted(steps, 'step')} done"
        return f"{said}, {to_file} still to be filed" if to_file else said

    def unfinished(self, far: str, ago: str) -> str:
        """A session to go on with: how far it is, and when it was last worked on."""
        return f"{far}, {ago}"

    def finished(self, ago: str) -> str:
        """A session that is finished."""
        return f"finished, {ago}"

    def unreadable(self) -> str:
        """A session that can't be read."""
        return "can't be read"

    def unusable(self) -> str:
        """A kit that can't be used."""
        return "can't be used as it is"

    def kit(self, pages: int, demo: bool) -> str:
        """A kit."""
        return counted(pages, "page") + (", demo, invented" if demo else "")

    def own_kits(self, folder: str) -> str:
        """Where kit files of one's own are put."""
        return f"Your own kits: {folder}"

    def nothing_kept(self, why: str) -> str:
        """That there is no place for anything."""
        return f"Nothing can be kept: {why}"

    def more_sessions(self, count: int) -> str:
        """How many finished sessions are not shown."""
        return f"and {count} more: dryfit sessions lists all"

    def why_unreadable(self, why: str) -> str:
        """Why a kit can't be read."""
        return f"It can't be read: {why}"

    def ask_path(self) -> str:
        """Asks for a path."""
        return "Path of a kit or a session:"

    def ago(self, since: timedelta) -> str:
        """How long ago."""
        if since.days > 0:
            return "yesterday" if since.days == 1 else f"{since.days} days ago"
        minutes = int(since.total_seconds() // 60)
        if minutes < 2:
            return "just now"
        return f"{minutes} min ago" if minutes < 60 else f"{minutes // 60} h ago"
