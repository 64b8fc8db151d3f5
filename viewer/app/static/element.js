// What the server puts into the page: it mounts the bench and carries words both ways.

import { mountBench } from "trimwright-app/bench.js";

export default {
  template: `<div class="tw-bench-place"></div>`,
  mounted() {
    this.bench = mountBench(this.$el, (what) => this.$emit("act", what));
    this.$el.bench = this.bench;
    this.$emit("act", { do: "ready" });
  },
  methods: {
    told(values) {
      this.bench.told(values);
    },
  },
};
