"use strict";
// Turns a view in space. Faces are shaded by the slope of the picture, edges are quads facing the reader.
// Ghosts are drawn last, the farthest first, of each its nearest surface: what is behind shows through once.
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const canvas = document.getElementById("view");
  const gl = canvas.getContext("webgl2", { antialias: true, alpha: false });
  const live = document.getElementById("live"), still = document.getElementById("still");
  if (!gl) return;

  const BAR = 42, RIM = 12; // pixels for the buttons, and around the picture
  const bytes = (text) => Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
  const buffer = (target, content) => {
    const made = gl.createBuffer();
    gl.bindBuffer(target, made);
    gl.bufferData(target, content, gl.STATIC_DRAW);
    return made;
  };
  const faces = fwProgram(gl, FW_FACE), strokes = fwProgram(gl, FW_STROKE);
  if (!gl.getProgramParameter(faces, gl.LINK_STATUS) || !gl.getProgramParameter(strokes, gl.LINK_STATUS)) return;
  const quad = buffer(gl.ARRAY_BUFFER, new Float32Array([0, -1, 0, 1, 1, -1, 1, 1]));

  const segments = (text) => {
    const content = bytes(text), array = gl.createVertexArray();
    gl.bindVertexArray(array);
    buffer(gl.ARRAY_BUFFER, content);
    for (const [name, offset] of [["start", 0], ["end", 6]]) {
      const at = gl.getAttribLocation(strokes, name);
      gl.enableVertexAttribArray(at);
      gl.vertexAttribPointer(at, 3, gl.SHORT, false, 12, offset);
      gl.vertexAttribDivisor(at, 1);
    }
    gl.bindBuffer(gl.ARRAY_BUFFER, quad);
    const side = gl.getAttribLocation(strokes, "side");
    gl.enableVertexAttribArray(side);
    gl.vertexAttribPointer(side, 2, gl.FLOAT, false, 0, 0);
    return { array, count: content.length / 12 };
  };
  const solids = data.solids.map((solid) => {
    const array = gl.createVertexArray();
    gl.bindVertexArray(array);
    const corners = new Int16Array(bytes(solid.corners).buffer);
    buffer(gl.ARRAY_BUFFER, corners);
    const at = gl.getAttribLocation(faces, "corner");
    gl.enableVertexAttribArray(at);
    gl.vertexAttribPointer(at, 3, gl.SHORT, false, 0, 0);
    const content = bytes(solid.faces);
    buffer(gl.ELEMENT_ARRAY_BUFFER, content);
    const middle = [0, 1, 2].map((k) => {
      let low = Infinity, high = -Infinity;
      for (let i = k; i < corners.length; i += 3) {
        low = Math.min(low, corners[i]);
        high = Math.max(high, corners[i]);
      }
      return (low + high) / 2;
    });
    const count = content.length / (solid.wide ? 4 : 2);
    return { ...solid, array, corners, middle, count, edges: segments(solid.edges) };
  });
  const lines = data.lines.map((line) => {
    return { ...line, corners: new Int16Array(bytes(line.segments).buffer), segments: segments(line.segments) };
  });
  const words = data.marks.map((mark) => {
    const span = document.createElement("span");
    span.textContent = mark.text;
    document.getElementById("words").append(span);
    return { span, at: mark.at };
  });

  const everything = [...solids, ...lines].map((one) => one.corners);
  everything.push(...words.map(({ at }) => at.map((x) => x * data.steps)));

  // The theme is that of the page around, which may change; dark lines would be lost on a dark ground.
  const scheme = window.matchMedia("(prefers-color-scheme: dark)");
  const ground = () => (scheme.matches ? 0.067 : 1);
  const seen = (ink) => (scheme.matches && Math.max(...ink) < 0.35 ? [0.9, 0.9, 0.9] : ink);
  const EDGE = [0.07, 0.07, 0.07];

  let around = 0, up = 0, zoom = 1, shift = [0, 0], waiting = false;

  const matrix = () => fwAxes(around, up);
  const draw = () => {
    waiting = false;
    const wide = canvas.clientWidth, tall = canvas.clientHeight, fine = window.devicePixelRatio || 1;
    if (!wide || !tall) return;
    const pixels = [Math.round(wide * fine), Math.round(tall * fine)];
    if (canvas.width !== pixels[0] || canvas.height !== pixels[1]) [canvas.width, canvas.height] = pixels;
    const rows = matrix(), small = Math.min(wide, tall - BAR);
    const scale = [0.97 * zoom * small / wide, 0.97 * zoom * small / tall];
    const place = [shift[0], shift[1] + BAR / 2 / (0.97 * zoom * small)];
    const columns = [0, 1, 2].flatMap((k) => rows.map((row) => row[k] / data.steps));
    gl.viewport(0, 0, ...pixels);
    gl.clearColor(ground(), ground(), ground(), 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
    gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
    for (const used of [faces, strokes]) {
      gl.useProgram(used);
      gl.uniformMatrix3fv(gl.getUniformLocation(used, "turn"), false, columns);
      gl.uniform2f(gl.getUniformLocation(used, "zoom"), ...scale);
      gl.uniform2f(gl.getUniformLocation(used, "shift"), ...place);
    }
    gl.uniform2f(gl.getUniformLocation(strokes, "size"), ...pixels);
    const surface = (solid) => {
      gl.useProgram(faces);
      gl.uniform4f(gl.getUniformLocation(faces, "fill"), ...solid.fill, solid.opacity);
      gl.bindVertexArray(solid.array);
      gl.drawElements(gl.TRIANGLES, solid.count, solid.wide ? gl.UNSIGNED_INT : gl.UNSIGNED_SHORT, 0);
    };
    const stroke = (part, ink, opacity, width, dashed) => {
      gl.useProgram(strokes);
      gl.uniform4f(gl.getUniformLocation(strokes, "fill"), ...ink, opacity);
      gl.uniform1f(gl.getUniformLocation(strokes, "width"), width * fine);
      gl.uniform1f(gl.getUniformLocation(strokes, "dash"), dashed ? 5 * fine : 0);
      gl.bindVertexArray(part.array);
      gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, part.count);
    };
    gl.disable(gl.BLEND);
    for (const solid of solids.filter((one) => one.opacity === 1)) {
      surface(solid);
      stroke(solid.edges, EDGE, 1, 1, false);
    }
    for (const line of lines) stroke(line.segments, seen(line.ink), 1, line.width, line.dashed);
    gl.enable(gl.BLEND);
    const near = (one) => rows[2].reduce((sum, part, k) => sum + part * one.middle[k], 0);
    const ghosts = solids.filter((one) => one.opacity < 1).sort((one, other) => near(one) - near(other));
    for (const ghost of ghosts) {
      gl.colorMask(false, false, false, false);
      surface(ghost);
      gl.colorMask(true, true, true, true);
      surface(ghost);
      stroke(ghost.edges, seen(EDGE), ghost.opacity, 1, false);
    }
    for (const { span, at } of words) {
      const [x, y] = rows.map((row) => row[0] * at[0] + row[1] * at[1] + row[2] * at[2]);
      const left = (1 + (x + place[0]) * scale[0]) / 2 * wide + 6;
      const top = (1 - (y + place[1]) * scale[1]) / 2 * tall;
      span.style.transform = `translate(${left}px, ${top}px) translateY(-50%)`;
    }
    live.classList.remove("waiting");
    still.hidden = true;
    for (const button of document.querySelectorAll("[data-view]")) {
      const [a, e] = data.views[button.dataset.view];
      button.setAttribute("aria-pressed", String(Math.abs((around - a) % 360) < 1e-6 && up === e));
    }
  };
  const redraw = () => {
    if (!waiting) { waiting = true; requestAnimationFrame(draw); }
  };
  const turn = (by, over) => {
    around = (around + by) % 360;
    up = Math.max(-90, Math.min(90, up + over));
    redraw();
  };
  const move = (right, higher) => {
    const small = 0.485 * zoom * Math.min(canvas.clientWidth, canvas.clientHeight - BAR);
    shift = [shift[0] + right / small, shift[1] + higher / small];
    redraw();
  };
  const enlarge = (by) => { zoom = Math.max(0.2, Math.min(40, zoom * by)); redraw(); };
  // A standard view fills the frame with everything that is seen; turning by hand keeps the scale.
  const look = (name) => {
    [around, up] = data.views[name];
    const rows = matrix(), low = [Infinity, Infinity], high = [-Infinity, -Infinity];
    for (const points of everything) {
      for (let i = 0; i < points.length; i += 3) {
        for (const k of [0, 1]) {
          const at = rows[k][0] * points[i] + rows[k][1] * points[i + 1] + rows[k][2] * points[i + 2];
          if (at < low[k]) low[k] = at;
          if (at > high[k]) high[k] = at;
        }
      }
    }
    const room = [canvas.clientWidth, canvas.clientHeight - BAR], small = Math.min(...room);
    const fit = room.map((size, k) => (size - 2 * RIM) * 2 * data.steps / Math.max(high[k] - low[k], 1));
    zoom = Math.max(0.2, Math.min(...fit) / (0.97 * small));
    shift = [0, 1].map((k) => -(low[k] + high[k]) / 2 / data.steps);
    redraw();
  };

  for (const button of document.querySelectorAll("button")) {
    button.addEventListener("click", () => {
      if (button.dataset.view) look(button.dataset.view); else enlarge(Number(button.dataset.zoom));
    });
  }
  canvas.addEventListener("keydown", (event) => {
    const way = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (way && event.shiftKey) move(-way[0] * 20, way[1] * 20);
    else if (way) turn(-way[0] * 10, way[1] * 10);
    else if (event.key === "+" || event.key === "=") enlarge(1.25);
    else if (event.key === "-") enlarge(0.8);
    else if (event.key === "Home") look("corner");
    else return;
    event.preventDefault();
  });
  canvas.addEventListener("pointerdown", (event) => { canvas.setPointerCapture(event.pointerId); canvas.focus(); });
  canvas.addEventListener("pointermove", (event) => {
    if (!canvas.hasPointerCapture(event.pointerId)) return;
    if (event.shiftKey) move(event.movementX, -event.movementY);
    else turn(-event.movementX * 0.5, event.movementY * 0.5);
  });
  // The wheel alone scrolls the page.
  canvas.addEventListener("wheel", (event) => {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    enlarge(Math.exp(-event.deltaY * 0.002));
  }, { passive: false });
  canvas.addEventListener("webglcontextlost", () => { live.hidden = true; still.hidden = false; });

  scheme.addEventListener("change", redraw);
  live.hidden = false;
  let untouched = true;
  for (const kind of ["click", "keydown", "pointerdown"]) {
    document.addEventListener(kind, () => { untouched = false; }, { once: true, capture: true });
  }
  new ResizeObserver(() => { if (untouched) look("corner"); else redraw(); }).observe(canvas);
  look("corner");
})();
