"""What this package tells people: English as it stands, with its facts apart so that another language can say it."""

from typing import Self


class Sentence(str):
    """A sentence with {names} filled in; `pattern` and `facts` are what it was made of.

    A fact may be a sentence itself. What shows one to people says it in their language (`plates.common.words.said`).
    """

    pattern: str
    facts: dict[str, str]

    def __new__(cls, pattern: str, **facts: str) -> Self:
        sentence = super().__new__(cls, pattern.format(**facts) if facts else pattern)
        sentence.pattern, sentence.facts = pattern, facts
        return sentence
