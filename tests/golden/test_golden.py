"""JSON and exit status of the built command over whole jobs, against expected/, and whatever the units shown.

    test_golden.py --command .build/release/bin/stakewright            compares
    test_golden.py --command .build/release/bin/stakewright --write    writes expected/ anew: read the diff
"""

import argparse
import concurrent.futures
import json
import math
import os
import pathlib
import shlex
import subprocess
import sys
import tempfile
import unittest

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
COMMAND = ROOT / ".build/release/bin/stakewright"

# Keys that are not compared, anywhere in a result, and why.
SENTENCES = {
    "words": "a cause, told: its sentence may be polished",
    "why": "a pull's reason, told",
    "why_not": "a comparison's refusal, told",
    "remarks": "told to people; they get ids and values beside the sentence",
    "misses": "what a tape plan does not reach, told",
}
NOT_COMPARED = {
    **SENTENCES,
    "slip": "a slip's name in words becomes an id; that there is one or none is compared",
    "stakewright": "the version",
}
NEAR = 1e-9
# Sets of misread rods that are less likely are not compared: of equal ones rounding says which make the dozen.
LEAST_CHANCE_OF_RODS = 0.001


def cases():
    """Name and words of the command line of every case."""
    for line in (HERE / "cases.txt").read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            name, words = line.split(maxsplit=1)
            yield name, shlex.split(words)


def run(words):
    """Exit status and JSON of a command line, and what it said on stderr."""
    with tempfile.TemporaryDirectory() as out:
        words = [word.replace("{out}", out) for word in words]
        done = subprocess.run([COMMAND, *words, "--json"], cwd=ROOT, capture_output=True, text=True, timeout=120)
        result = json.loads(done.stdout.replace(out, "{out}")) if done.stdout else None
    return {"exit": done.returncode, "result": result}, done.stderr


def compared(value, key=None):
    """A value without what is not compared, numbers to nine decimals."""
    if key == "slip":
        return value is not None
    if isinstance(value, dict):
        return {k: compared(v, k) for k, v in value.items() if k == "slip" or k not in NOT_COMPARED}
    if key == "sets":
        value = sorted((s for s in value if s["chance"] >= LEAST_CHANCE_OF_RODS), key=by_chance_and_names)
    if isinstance(value, list):
        return [compared(v) for v in value]
    if isinstance(value, float):
        return round(value, 9) + 0.0
    return value


def by_chance_and_names(rods):
    return -round(rods["chance"], 6), [(rod["from"], rod["to"]) for rod in rods["rods"]]


def differences(expected, found, where=""):
    """Places at which two values differ, in words."""
    if isinstance(expected, dict) and isinstance(found, dict):
        for key in sorted(expected.keys() | found.keys()):
            if key not in found or key not in expected:
                yield f"{where}.{key}: only {'found' if key in found else 'expected'}"
            else:
                yield from differences(expected[key], found[key], f"{where}.{key}")
    elif isinstance(expected, list) and isinstance(found, list) and len(expected) == len(found):
        for i, pair in enumerate(zip(expected, found)):
            yield from differences(*pair, f"{where}[{i}]")
    elif not alike(expected, found):
        yield f"{where}: expected {shortly(expected)}, found {shortly(found)}"


def alike(expected, found):
    numbers = [v for v in (expected, found) if isinstance(v, (int, float)) and not isinstance(v, bool)]
    if len(numbers) == 2:
        return math.isclose(*numbers, rel_tol=NEAR, abs_tol=NEAR)
    return type(expected) is type(found) and expected == found


def shortly(value):
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) < 160 else text[:157] + "…"


def written(value, indent=""):
    """JSON with sorted keys; whatever fits on a line stands on one."""
    line = json.dumps(value, ensure_ascii=False, sort_keys=True)
    if len(indent) + len(line) <= 116 or not isinstance(value, (dict, list)):
        return line
    inner = indent + " "
    if isinstance(value, dict):
        parts = [f"{inner}{json.dumps(k)}: {written(value[k], inner)}" for k in sorted(value)]
        return "{\n" + ",\n".join(parts) + "\n" + indent + "}"
    return "[\n" + ",\n".join(inner + written(v, inner) for v in value) + "\n" + indent + "]"


def file_of(name):
    return HERE / "expected" / f"{name}.json"


def told(apart):
    return "\n" + "\n".join(apart[:40]) + f"\n{len(apart)} differ"


class Golden(unittest.TestCase):
    """A test a case, named by it: its result is the expected one."""


def golden_test(name, words):
    def test(self):
        found, said = run(words)
        expected = json.loads(file_of(name).read_text(encoding="utf-8"))
        apart = list(differences(expected, compared(found)))
        if apart:
            self.fail(f"{told(apart)}\n{said}")
    return test


class UnitsShown(unittest.TestCase):
    """--units changes no value, and not the exit status: sentences too are told in the job's units."""

    @classmethod
    def setUpClass(cls):
        cls.words = {name: words for name, words in cases() if words[0] in ("layout", "tapes", "check", "carry")}
        lines = [[*words, "--units", units] for words in cls.words.values() for units in ("mm", "m", "feet-inches")]
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            results = [found for found, _ in pool.map(run, lines)]
        cls.found = dict(zip(cls.words, zip(results[::3], results[1::3], results[2::3])))

    def test_change_nothing(self):
        for name, (first, *others) in self.found.items():
            for other in others:
                with self.subTest(name):
                    apart = list(differences(first, other))
                    if apart:
                        self.fail(told(apart))


def write():
    file_of("").parent.mkdir(exist_ok=True)
    for old in file_of("").parent.glob("*.json"):
        old.unlink()
    for name, words in cases():
        found, said = run(words)
        if found["result"] is None:
            sys.exit(f"{name}: no result, exit status {found['exit']}: {said}")
        file_of(name).write_text(written(compared(found)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--command", type=pathlib.Path, default=COMMAND)
    parser.add_argument("--write", action="store_true")
    arguments, rest = parser.parse_known_args()
    COMMAND = arguments.command.resolve()
    if arguments.write:
        sys.exit(write())
    for name, words in cases():
        setattr(Golden, f"test_{name}", golden_test(name, words))
    unittest.main(argv=[sys.argv[0], *rest])
