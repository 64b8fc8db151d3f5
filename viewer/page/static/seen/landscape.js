// What is seen behind a finished house: sky, hills far off, and the meadow, as in the pictures.

import { THREE } from "nicegui-scene";

const MOST = 6; // waves in the line of the crests

const VERTEX = `
varying vec3 way;
void main() {
  way = position;
  gl_Position = (projectionMatrix * vec4(mat3(viewMatrix) * position, 1.0)).xyww;
}`;

const FRAGMENT = `
uniform vec3 overhead, low_sky, haze, crest, foot, far, near, fades, waves[${MOST}];
uniform float tall;
varying vec3 way;
void main() {
  float rise = way.y / max(length(way.xz), 0.0001);
  vec3 color;
  if (rise < 0.0) color = mix(far, near, 1.0 - exp(fades.z * rise));
  else {
    color = mix(low_sky, overhead, 1.0 - exp(-fades.x * rise));
    color = mix(color, haze, exp(-fades.y * rise));
    if (rise < 2.1 * tall) {
      float bearing = atan(way.x, -way.z), top = tall;
      for (int i = 0; i < ${MOST}; i++) top += tall * waves[i].y * sin(waves[i].x * bearing + waves[i].z);
      vec3 hill = mix(foot, crest, clamp(rise / top, 0.0, 1.0));
      color = mix(color, hill, clamp((top - rise) / max(fwidth(rise), 0.0001) + 0.5, 0.0, 1.0));
    }
  }
  gl_FragColor = vec4(color, 1.0);
}`;

const COLORS = ["overhead", "low_sky", "haze", "crest", "foot", "far", "near"];

export class Landscape {
  constructor(scene) {
    const uniforms = { tall: { value: 0 }, fades: { value: new THREE.Vector3() },
      waves: { value: Array.from({ length: MOST }, () => new THREE.Vector3()) } };
    for (const name of COLORS) uniforms[name] = { value: new THREE.Vector3() };
    const material = new THREE.ShaderMaterial({ uniforms, vertexShader: VERTEX, fragmentShader: FRAGMENT, side: THREE.BackSide,
      depthWrite: false });
    this.mesh = new THREE.Mesh(new THREE.SphereGeometry(1, 24, 16), material);
    this.mesh.frustumCulled = false;
    this.mesh.renderOrder = 1; // after what stands before it, so that little of it need be drawn
    this.mesh.raycast = () => {};
    scene.add(this.mesh);
  }

  take(outdoors) {
    const { uniforms } = this.mesh.material;
    uniforms.tall.value = outdoors.tall;
    uniforms.fades.value.fromArray(outdoors.fades);
    outdoors.waves.slice(0, MOST).forEach((wave, i) => uniforms.waves.value[i].fromArray(wave));
  }

  light(day) {
    for (const name of COLORS) this.mesh.material.uniforms[name].value.fromArray(day[name]);
  }

  show(on) {
    this.mesh.visible = on;
  }
}
