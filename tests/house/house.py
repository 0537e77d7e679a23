"""Where things are, and the table of modules as DEVELOPERS.md has it."""

import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parents[2]


def module_table():
    """{module: (set of modules it may include, list of third-party names)}"""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = {}
    for line in text.splitlines():
        cells = [c.strip() for c in line.strip().strip("|").split("|")]
        if len(cells) == 4 and re.fullmatch(r"[a-z]+", cells[0]) and cells[0] != "module":
            may = {c.strip() for c in cells[2].split(",")} - {"–"}
            third = [c.strip() for c in cells[3].split(",") if c.strip() != "–"]
            table[cells[0]] = (may, third)
    return table


def sources(*folders, endings=(".hpp", ".cpp")):
    for folder in folders:
        for path in sorted((ROOT / folder).rglob("*")):
            if path.suffix in endings and path.is_file():
                yield path


def module_of(path):
    """include/stakewright/<module>/x.hpp or src/<module>/x.cpp"""
    parts = path.relative_to(ROOT).parts
    return parts[2] if parts[0] == "include" else parts[1]


def includes(path):
    """[(line number, header as written)]"""
    found = []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        match = re.match(r'\s*#\s*include\s*[<"]([^>"]+)[>"]', line)
        if match:
            found.append((number, match.group(1)))
    return found
