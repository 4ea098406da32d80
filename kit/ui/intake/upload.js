// Takes a file piece by piece; the kernel says how much it has before the next piece is sent.
const PIECE = 4 << 20; // bytes

function render({ model, el }) {
  const id = `fw-file-${Math.random().toString(36).slice(2)}`, box = document.createElement("div");
  box.className = "fw-upload";
  box.innerHTML = `<label for="${id}"></label> <input type="file" id="${id}">
    <progress max="1" value="0" aria-label="Part of the file that has arrived" hidden></progress>
    <button type="button" hidden>Cancel</button> <span role="status"></span>`;
  el.append(box);
  const [label, input, bar, cancel, said] = box.children;
  let heard = null, stopped = false, busy = false;
  const write = () => {
    label.textContent = model.get("label");
    input.accept = model.get("endings").join(",");
    said.textContent = model.get("said");
  };
  const listen = (message) => heard?.(message);
  const percent = (share) => { bar.value = share; said.textContent = `${Math.round(100 * share)} % has arrived`; };

  const take = async (file) => {
    if (!file || busy) return;
    busy = true;
    stopped = false;
    bar.hidden = cancel.hidden = false;
    percent(0);
    for (let at = 0; ; at += PIECE) {
      const piece = await file.slice(at, at + PIECE).arrayBuffer();
      const answer = new Promise((resolve) => { heard = resolve; });
      if (stopped) model.send({ stop: true });
      else model.send({ name: file.name, size: file.size, at }, undefined, [piece]);
      const { have, more } = await answer;
      if (!more) break;
      percent(have / file.size);
    }
    bar.hidden = cancel.hidden = true;
    busy = false;
    input.value = "";
    write();
  };
  input.addEventListener("change", () => take(input.files[0]));
  cancel.addEventListener("click", () => { stopped = true; });
  for (const kind of ["dragover", "drop"]) {
    box.addEventListener(kind, (event) => {
      event.preventDefault();
      event.stopPropagation();
      if (kind === "drop") take(event.dataTransfer.files[0]);
    });
  }
  const events = ["change:said", "change:label", "change:endings"];
  const tell = () => { if (!busy) write(); };
  events.forEach((event) => model.on(event, tell));
  model.on("msg:custom", listen);
  write();
  return () => { events.forEach((event) => model.off(event, tell)); model.off("msg:custom", listen); };
}

export default { render };
