"""The security policy of every built page: it is there, first, strict, and lets in all that the page has."""

import base64
import hashlib
from html.parser import HTMLParser

import pytest
from mkdocs.exceptions import PluginError

from exercises.classroom.class_list import paper
from exercises.classroom.class_list.packs import PACKS
from exercises.classroom.report import student_pages as mark_pages
from exercises.classroom.report.counts import count
from exercises.classroom.report.page import report_html
from generator.build.paper_style import paper_style
from generator.build.policy import STYLE, policy_of, printed_styles, with_policy
from generator.build.theme_files import script as themes_script
from tests.exercises.classwork import a_class

HEAD = '<!doctype html><html><head>\n  <meta charset="utf-8">'


def source(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


class Page(HTMLParser):
    """What of a page the policy is about."""

    def __init__(self, html: str):
        super().__init__(convert_charrefs=True)
        self.policies, self.inline, self.amiss, self.foreign, self.before = [], [], [], [], []
        self.taken = None  # the text of an inline script or style
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        said = dict(attributes)
        if said.get("http-equiv", "").lower() == "content-security-policy":
            self.policies.append(said["content"])
        elif not self.policies:
            self.before.append(tag)
        self.amiss += [f"{tag} {name}" for name in said if name.startswith("on") or name == "style"]
        loads = said.get("src") or (
            said.get("href") if tag in ("link", "base") else said.get("data") if tag == "object" else None
        )
        if (
            loads
            and loads.partition(":")[0] in ("http", "https", "javascript", "data")
            or (loads or "").startswith("//")
        ):
            self.foreign.append(loads)
        if tag == "script" and "src" not in said and said.get("type") != "application/json" or tag == "style":
            self.taken = ""

    def handle_data(self, data):
        if self.taken is not None:
            self.taken += data

    def handle_endtag(self, tag):
        if self.taken is not None:
            self.inline.append((tag, self.taken))
            self.taken = None


@pytest.fixture(scope="module")
def built(site) -> dict[str, Page]:
    return {str(p.relative_to(site)): Page(p.read_text(encoding="utf-8")) for p in sorted(site.rglob("*.html"))}


def rules(page: Page) -> dict[str, list[str]]:
    return {words[0]: words[1:] for words in (rule.split() for rule in page.policies[0].split(";"))}


def test_every_page_has_one_before_anything_is_loaded(built):
    assert len(built) > 50 and "404.html" in built
    for name, page in built.items():
        assert len(page.policies) == 1, name
        assert page.before == ["html", "head", "meta"], name  # the encoding, which must be near the beginning


def test_every_policy_is_strict(built):
    for name, page in built.items():
        found = rules(page)
        scripts, styles = found.pop("script-src"), found.pop("style-src")
        assert scripts[:2] == ["'self'", "'wasm-unsafe-eval'"] and styles[0] == "'self'"
        assert all(s.startswith("'sha256-") for s in scripts[2:] + styles[1:]), name
        assert found.pop("frame-src") == (["blob:"] if name == "class/desk/index.html" else ["'none'"]), name
        fonts = ["'self'", "data:"] if name == "class/desk/index.html" else ["'self'"]
        assert found.pop("font-src") == fonts, name
        assert len(styles) == (4 if name == "class/desk/index.html" else 1), name
        assert found == {
            "default-src": ["'self'"],
            "worker-src": ["'self'"],
            "connect-src": ["'self'"],
            "img-src": ["'self'", "data:"],
            "manifest-src": ["'self'"],
            "object-src": ["'none'"],
            "base-uri": ["'self'"],
            "form-action": ["'self'"],
        }


def test_a_page_has_nothing_that_its_policy_stops(built):
    for name, page in built.items():
        found = rules(page)
        assert page.amiss == [] and page.foreign == [], name
        hashes = {source(text) for tag, text in page.inline}
        assert {tag for tag, _ in page.inline} <= {"script"}, name
        if name != "404.html":
            hashes.add(source(themes_script()[1]))  # what theme.js puts into the page
        assert hashes == set(found["script-src"][2:]), name  # all that are there, and no other


def test_what_the_class_desk_prints_has_a_style_that_is_let_in():
    css = paper_style()
    made = a_class(2, ("law",))
    heads = [pack.head(made, css) for name, pack in PACKS.items() if name.endswith(".html")]
    heads += [mark_pages.head(css), report_html(count(made, []), made, css)]
    let_in = policy_of('<button data-print="x">')["style-src"].split()
    found = {source(STYLE.search(page)[1]) for page in heads}
    assert found == set(let_in[1:]) and len(found) == len(printed_styles())
    assert source(STYLE.search(paper.head("", css + "p {}"))[1]) not in let_in


def test_a_script_that_is_not_the_themes_stops_the_build():
    for script in (
        "<script>alert(1)</script>",
        "<SCRIPT type=module>import 'x'</SCRIPT>",
        '<script type="text/javascript">1</script>',
    ):
        with pytest.raises(PluginError, match="inline script"):
            with_policy(f"{HEAD}</head><body>{script}</body></html>")
    for data in ('<script type="application/json">{}</script>', '<script src="x.js"></script>'):
        assert "sha256" not in with_policy(f"{HEAD}</head><body>{data}</body></html>")


def test_a_page_without_a_head_stops_the_build():
    for page in ("", "<p>only a part</p>", '<head><title>x</title><meta charset="utf-8"></head>'):
        with pytest.raises(PluginError, match="no head"):
            with_policy(page)


def test_a_hash_is_that_of_plain_line_ends():
    one, two = (f"{HEAD}<script>var target=1{end}// two</script></head>" for end in ("\n", "\r\n"))
    assert policy_of(one) == policy_of(two)
