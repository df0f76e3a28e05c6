#include "sim/lesson/reader.hpp"

#include <algorithm>
#include <set>

#include "sim/explain/question.hpp"
#include "sim/lesson/figures.hpp"
#include "sim/scene/values.hpp"

namespace sixty::lesson {
namespace {

constexpr std::size_t kMostSteps = 100;
constexpr const char* kHead = "lesson: {en: TITLE}, scene: NAME, steps: [...]";
constexpr const char* kStep = "name: WORD, and one of show, ask, task, explain: {en: words}";

/// Words that make a step what it is, in the order of Step::Kind.
const std::vector<std::string> kKinds = {"show", "ask", "task", "explain"};

const std::vector<std::string> kOfAll = {"name", "at",   "to",  "after", "hints",  "proves",
                                         "go",   "show", "ask", "task",  "explain"};
const std::vector<std::string> kOfKind[] = {{},
                                            {"choices", "number", "within", "unit", "parts",
                                             "order", "right", "wrong", "if_right", "if_wrong"},
                                            {"goal", "only", "keeps", "right", "model"},
                                            {"why"}};

bool holds_number(const Sayings& sayings) {
  for (const auto& [language, saying] : sayings) {
    for (const Saying::Piece& piece : saying.pieces)
      if (piece.number || piece.reading) return true;
  }
  return false;
}

bool holds_numbers(const Step& step) {
  const std::vector<const Sayings*> all = words_of(step);
  return std::any_of(all.begin(), all.end(), [](const Sayings* s) { return holds_number(*s); });
}

}  // namespace

Sayings LessonReader::words(const YamlNode& node, const std::string& label) {
  return steps_.read_sayings(node, label, numbers_);
}

Sayings LessonReader::words_of(const YamlNode& map, const char* key) {
  const YamlNode* node = map.find(key);
  return node == nullptr ? Sayings{} : words(*node, key);
}

std::string LessonReader::text_of(const YamlNode& map, const char* key) {
  const YamlNode* node = map.find(key);
  if (node == nullptr || !reader_.is_scalar(*node, key, "a word")) return "";
  return node->scalar;
}

void LessonReader::read(const YamlNode& root, Lesson& lesson) {
  if (!reader_.is_map(root, "lesson", kHead)) return;
  reader_.check_keys(root, "a lesson",
                     {"lesson", "number", "topic", "scene", "minutes", "facts", "stated", "steps"});
  if (!steps_.is_of_scene(root, "lesson")) return;
  if (const YamlNode* facts = root.find("facts")) read_facts(*facts, lesson);
  read_head(root, lesson);
  if (const YamlNode* stated = root.find("stated")) read_stated(*stated, lesson);
  const YamlNode* steps = reader_.required(root, root, "steps", "lesson", "steps: [...]");
  if (steps == nullptr || !reader_.is_list(*steps, "steps", "steps: [...]")) return;
  if (steps->items.empty() || steps->items.size() > kMostSteps) {
    reader_.add(*steps, "steps", "a lesson cannot have so many", "from 1 to 100",
                "write at least one, and make two lessons of what is too much");
    return;
  }
  for (const YamlNode& node : steps->items) lesson.steps.push_back(read_step(node, lesson));
  check_steps(*steps, lesson);
  check_figures(root, lesson);
}

void LessonReader::read_head(const YamlNode& root, Lesson& lesson) {
  lesson.scene = installation_.name;
  if (const auto* title = reader_.required(root, root, "lesson", "lesson", "lesson: {en: TITLE}"))
    lesson.title = words(*title, "lesson");
  if (const auto* topic = reader_.required(root, root, "topic", "lesson", "topic: {en: WORDS}"))
    lesson.topic = words(*topic, "topic");
  double number = 0;
  if (const YamlNode* written = root.find("number"))
    steps_.read_number(*written, count_field("number", 1, 999, ""), number);
  lesson.number = static_cast<int>(number);
  if (const YamlNode* minutes = root.find("minutes"))
    steps_.read_number(*minutes, quantity_field("minutes", "1", 1, 120, ""), lesson.minutes);
}

void LessonReader::read_facts(const YamlNode& facts, Lesson& lesson) {
  if (!reader_.is_map(facts, "facts", "facts: {NAME: {reading: PART.READING}}")) return;
  for (const auto& [key, value] : facts.entries) {
    reader_.check_name(key, "fact");
    if (!reader_.is_map(value, key.scalar, "{reading: PART.READING, take: most}")) continue;
    std::vector<std::string> known = keys_of_fact();
    known.insert(known.end(), {"begin", "end"});
    reader_.check_keys(value, "a fact", known);
    const auto fact = read_fact(value, installation_, reader_);
    if (!fact) continue;
    NamedFact named{key.scalar, *fact, {}, {}};
    if (const YamlNode* begin = value.find("begin")) named.from = steps_.read_time(*begin, "begin");
    if (const YamlNode* end = value.find("end")) named.to = steps_.read_time(*end, "end");
    check_span(value, named.from, named.to);
    numbers_.push_back({named.name, fact->unit});
    lesson.facts.push_back(std::move(named));
  }
}

/// Both or neither, and in their order.
void LessonReader::check_span(const YamlNode& node, std::optional<SimTime> from,
                              std::optional<SimTime> to) {
  if (from.has_value() == to.has_value() && (!from || *from < *to)) return;
  reader_.add(node, "span", "it has not a beginning with an end behind it",
              "begin: TIME and end: TIME", "write both, the earlier one as begin");
}

void LessonReader::read_stated(const YamlNode& stated, Lesson& lesson) {
  if (!reader_.is_list(stated, "stated", "stated: [{words: WORDS, why: REASON}]")) return;
  for (const YamlNode& node : stated.items) {
    if (!reader_.is_map(node, "stated", "{words: WORDS, why: REASON}")) continue;
    Stated one;
    if (const auto* text = reader_.required(node, node, "words", "stated", "words: WORDS"))
      if (reader_.is_scalar(*text, "words", "a text")) one.words = text->scalar;
    one.why = text_of(node, "why");
    if (const YamlNode* so = node.find("so"))
      one.condition = read_condition(*so, installation_, reader_);
    std::optional<SimTime> from, to;
    if (const YamlNode* begin = node.find("begin")) from = steps_.read_time(*begin, "begin");
    if (const YamlNode* end = node.find("end")) to = steps_.read_time(*end, "end");
    check_span(node, from, to);
    one.span = {from.value_or(0), to.value_or(0)};
    if (one.condition && !to)
      reader_.add(node, "stated", "it does not say when it is so", "begin: TIME and end: TIME",
                  "write both");
    reader_.check_keys(node, "what is stated", {"words", "why", "so", "begin", "end"});
    if (one.why.empty() && !one.condition)
      reader_.add(node, "stated", "neither a reason nor a number of the run is behind it",
                  "why: REASON, or so: {a condition} with begin and end", "write one of them");
    lesson.stated.push_back(std::move(one));
  }
}

void LessonReader::read_when(const YamlNode& node, Step& step) {
  if (const YamlNode* at = node.find("at")) step.at = steps_.read_time(*at, "at");
  const YamlNode* to = node.find("to");
  if (to == nullptr) return;
  step.to = steps_.read_time(*to, "to");
  if (step.at && step.to && *step.to < *step.at)
    reader_.add(*to, "to", "this is before the step begins", "a time behind `at`",
                "put it later, or `at` earlier");
}

void LessonReader::read_words(const YamlNode& node, Step& step) {
  step.text = words_of(node, kKinds[static_cast<std::size_t>(step.kind)].c_str());
  step.after = words_of(node, "after");
  if (const YamlNode* hints = node.find("hints")) {
    if (reader_.is_list(*hints, "hints", "hints: [{en: words}]")) {
      for (const YamlNode& hint : hints->items) step.hints.push_back(words(hint, "hints"));
    }
  }
}

Step LessonReader::read_step(const YamlNode& node, Lesson& lesson) {
  Step step;
  step.line = node.line;
  if (!reader_.is_map(node, "step", kStep)) return step;
  std::vector<std::string> found;
  for (std::size_t k = 0; k < kKinds.size(); ++k) {
    if (node.find(kKinds[k]) == nullptr) continue;
    found.push_back(kKinds[k]);
    step.kind = static_cast<Step::Kind>(k);
  }
  if (found.size() != 1) {
    reader_.add(node, "step", "a step does one thing", "one of: " + listed(kKinds),
                "write one of these keys, with the words");
    return step;
  }
  std::vector<std::string> known = keys_of_stop();
  std::erase(known, "text");
  const auto& own = kOfKind[static_cast<std::size_t>(step.kind)];
  known.insert(known.end(), kOfAll.begin(), kOfAll.end());
  known.insert(known.end(), own.begin(), own.end());
  reader_.check_keys(node, "such a step", known);
  steps_.read_stop(node, step);
  step.name = text_of(node, "name");
  step.go = text_of(node, "go");
  read_when(node, step);
  read_words(node, step);
  step.deeds = steps_.read_deeds(node);
  if (const YamlNode* proves = node.find("proves"))
    step.proves = read_conditions(*proves, "proves", installation_, reader_);
  if (step.kind == Step::Kind::kAsk) read_question(node, step, lesson);
  if (step.kind == Step::Kind::kTask) read_task(node, step);
  if (step.kind == Step::Kind::kExplain) read_why(node, step);
  return step;
}

void LessonReader::read_why(const YamlNode& node, Step& step) {
  const auto* why = reader_.required(node, node, "why", "step", "why: KIND PART @ TIME");
  if (why == nullptr || !reader_.is_scalar(*why, "why", "KIND PART @ TIME")) return;
  const std::size_t before = mistakes_.count();
  const explain::Question question =
      explain::read_question(reader_.written(*why, "why"), installation_, mistakes_);
  if (question.at > StepReader::kLatest)
    steps_.refuse_late(*why, "why");
  else if (mistakes_.count() == before)
    step.why = question;
}

void LessonReader::check_steps(const YamlNode& steps, const Lesson& lesson) {
  std::set<std::string> names;
  for (std::size_t k = 0; k < lesson.steps.size(); ++k) {
    const Step& step = lesson.steps[k];
    const YamlNode& node = steps.items[k];
    if (!step.name.empty() && !names.insert(step.name).second)
      reader_.add(node, "step", "another step has the name " + step.name, "a name of its own",
                  "call one of them otherwise");
    if (k == 0 && !step.at)
      reader_.add(node, "step", "the first step must say when it is", "at: Mon 08:44:50",
                  "write at");
    check_when(node, step);
    check_goes(node, step.go, lesson);
    check_goes(node, step.question.if_right, lesson);
    check_goes(node, step.question.if_wrong, lesson);
    for (const Choice& choice : step.question.choices) check_goes(node, choice.go, lesson);
  }
  check_ends(steps, lesson);
}

void LessonReader::check_when(const YamlNode& node, const Step& step) {
  const bool asks = step.kind == Step::Kind::kAsk, proves = !step.proves.empty();
  const bool by_run = proves || (asks && step.question.kind != Question::Kind::kChoice);
  if (by_run && (!step.at || !step.to)) {
    reader_.add(node, "step",
                "what is right is found by a run, so its beginning and end must be known",
                "at: TIME and to: TIME", "write both");
    return;
  }
  const bool needs = asks || step.kind == Step::Kind::kTask || step.to || holds_numbers(step);
  if (needs && !step.at)
    reader_.add(node, "step",
                "it must say when it is: it asks, tells a number, or lets do something", "at: TIME",
                "write at");
}

void LessonReader::check_ends(const YamlNode& steps, const Lesson& lesson) {
  const std::size_t count = lesson.steps.size();
  std::vector<bool> ends(count + 1, false);
  ends[count] = true;
  const auto leads_on = [&](std::size_t k) {
    const Question& question = lesson.steps[k].question;
    std::vector<std::string> goes = {"", question.if_right, question.if_wrong};
    for (const Choice& choice : question.choices) goes.push_back(choice.go);
    return std::any_of(goes.begin(), goes.end(), [&](const std::string& go) {
      const std::size_t next = lesson.next_of(k, go);
      return next <= count && ends[next];
    });
  };
  for (bool more = true; more;) {
    more = false;
    for (std::size_t k = 0; k < count; ++k) {
      if (ends[k] || !leads_on(k)) continue;
      ends[k] = more = true;
    }
  }
  for (std::size_t k = 0; k < count; ++k) {
    if (ends[k]) continue;
    reader_.add(steps.items[k], "step", "nobody comes to the end from here",
                "a way that leads behind the last step", "correct go, if_right or if_wrong");
    return;
  }
}

void LessonReader::check_goes(const YamlNode& node, const std::string& go, const Lesson& lesson) {
  if (go.empty()) return;
  std::vector<std::string> names;
  for (const Step& step : lesson.steps) {
    if (!step.name.empty()) names.push_back(step.name);
    if (step.name == go) return;
  }
  mistakes_.add_unknown(reader_.place(node), "this lesson", "step", go, names);
}

void LessonReader::check_figures(const YamlNode& root, const Lesson& lesson) {
  for (const Figures& found : figures_in(root, lesson.stated)) {
    mistakes_.add({reader_.file(), found.line, found.column},
                  {"a number stands in the words that nothing proves", found.word,
                   "{FACT} or {PART.READING}, or these words among `stated`",
                   "let the run tell it, or write under stated: why it is so"});
  }
}

}  // namespace sixty::lesson
