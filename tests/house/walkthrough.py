"""Keeps the output shown in our pages the same as what the command prints.

A block that begins with ```console and a line `$ stakewright …` is run in
the folder given below; what follows must be what the command prints, stdout then
stderr.  `--write` puts the real output into the page.
"""

import argparse
import re
import shlex
import subprocess
import sys
import tempfile

from house import ROOT

# Each page, and the folder in which its commands run.
PAGES = {
    "docs/walkthrough/README.md": "docs/walkthrough",
    "docs/stories/README.md": "docs/stories",
    "docs/stories/pour-or-move.md": "docs/stories",
    "README.md": "docs/walkthrough",
}
BLOCK = re.compile(r"```console\n\$ stakewright ([^\n]*)\n(.*?)```", re.S)


def output(command, words, folder, scratch):
    run = subprocess.run([command, *[w.replace("RESULTS", scratch) for w in shlex.split(words)]],
                         cwd=ROOT / folder, capture_output=True, text=True, timeout=60)
    if run.returncode == 2:
        raise SystemExit(f"stakewright {words}: {run.stderr}")
    return (run.stdout + run.stderr).replace(scratch, "RESULTS")


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("--command", default=str(ROOT / ".build/release/bin/stakewright"))
    ask.add_argument("--write", action="store_true", help="put the real output into the pages")
    options = ask.parse_args()
    blocks, stale = 0, []
    with tempfile.TemporaryDirectory() as scratch:
        for name, folder in PAGES.items():
            page = ROOT / name
            text = page.read_text(encoding="utf-8")

            def fresh(match, folder=folder):
                return f"```console\n$ stakewright {match[1]}\n{output(options.command, match[1], folder, scratch)}```"

            blocks += len(BLOCK.findall(text))
            new = BLOCK.sub(fresh, text)
            if new != text:
                stale.append(name)
                if options.write:
                    page.write_text(new, encoding="utf-8")
    if options.write:
        print(f"{blocks} blocks, rewritten: {stale or 'none'}")
    elif stale or not blocks:
        sys.exit(f"{blocks} blocks; output differs in {stale}: python3 tests/house/walkthrough.py --write")


if __name__ == "__main__":
    main()
