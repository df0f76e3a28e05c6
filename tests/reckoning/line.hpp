#pragma once

namespace sixty {

/// Clocks at even distances along a line behind a relay, all resting seated; the coil of the relay
/// hangs on the supply too. Ohm's law from the far end back. SI units; values: common practice, no
/// source; copper 58e6 S/m (WIRE-10).
struct LineReckoning {
  double emf_v = 24, source_ohm = 0.3;
  double run_ohm = 2 * 7.5 / (58e6 * 1e-6);    ///< there and back, 7.5 m of 1 mm2
  double clock_ohm = 500.0 * 6000.0 / 6500.0;  ///< winding and the resistor across it
  double relay_ohm = 120.0 * 1500.0 / 1620.0;
  int clocks = 20;

  struct Volts {
    double supply, first, last;
  };
  Volts volts() const {
    double volts = 1;  // at the last; the rest follows in proportion
    double amperes = 0;
    double first = 0;
    for (int k = clocks; k >= 1; --k) {
      if (k == 1) first = volts;
      amperes += volts / clock_ohm;
      volts += amperes * run_ohm;
    }
    amperes += volts / relay_ohm;
    const double scale = emf_v / (volts + amperes * source_ohm);
    return {scale * volts, scale * first, scale};
  }
};

}  // namespace sixty
