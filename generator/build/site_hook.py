"""The build, as mkdocs sees it: a short list of named steps, each on one event.

    on_config         build beside the last good site, with a fixed date
    on_files          add the styles, the scripts and the runtime
    on_page_markdown  write the worked examples
    on_page_content   put in the figures and the sheets
    on_env            add the code for the browser, compiled meanwhile
    on_post_page      mend the theme's page for everyone; write the links for keeping the site, and what the page may load and run, into its head
    on_post_template  the page that says an address is not there: our own, the same way
    on_post_build     list what is kept offline; let the new site take the place of the last good one
    on_build_error    leave the last good site as it is, and say what to do

Pages ask for made things with a comment on a line of its own:
`<!-- worked-example: CODE -->`, `<!-- figure: NAME -->`, `<!-- sheet: KIND CODE -->`, and `<!-- made: NAME -->` for
what is entered in generator/made.py.
"""

import logging
import os
import re
import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File
from mkdocs.utils import CountHandler

from exercises.kinds.kind import open_code
from generator.build import offline
from generator.build.assets import compiled_files, plain_files
from generator.build.cache import kept_text
from generator.build.policy import with_policy
from generator.build.runtime import ROOT
from generator.build.theme_fixes import mended
from generator.build.trouble import Trouble, about_disk
from generator.examples import example_figure, worked_example
from generator.pages.desk import desk
from generator.pages.fragments import made

# mkdocs writes this date into the site map; the day of the build must not show in the site
os.environ.setdefault("SOURCE_DATE_EPOCH", "1767225600")

MARK = re.compile(r"<!-- (worked-example|example-figure|figure|sheet|made): (.+?) -->")

_state = {"serving": False, "good": None}
_warnings = CountHandler()
_warnings.setLevel(logging.WARNING)


def on_startup(*, command, dirty):
    _state["serving"] = command == "serve"


def on_config(config):
    # in its own process, so it costs nothing while the pages are made
    _state["compiled"] = ThreadPoolExecutor(1).submit(compiled_files)
    if config.strict:
        logging.getLogger("mkdocs").addHandler(_warnings)
    if not _state["serving"]:
        _state["good"] = Path(config.site_dir)
        config.site_dir = f"{config.site_dir}.new"
    return config


def on_files(files, *, config):
    return _add(files, config, plain_files)


def on_env(env, *, config, files):
    _add(files, config, _state["compiled"].result)
    return env


def _add(files, config, make):
    try:
        made = make()
    except Trouble as trouble:
        raise PluginError(str(trouble)) from trouble
    for uri, content in made.items():
        if isinstance(content, Path):
            files.append(File.generated(config, uri, abs_src_path=str(content)))
        else:
            files.append(File.generated(config, uri, content=content))
    return files


def on_page_markdown(markdown, *, page, config, files):
    return MARK.sub(lambda m: worked_example(m[2]) if m[1] == "worked-example" else m[0], markdown)


def on_page_content(html, *, page, config, files):
    return MARK.sub(_made, html)


def _made(mark) -> str:
    if mark[1] in ("figure", "example-figure"):
        return kept_text(mark[0], lambda: _drawn(mark[1], mark[2]))
    if mark[1] == "made":
        return made(mark[2])
    slug, code = mark[2].split()
    return desk(slug, *open_code(code))


def _drawn(kind: str, name: str) -> str:
    if kind == "example-figure":
        return example_figure(*name.split())
    # matplotlib takes longer to load than the site to build, so only when something is to be drawn
    from generator.figures import FIGURES

    if name not in FIGURES:
        raise PluginError(f"No figure is called {name}; there are {', '.join(sorted(FIGURES))}.")
    return FIGURES[name]()


def on_post_page(html, *, page, config):
    html = offline.with_links(mended(html), page)
    # mkdocs serve writes a script of its own into each page, to load it again
    return html if _state["serving"] else with_policy(html)


def on_post_template(html, *, template_name, config):
    if template_name != "404.html":
        return html
    # the theme's has links from the root of the host, wrong wherever the site lies below it
    html = (ROOT / "site_assets" / "404.html").read_text(encoding="utf-8")
    return html if _state["serving"] else with_policy(html)


def on_post_build(config):
    if _state["serving"]:
        offline.write_none(Path(config.site_dir))
        return
    if counts := _warnings.get_counts():
        raise PluginError(
            "The site was not replaced: there were "
            + ", ".join(f"{n} {level.lower()}s" for level, n in counts)
            + " (see above). Mend them and build again."
        )
    good, new = _state["good"], Path(config.site_dir)
    offline.write(new)
    old = good.with_name(good.name + ".old")
    shutil.rmtree(old, ignore_errors=True)
    if good.exists():
        good.rename(old)
    new.rename(good)
    shutil.rmtree(old, ignore_errors=True)


def on_build_error(error):
    if _state["good"]:
        shutil.rmtree(f"{_state['good']}.new", ignore_errors=True)
        logging.getLogger("mkdocs").error("The last good site, if there was one, is as it was.")
    if isinstance(error, OSError):
        logging.getLogger("mkdocs").error(str(about_disk(error, "building the site")))
