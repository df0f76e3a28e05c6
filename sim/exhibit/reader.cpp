// Reads an exhibit's file.
#include <algorithm>
#include <filesystem>
#include <set>
#include <utility>

#include "sim/base/text.hpp"
#include "sim/exhibit/exhibit.hpp"
#include "sim/exhibit/hours_reader.hpp"
#include "sim/exhibit/rehearsal.hpp"
#include "sim/exhibit/take_reader.hpp"
#include "sim/scene/beside.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/values.hpp"
#include "sim/tour/saying.hpp"
#include "sim/words/words.hpp"

namespace sixty::exhibit {
namespace {

constexpr const char* kHead = "exhibit: {en: TITLE}, scene: NAME, story: [...], things: [...]";
constexpr std::size_t kLeastThings = 1, kMostThings = 7, kMostTakes = 20;

class ExhibitReader {
 public:
  ExhibitReader(const std::string& path, const Installation& installation, const Registry& registry,
                Mistakes& mistakes)
      : takes_(path, installation, registry, mistakes),
        steps_(takes_.steps()),
        reader_(steps_.tree()) {}

  void read(const YamlNode& root, Exhibit& exhibit) {
    if (!reader_.is_map(root, "exhibit", kHead)) return;
    reader_.check_keys(
        root, "an exhibit",
        {"exhibit", "institution", "scene", "set", "time_zone", "languages", "screen", "theme",
         "accent", "dial", "sound", "idle", "open", "quiet", "staff", "story", "things"});
    if (!steps_.is_of_scene(root, "exhibit")) return;
    read_head(root, exhibit);
    read_languages(root, exhibit);
    read_screen(root, exhibit.screen);
    read_sound_and_idle(root, exhibit);
    exhibit.open = read_hours(root.find("open"), "open", reader_);
    exhibit.quiet = read_hours(root.find("quiet"), "quiet", reader_);
    if (const YamlNode* staff = root.find("staff")) read_staff(*staff, exhibit.staff);
    read_story(root, exhibit);
    read_things(root, exhibit);
    check_names(root, exhibit);
  }

 private:
  void read_head(const YamlNode& root, Exhibit& exhibit) {
    exhibit.title = steps_.read_sayings(*root.find("exhibit"), "exhibit");
    if (const YamlNode* name = root.find("institution"))
      exhibit.institution = steps_.read_sayings(*name, "institution");
    exhibit.set = reader_.texts(root, "set", "set");
    exhibit.zone = reader_.text(root, "time_zone", "time_zone", false);
    std::string error;
    if (!exhibit.zone.empty() && !TimeZone::find(exhibit.zone, error))
      reader_.add(*root.find("time_zone"), "time_zone",
                  "there is no such zone here (" + error + ")",
                  "a name of the system's time-zone database, such as Europe/Berlin",
                  "correct it, or leave it out: then it is the system's own");
    exhibit.light = reader_.word_of(root, "theme", "theme", {"dark", "light"}) == 1;
    if (const YamlNode* dial = root.find("dial"))
      if (reader_.is_scalar(*dial, "dial", "the name of a part"))
        exhibit.dial = steps_.part_of(*dial, "dial", dial->scalar);
    exhibit.accent = reader_.text(root, "accent", "accent", false);
    const auto is_hex = [](char c) { return is_digit(c) || (lower(c) >= 'a' && lower(c) <= 'f'); };
    const std::string& accent = exhibit.accent;
    if (!accent.empty() && (accent.size() != 7 || accent[0] != '#' ||
                            !std::all_of(accent.begin() + 1, accent.end(), is_hex)))
      reader_.add(*root.find("accent"), "accent", "this is no colour", "\"#rrggbb\"",
                  "write six hexadecimal digits behind #, in quotes");
  }

  void read_languages(const YamlNode& root, Exhibit& exhibit) {
    exhibit.languages = reader_.texts(root, "languages", "languages");
    if (exhibit.languages.empty()) exhibit.languages = {"en"};
    std::vector<std::string> known;
    for (const Language& language : languages()) known.push_back(language.code);
    for (std::size_t k = 0; k < exhibit.languages.size(); ++k) {
      const std::string& code = exhibit.languages[k];
      const bool is_known = find_language(code) != nullptr;
      const auto first = exhibit.languages.begin();
      if (is_known &&
          std::find(first, first + static_cast<long>(k), code) == first + static_cast<long>(k))
        continue;
      reader_.add(root.find("languages")->items[k], "languages",
                  is_known ? "it is there twice" : "the program does not speak it", listed(known),
                  "write codes of those, each once");
    }
  }

  void read_screen(const YamlNode& root, Screen& screen) {
    const YamlNode* node = root.find("screen");
    if (node == nullptr || !reader_.is_map(*node, "screen", "{width: 477 mm, distance: 600 mm}"))
      return;
    reader_.check_keys(*node, "a screen", {"width", "distance", "layout"});
    if (const YamlNode* width = node->find("width"))
      steps_.read_number(*width, quantity_field("width", "m", 0.1, 5, ""), screen.width_m);
    if (const YamlNode* distance = node->find("distance"))
      steps_.read_number(*distance, quantity_field("distance", "m", 0.3, 5, ""), screen.distance_m);
    screen.low = reader_.word_of(*node, "layout", "layout", {"usual", "low"}) == 1;
  }

  void read_sound_and_idle(const YamlNode& root, Exhibit& exhibit) {
    if (const YamlNode* sound = root.find("sound");
        sound != nullptr && reader_.is_map(*sound, "sound", "{volume: 60 %, most: 80 %}")) {
      reader_.check_keys(*sound, "sound", {"volume", "most"});
      if (const YamlNode* most = sound->find("most"))
        steps_.read_number(*most, quantity_field("most", "1", 0, 1, ""), exhibit.most_volume);
      if (const YamlNode* volume = sound->find("volume"))
        steps_.read_number(*volume, quantity_field("volume", "1", 0, 1, ""), exhibit.volume);
      if (exhibit.volume > exhibit.most_volume)
        reader_.add(*sound, "sound", "it is louder than it may be", "volume no more than most",
                    "lower volume, or raise most");
    }
    if (const YamlNode* idle = root.find("idle");
        idle != nullptr &&
        reader_.is_map(*idle, "idle", "{ask_after: 50 s, answer_within: 18 s}")) {
      reader_.check_keys(*idle, "idle", {"ask_after", "answer_within"});
      if (const YamlNode* ask = idle->find("ask_after"))
        steps_.read_number(*ask, quantity_field("ask_after", "s", 20, 600, ""),
                           exhibit.ask_after_s);
      if (const YamlNode* within = idle->find("answer_within"))
        steps_.read_number(*within, quantity_field("answer_within", "s", 10, 120, ""),
                           exhibit.answer_within_s);
    }
  }

  void read_staff(const YamlNode& node, StaffDoor& staff) {
    if (!reader_.is_map(node, "staff", "{corner: upper left, hold: 5 s, pin: \"$argon2id...\"}"))
      return;
    reader_.check_keys(node, "staff", {"corner", "hold", "pin", "keys"});
    const auto corner = reader_.word_of(node, "corner", "corner",
                                        {"upper left", "upper right", "lower left", "lower right"});
    if (corner) staff.corner = static_cast<StaffDoor::Corner>(*corner);
    if (const YamlNode* hold = node.find("hold"))
      steps_.read_number(*hold, quantity_field("hold", "s", 2, 30, ""), staff.hold_s);
    staff.pin = reader_.text(node, "pin", "pin", false);
    if (!staff.pin.empty() && staff.pin.rfind("$argon2", 0) != 0)
      reader_.add(*node.find("pin"), "pin", "this is no hashed PIN", "what --make-pin prints",
                  "run sixtybeats-bench --make-pin, and put its line here");
    const std::string keys = reader_.text(node, "keys", "keys", false);
    staff.keys = read_chord(keys);
    if (!keys.empty() && !staff.keys)
      reader_.add(*node.find("keys"), "keys", "these are no keys", "Ctrl+Alt+F9",
                  "write Ctrl, Alt or Shift, and one of A to Z or F1 to F12");
  }

  void read_story(const YamlNode& root, Exhibit& exhibit) {
    const YamlNode* story = reader_.required(root, root, "story", "exhibit", "story: [...]");
    if (story == nullptr || !is_some(*story, "story", 1, kMostTakes)) return;
    for (const YamlNode& node : story->items) {
      exhibit.story.push_back(takes_.read(node, TakeReader::Of::kStory));
      add_readings(exhibit.story.back().text, exhibit.readings);
    }
  }

  void read_things(const YamlNode& root, Exhibit& exhibit) {
    const YamlNode* things = reader_.required(root, root, "things", "exhibit", "things: [...]");
    if (things == nullptr || !is_some(*things, "things", kLeastThings, kMostThings)) return;
    for (const YamlNode& node : things->items) exhibit.things.push_back(read_thing(node));
    for (const Thing& thing : exhibit.things) {
      for (const Case& one : thing.cases) {
        add_readings(one.first.text, exhibit.readings);
        add_readings(one.first.answer, exhibit.readings);
        for (const Take& hand : one.hands) {
          add_readings(hand.text, exhibit.readings);
          add_readings(hand.answer, exhibit.readings);
        }
      }
    }
  }

  Thing read_thing(const YamlNode& node) {
    Thing thing;
    if (!reader_.is_map(node, "thing", "name: ring, title: {en: words}, first: {...}"))
      return thing;
    reader_.check_keys(node, "a thing", {"name", "title", "icon", "first", "hands", "cases"});
    thing.name = reader_.text(node, "name", "name", true);
    if (const auto* title = reader_.required(node, node, "title", "thing", "title: {en: words}"))
      thing.title = steps_.read_sayings(*title, "title");
    if (const YamlNode* icon = node.find("icon"))
      if (reader_.is_scalar(*icon, "icon", "the name of a part"))
        thing.icon = steps_.part_of(*icon, "icon", icon->scalar);
    const YamlNode* cases = node.find("cases");
    if (cases == nullptr) {
      if (reader_.required(node, node, "first", "thing", "first: {at: Mon 08:44, ...}") != nullptr)
        thing.cases.push_back(read_case(node, TakeReader::Of::kHand));
      return thing;
    }
    if (!is_some(*cases, "cases", 1, kMostTakes)) return thing;
    for (const YamlNode& one : cases->items) {
      if (!reader_.is_map(one, "case", "{first: {...}, hands: [...]}")) continue;
      reader_.check_keys(one, "a case", {"first", "hands"});
      if (reader_.required(one, one, "first", "case", "first: {at: Mon 08:44, ...}") == nullptr)
        continue;
      thing.cases.push_back(read_case(one, TakeReader::Of::kGuess));
      const auto& hands = thing.cases.back().hands;
      if (std::count_if(hands.begin(), hands.end(), [](const Take& t) { return t.right; }) != 1)
        reader_.add(one, "case", "there is not one right guess", "one hand with right: yes",
                    "mark it");
    }
    return thing;
  }

  Case read_case(const YamlNode& node, TakeReader::Of of) {
    constexpr std::size_t kMostHands = 3;
    Case one{takes_.read(*node.find("first"), TakeReader::Of::kFirst), {}};
    const YamlNode* hands = node.find("hands");
    if (hands == nullptr || !is_some(*hands, "hands", 1, kMostHands)) return one;
    // What was the matter in the first is so in what follows it.
    const bool goes_on = of == TakeReader::Of::kGuess;
    for (const YamlNode& hand : hands->items)
      one.hands.push_back(takes_.read(hand, of, goes_on ? one.first.deeds : std::vector<Action>{}));
    return one;
  }

  bool is_some(const YamlNode& node, const std::string& label, std::size_t least,
               std::size_t most) {
    if (!reader_.is_list(node, label, label + ": [...]")) return false;
    if (node.items.size() >= least && node.items.size() <= most) return true;
    reader_.add(node, label, "there cannot be so many",
                "from " + std::to_string(least) + " to " + std::to_string(most),
                "leave out what is too much, or write one");
    return false;
  }

  /// What counts name is named once.
  void check_names(const YamlNode& root, const Exhibit& exhibit) {
    std::set<std::string> names;
    const auto add = [&](const std::string& name) {
      if (!name.empty() && !names.insert(name).second)
        reader_.add(root, "name", "\"" + name + "\" is there twice", "each name once",
                    "rename one of them: use is counted by them");
    };
    for (const Take* take : takes_of(exhibit)) add(take->name);
    for (const Thing& thing : exhibit.things) add(thing.name);
  }

  TakeReader takes_;
  StepReader& steps_;
  TreeReader& reader_;
};

Opened read_exhibit(const YamlNode& root, const std::string& path, const Registry& registry,
                    Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.list().size();
  Mistakes mistakes(diagnostics);
  TreeReader reader(path, mistakes);
  const std::string name = reader.text(root, "scene", "scene", true);
  if (name.empty()) return {};
  const std::string file = scene_beside(path, name);
  if (file.empty()) {
    reader.add(*root.find("scene"), "scene", "there is no such scene",
               "a scene beside the exhibit or one folder up",
               "correct the name, or put the exhibit into a folder beside its scene");
    return {};
  }
  SceneChanges changes;
  changes.set = reader.texts(root, "set", "set");
  const auto installation = load_scene(file, registry, changes, diagnostics);
  if (installation == nullptr) return {};
  auto exhibit = std::make_shared<Exhibit>();
  exhibit->file = path;
  exhibit->scene = file;
  ExhibitReader(path, *installation, registry, mistakes).read(root, *exhibit);
  if (diagnostics.list().size() != before) return {};
  return {installation, exhibit};
}

}  // namespace

bool Thing::is_hunt() const {
  return !cases.empty() && std::any_of(cases.front().hands.begin(), cases.front().hands.end(),
                                       [](const Take& take) { return take.right; });
}

std::optional<Chord> read_chord(const std::string& text) {
  Chord chord;
  std::vector<std::string> pieces = pieces_of(text, '+');
  chord.key = pieces.back();
  pieces.pop_back();
  for (const std::string& piece : pieces) {
    bool* held = piece == "Ctrl"    ? &chord.control
                 : piece == "Alt"   ? &chord.alt
                 : piece == "Shift" ? &chord.shift
                                    : nullptr;
    if (held == nullptr) return std::nullopt;
    *held = true;
  }
  static const std::vector<std::string> kFunctions = {"F1", "F2", "F3", "F4",  "F5",  "F6",
                                                      "F7", "F8", "F9", "F10", "F11", "F12"};
  const bool is_capital = chord.key.size() == 1 && chord.key[0] >= 'A' && chord.key[0] <= 'Z';
  const bool is_function =
      std::find(kFunctions.begin(), kFunctions.end(), chord.key) != kFunctions.end();
  // One key alone is pressed by chance.
  if (pieces.empty() || !(is_capital || is_function)) return std::nullopt;
  return chord;
}

bool is_exhibit(const YamlNode& root) { return root.find("exhibit") != nullptr; }

void check_exhibit(const YamlNode& root, const std::string& path, const Registry& registry,
                   Diagnostics& diagnostics) {
  const Opened opened = read_exhibit(root, path, registry, diagnostics);
  if (opened.exhibit == nullptr) return;
  for (const Flaw& flaw : flaws_of(opened)) {
    Diagnostic mistake;
    mistake.file = path;
    mistake.line = flaw.take->line;
    mistake.column = 1;
    mistake.what = flaw.take->name + ": the run does not bear it out";
    mistake.found = flaw.what;
    mistake.expected = "what it proves, and a number for each of its facts";
    mistake.mend = "put the run right, or its words";
    diagnostics.add(mistake);
  }
}

Opened open_exhibit(const std::string& path, const Registry& registry, Diagnostics& diagnostics) {
  const auto root = read_yaml(path, diagnostics);
  return root ? read_exhibit(*root, path, registry, diagnostics) : Opened{};
}

TimeZone zone_of(const Exhibit& exhibit) {
  std::string error;
  return TimeZone::find(exhibit.zone, error).value_or(TimeZone{});
}

std::vector<const Take*> takes_of(const Exhibit& exhibit) {
  std::vector<const Take*> takes;
  for (const Take& take : exhibit.story) takes.push_back(&take);
  for (const Thing& thing : exhibit.things) {
    for (const Case& one : thing.cases) {
      takes.push_back(&one.first);
      for (const Take& hand : one.hands) takes.push_back(&hand);
    }
  }
  return takes;
}

}  // namespace sixty::exhibit
