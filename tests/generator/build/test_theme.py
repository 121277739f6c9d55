"""What is made of the theme's files: nothing that a page needs goes, and the build says where the theme is another."""

import gzip
from pathlib import Path

import pytest
from mkdocs.exceptions import PluginError

from generator.build import light, theme_files
from generator.build.theme_styles import Site, _rules, slim, slimmed, without_unread
from generator.build.trouble import Trouble

SITE = Site(
    ['<html data-md-color-scheme="evening" data-md-color-primary="indigo"><p class="md-nav er-note"></p>'],
    ["classList.add('er-late')"],
    ['"md-nav__link--passed" "md-tooltip__inner"'],
)


@pytest.mark.parametrize(
    ("css", "left"),
    [
        ("p,.md-nav a{color:red}", "p,.md-nav a{color:red}"),
        (".tabbed p,.er-note>p{margin:0}", ".er-note>p{margin:0}"),
        (".er-late{a:b}.md-nav__link--passed{a:b}.md-tooltip__inner{a:b}", ".er-late{a:b}.md-nav__link--passed{a:b}"),
        ("p:not(.tabbed){a:b}p:is(.tabbed,.er-note){a:b}", "p:not(.tabbed){a:b}p:is(.tabbed,.er-note){a:b}"),
        ("@media print{.tabbed{a:b}}@media print{p,.tabbed{a:b}}", "@media print{p{a:b}}"),
        ("[data-md-color-primary=red]{a:b}[data-md-color-primary=indigo]{a:b}", "[data-md-color-primary=indigo]{a:b}"),
        ("[dir=rtl] p{a:b}[data-md-toggle=x]:checked~p{a:b}", "[data-md-toggle=x]:checked~p{a:b}"),
        ('@charset "UTF-8";@keyframes x{to{a:b}}', '@charset "UTF-8";@keyframes x{to{a:b}}'),
        ("p{a:url(\"data:,{'.x'};\")}", "p{a:url(\"data:,{'.x'};\")}"),
    ],
)
def test_a_rule_goes_where_no_page_can_use_it(css, left):
    assert slimmed(css, SITE) == left


def test_a_custom_property_goes_where_nothing_reads_it_not_even_another_that_went():
    css = ':root{--a:1px;--b:var(--a);--c:url("x;y(}");--d:2;--e:3}p{width:var(--d)}'
    sheet = Path("a.css")
    assert without_unread({sheet: css}, ["getPropertyValue('--e')"]) == {sheet: ":root{--d:2;--e:3}p{width:var(--d)}"}


def test_the_themes_own_sheets_are_taken_apart_whole():
    for path in (theme_files.FOLDER / "assets/stylesheets").glob("*.css"):
        css = theme_files.MAP.sub("", path.read_text(encoding="utf-8"))
        parts = (head if body is None else f"{head}{{{body}}}" for head, body in _rules(css))
        assert "".join(parts) == css


def test_every_rule_that_the_built_site_has_lost_is_of_classes_that_no_page_has(site):
    sheet = next((site / "assets/stylesheets").glob("main.*.css")).read_text(encoding="utf-8")
    assert len(sheet) < 70_000
    for needed in (".md-search-result__link", ".md-nav__link--active", ".md-top", ".admonition.warning", "details"):
        assert needed in sheet
    for gone in (".tabbed-", ".md-annotation", "[dir=rtl]", "--md-version-icon"):
        assert gone not in sheet


def test_the_script_that_pages_unpack_is_the_themes_whose_search_waits(site):
    at, text = theme_files.script()
    assert gzip.decompress((site / "eight/theme.bin").read_bytes()).decode() == (site / at).read_text() == text
    for old, new in theme_files.LATER:
        assert old not in text and text.count(new) >= 1
    assert not list(site.rglob("*.map")) and not (site / "assets/javascripts/lunr").exists()


def test_another_theme_is_refused(tmp_path, monkeypatch):
    with pytest.raises(PluginError, match="Mend theme_files"):
        theme_files.with_script("<head></head>")
    with pytest.raises(PluginError, match="mend theme_styles"):
        slim(tmp_path, [])
    monkeypatch.setattr(theme_files, "FOLDER", tmp_path)
    for text, told in ((None, "not found"), ("new Worker(1)", "in a new way")):
        theme_files.script.cache_clear()
        if text:
            (tmp_path / "assets/javascripts").mkdir(parents=True)
            (tmp_path / "assets/javascripts/bundle.1.min.js").write_text(text)
        with pytest.raises(PluginError, match=told):
            theme_files.script()
    monkeypatch.undo()
    theme_files.script.cache_clear()


def test_a_script_loses_comments_and_blanks_and_says_the_same():
    script = """// of no use
import { one } from "./one.js";
const SOON = 2000; // ms
export const say = (number) => `${number}   // ${one}`; /* neither */
export async function later(given) {
  const first = given.name;
  return first && (await later(first));
}
"""
    left = 'import{one}from"./one.js";const SOON=2000;export const say=number=>`${number}   // ${one}`;'
    (short,) = light.scripts([script])
    assert short == left + "export async function later(given){const first=given.name;return first&&await later(first)}"
    with pytest.raises(Trouble, match="A script could not be made. The program that makes it said: line 1: .*"):
        light.scripts(["const = 1"])


def test_a_page_loses_only_what_says_nothing():
    html = '<div>\n\n   <b>\n</div><article>\n  <pre>\n  x</pre><svg xmlns="http://www.w3.org/2000/svg" class="a">'
    html += '<path fill="var(--er-ink,#22302f)"/></svg></article>\n   </html>'
    left = '<div>\n<b>\n</div><article>\n  <pre>\n  x</pre><svg class="a"><path fill="var(--er-ink)"/></svg>'
    assert light.page(html) == left + "</article>\n</html>"
