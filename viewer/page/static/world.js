// The roof as things to draw: a mesh and its bend lines for every body, and all screws as one.

import { THREE, GLTFLoader } from "nicegui-scene";

export function bytes(text) {
  const letters = atob(text), result = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) result[i] = letters.charCodeAt(i);
  return result;
}

export async function buildWorld(data, finish) {
  const group = new THREE.Group();
  const gltf = await new GLTFLoader().parseAsync(bytes(data.glb).buffer, "");
  const bodies = new Array(data.bodies.length);
  gltf.scene.traverse((node) => {
    if (node.isMesh) bodies[node.userData.body] = node; // a loader may rename nodes: identity travels in the extras
  });
  const byName = new Map();
  bodies.forEach((mesh, index) => {
    const body = data.bodies[index];
    mesh.removeFromParent();
    mesh.userData = { ...body, index, home: mesh.position.clone() };
    mesh.castShadow = true;
    mesh.receiveShadow = true;
    const lines = new THREE.BufferGeometry();
    lines.setAttribute("position", mesh.geometry.getAttribute("position"));
    lines.setIndex(body.lines);
    Object.assign(lines, { boundingBox: mesh.geometry.boundingBox, boundingSphere: mesh.geometry.boundingSphere }); // the loader has them
    mesh.userData.edges = new THREE.LineSegments(lines, finish.lineOf(body));
    mesh.userData.edges.raycast = () => {};
    mesh.add(mesh.userData.edges);
    group.add(mesh);
    byName.set(`${body.kind} ${body.name}`, mesh);
  });
  const screws = buildScrews(data, finish);
  group.add(screws);
  return { group, bodies, byName, screws };
}

export function disposeWorld(world) {
  world.group.removeFromParent();
  for (const mesh of world.bodies) {
    mesh.userData.edges.geometry.dispose();
    mesh.geometry.dispose();
  }
  world.screws.geometry.dispose();
  world.screws.dispose();
}

function buildScrews(data, finish) {
  const { heads, head } = data.screws;
  const count = heads.length / 6;
  const shape = new THREE.CylinderGeometry(head * 0.42, head / 2, head * 0.4, 8).translate(0, head * 0.2, 0);
  const mesh = new THREE.InstancedMesh(shape, finish.screw, count);
  mesh.frustumCulled = false;
  mesh.userData.kind = "screws";
  placeScrews(mesh, data, () => null);
  return mesh;
}

// shiftOf: piece's place in the list → Vector3 by which it is off its place, or null.
export function placeScrews(mesh, data, shiftOf) {
  const { heads, piece } = data.screws;
  const up = new THREE.Vector3(0, 1, 0), at = new THREE.Vector3(), facing = new THREE.Vector3();
  const turn = new THREE.Quaternion(), size = new THREE.Vector3(1, 1, 1), matrix = new THREE.Matrix4();
  for (let i = 0; i < piece.length; i++) {
    at.fromArray(heads, i * 6);
    turn.setFromUnitVectors(up, facing.fromArray(heads, i * 6 + 3));
    const shift = shiftOf(piece[i]);
    if (shift) at.add(shift).addScaledVector(facing, shift.length() * 0.35);
    mesh.setMatrixAt(i, matrix.compose(at, turn, size));
  }
  mesh.instanceMatrix.needsUpdate = true;
}
