// A map that is clicked, dragged and moved on by arrow keys. Places are shares of the plot's width and height.
const STEP = 0.01, LEAP = 0.1;

function render({ model, el }) {
  const stage = document.createElement("div");
  stage.className = "fw-map";
  stage.tabIndex = 0;
  stage.setAttribute("role", "group");
  el.append(stage);
  let down = false, waiting = null;

  const draw = () => {
    stage.innerHTML = model.get("picture"); // made by the kit, its words escaped there
    stage.setAttribute("aria-label", `${model.get("label")}; arrow keys move the design`);
  };
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
    if (down) ask("move", at);
    else if (inside(at)) ask("look", at);
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
  stage.addEventListener("keydown", key);
  model.on("change:picture", draw);
  draw();
  return () => model.off("change:picture", draw);
}

export default { render };
