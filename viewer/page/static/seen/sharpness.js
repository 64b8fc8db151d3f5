// How fine a picture is drawn: where there is no graphics hardware, coarser while things move, and sharp once they rest.

import { THREE } from "nicegui-scene";

const REST = 500; // milliseconds without a change
const SHARP = 2, COARSE = 0.6; // pixels drawn to a pixel of the page

const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i; // drawing libraries without hardware, by the names they give

// Whether the browser draws without graphics hardware: it says so when asked to refuse that, or by the name of what draws.
function withoutHardware() {
  const gl = document.createElement("canvas").getContext("webgl2", { failIfMajorPerformanceCaveat: true });
  const name = gl?.getParameter(gl.getExtension("WEBGL_debug_renderer_info")?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER);
  gl?.getExtension("WEBGL_lose_context")?.loseContext();
  return !gl || SOFTWARE.test(name);
}

export class Sharpness {
  // sharp: asks for the sharp picture.
  constructor(sharp) {
    this.sharp = sharp;
    this.slow = withoutHardware();
    // Hardware smooths edges by samples; software is faster at more pixels, and on fine screens nobody sees either.
    this.fineness = this.slow ? SHARP : Math.min(devicePixelRatio, SHARP);
    this.renderer = new THREE.WebGLRenderer({ antialias: !this.slow && devicePixelRatio < SHARP, alpha: true,
      powerPreference: "low-power" });
    this.renderer.setPixelRatio(this.fineness);
  }

  fine(draw) {
    clearTimeout(this.resting);
    this.take(this.fineness);
    draw();
  }

  // Draws with the shadows that are there; a sharp picture follows when nothing has changed for a while.
  coarse(draw) {
    clearTimeout(this.resting);
    this.resting = setTimeout(this.sharp, REST);
    const { shadowMap } = this.renderer, stale = shadowMap.needsUpdate;
    shadowMap.needsUpdate = false;
    this.take(COARSE);
    draw();
    shadowMap.needsUpdate = stale;
  }

  take(ratio) {
    if (this.renderer.getPixelRatio() !== ratio) this.renderer.setPixelRatio(ratio);
  }
}
