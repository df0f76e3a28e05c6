#include "gui/exhibit/exhibit_window.hpp"

#include <fmt/format.h>

#include <SFML/System/Sleep.hpp>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "gui/tour/pace_words.hpp"
#include "gui/tour/veil.hpp"
#include "gui/tour/walk.hpp"
#include "sim/base/ending.hpp"
#include "sim/tour/saying.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using Whereabouts = exhibit::Attendant::Place;

constexpr double kNotice_s = 20;      // that a notice stays, of the wall
constexpr float kMostFrame_s = 0.5F;  // a stall does not count as a visitor's silence
constexpr float kClosedFrame_s = 0.2F;
constexpr double kShift_px = 4, kShift_s = 900;  // against burnt-in pictures: once round in 15 min

bool is_chord(const exhibit::Chord& chord, const sf::Event::KeyEvent& key) {
  using K = sf::Keyboard;
  const bool is_letter_key = chord.key.size() == 1;
  const int wanted =
      is_letter_key ? K::A + (chord.key[0] - 'A') : K::F1 + std::stoi(chord.key.substr(1)) - 1;
  return key.code == wanted && key.control == chord.control && key.alt == chord.alt &&
         key.shift == chord.shift;
}

std::string first_of(const Sayings& sayings, const Installation& installation) {
  return said(in_language(sayings, spoken().code), installation,
              [](const ReadingOf&) { return 0.0; });
}

}  // namespace

ExhibitWindow::ExhibitWindow(const ExhibitOptions& options, const exhibit::Opened& opened,
                             WorldClock clock)
    : options_(options),
      opened_(opened),
      letters_(options.fonts),
      clock_of_world_(std::move(clock)),
      house_(opened.installation, exhibit::zone_of(*opened.exhibit), clock_of_world_),
      playing_(opened),
      attendant_(opened.exhibit, opened.exhibit->languages),
      keeper_(options.state),
      staff_(opened.exhibit->staff, keeper_.gate_line()) {
  house_.runner().write_captions(true);
}

Pixel ExhibitWindow::size() const {
  const sf::Vector2u s = window_.getSize();
  return {static_cast<float>(std::max(s.x, 1U)), static_cast<float>(std::max(s.y, 1U))};
}

void ExhibitWindow::open() {
  if (!letters_.error().empty()) throw std::runtime_error(letters_.error());
  if (options_.width == 0)
    window_.create(sf::VideoMode::getDesktopMode(), "Sixtybeats", sf::Style::Fullscreen);
  else
    window_.create(sf::VideoMode(options_.width, options_.height), "Sixtybeats", sf::Style::None);
  window_.setPosition({0, 0});
  window_.setKeyRepeatEnabled(false);
  if (options_.measure_frames == 0) window_.setFramerateLimit(60);
  press_.open();
  if (options_.screenshot.empty() && options_.measure_frames == 0) {
    window_.setMouseCursorVisible(false);
    sound_ = std::make_shared<Sound>(*opened_.installation, house_.seen().picture->stage);
    house_.play_on(sound_);
    sounds_live_ = true;
  }
}

bool ExhibitWindow::step() {
  if (is_asked_to_end()) window_.close();
  sf::Event event;
  while (window_.pollEvent(event)) handle(event);
  if (!window_.isOpen()) return false;
  frame(std::min(clock_.restart().asSeconds(), kMostFrame_s));
  window_.display();
  return window_.isOpen();
}

int ExhibitWindow::run() {
  open();
  keeper_.begin(now_s(), first_of(opened_.exhibit->title, *opened_.installation));
  if (!options_.screenshot.empty()) return write_picture();
  if (options_.measure_frames > 0) return measure_frames();
  while (step()) continue;
  keeper_.end(now_s());
  return 0;
}

/// What asks a window to close is no more than a touch: visitors have no way out.
void ExhibitWindow::handle(const sf::Event& event) {
  if (event.type == sf::Event::MouseButtonPressed)
    press({static_cast<float>(event.mouseButton.x), static_cast<float>(event.mouseButton.y)});
  if (event.type == sf::Event::MouseButtonReleased) held_s_.reset();
  if (event.type == sf::Event::KeyPressed) press_key(event.key);
}

void ExhibitWindow::press_key(const sf::Event::KeyEvent& key) {
  using K = sf::Keyboard;
  if (opened_.exhibit->staff.keys && is_chord(*opened_.exhibit->staff.keys, key)) {
    staff_.knock(now_s());
    return;
  }
  if (closed_ || is_out_of_order() || staff_.is_shown()) return;
  const std::size_t count = plan_.targets().size();
  // One button is enough: space goes on from target to target, enter presses it.
  if (key.code == K::Space || key.code == K::Right || key.code == K::Tab)
    focus_ = focus_ ? (*focus_ + 1) % std::max<std::size_t>(count, 1) : 0;
  if (key.code == K::Left) focus_ = focus_ && *focus_ > 0 ? *focus_ - 1 : count - 1;
  attendant_.touch();
  if (key.code == K::Enter && focus_) obey(*focus_);
}

bool ExhibitWindow::is_in_corner(Pixel at) const {
  using Corner = exhibit::StaffDoor::Corner;
  const Corner corner = opened_.exhibit->staff.corner;
  const float side = 1.5F * sizes_on(opened_.exhibit->screen, size()).target;
  const bool right = corner == Corner::kUpperRight || corner == Corner::kLowerRight;
  const bool low = corner == Corner::kLowerLeft || corner == Corner::kLowerRight;
  const float x = right ? size().x - at.x : at.x, y = low ? size().y - at.y : at.y;
  return x < side && y < side;
}

void ExhibitWindow::press(Pixel at) {
  if (staff_.is_shown()) {
    press_staff(at);
    return;
  }
  if (is_in_corner(at)) held_s_ = 0;
  if (closed_ || is_out_of_order()) return;
  focus_.reset();
  const bool was_asked = attendant_.asks().has_value();
  attendant_.touch();
  if (was_asked) return;  // it only says that somebody is there
  const std::vector<sf::FloatRect> targets = plan_.targets();
  for (std::size_t k = 0; k < targets.size(); ++k) {
    if (!targets[k].contains(at)) continue;
    obey(k);
    return;
  }
}

/// The target of that number among those of the plan.
void ExhibitWindow::obey(std::size_t target) {
  const std::size_t hands = plan_.hands.size(), things = plan_.things.size();
  if (target < hands) {
    if (attendant_.offers_another() && target + 1 == hands)
      attendant_.another();
    else
      attendant_.press(target);
  } else if (target < hands + things) {
    attendant_.choose(target - hands);
  } else {
    attendant_.speak(target - hands - things);
  }
}

void ExhibitWindow::frame(float frame_s) {
  gone_s_ += frame_s;
  house_.follow();
  note_moved();
  follow_hours();
  const bool arrived =
      !is_live() && begun_ == attendant_.begun() && playing_.follow(attendant_.take());
  if (!closed_ && !is_out_of_order()) attendant_.pass(frame_s, arrived);
  follow_staff(frame_s);
  keep();
  speak(*find_language(attendant_.language()));
  lay_out();
  follow_take();
  follow_sound();
  sight_.move(frame_s);
  gather_words();
  paint();
  if (is_dark()) sf::sleep(sf::seconds(kClosedFrame_s));
}

/// Out of hours nobody is there, whatever was going on.
void ExhibitWindow::follow_hours() {
  const exhibit::Hours& open = opened_.exhibit->open;
  const bool closed = open.are_given() && !open.hold(house_.shown());
  if (closed && !closed_) attendant_.go_home();
  closed_ = closed;
}

void ExhibitWindow::follow_take() {
  if (begun_ == attendant_.begun()) return;
  begun_ = attendant_.begun();
  const exhibit::Take& take = attendant_.take();
  if (take.live)
    playing_.rest();
  else
    playing_.begin(take);
  sight_.travel(view_of(take.scope), stage(), take.part, plan_.drawing);
}

/// One of the two runs is heard: that which is seen.
void ExhibitWindow::follow_sound() {
  if (sound_ == nullptr) return;
  sound_->set_volume(static_cast<float>(volume()));
  sound_->mute(closed_ || is_out_of_order() || opened_.exhibit->quiet.hold(house_.shown()));
  if (is_live() == sounds_live_) return;
  sounds_live_ = is_live();
  sound_->hush();
  house_.play_on(sounds_live_ ? sound_ : nullptr);
  playing_.bench().runner().play_on(sounds_live_ ? nullptr : sound_);
}

void ExhibitWindow::note_moved() {
  const auto moved = house_.take_moved();
  if (!moved) return;
  const std::int64_t minutes = moved->minutes;
  notice_ = moved->by > 0
                ? say_counted("The clocks were set forward: {} minute was left out.",
                              "The clocks were set forward: {} minutes were left out.", minutes)
                : say_counted("The clocks were set back: {} minute comes once more.",
                              "The clocks were set back: {} minutes come once more.", minutes);
  notice_until_s_ = gone_s_ + kNotice_s;
  keeper_.note(now_s(), fmt::format("the clocks were set by {}: {} minutes",
                                    format_duration(moved->by), minutes));
}

void ExhibitWindow::lay_out() {
  const ScreenNeeds needs{opened_.exhibit->things.size(), attendant_.hands().size(),
                          attendant_.languages().size(), attendant_.offers_another()};
  const sf::FloatRect before = plan_.drawing;
  plan_ = ScreenPlan(opened_.exhibit->screen, size(), needs);
  const exhibit::Take& take = attendant_.take();
  if (plan_.drawing != before)
    sight_.travel(view_of(take.scope), stage(), take.part, plan_.drawing);
}

const Stage& ExhibitWindow::stage() const {
  return is_live() ? house_.seen().picture->stage : playing_.bench().stage();
}

const Figure* ExhibitWindow::figure_of(std::optional<PartId> part) const {
  if (!part) return nullptr;
  const Placed* placed = house_.seen().picture->stage.find(*part);
  return placed == nullptr ? nullptr : &placed->figure;
}

std::vector<Button> ExhibitWindow::hand_buttons() {
  std::vector<Button> buttons;
  const std::vector<exhibit::Take>& hands = attendant_.hands();
  const auto pressed = attendant_.pressed();
  const bool guesses =
      std::any_of(hands.begin(), hands.end(), [](const exhibit::Take& hand) { return hand.right; });
  for (std::size_t k = 0; k < hands.size(); ++k) {
    Button button{playing_.words(hands[k].button, hands[k]), nullptr, pressed == k, false, ""};
    if (guesses && pressed == k && attendant_.has_answered())
      button.mark = hands[k].right ? "✓" : "✗";
    buttons.push_back(button);
  }
  if (attendant_.offers_another())
    buttons.push_back({tr("Another fault"), nullptr, false, false, ""});
  return buttons;
}

void ExhibitWindow::gather_words() {
  const exhibit::Exhibit& of = *opened_.exhibit;
  const exhibit::Take& take = attendant_.take();
  const Installation& installation = *opened_.installation;
  words_ = {};
  words_.institution = first_of(of.institution.empty() ? of.title : of.institution, installation);
  const CalendarTime& now = house_.shown();
  words_.time = fmt::format("{:02}:{:02}", now.ns_of_day / kHour, now.ns_of_day / kMinute % 60);
  words_.date = spoken_date(now);
  words_.dial = figure_of(of.dial);
  const bool goes_on = take.head.empty() && attendant_.pressed();
  words_.head = first_of(goes_on ? attendant_.first().head : take.head, installation);
  words_.text = playing_.words(take.text, take);
  if (attendant_.has_answered()) words_.answer = playing_.words(take.answer, take);
  if (attendant_.place() == Whereabouts::kHall)
    words_.answer = tr("What would you like to do? Touch a picture below.");
  Runner& runner = is_live() ? house_.runner() : playing_.bench().runner();
  const Runner::Seen& seen = is_live() ? house_.seen() : playing_.bench().seen();
  const std::string shown = spoken_weekday_time(
      installation.clock, std::max<SimTime>(seen.picture->at, 0), take.speed < 0.5 ? 3 : 0);
  words_.when = is_live() ? tr("now") : say("shown: {}", shown);
  words_.pace = is_live() || seen.speed == 1 ? tr("true speed") : pace_words(seen);
  words_.captions = runner.captions(gone_s_);
  if (gone_s_ < notice_until_s_) words_.notice = notice_;
  words_.hands = hand_buttons();
  for (std::size_t k = 0; k < of.things.size(); ++k)
    words_.things.push_back(
        {first_of(of.things[k].title, installation), figure_of(of.things[k].icon),
         attendant_.place() == Whereabouts::kThing && attendant_.thing() == k, false, ""});
  for (const std::string& code : attendant_.languages())
    words_.languages.push_back(
        {find_language(code)->name, nullptr, code == attendant_.language(), false, ""});
  if (!focus_) return;
  std::size_t k = *focus_;
  for (std::vector<Button>* buttons : {&words_.hands, &words_.things, &words_.languages}) {
    if (k < buttons->size()) {
      (*buttons)[k].focused = true;
      return;
    }
    k -= buttons->size();
  }
}

sf::Color ExhibitWindow::accent() const {
  const std::string& hex = opened_.exhibit->accent;
  if (hex.size() != 7) return theme().grab;
  const auto part = [&](std::size_t at) {
    return static_cast<sf::Uint8>(std::stoi(hex.substr(at, 2), nullptr, 16));
  };
  return {part(1), part(3), part(5)};
}

void ExhibitWindow::put(Painter& painter, const sf::FloatRect& box) {
  press_.draw(painter.mesh(), box, window_);
  // Names of what lies outside would stand on what is there.
  std::vector<Lettering> within;
  for (const Lettering& lettering : painter.letterings()) {
    const auto [low, high] = extent_of(lettering);
    if (box.contains(low) && box.contains(high)) within.push_back(lettering);
  }
  letters_.draw(within, window_);
}

void ExhibitWindow::paint() {
  window_.clear(is_dark() ? sf::Color::Black : theme().ground);
  if (is_dark()) return;
  const Pixel s = size();
  const double angle = 2 * std::numbers::pi * gone_s_ / kShift_s;
  const Pixel shift(static_cast<float>(std::round(kShift_px * std::cos(angle))),
                    static_cast<float>(std::round(kShift_px * std::sin(angle))));
  window_.setView(sf::View(sf::FloatRect(shift.x, shift.y, s.x, s.y)));
  const sf::FloatRect& box = plan_.drawing;
  Painter drawing(theme(), sight_.camera(), s, std::move(meshes_[0]));
  drawing.show_only({box.left, box.top}, {box.left + box.width, box.top + box.height});
  Look look;
  look.clear_low = {box.left, box.top};
  look.clear_high = {box.left + box.width, box.top + box.height};
  look.hides_wrong = attendant_.place() == Whereabouts::kThing && !attendant_.offers_another() &&
                     opened_.exhibit->things[attendant_.thing()].is_hunt();
  paint_stage(stage(), *opened_.installation, look, drawing);
  paint_veil(stage(), attendant_.take().light, box, drawing);
  put(drawing, box);
  const Poster poster(letters_, sizes_on(opened_.exhibit->screen, s), accent());
  Painter board(theme(), Camera{}, s, std::move(meshes_[1]));
  poster.paint(plan_, words_, board);
  put(board, {0, 0, s.x, s.y});
  Painter over(theme(), Camera{}, s, std::move(meshes_[2]));
  if (staff_.is_shown() || is_out_of_order())
    paint_staff(poster, over);
  else if (const auto left_s = attendant_.asks())
    poster.paint_question(*left_s, s, over);
  put(over, {0, 0, s.x, s.y});
  meshes_ = {std::move(drawing.mesh()), std::move(board.mesh()), std::move(over.mesh())};
}

}  // namespace sixty::gui
