#include "gui/bench/asker.hpp"

#include <algorithm>
#include <utility>

#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

constexpr SimTime kAbout = 30 * kSecond;
enum Number { kQuestion, kComparison };

/// Nobody wants the answer any more.
struct GivenUp {};

/// Kinds of events in which something begins at a part.
std::vector<std::string> beginnings(const Declaration& declared) {
  std::vector<std::string> kinds;
  const std::vector<std::string> all = declared.event_kinds();
  const auto take = [&](const std::string& kind) {
    const bool is_one = std::find(all.begin(), all.end(), kind) != all.end();
    if (is_one && std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
  };
  for (const auto& [word, kind] : declared.called_kinds) take(kind);
  for (const char* kind : {"starts", "makes", "melts"}) take(kind);
  for (const NamedDecl& input : declared.inputs) take(input.name);
  return kinds.empty() ? all : kinds;
}

}  // namespace

explain::Question question_about(const Installation& installation, PartId part, SimTime at,
                                 SimTime known) {
  explain::Question q;
  for (const std::string& kind : beginnings(installation.parts[part].kind->declaration))
    q.any.push_back({part, {kind}});
  q.at = at;
  q.from = std::max<SimTime>(at - kAbout, 0);
  q.to = std::max(std::min(at + kAbout, known), q.from);
  return q;
}

/// Runs are made anew for each question: only fresh ones can be asked. Returns why they ended
/// early; empty: they did not.
template <class Deed>
std::string Asker::run_both(const Log& log, const Deed& deed) const {
  const auto in_common = explain::session_options();
  Session looked_at(installation_, in_common), sound(sound_, in_common);
  looked_at.replace_log(*log);
  try {
    deed(looked_at, sound);
  } catch (const RunFailure& stopped) {
    return stopped.what();
  }
  return "";
}

Asker::~Asker() { ends_ = true; }

void Asker::ask(explain::Question question, Log log) {
  const std::uint64_t number = ++asked_;
  {
    const std::lock_guard lock(mutex_);
    told_.answers = true;
    told_.come.reset();
    told_.goes_to = question.to;
  }
  clerk_.give(kQuestion, [this, number, question = std::move(question), log = std::move(log)] {
    answer(question, log, number);
  });
}

void Asker::answer(const explain::Question& question, const Log& log, std::uint64_t number) {
  std::string headline;
  std::vector<explain::Link> links;
  const auto has_come = [&](SimTime to) {
    if (ends_ || number != asked_) throw GivenUp{};
    const std::lock_guard lock(mutex_);
    told_.come = to;
  };
  std::string failure;
  try {
    failure = run_both(log, [&](Session& looked_at, Session& sound) {
      explain::Answer answer = explain::answer_to(question, looked_at, sound, has_come);
      headline = explain::headline(answer, question, *installation_);
      links = std::move(answer.links);
    });
  } catch (const GivenUp&) {
    return;
  }
  const std::lock_guard lock(mutex_);
  if (number != asked_) return;
  told_.answers = false;
  told_.headline = words_of_key(headline);
  told_.links = std::move(links);
  for (explain::Link& link : told_.links) link.text = words_of_key(link.text);
  told_.failure = std::move(failure);
}

void Asker::compare(Log log, SimTime until) {
  clerk_.give(kComparison, [this, until, log = std::move(log)] {
    std::optional<explain::Difference> first;
    const auto has_come = [this](SimTime) {
      if (ends_) throw GivenUp{};
    };
    try {
      run_both(log, [&](Session& looked_at, Session& sound) {
        first = explain::compare(looked_at, sound, until, true, has_come).first;
      });
    } catch (const GivenUp&) {
      return;
    }
    const std::lock_guard lock(mutex_);
    told_.first = first;
  });
}

Asker::Told Asker::told() const {
  const bool busy = clerk_.is_busy();
  const std::lock_guard lock(mutex_);
  Told told = told_;
  told.busy = busy;
  return told;
}

void Asker::forget() {
  ++asked_;
  clerk_.drop(kQuestion);
  const std::lock_guard lock(mutex_);
  told_.answers = false;
  told_.headline.clear();
  told_.failure.clear();
  told_.links.clear();
}

}  // namespace sixty::gui
