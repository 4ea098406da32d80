"use strict";
// What every view in space has in common: how faces and strokes are painted, and the axes of a camera.
// `moved` is added to a face's corners once turned; it is 0 where nothing says otherwise.
const FW_FACE = [`#version 300 es
  in vec3 corner; uniform mat3 turn; uniform vec3 moved; uniform vec2 zoom; uniform vec2 shift; out vec3 place;
  void main() {
    place = turn * corner + moved;
    gl_Position = vec4((place.xy + shift) * zoom, -place.z * 0.4, 1.0);
  }`, `#version 300 es
  precision highp float;
  in vec3 place; uniform vec4 fill; out vec4 color;
  void main() {
    vec3 normal = normalize(cross(dFdx(place), dFdy(place)));
    float lit = clamp(dot(normal, vec3(-0.40, 0.55, 0.73)), 0.0, 1.0);
    color = vec4(fill.rgb * (0.55 + 0.45 * lit), fill.a);
  }`];
const FW_STROKE = [`#version 300 es
  in vec3 start; in vec3 end; in vec2 side; uniform mat3 turn; uniform vec2 zoom; uniform vec2 shift;
  uniform vec2 size; uniform float width; out float along;
  void main() {
    vec3 a = turn * start, b = turn * end;
    vec2 p = (a.xy + shift) * zoom, q = (b.xy + shift) * zoom;
    vec2 step = (q - p) * size * 0.5;
    float length_px = length(step);
    vec2 way = length_px > 1e-4 ? step / length_px : vec2(1.0, 0.0);
    vec2 off = vec2(-way.y, way.x) * side.y * width + way * (side.x - 0.5) * width;
    along = side.x * length_px;
    float near = mix(a.z, b.z, side.x);
    gl_Position = vec4(mix(p, q, side.x) + off / size, -near * 0.4 - 0.0008, 1.0);
  }`, `#version 300 es
  precision highp float;
  in float along; uniform vec4 fill; uniform float dash; out vec4 color;
  void main() {
    if (dash > 0.0 && mod(along, dash * 1.75) > dash) discard;
    color = fill;
  }`];

const fwProgram = (gl, [vertex, fragment]) => {
  const made = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(made, shader);
  }
  gl.linkProgram(made);
  return made;
};
// The directions to the right, upward and toward the eye, from degrees around and up.
const fwAxes = (around, up) => {
  const a = around * Math.PI / 180, e = up * Math.PI / 180;
  const ca = Math.cos(a), sa = Math.sin(a), ce = Math.cos(e), se = Math.sin(e);
  return [[ca, sa, 0], [-sa * se, ca * se, ce], [sa * ce, -ca * ce, se]];
};
