// What the server puts into the page: it mounts the workspace once it has its words, and carries values both ways.

import { speak } from "trimwright/common/words.js";
import { mountWorkspace } from "trimwright-app/workspace.js";

export default {
  template: `<div class="tw-workspace"></div>`,
  mounted() {
    this.$emit("act", { do: "ready" });
  },
  methods: {
    told({ words, ...values }) {
      if (words) this.take(words);
      if (Object.keys(values).length) this.workspace.told(values);
    },
    // A page that is written in one language is loaded again for another.
    take(words) {
      if (this.workspace) return location.reload();
      speak(words);
      this.workspace = mountWorkspace(this.$el, (what) => this.$emit("act", what));
      this.$el.workspace = this.workspace;
    },
  },
};
