// Recordings of the tests' own.

/** A WAV file of so many samples a channel, 16 bit: pulses, then waves with noise. */
export const wav = (samples, channels, rate = 200_000) => {
  const data = new Int16Array(samples * channels);
  for (let i = 0; i < samples; i++) {
    for (let c = 0; c < channels; c++) {
      const value = c === 0 ? (i / 500 | 0) % 2 * 20000 : Math.sin(i / (40 + c)) * 15000;
      data[i * channels + c] = value + Math.random() * 800;
    }
  }
  const size = data.byteLength, frame = channels * 2, head = Buffer.alloc(44);
  head.write("RIFF", 0); head.writeUInt32LE(36 + size, 4); head.write("WAVEfmt ", 8); head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20); head.writeUInt16LE(channels, 22); head.writeUInt32LE(rate, 24); head.writeUInt32LE(rate * frame, 28);
  head.writeUInt16LE(frame, 32); head.writeUInt16LE(16, 34); head.write("data", 36); head.writeUInt32LE(size, 40);
  return Buffer.concat([head, Buffer.from(data.buffer)]);
};
