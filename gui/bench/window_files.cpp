// What the window opens and keeps.
#include <algorithm>
#include <filesystem>

#include "gui/bench/language.hpp"
#include "gui/bench/scale.hpp"
#include "gui/bench/window.hpp"
#include "gui/keep/moment.hpp"
#include "sim/base/file.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr std::size_t kMostBytes = 16u << 20;  // of a scene

}  // namespace

bool Window::take(const std::string& path) {
  Diagnostics mistakes;
  const Opening opening = open_path(path, {}, registry_, mistakes);
  open_panel_.tell(mistakes);
  if (!opening.installation || !mistakes.empty()) return false;
  scene_ = opening.scene;
  set_ = opening.set;
  walk_.reset();
  tour_.reset();
  lesson_.leave();  // it is of the scene that was there
  desk_ = std::make_unique<Desk>(opening, faults_);
  if (sound_ != nullptr) {
    sound_ = std::make_shared<Sound>(desk_->bench.installation(), desk_->bench.stage());
    desk_->bench.runner().play_on(sound_);
  }
  obey_settings();
  travel(View::kCase);
  remember(std::filesystem::absolute(path).string(), settings_);
  keep_settings();
  files_ = form_ = false;
  return true;
}

void Window::begin() {
  greets_ = settings_.greets;
  desk_->bench.runner().set_running(true);
  travel(sight_.view());
  sight_.arrive();
}

void Window::show_start_panel() {
  const auto chosen = show_start(desk_->bench.installation().title, settings_.greets, card_box(),
                                 panels_->heading());
  if (!chosen) return;
  greets_ = false;
  begin_with(*chosen);
  travel(sight_.view());
}

void Window::begin_with(Beginning beginning) {
  switch (beginning) {
    case Beginning::kTour:
      begin_walk_beside(Guide::Way::kOnce);
      break;
    case Beginning::kMinute:
      desk_->bench.runner().set_stretch(true);
      break;
    case Beginning::kLessons:
      open_lessons();
      break;
    case Beginning::kOpen:
      show_files_panel(true);
      break;
    case Beginning::kOwn:
      form_ = true;
      break;
    case Beginning::kKeys:
      keys_page_ = true;
      break;
    case Beginning::kLookAround:
      break;
  }
}

void Window::show_files_panel(bool shows) {
  files_ = shows;
  if (shows) open_panel_.forget();
}

void Window::show_files() {
  if (!files_ && !form_) return;
  const Pixel s = size();
  // The form is long: it lies over the strip of time too.
  const sf::FloatRect box(s.x * 0.06F, 54, std::min(s.x * 0.88F, 760.0F),
                          std::max(s.y - 54 - 20, 60.0F));
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
  show_files_in(box);
  ImGui::PopStyleVar();
}

void Window::show_files_in(sf::FloatRect box) {
  if (files_) {
    const sf::FloatRect fits(box.left, box.top, box.width, 0);
    const OpenPanel::Wish wish = open_panel_.show(settings_, fits, panels_->heading());
    if (wish.close) files_ = false;
    if (!wish.save_moment.empty()) keep_moment(wish.save_moment);
    if (!wish.open.empty()) take(wish.open);
  }
  if (!form_) return;
  if (!form_panel_) form_panel_.emplace(all_forms().front(), registry_);
  const FormPanel::Wish wish = form_panel_->show(box, panels_->heading(), scene_);
  if (wish.close) form_ = false;
  if (!wish.open.empty()) files_ = !take(wish.open);
}

void Window::keep_moment(const std::string& path) {
  const Bench& bench = desk_->bench;
  const Picture& picture = bench.picture();
  const Moment moment = moment_of(bench.shared_installation(), scene_, set_, *bench.seen().log,
                                  picture.at, picture.state);
  std::string error;
  std::error_code none;
  if (std::filesystem::exists(path, none))
    open_panel_.tell_done(
        say("{}: there is a file of that name already; choose another name", path));
  else if (save_moment(moment, path, error))
    open_panel_.tell_done(say("Kept as {}.", std::filesystem::absolute(path).string()));
  else
    open_panel_.tell_done(path + ": " + error);
}

/// The scene is opened anew, with the sheet.
void Window::keep_sheet(const OwnSheet& sheet) {
  Diagnostics mistakes;
  if (const auto text = read_file_bounded(scene_, kMostBytes, mistakes)) {
    if (const auto files = with_own_sheet(sheet, *text, scene_, registry_, mistakes))
      save_own_sheet(*files, scene_, registry_, mistakes);
  }
  desk_->card.tell_sheet(mistakes.list());
  if (!mistakes.empty()) return;
  const std::optional<PartId> part = desk_->bench.look().selected;
  const SimTime at = desk_->bench.picture().at;
  if (!take(scene_)) return;
  desk_->bench.runner().jump(at);
  select(part);
}

void Window::read_settings_file() {
  Diagnostics mistakes;
  const std::string path = settings_file();
  if (!path.empty()) settings_ = read_settings(path, mistakes);
  speak(chosen_language(options_.language, settings_.language));
  if (!mistakes.empty())
    message_ = say("{} could not all be read; the rest is as it was made", path);
  if (options_.theme.empty() && light_ != (settings_.theme == "light")) toggle_theme();
  layout_.take(settings_);
  obey_settings();
  set_scale(chosen_scale(options_.scale, settings_.scale));
  if (options_.size.empty() && !options_.fills_screen())
    window_.setSize(
        {static_cast<unsigned>(settings_.width), static_cast<unsigned>(settings_.height)});
  remember(std::filesystem::absolute(scene_).string(), settings_);
}

bool Window::keep_settings() {
  settings_.theme = light_ ? "light" : "dark";
  // Its manager may have made it smaller than anybody would want it again.
  const auto side = [](unsigned pixels) {
    return std::clamp(static_cast<int>(pixels), Settings::kLeastSide, Settings::kMostSide);
  };
  settings_.width = side(window_.getSize().x);
  settings_.height = side(window_.getSize().y);
  layout_.give(settings_);
  const std::string path = settings_file();
  std::string error;
  if (path.empty() || write_settings(path, settings_, error)) return true;
  message_ = path + ": " + error;
  return false;
}

}  // namespace sixty::gui
