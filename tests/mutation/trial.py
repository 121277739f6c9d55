"""One change on trial: a child of this process, which has everything but our own code imported already."""

import importlib
import os
import resource
import signal
import sys
from pathlib import Path

import pytest

from tests.mutation.copies import ROOT, calm

PATIENCE = 180  # seconds of processor time for some tests, all of which need 60; what hangs has been noticed
WAIT = 900  # seconds by the clock, for what waits for ever
MEMORY = 4 << 30  # bytes; what fills the machine has been noticed
MOST_TESTS = 400
NEAREST = 8  # tests that are run first: most changes are noticed at once
SLOW_TO_IMPORT = (
    "hypothesis",
    "numpy",
    "scipy.optimize",
    "scipy.stats",
    "magpylib",
    "ppigrf",
    "uncertainties",
    "playwright.sync_api",
    "pygeomag",
    "filelock",
    "xdist.plugin",
    "_hypothesis_pytestplugin",
)
OURS = ("exercises", "generator", "tests")


def warm() -> None:
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    for name in SLOW_TO_IMPORT:
        importlib.import_module(name)
    calm()


def begin(folder: Path, tests: list[str]) -> int:
    """The process in which tests are run in a folder; it ends with 0 if all of them pass."""
    child = os.fork()
    if child:
        return child
    code = 1
    try:
        tests = tests[:MOST_TESTS]
        for some in (tests[:NEAREST], tests[NEAREST:]):
            code = apart(folder, some) if some else 0
            if code:
                break
    finally:
        os._exit(code)


def apart(folder: Path, tests: list[str]) -> int:
    child = os.fork()
    if child:
        return 1 if os.waitpid(child, 0)[1] else 0
    code = 1
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, PATIENCE))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        signal.alarm(WAIT)
        code = run(folder, tests)
    finally:
        os._exit(code)


def run(folder: Path, tests: list[str]) -> int:
    os.chdir(folder)
    out = os.open(folder / "out.txt", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    os.dup2(out, 1)
    os.dup2(out, 2)
    sys.path[:] = [str(folder), *(p for p in sys.path if p and Path(p) != ROOT)]
    for name in [n for n in sys.modules if n.partition(".")[0] in OURS]:
        del sys.modules[name]
    sys.dont_write_bytecode = True
    return int(pytest.main(["-n", "0", "-x", "-v", "-rfE", "--tb=no", "-p", "no:cacheprovider", *tests]))


def killer(folder: Path) -> str:
    """The test that failed, or what else went wrong."""
    lines = (folder / "out.txt").read_text(errors="replace").splitlines()
    return next((line for line in lines if line.startswith(("FAILED", "ERROR"))), lines[-1] if lines else "no end")[
        :200
    ]
