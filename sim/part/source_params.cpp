#include "sim/part/source_params.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.hpp"

namespace sixty {
namespace {

enum Reading : std::size_t { kVolts, kCurrent, kEmf };

std::string charge_text(double ah) {
  return ah < 0.001 ? fmt::format("{:.3g} mAh", ah * 1000) : fmt::format("{:.3f} Ah", ah);
}

}  // namespace

void declare_source_readings(Declaration& d) {
  d.reading("volts", "V", "voltage at the terminals", Lane::kCurve);
  d.reading("current", "A", "current that it delivers");
  d.reading("emf", "V", "electromotive force");
  d.sum("charge", "C", "charge delivered since the start");
}

double BuiltSource::volts(const Reader& r) const {
  return r.volts_between(element.plus, element.minus);
}

double BuiltSource::current_a(const Reader& r) const { return r.source_current_a(number); }

double BuiltSource::least_v(const Reader& r) const {
  const double least = r.source_least_v(number);
  return std::isfinite(least) ? least : r.volts_between(element.terminal(), element.minus);
}

double BuiltSource::read(const Reader& r, std::size_t reading) const {
  switch (reading) {
    case kVolts:
      return volts(r);
    case kCurrent:
      return current_a(r);
    case kEmf:
      return element.emf_v;
    default:
      return r.source_charge_as(number);
  }
}

void BuiltSource::report(Report& report, const Reader& r, const std::string& name,
                         const std::string& section, const std::string& list) const {
  Row row;
  row.put("min_v", least_v(r), "V")
      .put("max_a", r.source_most_a(number), "A")
      .put("charge_ah", r.source_charge_as(number) / 3600, "Ah");
  const auto& sections = report.sections();
  const bool first = std::none_of(sections.begin(), sections.end(),
                                  [&](const auto& s) { return s.name == section; });
  if (first) report.object(section).all_of(row);
  report.append(list).text("id", name).all_of(row);
}

std::string BuiltSource::sentence(const Reader& r) const {
  const double most_a = r.source_most_a(number);
  return fmt::format(
      "{} behind {}; least {} at the terminals, most {}{}, {} used",
      format_quantity(element.emf_v, "V"), format_quantity(element.resistance_ohm, "ohm"),
      format_quantity(least_v(r), "V"), format_quantity(std::fabs(most_a), "A"),
      most_a < 0 ? " driven back into it" : "", charge_text(r.source_charge_as(number) / 3600));
}

}  // namespace sixty
