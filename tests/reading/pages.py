"""A page read back with the standard library's HTML parser: what its fields hold and what it says."""

from html.parser import HTMLParser

WITHOUT_END = {"input", "meta", "link", "br", "hr", "img", "path", "rect", "ellipse", "stop"}


class Page(HTMLParser):
    """The fields, links and words of one answer of the site."""

    def __init__(self, response):
        super().__init__()
        self.fields, self.links, self.buttons = {}, [], []
        self.words, self.errors, self._open = [], [], []
        self.feed(response.content.decode())
        self.text = " ".join(" ".join(self.words).split())

    def handle_starttag(self, tag, attrs):
        facts = dict(attrs)
        if tag not in WITHOUT_END:
            self._open.append((tag, facts))
        if tag == "a":
            self.links.append(facts.get("href", ""))
        elif tag == "button" and "value" in facts:
            self.buttons.append(facts["value"])
        elif tag in {"input", "select", "textarea"}:
            self._field(facts)

    def handle_endtag(self, tag):
        while self._open and self._open.pop()[0] != tag:
            pass

    def handle_data(self, data):
        self.words.append(data)
        if data.strip() and self._inside("section", "error-summary") and self._inside("li"):
            self.errors.append(data.strip())

    def _field(self, facts):
        name = facts.get("name")
        if facts.get("type") in {"checkbox", "radio"}:
            chosen = facts.get("value", "on") if "checked" in facts else None
            self.fields[name] = chosen or self.fields.get(name)
        elif name and not (facts.get("type") == "hidden" and name in self.fields):
            self.fields[name] = facts.get("value", "")

    def _inside(self, tag, kind=""):
        return any(tag == name and kind in (facts.get("class") or "") for name, facts in self._open)
