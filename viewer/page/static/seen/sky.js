// Daylight: sky, one sun with its shadow, ground to stand on, and something for bare metal to mirror.

import { THREE } from "nicegui-scene";

export class Sky {
  constructor(scene, renderer) {
    this.renderer = renderer;
    renderer.shadowMap.enabled = true;
    renderer.shadowMap.type = THREE.PCFShadowMap;
    renderer.shadowMap.autoUpdate = false;
    this.dome = new THREE.HemisphereLight(0xf4f8ff, 0x9a9384, 1.55);
    this.sun = new THREE.DirectionalLight(0xfff3df, 2.1);
    this.sun.castShadow = true;
    this.sun.shadow.mapSize.set(2048, 2048);
    this.sun.shadow.bias = -0.001;
    this.sun.shadow.normalBias = 0.03;
    this.ground = new THREE.Mesh(new THREE.CircleGeometry(1, 48).rotateX(-Math.PI / 2), new THREE.ShadowMaterial({ opacity: 0.28 }));
    this.ground.receiveShadow = true;
    scene.add(this.dome, this.sun, this.sun.target, this.ground);
  }

  // What bare metal mirrors; made when the first bare metal is seen.
  get mirror() {
    return (this.made ??= mirrored(this.renderer));
  }

  // Fit light and ground to a box of metres; the ground is where the box ends.
  fit(box) {
    const sphere = box.getBoundingSphere(new THREE.Sphere());
    this.reach = sphere.radius;
    this.middle = sphere.center;
    this.ground.scale.setScalar(sphere.radius * 3);
    this.ground.position.set(sphere.center.x, box.min.y, sphere.center.z);
    const side = sphere.radius * 1.15;
    Object.assign(this.sun.shadow.camera, { left: -side, right: side, top: side, bottom: -side, near: side * 0.5, far: side * 6 });
    this.sun.shadow.camera.updateProjectionMatrix();
    this.shine(this.from ?? 215, this.height ?? 42);
  }

  // from: degrees clockwise in plan from the back of the house; height: degrees above level.
  shine(from, height) {
    this.from = from;
    this.height = height;
    const a = (from * Math.PI) / 180, h = (height * Math.PI) / 180;
    const away = new THREE.Vector3(Math.sin(a) * Math.cos(h), Math.sin(h), -Math.cos(a) * Math.cos(h));
    this.sun.target.position.copy(this.middle);
    this.sun.position.copy(this.middle).addScaledVector(away, this.reach * 3);
    this.sun.color.set(height < 20 ? 0xffd9a8 : 0xfff3df);
    this.stale();
  }

  stale() {
    this.renderer.shadowMap.needsUpdate = true;
  }
}

function mirrored(renderer) {
  const size = 64, sky = new Uint8Array(size * size * 4);
  for (let y = 0; y < size; y++) for (let x = 0; x < size; x++) {
    const up = y / (size - 1), bright = up > 0.5 ? 205 + 50 * Math.min(1, (up - 0.5) * 4) - 70 * Math.max(0, up - 0.75) : 110 + 60 * up;
    sky.set([bright * (up > 0.5 ? 0.94 : 1), bright * 0.98, bright, 255], (y * size + x) * 4);
  }
  const texture = new THREE.DataTexture(sky, size, size);
  texture.mapping = THREE.EquirectangularReflectionMapping;
  texture.colorSpace = THREE.SRGBColorSpace;
  texture.magFilter = texture.minFilter = THREE.LinearFilter;
  texture.needsUpdate = true;
  const maker = new THREE.PMREMGenerator(renderer);
  const map = maker.fromEquirectangular(texture).texture;
  texture.dispose();
  return map;
}
