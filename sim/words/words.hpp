#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace sixty {

/// A language in which words can be shown. Its words are a gettext catalogue, CODE.po beside this
/// file; the words as they stand in the sources, which are English, are the keys.
struct Language {
  std::string code;  ///< of ISO 639, "de"
  std::string name;  ///< its own, "Deutsch"
  char decimal_sign = '.';
};

/// English, which needs no catalogue, then all of which there is one, by their codes.
const std::vector<Language>& languages();
/// Errors: nothing where there is none of that code.
const Language* find_language(std::string_view code);

/// What a language has for English words; nothing (a null pointer) where its catalogue has nothing.
const char* words_in(const Language& language, const char* english);

/// The language in which all words of this process are shown from now on; English before that.
/// Order: of several threads, each sees it at its next word.
void speak(const Language& language);
const Language& spoken();

/// The words in the spoken language; the English ones where its catalogue has none. Valid for good.
const char* tr(const char* english);
std::string tr(const std::string& english);
/// Of words that mean something else elsewhere: the context tells the translator which are meant.
const char* tr_as(const char* context, const char* english);
/// Marks words in a table: they are put into the catalogues, and translated where they are shown.
constexpr const char* to_tr(const char* english) { return english; }
constexpr const char* to_tr_as(const char* /*context*/, const char* english) { return english; }

/// The number with that decimal sign for its point. Points without a digit on both sides stay.
std::string with_decimal_sign(std::string number, char sign);
/// A number as the spoken language writes it: "0.5" -> "0,5". Points elsewhere stay.
std::string spoken_number(std::string number);

/// A floating-point argument of `say`.
struct SpokenNumber {
  double value;
};

template <class T>
auto spoken_argument(const T& argument) {
  if constexpr (std::is_floating_point_v<T>)
    return SpokenNumber{static_cast<double>(argument)};
  else if constexpr (std::is_array_v<T>)
    return std::string_view(argument);
  else
    return argument;
}

/// What is between braces filled in; should a catalogue have other braces, the English words are.
std::string say_with(const char* words, const char* english, fmt::format_args args);

/// A sentence with numbers and names in it, as fmt::format writes it, in the spoken language.
template <class... Args>
std::string say(fmt::format_string<Args...> english, Args&&... args) {
  const char* key = fmt::string_view(english).data();
  return [key](const auto&... spoken) {
    return say_with(tr(key), key, fmt::make_format_args(spoken...));
  }(spoken_argument(std::as_const(args))...);
}

/// What the catalogue has for that many of something.
const char* tr_counted(const char* one, const char* many, std::int64_t number);

/// The same of a number of things: "{} stroke", "{} strokes", or what that number takes in the
/// spoken language. The number is the first of what is filled in.
template <class... Args>
std::string say_counted(const char* one, fmt::format_string<std::int64_t&, Args...> many,
                        std::int64_t number, Args&&... args) {
  const char* key = fmt::string_view(many).data();
  return [=](const auto&... spoken) {
    return say_with(tr_counted(one, key, number), number == 1 ? one : key,
                    fmt::make_format_args(number, spoken...));
  }(spoken_argument(std::as_const(args))...);
}

}  // namespace sixty

template <>
struct fmt::formatter<sixty::SpokenNumber> : fmt::formatter<double> {
  template <class Context>
  auto format(const sixty::SpokenNumber& number, Context& context) const {
    fmt::memory_buffer buffer;
    fmt::format_context plain(fmt::appender(buffer), context.args(), context.locale());
    fmt::formatter<double>::format(number.value, plain);
    const std::string text = sixty::spoken_number(fmt::to_string(buffer));
    return std::copy(text.begin(), text.end(), context.out());
  }
};
