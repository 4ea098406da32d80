"use strict";
// Puts back what lies packed at the end of a book in one file, before the page counts as loaded and may be printed.
(() => {
  // Deflate (RFC 1951); a browser's own works only after that.
  const inflate = (data, size) => {
    const out = new Uint8Array(size);
    let at = 0, end = 0, bits = 0, held = 0;
    const take = (count) => {
      for (; held < count; held += 8) bits |= data[at++] << held;
      const taken = bits & ((1 << count) - 1);
      bits >>>= count;
      held -= count;
      return taken;
    };
    const tree = (lengths) => {
      const counts = new Array(16).fill(0), symbols = [];
      for (const length of lengths) counts[length] += 1;
      for (let length = 1; length < 16; length += 1) {
        lengths.forEach((each, symbol) => { if (each === length) symbols.push(symbol); });
      }
      return { counts, symbols };
    };
    const symbol = ({ counts, symbols }) => {
      for (let length = 1, code = 0, first = 0, index = 0; length < 16; length += 1) {
        code |= take(1);
        if (code - first < counts[length]) return symbols[index + code - first];
        index += counts[length];
        first = (first + counts[length]) << 1;
        code <<= 1;
      }
      throw new Error("the packed part is damaged");
    };
    const range = (first, each, groups) => { // the least value of each code, and how many bits are added to it
      const bases = [], extra = [];
      for (let group = 0, base = first; group < groups; group += 1) {
        const more = Math.max(0, Math.floor(group / each) - 1);
        bases.push(base);
        extra.push(more);
        base += 1 << more;
      }
      return { bases, extra };
    };
    const LENGTH = range(3, 4, 29), BACK = range(1, 2, 30);
    LENGTH.bases[28] = 258;
    LENGTH.extra[28] = 0;
    const fixed = [144, 112, 24, 8].flatMap((count, k) => new Array(count).fill([8, 9, 7, 8][k]));
    const trees = () => {
      const counts = [take(5) + 257, take(5) + 1], few = new Array(19).fill(0), lengths = [];
      const order = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];
      for (let left = take(4) + 4, k = 0; k < left; k += 1) few[order[k]] = take(3);
      const short = tree(few);
      while (lengths.length < counts[0] + counts[1]) {
        const found = symbol(short);
        if (found < 16) lengths.push(found);
        else {
          const again = found === 16 ? lengths.at(-1) : 0;
          for (let left = [3, 3, 11][found - 16] + take([2, 3, 7][found - 16]); left > 0; left -= 1) lengths.push(again);
        }
      }
      return [tree(lengths.slice(0, counts[0])), tree(lengths.slice(counts[0]))];
    };
    for (let last = 0; !last;) {
      last = take(1);
      const kind = take(2);
      if (kind === 0) {
        bits = held = 0;
        const length = data[at] | (data[at + 1] << 8);
        out.set(data.subarray(at + 4, at + 4 + length), end);
        at += 4 + length;
        end += length;
        continue;
      }
      const [letters, backs] = kind === 1 ? [tree(fixed), tree(new Array(30).fill(5))] : trees();
      for (let found = symbol(letters); found !== 256; found = symbol(letters)) {
        if (found < 256) out[end++] = found;
        else {
          const length = LENGTH.bases[found - 257] + take(LENGTH.extra[found - 257]), code = symbol(backs);
          const back = BACK.bases[code] + take(BACK.extra[code]);
          for (let k = 0; k < length; k += 1, end += 1) out[end] = out[end - back];
        }
      }
    }
    return out;
  };

  const kept = document.getElementById("fw-pieces");
  const bytes = Uint8Array.from(atob(kept.textContent), (sign) => sign.charCodeAt(0));
  const pieces = new TextDecoder().decode(inflate(bytes, Number(kept.dataset.size))).split("\u001e");
  document.querySelectorAll(".fw-packed").forEach((place, number) => {
    const made = document.createElement("template");
    made.innerHTML = pieces[number];
    const frame = made.content.querySelector("iframe"), still = place.querySelector("svg");
    if (frame && still) frame.srcdoc = frame.srcdoc.replace("\u001f", () => still.outerHTML);
    place.replaceWith(made.content);
  });
})();
