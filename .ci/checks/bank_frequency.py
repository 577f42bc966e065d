"""Asks how common the words of the two youngest age bands are.

Source: the PyPI package `wordfreq` (R. Speer, 2022), used by this check alone: its data is share-alike and not part of the
program. A Zipf value of 3.0 is one in a million words. Of the base words of bands K and 1, compounds aside, at least 90 in 100
have to be above it. Compounds (teapot, seashell) are known by their parts and are often written apart, so that a count of
written words says little about them; the shares with compounds and with inflected forms are printed beside it.
"""

import wordfreq

import bank

ZIPF, SHARE = 3.0, 90


def common(words: list[bank.Word]) -> tuple[int, str]:
    above = sum(wordfreq.zipf_frequency(word.spelling, "en") > ZIPF for word in words)
    return above, f"{above} of {len(words)} ({100 * above / len(words):.1f} %)"


def flagged(word: bank.Word, *flags: str) -> bool:
    return any(flag.split("=")[0] in flags for flag in word.flags)


every = [word for word in bank.words() if word.band in ("K", "1")]
base = [word for word in every if not flagged(word, "form")]
simple = [word for word in base if not flagged(word, "compound")]
rare = [word.spelling for word in simple if wordfreq.zipf_frequency(word.spelling, "en") <= ZIPF]
print(f"at or below Zipf {ZIPF}, compounds aside: {' '.join(rare)}")
print(f"above Zipf {ZIPF}: base words and compounds {common(base)[1]}; with inflected forms {common(every)[1]}")
above, said = common(simple)
problems = [] if above * 100 >= SHARE * len(simple) else [f"fewer than {SHARE} %"]
bank.finish("bank_frequency", f"{said} base words of bands K and 1 above Zipf {ZIPF}, compounds aside", problems)
