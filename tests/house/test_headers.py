"""Every public header compiles by itself, against nothing but the standard library."""

import os
import subprocess
import unittest
from concurrent.futures import ThreadPoolExecutor

from house import ROOT, sources


def complaint(path):
    header = path.relative_to(ROOT / "include")
    run = subprocess.run(
        ["g++", "-std=c++20", "-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Werror",
         "-fsyntax-only", "-I", str(ROOT / "include"), "-x", "c++", "-"],
        input=f'#include "{header}"\n#include "{header}"\n', capture_output=True, text=True)
    return f"{header}: {run.stderr}" if run.returncode else None


class Headers(unittest.TestCase):
    def test_each_header_stands_alone(self):
        paths = list(sources("include", endings=(".hpp",)))
        self.assertGreater(len(paths), 15)
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            self.assertEqual([c for c in pool.map(complaint, paths) if c], [])

    def test_every_source_is_formatted(self):
        paths = [str(p) for p in sources("src", "include", "tests")]
        run = subprocess.run(["clang-format", "--dry-run", "-Werror", *paths], capture_output=True, text=True)
        self.assertEqual(run.returncode, 0, run.stderr[:2000])


if __name__ == "__main__":
    unittest.main()
