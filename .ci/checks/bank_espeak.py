"""Compares the number of sounds in each one-syllable word with espeak-ng's.

Source: the Debian package `espeak-ng`, voice en-us; its rules and dictionary are not CMUdict's, so the two can catch each other.

Both are counted alike: an affricate and a diphthong are one sound; ar, or and er are one; any other vowel with /r/ is two; /yū/
after a consonant is one. Words on which the two still differ are in espeak_explained.tsv with the reason; a word that is not
there fails the check, and so does a row that is no longer true.
"""

import re
import subprocess
import sys
from pathlib import Path

import bank

EXPLAINED = Path(__file__).with_name("espeak_explained.tsv")

# Phonemes of espeak-ng that hold a vowel and an /r/ which is counted apart, as in chair, deer, tour, fire, hour.
WITH_R = re.compile(r"^(ɛ|ɪ|ʊ|iː|eɪ|aɪ|aʊ|ɔɪ|oʊ)(ɹ|ɚ)$|^iə$")


def ours(phones: list[str]) -> int:
    bare = [phone.rstrip("012") for phone in phones]
    count = 0
    for at, phone in enumerate(bare):
        before = bare[at - 1] if at else None
        after_is_vowel = at + 1 < len(phones) and phones[at + 1][-1].isdigit()
        r_of_vowel = phone == "R" and before in ("AA", "AO") and not after_is_vowel
        u_after_y = phone == "UW" and before == "Y" and at > 1
        count += not (r_of_vowel or u_after_y)
    return count


def theirs(said: list[str]) -> int:
    count = 0
    for at, phoneme in enumerate(said):
        before = said[at - 1] if at else ""
        long_u = phoneme == "uː" and before == "j" and at > 1
        if phoneme == "ɹ" and before in ("ɑː", "ɔː", "oː"):
            continue
        count += 0 if long_u else 2 if WITH_R.match(phoneme) else 1
    return count


def espeak(spellings: list[str]) -> list[list[str]]:
    """The phonemes of each word, all words in one run, one word a line."""
    command = ["espeak-ng", "-q", "-v", "en-us", "--ipa", "--sep=_"]
    out = subprocess.run(command, input="\n".join(spellings), capture_output=True, text=True, check=True).stdout
    lines = [line.strip() for line in out.splitlines() if line.strip()]
    if len(lines) != len(spellings):
        sys.exit(f"espeak-ng gave {len(lines)} lines for {len(spellings)} words")
    return [[part for part in re.sub("[ˈˌ]", "", line).split("_") if part] for line in lines]


words = [word for word in bank.words() if word.syllables == 1]
explained = bank.listed(EXPLAINED, 4) if EXPLAINED.exists() else {}
differing, problems = {}, []
for word, said in zip(words, espeak([word.spelling for word in words]), strict=True):
    if ours(word.phones()) != theirs(said):
        differing[(word.spelling, " ".join(word.phones()), " ".join(said))] = word
for key in differing:
    if key not in explained:
        problems.append("not explained:\t" + "\t".join(key))
problems += ["stale in espeak_explained.tsv:\t" + "\t".join(key) for key in explained if key not in differing]
bank.finish(
    "bank_espeak",
    f"{len(words)} one-syllable words against espeak-ng, {len(explained)} differences explained",
    problems,
)
