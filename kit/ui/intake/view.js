// A surface that is turned and touched. What a ray meets is asked of the kernel, which has the whole surface;
// here it is drawn with fewer faces, its parts moved. Lengths are shares of half the picture about its middle.
const VIEWS = { Front: [0, 0], Back: [180, 0], Left: [-90, 0], Right: [90, 0], Top: [0, 90], Corner: [35, 25] };
const NEAR = 4; // pixels that a click may wander before it turns the picture

const floats = (view) => new Float32Array(view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength));
const wholes = (view) => new Uint32Array(view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength));

function render({ model, el }) {
  const box = document.createElement("div");
  box.className = "fw-turning";
  box.dataset.lmSuppressShortcuts = "true";
  const buttons = [...Object.keys(VIEWS), "+", "−"].map((name) => {
    const label = { "+": "Enlarge", "−": "Reduce" }[name] ?? `Seen from the ${name.toLowerCase()}`;
    return `<button type="button" data-view="${name}" aria-label="${label}" title="${label}">${name}</button>`;
  });
  box.innerHTML = `<canvas tabindex="0" role="application"></canvas><div class="fw-turning-words"></div>
    <div class="fw-turning-cross" aria-hidden="true"></div><p class="fw-turning-held" role="status"></p><div class="fw-turning-bar">${buttons.join("")}</div>
    <p class="fw-turning-help">Click the surface to set a spot; drag turns, Shift and drag shifts, Ctrl and wheel
    enlarges. Keys: arrows turn, Shift and arrows shift, + and − enlarge, Enter sets a spot at the cross in the
    middle, Alt and arrows move the chosen spot, Delete takes it out.</p>`;
  el.append(box);
  const canvas = box.querySelector("canvas"), words = box.querySelector(".fw-turning-words");
  const name = () => canvas.setAttribute("aria-label", `${model.get("label")}. Arrow keys turn it, Enter sets a spot.`);
  const held = box.querySelector(".fw-turning-held");
  const gl = canvas.getContext("webgl2", { antialias: true, alpha: true, premultipliedAlpha: true });
  if (!gl) { box.textContent = "This browser draws no picture in space (WebGL 2); use another to set spots."; return; }

  const faces = fwProgram(gl, FW_FACE), strokes = fwProgram(gl, FW_STROKE);
  const buffer = (target, content) => {
    const made = gl.createBuffer();
    gl.bindBuffer(target, made);
    gl.bufferData(target, content, gl.STATIC_DRAW);
    return made;
  };
  const quad = buffer(gl.ARRAY_BUFFER, new Float32Array([0, -1, 0, 1, 1, -1, 1, 1]));
  let surface = null, lines = [], corners = new Float32Array(0);
  let around = 35, up = 25, zoom = 1, shift = [0, 0], waiting = false, down = null;
  let drawn = -1, asked = 0; // the picture that the reader sees, and the number of what was asked of the kernel last

  const attribute = (program, key, size, stride, offset, each) => {
    const at = gl.getAttribLocation(program, key);
    gl.enableVertexAttribArray(at);
    gl.vertexAttribPointer(at, size, gl.FLOAT, false, stride, offset);
    gl.vertexAttribDivisor(at, each);
  };
  const takeSurface = () => {
    if (surface) { gl.deleteVertexArray(surface.array); surface.buffers.forEach((each) => gl.deleteBuffer(each)); }
    corners = floats(model.get("corners"));
    const array = gl.createVertexArray();
    gl.bindVertexArray(array);
    const points = buffer(gl.ARRAY_BUFFER, corners);
    attribute(faces, "corner", 3, 0, 0, 0);
    canvas.dataset.surfaces = String(Number(canvas.dataset.surfaces ?? 0) + 1);
    surface = { array, buffers: [points, buffer(gl.ELEMENT_ARRAY_BUFFER, wholes(model.get("faces")))] };
  };
  const takeLines = () => {
    lines.forEach((line) => { gl.deleteVertexArray(line.array); gl.deleteBuffer(line.made); });
    lines = model.get("lines").map((line) => {
      const ends = line.points.slice(1).flatMap((end, k) => [...line.points[k], ...end]);
      const array = gl.createVertexArray();
      gl.bindVertexArray(array);
      const made = buffer(gl.ARRAY_BUFFER, new Float32Array(ends));
      attribute(strokes, "start", 3, 24, 0, 1);
      attribute(strokes, "end", 3, 24, 12, 1);
      gl.bindBuffer(gl.ARRAY_BUFFER, quad);
      attribute(strokes, "side", 2, 0, 0, 0);
      return { ...line, array, made, count: ends.length / 6 };
    });
  };
  const takeWords = () => {
    words.replaceChildren(...model.get("spots").map(({ name, chosen }) => {
      const span = document.createElement("span");
      span.textContent = name;
      span.className = chosen ? "fw-chosen" : "";
      return span;
    }));
  };

  // How shares of half the picture become shares of half the canvas.
  const scale = () => {
    const wide = canvas.clientWidth, tall = canvas.clientHeight, small = 0.97 * zoom * Math.min(wide, tall);
    return [small / wide, small / tall];
  };
  const draw = () => {
    waiting = false;
    const wide = canvas.clientWidth, tall = canvas.clientHeight, fine = window.devicePixelRatio || 1;
    if (!wide || !tall || !surface) return;
    const pixels = [Math.round(wide * fine), Math.round(tall * fine)];
    if (canvas.width !== pixels[0] || canvas.height !== pixels[1]) [canvas.width, canvas.height] = pixels;
    const rows = fwAxes(around, up), [right, higher] = scale();
    gl.viewport(0, 0, ...pixels);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
    gl.blendFuncSeparate(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA, gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
    const view = (used, turn, moved) => {
      gl.useProgram(used);
      gl.uniformMatrix3fv(gl.getUniformLocation(used, "turn"), false, [0, 1, 2].flatMap((k) => turn.map((r) => r[k])));
      gl.uniform2f(gl.getUniformLocation(used, "zoom"), right, higher);
      gl.uniform2f(gl.getUniformLocation(used, "shift"), ...shift);
      if (moved) gl.uniform3f(gl.getUniformLocation(used, "moved"), ...moved);
    };
    const group = ({ first, count, fill, opacity, move }) => {
      // A part moves by a matrix of 3 rows and 4 columns before the camera turns it.
      const turn = rows.map((row) => [0, 1, 2].map((k) => row[0] * move[k] + row[1] * move[4 + k] + row[2] * move[8 + k]));
      view(faces, turn, rows.map((row) => row[0] * move[3] + row[1] * move[7] + row[2] * move[11]));
      gl.uniform4f(gl.getUniformLocation(faces, "fill"), ...fill, opacity);
      gl.bindVertexArray(surface.array);
      gl.drawElements(gl.TRIANGLES, count, gl.UNSIGNED_INT, 4 * first);
    };
    const groups = model.get("groups");
    gl.disable(gl.BLEND);
    groups.filter((each) => each.opacity === 1).forEach(group);
    view(strokes, rows, null);
    gl.uniform2f(gl.getUniformLocation(strokes, "size"), ...pixels);
    gl.uniform1f(gl.getUniformLocation(strokes, "width"), 1.2 * fine);
    for (const line of lines) {
      gl.uniform4f(gl.getUniformLocation(strokes, "fill"), ...line.ink, 1);
      gl.uniform1f(gl.getUniformLocation(strokes, "dash"), line.dashed ? 6 * fine : 0);
      gl.bindVertexArray(line.array);
      gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, line.count);
    }
    // Of a pale surface the nearest layer alone: first its depth, then its color.
    for (const pale of groups.filter((each) => each.opacity < 1)) {
      gl.colorMask(false, false, false, false);
      group(pale);
      gl.colorMask(true, true, true, true);
      gl.enable(gl.BLEND);
      group(pale);
      gl.disable(gl.BLEND);
    }
    model.get("spots").forEach(({ at }, number) => {
      const [x, y] = [0, 1].map((k) => rows[k][0] * at[0] + rows[k][1] * at[1] + rows[k][2] * at[2] + shift[k]);
      const place = [(x * right + 1) / 2 * wide, (1 - y * higher) / 2 * tall];
      words.children[number].style.transform = `translate(${place[0]}px, ${place[1]}px) translate(8px, -50%)`;
    });
    for (const button of box.querySelectorAll("[data-view]")) {
      const wanted = VIEWS[button.dataset.view];
      if (wanted) button.setAttribute("aria-pressed", String((around - wanted[0]) % 360 === 0 && up === wanted[1]));
    }
    drawn = model.get("picture");
    canvas.dataset.drawn = String(Number(canvas.dataset.drawn ?? 0) + 1);
  };
  const redraw = () => { if (!waiting) { waiting = true; requestAnimationFrame(draw); } };

  const turn = (by, over) => { around = (around + by) % 360; up = Math.max(-90, Math.min(90, up + over)); redraw(); };
  const move = (pixels, higher) => {
    const [x, y] = scale();
    shift = [shift[0] + 2 * pixels / x / canvas.clientWidth, shift[1] + 2 * higher / y / canvas.clientHeight];
    redraw();
  };
  // The point of the picture under (x, y), shares of half the canvas from its middle, stays where it is.
  const enlarge = (by, [x, y] = [0, 0]) => {
    const before = scale();
    zoom = Math.max(0.2, Math.min(200, zoom * by));
    const after = scale();
    shift = [shift[0] + x / after[0] - x / before[0], shift[1] + y / after[1] - y / before[1]];
    redraw();
  };
  const look = (wanted) => { [around, up] = VIEWS[wanted]; zoom = 1; shift = [0, 0]; redraw(); };
  const across = (x, y) => {
    const rows = fwAxes(around, up);
    return [0, 1, 2].map((k) => x * rows[0][k] + y * rows[1][k]);
  };
  // One thing at a time: what a field beside the view says has then reached the kernel before the next one.
  const ask = (content, picture = drawn) => {
    const busy = model.get("answered") < asked;
    held.textContent = busy ? "Not taken: what came before is still being worked out. Do it again." :
      picture === model.get("picture") && picture === drawn ? "" : "Not taken: the picture has just changed. Aim again.";
    if (held.textContent) return;
    asked = model.get("answered") + 1;
    model.send({ ...content, picture, number: asked });
  };
  const touch = ([x, y], picture = drawn) => {
    const rows = fwAxes(around, up), [right, higher] = scale();
    const at = across(x / right - shift[0], y / higher - shift[1]);
    const pixel = 2 / right / canvas.clientWidth;
    ask({ kind: "touch", from: at.map((v, k) => v + 4 * rows[2][k]), way: rows[2].map((v) => -v), pixel }, picture);
  };
  const under = (event) => {
    const rim = canvas.getBoundingClientRect();
    return [2 * (event.clientX - rim.left) / rim.width - 1, 1 - 2 * (event.clientY - rim.top) / rim.height];
  };

  for (const button of box.querySelectorAll("[data-view]")) {
    const wanted = button.dataset.view;
    button.addEventListener("click", () => (VIEWS[wanted] ? look(wanted) : enlarge(wanted === "+" ? 1.25 : 0.8)));
  }
  canvas.addEventListener("keydown", (event) => {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (event.ctrlKey || event.metaKey) return;
    if (way && event.altKey) {
      const [right] = scale(), pixel = 2 / right / canvas.clientWidth;
      ask({ kind: "nudge", by: across(way[0] * pixel, way[1] * pixel) });
    } else if (way && event.shiftKey) move(-way[0] * 10, -way[1] * 10);
    else if (way) turn(way[0] * 10, way[1] * 10);
    else if (event.key === "+" || event.key === "=") enlarge(1.25);
    else if (event.key === "-") enlarge(0.8);
    else if (event.key === "Home") look("Corner");
    else if (event.key === "Enter") touch([0, 0]);
    else if (event.key === "Delete") ask({ kind: "delete" });
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    canvas.focus();
    down = [event.clientX, event.clientY, drawn];
  });
  const wandered = (event) => Math.hypot(event.clientX - down[0], event.clientY - down[1]) > NEAR;
  let dragged = false;
  canvas.addEventListener("pointermove", (event) => {
    if (!down || !(dragged ||= wandered(event))) return;
    if (event.shiftKey) move(event.movementX, -event.movementY);
    else turn(-event.movementX * 0.5, event.movementY * 0.5);
  });
  canvas.addEventListener("pointerup", (event) => {
    if (down && !dragged && event.button === 0) touch(under(event), down[2]);
    down = null;
    dragged = false;
  });
  canvas.addEventListener("wheel", (event) => {
    if (!event.ctrlKey) return; // the wheel alone scrolls the page
    event.preventDefault();
    event.stopPropagation();
    enlarge(Math.exp(-event.deltaY * 0.002), under(event));
  }, { passive: false });

  const heard = {
    "change:corners change:faces": takeSurface, // a scan that is scaled or turned keeps its faces
    "change:lines": takeLines,
    "change:spots": takeWords,
    "change:groups": () => {},
    "change:label": name,
    "change:home": () => look("Corner"),
    "change:picture": () => {},
  };
  const listeners = Object.entries(heard).map(([event, take]) => [event, () => { take(); redraw(); }]);
  listeners.forEach(([event, listener]) => { model.on(event, listener); listener(); });
  const sized = new ResizeObserver(redraw);
  sized.observe(canvas);
  return () => {
    sized.disconnect();
    listeners.forEach(([event, listener]) => model.off(event, listener));
    gl.getExtension("WEBGL_lose_context")?.loseContext();
  };
}

export default { render };
