#include "sim/diagnose/beforehand.hpp"

#include <algorithm>
#include <cctype>
#include <set>

#include "sim/base/math.hpp"
#include "sim/base/text.hpp"
#include "sim/scene/values.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kDaysAYear = 365.25;
constexpr double kMostByAge = 8;                         // times as old as usual that still count
constexpr double kLeastFactor = 0.05, kMostFactor = 20;  // never to nothing
constexpr std::size_t kMostHappened = 100, kLongestName = 100;

double share_by_age(double days, const Ageing& ageing, std::size_t cause) {
  const double times = std::clamp(days / ageing.usual_days, 1 / kMostByAge, kMostByAge);
  return det_pow(times, ageing.power[cause]);
}

class BeforehandReader {
 public:
  BeforehandReader(const Installation& installation, const std::vector<Place>& places,
                   TreeReader& reader)
      : installation_(installation),
        places_(places),
        reader_(reader),
        book_(installation.circumstances, reader.mistakes()) {
    known_.by_age.fill(1);
  }

  Beforehand read(const YamlNode& node) {
    if (!reader_.is_map(node, "known", "{built: 1931, done: [...]}")) return known_;
    reader_.check_keys(node, "known", {"built", "age", "serviced", "weather", "done"});
    read_built(node);
    read_age(node);
    if (const auto days = time(node, "serviced", known_.serviced)) {
      grow(*days, book_.serviced());
      if (const Circumstance* lately = book_.find("serviced", false)) fade_in(*lately, *days);
    }
    for (const YamlNode* one : list(node, "weather")) read_weather(*one);
    for (const YamlNode* one : list(node, "done")) read_done(*one);
    return std::move(known_);
  }

 private:
  void grow(double days, const Ageing& ageing) {
    for (std::size_t c = 0; c < kCauses; ++c) known_.by_age[c] *= share_by_age(days, ageing, c);
  }

  /// Whoever has been at it for a service has not only made it better.
  void fade_in(const Circumstance& lately, double days) {
    const double left = det_pow(0.5, days / std::max(lately.fades_days, 1.0));
    for (std::size_t c = 0; c < kCauses; ++c) {
      if (lately.factor[c] > 1) known_.by_age[c] *= det_pow(lately.factor[c], left);
    }
  }

  void read_built(const YamlNode& node) {
    const YamlNode* built = node.find("built");
    if (built == nullptr) return;
    const int now = std::stoi(format_iso(installation_.clock, 0, 0).substr(0, 4));
    const auto year = check_value(count_field("built", 1800, now, ""), *built, "built", reader_);
    if (!year) return;
    known_.built = built->scalar;
    grow((now - year->number) * kDaysAYear, book_.built());
  }

  void read_age(const YamlNode& node) {
    const auto days = time(node, "age", known_.age);
    if (!days) return;
    if (known_.built.empty()) {
      grow(*days, book_.built());
      return;
    }
    reader_.add(*node.find("age"), "age", "a second answer to the same question", "built or age",
                "leave one out");
  }

  std::optional<double> time(const YamlNode& node, const char* key, std::string& written) {
    const YamlNode* at = node.find(key);
    if (at == nullptr || !reader_.is_scalar(*at, key, "a time, as 18 months")) return std::nullopt;
    const auto days = read_days(at->scalar);
    if (days)
      written = trimmed(at->scalar);
    else
      reader_.add(*at, key, "this is no time", "today, 3 days ago, 18 months ago, 20 years", "");
    return days;
  }

  std::vector<const YamlNode*> list(const YamlNode& node, const char* key) {
    std::vector<const YamlNode*> all;
    const YamlNode* items = node.find(key);
    if (items == nullptr || !reader_.is_list(*items, key, "[...]")) return all;
    if (items->items.size() > kMostHappened) {
      reader_.add(*items, key, "so many cannot be weighed", "at most 100", "leave some out");
      return all;
    }
    for (const YamlNode& item : items->items) all.push_back(&item);
    return all;
  }

  bool find(const YamlNode& node, bool weather, Beforehand::Happened& one) {
    const char* key = weather ? "weather" : "what";
    if (!reader_.is_scalar(node, key, "a word")) return false;
    const Circumstance* found = book_.find(node.scalar, weather);
    if (found == nullptr) {
      reader_.mistakes().add_unknown(reader_.place(node), "known", key, node.scalar,
                                     book_.names(weather));
      return false;
    }
    one.what = trimmed(node.scalar);
    one.circumstance = *found;
    return true;
  }

  void read_weather(const YamlNode& node) {
    Beforehand::Happened one;
    if (find(node, true, one)) known_.weather.push_back(std::move(one));
  }

  void read_done(const YamlNode& node) {
    if (!reader_.is_map(node, "done", "{what: new cells, at: battery, ago: 2 weeks}")) return;
    reader_.check_keys(node, "done", {"what", "at", "ago", "by"});
    Beforehand::Happened one;
    const YamlNode* what = reader_.required(node, node, "what", "done", "what: new cells");
    if (what == nullptr || !find(*what, false, one)) return;
    one.ago_days = time(node, "ago", one.ago).value_or(0);
    one.by = reader_.text(node, "by", "done", false);
    if (one.by.size() > kLongestName)
      reader_.add(*node.find("by"), "by", "too long", "at most 100 bytes", "shorten it");
    if (!read_where(node, one)) return;
    known_.done.push_back(std::move(one));
  }

  bool read_where(const YamlNode& node, Beforehand::Happened& one) {
    const YamlNode* at = node.find("at");
    if (at == nullptr) return true;
    if (!reader_.is_scalar(*at, "at", "a place")) return false;
    const Place* place = read_place(places_, *at, reader_);
    if (place == nullptr) return false;
    one.place = place->name;
    one.parts = place->parts;
    return true;
  }

  const Installation& installation_;
  const std::vector<Place>& places_;
  TreeReader& reader_;
  CircumstanceBook book_;
  Beforehand known_;
};

/// Kinds of parts that something of a cause can strike.
std::set<std::string> kinds_with(Cause cause, const std::vector<Suspect>& suspects) {
  std::set<std::string> kinds;
  for (const Suspect& one : suspects) {
    const auto& causes = one.fault->comes_of;
    if (std::find(causes.begin(), causes.end(), cause) != causes.end())
      kinds.insert(one.fault->kind->name);
  }
  return kinds;
}

/// How long ago something was, and how old it is, by the last word of what was written.
struct SpokenUnit {
  std::string_view word;
  const char* ago;
  const char* old;
};
constexpr SpokenUnit kSpokenUnits[] = {{"hour", to_tr("{} hour ago"), to_tr("{} hour old")},
                                       {"hours", to_tr("{} hours ago"), to_tr("{} hours old")},
                                       {"day", to_tr("{} day ago"), to_tr("{} day old")},
                                       {"days", to_tr("{} days ago"), to_tr("{} days old")},
                                       {"week", to_tr("{} week ago"), to_tr("{} week old")},
                                       {"weeks", to_tr("{} weeks ago"), to_tr("{} weeks old")},
                                       {"month", to_tr("{} month ago"), to_tr("{} month old")},
                                       {"months", to_tr("{} months ago"), to_tr("{} months old")},
                                       {"year", to_tr("{} year ago"), to_tr("{} year old")},
                                       {"years", to_tr("{} years ago"), to_tr("{} years old")}};

/// With a unit that is known in words of its own, else as it was written.
std::string with_unit(const std::string& time, const char* SpokenUnit::*form, const char* other) {
  const std::size_t blank = time.rfind(' ');
  for (const SpokenUnit& unit : kSpokenUnits) {
    if (blank == std::string::npos || time.substr(blank + 1) != unit.word) continue;
    const std::string number = spoken_number(time.substr(0, blank));
    return say_with(tr(unit.*form), unit.*form, fmt::make_format_args(number));
  }
  return say_with(tr(other), other, fmt::make_format_args(time));
}

/// "2 weeks ago", whichever way it was written.
std::string with_ago(std::string time) {
  if (time == "today") return tr("today");
  if (time == "yesterday") return tr("yesterday");
  constexpr std::string_view kAgo = " ago";
  if (time.ends_with(kAgo)) time.resize(time.size() - kAgo.size());
  return is_digit(time[0]) ? with_unit(time, &SpokenUnit::ago, to_tr("{} ago")) : time;
}

std::string written(const Beforehand::Happened& one) {
  std::string text = "    - {what: " + in_quotes(one.what);
  if (!one.place.empty()) text += ", at: " + in_quotes(one.place);
  if (!one.ago.empty()) text += ", ago: " + in_quotes(one.ago);
  if (!one.by.empty()) text += ", by: " + in_quotes(one.by);
  return text + "}\n";
}

}  // namespace

Beforehand read_beforehand(const YamlNode& node, const Installation& installation,
                           const std::vector<Place>& places, TreeReader& reader) {
  return BeforehandReader(installation, places, reader).read(node);
}

std::string beforehand_text(const Beforehand& known) {
  if (known.is_empty()) return "";
  std::string text = "known:\n";
  if (!known.built.empty()) text += "  built: " + in_quotes(known.built) + "\n";
  if (!known.age.empty()) text += "  age: " + in_quotes(known.age) + "\n";
  if (!known.serviced.empty()) text += "  serviced: " + in_quotes(known.serviced) + "\n";
  std::string weather;
  for (const Beforehand::Happened& one : known.weather)
    weather += (weather.empty() ? "" : ", ") + in_quotes(one.what);
  if (!weather.empty()) text += "  weather: [" + weather + "]\n";
  if (!known.done.empty()) text += "  done:\n";
  for (const Beforehand::Happened& one : known.done) text += written(one);
  return text;
}

std::vector<std::string> beforehand_words(const Beforehand& known) {
  std::vector<std::string> all;
  if (!known.built.empty()) all.push_back(say("built {}", known.built));
  if (!known.age.empty()) all.push_back(with_unit(known.age, &SpokenUnit::old, to_tr("{} old")));
  if (!known.serviced.empty()) all.push_back(say("last serviced {}", with_ago(known.serviced)));
  for (const Beforehand::Happened& one : known.weather)
    all.push_back(say("weather: {}", tr(one.what)));
  for (const Beforehand::Happened& one : known.done) {
    std::string text = tr(one.what);
    if (!one.place.empty()) text = say("{} at {}", text, spoken_place(one.place));
    if (!one.ago.empty()) text += ", " + with_ago(one.ago);
    if (!one.by.empty()) text += " (" + one.by + ")";
    all.push_back(text);
  }
  return all;
}

std::string beforehand_list(const Beforehand& known) {
  std::string text;
  for (const std::string& one : beforehand_words(known)) text += (text.empty() ? "" : "; ") + one;
  return text;
}

std::string beforehand_sentence(const Beforehand& known) {
  const std::string list = beforehand_list(known);
  return list.empty() ? "" : say("what was known beforehand: {}", list);
}

std::vector<double> weights_of(const Beforehand& known, const std::vector<Suspect>& suspects,
                               const Installation& installation) {
  struct Counts {
    const Beforehand::Happened* one;
    double left;  // of it, after so long
    std::set<std::string> kinds;
  };
  std::vector<Counts> all;
  for (const auto* list : {&known.done, &known.weather}) {
    for (const Beforehand::Happened& one : *list) {
      const Circumstance& c = one.circumstance;
      const double left = c.fades_days > 0 ? det_pow(0.5, one.ago_days / c.fades_days) : 1;
      const bool everywhere = one.place.empty() && c.concerns;
      all.push_back(
          {&one, left, everywhere ? kinds_with(*c.concerns, suspects) : std::set<std::string>()});
    }
  }
  const auto concerns = [&](const Counts& of, PartId part) {
    if (!of.one->place.empty())
      return std::binary_search(of.one->parts.begin(), of.one->parts.end(), part);
    return !of.one->circumstance.concerns ||
           of.kinds.count(installation.parts[part].kind->name) > 0;
  };
  std::vector<double> weights;
  weights.reserve(suspects.size());
  for (const Suspect& suspect : suspects) {
    double sum = 0;
    for (const Cause cause : suspect.fault->comes_of) {
      const auto c = static_cast<std::size_t>(cause);
      double factor = known.is_empty() ? 1 : known.by_age[c];
      for (const Counts& of : all) {
        if (concerns(of, suspect.part)) factor *= det_pow(of.one->circumstance.factor[c], of.left);
      }
      sum += factor;
    }
    const auto causes = static_cast<double>(suspect.fault->comes_of.size());
    weights.push_back(causes > 0 ? std::clamp(sum / causes, kLeastFactor, kMostFactor) : 1);
  }
  return weights;
}

}  // namespace sixty::diagnose
