#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/lesson/tutor.hpp"

namespace sixty::gui {

/// Takes a learner's reply to one question.
class AnswerForm {
 public:
  void begin(const lesson::Question& question);
  /// Returns the reply as soon as it is given. `selected`: the part that is pressed on the drawing.
  /// Order: within a panel.
  std::optional<lesson::Reply> show(const lesson::Question& question, const Tutor::Words& words,
                                    const lesson::Lesson& lesson, const Installation& installation,
                                    std::optional<PartId> selected);

 private:
  std::optional<lesson::Reply> show_choices(const Tutor::Words& words);
  std::optional<lesson::Reply> show_number(const lesson::Question& question,
                                           const lesson::Lesson& lesson);
  std::optional<lesson::Reply> show_part(const Installation& installation,
                                         std::optional<PartId> selected);
  std::optional<lesson::Reply> show_order(const Tutor::Words& words);

  std::string written_, complaint_;
  std::optional<std::size_t> chosen_;
  std::optional<PartId> pressed_;  ///< on the drawing, last
  std::vector<std::size_t> order_;
};

}  // namespace sixty::gui
