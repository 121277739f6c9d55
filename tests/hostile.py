"""Texts that would be markup if they were not escaped, and what looks whether they became any.

Each holds the canary; where one of them got through, the canary stands in a tag, or `window.__hit` is there.
The forms are those every list of such texts has (from memory, no source).
"""

from html.parser import HTMLParser
from urllib.parse import quote

CANARY = "zq1canary"
IMG = f"<img src=x onerror=window.__hit=1 id={CANARY}>"

TEXTS = (
    f"<script>window.__hit=1//{CANARY}</script>",
    f'">{IMG}',
    f"'>{IMG}",
    f"></option></select></textarea></title></style></script>{IMG}",
    f"<svg onload=window.__hit=1 id={CANARY}><a href=javascript:window.__hit=1>",
    f"<SvG/OnLoAd=window.__hit=1/id={CANARY}//",
    f'" autofocus onfocus=window.__hit=1 id="{CANARY}',
    f"' onmouseover='window.__hit=1' id='{CANARY}",
    f"javascript:window.__hit=1//{CANARY}",
    f" JaVa\tScRiPt:window.__hit=1//{CANARY}",
    f"data:text/html,<script>parent.__hit=1</script>{CANARY}",
    f"${{window.__hit=1}}{CANARY}`",
    f"{{{{constructor.constructor('window.__hit=1')()}}}}{CANARY}",
    f"&lt;img src=x onerror=window.__hit=1 id={CANARY}&gt;",
    f"&#60;img src=x onerror=window.__hit=1 id={CANARY}&#x3e;",
    f"&quot;&gt;&ltb id={CANARY}&gt",
    f"\u202e{IMG}\u202c\u2066\u200f",
    f"a\x00b\x00<\x00b id={CANARY}>",
    f"\uff1cimg id={CANARY}\uff1e \u2039b\u203a \uff02\u02ba",
    quote(f'">{IMG}'),
    quote(quote(IMG)),
    f"<!-- {CANARY}",
    f"--><b id={CANARY}>",
    f"]]><b id={CANARY}><![CDATA[",
    f"\\x3cimg src=x id={CANARY}\\x3e\\u003cb\\u003e",
    f"<iframe srcdoc='<script>parent.__hit=1</script>' id={CANARY}>",
    f"<meta http-equiv=refresh content=0;url=javascript:window.__hit=1 id={CANARY}>",
    f"<base href=//{CANARY}.example/>",
    f"<style>*{{background:url(//{CANARY}.example)}}</style>",
    f"B_H<b id={CANARY}>B_H",
    f'=HYPERLINK("javascript:window.__hit=1";"{CANARY}")<b id={CANARY}>',
    f"<b id={CANARY}>" + "x" * 3000,
)

#: What none of our made pages has, outside the head of a page to print.
NEVER = {
    "script",
    "img",
    "iframe",
    "object",
    "embed",
    "base",
    "frame",
    "form",
    "template",
    "foreignobject",
    "set",
    "animate",
}


class Looked(HTMLParser):
    """A page as a browser would take it apart: its texts, and what is in it that nobody of ours put there."""

    def __init__(self, html: str):
        super().__init__(convert_charrefs=True)
        self.texts: list[str] = []
        self.amiss: list[str] = []
        self.open: list[str] = []
        self.feed(html)
        self.close()
        self.text = "".join(self.texts)

    def handle_starttag(self, tag, attributes):
        whole = self.get_starttag_text()
        if tag in NEVER or CANARY in tag or tag in ("style", "meta") and self.open != ["html", "head"]:
            self.amiss.append(whole)
        for name, value in attributes:
            value = value or ""
            if name.startswith("on") or name == "style" or CANARY in name:
                self.amiss.append(whole)
            if name in ("href", "src", "action", "xlink:href") and not value.startswith(
                ("https://", "http://", "#", "../")
            ):
                self.amiss.append(whole)
            if name in ("id", "class", "for", "name") and CANARY in value:
                self.amiss.append(whole)
        if tag not in ("meta", "br", "input", "link", "path", "rect", "circle", "line"):
            self.open.append(tag)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.amiss.append(f"</{tag}> closes nothing that is open")

    def handle_startendtag(self, tag, attributes):
        self.handle_starttag(tag, attributes)
        if self.open and self.open[-1] == tag:
            self.open.pop()

    def handle_data(self, data):
        self.texts.append(data)

    def handle_comment(self, data):
        self.amiss.append(f"comment {data}")

    def unknown_decl(self, data):
        self.amiss.append(f"declaration {data}")

    def handle_pi(self, data):
        self.amiss.append(f"instruction {data}")


def whole(html: str) -> str:
    """The text of HTML of ours, once it is seen that nothing in it is anybody else's."""
    looked = Looked(html)
    assert looked.amiss == [] and looked.open == [], (looked.amiss[:3], looked.open[:5])
    return looked.text
