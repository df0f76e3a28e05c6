#include "gui/bench/asker.hpp"

#include <algorithm>
#include <utility>

namespace sixty::gui {
namespace {

constexpr SimTime kAbout = 30 * kSecond;

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

Asker::Asker(std::shared_ptr<const Installation> installation,
             std::shared_ptr<const Installation> sound)
    : installation_(std::move(installation)),
      sound_(std::move(sound)),
      thread_([this] { loop(); }) {}

Asker::~Asker() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

void Asker::ask(explain::Question question, Log log) {
  const std::lock_guard lock(mutex_);
  question_ = Order{std::move(question), std::move(log), 0};
  told_.busy = true;
  changed_.notify_all();
}

void Asker::compare(Log log, SimTime until) {
  const std::lock_guard lock(mutex_);
  comparison_ = Order{std::nullopt, std::move(log), until};
  told_.busy = true;
  changed_.notify_all();
}

Asker::Told Asker::told() const {
  const std::lock_guard lock(mutex_);
  return told_;
}

void Asker::forget() {
  const std::lock_guard lock(mutex_);
  question_.reset();
  told_.headline.clear();
  told_.failure.clear();
  told_.links.clear();
}

void Asker::wait() const {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [this] { return !told_.busy; });
}

void Asker::loop() {
  std::unique_lock lock(mutex_);
  while (!ends_) {
    std::optional<Order> order = std::exchange(question_, std::nullopt);
    if (!order) order = std::exchange(comparison_, std::nullopt);
    if (!order) {
      told_.busy = false;
      changed_.notify_all();
      changed_.wait(lock);
      continue;
    }
    lock.unlock();
    follow(*order);
    lock.lock();
  }
}

void Asker::follow(const Order& order) {
  Session looked_at(installation_), sound(sound_);
  looked_at.replace_log(*order.log);
  Told told;
  try {
    if (order.question) {
      const explain::Answer answer = explain::answer_to(*order.question, looked_at, sound);
      told.headline = explain::headline(answer, *order.question, *installation_);
      told.links = answer.links;
    } else {
      told.first = explain::compare(looked_at, sound, order.until, true).first;
    }
  } catch (const RunFailure& stopped) {
    told.failure = stopped.what();
  }
  const std::lock_guard lock(mutex_);
  if (order.question) {
    told_.headline = std::move(told.headline);
    told_.links = std::move(told.links);
    told_.failure = std::move(told.failure);
  } else {
    told_.first = told.first;
    told_.compared_until = order.until;
  }
}

}  // namespace sixty::gui
