#include "gui/staff/staff_book.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "gui/staff/aside.hpp"
#include "gui/staff/sheet_writer.hpp"
#include "sim/base/text.hpp"
#include "sim/scene/values.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kVolume = "volume";
constexpr const char* kLanguages = "languages";
constexpr const char* kOpening = "opening";
constexpr const char* kOutOfOrder = "out_of_order";
constexpr const char* kTexts = "texts";

/// In the order of OpenBy.
const std::vector<std::string>& opening_words() {
  static const std::vector<std::string> all = {"by_the_file", "open", "closed"};
  return all;
}

bool is_file(const std::string& path) {
  std::error_code code;
  return std::filesystem::exists(path, code) || code;
}

/// The text without controls but line ends, cut between two letters. Errors: empty if it is no
/// UTF-8.
std::string fit_text(std::string text, std::size_t most_bytes) {
  if (find_invalid_utf8(text) != std::string_view::npos) return "";
  for (char& c : text) {
    const bool is_control = (c >= 0 && c < ' ' && c != '\n') || c == '\x7f';
    if (is_control) c = ' ';
  }
  if (text.size() > most_bytes) {
    text.resize(most_bytes);
    const std::size_t broken = find_invalid_utf8(text);
    if (broken != std::string_view::npos) text.resize(broken);
  }
  return trimmed_block(text);
}

StaffBook fit_book(const StaffBook& wished) {
  StaffBook book = wished;
  if (book.volume) book.volume = std::clamp(*book.volume, 0, 100);
  book.languages.clear();
  for (const std::string& language : wished.languages) {
    const std::string code = fit_text(language, StaffBook::kMostName);
    const bool is_new =
        std::find(book.languages.begin(), book.languages.end(), code) == book.languages.end();
    if (!code.empty() && is_new && book.languages.size() < StaffBook::kMostLanguages)
      book.languages.push_back(code);
  }
  book.texts.clear();
  for (const auto& [where, words] : wished.texts) {
    const std::string piece = fit_text(where.first, StaffBook::kMostName);
    const std::string language = fit_text(where.second, StaffBook::kMostName);
    const std::string text = fit_text(words, StaffBook::kMostText);
    const bool is_whole = !piece.empty() && !language.empty() && !text.empty();
    if (is_whole && book.texts.size() < StaffBook::kMostTexts) book.texts[{piece, language}] = text;
  }
  return book;
}

void read_texts(const YamlNode& root, TreeReader& reader, StaffBook& book) {
  const YamlNode* texts = root.find(kTexts);
  if (texts == nullptr || !reader.is_map(*texts, kTexts, "title: {en: \"Time for all\"}")) return;
  for (const auto& [piece, by_language] : texts->entries) {
    const std::string label = fmt::format("{}.{}", kTexts, piece.scalar);
    if (!reader.is_map(by_language, label, "{en: \"Time for all\"}")) continue;
    for (const auto& [language, words] : by_language.entries) {
      const std::string what = label + "." + language.scalar;
      if (reader.is_scalar(words, what, "a text"))
        book.texts[{piece.scalar, language.scalar}] = words.scalar;
    }
  }
}

StaffBook book_of(const YamlNode& root, TreeReader& reader) {
  StaffBook book;
  if (!reader.is_map(root, "", "volume: 60")) return book;
  reader.check_keys(root, "what staff have changed",
                    {kVolume, kLanguages, kOpening, kOutOfOrder, kTexts});
  if (const YamlNode* volume = root.find(kVolume)) {
    const auto value = check_value(count_field(kVolume, 0, 100, ""), *volume, kVolume, reader);
    if (value) book.volume = static_cast<int>(value->number);
  }
  book.languages = reader.texts(root, kLanguages, kLanguages);
  if (const auto word = reader.word_of(root, kOpening, kOpening, opening_words()))
    book.opening = static_cast<OpenBy>(*word);
  book.out_of_order = reader.says_yes(root, kOutOfOrder, kOutOfOrder);
  read_texts(root, reader, book);
  return fit_book(book);
}

std::string value_of(const char* variable) {
  const char* value = std::getenv(variable);
  return value == nullptr ? "" : value;
}

bool is_whole_path(const std::string& path) { return path.starts_with('/'); }

/// Of several with ":" between them. Errors: empty if it is no whole path.
std::string first_of(const std::string& paths) {
  const std::string first = paths.substr(0, paths.find(':'));
  return is_whole_path(first) ? first : "";
}

}  // namespace

StaffBook read_staff_book(const std::string& path, Diagnostics& mistakes) {
  if (path.empty() || !is_file(path)) return {};
  const std::optional<YamlNode> root = read_yaml(path, mistakes);
  if (!root) return {};
  Mistakes noted(mistakes);
  TreeReader reader(path, noted);
  return book_of(*root, reader);
}

std::string staff_book_text(const StaffBook& wished) {
  const StaffBook book = fit_book(wished);
  std::string text =
      "# What staff have changed at the display. It may be changed by hand while the display is\n"
      "# off, or removed.\n";
  if (book.volume) text += fmt::format("{}: {}\n", kVolume, *book.volume);
  if (!book.languages.empty()) text += fmt::format("{}:\n", kLanguages);
  for (const std::string& code : book.languages) text += fmt::format("  - {}\n", in_quotes(code));
  text +=
      fmt::format("{}: {}\n", kOpening, opening_words()[static_cast<std::size_t>(book.opening)]);
  text += fmt::format("{}: {}\n", kOutOfOrder, book.out_of_order ? "yes" : "no");
  if (!book.texts.empty()) text += fmt::format("{}:\n", kTexts);
  std::string last;
  for (const auto& [where, words] : book.texts) {
    if (where.first != last) text += fmt::format("  {}:\n", in_quotes(where.first));
    last = where.first;
    text += fmt::format("    {}: {}\n", in_quotes(where.second), in_quotes(words));
  }
  return text;
}

StateEnvironment state_environment() {
  return {value_of("STATE_DIRECTORY"), value_of("XDG_STATE_HOME"), value_of("HOME"),
          value_of("LOGS_DIRECTORY"), value_of("RUNTIME_DIRECTORY")};
}

std::string state_folder(const StateEnvironment& environment) {
  const std::string given = first_of(environment.state_directory);
  if (!given.empty()) return given;
  if (is_whole_path(environment.xdg_state_home)) return environment.xdg_state_home + "/sixtybeats";
  if (is_whole_path(environment.home)) return environment.home + "/.local/state/sixtybeats";
  return "";
}

std::string log_folder(const StateEnvironment& environment) {
  const std::string given = first_of(environment.logs_directory);
  if (!given.empty()) return given;
  const std::string state = state_folder(environment);
  return state.empty() ? "" : state + "/log";
}

std::string heartbeat_folder(const StateEnvironment& environment) {
  const std::string given = first_of(environment.runtime_directory);
  return given.empty() ? state_folder(environment) : given;
}

StaffDesk::StaffDesk(const std::string& path, SheetWriter& writer) : path_(path), writer_(writer) {
  Diagnostics mistakes;
  book_ = read_staff_book(path_, mistakes);
  if (mistakes.empty()) return;
  std::string error;
  stays_ = !set_aside(path_, error);
  if (stays_) {
    damaged_ =
        say("What staff have changed cannot all be read, and changes are kept only until the "
            "program ends, because {}.",
            error);
  } else {
    damaged_ = say("What staff have changed could not all be read; the file is kept as {}.damaged.",
                   printable(path_, 500));
  }
  damaged_ += "\n" + mistakes.to_text();
}

void StaffDesk::change(const StaffBook& book) {
  book_ = fit_book(book);
  if (!path_.empty() && !stays_) writer_.write(path_, staff_book_text(book_));
}

std::string StaffDesk::note() const {
  if (path_.empty())
    return tr("Changes are kept only until the program ends: no folder for them is known.");
  const std::string trouble = writer_.trouble(path_);
  if (trouble.empty()) return damaged_;
  const std::string unwritten = say("Changes are kept only until the program ends: {}.", trouble);
  return damaged_.empty() ? unwritten : unwritten + "\n" + damaged_;
}

}  // namespace sixty::gui
