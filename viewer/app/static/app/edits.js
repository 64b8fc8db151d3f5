// Edits on their way to the server: numbered, so that those that got lost are sent again, in their order.

const PATIENCE = 5000; // milliseconds without an answer after which an edit is sent again

export class Edits {
  // `act` sends; `late` is told the paths of the edits that have not arrived.
  constructor(act, late) {
    Object.assign(this, { act, late, last: 0, open: new Map() });
  }

  send(what) {
    const edit = { ...what, edit: ++this.last };
    this.open.set(edit.edit, edit);
    this.act(edit);
    if (this.open.size === 1) this.wait();
  }

  // What was last written into fields and has not arrived: {path as JSON: value}.
  get written() {
    return new Map([...this.open.values()].filter(({ path }) => path).map(({ path, value }) => [JSON.stringify(path), value]));
  }

  // The server has all edits up to this one.
  heard(number) {
    const before = this.open.size;
    for (const edit of this.open.keys()) if (edit <= number) this.open.delete(edit);
    if (this.open.size === before) return;
    this.wait();
    if (this.telling) this.tell();
  }

  wait() {
    clearTimeout(this.timer);
    if (this.open.size) this.timer = setTimeout(() => this.again(), PATIENCE);
  }

  again() {
    this.tell();
    for (const edit of this.open.values()) this.act(edit);
    this.wait();
  }

  // Tells which edits are still on their way; once told, again whenever fewer of them are.
  tell() {
    this.telling = this.open.size > 0;
    this.late([...this.open.values()].map(({ path }) => path));
  }
}
