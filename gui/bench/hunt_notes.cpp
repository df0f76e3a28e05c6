#include "gui/bench/hunt_notes.hpp"

#include <utility>

#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

using namespace diagnose;

constexpr std::size_t kMostChanges = 1000;

}  // namespace

HuntNotes::Observations HuntNotes::all() const {
  Observations all;
  for (const Entry& entry : entries_)
    all.insert(all.end(), entry.observations.begin(), entry.observations.end());
  const auto known = known_.is_empty() ? nullptr : std::make_shared<const Beforehand>(known_);
  for (Observation& one : all) one.known = known;
  return all;
}

void HuntNotes::set_known(Beforehand known) {
  begin_change();
  known_ = std::move(known);
}

void HuntNotes::begin_change() {
  before_.push_back({entries_, known_});
  if (before_.size() > kMostChanges) before_.erase(before_.begin());
  ++version_;
}

void HuntNotes::add(Entry entry) {
  if (entry.observations.empty()) return;
  begin_change();
  entries_.push_back(std::move(entry));
}

void HuntNotes::add_each(const Observations& observations) {
  if (observations.empty()) return;
  begin_change();
  for (const Observation& one : observations) entries_.push_back({"", {one}});
}

void HuntNotes::take_out(std::size_t entry) {
  begin_change();
  entries_.erase(entries_.begin() + static_cast<std::ptrdiff_t>(entry));
}

void HuntNotes::replace(const Observations& observations) {
  begin_change();
  known_ = known_with(observations);
  entries_.clear();
  for (const Observation& one : observations) entries_.push_back({"", {one}});
}

void HuntNotes::undo() {
  if (before_.empty()) return;
  entries_ = std::move(before_.back().entries);
  known_ = std::move(before_.back().known);
  before_.pop_back();
  ++version_;
}

std::optional<Observation> observation_of(const HuntDraft& draft, const Hunter::Form& form,
                                          Diagnostics& mistakes) {
  // What would end the value in the file's own syntax is in no amount.
  if (draft.amount.find_first_of("{}[],:#\"'&*!|>@`\\\n") != std::string::npos) {
    Diagnostic mistake;
    mistake.what = "this is no amount";
    mistake.found = draft.amount;
    mistake.expected = "a number with its unit";
    mistake.mend = "write it like 5 min";
    mistakes.add(mistake);
    return std::nullopt;
  }
  std::string text = "observations: " + in_quotes(form.installation->name) +
                     "\nseen:\n  - {at: " + in_quotes(draft.told.place) +
                     ", sign: " + draft.told.sign;
  if (draft.answer != "yes") text += ", answer: " + draft.answer;
  if (draft.answer == "yes" && !draft.measure.empty())
    text += ", " + draft.measure + ": " + draft.amount;
  if (draft.only_some) text += ", some: yes";
  if (draft.checked) text += ", checked: yes";
  if (draft.span > 0) text += ", when: " + half_day_name(*form.installation, draft.span);
  text += "}\n";
  const auto root = parse_yaml(text, "what is filled in", mistakes);
  if (!root) return std::nullopt;
  Mistakes reading(mistakes);
  const auto all = read_observations(*root, "what is filled in", *form.installation, form.signs,
                                     form.watch, reading);
  if (!mistakes.empty() || all.size() != 1) return std::nullopt;
  return all.front();
}

std::optional<Beforehand> read_known(const std::string& text, const Hunter::Form& form,
                                     Diagnostics& mistakes) {
  if (text.empty()) return Beforehand{};
  const std::string place = "what is known";
  const auto root = parse_yaml(text, place, mistakes);
  if (!root) return std::nullopt;
  Mistakes reading(mistakes);
  TreeReader reader(place, reading);
  auto known = read_beforehand(*root->find("known"), *form.installation,
                               places_of(*form.installation), reader);
  if (!mistakes.empty()) return std::nullopt;
  return known;
}

std::string notes_text(const HuntNotes& notes, const Hunter::Form& form) {
  return observations_text(notes.all(), form.signs, form.installation->name, *form.installation);
}

std::optional<HuntNotes::Observations> read_notes(const std::string& path, const Hunter::Form& form,
                                                  Diagnostics& mistakes) {
  const auto root = read_yaml(path, mistakes);
  if (!root) return std::nullopt;
  Mistakes reading(mistakes);
  auto all = read_observations(*root, path, *form.installation, form.signs, form.watch, reading);
  if (!mistakes.empty()) return std::nullopt;
  return all;
}

}  // namespace sixty::gui
