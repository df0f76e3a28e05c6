#include "sim/cli/signals.hpp"

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/cli/command_line.hpp"

namespace sixty::cli {
namespace {

// Finds the signals of one item after another.
class Finder {
 public:
  Finder(const Installation& installation, Diagnostics& mistakes)
      : installation_(installation), mistakes_(mistakes) {}

  void find(const std::string& item) {
    const std::size_t dot = item.find('.');
    if (dot == std::string::npos) {
      add_mistake(mistakes_, "--signals: this is no reading of a part", item,
                  "PART.READING or PART.*, with commas in between",
                  "put a dot between the part and its reading");
      return;
    }
    const PartId part = find_part("--signals", item.substr(0, dot), installation_, mistakes_);
    if (part < installation_.parts.size()) find_readings(part, item.substr(dot + 1));
  }
  std::vector<Signal> take() { return std::move(found_); }

 private:
  void find_readings(PartId part, const std::string& wanted) {
    const std::vector<NamedDecl>& readings = installation_.parts[part].kind->declaration.readings;
    bool any = false;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      if (wanted != "*" && wanted != readings[i].name) continue;
      any = true;
      add(part, i, readings[i]);
    }
    if (any) return;
    add_unknown(mistakes_, "--signals: " + installation_.parts[part].name + " has no such reading",
                wanted, all_names(readings));
  }

  void add(PartId part, std::size_t reading, const NamedDecl& declared) {
    const auto same = [&](const Signal& s) { return s.part == part && s.reading == reading; };
    if (std::any_of(found_.begin(), found_.end(), same)) return;
    found_.push_back(
        {part, reading, installation_.parts[part].name + "." + declared.name, declared.unit});
  }

  const Installation& installation_;
  Diagnostics& mistakes_;
  std::vector<Signal> found_;
};

}  // namespace

PartId find_part(const std::string& option, const std::string& name,
                 const Installation& installation, Diagnostics& mistakes) {
  PartId part = 0;
  while (part < installation.parts.size() && installation.parts[part].name != name) ++part;
  if (part == installation.parts.size()) {
    add_unknown(mistakes, option + ": the scene has no part of this name", name,
                all_names(installation.parts));
  }
  return part;
}

std::vector<Signal> find_signals(const std::vector<std::string>& lists,
                                 const Installation& installation, Diagnostics& mistakes) {
  Finder finder(installation, mistakes);
  for (const std::string& list : lists) {
    for (const std::string& item : pieces_of(list, ',')) finder.find(item);
  }
  return finder.take();
}

}  // namespace sixty::cli
