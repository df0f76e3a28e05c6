#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "sim/part/registry.hpp"
#include "sim/scene/cause.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::diagnose {

/// A number for each cause of faults.
using ByCause = std::array<double, kCauses>;

/// Something that may be known of an installation beforehand.
struct Circumstance {
  std::string name;                ///< "new cells"
  std::vector<std::string> words;  ///< other names for it
  bool weather = false;            ///< or something that was done
  /// Where no place is told, only parts that something of this cause can strike are concerned.
  std::optional<Cause> concerns;
  double fades_days = 0;  ///< after so long half of it still counts; 0: it does not fade
  ByCause factor;         ///< by which faults become likelier. Range: above 0
};

/// What how long something has been so speaks for: (how long / usual) ^ power.
struct Ageing {
  double usual_days = 1;
  ByCause power{};
};

/// What may be known beforehand, from the file of circumstances.
class CircumstanceBook {
 public:
  /// Errors: reported, at their place in the file.
  CircumstanceBook(const std::vector<SheetText>& texts, Mistakes& mistakes);
  const Ageing& built() const { return built_; }
  const Ageing& serviced() const { return serviced_; }
  const std::vector<Circumstance>& all() const { return all_; }
  /// By its name or another of its words, capitals alike. nullptr if there is none.
  const Circumstance* find(const std::string& words, bool weather) const;
  /// Names of those that are weather, or that are not.
  std::vector<std::string> names(bool weather) const;

 private:
  Ageing built_, serviced_;
  std::vector<Circumstance> all_;
};

/// Reads how long something is: "3 days", "2 weeks", "18 months", "1.5 years", with "ago" behind it
/// or not; "today", "yesterday". Units: days. Range: 0 to 500 years. Errors: nothing.
std::optional<double> read_days(const std::string& text);

}  // namespace sixty::diagnose
