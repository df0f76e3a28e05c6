#include "gui/sound/captions.hpp"

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

std::string line_of(const PartInstance& part, std::size_t voice) {
  const Declaration& declaration = part.kind->declaration;
  const std::uint16_t event = part.part->voices()[voice].event;
  const auto found = std::find_if(declaration.events.begin(), declaration.events.end(),
                                  [&](const EventDecl& e) { return e.kind == event; });
  const std::string name = words_of_key(part.name, true);
  return found == declaration.events.end() ? name : say("{}: {}", name, tr(found->help));
}

}  // namespace

Captions::Captions(const Installation& installation) : installation_(installation) {}

void Captions::take(const Hearing& hearing) {
  const std::lock_guard lock(mutex_);
  for (const Heard& heard : hearing.heard) fresh_.insert({heard.part, heard.voice});
}

void Captions::clear() {
  const std::lock_guard lock(mutex_);
  fresh_.clear();
  shown_.clear();
}

std::vector<std::string> Captions::lines(double now_s) {
  const std::lock_guard lock(mutex_);
  for (const Source& source : fresh_) {
    const auto [it, is_new] = shown_.try_emplace(source, Line{now_s, 0});
    it->second.until_s = now_s + kStays_s;
  }
  fresh_.clear();
  std::erase_if(shown_, [&](const auto& one) { return one.second.until_s <= now_s; });
  // What began last is news; what has been going on for long, as a tick has, makes way for it.
  std::vector<std::pair<double, Source>> order;
  for (const auto& [source, line] : shown_) order.emplace_back(line.since_s, source);
  std::sort(order.begin(), order.end());
  if (order.size() > kMostLines) order.erase(order.begin(), order.end() - kMostLines);
  std::vector<std::string> lines;
  for (const auto& [since_s, source] : order)
    lines.push_back(line_of(installation_.parts[source.first], source.second));
  return lines;
}

}  // namespace sixty::gui
