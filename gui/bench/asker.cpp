#include "gui/bench/asker.hpp"

#include <algorithm>
#include <utility>

namespace sixty::gui {
namespace {

constexpr SimTime kAbout = 30 * kSecond;
enum Number { kQuestion, kComparison };

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
  Session looked_at(installation_), sound(sound_);
  looked_at.replace_log(*log);
  try {
    deed(looked_at, sound);
  } catch (const RunFailure& stopped) {
    return stopped.what();
  }
  return "";
}

void Asker::ask(explain::Question question, Log log) {
  clerk_.give(kQuestion, [this, question = std::move(question), log = std::move(log)] {
    std::string headline;
    std::vector<explain::Link> links;
    std::string failure = run_both(log, [&](Session& looked_at, Session& sound) {
      explain::Answer answer = explain::answer_to(question, looked_at, sound);
      headline = explain::headline(answer, question, *installation_);
      links = std::move(answer.links);
    });
    const std::lock_guard lock(mutex_);
    told_.headline = std::move(headline);
    told_.links = std::move(links);
    told_.failure = std::move(failure);
  });
}

void Asker::compare(Log log, SimTime until) {
  clerk_.give(kComparison, [this, until, log = std::move(log)] {
    std::optional<explain::Difference> first;
    run_both(log, [&](Session& looked_at, Session& sound) {
      first = explain::compare(looked_at, sound, until, true).first;
    });
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
  clerk_.drop(kQuestion);
  const std::lock_guard lock(mutex_);
  told_.headline.clear();
  told_.failure.clear();
  told_.links.clear();
}

}  // namespace sixty::gui
