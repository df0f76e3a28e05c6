#include "sim/part/report.hpp"

namespace sixty {

Row& Row::put(std::string key, double value, std::string unit) {
  cells_.push_back({std::move(key), value, std::move(unit)});
  return *this;
}
Row& Row::count(std::string key, std::int64_t value) {
  cells_.push_back({std::move(key), value, ""});
  return *this;
}
Row& Row::text(std::string key, std::string value) {
  cells_.push_back({std::move(key), std::move(value), ""});
  return *this;
}
Row& Row::flag(std::string key, bool value) {
  cells_.push_back({std::move(key), value, ""});
  return *this;
}
Row& Row::nothing(std::string key) {
  cells_.push_back({std::move(key), std::monostate{}, ""});
  return *this;
}

Report::Section& Report::find(const std::string& section, bool list) {
  for (Section& s : sections_) {
    if (s.name == section) return s;
  }
  sections_.push_back({section, list, {}});
  return sections_.back();
}

Row& Report::object(const std::string& section) {
  Section& s = find(section, false);
  if (s.rows.empty()) s.rows.push_back(Row{});
  return s.rows.front();
}

Row& Report::append(const std::string& section) {
  Section& s = find(section, true);
  s.rows.push_back(Row{});
  return s.rows.back();
}

void Report::say(const std::string& heading, std::string sentence) {
  for (auto& [name, sentences] : said_) {
    if (name != heading) continue;
    sentences.push_back(std::move(sentence));
    return;
  }
  said_.push_back({heading, {std::move(sentence)}});
}

}  // namespace sixty
