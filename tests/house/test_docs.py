"""Docs that are kept true: links, formulas and the tests that hold them."""

import re
import unittest

from house import ROOT, sources


def pages():
    yield from sorted(ROOT.glob("*.md"))
    yield from sorted((ROOT / "docs").rglob("*.md"))
    yield from sorted((ROOT / "field-forms").rglob("*.md"))


def test_names():
    """All gtest names of the tree, as Suite.Test."""
    names = set()
    pattern = re.compile(r"\bTEST(?:_F|_P)?\(\s*(\w+)\s*,\s*(\w+)\s*\)")
    for path in sources("tests", endings=(".cpp",)):
        names |= {f"{suite}.{test}" for suite, test in pattern.findall(path.read_text(encoding="utf-8"))}
    return names


class Docs(unittest.TestCase):
    def test_links_between_pages_lead_somewhere(self):
        for page in pages():
            text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.S)
            for target in re.findall(r"\]\(([^)#\s]+)(?:#[^)]*)?\)", text):
                if not re.match(r"[a-z]+:", target):
                    self.assertTrue((page.parent / target).exists(), f"{page.relative_to(ROOT)}: {target}")

    def test_each_test_that_a_method_page_names_exists(self):
        names = test_names()
        held = 0
        for page in sorted((ROOT / "docs/methods").glob("*.md")):
            for block in re.findall(r"Held by:?((?:\s*(?:and|,|;)?\s*`[^`]+`)+)", page.read_text(encoding="utf-8")):
                for name in re.findall(r"`([^`]+)`", block):
                    held += 1
                    self.assertIn(name, names, f"{page.relative_to(ROOT)}")
        self.assertGreater(held, 20)

    def test_each_core_module_has_its_methods(self):
        for page in ("polygon", "staking", "readings", "adjustment", "misread-readings", "suspects",
                     "placement", "levels", "roof"):
            text = (ROOT / f"docs/methods/{page}.md").read_text(encoding="utf-8")
            self.assertIn("Held by", text, page)

    def test_headers_send_the_reader_to_pages_that_exist(self):
        for path in sources("include", "src"):
            for target in re.findall(r"docs/[\w/-]+\.md", path.read_text(encoding="utf-8")):
                self.assertTrue((ROOT / target).exists(), f"{path.relative_to(ROOT)}: {target}")

    def test_the_readme_begins_with_the_job(self):
        text = (ROOT / "README.md").read_text(encoding="utf-8")
        first = [p for p in text.split("\n\n") if not p.startswith("#")][0]
        for word in ("polygon", "stakes", "diagonals", "tape", "rafter"):
            self.assertIn(word, first)


if __name__ == "__main__":
    unittest.main()
