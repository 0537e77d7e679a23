"""One direction of dependency, and third-party headers where they belong."""

import re
import unittest

from house import ROOT, includes, module_of, module_table, sources

# How each library's headers begin.
THIRD_PARTY = {
    "boost/geometry": ("boost/geometry",),
    "boost/math": ("boost/math",),
    "ceres": ("ceres/",),
    "Eigen": ("Eigen/",),
    "toml++": ("toml++/",),
    "nlohmann": ("nlohmann/",),
    "csv.h": ("csv.h",),
    "dxflib": ("dxflib/",),
    "cairo": ("cairo",),
    "pango": ("pango/", "pango"),
    "qpdf": ("qpdf/",),
    "CLI11": ("CLI/",),
    "fmt": ("fmt/",),
}
# Slow to compile: no more sources than this may include them, over the whole tree.
HEAVY = {"CLI/": 1, "boost/geometry": 1, "nlohmann/": 3, "toml++/": 3}


def library_of(header):
    for name, beginnings in THIRD_PARTY.items():
        if header.startswith(beginnings):
            return name
    return None


class IncludeRules(unittest.TestCase):
    def test_the_table_names_every_module_and_no_other(self):
        folders = {p.name for p in (ROOT / "src").iterdir() if p.is_dir()} - {"cmake"}
        self.assertEqual(folders, set(module_table()))

    def test_the_table_has_no_way_back(self):
        table = module_table()
        order = list(table)
        for module, (may, _) in table.items():
            for other in may:
                self.assertLess(order.index(other), order.index(module), f"{module} → {other}")

    def test_modules_include_only_what_the_table_allows(self):
        table = module_table()
        for path in sources("include", "src"):
            module = module_of(path)
            for number, header in includes(path):
                match = re.match(r"stakewright/([a-z]+)/", header)
                if match:
                    self.assertIn(match.group(1), table[module][0] | {module},
                                  f"{path.relative_to(ROOT)}:{number}: {header}")

    def test_cmake_links_what_the_table_allows(self):
        for module, (may, _) in module_table().items():
            text = (ROOT / "src" / module / "CMakeLists.txt").read_text(encoding="utf-8")
            match = re.search(r"MAY_INCLUDE([a-z\s]*)", text)
            linked = set(match.group(1).split()) if match else set()
            linked |= set(re.findall(r"stakewright::([a-z]+)", text))
            self.assertLessEqual(linked - {module}, may, module)

    def test_third_party_headers_stay_in_their_modules(self):
        table = module_table()
        for path in sources("src"):
            for number, header in includes(path):
                library = library_of(header)
                if library and library != "fmt":
                    self.assertIn(library, table[module_of(path)][1],
                                  f"{path.relative_to(ROOT)}:{number}: {header}")

    def test_no_third_party_header_shows_in_a_public_header(self):
        for path in sources("include"):
            for number, header in includes(path):
                self.assertIsNone(library_of(header), f"{path.relative_to(ROOT)}:{number}: {header}")

    def test_heavy_headers_are_included_in_few_sources(self):
        for beginning, most in HEAVY.items():
            users = {str(p.relative_to(ROOT)) for p in sources("src")
                     if any(h.startswith(beginning) for _, h in includes(p))}
            self.assertLessEqual(len(users), most, f"{beginning}: {sorted(users)}")

    def test_the_core_prints_nothing_and_opens_no_file(self):
        core = ["base", "layout", "readings", "adjustment", "suspects", "placement", "levels", "roof", "check"]
        banned = {"iostream", "fstream", "cstdio", "filesystem", "ctime", "chrono", "locale",
                  "stdio.h", "unistd.h", "fmt/ostream.h", "fmt/color.h"}
        for module in core:
            for path in sources(f"include/stakewright/{module}", f"src/{module}"):
                for number, header in includes(path):
                    self.assertNotIn(header, banned, f"{path.relative_to(ROOT)}:{number}")


if __name__ == "__main__":
    unittest.main()
