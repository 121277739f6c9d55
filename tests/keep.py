"""What the tests keep and compare with is written by this one command.

    uv run python -m tests.keep [KIND ...] [--edition-anew KIND]

Run it after a kind or an edition was added, or a wording or a rule was changed
on purpose, and read the difference (git diff) before you commit it.  Never run
it to mend a failure that you do not understand.

It writes for the kinds named, or for all and for everything else that is kept:

    golden/KIND.jsonl, golden/edges.json   the numbers that codes stand for: only of a
                                           kind or an edition that has none yet
    golden/written.txt, golden/slips.txt   what a sheet says, and what its slips come to: always
    golden/approved/                       what is said in full, of made-up work: always

--edition-anew KIND writes the numbers of that kind's newest edition again.  Every
code of it that is in use then stands for other numbers, so it is right only
while no code of that edition has been given out.
"""

import argparse
import sys

from exercises.kinds.kind import all_kinds
from tests.exercises import edges, golden


def main(arguments: list[str]) -> None:
    """The command."""
    parser = argparse.ArgumentParser(
        prog="tests.keep", description="Writes what the tests compare with; see tests/keep.py."
    )
    parser.add_argument("kinds", nargs="*", metavar="KIND", help="slugs of kinds; all if none is named")
    parser.add_argument("--edition-anew", metavar="KIND", action="append", default=[], help="see tests/keep.py first")
    chosen = parser.parse_args(arguments)
    for slug in (*chosen.kinds, *chosen.edition_anew):
        if slug not in all_kinds():
            parser.error(f"no kind is called {slug}; there are {', '.join(all_kinds())}")
    slugs = list(dict.fromkeys([*chosen.kinds, *chosen.edition_anew])) or None
    for slug in slugs or all_kinds():
        kind, anew = all_kinds()[slug], slug in chosen.edition_anew
        if any([golden.keep(kind, anew), edges.keep(kind, anew)]):
            print(f"The numbers of edition {kind.edition} of {slug} were written. From now on they stay as they are.")

    golden.GOLDEN[:] = golden.kept()
    # these take golden codes as they are imported, so only now
    from tests.exercises import approved, written

    written.keep(slugs or all_kinds())
    approved.keep(slugs)
    print("The kept texts were written. Read the difference with git diff before you commit it.")


if __name__ == "__main__":
    main(sys.argv[1:])
