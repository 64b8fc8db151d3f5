// What the server puts into the page: it mounts the workspace and carries words both ways.

import { mountWorkspace } from "trimwright-app/workspace.js";

export default {
  template: `<div class="tw-workspace"></div>`,
  mounted() {
    this.workspace = mountWorkspace(this.$el, (what) => this.$emit("act", what));
    this.$el.workspace = this.workspace;
    this.$emit("act", { do: "ready" });
  },
  methods: {
    told(values) {
      this.workspace.told(values);
    },
  },
};
