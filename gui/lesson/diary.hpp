#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/lesson/sitting.hpp"
#include "sim/practice/progress.hpp"

namespace sixty::gui {

/// What a learner has done, kept in their own file as it is done; of who gives no name nothing is
/// kept.
class Diary {
 public:
  /// `folder`: of all learners; empty: the user's own.
  explicit Diary(std::string folder = "");
  /// Whose it is. Errors: false, where no file can bear that name.
  bool open(const std::string& learner);
  const std::string& learner() const { return learner_; }
  void add(const lesson::Lesson& lesson, const lesson::Fared& fared);
  void add(practice::HuntTaken taken);
  /// What could not be read or kept; empty: nothing.
  const std::string& told() const { return told_; }
  /// Nothing where nobody's is kept, or it cannot be read.
  std::optional<practice::Progress> progress() const;

 private:
  void keep(const practice::Progress& progress);
  practice::Learners learners_;
  std::string learner_;
  mutable std::string told_;
};

}  // namespace sixty::gui
