#include "sim/words/words.hpp"

#include <atomic>
#include <boost/locale/gnu_gettext.hpp>
#include <boost/locale/message.hpp>
#include <locale>

#include "sim/base/text.hpp"
#include "sim/words/catalogues.hpp"

namespace sixty {
namespace {

using Messages = boost::locale::message_format<char>;
constexpr const char* kDomain = "words";
// A catalogue has its language's own name for this, and its decimal sign for that.
constexpr const char* kEnglish = to_tr("English");
constexpr const char* kSign = "decimal sign";
constexpr const char* kPoint = to_tr_as("decimal sign", ".");

struct Spoken {
  Language language;
  std::locale holder;                  // owns the messages
  const Messages* messages = nullptr;  // none: English
  int domain = 0;
};

Messages* read_catalogue(const Catalogue& catalogue) {
  boost::locale::gnu_gettext::messages_info info;
  info.language = catalogue.code;
  info.encoding = "UTF-8";
  info.domains.emplace_back(kDomain);
  info.paths.emplace_back("built in");
  // Catalogues are part of the program: whatever file is asked for, these are its bytes.
  info.callback = [&catalogue](const std::string&, const std::string&) {
    return std::vector<char>(catalogue.bytes, catalogue.bytes + catalogue.size);
  };
  return boost::locale::gnu_gettext::create_messages_facet<char>(info);
}

/// Who speaks nothing else need not wait for catalogues to be read.
const Spoken& english() {
  static const Spoken one{{"en", "English", '.'}, std::locale::classic(), nullptr, 0};
  return one;
}

std::vector<Spoken> read_all() {
  std::vector<Spoken> all{english()};
  for (const Catalogue& catalogue : catalogues()) {
    Messages* messages = read_catalogue(catalogue);
    Spoken one{{catalogue.code, catalogue.code, '.'},
               std::locale(std::locale::classic(), messages),
               messages,
               0};
    one.domain = one.messages->domain(kDomain);
    if (const char* name = one.messages->get(one.domain, nullptr, kEnglish))
      one.language.name = name;
    const char* sign = one.messages->get(one.domain, kSign, kPoint);
    if (sign != nullptr) one.language.decimal_sign = sign[0];
    all.push_back(std::move(one));
  }
  return all;
}

const std::vector<Spoken>& all_spoken() {
  static const std::vector<Spoken> all = read_all();
  return all;
}

std::atomic<const Spoken*>& now_spoken() {
  static std::atomic<const Spoken*> now = &english();
  return now;
}

const Spoken& spoken_of(const Language& language) {
  for (const Spoken& one : all_spoken())
    if (one.language.code == language.code) return one;
  return all_spoken().front();
}

const char* found(const Spoken& in, const char* context, const char* english) {
  // The empty key is the catalogue's own head.
  if (in.messages == nullptr || *english == '\0') return nullptr;
  return in.messages->get(in.domain, context, english);
}

}  // namespace

const std::vector<Language>& languages() {
  static const std::vector<Language> all = [] {
    std::vector<Language> names;
    for (const Spoken& one : all_spoken()) names.push_back(one.language);
    return names;
  }();
  return all;
}

const Language* find_language(std::string_view code) {
  for (const Language& language : languages())
    if (language.code == code) return &language;
  return nullptr;
}

const char* words_in(const Language& language, const char* english) {
  return found(spoken_of(language), nullptr, english);
}

void speak(const Language& language) { now_spoken() = &spoken_of(language); }

const Language& spoken() { return now_spoken().load()->language; }

const char* tr(const char* english) { return tr_as(nullptr, english); }

std::string tr(const std::string& english) { return tr(english.c_str()); }

const char* tr_as(const char* context, const char* english) {
  const char* words = found(*now_spoken(), context, english);
  return words == nullptr ? english : words;
}

const char* tr_counted(const char* one, const char* many, std::int64_t number) {
  const Spoken& now = *now_spoken();
  const char* words = nullptr;
  if (now.messages != nullptr)
    words = now.messages->get(now.domain, nullptr, one, static_cast<int>(number % 1'000'000'000));
  if (words != nullptr) return words;
  return number == 1 ? one : many;
}

std::string spoken_number(std::string number) {
  return with_decimal_sign(std::move(number), spoken().decimal_sign);
}

std::string with_decimal_sign(std::string number, char sign) {
  if (sign == '.') return number;
  for (std::size_t at = 1; at + 1 < number.size(); ++at)
    if (number[at] == '.' && is_digit(number[at - 1]) && is_digit(number[at + 1]))
      number[at] = sign;
  return number;
}

std::string say_with(const char* words, const char* english, fmt::format_args args) {
  try {
    return fmt::vformat(words, args);
  } catch (const fmt::format_error&) {
    return fmt::vformat(english, args);
  }
}

}  // namespace sixty
