"""What the theme's own files have that no reader of this site needs: it is left out, or waits until it is asked for.

    lean  the theme's files without tables for debugging and search in other languages; its script asks for the list of
          all words only when the search is opened, as that is more than the rest of a page
"""

import re

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files

LEFT_OUT = re.compile(r"assets/javascripts/lunr/|.*\.map$")
SCRIPT = re.compile(r"assets/javascripts/bundle\.\w+\.min\.js")
#: The theme's script fetches the list at once unless the page was opened from a file; then it waits for the search.
AT_ONCE, WAITS = 'location.protocol!=="file:"', "!1"
MAP = re.compile(r"\s*(?://# sourceMappingURL=\S+|/\*# sourceMappingURL=\S+ \*/)\s*$")


def lean(files: Files, config: MkDocsConfig) -> Files:
    """The same files, changed in place.  PluginError where the theme's script is another than this was made for."""
    scripts = 0
    for file in list(files):
        if LEFT_OUT.match(file.src_uri):
            files.remove(file)
        elif file.src_uri.startswith("assets/") and file.src_uri.endswith((".js", ".css")):
            files.remove(file)
            text = MAP.sub("\n", file.content_string)
            if SCRIPT.fullmatch(file.src_uri):
                scripts += 1
                text = waiting(text)
            files.append(File.generated(config, file.src_uri, content=text))
    if scripts != 1:
        raise PluginError("The theme's script was not found. Look for its new name, and mend theme_files.py.")
    return files


def waiting(script: str) -> str:
    """The theme's script so that its search waits until it is opened."""
    if script.count(AT_ONCE) != 1:
        raise PluginError(
            "The theme's script asks for its list of words in a new way. See how it does, and mend theme_files.py."
        )
    return script.replace(AT_ONCE, WAITS)
