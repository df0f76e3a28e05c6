#include "gui/bench/window.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "gui/views/ghost.hpp"
#include "sim/base/clock_time.hpp"

namespace sixty::gui {
namespace {

constexpr float kBar = 44;
constexpr float kFolded = 34;  // height of a strip that is folded
constexpr float kDrag_px = 4;  // a press that moves less is a click

FaultBook fault_book(const Registry& registry) {
  Diagnostics none;  // they come with the program, and its tests read them
  Mistakes mistakes(none);
  return FaultBook(registry, mistakes);
}

Pixel pixel_of(int x, int y) { return {static_cast<float>(x), static_cast<float>(y)}; }

}  // namespace

Window::Window(const Options& options, const Opening& opening, const Registry& registry)
    : options_(options),
      letters_(options.fonts),
      faults_(fault_book(registry)),
      bench_(opening),
      strip_(opening.installation, opening.sound),
      card_(faults_),
      why_(opening.installation, opening.sound),
      sight_(opening.view),
      light_(options.light) {
  strip_.select(opening.part);
}

Pixel Window::size() const {
  const sf::Vector2u s = window_.getSize();
  return {static_cast<float>(s.x), static_cast<float>(s.y)};
}

float Window::strip_height() const {
  if (folded_ || size().y < 500) return kFolded;
  return std::clamp(size().y * 0.26F, 190.0F, 340.0F);
}

sf::FloatRect Window::bar_box() const { return {0, 0, size().x, kBar}; }

sf::FloatRect Window::strip_box() const {
  return {0, size().y - strip_height(), size().x, strip_height()};
}

sf::FloatRect Window::card_box() const {
  const float width = std::clamp(size().x * 0.26F, 320.0F, 420.0F);
  return {size().x - width, kBar, width, size().y - kBar - strip_height()};
}

sf::FloatRect Window::canvas() const {
  const float card = bench_.look().selected ? card_box().width : 0;
  return {0, kBar, std::max(size().x - card, 1.0F), std::max(card_box().height, 1.0F)};
}

void Window::open() {
  if (!letters_.error().empty()) throw std::runtime_error(letters_.error());
  window_.create(sf::VideoMode(options_.width, options_.height), "");
  window_.setPosition({0, 0});
  if (options_.measure_frames == 0) window_.setFramerateLimit(60);
  panels_ = std::make_unique<PanelLayer>(window_, letters_);
  panels_->style(theme());
  travel(sight_.view());
  sight_.arrive();
}

bool Window::step() {
  sf::Event event;
  while (window_.pollEvent(event)) handle(event);
  frame(clock_.restart().asSeconds());
  show_title();
  window_.display();
  return window_.isOpen();
}

int Window::run() {
  open();
  if (!options_.screenshot.empty()) return write_screenshot();
  if (options_.measure_frames > 0) return measure_frames();
  while (step()) continue;
  return 0;
}

/// Scene and time; the window's manager is told only when they are others.
void Window::show_title() {
  const std::string title =
      bench_.installation().title + ", " +
      format_instant(bench_.installation().clock, std::max<SimTime>(bench_.picture().at, 0), 0);
  if (title == title_) return;
  title_ = title;
  window_.setTitle(sf::String::fromUtf8(title.begin(), title.end()));
}

void Window::frame(float frame_s) {
  bench_.runner().set_lanes(strip_.lanes());
  bench_.take();
  const Runner::Seen& seen = bench_.seen();
  why_.follow(frame_s);
  Course course{bench_.picture().at, seen.reach, seen.log, bench_.picture().lanes, seen.twin, {}};
  if (const auto& first = why_.told().first; first && seen.twin)
    course.first_difference = {first->deed.at, first->deed.part};
  strip_.follow(course, strip_box());
  sight_.move(frame_s);
  panels_->begin(frame_s);
  window_.clear(theme().ground);
  paint();
  obey(bar_.show(bench_, bar_box(), light_));
  show_head_of_strip();
  if (bench_.look().selected) obey(card_.show(bench_, card_box(), panels_->heading()));
  why_.show(bench_, canvas());
  panels_->draw();
}

void Window::paint() {
  sf::Clock clock;
  Painter painter(theme(), sight_.camera(), size());
  paint_stage(bench_.stage(), bench_.installation(), bench_.look(), painter);
  if (bench_.picture().twin) paint_ghost(bench_.picture(), painter);
  paint_chain(bench_.stage(), why_.parts(), why_.lit(), painter);
  Painter strip(theme(), sight_.camera(), size());
  const bool free = !panels_->takes_pointer(pointer_) && strip_box().contains(pointer_);
  if (strip_height() > kFolded) strip_.paint(strip, free ? std::optional(pointer_) : std::nullopt);
  build_ms_ = clock.getElapsedTime().asSeconds() * 1e3;
  const Pixel s = size();
  window_.setView(sf::View(sf::FloatRect(0, 0, s.x, s.y)));
  vertices_ = 0;
  for (Painter* layer : {&painter, &strip}) {
    const std::vector<sf::Vertex>& vertices = layer->mesh().vertices();
    vertices_ += vertices.size();
    if (!vertices.empty()) window_.draw(vertices.data(), vertices.size(), sf::Triangles);
    letters_.draw(layer->letterings(), window_);
  }
}

void Window::show_head_of_strip() {
  sf::FloatRect box = strip_box();
  box.height = Strip::kHead;
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(10, 3));
  const Panel panel("strip", box);
  ImGui::PopStyleVar();
  if (ImGui::Button(folded_ ? "Show time" : "Fold")) {
    folded_ = !folded_;
    travel(sight_.view());
  }
  show_tip("the strip of time (L)");
  ImGui::SameLine(0, 20);
  ImGui::AlignTextToFramePadding();
  ImGui::TextDisabled("%s across", length_text(strip_.span().length()).c_str());
  if (strip_.marks()[0] && strip_.marks()[1]) {
    ImGui::SameLine(0, 20);
    const SimTime length = *strip_.marks()[1] - *strip_.marks()[0];
    ImGui::Text("1 to 2: %s", length_text(length < 0 ? -length : length).c_str());
  }
  show_messages();
}

void Window::show_messages() const {
  const Runner::Seen& seen = bench_.seen();
  const auto say = [](const std::string& text) {
    if (text.empty()) return;
    ImGui::SameLine(0, 20);
    ImGui::TextUnformatted(text.c_str());
  };
  if (seen.running && seen.behind) say("slower than asked: it cannot keep up");
  say(seen.failure);
  say(message_);
}

void Window::obey(const Wishes& wishes) {
  if (wishes.travel) travel(*wishes.travel);
  if (wishes.other_theme) toggle_theme();
  if (wishes.why) why_.ask(bench_, *wishes.why, bench_.picture().at);
  if (wishes.twin) set_twin(!bench_.seen().twin);
}

void Window::travel(View view) {
  sight_.travel(view, bench_.stage(), bench_.look().selected, canvas());
}

void Window::set_twin(bool on) {
  bench_.runner().set_twin(on);
  if (on) why_.compare(bench_);
}

void Window::toggle_theme() {
  light_ = !light_;
  panels_->style(theme());
}

void Window::select(std::optional<PartId> part) {
  bench_.select(part);
  strip_.select(part);
  if (!part) return;
  if (const Placed* placed = bench_.stage().find(*part); placed != nullptr)
    sight_.bring_in(placed->figure.bounds(), canvas());
}

void Window::handle(const sf::Event& event) {
  panels_->handle(event);
  switch (event.type) {
    case sf::Event::Closed:
      window_.close();
      break;
    case sf::Event::Resized:
      travel(sight_.view());
      sight_.arrive();
      break;
    case sf::Event::KeyPressed:
      if (!panels_->takes_keys()) press(event.key);
      break;
    case sf::Event::MouseWheelScrolled:
      if (const Pixel at = pixel_of(event.mouseWheelScroll.x, event.mouseWheelScroll.y);
          !panels_->takes_pointer(at) && event.mouseWheelScroll.wheel == sf::Mouse::VerticalWheel)
        wheel(at, event.mouseWheelScroll.delta);
      break;
    case sf::Event::MouseButtonPressed: {
      const Pixel at = pixel_of(event.mouseButton.x, event.mouseButton.y);
      if (panels_->takes_pointer(at)) break;
      if (event.mouseButton.button == sf::Mouse::Left) button_down(at);
      if (event.mouseButton.button == sf::Mouse::Right) other_button_down(at);
      break;
    }
    case sf::Event::MouseButtonReleased:
      if (event.mouseButton.button == sf::Mouse::Left)
        button_up(pixel_of(event.mouseButton.x, event.mouseButton.y));
      break;
    case sf::Event::MouseMoved:
      pointer_moved(pixel_of(event.mouseMove.x, event.mouseMove.y));
      break;
    case sf::Event::LostFocus:
      let_go();
      break;
    default:
      break;
  }
}

void Window::press(const sf::Event::KeyEvent& key) {
  using K = sf::Keyboard;
  Runner& runner = bench_.runner();
  switch (key.code) {
    case K::Num1:
      travel(View::kBuilding);
      break;
    case K::Num2:
      travel(View::kCase);
      break;
    case K::Num3:
      if (bench_.look().selected) travel(View::kPart);
      break;
    case K::Space:
      bench_.toggle_running();
      break;
    case K::Right:
      key.shift ? runner.step_to_moment(true) : runner.step(true);
      break;
    case K::Left:
      key.shift ? runner.step_to_moment(false) : runner.step(false);
      break;
    case K::Up:
      bench_.change_speed(1);
      break;
    case K::Down:
      bench_.change_speed(-1);
      break;
    case K::S:
      runner.set_stretch(!bench_.seen().stretch);
      break;
    case K::G:
      bar_.ask_for_time();
      break;
    case K::M:
      strip_.mark(bench_.picture().at);
      break;
    case K::L:
      folded_ = !folded_;
      travel(sight_.view());
      break;
    case K::Add:
    case K::Equal:
      strip_.zoom_at(1);
      break;
    case K::Subtract:
    case K::Hyphen:
      strip_.zoom_at(-1);
      break;
    case K::Z:
      if (key.control) runner.undo();
      break;
    case K::W:
      if (bench_.look().selected) why_.ask(bench_, *bench_.look().selected, bench_.picture().at);
      break;
    case K::H:
      set_twin(!bench_.seen().twin);
      break;
    case K::P:
      keep_picture();
      break;
    case K::T:
      toggle_theme();
      break;
    case K::Escape:
      select(std::nullopt);
      strip_.clear_marks();
      why_.close();
      travel(sight_.view() == View::kPart ? View::kCase : sight_.view());
      break;
    default:
      break;
  }
}

void Window::button_down(Pixel at) {
  pressed_at_ = pointer_ = at;
  moved_ = false;
  if (strip_box().contains(at)) {
    grip_ = Grip::kStrip;
    strip_.press(at, sf::Keyboard::isKeyPressed(sf::Keyboard::LShift));
    return;
  }
  grip_ = Grip::kCanvas;
  const auto [part, handle] = bench_.stage().handle_at(sight_.camera().point(at));
  if (handle == nullptr) return;
  grip_ = Grip::kHandle;
  held_ = Held{part, handle->release};
  bench_.command(part, handle->press, handle->value);
}

/// Opens a part's card though it has a handle there; on the strip, asks why.
void Window::other_button_down(Pixel at) {
  if (strip_box().contains(at)) {
    if (const auto part = strip_.part_at(at)) why_.ask(bench_, *part, strip_.time_at(at));
  } else if (canvas().contains(at)) {
    const Placed* under = bench_.stage().at(sight_.camera().point(at));
    select(under == nullptr ? std::nullopt : std::optional(under->part));
  }
}

void Window::button_up(Pixel at) {
  const Grip grip = grip_;
  let_go();
  if (grip == Grip::kStrip) {
    if (const auto time = strip_.release(at))
      bench_.runner().jump(*time);
    else if (std::fabs(at.x - pressed_at_.x) < kDrag_px)
      if (const auto part = strip_.part_at(at)) select(*part);
  }
  if (grip == Grip::kCanvas && !moved_) {
    const Placed* under = bench_.stage().at(sight_.camera().point(at));
    select(under == nullptr ? std::nullopt : std::optional(under->part));
  }
}

/// Whatever is held springs back.
void Window::let_go() {
  grip_ = Grip::kNone;
  if (held_ && !held_->release.empty()) bench_.command(held_->part, held_->release, 0);
  held_.reset();
}

void Window::pointer_moved(Pixel to) {
  if (grip_ == Grip::kStrip) {
    if (const auto time = strip_.drag(to)) bench_.runner().jump(*time);
  }
  if (grip_ == Grip::kCanvas) {
    const Pixel way = to - pressed_at_;
    if (std::fabs(way.x) + std::fabs(way.y) > kDrag_px) moved_ = true;
    if (moved_) sight_.shift(to - pointer_);
  }
  pointer_ = to;
  const bool on_canvas = !panels_->takes_pointer(to) && canvas().contains(to);
  const Placed* under = on_canvas ? bench_.stage().at(sight_.camera().point(to)) : nullptr;
  bench_.hover(under == nullptr ? std::nullopt : std::optional(under->part));
}

void Window::wheel(Pixel at, float steps) {
  if (!strip_box().contains(at))
    sight_.zoom_at(at, steps);
  else if (at.x < Strip::kNames + Strip::kValues)
    strip_.scroll(steps > 0 ? -1 : 1);
  else
    strip_.zoom_at(steps);
}

}  // namespace sixty::gui
