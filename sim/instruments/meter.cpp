#include "sim/instruments/meter.hpp"

#include <algorithm>
#include <cmath>

#include "sim/instruments/digital.hpp"
#include "sim/instruments/needle.hpp"
#include "sim/instruments/uncertainty.hpp"
#include "sim/words/words.hpp"

namespace sixty::instruments {
namespace {

constexpr double kOhmPerVolt = 20e3;
constexpr double kDigitalOhm = 10e6;
constexpr double kNeedleDrop_v = 0.3, kDigitalDrop_v = 0.2;
constexpr std::uint32_t kErrorStream = 0x3e7e;

std::vector<MeterRange> in_volts(std::initializer_list<double> scales, double ohm,
                                 double per_volt) {
  std::vector<MeterRange> ranges;
  for (const double v : scales) ranges.push_back({v, ohm + per_volt * v});
  return ranges;
}

std::vector<MeterRange> in_amperes(std::initializer_list<double> scales, double drop_v) {
  std::vector<MeterRange> ranges;
  for (const double a : scales) ranges.push_back({a, drop_v / a});
  return ranges;
}

}  // namespace

const MeterSheet& voltmeter(bool needle) {
  static const MeterSheet moving_coil{to_tr("moving-coil voltmeter"),
                                      "V",
                                      true,
                                      in_volts({2.5, 10, 50, 250}, 0, kOhmPerVolt),
                                      0,
                                      0.025,
                                      1.0 / 250};
  static const MeterSheet digital{to_tr("digital voltmeter"),
                                  "V",
                                  false,
                                  in_volts({0.4, 4, 40, 400}, kDigitalOhm, 0),
                                  0.005,
                                  2.0 / 4000,
                                  1.0 / 4000};
  return needle ? moving_coil : digital;
}

const MeterSheet& ammeter(bool needle) {
  static const MeterSheet moving_coil{to_tr("moving-coil ammeter"),
                                      "A",
                                      true,
                                      in_amperes({0.05, 0.5, 5}, kNeedleDrop_v),
                                      0,
                                      0.025,
                                      1.0 / 250};
  static const MeterSheet digital{to_tr("digital ammeter"),
                                  "A",
                                  false,
                                  in_amperes({0.04, 0.4, 4, 10}, kDigitalDrop_v),
                                  0.01,
                                  3.0 / 4000,
                                  1.0 / 4000};
  return needle ? moving_coil : digital;
}

double MeterSheet::uncertainty(double value, double full_scale) const {
  const double limit = of_reading * std::fabs(value) + of_scale * full_scale;
  return expanded_uncertainty({limit, resolution * full_scale / 2});
}

Meter::Meter(const MeterSheet& sheet, MeterRange range, std::uint64_t seed)
    : sheet_(&sheet), range_(range) {
  gain_ = sheet.of_reading * own_error(seed, sheet.name, kErrorStream, 0);
  zero_ = sheet.of_scale * own_error(seed, sheet.name, kErrorStream, 1);
  if (sheet.needle) {
    indicator_ = std::make_unique<Needle>(range.full_scale);
  } else {
    indicator_ = std::make_unique<Digital>();
  }
}

void Meter::set_range(const MeterRange& range) { range_ = range; }

Meter::Read Meter::read(Indicator::Shown shown) const {
  const double scale = range_.full_scale;
  const double step = sheet_->resolution * scale;
  const double least = sheet_->needle ? Needle::kLeastScale * scale : -scale;
  const double most = sheet_->needle ? Needle::kMostScale * scale : scale;
  const double there = std::clamp(shown.value * (1 + gain_) + zero_ * scale, least, most);
  Read read;
  read.value = to_step(there, step);
  if (read.value == 0) read.value = 0;  // no "-0.00"
  read.uncertainty = sheet_->uncertainty(read.value, scale);
  read.beyond = shown.value >= most || shown.value <= least;
  read.at_s = shown.at_s;
  return read;
}

Meter::Read Meter::last() const {
  return read({indicator_->reading(), indicator_->shown().last.at_s});
}

}  // namespace sixty::instruments
