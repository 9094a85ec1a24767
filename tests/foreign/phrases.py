from model.language.english.phrases import Phrases
from model.language.english.typed import TypedPhrases
from tests.foreign import latin, translated

PHRASES = translated(Phrases)
PHRASES.code = "xx"


class Typed(TypedPhrases):
    """Hears what is typed in the other letters."""

    def heard(self, line: str) -> str:
        return latin(line)


PHRASES.typed = Typed()
