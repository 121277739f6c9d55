"""What the theme's own files have that no reader of this site needs is left out, or waits until it is asked for.

lean      the theme's files without tables for debugging and search in other languages
script    the theme's script; its search waits until it is opened, as the list of all words and the worker that
          reads it are more than the rest of a page
packed    the same as the page fetches it (site_assets/theme.js)
with_script   the page that asks for it, and waits for it with nothing
"""

import gzip
import re
from functools import cache
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from mkdocs.theme import Theme

LEFT_OUT = re.compile(r"assets/javascripts/lunr/|.*\.map$")
FOLDER = Path(Theme("material").dirs[0])
SCRIPTS = "assets/javascripts/bundle.*.min.js"
#: The theme's script fetches the list at once, unless the page was opened from a file: then it waits for the search.
LATER = (('location.protocol!=="file:"', "!1"), ("new Worker(", "new LaterWorker("))
MAP = re.compile(r"\s*(?://# sourceMappingURL=\S+|/\*# sourceMappingURL=\S+ \*/)\s*$")
ASKS = "eight/theme.js"
ASKED = re.compile(r'<script src="((?:\.\./)*)(assets/javascripts/bundle\.\w+\.min\.js)"></script>')


@cache
def script() -> tuple[str, str]:
    """The address of the theme's script in the site, and its text.  PluginError where it is not as we know it."""
    found = list(FOLDER.glob(SCRIPTS))
    if len(found) != 1:
        raise PluginError("The theme's script was not found. Look for its new name, and mend theme_files.py.")
    text = MAP.sub("\n", found[0].read_text(encoding="utf-8"))
    for old, new in LATER:
        if text.count(old) != 1:
            raise PluginError(
                f"The theme's script begins its search in a new way ({old} is not there once). "
                "See how it does, and mend theme_files.py."
            )
        text = text.replace(old, new)
    return found[0].relative_to(FOLDER).as_posix(), text


def packed() -> bytes:
    """The theme's script, packed."""
    return gzip.compress(script()[1].encode(), 9, mtime=0)


def lean(files: Files, config: MkDocsConfig) -> Files:
    """The same files, changed in place."""
    for file in list(files):
        if LEFT_OUT.match(file.src_uri):
            files.remove(file)
        elif file.src_uri.startswith("assets/") and file.src_uri.endswith((".js", ".css")):
            files.remove(file)
            at, text = script()
            content = text if file.src_uri == at else MAP.sub("\n", file.content_string)
            files.append(File.generated(config, file.src_uri, content=content))
    return files


def with_script(html: str) -> str:
    """A page of the theme that asks for the packed script.  PluginError where it asks for none that we know."""
    ours = rf'<script src="\1{ASKS}" data-plain="\1\2" async></script>'
    asked = ASKED.search(html)
    if asked is None:
        raise PluginError("A page does not ask for the theme's script as we know it. Mend theme_files.py.")
    ahead = f'<link rel="preload" href="{asked[1]}eight/theme.bin" as="fetch" crossorigin>'
    return html.replace(asked[0], "").replace("</head>", f"{ahead}{asked.expand(ours)}</head>", 1)
