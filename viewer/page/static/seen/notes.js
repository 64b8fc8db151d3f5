// What is written on the roof: the marks of its pieces, the notes of a view point, and the lines of a step of the work.

import { THREE } from "nicegui-scene";
import { crossed } from "trimwright/common/crossed.js";

const DOTS = 32; // parts of a straight line, so that it follows the bends that it crosses

export function writeMarks({ overlay, data, arrangement, viewpoints, pieces }) {
  overlay.clear("marks");
  for (const label of data.labels) {
    overlay.add({
      ...noteOf(label), group: "marks",
      when: () => arrangement.shown.marks && pieces.get(label.mark).body.visible && !viewpoints.current?.labels.length,
    });
  }
}

export function writeNotes({ overlay }, { labels, lines }) {
  overlay.clear("viewpoint");
  for (const label of labels) overlay.add({ ...noteOf(label), group: "viewpoint" });
  for (const line of lines) overlay.stroke({ ...vectors(line), kind: line.kind, text: line.text, group: "viewpoint" });
}

// Draws lines of a piece's flat pattern where they lie on the roof; none takes them away.
export function writeWork({ overlay, pieces, painter }, mark, lines, kind) {
  overlay.clear("work");
  const { formed } = pieces.get(mark);
  for (const line of lines.flatMap(crossed)) {
    const points = line.slice(1).flatMap((end, i) => dotted(line[i], end)).map((point) => onRoof(formed, point));
    if (points.length) overlay.stroke({ points, kind, group: "work" });
  }
  painter.draw();
}

// Where a point of a flat pattern lies on the roof.
function onRoof({ v, section, place }, [u, across]) {
  const i = Math.min(Math.max(v.findIndex((one) => one >= across), 1), v.length - 1);
  const share = (across - v[i - 1]) / (v[i] - v[i - 1]);
  const [out, up] = [0, 1].map((k) => section[i - 1][k] + (section[i][k] - section[i - 1][k]) * share);
  return new THREE.Vector3(...place.map((row) => row[0] * u + row[1] * out + row[2] * up + row[3]));
}

function dotted([u, v], [u2, v2]) {
  return Array.from({ length: DOTS + 1 }, (_, i) => [u + ((u2 - u) * i) / DOTS, v + ((v2 - v) * i) / DOTS]);
}

const noteOf = ({ text, kind, priority, ...where }) => ({ ...vectors(where), text, kind, priority });

const vectors = ({ points, normals }) => ({
  points: points.map((point) => new THREE.Vector3(...point)),
  normals: normals?.map((normal) => new THREE.Vector3(...normal)),
});
