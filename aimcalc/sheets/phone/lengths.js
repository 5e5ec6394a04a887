"use strict";
// Lengths as people type them and as the sheets print them. Metres inside.
const lengths = (() => {
  const INCH = 0.0254, FOOT = 12 * INCH;
  const UNITS = { m: 1, cm: 0.01, mm: 0.001, ft: FOOT, in: INCH };
  const NUMBER = /^(\d+(?:[.,]\d+)?|[.,]\d+)$/;

  function amount(text) {
    const words = text.trim();
    if (NUMBER.test(words)) return Number(words.replace(",", "."));
    const parts = words.match(/^(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)$/);
    return parts && Number(parts[3]) ? Number(parts[1] || 0) + Number(parts[2]) / Number(parts[3]) : NaN;
  }

  // Metres of "18'-6 1/2\"", "5.64 m", "222 in" or a number in `unit`; NaN of what is no length.
  function read(typed, unit) {
    const text = typed.toLowerCase().replace(/[′’‘]/g, "'").replace(/[″”“]|''/g, '"').trim();
    const feet = text.match(/^([^'a-z]+)(?:'|ft)[\s-]*(?:([^"'a-z]+)(?:"|in)?)?$/);
    let metres;
    if (feet) {
      const whole = amount(feet[1]), inches = feet[2] === undefined ? 0 : amount(feet[2]);
      const broken = feet[2] !== undefined && (whole !== Math.floor(whole) || inches >= 12);
      metres = broken ? NaN : whole * FOOT + inches * INCH;
    } else {
      const parts = text.match(/^([^a-z"]+?)\s*(cm|mm|m|in|")?$/);
      const of = parts && (parts[2] === '"' ? "in" : parts[2] || unit);
      metres = parts ? amount(parts[1]) * UNITS[of] : NaN;
    }
    return metres <= 1000 ? metres : NaN;
  }

  const steps = (value, step) => Math.floor(Math.abs(value) / step + 0.5 + 1e-9);

  // The size of a length, "1.60 m" to the centimetre or "18'-6\"" to the inch.
  function said(metres, length) {
    if (length === "m") return (steps(metres, 0.01) * 0.01).toFixed(2) + " m";
    const inches = steps(metres, INCH);
    return `${Math.floor(inches / 12)}'-${inches % 12}"`;
  }

  // A place along an axis by its size and side: "1.60 m SR", "CENTRE LINE".
  function placed(metres, sides, zero, length) {
    const plain = said(metres, length);
    return Number(plain.replace(/[^\d]/g, "")) ? `${plain} ${sides[metres < 0 ? 1 : 0]}` : zero;
  }

  return { read, said, placed };
})();
