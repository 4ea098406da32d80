"""Reading an SVG back: its paths as numbers, so that tests measure what was written, not what was meant."""

import re
from dataclasses import dataclass
from xml.etree import ElementTree

Point = tuple[float, float]


@dataclass(frozen=True)
class Drawn:
    """An SVG read back. Lengths are in its user unit, paper mm; y points down."""

    root: ElementTree.Element

    @property
    def box(self) -> list[float]:
        return [float(part) for part in self.root.attrib["viewBox"].split()]

    def group(self, kind: str) -> ElementTree.Element:
        found = [g for g in self.root.iter("g") if g.attrib["class"] == f"fw-{kind}"]
        assert len(found) == 1, f"{len(found)} groups of {kind}"
        return found[0]

    def kinds(self) -> list[str]:
        return [g.attrib["class"].removeprefix("fw-") for g in self.root.iter("g")]

    def lines(self, kind: str) -> list[list[Point]]:
        """The corners of every path of one kind that is only straight lines, arrowheads left out."""
        paths = [p.attrib["d"] for p in self.group(kind).iter("path") if "fill" not in p.attrib]
        return [corners(d) for d in paths if "A" not in d]

    def curves(self, kind: str) -> list[list[float]]:
        """The numbers in every path of one kind that has arcs."""
        return [numbers(p.attrib["d"]) for p in self.group(kind).iter("path") if "A" in p.attrib["d"]]

    def heads(self, kind: str) -> list[list[Point]]:
        """The arrowheads of one kind, each a triangle with its tip first."""
        solid = [p.attrib["d"] for p in self.group(kind).iter("path") if "fill" in p.attrib]
        return [corners(part) for d in solid for part in d.split("Z") if part]

    def words(self) -> dict[str, ElementTree.Element]:
        return {"".join(text.itertext()): text for text in self.root.iter("text")}


def numbers(d: str) -> list[float]:
    return [float(part) for part in re.findall(r"-?\d+(?:\.\d+)?", d)]


def corners(d: str) -> list[Point]:
    flat = numbers(d)
    return list(zip(flat[::2], flat[1::2], strict=True))


def read(text: str) -> Drawn:
    """Parse an SVG strictly; a namespace is dropped, so that inline and standalone ones read alike."""
    return Drawn(ElementTree.fromstring(re.sub(r' xmlns="[^"]*"', "", text.split("?>")[-1])))
