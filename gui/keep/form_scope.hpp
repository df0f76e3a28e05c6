#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "gui/keep/form.hpp"

namespace sixty::gui {

/// One entry that is being written, or read back, within those that hold it.
struct FormPlace {
  const FormGroup* group = nullptr;
  const FormEntry* entry = nullptr;
  std::size_t number = 1;  ///< among its like, from 1
};

/// What names stand for at a place of a form: the entry's own fields first, then those around it;
/// "zones.number" is that of the entry of that group.
class FormScope {
 public:
  explicit FormScope(const FormGroup& whole, const FormEntry& filled) {
    places_.push_back({&whole, &filled, 1});
  }
  void enter(const FormPlace& place) { places_.push_back(place); }
  void leave() { places_.pop_back(); }
  void let(const std::string& name, double number) { let_[name] = number; }

  const FormPlace& innermost() const { return places_.back(); }
  /// The group of that name that an entry around here has; nullptr if there is none.
  const FormGroup* group(const std::string& name) const;
  const std::vector<FormEntry>& entries(const FormGroup& group) const;
  /// A field's words; the number of an entry for "number". Errors: nothing.
  std::optional<std::string> words(const std::string& name) const;
  /// The same as a scene has them: texts in quotes, times as a list.
  std::optional<std::string> written(const std::string& name) const;
  /// A sum's result. Errors: nothing.
  std::optional<double> work_out(std::string_view sum) const;
  /// Whether "FIELD is VALUE" holds, or a group or field has anything in it. Errors: nothing.
  std::optional<bool> holds(const std::string& condition) const;

 private:
  struct Found {
    const FormField* field = nullptr;
    std::string words;
  };
  std::optional<Found> find(const std::string& name) const;
  std::optional<double> number(const std::string& name) const;
  std::optional<double> sum_over(const std::string& group, std::string_view sum) const;

  std::vector<FormPlace> places_;  ///< from the whole form inwards
  std::map<std::string, double> let_;
};

/// "08:00, 08:45" as its pieces.
std::vector<std::string> pieces_in(const std::string& words);

}  // namespace sixty::gui
