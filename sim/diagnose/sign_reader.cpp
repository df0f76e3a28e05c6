// The signs of a part type, from the file beside it.
#include <array>
#include <utility>

#include "sim/base/text.hpp"
#include "sim/diagnose/sign.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty::diagnose {
namespace {

const std::vector<std::string> kKeys = {"sign",   "says",   "words", "reading", "dense", "value",
                                        "plus",   "event",  "from",  "to",      "take",  "when",
                                        "notice", "share",  "known", "likely",  "check", "visit",
                                        "unless", "around", "once"};

constexpr const char* kSwapped = "swapped";

using Take = SignSource::Take;
using What = SignSource::What;

constexpr std::array<std::pair<const char*, Take>, 10> kTakes{{{"last", Take::kLast},
                                                               {"least", Take::kLeast},
                                                               {"most", Take::kMost},
                                                               {"mean", Take::kMean},
                                                               {"change", Take::kChange},
                                                               {"width", Take::kWidth},
                                                               {"count", Take::kCount},
                                                               {"second", Take::kSecond},
                                                               {"silence", Take::kSilence},
                                                               {"still", Take::kStill}}};
constexpr std::array<std::pair<const char*, Sense>, 5> kSenses{{{"seen", Sense::kSeen},
                                                                {"looked", Sense::kLooked},
                                                                {"heard", Sense::kHeard},
                                                                {"listened", Sense::kListened},
                                                                {"measured", Sense::kMeasured}}};
constexpr std::array<std::pair<const char*, Side>, 3> kSides{
    {{"above", Side::kAbove}, {"below", Side::kBelow}, {"other", Side::kEither}}};

class SignReader {
 public:
  SignReader(const YamlNode& node, const Registry::Entry& kind, TreeReader& reader)
      : node_(node), declaration_(kind.declaration), reader_(reader) {
    sign_.kind = &kind;
  }

  std::optional<Sign> read() {
    if (!reader_.is_map(node_, "entries", "{sign: name, says: words, ...}")) return std::nullopt;
    sign_.name = text("sign", true);
    label_ = sign_.name;
    reader_.check_keys(node_, label_, kKeys);
    sign_.says = text("says", true);
    sign_.check = text("check", true);
    sign_.unless = text("unless", false);
    sign_.at_visit = reader_.says_yes(node_, "visit", label_);
    sign_.words = reader_.texts(node_, "words", label_);
    const bool known = read_source();
    choose("take", kTakes, sign_.source.take);
    if (sign_.source.take == Take::kSilence || sign_.source.take == Take::kStill) sign_.unit = "s";
    choose("known", kSenses, sign_.sense);
    choose("when", kSides, sign_.side);
    read_notice();
    read_number("around", quantity_field("around", sign_.unit, 0, 1e9, ""), sign_.source.around);
    read_number("likely", quantity_field("likely", "1", 0, 1, ""), sign_.likely);
    if (!known) return std::nullopt;
    return std::move(sign_);
  }

 private:
  std::string text(const char* key, bool needed) {
    return reader_.text(node_, key, label_, needed);
  }

  bool read_source() {
    SignSource& source = sign_.source;
    for (const auto& [key, what] :
         {std::pair("reading", What::kReading), {"dense", What::kDense}}) {
      if (node_.find(key) == nullptr) continue;
      source.what = what;
      return find_reading(key);
    }
    if (node_.find("value") != nullptr) {
      source.what = What::kValue;
      if (node_.find("plus") != nullptr && !find_param("plus", source.plus.emplace())) return false;
      return find_param("value", source.param);
    }
    if (node_.find("event") != nullptr) {
      source.what = What::kEvent;
      source.take = Take::kCount;
      sign_.unit = "1";
      return find_event("event", source.from);
    }
    if (node_.find("once") != nullptr) return find_once();
    source.what = What::kLasting;
    source.take = Take::kMean;
    sign_.unit = "s";
    return find_event("from", source.from) && find_event("to", source.to);
  }

  bool find_once() {
    sign_.source.what = What::kOnce;
    sign_.unit = "1";
    const std::string name = text("once", true);
    if (name == kSwapped) return true;
    const std::size_t command = index_of(declaration_.commands, name);
    if (command == declaration_.commands.size()) {
      std::vector<std::string> known = names_of(declaration_.commands);
      known.emplace_back(kSwapped);
      reader_.mistakes().add_unknown(reader_.place(*node_.find("once")), label_, "command", name,
                                     known);
      return false;
    }
    sign_.source.once = command;
    return true;
  }

  bool find_reading(const char* key) {
    const std::string name = text(key, true);
    sign_.source.reading = index_of(declaration_.readings, name);
    if (sign_.source.reading == declaration_.readings.size()) {
      reader_.mistakes().add_unknown(reader_.place(*node_.find(key)), label_, "reading", name,
                                     names_of(declaration_.readings));
      return false;
    }
    const std::string& unit = declaration_.readings[sign_.source.reading].unit;
    sign_.unit = unit.empty() ? "1" : unit;
    return true;
  }

  bool find_param(const char* key, std::size_t& param) {
    const std::string name = text(key, true);
    param = index_of(declaration_.params, name);
    if (param == declaration_.params.size()) {
      reader_.mistakes().add_unknown(reader_.place(*node_.find(key)), label_, key, name,
                                     names_of(declaration_.params));
      return false;
    }
    const std::string& unit = declaration_.params[param].unit;
    sign_.unit = unit.empty() ? "1" : unit;
    return true;
  }

  bool find_event(const char* key, std::uint16_t& kind) {
    const std::string name = text(key, true);
    for (const EventDecl& event : declaration_.events) {
      if (event.name != name) continue;
      kind = event.kind;
      return true;
    }
    if (const YamlNode* node = node_.find(key)) {
      reader_.mistakes().add_unknown(reader_.place(*node), label_, "event", name,
                                     declaration_.event_kinds());
    }
    return false;
  }

  template <class Choice, std::size_t kSize>
  void choose(const char* key, const std::array<std::pair<const char*, Choice>, kSize>& choices,
              Choice& chosen) {
    std::vector<std::string> words;
    for (const auto& [word, choice] : choices) words.emplace_back(word);
    if (const auto which = reader_.word_of(node_, key, label_, words))
      chosen = choices[*which].second;
  }

  void read_number(const char* key, const ParamDecl& field, double& number) {
    const YamlNode* node = node_.find(key);
    if (node == nullptr) return;
    const auto value = check_value(field, *node, label_ + "." + key, reader_);
    if (value) number = value->number;
  }

  void read_notice() {
    if (node_.find("share") != nullptr) {
      sign_.by_share = true;
      read_number("share", quantity_field("share", "1", 1e-6, 100, ""), sign_.notice);
      return;
    }
    if (reader_.required(node_, node_, "notice", label_, "what people notice") == nullptr) return;
    const std::string unit = sign_.unit == "K" ? "delta_K" : sign_.unit;
    read_number("notice", quantity_field("notice", unit, 1e-15, 1e15, ""), sign_.notice);
  }

  const YamlNode& node_;
  const Declaration& declaration_;
  TreeReader& reader_;
  std::string label_ = "entries";
  Sign sign_;
};

}  // namespace

std::vector<Sign> read_signs(const YamlNode& root, const std::string& file,
                             const Registry::Entry& kind, Mistakes& mistakes) {
  std::vector<Sign> signs;
  TreeReader reader(file, mistakes);
  if (!reader.is_map(root, "", "signs: part type, entries: [...]")) return signs;
  reader.check_keys(root, "a file of signs", {"signs", "entries", "visit"});
  const YamlNode* entries = reader.required(root, root, "entries", "", "entries: [...]");
  if (entries == nullptr || !reader.is_list(*entries, "entries", "[{sign: ...}]")) return signs;
  for (const YamlNode& entry : entries->items) {
    if (auto sign = SignReader(entry, kind, reader).read()) signs.push_back(std::move(*sign));
  }
  return signs;
}

}  // namespace sixty::diagnose
