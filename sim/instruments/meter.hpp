#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "sim/instruments/indicator.hpp"

namespace sixty::instruments {

/// What can be chosen at a meter: its full scale, and what the circuit then feels of it.
struct MeterRange {
  double full_scale = 0, resistance_ohm = 0;
};

/// A meter as its maker describes it.
struct MeterSheet {
  std::string name;  ///< in English, to be translated where it is shown: its errors hang on it
  std::string unit;
  bool needle = false;
  std::vector<MeterRange> ranges;  ///< upwards
  double of_reading = 0;           ///< limits of error: this share of what is read ...
  double of_scale = 0;             ///< ... and this share of full scale
  double resolution = 0;           ///< finest difference that can be read, of full scale

  /// Half of what the true value may be away, in 95 of 100 cases. Two errors that lie anywhere
  /// within their limits, the meter's own and that of reading it, add by squares, times two.
  /// Source: JCGM 100:2008 (GUM) 4.3.7 and 6.2.1.
  double uncertainty(double value, double full_scale) const;
};

/// Moving-coil ones: class 2.5 (a standard one of IEC 60051-1), 20 kohm for each volt of full
/// scale, 0.3 V at full scale as ammeters, read to a fifth of one of fifty divisions. Digital ones:
/// 4000 counts, 10 Mohm, 0.2 V at full scale as ammeters, 0.5 % and 2 counts (amperes: 1 % and 3).
/// Figures: common practice, no source.
const MeterSheet& voltmeter(bool needle);
const MeterSheet& ammeter(bool needle);

/// A meter of a sheet, set to a range, with the errors of its own that one such meter has.
class Meter {
 public:
  /// `seed` decides upon its errors, within their limits; the same meter has the same ones.
  Meter(const MeterSheet& sheet, MeterRange range, std::uint64_t seed);

  Indicator& indicator() { return *indicator_; }
  const MeterSheet& sheet() const { return *sheet_; }
  const MeterRange& range() const { return range_; }
  /// Sets it to another range after the event, where the circuit feels no difference.
  /// Range: not a needle's; same resistance.
  void set_range(const MeterRange& range);
  /// A value as it is read there.
  struct Read {
    double value = 0, uncertainty = 0;
    bool beyond = false;  ///< of the scale, at this end of it
    double at_s = 0;
  };
  Read last() const;
  Read least() const { return read(indicator_->shown().least); }
  Read most() const { return read(indicator_->shown().most); }
  /// The end of what it has shown that its range must hold: a needle's only forwards, a digital
  /// one's on the side where it mostly is. A coil that is cut off kicks far beyond on the other.
  Read furthest() const { return indicator_->reads_backwards() ? least() : most(); }

 private:
  Read read(Indicator::Shown shown) const;

  const MeterSheet* sheet_;
  MeterRange range_;
  double gain_ = 0, zero_ = 0;  ///< its errors: share of what is read, and of full scale
  std::unique_ptr<Indicator> indicator_;
};

}  // namespace sixty::instruments
