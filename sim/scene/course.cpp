#include "sim/scene/course.hpp"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "sim/base/clock_time.hpp"
#include "sim/base/units.hpp"
#include "sim/base/weekdays.hpp"

namespace sixty {
namespace {

/// Each coming and going is another installation: a day of milliseconds would take hours.
constexpr SimTime kLeastRandomSpan = 100 * kMillisecond;

constexpr const char* kForms =
    "steady, growing over 7d, random 10 % for 30s, after knocks for 5s, below 10 degC, above 30 "
    "degC, damper than 70 %, from 06:00 to 09:00, over 0.5 A";

/// "X" from "<before>X", "X" and "Y" from "<before>X<between>Y"; nothing where it is another form.
struct Form {
  Course::Kind kind;
  std::string_view before, between;
};

constexpr Form kAllForms[] = {
    {Course::Kind::kGrowing, "growing over ", ""},
    {Course::Kind::kRandom, "random ", " for "},
    {Course::Kind::kKnocks, "after knocks for ", ""},
    {Course::Kind::kBelow, "below ", ""},
    {Course::Kind::kAbove, "above ", ""},
    {Course::Kind::kDamp, "damper than ", ""},
    {Course::Kind::kHours, "from ", " to "},
    {Course::Kind::kLoad, "over ", ""},
};

/// Reads the pieces of a course, and keeps the first mistake.
class PieceReader {
 public:
  explicit PieceReader(Diagnostic& mistake) : mistake_(mistake) {}

  double quantity(std::string_view text, const char* unit, double least, double most) {
    const std::optional<double> number = parse_quantity(text, unit, mistake_);
    if (number && (*number < least || *number > most)) {
      refuse("out of range", text,
             "from " + format_quantity(least, unit) + " to " + format_quantity(most, unit));
    }
    sound_ = sound_ && number;
    return number.value_or(0);
  }
  SimTime span(std::string_view text) {
    const std::optional<SimTime> span = parse_duration(text, mistake_);
    if (span == 0) refuse("a time of nothing", text, "a duration, as in 5s");
    sound_ = sound_ && span;
    return span.value_or(0);
  }
  SimTime time_of_day(std::string_view text) {
    std::string error;
    const std::optional<int> minute = parse_minute_of_day(text, error);
    if (!minute) refuse(error, text, "a time of day, as in 06:00");
    return minute.value_or(0) * kMinute;
  }
  bool sound() const { return sound_; }
  void refuse(const std::string& what, std::string_view found, std::string expected) {
    mistake_.what = what;
    mistake_.found = std::string(found);
    mistake_.expected = std::move(expected);
    mistake_.mend = "write it like one of these: " + std::string(kForms);
    sound_ = false;
  }

 private:
  Diagnostic& mistake_;
  bool sound_ = true;
};

Course read_pieces(Course::Kind kind, std::string_view first, std::string_view second,
                   PieceReader& reader) {
  Course c;
  c.kind = kind;
  switch (kind) {
    case Course::Kind::kSteady:
      break;
    case Course::Kind::kGrowing:
    case Course::Kind::kKnocks:
      c.span = reader.span(first);
      break;
    case Course::Kind::kRandom:
      c.amount = reader.quantity(first, "1", 1e-6, 0.999999);
      if (reader.sound()) c.span = reader.span(second);
      if (reader.sound() && c.span < kLeastRandomSpan)
        reader.refuse("it would come and go too fast", second,
                      "at least " + format_duration(kLeastRandomSpan));
      break;
    case Course::Kind::kBelow:
    case Course::Kind::kAbove:
      c.amount = reader.quantity(first, "K", 223.15, 353.15);
      break;
    case Course::Kind::kDamp:
      c.amount = reader.quantity(first, "1", 0, 1);
      break;
    case Course::Kind::kHours:
      c.from = reader.time_of_day(first);
      if (reader.sound()) c.to = reader.time_of_day(second);
      if (reader.sound() && c.from == c.to) reader.refuse("no time lies between", second, kForms);
      break;
    case Course::Kind::kLoad:
      c.amount = reader.quantity(first, "A", 1e-6, 1000);
      break;
  }
  return c;
}

}  // namespace

std::optional<Course> parse_course(std::string_view text, Diagnostic& mistake) {
  if (text == "steady") return Course{};
  PieceReader reader(mistake);
  for (const Form& form : kAllForms) {
    if (text.substr(0, form.before.size()) != form.before) continue;
    const std::string_view rest = text.substr(form.before.size());
    const std::size_t at = form.between.empty() ? rest.size() : rest.find(form.between);
    if (at == std::string_view::npos) break;
    const std::string_view second =
        form.between.empty() ? std::string_view() : rest.substr(at + form.between.size());
    const Course course = read_pieces(form.kind, rest.substr(0, at), second, reader);
    return reader.sound() ? std::optional<Course>(course) : std::nullopt;
  }
  reader.refuse("this is no course of a fault", text, kForms);
  return std::nullopt;
}

std::string course_text(const Course& c) {
  const auto minute = [](SimTime t) { return format_minute_of_day(static_cast<int>(t / kMinute)); };
  switch (c.kind) {
    case Course::Kind::kSteady:
      break;
    case Course::Kind::kGrowing:
      return "growing over " + format_duration(c.span);
    case Course::Kind::kRandom:
      return fmt::format("random {} for {}", format_exact(c.amount), format_duration(c.span));
    case Course::Kind::kKnocks:
      return "after knocks for " + format_duration(c.span);
    case Course::Kind::kBelow:
      return "below " + format_quantity(c.amount, "K");
    case Course::Kind::kAbove:
      return "above " + format_quantity(c.amount, "K");
    case Course::Kind::kDamp:
      return "damper than " + format_exact(c.amount);
    case Course::Kind::kHours:
      return "from " + minute(c.from) + " to " + minute(c.to);
    case Course::Kind::kLoad:
      return "over " + format_quantity(c.amount, "A");
  }
  return "steady";
}

}  // namespace sixty
