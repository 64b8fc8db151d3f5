// Sheet metal: one material that paints the painted side, primes the back and leaves the cut edges bright.

import { THREE } from "nicegui-scene";

const PRIMER = "#acaba4";
const CUT = "#ecedea";
const GLOSS = { paint: [0.2, 0.52], bare: [0.85, 0.4], matt: [0, 0.95] }; // metalness, roughness

export function sheetMetal() {
  const material = new THREE.MeshStandardMaterial({ // sheets are closed bodies: the far side is never seen, but would shine through
    flatShading: true, side: THREE.FrontSide, shadowSide: THREE.DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
  });
  material.sides = { back: { value: new THREE.Color(PRIMER) }, cut: { value: new THREE.Color(CUT) } };
  material.onBeforeCompile = (shader) => {
    shader.uniforms.backColor = material.sides.back;
    shader.uniforms.cutColor = material.sides.cut;
    shader.vertexShader = `attribute float _side;\nvarying float vSide;\n${shader.vertexShader}`.replace(
      "#include <begin_vertex>", "#include <begin_vertex>\nvSide = _side;");
    shader.fragmentShader = `uniform vec3 backColor;\nuniform vec3 cutColor;\nvarying float vSide;\n${shader.fragmentShader}`.replace(
      "#include <color_fragment>",
      "#include <color_fragment>\ndiffuseColor.rgb = vSide > 0.5 ? diffuseColor.rgb : vSide < -0.5 ? backColor : cutColor;");
  };
  return material;
}

export function plain(color) {
  return new THREE.MeshStandardMaterial({
    color, flatShading: true, side: THREE.DoubleSide, metalness: 0, roughness: 0.95,
    polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
  });
}

// Bare metal mirrors the sky and looks alike on both sides; paint has a primed back.
export function paint(material, color, bare, sky) {
  const [metalness, roughness] = bare ? GLOSS.bare : GLOSS.paint;
  material.color.set(color);
  material.metalness = metalness;
  material.roughness = roughness;
  const mirror = bare && sky ? sky.mirror : null;
  if (material.envMap !== mirror) {
    material.envMap = mirror;
    material.envMapIntensity = 0.55;
    material.needsUpdate = true;
  }
  material.sides?.back.value.set(bare ? color : PRIMER);
}
