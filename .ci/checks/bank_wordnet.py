"""Compares the kinds of thing that our words are with WordNet's.

Source: WordNet 3.0 (Princeton University), as Debian's package `wordnet-base`; its files are read directly (format: wndb(5WN),
wninput(5WN)).

Each word of a kind has to have a noun sense under one of the synsets that stand for the kind. Words that are meant although
WordNet does not say so are in wordnet_meant.tsv with the reason; a word that is not there fails the check, and so does a row that
is no longer needed.
"""

import sys
from functools import cache
from pathlib import Path

import bank

WORDNET = Path(sys.argv[1] if len(sys.argv) > 1 else "/usr/share/wordnet")
MEANT = Path(__file__).with_name("wordnet_meant.tsv")

# The synsets that stand for each kind: a lemma and the number of its sense.
KINDS = {
    "animal": ["animal 1"],
    "body": ["body_part 1", "body 1", "body_substance 1", "body_covering 1"],
    "clothes": ["clothing 1", "footwear 1", "footwear 2", "jewelry 1", "accessory 1"],
    "food": ["food 1", "food 2", "foodstuff 2", "edible_nut 1", "edible_fruit 1"],
    "plant": ["plant 2", "plant_part 1", "bryophyte 1"],
    "ride": ["vehicle 1", "conveyance 3"],
}


def read_index() -> dict[str, list[str]]:
    found = {}
    for line in (WORDNET / "index.noun").read_text(encoding="latin-1").splitlines():
        if not line.startswith(" "):
            parts = line.split()
            senses = int(parts[2])
            found[parts[0]] = parts[-senses:]
    return found


def read_above() -> dict[str, list[str]]:
    """For each synset, those right above it: pointers @ (kind of) and @i (instance of)."""
    found = {}
    for line in (WORDNET / "data.noun").read_text(encoding="latin-1").splitlines():
        if line.startswith(" "):
            continue
        parts = line.split(" | ")[0].split()
        pointers = 4 + 2 * int(parts[3], 16)
        count = int(parts[pointers])
        four = [parts[pointers + 1 + 4 * i : pointers + 5 + 4 * i] for i in range(count)]
        found[parts[0]] = [offset for symbol, offset, part, _ in four if symbol in ("@", "@i") and part == "n"]
    return found


INDEX, ABOVE = read_index(), read_above()
PLURALS = {row.split()[0]: row.split()[1:] for row in (WORDNET / "noun.exc").read_text().splitlines()}


@cache
def all_above(synset: str) -> frozenset[str]:
    found = {synset}
    for above in ABOVE[synset]:
        found |= all_above(above)
    return frozenset(found)


def synset(sense: str) -> str:
    lemma, number = sense.split()
    return INDEX[lemma][int(number) - 1]


def senses(word: bank.Word) -> list[str]:
    """The noun senses of a word, of the two words of a compound, and of its singular."""
    names = [word.spelling, *PLURALS.get(word.spelling, [])]
    names += [word.spelling[: -len(end)] for end in ("s", "es") if word.spelling.endswith(end)]
    for flag in word.flags:
        kind, _, value = flag.partition("=")
        if kind == "compound":
            names += [value.replace("+", "_"), value.replace("+", "-")]
        if kind == "form":
            names.append(value.split("+")[0])
    return [offset for name in names for offset in INDEX.get(name, [])]


TARGETS = {kind: {synset(sense) for sense in under} for kind, under in KINDS.items()}
meant = bank.listed(MEANT, 3) if MEANT.exists() else {}
missing, checked = {}, 0
for word in bank.words():
    for kind in KINDS:
        # Forms have the kinds of their base and are not judged twice.
        if kind not in word.categories or any(flag.startswith("form=") and "+" in flag for flag in word.flags):
            continue
        checked += 1
        if not any(all_above(sense) & TARGETS[kind] for sense in senses(word)):
            missing[(word.spelling, kind)] = word
problems = ["not under the kind in WordNet:\t" + "\t".join(key) for key in missing if key not in meant]
problems += ["stale in wordnet_meant.tsv:\t" + "\t".join(key) for key in meant if key not in missing]
bank.finish(
    "bank_wordnet",
    f"{checked} words of {len(KINDS)} kinds against WordNet, {len(meant)} meant although it does not have them so",
    problems,
)
