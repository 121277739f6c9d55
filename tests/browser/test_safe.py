"""The security policy in a real browser: nothing that the site does breaks it, and what is not the site's is stopped.

Also what a person types, drops, keeps or follows: markup in it stays text.
"""

import functools
import re
import threading
from html import unescape
from urllib.parse import quote

import pytest

from exercises.classroom.class_list.class_file import read_class
from exercises.return_slip.text import ReturnSlip, return_slip_text
from exercises.student.why import sentence, settings_from
from generator.commands.serving import Handler, Server
from tests.browser.steps import CODE, SHEET, open_sheet, right_answers
from tests.browser.test_class_desk import DROP
from tests.browser.test_pages import pages
from tests.exercises.classwork import right
from tests.hostile import CANARY, IMG, TEXTS

#: Runs in every page before its own scripts: what was stopped by the policy, and what should never run.
WATCH = """
window.__broken = [];
addEventListener("securitypolicyviolation", (e) =>
    window.__broken.push(`${e.effectiveDirective} ${e.blockedURI} ${e.sample} ${location.pathname}`), true);
"""
POLICY = re.compile(r'http-equiv="Content-Security-Policy" content="([^"]+)"')


class Strict(Handler):
    """Sends each page's own policy, and that of the front page with every other file, as a strict host may."""

    def end_headers(self):
        place = self.path.partition("?")[0]
        page = f"{place}index.html" if place.endswith("/") else place if place.endswith(".html") else "/index.html"
        self.send_header("Content-Security-Policy", f"{policy(self.directory + page)}; frame-ancestors 'none'")
        super().end_headers()

    def send_header(self, name, value):
        # only so that these tests are quick: what all pages share is asked for once
        shared = name == "Cache-Control" and not self.path.partition("?")[0].endswith(("/", ".html"))
        super().send_header(name, "max-age=3600" if shared else value)


@functools.cache
def policy(page: str) -> str:
    """The policy that a built page has."""
    try:
        with open(page, encoding="utf-8") as file:
            return unescape(POLICY.search(file.read(5_000))[1])
    except OSError:
        return "default-src 'none'"


@pytest.fixture(scope="module")
def strict(site):
    """The address of a host that sends the policy as a header too; only there the worker has one."""
    server = Server(("127.0.0.1", 0), functools.partial(Strict, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()


@pytest.fixture(scope="module")
def visitor(browser):
    """One visitor of both hosts, whose cache is kept; nothing is asked of anybody else."""
    found = browser.new_context(viewport={"width": 1000, "height": 900})
    found.add_init_script(WATCH)
    yield found
    found.close()


@pytest.fixture
def watched(visitor):
    """A page; whatever was stopped or ran in it, its dialogs and its errors are there to be looked at."""
    page = visitor.new_page()
    page.said = []  # by the browser, of the policy, also where a worker broke it
    page.on("console", lambda m: page.said.append(m.text) if "Content Security Policy" in m.text else None)
    page.on("pageerror", lambda error: page.said.append(str(error)))
    page.asked = []
    page.on("dialog", lambda dialog: (page.asked.append(dialog.message), dialog.accept()))
    yield page
    page.close()


def broken(page) -> list[str]:
    """What broke the policy in this page since it was opened."""
    page.wait_for_timeout(0)
    return page.evaluate("window.__broken") + page.said


def clean(page):
    """Nothing was stopped, nothing ran, and no element is there but ours."""
    assert broken(page) == []
    assert page.evaluate("window.__hit") is None
    told = page.evaluate(
        """canary => [...document.querySelectorAll("*")].filter((e) => [...e.attributes].some((a) =>
            a.name.startsWith("on") || a.name.includes(canary) ||
            (["id", "class", "src", "srcdoc"].includes(a.name) && a.value.includes(canary)) ||
            (["href", "action"].includes(a.name) && /^\\s*(javascript|data):/i.test(a.value))) ||
            e.localName.includes(canary)).map((e) => e.outerHTML.slice(0, 200))""",
        CANARY,
    )
    assert told == []


def test_pages_on_a_strict_host_break_no_policy(watched, strict):
    """Pages of every sort; test_pages.py looks at all of them on a plain host."""
    watched.route("**/worker.js", lambda route: route.abort())  # Python has its turn below
    for where in [*pages()[::5], "404.html"]:
        watched.goto(strict + where, wait_until="load")
        assert broken(watched) == [], where
        first = watched.evaluate("[...document.head.children].slice(0, 2).map((e) => e.outerHTML.slice(0, 60))")
        assert first[0].startswith("<meta charset") and "Content-Security-Policy" in first[1]
        watched.said.clear()


def put(tag: str, having: str, where: str = "body", then: str = "") -> str:
    """The script that puts an element `e` into the page, once it has what `having` says."""
    return f"e = document.createElement('{tag}'); {having}; document.{where}.append(e){then}"


def test_the_policy_stops_what_is_not_the_sites(watched, address):
    """On a plain host: the page's own meta element is enough."""
    tries = {
        "script-src-elem inline": put("script", "e.textContent = 'window.__hit = 1'"),
        "script-src-elem https://elsewhere.example/x.js": put("script", "e.src = 'https://elsewhere.example/x.js'"),
        "script-src eval": "setTimeout(() => { try { eval('window.__hit = 2') } catch {} })",
        "script-src-attr inline": put("p", "e.setAttribute('onclick', 'window.__hit = 3')", then="; e.click()"),
        "script-src-elem inline ": put("a", "e.href = 'javascript:window.__hit=4'", then="; e.click()"),
        "img-src https://elsewhere.example/x.png": "new Image().src = 'https://elsewhere.example/x.png'",
        "connect-src https://elsewhere.example/": "fetch('https://elsewhere.example/').catch(() => 0)",
        "style-src-elem inline": put("style", "e.textContent = 'p { color: red }'", "head"),
        "style-src-attr inline": put("p", "e.setAttribute('style', 'color: red')"),
        "frame-src https://elsewhere.example": put("iframe", "e.src = 'https://elsewhere.example/'"),
        "frame-src blob": put("iframe", "e.src = URL.createObjectURL(new Blob(['x']))"),
        "object-src https://elsewhere.example": put("object", "e.data = 'https://elsewhere.example/x'"),
        "base-uri https://elsewhere.example/": put("base", "e.href = 'https://elsewhere.example/'", "head"),
        "form-action https://elsewhere.example/": put(
            "form", "e.action = 'https://elsewhere.example/'", then="; e.submit()"
        ),
        "worker-src blob": "try { new Worker(URL.createObjectURL(new Blob(['1']))) } catch {}",
    }
    watched.goto(address)
    for name, tried in tries.items():
        watched.evaluate(f"() => {{ window.__broken = []; let e; {tried} }}")
        watched.wait_for_function("window.__broken.length > 0", timeout=5_000)
        assert watched.evaluate("window.__broken[0]").startswith(name.strip()), name
    assert watched.evaluate("window.__hit") is None
    assert watched.url == address
    # and what is looked for below would be found
    watched.goto(address)
    watched.said.clear()
    clean(watched)
    watched.evaluate("img => document.body.insertAdjacentHTML('beforeend', img)", IMG)
    with pytest.raises(AssertionError):
        clean(watched)
    assert watched.evaluate("window.__hit") is None


def finish_sheet(page, base):
    """A sheet is solved, its working shown and its return slip made."""
    page.base = base
    open_sheet(page)
    for step, text in right_answers().items():
        page.fill(f"#er-{step}", text)
    page.click("text=Check everything")
    page.wait_for_function("document.querySelector('.er-score').textContent.startsWith('All')")
    page.click(".er-hint >> nth=0")
    page.wait_for_selector(".er-hinted")
    page.click(".er-solution")
    page.click(".er-solution")
    page.wait_for_selector(".er-solved .er-working")
    page.fill("#er-who", "Sanderling")
    page.click(".er-handin-form button")
    page.wait_for_selector(".er-slip-holder:not([hidden])")
    with page.expect_download():
        page.click(".er-save")


def test_a_student_on_a_strict_host(watched, strict):
    """Also the worker has the policy there: Python starts under it, from its image and without a script of memory."""
    asked = []
    watched.on("request", lambda request: asked.append(request.url.partition("eight/")[2]))
    finish_sheet(watched, strict)
    assert broken(watched) == []
    assert {"image.bin", "glue.js"} <= set(asked) and not {"exercises.zip", "python/pyodide.asm.js"} & set(asked)
    watched.click("label[for=__palette_1] >> visible=true")
    watched.click(".md-search__input")
    watched.keyboard.type("needle")
    watched.wait_for_selector(".md-search-result__item")
    clean(watched)

    watched.goto(strict + "before/why-eight/")
    watched.wait_for_selector('.er-why .er-status[data-state="ready"]')
    watched.click("[data-set=none]")
    says = sentence(settings_from({}))
    watched.wait_for_function("says => document.querySelector('.er-why-says').textContent === says", arg=says)
    clean(watched)

    watched.goto(strict + "revision/drill/")
    watched.wait_for_function("document.querySelector('.er-question').textContent !== ''")
    watched.click(".er-model")
    watched.wait_for_function("document.querySelector('.er-answer').textContent !== ''")
    clean(watched)


def make_class(page, listed: str, phrase: str = "sand and salt water"):
    page.fill("#cd-list", listed)
    page.fill("#cd-phrase", phrase)
    for box in page.locator('input[name="kind"]').all():
        box.set_checked(box.get_attribute("value") == "law")
    page.click("text=Make the class")


def test_a_strict_host_that_lacks_the_script_of_the_image_gets_the_plain_start(watched, strict):
    asked = []
    watched.on("request", lambda request: asked.append(request.url.partition("eight/")[2]))
    watched.route("**/glue.js*", lambda route: route.fulfill(status=404))
    watched.base = strict
    open_sheet(watched)
    assert {"glue.js", "exercises.zip"} <= set(asked)


def test_an_instructor_on_a_strict_host_with_a_hostile_class(watched, strict):
    """Names, answers and file names that are markup, through every list, page, print and report of the class desk."""
    watched.goto(strict)
    watched.evaluate(
        """texts => {
        localStorage.setItem("eight-readings:class", texts[1]);
        sessionStorage.setItem("eight-readings:class-draft", JSON.stringify({ list: texts[0], site: texts[1],
            phrase: texts[2],
            kinds: texts, common: { place: texts[3] }, own: { law: { step: texts[4] } }, pasted: texts[5] }));
        sessionStorage.setItem("eight-readings:class-paper", JSON.stringify([[texts[1], { [texts[2]]: texts[3] }]]));
    }""",
        TEXTS[:-1],
    )
    watched.goto(strict + "class/desk/")
    watched.wait_for_selector(".cd .er-status[data-state=ready]")
    watched.locator('[data-about="class-file"]', has_text="not a class file").wait_for()
    clean(watched)
    watched.fill("#cd-site", "https://saltmarsh.example/")
    # a list in a file, as a spreadsheet writes it, with a name that is markup
    names = [text[:90] for text in TEXTS if "\x00" not in text and "\t" not in text]
    listed = "roll,name\r\n" + "".join(
        f'"{n} {text[:25]}","{text}"\r\n' for n, text in enumerate(t.replace('"', '""') for t in names)
    )
    watched.evaluate(DROP, ["class-file", f"{IMG}.json", IMG])
    watched.locator('[data-about="class-file"]', has_text="not a class file").wait_for()
    watched.evaluate(DROP, ["list-file", f"{IMG}.csv", listed])
    watched.wait_for_function("document.querySelector('#cd-list').value.startsWith('roll,name')")
    make_class(watched, listed)
    watched.locator("#cd-class-said", has_text=f"{len(names)} students").wait_for()
    assert CANARY in watched.inner_text("#cd-preview")
    clean(watched)

    with watched.expect_download() as waiting:
        watched.click('[data-save="class.json"]')
    with open(waiting.value.path(), encoding="utf-8") as file:
        text = file.read()
    slips = [
        ReturnSlip(
            s.roll,
            str(c),
            {k: names[(n + m) % len(names)] for m, k in enumerate(right(c))},
            dict.fromkeys(right(c), IMG),
        )
        for n, (s, [(_, c)]) in enumerate(read_class(text).codes())
    ]
    files = [(f"{n}{IMG}.txt", return_slip_text(slip)) for n, slip in enumerate(slips)] + [
        (f"{IMG}.png", f"\x89PNG{IMG}"),
        (f"'{IMG}", IMG * 9),
    ]
    watched.set_input_files(
        "#cd-slips", [{"name": n, "mimeType": "text/plain", "buffer": t.encode()} for n, t in files]
    )
    watched.locator("#cd-returned-said", has_text=f"{len(slips)} slips came in").wait_for()
    for pasted in (IMG, f"roll,kind,step,answer\n{IMG},{IMG},{IMG},{IMG}"):
        watched.fill("#cd-pasted", pasted)
        watched.click("text=Add what is pasted")
        watched.locator('[data-about="pasted"]').wait_for()
    watched.locator("#cd-paper > summary").click()
    for who in (names[1][:90], f"nobody {IMG}"):
        watched.fill("#cd-who", who)
        watched.click("text=Open the form of this sheet")
        if who == names[1][:90]:
            watched.locator(".cd-paper-head", has_text=CANARY).wait_for()
    watched.locator('[data-about="who"]', has_text="No one student").wait_for()
    watched.fill("#cd-step_mark", IMG)
    watched.click("#cd-mark")
    watched.locator('[data-about="marks"]', has_text="is not a number").wait_for()
    watched.fill("#cd-step_mark", "1")
    watched.click("#cd-mark")
    watched.locator("#cd-marks-said", has_text=f"{len(slips)} sheets of {len(slips)} students marked").wait_for()
    assert watched.locator("#cd-report figure").count() and CANARY in watched.inner_text("#cd-intake")
    clean(watched)
    papers = ("sheets.html", "slips.html", "key.html", "working.html", "examination.html", "examiner.html")
    for name in (*papers, "students.html", "ready.html", "report.html"):
        watched.click(f'[data-print="{name}"]')
        watched.locator(".cd .er-status", has_text=f"{name} was handed to the browser to print").wait_for()
        frame = next(f for f in watched.frames if f.url.startswith("blob:"))
        # its style is let in by its hash, its texts are texts
        assert frame.evaluate("[...document.styleSheets].length") == 1
        assert frame.evaluate("getComputedStyle(document.body).marginTop") == "0px"
        assert frame.evaluate("document.querySelectorAll('script, img, [onerror], [style]').length") == 0
        assert frame.evaluate("window.__broken") == [] and watched.said == []
        if name != "report.html":
            assert CANARY in frame.evaluate("document.body.textContent")
    assert watched.asked == [] or all("in the place of" in asked for asked in watched.asked)
    clean(watched)


def test_a_hostile_record_on_a_strict_host(watched, strict):
    watched.goto(strict)
    watched.evaluate(
        """img => localStorage.setItem("eight-readings:record", JSON.stringify({
        head: { name: img, magnet: img, date: img, place: img, length: "8", B_H: "36" },
        rows: [{ d: "20", readings: Array(8).fill("44.5"), mean: img, tan: img, moment: img },
          { d: img, readings: [img, "44"] }, img, null, 5] }))""",
        IMG,
    )
    watched.goto(strict + "record/")
    watched.wait_for_selector('.rc-desk .er-status[data-state="ready"]')
    assert watched.input_value("#rc-name") == IMG
    watched.click(".rc-check")
    watched.wait_for_selector(".rc-paper")
    assert CANARY in watched.inner_text(".rc-paper") and CANARY in watched.input_value("#rc-d-2")
    watched.evaluate("window.print = () => (window.printed = true)")
    watched.click(".rc-print")
    assert watched.evaluate("window.printed")
    clean(watched)
    sent = f"observer;{IMG}\r\nplace;{IMG}\r\nd;east 1\r\n{IMG};{IMG}\r\n20;{IMG}\r\n"
    watched.set_input_files(".rc-open input", {"name": f"{IMG}.csv", "mimeType": "text/csv", "buffer": sent.encode()})
    watched.wait_for_function(
        "['.rc-notes', '.er-trouble'].some(place => document.querySelector(place).textContent !== '')"
    )
    with watched.expect_download():
        watched.click(".rc-save")
    clean(watched)


def test_hostile_addresses_and_what_was_kept(watched, strict):
    """One page start; then each address of a sheet, with what was kept for it, without waiting for its Python."""
    watched.goto(strict)
    watched.evaluate(
        """([texts, code]) => {
        const put = (key, value) => localStorage.setItem(`eight-readings:${key}`, value);
        const entries = JSON.stringify(Object.fromEntries(
          ["mean-1", "tan-1", "moment-1", ...texts].map((k, n) => [k, texts[n % texts.length]])));
        put(`sheet:${code}`, entries);
        put(`firsts:${code}`, entries);
        put("who", JSON.stringify(texts[1]));
        put("last:tan-a", JSON.stringify(texts[1]));
        put("drill", JSON.stringify({ turn: texts[1], cards: { [texts[1]]: { box: 1, due: 0 } } }));
        localStorage.setItem("/.__palette", JSON.stringify({ index: 0, color: { media: texts[0], scheme: texts[1],
            primary: texts[1], accent: texts[1] } }));
    }""",
        [TEXTS[:-1], CODE],
    )
    # without a code in the address, the last one is taken: it is none, and is said to be none
    watched.goto(strict + SHEET)
    watched.wait_for_selector('.er-bar .er-status[data-state="ready"]')
    assert watched.is_visible(".er-trouble")
    clean(watched)
    for text in TEXTS:
        watched.fill("#er-code", text[:500])
        watched.press("#er-code", "Enter")
        watched.wait_for_timeout(15)
    assert watched.is_visible(".er-trouble")
    clean(watched)
    # a sheet whose entries were put there beforehand
    watched.fill("#er-code", CODE)
    watched.press("#er-code", "Enter")
    watched.wait_for_selector(f'.er-sheet[data-code="{CODE}"]')
    watched.wait_for_function("['unread', 'ask'].includes(document.querySelector('[data-step=mean-1]').dataset.state)")
    assert watched.input_value("#er-mean-1") == TEXTS[0]
    watched.fill("#er-who", IMG)
    watched.click(".er-handin-form button")
    watched.wait_for_selector(".er-slip-holder:not([hidden])")
    assert CANARY in watched.input_value(".er-slip")
    clean(watched)
    # addresses gone through without loading the page again, as with the browser's own back and forward
    for text in TEXTS:
        watched.evaluate(
            """text => {
            history.pushState(null, "",
                `?code=${encodeURIComponent(text)}&q=${encodeURIComponent(text)}#${encodeURIComponent(text)}`);
            dispatchEvent(new PopStateEvent("popstate"));
            location.hash = text;
        }""",
            text[:1500],
        )
        watched.wait_for_timeout(15)
    assert watched.is_visible(".er-trouble")
    clean(watched)
    watched.route("**/worker.js", lambda route: route.abort())
    for n, text in enumerate(TEXTS[1:6]):
        hidden = quote(text)
        where = (f"{SHEET}?code={hidden}#{hidden}", f"?q={hidden}#{hidden}", f"class/desk/?code={hidden}#{hidden}")[
            n % 3
        ]
        watched.goto(strict + where, wait_until="load")
        clean(watched)
    watched.goto(f"{strict}?q={quote(IMG)}")
    watched.wait_for_function("document.querySelector('.md-search-result__meta').textContent !== 'Initializing search'")
    watched.click(".md-search__input")
    watched.keyboard.type(f" magnet {IMG}")
    watched.wait_for_function(
        "document.querySelector('.md-search-result__meta').textContent !== 'Type to start searching'"
    )
    clean(watched)
    watched.evaluate("localStorage.clear()")
