"""Drawings and forms of the built command, read back: their figures are those of the JSON of the same options.

A PDF is read by pdftotext, an SVG (its letters are outlines) by its description in words.
"""

import argparse
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
COMMAND = ROOT / ".build/release/bin/stakewright"

DEMO = "docs/walkthrough/hexagon/job.toml docs/walkthrough/hexagon/readings.csv"
OCTAGON = "docs/walkthrough/octagon/job.toml docs/walkthrough/octagon/readings.csv"
SITES = "tests/golden/sites/"


def of_site(name, readings="readings", job="job"):
    return f"{SITES}{name}/{job}.toml {SITES}{name}/{readings}.csv"


def of_story(name):
    return f"docs/stories/{name}.toml docs/stories/{name}.csv"


# ---- Lengths as they are shown.

FEET = re.compile(r"""([+−]?)(?:(\d+)' )?(?:(\d+)(?:-(\d+)/(\d+))?|(\d+)/(\d+))\"""")
METRIC = re.compile(r"([+−]?)(\d+(?:\.(\d+))?) (mm|m)")
LENGTH = r"""[+−]?(?:(?:\d+' )?(?:\d+(?:-\d+/\d+)?|\d+/\d+)"|\d+(?:\.\d+)? mm?\b)"""
INCH = 0.0254


def read_length(text):
    """Meters of a shown length, and half a step of what it was rounded to: the coarsest that a carpenter reads."""
    if found := FEET.fullmatch(text):
        sign, feet, inches, top, bottom, top_alone, bottom_alone = found.groups()
        fraction = int(top or top_alone or 0) / int(bottom or bottom_alone or 1)
        value, half = (12 * int(feet or 0) + int(inches or 0) + fraction) * INCH, INCH / 32
    else:
        sign, number, decimals, unit = METRIC.fullmatch(text).groups()
        meters = {"mm": 0.001, "m": 1.0}[unit]
        value, half = float(number) * meters, 0.5 * meters * 10.0 ** -len(decimals or "")
    return (-value if sign == "−" else value), half


# ---- Running and reading.

def run(words):
    done = subprocess.run([COMMAND, *words], cwd=ROOT, capture_output=True, text=True, timeout=120)
    if done.returncode not in (0, 1, 3):
        raise AssertionError(done.stderr)
    return done.stdout


def result(words):
    return json.loads(run([*words, "--json"]))


def drawn(words, ending="pdf"):
    """JSON of a command, and the text of each page of what it draws in the same run."""
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / f"out.{ending}"
        found = json.loads(run([*words, "--json", "-o", file]))
        if ending == "svg":
            return found, re.search(r"<desc>(.*?)</desc>", file.read_text(encoding="utf-8"), re.DOTALL)[1]
        text = subprocess.run(["pdftotext", "-raw", file, "-"], capture_output=True, text=True, check=True).stdout
        return found, text.split("\f")


def rows(pattern, text):
    return re.findall(f"^{pattern}$", text, re.MULTILINE)


class Drawings(unittest.TestCase):
    def is_shown(self, text, value, what):
        shown, half = read_length(text)
        self.assertLessEqual(abs(shown - value), half + 1e-9, f"{what}: shown {text}, which is {shown}; JSON {value}")


# ---- The roof and its pieces.

def line_of(part):
    """What is cut: the pattern where it fits."""
    return part["found"] if part.get("cut") == "own" else part["planned"]


RAFTER = {"line, plate to peak": line_of, "line": line_of,
          "less shortening": lambda part: part["shortening"], "shortening": lambda part: part["shortening"],
          "and tail": lambda part: part["tail"], "tail": lambda part: part["tail"],
          "overall": lambda part: part["overall"]}
FASCIA = {"fascia line": line_of, "long points": lambda part: part["overall"],
          "long point to long point": lambda part: part["overall"]}


class Roof(Drawings):
    """A test for each job and way of carry: what is drawn of it is what the JSON of that way says."""

    def piece(self, words, kind, at):
        words = [*words, "--drawing", f"{kind} {at}"]
        rows_of_kind = FASCIA if kind == "fascia" else RAFTER
        found, pages = drawn(words)
        part = next(p for p in found["parts"] if (p["part"], p["at"]) == (kind, at))
        shown = rows(f"({'|'.join(rows_of_kind)}) ({LENGTH})", pages[0])
        self.assertIn("long points" if kind == "fascia" else "overall", [name for name, _ in shown])
        for name, figure in shown:
            self.is_shown(figure, rows_of_kind[name](part), f"{kind} {at}, {name}")
        if "found" in part:
            self.assertEqual("its own cut" in pages[0], part["cut"] == "own", f"{kind} {at}")
        self.description(drawn(words, "svg")[1], part)

    def description(self, said, part):
        if part["part"] == "fascia":
            figures = re.search(f"Fascia line ({LENGTH}), long point to long point ({LENGTH})", said).groups()
            values = line_of(part), part["overall"]
        else:
            figures = re.search(f"Line ({LENGTH}), shortening ({LENGTH}), tail ({LENGTH}), overall ({LENGTH})",
                                said).groups()
            values = line_of(part), part["shortening"], part["tail"], part["overall"]
        for figure, value in zip(figures, values):
            self.is_shown(figure, value, f"{part['part']} {part['at']}, in words")

    def roof(self, words):
        """The list on the roof's plan and the lists on the patterns."""
        found, pages = drawn(words)
        lists = rows(rf"(hip|common|jack|fascia|beam|post)( \d+)? (\d+) of (\d+) ({LENGTH}) ({LENGTH})", pages[0])
        self.assertTrue(lists)
        for kind, number, own, count, planned, most in lists:
            parts = [p for p in found["parts"] if p["part"] == kind and (not number or p["at"].endswith(number))]
            self.assertEqual((int(own), int(count)), (sum(p.get("cut") == "own" for p in parts), len(parts)), kind)
            self.is_shown(planned, parts[0]["planned"], f"{kind}{number}, planned")
            worst = max(parts, key=lambda p: abs(p.get("difference", 0.0)))
            self.is_shown(most, worst.get("difference", 0.0), f"{kind}{number}, off most")
        planned = result([*words[:2], *(["--units", words[-1]] if "--units" in words else [])])
        for page in pages[1:]:
            if title := re.match("Common|Hip|Jack|Fascia", page):
                self.pattern(page, title[0].lower(), found, planned)

    def pattern(self, page, kind, found, planned):
        parts = {p["at"]: p for p in found["parts"] if p["part"] == kind}
        first = next(p for p in planned["parts"] if p["part"] == kind)
        rows_of_kind = FASCIA if kind == "fascia" else RAFTER
        for name, figure in rows(f"({'|'.join(rows_of_kind)}) ({LENGTH})", page):
            self.is_shown(figure, rows_of_kind[name](first), f"pattern of {kind}, {name}")
        for number, count, figure in rows(rf"jack (\d+), (\d+) of it ({LENGTH})", page):
            alike = [p for p in planned["parts"] if p["part"] == kind and p["at"].endswith(f" {number}")]
            self.assertEqual(int(count), len(alike))
            self.is_shown(figure, alike[0]["overall"], f"jack {number}")
        if own := re.search(r"^(\d+) to their own length, overall$", page, re.MULTILINE):
            self.assertEqual(int(own[1]), sum(p["cut"] == "own" for p in parts.values()), kind)
            for at, figure in rows(rf"([A-Z-]+(?: (?:left|right) \d+)?) ({LENGTH})", page[own.end():]):
                self.is_shown(figure, parts[at]["overall"], f"{kind} {at} of its own length")


# Jobs, the ways of carry they are drawn in, and the pieces drawn one by one.
CARRIED = {
    "hexagon_demo": (DEMO, ("--leave", "--after-moves"), ("hip D", "common C-D", "jack C-D left 1", "fascia C-D")),
    "octagon_demo": (OCTAGON, ("--leave", "--after-moves"), ("hip F", "jack F-G right 2")),
    "pentagon": (of_site("pentagon"), ("--leave", "--after-moves", "--with-play"),
                 ("hip C", "common B-C", "fascia C-D")),
    "two_out": (of_site("hexagon", "two-out"), ("--leave", "--after-moves", "--with-play"), ("hip B", "fascia A-B")),
    "triangle": (of_site("triangle"), ("--leave", "--after-moves"), ("hip C", "common B-C")),
    "round_before": (of_site("hexagon", "rounds"), ("--round=before the dig",), ("hip D", "fascia D-E")),
    "round_latest": (of_site("hexagon", "rounds"), ("--leave", "--after-moves"), ("hip D", "fascia D-E")),
    "in_millimeters": (DEMO, ("--units=mm",), ("hip D",)),
}


def roof_tests():
    for name, (files, ways, pieces) in CARRIED.items():
        for way in ways:
            words = ["carry", *files.split(), *way.split("=")]

            def test(self, words=words, pieces=pieces):
                for piece in pieces:
                    with self.subTest(piece):
                        self.piece(words, *piece.split(" ", 1))
                with self.subTest("roof"):
                    self.roof(words)
            setattr(Roof, f"test_{name}{way.replace('=', '_').replace('-', '_').replace(' ', '_')}", test)


class PlannedRoof(Drawings):
    def test_lists_its_pieces(self):
        for files in (DEMO.split()[0], f"{SITES}roofs/pentagon-hub.toml", f"{SITES}roofs/square-even-plumb.toml"):
            found, pages = drawn(["carry", files])
            lists = rows(rf"(hip|common|jack|fascia|beam|post)( \d+)? (\d+) ({LENGTH})(?: ({LENGTH}))?", pages[0])
            self.assertTrue(lists)
            for kind, number, count, line, overall in lists:
                with self.subTest(f"{files}, {kind}{number}"):
                    parts = [p for p in found["parts"] if p["part"] == kind and p["at"].endswith(number)]
                    self.assertEqual(int(count), len(parts))
                    self.is_shown(line, parts[0]["planned"], "line")
                    if overall:
                        self.is_shown(overall, parts[0]["overall"], "overall")


# ---- What was found.

VERDICTS = {"in": "in", "OUT": "out", "cannot tell": "undecided", "?": "undecided"}
ALONG = {"": 0, "outward": 1, "inward": -1, "clockwise": 1, "counterclockwise": -1}


class Found(Drawings):
    def corners(self, files, *more):
        found, pages = drawn(["check", *files.split(), *more])
        corners = {c["label"]: c for c in found["corners"]}
        table = rows(rf"([A-Z]+) ({LENGTH})(?: (outward|inward))? ({LENGTH})(?: (clockwise|counterclockwise))? "
                     rf"(in|OUT|cannot tell|\?)", pages[0])
        for label, out, out_word, side, side_word, verdict in table:
            corner = corners.pop(label)
            for figure, word, key in ((out, out_word, "outward"), (side, side_word, "sideways")):
                sign = -1 if ALONG[word] < 0 else 1
                self.is_shown(figure, sign * corner[key], f"{label} {key}")
            self.assertEqual(VERDICTS[verdict], corner["verdict"], label)
        for label in rows("([A-Z]+) not fixed", pages[0]):
            self.assertIsNone(corners.pop(label)["x"], label)
        self.assertEqual(list(corners), [])
        shown = [int(n) for n in re.findall(r"^\d (\d+) %:", pages[0], re.MULTILINE)]
        chances = [round(100 * s["chance"]) for s in found["suspects"] if s["causes"] is not None]
        self.assertEqual(shown, chances[:len(shown)])

    def test_corners_are_as_in_the_json(self):
        for files in (DEMO, OCTAGON, of_story("two-tapes"), of_site("hexagon", "two-out"), of_site("heptagon"),
                      of_site("hexagon", "sides-alone"), of_site("hexagon", "undecided"), of_site("forty-eight"),
                      of_site("hexagon", "stakes", "stakes")):
            with self.subTest(files):
                self.corners(files)
        self.corners(of_site("hexagon", "rounds"), "--round", "before the dig")
        self.corners(DEMO, "--units", "mm")


# ---- The correction sheet.

class CorrectionSheet(Drawings):
    """form JOB READINGS against check JOB READINGS."""

    JOBS = (DEMO, OCTAGON, of_story("two-tapes"), of_story("worn-hook"), of_story("stake-and-tapes"),
            of_story("pour-as-it-is"), of_site("hexagon", "sides-alone"), of_site("hexagon", "undecided"),
            of_site("hexagon", "two-out"), of_site("hexagon", "tapes-and-rods"), of_site("hexagon", "stakes", "stakes"),
            of_site("hexagon", "some-not-read"), of_site("instruments"), of_site("heptagon"), of_site("forty-eight"))

    def sheet(self, files, *more):
        words = [*files.split(), *more]
        return result(["check", *words]), drawn(["form", *words])[1]

    def moves_on(self, text):
        """Moves in the order of the sheet: stake, outward or inward, sideways, and its pulls."""
        text = re.sub(r"\n(?=(?:and|inward|outward|clockwise|counterclockwise)\b)|(?<= and)\n", " ", text)  # wrapped
        way = re.compile(rf"^([A-Z]{{1,2}}) (?:({LENGTH}) (outward|inward))?(?: and )?"
                         rf"(?:({LENGTH}) (clockwise|counterclockwise))?$", re.MULTILINE)
        found = [m for m in way.finditer(text) if m[2] or m[4]]
        ends = [m.start() for m in found[1:]] + [len(text)]
        return [(m.groups(), rows(rf"(.+?) ({LENGTH}) (?:ft|mm|m) .*", text[m.end():end]))
                for m, end in zip(found, ends)]

    def test_moves_are_those_of_the_json(self):
        for files in self.JOBS:
            with self.subTest(files):
                found, pages = self.sheet(files)
                shown = self.moves_on("\n".join(pages))
                self.assertEqual([words[0] for words, _ in shown], [m["stake"] for m in found["moves"]])
                for (words, pulls), move in zip(shown, found["moves"]):
                    _, out, way, side, hand = words
                    if out:
                        self.is_shown(out, {"outward": 1, "inward": -1}[way] * move["outward"], "outward")
                    if side:
                        self.is_shown(side, {"clockwise": 1, "counterclockwise": -1}[hand] * move["sideways"],
                                      "sideways")
                    self.assertEqual([hold for hold, _ in pulls], [tape["from"] for tape in move["tapes"]])
                    for (_, figure), tape in zip(pulls, move["tapes"]):
                        self.is_shown(figure, tape["length"], f"pull from {tape['from']}")

    def labels(self, word, text):
        listed = re.search(rf"^{word}: ([A-Z, \n]+)$", text, re.MULTILINE)
        return re.findall(r"\b[A-Z]{1,2}\b", listed[1]) if listed else []

    def test_corners_are_in_out_or_not_clear_as_in_the_json(self):
        for files in self.JOBS:
            with self.subTest(files):
                found, pages = self.sheet(files)
                for word, verdict in (("In", "in"), ("Out", "out"), ("Not clear", "undecided")):
                    wanted = [c["label"] for c in found["corners"] if c["verdict"] == verdict]
                    self.assertEqual(self.labels(word, pages[0]), wanted, word)

    DOUBT = re.compile(r"(?:The (?:tape|laser reading|angle) \S+ reads|Something is misread, and|Likeliest cause)"
                       r".*?\.(?= [A-Z(]| *$)")

    def doubts(self, text):
        """Sentences on what was left out and on what is in doubt."""
        return set(self.DOUBT.findall(re.sub(r"\s+", " ", text)))

    def test_says_of_readings_in_doubt_what_the_report_says(self):
        for files in (*self.JOBS, of_site("pentagon", "angle-at-center-misread"), of_site("hexagon", "wrong-stake"),
                      of_site("hexagon", "all-by-laser"), of_site("dodecagon")):
            with self.subTest(files):
                report = run(["check", *files.split()])
                opening = "\n\n".join(report.split("\n\n")[:2])  # title, and what is said first
                found, pages = self.sheet(files)
                sheet = pages[0][:pages[0].find("Moves")].partition("Pull these tapes")[0]
                self.assertEqual(self.doubts(sheet), self.doubts(opening))
                named = re.findall(r"The (?:tape|laser reading|angle) (\S+) reads", re.sub(r"\s+", " ", sheet))
                if found["verdict"] != "contradiction":
                    self.assertEqual(set(named), {self.name(r) for r in found["readings"] if r["excluded"]})

    @staticmethod
    def name(reading):
        ends = [reading["from"], reading["at"], reading["to"]]
        return "–".join(end for end in ends if end)

    def test_calls_no_reading_misread_where_the_check_cannot_tell_which(self):
        for files, likeliest in ((of_story("two-tapes"), "A–C"), (of_story("worn-hook"), "hook")):
            found, pages = self.sheet(files)
            self.assertEqual(found["verdict"], "contradiction")
            self.assertNotIn("was left out", pages[0], files)
            cause = re.search(r"Likeliest cause \(\d+ %\): (.*?)\.", re.sub(r"\s+", " ", pages[0]))
            self.assertIn(likeliest, cause[1])

    def test_gives_a_move_the_figures_of_the_report(self):
        for files in (DEMO, of_site("hexagon", "two-out")):
            report = run(["check", *files.split()])
            moves = report[report.index("Moves, in working order"):report.index("\nReadings\n")]
            for (_, out, way, side, hand), pulls in self.moves_on("\n".join(self.sheet(files)[1])):
                for words in (f"{out} {way}", f"{side} {hand}", *(pull for _, pull in pulls)):
                    if not words.startswith("None"):
                        self.assertRegex(moves, rf"(?<![\d/-]){re.escape(words)}", files)

    def test_pulls_are_those_of_the_json(self):
        for files in (of_site("hexagon", "sides-alone"), of_site("hexagon", "some-not-read"),
                      of_site("hexagon", "undecided"), of_site("hexagon", "one-reading"),
                      of_site("square", "diagonals")):
            with self.subTest(files):
                found, pages = self.sheet(files)
                asked = found["tape_next"] + [p for loose in found["adjustment"]["loose"] for p in loose["would_fix"]]
                pulls = "\n".join(pages).partition("Pull these tapes")[2]
                shown = rows(r"([A-Z]+) ([A-Z]+)\*? (?:ft|mm|m)\b.*", pulls)
                self.assertEqual({frozenset(p) for p in shown}, {frozenset((p["from"], p["to"])) for p in asked})

    def test_is_of_the_round_that_is_named(self):
        for more in ([], ["--round", "before the dig"]):
            found, pages = self.sheet(of_site("hexagon", "rounds"), *more)
            out = [c["label"] for c in found["corners"] if c["verdict"] == "out"]
            self.assertEqual(self.labels("Out", pages[0]), out)


# ---- The plan and the field form.

class Plan(Drawings):
    JOBS = (DEMO.split()[0], OCTAGON.split()[0], f"{SITES}triangle/job.toml", f"{SITES}pentagon/job.toml",
            f"{SITES}hexagon/stakes.toml", f"{SITES}dodecagon/job.toml")

    def key(self, found, page):
        shown = dict(rows(f"(side|corner radius|flat radius) ({LENGTH})", page))
        self.assertEqual(len(shown), 3)
        for name, figure in shown.items():
            self.is_shown(figure, found["plan"][name.replace(" ", "_")], name)
        for line in found["lines"]:
            if line["name"] == "plan line":
                continue
            out = re.search(rf"^{line['name'].replace('_', ' ')} ({LENGTH}) (out|in)$", page, re.MULTILINE)
            self.is_shown(out[1], line["offset"] * (1 if out[2] == "out" else -1), line["name"])

    def test_has_the_lengths_of_the_json(self):
        for job in self.JOBS:
            with self.subTest(job):
                found, pages = drawn(["layout", job])
                self.key(found, pages[0])

    def test_of_the_form_has_them_too_and_so_have_its_swings_and_planned_tapes(self):
        for job in self.JOBS:
            with self.subTest(job):
                found = result(["layout", job])
                pages = drawn(["form", job, "--show-planned"])[1]
                self.key(found, pages[0])
                self.swings(found, "\n".join(pages))
                self.planned(found, result(["tapes", job]), "\n".join(pages))

    def swings(self, found, text):
        shown = rows(rf"(\S.*?) ({LENGTH}) (\S.*?) ({LENGTH}) (left|right) (\d+)° ?!?(?: .*)?", text)
        self.assertEqual(len(shown), len(found["swings"]))
        for (first, first_pull, second, second_pull, hand, crossing), swing in zip(shown, found["swings"]):
            holds = swing["from"]
            self.assertEqual([first.split()[-1], second.split()[-1], hand],
                             [holds[0]["label"].split()[-1], holds[1]["label"].split()[-1], swing["hand"]])
            self.is_shown(first_pull, holds[0]["length"], "first pull")
            self.is_shown(second_pull, holds[1]["length"], "second pull")

    def planned(self, layout, tapes, text):
        lengths = {frozenset((t["from"], t["to"])): t["length"] for t in layout["tapes"]}
        hold, shown = None, []
        sheet = text[text.index("Hold Read at"):text.index("\nLaser\n")]
        for at, to, _, figure in rows(rf"(?:([A-Z]+) )?([A-Z]+) (?:(\d+) )?({LENGTH}) (?:ft|mm|m)\b.*", sheet):
            hold = at or hold
            shown.append((hold, to))
            self.is_shown(figure, lengths[frozenset((hold, to))], f"{hold} to {to}")
        self.assertEqual(shown, [(p["from"], p["to"]) for p in tapes["plan"]])


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--command", type=pathlib.Path, default=COMMAND)
    arguments, rest = parser.parse_known_args()
    COMMAND = arguments.command.resolve()
    roof_tests()
    unittest.main(argv=[sys.argv[0], *rest])
