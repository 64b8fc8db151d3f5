// Surfaces: sheet metal, of which one material paints the painted side, primes the back, leaves the cut edges bright and
// colors the foam that goes with it; and what is dull.

import { THREE } from "nicegui-scene";
import { inDaylight } from "trimwright/seen/daylight.js";

const HOLES = { value: new THREE.Vector2() }, LIKE = { value: new THREE.Vector4() }, FINE = { value: new THREE.Vector2() };
const PRIMER = new THREE.Color(), CUT = new THREE.Color();
const STACKED = { flatShading: true, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };

// Colors what all sheets have in common, once the roof is told: the primer behind paint, and the cut edges.
export function primed({ back, cut }) {
  PRIMER.set(back);
  CUT.set(cut);
}

// Tells of the holes of perforated sheet: diameter and distance, meters, and how they are drawn.
export function perforated([hole, apart], { shows, rows, open, fine }) {
  HOLES.value.set(hole, apart);
  LIKE.value.set(shows, rows, open, 0);
  FINE.value.set(...fine);
}

// The same as hole_kernels.py, from a normal and a place in meters, y up.
const THROUGH = `
uniform vec2 holes;
uniform vec4 holesLike;
uniform vec2 holesFine;
varying vec3 vSpot;
varying vec3 vSquare;
float throughHoles() {
  vec3 normal = normalize(vSquare);
  vec3 level = length(normal.xz) > 0.001 ? normalize(vec3(normal.z, 0.0, -normal.x)) : vec3(1.0, 0.0, 0.0);
  float pixel = max(length(dFdx(vSpot)), length(dFdy(vSpot))), step = holes.y * holesLike.y;
  float up = dot(vSpot, cross(normal, level)), row = floor(up / step + 0.5), along = dot(vSpot, level) / holes.y + 0.5 * mod(row, 2.0);
  float far = length(vec2((along - floor(along + 0.5)) * holes.y, up - row * step));
  float crisp = clamp((0.5 * holes.x - far) / pixel + 0.5, 0.0, 1.0);
  float blur = clamp((pixel / holes.y - holesFine.x) / (holesFine.y - holesFine.x), 0.0, 1.0);
  return 1.0 - (1.0 - holesLike.x) * mix(crisp, holesLike.z * holes.x * holes.x / (holes.y * holes.y), blur);
}
`;

const CARRIED = `
attribute float _side;
attribute vec3 _square;
varying float vSide;
varying vec3 vSpot;
varying vec3 vSquare;
`;
const SIDES = `
uniform vec3 backColor;
uniform vec3 cutColor;
uniform vec3 foamColor;
varying float vSide;
`;

export function sheetMetal() {
  // sheets are closed bodies: the far side is never seen, but would shine through
  const material = new THREE.MeshStandardMaterial({ side: THREE.FrontSide, shadowSide: THREE.DoubleSide, ...STACKED });
  material.sides = { back: { value: PRIMER }, cut: { value: CUT }, foam: { value: new THREE.Color() } };
  material.onBeforeCompile = (shader) => {
    shader.uniforms.backColor = material.sides.back;
    shader.uniforms.cutColor = material.sides.cut;
    shader.uniforms.foamColor = material.sides.foam;
    Object.assign(shader.uniforms, { holes: HOLES, holesLike: LIKE, holesFine: FINE });
    shader.vertexShader = `${CARRIED}${shader.vertexShader}`.replace(
      "#include <begin_vertex>", "#include <begin_vertex>\nvSide = _side;\nvSpot = position;\nvSquare = _square;");
    inDaylight(shader, false);
    shader.fragmentShader = `${SIDES}${THROUGH}${shader.fragmentShader}`.replace(
      "#include <color_fragment>", `#include <color_fragment>
      bool isFoam = abs(vSide - 2.0) < 0.5;
      diffuseColor.rgb = isFoam ? foamColor : vSide > 0.5 ? diffuseColor.rgb : vSide < -0.5 ? backColor : cutColor;
      float shown = abs(vSide) > 2.5 ? throughHoles() : 1.0;
      diffuseColor.rgb *= shown;`).replace(
      "#include <roughnessmap_fragment>", "#include <roughnessmap_fragment>\nif (isFoam || shown < 0.5) roughnessFactor = 0.95;").replace(
      "#include <metalnessmap_fragment>", "#include <metalnessmap_fragment>\nif (isFoam || shown < 0.5) metalnessFactor = 0.0;");
  };
  return material;
}

// What is dull; its color is set once the roof is told.
export function plain() {
  const material = new THREE.MeshStandardMaterial({ side: THREE.DoubleSide, metalness: 0, roughness: 0.95, ...STACKED });
  material.onBeforeCompile = (shader) => inDaylight(shader, true);
  return material;
}

// coat: {color, metal, rough, bare}, as coats.py hands it out. Bare metal looks alike on both sides; paint has a primed back.
export function paint(material, { color, metal = 0, rough = 0.6, bare = false }) {
  material.color.set(color);
  material.metalness = metal;
  material.roughness = rough;
  material.sides.back.value = bare ? new THREE.Color(color) : PRIMER;
}
