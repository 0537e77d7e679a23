"""The built command's report in Spanish: nothing of it stays English, no figure changes.

Jobs of 3 to 24 sides, in metric and in feet and inches, with every verdict and every section.
"""

import argparse
import collections
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import test_results_schema as jobs  # noqa: E402: jobs and readings to run the commands on

ROOT = pathlib.Path(__file__).resolve().parents[2]
COMMAND = ROOT / ".build/release/bin/stakewright"

# What the command says when a phrase is lacking.
LACKING = "inglés, por falt"
# Words of the English report that are no Spanish words, units or names used here.
ENGLISH = re.compile(
    r"\b(the|and|of|is|are|in|out|hold|pull|pulls|stake|stakes|corner|corners|from|with|off|left|right|"
    r"length|reading|readings|tape|what|which|where|each|cannot|not|yet|cut|cuts|planned|found)\b",
    re.IGNORECASE)

FEET = """title = "Refugio del huerto"
units = "feet-inches"
[plan]
sides = {sides}
corner_radius = "9ft 3in"
[roof]
pitch = "8/12"
overhang = "1ft"
"""


def feet_job(sides, rest=""):
    return FEET.format(sides=sides) + rest


def feet_readings(sides, **changes):
    return jobs.readings(sides, radius=9.25 * 0.3048, **changes)


def cases():
    """Name, arguments and files of every report that is read through."""
    for sides in (3, 5, 6, 8, 12, 24):
        for units, job in (("m", jobs.job(sides)), ("feet", feet_job(sides))):
            yield f"layout, {sides} sides, {units}", ["layout", "job.toml"], {"job.toml": job}
    for sides in (3, 5, 8):
        yield f"carry, {sides} sides", ["carry", "job.toml"], {"job.toml": feet_job(sides)}
        yield f"tapes, {sides} sides", ["tapes", "job.toml"], {"job.toml": feet_job(sides)}
    yield "layout with all", ["layout", "job.toml"], {"job.toml": jobs.job(6, jobs.EVERYTHING + jobs.ROOF)}
    yield ("layout, one line across", ["layout", "job.toml"],
           {"job.toml": jobs.job(6, '[site]\n[[site.keep_clear]]\nname = "fence"\n'
                                    'of = [[-10, -10], [10, -10], [10, 4.2], [-10, 4.2]]\n[lines]\ndig = 1\n')})
    yield "tapes at most", ["tapes", "job.toml", "--at-most", "6"], {"job.toml": jobs.job(6)}
    yield from checks()
    yield from rounds_and_angles()
    yield from of_the_docs()


def checks():
    found = {
        "in": jobs.readings(6),
        "out": jobs.readings(6, out=("D", 0.03)),
        "misread": jobs.readings(6, out=("D", 0.03), slip=("BE", -0.3048)),
        "undecided": jobs.readings(6, out=("D", 0.0062)),
        "contradiction": jobs.readings(6, most_skip=1, slip=("AB", 0.2)),
        "all long": jobs.readings(6, radius=4.03),
        "another job": jobs.readings(6, radius=5.0),
        "sides alone": "from,to,reading\nA,B,4m\nB,C,4m\nC,D,4m\nD,E,4m\nE,F,4m\nF,A,4m\n",
        "read twice": jobs.readings(6) + "A,C,6.99m\n",
        "one reading": "from,to,reading\nA,B,4m\n",
        "nothing read": "from,to,reading\nA,B,\n",
        "no rows": "from,to,reading\n",
        "by laser": "from,to,reading,instrument\n" + "\n".join(
            f"{row},laser" for row in jobs.readings(6, slip=("AD", 0.05)).splitlines()[1:]) + "\n",
    }
    for name, text in found.items():
        files = {"job.toml": jobs.job(6), "readings.csv": text}
        for command in ("check", "tapes", "carry"):
            yield f"{command}, {name}", [command, "job.toml", "readings.csv"], files
    for sides in (3, 5, 8, 12):
        files = {"job.toml": feet_job(sides, '[site]\nhold = ["A", "B"]\n'),
                 "readings.csv": feet_readings(sides, out=("C", 0.05), slip=("AC", 0.3048), most_skip=3)}
        for command in ("check", "carry"):
            yield f"{command}, {sides} sides", [command, "job.toml", "readings.csv"], files
    many = {"job.toml": jobs.job(24), "readings.csv": jobs.readings(24, out=("D", 0.05), most_skip=2)}
    yield "check, 24 sides", ["check", "job.toml", "readings.csv"], many


def rounds_and_angles():
    for name, second in {"moved": jobs.readings(6, out=("D", 0.03)), "still": jobs.readings(6),
                         "not compared": "from,to,reading\nA,B,4m\n"}.items():
        files = {"job.toml": jobs.job(6), "readings.csv": jobs.rounds(jobs.readings(6), second)}
        yield f"check since, {name}", ["check", "job.toml", "readings.csv", "--since", "1"], files
    for name, slip in {"true": 0, "misread": 1}.items():
        files = {"job.toml": jobs.job(6), "readings.csv": jobs.with_angles(jobs.readings(6), slip)}
        yield f"check, angles {name}", ["check", "job.toml", "readings.csv"], files


def of_the_docs():
    """The walkthrough and the stories."""
    for job in sorted((ROOT / "docs").glob("*/*.toml")) + sorted((ROOT / "docs").glob("*/*/job.toml")):
        readings = job.with_name("readings.csv") if job.name == "job.toml" else job.with_suffix(".csv")
        files = {"job.toml": job.read_text(encoding="utf-8"), "readings.csv": readings.read_text(encoding="utf-8")}
        name = f"{job.parent.name}/{job.stem}"
        yield f"layout, {name}", ["layout", "job.toml"], files
        yield f"check, {name}", ["check", "job.toml", "readings.csv"], files
        if "[roof]" in files["job.toml"]:
            yield f"carry, {name}", ["carry", "job.toml", "readings.csv"], files


class Site:
    """A folder with files, in which the command runs."""

    def __init__(self, files):
        self.folder = tempfile.TemporaryDirectory()
        self.path = pathlib.Path(self.folder.name)
        for name, text in files.items():
            (self.path / name).parent.mkdir(parents=True, exist_ok=True)
            (self.path / name).write_text(text, encoding="utf-8")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.folder.cleanup()

    def run(self, *arguments):
        return subprocess.run([str(COMMAND), *arguments], cwd=self.path, capture_output=True, text=True, timeout=60)


def widest(text):
    return max(len(line) for line in text.splitlines())


def figures(text):
    return collections.Counter(re.findall(r"\d+", text))


class Spanish(unittest.TestCase):
    def test_says_everything_and_changes_no_figure(self):
        names = set()
        for name, arguments, files in cases():
            names.add(name)
            with self.subTest(name), Site(files) as site:
                english = site.run(*arguments)
                spanish = site.run(*arguments, "--language", "es")
                self.assertNotIn(LACKING, spanish.stderr.replace("\n", " "))
                self.assertEqual(spanish.returncode, english.returncode, spanish.stderr)
                self.assertNotEqual(english.returncode, 2, english.stderr)
                self.assertEqual(figures(spanish.stdout), figures(english.stdout))
                self.assertEqual(figures(spanish.stderr), figures(english.stderr))
                title, own = (spanish.stdout + spanish.stderr).split("\n", 1)
                self.assertTrue(english.stdout.startswith(title + "\n"))
                self.assertEqual(ENGLISH.findall(own), [])
                self.assertLessEqual(widest(spanish.stdout), max(100, widest(english.stdout)) + 12)
        self.assertGreater(len(names), 80)

    def test_leaves_json_as_it_is(self):
        files = {"job.toml": jobs.job(6), "readings.csv": jobs.readings(6, out=("D", 0.03))}
        with Site(files) as site:
            for arguments in (["layout", "job.toml"], ["tapes", "job.toml"], ["check", "job.toml", "readings.csv"],
                              ["carry", "job.toml", "readings.csv"]):
                english = site.run(*arguments, "--json")
                spanish = site.run(*arguments, "--json", "--language", "es")
                self.assertEqual(spanish.stdout, english.stdout)
                self.assertEqual((spanish.returncode, spanish.stderr), (english.returncode, english.stderr))

    def test_keeps_names_of_the_job(self):
        rest = '[site]\n[[site.pin]]\nname = "side. Of the road"\nat = [-9, -9]\n[lines]\n"the dig and all" = 0.4\n'
        job = jobs.job(6, rest).replace('"Schema"', '"Readings. And the side"')
        with Site({"job.toml": job}) as site:
            run = site.run("layout", "job.toml", "--language", "es")
            self.assertEqual(run.returncode, 0, run.stderr)
            self.assertTrue(run.stdout.startswith("Readings. And the side\n"), run.stdout)
            self.assertIn("  side. Of the road  ", run.stdout)
            self.assertIn("  the dig and all  ", run.stdout)


class OwnWords(unittest.TestCase):
    def layout(self, phrases, language="es", *more):
        files = {"job.toml": jobs.job(6), f"words/report/{language}.toml": phrases}
        with Site(files) as site:
            run = site.run("layout", "job.toml", "--language", language, "--forms", "words", *more)
            self.assertFalse((site.path / "out.json").exists() and run.returncode == 2)
            return run

    def test_go_before_those_built_in(self):
        run = self.layout('[phrases]\n"perimeter" = "vuelta completa"\n')
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertIn("vuelta completa", run.stdout)
        self.assertIn("radio a la esquina", run.stdout)
        self.assertNotIn(LACKING, run.stderr)

    def test_of_a_new_language_leave_the_rest_in_english_and_say_so(self):
        run = self.layout('[phrases]\n"perimeter" = "omkrets"\n', "sv")
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertIn("omkrets", run.stdout)
        self.assertIn("corner radius", run.stdout)
        self.assertRegex(run.stderr, r"[0-9]+ phrases of the report stand in English, having no words in sv; the first: ")

    def test_that_cannot_be_read_are_refused_by_file_and_line(self):
        for phrases, said in {
                '[phrases]\n"side" = "lado"\n"{} of {}" = "{} de"\n': r"line 3: phrase .*the same 2 holes",
                '[phrases]\n"side" = "lado {}"\n': r"line 2: phrase .*the same 0 holes",
                '[phrases]\n"side" = "lado\n': r"line 2",
                '[phrases]\n"side" = 3\n': r"line 2: read .*accepted: text on one line",
                '[phrases]\n"side" = ""\n': r"line 2: read .*accepted: text on one line",
                '[phrases]\n"side" = "' + "x" * 601 + '"\n': r"line 2: read .*1 to 600 characters",
                '[phrases]\n"' + "x" * 700 + '" = "y"\n': r"line 2: .*1 to 600 characters",
                '[phrases]\n"side" = "a\\u001b[31m"\n': r"line 2: read .*accepted: text on one line",
                '[words]\n"side" = "lado"\n': r"line 2: read \"words.side\"; accepted: one table \[phrases\]",
                'side = "lado"\n': r"line 1: read \"side\"; accepted: one table \[phrases\]",
                '[phrases]\n"side" = "lado"\n"side" = "costado"\n': r"line 3",
        }.items():
            with self.subTest(phrases[:60]):
                run = self.layout(phrases, "es", "-o", "out.json")
                self.assertEqual(run.returncode, 2, run.stdout)
                self.assertEqual(run.stdout, "")
                self.assertRegex(run.stderr, r"words/report/es\.toml.*" + said)

    def test_of_no_such_language_are_refused(self):
        with Site({"job.toml": jobs.job(6), "readings.csv": jobs.readings(6)}) as site:
            for command in (["layout"], ["tapes"], ["check"], ["carry"]):
                readings = [] if command == ["layout"] else ["readings.csv"]
                run = site.run(*command, "job.toml", *readings, "--language", "xx", "-o", "out.json")
                self.assertEqual(run.returncode, 2)
                self.assertEqual(run.stdout, "")
                self.assertRegex(run.stderr, r"--language: read \"xx\"; accepted: en, es, or a language")
                self.assertFalse((site.path / "out.json").exists())


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--command", type=pathlib.Path, default=COMMAND)
    arguments, rest = parser.parse_known_args()
    COMMAND = arguments.command.resolve()
    unittest.main(argv=[sys.argv[0], *rest], verbosity=2)
