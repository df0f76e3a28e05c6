#include "sim/cli/command_line.hpp"

#include "sim/base/text.hpp"

namespace sixty::cli {

void add_mistake(Diagnostics& mistakes, std::string what, std::string found, std::string expected,
                 std::string mend) {
  mistakes.add({"", 0, 0, std::move(what), std::move(found), std::move(expected), std::move(mend)});
}

void add_unknown(Diagnostics& mistakes, std::string what, const std::string& name,
                 const std::vector<std::string>& candidates) {
  const std::string expected =
      candidates.empty() ? "nothing: there is none" : "one of: " + listed(candidates);
  const std::string mend = did_you_mean(name, candidates);
  add_mistake(mistakes, std::move(what), printable(name), expected,
              mend.empty() ? "choose one of these" : mend);
}

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t kMost = 24;
  std::string text;
  for (std::size_t i = 0; i < names.size() && i < kMost; ++i) {
    text += (i == 0 ? "" : ", ") + names[i];
  }
  return names.size() > kMost ? text + ", ..." : text;
}

}  // namespace sixty::cli
