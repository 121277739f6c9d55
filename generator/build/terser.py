"""Scripts made shorter by terser, which comes with the runtime (terser.mjs)."""

import json
import tempfile
from collections.abc import Sequence
from pathlib import Path

from generator.build.node import run
from generator.build.runtime import runtime_folder

MAKER = Path(__file__).with_name("terser.mjs")
#: What nothing calls is taken out, and all names inside are short.
UNUSED = {
    "compress": {"passes": 2, "pure_getters": True},  # to read `wasmExports.name` changes nothing
    "mangle": True,
    "keep_classnames": True,  # Python is told the name of an object's class
}
#: Comments and blanks are taken out.
BLANKS = {"compress": False, "mangle": False, "format": {"keep_numbers": True}}


def shortened(what: str, scripts: Sequence[str], options: object) -> list[str]:
    """The scripts after each other, made shorter; Trouble, which names `what` they are, if terser cannot read one."""
    with tempfile.TemporaryDirectory() as folder:
        places = [Path(folder) / f"{number}.js" for number in range(len(scripts))]
        for place, script in zip(places, scripts, strict=True):
            place.write_text(script, encoding="utf-8")
        run(what, MAKER, str(runtime_folder().parent / "terser"), json.dumps(options), *map(str, places))
        return [place.read_text(encoding="utf-8") for place in places]
