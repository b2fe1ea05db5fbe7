// Programs for the graphics card. Light and shade follow rendering.py and shading.py: two lamps at the viewer, crevices
// darkened by what stands round them, fine lines between strands.

const HEAD = "#version 300 es\nprecision highp float;\nprecision highp int;\n";

const LIT = `
uniform vec4 cut;
uniform float gloss;
uniform float ambient;
uniform float diffuse;

const vec3 KEY = vec3(-0.40274, 0.54919, 0.73225);
const vec3 FILL = vec3(0.77104, -0.21418, 0.59969);

float shine(float along, float lamp, float facing) {
  float glint = max(2.0 * along * facing - lamp, 0.0) * step(1e-4, along);
  float two = glint * glint;
  float eight = two * two * two * two;
  return eight * eight * two;
}

vec3 lit(vec3 colour, vec3 normal) {
  vec3 n = normalize(normal);
  if (n.z < 0.0) n = -n;
  float a = max(dot(n, KEY), 0.0);
  float b = max(dot(n, FILL), 0.0);
  float glint = 0.92 * shine(a, KEY.z, n.z) + 0.40 * shine(b, FILL.z, n.z);
  return colour * (ambient + diffuse * (0.92 * a + 0.40 * b)) + gloss * glint;
}
`;

/** Rope: coloured by stretch and hand, by group at opened places, with pen marks. */
export const ROPE_VERTEX = `${HEAD}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in uint strand;
layout(location = 3) in float station;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 pairs[8];
uniform vec3 starts;
uniform float blend;
uniform vec3 groups[3];
uniform vec3 toned[2];
uniform float fade;
uniform uint tops[2];
uniform uint followed[2];
out vec3 vColour;
out vec3 vNormal;
out vec3 vPlace;
out float vStation;
flat out uint vGroup;
flat out uint vStretch;

float eased(float x) {
  float t = clamp(x, 0.0, 1.0);
  return t * t * t * (10.0 - 15.0 * t + 6.0 * t * t);
}

void main() {
  uint hand = strand & 1u;
  vec3 colour = pairs[hand];
  for (uint i = 0u; i < 3u; i++) {
    float share = eased((station - starts[i]) / blend + 0.5);
    colour = mix(colour, pairs[2u * i + 2u + hand], share);
  }
  for (int i = 0; i < 2; i++) {
    uint top = (tops[i] >> strand) & 1u;
    uint group = ((followed[i] >> strand) & 1u) == 1u ? 2u : 1u - top;
    float away = abs(station - toned[i].x) - (group == 2u ? toned[i].z : toned[i].y);
    colour = mix(colour, groups[group], 1.0 - eased(away / fade + 0.5));
  }
  vColour = colour;
  vNormal = turn * normal;
  vPlace = place;
  vStation = station;
  vGroup = 1u + strand % 110u;
  vStretch = station < starts.x ? 0u : station < starts.y ? 1u : station < starts.z ? 2u : 3u;
  gl_Position = project * vec4(place, 1.0);
}
`;

/** @param {boolean} cutting */
export const ropeFragment = (cutting) => `${HEAD}
in vec3 vColour;
in vec3 vNormal;
in vec3 vPlace;
in float vStation;
flat in uint vGroup;
flat in uint vStretch;
uniform float inked[12];
uniform int marks;
uniform vec3 inkPlaces[12];
uniform vec3 inkAcross[12];
uniform vec2 inkHalf;
uniform vec3 ink;
uniform vec3 dots[2];
uniform int dotted;
uniform vec2 dotRadius;
uniform vec3 dotColours[2];
uniform uint cutMask;
uniform int beforeWay;
uniform vec2 beforeAt;
uniform uint beforeStrands;
uniform vec4 beforePlane;
uniform vec4 beforeAxis;
out vec4 colour;
${LIT}
bool isBefore() {
  bool own = ((beforeStrands >> (vGroup - 1u)) & 1u) == 1u && abs(vStation - beforeAt.x) < beforeAt.y;
  vec3 away = vPlace - beforeAxis.xyz;
  float high = dot(away, beforePlane.xyz);
  return own || (high > beforePlane.w && length(away - high * beforePlane.xyz) < beforeAxis.w);
}

void main() {
  vec3 own = vColour;
  for (int i = 0; i < marks; i++) {
    vec3 away = vPlace - inkPlaces[i];
    bool near = abs(vStation - inked[i]) < inkHalf.x && abs(dot(away, inkAcross[i])) < inkHalf.y;
    if (near && away.z > 0.0) own = ink;
  }
  for (int i = 0; i < dotted; i++) {
    float away = distance(vPlace, dots[i]);
    if (away < dotRadius.y) own = dotColours[away < dotRadius.x ? 0 : 1];
  }
  uint group = vGroup;
  ${
    cutting
      ? `if (((cutMask >> vStretch) & 1u) == 1u && dot(cut.xyz, vPlace) > cut.w) discard;
  if (beforeWay > 0 && isBefore() != (beforeWay == 2)) discard;
  if (!gl_FrontFacing) {
    colour = vec4(mix(own, vec3(1.0), 0.45), float(group + 128u) / 255.0);
    return;
  }`
      : ""
  }
  colour = vec4(lit(own, vNormal), float(group) / 255.0);
}
`;

/** Terminator, tools, arrows: one colour a body. */
export const BODY_VERTEX = `${HEAD}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 offset;
out vec3 vNormal;
out vec3 vPlace;

void main() {
  vNormal = turn * normal;
  vPlace = place + offset;
  gl_Position = project * vec4(vPlace, 1.0);
}
`;

/** @param {boolean} cutting */
export const bodyFragment = (cutting) => `${HEAD}
in vec3 vNormal;
in vec3 vPlace;
uniform vec3 own;
uniform float group;
out vec4 colour;
${LIT}
void main() {
  ${
    cutting
      ? `if (dot(cut.xyz, vPlace) > cut.w) discard;
  if (!gl_FrontFacing) {
    colour = vec4(mix(own, vec3(1.0), 0.45), (group + 128.0) / 255.0);
    return;
  }`
      : ""
  }
  colour = vec4(lit(own, vNormal), group / 255.0);
}
`;

export const WHOLE_VERTEX = `${HEAD}
void main() {
  gl_Position = vec4(vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0), 0.0, 1.0);
}
`;

/** Depth behind the near plane in mm; cut faces lie in the cutting plane, whatever was drawn of what they close. */
const DEPTH = `
uniform float range;
uniform vec4 plane;

float depthOf(sampler2D depths, sampler2D colours, ivec2 p) {
  float depth = texelFetch(depths, p, 0).r;
  if (depth >= 1.0) return 1e6;
  if (plane.z == 0.0 || texelFetch(colours, p, 0).a <= 0.5) return depth * range;
  return plane.x * float(p.x) + plane.y * float(p.y) + plane.w;
}
`;

/**
 * How open each pixel lies: shading.crevices, `SAMPLES` places round it.
 * @param {number} samples
 */
export const creviceFragment = (samples) => `${HEAD}
uniform sampler2D colours;
uniform sampler2D depths;
uniform int scale;
uniform float reach;
uniform float pixel;
out vec4 shade;
${DEPTH}
void main() {
  ivec2 size = textureSize(depths, 0) / scale - 1;
  ivec2 at = ivec2(gl_FragCoord.xy);
  float here = depthOf(depths, colours, at * scale);
  shade = vec4(0.0);
  if (here > 9e5) return;
  int tile = (at.y & 3) * 4 + (at.x & 3);
  float phase = float((tile * 5) & 15) / 16.0;
  float sum = 0.0;
  for (int i = 0; i < ${samples}; i++) {
    float away = 1.5 * (float(i) + 0.5 + phase) / float(${samples + 1}) * reach;
    float angle = 2.399963 * float(i) + 6.2831853 * phase;
    ivec2 step = ivec2(round(away / pixel * vec2(cos(angle), sin(angle))));
    float rise = here - depthOf(depths, colours, clamp(at + step, ivec2(0), size) * scale);
    float fall = depthOf(depths, colours, clamp(at - step, ivec2(0), size) * scale) - here;
    float lift = rise - clamp(fall, 0.0, away);
    sum += clamp(lift / away, 0.0, 1.0) * clamp(4.0 - rise / reach, 0.0, 1.0);
  }
  shade = vec4(sum / float(${samples}), 1.0, 0.0, 1.0);
}
`;

/** One picture of one or two layers: crevices, lines, and what is seen through the nearer layer. */
export const COMPOSE_FRAGMENT = `${HEAD}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D crevices;
uniform sampler2D clearColours;
uniform sampler2D clearDepths;
uniform int scale;
uniform int spread;
uniform int coarseness;
uniform bool shaded;
uniform bool layered;
uniform float clearShare;
uniform float step;
uniform vec3 ink;
out vec4 picture;
${DEPTH}
float lineAt(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size) {
  float own = texelFetch(tints, p, 0).a;
  float here = depthOf(fars, tints, p);
  float line = 0.0;
  for (int i = 0; i < 4; i++) {
    ivec2 q = clamp(p + ivec2(i == 0 ? 1 : i == 1 ? -1 : 0, i == 2 ? 1 : i == 3 ? -1 : 0), ivec2(0), size);
    float drop = clamp((depthOf(fars, tints, q) - here) / step, 0.0, 1.0);
    line = max(line, texelFetch(tints, q, 0).a != own ? max(drop, 0.55) : 0.35 * drop);
  }
  return line;
}

float openAt(ivec2 at) {
  if (!shaded) return 0.92;
  ivec2 size = textureSize(crevices, 0) - 1;
  vec2 sum = vec2(0.0, 1e-6);
  for (int y = -spread; y < spread; y++) {
    for (int x = -spread; x < spread; x++) {
      sum += texelFetch(crevices, clamp(at / coarseness + ivec2(x, y), ivec2(0), size), 0).rg;
    }
  }
  return 1.0 - min(1.5 * sum.x / sum.y, 1.0);
}

bool isEmpty(ivec2 p) {
  return texelFetch(colours, p, 0).a == 0.0 && (!layered || texelFetch(clearColours, p, 0).a == 0.0);
}

vec4 layer(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size, float open) {
  vec4 tint = texelFetch(tints, p, 0);
  if (tint.a == 0.0) return vec4(0.0);
  return vec4(mix(tint.rgb * (0.34 + 0.66 * open), ink, 0.75 * lineAt(tints, fars, p, size)), 1.0);
}

void main() {
  ivec2 at = ivec2(gl_FragCoord.xy);
  ivec2 size = textureSize(depths, 0) - 1;
  picture = vec4(0.0);
  if (scale == 1 && isEmpty(at)) return;
  float open = openAt(at);
  vec4 sum = vec4(0.0);
  for (int y = 0; y < scale; y++) {
    for (int x = 0; x < scale; x++) {
      ivec2 p = at * scale + ivec2(x, y);
      vec4 found = layer(colours, depths, p, size, open);
      if (layered) {
        vec4 near = layer(clearColours, clearDepths, p, size, 0.92) * clearShare;
        found = near + found * (1.0 - near.a);
      }
      sum += found;
    }
  }
  picture = sum / float(scale * scale);
}
`;

/** What is drawn at a pixel, as numbers: strand or body, depth in two bytes, whether something is seen through. */
export const NUMBERS_FRAGMENT = `${HEAD}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D clearColours;
uniform vec2 scale;
uniform bool layered;
out vec4 numbers;
${DEPTH}
void main() {
  ivec2 p = clamp(ivec2(gl_FragCoord.xy * scale), ivec2(0), textureSize(colours, 0) - 1);
  float group = texelFetch(colours, p, 0).a;
  float through = layered && texelFetch(clearColours, p, 0).a > 0.0 ? 1.0 : 0.0;
  uint depth = uint(clamp(depthOf(depths, colours, p) / range, 0.0, 1.0) * 65535.0 + 0.5);
  numbers = vec4(group, float(depth >> 8u) / 255.0, float(depth & 255u) / 255.0, through);
}
`;
