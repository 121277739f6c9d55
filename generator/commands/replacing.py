"""Files that are written beside the old ones and take their place together at the end: all of them or none."""

import os
import tempfile
from collections.abc import Callable, Iterable
from pathlib import Path

from generator.build.trouble import Trouble, about_disk


def replace_files(folder: Path, names: Iterable[str], write: Callable[[Path], None], what: str) -> None:
    """Make a folder's files.  Trouble, with nothing changed in the folder, if that fails.

    names  of the files, the last the one that the others are made from: it takes its place first, so that whatever
           stops this program on the way, what came in is kept;  write  puts all of them into a folder
    what   they are, as it is called in a sentence: “the class”, “the marking”
    """
    names = tuple(names)
    new = not folder.exists()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder, prefix=".making-") as place:
            write(Path(place))
            # known before the first is replaced, so that never only some are
            if taken := [name for name in names if (folder / name).is_dir()]:
                raise Trouble(f"{folder / taken[0]} is a folder, so no file can be written there. Move it away.")
            for name in names:
                _settle(Path(place) / name)
            for name in reversed(names):
                (Path(place) / name).replace(folder / name)
    except (FileExistsError, NotADirectoryError) as error:
        raise Trouble(f"{folder} is not a folder. Give another one with --out.") from error
    except OSError as error:
        raise about_disk(error, what) from error
    except KeyboardInterrupt:
        raise Trouble(f"Stopped. No file of {what} was changed.") from None
    finally:
        if new and folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()


def _settle(path: Path) -> None:
    """Have the disk hold all of a file before it takes the place of another: else a power cut could leave it empty."""
    with open(path, "rb+") as file:
        os.fsync(file.fileno())
