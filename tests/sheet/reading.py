"""Reading a sheet back by the standard library's parser, so that tests see what a browser would."""

from dataclasses import dataclass, field
from functools import lru_cache
from html.parser import HTMLParser

VOID = {"meta", "br", "col", "img", "link", "input", "hr"}


@dataclass
class Node:
    """An element: its name, attributes, children and own text, in order."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    children: "list[Node | str]" = field(default_factory=list)

    @property
    def text(self) -> str:
        """All text within, spaces run together."""
        raw = "".join(child if isinstance(child, str) else f"{child.text} " for child in self.children)
        return " ".join(raw.replace("\u00a0", " ").split())

    def all(self, tag: str | None = None, **wanted: str) -> "list[Node]":
        """Every element below with that name and these attributes (`_` for `-`, `css` for class)."""
        found = []
        for child in self.children:
            if isinstance(child, Node):
                if tag in (None, child.tag) and all(child.has(*pair) for pair in wanted.items()):
                    found.append(child)
                found += child.all(tag, **wanted)
        return found

    def one(self, tag: str | None = None, **wanted: str) -> "Node":
        found = self.all(tag, **wanted)
        assert len(found) == 1, f"{len(found)} of {tag} {wanted}"
        return found[0]

    def has(self, name: str, value: str) -> bool:
        if name == "css":
            return value in self.attributes.get("class", "").split()
        return self.attributes.get(name.replace("_", "-")) == value


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open = [Node("document")]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = Node(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(node)
        if tag not in VOID:
            self.open.append(node)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].children.append(Node(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, f"</{tag}> ends <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)


@lru_cache(maxsize=80)  # several tests read each sheet; none changes what it reads
def read(html: str) -> Node:
    """Return the document; an element that is not closed in its place fails the test."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    assert len(reader.open) == 1, f"<{reader.open[-1].tag}> is never closed"
    return reader.open[0]
