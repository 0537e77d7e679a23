"""Names and words of the tree."""

import re
import subprocess
import unittest

from house import ROOT, sources

TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "src", "include", "tests",
             "field-forms", "docs"}

# Sources that are tables of published figures or of units; each figure has its source beside it.
TABLES = {"src/readings/classes.cpp", "src/readings/instruments.cpp", "src/base/quantity.cpp"}


def tracked():
    out = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-z"], capture_output=True, text=True)
    return [n for n in out.stdout.split("\0") if n] if out.returncode == 0 else []


class Words(unittest.TestCase):
    def test_the_top_level_holds_what_it_should(self):
        names = {n.split("/")[0] for n in tracked()}
        self.assertEqual({n for n in names if not n.startswith(".")} - TOP_LEVEL, set())

    def test_no_file_is_named_for_odds_and_ends(self):
        for name in tracked():
            self.assertIsNone(re.search(r"(^|[/_.-])(utils?|misc|helpers?|common)([/_.-]|$)", name), name)

    def test_no_path_of_a_machine_stands_in_the_tree(self):
        pattern = re.compile(r"/ho[m]e/|/wor[k]/|/ro[o]t/")
        for name in tracked():
            path = ROOT / name
            if path.is_file():
                self.assertIsNone(pattern.search(path.read_text(encoding="utf-8", errors="replace")), name)

    def test_small_numbers_in_sources_are_named(self):
        small = re.compile(r"(?<![\w.])\d+(\.\d*)?[eE]-\d+")
        loose = []
        for path in sources("src", "include"):
            if str(path.relative_to(ROOT)) in TABLES:
                continue
            code = re.sub(r'//[^\n]*|"[^"\n]*"', "", path.read_text(encoding="utf-8"))
            for statement in code.split(";"):
                if small.search(statement) and "constexpr" not in statement:
                    loose.append(f"{path.relative_to(ROOT)}: {' '.join(statement.split())[-80:]}")
        self.assertEqual(loose, [])

    def test_sources_are_short_enough_to_read(self):
        for path in sources("src", "include"):
            count = len(path.read_text(encoding="utf-8").splitlines())
            self.assertLessEqual(count, 600, f"{path.relative_to(ROOT)} has {count} lines")

    def test_a_header_opens_by_saying_what_it_is(self):
        for path in sources("include", endings=(".hpp",)):
            text = path.read_text(encoding="utf-8")
            self.assertTrue(text.startswith("// "), path.relative_to(ROOT))
            self.assertIn("#pragma once", text, path.relative_to(ROOT))

    def test_the_license_is_mit_and_names_its_holder(self):
        text = (ROOT / "LICENSE").read_text(encoding="utf-8")
        self.assertIn("MIT License", text)
        self.assertIn("the Stakewright authors", text)

    def test_commands_of_the_readme_can_be_run(self):
        readme = (ROOT / "README.md").read_text(encoding="utf-8")
        for command in ("docs/walkthrough/run", "tests/run"):
            self.assertIn(command, readme)
            self.assertTrue((ROOT / command).stat().st_mode & 0o111, command)
        self.assertIn("tests/run", (ROOT / ".ci/run").read_text(encoding="utf-8"))


if __name__ == "__main__":
    unittest.main()
