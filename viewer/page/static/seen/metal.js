// Surfaces: sheet metal, of which one material paints the painted side, primes the back, leaves the cut edges bright and
// colors the foam that goes with it; and what is dull.

import { THREE } from "nicegui-scene";
import { inDaylight } from "trimwright/seen/daylight.js";

const PRIMER = new THREE.Color(), CUT = new THREE.Color();
const STACKED = { flatShading: true, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };

// Colors what all sheets have in common, once the roof is told: the primer behind paint, and the cut edges.
export function primed({ back, cut }) {
  PRIMER.set(back);
  CUT.set(cut);
}

export function sheetMetal() {
  // sheets are closed bodies: the far side is never seen, but would shine through
  const material = new THREE.MeshStandardMaterial({ side: THREE.FrontSide, shadowSide: THREE.DoubleSide, ...STACKED });
  material.sides = { back: { value: PRIMER }, cut: { value: CUT }, foam: { value: new THREE.Color() } };
  material.onBeforeCompile = (shader) => {
    shader.uniforms.backColor = material.sides.back;
    shader.uniforms.cutColor = material.sides.cut;
    shader.uniforms.foamColor = material.sides.foam;
    shader.vertexShader = `attribute float _side;\nvarying float vSide;\n${shader.vertexShader}`.replace(
      "#include <begin_vertex>", "#include <begin_vertex>\nvSide = _side;");
    inDaylight(shader, false);
    shader.fragmentShader = `uniform vec3 backColor;\nuniform vec3 cutColor;\nuniform vec3 foamColor;\nvarying float vSide;\n${shader.fragmentShader}`.replace(
      "#include <color_fragment>",
      "#include <color_fragment>\ndiffuseColor.rgb = vSide > 1.5 ? foamColor : vSide > 0.5 ? diffuseColor.rgb : vSide < -0.5 ? backColor : cutColor;").replace(
      "#include <roughnessmap_fragment>", "#include <roughnessmap_fragment>\nif (vSide > 1.5) roughnessFactor = 0.95;").replace(
      "#include <metalnessmap_fragment>", "#include <metalnessmap_fragment>\nif (vSide > 1.5) metalnessFactor = 0.0;");
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
