// A map that is clicked, dragged and moved on by arrow keys. Places are shares of the plot's width and height.
const STEP = 0.01, LEAP = 0.1;

function render({ model, el }) {
  const stage = document.createElement("div");
  stage.className = "fw-map";
  stage.tabIndex = 0;
  stage.setAttribute("role", "group");
  const tip = document.createElement("div");
  tip.className = "fw-tip";
  tip.setAttribute("role", "tooltip");
  tip.hidden = true;
  el.classList.add("fw-map-around");
  el.append(stage, tip);
  let down = false, waiting = null, pointed = null;

  const draw = () => {
    stage.innerHTML = model.get("picture"); // made by the kit, its words escaped there
    stage.setAttribute("aria-label", `${model.get("label")}; arrow keys move the design`);
  };
  const tell = () => {
    tip.innerHTML = model.get("tip"); // made by the kit, its words escaped there
    tip.hidden = !model.get("tip") || !pointed;
    if (tip.hidden) return;
    const around = el.getBoundingClientRect();
    const [x, y] = [pointed.clientX - around.left, pointed.clientY - around.top];
    const left = x + tip.offsetWidth + 20 > around.width ? Math.max(x - tip.offsetWidth - 14, 0) : x + 14;
    tip.style.left = `${left}px`;
    tip.style.top = `${y + 14}px`;
  };
  const leave = () => { pointed = null; tip.hidden = true; };
  const within = (share) => Math.min(Math.max(share, 0), 1);
  const place = (event) => {
    const svg = stage.querySelector("svg");
    const [left, top, width, height] = model.get("box");
    const scale = svg.viewBox.baseVal.width / svg.getBoundingClientRect().width;
    const x = (event.clientX - svg.getBoundingClientRect().left) * scale;
    const y = (event.clientY - svg.getBoundingClientRect().top) * scale;
    return [(x - left) / width, 1 - (y - top) / height];
  };
  const inside = ([x, y]) => x >= 0 && x <= 1 && y >= 0 && y <= 1;
  // A kernel that is busy is asked for the last place only.
  const ask = (what, at) => {
    const idle = waiting === null;
    waiting = { what, at };
    if (idle) requestAnimationFrame(() => {
      const { what, at } = waiting;
      waiting = null;
      model.send({ what, at: at.map(within) });
    });
  };
  const press = (event) => {
    const at = place(event);
    if (!inside(at)) return;
    down = true;
    stage.setPointerCapture(event.pointerId);
    stage.focus({ preventScroll: true });
    ask("move", at);
  };
  const hover = (event) => {
    if (!stage.querySelector("svg")) return;
    const at = place(event);
    pointed = !down && inside(at) ? event : null;
    if (down) ask("move", at);
    else if (pointed) ask("look", at);
    if (!pointed) tip.hidden = true;
  };
  const release = () => { down = false; };
  const key = (event) => {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowDown: [0, -1], ArrowUp: [0, 1] }[event.key];
    if (!way || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    const [x, y] = model.get("design"), step = event.shiftKey ? LEAP : STEP;
    ask("move", [x + way[0] * step, y + way[1] * step]);
  };
  stage.addEventListener("pointerdown", press);
  stage.addEventListener("pointermove", hover);
  stage.addEventListener("pointerup", release);
  stage.addEventListener("pointercancel", release);
  stage.addEventListener("pointerleave", leave);
  stage.addEventListener("keydown", key);
  model.on("change:picture", draw);
  model.on("change:tip", tell);
  draw();
  return () => {
    model.off("change:picture", draw);
    model.off("change:tip", tell);
  };
}

export default { render };
