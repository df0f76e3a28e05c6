#include "gui/bench/window.hpp"

#include <fmt/format.h>

#include <SFML/Graphics/Image.hpp>
#include <SFML/Graphics/Texture.hpp>
#include <SFML/System/Clock.hpp>
#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace sixty::gui {
namespace {

constexpr float kTravel_s = 0.25F;
constexpr double kLeastZoom = 0.05, kMostZoom = 60;
constexpr std::array kSpeeds{0.0005, 0.001, 0.002,  0.005,  0.01,    0.02,    0.05,
                             0.1,    0.2,   0.5,    1.0,    2.0,     5.0,     10.0,
                             60.0,   300.0, 1000.0, 3600.0, 10000.0, 100000.0};
constexpr std::size_t kTrueSpeed = 10;
constexpr int kWarmUp = 3;

float smooth(float share) { return share * share * (3 - 2 * share); }

Camera between(const Camera& a, const Camera& b, float share) {
  Camera c = b;
  c.centre = a.centre + (b.centre - a.centre) * share;
  c.zoom = a.zoom * std::pow(b.zoom / a.zoom, static_cast<double>(share));
  return c;
}

FaultBook fault_book(const Registry& registry) {
  Diagnostics none;  // they come with the program, and its tests read them
  Mistakes mistakes(none);
  return FaultBook(registry, mistakes);
}

}  // namespace

Window::Window(const Options& options, const Opening& opening, const Registry& registry)
    : options_(options),
      installation_(opening.installation),
      letters_(options.fonts),
      runner_(opening.installation, opening.at),
      faults_(fault_book(registry)),
      view_(opening.view),
      speed_(kTrueSpeed),
      light_(options.light) {
  select(opening.part);
}

Pixel Window::size() const {
  const sf::Vector2u s = window_.getSize();
  return {static_cast<float>(s.x), static_cast<float>(s.y)};
}

int Window::run() {
  if (!letters_.error().empty()) throw std::runtime_error(letters_.error());
  const std::string& title = installation_->title;
  window_.create(sf::VideoMode(options_.width, options_.height),
                 sf::String::fromUtf8(title.begin(), title.end()));
  window_.setPosition({0, 0});
  if (options_.measure_frames == 0) window_.setFramerateLimit(60);
  panels_ = std::make_unique<PanelLayer>(window_, letters_);
  panels_->style(theme());
  seen_ = runner_.see_all();
  camera_ = aim_ = camera_of(view_);
  if (!options_.screenshot.empty()) return write_screenshot();
  if (options_.measure_frames > 0) return measure_frames();
  sf::Clock clock;
  while (window_.isOpen()) {
    sf::Event event;
    while (window_.pollEvent(event)) handle(event);
    frame(clock.restart().asSeconds());
    window_.display();
  }
  return 0;
}

void Window::frame(float frame_s) {
  seen_ = runner_.see();
  move_camera(frame_s);
  panels_->begin(frame_s);
  window_.clear(theme().ground);
  paint();
  show_bar();
  if (look_.selected) show_card(*look_.selected);
  panels_->draw();
}

void Window::paint() {
  sf::Clock clock;
  Painter painter(theme(), camera_, size());
  paint_stage(seen_.picture->stage, *installation_, look_, painter);
  build_ms_ = clock.getElapsedTime().asSeconds() * 1e3;
  const std::vector<sf::Vertex>& vertices = painter.mesh().vertices();
  vertices_ = vertices.size();
  const Pixel s = size();
  window_.setView(sf::View(sf::FloatRect(0, 0, s.x, s.y)));
  if (!vertices.empty()) window_.draw(vertices.data(), vertices.size(), sf::Triangles);
  letters_.draw(painter.letterings(), window_);
}

float Window::card_width() const { return std::clamp(size().x * 0.24F, 300.0F, 420.0F); }

void Window::move_camera(float frame_s) {
  const float share = std::min(frame_s / kTravel_s * 3, 1.0F);
  camera_ = between(camera_, aim_, smooth(share));
}

Camera Window::camera_of(View view) const {
  const Stage& stage = seen_.picture->stage;
  const Pixel room(size().x - (look_.selected ? card_width() : 0), size().y - kBar);
  Camera camera = view == View::kBuilding ? building_camera(stage, room)
                  : view == View::kPart && look_.selected
                      ? part_camera(stage, *look_.selected, room)
                      : case_camera(stage, room);
  camera.middle.y += kBar;
  return camera;
}

void Window::travel(View view) {
  view_ = view;
  aim_ = camera_of(view);
  camera_.middle = aim_.middle;
}

void Window::handle(const sf::Event& event) {
  panels_->handle(event);
  switch (event.type) {
    case sf::Event::Closed:
      window_.close();
      break;
    case sf::Event::Resized:
      travel(view_);
      camera_ = aim_;
      break;
    case sf::Event::KeyPressed:
      if (!panels_->takes_keys()) press(event.key.code);
      break;
    case sf::Event::MouseWheelScrolled:
      if (!panels_->takes_pointer() && event.mouseWheelScroll.wheel == sf::Mouse::VerticalWheel)
        zoom_at({static_cast<float>(event.mouseWheelScroll.x),
                 static_cast<float>(event.mouseWheelScroll.y)},
                event.mouseWheelScroll.delta);
      break;
    case sf::Event::MouseButtonPressed:
      if (event.mouseButton.button != sf::Mouse::Left || panels_->takes_pointer()) break;
      dragging_ = true;
      moved_ = false;
      pressed_at_ = pointer_ = {static_cast<float>(event.mouseButton.x),
                                static_cast<float>(event.mouseButton.y)};
      break;
    case sf::Event::MouseButtonReleased:
      if (event.mouseButton.button != sf::Mouse::Left || !dragging_) break;
      dragging_ = false;
      if (!moved_) clicked(pressed_at_);
      break;
    case sf::Event::MouseMoved:
      pointer_moved({static_cast<float>(event.mouseMove.x), static_cast<float>(event.mouseMove.y)});
      break;
    case sf::Event::LostFocus:
      dragging_ = false;
      break;
    default:
      break;
  }
}

void Window::press(sf::Keyboard::Key key) {
  switch (key) {
    case sf::Keyboard::Num1:
      travel(View::kBuilding);
      break;
    case sf::Keyboard::Num2:
      travel(View::kCase);
      break;
    case sf::Keyboard::Num3:
      if (look_.selected) travel(View::kPart);
      break;
    case sf::Keyboard::Space:
      toggle_running();
      break;
    case sf::Keyboard::Right:
      runner_.step(true);
      break;
    case sf::Keyboard::Left:
      runner_.step(false);
      break;
    case sf::Keyboard::Up:
      change_speed(1);
      break;
    case sf::Keyboard::Down:
      change_speed(-1);
      break;
    case sf::Keyboard::T:
      toggle_theme();
      break;
    case sf::Keyboard::Escape:
      select(std::nullopt);
      travel(view_ == View::kPart ? View::kCase : view_);
      break;
    default:
      break;
  }
}

void Window::toggle_theme() {
  light_ = !light_;
  panels_->style(theme());
}

void Window::toggle_running() { runner_.set_running(!seen_.running); }

void Window::change_speed(int steps) {
  const auto last = static_cast<int>(kSpeeds.size()) - 1;
  speed_ = static_cast<std::size_t>(std::clamp(static_cast<int>(speed_) + steps, 0, last));
  runner_.set_speed(kSpeeds[speed_]);
}

void Window::pointer_moved(Pixel to) {
  if (dragging_) {
    const Pixel way = to - pressed_at_;
    if (std::fabs(way.x) + std::fabs(way.y) > 4) moved_ = true;
    if (moved_) {
      const Pixel step = to - pointer_;
      const Point shift = Point{step.x, step.y} * (1 / camera_.zoom);
      camera_.centre = camera_.centre - shift;
      aim_ = camera_;
    }
  }
  pointer_ = to;
  const Placed* under =
      panels_->takes_pointer() ? nullptr : seen_.picture->stage.at(camera_.point(to));
  look_.hovered = under == nullptr ? std::nullopt : std::optional(under->part);
}

void Window::clicked(Pixel at) {
  const Placed* under = seen_.picture->stage.at(camera_.point(at));
  select(under == nullptr ? std::nullopt : std::optional(under->part));
}

void Window::select(std::optional<PartId> id) {
  look_.selected = id;
  if (!id) return;
  runner_.watch(*id);
  const auto [place, is_new] = cards_.try_emplace(*id);
  if (!is_new) return;
  const PartInstance& part = installation_->parts[*id];
  place->second.arguments.resize(part.kind->declaration.commands.size(), 0);
  for (const auto& fault : faults_.all()) {
    if (fault->kind == part.kind && fits(*fault, part))
      place->second.faults.push_back({fault, fault->typical, false});
  }
}

void Window::zoom_at(Pixel at, float steps) {
  const Point still = camera_.point(at);
  const double zoom = std::clamp(camera_.zoom * std::pow(1.2, steps), kLeastZoom, kMostZoom);
  camera_.centre = still + (camera_.centre - still) * (camera_.zoom / zoom);
  camera_.zoom = zoom;
  aim_ = camera_;
}

bool Window::save_picture(const std::string& path) {
  sf::Texture texture;
  const sf::Vector2u s = window_.getSize();
  if (!texture.create(s.x, s.y)) return false;
  texture.update(window_);
  sf::Image image = texture.copyToImage();
  for (unsigned y = 0; y < s.y; ++y) {
    for (unsigned x = 0; x < s.x; ++x) {
      sf::Color c = image.getPixel(x, y);
      c.a = 255;
      image.setPixel(x, y, c);
    }
  }
  return image.saveToFile(path);
}

int Window::write_screenshot() {
  for (int k = 0; k < kWarmUp; ++k) {
    frame(1);
    if (k + 1 == kWarmUp && !save_picture(options_.screenshot)) {
      fmt::print(stderr,
                 "{}: cannot be written\n  mend:     name a file ending in .png, in a folder that "
                 "may be written to\n",
                 options_.screenshot);
      return 3;
    }
    window_.display();
  }
  return 0;
}

int Window::measure_frames() {
  std::vector<double> whole, build;
  runner_.set_running(true);
  for (int k = 0; k < options_.measure_frames + kWarmUp; ++k) {
    sf::Clock clock;
    sf::Event event;
    while (window_.pollEvent(event)) handle(event);
    frame(1.0F / 60);
    window_.display();
    if (k < kWarmUp) continue;
    whole.push_back(clock.getElapsedTime().asSeconds() * 1e3);
    build.push_back(build_ms_);
  }
  const auto tell = [](const char* what, std::vector<double> ms) {
    std::sort(ms.begin(), ms.end());
    fmt::print("{:<14} median {:6.2f} ms, 95 % within {:6.2f} ms\n", what, ms[ms.size() / 2],
               ms[ms.size() * 95 / 100]);
  };
  tell("frame", whole);
  tell("building it", build);
  fmt::print("{:<14} {}\n", "vertices", vertices_);
  return 0;
}

}  // namespace sixty::gui
