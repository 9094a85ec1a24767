from model.language.english.words import English
from tests.foreign import translated

WORDS = translated(English)
