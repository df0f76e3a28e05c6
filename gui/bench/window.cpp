#include "gui/bench/window.hpp"

#include <fmt/format.h>

#include <SFML/System/Sleep.hpp>
#include <algorithm>
#include <stdexcept>
#include <utility>

#include "gui/bench/scale.hpp"
#include "gui/strip/lane_panel.hpp"
#include "gui/views/ghost.hpp"
#include "sim/base/ending.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr double kReach_px = 14;  // a press so near a terminal means it
constexpr float kDrag_px = 4;     // a press that moves less is a click

FaultBook fault_book(const Registry& registry) {
  Diagnostics none;  // they come with the program, and its tests read them
  Mistakes mistakes(none);
  return FaultBook(registry, mistakes);
}

Pixel pixel_of(int x, int y) { return {static_cast<float>(x), static_cast<float>(y)}; }

}  // namespace

Window::Window(const Options& options, const Opening& opening, const Registry& registry)
    : options_(options),
      registry_(registry),
      tour_(opening.tour),
      film_from_(opening.film_from),
      film_to_(opening.film_to),
      faults_(fault_book(registry)),
      making_(std::async(std::launch::async,
                         [this, &opening] { return std::make_unique<Desk>(opening, faults_); })),
      letters_(options.fonts),
      scene_(opening.scene),
      set_(opening.set),
      sight_(opening.view),
      light_(options.theme == "light") {}

void Window::fit() {
  const sf::Vector2u s = window_.getSize();
  layout_.resize(Pixel(static_cast<float>(s.x), static_cast<float>(s.y)) / scale_);
}

void Window::set_scale(float scale) {
  scale_ = scale;
  letters_.set_scale(scale);
  if (panels_ != nullptr) panels_->set_scale(scale);
  fit();
  travel(sight_.view());
  sight_.arrive();
}

sf::FloatRect Window::drawing() const {
  return is_bare() ? canvas()
                   : desk_->plot.rest_of(canvas(), sight_.view(), desk_->bench.look().selected);
}

void Window::open() {
  if (!letters_.error().empty()) throw std::runtime_error(letters_.error());
  if (options_.fills_screen())
    window_.create(sf::VideoMode::getDesktopMode(), "", sf::Style::Fullscreen);
  else
    window_.create(sf::VideoMode(options_.width, options_.height), "");
  window_.setPosition({0, 0});
  if (options_.measure_frames == 0) window_.setFramerateLimit(60);
  press_.open();
  const float scale = chosen_scale(options_.scale, 0);
  panels_ = std::make_unique<PanelLayer>(window_, letters_, scale);
  panels_->style(theme());
  // One for each and for as long as the window is there, since it goes on using those it was given.
  arrow_.loadFromSystem(sf::Cursor::Arrow);
  up_down_.loadFromSystem(sf::Cursor::SizeVertical);
  left_right_.loadFromSystem(sf::Cursor::SizeHorizontal);
  desk_ = making_.get();
  set_scale(scale);
  if (tour_ != nullptr)
    begin_walk(tour_, options_.way, static_cast<std::size_t>(options_.step - 1));
  if (!options_.lesson.empty())
    begin_lesson(options_.lesson, static_cast<std::size_t>(options_.step - 1));
}

bool Window::step() {
  bool stirs = is_stirring();
  if (is_asked_to_end()) window_.close();
  sf::Event event;
  while (window_.pollEvent(event)) {
    handle(event);
    stirs = true;
  }
  if (!window_.isOpen()) return false;
  if (idle_.rests(stirs)) {
    sf::sleep(sf::milliseconds(16));
    return window_.isOpen();
  }
  frame(clock_.restart().asSeconds());
  show_title();
  if (!export_.empty()) keep_lanes(std::exchange(export_, ""));
  window_.display();
  return window_.isOpen();
}

int Window::run() {
  open();
  if (!options_.screenshot.empty()) return write_screenshot();
  if (!options_.film.folder.empty()) return write_film();
  if (options_.measure_frames > 0) return measure_frames();
  read_settings_file();
  keeps_ = true;
  sound_ = std::make_shared<Sound>(desk_->bench.installation(), desk_->bench.stage());
  desk_->bench.runner().play_on(sound_);
  if (!options_.begins_somewhere() && desk_->bench.picture().at <= 0) begin();
  while (step()) continue;
  // Nobody sees the window's messages any more.
  if (!keep_settings()) fmt::print(stderr, "sixtybeats-bench: {}\n", message_);
  return 0;
}

/// Scene and time; the window's manager is told only when they are others.
void Window::show_title() {
  const std::string title = desk_->bench.installation().title + ", " +
                            spoken_instant(desk_->bench.installation().clock,
                                           std::max<SimTime>(desk_->bench.picture().at, 0), 0);
  if (title == title_) return;
  title_ = title;
  window_.setTitle(sf::String::fromUtf8(title.begin(), title.end()));
}

void Window::frame(float frame_s) {
  follow_walk(frame_s);
  desk_->bench.take();
  if (std::string told = desk_->bench.take_refusal(); !told.empty()) message_ = std::move(told);
  const Runner::Seen& seen = desk_->bench.seen();
  desk_->why.follow(frame_s);
  desk_->meters.follow(desk_->bench);
  desk_->hunt.follow();
  if (lesson_.is_open()) lesson_.follow(desk_->bench);
  desk_->bench.hold_hands(lesson_.holds_hands());
  desk_->strip.record(desk_->meters.channels(), desk_->meters.channel_values());
  Course course{desk_->bench.picture().at,    seen.reach, seen.log,
                desk_->bench.picture().lanes, seen.twin,  {}};
  if (const auto& first = desk_->why.told().first; first && seen.twin)
    course.first_difference = {first->deed.at, first->deed.part};
  desk_->strip.follow(course, layout_.strip());
  if (!is_bare()) desk_->plot.follow(desk_->bench, sight_.view(), canvas());
  make_room_for_meters();
  const sf::FloatRect clear = drawing();
  desk_->bench.set_clear({clear.left, clear.top},
                         {clear.left + clear.width, clear.top + clear.height});
  sight_.move(frame_s);
  hover();
  panels_->let_keys_choose(is_filling_in() || lesson_.chooses());
  panels_->begin(frame_s);
  window_.clear(theme().ground);
  paint();
  if (!is_bare()) show_panels();
  if (keys_page_) show_keys();
  show_settings_panel();
  show_captions();
  panels_->draw();
  ++frames_;
}

void Window::show_panels() {
  obey(bar_.show(desk_->bench, sound_.get(), layout_.bar(), light_));
  show_head_of_strip();
  if (const auto part = desk_->bench.look().selected)
    desk_->card.set_measured(desk_->meters.read_at(*part));
  if (greets_)
    show_start_panel();
  else if (has_card())
    obey(desk_->card.show(desk_->bench, card_box(), panels_->heading(), scene_));
  if (const auto sheet = desk_->card.take_sheet()) keep_sheet(*sheet);
  // In a small window they lie over the card too.
  constexpr float kReadable = 300;
  const bool is_narrow = canvas().width < kReadable;
  desk_->why.show(desk_->bench, is_narrow ? layout_.canvas(false) : canvas(), boxes_asked_about());
  show_meters();
  show_hunt();
  show_lesson();
  show_files();
  if (walk_ != nullptr && !walk_->show(canvas())) end_walk();
}

/// What an answer is about: the parts of the chain as they are seen, and the plot.
std::vector<sf::FloatRect> Window::boxes_asked_about() const {
  std::vector<sf::FloatRect> boxes;
  for (const PartId part : desk_->why.parts()) {
    const Placed* placed = desk_->bench.stage().find(part);
    if (placed == nullptr || placed->figure.shapes().empty()) continue;
    const auto [corner, opposite] = placed->figure.bounds();
    const Pixel low = sight_.camera().pixel(corner), high = sight_.camera().pixel(opposite);
    boxes.emplace_back(low, high - low);
  }
  const sf::FloatRect all = canvas(), drawn = drawing();
  if (drawn.height < all.height)
    boxes.emplace_back(all.left, drawn.top + drawn.height, all.width, all.height - drawn.height);
  return boxes;
}

void Window::paint() {
  sf::Clock clock;
  const sf::FloatRect drawing = this->drawing();  // panels and the plot cover the rest of it
  Painter painter(theme(), sight_.camera(), size(), std::move(meshes_[0]));
  painter.show_only({drawing.left, drawing.top},
                    {drawing.left + drawing.width, drawing.top + drawing.height});
  const Drawn drawn =
      paint_stage(desk_->bench.stage(), desk_->bench.installation(), desk_->bench.look(), painter);
  if (desk_->bench.picture().twin) paint_ghost(desk_->bench.picture(), painter);
  paint_chain(desk_->bench.stage(), desk_->why.parts(), desk_->why.lit(), painter);
  paint_tips(desk_->bench.stage(), desk_->meters.tips(), desk_->meters.is_placing(), drawn,
             painter);
  if (!is_bare()) paint_marks(drawn, painter);
  Painter strip(theme(), sight_.camera(), size(), std::move(meshes_[1]));
  const bool free = !panels_->takes_pointer(pointer_) && layout_.strip().contains(pointer_);
  if (!is_bare() && !layout_.is_folded())
    desk_->strip.paint(strip, free ? std::optional(pointer_) : std::nullopt);
  if (!is_bare()) desk_->plot.paint(strip);
  Painter over(theme(), sight_.camera(), size(), std::move(meshes_[2]));
  paint_over(over);
  paint_lesson(over);
  build_ms_ = clock.getElapsedTime().asSeconds() * 1e3;
  const Pixel s = size();
  window_.setView(sf::View(sf::FloatRect(0, 0, s.x, s.y)));
  vertices_ = 0;
  const sf::FloatRect whole(0, 0, s.x, s.y);
  for (Painter* layer : {&painter, &over, &strip}) {
    vertices_ += layer->mesh().vertices().size();
    press_.draw(layer->mesh(), layer == &painter ? drawing : whole, window_);
    letters_.draw(layer->letterings(), window_);
  }
  meshes_ = {std::move(painter.mesh()), std::move(strip.mesh()), std::move(over.mesh())};
}

void Window::show_head_of_strip() {
  sf::FloatRect box = layout_.strip();
  box.height = Strip::kHead;
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(10, 3));
  const Panel panel("strip", box);
  ImGui::PopStyleVar();
  if (ImGui::Button(layout_.is_folded() ? tr("Show time") : tr_as("button", "Fold"))) fold();
  show_tip(tr("the strip of time (L)"));
  ImGui::SameLine();
  if (const std::string kind = show_lane_choice(desk_->strip, desk_->bench.installation());
      !kind.empty())
    export_ = kind;
  ImGui::SameLine(0, 20);
  ImGui::AlignTextToFramePadding();
  const std::string across = length_text(desk_->strip.span().length());
  ImGui::TextDisabled("%s", say("{} across", across).c_str());
  if (desk_->strip.marks()[0] && desk_->strip.marks()[1]) {
    ImGui::SameLine(0, 20);
    const SimTime length = *desk_->strip.marks()[1] - *desk_->strip.marks()[0];
    const std::string between = length_text(length < 0 ? -length : length);
    ImGui::TextUnformatted(say("1 to 2: {}", between).c_str());
  }
  show_messages();
}

void Window::show_messages() const {
  const Runner::Seen& seen = desk_->bench.seen();
  const auto show = [](const std::string& text) {
    if (text.empty()) return;
    ImGui::SameLine(0, 20);
    ImGui::TextUnformatted(text.c_str());
  };
  if (seen.heads_for) {
    const auto& clock = desk_->bench.installation().clock;
    show(say("on the way to {}; Esc stops it", spoken_instant(clock, *seen.heads_for, 0)));
  }
  if (seen.running && seen.behind) show(tr("slower than asked: it cannot keep up"));
  show(seen.failure);
  show(message_);
  if (!message_.empty()) show_tip(message_.c_str());  // it may be cut off
}

void Window::obey(const Wishes& wishes) {
  if (wishes.travel) travel(*wishes.travel);
  if (wishes.other_theme) toggle_theme();
  if (wishes.why) desk_->why.ask(desk_->bench, *wishes.why, desk_->bench.picture().at);
  if (wishes.files) show_files_panel(!files_);
  if (wishes.select) select(*wishes.select);
  if (wishes.keys_page) keys_page_ = true;
  if (wishes.settings) settings_open_ = true;
  if (wishes.meters) desk_->meters.toggle();
  if (wishes.hunt) toggle_hunt();
  if (wishes.lessons) toggle_lessons();
  if (wishes.notice) notice(*wishes.notice);
  if (!wishes.measure.empty()) desk_->meters.add(desk_->bench, wishes.measure);
  if (wishes.twin) set_twin(!desk_->bench.seen().twin);
}

void Window::travel(View view) {
  if (walk_ != nullptr && walk_->shows()) return look_at_step();
  desk_->strip.look_from_afar(view == View::kBuilding);
  const std::optional<PartId> part = desk_->bench.look().selected;
  sight_.travel(view, desk_->bench.stage(), part, desk_->plot.rest_of(canvas(), view, part));
}

void Window::fold() {
  layout_.fold();
  travel(sight_.view());
}

void Window::set_twin(bool on) {
  if (on && desk_->bench.look().hides_wrong) return;
  desk_->bench.runner().set_twin(on);
  if (on) desk_->why.compare(desk_->bench);
}

void Window::toggle_theme() {
  light_ = !light_;
  panels_->style(theme());
  if (keeps_) keep_settings();
}

void Window::select(std::optional<PartId> part) {
  const bool had_side = has_side();
  greets_ = false;
  desk_->bench.select(part);
  desk_->strip.select(part);
  // The card takes room from the drawing, or gives it back.
  if (had_side != has_side() && sight_.is_home() && sight_.view() != View::kPart)
    return travel(sight_.view());
  if (!part) return;
  if (const Placed* placed = desk_->bench.stage().find(*part); placed != nullptr)
    sight_.bring_in(placed->figure.bounds(), drawing());
}

void Window::handle(const sf::Event& of_window) {
  const sf::Event event = in_drawing(of_window, scale_);
  panels_->handle(event);
  if (walk_ != nullptr && walk_->takes(event, desk_->bench)) return;
  switch (event.type) {
    case sf::Event::Closed:
      window_.close();
      break;
    case sf::Event::Resized:
      fit();
      travel(sight_.view());
      sight_.arrive();
      break;
    case sf::Event::KeyPressed:
      if (event.key.code == sf::Keyboard::Escape && panels_->close_popups()) break;
      if (!panels_->takes_keys() && !is_for_fields(event.key)) press(event.key);
      if (is_filling_in() && event.key.code == sf::Keyboard::Escape) close_topmost();
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
    case sf::Event::MouseLeft:
      if (grip_ == Grip::kNone) pointer_ = {-1, -1};
      break;
    case sf::Event::LostFocus:
      let_go();
      break;
    default:
      break;
  }
}

void Window::button_down(Pixel at) {
  pressed_at_ = pointer_ = at;
  moved_ = false;
  if (const auto edge = layout_.edge_at(at, has_side())) {
    grip_ = Grip::kEdge;
    edge_ = *edge;
    return;
  }
  if (layout_.strip().contains(at)) {
    grip_ = Grip::kStrip;
    desk_->strip.press(at, sf::Keyboard::isKeyPressed(sf::Keyboard::LShift));
    return;
  }
  if (desk_->meters.is_placing()) {
    const double zoom = sight_.camera().zoom;
    if (const auto found = desk_->bench.stage().terminal_at(
            sight_.camera().point(at), kReach_px / zoom, double{kLeastRing_px} / zoom))
      desk_->meters.put_tip(desk_->bench, {found->first, found->second});
    return;
  }
  grip_ = Grip::kCanvas;
  const auto [part, handle] = desk_->bench.stage().handle_at(sight_.camera().point(at));
  if (handle == nullptr) return;
  grip_ = Grip::kHandle;
  held_ = Held{part, handle->release};
  desk_->bench.command(part, handle->press, handle->value);
}

/// Opens a part's card though it has a handle there; on the strip, asks why.
void Window::other_button_down(Pixel at) {
  if (layout_.strip().contains(at)) {
    if (const auto part = desk_->strip.part_at(at))
      desk_->why.ask(desk_->bench, *part, desk_->strip.time_at(at));
  } else if (drawing().contains(at)) {
    select(part_under(at));
  }
}

void Window::button_up(Pixel at) {
  const Grip grip = grip_;
  if (grip == Grip::kEdge && keeps_) keep_settings();
  let_go();
  if (grip == Grip::kStrip) {
    if (const auto time = desk_->strip.release(at))
      desk_->bench.runner().jump(*time);
    else if (std::fabs(at.x - pressed_at_.x) < kDrag_px)
      if (const auto part = desk_->strip.part_at(at)) select(*part);
  }
  if (grip == Grip::kCanvas && !moved_) {
    select(part_under(at));
  }
}

std::optional<PartId> Window::part_under(Pixel at) const {
  const Placed* under = desk_->bench.stage().at(sight_.camera().point(at));
  return under == nullptr ? std::nullopt : std::optional(under->part);
}

/// Whatever is held springs back.
void Window::let_go() {
  grip_ = Grip::kNone;
  if (held_ && !held_->release.empty()) desk_->bench.command(held_->part, held_->release, 0);
  held_.reset();
}

void Window::pointer_moved(Pixel to) {
  if (grip_ == Grip::kEdge) {
    layout_.drag(edge_, to);
    travel(sight_.view());
    sight_.arrive();
  }
  if (grip_ == Grip::kStrip) {
    if (const auto time = desk_->strip.drag(to)) desk_->bench.runner().jump(*time);
  }
  if (grip_ == Grip::kCanvas) {
    const Pixel way = to - pressed_at_;
    if (std::fabs(way.x) + std::fabs(way.y) > kDrag_px) moved_ = true;
    if (moved_) sight_.shift(to - pointer_);
  }
  pointer_ = to;
  show_cursor();
}

/// Frame by frame: the drawing moves under a pointer that rests.
void Window::hover() {
  const bool is_covered = is_filling_in() || keys_page_;  // a tip would be cut off by the panel
  const bool on_canvas =
      !is_covered && !panels_->takes_pointer(pointer_) && drawing().contains(pointer_);
  desk_->bench.hover(on_canvas ? part_under(pointer_) : std::nullopt, pointer_);
}

/// An arrow, or on an edge that can be moved the way it goes.
void Window::show_cursor() {
  std::optional<Layout::Edge> edge;
  if (!is_bare()) edge = layout_.edge_at(pointer_, has_side());
  if (edge == cursor_edge_) return;
  cursor_edge_ = edge;
  if (!edge)
    window_.setMouseCursor(arrow_);
  else
    window_.setMouseCursor(*edge == Layout::Edge::kStrip ? up_down_ : left_right_);
}

void Window::wheel(Pixel at, float steps) {
  if (!layout_.strip().contains(at))
    sight_.zoom_at(at, steps);
  else if (at.x < Strip::kNames + Strip::kValues)
    desk_->strip.scroll(steps > 0 ? -1 : 1);
  else
    desk_->strip.zoom_at(steps);
}

}  // namespace sixty::gui
