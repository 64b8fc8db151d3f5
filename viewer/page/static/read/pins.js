// Findings as pins on the roof: a tap on one reads it out.

import { THREE } from "nicegui-scene";
import { SIGNS, plainName } from "trimwright/read/severity.js";

export function pinFindings(app) {
  const { view, data } = app;
  view.overlay.clear("findings");
  data.findings.forEach((one) => {
    const pin = view.overlay.add({
      text: SIGNS[one.severity], kind: "pin", group: "findings", points: [new THREE.Vector3(...one.point)],
      priority: { error: 40, warning: 39, note: 38 }[one.severity], says: `Finding ${one.number}, ${one.severity}: ${plainName(one.rule)}, ${one.where}`,
      when: () => view.arrangement.shown.pins && (app.current?.name === "findings" || !one.accepted),
      finding: one,
      act: () => app.open("findings", pin.piled?.length ? [pin, ...pin.piled].map((note) => note.finding.number) : one.number, { focus: false }),
    });
    pin.el.classList.add(`tw-pin-${one.severity}`);
  });
}
