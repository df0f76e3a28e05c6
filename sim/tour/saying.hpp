#pragma once

#include <functional>

#include "sim/scene/tree_reader.hpp"
#include "sim/tour/tour.hpp"

namespace sixty {

/// A number with a name of its own that words may hold. Its unit is an SI one; "" or "1": none.
struct NamedNumber {
  std::string name, unit;
};

/// Takes "... draws {part.reading} ..." apart; {part.reading:1} is the number alone, with one
/// decimal, and {-part.reading} has the other sign. {name} is one of `numbers`. Errors: reported.
Saying read_saying(const Written& written, const Installation& installation,
                   const std::vector<NamedNumber>& numbers, Mistakes& mistakes);

/// It with its readings and numbers put in. `value`: of a reading; `numbers`: with their units, in
/// the order in which they were named. A language's decimal sign is its own.
std::string said(const Saying& saying, const Installation& installation,
                 const std::function<double(const ReadingOf&)>& value,
                 const std::vector<std::pair<double, std::string>>& numbers = {},
                 const std::string& language = "en");

/// A quantity for people; `decimals` of the number alone, -1: with its unit.
std::string quantity_text(double value, const std::string& unit, int decimals,
                          const std::string& language);

/// Readings that stand in words, each once: added to those that are there.
void add_readings(const Sayings& sayings, std::vector<ReadingOf>& readings);

/// In that language, else in English.
const Saying& in_language(const Sayings& sayings, const std::string& language);

}  // namespace sixty
