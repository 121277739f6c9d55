"""The same code gives the same numbers in the browser as here: all golden codes, in the browser's own Python."""

from tests.exercises.golden import GOLDEN

ASK = """async (codes) => {
  const { Python } = await import(new URL("eight/python.js", document.baseURI));
  const python = await new Promise((resolve, reject) => {
    const made = new Python({ onready: () => resolve(made), onfailed: reject });
  });
  const found = [];
  for (const code of codes) found.push(await python.ask("numbers", code));
  python.stop("done");
  return found;
}"""


def test_golden_codes_in_the_browser(browser, address):
    page = browser.new_page()
    page.goto(address)
    found = page.evaluate(ASK, [golden["code"] for golden in GOLDEN])
    assert found == GOLDEN
    page.close()
