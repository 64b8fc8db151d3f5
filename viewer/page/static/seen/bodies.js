// The roof as things to draw: a mesh and its bend lines for every body, and all screws as one.

import { THREE } from "nicegui-scene";

function bytes(text) {
  const letters = atob(text), result = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) result[i] = letters.charCodeAt(i);
  return result;
}

const numbers = (text, Kind) => new Kind(bytes(text).buffer);

// Tells perforated sheet which way it faces: its holes lie by that.
function layHoles(shape) {
  shape.computeVertexNormals();
  shape.setAttribute("_square", shape.getAttribute("normal"));
  shape.deleteAttribute("normal"); // light goes by the faces
}

export function buildWorld(data, finish) {
  const group = new THREE.Group(), byName = new Map();
  const points = numbers(data.shapes.points, Float32Array), side = numbers(data.shapes.side, Int8Array);
  const Index = data.shapes.index === 2 ? Uint16Array : Uint32Array;
  const faces = numbers(data.shapes.faces, Index), lines = numbers(data.shapes.lines, Index);
  const at = [0, 0, 0]; // vertices, faces and lines of the bodies before
  const bodies = data.bodies.map((body, index) => {
    const part = (all, which, wide, each = wide) =>
      new THREE.BufferAttribute(all.subarray(at[which] * wide, (at[which] + body.counts[which]) * wide), each);
    const shape = new THREE.BufferGeometry(), edges = new THREE.BufferGeometry();
    shape.setAttribute("position", part(points, 0, 3));
    shape.setAttribute("_side", part(side, 0, 1));
    shape.setIndex(part(faces, 1, 3, 1));
    if (data.holes[0] && body.kind === "pan") layHoles(shape);
    shape.computeBoundingBox();
    shape.computeBoundingSphere();
    edges.setAttribute("position", shape.getAttribute("position"));
    edges.setIndex(part(lines, 2, 2, 1));
    Object.assign(edges, { boundingBox: shape.boundingBox, boundingSphere: shape.boundingSphere });
    body.counts.forEach((count, which) => (at[which] += count));

    const mesh = new THREE.Mesh(shape);
    mesh.userData = { ...body, index, home: mesh.position.clone(), edges: new THREE.LineSegments(edges, finish.lineOf(body)) };
    mesh.castShadow = true;
    mesh.receiveShadow = true;
    mesh.userData.edges.raycast = () => {};
    mesh.add(mesh.userData.edges);
    group.add(mesh);
    byName.set(`${body.kind} ${body.name}`, mesh);
    return mesh;
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
  const { heads, head, high } = data.screws;
  const count = heads.length / 6;
  const shape = new THREE.CylinderGeometry(head * 0.42, head / 2, high, 8).translate(0, high / 2, 0);
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
