"""Every message stands in every language, is used, and nothing asks for one that is not there."""

import re
import tomllib
import unittest

from house import ROOT

LITERAL = re.compile(r'"([a-z][a-z0-9_]*(?:\.[a-z0-9_]+)+)"')
ASKED = re.compile(r'\b(?:Fact|Id)\s*[({]\s*"([^"]*)"|\b(?:text|filled|paragraphs)\(\s*"([a-z_]+\.[a-z_.]+)"')

# The same in both languages: figures with their symbols, and words that both languages have.
SAME = re.compile(r"^(units|figures)\.|^language$|\.fascia$")


def flat(table, prefix=""):
    for key, value in table.items():
        if isinstance(value, dict):
            yield from flat(value, prefix + key + ".")
        else:
            yield prefix + key, value


def catalog(language):
    return dict(flat(tomllib.loads((ROOT / "field-forms" / f"{language}.toml").read_text())))


def sources():
    for folder in ("src", "include"):
        for path in sorted((ROOT / folder).rglob("*.[ch]pp")):
            yield path, path.read_text()


def without_number(key):
    return re.sub(r"\.(one|other)$", "", key)


class EveryMessage(unittest.TestCase):
    def setUp(self):
        self.english = catalog("en")
        self.languages = sorted(path.stem for path in (ROOT / "field-forms").glob("*.toml"))

    def test_stands_in_every_language(self):
        for language in self.languages:
            self.assertEqual(sorted(self.english), sorted(catalog(language)), language)

    def test_is_used(self):
        used = {"language"}
        for _, text in sources():
            used.update(LITERAL.findall(text))
        idle = [key for key in self.english
                if without_number(key) not in used]
        self.assertEqual([], idle, "in the catalog and asked for by no source; take it out")

    def test_that_is_asked_for_stands_in_the_catalog(self):
        known = {without_number(key) for key in self.english}
        for path, text in sources():
            asked = {one or other for one, other in ASKED.findall(text)}
            self.assertEqual(set(), asked - known,
                             f"{path.relative_to(ROOT)} asks for ids that field-forms/en.toml lacks")

    def test_has_both_numbers_or_none(self):
        keys = set(self.english)
        for key in keys:
            if key.endswith(".one"):
                self.assertIn(key[:-4] + ".other", keys)
            if key.endswith(".other"):
                self.assertIn(key[:-6] + ".one", keys)

    def test_is_translated(self):
        for language in self.languages:
            if language == "en":
                continue
            for key, text in catalog(language).items():
                words = re.sub(r"\{\^?[a-z_]+\}|[^a-zA-Z]", "", str(text))
                if len(words) <= 3 or SAME.search(key):
                    continue
                self.assertNotEqual(self.english[key], text, f"{language}: {key} is still English")


if __name__ == "__main__":
    unittest.main()
