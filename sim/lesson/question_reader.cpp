#include <algorithm>

#include "sim/base/units.hpp"
#include "sim/lesson/reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty::lesson {
namespace {

constexpr std::size_t kMostAnswers = 8;
constexpr double kMostAsked = 1e12;

bool is_share(const std::string& text) { return text.find('%') != std::string::npos; }

}  // namespace

void LessonReader::read_question(const YamlNode& node, Step& step, const Lesson& lesson) {
  using Kind = Question::Kind;
  Question& question = step.question;
  const std::pair<const char*, Kind> ways[] = {{"choices", Kind::kChoice},
                                               {"number", Kind::kNumber},
                                               {"parts", Kind::kPart},
                                               {"order", Kind::kOrder}};
  const YamlNode* asked = nullptr;
  int many = 0;
  for (const auto& [key, kind] : ways) {
    const YamlNode* way = node.find(key);
    if (way == nullptr) continue;
    asked = way;
    question.kind = kind;
    ++many;
  }
  question.right = words_of(node, "right");
  question.wrong = words_of(node, "wrong");
  question.if_right = text_of(node, "if_right");
  question.if_wrong = text_of(node, "if_wrong");
  if (many != 1) {
    reader_.add(node, "ask", "it does not say how it is answered",
                "one of: choices, number, parts, order", "write one of these keys");
    return;
  }
  if (question.kind == Kind::kChoice) read_choices(*asked, step);
  if (question.kind == Kind::kNumber) read_number(node, question, lesson);
  if (question.kind == Kind::kPart) question.parts = some_parts(*asked, "parts");
  if (question.kind == Kind::kOrder) read_items(*asked, question);
}

/// At least one.
std::vector<PartId> LessonReader::some_parts(const YamlNode& node, const std::string& label) {
  const std::size_t before = mistakes_.count();
  std::vector<PartId> parts = steps_.read_parts(node, label);
  if (parts.empty() && mistakes_.count() == before)
    reader_.add(node, label, "no part is named", label + ": [NAME]", "name one at least");
  return parts;
}

void LessonReader::read_choices(const YamlNode& choices, Step& step) {
  if (!reader_.is_list(choices, "choices", "choices: [{text: {en: words}, right: yes}]")) return;
  std::ptrdiff_t right = 0;
  for (const YamlNode& node : choices.items) {
    Choice choice;
    if (!reader_.is_map(node, "choice", "text: {en: words}")) continue;
    reader_.check_keys(node, "a choice", {"text", "says", "right", "go"});
    if (const auto* text = reader_.required(node, node, "text", "choice", "text: {en: words}"))
      choice.text = words(*text, "text");
    choice.says = words_of(node, "says");
    choice.right = reader_.says_yes(node, "right", "choice");
    choice.go = text_of(node, "go");
    right += choice.right ? 1 : 0;
    step.question.choices.push_back(std::move(choice));
  }
  const std::size_t count = step.question.choices.size();
  if (count < 2 || count > kMostAnswers || right != 1)
    reader_.add(choices, "choices", "one of several must be right", "2 to 8, one with right: yes",
                "mark the one that is right");
}

void LessonReader::read_number(const YamlNode& node, Question& question, const Lesson& lesson) {
  const YamlNode& number = *node.find("number");
  if (!reader_.is_scalar(number, "number", "the name of a fact")) return;
  question.number = index_of(lesson.facts, number.scalar);
  if (question.number == lesson.facts.size()) {
    mistakes_.add_unknown(reader_.place(number), "this lesson", "fact", number.scalar,
                          names_of(lesson.facts));
    question.number = 0;
    return;
  }
  const std::string& unit = lesson.facts[question.number].fact.unit;
  question.unit = text_of(node, "unit");
  std::string error;
  if (!question.unit.empty() && !parse_quantity("1 " + question.unit, unit, error))
    reader_.add(*node.find("unit"), "unit", "it is not asked for in that", unit,
                "write a unit of the same kind");
  const auto* within = reader_.required(node, node, "within", "ask", "within: 10 %");
  if (within == nullptr || !reader_.is_scalar(*within, "within", "10 %, or a quantity")) return;
  question.by_share = is_share(within->scalar);
  const std::string si = question.by_share || unit.empty() ? "1" : unit;
  steps_.read_number(*within, quantity_field("within", si, 0, kMostAsked, ""), question.within);
}

void LessonReader::read_items(const YamlNode& items, Question& question) {
  if (!reader_.is_list(items, "order", "order: [{text: {en: words}, event: PART.KIND}]")) return;
  for (const YamlNode& node : items.items) {
    if (!reader_.is_map(node, "order", "text: {en: words}, event: PART.KIND")) continue;
    reader_.check_keys(node, "what is to be put in order", {"text", "event"});
    const auto* text = reader_.required(node, node, "text", "order", "text: {en: words}");
    const auto* event = reader_.required(node, node, "event", "order", "event: PART.KIND");
    if (text == nullptr || event == nullptr) continue;
    const auto happening = read_happening(*event, "event", installation_, reader_);
    if (!happening) continue;
    const auto is_it = [&](const Item& other) { return other.happening == *happening; };
    if (std::any_of(question.items.begin(), question.items.end(), is_it))
      reader_.add(*event, "event", "it stands there twice", "another event",
                  "leave one of them out");
    question.items.push_back({words(*text, "text"), *happening});
  }
  if (question.items.size() < 2 || question.items.size() > kMostAnswers)
    reader_.add(items, "order", "there must be some to be put in order", "2 to 8",
                "write more of them, or fewer");
}

void LessonReader::read_task(const YamlNode& node, Step& step) {
  Task& task = step.task;
  if (const auto* goal = reader_.required(node, node, "goal", "task", "goal: [a condition]"))
    task.goal = read_conditions(*goal, "goal", installation_, reader_);
  if (step.task.goal.empty())
    reader_.add(node, "goal", "there is nothing to be reached", "goal: [a condition]",
                "write one at least");
  if (const YamlNode* only = node.find("only")) task.only = some_parts(*only, "only");
  task.keeps = reader_.says_yes(node, "keeps", "task");
  task.right = words_of(node, "right");
  if (const auto* model =
          reader_.required(node, node, "model", "task", "model: {do: [...], done: TIME}"))
    read_model(*model, task);
  if (task.model_at < step.at.value_or(0))
    reader_.add(node, "model", "it is done before the step begins", "done: a time behind `at`",
                "put it later");
}

void LessonReader::read_model(const YamlNode& model, Task& task) {
  if (!reader_.is_map(model, "model", "do: [TIME PART.COMMAND], done: TIME")) return;
  reader_.check_keys(model, "a model answer", {"do", "done"});
  if (const auto* deeds = reader_.required(model, model, "do", "model", "do: [TIME PART.COMMAND]"))
    task.model = steps_.read_hands(*deeds);
  if (const auto* done = reader_.required(model, model, "done", "model", "done: TIME"))
    task.model_at = steps_.read_time(*done, "done").value_or(0);
}

}  // namespace sixty::lesson
