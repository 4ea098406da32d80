// Questions of a lesson in one file: what is said of an option is opened by the option's own text. See kit/teach/sealed.py.
(() => {
  const K = [], H = [];
  for (let n = 2; K.length < 64; n += 1) {
    let prime = true;
    for (let d = 2; d * d <= n; d += 1) if (n % d === 0) prime = false;
    if (!prime) continue;
    const part = (root) => Math.floor((root % 1) * 4294967296) >>> 0;
    if (H.length < 8) H.push(part(Math.sqrt(n)));
    K.push(part(Math.cbrt(n)));
  }
  const turn = (x, by) => (x >>> by) | (x << (32 - by));
  // SHA-256, FIPS 180-4: a browser offers its own only to pages that came over a secure connection.
  const hash = (bytes) => {
    const padded = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64), view = new DataView(padded.buffer), state = [...H];
    padded.set(bytes);
    padded[bytes.length] = 128;
    view.setUint32(padded.length - 4, bytes.length * 8);
    for (let at = 0; at < padded.length; at += 64) {
      const w = [];
      for (let i = 0; i < 64; i += 1) {
        if (i < 16) { w.push(view.getUint32(at + 4 * i)); continue; }
        const x = w[i - 15], y = w[i - 2];
        const low = turn(x, 7) ^ turn(x, 18) ^ (x >>> 3), high = turn(y, 17) ^ turn(y, 19) ^ (y >>> 10);
        w.push((w[i - 16] + low + w[i - 7] + high) >>> 0);
      }
      let [a, b, c, d, e, f, g, h] = state;
      for (let i = 0; i < 64; i += 1) {
        const one = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + K[i] + w[i]) >>> 0;
        const two = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) >>> 0;
        [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) >>> 0, c, b, a, (one + two) >>> 0];
      }
      [a, b, c, d, e, f, g, h].forEach((value, i) => { state[i] = (state[i] + value) >>> 0; });
    }
    const out = new DataView(new ArrayBuffer(32));
    state.forEach((value, i) => out.setUint32(4 * i, value));
    return new Uint8Array(out.buffer);
  };
  const bytes = (text) => Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
  const joined = (a, b) => { const all = new Uint8Array(a.length + b.length); all.set(a); all.set(b, a.length); return all; };
  const opened = (salt, option, sealed, rounds) => {
    let key = hash(joined(salt, new TextEncoder().encode(option)));
    for (let n = 0; n < rounds; n += 1) key = hash(key);
    const plain = bytes(sealed);
    for (let at = 0; at < plain.length; at += 32) {
      const block = hash(joined(key, Uint8Array.of(0, 0, (at / 32) >> 8, (at / 32) & 255)));
      for (let i = 0; i < 32; i += 1) plain[at + i] ^= block[i];
    }
    return new TextDecoder().decode(plain).trim();
  };
  const unfold = (within) => within.querySelectorAll("[data-packed]").forEach(async (piece) => {
    const packed = new Blob([bytes(piece.dataset.packed)]).stream();
    const html = await new Response(packed.pipeThrough(new DecompressionStream("deflate-raw"))).text();
    if (piece.tagName === "IFRAME") { piece.srcdoc = html; return; }
    piece.innerHTML = html;
    unfold(piece);
  });
  unfold(document);
  document.querySelectorAll(".fw-sealed").forEach((box) => {
    const inputs = [...box.querySelectorAll("input")], button = box.querySelector("button");
    box.addEventListener("change", () => { button.disabled = false; });
    button.addEventListener("click", () => {
      const chosen = inputs.find((input) => input.checked);
      const words = opened(bytes(box.dataset.salt), chosen.value, chosen.dataset.sealed, Number(box.dataset.rounds));
      const said = box.querySelector("[role=status]");
      said.textContent = words;
      said.className = words.startsWith("✓") ? "fw-meets" : "fw-fails";
      inputs.forEach((input) => { input.disabled = true; });
      button.hidden = true;
    });
  });
})();
