#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/exhibit/exhibit.hpp"

namespace sixty::exhibit {

/// Sees to those who stand in front of an exhibit: tells the story while nobody is there, puts on
/// what they ask for, and goes back to the story when they have left. Knows no screen and no clock:
/// both are told to it.
class Attendant {
 public:
  enum class Place : std::uint8_t {
    kStory,  ///< nobody is there
    kHall,   ///< somebody has touched it, and chosen nothing yet
    kThing
  };
  /// `languages`: that are offered, the first when nobody is there. Range: some of the exhibit's.
  Attendant(std::shared_ptr<const Exhibit> exhibit, std::vector<std::string> languages);

  /// Time of the wall goes by. `arrived`: the run has come to the end of the piece. Units: s.
  void pass(double wall_s, bool arrived);

  /// Somebody is there.
  void touch();
  /// What was pressed. Range: see below; what is not offered is not taken.
  void choose(std::size_t thing);
  void press(std::size_t hand);
  void another();
  void speak(std::size_t language);
  /// The story's next piece. Range: only in the story.
  void go_on();
  /// To the story, at once, in the first language.
  void go_home();

  Place place() const { return place_; }
  /// What is put on now.
  const Take& take() const;
  /// The piece that the thing began with. Range: only in kThing.
  const Take& first() const { return current().first; }
  /// How often a piece has begun: whenever it grows, the run is to be put to its beginning.
  std::uint64_t begun() const { return begun_; }
  /// It has come to its end: its answer is to be read.
  bool has_answered() const { return answered_; }
  /// Which thing it is of. Range: only in kThing.
  std::size_t thing() const { return thing_; }
  /// What can be pressed now: the hands of a case; none in the story.
  const std::vector<Take>& hands() const;
  /// The hand whose piece is put on.
  std::optional<std::size_t> pressed() const { return hand_; }
  /// A hunt's case has been found out: another can be asked for.
  bool offers_another() const;
  const std::vector<std::string>& languages() const { return languages_; }
  const std::string& language() const { return languages_[language_]; }
  /// "Still there?": how long it waits for a touch. Units: s of the wall; nothing: it does not ask.
  std::optional<double> asks() const;

  /// What has been used since last asked, for counting.
  std::vector<std::string> take_uses() { return std::exchange(uses_, {}); }
  /// How long who has just gone stayed. Units: s of the wall, the silence at the end left out.
  std::optional<double> take_stay() { return std::exchange(stay_s_, std::nullopt); }

 private:
  void begin();
  const Case& current() const { return exhibit_->things[thing_].cases[case_[thing_]]; }

  std::shared_ptr<const Exhibit> exhibit_;
  std::vector<std::string> languages_;
  Place place_ = Place::kStory;
  std::size_t language_ = 0, step_ = 0, thing_ = 0;
  std::vector<std::size_t> case_;  ///< of each thing, that is up
  std::optional<std::size_t> hand_;
  std::uint64_t begun_ = 1;
  bool answered_ = false;
  double take_s_ = 0;   ///< of the piece that is put on
  double still_s_ = 0;  ///< since it was touched, or since there is nothing more to come
  double visit_s_ = 0;
  std::vector<std::string> uses_;
  std::optional<double> stay_s_;
};

}  // namespace sixty::exhibit
