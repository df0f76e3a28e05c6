#include "gui/keep/form_scene.hpp"

#include <fmt/format.h>

#include "gui/keep/form_scope.hpp"
#include "gui/keep/line_merge.hpp"
#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

constexpr std::string_view kGap = "<<", kGapEnd = ">>";

class GapFiller {
 public:
  GapFiller(const std::string& scene, const FormGroup& whole, const FormEntry& filled,
            Diagnostics& mistakes)
      : lines_(lines_of(scene)), scope_(whole, filled), mistakes_(mistakes) {}

  std::optional<std::string> fill() {
    const std::size_t before = mistakes_.list().size();
    write(0, lines_.size());
    return mistakes_.list().size() == before ? std::optional(out_) : std::nullopt;
  }

 private:
  void write(std::size_t begin, std::size_t end) {
    for (std::size_t k = begin; k < end; ++k) {
      const std::string& line = lines_[k];
      if (line.substr(0, 2) != "% ") {
        write_line(line, k);
        continue;
      }
      const std::string order = trimmed(line.substr(2));
      const std::size_t space = std::min(order.find(' '), order.size());
      const std::string word = order.substr(0, space), rest = trimmed(order.substr(space));
      if (word == "let") {
        let(rest, k);
      } else if (word == "need") {
        need(rest, k);
      } else {
        const std::size_t last = end_of_block(k, end);
        if (word == "each") each(rest, k, last);
        if (word == "when") when(rest, k, last);
        if ((word != "each" && word != "when") || last == end) broken(k);
        k = last;
      }
    }
  }

  std::size_t end_of_block(std::size_t begin, std::size_t end) const {
    int open = 0;
    for (std::size_t k = begin; k < end; ++k) {
      const std::string& line = lines_[k];
      if (line.compare(0, 7, "% each ") == 0 || line.compare(0, 7, "% when ") == 0) ++open;
      if (trimmed(line) == "% end" && --open == 0) return k;
    }
    return end;
  }

  void each(const std::string& name, std::size_t line, std::size_t last) {
    const FormGroup* group = scope_.group(name);
    if (group == nullptr) return broken(line);
    std::size_t number = 0;
    const std::vector<FormEntry>& entries = scope_.entries(*group);
    for (const FormEntry& entry : entries) {
      scope_.enter({group, &entry, ++number});
      write(line + 1, last);
      scope_.leave();
    }
  }

  void when(const std::string& condition, std::size_t line, std::size_t last) {
    const auto holds = scope_.holds(condition);
    if (!holds) return broken(line);
    if (*holds) write(line + 1, last);
  }

  void let(const std::string& rest, std::size_t line) {
    const std::size_t equals = std::min(rest.find('='), rest.size());
    const auto number = scope_.work_out(rest.substr(std::min(equals + 1, rest.size())));
    if (!number) return broken(line);
    scope_.let(trimmed(rest.substr(0, equals)), *number);
  }

  void need(const std::string& rest, std::size_t line) {
    const std::size_t colon = rest.find(" : ");
    const auto number = scope_.work_out(rest.substr(0, colon));
    if (colon == std::string::npos || !number) return broken(line);
    if (*number >= 0) return;
    const FormPlace& place = scope_.innermost();
    const std::string what =
        place.group->one.empty() ? "" : fmt::format("{} {}: ", place.group->one, place.number);
    mistakes_.add({"form", 0, 0, what + filled(trimmed(rest.substr(colon + 3)), line), "", "",
                   "change what was filled in"});
  }

  void write_line(const std::string& line, std::size_t number) {
    out_ += filled(line, number) + "\n";
  }

  std::string filled(const std::string& line, std::size_t number) {
    std::string text;
    for (std::size_t at = 0; at < line.size();) {
      const std::size_t gap = line.find(kGap, at);
      const std::size_t end = gap == std::string::npos ? gap : line.find(kGapEnd, gap);
      if (end == std::string::npos) return text + line.substr(at);
      text += line.substr(at, gap - at);
      const std::string name = trimmed(line.substr(gap + 2, end - gap - 2));
      std::optional<std::string> value;
      if (!name.empty() && name[0] == '=') {
        if (const auto result = scope_.work_out(name.substr(1)))
          value = fmt::format("{:.1f}", *result);
      } else {
        value = scope_.written(name);
      }
      if (!value) broken(number);
      text += value.value_or("");
      at = end + kGapEnd.size();
    }
    return text;
  }

  /// The form itself is wrong, or lets something through that it should have refused.
  void broken(std::size_t line) {
    mistakes_.add({"form", static_cast<int>(line) + 1, 1,
                   "this line of the form cannot be filled in", lines_[line],
                   "fields and groups that the form has", "correct the form"});
  }

  const std::vector<std::string> lines_;
  FormScope scope_;
  Diagnostics& mistakes_;
  std::string out_;
};

}  // namespace

std::optional<std::string> fill_gaps(const std::string& scene, const FormGroup& whole,
                                     const FormEntry& filled, Diagnostics& mistakes) {
  return GapFiller(scene, whole, filled, mistakes).fill();
}

}  // namespace sixty::gui
