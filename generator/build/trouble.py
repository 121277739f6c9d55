"""Faults that a person can mend, said in a sentence."""

import errno


class Trouble(Exception):
    """Something outside this program went wrong; the text says what to do about it."""


def about_disk(error: OSError, what: str) -> Trouble:
    """The sentence for a file that could not be written."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return Trouble(f"The disk is full, so {what} was not finished. Free some space and run the command again.")
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return Trouble(
            f"{error.filename or 'A file'} may not be written, so {what} was not finished. Mend its permissions."
        )
    return Trouble(f"{what.capitalize()} was not finished: {error}.")
