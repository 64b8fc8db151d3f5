// Daylight: the light of the sky, one sun with its shadow, and the landscape that is seen behind a finished house.

import { THREE } from "nicegui-scene";
import { daylightAt, mirrorDaylight } from "trimwright/seen/daylight.js";
import { Landscape } from "trimwright/seen/landscape.js";

const SUN = 2.95, SKY = 1.95; // how strongly they shine
const USUAL = [215, 42]; // where the sun stands when nobody says
const BELOW = 0.58; // how strong the light from below is beside that of the sky

export class Sky {
  constructor(scene, renderer) {
    this.renderer = renderer;
    this.finished = true;
    renderer.shadowMap.enabled = true;
    renderer.shadowMap.type = THREE.PCFShadowMap;
    renderer.shadowMap.autoUpdate = false;
    this.light = new THREE.HemisphereLight(0xffffff, 0xffffff, SKY);
    this.sun = new THREE.DirectionalLight(0xffffff, SUN);
    this.sun.castShadow = true;
    this.sun.shadow.mapSize.set(2048, 2048);
    this.sun.shadow.bias = -0.001;
    this.sun.shadow.normalBias = 0.03;
    this.ground = new THREE.Mesh(new THREE.CircleGeometry(1, 48).rotateX(-Math.PI / 2), new THREE.ShadowMaterial({ opacity: 0.36 }));
    this.ground.receiveShadow = true;
    this.landscape = new Landscape(scene);
    scene.add(this.light, this.sun, this.sun.target, this.ground);
  }

  take(outdoors) {
    this.days = outdoors.days;
    this.landscape.take(outdoors);
  }

  // Fit light and ground to a box of meters; the ground is where the box ends.
  fit(box) {
    const sphere = box.getBoundingSphere(new THREE.Sphere());
    this.reach = sphere.radius;
    this.middle = sphere.center;
    this.ground.scale.setScalar(sphere.radius * 3);
    this.ground.position.set(sphere.center.x, box.min.y, sphere.center.z);
    const side = sphere.radius * 1.15;
    Object.assign(this.sun.shadow.camera, { left: -side, right: side, top: side, bottom: -side, near: side * 0.5, far: side * 6 });
    this.sun.shadow.camera.updateProjectionMatrix();
    this.shine(this.from ?? USUAL[0], this.height ?? USUAL[1]);
  }

  // from: degrees clockwise in plan from the back of the house; height: degrees above level.
  shine(from, height) {
    this.from = from;
    this.height = height;
    this.place();
  }

  // The finished look is lit by the sun where it stands, and has a landscape behind it; where pieces are told apart,
  // light is as it is best for that.
  show(finished, behind) {
    this.landscape.show(finished && behind);
    if (finished === this.finished) return;
    this.finished = finished;
    this.place();
  }

  place() {
    const [from, height] = this.finished ? [this.from, this.height] : USUAL;
    const a = (from * Math.PI) / 180, h = (height * Math.PI) / 180;
    const away = new THREE.Vector3(Math.sin(a) * Math.cos(h), Math.sin(h), -Math.cos(a) * Math.cos(h));
    this.sun.target.position.copy(this.middle);
    this.sun.position.copy(this.middle).addScaledVector(away, this.reach * 3);
    const day = daylightAt(this.days, height);
    this.sun.color.fromArray(day.sun);
    this.light.color.fromArray(day.sky);
    this.light.groundColor.fromArray(day.earth).multiplyScalar(BELOW);
    mirrorDaylight(day);
    this.landscape.light(day);
    this.stale();
  }

  stale() {
    this.renderer.shadowMap.needsUpdate = true;
  }
}
