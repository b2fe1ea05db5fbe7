"""How easy the documentation is to read, page by page: reading ease, words per sentence, long sentences.

Reading ease is that of R. Flesch, "A new readability yardstick", J. Appl. Psychol. 32 (1948) 221: 206.835 - 1.015 x
words per sentence - 84.6 x syllables per word. 60 is plain English and 100 is very easy. Syllables are counted as
groups of vowels, which is a few per cent off, in the same way for every page. Code, tables, formulas, headings and the
addresses of links are left out.

    python benchmarks/readability.py [--at REVISION] [--json]
"""

from __future__ import annotations

import argparse
import json
import re
import subprocess
from pathlib import Path

ROOT = Path(__file__).parents[1]
PAGES = ("README.md", "CHANGELOG.md", "DEVELOPERS.md", "docs")
LONG = 25
"""A sentence with more words than this is long."""


def prose(text: str) -> str:
    """The running text of a Markdown page, a blank line between blocks."""
    text = re.sub(r"^(```|:::)\{?(?!admonition|figure).*?^\1\s*$", "\n", text, flags=re.M | re.S)
    text = re.sub(r"^(:::.*|:\w+:.*|#.*|\|.*|<!--.*)$", "\n", text, flags=re.M)
    text = re.sub(r"\$\$.*?\$\$", "\n", text, flags=re.S)
    text = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", text)
    text = re.sub(r"(?:(?:`[^`]*`|\$[^$\n]*\$)(?:,? and|,)?\s+)*(?:`[^`]*`|\$[^$\n]*\$)", "it", text)
    text = re.sub(r"^(\s*)(?:[-*]|\d+\.) ", r"\n\1", text, flags=re.M)
    return re.sub(r"[*_>]", "", text)


def sentences(text: str, stops: str = ".!?:;") -> list[list[str]]:
    """Sentences of the running text, each as its words. For the reading ease colons and semicolons end one too."""
    parts = re.split(rf"(?<=[{stops}])[\"')]*\s+|\n\s*\n", prose(text))
    words = [re.findall(r"[A-Za-z][A-Za-z'-]*", part) for part in parts]
    return [found for found in words if len(found) > 2]


def syllables(word: str) -> int:
    """Groups of vowels, less a silent e at the end."""
    word = word.lower().replace("'", "")
    groups = len(re.findall(r"[aeiouy]+", word))
    silent = (word.endswith("e") and not word.endswith("le")) or re.search(r"[^td]ed$", word)
    return max(1, groups - bool(silent))


def measured(text: str) -> dict[str, float]:
    """A page's measures."""
    found = sentences(text)
    words = [word for sentence in found for word in sentence]
    if not words:
        return {}
    whole = sentences(text, ".!?")
    a_sentence, a_word = len(words) / len(found), sum(map(syllables, words)) / len(words)
    return {
        "words": len(words),
        "reading_ease": round(206.835 - 1.015 * a_sentence - 84.6 * a_word, 1),
        "words_per_sentence": round(sum(map(len, whole)) / len(whole), 1),
        "long_share": round(sum(len(sentence) > LONG for sentence in whole) / len(whole), 3),
        "longest": max(map(len, whole)),
    }


def _git(*words: str) -> str:
    return subprocess.run(["git", *words], cwd=ROOT, capture_output=True, text=True, check=True).stdout


def pages(revision: str | None) -> dict[str, str]:
    """Pages by name, as they are or as they were at a revision."""
    if revision is None:
        paths = [ROOT / name for name in PAGES[:3]] + sorted((ROOT / PAGES[3]).glob("*.md"))
        return {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8") for path in paths}
    names = _git("ls-tree", "-r", "--name-only", revision, "--", *PAGES).split()
    names = [name for name in names if re.fullmatch(r"(?:docs/)?[^/]+\.md", name)]
    return {name: _git("show", f"{revision}:{name}") for name in names}


def main() -> None:
    """Prints the measures of every page, and of all of them together."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--at", metavar="REVISION", help="the pages of a commit instead of those in the folder")
    parser.add_argument("--json", action="store_true")
    said = parser.parse_args()
    texts = pages(said.at)
    table = {name: measured(text) for name, text in texts.items()} | {"all": measured("\n\n".join(texts.values()))}
    if said.json:
        print(json.dumps(table, indent=2))
        return
    print(f"{'page':<24}{'words':>7}{'ease':>7}{'words per sentence':>20}{'over ' + str(LONG):>9}{'longest':>9}")
    for name, one in table.items():
        if one:
            row = (one["words"], one["reading_ease"], one["words_per_sentence"], one["long_share"], one["longest"])
            print("{:<24}{:>7}{:>7}{:>20}{:>9.0%}{:>9}".format(name, *row))


if __name__ == "__main__":
    main()
