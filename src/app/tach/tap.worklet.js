/* Hands the sound of the microphone to the page, 4096 samples at a time. Runs beside the page, on the thread of the sound. */
const BLOCK = 4096;

class Tap extends AudioWorkletProcessor {
  constructor() {
    super();
    this.block = new Float32Array(BLOCK);
    this.held = 0;
  }

  process([input]) {
    const sound = input[0];
    if (!sound) return true;
    for (let i = 0; i < sound.length; i++) {
      this.block[this.held++] = sound[i];
      if (this.held === BLOCK) {
        this.port.postMessage(this.block, [this.block.buffer]);
        this.block = new Float32Array(BLOCK);
        this.held = 0;
      }
    }
    return true;
  }
}

registerProcessor('tap', Tap);
