#include "sim/cli/record_json.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "sim/base/units.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

std::string condition_text(const Condition& condition) {
  return fmt::format(R"({{"what":{},"measured":{},"needed":{},"met":{}}})",
                     json_text(condition.what), json_number(condition.measured),
                     json_number(condition.needed), condition.met);
}

std::string conditions_text(std::span<const Condition> conditions) {
  std::string list;
  for (const Condition& condition : conditions) {
    if (!list.empty()) list += ',';
    list += condition_text(condition);
  }
  return fmt::format(R"(,"conditions":[{}])", list);
}

}  // namespace

std::string json_text(std::string_view text) {
  return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string json_number(double value) {
  return std::isfinite(value) ? format_exact(value) : "null";
}

// The time is written from integers: a double cannot hold the nanoseconds of half a year.
std::string record_members(const TraceRecord& record, const Installation& installation) {
  std::string text = fmt::format(
      R"("time_s":{},"event":"{}","cause":"{}","part":{},"kind":{},"acted":{})",
      seconds_text(record.event.at), event_id_text(record.event.id),
      event_id_text(record.event.cause), json_text(part_name(installation, record.part)),
      json_text(record.kind), record.acted);
  const Measured m = measured(record);
  for (const MeasuredField& field : fields_of(m)) {
    if (field.number) text += fmt::format(R"(,"{}":{})", field.name, json_number(*field.number));
  }
  if (m.number) text += fmt::format(R"(,"number":{})", *m.number);
  if (!record.conditions.empty()) text += conditions_text(record.conditions);
  return text;
}

}  // namespace sixty::cli
