#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace sixty::practice {

/// How one step of a lesson went that wanted something.
struct StepTaken {
  std::string lesson, topic, step;  ///< file's name, topic's and step's English words
  bool right = false;
  int hints = 0;
  std::string when;  ///< ISO 8601, by the machine's clock
};

/// How one hunt went.
struct HuntTaken {
  std::string scene, level;
  std::uint64_t seed = 0;
  bool mended = false, proved = false;
  double minutes = 0, best_minutes = 0, harm = 0;
  int needless = 0, harmful = 0, good_parts = 0;
  std::string when;
};

/// What one learner has done; kept in a small file of their own, and nowhere else.
struct Progress {
  std::string learner;
  std::vector<StepTaken> steps;  ///< in the order in which they were taken
  std::vector<HuntTaken> hunts;
};

/// How well a topic is mastered: of each step the last time counts, half where hints were needed.
struct Mastery {
  int steps = 0;
  double share = 0;  ///< Range: 0 to 1
};
std::map<std::string, Mastery> mastery_of(const Progress& progress);
/// The same of each lesson.
std::map<std::string, Mastery> mastery_of_lessons(const Progress& progress);

/// Names that a learner's file may bear: letters, digits, blanks, "-", "_" and ".", the first a
/// letter; at most 40 bytes.
bool is_learner(const std::string& name);

/// A folder with a file for each learner.
class Learners {
 public:
  explicit Learners(std::string folder) : folder_(std::move(folder)) {}
  /// In order of their names.
  std::vector<std::string> names() const;
  /// What is known of one; of a new one that there is nothing yet. Errors: nothing, where there is
  /// a file that is not to be written over: it cannot be read, or is of another version; `told`
  /// says why. One that is damaged is such a file too, or, with `puts_aside`, kept under another
  /// name, and then there is nothing yet.
  std::optional<Progress> read(const std::string& learner, std::string& told,
                               bool puts_aside = true) const;
  /// Keeps it, whole or not at all. Errors: false, the reason in `error`.
  bool write(const Progress& progress, std::string& error) const;
  /// Forgets one. Errors: as above.
  bool forget(const std::string& learner, std::string& error) const;
  std::string path_of(const std::string& learner) const;

 private:
  std::string folder_;
};

/// Where they are kept: sixtybeats/learners in the folder that was chosen, or else in .local/share
/// of the user's home. Empty where there is neither. Source: XDG Base Directory Specification.
std::string learners_folder(const std::string& chosen);

/// For an instructor: a line for each learner and topic, RFC 4180.
std::string progress_csv(const std::vector<Progress>& all);
/// The same as a page that can be printed, with the hunts of each.
std::string progress_html(const std::vector<Progress>& all);

}  // namespace sixty::practice
