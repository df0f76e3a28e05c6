#include "sim/cli/event_lines.hpp"

#include <fmt/format.h>

#include "sim/base/units.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/record_json.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

constexpr std::size_t kAddressWidth = 48;

void add(std::string& text, const std::string& more) { text += (text.empty() ? "" : ", ") + more; }

// Physical quantities always, payloads only if there is one.
std::string measured_text(const TraceRecord& record) {
  const Measured m = measured(record);
  std::string text;
  if (m.current_a) add(text, format_quantity(*m.current_a, "A"));
  if (m.volts) add(text, format_quantity(*m.volts, "V"));
  if (m.needed_v) add(text, "needs " + format_quantity(*m.needed_v, "V"));
  if (m.gap_m) add(text, "gap " + format_quantity(*m.gap_m, "m"));
  if (m.speed_m_per_s.value_or(0) != 0) add(text, format_quantity(*m.speed_m_per_s, "m/s"));
  if (m.value.value_or(0) != 0) {
    add(text, record.located != nullptr ? format_quantity(*m.value, "J")
                                        : "value " + format_exact(*m.value));
  }
  if (m.number.value_or(0) != 0) add(text, fmt::format("number {}", *m.number));
  return text;
}

std::string condition_line(const Condition& c) {
  return fmt::format("      {} {}: {:.4g}, needed {:.4g}\n", c.met ? "met    " : "NOT MET", c.what,
                     c.measured, c.needed);
}

}  // namespace

std::string event_lines(const TraceRecord& record, const CauseBook& book) {
  std::string line = padded(book.address(record), kAddressWidth);
  const std::string values = measured_text(record);
  if (!record.acted) line += "  did not act";
  if (!values.empty()) line += "  " + values;
  line += "  <- " + book.cause(record) + "\n";
  for (const Condition& condition : record.conditions) line += condition_line(condition);
  return line;
}

std::string event_object(const TraceRecord& record, const CauseBook& book,
                         const Installation& installation) {
  return fmt::format(R"({{"address":{},{},"caused_by":{}}})", json_text(book.address(record)),
                     record_members(record, installation), json_text(book.cause(record)));
}

}  // namespace sixty::cli
