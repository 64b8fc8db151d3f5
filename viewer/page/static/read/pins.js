// Findings as pins on the roof: a tap on one reads it out.

import { THREE } from "nicegui-scene";
import { say } from "trimwright/common/words.js";
import { SEVERITIES, SIGNS, plainName, severityWord } from "trimwright/read/severity.js";

const AT_THE_TABLE = ["finish", "sell"]; // sheets beside which a customer sees the house, and no pin
const FIRST = 40; // priority of an error's pin among all that is written over the roof

export function pinFindings(app) {
  const { view, data } = app;
  view.overlay.clear("findings");
  for (const one of data.findings) pinFinding(app, view, one);
}

function pinFinding(app, view, one) {
  const { number, severity, rule, where } = one;
  const pin = view.overlay.add({
    text: SIGNS[severity], kind: "pin", group: "findings", points: [new THREE.Vector3(...one.point)],
    priority: FIRST - SEVERITIES.indexOf(severity), finding: one,
    says: say("Finding {number}, {severity}: {rule}, {where}", { number, severity: severityWord(severity), rule: plainName(rule), where }),
    when: () => view.arrangement.shown.pins && !AT_THE_TABLE.includes(app.current?.part ?? app.current?.name)
      && (app.current?.name === "findings" || !one.accepted),
    act: () => app.open("findings", pin.piled?.length ? [pin, ...pin.piled].map((note) => note.finding.number) : number, { focus: false }),
  });
  pin.el.classList.add(`tw-pin-${severity}`);
}
