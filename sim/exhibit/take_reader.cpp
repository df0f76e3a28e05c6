#include "sim/exhibit/take_reader.hpp"

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/scene/values.hpp"

namespace sixty::exhibit {
namespace {

constexpr const char* kExample = "text: {en: words}, at: Mon 08:44, to: Mon 08:46, view: case";

std::vector<std::string> keys_of(TakeReader::Of of) {
  std::vector<std::string> keys = keys_of_stop();
  keys.insert(keys.end(), {"name", "at", "to", "for", "facts", "proves", "answer"});
  if (of == TakeReader::Of::kStory) keys.push_back("live");
  if (of == TakeReader::Of::kHand || of == TakeReader::Of::kGuess) keys.push_back("button");
  if (of == TakeReader::Of::kGuess) keys.push_back("right");
  return keys;
}

bool is_earlier(const Action& a, const Action& b) { return a.at < b.at; }

/// The words of the longest sentence.
std::size_t longest_sentence(const Saying& saying) {
  std::size_t most = 0, now = 0;
  for (const Saying::Piece& piece : saying.pieces) {
    bool within = false;
    for (const char c : piece.words) {
      const bool is_word = c != ' ' && c != '\n';
      now += is_word && !within ? 1 : 0;
      within = is_word;
      most = std::max(most, now);
      if (c == '.' || c == '!' || c == '?') now = 0;
    }
    if (piece.number || piece.reading) ++now;
    most = std::max(most, now);
  }
  return most;
}

}  // namespace

Sayings TakeReader::words(const YamlNode& node, const char* key, bool needed,
                          const std::vector<NamedNumber>& numbers) {
  const YamlNode* found =
      needed ? reader_.required(node, node, key, "a piece", std::string(key) + ": {en: words}")
             : node.find(key);
  if (found == nullptr) return {};
  Sayings sayings = steps_.read_sayings(*found, key, numbers);
  check_lengths(*found, sayings, key);
  return sayings;
}

/// Who stands reads no long sentence. Source: Smithsonian guidelines for accessible exhibition
/// design, 25 words at the most.
void TakeReader::check_lengths(const YamlNode& node, const Sayings& sayings,
                               const std::string& label) {
  constexpr std::size_t kMostWords = 25;
  for (const auto& [language, saying] : sayings) {
    const std::size_t most = longest_sentence(saying);
    if (most <= kMostWords) continue;
    reader_.add(node, label + " (" + language + ")",
                "a sentence has " + std::to_string(most) + " words", "25 at the most",
                "make two sentences of it");
  }
}

void TakeReader::read_facts(const YamlNode& node, Take& take, std::vector<NamedNumber>& numbers) {
  const YamlNode* facts = node.find("facts");
  if (facts == nullptr) return;
  if (!reader_.is_map(*facts, "facts", "facts: {NAME: {reading: PART.READING}}")) return;
  for (const auto& [key, value] : facts->entries) {
    reader_.check_name(key, "fact");
    if (!reader_.is_map(value, key.scalar, "{reading: PART.READING, take: most}")) continue;
    reader_.check_keys(value, "a fact", lesson::keys_of_fact());
    const auto fact = lesson::read_fact(value, installation_, reader_);
    if (!fact) continue;
    take.facts.push_back({key.scalar, *fact, {}, {}});
    numbers.push_back({key.scalar, fact->unit});
  }
}

/// When it is, what is done, and what is so then.
void TakeReader::read_run(const YamlNode& node, const std::vector<Action>& before, Take& take) {
  if (const auto* at = reader_.required(node, node, "at", "a piece", "at: Mon 08:44:50"))
    take.at = steps_.read_time(*at, "at").value_or(0);
  if (const auto* to = reader_.required(node, node, "to", "a piece", "to: Mon 08:45:40")) {
    const std::optional<SimTime> until = steps_.read_time(*to, "to");
    take.to = until.value_or(take.at);
    if (until && *until <= take.at)
      reader_.add(*to, "to", "it ends before it begins", "a time behind `at`",
                  "put it later, or `at` earlier");
  }
  take.deeds = before;
  for (Action& deed : steps_.read_deeds(node)) take.deeds.push_back(std::move(deed));
  take.log = installation_.script;
  take.log.insert(take.log.end(), take.deeds.begin(), take.deeds.end());
  std::stable_sort(take.log.begin(), take.log.end(), is_earlier);
  if (const YamlNode* proves = node.find("proves"))
    take.proves = lesson::read_conditions(*proves, "proves", installation_, reader_);
}

Take TakeReader::read(const YamlNode& node, Of of, const std::vector<Action>& before) {
  Take take;
  take.line = node.line;
  if (!reader_.is_map(node, "piece", kExample)) return take;
  reader_.check_keys(node, "such a piece", keys_of(of));
  std::vector<NamedNumber> numbers;
  read_facts(node, take, numbers);
  steps_.read_stop(node, take);
  take.name = reader_.text(node, "name", "name", true);
  take.text = words(node, "text", true, numbers);
  take.answer = words(node, "answer", of == Of::kHand || of == Of::kGuess, numbers);
  if (of == Of::kHand || of == Of::kGuess) take.button = words(node, "button", true, numbers);
  take.right = of == Of::kGuess && reader_.says_yes(node, "right", "right");
  take.live = of == Of::kStory && reader_.says_yes(node, "live", "live");
  if (const YamlNode* lasts = node.find("for"))
    steps_.read_number(*lasts, quantity_field("for", "s", 1, 600, ""), take.least_s);
  if (!take.live) {
    read_run(node, before, take);
  } else if (node.find("at") != nullptr || node.find("do") != nullptr ||
             node.find("fault") != nullptr) {
    reader_.add(node, "live", "what is live has no time and no deeds of its own",
                "live: yes with text, view, light and for", "leave the others out");
  }
  return take;
}

}  // namespace sixty::exhibit
