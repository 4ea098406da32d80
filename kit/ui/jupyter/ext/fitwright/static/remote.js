// Opens a notebook of the kit as a page: no side bars, code folded away, cells run, fields named. Loaded by `fitwright open` alone.
// Only a notebook whose code is what the kit shipped runs by itself: any other waits for its reader.
(() => {
  const style = document.createElement("style");
  style.textContent = `
    .jp-Placeholder.jp-InputPlaceholder, .jp-cell-toolbar, .jp-Notebook-footer, .jp-InputPrompt, .jp-OutputPrompt,
    .jp-OutputArea-promptOverlay, .jp-NotebookPanel-toolbar > :not(.fw-code-button),
    .jp-Notebook .jp-Collapser { display: none !important; }
    .jp-NotebookPanel-toolbar { justify-content: flex-end; }
    .jp-Notebook .jp-Cell.jp-mod-active { border-color: transparent; }
    .fw-code-button { border: 0; background: none; color: inherit; padding: 0 8px; cursor: pointer; }`;
  const shipped = () => {
    const config = document.getElementById("jupyter-config-data");
    return config ? JSON.parse(config.textContent).fitwrightShipped ?? [] : [];
  };
  const digest = async model => {
    const code = [...model.cells].filter(cell => cell.type === "code").map(cell => cell.sharedModel.getSource()).join("\0");
    const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(code));
    return [...new Uint8Array(bytes)].map(byte => byte.toString(16).padStart(2, "0")).join("");
  };
  const used = async kernel => {
    const asked = kernel.requestExecute({ code: "", silent: true, store_history: false, user_expressions: { n: "len(In)" } });
    const told = (await asked.done).content.user_expressions?.n?.data?.["text/plain"];
    return told !== "1" && told !== "0";
  };
  // What the widgets leave unsaid to who does not see the page: a field is called by its tooltip alone, a slider's handle
  // by nothing, a cell is no article of the feed that the notebook says it is, and the links that skip lie in no landmark.
  const name = () => {
    for (const field of document.querySelectorAll(":is(input, select, textarea)[title]")) {
      const told = field.getAttribute("aria-label") || [...field.labels].some(label => label.textContent.trim());
      if (!told && field.title) field.setAttribute("aria-label", field.title);
    }
    for (const cell of document.querySelectorAll("[role=feed] > [aria-label]:not([role])")) cell.setAttribute("role", "article");
    for (const links of document.querySelectorAll(".jp-skiplink-wrapper:not([role])")) {
      links.setAttribute("role", "navigation");
      links.setAttribute("aria-label", "Skip links");
    }
    for (const handle of document.querySelectorAll(".noUi-handle:not([aria-label])")) {
      const slider = handle.closest(".widget-slider");
      const told = slider?.title || slider?.querySelector("[title]")?.title || slider?.querySelector("label")?.textContent;
      if (told) handle.setAttribute("aria-label", told);
    }
  };
  const plugin = {
    id: "fitwright:page",
    autoStart: true,
    activate: app => {
      const seen = new WeakSet();
      const fold = hidden => {
        hidden ? document.head.append(style) : style.remove();
        return app.commands.execute(hidden ? "notebook:hide-all-cell-code" : "notebook:show-all-cell-code");
      };
      app.commands.addCommand("fitwright:code", {
        label: () => (style.isConnected ? "Show code" : "Hide code"),
        caption: "Show or hide the code behind this page",
        execute: async () => { await fold(!style.isConnected); app.commands.notifyCommandChanged("fitwright:code"); },
      });
      app.commands.addKeyBinding({ command: "fitwright:code", keys: ["Accel Alt C"], selector: "body" });
      const look = async () => {
        const panel = app.shell.currentWidget;
        if (!panel?.sessionContext || !panel.context || seen.has(panel)) return;
        seen.add(panel);
        await panel.context.ready;
        if (!panel.content.model.getMetadata("fitwright")?.page) return;
        document.head.append(style);
        const button = document.createElement("button");
        button.className = "fw-code-button jp-ToolbarButtonComponent";
        const write = () => { button.textContent = app.commands.label("fitwright:code"); };
        button.onclick = () => app.commands.execute("fitwright:code").then(write);
        write();
        panel.toolbar.node.append(button);
        if (!shipped().includes(await digest(panel.content.model))) return;
        await panel.sessionContext.ready;
        const kernel = panel.sessionContext.session?.kernel;
        if (kernel && (await kernel.info) && (await used(kernel))) await panel.sessionContext.restartKernel();
        await app.commands.execute("notebook:run-all-cells");
        panel.content.activeCellIndex = 0;
        panel.node.querySelector(".jp-WindowedPanel-outer")?.scrollTo(0, 0);
      };
      let due = 0;
      new MutationObserver(() => { due ||= requestAnimationFrame(() => { due = 0; name(); }); })
        .observe(document.body, { childList: true, subtree: true });
      app.restored.then(() => {
        app.shell.collapseLeft();
        app.shell.collapseRight();
        for (const side of ["left", "right"])
          if (app.shell.isSideTabBarVisible(side)) app.shell.toggleSideTabBarVisibility(side);
        if (document.querySelector("#jp-main-statusbar:not(.lm-mod-hidden)")) app.commands.execute("statusbar:toggle");
        look();
      });
      app.shell.currentChanged.connect(look);
    },
  };
  (window._JUPYTERLAB ??= {}).fitwright = { init() {}, get: async () => () => ({ __esModule: true, default: [plugin] }) };
})();
