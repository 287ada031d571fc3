"""A page taken apart for tests: its links, headings, ids and what must not be in it."""

from __future__ import annotations

from html.parser import HTMLParser
from urllib.parse import urldefrag, urljoin

LINKS = {"href", "src", "action", "poster"}


class ReadPage(HTMLParser):
    """What a test asks of a page."""

    def __init__(self, address: str, text: str) -> None:
        super().__init__()
        self.address = address
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.inline: list[str] = []
        self._inside = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the tag; note inline style and script, which the content policy forbids."""
        given = {name: value or "" for name, value in attrs}
        self.tags.append((tag, given))
        self._inside = tag if tag in {"script", "style"} else ""
        self.inline += [f"<{tag} {name}>" for name in given if name == "style" or name.startswith("on")]

    def handle_data(self, data: str) -> None:
        """Note script and style that stand in the page itself."""
        if self._inside and data.strip():
            self.inline.append(data)

    def handle_endtag(self, tag: str) -> None:
        """Leave a script or style."""
        self._inside = ""

    def count(self, tag: str) -> int:
        """How many elements of a kind there are."""
        return sum(name == tag for name, _ in self.tags)

    def links(self) -> set[str]:
        """Every address that the page names, made whole, without fragment."""
        named = (value for _, given in self.tags for name, value in given.items() if name in LINKS and value)
        return {urldefrag(urljoin(self.address, value)).url for value in named if not value.startswith("#")}

    def inner_links(self) -> set[str]:
        """The ids that the page points to within itself."""
        named = (given.get(name, "") for _, given in self.tags for name in ("href", "popovertarget"))
        pointed = {value.removeprefix("#") for value in named if value.startswith("#")}
        labelled = {given["aria-labelledby"] for _, given in self.tags if "aria-labelledby" in given}
        popovers = {given["popovertarget"] for _, given in self.tags if "popovertarget" in given}
        return pointed | labelled | popovers

    def ids(self) -> list[str]:
        """Every id, as often as it stands there."""
        return [given["id"] for _, given in self.tags if "id" in given]
