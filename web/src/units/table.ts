// Written from src/units/trade.cc; to write it again:
//   SHIMWRIGHT_WRITE_DOCS=1 units_tests --gtest_filter='PageTable*'

/** What each kind of quantity is shown in, and how finely. */
export const table = {
  "length": {
    metric: { name: "mm", numerator: 1, denominator: 1000 },
    imperial: { name: "in", numerator: 254, denominator: 10000 },
    metricLarge: { name: "m", numerator: 1, denominator: 1 },
    imperialLarge: { name: "ft", numerator: 3048, denominator: 10000 },
    largeFrom: 10,
  },
  "area": {
    metric: { name: "mm²", numerator: 1, denominator: 1000000 },
    imperial: { name: "in²", numerator: 64516, denominator: 100000000 },
  },
  "volume": {
    metric: { name: "mL", numerator: 1, denominator: 1000000 },
    imperial: { name: "fl oz", numerator: 2.9573529562499998e-05, denominator: 1 },
    metricLarge: { name: "L", numerator: 1, denominator: 1000 },
    largeFrom: 0.01,
  },
  "mass": {
    metric: { name: "kg", numerator: 1, denominator: 1 },
    imperial: { name: "lb", numerator: 0.45359237, denominator: 1 },
  },
  "force": {
    metric: { name: "N", numerator: 1, denominator: 1 },
    imperial: { name: "lbf", numerator: 4.4482216152605, denominator: 1 },
  },
  "torque": {
    metric: { name: "N·m", numerator: 1, denominator: 1 },
    imperial: { name: "in·lbf", numerator: 1129.8482902761668, denominator: 10000 },
    imperialLarge: { name: "ft·lbf", numerator: 13558.179483314003, denominator: 10000 },
    largeFrom: 20,
  },
  "pressure": {
    metric: { name: "bar", numerator: 100000, denominator: 1 },
    imperial: { name: "psi", numerator: 4.4482216152605, denominator: 0.00064516 },
  },
  "pressure difference": {
    metric: { name: "bar", numerator: 100000, denominator: 1 },
    imperial: { name: "psi", numerator: 4.4482216152605, denominator: 0.00064516 },
  },
  "stress": {
    metric: { name: "MPa", numerator: 1000000, denominator: 1 },
    imperial: { name: "ksi", numerator: 4448.2216152605, denominator: 0.00064516 },
    metricLarge: { name: "GPa", numerator: 1000000000, denominator: 1 },
    largeFrom: 10000000000,
  },
  "temperature": {
    metric: { name: "°C", numerator: 1, denominator: 1, shift: 273.15 },
    imperial: { name: "°F", numerator: 5, denominator: 9, shift: 459.67 },
    decimals: 1,
  },
  "temperature difference": {
    metric: { name: "K", numerator: 1, denominator: 1 },
    imperial: { name: "Δ°F", numerator: 5, denominator: 9 },
    decimals: 1,
  },
  "speed": {
    metric: { name: "m/s", numerator: 1, denominator: 1 },
    imperial: { name: "in/s", numerator: 254, denominator: 10000 },
  },
  "acceleration": {
    metric: { name: "m/s²", numerator: 1, denominator: 1 },
    imperial: { name: "ft/s²", numerator: 3048, denominator: 10000 },
  },
  "spring rate": {
    metric: { name: "N/mm", numerator: 1000, denominator: 1 },
    imperial: { name: "lbf/in", numerator: 44482.216152605, denominator: 254 },
  },
  "damping": {
    metric: { name: "N·s/m", numerator: 1, denominator: 1 },
    imperial: { name: "lbf·s/in", numerator: 44482.216152605, denominator: 254 },
  },
  "kinematic viscosity": {
    metric: { name: "mm²/s", numerator: 1, denominator: 1000000 },
    imperial: { name: "mm²/s", numerator: 1, denominator: 1000000 },
  },
  "dynamic viscosity": {
    metric: { name: "mPa·s", numerator: 1, denominator: 1000 },
    imperial: { name: "mPa·s", numerator: 1, denominator: 1000 },
  },
  "density": {
    metric: { name: "kg/m³", numerator: 1, denominator: 1 },
    imperial: { name: "lb/ft³", numerator: 453592370000, denominator: 28316846592 },
  },
  "volume rate": {
    metric: { name: "L/min", numerator: 1, denominator: 60000 },
    imperial: { name: "in³/s", numerator: 16387064, denominator: 1000000000000 },
  },
  "thermal expansion": {
    metric: { name: "1/K", numerator: 1, denominator: 1 },
    imperial: { name: "1/K", numerator: 1, denominator: 1 },
  },
  "angle": {
    metric: { name: "°", numerator: 3.141592653589793, denominator: 180 },
    imperial: { name: "°", numerator: 3.141592653589793, denominator: 180 },
    decimals: 1,
  },
  "frequency": {
    metric: { name: "Hz", numerator: 1, denominator: 1 },
    imperial: { name: "Hz", numerator: 1, denominator: 1 },
  },
  "time": {
    metric: { name: "s", numerator: 1, denominator: 1 },
    imperial: { name: "s", numerator: 1, denominator: 1 },
    metricLarge: { name: "min", numerator: 60, denominator: 1 },
    imperialLarge: { name: "min", numerator: 60, denominator: 1 },
    largeFrom: 120,
  },
  "power": {
    metric: { name: "W", numerator: 1, denominator: 1 },
    imperial: { name: "W", numerator: 1, denominator: 1 },
    metricLarge: { name: "kW", numerator: 1000, denominator: 1 },
    imperialLarge: { name: "kW", numerator: 1000, denominator: 1 },
    largeFrom: 10000,
  },
  "energy": {
    metric: { name: "J", numerator: 1, denominator: 1 },
    imperial: { name: "ft·lbf", numerator: 13558.179483314003, denominator: 10000 },
  },
  "height": {
    metric: { name: "m", numerator: 1, denominator: 1 },
    imperial: { name: "ft", numerator: 3048, denominator: 10000 },
    decimals: 0,
  },
  "fraction": {
    metric: { name: "%", numerator: 1, denominator: 100 },
    imperial: { name: "%", numerator: 1, denominator: 100 },
    decimals: 1,
  },
  "number": {
    metric: { name: "", numerator: 1, denominator: 1 },
    imperial: { name: "", numerator: 1, denominator: 1 },
  },
};

/** Behind the unit of a pressure. */
export const references = {
  none: "",
  gauge: "(g)",
  absolute: "(a)",
};

/** The units that a length may be typed in, by their factors to a metre. */
export const lengths = {
  "m": { numerator: 1, denominator: 1 },
  "mm": { numerator: 1, denominator: 1000 },
  "cm": { numerator: 1, denominator: 100 },
  "km": { numerator: 1000, denominator: 1 },
  "um": { numerator: 1, denominator: 1000000 },
  "µm": { numerator: 1, denominator: 1000000 },
  "μm": { numerator: 1, denominator: 1000000 },
  "in": { numerator: 254, denominator: 10000 },
  "inch": { numerator: 254, denominator: 10000 },
  "thou": { numerator: 254, denominator: 10000000 },
  "ft": { numerator: 3048, denominator: 10000 },
};
