#!/usr/bin/env python3
"""Changes the lye engine one token at a time and runs core's tests: none of the changes may survive.

    nice python3 tests/mutation/run_mutants.py [--file lye.cpp] [--sample 20] [--fresh]

Needs python3, ninja and the compiler (mold where there is one). One copy of core and its tests, below
.build/mutation, holds every change and is built once; each change is then one run of the tests. Carries on where
it was stopped; what was killed counts until that file is changed. A survivor needs a test, or a block with its
reason in survivors.txt.
"""

import argparse
import hashlib
import os
import resource
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

from mutants import rewritten

HERE = Path(__file__).resolve().parent
TOP = HERE.parent.parent
ROOM = TOP / ".build" / "mutation"
# What reaches the lye pot, by pattern, so that a new file of these rooms joins by itself.
ENGINE = ["lye*", "recipe*", "batch*", "*pot*", "rescue*", "forgotten*", "quantity*", "scale*", "solubility*",
          "alkali*", "acid*", "addition*", "saponification*", "products*", "superfat*"]
COMMON = ("algorithm array catch2/catch.hpp charconv cmath numeric optional random span stdexcept string "
          "string_view utility vector").split()
NO_ARITHMETIC = 77  # as in schemata.hpp: the change was of text
SECONDS, BYTES = 4, 2 << 30  # the tests take a tenth of a second and a few megabytes


def engine_files():
    found = {path for glob in ENGINE for end in ("hpp", "cpp") for path in TOP.glob(f"core/*/{glob}.{end}")}
    return sorted(str(path.relative_to(TOP)) for path in found)


def put(path, text):
    """Writes only what differs, so that ninja leaves the rest alone."""
    if not path.exists() or path.read_text() != text:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)


class Copy:
    """Core with its tests, the engine's files rewritten."""

    def __init__(self):
        self.room = ROOM / "copy"
        self.mutants = []
        engine, sources = engine_files(), []
        wanted = [*TOP.glob("core/**/*.?pp"), *TOP.glob("tests/core/**/*.?pp"), TOP / "tests/catch_main.cpp"]
        for source in sorted(wanted):
            name, text = str(source.relative_to(TOP)), source.read_text()
            if name in engine:
                own, text = rewritten(name, text, 1 + 2000 * engine.index(name))
                self.mutants += own
            put(self.room / name, text)
            if name.endswith(".cpp"):
                sources.append(name)
        for stale in [*self.room.glob("core/**/*.?pp"), *self.room.glob("tests/core/**/*.?pp")]:
            if TOP / stale.relative_to(self.room) not in wanted:
                stale.unlink()
        put(self.room / "common.hpp", "".join(f"#include <{name}>\n" for name in COMMON)
            + (HERE / "schemata.hpp").read_text().replace("#pragma once", ""))
        put(self.room / "build.ninja", self.ninja(sources))

    def ninja(self, sources):
        compiler = os.environ.get("CXX", "c++")
        link = "-fuse-ld=mold" if shutil.which("mold") else ""
        lines = [
            "flags = -std=c++20 -O1 -DNDEBUG -w -Wno-narrowing -ffp-contract=off -I. -Itests/core/lye"
            f" -isystem /usr/include/eigen3 -DBARWRIGHT_SOURCE_DIR='\"{TOP}\"'",
            f"rule once\n  command = {compiler} $flags -x c++-header $in -o $out",
            f"rule compile\n  command = {compiler} $flags -include common.hpp -MMD -MF $out.d -c $in -o $out\n"
            "  depfile = $out.d\n  deps = gcc",
            # catch_main makes Catch's header a program: the precompiled one, which holds it too, will not do.
            f"rule alone\n  command = {compiler} $flags -c $in -o $out",
            f"rule link\n  command = {compiler} {link} $in -o $out",
            "build common.hpp.gch: once common.hpp",
        ]
        for source in sources:
            rule = "alone" if source == "tests/catch_main.cpp" else "compile"
            lines.append(f"build {source}.o: {rule} {source} | common.hpp.gch")
        lines.append("build tests_core: link " + " ".join(f"{source}.o" for source in sources))
        return "\n".join(lines) + "\n"

    def build(self, jobs):
        done = subprocess.run(["ninja", f"-j{jobs}", "-C", self.room, "tests_core"])
        if done.returncode != 0:
            sys.exit("The copy does not build.")
        if self.verdict(0) != "survived":
            sys.exit("Core's tests do not pass unchanged.")

    def verdict(self, number):
        def limits():
            resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
            resource.setrlimit(resource.RLIMIT_AS, (BYTES, BYTES))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        done = subprocess.run([self.room / "tests_core", "--abort"], stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL, preexec_fn=limits,
                              env={**os.environ, "MUTANT": str(number)})
        return {0: "survived", NO_ARITHMETIC: "text"}.get(done.returncode, "killed")


def hash_of(paths):
    return hashlib.sha256(b"".join(Path(path).read_bytes() for path in sorted(paths))).hexdigest()[:12]


def read_survivors(path):
    """Blocks of: file, source line, one or more changes, 'because: ...'. Returns key -> reason."""
    accepted = {}
    for block in path.read_text().split("\n\n"):
        lines = [line.strip() for line in block.splitlines() if line.strip() and not line.startswith("#")]
        if not lines:
            continue
        split = next((i for i, line in enumerate(lines) if line.startswith("because: ")), None)
        if split is None or split < 3:
            sys.exit(f"{path}: a block needs file, source line, changes and 'because: ...':\n{block}")
        reason = " ".join(lines[split:])
        for change in lines[2:split]:
            accepted[(lines[0], lines[1], change)] = reason
    return accepted


class Results:
    """What is known, one line per mutant, kept from run to run."""

    def __init__(self, fresh):
        self.path = ROOM / "results.tsv"
        self.known = {}
        if fresh or not self.path.exists():
            self.path.write_text("")
        for line in self.path.read_text().splitlines():
            name, at, verdict, *_ = line.split("\t")
            self.known[name] = (at, verdict)
        tests = hash_of(TOP.glob("tests/core/**/*.?pp"))
        self.files = {name: hash_of([TOP / name]) for name in engine_files()}
        self.tests = tests

    def name(self, mutant):
        return f"{mutant.file}:{mutant.line}: {mutant.what}"

    def of(self, mutant):
        at, verdict = self.known.get(self.name(mutant), ("", ""))
        file, tests = (at.split("/") + ["", ""])[:2]
        if file != self.files[mutant.file] or (verdict == "survived" and tests != self.tests):
            return None
        return verdict

    def add(self, mutant, verdict):
        at = f"{self.files[mutant.file]}/{self.tests}"
        self.known[self.name(mutant)] = (at, verdict)
        with self.path.open("a") as out:
            out.write(f"{self.name(mutant)}\t{at}\t{verdict}\n")


def run(copy, mutants, results, jobs):
    todo = [mutant for mutant in mutants if results.of(mutant) is None]
    print(f"{len(mutants)} changes, {len(todo)} to run", flush=True)
    if todo:
        copy.build(jobs)
    for count, mutant in enumerate(todo, 1):
        verdict = copy.verdict(mutant.number)
        results.add(mutant, verdict)
        if verdict == "survived":
            print(f"{mutant.file}:{mutant.line}: {mutant.what}\n    {mutant.source}", flush=True)
        if count % 100 == 0:
            print(f"... {count} of {len(todo)}", flush=True)


def report(mutants, results, accepted, whole):
    """Prints the counts per file, and what is wrong; returns the exit code."""
    counts, unlisted, met = {}, [], set()
    for mutant in mutants:
        verdict = results.of(mutant) or "not run"
        if verdict == "survived":
            if mutant.key() in accepted:
                verdict = "accepted"
                met.add(mutant.key())
            else:
                unlisted.append(mutant)
        counts.setdefault(mutant.file, Counter())[verdict] += 1
    columns = ["killed", "accepted", "survived", "not run", "text"]
    print(f"\n{'':26}" + "".join(f"{name:>12}" for name in columns))
    for file, row in [*sorted(counts.items()), ("all", sum(counts.values(), Counter()))]:
        print(f"{file:26}" + "".join(f"{row[name]:>12}" for name in columns))
    for mutant in unlisted:
        print(f"\nsurvived without a reason: {mutant.file}:{mutant.line}\n  {mutant.source}\n  {mutant.what}")
    stale = [key for key in accepted if whole and key not in met]
    for key in stale:
        print("\nin survivors.txt, but killed, gone or not run:\n  " + "\n  ".join(key))
    return 1 if unlisted or stale else 0


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--file", action="append", default=[], help="only files with this in their name")
    options.add_argument("--sample", type=int, help="only so many mutants of each file, spread evenly")
    options.add_argument("--jobs", type=int, default=2, help="compilers at once")
    options.add_argument("--fresh", action="store_true", help="forget earlier runs")
    asked = options.parse_args()
    ROOM.mkdir(parents=True, exist_ok=True)
    copy = Copy()
    mutants = [each for each in copy.mutants if not asked.file or any(part in each.file for part in asked.file)]
    if asked.sample:
        mutants = [each for file in sorted({each.file for each in mutants})
                   for own in [[each for each in mutants if each.file == file]]
                   for each in own[::max(1, -(-len(own) // asked.sample))]]
    results = Results(asked.fresh)
    run(copy, mutants, results, asked.jobs)
    sys.exit(report(mutants, results, read_survivors(HERE / "survivors.txt"), not (asked.file or asked.sample)))


if __name__ == "__main__":
    main()
