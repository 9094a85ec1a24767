"""The shelf: its headings, and what is told of a kit or a session, in Dutch."""

from __future__ import annotations

from datetime import timedelta

from model.language.english import shelf as english


class ShelfPhrases(english.ShelfPhrases):
    """Words of the shelf, in Dutch."""

    def title(self) -> str:
        """The title."""
        return "dryfit: de plank"

    def head(self, part: str) -> str:
        """The heading of a part: ``unfinished``, ``kits``, ``finished``."""
        return {
            "unfinished": "Ga verder met",
            "kits": "Begin met een pakket",
            "finished": "Klaar, of niet te lezen",
        }[part]

    def how_far(self, done: int, steps: int, to_file: int) -> str:
        """How far a run is, for those who are not at its table; see the English one."""
        whole = f"{steps} {'stap' if steps == 1 else 'stappen'}"
        if done < steps or not steps:
            return f"{done} van {whole} gedaan"
        said = "de enige stap gedaan" if steps == 1 else f"alle {whole} gedaan"
        return f"{said}, nog {to_file} op te bergen" if to_file else said

    def unfinished(self, far: str, ago: str) -> str:
        """A session to go on with: how far it is, and when it was last worked on."""
        return f"{far}, {ago}"

    def finished(self, ago: str) -> str:
        """A session that is finished."""
        return f"klaar, {ago}"

    def unreadable(self) -> str:
        """A session that can't be read."""
        return "niet te lezen"

    def unusable(self) -> str:
        """A kit that can't be used."""
        return "zo niet te gebruiken"

    def kit(self, pages: int, demo: bool) -> str:
        """A kit."""
        said = "1 pagina" if pages == 1 else f"{pages} pagina's"
        return f"{said}, voorbeeld, verzonnen" if demo else said

    def own_kits(self, folder: str) -> str:
        """Where kit files of one's own are put."""
        return f"Je eigen pakketten: {folder}"

    def nothing_kept(self, why: str) -> str:
        """That there is no place for anything."""
        return f"Er kan niets worden bewaard: {why}"

    def more_sessions(self, count: int) -> str:
        """How many finished sessions are not shown."""
        return f"en nog {count}: dryfit sessions noemt ze allemaal"

    def why_unreadable(self, why: str) -> str:
        """Why a kit can't be read."""
        return f"Niet te lezen: {why}"

    def ask_path(self) -> str:
        """Asks for a path."""
        return "Pad van een pakket of een sessie:"

    def ago(self, since: timedelta) -> str:
        """How long ago."""
        if since.days > 0:
            return "gisteren" if since.days == 1 else f"{since.days} dagen geleden"
        minutes = int(since.total_seconds() // 60)
        if minutes < 2:
            return "zojuist"
        return f"{minutes} min geleden" if minutes < 60 else f"{minutes // 60} uur geleden"
