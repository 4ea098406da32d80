"""How long a person waits: from the moved control to the changed page, timed inside the page."""

import statistics
from collections.abc import Callable, Sequence

from playwright.sync_api import Page

QUIET = 200  # ms without a change after which a panel counts as settled
LIMIT = 10_000  # ms after which a change counts as lost

# The clock starts at the time stamp of the first input event after arming, and stops at the mutation after
# which every watched element differs from what it was. An element may be replaced: it is looked up again.
ARM = """([selectors, limit]) => {
    const look = () => selectors.map(selector => document.querySelector(selector)?.outerHTML);
    const before = look();
    const missing = selectors.filter((_, i) => before[i] === undefined);
    if (missing.length) throw new Error(`nothing matches ${missing.join(', ')}`);
    const kinds = ['input', 'keydown', 'pointerdown', 'pointermove'];
    let start = null;
    const stamp = event => { start ??= event.timeStamp; };
    kinds.forEach(kind => window.addEventListener(kind, stamp, true));
    window.latency = new Promise((resolve, reject) => {
        const end = () => {
            observer.disconnect();
            clearTimeout(timer);
            kinds.forEach(kind => window.removeEventListener(kind, stamp, true));
        };
        const observer = new MutationObserver(() => {
            const now = performance.now();
            if (start === null || look().some((html, i) => html === undefined || html === before[i])) return;
            end();
            resolve(now - start);
        });
        const timer = setTimeout(() => {
            end();
            reject(new Error(start === null ? 'no input event arrived' : `no change within ${limit} ms`));
        }, limit);
        const everything = {subtree: true, childList: true, characterData: true, attributes: true};
        observer.observe(document.body, everything);
    });
    window.latency.catch(() => {});
}"""

SETTLE = """([selectors, quiet]) => new Promise(resolve => {
    const look = () => selectors.map(selector => document.querySelector(selector)?.outerHTML).join();
    let last = look();
    let since = performance.now();
    const check = () => {
        const seen = look();
        if (seen !== last) { last = seen; since = performance.now(); }
        if (performance.now() - since > quiet) resolve(); else setTimeout(check, 20);
    };
    check();
})"""


def measure_latency(page: Page, act: Callable[[int], object], selector: str | Sequence[str], n: int) -> list[float]:
    """Milliseconds from a control's event to the change of what `selector` finds, `n` times.

    `act(i)` moves the control once by real input, such as ``handle.press("ArrowRight")``, to a new value each
    time. Several selectors (the numbers, the figure) count as changed when the last of them has changed.
    Between two moves the page is left to settle, so that no late change of the previous move is counted.

    Raises:
        playwright.sync_api.Error: nothing matches, no event arrived, or nothing changed in ten seconds.
    """
    selectors = [selector] if isinstance(selector, str) else list(selector)
    times = []
    for i in range(n):
        page.evaluate(SETTLE, [selectors, QUIET])
        page.evaluate(ARM, [selectors, LIMIT])
        act(i)
        times.append(float(page.evaluate("() => window.latency")))
    return times


def median_and_p95(times: Sequence[float]) -> tuple[float, float]:
    """The median and the 95th percentile (inclusive method), in the unit of `times`."""
    return statistics.median(times), statistics.quantiles(times, n=20, method="inclusive")[-1]
