// Lengths as the scene wants them written: feet, inches and fractions, or millimeters. A half goes up.

const divisor = (a, b) => (b ? divisor(b, a % b) : a);

export function lengthWriter({ style, denominator }) {
  if (style === "mm") return (inches) => `${Math.floor(inches * 25.4 + 0.5)} mm`;
  return (inches) => {
    const parts = Math.floor(inches * denominator + 0.5);
    const feet = Math.floor(parts / (12 * denominator));
    const whole = Math.floor((parts % (12 * denominator)) / denominator);
    const rest = parts % denominator;
    const words = feet ? [`${feet}'`] : [];
    if (whole || feet || !rest) words.push(`${whole}`);
    if (rest) {
      const common = divisor(rest, denominator);
      words.push(`${rest / common}/${denominator / common}`);
    }
    return `${words.join(" ")}"`;
  };
}
