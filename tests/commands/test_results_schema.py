"""Results of the built command against docs/results.schema.json, by python3-jsonschema.

Every key that is written stands in the schema, and whatever is spoiled is refused.
"""

import argparse
import copy
import json
import math
import pathlib
import subprocess
import sys
import tempfile
import unittest

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2]
SCHEMA = json.loads((ROOT / "docs/results.schema.json").read_text(encoding="utf-8"))
COMMAND = ROOT / ".build/release/bin/stakewright"

ROOF = '[roof]\npitch = "8/12"\noverhang = 0.4\n'
EVERYTHING = """[site]
[[site.pin]]
name = "P1"
at = [-9, -9]
[[site.pin]]
name = "P2"
at = [0.5, 0.5]
[[site.keep_clear]]
name = "fence"
of = [[-10, -10], [10, -10], [10, 3], [-10, 3]]
[lines]
plate = 0.05
slab_edge = 0.3
dig = 0.6
[pour]
pier_diameter = 0.3
pier_depth = 1.2
pad_width = 0.6
pad_thickness = 0.25
slab_thickness = 0.1
edge_width = 0.3
edge_depth = 0.2
bag_yield = "17L"
"""


def job(sides, rest=ROOF, radius=4.0):
    return f'title = "Schema"\nunits = "m"\n[plan]\nsides = {sides}\ncorner_radius = {radius}\n{rest}'


def labels(sides):
    alphabet = [c for c in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if c not in "IO"]
    return [alphabet[i] if i < 24 else "A" + alphabet[i - 24] for i in range(sides)]


def readings(sides, radius=4.0, out=None, slip=None, most_skip=None):
    """All sides, diagonals (to `most_skip`) and radii to 1 mm; `out`: corner and meters; `slip`: pair and meters."""
    names = labels(sides)
    at = {"O": (0.0, 0.0)}
    for i, name in enumerate(names):
        r = radius + (out[1] if out and out[0] == name else 0.0)
        turn = (i - 0.5) * 2 * math.pi / sides
        at[name] = (r * math.sin(turn), r * math.cos(turn))
    rows = ["from,to,reading"]
    for i, a in enumerate(names):
        for j in range(i + 1, sides):
            skip = min(j - i, sides - j + i)
            if most_skip is None or skip <= most_skip:
                rows.append((a, names[j]))
        rows.append((a, "O"))
    text = rows[0] + "\n"
    for a, b in rows[1:]:
        length = math.dist(at[a], at[b]) + (slip[1] if slip and set(slip[0]) == {a, b} else 0.0)
        text += f"{a},{b},{length:.3f}m\n"
    return text


def rounds(first, second):
    """Two files of readings as rounds 1 and 2 of one."""
    rows = [f"{row},{n}" for n, text in ((1, first), (2, second)) for row in text.splitlines()[1:]]
    return "from,to,reading,round\n" + "\n".join(rows) + "\n"


def with_angles(lengths, degrees):
    """The readings with the interior angles of a hexagon, the first of them out by so many degrees."""
    names = labels(6)
    rows = [f"tape,{row}," for row in lengths.splitlines()[1:]]
    for i, name in enumerate(names):
        rows.append(f"angle,{names[(i + 1) % 6]},{names[i - 1]},{120 + (degrees if i == 0 else 0)},{name}")
    return "kind,from,to,reading,at\n" + "\n".join(rows) + "\n"


def run(arguments, files):
    """What the command prints, run in a folder that holds the files."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in files.items():
            (pathlib.Path(folder) / name).write_text(text, encoding="utf-8")
        done = subprocess.run([str(COMMAND), *arguments, "--json"], cwd=folder, capture_output=True, text=True,
                              timeout=60)
        if done.returncode == 2:
            raise AssertionError(f"{arguments}: {done.stderr}")
        return json.loads(done.stdout)


def cases():
    """Name, and the object a command gives."""
    for sides in (3, 5, 8, 24, 48):
        yield f"layout {sides}", run(["layout", "job.toml"], {"job.toml": job(sides)})
    for sides in (3, 4, 5):
        yield f"carry {sides}", run(["carry", "job.toml"], {"job.toml": job(sides)})
    yield "carry to order", run(["carry", "job.toml", "--cut-sheet", "--sensitivity"], {"job.toml": job(6)})
    play = {"job.toml": job(6, ROOF + 'base_play = 0.02\nhub = 0.1\n'), "readings.csv": readings(6, out=("D", 0.03))}
    for way in ("--leave", "--with-play", "--after-moves"):
        yield f"carry {way}", run(["carry", "job.toml", "readings.csv", way], play)
    yield "layout with all", run(["layout", "job.toml"], {"job.toml": job(6, EVERYTHING + ROOF)})
    yield "start", run(["start", "new.toml"], {})
    yield "form", run(["form", "job.toml", "-o", "form.pdf"], {"job.toml": job(6)})
    yield "tapes", run(["tapes", "job.toml"], {"job.toml": job(6)})
    yield "tapes at most", run(["tapes", "job.toml", "--at-most", "4"], {"job.toml": job(6)})
    found = {
        "in": readings(6),
        "out": readings(6, out=("D", 0.03)),
        "misread": readings(6, out=("D", 0.03), slip=("BE", -0.3048)),
        "undecided": readings(6, out=("D", 0.0062)),
        "contradiction": readings(6, most_skip=1, slip=("AB", 0.2)),
        "all long": readings(6, radius=4.03),
        "another job": readings(6, radius=5.0),
        "sides alone": "from,to,reading\nA,B,4m\nB,C,4m\nC,D,4m\nD,E,4m\nE,F,4m\nF,A,4m\n",
        "nothing read": "from,to,reading\nA,B,\n",
        "no rows": "from,to,reading\n",
    }
    few = {"out", "misread", "sides alone", "no rows"}
    for name, text in found.items():
        files = {"job.toml": job(6), "readings.csv": text}
        yield f"check, {name}", run(["check", "job.toml", "readings.csv"], files)
        for command in ("tapes", "carry") if name in few else ():
            yield f"{command}, {name}", run([command, "job.toml", "readings.csv"], files)
    moved = rounds(readings(6), readings(6, out=("D", 0.03)))
    for name, text in {"moved": moved, "not compared": rounds(readings(6), "from,to,reading\nA,B,4m\n")}.items():
        files = {"job.toml": job(6), "readings.csv": text}
        yield f"check since, {name}", run(["check", "job.toml", "readings.csv", "--since", "1"], files)
    for name, slip in {"angles": 0, "angle misread": 1}.items():
        files = {"job.toml": job(6), "readings.csv": with_angles(readings(6, most_skip=1), slip)}
        yield f"check {name}", run(["check", "job.toml", "readings.csv"], files)
    for sides, skip in ((3, None), (48, 2)):
        files = {"job.toml": job(sides), "readings.csv": readings(sides, out=("C", 0.03), most_skip=skip)}
        yield f"check {sides}", run(["check", "job.toml", "readings.csv"], files)


def closed(node):
    """The schema with no key allowed but those it names, unless it says that others are."""
    if isinstance(node, list):
        return [closed(item) for item in node]
    if not isinstance(node, dict):
        return node
    result = {}
    for key, value in node.items():
        if key == "if":
            result[key] = value
        elif key == "properties":
            result[key] = {name: closed(child) for name, child in value.items()}
        else:
            result[key] = closed(value)
    if node.get("type") == "object" and "$schema" not in node:
        result.setdefault("additionalProperties", False)
    return result


def keys(node):
    """Every name under "properties"."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key == "properties":
                yield from value
            yield from keys(value)
    elif isinstance(node, list):
        for item in node:
            yield from keys(item)


def places(node, way=()):
    """Each place in a result once: of a list's items the first that has it."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield (*way, key), tuple("*" if isinstance(k, int) else k for k in (*way, key))
            yield from places(value, (*way, key))
    elif isinstance(node, list):
        for i, value in enumerate(node):
            yield (*way, i), tuple("*" if isinstance(k, int) else k for k in (*way, i))
            yield from places(value, (*way, i))


def shortened(node):
    """The same with the first four items of each list, and the first of each other kind."""
    if isinstance(node, dict):
        return {key: shortened(value) for key, value in node.items()}
    if not isinstance(node, list):
        return node
    kept, kinds = [], set()
    for item in map(shortened, node):
        kind = repr(sorted((k, v is None) for k, v in item.items())) if isinstance(item, dict) else type(item)
        if len(kept) < 4 or kind not in kinds:
            kept.append(item)
        kinds.add(kind)
    return kept


def spoiled(value):
    """Two values of types that the place does not have."""
    return [x for x in ("x", ["x"], 7.5, {"x": 1}) if not isinstance(x, type(value))
            and not (isinstance(x, float) and isinstance(value, int) and not isinstance(value, bool))][:2]


def parent(node, way):
    for key in way[:-1]:
        node = node[key]
    return node


class ResultsSchema(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)
        cls.validator = jsonschema.Draft202012Validator(SCHEMA)
        cls.closed = jsonschema.Draft202012Validator(closed(SCHEMA))
        cls.results = dict(cases())

    def test_takes_every_result(self):
        for name, result in self.results.items():
            with self.subTest(name):
                error = jsonschema.exceptions.best_match(self.validator.iter_errors(result))
                self.assertIsNone(error, error and f"{error.json_path}: {error.message}")

    def test_names_every_key_that_is_written(self):
        for name, result in self.results.items():
            with self.subTest(name):
                error = jsonschema.exceptions.best_match(self.closed.iter_errors(result))
                self.assertIsNone(error, error and f"{error.json_path}: {error.message}")

    def test_stands_on_the_page_key_by_key(self):
        page = (ROOT / "docs/results.md").read_text(encoding="utf-8")
        self.assertEqual(sorted(key for key in keys(SCHEMA) if f"`{key}`" not in page), [])

    def test_meets_every_verdict(self):
        verdicts = {r["verdict"] for r in self.results.values() if r["command"] == "check"}
        self.assertEqual(verdicts, {"in", "out", "undecided", "contradiction"})

    def test_allows_a_key_more(self):
        for result in self.results.values():
            self.validator.validate({**result, "of a later version": [1]})

    def test_refuses_what_is_spoiled(self):
        seen = set()
        for name, whole in self.results.items():
            result = shortened(whole)
            self.assertTrue(self.validator.is_valid(result), name)
            for way, pattern in list(places(result)):
                if (result["command"], pattern) in seen or "values" in pattern[:-1]:
                    continue
                value = parent(result, way)[way[-1]]
                if value is None:
                    continue
                seen.add((result["command"], pattern))
                for other in spoiled(value):
                    broken = copy.deepcopy(result)
                    parent(broken, way)[way[-1]] = other
                    self.assertFalse(self.validator.is_valid(broken), f"{name}: {pattern} = {other!r}")
        self.assertGreater(len(seen), 150)

    def test_refuses_what_lacks_a_key(self):
        optional = {("layout", "sighted"), ("carry", "joints"), ("carry", "shown"), ("carry", "what_if")}
        for name in ("layout 5", "carry 4", "tapes", "check, in", "check, misread", "tapes, sides alone", "start"):
            result = self.results[name]
            for key in result:
                if (result["command"], key) in optional or (name, key) == ("tapes, sides alone", "tape_next"):
                    continue
                self.assertFalse(self.validator.is_valid({k: v for k, v in result.items() if k != key}),
                                 f"{name}: {key}")
        check = self.results["check, misread"]
        for way in (("adjustment", "redundancy"), ("corners", 0, "verdict"), ("readings", 0, "residual"),
                    ("moves", 0, "tapes"), ("suspects", 0, "causes", 0, "what"), ("placement", "turn")):
            broken = copy.deepcopy(check)
            del parent(broken, way)[way[-1]]
            self.assertFalse(self.validator.is_valid(broken), way)

    def test_refuses_words_it_does_not_know(self):
        check = self.results["check, out"]
        for way, word in ((("verdict",), "maybe"), (("corners", 0, "verdict"), "OUT"), (("units",), "mm"),
                          (("command",), "checks"), (("adjustment", "status"), "fine"), (("stakewright",), "new")):
            broken = copy.deepcopy(check)
            parent(broken, way)[way[-1]] = word
            self.assertFalse(self.validator.is_valid(broken), way)


if __name__ == "__main__":
    ask = argparse.ArgumentParser()
    ask.add_argument("--command", default=str(COMMAND))
    options, rest = ask.parse_known_args()
    COMMAND = pathlib.Path(options.command)
    unittest.main(argv=[sys.argv[0], *rest])
