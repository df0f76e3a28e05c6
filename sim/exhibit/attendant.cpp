#include "sim/exhibit/attendant.hpp"

#include <algorithm>

namespace sixty::exhibit {
namespace {

constexpr double kLongest_s = 120;  // a piece that goes on for longer has come to nothing

}  // namespace

Attendant::Attendant(std::shared_ptr<const Exhibit> exhibit, std::vector<std::string> languages)
    : exhibit_(std::move(exhibit)),
      languages_(std::move(languages)),
      case_(exhibit_->things.size(), 0) {}

const Take& Attendant::take() const {
  if (place_ != Place::kThing) return exhibit_->story[step_];
  return hand_ ? current().hands[*hand_] : current().first;
}

const std::vector<Take>& Attendant::hands() const {
  static const std::vector<Take> kNone;
  return place_ == Place::kThing ? current().hands : kNone;
}

bool Attendant::offers_another() const {
  return place_ == Place::kThing && exhibit_->things[thing_].cases.size() > 1 && answered_ &&
         hand_ && current().hands[*hand_].right;
}

std::optional<double> Attendant::asks() const {
  if (place_ == Place::kStory || still_s_ < exhibit_->ask_after_s) return std::nullopt;
  return std::max(exhibit_->ask_after_s + exhibit_->answer_within_s - still_s_, 0.0);
}

void Attendant::begin() {
  ++begun_;
  answered_ = false;
  take_s_ = 0;
}

void Attendant::pass(double wall_s, bool arrived) {
  take_s_ += wall_s;
  if (arrived || take().live) answered_ = true;
  if (place_ == Place::kStory) {
    if (!answered_ || take_s_ < take().least_s) return;
    go_on();
    return;
  }
  visit_s_ += wall_s;
  // Who watches need not touch anything; in the hall there is nothing to wait for.
  if (answered_ || place_ == Place::kHall || take_s_ > kLongest_s) still_s_ += wall_s;
  if (still_s_ >= exhibit_->ask_after_s + exhibit_->answer_within_s) go_home();
}

void Attendant::go_on() {
  step_ = (step_ + 1) % exhibit_->story.size();
  begin();
}

void Attendant::touch() {
  still_s_ = 0;
  if (place_ != Place::kStory) return;
  place_ = Place::kHall;
  visit_s_ = 0;
  uses_.push_back("visit");
}

void Attendant::choose(std::size_t thing) {
  if (thing >= exhibit_->things.size()) return;
  touch();
  // Another case each time that a hunt is begun anew, so that a family does not get the same.
  if (place_ == Place::kThing && thing_ == thing && hand_)
    case_[thing] = (case_[thing] + 1) % exhibit_->things[thing].cases.size();
  place_ = Place::kThing;
  thing_ = thing;
  hand_.reset();
  begin();
  uses_.push_back(exhibit_->things[thing].name);
}

void Attendant::press(std::size_t hand) {
  if (hand >= hands().size()) return;
  touch();
  hand_ = hand;
  begin();
  uses_.push_back(current().hands[hand].name);
}

void Attendant::another() {
  if (offers_another()) choose(thing_);
}

void Attendant::speak(std::size_t language) {
  if (language >= languages_.size()) return;
  touch();
  language_ = language;
  uses_.push_back("language " + languages_[language]);
}

void Attendant::go_home() {
  if (place_ != Place::kStory) stay_s_ = std::max(visit_s_ - still_s_, 0.0);
  place_ = Place::kStory;
  language_ = step_ = 0;
  hand_.reset();
  still_s_ = 0;
  begin();
}

}  // namespace sixty::exhibit
