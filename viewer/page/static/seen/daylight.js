// Daylight on a surface: what it mirrors of the sky, and the brightest drawn in, by the formulas that pictures are lit by.

import { THREE } from "nicegui-scene";

const sky = { skyZenith: { value: new THREE.Vector3() }, skyHorizon: { value: new THREE.Vector3() },
  skyGround: { value: new THREE.Vector3() } };

const MIRROR = `
uniform vec3 skyZenith, skyHorizon, skyGround;
vec3 mirroredSky(float up, float rough) {
  float share = smoothstep(0.0, 1.0, 0.5 + 0.5 * up / (0.04 + 0.75 * rough));
  vec3 above = mix(skyHorizon, skyZenith, pow(clamp(up, 0.0001, 1.0), 0.55 + 0.6 * rough));
  return mix(skyGround, above, share);
}
`;
const SHOULDER = `
vec3 drawnIn(vec3 light) {
  return mix(light, 0.78 + 0.22 * (1.0 - exp((0.78 - light) / 0.22)), step(0.78, light));
}
`;

// What surfaces mirror from now on: of a daylight as `daylightAt` gives it.
export function mirrorDaylight({ zenith, horizon, ground }) {
  sky.skyZenith.value.fromArray(zenith);
  sky.skyHorizon.value.fromArray(horizon);
  sky.skyGround.value.fromArray(ground);
}

// The daylight when the sun stands so many degrees high: between those of `days`, from low to high.
export function daylightAt(days, height) {
  const above = days.findIndex((one) => one.height >= height);
  if (above <= 0) return days.at(above);
  const low = days[above - 1], high = days[above], share = (height - low.height) / (high.height - low.height);
  const mixed = ([name, color]) => [name, color.map?.((band, i) => band + share * (high[name][i] - band)) ?? height];
  return Object.fromEntries(Object.entries(low).map(mixed));
}

// Lights a shader so; what is dull mirrors nothing.
export function inDaylight(shader, dull) {
  Object.assign(shader.uniforms, sky);
  let text = shader.fragmentShader.replace("#include <opaque_fragment>",
    "outgoingLight = drawnIn(outgoingLight);\n#include <opaque_fragment>");
  if (!dull) text = text.replace("#include <lights_fragment_maps>",
    "#include <lights_fragment_maps>\nradiance += mirroredSky(inverseTransformDirection(reflect(-geometryViewDir, geometryNormal), viewMatrix).y, material.roughness);");
  shader.fragmentShader = `${MIRROR}${SHOULDER}${text}`;
}
