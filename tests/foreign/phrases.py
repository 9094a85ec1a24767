from model.language.english.phrases import Phrases
from tests.foreign import translated

PHRASES = translated(Phrases)
PHRASES.code = "xx"
