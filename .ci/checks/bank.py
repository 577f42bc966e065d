"""Reading the word bank's files, for the checks beside this one."""

import sys
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
BANK = ROOT / "src" / "bank"


class Word(NamedTuple):
    """A row of words.txt."""

    spelling: str
    groups: list[tuple[str, list[str]]]  # letters and phones; the letters "." stand for the end of a split vowel
    syllables: int
    level: str
    band: str
    classes: list[str]
    categories: list[str]
    flags: list[str]

    def phones(self) -> list[str]:
        return [phone for _, phones in self.groups for phone in phones]

    def letters(self) -> str:
        """The letters in order, with the second half of a split vowel in its place."""
        text, waiting = "", []
        for letters, _ in self.groups:
            if letters == ".":
                text += waiting.pop(0)
                continue
            head, _, tail = letters.partition("_")
            text += head
            if tail:
                waiting.append(tail)
        return text + "".join(waiting)


def rows(path: Path) -> list[list[str]]:
    """The columns of each line that is not empty and no comment."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return [line.split("\t") for line in lines if line and not line.startswith("#")]


def names(text: str) -> list[str]:
    return [] if text == "-" else text.split(",")


def words() -> list[Word]:
    found = []
    for spelling, groups, syllables, level, band, classes, categories, flags in rows(BANK / "words.txt"):
        units = []
        for group in groups.split(" "):
            letters, _, phones = group.partition("=")
            units.append((letters, phones.split("+") if phones else []))
        found.append(
            Word(spelling, units, int(syllables), level, band, names(classes), names(categories), names(flags))
        )
    return found


def listed(path: Path, columns: int) -> dict[tuple[str, ...], list[str]]:
    """A list of exceptions: the key is all columns but the last, which is the reason and may not be empty."""
    found = {}
    for row in rows(path):
        if len(row) != columns or not row[-1].strip():
            sys.exit(f"{path.name}: {row}: {columns} columns are needed, the last one a reason")
        found[tuple(row[:-1])] = row
    return found


def finish(name: str, checked: str, problems: list[str]) -> None:
    """Prints the closing line; ends with 1 when there are problems."""
    for problem in problems:
        print(problem)
    print(f"{name}: {checked}: {f'{len(problems)} problems' if problems else 'all well'}")
    sys.exit(1 if problems else 0)
