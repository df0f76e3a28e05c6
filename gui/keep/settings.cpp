#include "gui/keep/settings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "gui/keep/write.hpp"
#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

/// The declarations of all that is kept; their names are the keys of the file.
struct Keys {
  ParamDecl theme, scale, card_share, strip_share, greets, language, captions, calm, width, height,
      learner, recent;
};

const Keys& keys() {
  static const Keys all = [] {
    Keys k;
    k.theme.name = "theme";
    k.theme.kind = ParamKind::kChoice;
    k.theme.choices = {"dark", "light"};
    k.scale = quantity_field("scale", "1", Settings::kLeastScale, Settings::kMostScale, "");
    k.card_share = quantity_field("card_share", "1", Settings::kLeastCard, Settings::kMostCard, "");
    k.strip_share =
        quantity_field("strip_share", "1", Settings::kLeastStrip, Settings::kMostStrip, "");
    k.greets.name = "greets";
    k.greets.kind = ParamKind::kFlag;
    k.language = text_field("language", "");
    k.captions.name = "captions";
    k.captions.kind = ParamKind::kFlag;
    k.calm.name = "calm";
    k.calm.kind = ParamKind::kFlag;
    k.width = count_field("width", Settings::kLeastSide, Settings::kMostSide, "");
    k.height = count_field("height", Settings::kLeastSide, Settings::kMostSide, "");
    k.learner = text_field("learner", "");
    k.recent = texts_field("recent", "");
    return k;
  }();
  return all;
}

std::optional<Value> read_one(const ParamDecl& decl, const YamlNode& root, TreeReader& reader) {
  const YamlNode* node = root.find(decl.name);
  if (node == nullptr) return std::nullopt;
  return check_value(decl, *node, decl.name, reader);
}

void read_number(const ParamDecl& decl, const YamlNode& root, TreeReader& reader, double& into) {
  if (const auto value = read_one(decl, root, reader)) into = value->number;
}

void read_count(const ParamDecl& decl, const YamlNode& root, TreeReader& reader, int& into) {
  if (const auto value = read_one(decl, root, reader)) into = static_cast<int>(value->number);
}

void read_flag(const ParamDecl& decl, const YamlNode& root, TreeReader& reader, bool& into) {
  if (const auto value = read_one(decl, root, reader)) into = value->number != 0;
}

Settings settings_of(const YamlNode& root, TreeReader& reader) {
  Settings settings;
  if (!reader.is_map(root, "", "theme: dark")) return settings;
  const Keys& k = keys();
  reader.check_keys(root, "the settings",
                    {k.theme.name, k.scale.name, k.card_share.name, k.strip_share.name,
                     k.greets.name, k.language.name, k.captions.name, k.calm.name, k.width.name,
                     k.height.name, k.learner.name, k.recent.name});
  if (const auto theme = read_one(k.theme, root, reader)) settings.theme = theme->text;
  read_number(k.scale, root, reader, settings.scale);
  read_number(k.card_share, root, reader, settings.card_share);
  read_number(k.strip_share, root, reader, settings.strip_share);
  read_flag(k.greets, root, reader, settings.greets);
  if (const auto language = read_one(k.language, root, reader)) settings.language = language->text;
  read_flag(k.captions, root, reader, settings.captions);
  read_flag(k.calm, root, reader, settings.calm);
  read_count(k.width, root, reader, settings.width);
  read_count(k.height, root, reader, settings.height);
  if (const auto learner = read_one(k.learner, root, reader)) settings.learner = learner->text;
  if (const auto recent = read_one(k.recent, root, reader)) {
    for (const Value& file : recent->items) {
      if (settings.recent.size() < kMostRecent) settings.recent.push_back(file.text);
    }
  }
  return settings;
}

std::string text_of(const Settings& settings) {
  const Keys& k = keys();
  std::string text = "# What the bench keeps of its own. It may be changed by hand, or removed.\n";
  const auto line = [&](const ParamDecl& key, const std::string& value) {
    text += fmt::format("{}: {}\n", key.name, value);
  };
  line(k.theme, settings.theme);
  if (settings.scale != 0) line(k.scale, format_exact(settings.scale));
  line(k.card_share, format_exact(settings.card_share));
  line(k.strip_share, format_exact(settings.strip_share));
  line(k.greets, settings.greets ? "yes" : "no");
  if (!settings.language.empty()) line(k.language, in_quotes(settings.language));
  line(k.captions, settings.captions ? "yes" : "no");
  line(k.calm, settings.calm ? "yes" : "no");
  line(k.width, std::to_string(settings.width));
  line(k.height, std::to_string(settings.height));
  if (!settings.learner.empty()) line(k.learner, in_quotes(settings.learner));
  if (settings.recent.empty()) return text;
  text += k.recent.name + ":\n";
  for (const std::string& file : settings.recent) text += fmt::format("  - {}\n", in_quotes(file));
  return text;
}

bool is_there(const std::string& path) {
  std::error_code code;
  return fs::exists(path, code);
}

bool set_damaged_aside(const std::string& path, std::string& error) {
  if (!is_there(path)) return true;
  Diagnostics mistakes;
  read_settings(path, mistakes);
  if (mistakes.empty()) return true;
  const std::string aside = path + ".damaged";
  std::error_code code;
  fs::copy_file(path, aside, fs::copy_options::overwrite_existing, code);
  if (!code) return true;
  error = fmt::format("{} holds what cannot be read, and {} cannot be written: {}",
                      printable(path, 500), printable(aside, 500), code.message());
  return false;
}

}  // namespace

std::string settings_file() {
  const auto folder = [](const char* variable) -> std::string {
    const char* value = std::getenv(variable);
    return value != nullptr && value[0] == '/' ? value : "";
  };
  std::string base = folder("XDG_CONFIG_HOME");
  if (base.empty()) {
    const std::string home = folder("HOME");
    if (home.empty()) return "";
    base = home + "/.config";
  }
  return base + "/sixtybeats/settings.yaml";
}

Settings read_settings(const std::string& path, Diagnostics& mistakes) {
  if (path.empty() || !is_there(path)) return {};
  const std::optional<YamlNode> root = read_yaml(path, mistakes);
  if (!root) return {};
  Mistakes noted(mistakes);
  TreeReader reader(path, noted);
  return settings_of(*root, reader);
}

bool write_settings(const std::string& path, const Settings& settings, std::string& error) {
  if (path.empty()) {
    error = "settings are not kept: neither XDG_CONFIG_HOME nor HOME names a folder";
    return false;
  }
  return make_folder(folder_of(path), error) && set_damaged_aside(path, error) &&
         write_file_whole(path, text_of(settings), error);
}

void remember(const std::string& path, Settings& settings) {
  std::error_code code;
  const fs::path whole = fs::absolute(path, code);
  const std::string name = code ? path : whole.lexically_normal().string();
  // A settings file holds UTF-8, which not every name is.
  if (find_invalid_utf8(name) != std::string_view::npos) return;
  std::erase(settings.recent, name);
  settings.recent.insert(settings.recent.begin(), name);
  if (settings.recent.size() > kMostRecent) settings.recent.resize(kMostRecent);
}

}  // namespace sixty::gui
