// Gives each slider's handle a name: that of the tooltip of its slider. The widgets name text fields, but not handles.
export default {
  render({ el }) {
    el.hidden = true;
    const name = (panel) => {
      for (const handle of panel.querySelectorAll(".noUi-handle:not([aria-label])")) {
        const slider = handle.closest(".widget-slider");
        const told = slider?.title || slider?.querySelector("[title]")?.title || slider?.querySelector("label")?.textContent;
        if (told) handle.setAttribute("aria-label", told);
      }
    };
    let watcher;
    const begin = () => {
      const panel = el.closest(".fw-panel");
      if (!panel) return requestAnimationFrame(begin); // not in the page yet
      name(panel);
      watcher = new MutationObserver(() => name(panel)); // the panel itself: taken out of the page, it has no parents
      watcher.observe(panel, { childList: true, subtree: true });
    };
    begin();
    return () => watcher?.disconnect();
  },
};
