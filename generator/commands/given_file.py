"""A file that is named on the command line: its bytes, or a sentence that says why there are none."""

import errno
from pathlib import Path

from exercises.files.text import LARGEST
from generator.build.trouble import Trouble


def bytes_of_file(name: str, wanted: str, largest: int = LARGEST) -> bytes | None:
    """What a file holds; None where there is none of that name, or no file can have it.

    wanted   the sentence that says what to give;  largest  the most bytes that are read
    Trouble, with a sentence, for what is no file, is too large or cannot be read.
    """
    path = Path(name)
    try:
        if not name or not path.exists():
            return None
        if not path.is_file():
            raise Trouble(f"{name} is not a file. {wanted}")
        with path.open("rb") as file:
            raw = file.read(largest + 1)
            if len(raw) > largest:
                raise Trouble(f"{name} has {path.stat().st_size:,} bytes; at most {largest:,} are read. {wanted}")
        return raw
    except PermissionError as error:
        raise Trouble(f"{name} may not be read. Mend its permissions.") from error
    except (OSError, ValueError) as error:
        if getattr(error, "errno", None) in (None, errno.ENAMETOOLONG):  # a text too strange or too long for a name
            return None
        raise Trouble(f"{name} could not be read: {error}.") from error
