"""The build, as mkdocs sees it: a short list of named steps, each on one event.

    on_startup        note whether mkdocs only serves
    on_config         build beside the last good site, with a fixed date
    on_files          make the theme's files lean; add the styles, the scripts and the runtime
    on_page_markdown  put in the worked examples and the tables of kinds
    on_page_content   put in the figures, the sheets and the fragments
    on_env            add the code for the browser, compiled meanwhile
    on_post_page      mend the theme's page for everyone; write into its head the links for keeping
                      the site, and what the page may load and run
    on_post_template  the page that says an address is not there: our own, the same way
    on_post_build     slim the theme's styles; list what is kept offline; let the new site take the place of the last
                      good one
    on_build_error    leave the last good site as it is, and say what to do

What a page asks for with a comment is in markers.py.
"""

import logging
import os
import shutil
from collections.abc import Callable, Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils import CountHandler

from generator.build import light, offline, theme_styles
from generator.build.assets import compiled_files, plain_files
from generator.build.markers import with_html, with_markdown
from generator.build.policy import with_policy
from generator.build.runtime import ROOT
from generator.build.theme_files import lean, with_script
from generator.build.theme_fixes import with_theme_fixes
from generator.build.trouble import Trouble, about_disk

# mkdocs writes this date into the site map; the day of the build must not show in the site
os.environ.setdefault("SOURCE_DATE_EPOCH", "1767225600")


@dataclass
class _Build:
    """The build that is under way.

    serving    whether mkdocs serves the pages itself, and nothing is to be written beside it
    last_good  the folder of the last good site, None while serving
    compiled   the code for the browser, which another thread makes
    """

    serving: bool = False
    last_good: Path | None = None
    compiled: Future[dict[str, bytes]] | None = None


_build = _Build()
_warnings = CountHandler()
_warnings.setLevel(logging.WARNING)


def on_startup(*, command: str, dirty: bool) -> None:
    _build.serving = command == "serve"


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    # the compiler runs in a process of its own, so it costs nothing while the pages are made
    _build.compiled = ThreadPoolExecutor(1).submit(compiled_files)
    if config.strict:
        logging.getLogger("mkdocs").addHandler(_warnings)
    if not _build.serving:
        _build.last_good = Path(config.site_dir)
        config.site_dir = f"{config.site_dir}.new"
    return config


def on_files(files: Files, *, config: MkDocsConfig) -> Files:
    return _with(lean(files, config), config, plain_files)


def on_env(env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
    if _build.compiled is not None:
        _with(files, config, _build.compiled.result)
    return env


def _with(files: Files, config: MkDocsConfig, make: Callable[[], Mapping[str, Path | bytes | str]]) -> Files:
    """The files of the site with more: address in the site -> a file to copy, or its content."""
    try:
        more = make()
    except Trouble as trouble:
        raise PluginError(str(trouble)) from trouble
    for uri, content in more.items():
        if isinstance(content, Path):
            files.append(File.generated(config, uri, abs_src_path=str(content)))
        else:
            files.append(File.generated(config, uri, content=content))
    return files


def on_page_markdown(markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
    return with_markdown(markdown)


def on_page_content(html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
    return with_html(html)


def on_post_page(html: str, *, page: Page, config: MkDocsConfig) -> str:
    html = light.page(offline.with_links(with_theme_fixes(with_script(html)), page.url))
    # mkdocs serve writes a script of its own into each page, to load it again
    return html if _build.serving else with_policy(html)


def on_post_template(html: str, *, template_name: str, config: MkDocsConfig) -> str:
    if template_name != "404.html":
        return html
    # the theme's has links from the root of the host, wrong wherever the site lies below it
    html = (ROOT / "site_assets" / "404.html").read_text(encoding="utf-8")
    return html if _build.serving else with_policy(html)


def on_post_build(config: MkDocsConfig) -> None:
    new = Path(config.site_dir)
    if _build.last_good is None:
        offline.write_none(new)
        return
    if counts := _warnings.get_counts():
        raise PluginError(
            "The site was not replaced: there were "
            + ", ".join(f"{n} {level.lower()}s" for level, n in counts)
            + " (see above). Mend them and build again."
        )
    theme_styles.slim(new, (ROOT / "exercises").rglob("*.py"))
    offline.write(new)
    _replace(_build.last_good, new)


def _replace(good: Path, new: Path) -> None:
    """Let a new folder take the place of a good one, which stays until then."""
    old = good.with_name(good.name + ".old")
    shutil.rmtree(old, ignore_errors=True)
    if good.exists():
        good.rename(old)
    new.rename(good)
    shutil.rmtree(old, ignore_errors=True)


def on_build_error(error: Exception) -> None:
    if _build.last_good:
        shutil.rmtree(f"{_build.last_good}.new", ignore_errors=True)
        logging.getLogger("mkdocs").error("The last good site, if there was one, is as it was.")
    if isinstance(error, OSError):
        logging.getLogger("mkdocs").error(str(about_disk(error, "building the site")))
