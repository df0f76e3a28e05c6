#include "sim/diagnose/observation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "sim/base/clock_time.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

using How = Observation::How;

constexpr const char* kExample = "{at: clock_porch, sign: slow, about: 5}";
constexpr std::size_t kMostObservations = 500;

struct HowWord {
  const char* key;
  How how;
  const char* says;  // of a place, a sign and an amount
};
constexpr HowWord kHows[] = {{"about", How::kAbout, to_tr("{} {} by about {}")},
                             {"at_least", How::kAtLeast, to_tr("{} {} by at least {}")},
                             {"at_most", How::kAtMost, to_tr("{} {} by at most {}")},
                             {"reads", How::kReads, to_tr("{} {}: it reads {}")}};

/// What may be written as amount of a sign.
ParamDecl amount_decl(const Sign& sign, How how) {
  if (how != How::kReads && sign.by_share) return quantity_field("amount", "1", 0, 1e6, "");
  std::string unit = sign.unit;
  if (how != How::kReads && unit == "K") unit = "delta_K";
  return quantity_field("amount", unit, how == How::kReads ? -1e12 : 0, 1e12, "");
}

class ObservationReader {
 public:
  ObservationReader(const std::string& file, const Installation& installation,
                    const std::vector<SignAt>& signs, const WatchPlan& watch, Mistakes& mistakes)
      : reader_(file, mistakes),
        mistakes_(mistakes),
        installation_(installation),
        signs_(signs),
        watch_(watch),
        places_(places_of(installation)) {}

  std::vector<Observation> read(const YamlNode& root) {
    std::vector<Observation> all;
    if (!reader_.is_map(root, "observations", "observations: SCENE, seen: [...]")) return all;
    reader_.check_keys(root, "observations", {"observations", "known", "seen"});
    const YamlNode* scene =
        reader_.required(root, root, "observations", "", "observations: the scene's name");
    if (scene != nullptr && reader_.is_scalar(*scene, "observations", "the scene's name") &&
        scene->scalar != installation_.name) {
      reader_.add(*scene, "observations", "these are of another scene", installation_.name,
                  "take that scene, or observations of this one");
    }
    const YamlNode* seen = reader_.required(root, root, "seen", "", "seen: [...]");
    if (seen == nullptr || !reader_.is_list(*seen, "seen", std::string("[") + kExample + "]"))
      return all;
    if (seen->items.empty() || seen->items.size() > kMostObservations) {
      reader_.add(*seen, "seen", "so many cannot be weighed", "from 1 to 500 observations",
                  "write down at least one thing that was noticed");
      return all;
    }
    std::shared_ptr<const Beforehand> known;
    if (const YamlNode* node = root.find("known"))
      known = std::make_shared<const Beforehand>(
          read_beforehand(*node, installation_, places_, reader_));
    for (const YamlNode& node : seen->items) {
      auto one = read_one(node);
      if (!one) continue;
      one->known = known;
      all.push_back(std::move(*one));
    }
    return all;
  }

 private:
  std::optional<Observation> read_one(const YamlNode& node) {
    if (!reader_.is_map(node, "seen", kExample)) return std::nullopt;
    reader_.check_keys(node, "an observation",
                       {"at", "sign", "about", "at_least", "at_most", "reads", "answer", "some",
                        "when", "checked"});
    const YamlNode* at = reader_.required(node, node, "at", "observation", kExample);
    const YamlNode* sign = reader_.required(node, node, "sign", "observation", kExample);
    if (at == nullptr || sign == nullptr) return std::nullopt;
    if (!reader_.is_scalar(*at, "at", "a place") || !reader_.is_scalar(*sign, "sign", "a sign"))
      return std::nullopt;
    Observation one;
    one.place = at->scalar;
    one.sign = sign->scalar;
    if (!find_signs(*at, *sign, one) || !read_answer(node, one)) return std::nullopt;
    read_amount(node, one);
    read_when(node, one);
    one.all = !reader_.says_yes(node, "some", "observation");
    one.checked = reader_.says_yes(node, "checked", "observation");
    return one;
  }

  bool find_signs(const YamlNode& at, const YamlNode& sign, Observation& one) {
    const Place* place = read_place(places_, at, reader_);
    if (place == nullptr) return false;
    one.place = place->name;
    one.which = signs_at(*place, sign.scalar, signs_);
    if (!one.which.empty()) return true;
    std::vector<std::string> names;
    for (const SignAt& known : signs_) {
      const bool here = std::binary_search(place->parts.begin(), place->parts.end(), known.part);
      if (here && std::find(names.begin(), names.end(), known.sign->name) == names.end())
        names.push_back(known.sign->name);
    }
    mistakes_.add_unknown(reader_.place(sign), place->name, "sign", sign.scalar, names);
    return false;
  }

  /// Whether it is to be weighed at all.
  bool read_answer(const YamlNode& node, Observation& one) {
    if (node.find("answer") == nullptr) return true;
    const auto answer =
        reader_.word_of(node, "answer", "observation", {"yes", "no", "not looked at"});
    if (!answer) return false;
    constexpr std::array kAnswers{How::kThere, How::kNot, How::kUnseen};
    one.how = kAnswers[*answer];
    return true;
  }

  void read_amount(const YamlNode& node, Observation& one) {
    const Sign& sign = *signs_[one.which.front()].sign;
    for (const HowWord& word : kHows) {
      const YamlNode* amount = node.find(word.key);
      if (amount == nullptr) continue;
      if (one.how != How::kThere) {
        reader_.add(*amount, word.key, "a second answer to the same question", "one of them",
                    "leave one out, or write two observations");
        return;
      }
      const auto value = check_value(amount_decl(sign, word.how), *amount, word.key, reader_);
      if (!value) return;
      one.how = word.how;
      one.amount = value->number;
    }
  }

  void read_when(const YamlNode& node, Observation& one) {
    const YamlNode* when = node.find("when");
    if (when == nullptr || !reader_.is_scalar(*when, "when", "a half day, as Mon am")) return;
    std::vector<std::string> known;
    for (std::size_t span = 1; span < watch_.spans(); ++span) {
      known.push_back(half_day_name(installation_, span));
      if (known.back() == when->scalar) {
        one.span = span;
        return;
      }
    }
    mistakes_.add_unknown(reader_.place(*when), "when", "half day", when->scalar, known);
  }

  TreeReader reader_;
  Mistakes& mistakes_;
  const Installation& installation_;
  const std::vector<SignAt>& signs_;
  const WatchPlan& watch_;
  std::vector<Place> places_;
};

std::string amount_text(const Observation& one, const Sign& sign) {
  const std::string& unit = amount_decl(sign, one.how).unit;
  if (unit == "1") return format_exact(one.amount);
  return format_quantity(one.amount, unit);
}

const HowWord* word_of(How how) {
  for (const HowWord& word : kHows) {
    if (word.how == how) return &word;
  }
  return nullptr;
}

/// Of a place and a sign, and perhaps of an amount.
const char* form_of(How how) {
  if (how == How::kNot) return to_tr("not so: {} {}");
  if (how == How::kUnseen) return to_tr("not looked at: {} {}");
  const HowWord* word = word_of(how);
  return word == nullptr ? "{} {}" : word->says;
}

/// The sentence as it stands in files, which are the same for all.
std::string english_sentence(const Observation& one, const Sign& sign) {
  const std::string amount = word_of(one.how) == nullptr ? "" : amount_text(one, sign);
  const std::string text =
      fmt::format(fmt::runtime(form_of(one.how)), one.place, sign.says, amount);
  return one.all || !one.is_there() ? text : text + " (only some)";
}

bool is_afternoon(const Installation& installation, SimTime at) {
  return format_weekday_time(installation.clock, at, 0).substr(4, 2) >= "12";
}

SimTime middle_of(std::size_t span) {
  return static_cast<SimTime>(span - 1) * kHalfDay + kHalfDay / 2;
}

}  // namespace

std::string half_day_name(const Installation& installation, std::size_t span) {
  const SimTime at = middle_of(span);
  const std::string day = format_weekday_time(installation.clock, at, 0).substr(0, 3);
  return day + (is_afternoon(installation, at) ? " pm" : " am");
}

std::string spoken_half_day(const Installation& installation, std::size_t span) {
  const SimTime at = middle_of(span);
  const std::string day = tr(format_weekday_time(installation.clock, at, 0).substr(0, 3));
  return is_afternoon(installation, at) ? say("{} pm", day) : say("{} am", day);
}

std::vector<std::size_t> signs_at(const Place& place, const std::string& sign,
                                  const std::vector<SignAt>& signs) {
  std::vector<std::size_t> found;
  for (std::size_t k = 0; k < signs.size(); ++k) {
    if (signs[k].sign->name == sign &&
        std::binary_search(place.parts.begin(), place.parts.end(), signs[k].part))
      found.push_back(k);
  }
  return found;
}

Observation observation_at(std::string place, std::vector<std::size_t> which,
                           const std::vector<SignAt>& signs) {
  Observation one;
  one.place = std::move(place);
  one.sign = signs[which.front()].sign->name;
  one.which = std::move(which);
  return one;
}

Beforehand known_with(const std::vector<Observation>& observations) {
  Beforehand all;
  std::vector<const Beforehand*> taken;
  const auto merge = [](auto& into, const auto& more) {
    for (const auto& one : more) {
      if (std::find(into.begin(), into.end(), one) == into.end()) into.push_back(one);
    }
  };
  for (const Observation& one : observations) {
    const Beforehand* known = one.known.get();
    if (known == nullptr || std::find(taken.begin(), taken.end(), known) != taken.end()) continue;
    const bool has_age = !all.built.empty() || !all.age.empty() || !all.serviced.empty();
    if (taken.empty() || !has_age) {
      all.built = known->built;
      all.age = known->age;
      all.serviced = known->serviced;
      all.by_age = known->by_age;
    }
    merge(all.done, known->done);
    merge(all.weather, known->weather);
    taken.push_back(known);
  }
  return all;
}

void invert(Observation& one) { one.how = one.how == How::kNot ? How::kThere : How::kNot; }

bool is_any_looked_at(const std::vector<Observation>& observations) {
  return std::any_of(observations.begin(), observations.end(),
                     [](const Observation& one) { return one.is_looked_at(); });
}

std::vector<std::size_t> complaints(const std::vector<Observation>& observations) {
  std::vector<std::size_t> all;
  for (std::size_t o = 0; o < observations.size(); ++o) {
    if (observations[o].is_there() && observations[o].how != How::kReads) all.push_back(o);
  }
  return all;
}

std::string sentence(const Observation& observation, const std::vector<SignAt>& signs) {
  const Sign& sign = *signs[observation.which.front()].sign;
  const std::string place = spoken_place(observation.place), says = tr(sign.says);
  const bool measured = word_of(observation.how) != nullptr;
  const std::string amount = measured ? spoken_number(amount_text(observation, sign)) : "";
  const char* form = form_of(observation.how);
  const std::string text = say_with(tr(form), form, fmt::make_format_args(place, says, amount));
  return observation.all || !observation.is_there() ? text : say("{} (only some)", text);
}

std::vector<Observation> read_observations(const YamlNode& root, const std::string& file,
                                           const Installation& installation,
                                           const std::vector<SignAt>& signs, const WatchPlan& watch,
                                           Mistakes& mistakes) {
  return ObservationReader(file, installation, signs, watch, mistakes).read(root);
}

std::string observations_text(const std::vector<Observation>& observations,
                              const std::vector<SignAt>& signs, const std::string& scene,
                              const Installation& installation) {
  std::string text =
      "observations: " + scene + "\n" + beforehand_text(known_with(observations)) + "seen:\n";
  for (const Observation& one : observations) {
    const Sign& sign = *signs[one.which.front()].sign;
    text +=
        "  # " + english_sentence(one, sign) + "\n  - {at: " + one.place + ", sign: " + one.sign;
    if (one.how == How::kNot) text += ", answer: no";
    if (one.how == How::kUnseen) text += ", answer: not looked at";
    if (const HowWord* word = word_of(one.how))
      text += std::string(", ") + word->key + ": " + amount_text(one, sign);
    if (!one.all) text += ", some: yes";
    if (one.checked) text += ", checked: yes";
    if (one.span > 0) text += ", when: " + half_day_name(installation, one.span);
    text += "}\n";
  }
  return text;
}

}  // namespace sixty::diagnose
