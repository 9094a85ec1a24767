from model.language.english.phrases import Phrases
from model.language.english.typed import TypedPhrases
from tests.foreign import latin, translated

PHRASES = translated(Phrases)
PHRASES.code = "xx"


class Typed(TypedPhrases):
    """Hears what is typed in the other letters."""

    def heard(self, line: str) -> str:
        return latin(line)

    def spoken(self, text: str, exact: str = "") -> str:
        return text  # those who speak it read signs as we do

    def written(self, text: str) -> str:
        return text


PHRASES.typed = Typed()
