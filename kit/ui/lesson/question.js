// A question: radio buttons and a button that commits to one; what is true comes from the kernel afterward.
let groups = 0;

function render({ model, el }) {
  const group = `fw-predict-${++groups}-${Math.random().toString(36).slice(2)}`;
  const box = document.createElement("div");
  box.className = "fw-ask fw-predicting";
  box.innerHTML = `<fieldset><legend></legend></fieldset>
    <button type="button" class="jupyter-button" data-lm-suppress-shortcuts="true">Commit</button>
    <p class="fw-commit">Choose one and commit to it, then what is true is shown.</p><div role="status"></div>`;
  el.append(box);
  const [field, button, hint, said] = box.children;
  field.firstChild.textContent = `Predict first: ${model.get("ask")}`;
  const inputs = model.get("options").map((text, at) => {
    const label = document.createElement("label"), input = document.createElement("input");
    Object.assign(input, { type: "radio", name: group, value: at });
    input.dataset.lmSuppressShortcuts = "true"; // the notebook leaves arrows and Space to it
    label.append(input, ` ${text}`);
    field.append(label);
    return input;
  });
  const write = () => {
    const words = model.get("said"), done = words !== "", right = model.get("right");
    inputs.forEach((input, at) => {
      input.disabled = done;
      if (done) input.checked = at === model.get("chosen");
    });
    button.hidden = hint.hidden = done;
    button.disabled = done || !inputs.some((input) => input.checked);
    said.textContent = done ? `${right ? "✓" : "✗"} ${words}` : "";
    said.className = done ? (right ? "fw-meets" : "fw-fails") : "";
  };
  field.addEventListener("change", write);
  button.addEventListener("click", () => {
    const at = inputs.findIndex((input) => input.checked);
    if (at >= 0) model.send({ chosen: at });
  });
  model.on("change:said", write);
  write();
  return () => model.off("change:said", write);
}

export default { render };
